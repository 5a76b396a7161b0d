"""How a length is shown: to the job's step, in the job's unit, and exactly where another program reads it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.lengths.length import (
    MM,
    UNITS_IN,
    Exact,
    Length,
    Unit,
    half_up,
    in_units,
)


def decimal(number: Fraction | int, places: int) -> str:
    """A plain number as a decimal of so many places, half up: 2/3 to two places is "0.67"."""
    figures = (2 * number * 10**places + 1) // 2
    return _with_places(figures, places) if places else str(figures)


def _with_places(figures: int, places: int) -> str:
    """So many of the last decimal place, written out: 8620 tenths are "862.0"."""
    digits = str(abs(figures)).rjust(places + 1, "0")
    return f"{'-' * (figures < 0)}{digits[:-places]}.{digits[-places:]}"


def _ending_decimal(number: Fraction) -> str | None:
    """A number not under zero as a decimal without idle noughts; None where it would not end."""
    bottom, twos, fives = number.denominator, 0, 0
    while bottom % 2 == 0:
        bottom, twos = bottom // 2, twos + 1
    while bottom % 5 == 0:
        bottom, fives = bottom // 5, fives + 1
    if bottom != 1:
        return None
    places = max(twos, fives)
    if not places:
        return str(number.numerator)
    return _with_places(number.numerator * 10**places // number.denominator, places)


@dataclass(frozen=True, slots=True)
class Display:
    """The unit and the step that lengths are shown in.

    Inches have fractions of 1/16, 1/32 or 1/64, or ``decimals`` (0.001); millimetres a step of 1, 0.5 or 0.1.
    ValueError where the step cannot be written that way.
    """

    unit: Unit
    step: Length
    decimals: bool = False

    def __post_init__(self) -> None:
        part = Fraction(self.step.units, UNITS_IN[self.unit])
        if part <= 0 or (self.in_decimals and _ending_decimal(part) is None):
            raise ValueError(f"{part} {self.unit} is no step to show lengths in")

    @property
    def in_decimals(self) -> bool:
        """Decimals, as always in millimetres, and not fractions."""
        return self.decimals or self.unit == "mm"


IN_SIXTEENTHS = Display("in", Length.inch("1/16"))
IN_THIRTYSECONDS = Display("in", Length.inch("1/32"))
IN_SIXTYFOURTHS = Display("in", Length.inch("1/64"))
IN_THOUSANDTHS = Display("in", Length.inch("0.001"), decimals=True)
IN_MM = Display("mm", MM)
IN_HALF_MM = Display("mm", Length.mm("0.5"))
IN_TENTH_MM = Display("mm", Length.mm("0.1"))
_FINER: dict[Unit, tuple[Display, ...]] = {"in": (IN_THIRTYSECONDS, IN_SIXTYFOURTHS), "mm": (IN_TENTH_MM,)}
DISPLAYS = (IN_SIXTEENTHS, IN_THIRTYSECONDS, IN_SIXTYFOURTHS, IN_THOUSANDTHS, IN_MM, IN_HALF_MM, IN_TENTH_MM)


@dataclass(frozen=True, slots=True)
class Shown:
    """A length taken apart for painting, so that a fraction can be stacked.

    ``about`` stands for the mark ~ (the length is finer than the step and was rounded half up for show), ``minus``
    for the sign. ``whole`` is empty before a fraction under one; ``decimals`` are the figures after the point. What
    does not apply is empty.
    """

    about: bool
    minus: bool
    whole: str
    numerator: str = ""
    denominator: str = ""
    decimals: str = ""

    def __str__(self) -> str:
        sign = "~" * self.about + "-" * self.minus
        if self.decimals:
            return f"{sign}{self.whole}.{self.decimals}"
        fraction = f"{self.numerator}/{self.denominator}" if self.numerator else ""
        return sign + " ".join(part for part in (self.whole, fraction) if part)


def shown(length: Exact, display: Display) -> Shown:
    """``length`` to the step of ``display``, the fraction reduced, taken apart for painting."""
    exact = in_units(length)
    rounded = half_up(length, display.step).units
    about = exact != rounded
    minus = rounded < 0
    number = Fraction(abs(rounded), UNITS_IN[display.unit])
    if display.in_decimals:
        whole, _, decimals = (_ending_decimal(number) or "").partition(".")
        return Shown(about, minus, whole, decimals=decimals)
    inches, over = divmod(number.numerator, number.denominator)
    if not over:
        return Shown(about, minus, str(inches))
    return Shown(about, minus, str(inches) if inches else "", str(over), str(number.denominator))


def show(length: Exact, display: Display) -> str:
    """``length`` as text without a unit: "23 5/8", "594.5", "-1/2"; with ~ before it where finer than the step."""
    return str(shown(length, display))


def finest(length: Exact, display: Display) -> Display:
    """The display in which ``length`` is told whole: ``display`` itself, else the first finer usual one that does.

    A sheet of 6.2 mm is 6.2 in a job shown to 0.5, a glue loss of 1/64 is 1/64 in one shown to 1/32; what no usual
    step tells whole stands to ``display``, with ~.
    """
    for finer in (display, *_FINER[display.unit]):
        if finer.step <= display.step and not shown(length, finer).about:
            return finer
    return display


def both_units(length: Exact, display: Display) -> str:
    """``length`` in the unit of ``display``, then in the other: "33 15/16 in, 862.0 mm".

    The other unit is a translation: millimetres to a tenth, always with it; inches to 1/64, with ~ where not exact.
    """
    own = f"{show(length, display)} {display.unit}"
    if display.unit == "mm":
        return f"{own}, {show(length, IN_SIXTYFOURTHS)} in"
    return f"{own}, {decimal(Fraction(in_units(length)) / UNITS_IN['mm'], 1)} mm"


def exact_text(length: Exact, unit: Unit) -> str:
    """``length`` exactly, as a decimal in ``unit``, or as a fraction "a/b" where the decimal would not end."""
    number = Fraction(in_units(length)) / UNITS_IN[unit]
    decimal = _ending_decimal(abs(number))
    if decimal is None:
        return f"{number.numerator}/{number.denominator}"
    return f"-{decimal}" if number < 0 else decimal


def six_places(length: Exact, unit: Unit) -> str:
    """``length`` as a decimal of six places in ``unit``, half up: for roots and for limits worked out from them."""
    return decimal(Fraction(in_units(length)) / UNITS_IN[unit], 6)
