"""Logged temperatures: the `Log` class."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt

from libcook.arguments.door import door
from libcook.arguments.quantity import PathName, Word
from libcook.arguments.quote import cut, listed
from libcook.errors import invalid
from libcook.logs import detect, files, parquet, report
from libcook.logs import events as happened
from libcook.logs.arrays import checked
from libcook.logs.events import Event
from libcook.logs.findings import Finding
from libcook.units import temperature_unit

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["Event", "Finding", "Log"]

FloatArray = npt.NDArray[np.float64]
Start = dt.datetime | dt.time | None


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
    events : sequence of Event or (duration, str), optional
        What happened, as for `with_events`.
    units : str
        ``"C"`` or ``"F"``: the scale in which the log speaks of itself and is drawn. The readings are in °C.
    **others : array_like
        Further temperatures [°C] by name, such as ``flat`` and ``point``.

    Attributes
    ----------
    time : numpy.ndarray
        Times [s], float64, read-only.
    columns : mapping of str to numpy.ndarray
        Temperatures [°C], float64, read-only.
    units : str
        ``"C"`` or ``"F"``: the scale in which the file was written, and the log speaks of itself.
    events : tuple of Event
        What happened, in order of time; only what the file or the user said. For what the traces suggest see
        `propose_events`.

    Raises
    ------
    InvalidInput
        When lengths differ, times do not increase, or values are no °C that meat or a pit can have.

    Examples
    --------
    >>> log = Log(time=[0.0, 3600.0], core=[4.0, 21.5], pit=[118.0, 121.0])
    >>> log.duration
    3600.0
    >>> log.mark("wrapped", at="30 min").events[0].time
    1800.0
    """

    time: FloatArray
    columns: Mapping[str, FloatArray]
    start_clock: Start
    summary: tuple[Finding, ...]
    events: tuple[Event, ...]
    units: Word

    @door
    def __init__(
        self,
        time: npt.ArrayLike,
        core: npt.ArrayLike | None = None,
        pit: npt.ArrayLike | None = None,
        *,
        start_clock: Start = None,
        summary: Sequence[Finding] = (),
        events: Sequence[Event | tuple[Any, str]] = (),
        units: Word = "C",
        **others: npt.ArrayLike,
    ) -> None:
        self._fill(time, {"core": core, "pit": pit, **others}, start_clock, summary, events, units)

    def _fill(
        self,
        time: npt.ArrayLike,
        columns: Mapping[str, npt.ArrayLike | None],
        start: Start,
        summary: Sequence[Finding],
        events: Sequence[Event | tuple[Any, str]],
        units: Word,
    ) -> None:
        seconds, named = checked(time, columns)
        span = (float(seconds[0]), float(seconds[-1]))
        happenings = happened.in_time(happened.from_list(events, span, start, summary))
        values = {
            "time": seconds,
            "columns": MappingProxyType(named),
            "start_clock": start,
            "summary": tuple(summary),
            "events": happenings,
            "units": temperature_unit(units),
        }
        for name, value in values.items():
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
                cut(str(name)), name, "this log has no such column", f"it has: {listed(self.columns)}"
            )
        return self.columns[name]

    @property
    def _span(self) -> tuple[float, float]:
        return float(self.time[0]), float(self.time[-1])

    def _with(self, events: Sequence[Event]) -> Log:
        return _rebuild(self.time, self.columns, self.start_clock, self.summary, events, self.units)

    def __len__(self) -> int:
        """Return the number of readings."""
        return int(self.time.size)

    @door
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

    @door
    def with_events(self, events: Sequence[Event | tuple[Any, str]]) -> Log:
        """Return this log with more events.

        Parameters
        ----------
        events : sequence of Event or (duration, str)
            Events, or pairs such as ``("5 h", "wrapped")`` or, where the log knows its start,
            ``("23:10", "spritz")``. Words that name no kind of event become a ``"note"``. Proposed events
            count as accepted: ``log.with_events(log.propose_events())``.

        Raises
        ------
        InvalidInput
            When a time cannot be read, or lies more than an hour outside the readings.
        """
        added = happened.from_list(events, self._span, self.start_clock, self.summary)
        return self._with([*self.events, *added])

    @door
    def mark(self, kind: Word, at: Any, note: str = "") -> Log:
        """Return this log with one more event.

        Parameters
        ----------
        kind : str
            Such as ``"wrapped"``, ``"spritzed"``, ``"moved"``, ``"pulled"``; all kinds: `Event`.
        at : float, str, datetime.time or datetime.datetime
            ``"5 h"`` or a plain number [s] is on the log's time axis; ``"23:10"`` is a time of day.
        note : str, optional
            Words of your own.

        """
        when = happened.read_moment(at, self._span, self.start_clock, self.summary, "at")
        return self._with([*self.events, Event(happened.named(kind), when, "call", note)])

    def propose_events(self) -> tuple[Event, ...]:
        """Look in the traces for events that are not among `events`; nothing is applied.

        An opened lid or a spritz is a dip of the pit; wrapping a change of the core's slope at an opened lid;
        a probe pulled a jump that meat cannot make; the meat pulled a pit, or a core, that falls for good.
        They are guesses to check; ``note`` says what each rests on. Fuel, wind, a dying fire or the end of
        the stall can look the same. Accept what is right: ``log.with_events([...])``.

        Returns
        -------
        tuple of Event
            With ``source="proposed"``, in order of time.
        """
        return detect.propose(self.time, self.columns, self.summary, self.events, self.units)

    def report(self) -> str:
        """Return the log in words: what it holds, its events, and every line of its summary."""
        return report.full(self)

    @door
    def plot(
        self, units: Word | None = None, ax: Axes | None = None, theme: Word = "light", proposed: bool = False
    ) -> Axes:
        """Draw the temperatures with gaps shaded and events marked.

        Parameters
        ----------
        units : str, optional
            ``"C"`` or ``"F"``; the log's own by default.
        ax : matplotlib.axes.Axes, optional
            Where to draw; a new figure by default.
        theme : str
            ``"light"`` or ``"dark"``.
        proposed : bool
            Whether to mark what `propose_events` returns as well, with a question mark.

        Returns
        -------
        matplotlib.axes.Axes
            With a line for each column, labelled with its name.
        """
        from libcook.logs.plot import plot_log

        return plot_log(self, self.units if units is None else units, ax, theme, proposed)

    @door
    def to_frame(self, units: Word = "C") -> Any:
        """Return a pandas DataFrame indexed by time [s], temperatures in °C or °F.

        Raises
        ------
        ImportError
            When pandas is not installed.
        """
        return files.frame_of(self, units)

    @door
    def to_csv(self, path: PathName, units: Word = "C") -> Path:
        """Write the log as CSV; `read_log` reads it back equal (in °F: but for rounding).

        Columns are ``time [s]``, each temperature with its unit (``units="C"`` or ``"F"``), and the events in
        rows of their own; start and summary stand in a remark in the first line. Text that a spreadsheet
        would run, such as a note that begins with "=", gets an apostrophe in front. Missing folders are made.
        """
        return files.write_csv(self, path, units)

    @door
    def to_parquet(self, path: PathName, units: Word = "C") -> Path:
        """Write the log as Parquet, laid out like `to_csv`; `read_log` reads it back equal.

        Raises
        ------
        ImportError
            When pyarrow is not installed: ``pip install 'libcook[parquet]'``.
        """
        return parquet.write_parquet(self, path, units)

    def __eq__(self, other: object) -> bool:
        """Compare all readings and findings, not `units`; missing readings are equal to each other."""
        if not isinstance(other, Log):
            return NotImplemented
        return (
            self.columns.keys() == other.columns.keys()
            and np.array_equal(self.time, other.time)
            and all(np.array_equal(self.columns[n], other.columns[n], equal_nan=True) for n in self.columns)
            and files.start_text(self.start_clock) == files.start_text(other.start_clock)
            and (self.summary, self.events) == (other.summary, other.events)
        )

    __hash__ = None  # type: ignore[assignment]

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle the arrays and facts, nothing live."""
        facts = (self.start_clock, self.summary, self.events, self.units)
        return _rebuild, (self.time, dict(self.columns), *facts)

    def __repr__(self) -> str:
        """Return the one-line form."""
        return report.text(self)

    def _repr_html_(self) -> str:
        return report.html(self)


def _rebuild(
    time: FloatArray,
    columns: Mapping[str, FloatArray],
    start: Start,
    summary: Any,
    events: Any,
    units: Word = "C",
) -> Log:
    log = Log.__new__(Log)  # a column of a file can have the name of an argument
    log._fill(time, columns, start, summary, events, units)
    return log
