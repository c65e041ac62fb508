"""A cook on a cross-section as a moving picture."""

from __future__ import annotations

import base64
import io
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from libcook.arguments.door import door
from libcook.arguments.files import whole_file, write_whole
from libcook.arguments.optional import need
from libcook.arguments.plain import choice
from libcook.arguments.quantity import PathName, Word
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.figures.section_draw import draw_section, finish_panels, look_of, say_key
from libcook.figures.style import SMALL, theme_of
from libcook.readings.readable import stage_labels
from libcook.readings.section_field import FIELDS, mesh_of, values_at
from libcook.units import format_duration, temperature_unit

if TYPE_CHECKING:
    from libcook.outcome import Outcome


@door
def animate(
    outcome: Outcome,
    path: PathName,
    what: Word = "temperature",
    units: Word = "C",
    theme: Word = "light",
    frames: int = 60,
) -> Path:
    """Write a moving picture of the cross-section: a GIF, or a page with a slider.

    Parameters
    ----------
    outcome : Outcome
        Simulated with ``grid="cross-section"``, with its fields.
    path : str or pathlib.Path
        Ends in ``.gif`` (needs Pillow) or ``.html`` (one file that loads nothing). Missing folders are made.
    what : str
        ``"temperature"``, ``"water"`` or ``"tenderness"``.
    units : str
        ``"C"`` or ``"F"``.
    theme : str
        ``"light"`` or ``"dark"``.
    frames : int
        Pictures, 2 to 200, evenly spaced in time.

    Returns
    -------
    pathlib.Path
        Where it was written: under 3 MB with the default number of pictures.
    """
    target = Path(path)
    kind = target.suffix.lower()
    if kind not in (".gif", ".html"):
        raise invalid("path", str(path), f"{quoted(path)} ends in neither", "'.gif' or '.html' is accepted")
    choice(what, FIELDS, "what")
    if not 2 <= frames <= 200:
        raise invalid("frames", frames, f"{quoted(frames)} came", "a whole number, 2 to 200, is accepted")
    image = need("PIL.Image", "plots", "animate") if kind == ".gif" else None
    pictures, moments = _pictures(outcome, what, units, theme, frames)
    if image is not None:
        opened = [image.open(io.BytesIO(picture)).convert("RGB") for picture in pictures]
        # one palette for all, from first, middle and last: smaller, and colours that keep their meaning
        sample = image.new("RGB", (opened[0].width, 3 * opened[0].height))
        for i, k in enumerate((0, len(opened) // 2, len(opened) - 1)):
            sample.paste(opened[k], (0, i * opened[0].height))
        palette = sample.quantize(128)
        reduced = [each.quantize(palette=palette, dither=image.Dither.NONE) for each in opened]
        with whole_file(target) as file:
            reduced[0].save(
                file, "GIF", save_all=True, append_images=reduced[1:], duration=120, loop=0, optimize=True
            )
    else:
        write_whole(target, _page(pictures, moments, what).encode("utf-8"))
    return target


def _pictures(
    outcome: Any, what: Word, units: Word, theme: Word, frames: int
) -> tuple[list[bytes], list[float]]:
    unit, colours, mesh = temperature_unit(units), theme_of(theme), mesh_of(outcome)
    moments = [float(t) for t in np.linspace(0.0, float(outcome.time[-1]), frames)]
    fields = [values_at(outcome, what, moment) for moment in moments]
    look = look_of(what, fields, unit)
    pyplot = need("matplotlib.pyplot", "plots", "animate")
    labels = stage_labels(outcome)
    made = []
    figure, ax = pyplot.subplots(
        figsize=(7.2, 5.6 * float(mesh.z.max() / mesh.x.max()) + 1.3), layout="constrained"
    )
    try:
        figure.set_facecolor(colours.paper)
        for i, (moment, field) in enumerate(zip(moments, fields, strict=True)):
            ax.clear()
            draw_section(ax, outcome, field, look, colours)
            stage = labels[min(int(np.searchsorted(outcome.time, moment)), len(labels) - 1)]
            title = f"{format_duration(moment)}, {stage}"
            ax.set_title(title, loc="left", fontsize=SMALL + 1, color=colours.ink)
            if i == 0:
                finish_panels([ax], outcome, look, colours)
                figure.canvas.draw()
                figure.set_layout_engine("none")  # the frame stays where it is
            say_key(ax, outcome, colours)
            ax.set_xlabel("distance from the flat end [mm]", color=colours.ink)
            held = io.BytesIO()
            figure.savefig(held, format="png", dpi=100, facecolor=colours.paper)
            made.append(held.getvalue())
    finally:
        pyplot.close(figure)
    return made, moments


def _page(pictures: list[bytes], moments: list[float], what: str) -> str:
    images = ",".join(f'"{base64.b64encode(picture).decode("ascii")}"' for picture in pictures)
    last = len(pictures) - 1
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        f"<title>Cross-section over time: {what}</title></head>\n"
        '<body style="font-family:sans-serif;max-width:760px;margin:1em auto">\n'
        f'<img id="picture" alt="Cross-section coloured by {what}" style="width:100%">\n'
        f"<label>time, 0 to {format_duration(moments[-1])} "
        f'<input id="time" type="range" min="0" max="{last}" value="0" style="width:70%"></label>\n'
        f"<script>const pictures=[{images}];"
        'const time=document.getElementById("time"),picture=document.getElementById("picture");'
        'const show=()=>{picture.src="data:image/png;base64,"+pictures[time.value];};'
        'time.addEventListener("input",show);show();</script>\n</body></html>\n'
    )
