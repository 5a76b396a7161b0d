"""Figures learned between jobs: they move, but do not jump; an outlier is shown, not swallowed (F76)."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from frontwright.core.job import Learned
from frontwright.core.lengths import Length, Typed, Unit, half_up, typed_length

MOST_COUNTED = 5
OUTLIER = 3  # times the spread
_LEAST_SPREAD = Length.mm("0.1")


def is_outlier(old: Learned, seen: Length) -> bool:
    """Whether a seen figure lies more than three spreads from what was learned; never where no spread is known.

    A spread is never taken to be less than can be read off.
    """
    if old.value is None or old.value.value is None or old.spread is None or old.spread.value is None or old.count < 2:
        return False
    spread = max(old.spread.value, _LEAST_SPREAD)
    return abs((seen - old.value.value).units) > OUTLIER * spread.units


def learned(old: Learned, seen: Length, job: str, unit: Unit) -> Learned:
    """F76: new = old + (seen - old) / m, m the jobs counted, this one included, five at most; spread likewise."""
    before = old.value.value if old.value is not None else None
    if before is None or old.count == 0:
        return replace(old, value=_typed(seen, unit), count=1, spread=_typed(Length(0), unit), last_job=job)
    counted = min(old.count + 1, MOST_COUNTED)
    moved = _moved(before, seen, counted)
    spread = old.spread.value if old.spread is not None and old.spread.value is not None else Length(0)
    off = Length(abs((seen - before).units))
    return replace(
        old,
        value=_typed(moved, unit),
        count=old.count + 1,
        spread=_typed(_moved(spread, off, counted), unit),
        last_job=job,
    )


def _moved(old: Length, seen: Length, counted: int) -> Length:
    return half_up(old.units + Fraction((seen - old).units, counted))


def _typed(length: Length, unit: Unit) -> Typed:
    return typed_length(length, unit)
