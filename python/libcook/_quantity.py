"""The types of the arguments that take a value with a unit."""

from __future__ import annotations

from typing import Any, TypeAlias

# A plain number is SI (°C for temperatures), text carries its unit; a pint quantity is taken too, and pint
# has no types that could be named here without importing it.
Quantity: TypeAlias = float | str | Any
