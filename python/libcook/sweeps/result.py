"""The chunks of a sweep put together: an xarray Dataset."""

from __future__ import annotations

import warnings
from collections import Counter
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

import numpy as np

from libcook import _core
from libcook.arguments.optional import need
from libcook.sweeps.chunk import Block
from libcook.sweeps.layout import CAUTION, Layout

if TYPE_CHECKING:
    import xarray as xr

NOT_RUN = "not run"


class SweepWarning(UserWarning):
    """Some cooks of a sweep have no result; the message counts them and says why."""


def assemble(layout: Layout, blocks: Iterable[Block], names: set[str] | None = None) -> xr.Dataset:
    """Make the data set of a sweep; cooks of missing chunks are NaN, and their failure is "not run".

    Parameters
    ----------
    layout : Layout
        Axes and variables.
    blocks : iterable of Block
        In any order; a chunk that comes twice counts once.
    names : set of str, optional
        Readings and traces to include; all by default.
    """
    xarray = need("xarray", "sweep", "sweep")
    cooks, stages = layout.cooks, len(layout.stages)
    readings = [one for one in layout.readings if names is None or one.name in names]
    wanted_traces = [one for one in layout.traces if names is None or one.name in names]
    values = {one.name: np.full((cooks, stages) if one.by_stage else cooks, np.nan) for one in readings}
    traces: dict[str, list[Any]] = {one.name: [np.empty(0)] * cooks for one in wanted_traces}
    failure: Any = np.full(cooks, NOT_RUN, dtype=object)
    shown: dict[str, Any] = {
        one.name: np.full(cooks, "" if one.is_text else np.nan, dtype=object if one.is_text else np.float64)
        for one in layout.parameters
    }
    for block in blocks:
        first, stop = layout.span(block.number)
        for name in values:
            values[name][first:stop] = block.values[name]
        for name in traces:
            traces[name][first:stop] = block.traces[name.removesuffix("_trace")]
        failure[first:stop] = block.failures
        if not layout.is_grid:
            for parameter, column in zip(layout.parameters, block.shown, strict=True):
                shown[parameter.name][first:stop] = column

    dims = tuple(one.name for one in layout.parameters) if layout.is_grid else ("cook",)
    shape = layout.shape
    variables: dict[str, Any] = {}
    for one in readings:
        extra = ("stage",) if one.by_stage else ()
        data = values[one.name].reshape(shape + ((stages,) if one.by_stage else ()))
        variables[one.name] = (dims + extra, data, {"units": one.units, "long_name": one.long_name})
    coordinates: dict[str, Any] = {}
    for one in layout.parameters:
        attributes = {"units": one.units, "long_name": one.long_name}
        along = one.values if layout.is_grid else shown[one.name]
        if one.is_text:
            along = np.array(along, dtype=np.str_)
            attributes.pop("units")
        coordinates[one.name] = ((one.name,) if layout.is_grid else dims, along, attributes)
    if not layout.is_grid:
        coordinates["cook"] = ("cook", np.arange(cooks), {"long_name": "number of the cook"})
    if any(one.by_stage for one in readings):
        coordinates["stage"] = (
            "stage",
            np.array(layout.stages, dtype=np.str_),
            {"long_name": "stage of the plan"},
        )
    if traces:
        longest = max((len(row) for rows in traces.values() for row in rows), default=0)
        time = np.arange(longest) * layout.trace_every
        coordinates["time"] = ("time", time, {"units": "s", "long_name": "time since the start of the cook"})
        for one in wanted_traces:
            data = np.full((cooks, longest), np.nan)
            for i, row in enumerate(traces[one.name]):
                data[i, : len(row)] = row
            attributes = {"units": one.units, "long_name": f"{one.long_name}; NaN after the end of the cook"}
            variables[one.name] = ((*dims, "time"), data.reshape(*shape, longest), attributes)
    why = {"long_name": "why there is no result; empty where there is one"}
    variables["failure"] = (dims, failure.astype(np.str_).reshape(shape), why)
    missing = int((failure == NOT_RUN).sum())
    attrs = {
        "title": "Simulated cooks: a sweep over a plan",
        "software": f"libcook {_core.__version__}",
        "plan": layout.plan,
        "cooks": cooks,
        "failed": int((failure != "").sum()) - missing,
        "not_run": missing,
        "caution": CAUTION,
    }
    dataset: xr.Dataset = xarray.Dataset(variables, coordinates, attrs)
    return dataset


def warn_of_failures(dataset: xr.Dataset, level: int = 4) -> None:
    """Count the cooks without a result, and say why most of them have none."""
    failed, cooks = int(dataset.attrs["failed"]), int(dataset.attrs["cooks"])
    if not failed:
        return
    reasons = Counter(str(why) for why in dataset["failure"].values.ravel() if why and why != NOT_RUN)
    most, count = reasons.most_common(1)[0]
    often = "" if len(reasons) == 1 else f" {count} times"
    warnings.warn(
        f"{failed:,} of {cooks:,} cooks have no whole result, NaN; 'failure' says why:{often} {most}",
        SweepWarning,
        stacklevel=level,
    )
