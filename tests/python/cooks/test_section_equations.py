"""libcook.equations on a cross-section: the same equations as simulate(), integrated by SciPy."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.sparse import csr_matrix

import libcook as lc

COARSE = {"columns": 15, "rows": 11}


def smoke(hours: float = 1.0) -> lc.Plan:
    place = lc.pit("drum", air=107.0)
    return lc.Plan(lc.brisket(mass=3.0), [lc.Stage("smoke", place, until=lc.elapsed(hours * 3600.0))])


def test_an_integrator_of_its_own_finds_the_same_temperatures() -> None:
    plan = smoke(2.0)
    eq = lc.equations(plan, grid="cross-section", **COARSE)
    assert isinstance(eq, lc.SectionEquations)
    starts, columns = eq.pattern
    solved = solve_ivp(
        eq.rhs,
        (0.0, 7200.0),
        eq.initial(),
        method="BDF",
        rtol=1e-6,
        atol=1e-7,
        jac=lambda t, y: csr_matrix((eq.jacobian(t, y), columns, starts)),
    )
    assert solved.success
    out = lc.simulate(plan, grid="cross-section", tolerance=1e-3, output_every="10 min", **COARSE)
    end = solved.y[:, -1]
    assert eq.along == pytest.approx(out.along)
    assert eq.height == pytest.approx(out.position)
    assert eq.temperatures(end) == pytest.approx(out.temperature[-1].ravel(), abs=0.05)
    assert end[1 : 2 * eq.nodes : 2] == pytest.approx(out.water[-1].ravel(), abs=0.005)
    assert eq.core(end) == pytest.approx(out.core[-1], abs=0.01)
    assert eq.heat(end) - eq.heat(eq.initial()) == pytest.approx(out.ledger.heat_stored, rel=1e-3)
    lost = out.ledger.evaporated + out.ledger.run_off
    assert eq.water(eq.initial()) - eq.water(end) == pytest.approx(lost, rel=2e-3)


def test_the_rate_of_the_state_is_what_simulate_did_next() -> None:
    plan = smoke()
    out = lc.simulate(plan, grid="cross-section", tolerance=1e-4, output_every="30 s", **COARSE)
    eq = lc.equations(plan, grid="cross-section", **COARSE)
    middle = 600.0
    state = solve_ivp(eq.rhs, (0.0, middle), eq.initial(), method="RK45", rtol=1e-7, atol=1e-9).y[:, -1]
    rates = eq.rhs(middle, state)
    rates[2 * eq.nodes :] = 0.0  # what lies on the faces is not in the tissue
    dry = out.ledger.water_start / out.mean_water[0]
    slope = (out.mean_water[21] - out.mean_water[19]) / (out.time[21] - out.time[19])
    assert out.time[20] == middle
    assert slope < 0.0
    assert eq.water(rates) / dry == pytest.approx(slope, rel=0.02)


def test_the_pattern_is_that_of_a_sparse_matrix() -> None:
    eq = lc.equations(smoke(), grid="cross-section", **COARSE)
    starts, columns = eq.pattern
    assert starts.shape == (eq.size + 1,)
    assert starts[0] == 0
    assert starts[-1] == columns.size == eq.jacobian(0.0, eq.initial()).size
    matrix = csr_matrix((np.ones(columns.size), columns, starts))
    matrix.sum_duplicates()
    assert matrix.nnz == columns.size
    assert matrix.shape == (eq.size, eq.size)
    assert ((matrix != matrix.T).nnz) > 0  # a film feels its node alone, its node's neighbours feel the film
    assert eq.nodes == COARSE["columns"] * COARSE["rows"]
    assert columns.size < 15 * eq.size


def test_a_jacobian_column_is_a_difference_of_rates() -> None:
    eq = lc.equations(smoke(), grid="cross-section", **COARSE)
    starts, columns = eq.pattern
    y = eq.initial()
    y[::2] *= 8.0  # some 32 °C
    y[2 * eq.nodes :] = 0.02
    matrix = csr_matrix((eq.jacobian(0.0, y), columns, starts))
    step = np.random.default_rng(3).uniform(-1.0, 1.0, y.size) * 1e-6
    difference = eq.rhs(0.0, y + step) - eq.rhs(0.0, y - step)
    assert matrix @ (2.0 * step) == pytest.approx(difference, rel=1e-4, abs=1e-4 * np.abs(difference).max())


def test_bad_input_is_named() -> None:
    with pytest.raises(lc.InvalidInput, match="^rows: "):
        lc.equations(smoke(), grid="cross-section", rows=8)
    with pytest.raises(lc.InvalidInput, match="^grid: "):
        lc.equations(smoke(), grid="ring")  # type: ignore[call-overload]
    eq = lc.equations(smoke(), grid="cross-section", **COARSE)
    with pytest.raises(lc.InvalidInput, match=f"the state has {eq.size}"):
        eq.rhs(0.0, [1.0, 2.0])
    with pytest.raises(lc.InvalidInput, match="2 dimensions"):
        eq.jacobian(0.0, np.zeros((eq.size, 1)))
    breathing = lc.breathing(lc.pit("drum", air=107.0))
    plan = lc.Plan(lc.brisket(), [lc.Stage("smoke", breathing, until=lc.elapsed("1 h"))])
    for grid in ("slab", "cross-section"):
        with pytest.raises(lc.InvalidInput, match=r"^stages\[0\]\.surroundings\.pit_air: "):
            lc.equations(plan, grid=grid)  # type: ignore[call-overload]
