"""Headers of columns taken apart: their words, and the unit that stands in them."""

from __future__ import annotations

import re
import unicodedata

from libcook.arguments.quote import listed, quoted
from libcook.errors import invalid
from libcook.logs.columns.vocabulary import ENDINGS, NOTES, ROLES, SERIES, WARMTH
from libcook.logs.reading.numbers import with_plain_signs

Key = str | int | None

_BRACKETS = re.compile(r"[\[({]\s*([^\])}]*?)\s*[\])}]")
_LAST = re.compile(
    r"(?:\b(?:in|en)\s+)?(?<=[\s_,/-])((?:°|deg\.? ?)?[CF]|°?K|ms|s|sec|min|h|%)$"
    r"|(?<=\w)(°[CFK])$|(?<=[Tt]emp)([CF])$|(?<=_)([cf])$"
)
_INSIDE = re.compile(r"(°\s?[CFK])\b|\b([Cc]elsius|[Ff]ahrenheit|[Kk]elvin)\b")
_SCALES = {
    **dict.fromkeys(("c", "celsius", "centigrade", "centigrados"), "C"),
    **dict.fromkeys(("f", "fahrenheit"), "F"),
    **dict.fromkeys(("k", "kelvin"), "K"),
}
_TIME_UNITS = {
    **dict.fromkeys(("ms", "msec", "millis", "milliseconds", "millisekunden", "milisegundos"), "ms"),
    **dict.fromkeys(
        ("s", "sec", "secs", "second", "seconds", "sekunden", "sek", "secondes", "segundos"), "s"
    ),
    **dict.fromkeys(("min", "mins", "mn", "minute", "minutes", "minuten", "minutos"), "min"),
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours", "std", "stunden", "heures", "horas"), "h"),
    **dict.fromkeys(("mm:ss", "m:ss", "min:s", "min:sec"), "mm:ss"),
    **dict.fromkeys(("hh:mm", "h:mm", "hh:mm:ss", "h:mm:ss"), "hh:mm"),
}
TIME_UNITS = ("ms", "s", "min", "h", "mm:ss", "hh:mm")
# Units of what stands beside temperatures in logs.
_OTHER_UNITS = frozenset(
    (
        *(
            "%",
            "rpm",
            "v",
            "mv",
            "a",
            "ma",
            "w",
            "kw",
            "bar",
            "hpa",
            "kpa",
            "pa",
            "psi",
            "m/s",
            "km/h",
            "mph",
        ),
        *("g", "kg", "lb", "lbs", "oz", "l/min", "cfm", "ppm", "db", "dbm", "%rh", "rh", "lux", "ohm"),
    )
)


def plain(text: str) -> str:
    """Return text in small letters without accents.

    Examples
    --------
    >>> plain("Température"), plain("Cœur"), plain("Fühler")
    ('temperature', 'coeur', 'fuhler')
    """
    bare = unicodedata.normalize("NFKD", text.casefold().replace("œ", "oe"))
    return "".join(letter for letter in bare if not unicodedata.combining(letter))


def scale_of(unit: str) -> str | None:
    """Read a unit of temperature: "C", "F" or "K"; None where it is none."""
    bare = plain(with_plain_signs(unit)).strip(" .")
    bare = re.sub(r"^(?:in |en )?(?:°|degrees?|degres?|deg|grados?|grad|o(?=[cf]$))?[ .]*", "", bare)
    return _SCALES.get(bare)


def time_unit_of(unit: str) -> str | None:
    """Read a unit of time, one of `TIME_UNITS`; None where it is none."""
    return _TIME_UNITS.get(plain(unit).strip(" ."))


def is_unit(text: str) -> bool:
    """Tell whether text is a unit, as a line of units below a header has them."""
    bare = text.strip("[](){} ")
    known = scale_of(bare) or time_unit_of(bare) or plain(bare) in _OTHER_UNITS
    return bool(bare) and (bool(known) or bare == "°")


