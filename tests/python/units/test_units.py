"""Units at the door: conversions, slips, and the words of the messages."""

import datetime as dt
import math
import pickle
import subprocess
import sys

import numpy as np
import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from libcook import errors, units
from libcook.errors import InvalidInput

# Factors as in NIST Special Publication 811 (2008), appendix B.8; from memory, not read there.
CONVERSIONS = [
    ("temperature", "212 °F", 100.0),
    ("temperature", "32F", 0.0),
    ("temperature", "-40 °F", -40.0),
    ("temperature", "160 degrees Fahrenheit", (160 - 32) / 1.8),
    ("temperature", "94 °C", 94.0),
    ("temperature", "94℃", 94.0),
    ("temperature", "373.15 K", 100.0),
    ("temperature_difference", "18 °F", 10.0),
    ("temperature_difference", "10 °C", 10.0),
    ("temperature_difference", "10 K", 10.0),
    ("temperature_rate", "3.6 °C/h", 0.001),
    ("mass", "14 lb", 14 * 0.45359237),
    ("mass", "14 lb 6 oz", 14.375 * 0.45359237),
    ("mass", "6400 G", 6.4),
    ("length", "65 mm", 0.065),
    ("length", "2.5 in", 0.0635),
    ("length", '2½"', 0.0635),
    ("length", "2 1/2 inches", 0.0635),
    ("duration", "90 min", 5400.0),
    ("duration", "1h30", 5400.0),
    ("duration", "1:30", 5400.0),
    ("duration", "1:30:15", 5415.0),
    ("duration", "1 h 30 m", 5400.0),
    ("duration", "5 h", 18000.0),
    ("duration", "8 hrs 5 mins", 29100.0),
    ("pressure", "1013.25 hPa", 101325.0),
    ("pressure", "1 inHg", 3386.389),
    ("film_coefficient", "12 W/m²K", 12.0),
    ("film_coefficient", "12 W/(m²·°C)", 12.0),
    ("film_coefficient", "12 W m-2 K-1", 12.0),
    ("film_coefficient", "1 BTU/(h·ft²·°F)", 5.678263),
    ("velocity", "1 mph", 0.44704),
    ("area", "1 ft**2", 0.09290304),
    ("power", "1 BTU/h", 0.2930711),
    ("mass_flow", "36 g/h", 1e-5),
    ("volume_flow", "1 cfm", 4.719474e-4),
    ("density", "1 lb/ft3", 16.01846),
    ("areal_mass", "80 g/m²", 0.08),
    ("dimensionless", "15 %", 0.15),
    ("dimensionless", "0.15", 0.15),
]


@pytest.mark.parametrize(("kind", "text", "expected"), CONVERSIONS)
def test_text_converts(kind: str, text: str, expected: float) -> None:
    # the source gives seven digits, and more than one definition of the BTU that differ in the fourth
    tolerance = 1e-3 if "BTU" in text else 5e-7
    assert units.to_si(text, kind, "x") == pytest.approx(expected, rel=tolerance, abs=1e-9)


def test_temperatures_keep_their_last_digit() -> None:
    assert units.to_si("-40 °F", "temperature", "x") == -40.0
    assert units.to_si("212 °F", "temperature", "x") == 100.0


@pytest.mark.parametrize("value", [5, 5.0, np.float32(5), np.int64(5), np.float64(5)])
def test_plain_numbers_are_si(value: float) -> None:
    for kind in units.KINDS:
        result = units.to_si(value, kind, "x")
        assert result == 5.0
        assert type(result) is float


def test_decimal_comma() -> None:
    assert units.to_si("6,4 kg", "mass", "x") == 6.4
    assert units.to_si("6,45 kg", "mass", "x") == 6.45


def test_ounces_close_behind_their_number_are_no_zero() -> None:
    assert units.to_si("5oz", "mass", "x") == units.to_si("5 oz", "mass", "x")
    assert units.to_si("14lb 6oz", "mass", "x") == units.to_si("14 lb 6 oz", "mass", "x")


