"""The quantities that a text says, in the order in which it says them: tests pin these, not the prose."""

import re

NUMBER = r"[-+]?\d+(?:\.\d+)?"


def durations(text):
    """Durations in minutes; "(12:00)" and "4.0 h" are none."""
    found = re.finditer(r"(?<![\d.:])(?:(\d+) h(?: (\d+) min)?|(\d+) min)(?!\w)", text)
    return [60 * int(h or 0) + int(m or only or 0) for h, m, only in (each.groups() for each in found)]


def quantities(text, unit):
    """Numbers before a unit; of "50 to 80 °C" both."""
    found = re.finditer(rf"(?:({NUMBER}) to )?({NUMBER}) {re.escape(unit)}(?![\w/²])", text)
    return [float(each) for pair in found for each in pair.groups() if each is not None]
