"""Objects cross to other processes and come back from disk."""

import concurrent.futures
import multiprocessing
import pickle

import numpy as np
import pytest
from cook_samples import cylinder_plan, short_plan

import libcook as lc


def again(thing):
    return pickle.loads(pickle.dumps(thing))


@pytest.mark.parametrize(
    "thing",
    [
        lc.brisket(mass=5.0),
        lc.pork_shoulder(),
        lc.insulated_box(start=45.0),
        lc.pit("kettle", air=lc.ripple(lc.schedule([("0 h", 100.0), ("2 h", 130.0)]), 4.0)),
        lc.wrap("pan"),
        lc.core("160 °F"),
        lc.spritz(every="20 min"),
        lc.Physics(squeezing=False),
        short_plan(),
        cylinder_plan(),
    ],
    ids=lambda thing: type(thing).__name__,
)
def test_round_trip(thing):
    assert again(thing) == thing
    assert repr(again(thing)) == repr(thing)


def test_a_pickled_plan_is_changed_apart():
    plan = short_plan()
    other = again(plan)
    other.stages[0].at_most = 7200.0
    assert plan.stages[0].at_most != 7200.0


def test_outcomes_keep_everything():
    out = lc.simulate(short_plan())
    other = again(out)
    assert type(other) is lc.Outcome
    for name in ("time", "core", "surface", "film", "temperature", "water", "node_volume", "tenderness"):
        np.testing.assert_array_equal(getattr(other, name), getattr(out, name))
    for face in out.faces:
        for path, total in out.paths[face].items():
            np.testing.assert_array_equal(other.paths[face][path], total)
    assert other.plan == out.plan
    assert other.ledger == out.ledger
    assert (other.notes, other.events, other.face_area) == (out.notes, out.events, out.face_area)
    assert [(*end, end.start, end.reason) for end in again(out.stage_ends)] == [
        (*end, end.start, end.reason) for end in out.stage_ends
    ]
    assert repr(other) == repr(out)


def test_the_state_is_plain_and_versioned():
    version, state = lc.brisket().__getstate__()
    assert version == 1
    assert set(state) == {"tissue", "shape", "fat_cap", "start", "build", "section"}


def test_a_pickle_of_another_version_is_refused():
    meat = lc.brisket()
    with pytest.raises(lc.InvalidInput, match="version 99"):
        meat.__class__.__new__(meat.__class__).__setstate__((99, {}))


@pytest.mark.parametrize(
    "name",
    ["time", "core", "coldest", "air", "vapour_pressure", "pan_water", "tenderness", "mean_water", "surface0",
     "surface_water1", "film0", "paths01", "node_volume", "temperature"],
)  # fmt: skip
def test_a_state_whose_arrays_do_not_fit_each_other_is_refused(name):
    """The readings rely on it: they would read past an array's end, or never come to one."""
    plain = lc.simulate(short_plan())
    version, state = lc.Outcome.__bases__[0].__getstate__(plain)
    half = lc.Outcome.__new__(lc.Outcome)
    with pytest.raises(lc.InvalidInput):
        lc.Outcome.__bases__[0].__setstate__(half, (version, {**state, name: state[name][:-1]}))


def test_an_outcome_without_its_faces_says_so():
    plain = lc.simulate(short_plan())
    version, state = lc.Outcome.__bases__[0].__getstate__(plain)
    faces = ("surface", "film", "paths")
    bare = {name: value[:0] if name.startswith(faces) else value for name, value in state.items()}
    half = lc.Outcome.__new__(lc.Outcome)
    lc.Outcome.__bases__[0].__setstate__(half, (version, bare))
    np.testing.assert_array_equal(half.core, plain.core)
    with pytest.raises(lc.InvalidInput, match="no traces of its faces"):
        half.surface  # noqa: B018


def test_an_outcome_without_a_time_is_refused():
    plain = lc.simulate(short_plan())
    version, state = lc.Outcome.__bases__[0].__getstate__(plain)
    empty = {name: value[:0] if isinstance(value, np.ndarray) else value for name, value in state.items()}
    half = lc.Outcome.__new__(lc.Outcome)
    with pytest.raises(lc.InvalidInput, match="one time at least"):
        lc.Outcome.__bases__[0].__setstate__(half, (version, empty))


def test_errors_keep_their_outcome_across_processes():
    plan = short_plan()
    plan.stages[0].until = lc.core(90.0)
    plan.stages[0].at_most = 600.0
    with pytest.raises(lc.Unreachable) as caught:
        lc.simulate(plan)
    other = again(caught.value)
    assert str(other) == str(caught.value)
    np.testing.assert_array_equal(other.outcome.core, caught.value.outcome.core)


def test_simulations_run_in_spawned_processes():
    plan = short_plan()
    spawn = multiprocessing.get_context("spawn")
    with concurrent.futures.ProcessPoolExecutor(1, mp_context=spawn) as pool:
        there = pool.submit(lc.simulate, plan).result()
    np.testing.assert_array_equal(there.core, lc.simulate(plan).core)
