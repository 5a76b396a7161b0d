"""A run as it was read: members where the tape says, what is out of true drawn ten times."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from frontwright.core.drawing.marks import (
    Badge,
    Box,
    Choice,
    Dimension,
    Drawing,
    GrainLines,
    Label,
    Line,
    Mark,
    Outline,
    Point,
    RunningDimension,
    Stop,
    Wall,
    words,
)
from frontwright.core.drawing.places import Shift, around, high, member_box, middle, opening_box, shifts, wide
from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.lengths import ZERO, Length, half_up
from frontwright.core.plan import Plan
from frontwright.core.survey.result import Closure, MemberPlan, OpeningPlan, RunPlan

TIMES = 10


def survey_run(plan: Plan, run_id: str) -> Drawing:
    """The run as read, from the front. KeyError if there is no such run."""
    run = next((r for r in plan.survey.runs if r.id == run_id), None)
    if run is None:
        raise KeyError(run_id)
    moved = shifts(run)
    boxes = [member_box(m) for m in (*run.members, *run.rails)] + [opening_box(o, moved[o.id]) for o in run.openings]
    bounds = around(boxes)
    leaning = [o for o in run.openings if _leans(o)]
    marks: list[Mark] = [mark for member in run.rails for mark in _member(member, "horizontal")]
    marks += [mark for member in run.members for mark in _member(member, "vertical")]
    if run.members:
        marks.append(Outline(bounds.corners, "none", "assumed" if run.overall and run.overall.rests else "outline"))
    marks += [_opening(o, moved[o.id]) for o in run.openings]
    marks += [_name(o, moved[o.id]) for o in run.openings]
    marks += _walls(run, bounds)
    marks += _sizes(run, bounds) if run.members else _own_sizes(run, moved)
    marks += _findings(plan.survey.checks, run, bounds, moved)
    if not any(isinstance(mark, Outline) for mark in marks):
        marks.append(Outline(bounds.corners, "none", "assumed"))
    too_big = "what is out of true drawn ten times" if leaning or run.wall_leans else ""
    return Drawing("as read", "front", tuple(marks), bounds, plan.display, run.id, exaggerated=too_big)


def _leans(opening: OpeningPlan) -> bool:
    """Whether the lean is more than reading errors make."""
    if opening.lean is None or opening.lean_error is None:
        return False
    return abs(Fraction(opening.lean.units)) > opening.lean_error


def _member(member: MemberPlan, along: str) -> Sequence[Mark]:
    of = member_box(member)
    if wide(of) <= ZERO or high(of) <= ZERO:
        return (Line((of.left, of.bottom), (of.left, of.top), "joint", member.id),)
    assumed = member.across.rests
    pen, fill = ("assumed", "paper") if assumed else ("joint", "wood")
    if member.member.kind == "seam":
        return (Outline(of.corners, "none", "joint", member.id),)
    marks: list[Mark] = [Outline(of.corners, fill, pen, member.id)]  # type: ignore[arg-type]
    if not assumed:
        marks.append(GrainLines(of, along, member.id, member.id))  # type: ignore[arg-type]
    return marks


def _opening(opening: OpeningPlan, by: Shift) -> Outline:
    """An opening, its top moved sideways by ten times its lean."""
    of = opening_box(opening, by)
    corners: tuple[Point, ...] = of.corners
    if _leans(opening) and opening.lean is not None:
        lean = half_up(-Fraction(opening.lean.units) * TIMES)
        most = half_up(wide(of) / 12)
        lean = max(min(lean, most), -most)
        corners = (*corners[:2], (half_up(of.right) + lean, of.top), (half_up(of.left) + lean, of.top))
    known = opening.widths[1].source == "taped" or not opening.width.rests
    return Outline(corners, "paper", "outline" if known else "assumed", opening.id)


def _name(opening: OpeningPlan, by: Shift) -> Label:
    of = opening_box(opening, by)
    name = words(opening.id, size="id", bold=True)
    return Label(middle(of), (Choice(24, (name,)),), of, subject=opening.id, knocked_out=False)


def _walls(run: RunPlan, bounds: Box) -> list[Mark]:
    marks: list[Mark] = []
    for side, end in run.ends.items():
        if end.kind not in ("wall", "corner"):
            continue
        lean = run.wall_leans.get(side)
        away = half_up(lean.length * TIMES) if lean is not None else ZERO
        edge = half_up(bounds.left if side == "left" else bounds.right)
        out = -away if side == "left" else away
        foot, head = (edge + out, edge) if away > ZERO else (edge, edge - out)
        marks.append(Wall((foot, bounds.bottom), (head, bounds.top), "left" if side == "left" else "right", run.id))
    return marks


def _sizes(run: RunPlan, bounds: Box) -> list[Mark]:
    """The overall above, the height at the left, every edge below from the datum on."""
    marks: list[Mark] = []
    corners = bounds.corners
    overall = _overall(run)
    if overall is not None:
        marks.append(Dimension(corners[3], corners[2], "above", overall, ends="arrow", bold=True, subject=run.id))
    height = run.heights[0] if run.heights else run.height
    if height is not None:
        marks.append(Dimension(corners[0], corners[3], "left", height, ends="arrow", subject=run.id))
    stops = tuple(Stop(at.length, at, bounds.bottom) for at in _edges(run))
    if stops:
        marks.append(RunningDimension(corners[0], stops, "below", subject=run.id))
    return marks


def _overall(run: RunPlan) -> Figure | None:
    taped: list[Closure] = [c for c in run.closures if c.overall.source == "taped"]
    return taped[0].overall if taped else run.overall


def _edges(run: RunPlan) -> list[Figure]:
    """Every upright edge right of the datum, each once."""
    found: dict[Length, Figure] = {}
    for member in run.members:
        for edge in (member.left, member.right):
            if edge.length > ZERO:
                found.setdefault(edge.length, edge)
    return [found[at] for at in sorted(found)]


def _own_sizes(run: RunPlan, moved: dict[str, Shift]) -> list[Mark]:
    """Openings by themselves: each its own width and height."""
    marks: list[Mark] = []
    for opening in run.openings:
        of = opening_box(opening, moved[opening.id])
        corners = of.corners
        marks.append(
            Dimension(corners[0], corners[1], "below", opening.widths[1], 1, None, "arrow", subject=opening.id)
        )
        marks.append(
            Dimension(corners[0], corners[3], "left", opening.heights[1], 1, of.left, "arrow", subject=opening.id)
        )
    return marks


def _findings(checks: Sequence[Check], run: RunPlan, bounds: Box, moved: dict[str, Shift]) -> list[Mark]:
    """Open findings at their place: a closure at the far end of the run, others in their opening."""
    marks: list[Mark] = []
    openings = {o.id: o for o in run.openings}
    for check in (c for c in checks if c.is_open and c.level != "ok"):
        if run.id in check.where and check.code == "closure":
            error = next((c.error for c in run.closures if c.error.value == check.value), None)
            text = (
                words(error, bold=True, tone="stop" if check.level == "stop" else "ink") if error is not None else None
            )
            marks.append(Badge((bounds.right, middle(bounds)[1]), check.level, text, "right", run.id))
            continue
        for where in check.where:
            if where in openings:
                of = opening_box(openings[where], moved[where])
                marks.append(Badge((of.left, middle(of)[1]), check.level, None, "right", where))  # beside its name
                break
    return marks
