"""Writes what is made from the lists of fields (libcook/include/cook/fields): the stub and the schema.

    python python/bindings/generate.py

The installed extension knows the lists; `_core.pyi.in` beside this file holds what is written by hand, with
``name -> type`` for what can only be read, and no constructor where only the library makes a thing. A test
compares both files with what this makes.
"""

from __future__ import annotations

import re
from pathlib import Path

from libcook import _core

HERE = Path(__file__).resolve().parent
STUB = HERE.parent / "libcook" / "_core.pyi"
SCHEMA = HERE.parents[1] / "libcook" / "schema" / "plan.schema.json"
MARK = "    # fields\n"
READ, PROPERTY = re.compile(r"^    (\w+) -> (.+)$", re.M), r"    @property\n    def \1(self) -> \2: ..."
HEAD = re.compile(r"^class \w+\(metaclass=pybind11_type\):\n(?!    # fields|    def __init__)", re.M)
UNMADE = r"\g<0>    def __init__(self, *args: Never, **kwargs: Never) -> None: ...\n"
WIDEST = 110


def stub() -> str:
    """Return the stub: the hand-written one with the fields of each class put in."""
    text = (HERE / "_core.pyi.in").read_text(encoding="utf-8")
    parts = READ.sub(PROPERTY, HEAD.sub(UNMADE, text)).split(MARK)
    made = parts[0]
    for part in parts[1:]:
        name = made[made.rindex("\nclass ") :].removeprefix("\nclass ").partition("(")[0]
        made += _fields(name) + part
    return made


def _fields(name: str) -> str:
    fields = _core.FIELDS[name]
    lines = ["_fields: ClassVar[tuple[str, ...]]", *_constructor({f: t.takes for f, t in fields.items()})]
    for field, told in fields.items():
        lines += ["@property", f"def {field}(self) -> {told.gives}: ..."]
        if not told.fixed:
            lines += [f"@{field}.setter", f"def {field}(self, value: {told.takes}, /) -> None: ..."]
    lines += [
        f"def replace(self, **changes: Any) -> {name}: ...",
        f"def __copy__(self) -> {name}: ...",
        f"def __deepcopy__(self, memo: dict[int, Any]) -> {name}: ...",
        "def __eq__(self, other: object, /) -> bool: ...",
        "__hash__: ClassVar[None]  # type: ignore[assignment]",
        "def __getstate__(self) -> tuple[int, dict[str, Any]]: ...",
        "def __setstate__(self, state: tuple[int, dict[str, Any]], /) -> None: ...",
    ]
    return "".join(f"    {line}\n" for line in lines)


def _constructor(takes: dict[str, str]) -> list[str]:
    """Write __init__ as the formatter does: on one line, its arguments on one, or one on each."""
    arguments = ["self", *(f"{name}: {kind} = ..." for name, kind in takes.items())]
    inside = ", ".join(arguments)
    if len(f"    def __init__({inside}) -> None: ...") <= WIDEST:
        return [f"def __init__({inside}) -> None: ..."]
    if len(f"        {inside}") <= WIDEST:
        return ["def __init__(", f"    {inside}", ") -> None: ..."]
    return ["def __init__(", *(f"    {one}," for one in arguments), ") -> None: ..."]


def schema() -> str:
    """Return the JSON Schema of a plan."""
    return _core.plan_schema()


def main() -> None:
    """Write both."""
    STUB.write_text(stub(), encoding="utf-8")
    SCHEMA.write_text(schema(), encoding="utf-8")


if __name__ == "__main__":
    main()
