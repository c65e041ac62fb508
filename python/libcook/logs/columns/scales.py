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
from libcook.logs.reading.cleaning import in_celsius
from libcook.logs.reading.header import scale_in_titles
from libcook.logs.reading.numbers import scale_in
from libcook.logs.reading.table import Table
from libcook.units import celsius_to_fahrenheit, temperature_unit

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
        cells = [table.rows[row][index] for row in order]
        unit = table.unit_columns[:1]
        beside = [table.rows[row][unit[0]] for row in order] if unit else []
        own = _scale_of_cells(table, index, cells, beside, values[name], told, columns.findings)
        told = None if told is None else temperature_unit(told)
        if own and header and own != header and told is None:
            shown = next((cell for cell in cells if scale_in(cell)), "")
            where = (
                f"its cells °{own} ({quoted(shown)})" if shown else f"{quoted(table.names[unit[0]])} °{own}"
            )
            came = f"column {quoted(table.names[index])} says °{header} and {where}"
            accepted = f"say units={{{quoted(table.names[index])}: {quoted(own)}}} or such"
            raise invalid("units", shown, came, accepted)
        said = own or header
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


def _scale_of_cells(
    table: Table,
    index: int,
    cells: Sequence[str],
    beside: Sequence[str],
    values: FloatArray,
    told: str | None,
    findings: list[Finding],
) -> str | None:
    """Return the scale that the cells carry; where they carry several, bring all to the first."""
    signs = {cell: scale_in(cell) for cell in set(cells) if not cell[-1:].isdigit()}
    if not any(signs.values()) and not any(beside):
        return None
    marks = np.array([signs.get(cell, "") for cell in cells])
    if beside:
        marks = np.where(marks == "", np.array([scale_of(unit) or "" for unit in beside]), marks)
    read = np.isfinite(values)
    present = [scale for scale in dict.fromkeys(marks[read].tolist()) if scale]
    if not present:
        return None
    silent = read & (marks == "")
    name = quoted(table.names[index])
    first = str(present[0])
    if silent.any():
        without = f"{count_of(int(silent.sum()), 'reading')} of column {name} without a unit among others"
        if len(present) > 1 and told is None:
            came = f"{without} in {' and '.join(f'°{scale}' for scale in present)}"
            raise invalid("units", None, came, f"say units={{{name}: 'C'}} or 'F' for those without")
        text = f"{without} in °{first}; taken as °{temperature_unit(told) if told else first}"
        findings.append(Finding("found", text, int(silent.sum()), kind="unit", column=table.names[index]))
    if len(present) == 1:
        return first
    counts = [
        f"{count_of(int(np.count_nonzero(marks[read] == scale)), 'reading')} in °{scale}" for scale in present
    ]
    text = f"column {name}: {' and '.join(counts)}; each read in its own unit"
    findings.append(Finding("found", text, int(read.sum()), kind="unit", column=table.names[index]))
    target = temperature_unit(told) if told else first
    target = "F" if target == "F" else "C"
    for scale in present:
        here = read & (marks == scale)
        if scale != target:
            celsius = in_celsius(values[here], scale)
            values[here] = celsius_to_fahrenheit(celsius) if target == "F" else celsius
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


def _guess_scale(values: Mapping[str, FloatArray]) -> tuple[str, str]:
    """Guess the scale from what meat and pits can be; refuses where both would do."""
    core = values["core"][np.isfinite(values["core"])] if "core" in values else np.empty(0)
    pit = values["pit"][np.isfinite(values["pit"])] if "pit" in values else np.empty(0)
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
