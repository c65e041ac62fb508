"""Figures in files, compared."""

from pathlib import Path

import numpy as np


def pixels(path: Path) -> np.ndarray:
    from matplotlib import image

    return np.asarray(image.imread(path), dtype=float)[..., :3]


def assert_same_picture(shown: Path, drawn: Path) -> None:
    """Compare figures up to hinting: the mean difference of a shifted line is several times this."""
    a, b = pixels(shown), pixels(drawn)
    assert a.shape == b.shape, f"{shown} is not what is drawn now"
    assert np.abs(a - b).mean() < 0.002, f"{shown} is not what is drawn now"
