"""Ways out of what does not open or fit, in the order of trouble: each is tried on the job before it is offered."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from frontwright.core.findings import Check, WayOut
from frontwright.core.fronts.fronts import fronts
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.hardware.hardware import hardware
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job import Job, Table
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import (
    MM,
    Display,
    Exact,
    Length,
    down,
    half_up,
    in_units,
    show,
    up,
)
from frontwright.core.making.making import making
from frontwright.core.making.measured_fronts import with_measured_fronts
from frontwright.core.making.result import MakingPlan
from frontwright.core.space.hinge_ways import hinge_candidates
from frontwright.core.space.measure import measured_space
from frontwright.core.space.result import DrawerRoom, EndGap, Flap, Meeting, SpacePlan, Swing, Tried
from frontwright.core.space.taken import FLUSH, applied
from frontwright.core.space.turning import gap_for
from frontwright.core.survey.survey import survey

THINNEST = Length.mm("0.5")  # strips and skins are not made thinner than this
MOST_TRIED = 12  # findings of one job that are given ways out by trying; the others wait until these are seen to
KEPT_OPEN = ("stop", "warn")
TRIED = ("swing", "corner", "drawer-room", "end-gap")
TRIED_OF_HINGES = ("hinge-overlay", "cup-fit")
_OTHER_CASES = ("plate seat", "screw seat", "in the way")  # of cup-fit: they have a figure of their own


@dataclass(frozen=True, slots=True)
class After:
    """What a job comes to, as far as the space depends on it."""

    fronts: FrontsPlan
    making: MakingPlan
    hardware: HardwarePlan
    space: SpacePlan
    checks: tuple[Check, ...]


type Known = dict[tuple[str, str, object, frozenset[str]], After]


# -- trying


def with_ways(job: Job, before: After, display: Display) -> SpacePlan:
    """The plan with the ways out of each finding of hinges and of the space, every one of them tried."""
    tried: dict[tuple[str, tuple[str, ...], str], tuple[Tried, ...]] = {}
    known: Known = {}

    def tried_out(check: Check) -> Check:
        if not _is_tried(check) or len(tried) >= MOST_TRIED:
            return check
        ways = tuple(_tried(job, before, check, display, known))
        tried[check.code, check.where, check.case] = ways
        return replace(check, ways=tuple(one.way for one in ways)) if ways else check

    hung = tuple(tried_out(check) for check in before.hardware.checks)
    found = tuple(tried_out(check) for check in before.space.checks)
    return replace(before.space, checks=found, hung=hung, tried=tried)


def _is_tried(check: Check) -> bool:
    if check.code in TRIED_OF_HINGES:
        return check.is_open and check.level in KEPT_OPEN
    return check.is_open and check.code in TRIED and check.case != "pull off"


def _tried(job: Job, before: After, check: Check, display: Display, known: Known) -> Iterator[Tried]:
    """Those of what could be done that clear the finding; `known`: what was worked out for another one already."""
    for way in _candidates(job, before, check, display):
        changed = applied(job, way)
        if changed == job:
            continue
        runs = frozenset(_runs(before, check))
        key = (way.of, way.field, way.value, runs)
        if key not in known:
            known[key] = worked_out(only_runs(changed, runs), display)
        after = known[key]
        same = _same(after, check)
        if same is not None and not any(one.is_open for one in same):
            yield _outcome(before, after, way, same, check, display)


def _same(after: After, check: Check) -> list[Check] | None:
    """The checks of the same rule on the same subject after a change."""
    found = [one for one in after.checks if one.code == check.code and one.where[:1] == check.where[:1]]
    if check.code not in TRIED_OF_HINGES:
        return found
    judged = [one for one in found if one.case not in _OTHER_CASES and one.level != "note"]
    unknown = not judged and check.case != "no frame"  # a hinge of which nothing is known clears nothing
    return None if unknown else judged


def _outcome(before: After, after: After, way: WayOut, same: list[Check], check: Check, display: Display) -> Tried:
    worst = next((one for one in same if one.case == check.case), same[0] if same else check)
    value = worst.value
    gives = _gives(worst, display) if same else "hung on the frame"
    known = {(one.code, one.where, one.case) for one in before.checks if one.is_open}
    brings = tuple(
        one
        for one in after.checks
        if one.level in KEPT_OPEN and one.is_open and (one.code, one.where, one.case) not in known
    )
    sizes = tuple(_sizes(before.fronts, after.fronts))
    return Tried(replace(way, gives=gives), value or "", sizes, brings)


def _gives(check: Check, display: Display) -> str:
    """The angle that it comes to, or have and need."""
    value, limit = check.value, check.limit
    if isinstance(value, Length | Fraction) and isinstance(limit, Length | Fraction):
        return f"have {show(value, display)}, need {show(limit, display)}"
    if isinstance(value, Length | Fraction) and isinstance(limit, tuple):
        span = " to ".join(show(one, display) for one in limit if isinstance(one, Length | Fraction))
        return f"have {show(value, display)}, need {span}"
    return check.value if isinstance(check.value, str) else ""


def _sizes(before: FrontsPlan, after: FrontsPlan) -> Iterator[tuple[str, str, Exact, Exact]]:
    """Sizes of fronts that are others after the change."""
    for name, front in after.fronts.items():
        old = before.fronts.get(name)
        for what in ("width", "height"):
            new_size = getattr(front, what).value
            if old is not None and getattr(old, what).value != new_size:
                yield name, what, getattr(old, what).value, new_size


def worked_out(job: Job, display: Display) -> After:
    """As much of the plan as the space rests on, and the findings of it."""
    index = JobIndex(job)
    surveyed = survey(index)
    planned = fronts(index, surveyed, display)
    made = making(index, planned, display)
    planned = with_measured_fronts(index, surveyed, planned, made)
    hung = hardware(index, surveyed, planned, made)
    space = measured_space(index, surveyed, planned, made, hung)
    return After(planned, made, hung, space, (*planned.checks, *made.checks, *hung.checks, *space.checks))


def only_runs(job: Job, runs: Collection[str]) -> Job:
    """The job as if only these runs stood there."""
    return replace(job, runs=Table(run for run in job.runs.values() if run.id in runs))


def _runs(before: After, check: Check) -> set[str]:
    """The runs that a finding is about, with those that meet them in a corner."""
    here = {before.fronts.fronts[of].run for of in check.where if of in before.fronts.fronts}
    here |= {run for run in check.where if run in before.space.lengths}
    here |= {front.run for front in before.fronts.fronts.values() if front.opening in check.where}
    return here | {corner.other(run) for corner in before.space.corners for run in here if run in corner.at}


# -- what could be done


def _candidates(job: Job, before: After, check: Check, display: Display) -> Iterator[WayOut]:
    if check.code in TRIED_OF_HINGES:
        yield from hinge_candidates(job, before.fronts, before.making, before.hardware, check, display)
    elif check.code == "corner":
        meeting = next((m for m in before.space.meetings if (m.front, *m.others) == check.where and m.short), None)
        yield from () if meeting is None else _of_corner(job, before, meeting, display)
    elif check.code == "swing" and check.case in ("short", "drawer"):
        yield from _of_swing(job, before, before.space.swings[check.where[0]], display)
    elif check.code == "swing" and check.case == "flap":
        yield from _of_flap(before.fronts.fronts[check.where[0]], before.space.flaps[check.where[0]])
    elif check.code == "swing" and check.case == "free edge":
        yield from _of_free_edge(before, check.where[0], display)
    elif check.code == "drawer-room":
        rooms = (r for r in before.space.drawers if (r.opening,) == check.where and r.way == check.case and r.short)
        yield from (way for room in rooms for way in _of_drawer(before, room, display))
    elif check.code == "end-gap":
        gaps = (g for g in before.space.gaps if (g.run,) == check.where and g.side == check.case and g.short)
        yield from (way for gap in gaps for way in _of_gap(job, gap, display))


def _of_corner(job: Job, before: After, meeting: Meeting, display: Display) -> Iterator[WayOut]:
    """F24: hang away; inset on one leg; flush pull on one leg; wider corner stile with a narrower front."""
    front = before.fronts.fronts[meeting.front]
    corner = next(c for c in before.space.corners if c.id == meeting.corner)
    other = corner.other(front.run)
    if meeting.what.startswith("hung here"):
        yield from _other_side(job, front)
    for run in (other, front.run):
        yield WayOut("change", f"run:{run}", "scheme", "inset")
    for run in (other, front.run):
        yield WayOut("change", f"run:{run}", "pull", FLUSH)
    lacks = Fraction(in_units(meeting.need.value)) - in_units(meeting.have.value)
    yield _narrower(front, meeting.side, lacks, display)


def _of_swing(job: Job, before: After, swing: Swing, display: Display) -> Iterator[WayOut]:
    front = before.fronts.fronts[swing.front]
    yield from _other_side(job, front)
    if swing.stopped_by in before.fronts.fronts:
        other = before.fronts.fronts[swing.stopped_by]
        yield WayOut("change", f"opening:{other.opening}", "pull", FLUSH)
    if swing.with_pull:
        yield WayOut("change", f"opening:{front.opening}", "pull", FLUSH)
    if swing.by in ("wall", "trim", "appliance", "cabinet"):
        yield _narrower(front, swing.side, _lacks_to_open(swing), display)


def _of_flap(front: FrontPlan, flap: Flap) -> Iterator[WayOut]:
    """Hung at a side instead; a flush pull, where its pull is what meets."""
    if flap.with_pull:
        yield WayOut("change", f"opening:{front.opening}", "pull", FLUSH)
    for side in ("left", "right"):
        if front.overlay[side] is not None:
            yield WayOut("change", front.id, "hinge_side", side)


def _lacks_to_open(swing: Swing) -> Fraction:
    """F23 turned round: how much further from the wall the hinge edge must stand."""
    points: list[tuple[Exact, Exact]] = [(swing.width.value, Length(0))]
    if swing.pull is not None:
        points += [(end.value, swing.pull.projection.value) for span in swing.pull.spans for end in span]
    angle = Fraction(swing.need.units)
    wanted = max(gap_for(angle, at, out) for at, out in points)
    now = max(gap_for(Fraction(swing.angle.units if swing.angle else 0), at, out) for at, out in points)
    return Fraction(wanted - now) * MM.units


def _of_free_edge(before: After, name: str, display: Display) -> Iterator[WayOut]:
    """A wider gap at the free edge: the door made narrower there."""
    room = before.space.turning[name]
    lacks = Fraction(in_units(room.need.value)) - in_units(room.have.value)
    yield _narrower(before.fronts.fronts[name], room.side, lacks, display)


def _of_drawer(before: After, room: DrawerRoom, display: Display) -> Iterator[WayOut]:
    """Thinner strips on the inside edges, or none."""
    run = next((f.run for f in before.fronts.fronts.values() if f.opening == room.opening), None)
    if room.strip is None or run is None:
        return
    over = Fraction(in_units(room.need.value)) - in_units(room.have.value)
    thin = down(Fraction(in_units(room.strip.value)) - over / 2, _fine(display))
    if thin >= THINNEST:
        yield WayOut("change", run, "inside_thickness", thin)
    yield WayOut("change", run, "squared", "no")
    yield WayOut("change", run, "inside_edges", "none")


def _of_gap(job: Job, gap: EndGap, display: Display) -> Iterator[WayOut]:
    """A thinner skin, or none."""
    end = next((end.id for end in job.ends.values() if (end.run, end.side) == (gap.run, gap.side)), None)
    if gap.skin is None or end is None:
        return
    thin = down(Fraction(in_units(gap.bare.value)) - in_units(gap.need.value), _fine(display))
    if thin >= THINNEST:
        yield WayOut("change", end, "skin_thickness", thin)
    yield WayOut("change", end, "skin", "none")


def _other_side(job: Job, front: FrontPlan) -> Iterator[WayOut]:
    """Hung on the other side; of a pair neither has a frame there."""
    alone = sum(1 for row in job.fronts.values() if row.opening == front.opening) == 1
    if alone and front.hinge_side in ("left", "right"):
        yield WayOut("change", front.id, "hinge_side", "right" if front.hinge_side == "left" else "left")


def _narrower(front: FrontPlan, side: str, by: Fraction, display: Display) -> WayOut:
    """The front made narrower at one side, its edge on the step."""
    edge = Fraction(in_units((front.left if side == "left" else front.right).value))
    at = up(edge + by, display.step) if side == "left" else down(edge - by, display.step)
    return WayOut("change", front.id, f"pin_{side}", half_up(at))


def _fine(display: Display) -> Length:
    """Thin things are made to a tenth of a millimetre, or a 64th."""
    return Length.mm("0.1") if display.unit == "mm" else Length.inch(Fraction(1, 64))
