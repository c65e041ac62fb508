"""Every public name says what it is, in which unit, and where its physics comes from."""

from __future__ import annotations

import doctest
import importlib
import inspect
import pkgutil
import re
from pathlib import Path

import pytest

import libcook as lc
from libcook import _core, charts, playground, plots, section_plots
from libcook.logs.events import KINDS
from libcook.readings.section_field import FIELDS
from libcook.sweeps.chunk import TRACES

ROOT = Path(__file__).resolve().parents[3]

UNIT = re.compile(r"\[(?:-|°C|K|Pa|s|m|kg|J|W|1/|log10|share)[^\]]*\]")
# a year, a handbook, or a law that needs none
SOURCE = re.compile(r"\b1[89]\d\d\b|\b20[0-2]\d\b|ASHRAE|Incropera|[Ii]deal gas|[Bb]y definition|FSIS|FDA")
# What a quantity may be given as; the docstring of such an argument says what a plain number means, unless
# the text form is spelt out.
SAYS_UNIT = re.compile(r"\[[^\]]+\]|plain number|``\"|such as|°C|date|text|seconds")
ROOMS = {"plots": plots, "charts": charts, "section_plots": section_plots, "playground": playground}


def public():
    for name in lc.__all__:
        yield name, getattr(lc, name)
    for room, module in ROOMS.items():
        for name in module.__all__:
            yield f"{room}.{name}", getattr(module, name)


MODULES = sorted(found.name for found in pkgutil.walk_packages(lc.__path__, "libcook."))


@pytest.mark.parametrize("name", MODULES)
def test_examples_give_what_they_say(name):
    flags = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE
    found = doctest.testmod(importlib.import_module(name), extraglobs={"lc": lc}, optionflags=flags)
    assert found.failed == 0


THINGS = dict(public())
FUNCTIONS = {n: t for n, t in THINGS.items() if inspect.isfunction(t)}
CLASSES = {n: t for n, t in THINGS.items() if inspect.isclass(t)}


def parameters_of(doc):
    """Read the Parameters section: name to its text."""
    found = re.search(r"^Parameters\n-+\n(.*?)(?=^\w[^\n]*\n-{3,}|\Z)", doc, re.S | re.M)
    entries, names = {}, []
    for line in (found[1] if found else "").splitlines():
        head = re.match(r"^([\w*, ]+?)(?: : (.*))?$", line)
        if head and not line.startswith(" ") and line.strip():
            names = [part.strip().lstrip("*") for part in head[1].split(",")]
            entries.update({name: head[2] or "" for name in names})
        else:
            for name in names:
                entries[name] += " " + line.strip()
    return entries


@pytest.mark.parametrize("name", THINGS)
def test_it_is_documented(name):
    doc = inspect.getdoc(THINGS[name]) or ""
    assert len(doc.split()) >= 4, name
    first = doc.strip().partition("\n\n")[0]
    assert first.endswith((".", ":", "]")), first


@pytest.mark.parametrize("name", FUNCTIONS)
def test_each_argument_is_described(name):
    thing = FUNCTIONS[name]
    doc = inspect.getdoc(thing)
    told = parameters_of(doc)
    for argument in inspect.signature(thing).parameters:
        if not told:  # a short one says it in a sentence
            assert argument.replace("_", " ") in doc, f"{name}({argument})"
            continue
        assert argument in told, f"{name}({argument})"
    for argument in told:
        assert argument in inspect.signature(thing).parameters, f"{name} has no {argument}"


# Where a docstring lists all words that an argument takes, and the list that the words come from.
LISTS = {
    ("pit", "kind"): _core.pit_kinds(),
    ("pit_air", "kind"): _core.chamber_kinds(),
    ("wrap", "name"): lc.wrap_names(),
    ("brisket", "fat"): _core.FAT_SIDES,
    ("sweep", "traces"): TRACES,
    ("section_plots.section_map", "what"): FIELDS,
    ("section_plots.animate", "what"): FIELDS,
}


@pytest.mark.parametrize(("name", "argument"), LISTS)
def test_words_listed_in_a_docstring_are_those_that_are_taken(name, argument):
    told = parameters_of(inspect.getdoc(FUNCTIONS[name]))[argument]
    assert sorted(re.findall(r'``"([^"]+)"``', told)) == sorted(LISTS[name, argument])


def test_kinds_of_events_are_all_listed():
    told = re.search(r"^kind : str\n(.*?)^\w", inspect.getdoc(lc.Event), re.S | re.M)[1]
    assert sorted(re.findall(r'``"([^"]+)"``', told)) == sorted(KINDS)


def test_every_kind_of_end_has_a_function_of_its_name():
    """And each of them is named where the front page and the site list the ends."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    named = re.search(r"the ends ((?:`lc\.\w+`,\s+)+`lc\.\w+`)", readme)[1]
    assert re.findall(r"lc\.(\w+)", named) == list(_core.END_KINDS)
    made = (lc.core(70.0), lc.cooled(60.0), lc.elapsed("1 h"), lc.clock("18:00"), lc.bark(), lc.tender())
    assert [end.kind for end in made] == list(_core.END_KINDS)
    for kind in _core.END_KINDS:
        assert getattr(lc, kind).__module__ == "libcook.ends"


@pytest.mark.parametrize("name", FUNCTIONS)
def test_each_quantity_says_its_unit(name):
    for argument, text in parameters_of(inspect.getdoc(FUNCTIONS[name])).items():
        kind = text.split("  ")[0]
        if re.search(r"\bfloat\b|Quantity", kind) and "of float" not in text:
            assert SAYS_UNIT.search(text), f"{name}({argument}): {text}"


@pytest.mark.parametrize("name", CLASSES)
def test_public_members_are_documented(name):
    for member, thing in vars(CLASSES[name]).items():
        if member.startswith("_") or not (callable(thing) or isinstance(thing, property)):
            continue
        if type(thing).__name__ == "pybind11_static_property":
            continue  # Python shows no docstring of it: the class tells
        assert inspect.getdoc(thing), f"{name}.{member}"


@pytest.mark.parametrize("name", lc.physics.__all__)
def test_physics_has_a_unit_and_a_source(name):
    thing = getattr(lc.physics, name)
    doc = inspect.getdoc(thing) or ""
    if inspect.isclass(thing):
        return  # what `wet_surface` gives; its members carry their units
    assert UNIT.search(doc), f"{name}: {doc}"
    assert SOURCE.search(doc), f"{name}: {doc}"


@pytest.mark.parametrize("row", lc.parameters(), ids=lambda row: row.name)
def test_each_default_has_a_unit_a_range_and_a_source(row):
    assert row.unit and row.low <= row.value <= row.high and row.source.strip()
