"""What is said when an argument cannot be used: the field as written, what came, the likely slip."""

import numpy as np
import pytest

import libcook as lc

OVEN = lc.oven(110.0)


def to_core(temperature, air=110.0):
    return lc.Plan(lc.brisket(), [lc.Stage("x", lc.oven(air), until=lc.core(temperature))])


@pytest.mark.parametrize(
    ("make", "field", "says"),
    [
        (lambda: lc.pit("drum", air="250"), "pit.air", "'250 °F'"),
        (lambda: lc.pit("drum", air=300.0), "pit.air", "'300 °F'"),
        (lambda: lc.pit("drumm", air=110.0), "pit.kind", "did you mean 'drum'"),
        (lambda: lc.pit("drum", air=[("0 h", 110.0)]), "pit.air", "schedule"),
        (lambda: lc.pit("drum", air=110.0, vapour_pressure="8 m"), "pit.vapour_pressure", "'8 m'"),
        (lambda: lc.pit("drum", air=110.0, film="soft"), "pit.film", "'soft'"),
        (lambda: lc.Pit(air=110.0, radiant="5 kg"), "pit.radiant_bottom", "5 kg"),
        (
            lambda: lc.pit("drum", air=(np.array([0.0, 0.0]), np.array([1.0, 2.0]))),
            "signal[1].time",
            "increase",
        ),
        (lambda: lc.brisket(mass=14000), "mass", "0.15 to 11.4 kg"),
        (lambda: lc.brisket(mass=14), "mass", "a plain number is in kg"),
        (lambda: lc.brisket(thickness=65), "thickness", "'65 mm'"),
        (lambda: lc.brisket(start=100), "start", "accepted"),
        (lambda: lc.brisket(fat="Down"), "fat", "did you mean 'down'"),
        (lambda: lc.core("abc"), "core", "abc"),
        (lambda: lc.tender(80), "tender", "0.8"),
        (lambda: lc.clock("6"), "clock", "'6:00' or '6 pm'"),
        (lambda: lc.Stage("x", OVEN, until="160 °F"), "stage.until", "libcook.core"),
        (lambda: lc.Stage("x", OVEN, until=lc.core(70.0), wrap="foyl"), "stage.wrap", "did you mean 'foil'"),
        (lambda: lc.brisket(start=40), "start", "did you mean '40 °F'"),
        (lambda: lc.pork_shoulder(start=38), "start", "did you mean '38 °F'"),
        (lambda: lc.elapsed(3), "elapsed", "did you mean '3 h'"),
        (lambda: lc.pit("drum", air="cook.csv"), "pit.air", "did you mean libcook.read_log('cook.csv')"),
        (lambda: lc.Stage("x", OVEN, until="200 °F"), "stage.until", "did you mean libcook.core('200 °F')"),
        (lambda: lc.simulate(to_core(70.0), units="F"), "units", "libcook.sentences(outcome, units='F')"),
        (lambda: to_core("270 °F"), "core", "30 °F (-1 °C) to 230 °F (110 °C) is accepted"),
        (lambda: to_core(203), "core", "did you mean '203 °F'"),
        (
            lambda: lc.simulate(to_core(109.99, 105.0)),
            "stages[0].until",
            "cannot be reached in the oven, 221 °F (105 °C)",
        ),
        (lambda: lc.Plan(lc.brisket(), [], start=21), "plan.start", "did you mean '21:00'"),
        (lambda: lc.sentences(to_core(70.0)), "outcome", "libcook.simulate(plan)"),
        (lambda: lc.Stage("x", OVEN, wrap="papper"), "stage.wrap", "did you mean 'butcher paper'"),
        (lambda: lc.Stage("x", OVEN, wrap="tin foil"), "stage.wrap", "did you mean 'foil'"),
        (lambda: lc.Stage("x", "oven", until=lc.core(70.0)), "stage.surroundings", "libcook.Surroundings"),
        (lambda: lc.Stage("x", OVEN, until=lc.core(70.0), lid=["3 h"]), "stage.lid[0]", "pair"),
        (lambda: lc.Stage("x", OVEN, until=lc.core(70.0), spritz=3), "stage.spritz", "libcook.Spritz"),
        (lambda: lc.Plan(lc.brisket(), []), "stages", "at least one"),
        (lambda: lc.Plan("brisket", []), "plan.meat", "libcook.Meat"),
        (lambda: lc.Plan(lc.brisket(), [3]), "stages[0]", "libcook.Stage"),
        (
            lambda: lc.Plan(lc.brisket(), [lc.Stage("x", OVEN, until=lc.End("core", 200.0))]),
            "stages[0].until",
            "'200 °F'",
        ),
        (lambda: lc.Plan(lc.brisket(), [lc.Stage("x", OVEN)]), "stages[0].until", "missing"),
        (
            lambda: lc.Plan(lc.brisket(), [lc.Stage("x", OVEN, until=lc.clock("18:00"))]),
            "stages[0].until",
            "start",
        ),
        (lambda: lc.schedule([("1 h", 100.0), ("0 h", 110.0)]), "schedule[1].time", "increasing"),
        (lambda: lc.schedule([3]), "schedule[0]", "pair"),
        (lambda: lc.Stage("rest", OVEN, until="2 h"), "stage.until", "did you mean libcook.elapsed('2 h')?"),
        (lambda: lc.Stage("x", OVEN, until="203 °F"), "stage.until", "did you mean libcook.core('203 °F')?"),
        (lambda: lc.schedule([]), "schedule", "at least one"),
        (lambda: lc.Physics(evaporation="no"), "physics.evaporation", "True or False"),
        (lambda: lc.Composition(water="nan"), "composition.water", "number"),
        (lambda: lc.Plan.from_json("{"), None, "line 1"),
    ],
)
def test_messages_name_the_field_and_the_slip(make, field, says):
    with pytest.raises(lc.InvalidInput) as caught:
        make()
    assert says in str(caught.value)
    if field is not None:
        assert caught.value.field == field
        assert str(caught.value).startswith(field)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: lc.Stage("x", OVEN, untill=3), "did you mean 'until'"),
        (lambda: lc.Stage("x", OVEN, name="y"), "'name' came twice"),
        (lambda: lc.brisket(weight="12 lb"), "it takes: mass, thickness, start, fat"),
        (lambda: lc.pit(air="250 °F"), r"pit\(\) needs 'kind'; it takes: kind, air"),
        (lambda: lc.forecast(), "needs 'plan'"),
        (lambda: lc.breathing(OVEN, water_pan="1 kg"), r"breathing\(\) has no 'water_pan'; it takes: .*pan"),
        (lambda: lc.compare({"a": to_core(70.0)}, unit="F"), "did you mean 'units'"),
        (lambda: lc.LidOpening(1.0, 2.0, 3.0), "takes 2 values, but 3 came"),
    ],
)
def test_wrong_keywords_are_type_errors(make, says):
    with pytest.raises(TypeError, match=says):
        make()


