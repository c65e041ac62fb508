"""The rooms of the package: how large they are, and that imports go one way."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
PACKAGE = ROOT / "python" / "libcook"
TESTS = ROOT / "tests" / "python"
MOST_FILES, MOST_LINES = 20, 400

# From the ground up: what stands on a floor may import from its own and from those below.
FLOORS = (
    "_core",
    "errors",
    "arguments",
    "units",
    "_solver_options",
    "physics equations",
    "readings",
    "figures",
    "words",
    # the cook: what is described, what is done with it, and what comes out
    "_coerce meat sections cookers pit_air signals wraps ends plan outcome simulate simulate_many",
    "logs",
    "sweeps fit",
    "planner",
    "compare playground",
    "libcook",
)
FLOOR = {name: i for i, names in enumerate(FLOORS) for name in names.split()}


def modules_of(folder):
    """Every module of the package by its dotted name; the extension by its stub."""
    found = {}
    for path in [*folder.rglob("*.py"), folder / "_core.pyi"]:
        parts = ("libcook", *path.relative_to(folder).with_suffix("").parts)
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


def imports_of(tree, modules):
    """Modules of the package that a file imports: (when it is loaded, within functions).

    What stands under TYPE_CHECKING is left out; ``import_module("libcook.x")`` counts like an import.
    """
    at_once, later = set(), set()

    def note(name, inside):
        while name and name not in modules:
            name = name.rpartition(".")[0]
        if name:
            (later if inside else at_once).add(name)

    def visit(node, inside):
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test):
            for child in node.orelse:
                visit(child, inside)
            return
        if isinstance(node, ast.Import):
            for alias in node.names:
                note(alias.name, inside)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are absolute"
            for alias in node.names:
                note(f"{node.module}.{alias.name}", inside)
        elif isinstance(node, ast.Call) and node.args and isinstance(node.args[0], ast.Constant):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if called in ("import_module", "need", "__import__"):
                note(str(node.args[0].value), inside)
        inside = inside or isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef, ast.Lambda))
        for child in ast.iter_child_nodes(node):
            visit(child, inside)

    visit(tree, False)
    return at_once, later - at_once


def circles(graph):
    """The sets of modules that lead back to themselves (Tarjan's strongly connected components)."""
    number, low, stack, found = {}, {}, [], []

    def walk(name):
        number[name] = low[name] = len(number)
        stack.append(name)
        for other in graph[name]:
            if other not in number:
                walk(other)
                low[name] = min(low[name], low[other])
            elif other in stack:
                low[name] = min(low[name], number[other])
        if low[name] == number[name]:
            place = stack.index(name)
            ring = stack[place:]
            del stack[place:]
            if len(ring) > 1 or name in graph[name]:
                found.append(sorted(ring))

    for name in graph:
        if name not in number:
            walk(name)
    return found


def read(folder=PACKAGE):
    modules = modules_of(folder)
    trees = {
        name: ast.parse("" if path.suffix == ".pyi" else path.read_text(encoding="utf-8"))
        for name, path in modules.items()
    }
    return {name: imports_of(tree, modules) for name, tree in trees.items()}


IMPORTS = read()


def room(name):
    """The room, or the file on the top floor, that a module belongs to."""
    return name.split(".")[1] if "." in name else name


def test_no_circle_among_the_files():
    now = {name: at_once for name, (at_once, _) in IMPORTS.items()}
    whenever = {name: at_once | later for name, (at_once, later) in IMPORTS.items()}
    assert circles(now) == [], "when the package is loaded"
    assert circles(whenever) == [], "with the imports inside functions"


def test_every_room_has_its_floor():
    assert {room(name) for name in IMPORTS} == set(FLOOR)


@pytest.mark.parametrize("which", [0, 1], ids=["when loaded", "inside functions"])
def test_rooms_point_one_way(which):
    upwards = {
        f"{name} imports {other}"
        for name, both in IMPORTS.items()
        for other in both[which]
        if FLOOR[room(other)] > FLOOR[room(name)]
    }
    assert upwards == set()


def test_rooms_that_share_a_floor_do_not_import_each_other():
    shared = [names.split() for names in FLOORS if "fit" in names or "compare" in names]
    for names in shared:
        for name, both in IMPORTS.items():
            if room(name) in names:
                others = {room(other) for part in both for other in part} - {room(name)}
                assert not others & set(names), name


def test_what_is_imported_inside_functions_is_for_the_sake_of_an_optional_library():
    found = {
        (name.removeprefix("libcook."), other) for name, (_, later) in IMPORTS.items() for other in later
    }
    drawn = {"plots", "section_plots", "fit_plots"}
    assert found == {
        *(("outcome", f"libcook.figures.{name}") for name in drawn - {"fit_plots"}),
        ("outcome", "libcook.readings.frames"),
        ("outcome", "libcook.words.html"),
        ("fit.result", "libcook.figures.fit_plots"),
        ("fit.forecast", "libcook.figures.fit_plots"),
        ("logs.log", "libcook.logs.plot"),
    }


@pytest.mark.parametrize("top", [PACKAGE, TESTS], ids=["package", "tests"])
def test_no_folder_is_crowded(top):
    for folder in [top, *(path for path in top.rglob("*") if path.is_dir())]:
        if folder.name == "__pycache__" or TESTS / "data" in folder.parents:
            continue
        files = [path.name for path in folder.iterdir() if path.is_file() and path.suffix != ".so"]
        assert len(files) <= MOST_FILES, folder


def test_no_file_is_long():
    for path in [*PACKAGE.rglob("*.py"), *TESTS.rglob("*.py")]:
        assert len(path.read_text(encoding="utf-8").splitlines()) <= MOST_LINES, path


def test_a_circle_and_a_late_import_are_seen(tmp_path):
    files = {
        "__init__": "from libcook import a",
        "a": "if TYPE_CHECKING:\n    import libcook.c\nimport libcook.b.inner",
        "b/__init__": "",
        "b/inner": "def f():\n    from libcook.c import x",
        "c": "from libcook.a import y",
    }
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / f"{name}.py").write_text(text)
    (tmp_path / "_core.pyi").write_text("")
    found = read(tmp_path)
    assert found["libcook.a"] == ({"libcook.b.inner"}, set())
    assert found["libcook.b.inner"] == (set(), {"libcook.c"})
    assert circles({name: at_once for name, (at_once, _) in found.items()}) == []
    assert circles({name: a | b for name, (a, b) in found.items()}) == [
        ["libcook.a", "libcook.b.inner", "libcook.c"]
    ]
