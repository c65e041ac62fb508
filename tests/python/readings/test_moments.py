"""Timed ends: every one is kept, at its own time and with its own name, alone and side by side."""

import numpy as np
import pytest

import libcook as lc

COARSE = {"nodes": 9, "output_every": "1 h", "keep_fields": False}


def test_an_end_beside_a_row_of_the_log_is_kept():
    pit = lc.pit("drum", air=([0, 3960, 36000], [110.0, 120, 118]))
    plan = lc.Plan(lc.brisket(), [lc.Stage("smoke", pit, until=lc.elapsed("1.1 h"), at_most="12 h")])
    for out in (lc.simulate(plan), *lc.simulate_many([plan] * 3)):
        (end,) = out.stage_ends
        assert end.time == lc.elapsed("1.1 h").value
        assert end.reason == "66 min elapsed"
        assert out.time[-1] == end.time


def test_each_of_2400_texts_of_hours_ends_at_its_time_alone_and_in_a_batch():
    plans, wanted = [], []
    for hundredth in range(1, 2401):
        end = lc.elapsed(f"{hundredth / 100:.2f} h")
        row = 36.0 * hundredth  # what the text means; the end may be a rounding error beside it
        pit = lc.pit("drum", air=([0.0, row, row + 36000.0], [110.0, 120.0, 118.0]))
        plans.append(lc.Plan(lc.brisket(), [lc.Stage("smoke", pit, until=end)]))
        wanted.append(end.value)
    assert sum(value != 36.0 * (i + 1) for i, value in enumerate(wanted)) > 50
    beside = lc.simulate_many(plans, **COARSE)
    for i, (plan, value, other) in enumerate(zip(plans, wanted, beside, strict=True)):
        for out in (lc.simulate(plan, **COARSE), other) if i % 8 == 0 else (other,):
            assert [end.time for end in out.stage_ends] == [value]
            assert out.stage_ends[0].reason.endswith("elapsed")
            assert out.time[-1] == value


@pytest.mark.parametrize("beside", ["spritz", "lid", "look"])
def test_an_end_beside_a_spray_a_lid_or_a_look_is_kept(beside):
    for hours in ("0.57 h", "1.1 h", "1.13 h", "2.26 h", "4.4 h", "8.3 h"):
        seconds = lc.elapsed(hours).value
        near = float(round(seconds))
        stage = lc.Stage("smoke", lc.pit("drum", air="250 °F"), until=lc.elapsed(hours), at_most="20 h")
        if beside == "spritz":
            stage.spritz = lc.Spritz(every=near, first=near, amount=0.02, lid_open=0.0)
        elif beside == "lid":
            stage.lid = [lc.LidOpening(near, 60.0)]
        else:
            stage.until = [*stage.until, lc.core("200 °F", every=near)]
        out = lc.simulate(lc.Plan(lc.brisket(), [stage]))
        assert out.stage_ends[0].time == seconds
        assert out.events == []  # the end comes first


def test_of_two_timed_ends_the_one_that_ends_it_is_named():
    pit = lc.pit("drum", air="250 °F")
    for ends in (["5 h", "3 h"], ["3 h", "5 h"], ["4 h", "3 h", "5 h"]):
        plan = lc.Plan(lc.brisket(), [lc.Stage("smoke", pit, until=[lc.elapsed(e) for e in ends])])
        for out in (lc.simulate(plan), *lc.simulate_many([plan, plan])):
            assert out.stage_ends[0].time == 3 * 3600.0
            assert out.stage_ends[0].reason == "3 h elapsed"
    by_clock = lc.Plan(
        lc.brisket(), [lc.Stage("smoke", pit, until=lc.elapsed("5 h") | lc.clock("20:00"))], start="18:00"
    )
    assert lc.simulate(by_clock).stage_ends[0].reason == "clock at 20:00"


def test_a_stage_until_the_time_of_day_that_it_is_does_not_wait_for_tomorrow():
    pit = lc.pit("drum", air="250 °F")
    for hours in ("1.1 h", "4.4 h", "0.57 h"):
        seconds = lc.elapsed(hours).value
        start = (18 * 3600.0 - seconds) % 86400.0
        stages = [
            lc.Stage("smoke", pit, until=lc.elapsed(hours)),
            lc.Stage("wait", pit, until=lc.clock("18:00")),
            lc.Stage("on", pit, until=lc.elapsed("1 h")),
        ]
        out = lc.simulate(lc.Plan(lc.brisket(), stages, start=start))
        assert out.time[-1] == pytest.approx(seconds + 3600.0)
        (note,) = out.notes
        assert "'wait'" in note and "18:00" in note


def test_no_stored_moment_is_lost_beside_a_row_of_the_log():
    rows = np.arange(1, 40) * 60.0
    near = np.nextafter(rows, 0.0)
    pit = lc.pit("drum", air=([0.0, *near], np.linspace(100.0, 120.0, 40)))
    out = lc.simulate(lc.Plan(lc.brisket(), [lc.Stage("smoke", pit, until=lc.elapsed("39 min"))]))
    np.testing.assert_allclose(out.time, np.arange(40) * 60.0, rtol=0.0, atol=1e-6)


def test_an_end_by_the_clock_is_not_looked_for():
    for end in (lc.End("elapsed", 3600.0, every=1000.0), lc.End("clock", 3600.0, every=1000.0)):
        with pytest.raises(lc.InvalidInput, match="known beforehand"):
            lc.Plan(lc.brisket(), [lc.Stage("a", lc.oven("250 °F"), until=end)], start="00:00")


def test_a_lid_opened_for_long_stays_open_when_somebody_looks_in_between():
    pit = lc.pit("drum", air=121.0, ambient=20.0)
    stage = lc.Stage("smoke", pit, until=lc.elapsed("1 h"), lid=[("10 min", "15 min"), ("12 min", "10 s")])
    out = lc.simulate(lc.Plan(lc.brisket(), [stage]))
    dipped = 20.0 + 101.0 / 3.0
    assert np.interp(20 * 60.0, out.time, out.air) == pytest.approx(dipped)
    assert [what for _, what in out.events] == ["lid", "lid"]


def test_a_month_of_sprays_a_minute_is_cooked_not_given_up():
    """Each spray asks for some steps: the cook gets on, however many there are in all."""
    stage = lc.Stage(
        "smoke",
        lc.pit("drum", air="225 °F"),
        until=lc.elapsed("20 d"),
        spritz=lc.Spritz(every=60.0, first=0.0, amount=0.05, lid_open=20.0),
        at_most="30 d",
    )
    out = lc.simulate(lc.Plan(lc.brisket(), [stage]), nodes=9, output_every="6 h", keep_fields=False)
    assert out.ledger.steps > 200_000
    assert out.stage_ends[0].time == 20 * 86400.0
    assert abs(out.ledger.water_residual) < 1e-9


def test_air_that_swings_too_fast_to_be_followed_says_so():
    pit = lc.pit("drum", air=lc.ripple("250 °F", "9 °F", "10 s"))
    plan = lc.Plan(lc.brisket(), [lc.Stage("smoke", pit, until=lc.elapsed("2 d"), at_most="3 d")])
    with pytest.raises(lc.SolverFailure, match="swings every 10 s, which meat hardly feels"):
        lc.simulate(plan, nodes=9, output_every="6 h", keep_fields=False, max_steps=5000)
    assert lc.simulate(plan, nodes=9, output_every="6 h", keep_fields=False).stage_ends
