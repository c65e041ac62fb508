"""Proposed events: how often they hit and how often they are false alarms, on invented logs."""

from collections import Counter

import numpy as np
import pytest
from invented_logs import HOUR, MINUTE, invented_log

from libcook.logs import Log
from libcook.logs.detect.lids import COARSEST, lid_dips

NEAR = 15.0 * MINUTE
# wrap, lids, spritz, probe, pulled, raised
SCENES = [
    (True, True, False, False, "", False),
    (False, True, False, False, "", False),
    (True, True, True, False, "pit falls", False),
    (False, True, True, True, "pit stays", False),
    (False, False, False, False, "", True),
    (True, False, False, True, "pit stays", True),
    (False, False, False, False, "pit falls", False),
    (False, True, True, False, "", True),
]
FIRST, ROUNDS = 5000, 10  # the limits were chosen on other seeds
LID = ("lid opened", "spritzed")


def same(proposed: str, true: str) -> bool:
    """A dip shows a lid; what it was opened for is another question, asked apart."""
    return proposed == true or (true in LID and proposed in LID)


@pytest.fixture(scope="module")
def rates() -> dict[str, dict[str, float]]:
    """Hits of each kind as a share of the events, and false alarms for each log."""
    true, hits, exact, false = Counter(), Counter(), Counter(), Counter()
    logs = 0
    for i in range(ROUNDS):
        for k, scene in enumerate(SCENES):
            cook = invented_log(FIRST + len(SCENES) * i + k, *scene)
            proposed = cook.log.propose_events()
            logs += 1
            for kind, when in cook.truth:
                near = [event.kind for event in proposed if abs(event.time - when) <= NEAR]
                true[kind] += 1
                hits[kind] += any(same(one, kind) for one in near)
                exact[kind] += kind in near
            for event in proposed:
                near = [kind for kind, when in cook.truth if abs(event.time - when) <= NEAR]
                # to wrap and to pull the meat opens the lid as well
                right = near if event.kind == "lid opened" else [k for k in near if same(event.kind, k)]
                false[event.kind] += not right
    return {
        "hits": {kind: hits[kind] / true[kind] for kind in true},
        "exact": {kind: exact[kind] / true[kind] for kind in true},
        "false": {kind: false[kind] / logs for kind in true},
    }


@pytest.mark.parametrize("kind", ["lid opened", "spritzed", "wrapped", "pulled", "probe pulled"])
def test_hits_and_false_alarms_are_as_stated(rates: dict[str, dict[str, float]], kind: str) -> None:
    assert rates["hits"][kind] >= 0.95
    assert rates["false"][kind] < 0.05


def test_a_rhythm_of_dips_is_called_spritzing(rates: dict[str, dict[str, float]]) -> None:
    assert rates["exact"]["spritzed"] >= 0.8


@pytest.mark.parametrize("seed", range(20))
def test_a_cook_without_events_gets_none_proposed(seed: int) -> None:
    cook = invented_log(9000 + seed, wrap=False, lids=False, raised=bool(seed % 2))
    assert cook.truth == []
    assert cook.log.propose_events() == ()


def test_nothing_is_applied_before_it_is_accepted() -> None:
    log = invented_log(5002, *SCENES[2]).log
    proposed = log.propose_events()
    assert log.events == () and proposed
    assert {event.source for event in proposed} == {"proposed"}
    assert all(event.note.endswith("check") for event in proposed)
    said = [one for one in log.summary if one.kind == "proposed"]
    assert len(said) == 1 and said[0].count == len(proposed)
    assert "log.propose_events()" in str(said[0])
    accepted = log.with_events(proposed)
    assert [(e.kind, e.time, e.source) for e in accepted.events] == [
        (e.kind, e.time, "accepted") for e in proposed
    ]
    assert accepted.propose_events() == ()


