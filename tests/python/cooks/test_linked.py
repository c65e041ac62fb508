"""Structs inside optionals: what was handed out of one stays whole, whatever becomes of the optional."""

import copy
import gc
import pickle

import pytest

import libcook as lc


def breathing():
    return lc.breathing(lc.pit("ceramic", air="250 °F"), pan="5 kg")


# An owner, its field that may be None, a number in it, and where the field's value is changed from.
OPTIONALS = [
    (lambda: lc.Stage("smoke", lc.oven(110.0), until=lc.core(70.0), spritz=lc.spritz()), "spritz", "amount"),
    (lc.insulated_box, "box", "loss"),
    (breathing, "pit_air", "volume"),
    (lambda: breathing().pit_air, "pan", "area"),
    (lambda: lc.brisket_tissue().replace(fixed=lc.FixedThermal()), "fixed", "conductivity"),
    (lambda: lc.wrap("foil").replace(ends=lc.Covering()), "ends", "heat_resistance"),
]
EACH_OPTIONAL = pytest.mark.parametrize(("make", "field", "number"), OPTIONALS, ids=[o[1] for o in OPTIONALS])


def test_a_pan_outlives_the_air_that_it_was_in():
    cooker = breathing()
    pan = cooker.pit_air.pan
    whole = repr(pan)
    cooker.pit_air = None
    gc.collect()
    assert repr(pan) == whole
    assert pan.water == 5.0
    pan.water = 4.0
    assert pan.water == 4.0
    assert cooker.pit_air is None


@EACH_OPTIONAL
def test_what_was_in_an_optional_keeps_its_values(make, field, number):
    owner = make()
    inside = getattr(owner, field)
    setattr(inside, number, 0.25)
    setattr(owner, field, None)
    assert getattr(owner, field) is None
    assert getattr(inside, number) == 0.25
    other = copy.copy(inside)
    setattr(other, number, 0.5)
    setattr(owner, field, other)
    assert getattr(inside, number) == 0.25  # of another value by now
    assert getattr(getattr(owner, field), number) == 0.5
    setattr(inside, number, 0.75)
    assert getattr(getattr(owner, field), number) == 0.5
    del owner
    gc.collect()
    assert getattr(inside, number) == 0.75


@EACH_OPTIONAL
def test_what_is_in_an_optional_is_changed_where_it_is(make, field, number):
    owner = make()
    setattr(getattr(owner, field), number, 0.25)
    one, other = getattr(owner, field), getattr(owner, field)
    setattr(one, number, 0.5)
    assert getattr(other, number) == 0.5
    assert getattr(getattr(owner, field), number) == 0.5
    assert one == other == getattr(owner, field)
    assert pickle.loads(pickle.dumps(one)) == one


def test_structs_two_optionals_deep_are_changed_where_they_are():
    plan = lc.Plan(lc.brisket(), [lc.Stage("smoke", breathing(), until=lc.core(70.0))])
    stage = plan.stages[0]
    plan.stages[0].surroundings.pit_air.pan.film.value = 7.0
    film = stage.surroundings.pit_air.pan.film
    assert film.value == 7.0
    stage.surroundings.pit_air.pan = None
    film.value = 8.0
    assert film.value == 8.0
    assert plan.stages[0].surroundings.pit_air.pan is None


def test_a_value_goes_away_with_what_it_was_in():
    plan = lc.Plan(lc.brisket(), [lc.Stage("rest", lc.insulated_box(), until=lc.cooled(60.0))])
    box = plan.stages[0].surroundings.box
    box.loss = 2.0
    plan.stages[0].surroundings = lc.oven(100.0)
    assert box.loss == 2.0
    box.loss = 3.0
    assert plan.stages[0].surroundings.box is None
    assert box.loss == 3.0


def test_text_that_takes_away_what_it_is_written_into():
    """A number of the user's own may run code when it is read; by then there may be nothing to write into."""
    cooker = breathing()
    air = cooker.pit_air

    class Thief(float):
        def __float__(self):
            cooker.pit_air = None
            return 2.0

    air.volume = Thief(1.0)
    assert cooker.pit_air is None
    assert air.pan.water == 5.0


def test_a_refused_value_takes_nothing_away():
    cooker = breathing()
    air = cooker.pit_air
    with pytest.raises(lc.InvalidInput):
        cooker.pit_air = "open"
    air.volume = 0.5
    assert cooker.pit_air.volume == 0.5


@pytest.mark.parametrize("steps", ["meat.tissue.mobility", "meat.shape", "stages.0.surroundings.top"])
def test_what_is_always_there_is_changed_where_it_is(steps):
    plans = [lc.Plan(lc.brisket(), [lc.Stage("smoke", lc.oven(110.0), until=lc.core(70.0))])]

    def there():
        found = plans[0]
        for step in steps.split("."):
            found = found[int(step)] if step.isdigit() else getattr(found, step)
        return found

    first = next(name for name in type(there())._fields if isinstance(getattr(there(), name), float))
    reference = there()
    setattr(there(), first, 0.125)
    assert getattr(reference, first) == 0.125
    plans.clear()
    gc.collect()
    assert getattr(reference, first) == 0.125
