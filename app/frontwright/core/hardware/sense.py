"""Whether what was entered of a hinge can be true of one thing; where it cannot, which fields disagree."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from frontwright.core.job import HingeType
from frontwright.core.lengths import Exact, Length, Typed, in_units

_ORDERED = (
    ("cover_least", "cover", "cover_most"),
    ("edge_least", "edge_distance", "edge_most"),
    ("two_to", "three_to", "four_to", "five_to"),
)
_MASSES = ("two_mass", "three_mass", "four_mass", "five_mass")


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Fields of a row that cannot all be true, the first and the second in conflict; `makes`: what the others come to.

    `kind`: "order" (the second is less than the first), "sum" (they come to `makes`), "deep" (as deep as a door).
    """

    kind: str
    fields: tuple[str, ...]
    makes: Exact | None = None


def contradictions(row: HingeType) -> Iterator[Contradiction]:
    """What contradicts itself in a hinge: ranges turned round, a figure outside its range, a table that does not rise,
    a cover that constant, edge distance and plate do not make (F26), a cup as deep as the thickest door, screws that
    stand inside the cup."""
    for names in _ORDERED:
        yield from _falling(names, [_units(getattr(row, name)) for name in names])
    yield from _falling(_MASSES, [_number(row, name) for name in _MASSES])
    yield from _sum(row)
    thick, deep = _units(row.most_thickness), _units(row.cup_depth)
    if thick is not None and deep is not None and deep >= thick:
        yield Contradiction("deep", ("cup_depth", "most_thickness"))


def _falling(names: tuple[str, ...], values: list[Fraction | None]) -> Iterator[Contradiction]:
    known = [(name, value) for name, value in zip(names, values, strict=True) if value is not None]
    for (first, low), (second, high) in pairwise(known):
        if high < low:
            yield Contradiction("order", (first, second))


def _sum(row: HingeType) -> Iterator[Contradiction]:
    """F26, once all four are told: the plates that a hinge takes beside its own do not count here."""
    told = [_units(one) for one in (row.cover, row.constant, row.edge_distance, row.plate)]
    if None in told:
        return
    cover, constant, edge, plate = (Fraction(one or 0) for one in told)
    if cover != edge + constant - plate:
        made = edge + constant - plate
        makes = Length(int(made)) if made.denominator == 1 else made
        yield Contradiction("sum", ("cover", "edge_distance", "constant", "plate"), makes)


def _units(typed: Typed | None) -> Fraction | None:
    return Fraction(in_units(typed.value)) if typed is not None and typed.value is not None else None


def _number(row: HingeType, name: str) -> Fraction | None:
    given = getattr(row, name)
    return given.value if given is not None else None
