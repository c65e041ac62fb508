"""An outcome in a notebook: a small figure, headline facts, the safety panel.

Colours are inherited from the page, so that it reads on light and on dark ground; the two lines of the small
figure use mid tones (Okabe and Ito, see `figures/style.py`) that stand out from both.
"""

from __future__ import annotations

from html import escape

from libcook.figures.style import VERMILLION
from libcook.figures.svg import small_figure
from libcook.readings.facts import read_facts
from libcook.readings.readable import Readable
from libcook.units import temperature_unit
from libcook.words import page, phrases
from libcook.words.safety_rows import LOCAL, safety_rows
from libcook.words.two_scales import Scale

__all__ = ["outcome_html"]


def outcome_html(outcome: Readable, units: str = "C") -> str:
    """Write an HTML fragment that shows an outcome.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook.
    units : str
        ``"C"`` or ``"F"``.

    Returns
    -------
    str
        A ``div`` with a small figure (inline SVG), a table of facts, the safety panel and the notes.
    """
    unit, safety = temperature_unit(units), outcome.safety()
    return page.page(
        small_figure(outcome, unit),
        page.table(phrases.rows(read_facts(outcome), Scale(unit))),
        page.box(
            "<strong>Safety</strong>",
            page.listed([str(warning) for warning in safety.warnings]),
            page.table(safety_rows(outcome, unit), ("", "computed", "limit", "whose limit")),
            f"<div>{escape(f'{safety.caution} {LOCAL}')}</div>",
            colour=VERMILLION,
        ),
        page.listed([str(note) for note in outcome.notes], "Notes"),
    )