def test_an_error_is_a_value_error():
    with pytest.raises(ValueError, match="mass"):
        lc.brisket(mass=-1)


def test_what_does_not_change_cannot_be_set():
    plan = lc.Plan(lc.brisket(), [lc.Stage("x", OVEN, until=lc.core(70.0))])
    for thing, name in (
        (plan, "stages"),
        (plan.stages[0].until[0], "value"),
        (lc.schedule([(0, 1)]), "value"),
    ):
        with pytest.raises(AttributeError):
            setattr(thing, name, [])
    with pytest.raises(AttributeError):
        plan.stages[0].wrap.colour = "brown"


def test_a_failed_assignment_leaves_the_value():
    meat = lc.brisket()
    with pytest.raises(lc.InvalidInput, match=r"meat\.start"):
        meat.start = "cold"
    assert meat.start == 4.0


@pytest.mark.parametrize(
    ("ask", "field", "says"),
    [
        (lambda: lc.brisket(mass=10**400), "mass", "a whole number of about 401 digits is too large"),
        (lambda: lc.core(10**400), "core", "too large"),
        (lambda: lc.schedule(None), "schedule", "nothing (None) came; pairs such as"),
        (lambda: lc.simulate_many(None), "plans", "nothing (None) came; a list of libcook.Plan is accepted"),
        (lambda: lc.Plan.from_json(None), "text", "None is not text"),
        (lambda: lc.Plan.from_json(b"{}"), "text", "b'{}' is not text"),
        (lambda: lc.sweep(to_core(70.0), {"pit.air": [1.0]}, to=b""), "to", "b'' of type bytes came; a path"),
        (lambda: lc.Stage("\ud800", OVEN), "stage.name", "holds half of a character"),
        (
            lambda: lc.Stage("x", OVEN, until=lc.core(70.0)).replace(name="a\udcff"),
            "stage.name",
            "at place 1",
        ),
        (lambda: lc.read_log("a\udcff,b\nc,d\n"), "time", "cannot tell"),
        (lambda: lc.brisket(start=-3), "start", "30 °F (-1 °C) to 86 °F (30 °C) is accepted"),
        (lambda: lc.brisket(start="-3 °C"), "start", "30 °F (-1 °C) to 203 °F (95 °C) is accepted"),
        (lambda: lc.pork_shoulder(start="97 °C"), "start", "to 203 °F (95 °C) is accepted"),
        (lambda: lc.calibrate(to_core(70.0), None, []), "log", "nothing (None) came; libcook.Log"),
        (lambda: lc.sentences(None), "outcome", "nothing (None) came; an outcome"),
        (lambda: lc.wrap(None), "name", "nothing (None) came; text is accepted"),
        (lambda: lc.physics.dew_point("8 kPa"), "vapour_pressure", "'8 kPa' came; numbers are accepted"),
        (lambda: lc.physics.latent_heat([20.0, None, "x"]), "temperature", "numbers are accepted"),
        (lambda: lc.find_stall(None, [1.0]), "time", "nothing (None) came"),
        (lambda: lc.Section.place(lc.brisket_section(lc.brisket()), 3), "name", "3 is not text"),
    ],
)
def test_arguments_of_another_type_are_named(ask, field, says):
    with pytest.raises(lc.InvalidInput) as caught:
        ask()
    assert caught.value.field == field
    assert says in str(caught.value)


def test_what_a_start_promises_is_accepted():
    # the message said down to -5 °C, and -1 °C was the limit; up to 100 °C, and 60 °C was
    for start in (-1.0, "-1 °C", "60 °C", 30.0):
        assert lc.brisket(start=start).start == lc.pork_shoulder(start=start).start