# (value, kind, parts that the message must carry)
REFUSED = [
    ("160", "temperature", ["pit.air: '160' has no unit", "did you mean '160 °F' or '160 °C'?"]),
    ("90", "duration", ["has no unit", "'90 min'"]),
    ("1,234 kg", "mass", ["can be a decimal mark or a thousands mark", "did you mean '1234' or '1.234'?"]),
    ("1,234.5 kg", "mass", ["thousands mark", "'1234.5'"]),
    ("90 m", "duration", ["is no duration but a length", "did you mean '90 min'?"]),
    ("160 Fs", "temperature", ["'Fs' in '160 Fs' is not a known unit", "did you mean '160 °F'?"]),
    ("14 punds", "mass", ["did you mean '14 pounds'?"]),
    ("14 lb 20 oz", "mass", ["'20 oz' is not smaller than one of the unit before it"]),
    ("1.2.3 kg", "mass", ["'1.2.3' in '1.2.3 kg' is not a number"]),
    ("1/0 kg", "mass", ["divides by zero"]),
    ("", "mass", ["an empty text", "a mass is accepted"]),
    ("25O F", "temperature", ["a letter O stands among the digits", "did you mean '250 F'?"]),
    ("heavy", "mass", ["does not start with a number"]),
    ("nan", "mass", ["does not start with a number"]),
    ("1e999 kg", "mass", ["not a finite number"]),
    ("5 kg/", "mass", ["ends with a stroke"]),
    ("5 ?", "mass", ["'?' in '5 ?' is not a unit"]),
    ("5 °F %", "temperature", ["mixes a temperature scale"]),
    ("5 delta_degF", "temperature", ["is not a known unit"]),
    ("-500 °F", "temperature", ["below absolute zero"]),
    (-300.0, "temperature", ["-300 °C is below absolute zero"]),
    (math.nan, "mass", ["nan is not a finite number"]),
    (math.inf, "duration", ["inf is not a finite number"]),
    (None, "mass", ["nothing (None) came"]),
    (True, "mass", ["True is a truth value"]),
    ([1.0], "mass", ["of type list came"]),
]


@pytest.mark.parametrize(("value", "kind", "parts"), REFUSED)
def test_refused_with_reason(value: object, kind: str, parts: list[str]) -> None:
    with pytest.raises(InvalidInput) as caught:
        units.to_si(value, kind, "pit.air")
    message = str(caught.value)
    assert message.startswith("pit.air: ")
    for part in parts:
        assert part in message
    assert caught.value.field == "pit.air"


@pytest.mark.parametrize(
    ("text", "kind", "limits"),
    [
        ("2 h", "temperature", {}),  # meant for another argument
        ("1 gal", "mass", {}),
        ("250 °F", "temperature", {"low": -1.0, "high": 110.0}),  # the digits fit no other scale
    ],
)
def test_no_hint_where_none_makes_sense(text: str, kind: str, limits: dict[str, float]) -> None:
    with pytest.raises(InvalidInput) as caught:
        units.to_si(text, kind, "x", **limits)
    assert "did you mean" not in str(caught.value)


def test_unknown_kind() -> None:
    with pytest.raises(InvalidInput, match="kind: 'weight' is not a kind of quantity; accepted: temperature"):
        units.to_si(1.0, "weight", "x")
    with pytest.raises(InvalidInput, match="kind"):
        units.to_si("1 kg", "weight", "x")


