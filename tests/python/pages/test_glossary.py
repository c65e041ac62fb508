"""The glossary: a term of art in a public signature has one entry, and an entry its place in the code."""

import inspect
import re
from pathlib import Path

import pytest
from public_calls import MODULES, parameters_of

import libcook as lc

ROOT = Path(__file__).resolve().parents[3]
ENTRY = re.compile(r"^(?P<term>[^:#\n]+): (?P<names>`[^\n]+)\n: (?P<words>.+)$", re.M)

# What is meant as it is said every day, or in any Python library.
EVERYDAY = frozenset(
    """
    a area at ax b bottom column cooker cooks count date delimiter diameter done duration earliest ended
    events every facing fan field fields first fit folder how indent kind length limit lines load log mass
    max_iterations meat message n name note outcome outcomes parameters path plan plans position progress q
    reason room seed serve solver_seconds source start start_clock summary surface_temperature t
    temperature text theme thickness threads time time_of_day times timezone to top unit units value velocity
    what width workers x y z pit choose rules sheet skip tries want
    ahead celsius curves days digits fahrenheit figure frames high kelvin kilograms levels low marker place
    seconds symbol title usual values within xlabel xlim ylabel ylim
    """.split()
)


def things():
    for name in lc.__all__:
        if name != "physics":
            yield name, getattr(lc, name)
    for room in MODULES:
        for name in getattr(lc, room).__all__:
            yield name, getattr(getattr(lc, room), name)


def signatures():
    """Owner and name of every parameter of what is public, fields of records included."""
    found = set()
    for name, thing in things():
        if not callable(thing):
            continue
        if not inspect.isclass(thing):
            found |= {(name, p.name) for p in parameters_of(None, name, thing) if not p.variadic}
            continue
        made_by = {*getattr(thing, "_fields", ()), *_constructor(thing)}
        found |= {(name, parameter) for parameter in made_by}
        for member, function in inspect.getmembers(thing, callable):
            if member.startswith("_") or member in dir(tuple):
                continue
            found |= {(name, p.name) for p in parameters_of(thing, member, function) if not p.variadic}
    return found


def _constructor(thing):
    """Parameters of a class written in Python; of one of the extension the fields tell."""
    try:
        listed = inspect.signature(thing).parameters.values()
    except ValueError:
        return []
    return [one.name for one in listed if one.kind not in (one.VAR_KEYWORD, one.VAR_POSITIONAL)]


def public_names():
    """Every public name, attribute and parameter; those of a class also behind its name."""
    found = {name for _, name in signatures()} | {f"{owner}.{name}" for owner, name in signatures()}
    for name, thing in things():
        found.add(name)
        if inspect.isclass(thing):
            members = [member for member in dir(thing) if not member.startswith("_")]
            found |= {*members, *(f"{name}.{member}" for member in members)}
    return found


def entries(text):
    return {
        found["term"]: (re.findall(r"`([\w.]+)`", found["names"]), found["words"])
        for found in ENTRY.finditer(text)
    }


TEXT = (ROOT / "python" / "docs" / "glossary.md").read_text(encoding="utf-8")
ENTRIES = entries(TEXT)
PUBLIC = public_names()
NAMES = {name: term for term, (names, _) in ENTRIES.items() for name in names}


def missing(names, pairs):
    """Parameters that are neither everyday words nor in an entry."""
    return {
        f"{owner}.{name}"
        for owner, name in pairs
        if name not in EVERYDAY and name not in names and f"{owner}.{name}" not in names
    }


def test_every_term_of_a_signature_has_an_entry():
    pairs = signatures()
    assert len(pairs) > 400
    assert missing(NAMES, pairs) == set()


def test_a_term_without_an_entry_is_found():
    left = {name: term for name, term in NAMES.items() if name != "film_coefficient"}
    assert missing(left, signatures()) == {"wet_surface.film_coefficient"}


def test_a_word_has_one_meaning():
    assert len(ENTRIES) == TEXT.count("\n: ") == len(re.findall(r"^: ", TEXT, re.M)) > 50
    listed = [name for names, _ in ENTRIES.values() for name in names]
    assert len(listed) == len(set(listed)), sorted(name for name in listed if listed.count(name) > 1)


@pytest.mark.parametrize("term", ENTRIES)
def test_an_entry_occurs_in_the_code(term):
    names, words = ENTRIES[term]
    assert names and words.endswith(".")
    assert set(names) <= PUBLIC, sorted(set(names) - PUBLIC)


def test_everyday_words_are_used_and_in_no_entry():
    used = {name for _, name in signatures()}
    assert EVERYDAY <= used, sorted(EVERYDAY - used)
    assert EVERYDAY.isdisjoint(NAMES)
