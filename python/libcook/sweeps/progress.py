"""A bar of tqdm's that says how far a sweep is."""

from __future__ import annotations

import sys
import threading
from collections.abc import Callable, Iterable
from types import TracebackType
from typing import Any

from libcook.arguments.optional import need


class Progress:
    """Counts cooks, from any thread, and shows them.

    Parameters
    ----------
    total : int
        Cooks of the sweep.
    done : int
        Of them there already.
    show : bool, callable or None
        None: where somebody looks, in a terminal or a notebook. A callable is given (done, total) for each
        cook, or each chunk where those run elsewhere.
    name : str
        What is shown in front of the bar.
    """

    def __init__(
        self, total: int, done: int, show: bool | Callable[[int, int], None] | None, name: str = "sweep"
    ) -> None:
        self.total = total
        self.done = done
        self.failed = 0
        self._lock = threading.Lock()
        self._tell = show if callable(show) else None
        watched = sys.stderr is not None and sys.stderr.isatty()
        visible = not callable(show) and (show or (show is None and (watched or "ipykernel" in sys.modules)))
        self._bar: Any = _bar(total, done, show is True, name) if visible else None

    def add(self, cooks: int, failed: int) -> None:
        """Count further cooks of a chunk that ran elsewhere."""
        self._count(cooks, failed, (self.done + cooks,))

    def add_each(self, cooks: int, failed: int) -> None:
        """Count further cooks, each of which the callable is told of."""
        self._count(cooks, failed, range(self.done + 1, self.done + cooks + 1))

    def _count(self, cooks: int, failed: int, tell: Iterable[int]) -> None:
        with self._lock:
            self.failed += failed
            if self._tell is None:
                self.done += cooks
            else:
                for self.done in tell:
                    self._tell(self.done, self.total)
            if self._bar is not None:
                self._bar.update(cooks)
                if failed:
                    self._bar.set_postfix(failed=self.failed, refresh=False)

    def __enter__(self) -> Progress:
        """Start counting."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Leave the bar as it stands."""
        if self._bar is not None:
            self._bar.close()


def _bar(total: int, done: int, asked: bool, name: str) -> Any:
    notebook = "ipykernel" in sys.modules and "ipywidgets" in sys.modules
    try:
        tqdm = need(
            "tqdm.notebook" if notebook else "tqdm", "best" if name != "sweep" else "sweep", "a progress bar"
        ).tqdm
    except ImportError:
        if asked:
            raise
        return None  # nobody asked for it
    return tqdm(total=total, initial=done, desc=name, unit="cook")
