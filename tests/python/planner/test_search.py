"""The search finds what enumerating all plans finds, and says the same whatever the threads."""

import numpy as np
import pytest
from best_plan import small

from libcook.planner.choices import DEFAULTS, KNOBS, read_choices
from libcook.planner.search import Archive, every_recipe, evolve, polish


@pytest.mark.parametrize("case", small.CASES, ids=[case.name for case in small.CASES])
def test_the_search_finds_the_enumerated_optimum(case):
    found = small.compare(case)
    assert found.tried <= case.tries + 24 < found.all
    assert found.found == pytest.approx(found.best)
    assert found.rank == 1
    assert np.isfinite(found.best)


def made_up(recipes):
    """Points without any cook: the best is known."""
    return [
        -abs(one.pit - 121.0)
        - abs(one.wrapped_pit - 135.0)
        - abs(one.wrap_at[1] - 70.0)
        - (one.wrap != "foil")
        for one in recipes
    ]


def test_it_tries_no_more_than_it_may_and_begins_where_it_is_told():
    _, choices, habit = small.cooks_of(small.CASES[0])
    archive = Archive()
    evolve(choices, made_up, archive, 20, 3, [choices.place(habit)])
    polish(choices, made_up, archive, 10)
    assert choices.recipe(choices.place(habit)) in archive.recipes
    assert len(archive.recipes) <= 20 + 24 + 10
    best = max(archive.recipes, key=lambda one: made_up([one])[0])
    every = every_recipe(choices)
    assert made_up([best])[0] == max(made_up(list(every)))
    again = Archive()
    evolve(choices, made_up, again, 20, 3, [choices.place(habit)])
    polish(choices, made_up, again, 10)
    assert list(again.recipes) == list(archive.recipes)


def test_what_makes_no_difference_is_tried_once():
    _, choices, _ = small.cooks_of(small.CASES[0])
    bare = [one for one in every_recipe(choices) if one.wrap == "none"]
    assert len(bare) == len({(one.pit, one.pull) for one in bare})
    assert len(every_recipe(choices)) < choices.count()


def test_places_and_recipes_go_together():
    _, _, habit = small.cooks_of(small.CASES[0])
    choices = read_choices(None, habit)
    random = np.random.default_rng(1)
    for _ in range(50):
        place = tuple(int(random.integers(size)) for size in choices.sizes)
        recipe = choices.recipe(place)
        assert choices.recipe(choices.place(recipe)) == recipe
    assert set(DEFAULTS) == set(KNOBS)