@pytest.mark.parametrize(
    ("value", "kind", "low", "high", "message"),
    [
        (
            200.0,
            "temperature",
            -30,
            150,
            "x: 200 °C is above the range; -22 °F (-30 °C) to 302 °F (150 °C) is accepted; "
            "did you mean '200 °F'?",
        ),
        (
            "200 °C",
            "temperature",
            -30,
            150,
            "x: '200 °C' is above the range; -22 °F (-30 °C) to 302 °F (150 °C) is accepted; "
            "did you mean '200 °F'?",
        ),
        (
            65.0,
            "length",
            0.001,
            1,
            "x: 65 m is above the range; 0.001 to 1 m is accepted; did you mean '65 mm'?",
        ),
        (
            6400,
            "mass",
            0.1,
            50,
            "x: 6400 kg is above the range; 0.1 to 50 kg is accepted; did you mean '6400 g'?",
        ),
        (
            90,
            "duration",
            600,
            None,
            "x: 90 s is below the range; 600 s and above is accepted; did you mean '90 min'?",
        ),
        (
            1.5,
            "dimensionless",
            None,
            1,
            "x: 1.5 is above the range; up to 1 is accepted; did you mean '1.5 %'?",
        ),
        ("3 kg", "mass", 5, 8, "x: '3 kg' is below the range; 5 to 8 kg is accepted"),
    ],
)
def test_range_names_the_slip(value: object, kind: str, low: float, high: float, message: str) -> None:
    with pytest.raises(InvalidInput) as caught:
        units.to_si(value, kind, "x", low=low, high=high)
    assert str(caught.value) == message
    assert caught.value.value == value


def test_pint_quantities() -> None:
    theirs = pint.UnitRegistry()  # not the package's own
    assert units.to_si(theirs.Quantity(14, "lb"), "mass", "x") == pytest.approx(6.35029318)
    assert units.to_si(theirs.Quantity(212, "degF"), "temperature", "x") == 100.0
    assert units.to_si(theirs.Quantity(300, "kelvin"), "temperature", "x") == pytest.approx(26.85)
    assert units.to_si(theirs.Quantity(18, "delta_degF"), "temperature_difference", "x") == pytest.approx(
        10.0
    )
    assert units.to_si(theirs.Quantity(0.3), "dimensionless", "x") == 0.3


def test_pint_offset_traps() -> None:
    theirs = pint.UnitRegistry()
    with pytest.raises(InvalidInput, match="scale with an offset, not a difference"):
        units.to_si(theirs.Quantity(10, "degC"), "temperature_difference", "x")
    with pytest.raises(InvalidInput, match="is a temperature difference"):
        units.to_si(theirs.Quantity(10, "delta_degC"), "temperature", "x")
    with pytest.raises(InvalidInput, match="has no unit"):
        units.to_si(theirs.Quantity(10), "mass", "x")
    with pytest.raises(InvalidInput, match="cannot be read as one quantity"):
        units.to_si(theirs.Quantity([1, 2], "kg"), "mass", "x")


SIMPLE = [(kind, unit) for kind in units.KINDS.values() for unit in kind.usual if kind.name != "temperature"]


@pytest.mark.parametrize("unit", [pytest.param(pair, id=f"{pair[0].name}-{pair[1]}") for pair in SIMPLE])
def test_every_usual_unit_is_read(unit: tuple[units.Kind, str]) -> None:
    kind, text = unit
    assert units.to_si(f"1 {text}", kind.name, "x") > 0.0


@settings(deadline=None)  # tests assert no times
@given(st.sampled_from(SIMPLE), st.floats(1e-6, 1e6))
def test_scales_are_linear(pair: tuple[units.Kind, str], number: float) -> None:
    kind, unit = pair
    one = units.to_si(f"1 {unit}", kind.name, "x")
    assert units.to_si(f"{number!r} {unit}", kind.name, "x") == pytest.approx(number * one, rel=1e-12)


@settings(deadline=None)  # tests assert no times
@given(st.floats(-459.0, 2000.0))
def test_fahrenheit_round_trip(fahrenheit: float) -> None:
    celsius = units.to_si(f"{fahrenheit:.9f} °F", "temperature", "x")
    assert units.celsius_to_fahrenheit(celsius) == pytest.approx(fahrenheit, abs=1e-8)


@settings(deadline=None)  # tests assert no times
@given(st.floats(-273.0, 1e4))
def test_celsius_text_is_exact(celsius: float) -> None:
    assert units.to_si(f"{celsius!r} °C", "temperature", "x") == celsius


@settings(deadline=None)  # tests assert no times
@given(st.integers(0, 60 * 24 * 30))
def test_durations_round_trip(minutes: int) -> None:
    assert units.to_si(units.format_duration(60.0 * minutes), "duration", "x") == 60.0 * minutes


