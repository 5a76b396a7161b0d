"""A run as it is hung: every front with its turn, its hinge side, and the lines that bottom edges are levelled to."""

from __future__ import annotations

from collections.abc import Sequence

from frontwright.core.drawing.elevation import fronts_of
from frontwright.core.drawing.marks import (
    Box,
    Caption,
    Choice,
    Drawing,
    HingeLines,
    Label,
    Line,
    Mark,
    Outline,
    words,
)
from frontwright.core.drawing.places import around, box, front_box, middle, shifts
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.lengths import ZERO, Exact
from frontwright.core.plan import Plan
from frontwright.core.site.result import LevelLine, SitePlan


def hanging_drawing(plan: Plan, site: SitePlan, run_id: str) -> Drawing:
    """The fronts of a run in the order in which they are hung, from the front. KeyError if there is no such run."""
    run = next((r for r in plan.survey.runs if r.id == run_id), None)
    if run is None:
        raise KeyError(run_id)
    moved = shifts(run)
    turns = {one.front: one.number for one in site.of_run(run_id)}
    fronts = fronts_of(plan, run_id)
    boxes = {front.id: front_box(front, moved[front.opening]) for front in fronts}
    frame = None
    if not run.run.by_itself and run.overall is not None and run.height is not None:
        frame = box(ZERO, ZERO, run.overall.length, run.height.length)
    bounds = around([*boxes.values(), *([frame] if frame else [])])
    marks: list[Mark] = [Outline(frame.corners, "paper", "joint")] if frame else []
    for front in fronts:
        of = boxes[front.id]
        marks.append(Outline(of.corners, "none", "outline", front.id))
        if front.hinge_side is not None:
            marks.append(HingeLines(of, front.hinge_side, front.id))
    marks += [mark for line in site.lines if line.run == run_id for mark in _level(line, bounds.left, bounds.right)]
    for front in fronts:
        marks.append(_label(front, turns.get(front.id, 0), boxes))
    return Drawing("in the order of hanging", "front", tuple(marks), bounds, plan.display, run_id)


def _label(front: FrontPlan, turn: int, boxes: dict[str, Box]) -> Label:
    of = boxes[front.id]
    number = words(str(turn) if turn else "–", size="id", bold=True)
    name, sizes = words(front.id, size="caption"), words(front.width, " × ", front.height, size="caption")
    ways = (Choice(90, (number, name, sizes)), Choice(40, (number, name)), Choice(16, (number,)))
    return Label(middle(of), ways, of, subject=front.id)


def _level(line: LevelLine, left: Exact, right: Exact) -> Sequence[Mark]:
    """A level line through the run; its number at the right end."""
    at = line.at.length
    first = line.number == 1
    return (
        Line((left, at), (right, at), "outline" if first else "joint", tone="ink" if first else "ink_soft"),
        Caption((right, at), words(f"line {line.number}", size="caption", bold=first), "right"),
    )
