"""A sweep reads what one simulation at a time reads, whatever runs it."""

import concurrent.futures
import itertools
import multiprocessing
import sys

import numpy as np
import pandas as pd
import pytest
import scipy.stats
import xarray as xr
from sweep_samples import PIT, RANGES, alone, equal, late_core, plan

import libcook as lc

GRID = {
    "pit.air": ["107 °C", "121 °C"],
    "stages.wrapped.wrap": ["butcher paper", "foil", None],
    "stages[0].until": [lc.core("55 °C"), "65 °C"],
}


def grid_plan(air, wrap, core):
    made = plan()
    for stage in made.stages[:2]:
        stage.surroundings.air = air
    made.stages[1].wrap = wrap
    made.stages[0].until = lc.core(core)
    return made


def test_a_grid_is_what_one_at_a_time_gives():
    found = lc.sweep(plan(), GRID)
    assert dict(found.sizes) == {"pit.air": 2, "stages.wrapped.wrap": 3, "stages[0].until": 2, "stage": 3}
    assert found["stages.wrapped.wrap"].values.tolist() == ["butcher paper", "foil", "none"]
    for air, wrap, core in itertools.product([107.0, 121.0], ["butcher paper", "foil", "none"], [55.0, 65.0]):
        cook = found.sel({"pit.air": air, "stages.wrapped.wrap": wrap, "stages[0].until": core})
        assert equal(cook, alone(grid_plan(air, wrap, core)))


def test_a_sample_is_what_one_at_a_time_gives():
    sample = lc.sample(RANGES, n=16, seed=3)
    found = lc.sweep(plan(), sample)
    assert found.sizes["cook"] == 16
    air = found["pit.air"].values
    assert 107.0 <= air.min() < 109.0 and 133.0 < air.max() <= 135.0  # 16 evenly spread strata
    mobility = np.log10(found["meat.tissue.mobility.expressed"].values)
    np.testing.assert_array_equal(np.sort(np.floor(16.0 * (mobility + 8.0))), np.arange(16))
    for i in range(16):
        cook = found.isel(cook=i)
        made = grid_plan(
            float(cook["pit.air"]), str(cook["stages.wrapped.wrap"].values), float(cook["stages.smoke.until"])
        )
        made.meat.tissue.mobility.expressed = float(cook["meat.tissue.mobility.expressed"])
        assert equal(cook, alone(made))


def test_a_table_has_a_cook_in_each_row():
    frame = pd.DataFrame({"meat.thickness": ["4 cm", "3.5 cm", "4 cm"], "pit.air": [121.0, 121.0, 110.0]})
    found = lc.sweep(plan(), frame)
    assert found["meat.thickness"].values.tolist() == pytest.approx([0.04, 0.035, 0.04])
    assert found.finish_time[1] < found.finish_time[0] < found.finish_time[2]
    np.testing.assert_allclose(found.raw_mass, 2.0, rtol=1e-12)


def test_a_latin_hypercube_and_a_distribution():
    ranges = {"pit.air": scipy.stats.norm(121.0, 4.0), "meat.start": ("2 °C", "8 °C")}
    found = lc.sweep(plan(), lc.sample(ranges, n=20, how="latin", seed=1), readings="finish_time")
    start = np.sort(found["meat.start"].values)
    np.testing.assert_array_equal(np.floor(20.0 * (start - 2.0) / 6.0), np.arange(20))
    assert abs(float(found["pit.air"].mean()) - 121.0) < 1.0 and found["pit.air"].std() > 2.0
    again = lc.sample(ranges, n=20, how="latin", seed=1)
    np.testing.assert_array_equal(again.unit, lc.sample(ranges, n=20, how="latin", seed=1).unit)
    assert (again.unit != lc.sample(ranges, n=20, how="latin", seed=2).unit).all()


def test_the_result_does_not_depend_on_the_workers():
    sample = lc.sample(RANGES, n=64)
    wanted = ["finish_time", "stall_duration", "stage_end", {"late": late_core}]

    def run(**options):
        return lc.sweep(plan(), sample, readings=wanted, traces=["core", "air"], **options)

    one = run(workers=1)
    xr.testing.assert_identical(run(), one)
    xr.testing.assert_identical(run(workers=3, chunk=5), one)
    with concurrent.futures.ThreadPoolExecutor(4) as pool:
        xr.testing.assert_identical(run(workers=pool), one)
    spawn = multiprocessing.get_context("spawn")
    with concurrent.futures.ProcessPoolExecutor(2, mp_context=spawn) as pool:
        xr.testing.assert_identical(run(workers=pool, chunk=7), one)
    assert not any(
        np.isnan(one[name]).any() for name in ("finish_time", "stall_duration", "stage_end", "late")
    )


