"""Gather the site's source: what is written here, the notebooks' pages, what the library generates."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import libcook as lc

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
TEACHING_PAGE = ROOT / "build" / "page" / "index.html"  # where python/page/build puts it

# The reference, by what a name is for; every public name stands here once.
GROUPS = {
    "The cook": (
        "What you describe, and what comes out.",
        "Plan Stage Spritz LidOpening spritz simulate Physics Outcome StageEnd compare Comparison sentences",
    ),
    "Meat": (
        "The piece, what it is made of, and how its water moves.",
        "brisket pork_shoulder cut cuts Cut Meat Shape FatCap Tissue brisket_tissue pork_shoulder_tissue "
        "Composition WaterHolding WaterMobility Sorption HeatSinks Exudation Tenderness FixedThermal",
    ),
    "Cookers and rests": (
        "Where it is, and what the air does.",
        "pit Pit oven counter holding_oven insulated_box Box Film Surroundings breathing pit_air PitAir "
        "WaterPan Signal schedule ripple",
    ),
    "Wraps": ("What lies between the meat and the air.", "wrap wrap_names Wrap Covering"),
    "When a stage ends": ("Join several with `|`.", "core cooled elapsed clock bark tender End FirstOf"),
    "Readings": (
        "What is read off an outcome; each is a method of `Outcome` as well.",
        "Stall find_stall find_stalls Carryover Loss HeatBudget Ledger Safety Bark HotHold",
    ),
    "The cross-section": (
        "Flat, point and the seam between them, and probes anywhere.",
        "Section brisket_section with_section brisket_point_tissue brisket_seam_tissue Probe ProbeTrace "
        "stem_error",
    ),
    "Logs": ("What was measured.", "read_log Log Event Finding"),
    "Your own cooker": (
        "A plan tuned to logs, and how sure it is.",
        "calibrate Fit Estimate FitSeries prior FreeParameter FreeKind free_names ModelError",
    ),
    "When will it be done?": (
        "While it cooks, and before: with honest uncertainty.",
        "belief Belief forecast Forecast PitOutlook start_by Schedule Remedy StageTime Alternative",
    ),
    "The best plan": (
        "What to do so that dinner is on the table, tender and juicy, and rules for the day.",
        "best_plan BestPlan",
    ),
    "Many cooks": (
        "What if, a thousand times.",
        "sweep sweep_readings read_sweep sample Sample SweepWarning simulate_many",
    ),
    "Numbers and checks": (
        "Every default with its source, and the equations for other integrators.",
        "Parameter parameter parameters Equations SectionEquations equations schema",
    ),
    "Errors": ("What goes wrong, said so that you can mend it.", "InvalidInput SolverFailure Unreachable"),
}
ROOMS = {
    "Figures": (
        "libcook.plots",
        "One look for all: units on every axis, names beside the lines, light and dark.",
    ),
    "Figures of a cross-section": (
        "libcook.section_plots",
        "Maps, an animation, and where a probe reads what.",
    ),
    "Figures of fits and forecasts": ("libcook.fit_plots", "Logs, fits, fans and start times."),
    "Playground": ("libcook.playground", "Sliders over one cook."),
    "Physics": ("libcook.physics", "The functions that `simulate` is made of, over numbers and arrays."),
}


def gather(source: Path) -> None:
    """Write the whole source of the site to a folder, which is emptied first."""
    shutil.rmtree(source, ignore_errors=True)
    source.mkdir(parents=True)
    for file in HERE.glob("*.md"):
        shutil.copy(file, source)
    for file in ("conf.py", "mathml.py", "signatures.py"):
        shutil.copy(HERE / file, source)
    shutil.copytree(HERE / "_static", source / "_static")
    shutil.copytree(ROOT / "examples" / "notebooks" / "pages", source / "notebooks")
    shutil.copytree(ROOT / "examples" / "figures", source / "figures")
    _notebooks(source / "_static" / "notebooks")
    (source / "reference").mkdir()
    _reference(source / "reference")
    (source / "teaching_page.md").write_text(_teaching_page(), encoding="utf-8")
    (source / "parameters.md").write_text(_parameters(), encoding="utf-8")
    (source / "validation.md").write_text(_validation(), encoding="utf-8")


def _teaching_page() -> str:
    """Lead to the teaching page where it has been built, else to how it is built."""
    text = """# The page for any browser

One file, with the library itself in it: it opens by double click, on a phone too, and needs no network. Move
sliders for cut, weight, cooker, wrap and rest; put two cooks side by side; see where the heat goes; answer
seven questions before the computer does, the last of which is what to do so that dinner is at six. Links
carry the settings, and what it saves the Python reads: `lc.read_log` the curves, `lc.Plan.from_json` the
plan.
"""
    if TEACHING_PAGE.is_file():
        return f'{text}\n<p><a href="page/{TEACHING_PAGE.name}">Open the page</a></p>\n'
    return f"""{text}
