"""What the bill chapter gives: what the job takes, by form, species and thickness, and what is at hand of it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.figures import Figure


@dataclass(frozen=True, slots=True)
class BillLine:
    """One line of the stock bill: `qty` pieces of one form, thickness and width (rough, of solid wood).

    `finished`, `rough`: content in board feet or m3 for solid wood, square feet or m2 for sheet, None for counts.
    `at_hand`: as much of it as the list of pieces at hand has, in `measure`; `lacks`: what is missing, never under 0.
    """

    form: str
    species: str
    thickness: Figure | None
    width: Figure | None
    qty: int
    finished: Fraction | None
    rough: Fraction | None
    measure: str
    length: Figure | None
    at_hand: Fraction | int
    lacks: Fraction | int


@dataclass(frozen=True, slots=True)
class BillPlan:
    lines: tuple[BillLine, ...]
