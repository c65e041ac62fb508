"""What covers the meat during a stage."""

from __future__ import annotations

from libcook import _core
from libcook._coerce import wrap as _read
from libcook._core import Covering, Wrap
from libcook.arguments.door import door, lists

__all__ = ["Covering", "Wrap", "wrap", "wrap_names"]


@door
@lists(names=_core.wrap_names())
def wrap(name: str) -> Wrap:
    """Return a wrap by name.

    Parameters
    ----------
    name : str
        {names}; a pan is open above.
        Their numbers are estimates; range and source of each: ``libcook.parameters()``, rows ``wrap.*``.

    Returns
    -------
    Wrap

    Raises
    ------
    InvalidInput
        When there is no wrap of that name.

    Examples
    --------
    >>> wrap("butcher paper").top.vapour_resistance
    2300.0
    """
    made: Wrap = _read(name, "wrap")
    return made


def wrap_names() -> list[str]:
    """Names that `wrap` takes."""
    return _core.wrap_names()
