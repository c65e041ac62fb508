"""Every argument of everything public is given every kind of wrong value: it answers in a cook's words.

That is an `InvalidInput` that names the argument, in a message of reasonable length, or a value that really
is a right one. What is accepted is listed in `ACCEPTED`, each line with its reason.
"""

import re

import matplotlib
import matplotlib.pyplot as plt
import pytest
from public_calls import public_calls
from wrong_values import KINDS

import libcook as lc

matplotlib.use("Agg")

LONGEST = 1200  # characters of a message: what came is cut at 200

NUMBERS = {"0", "-1", "-1.5", "10**18", "1e308", "-1e308", "5e-324"}
TRUTH = {"True", "False", "NumPy's True"}
EMPTY = {"an empty list", "an empty tuple", "an empty array"}
LISTS = {"a list of numbers"}
ARRAYS = EMPTY | LISTS | {"a matrix"}
MISSING = {"nan", "inf", "-inf", "NumPy's nan", "a list of None", "a long list", "an array of nan"}
NAMES_OF_FILES = {
    "a path", "a word", "a digit", "text of a nan", "text of 1e400", "a unit alone", "the wrong unit",
    "lines", "braces",
}  # fmt: skip
WORDS = (NAMES_OF_FILES - {"a path"}) | {
    "empty text", "a blank", "text of 10**5000", "a long text", "a long number", "long units", "NUL",
}  # fmt: skip
MAPPINGS = {"a counter", "a dict of None", "a dict of text", "an empty dict"}

# (declared type, call, kinds, why); the first two are patterns that match from the start to the end.
ACCEPTED = [
    (r".*\bNone\b.*", r".*", {"None"}, "the signature says that None may come"),
    # What is out of range is refused where its limits are known: by the call, and then it is not accepted
    # here, or by the plan that the object goes into.
    (r".*\b(Quantity|Course|float|int)\b.*", r".*", NUMBERS, "a finite number is of the declared type"),
    (r"Any|npt\.ArrayLike", r".*", NUMBERS, "a number is one of several things that it can be"),
    (r".*\bbool\b.*", r".*", TRUTH, "a truth value is of the declared type"),
    (
        r"str",
        r".*\((note|name|source|text|kind|column|reason|xlabel|ylabel|title)\)",
        WORDS,
        "any text is a name or a note",
    ),
    (r".*", r".*\(units\)", {"a unit alone"}, "°F is a scale"),
    (r"Quantity.*", r".*", {"a digit"}, "a share, which alone of all quantities has no unit"),
    (r"Quantity.*", r".*", {"the wrong unit"}, "a length: a furlong is one"),
    (r"npt\.ArrayLike", r"physics\..*", ARRAYS, "the physics takes arrays of any shape, empty ones too"),
    (r"Any", r"units\.\w+_to_\w+\(\w+\)", ARRAYS | MISSING, "what is missing is missing in any scale"),
    (r"str", r"units\.\w+\(field\)", set(KINDS), "only read when a message needs it, to name the value"),
    (r"str", r"Surroundings\.validate\(field\)", WORDS, "only names the field in messages"),
    (r"float \| None", r"units\.to_si\((low|high)\)", {"inf", "-inf"}, "no limit"),
    (r"PathName.*", r"Log\.to_\w+\(path\)|sweep\(to\)", NAMES_OF_FILES, "a name that a file can have"),
    (
        r".*",
        r".*\((until|lid|probes|free|events|traces|readings|plans|ends|at|thickness)\)",
        EMPTY,
        "none of them; where one is needed, the plan says so",
    ),
    (r".*", r".*\((physics|ended)\)", {"an empty dict"}, "nothing said"),
    (
        r"Any",
        r"(Pit|pit)\((film|radiant)\)",
        LISTS | {"None"},
        "a pair, for bottom and top; None: the default",
    ),
    (
        r".*",
        r".*\((xlim|ylim|levels|x|y|at|times|thickness|time|value)\)",
        LISTS,
        "it takes a list of numbers",
    ),
    (r".*", r"ProbeTrace\((temperature|tenderness)\)", ARRAYS | MISSING, "readings, some of them missing"),
    (r".*", r"Finding\((times|lines)\)", EMPTY | LISTS | NUMBERS, "the places that it concerns, none or one"),
    (r".*", r"(equations|simulate|simulate_many)\(output_every\)", {"None"}, "None: the solver's own"),
    (r"Any", r"Surroundings.*\(air_below\)", {"None"}, "None: as above"),
    (
        r".*",
        r"read_log\(units\)",
        {"an empty dict"},
        "columns and their scales: none is said",
    ),
    (r".*", r"read_log\(date\)", {"a date"}, "it is a date"),
    (r".*", r"sweep\(readings\)", {"an empty dict"}, "no readings are wanted"),
    (
        r".*",
        r"best_plan\((choose|want)\)",
        {"an empty list", "an empty tuple", "an empty dict"},
        "nothing may vary; nothing but the usual is wanted",
    ),
    (r".*", r"calibrate\(ended\)", {"a list of None"}, "one for each log, and None says nothing"),
    (r".*", r".*\(marker\)", {"empty text", "a blank"}, "no marker"),
]

