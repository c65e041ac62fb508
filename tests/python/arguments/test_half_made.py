"""Objects made by `__new__` alone: an error, whatever is done with them, and never a crash."""

import os
import pickle
import subprocess
import sys

import pytest

import libcook as lc
from libcook import _core

CLASSES = sorted(name for name, thing in vars(_core).items() if isinstance(thing, type))

# A process for each class: a crash is the failure looked for. Whatever a class has is called, with nothing,
# with the object itself and with numbers; then it goes to every function of the module.
TRY_ALL = """
import contextlib, copy, faulthandler, operator, os, pickle, sys
from libcook import _core

faulthandler.enable()
refused = 0
for chosen in sys.argv[1:]:
    if os.fork() == 0:
        cls = getattr(_core, chosen)
        break
    _, status = os.wait()
    print(chosen, "status", status, flush=True)
else:
    sys.exit()


def attempt(call, *arguments):
    global refused
    try:
        call(*arguments)
    except (TypeError, AttributeError, ValueError, RuntimeError) as error:
        refused += "never made" in str(error)
    except (pickle.PicklingError, IndexError, KeyError):
        pass


def half():
    return cls.__new__(cls)


for does in (repr, str, hash, len, iter, list, bool, dir, copy.copy, copy.deepcopy, pickle.dumps):
    attempt(does, half())
for compares in (operator.eq, operator.ne, operator.lt, operator.or_, operator.add):
    one = half()
    attempt(compares, one, half())
    attempt(compares, one, one)
    attempt(compares, 1.0, one)
harmless = {"__class__", "__new__", "__init__", "__init_subclass__", "__subclasshook__", "__dir__"}
for name in dir(cls):
    if name in harmless:
        continue
    attempt(getattr, half(), name)
    attempt(setattr, half(), name, 1.0)
    attempt(delattr, half(), name)
    for arguments in ((), (half(),), (1.0,), (1.0, 1.0), ("x",), ({},), ((1, {}),), ((9, {}),)):
        with contextlib.suppress(Exception):
            method = getattr(half(), name)
            attempt(method, *arguments)
        with contextlib.suppress(Exception):
            method = getattr(cls, name)
            attempt(method, half(), *arguments)
with contextlib.suppress(Exception):
    attempt(cls, half())
for name, function in vars(_core).items():
    if callable(function) and not isinstance(function, type) and not name.startswith("_end"):
        one, two = half(), half()
        for arguments in ((one,), (one, 1.0), ([one],), (one, two), ([one], two), (1.0, one)):
            attempt(function, *arguments)
print(chosen, "refused", refused, flush=True)
os._exit(0)
"""


@pytest.fixture(scope="module")
def tried():
    done = subprocess.run(
        [sys.executable, "-c", TRY_ALL, *CLASSES], capture_output=True, text=True, check=False, timeout=600
    )
    assert done.returncode == 0, done.stderr[-2000:]
    found = {name: {"refused": 0} for name in CLASSES}
    for line in done.stdout.splitlines():
        name, what, number = line.split()
        found[name][what] = int(number)
    return found, done.stderr


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs POSIX processes")
@pytest.mark.parametrize("name", CLASSES)
def test_nothing_done_with_it_crashes(name, tried):
    found, complaints = tried
    assert found[name]["status"] == 0, complaints
    assert found[name]["refused"] > 2


def test_there_are_classes_to_try():
    assert len(CLASSES) > 50


@pytest.mark.parametrize("name", CLASSES)
def test_it_says_what_is_wrong(name):
    cls = getattr(_core, name)
    half = cls.__new__(cls)
    fields = [
        attribute
        for attribute in dir(cls)
        if isinstance(getattr(cls, attribute), property) and attribute != "bandwidth"
    ]
    for attribute in fields:
        with pytest.raises(TypeError, match="never made"):
            getattr(half, attribute)


@pytest.mark.parametrize("name", [n for n in lc.__all__ if isinstance(getattr(lc, n), type)])
def test_classes_written_in_python_do_not_run_in_circles(name):
    cls = getattr(lc, name)
    if issubclass(cls, tuple):
        pytest.skip("a tuple is whole once __new__ has made it")
    half = cls.__new__(cls)
    for does in (repr, str, pickle.dumps, len, lambda one: one.plan, lambda one: one == half):
        try:
            does(half)
        except RecursionError:
            raise
        except Exception as error:
            assert str(error)


@pytest.mark.parametrize("protocol", range(pickle.HIGHEST_PROTOCOL + 1))
def test_every_form_of_pickle_has_a_place_for_the_state(protocol):
    assert pickle.loads(pickle.dumps(lc.brisket(), protocol)) == lc.brisket()


def test_the_base_of_all_classes_makes_nothing():
    base = _core.Film.__mro__[1]
    with pytest.raises(TypeError, match="cannot create"):
        base()
    with pytest.raises(TypeError, match="cannot create"):
        base.__new__(base)
