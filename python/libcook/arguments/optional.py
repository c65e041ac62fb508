"""Packages that only some of the readings need, imported when they are needed."""

from __future__ import annotations

import importlib
from typing import Any


def need(package: str, extra: str, what: str) -> Any:
    """Import an optional package.

    Parameters
    ----------
    package : str
        Import name, such as ``"matplotlib"`` or ``"matplotlib.pyplot"``.
    extra : str
        The extra of this package that brings it, such as ``"plots"``.
    what : str
        What the user asked for; the message starts with it.

    Returns
    -------
    module
        The imported package.

    Raises
    ------
    ImportError
        When it is not installed, with the command that installs it.
    """
    try:
        return importlib.import_module(package)
    except ImportError as error:
        if isinstance(error.__cause__, KeyboardInterrupt):  # some packages make another error of it
            raise error.__cause__ from None
        name = package.partition(".")[0]
        raise ImportError(
            f"{what} needs {name}, which cannot be imported ({error}); "
            f"install it with: pip install 'libcook[{extra}]'"
        ) from error
