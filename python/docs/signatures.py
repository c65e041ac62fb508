"""Signatures of what is compiled, from its stub: the extension's own functions do not tell theirs."""

from __future__ import annotations

import ast
from pathlib import Path
from typing import Any

import libcook


def read_stub() -> dict[str, str]:
    """Return the arguments as text of each function, method and constructor of the compiled part, by name."""
    tree = ast.parse((Path(libcook.__file__).parent / "_core.pyi").read_text(encoding="utf-8"))
    found: dict[str, str] = {}
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            found[node.name] = _arguments(node)
        elif isinstance(node, ast.ClassDef):
            for each in node.body:
                if isinstance(each, ast.FunctionDef):
                    found[f"{node.name}.{each.name}"] = _arguments(each)
    return found


def _arguments(function: ast.FunctionDef) -> str:
    """Write names and defaults, but nothing for what only the library makes."""
    arguments = function.args
    if (
        arguments.vararg
        and isinstance(arguments.vararg.annotation, ast.Name)
        and arguments.vararg.annotation.id == "Never"
    ):
        return ""
    for each in (
        *arguments.posonlyargs,
        *arguments.args,
        *arguments.kwonlyargs,
        arguments.vararg,
        arguments.kwarg,
    ):
        if each is not None:
            each.annotation = None
    if arguments.args and arguments.args[0].arg in ("self", "cls"):
        del arguments.args[0]
    return f"({ast.unparse(arguments)})"


def setup(app: Any) -> dict[str, Any]:
    """Tell autodoc the signatures that it cannot find."""
    stub = read_stub()

    def tell(_app: Any, what: str, name: str, thing: Any, _options: Any, shown: Any, _returns: Any) -> Any:
        if shown not in (None, "()", "") or what not in ("function", "method", "class"):
            return None
        last = name.removeprefix("libcook.").removeprefix("physics.")
        key = f"{last}.__init__" if what == "class" else last
        found = stub.get(key)
        return None if found is None else (found, None)

    app.connect("autodoc-process-signature", tell)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
