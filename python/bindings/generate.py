"""Writes what is made from the extension: its stub, from lists of fields and signatures, and the schema.

    python python/bindings/generate.py

Asked for them, the installed extension tells the signatures of all that it has; `_core.pyi.in` beside this
file holds what they do not say: what is read from any Python object, and what is handed out as one. A test
compares both files with what this makes.
"""

from __future__ import annotations

import ast
import inspect
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

from libcook import _core

HERE = Path(__file__).resolve().parent
STUB = HERE.parent / "libcook" / "_core.pyi"
SCHEMA = HERE.parents[1] / "libcook" / "schema" / "plan.schema.json"
WIDEST = 110
NOT_MADE = "def __init__(self, *args: Never, **kwargs: Never) -> None: ..."

# How the extension calls a type, and how the stub does; in this order.
TYPES = (
    (r"typing\.Annotated\[numpy\.typing\.ArrayLike, numpy\.float64\]", "npt.ArrayLike"),
    (r"numpy\.typing\.NDArray\[numpy\.int32\]", "npt.NDArray[np.int32]"),
    (r"numpy\.typing\.NDArray\[numpy\.float64\]|numpy\.ndarray", "_FloatArray"),
    (r"typing\.SupportsFloat", "float"),
    (r"typing\.SupportsInt", "int"),
    (r"collections\.abc\.|libcook\._core\.|cook::", ""),
)
VAGUE = re.compile(r"\b(object|dict|list|tuple|Callable)\b(?!\[)")


def told() -> dict[str, Any]:
    """Ask another interpreter for the signatures: this one has loaded the extension without."""
    run = [sys.executable, __file__, "--signatures"]
    done = subprocess.run(
        run, env={**os.environ, "LIBCOOK_SIGNATURES": "1"}, stdout=subprocess.PIPE, check=True
    )
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def _signatures() -> dict[str, Any]:
    """Return the signature of each function, and of the properties and methods of each class, in order."""

    def first(thing: Any) -> str:
        return (getattr(thing, "__doc__", None) or "").partition("\n")[0]

    found: dict[str, Any] = {"": {}}
    for name, thing in vars(_core).items():
        if type(thing).__name__ == "pybind11_type":
            members = {
                n: first(getattr(m, "fget", m)) for n, m in vars(thing).items() if not isinstance(m, str)
            }
            found[name] = {n: said for n, said in members.items() if " -> " in said}
        elif inspect.isroutine(thing):
            found[""][name] = first(thing)
    return found


def _plain(kind: str) -> str:
    for said, here in TYPES:
        kind = re.sub(said, here, kind)
    return kind.strip()


def _known(kind: str, said: str) -> str:
    if VAGUE.search(kind):
        raise SystemExit(f"generate.py: '{kind}' says too little; write into _core.pyi.in: {said}")
    return kind


def _definition(name: str, said: str, inside: str = "") -> str:
    """Write a function or method; of the special ones only those that are called.

    A function of any objects that gives one is one over arrays: an array for arrays, a float for floats.
    """
    if name.startswith("__") and name not in ("__init__", "__len__", "__getitem__", "__call__"):
        return ""
    function: Any = ast.parse(f"def {_plain(said)}: ...").body[0]
    arguments, gives = function.args.args, ast.unparse(function.returns)
    kinds = ["" if one.arg == "self" else ast.unparse(one.annotation) for one in arguments]
    if not inside and {*kinds, gives} == {"object"}:
        kinds, gives = ["npt.ArrayLike"] * len(kinds), "Any"
    needed = len(arguments) - len(function.args.defaults)
    listed = [
        (f"{one.arg}: {_known(kind, said)}" if kind else one.arg) + (" = ..." if i >= needed else "")
        for i, (one, kind) in enumerate(zip(arguments, kinds, strict=True))
    ]
    return _lines(name, listed, _known(gives, said), inside)


