"""The hardware chapter, whole: hinges by height and mass (F25), cups (F27), pulls by count."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.assumed import HINGE_MASS, assumed, entered, measured
from frontwright.core.figures import Figure, Term, minus, plus, share, total
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.hardware.checks import hardware_checks
from frontwright.core.hardware.result import CupPlan, HardwarePlan, HingePlan
from frontwright.core.job import Amount, HingeType
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, in_units
from frontwright.core.making.result import BuildPlan, FrontMaking, MakingPlan
from frontwright.core.survey.result import SurveyPlan

HINGED = ("door", "glass")
_COUNTS = ("two", "three", "four", "five")


def hardware(index: JobIndex, survey: SurveyPlan, fronts: FrontsPlan, making: MakingPlan) -> HardwarePlan:
    """Hinges and cups of every door, pulls of every front that opens."""
    doors = [f for f in fronts.fronts.values() if f.front.kind in HINGED]
    hinges = {f.id: _hinges(index, f, making.fronts[f.id]) for f in doors}
    cups = {f.id: _cup(index, f, making.fronts[f.id].build, making.fronts[f.id].slab) for f in doors}
    pulls = {f.id: max(0, f.look.pulls) for f in fronts.fronts.values() if f.front.kind in (*HINGED, "drawer")}
    checks = tuple(hardware_checks(index, survey, fronts, making, hinges, cups))
    return HardwarePlan(hinges, cups, pulls, checks)


def hinge_row(index: JobIndex, front: FrontPlan) -> HingeType:
    """The hinge chosen by the look; an empty one, all of it assumed, where none was."""
    return index.job.hinge_types.get(front.look.hinge or "") or HingeType("")


def _hinges(index: JobIndex, front: FrontPlan, made: FrontMaking) -> HingePlan:
    row = hinge_row(index, front)
    by_height, by_mass = _by_height(index, row, front), _by_mass(index, row, made.mass)
    count = max(by_height, by_mass)
    out = front.height if front.hinge_side == "top" else front.width
    wide = in_units(out.value) > in_units(assumed(index.unit, "wide door").value)
    why = "mass" if by_mass > by_height else "height"
    end = entered(index.unit, row.end_distance, "hinge end")
    return HingePlan(
        front=front.id,
        type=row.id or None,
        name=row.name or row.id,
        count=count + (1 if wide else 0),
        heights=_heights(front, end, count + (1 if wide else 0)),
        cover=_cover_given(index, row),
        why=f"{why}, and wider than usual" if wide else why,
    )


def _cover_given(index: JobIndex, row: HingeType) -> Figure | None:
    """F26: the cover a hinge gives as told, else edge distance and constant less the plate; None where unknown."""
    if (told := measured(row.cover, "cover of the hinge")) is not None:
        return Figure(told.name, told.value, "chosen")
    constant, plate = measured(row.constant, "constant of the hinge"), measured(row.plate, "height of the plate")
    if constant is None or plate is None:
        return None
    edge = entered(index.unit, row.edge_distance, "edge distance")
    return total("cover of the hinge", plus(edge), plus(constant), minus(plate))


def _by_height(index: JobIndex, row: HingeType, front: FrontPlan) -> int:
    """F25: the first row of the table that the height does not exceed; one more beyond the last."""
    size = front.width if front.hinge_side == "top" else front.height
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


def _heights(front: FrontPlan, end: Figure, count: int) -> tuple[Figure, ...]:
    """F25: from the bottom edge (or left, hung at the top), the outer ones `end` from each end, the rest evenly."""
    size = front.width if front.hinge_side == "top" else front.height
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
            part = share(
                "part of it",
                Figure(span.name, Fraction(in_units(span.value)) * at, "derived", "", (Term(span, at),)),
                count - 1,
            )
            found.append(total(name, plus(end), plus(part)))
    return tuple(found)


def _cup(index: JobIndex, front: FrontPlan, build: BuildPlan, slab: bool) -> CupPlan:
    """F27: far edge, limit at the joint, centre and floor, from the hinge edge; a slab has no joint to meet."""
    row, unit = hinge_row(index, front), index.unit
    diameter, depth = entered(unit, row.cup, "cup"), entered(unit, row.cup_depth, "cup depth")
    edge = entered(unit, row.edge_distance, "edge distance")
    wall = entered(unit, row.wall, "cup wall")
    whole = front.height if front.hinge_side == "top" else front.width
    member = whole if slab else _hinge_member(front, build)
    joint = Figure("joint, none in a slab", Length(0), "chosen") if slab else build.engagement
    return CupPlan(
        front=front.id,
        diameter=diameter,
        depth=depth,
        far_edge=total(f"far edge of the cup of {front.id}", plus(edge), plus(diameter)),
        limit=total("room for the cup", plus(member), minus(joint), minus(wall)),
        centre=total(f"cup centre of {front.id}", plus(edge), plus(share("half a cup", diameter, 2))),
        floor_left=total("wood under the cup", plus(build.thickness), minus(depth)),
        floor_least=entered(unit, row.floor, "cup floor"),
    )


def _hinge_member(front: FrontPlan, build: BuildPlan) -> Figure:
    """The member that the cups are bored into: a stile, or the top rail of a door hung at the top."""
    return build.top_rail if front.hinge_side == "top" else build.stile