It was not built with this site. `python/page/build` makes it (Debian and Ubuntu: `apt-get install emscripten
node-acorn` first), and the next `python/docs/build` takes it in.
"""


def add_teaching_page(html: Path) -> None:
    """Put the teaching page into the site, where it has been built."""
    if TEACHING_PAGE.is_file():
        (html / "page").mkdir(exist_ok=True)
        shutil.copy(TEACHING_PAGE, html / "page")


def _notebooks(folder: Path) -> None:
    """Make the notebooks that open by double click, with what they share, for download."""
    notebooks = ROOT / "examples" / "notebooks"
    command = [sys.executable, str(notebooks / "render.py"), "--notebooks", "--to", str(folder)]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    shutil.copy(notebooks / "blackboard.py", folder)


def _reference(folder: Path) -> None:
    written: list[str] = []
    entries = []
    for number, (title, (about, names)) in enumerate(GROUPS.items(), start=1):
        lines = [title, "=" * len(title), "", about, ""]
        for name in names.split():
            lines += _entry(f"libcook.{name}", getattr(lc, name))
            written.append(name)
        entries.append(f"{number:02d}")
        (folder / f"{number:02d}.rst").write_text("\n".join(lines), encoding="utf-8")
    missing = set(lc.__all__) - set(written) - {"physics"}
    if missing or len(written) != len(set(written)):
        raise SystemExit(f"pages.py: names without a place, or with two, in GROUPS: {missing or written}")
    for number, (title, (module, about)) in enumerate(ROOMS.items(), start=len(GROUPS) + 1):
        room = getattr(lc, module.removeprefix("libcook."))
        lines = [title, "=" * len(title), "", about, "", f".. py:module:: {module}", "   :no-index:", ""]
        for name in room.__all__:
            if name != "savefig" or module == "libcook.plots":
                lines += _entry(f"{module}.{name}", getattr(room, name))
        entries.append(f"{number:02d}")
        (folder / f"{number:02d}.rst").write_text("\n".join(lines), encoding="utf-8")
    index = [
        "# Reference",
        "",
        'Plain numbers are SI, and °C for temperatures; text carries its unit, such as `"250 °F"`,',
        '`"14 lb"`, `"90 min"`. Results are SI and °C.',
        "",
        "```{toctree}",
        ":maxdepth: 1",
        "",
        *entries,
        "```",
        "",
    ]
    (folder / "index.md").write_text("\n".join(index), encoding="utf-8")


def _entry(path: str, thing: object) -> list[str]:
    if not isinstance(thing, type):
        return [f".. autofunction:: {path}", ""]
    fields = getattr(thing, "_fields", ())  # told already, as parameters
    return [f".. autoclass:: {path}", *([f"   :exclude-members: {', '.join(fields)}"] if fields else []), ""]


def _parameters() -> str:
    rows = lc.parameters()
    kinds = sorted({row.kind for row in rows}, key=lambda kind: -sum(row.kind == kind for row in rows))
    lines = [
        "# Every default, with its source",
        "",
        f"The {len(rows)} numbers that a simulation takes when you give none, read from the library: "
        + ", ".join(f"{sum(row.kind == kind for row in rows)} {kind}" for kind in kinds)
        + ". The range is what is physically reasonable or published.",
        'In code: `lc.parameters()`, or one of them, `lc.parameter("tissue.mobility.expressed").source`.',
    ]
    group = ""
    for row in rows:
        if row.name.partition(".")[0] != group:
            group = row.name.partition(".")[0]
            lines += [
                "",
                f"## {group.replace('_', ' ')}",
                "",
                "| default: value; range; how sure | source |",
                "|---|---|",
            ]
        source = row.source.replace("|", "\\|").replace("<", "&lt;").replace("$", "\\$").replace("*", "\\*")
        value = f"{row.value:g} {row.unit}".removesuffix(" -")
        lines.append(f"| `{row.name}`<br>**{value}**; {row.low:g} to {row.high:g}; {row.kind} | {source} |")
    return "\n".join(lines) + "\n"


def _validation() -> str:
    """Take the summary of the checks, with the links that lead out of it as plain names."""
    text = (ROOT / "validation" / "SUMMARY.md").read_text(encoding="utf-8")
    text = text.replace("[PARAMETERS.md](PARAMETERS.md)", "[the table of parameters](parameters.md)")
    return re.sub(r"\[(\w+\.md)\]\(\1\)", r"`validation/\1`", text)
