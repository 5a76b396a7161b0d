"""Numbers that are not lengths, as a person typed them: per cents, densities, coefficients, masses."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

_PLAIN = re.compile(r"\s*(\d{1,9}(?:[.,]\d{1,9})?|[.,]\d{1,9})\s*")


@dataclass(frozen=True, slots=True)
class Amount:
    """A typed number beside its exact value; `value` is None where the text cannot be read (it is kept)."""

    text: str
    value: Fraction | None


def amount(text: str) -> Amount:
    """Read a plain decimal number (both decimal marks); anything else is kept unread."""
    found = _PLAIN.fullmatch(text)
    return Amount(text, Fraction(found.group(1).replace(",", ".")) if found else None)
