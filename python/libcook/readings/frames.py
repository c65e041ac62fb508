"""Outcomes as labelled tables: pandas for traces over time, xarray for the fields as well."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from libcook._core import __version__
from libcook.arguments.door import door
from libcook.arguments.optional import need
from libcook.arguments.quantity import Word
from libcook.readings.readable import Readable, faces, on_section, stage_labels
from libcook.units import shown_in, temperature_unit

if TYPE_CHECKING:
    import pandas as pd
    import xarray as xr

__all__ = ["to_frame", "to_xarray"]


@door
def to_frame(outcome: Readable, units: Word = "C") -> pd.DataFrame:
    """Tabulate the traces of a cook.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook.
    units : str
        ``"C"`` or ``"F"`` for the temperature columns.

    Returns
    -------
    pandas.DataFrame
        One row for each stored time; the index is the elapsed time in hours. Column names carry the unit:
        ``"core [°C]"``, ``"surface top [°C]"``, ``"mean water [kg/kg dry]"`` and so on; a cylinder has one
        ``"surface [°C]"``, a cross-section a ``"probe flat [°C]"`` for each probe.
        ``stage`` is categorical, in the order of the plan. ``attrs`` holds what
        `to_xarray` puts there.

    Raises
    ------
    ImportError
        When pandas is not installed.
    """
    pandas = need("pandas", "frames", "to_frame")
    unit = temperature_unit(units)

    columns: dict[str, Any] = {
        f"core [°{unit}]": np.array(shown_in(outcome.core, unit)),
        f"coldest [°{unit}]": np.array(shown_in(outcome.coldest, unit)),
        f"mean temperature [°{unit}]": np.array(shown_in(outcome.mean_temperature, unit)),
    }
    for j, face in enumerate(faces(outcome)):
        name = "surface" if face == "surface" else f"surface {face}"
        columns[f"{name} [°{unit}]"] = np.array(shown_in(outcome.surface[:, j], unit))
    columns[f"air [°{unit}]"] = np.array(shown_in(outcome.air, unit))
    if on_section(outcome):
        for name, trace in outcome.probes.items():  # type: ignore[attr-defined]
            columns[f"probe {name} [°{unit}]"] = np.array(shown_in(trace.temperature, unit))
            columns[f"probe {name} tenderness [share]"] = np.array(trace.tenderness)
    if hasattr(outcome, "vapour_pressure"):
        columns["vapour pressure [Pa]"] = np.array(outcome.vapour_pressure)
    columns["mean water [kg/kg dry]"] = np.array(outcome.mean_water)
    for j, face in enumerate(faces(outcome)):
        at = "" if face == "surface" else f" {face}"
        columns[f"surface water{at} [kg/kg dry]"] = np.array(outcome.surface_water[:, j])
        columns[f"surface film{at} [kg/m²]"] = np.array(outcome.film[:, j])
    columns["tenderness [share]"] = np.array(outcome.tenderness)
    names = list(dict.fromkeys(str(end.name) for end in outcome.stage_ends))
    columns["stage"] = pandas.Categorical(stage_labels(outcome), categories=names, ordered=False)
    index = pandas.Index(outcome.time / 3600.0, name="elapsed [h]")
    frame: pd.DataFrame = pandas.DataFrame(columns, index=index)
    frame.attrs.update(_provenance(outcome))
    return frame


@door
def to_xarray(outcome: Readable) -> xr.Dataset:
    """Put the traces and the fields of a cook into one labelled data set.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook. The fields ``temperature`` and ``water`` are there when the simulation kept them.

    Returns
    -------
    xarray.Dataset
        Dimensions ``time`` [s], ``node`` and ``face``; ``stage`` is a coordinate along ``time``, ``position``
        [m] and ``node_volume`` (share of the volume) along ``node``. Each variable has ``units`` and
        ``long_name``. A cross-section adds ``x``, ``z`` [m] and ``region`` along ``node``, and ``reading``
        over ``time`` and ``probe``. ``attrs`` says what was simulated, with which version, and how well heat
        and water balance. All attributes are numbers and text, so the data set can be written to a file as it
        is.

    Raises
    ------
    ImportError
        When xarray is not installed.
    """
    xarray = need("xarray", "frames", "to_xarray")
    one_face = len(faces(outcome)) == 1
    where = "distance from the axis" if one_face else "depth from the bottom face"

    def entry(dims: tuple[str, ...], values: Any, units: str, name: str) -> tuple[Any, Any, dict[str, str]]:
        return dims, np.array(values), {"units": units, "long_name": name}

    t, f, n = ("time",), ("time", "face"), ("time", "node")
    variables = {
        "core": entry(t, outcome.core, "degC", "core temperature"),
        "coldest": entry(t, outcome.coldest, "degC", "lowest temperature in the meat"),
        "mean_temperature": entry(t, outcome.mean_temperature, "degC", "volume mean temperature"),
        "air": entry(t, outcome.air, "degC", "air temperature around the meat"),
        "mean_water": entry(t, outcome.mean_water, "kg/kg", "mean water per dry solids"),
        "tenderness": entry(t, outcome.tenderness, "1", "share of collagen converted at the core"),
        "surface": entry(f, outcome.surface, "degC", "temperature of the meat at its faces"),
        "surface_water": entry(f, outcome.surface_water, "kg/kg", "water per dry solids at the faces"),
        "film": entry(f, outcome.film, "kg/m2", "liquid on the faces"),
    }
    if np.size(outcome.temperature):
        variables["temperature"] = entry(n, outcome.temperature, "degC", "temperature")
        variables["water"] = entry(n, outcome.water, "kg/kg", "water per dry solids")
    if hasattr(outcome, "vapour_pressure"):
        variables["vapour_pressure"] = entry(
            t, outcome.vapour_pressure, "Pa", "vapour pressure around the meat"
        )
        variables["pan_water"] = entry(t, outcome.pan_water, "kg", "water left in the pan")  # type: ignore[attr-defined]
    coordinates = {
        "time": entry(t, outcome.time, "s", "time since the start of the cook"),
        "stage": ("time", np.array(stage_labels(outcome), dtype=np.str_), {"long_name": "stage of the plan"}),
        "face": ("face", list(faces(outcome)), {"long_name": "face of the meat"}),
        "position": entry(("node",), outcome.position, "m", where),
        "node_volume": entry(("node",), outcome.node_volume, "1", "share of the volume of each node"),
    }
    if on_section(outcome):
        along, region = outcome.along, outcome.region  # type: ignore[attr-defined]
        coordinates["x"] = entry(("node",), along, "m", "distance from the flat end")
        coordinates["z"] = entry(("node",), outcome.position, "m", "height above the bottom face")
        coordinates["region"] = entry(("node",), region, "1", "0 flat, 1 point, 2 seam")
        probes = list(outcome.probes.values())  # type: ignore[attr-defined]
        coordinates["probe"] = ("probe", [p.name for p in probes], {"long_name": "name of the probe"})
        coordinates["probe_x"] = entry(("probe",), [p.x for p in probes], "m", "distance from the flat end")
        coordinates["probe_z"] = entry(("probe",), [p.z for p in probes], "m", "height above the bottom face")
        read = np.column_stack([p.temperature for p in probes])
        variables["reading"] = entry(("time", "probe"), read, "degC", "what the probes read")
    dataset: xr.Dataset = xarray.Dataset(variables, coordinates, attrs=_provenance(outcome))
    return dataset


def _provenance(outcome: Readable) -> dict[str, Any]:
    """Say what was simulated, as numbers and text only."""
    loss = outcome.loss
    stages = []
    for stage, end in zip(outcome.plan.stages, outcome.stage_ends, strict=False):
        wrap = "no wrap" if stage.wrap.name == "none" else str(stage.wrap.name)
        stages.append(
            f"{end.name}: {stage.surroundings.kind}, {wrap}, "
            f"from {end.start:.0f} s to {end.time:.0f} s ({end.reason})"
        )
    facts: dict[str, Any] = {
        "title": f"Simulated cook: {outcome.plan.meat.tissue.name}",
        "software": f"libcook {__version__}",
        "raw_mass_kg": float(loss.raw),
        "stages": "; ".join(stages),
        "events": "; ".join(f"{what} at {float(when):.0f} s" for when, what in map(_pair, outcome.events)),
        "notes": "; ".join(map(str, outcome.notes)),
        "heat_residual": float(outcome.ledger.heat_residual),
        "water_residual": float(outcome.ledger.water_residual),
        "caution": str(outcome.safety().caution),
    }
    clock = outcome.plan.start
    if clock is not None:
        facts["clock_start_s"] = float(clock)  # seconds after midnight
    return facts


def _pair(event: Any) -> tuple[float, str]:
    return float(event[0]), str(event[1])
