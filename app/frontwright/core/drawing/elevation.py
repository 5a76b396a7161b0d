"""A run with its fronts, from the front: for the screen, for the wall in one row or broken into two, and as a key."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.drawing.body import front_marks
from frontwright.core.drawing.marks import (
    Arrow,
    Box,
    Break,
    Caption,
    Choice,
    Dimension,
    Drawing,
    Grain,
    Hatch,
    Label,
    Mark,
    Outline,
    Part,
    Sign,
    Text,
    Wall,
    words,
)
from frontwright.core.drawing.places import (
    Shift,
    around,
    box,
    front_box,
    high,
    middle,
    opening_box,
    part_way,
    shifts,
    wide,
)
from frontwright.core.figures import minus, plus, total
from frontwright.core.fronts.result import FrontPlan, RowPlan
from frontwright.core.lengths import ZERO, Length, half_up
from frontwright.core.plan import Plan
from frontwright.core.survey.result import RunPlan

type Use = Literal["screen", "wall"]


@dataclass(frozen=True, slots=True)
class Stretch:
    """What of a run is drawn: between two division lines (None: the run's end), and the letters of its breaks."""

    start: Length | None = None
    end: Length | None = None
    letter_start: str = ""
    letter_end: str = ""

    def holds(self, of: Box) -> bool:
        centre = half_up(middle(of)[0])
        return (self.start is None or centre > self.start) and (self.end is None or centre < self.end)


WHOLE = Stretch()


def elevation(plan: Plan, run_id: str, use: Use = "screen", stretch: Stretch = WHOLE) -> Drawing:
    """The fronts of a run as planned, from the front. KeyError if there is no such run."""
    run = _run(plan, run_id)
    moved = shifts(run)
    fronts = [f for f in fronts_of(plan, run_id) if stretch.holds(front_box(f, moved[f.opening]))]
    frame = _frame(run, stretch)
    bounds = around([front_box(f, moved[f.opening]) for f in fronts] + ([frame] if frame else []))
    rows = {front: row for row in plan.fronts.rows for front in row.fronts}
    marks: list[Mark] = [Outline(frame.corners, "paper", "joint")] if frame else []
    marks += _bare(plan, run, moved, stretch)
    for front in fronts:
        marks += front_marks(front, plan.making.fronts.get(front.id), rows.get(front.id), moved[front.opening])
    marks += _ends(run, bounds, stretch)
    for front in fronts:
        marks += _label(front, front_box(front, moved[front.opening]), use)
    if use == "wall":
        marks += _through_grain(plan.fronts.rows, {f.id: front_box(f, moved[f.opening]) for f in fronts})
    marks += _lines(plan, run, bounds, stretch) if use == "screen" else []
    marks += _heights(fronts, bounds, moved, use)
    marks += _covers(plan, fronts, bounds) if use == "screen" and not run.run.by_itself else []
    if not any(isinstance(mark, Outline) for mark in marks):
        marks.append(Outline(bounds.corners, "none", "assumed"))
    return Drawing("as planned", "front", tuple(marks), bounds, plan.display, run.id, _strip(fronts))


def fronts_of(plan: Plan, run_id: str) -> list[FrontPlan]:
    return [f for f in plan.fronts.fronts.values() if f.run == run_id]


def _run(plan: Plan, run_id: str) -> RunPlan:
    run = next((r for r in plan.survey.runs if r.id == run_id), None)
    if run is None:
        raise KeyError(run_id)
    return run


def _frame(run: RunPlan, stretch: Stretch) -> Box | None:
    """The face of the frame, as far as it is drawn."""
    if run.run.by_itself or run.overall is None or run.height is None:
        return None
    return box(stretch.start or ZERO, ZERO, stretch.end or run.overall.length, run.height.length)


def _bare(plan: Plan, run: RunPlan, moved: dict[str, Shift], stretch: Stretch) -> list[Mark]:
    """Openings that stay open, and those of inset fronts."""
    marks: list[Mark] = []
    covered = {f.opening for f in fronts_of(plan, run.id) if f.look.scheme != "inset"}
    closed = {f.opening for f in fronts_of(plan, run.id)}
    for opening in run.openings:
        of = opening_box(opening, moved[opening.id])
        if opening.id in covered or not stretch.holds(of):
            continue
        marks.append(Outline(of.corners, "none", "joint", opening.id))
        if opening.id not in closed:
            name = words(opening.id, size="caption", tone="ink_soft")
            marks.append(Label(middle(of), (Choice(24, (name,)),), of, subject=opening.id))
    return marks


def _ends(run: RunPlan, bounds: Box, stretch: Stretch) -> list[Mark]:
    """Walls at the run's ends, skins, and breaks where it goes on in another row."""
    marks: list[Mark] = []
    for side, end in run.ends.items():
        if (stretch.start if side == "left" else stretch.end) is not None:
            continue
        far = bounds.left if side == "left" else bounds.right
        if end.kind in ("wall", "corner"):
            marks.append(Wall((far, bounds.bottom), (far, bounds.top), "left" if side == "left" else "right"))
        elif end.skin != "none" and end.skin_thickness is not None and end.skin_thickness.value is not None:
            marks.append(_skin(run, end.skin_thickness.value, side))
    if stretch.end is not None:
        marks.append(Break((bounds.right, bounds.bottom), (bounds.right, bounds.top), stretch.letter_end, "right"))
    if stretch.start is not None:
        marks.append(Break((bounds.left, bounds.bottom), (bounds.left, bounds.top), stretch.letter_start, "left"))
    return marks


def _skin(run: RunPlan, thick: Length, side: str) -> Outline:
    right = run.overall.length if run.overall else ZERO
    top = run.height.length if run.height else ZERO
    left = right if side == "right" else -thick
    return Outline(box(left, ZERO, left + thick, top).corners, "wood", "joint")


# ------------------------------------------------------------------------------------------------------------ labels


def _label(front: FrontPlan, of: Box, use: Use) -> list[Mark]:
    """Id, size and grain in the middle; on the wall the id of a low front stands in its corner."""
    low = wide(of) > high(of) * 2
    if use == "wall" and low:
        return _wall_label(front, of)
    size: Literal["caption", "figure"] = "caption" if use == "screen" else "figure"
    name, along = words(front.id, size="id", bold=True), Arrow(front.grain)
    across, by = words(front.width, size=size), words("× ", front.height, size=size)
    both = words(front.width, " × ", front.height, size=size)
    if low:
        heads = words(front.id, "  ", along, size="id", bold=True)
        choices: list[tuple[Text, ...]] = [(heads, both)]
    else:
        arrow = words(along, size="word")
        choices = [(name, both, arrow)] if front.grain == "horizontal" else []
        choices.append((name, across, by, arrow))
    choices += [(name, across, by), (name, across)]
    least = [90] * (len(choices) - 2) + [90, 60]
    ways = tuple(Choice(n, lines) for n, lines in zip(least, choices, strict=True))
    return [Label(middle(of), (*ways, Choice(24, (name,))), of, subject=front.id)]


def _wall_label(front: FrontPlan, of: Box) -> list[Mark]:
    at = (part_way(of.left, of.right, Fraction(1, 2)), part_way(of.bottom, of.top, Fraction(44, 100)))
    sizes = (
        Choice(0, (words(front.width, " × ", front.height, size="figure"),)),
        Choice(0, (words(front.width, size="figure"),)),
    )
    corner = (of.left, half_up(of.top))
    return [
        Label(at, sizes, of, subject=front.id),
        Label(
            corner,
            (Choice(0, (words(front.id, size="id", bold=True),)),),
            None,
            "left",
            subject=front.id,
            hangs=True,
        ),
    ]


def _through_grain(rows: Sequence[RowPlan], boxes: dict[str, Box]) -> list[Mark]:
    """One arrow through all fronts that are cut from one board; a short one in other low fronts."""
    marks: list[Mark] = []
    for row in rows:
        own = [boxes[f] for f in row.fronts if f in boxes]
        if not row.row.grain_through or not own:
            continue
        of = around(own)
        if row.row.direction == "row":
            at = (middle(of)[0], part_way(of.bottom, of.top, Fraction(14, 100)))
            marks.append(Grain(at, "horizontal", reach=half_up(wide(of) * Fraction(96, 100))))
        else:
            aside = (part_way(of.left, of.right, Fraction(6, 100)), middle(of)[1])
            marks.append(Grain(aside, "vertical", reach=half_up(high(of) * Fraction(96, 100))))
    return marks


# ------------------------------------------------------------------------------------------------------------- sizes


def _lines(plan: Plan, run: RunPlan, bounds: Box, stretch: Stretch) -> list[Mark]:
    """Stile lines: only stubs above the fronts, named with their place from the datum."""
    if run.run.by_itself:
        return []
    datum = Caption((ZERO, bounds.top), words("0", size="word", bold=True), "above", stub=True)
    marks: list[Mark] = [datum]
    for line in plan.fronts.lines.get(run.id, ()):
        at = line.at.length
        if not line.upright or not _within(at, stretch):
            continue
        name = _short(line.of)
        text = words(words(f"{name}  ", tone="ink_soft"), words(line.at, bold=True), size="caption")
        marks.append(Caption((at, bounds.top), text, "above", stub=True))
    return marks


def _short(name: str) -> str:
    """The first and last of several members."""
    parts = name.removeprefix("line between ").split(" and ")
    return parts[0] if len(parts) == 1 else f"{parts[0]}–{parts[-1]}"


def _within(at: Length, stretch: Stretch) -> bool:
    return (stretch.start is None or at >= stretch.start) and (stretch.end is None or at <= stretch.end)


def _heights(fronts: Sequence[FrontPlan], bounds: Box, moved: dict[str, Shift], use: Use) -> list[Mark]:
    """Heights of the fronts at the left end, and of all of them together; the wall has those in its sums."""
    if not fronts:
        return []
    first = min(front_box(f, moved[f.opening]).left for f in fronts)
    column = [f for f in fronts if front_box(f, moved[f.opening]).left == first]
    marks: list[Mark] = []
    for front in column:
        of = front_box(front, moved[front.opening])
        marks.append(Dimension((of.left, of.bottom), (of.left, of.top), "left", front.height, 1, bounds.left))
    if len(column) > 1 and use == "screen":
        top, bottom = max(column, key=lambda f: f.top.length), min(column, key=lambda f: f.bottom.length)
        whole = total("all fronts of the column", plus(top.top), minus(bottom.bottom))
        low, up = (bounds.left, bottom.bottom.length), (bounds.left, top.top.length)
        marks.append(Dimension(low, up, "left", whole, 2, bounds.left))
    return marks


def _covers(plan: Plan, fronts: Sequence[FrontPlan], bounds: Box) -> list[Mark]:
    """Under each hinge edge, how much it covers, with the mark of what was found about it."""
    marks: list[Mark] = []
    for front in fronts:
        if front.hinge_side not in ("left", "right"):
            continue
        cover = front.overlay.get(front.hinge_side)
        if cover is None:
            continue
        edge = front.left if front.hinge_side == "left" else front.right
        found = _finding(plan, front.id)
        parts: tuple[Part, ...] = (cover,) if found is None else (found, cover)
        anchor: Literal["left", "right"] = "left" if front.hinge_side == "left" else "right"
        text = Text(parts, "word", bold=found is not None)
        at = _line_beside(plan, front)
        marks.append(
            Caption(
                (at or edge.length, bounds.bottom),
                text,
                "below",
                anchor=anchor,
                stub=True,
                subject=front.id,
                from_scale=25,
            )
        )
    return marks


def _line_beside(plan: Plan, front: FrontPlan) -> Length | None:
    """The stile line within the gap at the hinge edge, where both neighbours have their cover stand; else None."""
    side = front.hinge_side or ""
    if front.look.scheme != "full cover":
        return None
    gap = front.look.gap.length
    edge = front.left if side == "left" else front.right
    lines = (line.at.length for line in plan.fronts.lines.get(front.run, ()) if line.upright)
    return next((at for at in lines if abs(at.units - edge.length.units) <= gap.units), None)


def _finding(plan: Plan, front: str) -> Sign | None:
    for check in plan.checks:
        if check.is_open and check.level != "ok" and front in check.where and check.code in ("cover", "hinge-overlay"):
            return Sign(check.level)
    return None


def _strip(fronts: Sequence[FrontPlan]) -> tuple[Text, ...]:
    """What holds for all fronts of the drawing."""
    cells: list[Text] = []
    schemes = {f.look.scheme for f in fronts}
    gaps = {f.look.gap.value: f.look.gap for f in fronts}
    if schemes == {"full cover"} and len(gaps) == 1:
        cells.append(words("gap ", *gaps.values(), " throughout", size="caption"))
    elif len(schemes) == 1:
        cells.append(words(*schemes, size="caption"))
    if any(f.hinge_side in ("left", "right") and f.look.scheme != "inset" for f in fronts):
        cells.append(words("figures below: cover at the hinge edge", size="caption"))
    return tuple(cells)


# --------------------------------------------------------------------------------------------------------------- key


def key_elevation(plan: Plan, run_id: str, hatched: Sequence[str] = ()) -> Drawing:
    """The run small, thin lines, some fronts hatched. KeyError if there is no such run."""
    run = _run(plan, run_id)
    moved = shifts(run)
    marks: list[Mark] = []
    boxes: list[Box] = []
    for front in fronts_of(plan, run_id):
        of = front_box(front, moved[front.opening])
        boxes.append(of)
        marks.append(Outline(of.corners, "none", "joint", front.id))
        if front.id in hatched:
            marks.append(Hatch(of.corners, 45, front.id))
    return Drawing("key", "front", tuple(marks), around(boxes), plan.display, run.id)


def breaks(plan: Plan, run_id: str) -> tuple[Length, ...]:
    """The division lines at which a run may be broken into two rows: those that no front crosses, left to right."""
    boxes = [front_box(f) for f in fronts_of(plan, run_id)]
    lines = sorted(line.at.length for line in plan.fronts.lines.get(run_id, ()) if line.upright)
    return tuple(at for at in lines if not any(half_up(b.left) < at < half_up(b.right) for b in boxes))


def in_two(plan: Plan, run_id: str, at: Length, letter: str = "A") -> tuple[Drawing, Drawing]:
    """The run for the wall in two rows, broken at a division line."""
    first = elevation(plan, run_id, "wall", Stretch(None, at, "", letter))
    return first, elevation(plan, run_id, "wall", Stretch(at, None, letter, ""))
