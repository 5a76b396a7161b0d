"""The exact length: a whole number of 1/80 000 mm, and the named roundings.

In this unit 1/128 inch (15 875), a thousandth of an inch (2 032) and a thousandth of a millimetre (80) are
whole, so every reading in either unit is exact and sums never round. A division gives a ``Fraction`` that
counts units, until a named rounding (``half_up``, ``down``, ``up``) makes a ``Length`` of it again.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt
from typing import Literal, overload

type Unit = Literal["in", "mm"]

UNITS_IN_A_MM = 80_000
UNITS_IN_AN_INCH = 2_032_000  # 25.4 mm
UNITS_IN: dict[Unit, int] = {"in": UNITS_IN_AN_INCH, "mm": UNITS_IN_A_MM}

_NUMBER = re.compile(r"-?([0-9]{1,40}(\.[0-9]{0,40})?|\.[0-9]{1,40}|[0-9]{1,40}/[0-9]{1,40})")


@dataclass(frozen=True, slots=True, eq=False, init=False, repr=False)
class Length:
    """A length of ``units`` times 1/80 000 mm, below zero too; immutable, hashable, ordered.

    Sums, differences and whole multiples are lengths. Whatever may not come out whole is a ``Fraction``: of units
    (``length / 3``, ``length * Fraction``), or a plain number (``length / length``).
    """

    units: int

    def __init__(self, units: int) -> None:
        _set_units(self, units)

    @classmethod
    def mm(cls, number: int | str | Fraction) -> Length:
        """``number`` millimetres, as a whole number, a ``Fraction``, or text such as "12.5"; never a float.

        ValueError if the text is no such number, or the result is no whole number of units.
        """
        return cls._whole(number, UNITS_IN_A_MM, "mm")

    @classmethod
    def inch(cls, number: int | str | Fraction) -> Length:
        """``number`` inches, as a whole number, a ``Fraction``, or text such as "5/8" or "0.625"; never a float.

        ValueError if the text is no such number, or the result is no whole number of units.
        """
        return cls._whole(number, UNITS_IN_AN_INCH, "in")

    @classmethod
    def _whole(cls, number: int | str | Fraction, units: int, name: str) -> Length:
        if isinstance(number, float):  # mypy sees this before it happens; a caller without types must not slip through
            raise TypeError(f"{number!r} {name}: a length is never made from a float")
        if isinstance(number, str):
            number = _fraction(number)
        exact = number * units
        if exact.denominator != 1:
            raise ValueError(f"{number} {name} is no whole number of 1/80 000 mm")
        return cls(exact.numerator)

    def __add__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        return Length(self.units + other.units)

    def __sub__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        return Length(self.units - other.units)

    @overload
    def __mul__(self, number: int) -> Length: ...
    @overload
    def __mul__(self, number: Fraction) -> Fraction: ...
    def __mul__(self, number: int | Fraction) -> Length | Fraction:
        if isinstance(number, int):
            return Length(self.units * number)
        if isinstance(number, Fraction):
            return self.units * number
        return NotImplemented

    @overload
    def __rmul__(self, number: int) -> Length: ...
    @overload
    def __rmul__(self, number: Fraction) -> Fraction: ...
    def __rmul__(self, number: int | Fraction) -> Length | Fraction:
        return self * number

    def __truediv__(self, other: int | Fraction | Length) -> Fraction:
        """By a number: a ``Fraction`` of units. By a length: a plain ``Fraction``. ZeroDivisionError by zero."""
        if isinstance(other, Length):
            return Fraction(self.units, other.units)
        if isinstance(other, (int, Fraction)):
            return Fraction(self.units) / other
        return NotImplemented

    def __neg__(self) -> Length:
        return Length(-self.units)

    def __pos__(self) -> Length:
        return self

    def __abs__(self) -> Length:
        return self if self.units >= 0 else Length(-self.units)

    def __bool__(self) -> bool:
        return self.units != 0

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        return self.units == other.units

    def __hash__(self) -> int:
        return hash(self.units)

    def __lt__(self, other: Length) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        return self.units < other.units

    def __le__(self, other: Length) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        return self.units <= other.units

    def __gt__(self, other: Length) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        return self.units > other.units

    def __ge__(self, other: Length) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        return self.units >= other.units

    def __repr__(self) -> str:
        return f"Length({self.units})"

    def __str__(self) -> str:
        return f"{Fraction(self.units, UNITS_IN_A_MM)} mm"


# Setting the slot itself is what makes a frozen class quick: thousands are made for every plan.
_set_units = Length.__dict__["units"].__set__

type Exact = Length | Fraction
"""A length, or a ``Fraction`` that counts units: what a division gives before its named rounding."""

ZERO = Length(0)
UNIT = Length(1)
MM = Length(UNITS_IN_A_MM)
INCH = Length(UNITS_IN_AN_INCH)
FOOT = Length(12 * UNITS_IN_AN_INCH)
LONGEST = Length(30_000 * UNITS_IN_A_MM)
"""30 m: nothing that is entered is longer."""


def _fraction(text: str) -> Fraction:
    if not _NUMBER.fullmatch(text):
        raise ValueError(f"“{text[:40]}” is no number: 12, 12.5 or 5/8 is expected")
    try:
        return Fraction(text)
    except ZeroDivisionError:
        raise ValueError(f"“{text[:40]}” divides by zero") from None


def in_units(length: Exact) -> Fraction | int:
    """How many units of 1/80 000 mm: what mixed sums of lengths and fractions are worked out in."""
    return length.units if isinstance(length, Length) else length


def half_up(length: Exact, step: Length = UNIT) -> Length:
    """The nearest multiple of ``step``; what lies half way goes up (-1/2 to 0). ZeroDivisionError if step is zero."""
    top, bottom = _steps(length, step)
    return Length((2 * top + bottom) // (2 * bottom) * step.units)


def down(length: Exact, step: Length = UNIT) -> Length:
    """The greatest multiple of ``step`` that is not over ``length``."""
    top, bottom = _steps(length, step)
    return Length(top // bottom * step.units)


def up(length: Exact, step: Length = UNIT) -> Length:
    """The least multiple of ``step`` that is not under ``length``."""
    top, bottom = _steps(length, step)
    return Length(-(-top // bottom) * step.units)


def _steps(length: Exact, step: Length) -> tuple[int, int]:
    """Length over step as a plain fraction, unreduced."""
    if isinstance(length, Length):
        return length.units, step.units
    return length.numerator, length.denominator * step.units


def root(square: Fraction) -> Length:
    """The side of a square of ``square`` units², to the nearest unit, half up. ValueError below zero."""
    return Length(_nearest_root(square))


def root_of(number: Fraction, places: int = 12) -> Fraction:
    """The square root of a plain number to so many decimal places, half up, as for limits u·√n. ValueError below 0."""
    scale: int = 10**places
    return Fraction(_nearest_root(number * scale * scale), scale)


def _nearest_root(square: Fraction) -> int:
    # floor(√q + 1/2) = floor((√4q + 1) / 2), and inside the floor √4q may be cut to its whole part
    return (isqrt(4 * square.numerator // square.denominator) + 1) // 2
