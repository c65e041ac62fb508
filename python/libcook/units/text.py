"""Text with a unit ("160 °F", "14 lb 6 oz", "1h30") read into SI, or °C for temperatures.

Pint knows the units; this file knows how cooks and data sheets write them, and says what went wrong. Pint is
imported at the first text, not with the package: it takes longer to load than everything else here.
"""

from __future__ import annotations

# Pint imports it. Where a daemon thread reads the first text just as the interpreter ends, that is too late:
# the interpreter then refuses it.
import concurrent.futures.thread  # noqa: F401
import difflib
import functools
import math
import re
import threading
import unicodedata
from collections.abc import Callable
from typing import Any

from libcook.arguments.quote import LONGEST, cut, quoted
from libcook.errors import InvalidInput, invalid
from libcook.units import scales
from libcook.units.kinds import KINDS, Kind, accepted

# Spellings that pint lacks or reads as something else: to pint, F is farad and C is coulomb.
_ALIASES = {
    **dict.fromkeys(("°F", "F", "f", "degF", "fahrenheit"), "degF"),
    **dict.fromkeys(("°C", "C", "c", "degC", "celsius", "centigrade"), "degC"),
    **dict.fromkeys(("K", "k", "°K", "kelvin", "kelvins"), "kelvin"),
    **dict.fromkeys(('"', "″", "”", "in", "inch", "inches"), "inch"),
    **dict.fromkeys(("'", "′", "’", "ft", "foot", "feet"), "foot"),
    **dict.fromkeys(("BTU", "Btu", "btu"), "Btu"),
    **dict.fromkeys(("hr", "hrs", "h", "hour", "hours"), "hour"),
    **dict.fromkeys(("%", "percent", "pct"), "percent"),
    **dict.fromkeys(("L", "l", "litre", "litres"), "liter"),
    **dict.fromkeys(("lb", "lbs"), "pound"),
    **dict.fromkeys(("cfm", "CFM"), "foot**3/minute"),
}
_ABSOLUTE = ("degree_Celsius", "degree_Fahrenheit", "degree_Reaumur")  # pint's names of scales with an offset
_SCALES: dict[str, Callable[[float], float]] = {
    "degree_Celsius": lambda number: number,
    "degree_Fahrenheit": scales.fahrenheit_to_celsius,
    "kelvin": scales.kelvin_to_celsius,
}
# What Unicode's compatibility forms (NFKC) make of signs is nearly what is meant: ² is 2, ½ is 1⁄2, ℉ is °F
# and a thin space a space. These signs it leaves, or turns into something else.
_TYPOGRAPHY = str.maketrans({"–": "-", "º": "°", "˚": "°", "″": '"', "⋅": "·", "×": "·"})
_PLAIN = str.maketrans({"\u2212": "-", "\u2044": "/", "*": "·", "μ": "µ"})
_NUMBER = r"(?:\d[\d.,]*|\.\d+)(?:[eE][+-]?\d+)?"
_FRACTION = r"(?:\d+\s+)?\d+\s*/\s*\d+(?![\d.,])"
_LEADING = re.compile(rf"([+-]?)\s*({_FRACTION}|{_NUMBER})\s*(.*)", re.DOTALL)
_PAIR = re.compile(rf"({_FRACTION}|{_NUMBER})\s*([^\W\d_]+|['\"′″])\.?[\s,]*")
_TOKEN = re.compile(r"\s*([^\W\d_]+|°\s*[A-Za-z]|[%'\"′″’”])\.?\s*(?:\^|··)?\s*([+-]?\d+)?\s*")
_COMPOUND = ("mass", "length", "duration")


_one_at_a_time = threading.Lock()


def registry() -> Any:
    """Return the package's pint registry, made at first use."""
    with _one_at_a_time:  # two threads at once would each get a registry of their own, and units do not mix
        return _made_registry()


@functools.lru_cache(maxsize=1)
def _made_registry() -> Any:
    import pint

    return pint.UnitRegistry()


def read_number(text: str, field: str, whole: str) -> float:
    """Read the number at the head of a quantity: points, a decimal comma, or a fraction such as "2 1/2".

    One comma with one or two digits behind it and no point is a decimal comma. Any other comma is refused,
    because "1,234" is 1.234 in one country and 1234 in the next.
    """
    fraction = re.fullmatch(r"(?:(\d+)\s+)?(\d+)\s*/\s*(\d+)", text)
    if fraction:
        bottom = int(fraction[3])
        if bottom == 0:
            raise invalid(field, whole, f"{quoted(whole)} divides by zero", "a finite number is accepted")
        return int(fraction[1] or 0) + int(fraction[2]) / bottom
    if "," in text:
        if re.fullmatch(r"\d+,\d{1,2}(?:[eE][+-]?\d+)?", text):
            text = text.replace(",", ".")
        else:
            plain = text.replace(",", "")
            other = text.replace(",", ".") if text.count(",") == 1 and "." not in text else ""
            meant = f"{quoted(plain)} or {quoted(other)}" if other else f"{quoted(plain)}"
            came = f"the comma in {quoted(whole)} can be a decimal mark or a thousands mark"
            raise invalid(field, whole, came, "a decimal point and no thousands mark is accepted", meant)
    try:
        return float(text)
    except ValueError:
        raise invalid(
            field,
            whole,
            f"{quoted(text)} in {quoted(whole)} is not a number",
            "digits with one decimal point are accepted",
        ) from None


