"""Right values for the arguments of everything public, and an object of each class; invented and quick."""

import copy
import functools

import numpy as np
from cook_samples import short_plan
from invented_cook import log_until
from invented_cook import plan as invented_plan
from section_samples import section_outcome, section_plan

import libcook as lc


@functools.cache
def plan():
    """Half an hour in a pit: a millisecond."""
    return short_plan(minutes=20.0)


@functools.cache
def outcome():
    return lc.simulate(plan())


@functools.cache
def fit():
    return lc.calibrate(invented_plan(), log_until(5.0), ["thickness"], max_iterations=2)


@functools.cache
def ahead():
    return lc.forecast(invented_plan(), {"4 h": "60 °C"}, members=50, threads=1)


@functools.cache
def log():
    time = np.arange(0.0, 7200.0, 300.0)
    return lc.Log(time, core=4.0 + time / 200.0, pit=np.full(time.size, 118.0))


@functools.cache
def section_equations():
    return lc.equations(section_plan(), grid="cross-section", columns=11, rows=9)


@functools.cache
def schedule():
    return lc.start_by(plan(), "18:00", alternatives=False, members=50, threads=1)


@functools.cache
def best():
    """Nothing to choose but the wrap: a second."""
    meat = lc.brisket("3 lb")
    return lc.best_plan(meat, "18:00", choose=("wrap",), members=50, tries=5, rules=False, threads=1)


@functools.cache
def figure():
    return lc.charts.lines([0.0, 1.0], {"a": [0.0, 1.0]}, "x", "y").figure


_SECTION = functools.partial(lc.brisket_section, lc.brisket())

# One object of each class that is made by something else than its own constructor.
MADE = {
    "Belief": lambda: lc.belief(invented_plan()),
    "BestPlan": best,
    "Comparison": lambda: lc.Comparison({"a": outcome()}),
    "End": lambda: lc.core(70.0),
    "Equations": lambda: lc.equations(plan(), nodes=9),
    "Event": lambda: lc.Event("wrapped", 60.0),
    "Finding": lambda: lc.Finding("found", "x"),
    "FirstOf": lambda: lc.FirstOf((lc.core(70.0),)),
    "Fit": fit,
    "Forecast": ahead,
    "FreeParameter": lambda: lc.prior("thickness"),
    "Log": log,
    "Outcome": outcome,
    "Plan": lambda: copy.copy(plan()),
    "ProbeTrace": lambda: section_outcome().probes["flat"],
    "Sample": lambda: lc.sample({"pit.air": (100.0, 120.0)}, 4),
    "Schedule": schedule,
    "Section": _SECTION,
    "SectionEquations": section_equations,
    "Signal": lambda: lc.schedule([(0.0, 110.0)]),
    "Stage": lambda: copy.copy(plan().stages[0]),
    "StageEnd": lambda: outcome().stage_ends[0],
    "Surroundings": lambda: lc.pit("drum", air=110.0),
    "Wrap": lambda: lc.wrap("foil"),
}

