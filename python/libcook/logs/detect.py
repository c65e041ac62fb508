"""Events that the traces suggest. All of them are proposals: plausible, not proven; the cook checks them.

The limits below are ours, judged on simulated cooks (invented data); no source. On other such cooks at least
nineteen of twenty events of each kind were found within a quarter of an hour, with fewer than one false alarm
in twenty logs for each kind; that a lid was opened to spritz was told for at least four of five spritzes
(``tests/python/logs/test_log_detection.py`` checks all this). A single look under the lid is often taken for
one of the spritzes around it. Real lids, probes and fires vary more than invented ones: expect worse.

Lid opened
    The pit falls by at least `LID_FALL` within `LID_FALL_TIME` (or from one reading to the next where those
    are further apart), by more than `LID_OVER_USUAL` times what it usually falls in that time, and gets half
    of it back within `LID_RECOVERY`. Not looked for where readings are more than `COARSEST` apart. Wind, fuel
    put on and a closed damper can look the same.
Spritzed
    A lid opened for a short time (half of the dip is back within `SPRITZ_LONGEST`), as one of at least
    `SPRITZ_LEAST` that follow one another evenly: `SPRITZ_EVERY` apart, each interval within `SPRITZ_EVEN` of
    their median. A look at the clock every hour looks the same: the trace shows the lid, not the bottle.
Wrapped
    At an opened lid with the core within `WRAP_CORE`, the core's course bends upwards: two straight lines
    that meet within `WRAP_BEND` of the lid fit the time around it (`WRAP_WINDOW`) at least `WRAP_SHARP` times
    better than a parabola, and the second is steeper by `WRAP_RISE` and `WRAP_TIMES` as steep, beyond what
    the pit's own change explains. The sharpest bend of the log, at the lid nearest to it. The natural end of
    a stall bends gently, but a fire that was stirred up at an opened lid can look the same.
Probe pulled
    A reading of meat jumps by at least `PROBE_JUMP` within `PROBE_TIME`, or from one reading to the next;
    meat cannot. Readings that were marked as spikes count as well.
Pulled
    The pit falls by at least `PULL_FALL` and stays there to the end, with the core above `PULL_CORE`: the
    meat was taken off, or the fire went out. Or the pit stays hot and the core, above `PULL_CORE`, turns and
    falls by `PULL_TURN`: it was taken off shortly before.

When the wrap was opened, and what was moved, cannot be told from these traces.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from libcook.arguments.quote import quoted
from libcook.logs.events import Event, in_time, is_known
from libcook.logs.findings import Finding, Rows
from libcook.logs.reading.cleaning import is_air, mark_spikes
from libcook.logs.reading.thin import thinned
from libcook.units import format_difference, format_duration, format_temperature

FloatArray = npt.NDArray[np.float64]

MINUTE, HOUR = 60.0, 3600.0
LID_FALL = 12.0  # K
LID_FALL_TIME = 3.0 * MINUTE
LID_OVER_USUAL = 2.3  # times the upper quartile of the falls of the whole log in LID_FALL_TIME
LID_RECOVERY = 45.0 * MINUTE
LID_LEVEL = 20.0 * MINUTE  # the level before a dip is the median over this time
FINEST = 10.0  # s; faster readings are thinned out
COARSEST = 10.0 * MINUTE  # usual spacing of the readings
SPRITZ_LONGEST = 10.0 * MINUTE
SPRITZ_LEAST = 3
SPRITZ_EVERY = (20.0 * MINUTE, 120.0 * MINUTE)
SPRITZ_EVEN = 0.25
WRAP_CORE = (45.0, 92.0)  # °C
WRAP_WINDOW = (75.0 * MINUTE, 90.0 * MINUTE)  # before and after the lid
WRAP_BEND = (-20.0 * MINUTE, 30.0 * MINUTE)  # from the lid to the bend
WRAP_LAG = 5.0 * MINUTE  # usual time from the lid to the bend
WRAP_SIDE = 25.0 * MINUTE  # of readings each side of the bend, at least
WRAP_SHARP = 1.5  # ratio of the sums of squares
WRAP_RISE = 2.0 / HOUR  # K/s
WRAP_TIMES = 1.5
PROBE_JUMP = 8.0  # K
FEWEST = 4  # readings, of which one could stand out
PROBE_TIME = 3.0 * MINUTE
PROBE_TOGETHER = HOUR  # jumps closer than this, out and back in, are one event
PROBE_AROUND = (10.0 * MINUTE, 40.0 * MINUTE)  # before and after; not the meat's temperature
PULL_FALL = 40.0  # K
PULL_LEAST = 10.0 * MINUTE  # of readings after it
PULL_CORE = 65.0  # °C
PULL_TURN = 2.0  # K
PULL_HOT = 5.0  # K; a pit this much hotter than the core is hot
PULL_LOOK_BACK = 2.0 * HOUR  # before the peak of the core, for the lid


@dataclass(frozen=True)
class Dip:
    """A fall of the pit that comes back: last reading before it, how deep, and when half of it was back."""

    time: float
    depth: float
    back: float


def propose(
    time: FloatArray,
    columns: Mapping[str, FloatArray],
    summary: Sequence[Finding] = (),
    known: Sequence[Event] = (),
    units: str = "C",
) -> tuple[Event, ...]:
    """Propose events, except those that are known already; see the module for what each one means.

    Parameters
    ----------
    time : numpy.ndarray
        Times [s].
    columns : mapping of str to numpy.ndarray
        Temperatures [°C].
    summary : sequence of Finding
        Spikes that were marked while reading are probes pulled.
    known : sequence of Event
        What the file or the call said.
    units : str
        ``"C"`` or ``"F"``, for the notes.
    """
    time, columns = thinned(time, columns)
    pit, core = (_series(time, columns, name) for name in ("pit", "core"))
    dips = lid_dips(*pit)
    probes = _probes_pulled(time, columns, summary, units)
    core = _meat_only(*core, probes)
    pulled = _pulled(pit, core, dips, probes, units)
    wrapped = _wrapped(pit, core, dips, pulled, units)
    firm = pulled + wrapped
    rest = [dip for dip in dips if not any(abs(dip.time - event.time) <= 5.0 * MINUTE for event in firm)]
    lids = _lids(rest, [dip for dip in dips if dip not in rest], units)
    return tuple(event for event in in_time([*firm, *lids, *probes]) if not is_known(event, known))


def say_proposed(events: Sequence[Event]) -> list[Finding]:
    """Make the line of a summary that says what the traces suggest."""
    if not events:
        return []
    kinds: dict[str, list[float]] = {}
    for event in events:
        kinds.setdefault(event.kind, []).append(event.time)
    parts = []
    for kind, times in kinds.items():
        shown = ", ".join(format_duration(time) for time in times[:2])
        more = f" and {len(times) - 2} more" if len(times) > 2 else ""
        parts.append(f"{kind} at {shown}{more}")
    text = f"the traces suggest: {'; '.join(parts)}; not applied, check log.propose_events()"
    return [Finding("found", text, len(events), tuple(event.time for event in events), kind="proposed")]


def _series(time: FloatArray, columns: Mapping[str, FloatArray], name: str) -> tuple[FloatArray, FloatArray]:
    values = columns.get(name, np.empty(0))
    if values.size == 0:
        return np.empty(0), np.empty(0)
    seen = np.flatnonzero(np.isfinite(values))
    if seen.size > 1:
        seen = seen[:: max(1, int(FINEST / float(np.median(np.diff(time[seen])))))]
    return time[seen], values[seen]


def _event(kind: str, time: float, note: str) -> Event:
    return Event(kind, time, "proposed", note)


def _lowest_within(time: FloatArray, values: FloatArray, span: float) -> npt.NDArray[np.intp]:
    """For each reading the place of the lowest one of the next `span` [s], at least of the next one."""
    last = np.maximum(np.searchsorted(time, time + span + 1e-6, side="right"), np.arange(time.size) + 2)
    return np.array([i + int(np.argmin(values[i : last[i]])) for i in range(time.size)], dtype=np.intp)


def lid_dips(time: FloatArray, pit: FloatArray) -> list[Dip]:
    """Find the dips of an opened lid in the readings of a pit."""
    if time.size < 10 or float(np.median(np.diff(time))) > COARSEST:
        return []
    lowest = _lowest_within(time, pit, LID_FALL_TIME)
    falls = pit - pit[lowest]
    gap = time[lowest] - time > max(COARSEST, LID_FALL_TIME)  # what happened in a gap is not known
    falls[gap] = 0.0
    limit = max(LID_FALL, LID_OVER_USUAL * float(np.quantile(falls, 0.75)))
    dips: list[Dip] = []
    i = 0
    while i < time.size - 1:
        if falls[i] < limit:
            i += 1
            continue
        while i + 1 < lowest[i] and falls[i + 1] >= falls[i]:  # from the last high reading
            i += 1
        before = pit[(time >= time[i] - LID_LEVEL) & (time <= time[i])]
        level = max(float(np.median(before)), float(pit[i]) - LID_FALL)
        bottom, end = int(lowest[i]), time[i] + LID_RECOVERY
        k = bottom
        while k < time.size and time[k] <= end:
            if pit[k] < pit[bottom]:
                bottom = k
            elif pit[k] >= 0.5 * (level + pit[bottom]):
                dips.append(Dip(float(time[i]), level - float(pit[bottom]), float(time[k])))
                break
            k += 1
        i = max(k if k < time.size and time[k] <= end else int(lowest[i]), i + 1)
    return [dip for dip in dips if dip.depth >= LID_FALL]


def _lids(dips: Sequence[Dip], others: Sequence[Dip], units: str) -> list[Event]:
    """Tell a rhythm of short dips from single ones; `others` keep the rhythm but are no spritz."""
    short = sorted(
        [dip for dip in dips if dip.back - dip.time <= SPRITZ_LONGEST] + list(others),
        key=lambda dip: dip.time,
    )
    times = np.array([dip.time for dip in short])
    rhythm: set[float] = set()
    for i in range(times.size):
        for k in range(i + SPRITZ_LEAST, times.size + 1):
            steps = np.diff(times[i:k])
            middle = float(np.median(steps))
            if not SPRITZ_EVERY[0] <= middle <= SPRITZ_EVERY[1]:
                break
            if np.abs(steps - middle).max() > SPRITZ_EVEN * middle:
                break
            rhythm.update(times[i:k].tolist())
    events = []
    for dip in dips:
        half = format_duration(dip.back - dip.time)
        shown = f"the pit fell {format_difference(dip.depth, units, 0)}, half of it was back after {half}"
        if dip.time in rhythm:
            events.append(_event("spritzed", dip.time, f"{shown}; one of an even series; check"))
        else:
            events.append(_event("lid opened", dip.time, f"{shown}; check"))
    return events


def _mean(time: FloatArray, values: FloatArray, low: float, high: float) -> float:
    inside = values[(time >= low) & (time <= high)]
    return float(np.median(inside)) if inside.size else float("nan")


def _left_over(columns: Sequence[FloatArray], values: FloatArray) -> tuple[float, FloatArray]:
    """Sum of squares that a least-squares fit leaves, and its coefficients."""
    matrix = np.column_stack(columns)
    fit: FloatArray = np.asarray(np.linalg.lstsq(matrix, values, rcond=None)[0])
    return float(np.sum((values - matrix @ fit) ** 2)), fit


@dataclass(frozen=True)
class Bend:
    """Two straight lines that meet: when, their slopes [K/s], how much better than a parabola."""

    time: float
    before: float
    after: float
    sharp: float


def find_bend(time: FloatArray, values: FloatArray, lid: float) -> Bend | None:
    """Fit two straight lines that meet near an opened lid to a core; None where readings are too few."""
    inside = (time >= lid - WRAP_WINDOW[0]) & (time <= lid + WRAP_WINDOW[1])
    when, kept = time[inside], values[inside]
    low = max(WRAP_BEND[0], when[0] - lid + WRAP_SIDE) if when.size else np.inf
    high = min(WRAP_BEND[1], when[-1] - lid - WRAP_SIDE) if when.size else -np.inf
    if when.size < 12 or high <= low:
        return None
    x = (when - lid) / HOUR
    one = np.ones_like(x)
    curved = _left_over((one, x, x * x), kept)[0]
    best: tuple[float, float, FloatArray] | None = None
    for at in np.arange(low, high + 1.0, 3.0 * MINUTE):
        left, fit = _left_over((one, x, np.maximum(x - at / HOUR, 0.0)), kept)
        if best is None or left < best[0]:
            best = (left, float(at), fit)
    if best is None:
        return None
    left, at, fit = best
    before, gain = float(fit[1]) / HOUR, float(fit[2]) / HOUR
    return Bend(lid + at, before, before + gain, curved / max(left, 1e-9))


def _meat_only(
    time: FloatArray, values: FloatArray, probes: Sequence[Event]
) -> tuple[FloatArray, FloatArray]:
    """Leave out what a probe shows around its way out and in: it is not the meat."""
    kept = np.ones(time.size, dtype=bool)
    for event in probes:
        kept &= (time < event.time - PROBE_AROUND[0]) | (time > event.time + PROBE_AROUND[1])
    return time[kept], values[kept]


def _wrapped(
    pit: tuple[FloatArray, FloatArray],
    core: tuple[FloatArray, FloatArray],
    dips: Sequence[Dip],
    pulled: Sequence[Event],
    units: str,
) -> list[Event]:
    when, values = core
    kept = when <= min((event.time for event in pulled), default=np.inf)
    when, values = when[kept], values[kept]
    best: Bend | None = None
    for dip in dips:
        here = _mean(when, values, dip.time - 10.0 * MINUTE, dip.time + 10.0 * MINUTE)
        if not WRAP_CORE[0] <= here <= WRAP_CORE[1]:
            continue
        bend = find_bend(when, values, dip.time)
        if bend is None or bend.sharp < max(WRAP_SHARP, best.sharp if best else 0.0):
            continue
        pit_before = _mean(*pit, bend.time - HOUR, bend.time - 10.0 * MINUTE) - here
        pit_after = _mean(*pit, bend.time + 20.0 * MINUTE, bend.time + 1.5 * HOUR) - here
        share = max(1.0, pit_after / pit_before) if pit_before > 5.0 and pit_after > 5.0 else 1.0
        explained = max(bend.before, 0.0) * share
        if bend.after >= max(explained + WRAP_RISE, WRAP_TIMES * explained):
            best = bend
    if best is None:
        return []
    lid = min(dips, key=lambda dip: abs(dip.time + WRAP_LAG - best.time))
    slow, fast = (
        format_difference(rate * HOUR, units).replace("-", "−") for rate in (best.before, best.after)
    )
    note = f"lid opened, then the core rose faster, from {slow} to {fast} an hour; check"
    return [_event("wrapped", lid.time, note)]


def _probes_pulled(
    time: FloatArray, columns: Mapping[str, FloatArray], summary: Sequence[Finding], units: str
) -> list[Event]:
    events: list[Event] = []
    rows = Rows(time, np.zeros(time.size, dtype=np.int64))
    for name, values in columns.items():
        if is_air(name) or "surface" in name.split("_"):
            continue
        clean, found = mark_spikes(name, rows, values)
        spikes = [f for f in [*found, *summary] if f.kind == "spike" and f.column == name]
        marks = {when: "a spike" for finding in spikes for when in finding.times}
        when, kept = _series(time, {name: clean}, name)
        steps = np.diff(when)
        for sign in (-1.0, 1.0):
            if kept.size < FEWEST:
                break
            to = _lowest_within(when, -sign * kept, PROBE_TIME)
            jumps = sign * (kept[to] - kept)
            limit = max(PROBE_TIME, 2.0 * float(np.median(steps)))
            for i in np.flatnonzero((jumps >= PROBE_JUMP) & (when[to] - when <= limit)):
                # a slope of a thin cut over coarse readings is no jump: it goes on before and after
                if when[to[i]] - when[i] > PROBE_TIME and not _stands_out(kept, int(i), int(to[i]), sign):
                    continue
                size, word = format_difference(jumps[i], units, 0), "fell" if sign < 0.0 else "rose"
                text = f"{word} {size} in {format_duration(when[to[i]] - when[i])}"
                marks.setdefault(float(when[i]), text)
        last = -np.inf
        for moment in sorted(marks):
            if moment - last > PROBE_TOGETHER:
                events.append(_event("probe pulled", moment, f"{quoted(name)}: {marks[moment]}; check"))
            last = moment
    return events


def _stands_out(values: FloatArray, i: int, j: int, sign: float) -> bool:
    near = [abs(values[k + 1] - values[k]) for k in (i - 1, j) if 0 <= k < values.size - 1]
    return all(sign * (values[j] - values[i]) > 2.0 * step + PROBE_JUMP / 2.0 for step in near)


def _pulled(
    pit: tuple[FloatArray, FloatArray],
    core: tuple[FloatArray, FloatArray],
    dips: Sequence[Dip],
    probes: Sequence[Event],
    units: str,
) -> list[Event]:
    when, values = core
    if when.size < 10:
        return []
    time, air = pit
    if time.size >= 10:
        later = np.maximum.accumulate(air[::-1])[::-1]  # the hottest that is still to come
        start_of = np.searchsorted(time, time - HOUR)
        level = np.array([float(np.median(air[start_of[i] : i + 1])) for i in range(time.size)])
        gone = np.flatnonzero((later < level - PULL_FALL) & (time[-1] - time >= PULL_LEAST))
        for i in gone:
            if np.interp(time[i], when, values) < PULL_CORE:
                continue
            start = int(i)
            while start > 0 and air[start - 1] > air[start] and time[i] - time[start - 1] < HOUR:
                start -= 1
            fell = format_difference(level[i] - later[i], units, 0)
            said = f"the pit fell {fell} and stayed there, or the fire went out; check"
            return [_event("pulled", float(time[start]), said)]
    smooth = _smooth(when, values)
    peak = int(np.argmax(smooth))
    turned = smooth[peak] - smooth[-1] >= PULL_TURN
    if smooth[peak] < PULL_CORE or not turned or when[-1] - when[peak] < PULL_LEAST:
        return []
    if any(event.time >= when[peak] - PROBE_TOGETHER for event in probes):
        return []
    after = air[time >= when[peak]]
    if after.size == 0 or float(np.median(after)) < smooth[peak] + PULL_HOT:
        return []
    near = [dip.time for dip in dips if when[peak] - PULL_LOOK_BACK <= dip.time <= when[peak]]
    text = f"the core turned at {format_temperature(smooth[peak], units, 0)} while the pit stayed hot"
    said = "the lid opened before it" if near else "pulled at this time at the latest"
    return [_event("pulled", near[-1] if near else float(when[peak]), f"{text}; {said}; check")]


def _smooth(time: FloatArray, values: FloatArray) -> FloatArray:
    """Mean over ten minutes around each reading."""
    total = np.concatenate([[0.0], np.cumsum(values)])
    low = np.searchsorted(time, time - 5.0 * MINUTE)
    high = np.searchsorted(time, time + 5.0 * MINUTE, side="right")
    result: FloatArray = (total[high] - total[low]) / (high - low)
    return result
