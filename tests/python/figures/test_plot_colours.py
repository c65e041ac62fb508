"""The colours of the figures stay apart for colour-blind eyes, computed.

Colour vision without one kind of cone is simulated after G. M. Machado, M. M. Oliveira and L. A. F.
Fernandes, "A Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE Transactions on
Visualization and Computer Graphics 15 (2009) 1291-1298, as implemented in colorspacious. Distances are
those of CAM02-UCS (M. R. Luo, G. Cui and C. Li, Color Research and Application 31 (2006) 320-330), in which
a difference of about 1 can just be seen side by side (references from memory).
"""

import itertools

import numpy as np
import pytest
from colorspacious import cspace_convert, deltaE

from libcook.figures import style

EYES = (None, "protanomaly", "deuteranomaly", "tritanomaly")
CLEAR = 15.0  # lines that one figure always shows together
BANDS = 12.0  # stacked bands, with a rim of paper between them
APART = 10.0  # any two of the seven cooks of a comparison; their names and line styles differ as well


def rgb(colour):
    return np.array([int(colour[i : i + 2], 16) / 255.0 for i in (1, 3, 5)])


def over(colour, paper, alpha):
    return alpha * rgb(colour) + (1.0 - alpha) * rgb(paper)


def seen(light, eyes):
    """What is seen with one kind of cone missing altogether."""
    if eyes is None:
        return light
    space = {"name": "sRGB1+CVD", "cvd_type": eyes, "severity": 100}
    return np.clip(cspace_convert(light, space, "sRGB1"), 0.0, 1.0)


def closest(lights, eyes):
    apart = {
        pair: float(deltaE(seen(lights[pair[0]], eyes), seen(lights[pair[1]], eyes), input_space="sRGB1"))
        for pair in itertools.combinations(lights, 2)
    }
    return min((distance, pair) for pair, distance in apart.items())


@pytest.mark.parametrize("eyes", EYES)
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_lines_and_bands_of_a_figure_are_clearly_apart(theme, eyes):
    colours = style.theme_of(theme)
    lines = {name: rgb(getattr(colours, name)) for name in ("core", "surface", "air", "paper")}
    distance, pair = closest(lines, eyes)
    assert distance >= CLEAR, pair
    bands = {
        name: over(getattr(colours, name), colours.paper, style.BAND_ALPHA)
        for name in ("convection", "radiation", "evaporation", "paper")
    }
    distance, pair = closest(bands, eyes)
    assert distance >= BANDS, pair


@pytest.mark.parametrize("eyes", EYES)
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_cooks_of_a_comparison_are_apart(theme, eyes):
    colours = style.theme_of(theme)
    distance, pair = closest({name: rgb(name) for name in (*colours.series, colours.paper)}, eyes)
    assert distance >= APART, pair


def test_the_simulation_takes_colours_away():
    # red and green of one lightness: far apart for most people, close for a protanope or a deuteranope
    pair = {"red": rgb("#B8604C"), "green": rgb("#6F8A3C")}
    usual = closest(pair, None)[0]
    assert closest(pair, "deuteranomaly")[0] < 0.5 * usual and closest(pair, "tritanomaly")[0] > 0.6 * usual