def _plain(text: str) -> str:
    """Write typographic signs as they are typed."""
    text = re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", " ", text.replace("**", "^")).translate(_TYPOGRAPHY)
    return unicodedata.normalize("NFKC", text).translate(_PLAIN).strip()


def written_number(text: str, field: str) -> float:
    """Return the number of a text that `read_text` has read, as it was written."""
    match = _LEADING.fullmatch(_plain(text))
    if match is None:
        return math.nan
    return (-1.0 if match[1] == "-" else 1.0) * read_number(match[2], field, text)


def _closest(token: str, kind: Kind) -> str:
    words = {
        word.lower(): word for unit in kind.usual for word in (unit, *re.findall(r"[^\W\d_]+|°[CFK]", unit))
    }
    near = difflib.get_close_matches(token.lower(), list(words), n=1, cutoff=0.3)
    return words[near[0]] if near else kind.usual[0]


def _resolve(token: str, kind: Kind, field: str, whole: str) -> str:
    """Turn one written unit into pint's name for it, in the meaning this kind of quantity gives it."""
    usual = {word.lower(): word for unit in kind.usual for word in re.findall(r"[^\W\d_]+|°[CFK]|%", unit)}
    word = usual.get(
        token.lower(), token
    )  # "KG", "Min": case is a slip where only one of the usual units fits
    name = _ALIASES.get(token) or _ALIASES.get(word) or word
    if kind.name != "temperature" and name in ("degF", "degC"):
        name = (
            "delta_" + name
        )  # in W/(m²·°C), and in a difference, the degree is an interval: no offset of 32 or 273.15
    try:
        registry().parse_units(name)
    except Exception:  # pint raises several unrelated classes for text that is not a unit
        came = f"{quoted(token)} in {quoted(whole)} is not a known unit"
        near = _closest(token, kind)
        meant = f"{quoted(whole.replace(token, near))}" if whole.count(token) == 1 else f"'{near}'"
        raise invalid(field, whole, came, accepted(kind), meant) from None
    return name


def read_unit(text: str, kind: Kind, field: str, whole: str) -> Any:
    """Read a unit expression; everything behind the first "/" is below the line, as in W/m²K and W/(m²·K)."""
    text = re.sub(r"\b[Dd]eg(?:rees?)?\.?\s*([FCKfck])\b", r"°\1", text)
    text = re.sub(r"\b[Dd]egrees?\s+(?=fahr|cels|Fahr|Cels)", "", text)
    text = re.sub(r"°\s*([fck])\b", lambda match: "°" + match[1].upper(), text)
    water = text.replace("H2O", "HtwoO")  # the one unit name with a digit inside: draught in inches of water
    above, *below = re.sub(r"\bper\b", "/", water).split("/")
    units = registry().Unit("")
    if any(not part.strip() for part in below):
        raise invalid(field, whole, f"{quoted(text)} in {quoted(whole)} ends with a stroke", accepted(kind))
    for part, sign in [(above, 1), *((part, -1) for part in below)]:
        part = part.strip().strip("()").replace("(", " ").replace(")", " ")
        if part.strip() in ("", "1") and sign == 1:
            continue
        at = 0
        while at < len(part):
            match = _TOKEN.match(part, at)
            if match is None or match.end() == at:
                came = f"{quoted(text)} in {quoted(whole)} is not a unit"
                raise invalid(field, whole, came, accepted(kind), f"'{kind.usual[0]}'")
            token = match[1].replace(" ", "").replace("HtwoO", "H2O")
            name = _resolve(token, kind, field, whole)
            units = units * registry().parse_units(name) ** (sign * int(match[2] or 1))
            at = match.end()
            while at < len(part) and part[at] in " ·.":
                at += 1
    return units


