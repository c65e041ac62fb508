"""Where words may stand: clear of lines and of each other, measured in the figure as it is drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from matplotlib.axes import Axes

AIR = 1.5  # pixels around words


def strokes(ax: Axes) -> Any:
    """Return all lines of axes as pieces in pixels, shape (n, 4): x and y of both ends; marks are points."""
    pieces = []
    for line in ax.lines:
        if not line.get_visible():
            continue
        points = line.get_transform().transform(np.asarray(line.get_xydata(), dtype=float))
        steps = points[:, None] if line.get_linestyle() in ("None", "none", "", " ") else None
        ends = np.hstack([points[:-1], points[1:]]) if steps is None else np.hstack([points, points])
        pieces.append(ends[np.isfinite(ends).all(axis=1)])
    return np.concatenate(pieces) if pieces else np.empty((0, 4))


def hits(box: Any, pieces: Any, air: float = 0.0) -> int:
    """Count the pieces of lines that pass through a box (Liang and Barsky's clipping)."""
    x, y = pieces[:, 0], pieces[:, 1]
    dx, dy = pieces[:, 2] - x, pieces[:, 3] - y
    first, last = np.zeros(len(pieces)), np.ones(len(pieces))
    for step, near, far in (
        (dx, box.x0 - air - x, box.x1 + air - x),
        (dy, box.y0 - air - y, box.y1 + air - y),
    ):
        still = step == 0.0
        safe = np.where(still, 1.0, step)
        a, b = near / safe, far / safe
        inside = (near <= 0.0) & (far >= 0.0)
        low = np.where(still, np.where(inside, 0.0, 2.0), np.minimum(a, b))
        high = np.where(still, np.where(inside, 1.0, -1.0), np.maximum(a, b))
        first, last = np.maximum(first, low), np.minimum(last, high)
    return int((first <= last).sum())


def words_box(text: Any) -> Any:
    """Return the box of the words alone [pixels]: an annotation's own extent takes in its leader."""
    from matplotlib.text import Text

    text.update_positions(text.figure.canvas.get_renderer()) if hasattr(text, "update_positions") else None
    return Text.get_window_extent(text)


def boxes(ax: Axes, *but: Any) -> list[Any]:
    """Return the boxes of the words that stand in axes already."""
    return [words_box(text) for text in ax.texts if text.get_text() and text not in but]


def _over(one: Any, other: Any) -> bool:
    return bool(
        min(one.x1, other.x1) + AIR > max(one.x0, other.x0)
        and min(one.y1, other.y1) + AIR > max(one.y0, other.y0)
    )


def put_clear(
    ax: Axes, text: Any, spots: Sequence[Any], move: Callable[[Any], object], end: Any = None
) -> None:
    """Move words to the first spot where no line and no other words are, and no leader through words.

    Parameters
    ----------
    ax : matplotlib.axes.Axes
        With its lines drawn, its limits set, and laid out (`libcook.figures.style.settle`).
    text : matplotlib.text.Text
        What is placed.
    spots : sequence
        In the order of liking; where all collide, the one that does least is taken.
    move : callable
        Takes a spot and puts the words there.
    end : pair of float, optional
        In data units: where the leader ends.
    """
    pieces, others, frame = strokes(ax), boxes(ax, text), ax.get_window_extent()
    tip = None if end is None else ax.transData.transform(end)
    best, least = spots[0], np.inf
    for spot in spots:
        move(spot)
        box = words_box(text)
        bad = hits(box, pieces, AIR) + 5.0 * sum(_over(box, other) for other in others)
        bad += 5.0 * (box.x0 < frame.x0 or box.x1 > frame.x1 or box.y0 < frame.y0 or box.y1 > frame.y1)
        if tip is not None:
            near = (min(max(tip[0], box.x0), box.x1), min(max(tip[1], box.y0), box.y1))
            leader = np.array([[near[0], near[1], tip[0], tip[1]]])
            bad += 5.0 * sum(hits(other, leader, AIR) for other in others)
        if bad < least:
            best, least = spot, bad
        if not bad:
            break
    move(best)
