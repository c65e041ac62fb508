"""The habit: the plan that was given, or the usual one, as a recipe."""

from __future__ import annotations

from libcook import _core
from libcook._core import Meat, Plan, Stage
from libcook.cookers import counter, pit
from libcook.ends import core, elapsed
from libcook.planner.limits import HOUR
from libcook.planner.recipe import Kitchen, Recipe, waiting
from libcook.units import fahrenheit_to_celsius
from libcook.wraps import wrap

# 250 °F, paper at 165 °F, 203 °F, an hour of rest: common practice, no source.
USUAL_PIT, USUAL_WRAP_AT, USUAL_PULL = (float(fahrenheit_to_celsius(one)) for one in (250, 165, 203))


def usual_plan(meat: Meat) -> Plan:
    """Return the usual plan for a piece of meat."""
    drum = pit("drum", air=USUAL_PIT)
    stages = [
        Stage("smoke", drum, until=core(USUAL_WRAP_AT)),
        Stage("wrapped", drum, wrap=wrap("butcher paper"), until=core(USUAL_PULL)),
        Stage("rest", counter(), wrap=wrap("butcher paper"), until=elapsed(HOUR)),
    ]
    return Plan(meat, stages)


def kitchen_of(plan: Plan) -> Kitchen:
    """Return where a plan is cooked: the place of its first stage on the heat, and its own wraps."""
    done = _core.done_stage(plan)
    return Kitchen(
        plan.stages[0].surroundings, {stage.wrap.name: stage.wrap for stage in plan.stages[: done + 1]}
    )


def recipe_of(plan: Plan) -> Recipe:
    """Read a plan as a recipe; what it does not say is as usual."""
    done = _core.done_stage(plan)
    heated = plan.stages[: done + 1]
    bare = [stage for stage in heated if stage.wrap.name == "none"]
    covered = [stage for stage in heated if stage.wrap.name != "none"]

    def air(stage: Stage) -> float:
        return float(stage.surroundings.air.at(0.0))

    first = air((bare or covered)[0])
    wrap_at = ("core", USUAL_WRAP_AT) if bare else ("now", 0.0)
    for end in bare[-1].until if bare and covered else ():
        if end.kind in ("core", "bark"):
            wrap_at = (str(end.kind), float(end.value))
    pull = ("core", USUAL_PULL)
    for end in heated[-1].until:
        if end.kind in ("core", "tender"):
            pull = (str(end.kind), float(end.value))
    rest = HOUR
    for stage in plan.stages[done + 1 :]:
        for end in stage.until:
            if end.kind == "elapsed":
                rest = float(end.value)
    return Recipe(
        pit=first,
        wrapped_pit=air(covered[0]) if covered else first,
        wrap=covered[0].wrap.name if covered else "none",
        wrap_at=wrap_at,
        boost=0.0,
        pull=pull,
        rest=rest,
        hold="counter",
    ).plain


def stages_as_given(stages: list[Stage], done: int, kitchen: Kitchen) -> list[Stage]:
    """Return stages with a wait for dinner behind them; an hour of rest first where none is planned."""
    cover = stages[-1].wrap.name
    rest, hold = waiting(HOUR, "counter", kitchen, "foil" if cover == "none" else cover)
    return [*stages, *([rest] if len(stages) == done + 1 else []), hold]
