"""All that the traces of a log suggest, and the line of its summary that says so."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from libcook.logs.detect.lids import lid_dips, lids_of
from libcook.logs.detect.probes import find_probes_pulled, meat_only
from libcook.logs.detect.pulls import find_pulled
from libcook.logs.detect.traces import MINUTE, FloatArray, series
from libcook.logs.detect.wraps import find_wrapped
from libcook.logs.events import Event, in_time, is_known
from libcook.logs.findings import Finding
from libcook.logs.reading.thin import thinned
from libcook.units import format_duration


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
    pit, core = (series(time, columns, name) for name in ("pit", "core"))
    dips = lid_dips(*pit)
    probes = find_probes_pulled(time, columns, summary, units)
    core = meat_only(*core, probes)
    pulled = find_pulled(pit, core, dips, probes, units)
    wrapped = find_wrapped(pit, core, dips, pulled, units)
    firm = pulled + wrapped
    rest = [dip for dip in dips if not any(abs(dip.time - event.time) <= 5.0 * MINUTE for event in firm)]
    lids = lids_of(rest, [dip for dip in dips if dip not in rest], units)
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
