"""From text to a length."""

from __future__ import annotations

import re
from fractions import Fraction

from frontwright.core.lengths.display import exact_text
from frontwright.core.lengths.entry import Read, Typed
from frontwright.core.lengths.length import UNITS_IN, Length, Unit, half_up

_MIXED = re.compile(r"(-?)(?:([0-9]+) )?([0-9]+)/([0-9]+)|(-?[0-9]*\.?[0-9]+)")


def read(text: str, unit: Unit) -> Read:
    match = _MIXED.fullmatch(text.strip())
    if not match:
        return Read(text, None, None, "refused", None, "No length")
    if match[5]:
        number = Fraction(match[5])
    else:
        number = (int(match[2] or 0) + Fraction(int(match[3]), int(match[4]))) * (-1 if match[1] else 1)
    exact = number * UNITS_IN[unit]
    return Read(text, exact, half_up(exact), "value")


def typed(text: str, unit: Unit) -> Typed:
    return Typed(text, read(text, unit).value)


def typed_length(length: Length, unit: Unit) -> Typed:
    return Typed(exact_text(length, unit), length)