def test_what_is_known_is_not_proposed_again() -> None:
    cook = invented_log(5002, *SCENES[2])
    wrapped = cook.times("wrapped")[0]
    kinds = [event.kind for event in cook.log.mark("wrapped", at=wrapped + 60.0).propose_events()]
    assert "wrapped" not in kinds and "spritzed" in kinds


# ---- one definition at a time, on made-up traces


def steady(hours: float = 6.0, every: float = 60.0) -> tuple[np.ndarray, np.ndarray]:
    time = np.arange(0.0, hours * HOUR, every)
    return time, np.full(time.size, 120.0)


def test_a_lid_is_a_fast_fall_that_comes_back() -> None:
    time, pit = steady()
    at = 2.0 * HOUR
    after = time > at
    pit[after] -= 50.0 * np.exp(-(time[after] - at) / (5.0 * MINUTE))
    (dip,) = lid_dips(time, pit)
    assert dip.time == at
    assert 35.0 < dip.depth < 50.0 and 2.0 * MINUTE < dip.back - at < 8.0 * MINUTE


def test_a_slow_sag_and_a_fire_that_dies_are_no_lid() -> None:
    time, pit = steady()
    assert lid_dips(time, pit - 30.0 * np.exp(-0.5 * ((time - 2.0 * HOUR) / (15.0 * MINUTE)) ** 2)) == []
    assert lid_dips(time, np.where(time > 2.0 * HOUR, 40.0, pit)) == []


def test_a_pit_that_swings_widely_opens_no_lid() -> None:
    time, pit = steady()
    swing = 12.0 * np.sin(2.0 * np.pi * time / (12.0 * MINUTE))
    assert np.max(swing[:-3] - swing[3:]) > 12.0  # as deep as a lid
    assert lid_dips(time, pit + swing) == []


def test_coarse_readings_and_gaps_show_no_lid() -> None:
    time, pit = steady(12.0, COARSEST + 60.0)
    pit[30] = 80.0
    assert lid_dips(time, pit) == []
    time, pit = steady()
    pit[120] = 90.0  # the first reading after a gap of an hour
    kept = (time < 1.0 * HOUR) | (time >= 2.0 * HOUR)
    assert lid_dips(time[kept], pit[kept]) == []


def test_a_probe_that_jumps_is_pulled_whether_it_comes_back_or_not() -> None:
    time, pit = steady()
    core = 20.0 + 8.0 * time / HOUR
    out = (time >= 3.0 * HOUR) & (time < 3.5 * HOUR)
    (event,) = Log(time, core=np.where(out, 24.0, core), pit=pit).propose_events()
    assert event.kind == "probe pulled" and abs(event.time - 3.0 * HOUR) <= 3.0 * MINUTE
    assert "'core': fell 20 °C" in event.note
    (event,) = Log(time, core=np.where(time >= 3.0 * HOUR, 24.0, core), pit=pit).propose_events()
    assert event.kind == "probe pulled"


def test_meat_that_leaves_a_hot_pit_is_pulled_at_the_turn_of_the_core() -> None:
    time, pit = steady(8.0)
    core = np.where(time < 6.0 * HOUR, 30.0 + 10.0 * time / HOUR, 90.0 - 4.0 * (time / HOUR - 6.0))
    (event,) = Log(time, core=core, pit=pit).propose_events()
    assert event.kind == "pulled" and abs(event.time - 6.0 * HOUR) < 10.0 * MINUTE
    assert "at the latest" in event.note


def test_a_log_of_the_core_alone_is_read_for_probes_only() -> None:
    time, _ = steady()
    assert Log(time, core=20.0 + 8.0 * time / HOUR).propose_events() == ()


def test_a_few_looks_at_the_thermometer_are_no_pulled_probe():
    assert Log([0.0, 4.0 * HOUR], core=[3.3, 62.8]).propose_events() == ()
    assert Log([0.0, 2.0 * HOUR, 4.0 * HOUR], core=[3.3, 48.9, 62.8]).propose_events() == ()
