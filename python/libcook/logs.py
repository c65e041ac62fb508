"""Logged temperatures: the `Log` class, and `read_log` for plain delimited text.

Reading changes nothing silently: `Log.summary` lists what was found, mended and ignored, with counts and
times.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any

import numpy as np
import numpy.typing as npt

from libcook import _log_cleaning as cleaning
from libcook import _log_columns as columns_of
from libcook import _log_report as report
from libcook._log_findings import Finding
from libcook._log_table import is_blank, read_source, read_table
from libcook._log_time import in_order, read_date, read_times
from libcook.errors import invalid
from libcook.units import celsius_to_fahrenheit, temperature_unit, to_si

__all__ = ["Finding", "Log", "read_log"]

FloatArray = npt.NDArray[np.float64]
Start = dt.datetime | dt.time | None

_WET_MEAT = 110.0  # °C; a core that is hotter half of the time is in °F: water keeps wet meat below 100 °C


class Log:
    """Temperatures logged over a cook; does not change once made.

    Parameters
    ----------
    time : array_like
        Times [s], strictly increasing, at least two.
    core, pit : array_like, optional
        Core and pit temperatures [°C], one for each time, NaN where there is no reading. At least one of the
        two.
    start_clock : datetime.datetime, datetime.time or None, optional
        When the first reading was; only the time of day where the day is not known.
    summary : sequence of Finding, optional
        What reading the log found, mended and ignored.
    events : sequence of (float, str), optional
        Times [s] and what happened then.
    **others : array_like
        Further temperatures [°C] by name, such as ``flat`` and ``point``.

    Attributes
    ----------
    time : numpy.ndarray
        Times [s], float64, read-only.
    columns : mapping of str to numpy.ndarray
        Temperatures [°C], float64, read-only.

    Raises
    ------
    InvalidInput
        When lengths differ, times do not increase, or values are no °C that meat or a pit can have.

    Examples
    --------
    >>> log = Log(time=[0.0, 3600.0], core=[4.0, 21.5], pit=[118.0, 121.0])
    >>> log.duration
    3600.0
    """

    time: FloatArray
    columns: Mapping[str, FloatArray]
    start_clock: Start
    summary: tuple[Finding, ...]
    events: tuple[tuple[float, str], ...]

    def __init__(
        self,
        time: npt.ArrayLike,
        core: npt.ArrayLike | None = None,
        pit: npt.ArrayLike | None = None,
        *,
        start_clock: Start = None,
        summary: Sequence[Finding] = (),
        events: Sequence[tuple[float, str]] = (),
        **others: npt.ArrayLike,
    ) -> None:
        if core is None and pit is None:
            raise invalid("log", None, "neither core nor pit came", "at least one of the two is accepted")
        seconds = _array("time", time)
        if seconds.size < 2:
            raise invalid("time", time, f"{seconds.size} reading came", "at least two readings are accepted")
        if not np.isfinite(seconds).all():
            at = int(np.argmin(np.isfinite(seconds)))
            raise invalid("time", time, f"time[{at}] is {seconds[at]}", "finite seconds are accepted")
        steps = np.diff(seconds)
        if not (steps > 0.0).all():
            at = int(np.argmin(steps > 0.0))
            came = (
                f"time[{at + 1}] = {seconds[at + 1]:g} s does not come after time[{at}] = {seconds[at]:g} s"
            )
            raise invalid("time", time, came, "strictly increasing times are accepted")
        given = {"core": core, "pit": pit, **others}
        named = {
            name: _temperatures(name, values, seconds.size)
            for name, values in given.items()
            if values is not None
        }
        self._set("time", seconds)
        self._set("columns", MappingProxyType(named))
        self._set("start_clock", start_clock)
        self._set("summary", tuple(summary))
        self._set("events", tuple((float(when), str(what)) for when, what in events))

    def _set(self, name: str, value: Any) -> None:
        object.__setattr__(self, name, value)

    def __setattr__(self, name: str, value: Any) -> None:
        """Refuse: a log does not change."""
        raise AttributeError(f"a Log does not change; make a new one instead of setting '{name}'")

    def __delattr__(self, name: str) -> None:
        """Refuse: a log does not change."""
        raise AttributeError(f"a Log does not change; '{name}' cannot be deleted")

    @property
    def core(self) -> FloatArray:
        """Core temperatures [°C]."""
        return self["core"]

    @property
    def pit(self) -> FloatArray:
        """Pit temperatures [°C]."""
        return self["pit"]

    @property
    def duration(self) -> float:
        """Time from the first to the last reading [s]."""
        return float(self.time[-1] - self.time[0])

    def __getitem__(self, name: str) -> FloatArray:
        """Return the temperatures of one column [°C]."""
        if name not in self.columns:
            raise invalid(
                str(name), name, "this log has no such column", f"it has: {', '.join(self.columns)}"
            )
        return self.columns[name]

    def __len__(self) -> int:
        """Return the number of readings."""
        return int(self.time.size)

    def series(self, name: str) -> tuple[FloatArray, FloatArray]:
        """Return the readings of one column alone, ready to be a boundary condition.

        Parameters
        ----------
        name : str
            Such as ``"pit"``.

        Returns
        -------
        time : numpy.ndarray
            Times [s], strictly increasing.
        values : numpy.ndarray
            Temperatures [°C], all finite.

        Raises
        ------
        InvalidInput
            When there is no such column, or fewer than two readings in it.
        """
        values = self[name]
        finite = np.isfinite(values)
        if int(finite.sum()) < 2:
            raise invalid(
                name, None, f"{int(finite.sum())} reading left in this column", "at least two are accepted"
            )
        return self.time[finite], values[finite]

    def to_frame(self, units: str = "C") -> Any:
        """Return a pandas DataFrame indexed by time [s], temperatures in °C or °F.

        Raises
        ------
        ImportError
            When pandas is not installed.
        """
        try:
            import pandas as pd
        except ModuleNotFoundError as error:
            raise ImportError("Log.to_frame needs the optional package pandas: pip install pandas") from error
        scale = temperature_unit(units)
        data = {
            name: celsius_to_fahrenheit(v) if scale == "F" else v.copy() for name, v in self.columns.items()
        }
        frame = pd.DataFrame(data, index=pd.Index(self.time.copy(), name="time"))
        frame.attrs["units"] = {"time": "s", **dict.fromkeys(data, f"°{scale}")}
        return frame

    def __eq__(self, other: object) -> bool:
        """Compare all readings and findings; missing readings are equal to each other."""
        if not isinstance(other, Log):
            return NotImplemented
        return (
            self.columns.keys() == other.columns.keys()
            and np.array_equal(self.time, other.time)
            and all(np.array_equal(self.columns[n], other.columns[n], equal_nan=True) for n in self.columns)
            and (self.start_clock, self.summary, self.events)
            == (other.start_clock, other.summary, other.events)
        )

    __hash__ = None  # type: ignore[assignment]

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle the arrays and facts, nothing live."""
        return _rebuild, (self.time, dict(self.columns), self.start_clock, self.summary, self.events)

    def __repr__(self) -> str:
        """Return the one-line form."""
        return report.text(self)

    def _repr_html_(self) -> str:
        return report.html(self)


