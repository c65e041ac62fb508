"""The table of a run, as text and as Markdown."""

from __future__ import annotations

import os
import platform
from dataclasses import dataclass
from pathlib import Path

TITLES = {
    "slab": "Reference slab, 60 intervals, 200 varied cooks",
    "full": "Default cook of the full model, 12 h, 200 varied",
    "section": "Default cook on a cross-section of 61 x 25 nodes, 12 h",
}


@dataclass
class Row:
    """One contender; None: not installed, or no steps counted."""

    problem: str
    name: str
    milliseconds: float | None
    ratio: float | None
    error: float | None
    steps: float | None

    def cells(self) -> list[str]:
        if self.milliseconds is None or self.ratio is None or self.error is None:
            return [self.name, "not installed", "", "", ""]
        return [
            self.name,
            f"{self.milliseconds:.3g}" if self.milliseconds < 1000 else f"{self.milliseconds:,.0f}",
            f"{self.ratio:,.0f}",
            f"{self.error:.3f}",
            "" if self.steps is None else f"{self.steps:.0f}",
        ]


@dataclass
class Sweep:
    """Slabs in packs, and the arithmetic in them."""

    cores: int
    one_core: float  # cooks a second
    all_cores: float
    one_at_a_time: float
    operations: int  # of a step
    nodes: int
    peak: float  # operations a second on one core

    def sentences(self, steps: float) -> list[str]:
        """What the sweep reached, and how much of the time is arithmetic.

        :param steps: of a cook, accepted and rejected
        """
        counted = steps * self.operations
        bound = counted / self.peak  # s
        per_node = self.operations / self.nodes
        return [
            f"Sweep of varied slabs in packs of eight: {self.all_cores:,.0f} cooks a second on "
            f"{self.cores} cores, {self.one_core:,.0f} on one core, {self.one_core / self.one_at_a_time:.1f} "
            f"times as many as one at a time ({self.one_at_a_time:,.0f}, with their minutes stored).",
            f"Bound: {steps:.0f} steps x {self.nodes} nodes x {per_node:.0f} operations a node and step "
            f"(counted) are {counted / 1e6:.2f} million operations a cook; at the {self.peak / 1e9:.0f} "
            "thousand million a second that this core reaches with fused multiply-adds out of registers, "
            f"{1e6 * bound:.1f} µs. That is {100 * bound * self.one_core:.0f} % of the time of a cook in a "
            f"pack, {100 * bound * self.one_at_a_time:.0f} % of that of a single one.",
        ]


def machine() -> str:
    """Processor and system, as they name themselves."""
    name = platform.processor() or platform.machine()
    info = Path("/proc/cpuinfo")
    flags = ""
    if info.is_file():
        for line in info.read_text(encoding="utf-8").splitlines():
            key, _, value = line.partition(":")
            if key.strip() == "model name":
                name = value.strip()
            if key.strip() == "flags":
                flags = next((f", {f}" for f in ("avx512f", "avx2") if f in value.split()), "")
    return f"{name}{flags}, {os.cpu_count()} cores, {platform.system()} {platform.machine()}"


HEAD = ["solver", "ms", "ratio", "error, K", "steps"]


def as_text(rows: list[Row]) -> str:
    lines: list[str] = []
    for problem, title in TITLES.items():
        lines += ["", title, f"{HEAD[0]:34s}" + "".join(f"{h:>14s}" for h in HEAD[1:])]
        for row in rows:
            if row.problem == problem:
                first, *rest = row.cells()
                lines.append(f"{first:34s}" + "".join(f"{cell:>14s}" for cell in rest))
    return "\n".join(lines[1:])


NOTES = """\
Made by `./tests/benchmarks/run`. All solvers integrate the same equations to the same accuracy: each at the
loosest tolerance (1, 2 or 5 times a power of ten) that keeps the temperature in the middle within 0.05 K of a
reference, which another integrator computed much tighter. libcook's tolerances were chosen on the same cooks;
200 further slabs, on which nothing was chosen, stay within 0.05 K as well (a test). Medians; the ratio is the
median of turns taken back to back. Times are of one cook on one core, with one-minute outputs and located
events; libcook interpolates the middle alone, the others interpolate the whole state, as their interfaces do.

- *compiled*: SciPy calls the very functions that the C++ solvers call, through ctypes, for rates and
  analytic Jacobian; *NumPy*: rates as one writes them in a notebook, Jacobian by differences within the band.
- SUNDIALS is the system's package. On the slab it gets the analytic banded Jacobian. On the full model what
  is independent is the integrator: the rates are libcook's own, the Jacobian is taken by differences, and
  the memory of denaturation is left out, which does nothing while the meat warms. libcook is there twice: at
  the tolerance that the rule above gives, and at its default, which is tighter.
- FiPy: one nominal cook, once; its event times are those of its steps.
- The cross-section's SciPy contenders and their errors elsewhere than in the core: `section_cook.py`.
"""


def as_tables(rows: list[Row], level: str) -> list[str]:
    """A heading and a table for each problem, in Markdown."""
    parts: list[str] = []
    for problem, title in TITLES.items():
        parts += [f"{level} {title}", "", "| " + " | ".join(HEAD) + " |", "|---|--:|--:|--:|--:|"]
        parts += ["| " + " | ".join(row.cells()) + " |" for row in rows if row.problem == problem]
        parts.append("")
    return parts


def as_readme(rows: list[Row], sweeps: list[str]) -> str:
    """What the README shows between its two marks."""
    return "\n".join([f"Machine: {machine()}.", "", *as_tables(rows, "###"), "\n\n".join(sweeps), ""])


def as_markdown(rows: list[Row], sweeps: list[str]) -> str:
    parts = ["# libcook against general-purpose integrators", "", f"Machine: {machine()}.", "", NOTES]
    return "\n".join(
        [*parts, *as_tables(rows, "##"), "## Sweeps, and what is left", "", "\n\n".join(sweeps), ""]
    )
