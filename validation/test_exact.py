"""The references that we sum ourselves, against printed values."""

from __future__ import annotations

import exact
import pytest


@pytest.mark.parametrize(
    ("biot", "wall", "cylinder"),
    [(0.1, 0.3111, 0.4417), (1.0, 0.8603, 1.2558), (10.0, 1.4289, 2.1795), (100.0, 1.5552, 2.3809)],
)
def test_first_roots_are_those_of_the_textbook_table(biot: float, wall: float, cylinder: float) -> None:
    # Incropera & DeWitt, Table 5.1 (from memory), four digits.
    assert exact.wall_roots(biot)[0] == pytest.approx(wall, abs=6e-5)
    assert exact.cylinder_roots(biot)[0] == pytest.approx(cylinder, abs=6e-5)


def test_roots_are_all_there() -> None:
    for biot in (0.1, 1.0, 10.0):
        assert (abs(exact.wall_roots(biot)[1:] - exact.wall_roots(biot)[:-1] - 3.1416) < 1.0).all()
        # At the start a body is as it was; a missed root would show as a mean other than one.
        assert exact.wall_mean(biot, 0.0) == pytest.approx(1.0, abs=1e-6)
        assert exact.cylinder_mean(biot, 0.0) == pytest.approx(1.0, abs=1e-5)


@pytest.mark.parametrize(
    ("eta", "beta", "printed"),
    [(0.0, 0.5, 0.38431), (0.25, 1.0, 0.37814), (0.5, 2.0, 0.31532), (1.5, 5.0, 0.02485)],
)
def test_half_space(eta: float, beta: float, printed: float) -> None:
    assert exact.half_space(eta, beta) == pytest.approx(printed, abs=6e-6)


def test_half_space_with_perfect_contact_is_the_error_function() -> None:
    assert exact.half_space(0.5, 1e6) == pytest.approx(0.4795, abs=5e-5)
