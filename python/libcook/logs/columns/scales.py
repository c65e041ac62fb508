"""In which scale the temperatures of a log are: told, in the header, in the cells, in a title, or guessed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
import numpy.typing as npt

from libcook.arguments.quote import listed, quoted
from libcook.errors import InvalidInput, invalid
from libcook.logs.columns.names import scale_of, split_name
from libcook.logs.columns.roles import Columns
from libcook.logs.findings import Finding, count_of
from libcook.logs.reading.cleaning import READABLE, in_celsius
from libcook.logs.reading.header import scale_in_titles
from libcook.logs.reading.numbers import scale_in
from libcook.logs.reading.table import Table
from libcook.units import celsius_to_fahrenheit, temperature_unit
from libcook.units.scales import ABSOLUTE_ZERO

FloatArray = npt.NDArray[np.float64]


def scales(
    table: Table, columns: Columns, order: npt.NDArray[np.intp], values: Mapping[str, FloatArray]
) -> dict[str, str]:
    """Decide "C", "F" or "K" for each temperature: call, header and cells, titles, one guess for the rest.

    Parameters
    ----------
    table : Table
        With the headers and titles.
    columns : Columns
        With what the call said; findings go there.
    order : numpy.ndarray
        The rows in order of time.
    values : mapping
        The numbers of each column, in that order. Where the cells of a column are in several scales, they are
        changed to the first of these.
    """
    result: dict[str, str] = {}
    for name, index in columns.temperatures.items():
        header = scale_of(split_name(table.names[index])[1])
        told = columns.told.get(index)
        told = None if told is None else temperature_unit(told)
        cells = [table.rows[row][index] for row in order]
        beside = [table.rows[row][i] for i in table.unit_columns[:1] for row in order]
        marked = _Marked(table.names[index], cells, beside, values[name])
        said = marked.settle(told, header, columns.findings) or header
        if told is not None:
            result[name] = told
            if said and said != told:
                text = f"column {quoted(table.names[index])} says °{said}, read as °{told} as told"
                columns.findings.append(Finding("found", text, kind="unit", column=name))
        elif said:
            result[name] = said
    open_names = [name for name in columns.temperatures if name not in result]
    if not open_names:
        return result
    known = set(result.values())
    title = scale_in_titles(table.titles)
    if len(known) == 1:
        guess, why = known.pop(), "like the other columns"
    elif title:
        guess, why = title[0], f"the file says so ({quoted(title[1][:60])})"
        _refuse_contradiction(guess, values, title[1])
    else:
        guess, why = _guess_scale(values)
    listing = listed(quoted(table.names[columns.temperatures[name]]) for name in open_names)
    text = f"no unit for {listing}; taken as °{guess}: {why}"
    columns.findings.append(Finding("found", text, len(open_names), kind="unit"))
    return {**result, **dict.fromkeys(open_names, guess)}


class _Marked:
    """The readings of one column, with the scales that cells, or a column of units beside them, carry."""

    def __init__(self, header: str, cells: Sequence[str], beside: Sequence[str], values: FloatArray) -> None:
        signs = {cell: scale_in(cell) for cell in set(cells) if not cell[-1:].isdigit()}
        marks = np.array([signs.get(cell, "") for cell in cells])
        if beside:
            marks = np.where(marks == "", np.array([scale_of(unit) or "" for unit in beside]), marks)
        self._header, self._cells, self._values = header, cells, values
        self._read = np.isfinite(values)
        self._marks = np.where(self._read, marks, "")
        self._carried = self._marks != ""
        found = [str(mark) for mark in dict.fromkeys(self._marks.tolist()) if mark]
        self._scales = sorted(found, key=lambda scale: -int(np.count_nonzero(self._marks == scale)))

    def settle(self, told: str | None, header: str | None, findings: list[Finding]) -> str | None:
        """Return the scale that the column says, None where it says none; others are brought to it."""
        if not self._scales:
            return None
        most, name = self._scales[0], quoted(self._header)
        carried, read = int(self._carried.sum()), int(self._read.sum())
        silent = read - carried
        where = f"column {name}"
        if told is None and header is not None and most != header and 2 * carried > read:
            shown = next((cell for cell in self._cells if scale_in(cell)), "")
            came = f"{where} says °{header} and its cells °{most}" + (f" ({quoted(shown)})" if shown else "")
            raise invalid("units", shown, came, f"say units={{{name}: {quoted(most)}}} or such")
        if told is None and header is None and 2 * carried < read:
            self._take_out(findings)
            return None
        if told is None and header is None and silent and len(self._scales) > 1:
            came = f"{count_of(silent, 'reading')} of {where} without a unit among others in "
            came += " and ".join(f"°{scale}" for scale in self._scales)
            raise invalid("units", None, came, f"say units={{{name}: 'C'}} or 'F' for those without")
        if silent and header is None:
            text = f"{count_of(silent, 'reading')} of {where} without a unit among others in °{most}"
            self._say(f"{text}; taken as °{told or most}", silent, findings)
        if len(self._scales) == 1 and (told is not None or header in (None, most)):
            return most
        counts = [f"{count_of(self._count(scale), 'reading')} in °{scale}" for scale in self._scales]
        if header is not None and silent:
            counts.append(f"{silent} in °{header} as the header says")
        self._say(f"{where}: {' and '.join(counts)}; each read in its own unit", read, findings)
        return self._bring_to(told or header or most)

    def _count(self, scale: str) -> int:
        return int(np.count_nonzero(self._marks == scale))

    def _say(self, text: str, count: int, findings: list[Finding]) -> None:
        findings.append(Finding("found", text, count, kind="unit", column=self._header))

    def _take_out(self, findings: list[Finding]) -> None:
        """Mark readings missing that carry a unit among many that do not: which one those are in is open."""
        shown = next(cell for cell, carried in zip(self._cells, self._carried, strict=True) if carried)
        count = int(self._carried.sum())
        text = f"{quoted(self._header)}: {count_of(count, 'reading')} with a unit, such as {quoted(shown)}, "
        text += "among others without; marked missing"
        findings.append(Finding("mended", text, count, kind="dropout", column=self._header))
        self._values[self._carried] = np.nan

    def _bring_to(self, target: str) -> str:
        for scale in self._scales:
            here = self._marks == scale
            if scale != target:
                celsius = in_celsius(self._values[here], scale)
                self._values[here] = {
                    "C": celsius,
                    "F": celsius_to_fahrenheit(celsius),
                    "K": celsius - ABSOLUTE_ZERO,
                }[target]
        return target


def _refuse_contradiction(scale: str, values: Mapping[str, FloatArray], title: str) -> None:
    """Refuse what a title says of the scale where the readings can only be in the other one."""
    try:
        guess, why = _guess_scale(values)
    except InvalidInput:
        return
    if guess != scale:
        came = f"{quoted(title[:60])} says °{scale}, but it looks like °{guess}: {why}"
        raise invalid("units", title, came, "say units='C' or units='F'")


def _plausible(values: FloatArray) -> FloatArray:
    """Return the readings that a probe can make, in whichever scale."""
    inside = (values >= READABLE[0]) & (values <= celsius_to_fahrenheit(READABLE[1]))
    found: FloatArray = values[inside]
    return found


def _guess_scale(values: Mapping[str, FloatArray]) -> tuple[str, str]:
    """Guess the scale from what meat and pits can be; refuses where both would do."""
    core, pit = (_plausible(values[role]) if role in values else np.empty(0) for role in ("core", "pit"))
    if core.size and np.percentile(core, 95) > 105.0:  # robust against a few spikes
        return (
            "F",
            f"the core reaches {np.percentile(core, 95):.0f}: in the other scale wet meat would boil",
        )
    if pit.size:
        middle = float(np.median(pit))
        if middle > 180.0:
            return (
                "F",
                f"the pit is at {middle:.0f} in the middle, which in the other scale is no low and slow",
            )
        if 60.0 <= middle <= 150.0:
            return (
                "C",
                f"the pit is at {middle:.0f} in the middle, which in the other scale is too cool for a pit",
            )
    elif core.size and core.min() < 30.0 and core.max() > 32.0:
        return "C", f"the core starts at {core.min():.0f}: in the other scale it would be frozen"
    raise invalid(
        "units",
        None,
        "the columns do not say °C or °F and their range fits both",
        "say units='C' or units='F'",
    )