def test_the_plan_is_not_changed():
    before, after = plan(), plan()
    lc.sweep(after, GRID, readings="finish_time")
    assert after == before


def test_traces_share_a_time_axis_and_end_with_the_cook():
    found = lc.sweep(
        plan(), {"pit.air": [107.0, 135.0]}, readings="end_time", traces="core", output_every=600
    )
    assert found["time"].values[1] == 600.0 and found["time"].attrs["units"] == "s"
    for air in (107.0, 135.0):
        made = grid_plan(air, "butcher paper", 60.0)
        out = alone(made, output_every=600.0)
        trace = found["core_trace"].sel({"pit.air": air})
        inside = found["time"].values <= out.time[-1]
        np.testing.assert_array_equal(np.isnan(trace.values), ~inside)
        expected = [out.core_at(t) for t in found["time"].values[inside]]
        np.testing.assert_allclose(trace.values[inside], expected, rtol=1e-12)


def test_cooks_that_fail_are_counted_with_their_reason_and_the_others_are_whole():
    cool = {"stages.smoke.until": ["60 °C", "200 °C"], "stages.wrapped.at_most": ["1 min", "48 h"]}
    with pytest.warns(lc.SweepWarning, match="3 of 4 cooks have no whole result") as told:
        found = lc.sweep(plan(), cool)
    assert told[0].filename == __file__
    failed = found["failure"] != ""
    assert found.attrs["failed"] == 3 and int(failed.sum()) == 3
    good = found.sel({"stages.smoke.until": 60.0, "stages.wrapped.at_most": 48 * 3600.0})
    assert equal(good, alone(plan()))
    for name in found.data_vars:
        if name != "failure":
            assert np.isnan(found[name].where(failed, drop=False).values).all()
    reasons = found["failure"].values
    assert reasons[0, 0].startswith(
        "Unreachable: stages[1].until: in 'wrapped' core at 176 °F (80 °C) was not reached"
    )
    assert reasons[1, 0].startswith(
        "InvalidInput: stages[0].until: a core of 392 °F (200 °C) cannot be reached"
    )


def test_values_that_do_not_go_together_fail_alone():
    with pytest.warns(lc.SweepWarning, match="1 of 2"):
        found = lc.sweep(plan(), {"meat.tissue.composition.water": [0.6989, 0.5]}, readings="finish_time")
    assert np.isnan(found.finish_time.values).tolist() == [False, True]


def test_every_number_is_there_but_for_those_documented():
    found = lc.sweep(plan(), lc.sample(RANGES, n=32))
    for name, variable in found.data_vars.items():
        if name != "failure" and "NaN" not in variable.attrs["long_name"]:
            assert np.isfinite(variable.values).all(), name
    assert set(lc.sweep_readings()) | {"failure"} == set(found.data_vars)


def test_every_variable_says_what_it_is_in_which_units():
    found = lc.sweep(plan(), GRID | {"meat.mass": ["2 kg"]}, traces="core")
    for name, variable in found.variables.items():
        assert variable.attrs["long_name"], name
        if variable.dtype.kind == "f":
            assert variable.attrs["units"], name
    assert found["stages[0].until"].attrs["units"] == "degC"
    assert found["pit.air"].attrs == {"units": "degC", "long_name": found["pit.air"].attrs["long_name"]}
    assert "air temperature" in found["pit.air"].attrs["long_name"]
    assert "local food-safety rules" in found.attrs["caution"]
    assert lc.Plan.from_json(found.attrs["plan"]) == plan()


def test_readings_are_chosen_by_name_and_made_by_the_user():
    wanted = ["yield", {"late": (late_core, "degC"), "pulled": "finish_time"}, {"hot": lambda out: None}]
    found = lc.sweep(plan(), {"meat.start": [4.0]}, readings=wanted)
    assert list(found.data_vars) == ["yield", "late", "pulled", "hot", "failure"]
    assert found["late"].attrs["units"] == "degC" and found["pulled"].attrs["units"] == "s"
    assert float(found["late"][0]) == alone(plan()).core_at("1 h") and np.isnan(found["hot"][0])