def _lines(name: str, arguments: list[str], gives: str, inside: str) -> str:
    """Write a definition as the formatter does: on one line, its arguments on one, or one on each."""
    joined = ", ".join(arguments)
    head, tail = f"{inside}def {name}(", f") -> {gives}: ...\n"
    if len(head + joined + tail) <= WIDEST + 1:
        return head + joined + tail
    if len(f"{inside}    {joined}") <= WIDEST:
        return f"{head}\n{inside}    {joined}\n{inside}{tail}"
    return head + "\n" + "".join(f"{inside}    {one},\n" for one in arguments) + inside + tail


def stub() -> str:
    """Return the stub: what is written by hand, and all else that the extension tells."""
    source = (HERE / "_core.pyi.in").read_text(encoding="utf-8")
    tree = ast.parse(source)
    by_hand = {node.name: node for node in tree.body if isinstance(node, (ast.ClassDef, ast.FunctionDef))}
    head = by_hand.pop("pybind11_type").end_lineno
    found = told()
    functions = found.pop("")
    unknown = set(by_hand) - set(found) - set(functions)
    if unknown:
        raise SystemExit(f"generate.py: the extension has no {unknown}")
    made = [_class(name, members, by_hand.get(name), source) for name, members in found.items()]
    defined = [
        _text(source, by_hand[name]) if name in by_hand else _definition(name, said)
        for name, said in functions.items()
    ]
    return "\n".join(["".join(source.splitlines(keepends=True)[:head]), *made, "".join(defined)])


def _text(source: str, node: ast.stmt) -> str:
    """Return the lines of a node, decorators included."""
    begin = min([node.lineno, *(one.lineno for one in getattr(node, "decorator_list", ()))])
    return "".join(f"{line}\n" for line in source.splitlines()[begin - 1 : node.end_lineno])


def _class(name: str, members: dict[str, str], node: Any, source: str) -> str:
    body = [] if node is None else node.body
    hand = {one.name: one for one in body if isinstance(one, ast.FunctionDef)}
    lines, fields = [f"class {name}(metaclass=pybind11_type):\n"], _core.FIELDS.get(name, {})
    if fields:
        lines += _fields(name, fields)
    elif "__init__" not in {*members, *hand}:
        lines.append(f"    {NOT_MADE}\n")
    for member, said in members.items():
        if member in fields or member in hand:
            continue
        if not said.startswith(f"{member}("):
            gives = _known(_plain(said.partition(" -> ")[2]), f"{name}.{member}")
            lines.append(f"    @property\n    def {member}(self) -> {gives}: ...\n")
        elif not fields or member not in ("__init__", "replace"):
            lines.append(_definition(member, said, "    "))
    return "".join([*lines, *(_text(source, one) for one in body)])


def _fields(name: str, fields: dict[str, _core.FieldTold]) -> list[str]:
    takes = [f"{field}: {one.takes} = ..." for field, one in fields.items()]
    lines = ["_fields: ClassVar[tuple[str, ...]]"]
    for field, one in fields.items():
        lines += ["@property", f"def {field}(self) -> {one.gives}: ..."]
        if not one.fixed:
            lines += [f"@{field}.setter", f"def {field}(self, value: {one.takes}, /) -> None: ..."]
    lines += [
        f"def replace(self, **changes: Any) -> {name}: ...",
        f"def __copy__(self) -> {name}: ...",
        f"def __deepcopy__(self, memo: dict[int, Any]) -> {name}: ...",
        "def __eq__(self, other: object, /) -> bool: ...",
        "__hash__: ClassVar[None]  # type: ignore[assignment]",
        "def __getstate__(self) -> tuple[int, dict[str, Any]]: ...",
        "def __setstate__(self, state: tuple[int, dict[str, Any]], /) -> None: ...",
    ]
    made = [f"    {line}\n" for line in lines]
    made.insert(1, _lines("__init__", ["self", *takes], "None", "    "))
    return made


def schema() -> str:
    """Return the JSON Schema of a plan."""
    return _core.plan_schema()


def main() -> None:
    """Write both."""
    if "--signatures" in sys.argv:
        print(json.dumps(_signatures()))
        return
    STUB.write_text(stub(), encoding="utf-8")
    SCHEMA.write_text(schema(), encoding="utf-8")


if __name__ == "__main__":
    main()
