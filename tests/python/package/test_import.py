"""Where the package can be imported, and what is said where it cannot."""

import subprocess
import sys

import pytest

from libcook import _core

# The interpreters' own module has had several names.
IN_ANOTHER = """
import faulthandler
faulthandler.dump_traceback_later(60, exit=True)
try:
    import _interpreters
    other = _interpreters.create(KIND)
except ImportError:
    import _xxsubinterpreters as _interpreters
    other = _interpreters.create(isolated=KIND == "isolated")
_interpreters.run_string(other, '''
try:
    import libcook
except ImportError as error:
    print("refused:", error)
else:
    print("imported")
''')
_interpreters.destroy(other)
import libcook
print("imported", libcook.brisket().mass > 0)
"""


@pytest.mark.parametrize("kind", ["legacy", "isolated"])
def test_a_sub_interpreter_is_refused_at_once_with_the_reason(kind):
    done = subprocess.run(
        [sys.executable, "-c", IN_ANOTHER.replace("KIND", repr(kind))],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    first, second = done.stdout.splitlines()
    assert first.startswith("refused: ") and "sub-interpreter" in first
    assert second == "imported True"


def test_the_module_has_its_own_name():
    assert _core.__name__ == _core.Film.__module__ == "libcook._core"