def _rebuild(
    time: FloatArray, columns: dict[str, FloatArray], start: Start, summary: Any, events: Any
) -> Log:
    return Log(time, start_clock=start, summary=summary, events=events, **columns)


def _array(name: str, values: npt.ArrayLike) -> FloatArray:
    try:
        array = np.array(values, dtype=np.float64)
    except (TypeError, ValueError):
        raise invalid(
            name, values, "not an array of numbers came", "one number for each reading is accepted"
        ) from None
    if array.ndim != 1:
        raise invalid(
            name, values, f"an array with {array.ndim} dimensions came", "one dimension is accepted"
        )
    array.flags.writeable = False
    return array


def _temperatures(name: str, values: npt.ArrayLike, size: int) -> FloatArray:
    array = _array(name, values)
    if array.size != size:
        raise invalid(
            name, values, f"{array.size} values came for {size} times", "one for each time is accepted"
        )
    finite = array[np.isfinite(array)]
    if finite.size == 0:
        raise invalid(name, values, "not one finite reading", "leave the column out where there is none")
    low, high = cleaning.READABLE
    if finite.min() < low or finite.max() > high:
        worst = finite.min() if finite.min() < low else finite.max()
        meant = "kelvin or a stand-in for no reading" if worst > high else "a stand-in for no reading"
        raise invalid(
            name, values, f"{worst:g} °C is no reading", f"{low:g} to {high:g} °C is accepted", meant
        )
    if name == "core" and float(np.median(finite)) > _WET_MEAT:
        middle = float(np.median(finite))
        came = f"half of the readings are above {middle:.0f} °C, and wet meat stays below 100 °C"
        raise invalid(
            name, values, came, "°C is accepted", "°F (units='F', or libcook.units.fahrenheit_to_celsius)"
        )
    if not np.isfinite(array).all():
        array = np.where(np.isfinite(array), array, np.nan)  # an infinity is no reading either
        array.flags.writeable = False
    return array


