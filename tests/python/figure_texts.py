"""Lines and texts of a figure."""

import itertools

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
