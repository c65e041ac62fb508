"""Heat and moisture in large cuts of meat cooked low and slow.

A `Meat` goes through the stages of a `Plan`; `simulate` computes its `Outcome`; everything else reads an
outcome or simulates many times::

    import libcook as lc

    plan = lc.Plan(lc.brisket(mass="6.4 kg"), [
        lc.Stage("smoke", lc.pit("drum", air="250 °F"), until=lc.core("160 °F")),
        lc.Stage("wrapped", lc.oven("250 °F"), wrap="butcher paper", until=lc.core("94 °C")),
        lc.Stage("rest", lc.counter("21 °C"), wrap="foil", until=lc.elapsed("90 min")),
    ])
    out = lc.simulate(plan)

Plain numbers are SI, and °C for temperatures; text carries its unit. Results are SI and °C.
"""

from __future__ import annotations

import importlib
import importlib.abc
import sys
from importlib.machinery import ModuleSpec
from types import ModuleType
from typing import Any

try:
    from libcook import _core
except ImportError as error:
    if "subinterpreters" in str(error):
        raise ImportError(
            "libcook works in the main interpreter only, and this is a sub-interpreter; use threads "
            "(simulations run beside each other in them) or processes instead"
        ) from None
    if hasattr(error, "add_note"):  # Python 3.11 and later
        error.add_note(
            "libcook's compiled part is missing: install the package, 'pip install .' in its folder"
        )
    raise

from libcook import physics
from libcook.arguments.declared import know_classes
from libcook.compare import Comparison, compare
from libcook.cookers import Box, Film, Pit, Surroundings, counter, holding_oven, insulated_box, oven, pit
from libcook.ends import FirstOf, bark, clock, cooled, core, elapsed, tender
from libcook.equations import Equations, SectionEquations, equations
from libcook.errors import InvalidInput, SolverFailure, Unreachable
from libcook.fit.belief import Belief, belief
from libcook.fit.calibrate import (
    Estimate,
    Fit,
    FitSeries,
    FreeKind,
    FreeParameter,
    ModelError,
    calibrate,
    free_names,
    prior,
)
from libcook.fit.forecast import Forecast, PitOutlook, forecast
from libcook.fit.start_time import Alternative, Remedy, Schedule, StageTime, start_by
from libcook.logs import Event, Finding, Log, read_log
from libcook.meat import (
    Composition,
    Cut,
    Exudation,
    FatCap,
    FixedThermal,
    HeatSinks,
    Meat,
    Shape,
    Sorption,
    Tenderness,
    Tissue,
    WaterHolding,
    WaterMobility,
    brisket,
    brisket_tissue,
    cut,
    cuts,
    pork_shoulder,
    pork_shoulder_tissue,
)
from libcook.outcome import (
    Bark,
    Carryover,
    HeatBudget,
    HotHold,
    Ledger,
    Loss,
    Outcome,
    ProbeTrace,
    Safety,
    StageEnd,
    Stall,
)
from libcook.pit_air import PitAir, WaterPan, breathing, pit_air
from libcook.plan import LidOpening, Plan, Spritz, Stage, schema, spritz
from libcook.planner.best import BestPlan, best_plan
from libcook.sections import (
    Probe,
    Section,
    brisket_point_tissue,
    brisket_seam_tissue,
    brisket_section,
    stem_error,
    with_section,
)
from libcook.signals import Signal, ripple, schedule
from libcook.simulate import Physics, simulate
from libcook.simulate_many import simulate_many
from libcook.sweeps.sweep import Sample, SweepWarning, read_sweep, sample, sweep, sweep_readings
from libcook.words.sentences import sentences
from libcook.wraps import Covering, Wrap, wrap, wrap_names

__version__: str = _core.__version__
End = _core.End
Parameter = _core.Parameter
find_stall = _core.find_stall
find_stalls = _core.find_stalls
parameter = _core.parameter
parameters = _core.parameters

