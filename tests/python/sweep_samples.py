"""A short cook to sweep over, and what is compared; invented."""

import numpy as np

import libcook as lc

PIT = lc.pit("drum", air="121 °C")


def plan():
    """A thin piece: smoked, wrapped, rested; about a millisecond."""
    return lc.Plan(
        lc.brisket(mass=2.0, thickness="40 mm"),
        [
            lc.Stage("smoke", PIT, until=lc.core("60 °C")),
            lc.Stage("wrapped", PIT, wrap="butcher paper", until=lc.core("80 °C")),
            lc.Stage("rest", lc.counter(), wrap="foil", until=lc.elapsed("20 min")),
        ],
    )


RANGES = {
    "pit.air": ("107 °C", "135 °C"),
    "meat.tissue.mobility.expressed": (1e-8, 1e-7, "log"),
    "stages.wrapped.wrap": ["none", "butcher paper", "foil"],
    "stages.smoke.until": ("55 °C", "65 °C"),
}


def late_core(out):
    """A reading of one's own that another process can import."""
    return out.core_at("1 h")


def alone(made, **options):
    """One cook, as a sweep runs it: in a pack, in which it does not feel its lane mates."""
    (out,) = lc.simulate_many([made], **options)
    assert isinstance(out, lc.Outcome)
    return out


def expected(out, hold=60.0):
    """What each reading of a sweep is, from the outcome's own attributes and methods."""
    carry, stall, loss, safety = out.carryover(), out.stall(), out.loss, out.safety()
    nan = float("nan")
    return {
        "finish_time": carry.pulled_at if carry else out.stage_ends[-1].time,
        "end_time": out.time[-1],
        "stage_end": [end.time for end in out.stage_ends],
        "stage_core": [end.core for end in out.stage_ends],
        "stall_start": stall.start if stall else nan,
        "stall_end": stall.end if stall else nan,
        "stall_duration": stall.duration if stall else 0.0,
        "stall_plateau": stall.plateau if stall else nan,
        "carryover_peak": carry.peak if carry else nan,
        "carryover_rise": max(0.0, carry.rise) if carry else nan,
        "carryover_time": carry.peak_at - carry.pulled_at if carry else nan,
        "held": out.time_above(hold) if carry else nan,
        "still_held": float(bool(carry) and out.core[-1] >= hold),
        "raw_mass": loss.raw,
        "evaporated": loss.evaporated,
        "dripped": loss.dripped,
        "in_wrap": loss.in_wrap,
        "rendered_fat": loss.fat,
        "loss": loss.total / loss.raw,
        "yield": loss.yield_,
        "tenderness": out.tenderness[-1],
        "log_reduction": safety.log_reduction,
        "lethality_time": nan if safety.lethality_at is None else safety.lethality_at,
        "core_danger_time": safety.core_danger_time,
        "surface_danger_time": safety.surface_danger_time,
        "safety_warnings": len(safety.warnings),
    }


def equal(found, out, hold=60.0):
    """Whether a cook of a sweep read what its outcome says, to the bit."""
    wanted = expected(out, hold)
    assert set(wanted) == set(lc.sweep_readings())
    for name, value in wanted.items():
        np.testing.assert_array_equal(found[name].values, value, err_msg=name, strict=False)
    assert str(found.failure.values) == ""
    return True
