"""What a plan and a new plan cost: processor time over all threads, whatever else the machine does."""

from __future__ import annotations

import time
from dataclasses import dataclass

import libcook as lc

LOOKS = {"2 h": "80 °F", "4 h": "118 °F", "6 h": "140 °F", "7 h": "147 °F"}  # invented


@dataclass(frozen=True)
class Cost:
    """Of one answer."""

    what: str
    seconds: float  # of the processor
    cooks: int


def measured() -> list[Cost]:
    """A plan for a 14 lb brisket, the same for a cook who sleeps, and a new plan seven hours into a cook."""
    told = []
    for what, want in (("14 lb brisket at 18:00", {}), ("the same, with sleep", {"sleep": True})):
        begin = time.process_time()
        best = lc.best_plan(lc.brisket("14 lb"), serve="18:00", want=want)
        told.append(Cost(what, time.process_time() - begin, best.simulated))
    from libcook.planner.habit import usual_plan

    ahead = lc.forecast(usual_plan(lc.brisket("14 lb")).replace(start="4:00"), LOOKS)
    begin = time.process_time()
    best = ahead.best_plan("18:00")
    told.append(Cost("seven hours into it, from then on", time.process_time() - begin, best.simulated))
    return told
