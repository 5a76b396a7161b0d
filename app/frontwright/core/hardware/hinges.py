"""How many hinges a door takes, and their heights before anything is in their way (F25)."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.assumed import HINGE_MASS, assumed, entered
from frontwright.core.figures import Figure, Term, minus, plus, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job import Amount, HingeType
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, in_units

_COUNTS = ("two", "three", "four", "five")


def hinge_row(index: JobIndex, front: FrontPlan) -> HingeType:
    """The hinge chosen by the look; an empty one, all of it assumed, where none was."""
    return index.job.hinge_types.get(front.look.hinge or "") or HingeType("")


def hinge_count(index: JobIndex, row: HingeType, front: FrontPlan, mass: Figure) -> tuple[int, str]:
    """F25: by height and by mass (the hinge's own table goes before the usual one), one more for a wide door; and why.

    `mass` of the door in lb or kg.
    """
    by_height, by_mass = _by_height(index, row, front), _by_mass(index, row, mass)
    out = front.height if front.hinge_side == "top" else front.width
    wide = in_units(out.value) > in_units(entered(index.unit, row.wide, "wide door").value)
    why = "mass" if by_mass > by_height else "height"
    return max(by_height, by_mass) + (1 if wide else 0), f"{why}, and wider than usual" if wide else why


def _by_height(index: JobIndex, row: HingeType, front: FrontPlan) -> int:
    """The first row of the table that the height does not exceed; one more beyond the last."""
    size = along_hinges(front)
    for at, count in enumerate(_COUNTS):
        most = entered(index.unit, getattr(row, f"{count}_to"), f"{count} hinges")
        if in_units(size.value) <= in_units(most.value):
            return at + 2
    return len(_COUNTS) + 2


def _by_mass(index: JobIndex, row: HingeType, mass: Figure) -> int:
    for at, count in enumerate(_COUNTS):
        given: Amount | None = getattr(row, f"{count}_mass")
        most = given.value if given is not None and given.value is not None else HINGE_MASS[index.unit][at]
        if Fraction(in_units(mass.value)) <= most:
            return at + 2
    return len(_COUNTS) + 2


def step_of(index: JobIndex) -> Length:
    """The job's step, or the usual one."""
    chosen = index.job.heading.step
    usual = assumed(index.unit, "step").length
    return chosen.value if chosen is not None and chosen.value is not None and chosen.value.units > 0 else usual


def along_hinges(front: FrontPlan) -> Figure:
    """The size along which hinges stand: the height, or the width of a door hung at the top."""
    return front.width if front.hinge_side == "top" else front.height


def even_heights(index: JobIndex, row: HingeType, front: FrontPlan, count: int) -> tuple[Figure, ...]:
    """F25: from the bottom edge (or left, hung at the top), the outer ones `e` from each end, the rest evenly."""
    end, size = entered(index.unit, row.end_distance, "hinge end"), along_hinges(front)
    room = 3 if end.source == "assumed" else 2  # a chosen end distance holds as long as two hinges fit at all
    if in_units(size.value) < room * in_units(end.value):
        end = share("a quarter of a short door", size, 4)
    span = total("between the outer hinges", plus(size), minus(end, 2))
    found = [total(f"hinge 1 of {front.id}", plus(end))]
    for at in range(1, count):
        name = f"hinge {at + 1} of {front.id}"
        if at == count - 1:
            found.append(total(name, plus(size), minus(end)))
        else:
            part = Figure(span.name, Fraction(in_units(span.value)) * at, "derived", "", (Term(span, at),))
            found.append(total(name, plus(end), plus(share("part of it", part, count - 1))))
    return tuple(found)
