"""Every public function, constructor, method and attribute, ready to be called with one argument replaced.

The names come from ``libcook.__all__`` and `MODULES`, parameters from signatures, those of the extension
module from its stub. `right_values` has one right value for each parameter that needs one.
"""

import ast
import copy
import functools
import inspect
import pathlib
import types
from dataclasses import dataclass
from typing import Any

from right_values import MADE, QUICK, RIGHT

import libcook as lc

MODULES = ("charts", "fit_plots", "frames", "physics", "plots", "section_plots", "units")

# Not for cooks: what Python itself gives to tuples and exceptions.
INHERITED = frozenset(("count", "index", "add_note", "with_traceback"))


@dataclass(frozen=True)
class Call:
    """Takes a value for one argument; the others are right."""

    name: str  # "brisket", "Plan.to_json", "Stage.name ="
    argument: str
    declared: str  # type in the signature
    run: Any
    optional: bool  # whether None stands for the default

    def __str__(self):
        """Return such as "brisket(mass)"."""
        return f"{self.name}({self.argument})"


@functools.cache
def _stub():
    tree = ast.parse(pathlib.Path(lc.__file__).with_name("_core.pyi").read_text(encoding="utf-8"))
    return {node.name: node for node in tree.body if isinstance(node, (ast.FunctionDef, ast.ClassDef))}


@dataclass(frozen=True)
class Parameter:
    """Name, declared type, and whether there is a default; whether that is None."""

    name: str
    declared: str
    needed: bool
    optional: bool
    variadic: bool = False


def _from_signature(function):
    made = []
    for one in inspect.signature(function).parameters.values():
        declared = "" if one.annotation is one.empty else str(one.annotation)
        variadic = one.kind in (one.VAR_KEYWORD, one.VAR_POSITIONAL)
        made.append(
            Parameter(
                one.name, declared, one.default is one.empty and not variadic, one.default is None, variadic
            )
        )
    return made


def _from_stub(node):
    arguments = node.args
    listed = [*arguments.posonlyargs, *arguments.args]
    needed = len(listed) - len(arguments.defaults)
    made = []
    for i, one in enumerate(listed):
        default = arguments.defaults[i - needed] if i >= needed else None
        declared = ast.unparse(one.annotation) if one.annotation else ""
        none = "None" in declared and i >= needed
        made.append(Parameter(one.arg, declared, default is None and i < needed, none))
    return made


def parameters_of(owner, name, function):
    """Read the parameters of a function or method, without self."""
    try:
        return [one for one in _from_signature(function) if one.name not in ("self", "cls")]
    except (TypeError, ValueError):
        pass
    nodes = _stub()
    if owner is not None:
        for cls in owner.__mro__:
            node = nodes.get(cls.__name__)
            found = [
                n for n in getattr(node, "body", ()) if isinstance(n, ast.FunctionDef) and n.name == name
            ]
            if found:
                return [one for one in _from_stub(found[0]) if one.name not in ("self", "cls")]
        return []
    return _from_stub(nodes[name])


def _right(name, parameter):
    for key in (f"{name}.{parameter}", parameter):
        if key in RIGHT:
            return RIGHT[key]()
    raise KeyError(f"no right value for {name}({parameter})")


def _calls_of(name, parameters, function):
    """Make one call for each parameter."""
    fixed = [one for one in parameters if one.needed or one.name in QUICK.get(name, ())]
    for parameter in parameters:
        if parameter.variadic:
            continue

        def run(value, parameter=parameter):
            others = {one.name: _right(name, one.name) for one in fixed if one.name != parameter.name}
            return function()(**others, **{parameter.name: value})

        yield Call(name, parameter.name, parameter.declared, run, parameter.optional)


def _object(name, cls):
    return MADE[name] if name in MADE else cls


def _calls_of_class(name, cls):
    fields = getattr(cls, "_fields", None)
    if fields is not None and cls.__module__.startswith("libcook._core"):
        node = _stub()[cls.__name__]
        made = [n for n in node.body if isinstance(n, ast.FunctionDef) and n.name == "__init__"]
        declared = {one.name: one for one in _from_stub(made[0])} if made else {}
        for field in fields:
            known = declared.get(field, Parameter(field, "", False, False))
            optional = "None" in known.declared
            start = {"kind": "core"} if name == "End" and field == "value" else {}
            yield Call(name, field, known.declared, functools.partial(_make, cls, start, field), optional)
            yield Call(
                f"{name}.replace",
                field,
                known.declared,
                functools.partial(_replace, name, cls, field),
                optional,
            )
            if getattr(cls, field).fset is not None:
                yield Call(
                    f"{name}.{field} =",
                    field,
                    known.declared,
                    functools.partial(_set, name, cls, field),
                    optional,
                )
    elif not issubclass(cls, Exception):
        try:
            listed = _from_signature(cls)
        except (TypeError, ValueError):
            listed = []
        yield from _calls_of(name, listed, lambda: cls)
    for method, function in inspect.getmembers(cls):
        if method.startswith("_") or not callable(function) or method in INHERITED or method == "replace":
            continue
        raw = inspect.getattr_static(cls, method)
        if isinstance(raw, (classmethod, staticmethod, types.BuiltinFunctionType)) or method == "from_json":
            get = functools.partial(getattr, cls, method)
        else:
            get = functools.partial(_method, name, cls, method)
        yield from _calls_of(f"{name}.{method}", parameters_of(cls, method, function), get)


def _method(name, cls, method):
    return getattr(_object(name, cls)(), method)


def _make(cls, start, field, value):
    return cls(**start, **{field: value})


def _replace(name, cls, field, value):
    return _object(name, cls)().replace(**{field: value})


def _set(name, cls, field, value):
    setattr(copy.copy(_object(name, cls)()), field, value)


def public_calls():
    """List one call for each argument of everything public."""
    made = []
    for name in lc.__all__:
        thing = getattr(lc, name)
        if isinstance(thing, types.ModuleType):
            continue
        if isinstance(thing, type):
            made += _calls_of_class(name, thing)
        else:
            made += _calls_of(name, parameters_of(None, name, thing), functools.partial(_same, thing))
    for module in MODULES:
        room = getattr(lc, module)
        for name in room.__all__:
            thing = getattr(room, name)
            if not isinstance(thing, type) and callable(thing):
                made += _calls_of(
                    f"{module}.{name}", parameters_of(None, name, thing), functools.partial(_same, thing)
                )
    return made


def _same(thing):
    return thing
