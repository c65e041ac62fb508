"""A plan as a cook would say it: so hot, wrapped in that at this core, pulled at that one, rested so long."""

from __future__ import annotations

from dataclasses import dataclass, replace

from libcook import _core
from libcook._core import End, Stage, Surroundings
from libcook.planner.limits import HOTTEST_PAPER, LONGEST_HOLD
from libcook.wraps import wrap

BOOST_AT = 82.2  # °C core from which a boost heats: 180 °F, well past the stall; a judgement
PROBED_EVERY = 1800.0  # s between probes of a pull by tenderness
STEP = 1.0  # s that a turned pit takes in a plan; meat and outlook smooth it


@dataclass(frozen=True)
class Recipe:
    """What is done; temperatures in °C, times in s."""

    pit: float
    wrapped_pit: float
    wrap: str  # "none": it stays bare
    wrap_at: tuple[str, float]  # ("core", °C), ("bark", index), ("now", 0)
    boost: float  # pit from BOOST_AT on; 0: none
    pull: tuple[str, float]  # ("core", °C) or ("tender", share)
    rest: float
    hold: str  # "oven", "cooler" or "counter": where it rests and waits

    @property
    def plain(self) -> Recipe:
        """The same, with what makes no difference at its simplest."""
        plain = self
        if self.wrap == "none":
            plain = replace(plain, wrapped_pit=self.pit, wrap_at=("core", 0.0))
        if self.wrap == "butcher paper":
            cooler = min(self.wrapped_pit, HOTTEST_PAPER)
            plain = replace(plain, wrapped_pit=cooler, boost=min(self.boost, HOTTEST_PAPER))
        last = plain.wrapped_pit
        low = self.pull[0] == "core" and self.pull[1] < BOOST_AT + 3.0
        if plain.boost <= last or low:
            plain = replace(plain, boost=0.0)
        return plain


@dataclass(frozen=True)
class Kitchen:
    """Where it is cooked: what no recipe says."""

    pit: Surroundings
    wraps: dict[str, _core.Wrap]  # the user's own, by name
    hold_air: float = 66.0  # °C of a holding oven
    room: float = 21.0  # °C

    def wrapped(self, name: str) -> _core.Wrap:
        """Return a wrap by its name."""
        return self.wraps.get(name) or wrap(name)

    def at(self, air: float) -> Surroundings:
        """Return the cooker at another temperature [°C]."""
        place = self.pit.__copy__()
        place.air = _core.Signal([0.0], [air])
        return place

    def held(self, where: str) -> tuple[Surroundings, Surroundings]:
        """Return where it rests, and where it waits."""
        oven = _core.holding_oven(self.hold_air, 0.4)
        if where == "oven":
            return oven, oven
        if where == "counter":
            return _core.counter(self.room), oven
        box = _core.insulated_box(self.room, _core.Box(start=40.0))
        return box, box


def stages_of(recipe: Recipe, kitchen: Kitchen, wrapped: bool = False) -> list[Stage]:
    """Return the stages of a recipe, the wait for dinner last.

    Parameters
    ----------
    recipe : Recipe
        What is done.
    kitchen : Kitchen
        Where.
    wrapped : bool
        Whether the meat is wrapped already: then it goes on from there.
    """
    kind, value = recipe.pull
    pull = End(kind, value, PROBED_EVERY if kind == "tender" else 0.0)
    stages = []
    bare = recipe.wrap == "none"
    cover = kitchen.wrapped(recipe.wrap)
    if not bare and not wrapped and recipe.wrap_at[0] != "now":
        end = End(recipe.wrap_at[0], recipe.wrap_at[1])
        stages.append(Stage("smoke", kitchen.at(recipe.pit), until=end))
    name, air = ("smoke", recipe.pit) if bare else ("wrapped", recipe.wrapped_pit)
    if recipe.boost > 0.0:
        stages.append(Stage(name, kitchen.at(air), wrap=cover, until=End("core", BOOST_AT)))
        name, air = "finish", recipe.boost
    stages.append(Stage(name, kitchen.at(air), wrap=cover, until=pull))
    return [*stages, *waiting(recipe.rest, recipe.hold, kitchen, "foil" if bare else recipe.wrap)]


def waiting(rest: float, where: str, kitchen: Kitchen, cover: str) -> list[Stage]:
    """Return the rest and the wait for dinner."""
    resting, held = kitchen.held(where)
    around = kitchen.wrapped(cover)
    return [
        Stage("rest", resting, wrap=around, until=End("elapsed", rest)),
        Stage("hold", held, wrap=around, until=End("elapsed", LONGEST_HOLD), at_most=LONGEST_HOLD + 60.0),
    ]


def turned(stages: list[Stage], at: float, air: float) -> list[Stage]:
    """Return stages whose pits on the heat go to another temperature [°C] at a time since the start [s]."""
    made = []
    for stage in stages:
        if stage.name in ("rest", "hold"):
            made.append(stage)
            continue
        now = float(stage.surroundings.air.at(at))
        changed = stage.__copy__()
        place = stage.surroundings.__copy__()
        place.air = _core.Signal([0.0, at, at + STEP], [now, now, air])
        changed.surroundings = place
        made.append(changed)
    return made
