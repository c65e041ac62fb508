"""Sliders over a cook or two: cut, weight, cooker, wrap, rest; curves, budget and finish time at once.

    import libcook as lc
    lc.playground.show()

Needs the extra ``playground``. Without it, and where no kernel runs (a saved notebook on a web page), the
same figure is shown, only that nothing moves.
"""

from __future__ import annotations

import io
from html import escape
from typing import Any

from libcook.arguments.quantity import Word
from libcook.arguments.quote import quoted
from libcook.errors import SolverFailure, invalid
from libcook.figures.svg import playground_svg
from libcook.outcome import Outcome
from libcook.plan import Plan
from libcook.playground.settings import (
    KNOBS,
    PRESETS,
    choices,
    code_of,
    ends_of,
    first,
    follow,
    plan_of,
    preset,
    shown_value,
)
from libcook.readings.facts import Facts, read_facts
from libcook.simulate import simulate
from libcook.units import format_duration, format_percent, shown_in
from libcook.words.sentences import sentences

__all__ = ["Still"]


class Still:
    """A cook, or two, as a figure and words: what the sliders show, without sliders.

    Attributes
    ----------
    values : dict of str to float or str
        Where the sliders are: ``cut``, ``cooker``, ``wrap``, ``rest``, and ``mass`` [kg], ``thickness``
        [mm], ``air`` [°C], ``vapour`` [kPa], ``spritz`` [min; 0: never], ``wrap_at`` and ``pull`` [°C],
        ``rest_time`` [h]. Of the cook that is picked.
    picked : str
        ``"a"`` or, once there is a second cook, ``"b"``.
    """

    def __init__(self, mass: Any, units: Word, pit: str) -> None:
        self.units, self.picked = units, "a"
        self._settings = {"a": first(mass, pit)}
        self._outcomes = {"a": self._cook(self._settings["a"])}
        self._first = (self.outcome.time, self.outcome.core)

    @property
    def values(self) -> dict[str, Any]:
        """Where the sliders are, of the cook that is picked."""
        return self._settings[self.picked]

    @property
    def outcome(self) -> Outcome:
        """The cook that is picked."""
        return self._outcomes[self.picked]

    @property
    def plan(self) -> Plan:
        """Its plan."""
        return plan_of(self.values, self.units)

    @property
    def code(self) -> str:
        """Python that makes the same plan and cooks it."""
        return code_of(self.values, self.units)

    @property
    def data(self) -> str:
        """The curves as CSV, as `libcook.read_log` reads it: a row a minute, temperatures as shown."""
        out, unit = self.outcome, self.units
        curves = [shown_in(curve, unit) for curve in (out.air, out.core, out.surface[:, -1])]
        notes = {}
        for end, following in zip(out.stage_ends, out.plan.stages[1:], strict=False):
            place = min(int(out.time.searchsorted(end.time)), len(out.time) - 1)
            notes[place] = f"{following.name} ({following.wrap.name})"
        text = io.StringIO()
        text.write(f"elapsed [min],pit [°{unit}],core [°{unit}],surface [°{unit}],event\n")
        for i, time in enumerate(out.time):
            numbers = ",".join(f"{float(curve[i]):.2f}" for curve in curves)
            text.write(f"{time / 60.0:.3f},{numbers},{notes.get(i, '')}\n")
        return text.getvalue()

    def set(self, **values: Any) -> None:
        """Move sliders; each stays within its ends.

        Parameters
        ----------
        **values : float or str
            As `values`. A new cut or weight brings its thickness, a new cooker its vapour, unless given.
        """
        ranges = {knob.key: knob for knob in KNOBS}
        read: dict[str, Any] = {}
        for key, value in values.items():
            if key in choices():
                options = choices()[key][1]
                if not isinstance(value, str) or value not in options:
                    came = f"{quoted(value)} is not on the list"
                    raise invalid(key, value, came, f"accepted: {', '.join(options)}")
                read[key] = value
            elif key in ranges:
                low, high = ends_of(ranges[key], self.values | read)
                if isinstance(value, bool) or not isinstance(value, (int, float)) or value != value:
                    raise invalid(key, value, f"{quoted(value)} came", f"{low:g} to {high:g} is accepted")
                read[key] = min(max(float(value), low), high)
            else:
                names = ", ".join((*choices(), *ranges))
                raise invalid(key, value, f"there is no slider {quoted(key)}", f"accepted: {names}")
        self._take(follow(self.values, read))

    def begin_with(self, name: str) -> None:
        """Set all to a cook to begin with, by its name in the list."""
        if name not in PRESETS:
            raise invalid(
                "name", name, f"{quoted(name)} is not on the list", f"accepted: {', '.join(PRESETS)}"
            )
        self._take(preset(name))

    def compare(self, **values: Any) -> None:
        """Put a second cook beside the first, like it but for what is given, and pick it; see `set`."""
        self._settings["b"] = dict(self._settings["a"])
        self._outcomes["b"] = self._outcomes["a"]
        self.picked = "b"
        self.set(**values)

    def alone(self) -> None:
        """Take the second cook away."""
        self._settings.pop("b", None)
        self._outcomes.pop("b", None)
        self.picked = "a"

    def pick(self, which: str) -> None:
        """Pick the cook that the sliders move: ``"a"`` or ``"b"``."""
        if which not in self._settings:
            raise invalid(
                "which", which, f"there is no cook {quoted(which)}", f"{list(self._settings)} are there"
            )
        self.picked = which

    def _take(self, told: dict[str, Any]) -> None:
        made = self._cook(told)
        self._settings[self.picked], self._outcomes[self.picked] = told, made

    def _cook(self, told: dict[str, Any]) -> Outcome:
        try:
            return simulate(plan_of(told, self.units), keep_fields=False)
        except SolverFailure as failure:  # too cool a pit: what there is of it is shown
            partial: Outcome = failure.outcome
            return partial

    @property
    def headline(self) -> str:
        """When it is done, in a line; of two cooks both."""
        if len(self._outcomes) == 1:
            return _headline(read_facts(self.outcome))
        said = {which: _headline(read_facts(out)) for which, out in self._outcomes.items()}
        return "; ".join(f"cook {which.upper()} {words}" for which, words in said.items())

    def _apart(self) -> list[str]:
        """Say by how much the second cook differs, where there is one."""
        if len(self._outcomes) == 1:
            return []
        one, other = (read_facts(self._outcomes[which]) for which in "ab")
        if one.unfinished or other.unfinished:
            return ["One of the two is not done, so they are not compared."]
        late = other.pulled_at - one.pulled_at
        when = (
            f"{format_duration(abs(late))} {'later' if late > 0.0 else 'sooner'} than"
            if abs(late) >= 60.0
            else "with"
        )
        more = 100.0 * (other.lost - one.lost)
        lost = f"{abs(more):.1f} % {'more' if more > 0.0 else 'less'}" if abs(more) >= 0.05 else "as much"
        return [f"Cook B comes off the heat {when} cook A, and loses {lost} of its weight."]

    def picture(self) -> dict[str, Any]:
        """Return what is shown: figure, headline, words and caution as text."""
        said = sentences(self.outcome, self.units)
        before, name = self._first, "the core where you began"
        if len(self._outcomes) == 2:
            which = "b" if self.picked == "a" else "a"
            before = (self._outcomes[which].time, self._outcomes[which].core)
            name = f"the core of cook {which.upper()}"
        return {
            "svg": playground_svg(self.outcome, self.units, before, name),
            "headline": self.headline,
            "words": [*self._apart(), said[1], said[3]],
            "caution": self.outcome.safety().caution,
        }

    def __repr__(self) -> str:
        """Say in a line when it is done, and where the sliders are."""
        return f"{self.headline} ({self._places()})"

    def _places(self) -> str:
        places = (f"{knob.label} {shown_value(knob, self.values, self.units)}" for knob in KNOBS)
        chosen = ", ".join(str(self.values[key]) for key in ("cut", "cooker"))
        return f"{chosen}; {self.values['wrap']}; {', '.join(places)}; rest: {self.values['rest']}"

    def _repr_html_(self) -> str:
        return self.still_html() + (
            '<p style="opacity:.75">To move the sliders, install them: '
            "<code>pip install 'libcook[playground]'</code></p>"
        )

    def still_html(self) -> str:
        """Return the figure and the words as HTML that needs no kernel and no script."""
        shown = self.picture()
        words = "".join(f"<p>{escape(text)}</p>" for text in (*shown["words"], shown["caution"]))
        return (
            f'<div style="max-width:60em"><p><strong>{escape(shown["headline"])}</strong><br>'
            f"{escape(self._places())}</p>{shown['svg']}{words}</div>"
        )


def _headline(facts: Facts) -> str:
    if facts.unfinished is not None:
        return f"not done after {format_duration(facts.end)}"
    length = facts.stall_length
    stalls = "no stall" if length is None else f"stalls for {format_duration(length)}"
    lost = f"{format_percent(facts.lost)} of the weight lost"
    return f"done after {format_duration(facts.pulled_at)}, {stalls}, {lost}"