def convert(number: float, units: Any, kind: Kind, field: str, whole: Any) -> float:
    """Convert a number with pint units to the unit of the kind; temperatures and differences stay apart."""
    name = str(units)
    if kind.name == "temperature" and name.startswith("delta_"):
        came = f"{quoted(whole)} is a temperature difference"
        raise invalid(field, whole, came, accepted(kind))
    if kind.name == "temperature_difference" and name in _ABSOLUTE:
        came = f"{quoted(whole)} is a temperature on a scale with an offset, not a difference"
        raise invalid(
            field, whole, came, "a difference is accepted: a plain number in K, 'delta_degC' or 'delta_degF'"
        )
    wanted = registry().parse_units(kind.unit)
    if units.dimensionality != wanted.dimensionality:
        what = next(
            (
                k
                for k in KINDS.values()
                if registry().parse_units(k.unit).dimensionality == units.dimensionality
            ),
            None,
        )
        came = f"{quoted(whole)} is no {kind.name.replace('_', ' ')}" + (
            f" but a {what.name.replace('_', ' ')}" if what else ""
        )
        if not name or name == "dimensionless":
            came = f"{quoted(whole)} has no unit"
        # A unit of another kind is a slip of the pen ("m" for "min") or the wrong argument: no hint for that.
        written = str(whole).lstrip("+-0123456789., ")
        near = [unit for unit in kind.usual if what is None or unit.startswith(written)]
        raise invalid(field, whole, came, accepted(kind), f"'{number:g} {near[0]}'" if near else "")
    if kind.name == "temperature" and name in _SCALES:
        return _SCALES[name](
            number
        )  # pint goes through kelvin and loses the last digits: -40 °F would not be -40 °C
    try:
        return float(registry().Quantity(number, units).to(wanted).magnitude)
    except Exception:  # a temperature scale inside a product
        raise invalid(
            field, whole, f"{quoted(whole)} mixes a temperature scale with other units", accepted(kind)
        ) from None


def _read_clocklike(text: str) -> float | None:
    """Read "1:30", "1:30:15" and "1h30" as a duration, or return None."""
    match = re.fullmatch(r"(\d+):([0-5]\d)(?::([0-5]\d))?", text)
    if match is None:
        match = re.fullmatch(r"(\d+)\s*[hH]\s*([0-5]\d)()", text)
    return None if match is None else 3600.0 * int(match[1]) + 60.0 * int(match[2]) + float(match[3] or 0)


def _read_compound(text: str, kind: Kind, field: str, whole: str) -> float | None:
    """Read "14 lb 6 oz" or "1 h 30 min": units from large to small, or return None for anything else."""
    pairs, at = [], 0
    while at < len(text):
        match = _PAIR.match(text, at)
        if match is None:
            return None
        pairs.append((match[1].rstrip(","), match[2]))
        at = match.end()
    if len(pairs) < 2:
        return None
    total, one_before = 0.0, float("inf")
    for position, (number, unit) in enumerate(pairs):
        if kind.name == "duration" and unit == "m" and position > 0:
            unit = "min"  # alone, "m" is a metre; behind hours it can only be minutes
        one = convert(1.0, read_unit(unit, kind, field, whole), kind, field, whole)
        value = read_number(number, field, whole) * one
        if value >= one_before:
            part = quoted(f"{number} {unit}")
            came = f"in {quoted(whole)} the part {part} is not smaller than one of the unit before it"
            raise invalid(field, whole, came, "parts from the largest unit to the smallest are accepted")
        total, one_before = total + value, one
    return total


def read_text(value: str, kind: Kind, field: str) -> float:
    """Read a text with a unit into SI (°C for temperatures).

    Raises
    ------
    InvalidInput
        When the number, the unit or their kind is not what is wanted; the message carries the closest known
        unit.
    """
    if len(value) > LONGEST:  # no quantity; reading it, and looking for what was meant, would take forever
        raise invalid(field, value, f"{quoted(value)} is no quantity", accepted(kind))
    whole = value.strip()
    text = _plain(whole)
    if kind.name == "duration":
        clocklike = _read_clocklike(text)
        if clocklike is not None:
            return clocklike
    match = _LEADING.fullmatch(text)
    if match is None:
        came = f"{quoted(whole)} does not start with a number" if whole else "an empty text"
        raise invalid(field, value, came, accepted(kind))
    letter = re.match(r"[+-]?\d+[oO]\d*(?!\w)", text)  # "25O F", but not "5oz"
    if letter:
        meant = f"'{letter[0].lower().replace('o', '0')}{text[letter.end() :]}'"
        raise invalid(
            field, value, f"in {quoted(whole)} a letter O stands among the digits", accepted(kind), meant
        )
    sign_of = -1.0 if match[1] == "-" else 1.0
    if kind.name in _COMPOUND:
        compound = _read_compound(text.lstrip("+-"), kind, field, whole)
        if compound is not None:
            return sign_of * compound
    number = sign_of * read_number(match[2], field, whole)
    unit = match[3].strip()
    if not unit:
        if kind.name == "dimensionless":
            return number
        came = f"{quoted(whole)} has no unit"
        near = " or ".join(f"'{whole} {usual}'" for usual in kind.usual[:2])
        raise invalid(field, value, came, f"text needs one (a plain number is read in {kind.symbol})", near)
    return convert(number, read_unit(unit, kind, field, whole), kind, field, whole)


def read_quantity(value: Any, kind: Kind, field: str) -> float:
    """Read a pint quantity of any registry into SI (°C for temperatures)."""
    try:
        number = float(value.magnitude)
        units = registry().parse_units(str(value.units)) if str(value.units) else registry().Unit("")
    except InvalidInput:
        raise
    except Exception as error:  # an array, or a unit that only the other registry knows
        came = f"{quoted(value)} cannot be read as one quantity ({cut(str(error))})"
        raise invalid(field, value, came, accepted(kind)) from None
    return convert(number, units, kind, field, value)
