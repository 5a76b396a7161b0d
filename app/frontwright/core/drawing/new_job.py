"""The drawing of a job just begun: the opening as read, the front over it, the frame only assumed."""

from __future__ import annotations

from frontwright.core.drawing.body import front_marks
from frontwright.core.drawing.marks import (
    Arrow,
    Box,
    Choice,
    Dimension,
    Drawing,
    Label,
    Mark,
    Outline,
    words,
)
from frontwright.core.drawing.places import around, front_box, high, length_of, middle, opening_box, shifts
from frontwright.core.figures import minus, plus, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.lengths import half_up
from frontwright.core.plan import Plan
from frontwright.core.survey.result import OpeningPlan, RunPlan


def first_front(plan: Plan) -> Drawing | None:
    """The first opening of the job with its fronts; None where there is no opening yet."""
    for run in plan.survey.runs:
        for opening in run.openings:
            return _drawing(plan, run, opening)
    return None


def _drawing(plan: Plan, run: RunPlan, opening: OpeningPlan) -> Drawing:
    fronts = [f for f in plan.fronts.fronts.values() if f.opening == opening.id]
    by = shifts(run)[opening.id]
    hole = opening_box(opening, by)
    boxes = [front_box(f, by) for f in fronts]
    frame = _frame(run, hole)
    bounds = around([frame, hole, *boxes])
    marks: list[Mark] = [Outline(frame.corners, "none", "assumed")]
    for front in fronts:
        marks += front_marks(front, plan.making.fronts.get(front.id), None, by)
    marks.append(Outline(hole.corners, "none", "hidden" if fronts else "outline", opening.id))
    marks += [_label(front, of) for front, of in zip(fronts, boxes, strict=True)]
    marks += _sizes(opening, hole, fronts, boxes, bounds)
    word = {0: "opening", 1: "one door", 2: "a pair"}.get(len(fronts), "fronts")
    cells = (words("two-dot lines: assumed", size="caption"),)
    return Drawing("", "front", tuple(marks), bounds, plan.display, word, cells)


def _frame(run: RunPlan, hole: Box) -> Box:
    """The frame round the opening, as wide as its members are taken to be."""
    across = length_of(run.members[0].across) if run.members else half_up(high(hole) / 16)
    return Box(
        half_up(hole.left) - across,
        half_up(hole.bottom) - across,
        half_up(hole.right) + across,
        half_up(hole.top) + across,
    )


def _label(front: FrontPlan, of: Box) -> Label:
    word = "drawer front" if front.front.kind == "drawer" else front.front.kind
    lines = (words(word, size="figure", bold=True), words(Arrow(front.grain)))
    return Label(middle(of), (Choice(0, lines), Choice(0, lines[:1])), of, subject=front.id)


def _sizes(opening: OpeningPlan, hole: Box, fronts: list[FrontPlan], boxes: list[Box], bounds: Box) -> list[Mark]:
    """What was read left and below, what follows from it above and at the right."""
    corners = hole.corners
    marks: list[Mark] = [
        Dimension(corners[0], corners[3], "left", opening.heights[1], ends="arrow"),
        Dimension(corners[0], corners[1], "below", opening.widths[1], ends="arrow"),
    ]
    for front, of in zip(fronts, boxes, strict=True):
        marks.append(Dimension(of.corners[3], of.corners[2], "above", front.width, subject=front.id))
    if fronts:
        last, of = fronts[-1], boxes[-1]
        marks.append(Dimension(of.corners[1], of.corners[2], "right", last.height, subject=last.id))
    if len(fronts) > 1:
        whole = total("all fronts", plus(fronts[-1].right), minus(fronts[0].left))
        a, b = boxes[0].corners[3], boxes[-1].corners[2]
        marks.append(Dimension(a, b, "above", whole, 2, bounds.top))
    return marks
