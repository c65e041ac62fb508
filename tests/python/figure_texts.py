"""Lines and texts of a figure."""

import itertools

import numpy as np
from matplotlib.text import Text


def line(ax, label):
    return next(each for each in ax.lines if each.get_label() == label)


def collisions(*axes):
    """Pairs of texts that lie over each other, and texts outside the figure."""
    figure = axes[0].figure
    figure.canvas.draw()
    texts = [text for ax in axes for text in ax.texts]
    for ax in axes:
        for axis, (low, high) in ((ax.xaxis, ax.get_xlim()), (ax.yaxis, ax.get_ylim())):
            # the others are not drawn
            texts += [tick.label1 for tick in axis.get_major_ticks() if low <= tick.get_loc() <= high]
    texts += [label for ax in axes for label in (ax.xaxis.label, ax.yaxis.label)]
    # of the words alone: an annotation's own extent takes in its leader
    boxes = [(text.get_text(), Text.get_window_extent(text)) for text in texts if text.get_text()]
    bad = [
        (a, b)
        for (a, box), (b, other) in itertools.combinations(boxes, 2)
        # a third of a pixel is no overlap
        if min(box.x1, other.x1) - max(box.x0, other.x0) > 0.3
        and min(box.y1, other.y1) - max(box.y0, other.y0) > 0.3
    ]
    whole = figure.bbox
    bad += [
        (a, "edge")
        for a, box in boxes
        if box.x0 < whole.x0 - 0.5 or box.x1 > whole.x1 + 0.5 or box.y0 < -0.5 or box.y1 > whole.y1 + 0.5
    ]
    return bad


def _points(path):
    """Points along a path in pixels, half a pixel apart."""
    found = [np.empty((0, 2))]
    for ends in path.to_polygons(closed_only=False) if path.codes is not None else [path.vertices]:
        steps = np.diff(ends, axis=0)
        for start, step in zip(ends[:-1], steps, strict=True):
            if np.isfinite(start).all() and np.isfinite(step).all():
                many = int(min(2.0 * np.hypot(*step), 20000)) + 1
                found.append(start + np.linspace(0.0, 1.0, many)[:, None] * step)
    return np.concatenate(found)


def _inside(box, points):
    x, y = points[:, 0], points[:, 1]
    # half a pixel of the words' own margin is nothing that is seen
    return bool(((x > box.x0 + 0.5) & (x < box.x1 - 0.5) & (y > box.y0 + 0.5) & (y < box.y1 - 0.5)).any())


def crossings(*axes, on_lines=()):
    """Words that a line runs through, and words that another's leader runs through.

    Names in `on_lines` stand on their lines on purpose.
    """
    axes[0].figure.canvas.draw()
    bad = []
    for ax in axes:
        lines = [
            (line.get_label(), _points(line.get_path().transformed(line.get_transform())))
            for line in ax.lines
            if line.get_visible() and line.get_linestyle() not in ("None", "none", "")
        ]
        frame = ax.get_window_extent()  # beyond it a line is not drawn
        lines = [
            (name, points[(points[:, 1] < frame.y1) & (points[:, 1] > frame.y0)]) for name, points in lines
        ]
        texts = [text for text in ax.texts if text.get_text() and text.get_visible()]
        leaders = [
            (text, _points(text.arrow_patch.get_path().transformed(text.arrow_patch.get_transform())))
            for text in texts
            if getattr(text, "arrow_patch", None) is not None
        ]
        for text in texts:
            box, words = Text.get_window_extent(text), text.get_text()
            if words not in on_lines:
                bad += [(words, f"line {name}") for name, points in lines if _inside(box, points)]
            bad += [
                (words, f"leader of {other.get_text()}")
                for other, points in leaders
                if other is not text and _inside(box, points)
            ]
    return bad
