"""The errors of the package: one family, one voice.

A message names where the value came in, what came, what is accepted and, where one is likely, the slip behind
it::

    meat.mass: 6400 kg is above the range; 0.1 to 50 kg is accepted; did you mean '6400 g'?

The C++ core throws its own exceptions of the same names; the extension module raises the classes of this file
for them.
"""

from __future__ import annotations

from typing import Any


class InvalidInput(ValueError):
    """An argument that cannot be used as it came.

    Parameters
    ----------
    message : str
        The whole sentence shown to the user.
    field : str, optional
        The argument as the user wrote it, such as ``"stages[1].until"``.
    value : object, optional
        What came.
    """

    def __init__(self, message: str = "", field: str = "", value: Any = None) -> None:
        super().__init__(message)
        self.field = field
        self.value = value


class SolverFailure(RuntimeError):
    """The solver could not carry the cook to its end.

    Parameters
    ----------
    message : str
        What happened, in which stage and when.
    outcome : object, optional
        What had been computed until then, or None when there is nothing to show.
    """

    def __init__(self, message: str = "", outcome: Any = None) -> None:
        super().__init__(message)
        self.outcome = outcome


class Unreachable(SolverFailure):
    """A stage's end condition can never come true; the message says where the cook levels off."""


def invalid(field: str, value: Any, came: str, accepted: str = "", meant: str = "") -> InvalidInput:
    """Build an `InvalidInput` in the package's voice.

    Parameters
    ----------
    field : str
        The argument as the user wrote it.
    value : object
        What came, kept on the error.
    came : str
        What came, in words.
    accepted : str, optional
        What would be accepted, in words.
    meant : str, optional
        The likely slip; becomes "did you mean ...?".

    Returns
    -------
    InvalidInput
        Ready to be raised.
    """
    parts = [came]
    if accepted:
        parts.append(accepted)
    if meant:
        parts.append(f"did you mean {meant}?")
    prefix = f"{field}: " if field else ""
    return InvalidInput(prefix + "; ".join(parts), field, value)