def read_log(
    source: Any,
    time: str | int | None = None,
    core: str | int | None = None,
    pit: str | int | None = None,
    units: str | Mapping[str, str] | None = None,
    events: str | int | Sequence[tuple[Any, str]] | None = None,
    date: dt.date | str | None = None,
    delimiter: str | None = None,
    decimal: str | None = None,
) -> Log:
    r"""Read logged temperatures from plain delimited text.

    Parameters
    ----------
    source : path, file or str
        A path, an open file, or the text itself (which then holds a line break).
    time, core, pit : str or int, optional
        Columns by header or by position from 0; guessed from the header where left out.
    units : {"C", "F"} or mapping, optional
        Scale of the temperatures, or of each column by name. Otherwise from the header, else guessed and
        reported.
    events : str, int or sequence of (duration, str), optional
        The column that notes what happened, or a list such as ``[("5 h", "wrapped")]``.
    date : datetime.date or str, optional
        Day of the first reading, for clock times without a date.
    delimiter, decimal : str, optional
        Guessed where left out: comma, semicolon or tab; point or comma.

    Returns
    -------
    Log
        Times in s: from 0 for time stamps and clock times, as given for elapsed times. Temperatures in °C,
        NaN where there is no reading. `Log.summary` says what was found, mended and ignored.

    Raises
    ------
    InvalidInput
        When the text cannot be read without guessing; the message lists the columns found.

    Examples
    --------
    >>> text = "minutes,core (F),pit (F)\n0,40,250\n30,52,248\n60,71,252\n"  # invented data
    >>> read_log(text).duration
    3600.0
    """
    text, findings = read_source(source)
    table = read_table(text, delimiter, decimal)
    findings += table.findings
    listed = None if events is None or isinstance(events, (str, int)) else events
    where = columns_of.assign(table, time, core, pit, events if isinstance(events, (str, int)) else None)
    cells = table.column(where.time)
    if where.date is not None:
        cells = [f"{day} {clock}" for day, clock in zip(table.column(where.date), cells, strict=True)]
    day = None if date is None else read_date(date)
    times = read_times(table, cells, table.names[where.time], where.time_unit, day)
    rows, order = in_order(times.seconds)
    findings += times.findings + order
    if rows.size < 2:
        came = f"the log has {rows.size} row with a time"
        raise invalid(
            "log", None, came, "at least two rows are accepted", "a log cut short, or another delimiter"
        )
    seconds = times.seconds[rows]
    raw = {}
    for name, index in list(where.temperatures.items()):
        raw[name], found = cleaning.read_column(table, index, rows, seconds)
        findings += found
        if not np.isfinite(raw[name]).any():
            if name in ("core", "pit"):
                raise invalid(name, None, f"column '{table.names[index]}' holds no reading that can be used")
            findings.append(Finding("ignored", f"column '{table.names[index]}': no reading that can be used"))
            del raw[name], where.temperatures[name]
    scale = columns_of.scales(table, where, raw, units)
    findings += where.findings
    celsius: dict[str, FloatArray] = {}
    for name, values in raw.items():
        celsius[name], found = cleaning.to_celsius(values, scale[name], name, seconds)
        findings += found
    when = _events(table.rows, where.events, rows, seconds, listed)
    seconds, celsius, found = cleaning.merge_doubles(seconds, celsius)
    findings += found
    for name in celsius:
        celsius[name], found = cleaning.mark_spikes(name, seconds, celsius[name])
        findings += found
    if seconds.size < 2:
        raise invalid(
            "time", None, "all rows have the same time", "at least two different times are accepted"
        )
    findings += cleaning.find_gaps(seconds, celsius)
    return Log(seconds, start_clock=times.start, summary=findings, events=when, **celsius)


def _events(
    rows: list[list[str]],
    column: int | None,
    order: npt.NDArray[np.intp],
    seconds: FloatArray,
    listed: Sequence[tuple[Any, str]] | None,
) -> list[tuple[float, str]]:
    if listed is not None:
        try:
            pairs = [(when, str(what)) for when, what in listed]
        except (TypeError, ValueError):
            raise invalid(
                "events", listed, "not a list of pairs came", "such as [('5 h', 'wrapped')] is accepted"
            ) from None
        return sorted((to_si(when, "duration", f"events[{i}]"), what) for i, (when, what) in enumerate(pairs))
    if column is None:
        return []
    noted = [(float(seconds[at]), rows[row][column]) for at, row in enumerate(order)]
    return [(when, what) for when, what in noted if not is_blank(what)]
