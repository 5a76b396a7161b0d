"""What the bill chapter gives: what the job takes, by form, species and thickness, and what is at hand of it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.figures import Figure


@dataclass(frozen=True, slots=True)
class BillLine:
    """One line of the stock bill. `qty` pieces; `finished`, `rough`: content (board feet or m3 for solid; square feet or
    m2 for sheet; None for counts). `widths`: rough widths for solid. `at_hand` the same measure found in the list of
    pieces at hand; `lacks` what is missing, never under 0."""

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
