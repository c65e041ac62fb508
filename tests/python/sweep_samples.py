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


def equal(found, out):
    """Whether a cook of a sweep read what its outcome says."""
    carry, stall, loss, safety = out.carryover(), out.stall(), out.loss, out.safety()
    assert float(found.finish_time) == (carry.pulled_at if carry else out.stage_ends[-1].time)
    assert float(found.end_time) == out.time[-1]
    assert found.stage_end.values.tolist() == [end.time for end in out.stage_ends]
    assert found.stage_core.values.tolist() == [end.core for end in out.stage_ends]
    assert float(found.stall_duration) == (stall.duration if stall else 0.0)
    for name in ("start", "end", "plateau"):
        expected = getattr(stall, name) if stall else np.nan
        np.testing.assert_equal(float(found[f"stall_{name}"]), expected)
    assert float(found.carryover_peak) == carry.peak
    assert float(found.carryover_time) == carry.peak_at - carry.pulled_at
    assert float(found.held) == out.time_above(60.0)
    assert bool(found.still_held) == bool(out.core[-1] >= 60.0)
    for name, value in (
        ("raw_mass", loss.raw), ("evaporated", loss.evaporated), ("dripped", loss.dripped),
        ("in_wrap", loss.in_wrap), ("rendered_fat", loss.fat), ("loss", loss.total / loss.raw),
        ("yield", loss.yield_), ("tenderness", out.tenderness[-1]), ("log_reduction", safety.log_reduction),
        ("core_danger_time", safety.core_danger_time), ("surface_danger_time", safety.surface_danger_time),
        ("safety_warnings", len(safety.warnings)),
    ):  # fmt: skip
        assert float(found[name]) == value, name
    assert str(found.failure.values) == ""
    return True
