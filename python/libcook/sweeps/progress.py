"""A bar that says how far a sweep is: tqdm's where it is installed, a plain line otherwise."""

from __future__ import annotations

import importlib
import sys
import threading
import time
from collections.abc import Callable, Iterable
from types import TracebackType
from typing import Any

from libcook.units import format_duration

_EVERY = 0.2  # s between two plain lines


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
    """

    def __init__(self, total: int, done: int, show: bool | Callable[[int, int], None] | None) -> None:
        self.total = total
        self.done = done
        self.failed = 0
        self._begun = done
        self._lock = threading.Lock()
        self._tell = show if callable(show) else None
        watched = sys.stderr is not None and sys.stderr.isatty()
        visible = not callable(show) and (show or (show is None and (watched or "ipykernel" in sys.modules)))
        self._bar: Any = _bar(total, done) if visible else None
        self._plain = bool(visible) and self._bar is None
        self._start = time.monotonic()
        self._shown = 0.0

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
            elif self._plain:
                self._line()

    def _line(self, last: bool = False) -> None:
        now = time.monotonic()
        if not last and now - self._shown < _EVERY:
            return
        self._shown = now
        ran = self.done - self._begun
        left = (now - self._start) * (self.total - self.done) / ran if ran else 0.0
        failed = f", {self.failed:,} failed" if self.failed else ""
        ahead = "" if last or not ran else f", {format_duration(left)} left"
        text = f"\rsweep: {self.done:,} of {self.total:,} cooks{failed}{ahead}"
        sys.stderr.write(text.ljust(70) + ("\n" if last else ""))
        sys.stderr.flush()

    def __enter__(self) -> Progress:
        """Start counting."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Leave the bar as it stands."""
        if self._bar is not None:
            self._bar.close()
        elif self._plain:
            self._line(last=True)


def _bar(total: int, done: int) -> Any:
    notebook = "ipykernel" in sys.modules and "ipywidgets" in sys.modules
    try:
        tqdm = importlib.import_module("tqdm.notebook" if notebook else "tqdm").tqdm
    except ImportError:
        return None
    return tqdm(total=total, initial=done, desc="sweep", unit="cook")
