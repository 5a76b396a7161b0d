"""The one place that compiles: inner loops become machine code at first use and are kept for the next start."""

from __future__ import annotations

from collections.abc import Callable
from threading import Lock, Thread
from typing import Any, cast

from numba import njit

COMPILED: list[Any] = []  # all that is compiled, for the rule that `prepare` compiles all there is to compile


def compiled[F: Callable[..., Any]](function: F) -> F:
    """Machine code for a function of whole numbers and arrays; it lets other threads run."""
    try:
        made = njit(cache=True, nogil=True)(function)
    except RuntimeError:  # no folder here that may be written: each process compiles for itself
        made = njit(nogil=True)(function)
    COMPILED.append(made)
    return cast(F, made)


class Preparing:
    """Compiling beside other work, once in a process; nearly nothing where an earlier process has done it."""

    def __init__(self, prepare: Callable[[], None]) -> None:
        self._thread, self._lock = Thread(target=prepare, daemon=True), Lock()
        self._begun = False

    def done(self, seconds: float) -> bool:
        """Begin if need be, wait so long; whether all is ready."""
        with self._lock:
            if not self._begun:
                self._begun = True
                self._thread.start()
        self._thread.join(max(0.0, seconds))
        return not self._thread.is_alive()
