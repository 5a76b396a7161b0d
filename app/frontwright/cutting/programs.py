"""Linear and integer programs of the HiGHS library, silent and on one core."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Iterator
from functools import cache

import highspy


def program(**options: bool | float | str) -> highspy.Highs:
    """An empty program with these options of the library's."""
    _greeted()
    made = highspy.Highs()  # type: ignore[no-untyped-call]
    for name, value in {"output_flag": False, "threads": 1, **options}.items():
        made.setOptionValue(name, value)
    return made


@cache
def _greeted() -> None:
    """The first program of a process greets on standard output, whatever its options: let it, unheard."""
    with _silence():
        highspy.Highs()  # type: ignore[no-untyped-call]


@contextlib.contextmanager
def _silence() -> Iterator[None]:
    sys.stdout.flush()
    try:
        kept = os.dup(1)
    except OSError:  # no standard output at all
        yield
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)
