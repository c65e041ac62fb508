"""The types of the arguments that a function reads itself: a value with a unit, one of a few words."""

from __future__ import annotations

import os
from typing import Any, TypeAlias

# A plain number is SI (°C for temperatures), text carries its unit; a pint quantity is taken too, and pint
# has no types that could be named here without importing it.
Quantity: TypeAlias = float | str | Any

# A file or a folder.
PathName: TypeAlias = str | os.PathLike[str]

# One of a few words, such as "C" or "F": whatever else comes, the function answers with the words it takes.
Word: TypeAlias = str
