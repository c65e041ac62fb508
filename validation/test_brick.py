"""The brick in three dimensions against exact solutions, its one-dimensional twin, and the engine's slab."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import exact
import numpy as np
import pytest
from brick import face as on
from brick.bulk import ENTHALPY, STEP_T, Bulk
from brick.grid import BOTTOM, TOP, Brick, Fineness
from brick.plans import kept
from brick.solver import Solver
from independent import solver as line
from independent.face import Face
from independent.tissue import Array, Tissue

import libcook as lc

RESULTS = Path(__file__).resolve().parent / "brick" / "results"
WIDE = (4.0, 4.0)  # m: sides that the middle does not notice
PAPER = [
    lc.Stage("smoke", lc.pit("kettle", air=121.0), until=lc.core(66.0)),
    lc.Stage("wrapped", lc.pit("kettle", air=121.0), wrap="butcher paper", until=lc.core(90.0)),
    lc.Stage("rest", lc.counter(21.0), wrap="foil tent", until=lc.elapsed(3600.0)),
]


def plan(stages: list[lc.Stage] = PAPER) -> lc.Plan:
    return lc.Plan(lc.brisket(mass=6.0, thickness=0.056), stages)


def scattered(seed: int, count: int) -> tuple[Array, Array, Array]:
    """Temperatures, waters and films over all that a cook meets."""
    dice = np.random.default_rng(seed)
    film = dice.choice([0.0, 1e-4, 0.02, 0.4], count) * dice.random(count)
    return dice.uniform(5.0, 104.0, count), dice.choice([0.0, 0.1, 3.5], count) * dice.random(count), film


@pytest.mark.parametrize("stage", [0, 1, 2])
def test_faces_are_those_of_the_scalar_solver(stage: int) -> None:
    made = json.loads(plan().to_json())
    tissue, air = Tissue(made["meat"]["tissue"]), made["stages"][stage]["surroundings"]["air"]
    sides = on.settings(made["meat"], made["stages"][stage], tissue, air)
    count = 200
    t, x, film = scattered(stage, count)
    held = np.asarray(tissue.held_at(t))
    for kind, top in ((BOTTOM, False), (TOP, True)):
        faces = on.Faces(sides, np.full(count, kind), tissue)
        ours = faces.flux(air, 7000.0, t, x, held, film)
        scalar = Face(made["meat"], made["stages"][stage], tissue, top, air)
        for i in range(count):
            f = scalar.flux(air, 7000.0, t[i], x[i], held[i], film[i])
            mine = ours[on.HEAT, i] - ours[on.VAPOUR, i] * ours[on.LATENT, i]
            assert mine == pytest.approx(f.heat, rel=1e-8, abs=1e-8)
            told = [f.vapour, f.from_film, f.seep, f.run_off]
            assert ours[on.VAPOUR : on.LATENT, i] == pytest.approx(told, rel=1e-8, abs=1e-15)


def test_sides_carry_no_cap_and_are_never_stable() -> None:
    made = json.loads(plan().to_json())
    tissue = Tissue(made["meat"]["tissue"])
    bottom, top, low, high = on.settings(made["meat"], made["stages"][0], tissue, 121.0)
    assert bottom.vapour_resistance > 0.0 and bottom.heat_resistance > 0.0  # the cap
    assert low.vapour_resistance == high.vapour_resistance == low.heat_resistance == 0.0
    lively = max(top.cold, top.hot)
    assert lively > min(top.cold, top.hot)
    assert low.cold == low.hot == high.cold == high.hot == lively
    assert (low.radiant, high.radiant) == (bottom.radiant, top.radiant) == (10.0, 0.0)


def test_enthalpy_is_the_integral_of_heat_capacity() -> None:
    bulk = Bulk(json.loads(plan().to_json())["meat"]["tissue"])
    t, x, _ = scattered(4, 300)
    peak = t + np.random.default_rng(5).choice([0.0, 1.5, 20.0], 300)
    slope = bulk.slopes(t, x, peak, bulk.values(t, x, peak))[0][ENTHALPY]
    assert slope == pytest.approx(bulk.tissue.bulk(t, x, peak)[1], rel=1e-4)
    assert STEP_T < 1e-3


def prepared(fine: Fineness, size: tuple[float, float, float]) -> tuple[Solver, dict[str, Any]]:
    solver = Solver(plan().to_json(), size, fine)
    stage = solver.plan["stages"][1]
    system = solver.system
    faces = on.settings(solver.plan["meat"], stage, solver.bulk.tissue, 121.0)
    system.faces = on.Faces(faces, solver.brick.face_kind, solver.bulk.tissue)
    system.air, system.vapour = 121.0, 8000.0
    return solver, stage


def test_rates_in_the_middle_are_those_of_the_line() -> None:
    """A state that only varies with height, in a brick and in `independent.solver`."""
    solver, stage = prepared(Fineness(3, 3, 21, 1e-3), (0.3, 0.2, 0.056))
    system, brick = solver.system, solver.brick
    twin = line.Solver(plan().to_json(), 21, 1e-5)
    layers = brick.shape[2]
    twin.line.volume, twin.line.centre = np.full(layers, np.nan), brick.centre[2]
    twin.line.volume = brick.volume.reshape(brick.shape)[0, 0] / (
        brick.volume.reshape(brick.shape)[0, 0].sum() / 0.056
    )
    twin.line.per_spacing = 1.0 / np.diff(twin.line.centre)
    twin.n = layers
    twin.y = np.zeros(2 * layers + 2)
    twin.begin(stage)
    dice = np.random.default_rng(7)
    t, x, peak = 60.0 + 10.0 * dice.random(layers), 2.5 + 0.7 * dice.random(layers), 66.0 * np.ones(layers)
    twin.y[1:-1:2], twin.y[2:-1:2], twin.y[[0, -1]] = t, x, (0.02, 0.001)
    twin.peak = peak
    expected = twin.rates(0.0, twin.y)
    system.peak = np.broadcast_to(peak, brick.shape).ravel()
    film = np.where(brick.face_kind == BOTTOM, 0.02, np.where(brick.face_kind == TOP, 0.001, 0.0))
    all_t, all_x = (np.broadcast_to(v, brick.shape).ravel() for v in (t, x))
    y = np.concatenate((all_t, all_x, film))
    rates = system.rates(y)[0]
    n = brick.cells
    x_rate = rates[n : 2 * n] / (solver.bulk.tissue.solids * brick.volume)
    m_rate = rates[2 * n :] / brick.face_area
    y_rate = np.concatenate((np.zeros(n), x_rate, m_rate))
    capacity = slope(system.contents, y, np.concatenate((np.ones(n), np.zeros(y.size - n))))[:n]
    t_rate = (rates[:n] - slope(system.contents, y, y_rate)[:n]) / capacity
    middle = t_rate.reshape(brick.shape)[0, 0], x_rate.reshape(brick.shape)[0, 0]
    assert middle[0] == pytest.approx(expected[1:-1:2], rel=1e-5, abs=1e-6)
    assert middle[1] == pytest.approx(expected[2:-1:2], rel=1e-9)
    assert m_rate[brick.face_kind == BOTTOM] == pytest.approx(expected[0])
    assert m_rate[brick.face_kind == TOP] == pytest.approx(expected[-1])


def slope(f: Any, y: Array, along: Array) -> Array:
    step = 1e-4
    return np.asarray((f(y + step * along) - f(y - step * along)) / (2.0 * step))


def test_matrix_is_the_derivative() -> None:
    solver, _ = prepared(Fineness(3, 3, 7, 2e-3), (0.3, 0.2, 0.056))
    system, n = solver.system, solver.brick.cells
    dice = np.random.default_rng(8)
    films = solver.brick.faces
    y = np.concatenate((60.0 + 10.0 * dice.random(n), 3.5 * dice.random(n), 0.05 * dice.random(films)))
    system.peak = np.full(n, 68.0)
    along = dice.standard_normal(y.size) * np.repeat([1.0, 1e-2, 1e-3], (n, n, films))

    def balance(state: Array) -> Array:
        return np.asarray((1.5 * system.contents(state) - 30.0 * system.rates(state)[0]) / system.unit)

    expected, ours = slope(balance, y, along), system.matrix(y, 1.5, 30.0) @ along
    for part in (slice(0, n), slice(n, 2 * n), slice(2 * n, None)):
        assert ours[part] == pytest.approx(expected[part], rel=1e-3, abs=1e-3 * np.abs(expected[part]).max())


K, C, FILM, START, AIR = 0.5, 3.6e6, 20.0, 5.0, 85.0
BLOCK = (0.18, 0.13, 0.09)  # m


def conduction(hours: float) -> str:
    """Nothing radiates, a wrap is tight to vapour and water does not move: conduction is left alone."""
    meat = lc.brisket(fat="none", start=START)
    meat.tissue.fixed = lc.FixedThermal(conductivity=K, heat_capacity=C)
    meat.tissue.emissivity = 0.0
    tight = lc.Covering(vapour_resistance=1e9)
    stage = lc.Stage(
        "oven", lc.oven(AIR), wrap=lc.Wrap(bottom=tight, top=tight), until=lc.elapsed(3600.0 * hours)
    )
    stage.surroundings.view = 0.0
    stage.surroundings.bottom = stage.surroundings.top = lc.Film("given", value=FILM)
    made = json.loads(lc.Plan(meat, [stage]).to_json())
    made["meat"]["tissue"]["mobility"].update(expressed=1e-20, held=1e-20)
    return json.dumps(made)


def walls(seconds: float, places: tuple[float, float, float]) -> float:
    """Product of three plane walls (Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 5) [°C]."""
    theta = 1.0
    for size, place in zip(BLOCK, places, strict=True):
        half = 0.5 * size
        theta *= exact.wall(FILM * half / K, K / C * seconds / half**2, place)
    return AIR + (START - AIR) * theta


@pytest.mark.parametrize("hours", [0.5, 2.0, 6.0])
def test_conduction_is_the_product_of_three_walls(hours: float) -> None:
    solver = Solver(conduction(hours), BLOCK, Fineness(14, 14, 27, 2e-3), tolerance=0.1)
    solver.run()
    seconds = 3600.0 * hours
    t = solver.system.split(solver.stepper.now.y)[0].reshape(solver.brick.shape)
    assert solver.ends[0].core == pytest.approx(walls(seconds, (0.0, 0.0, 0.0)), abs=0.12)
    assert t[-1, -1, 0] == pytest.approx(walls(seconds, (1.0, 1.0, 1.0)), abs=0.12)  # a corner
    centre = solver.brick.centre
    inside = (
        centre[0][6] / (0.5 * BLOCK[0]),
        centre[1][3] / (0.5 * BLOCK[1]),
        centre[2][4] / (0.5 * BLOCK[2]),
    )
    assert t[6, 3, 4] == pytest.approx(walls(seconds, (*inside[:2], 1.0 - inside[2])), abs=0.12)
    theta = 1.0
    for size in BLOCK:
        half = 0.5 * size
        theta *= exact.wall_mean(FILM * half / K, K / C * seconds / half**2)
    assert solver.rows[-1][1] == pytest.approx(AIR + (START - AIR) * theta, abs=0.12)


def test_a_very_wide_brick_is_the_engine_s_slab() -> None:
    wide = plan()
    slab = lc.simulate(wide, grid="slab")
    brick = Solver(wide.to_json(), (*WIDE, 0.056), Fineness(7, 7, 23, 3e-4), tolerance=0.5)
    brick.run()
    for ours, theirs in zip(brick.ends, slab.stage_ends, strict=True):
        assert ours.end == pytest.approx(theirs.time, rel=0.01), ours.name
    ledger = brick.ledger()
    assert abs(ledger["water_residual"]) < 1e-7 * ledger["water_start"]
    assert abs(ledger["heat_residual"]) < 1e-7 * ledger["heat_from_air"]


def test_a_spray_stays_in_the_balances() -> None:
    stage = lc.Stage(
        "smoke",
        lc.pit("drum", air=121.0),
        spritz=lc.spritz(first=1200.0, every=1200.0, lid_open=0.0),
        until=lc.elapsed(3000.0),
    )
    sprayed = Solver(plan([stage]).to_json(), (0.2, 0.15, 0.056), Fineness(4, 4, 11, 1e-3))
    sprayed.run()
    wetted = 0.2 * 0.15 + 0.056 * (0.2 + 0.15)  # top and the upper half of the sides [m²]
    assert sprayed.sprayed[1] == pytest.approx(2 * 0.05 * wetted)
    ledger = sprayed.ledger()
    assert abs(ledger["water_residual"]) < 1e-7 * ledger["water_start"]
    assert abs(ledger["heat_residual"]) < 1e-7 * ledger["heat_from_air"]


def test_what_it_does_not_do_is_named() -> None:
    resting = lc.Stage("rest", lc.insulated_box(), wrap="foil", until=lc.elapsed(3600.0))
    opened = lc.Stage("smoke", lc.pit("drum", air=121.0), spritz=lc.spritz(), until=lc.core(60.0))
    for stage, word in ((resting, "surroundings.box"), (opened, "an opened lid")):
        with pytest.raises(ValueError, match=word):
            Solver(plan([stage]).to_json(), (0.2, 0.15, 0.056))
    with pytest.raises(ValueError, match="odd"):
        Brick(0.2, 0.15, 0.056, Fineness(4, 4, 10))


@pytest.mark.parametrize("name", list(kept()))
def test_what_is_kept_closes_its_balances(name: str) -> None:
    found = json.loads((RESULTS / f"{name}.json").read_text())
    ledger = found["ledger"]
    assert abs(ledger["water_residual"]) < 1e-7 * ledger["water_start"]
    assert abs(ledger["heat_residual"]) < 1e-7 * ledger["heat_from_air"]
    trace = np.loadtxt(RESULTS / f"{name}.csv", delimiter=",", skiprows=1)
    assert len(trace) == int(found["stages"][-1]["end"] / 60.0) + 1
    evaporated = trace[:, 3]  # first dew falls on cold meat, then it only dries
    assert np.all(np.diff(evaporated[np.argmin(evaporated) :]) > -1e-4)


def test_what_is_kept_hardly_depends_on_grid_and_steps() -> None:
    found = json.loads((RESULTS / "refinement.json").read_text())
    for name, runs in found.items():
        for other in runs.keys() - {"as kept"}:
            assert runs[other]["ends"] == pytest.approx(runs["as kept"]["ends"], rel=0.02), (name, other)
    assert {"finer grid", "smaller steps", "larger steps"} <= {
        other for runs in found.values() for other in runs
    }