def test_a_reading_that_has_no_answer_fails_that_cook_and_keeps_the_rest():
    with pytest.warns(lc.SweepWarning, match="1 of 1"):
        found = lc.sweep(
            plan(), {"meat.start": [4.0]}, readings=["yield", {"too late": lambda out: out.core_at("90 h")}]
        )
    assert np.isfinite(found["yield"][0]) and np.isnan(found["too late"][0])
    assert str(found["failure"].values[0]).startswith("readings['too late']: time: ")


def test_a_mistake_in_a_callable_is_not_swallowed():
    with pytest.raises(AttributeError, match="coer"):
        lc.sweep(plan(), {"meat.start": [4.0, 5.0]}, readings={"slip": lambda out: out.coer})
    with pytest.raises(lc.InvalidInput, match=r"readings\['text'\]: it returned str; a number is accepted"):
        lc.sweep(plan(), {"meat.start": [4.0]}, readings={"text": lambda out: "text"})


def test_the_holding_temperature_and_the_fields_can_be_asked_for():
    deep = {"deep": lambda out: out.probe("1 cm")[-1]}
    found = lc.sweep(plan(), {"meat.start": [4.0]}, readings=["held", deep], hold="70 °C", keep_fields=True)
    out = alone(plan(), keep_fields=True)
    assert float(found["held"][0]) == out.time_above("70 °C")
    assert float(found["deep"][0]) == out.probe("1 cm")[-1]


def test_a_cross_section_is_swept_too():
    early = lc.Plan(lc.brisket(mass=2.0, thickness="40 mm"), [lc.Stage("s", PIT, until=lc.elapsed("5 min"))])
    found = lc.sweep(early, {"pit.air": [110.0, 130.0]}, grid="cross-section", readings="stage_core")
    early.stages[0].surroundings.air = 130.0
    out = lc.simulate(early, grid="cross-section", keep_fields=False, output_every="5 min")
    assert float(found["stage_core"][1, 0]) == out.stage_ends[0].core


def test_named_values_and_objects_that_are_called_the_same():
    thick = lc.wrap("foil").replace(top=lc.wrap("foil").top.replace(heat_resistance=0.05))
    found = lc.sweep(plan(), {"stages[1].wrap": ["foil", thick]}, readings="finish_time")
    assert found["stages[1].wrap"].values.tolist() == ["foil", "foil (2)"]
    calm, windy = lc.schedule([("0 h", 110.0), ("2 h", 120.0)]), lc.ripple("115 °C", "10 °C", "20 min")
    found = lc.sweep(plan(), {"pit.air": {"calm": calm, "windy": windy}}, readings="finish_time")
    assert found["pit.air"].values.tolist() == ["calm", "windy"]
    ends = [lc.core("60 °C"), lc.elapsed("1 h"), lc.core("60 °C") | lc.elapsed("40 min")]
    found = lc.sweep(plan(), {"stages[0].until": ends}, readings="finish_time")
    assert found["stages[0].until"].values.tolist() == ["core 60.0 °C", "1 h", "core 60.0 °C | 40 min"]


def test_progress_counts_every_cook_once(capsys):
    told = []
    lc.sweep(plan(), {"meat.start": range(2, 12)}, readings="yield", progress=lambda *at: told.append(at))
    assert told == [(i, 10) for i in range(1, 11)]
    lc.sweep(plan(), {"meat.start": [4.0]}, readings="yield")
    assert capsys.readouterr() == ("", "")  # nobody looks: no bar
    lc.sweep(plan(), {"meat.start": [4.0, 5.0]}, readings="yield", progress=True)
    assert "2/2" in capsys.readouterr().err


