"""A log from delimited text, JSON, a workbook or Parquet: `read_log`.

Reading changes nothing silently: `Log.summary` lists what was found, mended and ignored, with counts, times
and lines of the file.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any

from libcook.arguments.door import door
from libcook.logs.events import Event
from libcook.logs.log import Log, _rebuild
from libcook.logs.reading import read as reading


@door
def read_log(
    source: Any,
    time: str | int | None = None,
    core: str | int | None = None,
    pit: str | int | None = None,
    units: str | Mapping[str, str] | None = None,
    events: str | int | Sequence[Event | tuple[Any, str]] | None = None,
    date: dt.date | str | None = None,
    delimiter: str | None = None,
    decimal: str | None = None,
    timezone: str | dt.tzinfo | None = None,
    day_first: bool | None = None,
    skip: int | None = None,
    sheet: str | int | None = None,
) -> Log:
    r"""Read logged temperatures: delimited text, JSON, a workbook (.xlsx) or Parquet.

    Title lines before the header, units in headers, cells or titles, decimal commas, dates in words and
    columns named in English, German, French or Spanish are found by themselves. What is mended, guessed or
    left out stands in `Log.summary` and `Log.report`, with its column or lines, and with the argument that
    would change it. What could be read in two ways is refused; the message names the argument that decides.

    A log of more than 100,000 rows is thinned: of so many rows in a row the first and the last are kept,
    those with the lowest and the highest reading of each column, and every row with a note. The first finding
    of `Log.summary` then says how many were kept, and of how many.

    Parameters
    ----------
    source : path, file or str
        A path, an open file, or the text itself (which then holds a line break, or is JSON). JSON is one
        object a line, a list of objects or of rows (up to 64 million characters), or an object that holds one
        such list.
    time, core, pit : str or int, optional
        Columns by header or by position from 0; guessed from the header where left out.
    units : {"C", "F"} or mapping, optional
        Scale of the temperatures, or of each column by name; a column that is named is read as a temperature
        even where it would be left out. For the column of times "ms", "s", "min", "h", "mm:ss" or "hh:mm".
        Otherwise from the cells, the header or a title line, else guessed and reported.
    events : str, int or sequence, optional
        The column that notes what happened; or, beside the notes of the file, a list such as ``[("5 h",
        "wrapped")]``.
    date : datetime.date or str, optional
        Day of the first reading, for clock times without a date.
    delimiter, decimal : str, optional
        Guessed where left out: comma, semicolon, tab or bar; point or comma.
    timezone : str or datetime.tzinfo, optional
        Where the clock hung, such as ``"America/Chicago"``: places the hour that daylight saving repeats or
        leaves out. Time stamps that carry an offset are only shown in it. Without it, a clock that jumps an
        hour is recognised where the readings are even, and reported.
    day_first : bool, optional
        Whether ``5/11/2024`` is the 5th of November; told from the dates where left out, and refused where
        they leave it open.
    skip : int, optional
        Lines (in a workbook, rows) to leave out at the beginning; the next one is the header. Title lines are
        found by themselves where left out.
    sheet : str or int, optional
        Sheet of a workbook by name or position from 0; where left out, the one that holds a log.

    Returns
    -------
    Log
        Times in s: from 0 for time stamps and clock times, as given for elapsed times. Temperatures in °C,
        NaN where there is no reading. `Log.summary` says what was found, mended and ignored.

    Raises
    ------
    InvalidInput
        When the text cannot be read without guessing; the message lists the columns found.
    ImportError
        For a workbook when openpyxl is not installed (``pip install 'libcook[excel]'``), for a Parquet file
        when pyarrow is not.

    Examples
    --------
    >>> text = "minutes,core (F),pit (F)\n0,40,250\n30,52,248\n60,71,252\n"  # invented data
    >>> read_log(text).duration
    3600.0
    """
    named = events if isinstance(events, (str, int)) else None
    listed = None if isinstance(events, (str, int)) else events
    parts = reading.read(
        source,
        {"time": time, "core": core, "pit": pit, "events": named},
        units,
        listed,
        reading.make_clock(date, timezone, day_first),
        reading.Form(delimiter, decimal, skip, sheet),
    )
    return _rebuild(parts.time, parts.columns, parts.start, parts.summary, parts.events, parts.units)