def split_name(header: str) -> tuple[str, str]:
    """Split "Core temp (°F)" into the words "core temp" and the unit "°F".

    Brackets that hold no unit hold words: "Probe 1 (Meat)".
    """
    header, found = with_plain_signs(header), list[str]()

    def take(match: re.Match[str]) -> str:
        if is_unit(match[1]):
            found.append(match[1])
            return " "
        return f" {match[1]} "

    words = _BRACKETS.sub(take, header).rstrip()
    if not found:
        match = _LAST.search(words) or _INSIDE.search(words)
        if match and not _names_probe(words[: match.start()], match[0]):
            found.append(match[match.lastindex or 0])
            words = words[: match.start()] + words[match.end() :]
    return " ".join(re.split(r"[\W_]+", words.lower())).strip(), found[0] if found else ""


def _names_probe(before: str, letter: str) -> bool:
    """Tell whether the letter at the end of a header is the name of a probe, as in "Probe C", and no unit."""
    words = re.split(r"[\W_]+", plain(before).strip(" _-"))
    return letter.strip() in ("C", "F", "c", "f", "s", "h") and set(words) <= SERIES


def words_of(header: str) -> frozenset[str]:
    """Return the words of a header for `vocabulary`; compounds and their parts."""
    apart = re.sub(r"(?<=[a-zà-ÿ])(?=[A-ZÀ-Þ])", " ", _without_unit(header))
    apart = re.sub(r"(?<=[^\W\d_])(?=\d)|(?<=\d)(?=[^\W\d_])", " ", apart)
    words = set(re.split(r"[\W_]+", plain(apart))) | set(split_name(header)[0].split())
    for word in list(words):
        while ending := next((end for end in ENDINGS if word.endswith(end) and word != end), ""):
            words.add(ending)
            word = word.removesuffix(ending)
            words.add(word)
    if words & {"probe", "channel", "sensor"}:
        words.discard("four")  # English here, and no oven
    return frozenset(words - {""})


def _without_unit(header: str) -> str:
    unit = split_name(header)[1]
    at = with_plain_signs(header).rfind(unit) if unit else -1
    return with_plain_signs(header) if at < 0 else with_plain_signs(header)[:at]


def own_name(header: str, index: int) -> str:
    """Return the name under which a column of a log is found, such as "thin_end"."""
    words = split_name(header)[0].split()
    telling = [word for word in words if plain(word) not in _SUPERFLUOUS]
    return "_".join(telling or words) or f"column_{index}"


_SUPERFLUOUS = frozenset(("temp", "temperature", "temperatur", "temperatura"))


def rank_of(header: str, role: str) -> int | None:
    """Return how plainly a header speaks for a role: 0 is plainest, None not at all."""
    words = words_of(header)
    return next((i for i, rank in enumerate(ROLES[role]) if words & rank), None)


def is_time(header: str) -> bool:
    """Tell whether a header is one of a time."""
    return rank_of(header, "time") is not None


def is_counted(header: str) -> bool:
    """Tell whether a header is one of a time alone, such as "minutes", and of no temperature."""
    words, unit = words_of(header), split_name(header)[1]
    if any(rank_of(header, role) is not None for role in ("core", "pit")) or words & WARMTH:
        return False
    return bool(words & (ROLES["time"][0] | {"epoch", "unix"}) or any(map(time_unit_of, (*words, unit))))


def is_note(header: str) -> bool:
    """Tell whether a header is one of notes."""
    return bool(words_of(header) & NOTES)


def find_column(key: Key, argument: str, names: list[str]) -> int | None:
    """Find the column that the call names, by header or by position from 0."""
    if key is None:
        return None
    listing = listed(map(quoted, names))
    if isinstance(key, int) and not isinstance(key, bool):
        if 0 <= key < len(names):
            return key
        came = f"there is no column {quoted(key)}"
        raise invalid(argument, key, came, f"positions 0 to {len(names) - 1} are accepted: {listing}")
    hits = [i for i, name in enumerate(names) if name == key]
    hits = hits or [i for i, name in enumerate(names) if split_name(name)[0] == split_name(str(key))[0]]
    hits = hits or [i for i, name in enumerate(names) if own_name(name, i) == own_name(str(key), i)]
    if len(hits) == 1:
        return hits[0]
    came = f"{len(hits) or 'no'} column{'s are' if len(hits) > 1 else ' is'} called {quoted(key)}"
    where = f"; say which by its position, such as {argument}={hits[0]}" if hits else ""
    raise invalid(argument, key, came, f"the log has: {listing}{where}")
