"""What `import libcook as lc` gives is what it gave before the package was moved into rooms."""

import importlib
import pickle
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from cook_samples import short_plan

import libcook as lc

PICKLES = Path(__file__).resolve().parents[1] / "data" / "pickles"

# Public names that are modules, of the version before; with `__all__`, all that `dir(lc)` held.
MODULES = """
    charts cookers ends errors fit_plots frames logs meat outcome plan playground plots
    section_plots sections signals start_time units wraps
"""

# `__all__` of the version before.
NAMES = """
    Alternative Bark Belief Box Carryover Comparison Composition Cut Covering End Equations Event
    Estimate Exudation FatCap Film Finding FirstOf Fit FitSeries FixedThermal Forecast FreeKind
    FreeParameter HeatBudget HeatSinks HotHold InvalidInput Ledger LidOpening Log Loss Meat
    ModelError Outcome Parameter Physics Pit PitAir PitOutlook Plan Probe ProbeTrace Remedy Safety
    Sample Schedule Section SectionEquations Shape Signal SolverFailure Sorption Spritz Stage
    StageEnd StageTime Stall Surroundings SweepWarning Tenderness Tissue Unreachable WaterHolding
    WaterMobility WaterPan Wrap bark belief breathing brisket brisket_point_tissue
    brisket_seam_tissue brisket_section brisket_tissue calibrate clock compare cooled core counter
    cut cuts elapsed equations find_stall find_stalls forecast free_names holding_oven insulated_box
    oven parameter parameters physics pit pit_air pork_shoulder pork_shoulder_tissue prior read_log
    read_sweep ripple sample schedule schema sentences simulate simulate_many spritz start_by
    stem_error sweep sweep_readings tender with_section wrap wrap_names
"""

# What has come since.
ADDED = "BestPlan best_plan"


def test_the_public_names_are_those_of_before():
    assert sorted(lc.__all__) == sorted([*NAMES.split(), *ADDED.split()])


@pytest.mark.parametrize("name", MODULES.split())
def test_public_modules_are_where_they_were(name):
    module = getattr(lc, name)
    assert module.__name__.startswith("libcook.") and module.__doc__
    assert importlib.import_module(module.__name__) is module


def test_public_objects_say_a_module_where_they_are():
    for name in lc.__all__:
        thing = getattr(lc, name)
        if isinstance(thing, type):
            home = importlib.import_module(thing.__module__)
            assert getattr(home, thing.__name__) is thing, name
            private = [part for part in thing.__module__.split(".") if part.startswith("_")]
            assert private in ([], ["_core"]), name


def old(name):
    return pickle.loads((PICKLES / f"{name}.pickle").read_bytes())


def test_pickles_of_before_are_read():
    """Written by the version before; the plan is `short_plan`, invented."""
    log = old("log")
    assert type(log) is lc.Log
    assert [type(event) for event in log.events] == [lc.Event] and type(log.summary[0]) is lc.Finding
    fit = old("fit")
    assert type(fit) is lc.Fit and repr(pickle.loads(pickle.dumps(fit))) == repr(fit)
    outcome = old("outcome")
    assert type(outcome) is lc.Outcome and outcome.plan == short_plan()
    assert [type(end) for end in old("stage_ends")] == [lc.StageEnd] * 2
    assert type(old("sample")) is lc.Sample and type(old("forecast")) is lc.Forecast
    assert type(old("schedule")) is lc.Schedule and type(old("comparison")) is lc.Comparison
    assert old("ends") == lc.core(70.0) | lc.elapsed("6 h")
    error = old("invalid")
    assert type(error) is lc.InvalidInput and error.field == "mass"
    np.testing.assert_array_equal(old("comparison").outcomes["a"].time, outcome.time)


def test_every_pickle_of_before_is_looked_at():
    assert {path.stem for path in PICKLES.glob("*.pickle")} == {
        "comparison", "ends", "fit", "forecast", "invalid", "log", "outcome", "sample", "schedule",
        "stage_ends",
    }  # fmt: skip


def test_a_short_name_is_a_module_only_once_it_is_asked_for():
    code = (
        "import sys, libcook as lc; assert 'libcook.figures.plots' not in sys.modules\n"
        "lc.plots; from libcook import plots; assert plots is sys.modules['libcook.figures.plots']"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


@pytest.mark.parametrize("name", [*MODULES.split(), *"belief calibrate forecast sentences sweep".split()])
def test_import_statements_of_before_find_the_same_module(name):
    code = (
        f"import libcook as lc; kept = {{n: getattr(lc, n) for n in lc.__all__}}\nimport libcook.{name}\n"
        f"import importlib, sys; module = sys.modules['libcook.{name}']\n"
        "assert sys.modules[module.__name__] is module and module.__spec__.name == module.__name__\n"
        "assert all(getattr(lc, n) is thing for n, thing in kept.items())"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
