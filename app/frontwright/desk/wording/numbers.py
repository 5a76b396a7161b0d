"""Numbers and lengths in sentences."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core import lengths
from frontwright.core.figures import Figure
from frontwright.core.lengths import Display, Exact, Length, Unit, show
from frontwright.core.lengths import finest as finest

MASS_UNIT: dict[Unit, str] = {"mm": "kg", "in": "lb"}


def decimal(number: Fraction | int, places: int = 2) -> str:
    """A number as a decimal of at most so many places, half up, without idle noughts: "0.0037", "8"."""
    text = lengths.decimal(number, places)
    return text.rstrip("0").rstrip(".") if places else text


def length_text(value: Exact, display: Display) -> str:
    """A length in the job's unit, as it stands in a sentence."""
    return show(value, finest(value, display)).replace("-", "−", 1)


def figure_text(figure: Figure, display: Display) -> str:
    """A figure as words have it: assumed ones, and those that rest on one, in brackets."""
    text = bare_text(figure, display)
    if figure.source == "as-built":
        return f"is {text}"
    return f"({text})" if figure.rests else text


def bare_text(figure: Figure, display: Display) -> str:
    """A figure's number alone."""
    if figure.measure == "length":
        return length_text(figure.value, display)
    number = figure.value.units if isinstance(figure.value, Length) else figure.value
    if figure.measure == "mass":
        return f"{decimal(number, 1)} {MASS_UNIT[display.unit]}"
    return decimal(number, 4)


def count_of(number: int, one: str, many: str = "") -> str:
    """ "1 front", "3 fronts"."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def capital(text: str) -> str:
    """The text with its first letter large, as a sentence begins."""
    return text[:1].upper() + text[1:]
