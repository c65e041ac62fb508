"""Other worlds: cooks that no model of the library made, to see whether its forecasts hold on them.

Five generators that differ in physics and share no code with the engine (nor with
validation/independent): this package imports NumPy and SciPy only. `WORLDS[name](seed)` gives a `Cook`:
what its user would know, and when it was truly done. All cooks are invented; the yardstick for how long
they take, and how much that scatters, is the regression of `worlds.field` over the measured cooks, and
`worlds.traces` warps the measured traces themselves.

    python -m worlds.tune      (in validation) levels and scatters beside the field's; --fit: search
"""

from __future__ import annotations

from collections.abc import Callable

from . import brick, lumped, mobility, traces, wandering
from .cook import Cook, Wrap

WORLDS: dict[str, Callable[[int], Cook]] = {
    "mobility": mobility.make,
    "lumped": lumped.make,
    "brick": brick.make,
    "traces": traces.make,
    "wandering": wandering.make,
}

__all__ = ["WORLDS", "Cook", "Wrap"]
