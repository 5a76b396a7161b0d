"""A content told in both measures: board feet and cubic metres, square feet and square metres, gallons and litres."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from frontwright.core.lengths import UNITS_IN, decimal

_INCH = Fraction(UNITS_IN["in"], 1000 * UNITS_IN["mm"])  # in metres
_POUND = Fraction("0.45359237")  # in kilograms, by definition
_PAIRS = (
    ("board feet", "m3", 144 * _INCH**3),  # a square foot, an inch thick
    ("square feet", "m2", 144 * _INCH**2),
    ("gallons", "litres", 231 * _INCH**3 * 1000),  # of the United States
    ("pounds", "kilograms", _POUND),
)
_OTHER = {a: (b, by) for a, b, by in _PAIRS} | {b: (a, 1 / by) for a, b, by in _PAIRS}
_PLACES = {"m3": 4}
_SIGNS = {"m2": "m²", "m3": "m³"}
_SHORT = {"board feet": "bd ft", "square feet": "sq ft", "gallons": "gal", "pounds": "lb", "kilograms": "kg"}


class Measured(NamedTuple):
    """So much of a measure."""

    amount: Fraction
    measure: str

    @property
    def text(self) -> str:
        """As people read it: "0.0527 m³"."""
        return f"{amount_text(self.amount, self.measure)} {measure_sign(self.measure)}"

    @property
    def short(self) -> str:
        """The same where there is little room: "22.34 bd ft"."""
        return f"{amount_text(self.amount, self.measure)} {_SHORT.get(self.measure, measure_sign(self.measure))}"


def in_the_other(amount: Fraction | int | None, measure: str) -> Measured | None:
    """The same content in the measure of the other system, exactly; None for what is counted by the piece."""
    if amount is None or measure not in _OTHER:
        return None
    other, by = _OTHER[measure]
    return Measured(amount * by, other)


def amount_text(amount: Fraction | int, measure: str) -> str:
    """A content to two places, a cubic metre to four, half up, without idle noughts: "0.0527", "2.51", "16"."""
    return decimal(amount, _PLACES.get(measure, 2)).rstrip("0").rstrip(".")


def measure_sign(measure: str) -> str:
    """A measure as it is written on paper: "m²", "board feet"."""
    return _SIGNS.get(measure, measure)


def in_both(amount: Fraction | int, measure: str) -> str:
    """ "22.34 board feet, 0.0527 m³"; what is counted by the piece once."""
    other = in_the_other(amount, measure)
    own = Measured(Fraction(amount), measure).text
    return f"{own}, {other.text}" if other is not None else own
