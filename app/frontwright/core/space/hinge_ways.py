"""What could be done about a hinge that does not reach, a cup with no room, a door hung on nothing (F25 to F27)."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from frontwright.core.assumed import entered, measured
from frontwright.core.findings import Check, WayOut
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.hardware.covers import given_by
from frontwright.core.hardware.result import HardwarePlan, HingePlan
from frontwright.core.job import HingeType, Job
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import MM, Display, Length, down, half_up, in_units, up
from frontwright.core.making.result import MakingPlan

LEAST_EDGE = Length.mm(3)  # nearer to the edge no maker lets a cup be bored (T1)
_FINE = Length.mm("0.5")  # hardware is set to half a millimetre, in an inch job too


def hinge_candidates(
    job: Job, fronts: FrontsPlan, making: MakingPlan, found: HardwarePlan, check: Check, display: Display
) -> Iterator[WayOut]:
    """Ways out of a finding of hinges or cups, in the order of trouble; none of them tried yet."""
    front = fronts.fronts.get(check.where[0]) if check.where else None
    hinge = found.hinges.get(front.id) if front is not None else None
    if front is None or hinge is None:
        return
    row = job.hinge_types.get(hinge.type or "")
    if (check.code, check.case) == ("hinge-overlay", "no frame"):
        yield from _other_edge(front)
    elif check.code == "hinge-overlay" and check.case == "beyond":
        yield from _of_cover(job, front, hinge, row, display)
    elif (check.code, check.case) == ("cup-fit", "joint"):
        yield from _of_joint(job, front, making, found, row, display)
    elif check.code == "cup-fit" and check.case in ("floor", "too thick", "depth"):
        if check.case == "floor":
            yield from _thicker(job, making, front, found, display)
        yield from _other_hinges(job, front, row)


def _other_edge(front: FrontPlan) -> Iterator[WayOut]:
    for side in ("left", "right"):
        if front.overlay[side] is not None and side != front.hinge_side:
            yield WayOut("change", front.id, "hinge_side", side)


def _of_cover(
    job: Job, front: FrontPlan, hinge: HingePlan, row: HingeType | None, display: Display
) -> Iterator[WayOut]:
    """Another plate; the cups nearer to or further from the edge; another hinge; the edge of the front moved."""
    if not hinge.plates or hinge.adjust is None:
        return
    at = max(range(len(hinge.plates)), key=lambda n: abs(Fraction(in_units(hinge.plates[n].off.value))))
    off = Fraction(in_units(hinge.plates[at].off.value))
    if row is not None:
        yield from _another_plate(job, hinge, row, at)
        yield from _another_distance(job, row, off)
    yield from _other_hinges(job, front, row)
    yield from _moved_edge(front, off, Fraction(in_units(hinge.adjust.value)), display)
    alone = sum(1 for one in job.fronts.values() if one.opening == front.opening) == 1
    yield from _other_edge(front) if alone else ()


def _another_plate(job: Job, hinge: HingePlan, row: HingeType, at: int) -> Iterator[WayOut]:
    """A plate of the height that the hinge wants, to the next whole millimetre, where its constant is known."""
    given = given_by(JobIndex(job), row)
    if given.without is None:
        return
    wanted = Fraction(in_units(given.without.value)) - Fraction(in_units(hinge.needs[at].value))
    height = half_up(wanted, Length(MM.units))
    known = {in_units(plate.height.value) for plate in hinge.plates if plate.height is not None}
    if height.units >= 0 and height.units not in known:
        yield WayOut("change", row.id, "new plate", height)


def _another_distance(job: Job, row: HingeType, off: Fraction) -> Iterator[WayOut]:
    """Another edge distance of the cup, within what the hinge allows; it moves all doors on this hinge."""
    least, most = measured(row.edge_least, "least edge distance"), measured(row.edge_most, "most edge distance")
    if row.constant is None or row.constant.value is None or least is None or most is None:
        return
    now = Fraction(in_units(entered(job.heading.unit, row.edge_distance, "edge distance").value))
    new = half_up(now + off, _FINE)
    if in_units(least.value) <= new.units <= in_units(most.value) and new.units != now:
        yield WayOut("change", row.id, "edge_distance", new)


def _other_hinges(job: Job, front: FrontPlan, row: HingeType | None) -> Iterator[WayOut]:
    for other in job.hinge_types.values():
        if row is None or other.id != row.id:
            yield WayOut("change", f"opening:{front.opening}", "hinge", other.id)


def _moved_edge(front: FrontPlan, off: Fraction, adjust: Fraction, display: Display) -> Iterator[WayOut]:
    """The hinge edge moved until half of the adjustment is enough, on the step."""
    side = front.hinge_side
    if side is None or not front.placed:
        return
    by = off - adjust / 2 if off > 0 else off + adjust / 2
    edge = Fraction(in_units({"left": front.left, "right": front.right, "top": front.top}[side].value))
    inward = 1 if side == "left" else -1  # less cover is an edge further in
    new = edge + inward * by
    wants_up = (inward > 0) == (off > 0)
    yield WayOut("change", front.id, f"cover_{side}", up(new, display.step) if wants_up else down(new, display.step))


def _of_joint(
    job: Job, front: FrontPlan, making: MakingPlan, found: HardwarePlan, row: HingeType | None, display: Display
) -> Iterator[WayOut]:
    """The cup nearer to the edge, as far as the hinge allows; another hinge; a wider stile or top rail."""
    cup = found.cups[front.id]
    over = Fraction(in_units(cup.far_edge.value)) - in_units(cup.limit.value)
    if row is not None:
        least = measured(row.edge_least, "least edge distance")
        floor = in_units(least.value) if least is not None else LEAST_EDGE.units
        edge = Fraction(in_units(cup.far_edge.value)) - in_units(cup.diameter.value)
        new = down(edge - over, _FINE)
        if new.units >= floor:
            yield WayOut("change", row.id, "edge_distance", new)
    yield from _other_hinges(job, front, row)
    build = making.fronts[front.id].build
    field = "top_rail" if front.hinge_side == "top" else "stile"
    member = build.top_rail if field == "top_rail" else build.stile
    if build.id in job.door_builds:
        wider = up(Fraction(in_units(member.value)) + over, display.step)
        yield WayOut("change", build.id, field, wider)


def _thicker(job: Job, making: MakingPlan, front: FrontPlan, found: HardwarePlan, display: Display) -> Iterator[WayOut]:
    """Thicker stock."""
    cup, build = found.cups[front.id], making.fronts[front.id].build
    needed = Fraction(in_units(cup.depth.value)) + in_units(cup.floor_least.value)
    if build.id in job.door_builds:
        yield WayOut("change", build.id, "thickness", up(needed, display.step))
