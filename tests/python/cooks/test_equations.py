"""libcook.equations: the semi-discrete equations, integrated by SciPy."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp

import libcook as lc
from libcook.equations import equations


def smoke(hours: float) -> lc.Plan:
    place = lc.pit("drum", air=107.0)
    return lc.Plan(lc.brisket(mass=6.0), [lc.Stage("smoke", place, until=lc.elapsed(hours * 3600.0))])


def test_an_integrator_of_its_own_finds_the_same_core() -> None:
    plan = smoke(2.0)
    eq = equations(plan, nodes=21)
    y = eq.initial()
    assert y.shape == (eq.size,) == (2 * (2 * 21 + 2),)  # middle and rim
    solved = solve_ivp(
        eq.rhs, (0.0, 7200.0), y, method="LSODA", rtol=1e-7, atol=1e-8, lband=eq.bandwidth, uband=eq.bandwidth
    )
    assert solved.success
    out = lc.simulate(plan, nodes=21, tolerance=1e-3)
    assert eq.core(solved.y[:, -1]) == pytest.approx(out.core[-1], abs=0.02)
    assert eq.temperatures(solved.y[:, -1]) == pytest.approx(out.temperature[-1], abs=0.1)


def test_the_jacobian_is_banded() -> None:
    eq = equations(smoke(1.0), nodes=9)
    y = eq.initial() + 0.01
    base = eq.rhs(60.0, y)
    for j in range(eq.size):
        moved = y.copy()
        moved[j] += 1e-4
        touched = np.flatnonzero(eq.rhs(60.0, moved) != base)
        assert (abs(touched - j) <= eq.bandwidth).all()


def test_switches_and_keywords_are_those_of_simulate() -> None:
    dry = equations(smoke(1.0), nodes=9, evaporation=False, tolerance=0.01, output_every="30 s")
    wet = equations(smoke(1.0), nodes=9)
    assert (dry.rhs(0.0, dry.initial()) != wet.rhs(0.0, wet.initial())).any()


def test_bad_input_is_named() -> None:
    with pytest.raises(lc.InvalidInput, match="^nodes: "):
        equations(smoke(1.0), nodes=8)
    with pytest.raises(lc.InvalidInput, match="^plan: "):
        equations("a plan")  # type: ignore[arg-type]
    eq = equations(smoke(1.0), nodes=9)
    with pytest.raises(lc.InvalidInput, match="the state has 40"):
        eq.rhs(0.0, [1.0, 2.0])
    with pytest.raises(lc.InvalidInput, match="2 dimensions"):
        eq.core(np.zeros((40, 1)))
    box = lc.Plan(lc.brisket(mass=6.0), [lc.Stage("box", lc.insulated_box(), until=lc.elapsed("1 h"))])
    with pytest.raises(lc.InvalidInput, match="box"):
        equations(box)
