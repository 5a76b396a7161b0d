"""A run in every look that is compared, one under the other to the same scale: fronts, hinge sides, what shows between
them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from frontwright.core.choices import Compared, fronts_on
from frontwright.core.drawing.marks import (
    Box,
    Choice,
    Drawing,
    HingeLines,
    Label,
    Mark,
    Outline,
    words,
)
from frontwright.core.drawing.places import around, box, front_box, high, middle
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.lengths import ZERO, Length, half_up
from frontwright.core.survey.result import RunPlan

BETWEEN = Fraction(28, 100)  # of the height of a run, kept free above each for its name


def compared_drawing(found: Sequence[Compared], run_id: str) -> Drawing:
    """Every choice with its name over it, the first at the top.

    KeyError if there is no such run; ValueError where there is nothing to compare.
    """
    if not found:
        raise ValueError("there is nothing to compare")
    frames = [_frame(_run(one, run_id), fronts_on(one.plan, run_id)) for one in found]
    tall = max(half_up(high(frame)) for frame in frames)
    step = half_up(tall * (1 + BETWEEN))
    marks: list[Mark] = []
    bounds: list[Box] = []
    for at, (one, frame) in enumerate(zip(found, frames, strict=True)):
        down = Length(-step.units * at)
        marks += _choice(one, run_id, frame, down)
        moved = _moved(frame, down)
        bounds.append(box(half_up(moved.left), half_up(moved.bottom), half_up(moved.right), down + step))
    display = found[0].plan.display
    return Drawing("choices side by side", "front", tuple(marks), around(bounds), display, run_id)


def _run(one: Compared, run_id: str) -> RunPlan:
    run = next((r for r in one.plan.survey.runs if r.id == run_id), None)
    if run is None:
        raise KeyError(run_id)
    return run


def _frame(run: RunPlan, fronts: Sequence[FrontPlan]) -> Box:
    """What is drawn of a run: its frame, and fronts that stand over it."""
    boxes = [front_box(front) for front in fronts]
    if run.overall is not None and run.height is not None:
        boxes.append(box(ZERO, ZERO, run.overall.length, run.height.length))
    return around(boxes)


def _moved(of: Box, down: Length) -> Box:
    return box(half_up(of.left), half_up(of.bottom) + down, half_up(of.right), half_up(of.top) + down)


def _choice(one: Compared, run_id: str, frame: Box, down: Length) -> Iterator[Mark]:
    run = _run(one, run_id)
    if run.overall is not None and run.height is not None:
        face = box(ZERO, down, run.overall.length, run.height.length + down)
        yield Outline(face.corners, "paper", "joint")
    for opening in run.openings:
        if opening.left is not None and opening.right is not None and opening.bottom and opening.top:
            hole = box(opening.left.length, opening.bottom.length, opening.right.length, opening.top.length)
            yield Outline(_moved(hole, down).corners, "none", "hidden", tone="ink_soft")
    for front in fronts_on(one.plan, run_id):
        of = _moved(front_box(front), down)
        yield Outline(of.corners, "wood", "outline", front.id)
        if front.hinge_side is not None:
            yield HingeLines(of, front.hinge_side, front.id)
        name, size = words(front.id, size="caption", bold=True), words(front.width, size="caption")
        yield Label(middle(of), (Choice(40, (name, size)), Choice(16, (name,))), of, subject=front.id)
    yield _name(one, frame, down)


def _name(one: Compared, frame: Box, down: Length) -> Label:
    """What the choice is called, and by how much its reveals differ, over its left end."""
    said = f"{one.kind}, as it is" if one.taken and one.kind != "as it is" else one.kind
    parts = [words(said, size="word", bold=True)]
    if one.differ is not None:
        parts.append(words("   reveals differ by ", one.differ, size="caption"))
    at = (frame.left, half_up(frame.top) + down + half_up(high(frame) * BETWEEN / 3))
    return Label(at, (Choice(0, (words(*parts),)),), None, "left")