__all__ = [
    "Alternative",
    "Bark",
    "Belief",
    "BestPlan",
    "Box",
    "Carryover",
    "Comparison",
    "Composition",
    "Cut",
    "Covering",
    "End",
    "Equations",
    "Event",
    "Estimate",
    "Exudation",
    "FatCap",
    "Film",
    "Finding",
    "FirstOf",
    "Fit",
    "FitSeries",
    "FixedThermal",
    "Forecast",
    "FreeKind",
    "FreeParameter",
    "HeatBudget",
    "HeatSinks",
    "HotHold",
    "InvalidInput",
    "Ledger",
    "LidOpening",
    "Log",
    "Loss",
    "Meat",
    "ModelError",
    "Outcome",
    "Parameter",
    "Physics",
    "Pit",
    "PitAir",
    "PitOutlook",
    "Plan",
    "Probe",
    "ProbeTrace",
    "Remedy",
    "Safety",
    "Sample",
    "Schedule",
    "Section",
    "SectionEquations",
    "Shape",
    "Signal",
    "SolverFailure",
    "Sorption",
    "Spritz",
    "Stage",
    "StageEnd",
    "StageTime",
    "Stall",
    "Surroundings",
    "SweepWarning",
    "Tenderness",
    "Tissue",
    "Unreachable",
    "WaterHolding",
    "WaterMobility",
    "WaterPan",
    "Wrap",
    "bark",
    "belief",
    "best_plan",
    "breathing",
    "brisket",
    "brisket_point_tissue",
    "brisket_seam_tissue",
    "brisket_section",
    "brisket_tissue",
    "calibrate",
    "clock",
    "compare",
    "cooled",
    "core",
    "counter",
    "cut",
    "cuts",
    "elapsed",
    "equations",
    "find_stall",
    "find_stalls",
    "forecast",
    "free_names",
    "holding_oven",
    "insulated_box",
    "oven",
    "parameter",
    "parameters",
    "physics",
    "pit",
    "pit_air",
    "pork_shoulder",
    "pork_shoulder_tissue",
    "prior",
    "read_log",
    "read_sweep",
    "ripple",
    "sample",
    "schedule",
    "schema",
    "sentences",
    "simulate",
    "simulate_many",
    "spritz",
    "start_by",
    "stem_error",
    "sweep",
    "sweep_readings",
    "tender",
    "with_section",
    "wrap",
    "wrap_names",
]

know_classes({name: globals()[name] for name in __all__})

# Names of modules in the version before, which pickles and scripts know.
for _before, _now in {
    "_facts": "readings.facts",
    "_log_events": "logs.events",
    "_log_findings": "logs.findings",
    "_outcome_parts": "readings.parts",
    "_sweep_sample": "sweeps.sample",
    "belief": "fit.belief",
    "calibrate": "fit.calibrate",
    "forecast": "fit.forecast",
    "sentences": "words.sentences",
    "start_time": "fit.start_time",
    "sweep": "sweeps.sweep",
}.items():
    sys.modules.setdefault(f"libcook.{_before}", sys.modules[f"libcook.{_now}"])

# Modules that need an optional library or time to import, by their short names: loaded when first named, as
# in `lc.plots.savefig` or `from libcook.plots import savefig`.
_SHORT = {
    "charts": "figures.charts",
    "fit_plots": "figures.fit_plots",
    "frames": "readings.frames",
    "playground": "playground",
    "plots": "figures.plots",
    "section_plots": "figures.section_plots",
    "start_time": "fit.start_time",
}


class _ShortNames(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Lets an import statement find a module by its short name: the same module, not another."""

    def find_spec(self, name: str, path: Any = None, target: Any = None) -> ModuleSpec | None:
        package, _, short = name.rpartition(".")
        return ModuleSpec(name, self) if package == "libcook" and short in _SHORT else None

    def create_module(self, spec: ModuleSpec) -> ModuleType:
        module = importlib.import_module(f"libcook.{_SHORT[spec.name.rpartition('.')[2]]}")
        spec.loader_state = module.__spec__
        return module

    def exec_module(self, module: ModuleType) -> None:
        if module.__spec__ is not None:  # the import has put that of the short name in its place
            module.__spec__ = module.__spec__.loader_state


sys.meta_path.append(_ShortNames())


def __getattr__(name: str) -> Any:
    if name in _SHORT:
        return importlib.import_module(f"libcook.{_SHORT[name]}")
    raise AttributeError(f"module 'libcook' has no attribute {name!r}")
