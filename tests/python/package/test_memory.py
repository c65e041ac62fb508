"""Memory stays flat over many calls: a smaller version of validation/memory.py."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]


@pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="needs /proc")
def test_memory_stays_flat_over_many_calls():
    done = subprocess.run(
        [sys.executable, ROOT / "validation" / "memory.py", "--simulate", "1500", "--forecast", "40"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.count(": flat") == 2


# In a process of its own, which has no freed memory to take from.
KEPT = """
import memory
kept = []
assert not memory.watch(lambda: kept.append(bytearray(b"x" * 100_000)), 400).flat
assert memory.watch(lambda: bytearray(b"x" * 100_000), 400).flat
"""


def test_what_is_kept_is_seen():
    done = subprocess.run(
        [sys.executable, "-c", KEPT], cwd=ROOT / "validation", capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