def test_without_tqdm_a_bar_that_was_asked_for_is_missed(monkeypatch):
    monkeypatch.setitem(sys.modules, "tqdm", None)
    with pytest.raises(ImportError, match=r"libcook\[sweep\]"):
        lc.sweep(plan(), {"meat.start": [4.0]}, readings="yield", progress=True)
    assert lc.sweep(plan(), {"meat.start": [4.0]}, readings="yield").sizes["meat.start"] == 1


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ({"parameters": {}}, "parameters: dict came"),
        ({"parameters": {"pit.air": "121 °C"}}, r"parameters\['pit.air'\]: '121 °C' came; a list such as"),
        ({"parameters": {"pit.air": ("107 °C", "135 °C")}}, "a tuple came, which is a range; .*sample"),
        ({"parameters": {"pit.air": []}}, "no values came"),
        ({"parameters": {"pit.air": ["107 °C", 107.0]}}, r"parameters\['pit.air'\]\[1\]: 107.0 came twice"),
        ({"parameters": {"pit.air": ["hot"]}}, r"parameters\['pit.air'\]\[0\]: "),
        ({"parameters": {"stages[1].wrap": ["paper"]}}, r"\['stages\[1\].wrap'\]\[0\]: 'paper' is not"),
        ({"parameters": lc.sample({"pit.air": ("135 °C", "107 °C")}, n=2)}, "does not rise"),
        ({"parameters": lc.sample({"meat.start": (0.0, 5.0, "log")}, n=2)}, "reaches down to 0"),
        ({"parameters": lc.sample({"stages[1].wrap": ("foil", "pan")}, n=2)}, "no range of numbers"),
        ({"parameters": pd.DataFrame({"pit.air": [120.0, np.nan]})}, r"\[1\]: nan is not a finite number"),
        ({"readings": "finish"}, "'finish' is not known; .*did you mean 'finish_time'?"),
        ({"readings": ["yield", "yield"]}, "'yield' came twice"),
        ({"readings": {"x": 3}}, r"readings\['x'\]: 3 came"),
        ({"readings": {"failure": late_core}}, "that name is taken"),
        ({"traces": "cor"}, "traces: 'cor' is not known; .*did you mean 'core'?"),
        ({"grid": "cube"}, "grid: 'cube' is not known"),
        ({"workers": 0}, "workers: 0 came"),
        ({"workers": "many"}, "workers: 'many' is not a count"),
        ({"chunk": 0}, "chunk: 0 came"),
        ({"load": False}, "load: load=False came without a folder"),
        ({"hold": "500 °C"}, "hold: '500 °C' is above the range"),
    ],
)  # fmt: skip
def test_bad_arguments_are_named_before_any_work(arguments, message):
    with pytest.raises(lc.InvalidInput, match=message):
        lc.sweep(plan(), **({"parameters": {"meat.start": [4.0]}} | arguments))


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (({"pit.air": (1, 2)}, 100), "sample.n: 100 is not a power of two.*such as 64 or 128 is accepted"),
        (({"pit.air": (1, 2)}, 0), "sample.n: 0 cooks came"),
        (({"pit.air": (1, 2)}, 8, "sobl"), "sample.how: 'sobl' is not known.*did you mean 'sobol'?"),
        (({"pit.air": 3.0}, 8), r"sample.ranges\['pit.air'\]: 3.0 came"),
        (({"pit.air": (1, 2, "lg")}, 8), r"\(low, high\) or \(low, high, 'log'\) is accepted"),
        (([], 8), "sample.ranges: list came"),
    ],
)
def test_bad_samples_are_named(arguments, message):
    with pytest.raises(lc.InvalidInput, match=message):
        lc.sample(*arguments)


@pytest.mark.parametrize(
    ("package", "call"),
    [
        ("xarray", lambda _: lc.sweep(plan(), {"meat.start": [4.0]})),
        ("pyarrow.parquet", lambda folder: lc.sweep(plan(), {"meat.start": [4.0]}, to=folder)),
        ("scipy.stats.qmc", lambda _: lc.sample({"meat.start": (2.0, 4.0)}, n=2)),
    ],
)
def test_what_is_missing_is_named_with_the_command_that_brings_it(package, call, monkeypatch, tmp_path):
    monkeypatch.setitem(sys.modules, package, None)
    with pytest.raises(
        ImportError, match=rf"needs {package.split('.')[0]}, .*pip install 'libcook\[sweep\]'"
    ):
        call(tmp_path / "cooks")


def test_a_lambda_is_refused_by_a_process_pool_before_any_work():
    with concurrent.futures.ProcessPoolExecutor(1) as pool:
        with pytest.raises(
            lc.InvalidInput, match=r"readings\['late'\]: it cannot be sent to another process"
        ):
            lc.sweep(plan(), {"meat.start": [4.0]}, readings={"late": lambda out: 1.0}, workers=pool)
