"""Where things lie in a drawing: boxes of fronts, openings and members, in whole units of length."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from frontwright.core.drawing.marks import Box, Point
from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.lengths import ZERO, Exact, Length, half_up, in_units
from frontwright.core.survey.result import MemberPlan, OpeningPlan, RunPlan

type Shift = tuple[Length, Length]
HERE: Shift = (ZERO, ZERO)


def box(left: Length, bottom: Length, right: Length, top: Length, by: Shift = HERE) -> Box:
    """A box, moved."""
    return Box(left + by[0], bottom + by[1], right + by[0], top + by[1])


def front_box(front: FrontPlan, by: Shift = HERE) -> Box:
    return box(front.left.length, front.bottom.length, front.right.length, front.top.length, by)


def member_box(member: MemberPlan) -> Box:
    return box(member.left.length, member.bottom.length, member.right.length, member.top.length)


def opening_box(opening: OpeningPlan, by: Shift = HERE) -> Box:
    """An opening on its run; one by itself lies with its lower left corner on the datum."""
    left = opening.left.length if opening.left else ZERO
    bottom = opening.bottom.length if opening.bottom else ZERO
    right = opening.right.length if opening.right else left + opening.width.length
    top = opening.top.length if opening.top else bottom + opening.height.length
    return box(left, bottom, right, top, by)


def around(boxes: Iterable[Box]) -> Box:
    """The smallest box round all of them; a metre square round nothing."""
    found = list(boxes)
    if not found:
        return box(ZERO, ZERO, Length.mm(1000), Length.mm(1000))
    return Box(
        min((b.left for b in found), key=in_units),
        min((b.bottom for b in found), key=in_units),
        max((b.right for b in found), key=in_units),
        max((b.top for b in found), key=in_units),
    )


def middle(of: Box) -> Point:
    return part_way(of.left, of.right, Fraction(1, 2)), part_way(of.bottom, of.top, Fraction(1, 2))


def part_way(a: Exact, b: Exact, share: Fraction) -> Length:
    """A place between two, in whole units: only for drawing, never for a figure."""
    return half_up(Fraction(in_units(a)) + (Fraction(in_units(b)) - in_units(a)) * share)


def wide(of: Box) -> Length:
    return half_up(Fraction(in_units(of.right)) - in_units(of.left))


def high(of: Box) -> Length:
    return half_up(Fraction(in_units(of.top)) - in_units(of.bottom))


def shifts(run: RunPlan) -> dict[str, Shift]:
    """How far each opening is moved to be drawn: openings by themselves stand in a row, a little apart."""
    if not run.run.by_itself:
        return {o.id: HERE for o in run.openings}
    found: dict[str, Shift] = {}
    at = ZERO
    for opening in run.openings:
        found[opening.id] = (at, ZERO)
        at = at + opening.width.length + half_up(opening.width.length * Fraction(1, 4))
    return found


def length_of(figure: Figure | None) -> Length:
    """A figure's length; nothing where there is none."""
    return figure.length if figure is not None else ZERO