# What else may be raised: not for the argument's type, but for what came of it. (call, kinds, error, why)
CALLED = {"a class", "a function", "a class of ours"}
EXCUSED = [
    (
        r"(sweep|best_plan)\(progress\)|simulate_many\(done\)",
        CALLED,
        Exception,
        "what the user's callable raises goes on",
    ),
    (
        r"Forecast\.what_if\(air\)",
        NUMBERS,
        lc.InvalidInput,
        "a pit of 0 °C is a pit; no cook gets done in it",
    ),
]

# Where the message calls an argument otherwise, as a cook would.
ALSO = {
    "End(value)": "core",
    "End.replace(value)": "core",
    "units.to_si(high)": "value",
    "read_log(source)": "delimiter",
}

CALLS = public_calls()
NAMES = sorted({call.name for call in CALLS})


def names_it(call, error):
    """Whether an error names the argument, or the call, as `core: '5 kg' is no temperature` does."""
    said = f"{error.field} {error}".lower()
    known = [call.argument, ALSO.get(str(call), call.argument), *re.split(r"[._ =]+", call.name)]
    return any(word and word.lower() in said for word in known)


def is_accepted(call, kind):
    if kind == "None" and call.optional:
        return True  # the default
    return any(
        kind in kinds and re.fullmatch(declared, call.declared or "Any") and re.fullmatch(where, str(call))
        for declared, where, kinds, _ in ACCEPTED
    )


def is_excused(call, kind, error):
    return any(
        kind in kinds and re.fullmatch(where, str(call)) and isinstance(error, kind_of)
        for where, kinds, kind_of, _ in EXCUSED
    )


def verdict(call, kind):
    """Say what is wrong with the answer to one value; empty if nothing is."""
    try:
        call.run(KINDS[kind]())
    except lc.InvalidInput as error:
        text = str(error)
        if is_excused(call, kind, error):
            return ""
        if not names_it(call, error):
            return f"does not name it: {text[:200]!r}"
        if len(text) > LONGEST or len(error.field) > LONGEST:
            return f"a message of {len(text)} characters: {text[:200]!r}"
        # the lines of a JSON text are shown in lines of their own
        return "" if text.replace("\n", "").isprintable() else f"cannot be printed: {text[:200]!r}"
    except Exception as error:
        return "" if is_excused(call, kind, error) else f"{type(error).__name__}: {str(error)[:200]!r}"
    return "" if is_accepted(call, kind) else "accepted"


def test_there_are_enough_of_them():
    assert len(KINDS) >= 40
    assert len(CALLS) * len(KINDS) > 18_474


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("name", NAMES)
def test_wrong_values_are_told_in_a_cooks_words(name, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    found = []
    for call in CALLS:
        if call.name == name:
            found += [f"{call}: {kind}: {said}" for kind in KINDS if (said := verdict(call, kind))]
            plt.close("all")
    assert not found, f"{len(found)} answers\n" + "\n".join(found[:40])
