"""Values and limits of checks as text: exact, as the record and other programs have them."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.findings import Fact
from frontwright.core.lengths import UNITS_IN, Exact, Length, Unit, exact_text, six_places


def fact_text(value: Fact | None, unit: Unit, roots: bool) -> str:
    """A value of a check: exact in the job's unit, six places where it comes from a root, a count or text as it is."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    if isinstance(value, Length):
        return exact_text(value, unit)
    if isinstance(value, Fraction):
        return six_places(value, unit) if roots and _is_long(value, unit) else exact_text(value, unit)
    return str(value)


def _is_long(value: Fraction, unit: Unit) -> bool:
    """Whether six places of the unit do not tell the length whole."""
    return (value / UNITS_IN[unit] * 10**6).denominator != 1


def limit_text(limit: Fact | tuple[Exact, Exact] | None, unit: Unit, roots: bool) -> str:
    """A limit, or least and most of it."""
    if isinstance(limit, tuple):
        return " to ".join(fact_text(one, unit, roots) for one in limit)
    return fact_text(limit, unit, roots)
