"""What is wanted of a plan, and how good a plan is by it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from libcook.arguments.plain import choice, close
from libcook.arguments.quote import came_as, quoted
from libcook.errors import invalid
from libcook.planner.limits import HOUR
from libcook.planner.measure import Measured
from libcook.units import parse_clock, to_si

PREFERRED = ("balance", "weight", "bark", "time", "wait")
WANTS = ("ready", "tender", "weight", "bark", "longest_wait", "sleep", "prefer")


@dataclass(frozen=True)
class Rates:
    """What one thing is worth in another, in points: a judgement; one point is a hundredth of the raw weight.

    A bark set twice over is worth 12 points, an hour of waiting half a point, an hour of a longer day 0.4.
    """

    weight: float = 1.0  # per hundredth of the raw weight
    bark: float = 12.0  # for a bark of index 2 or more in all cooks
    wait: float = 0.5  # per hour of waiting, in the mean
    hours: float = 0.4  # per hour from the start to dinner
    late: float = 150.0  # per share of cooks late beyond what is allowed
    any_late: float = 20.0  # per share of cooks late
    tender: float = 40.0  # per share of cooks not tender, or past it
    short: float = 100.0  # per share that a wish is missed by
    over_wait: float = 3.0  # per hour beyond the longest wait
    awake: float = 20.0  # per share of cooks that wake somebody


STRONGER: Final = {
    "balance": 1.0,
    "weight": 4.0,
    "bark": 4.0,
    "time": 6.0,
    "wait": 8.0,
}  # a preference's rate


@dataclass(frozen=True)
class Wishes:
    """What is wanted; shares are 0 to 1, times in s."""

    ready: float = 0.9  # chance to be ready in time
    tender: tuple[float, float] = (0.8, 0.995)  # collagen converted: tender, and not yet past it; a judgement
    weight: float = 0.0  # least share of the raw weight left
    bark: float = 0.0  # least index in the mean; 1: set
    longest_wait: float = 6.0 * HOUR
    sleep: tuple[float, float] | None = None  # no action between these [s after midnight]
    prefer: str = "balance"

    def preferring(self, what: str) -> Wishes:
        """Return the same wishes with another preference."""
        return replace(self, prefer=what)

    def score(self, m: Measured) -> float:
        """Points of a plan; more is better. An unsafe one has minus infinity."""
        if not m.safe:
            return float("-inf")
        rate = Rates()
        more = STRONGER[self.prefer]
        prefer = self.prefer
        points = 100.0 * rate.weight * (more if prefer == "weight" else 1.0) * m.kept
        points += rate.bark * (more if prefer == "bark" else 1.0) * m.dark
        points -= rate.wait * (more if prefer == "wait" else 1.0) * m.wait / HOUR
        points -= rate.hours * (more if prefer == "time" else 1.0) * m.room / HOUR
        points -= rate.any_late * (1.0 - m.on_time) + rate.late * max(self.ready - m.on_time, 0.0)
        points -= rate.tender * (1.0 - m.tender)
        points -= rate.short * (max(self.weight - m.kept, 0.0) + max(self.bark - m.bark, 0.0))
        points -= rate.over_wait * max(m.wait95 - self.longest_wait, 0.0) / HOUR
        if self.sleep is not None:
            points -= rate.awake * m.awake
        return points


def read_wishes(want: Any) -> Wishes:
    """Read what is wanted: a mapping with some of `WANTS`."""
    if want is None:
        return Wishes()
    if not isinstance(want, Mapping):
        raise invalid(
            "want", want, came_as(want), "a mapping such as {'ready': 0.9, 'sleep': True} is accepted"
        )
    read: dict[str, Any] = {}
    for name, value in want.items():
        if name not in WANTS:
            raise invalid(
                "want",
                name,
                f"{quoted(name)} is nothing to want",
                f"accepted: {', '.join(WANTS)}",
                close(name, WANTS),
            )
        read[name] = _read(name, value, f"want[{quoted(name)}]")
    return Wishes(**read)


def _read(name: str, value: Any, field: str) -> Any:
    if name == "ready":
        return to_si(value, "dimensionless", field, low=0.5, high=0.99)
    if name == "weight":
        return to_si(value, "dimensionless", field, low=0.0, high=0.95)
    if name == "bark":
        return to_si(value, "dimensionless", field, low=0.0, high=20.0)
    if name == "longest_wait":
        return to_si(value, "duration", field, low=0.0)
    if name == "prefer":
        return choice(value, PREFERRED, field)
    if name == "sleep":
        if value is None or value is False:
            return None
        if value is True:
            return (parse_clock("23:00"), parse_clock("6:00"))
        if not isinstance(value, (list, tuple)) or len(value) != 2:
            raise invalid(
                field, value, came_as(value), "True, or two times such as ('23:00', '6:00'), is accepted"
            )
        return (parse_clock(value[0], field), parse_clock(value[1], field))
    if not isinstance(value, (list, tuple)) or len(value) != 2:
        raise invalid(field, value, came_as(value), "two shares such as (0.8, 0.98) are accepted")
    low, high = (to_si(one, "dimensionless", field, low=0.0, high=1.0) for one in value)
    if low >= high:
        raise invalid(
            field, value, f"{low:g} is not below {high:g}", "the lower share first, such as (0.8, 0.98)"
        )
    return (low, high)
