"""Numbers of a list as their cells have them: money with two places, other numbers without idle noughts."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from frontwright.exchange.tables import Column

PLACES = 6


def number_of(cell: int | Fraction, column: Column) -> Decimal:
    """A number, half up at its last place. Money comes in its smallest unit and leaves in whole ones."""
    places = 2 if column.kind == "money" else PLACES
    scaled = Fraction(cell) * (1 if column.kind == "money" else 10**places)
    whole = (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
    return Decimal(whole).scaleb(-places)


def number_text(cell: int | Fraction, column: Column) -> str:
    """The number as text, with a point."""
    text = f"{number_of(cell, column):f}"
    return text if column.kind == "money" else text.rstrip("0").rstrip(".")