@settings(deadline=None)  # tests assert no times
@given(st.integers(0, 1439))
def test_clock_round_trip(minute: int) -> None:
    assert units.parse_clock(units.format_clock(60.0 * minute)) == 60.0 * minute


@settings(deadline=None)  # tests assert no times
@given(st.text(max_size=12), st.sampled_from(sorted(units.KINDS)))
def test_any_text_is_read_or_refused_in_one_voice(text: str, kind: str) -> None:
    try:
        assert math.isfinite(units.to_si(text, kind, "field"))
    except InvalidInput as error:
        assert str(error).startswith("field: ")


def test_arrays_convert_to_and_fro() -> None:
    fahrenheit = np.array([[32.0, 212.0], [-40.0, np.nan]])
    celsius = units.fahrenheit_to_celsius(fahrenheit)
    np.testing.assert_array_equal(celsius, [[0.0, 100.0], [-40.0, np.nan]])
    np.testing.assert_allclose(units.celsius_to_fahrenheit(celsius), fahrenheit)
    np.testing.assert_allclose(units.kelvin_to_celsius([273.15, 373.15]), [0.0, 100.0])


def test_formats() -> None:
    assert units.format_temperature(93.333, units="F") == "200.0 °F"
    assert units.format_temperature(-0.01) == "0.0 °C"
    assert units.format_duration(27600.0) == "7 h 40 min"
    assert units.format_duration(3599.0) == "1 h"
    assert units.format_duration(59.6) == "1 min"
    assert units.format_duration(45.0) == "45 s"
    assert units.format_duration(-300.0) == "-5 min"
    assert units.format_mass(6.4) == "6.40 kg"
    assert units.format_mass(6.35029318, "lb") == "14.0 lb"
    assert units.format_clock(64800.0) == "18:00"
    assert units.format_clock(86399.0) == "00:00"
    assert units.format_clock(86400.0 + 7800.0, days=True) == "02:10 (+1 d)"
    with pytest.raises(InvalidInput, match="units: 'K' is not a temperature unit"):
        units.format_temperature(20.0, "K")
    for call in (units.format_temperature, units.format_duration, units.format_mass, units.format_clock):
        with pytest.raises(InvalidInput):
            call(math.nan)


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("18:00", 64800), ("6 pm", 64800), ("6:30 PM", 66600), ("18h30", 66600), ("12 am", 0), ("12 pm", 43200),
     ("noon", 43200), ("midnight", 0), ("6 p.m.", 64800), ("00:00:30", 30)],
)  # fmt: skip
def test_clock_times(text: str, seconds: int) -> None:
    assert units.parse_clock(text) == seconds


def test_clock_objects() -> None:
    assert units.parse_clock(dt.time(18, 30)) == 66600.0
    assert units.parse_clock(dt.datetime(2024, 5, 11, 6, 0)) == 21600.0


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("6", "did you mean '6:00' or '6 pm'?"),
        ("24:00", "did you mean '00:00'?"),
        ("13 pm", "did you mean '13:00'?"),
        ("18:75", "past the end"),
        ("soon", "is not a time of day"),
        (18, "is not a time of day"),
    ],
)
def test_clock_refused(text: str, part: str) -> None:
    with pytest.raises(InvalidInput, match="serve: ") as caught:
        units.parse_clock(text, "serve")
    assert part in str(caught.value)


def test_pint_waits_for_the_first_text() -> None:
    code = (
        "import sys, libcook.units as u; u.to_si(5.0, 'mass', 'x'); assert 'pint' not in sys.modules;"
        "u.to_si('5 kg', 'mass', 'x'); assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_errors_survive_pickling() -> None:
    error = pickle.loads(pickle.dumps(InvalidInput("a: b", field="a", value=3)))
    assert (str(error), error.field, error.value) == ("a: b", "a", 3)
    failure = pickle.loads(pickle.dumps(errors.Unreachable("levels off at 88 °C", outcome=[1])))
    assert isinstance(failure, errors.SolverFailure)
    assert isinstance(failure, RuntimeError)
    assert failure.outcome == [1]