# Right values: of one parameter of one callable, or of all parameters of a name.
RIGHT = {
    "ahead": ahead,
    "air": lambda: 118.0,
    "air_temperature": lambda: 20.0,
    "amplitude": lambda: 2.0,
    "at": lambda: "10 min",
    "core": lambda: np.linspace(4.0, 40.0, 20),
    "curves": lambda: {"a": np.arange(3.0)},
    "composition": lambda: lc.brisket_tissue().composition,
    "component": lambda: "water",
    "cooker": lambda: lc.pit("drum", air=118.0),
    "cooks": lambda: {"a": outcome()},
    "duration": lambda: 3600.0,
    "events": list,
    "every": lambda: "1 h",
    "facing": lambda: "up",
    "figure": lambda: figure(),
    "fit": fit,
    "free": lambda: ["thickness"],
    "immersion": lambda: "60 mm",
    "kind": lambda: "drum",
    "length": lambda: 0.3,
    "log": log,
    "mean": lambda: 118.0,
    "meat": lc.brisket,
    "members": lambda: 50,
    "n": lambda: 4,
    "name": lambda: "x",
    "outcome": outcome,
    "parameters": lambda: {"pit.air": [118.0]},
    "place": lambda: ("12 cm", "3 cm"),
    "plan": plan,
    "plans": lambda: [plan()],
    "points": lambda: [("0 h", 110.0)],
    "ranges": lambda: {"pit.air": (100.0, 120.0)},
    "section": _SECTION,
    "serve": lambda: "18:00",
    "share": lambda: 0.8,
    "surface_temperature": lambda: 60.0,
    "temperature": lambda: 60.0,
    "time": lambda: np.linspace(0.0, 7200.0, 20),
    "time_of_day": lambda: "18:00",
    "times": lambda: ["10 min"],
    "title": lambda: "t",
    "value": lambda: 1.0,
    "values": lambda: np.zeros((2, 3)),
    "vapour_pressure": lambda: 8000.0,
    "x": lambda: np.arange(3.0),
    "xlabel": lambda: "x [h]",
    "y": lambda: np.arange(2.0),
    "ylabel": lambda: "y [°C]",
    # physics
    "velocity": lambda: 1.0,
    "film_temperature": lambda: 60.0,
    "humidity_ratio": lambda: 0.02,
    "relative_humidity": lambda: 0.5,
    "pressure": lambda: 101325.0,
    "rayleigh": lambda: 1e6,
    "reynolds": lambda: 1e4,
    "prandtl": lambda: 0.7,
    "phase_1": lambda: 0.5,
    "phase_2": lambda: 0.2,
    "volume_fraction_1": lambda: 0.5,
    "continuous": lambda: 0.5,
    "dispersed": lambda: 0.2,
    "dispersed_volume_fraction": lambda: 0.3,
    "mass_transfer_coefficient": lambda: 0.01,
    "surface_vapour_pressure": lambda: 20000.0,
    # of one callable
    "Comparison.outcomes": lambda: {"a": outcome()},
    "Equations.core.y": lambda: MADE["Equations"]().initial(),
    "Equations.rhs.t": lambda: 0.0,
    "Equations.rhs.y": lambda: MADE["Equations"]().initial(),
    "Equations.temperatures.y": lambda: MADE["Equations"]().initial(),
    "Event.kind": lambda: "wrapped",
    "Event.time": lambda: 60.0,
    "Finding.action": lambda: "found",
    "Finding.text": lambda: "x",
    "Fit.correlation.a": lambda: 0,
    "Fit.correlation.b": lambda: 0,
    "Fit.forecast.log": lambda: {"4 h": "60 °C"},
    "Fit.from_json.text": lambda: fit().to_json(),
    "FirstOf.ends": lambda: [lc.core(70.0)],
    "Forecast.chance_after.time": lambda: "11 h",
    "Forecast.core_quantile.q": lambda: 0.5,
    "Forecast.finish_quantile.q": lambda: 0.5,
    "Forecast.gain_quantile.q": lambda: 0.5,
    "Forecast.update.log": lambda: {"4 h": "60 °C"},
    "FreeParameter.name": lambda: "thickness",
    "Log.mark.at": lambda: "1 h",
    "Log.mark.kind": lambda: "wrapped",
    "Log.series.name": lambda: "core",
    "Log.to_csv.path": lambda: "log.csv",
    "Log.to_parquet.path": lambda: "log.parquet",
    "Log.with_events.events": list,
    "Outcome.core_at.time": lambda: "10 min",
    "Outcome.from_json.text": lambda: outcome().to_json(),
    "Plan.from_json.text": lambda: plan().to_json(),
    "Section.place.name": lambda: "flat",
    "Section.thickness_at.x": lambda: 0.1,
    "SectionEquations.core.y": lambda: section_equations().initial(),
    "SectionEquations.heat.y": lambda: section_equations().initial(),
    "SectionEquations.jacobian.t": lambda: 0.0,
    "SectionEquations.jacobian.y": lambda: section_equations().initial(),
    "SectionEquations.rhs.t": lambda: 0.0,
    "SectionEquations.rhs.y": lambda: section_equations().initial(),
    "SectionEquations.temperatures.y": lambda: section_equations().initial(),
    "SectionEquations.water.y": lambda: section_equations().initial(),
    "Signal.at.time": lambda: "1 h",
    "Sorption.water_activity.water_content": lambda: 0.3,
    "Sorption.water_content.activity": lambda: 0.5,
    "StageEnd.time": lambda: 0.0,
    "StageEnd.core": lambda: 0.0,
    "StageEnd.start": lambda: 0.0,
    "StageEnd.reason": lambda: "x",
    "ProbeTrace.x": lambda: 0.0,
    "ProbeTrace.z": lambda: 0.0,
    "ProbeTrace.temperature": lambda: np.zeros(1),
    "ProbeTrace.tenderness": lambda: np.zeros(1),
    "Sample.unit": lambda: np.zeros((4, 1)),
    "Sample.how": lambda: "sobol",
    "Sample.seed": lambda: 0,
    "Surroundings.validate.field": lambda: "pit",
    "belief.plan": invented_plan,
    "best_plan.choose": lambda: ("wrap",),
    "best_plan.plan": lambda: lc.brisket("3 lb"),
    "best_plan.rules": lambda: False,
    "best_plan.threads": lambda: 1,
    "best_plan.tries": lambda: 5,
    "calibrate.plan": invented_plan,
    "calibrate.log": lambda: log_until(5.0),
    "calibrate.max_iterations": lambda: 1,
    "calibrate.threads": lambda: 1,
    "compare.cooks": lambda: {"a": outcome()},
    "core.temperature": lambda: 70.0,
    "fit_plots.plot_forecast.ahead": ahead,
    "forecast.plan": invented_plan,
    "forecast.log": lambda: {"4 h": "60 °C"},
    "forecast.threads": lambda: 1,
    "parameter.name": lambda: "brisket.mass",
    "physics.dew_point.vapour_pressure": lambda: 8000.0,
    "physics.natural_plate.facing": lambda: "up",
    "physics.saturation_temperature.pressure": lambda: 8000.0,
    "physics.wet_bulb.vapour_pressure": lambda: 3000.0,
    "plots.savefig.path": lambda: "x.png",
    "prior.name": lambda: "thickness",
    "read_log.source": lambda: "time [min],core [°C],pit [°C]\n0,4,118\n30,9,119\n60,14,118\n",
    "read_sweep.folder": lambda: _sweep_folder(),
    "section_plots.animate.outcome": section_outcome,
    "section_plots.animate.frames": lambda: 2,
    "Fit.sample.steps": lambda: 10,
    "Fit.sample.walkers": lambda: 2,
    "section_plots.animate.path": lambda: "x.gif",
    "section_plots.probe_map.outcome": section_outcome,
    "section_plots.probe_shift.outcome": section_outcome,
    "section_plots.probe_shift.at": lambda: "2 h",
    "section_plots.savefig.path": lambda: "x.png",
    "section_plots.section_map.outcome": section_outcome,
    "start_by.threads": lambda: 1,
    "start_by.alternatives": lambda: False,
    "start_by.remedies": lambda: False,
    "sweep.workers": lambda: 1,
    "units.celsius_to_fahrenheit.celsius": lambda: 1.0,
    "units.fahrenheit_to_celsius.fahrenheit": lambda: 1.0,
    "units.format_clock.seconds": lambda: 1.0,
    "units.format_difference.kelvin": lambda: 1.0,
    "units.format_duration.seconds": lambda: 1.0,
    "units.format_mass.kilograms": lambda: 1.0,
    "units.format_temperature.celsius": lambda: 1.0,
    "units.kelvin_to_celsius.kelvin": lambda: 300.0,
    "units.parse.kind": lambda: "mass",
    "units.parse_clock.value": lambda: "18:00",
    "units.temperature_unit.units": lambda: "C",
    "units.to_si.kind": lambda: "mass",
    "units.to_si.field": lambda: "value",
    "wrap.name": lambda: "foil",
}
# Left out of the signature's defaults because they make a call quick.
QUICK = {
    "best_plan": ("choose", "members", "tries", "rules", "threads"),
    "forecast": ("members", "threads"),
    "start_by": ("members", "threads", "alternatives", "remedies"),
    "calibrate": ("max_iterations", "threads"),
    "sweep": ("workers",),
    "section_plots.animate": ("frames",),
    "Fit.sample": ("steps", "walkers"),
}


@functools.cache
def _sweep_folder():
    lc.sweep(plan(), {"pit.air": [118.0]}, to="a sweep", workers=1, load=False)
    return "a sweep"
