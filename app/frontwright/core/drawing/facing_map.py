"""The bare frame of a run with everything that is put on it, numbered in gluing order; who covers whom in section."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from frontwright.core.assumed import assumed, measured
from frontwright.core.drawing.marks import (
    Box,
    Break,
    Caption,
    Choice,
    Dimension,
    Drawing,
    GrainLines,
    Hatch,
    Label,
    Line,
    Mark,
    Outline,
    Point,
    Ringed,
    Side,
    Text,
    Wall,
    words,
)
from frontwright.core.drawing.places import around, box, member_box, middle, opening_box, part_way, wide
from frontwright.core.drawing.section import finer
from frontwright.core.facing.result import RunFacing, Strip
from frontwright.core.lengths import ZERO, Length, half_up
from frontwright.core.plan import Plan
from frontwright.core.returns import EdgeReturn
from frontwright.core.survey.result import MemberPlan, RunPlan

_LETTERS = {"right": "A", "left": "B"}


def facing_map(plan: Plan, run_id: str, selected: str = "") -> Drawing:
    """The run from the front, its pieces by number, the selected one's filled. KeyError: no such run."""
    run = _run(plan, run_id)
    faced = plan.facing.runs.get(run_id) or RunFacing(run_id, (), (), (), {}, None)
    seen = [one for one in faced.pieces if one.place is not None]
    boxes = [member_box(m) for m in (*run.members, *run.rails)] + [opening_box(o) for o in run.openings]
    frame = around(boxes)
    bounds = around([*boxes, *(Box(*one.place) for one in seen if one.place is not None)])
    marks: list[Mark] = [*_bare(run), *(mark for one in seen for mark in _piece(one))]
    marks += _names(run)
    marks += [_number(one, selected) for one in seen if one.kind != "skin"]
    marks += [_beside(one, bounds, selected) for one in seen if one.kind == "skin"]
    marks += _walls(run, frame)
    marks += _cut_lines(plan, run, frame)
    marks += _sizes(run, faced, bounds)
    return Drawing(
        "bare frame", "front", tuple(marks), bounds, finer(plan.display), run_id, _strip(plan, run_id, faced)
    )


def _run(plan: Plan, run_id: str) -> RunPlan:
    run = next((r for r in plan.survey.runs if r.id == run_id), None)
    if run is None:
        raise KeyError(run_id)
    return run


def _strip(plan: Plan, run: str, faced: RunFacing) -> tuple[Text, ...]:
    row = plan.job.facings.get(run)
    through = (
        "rail strips run through, stile strips butt"
        if row is not None and row.through == "rails"
        else ("stile strips run through, rail strips butt")
    )
    return (words("a number: order of gluing"), words(through)) if faced.pieces else ()


def _bare(run: RunPlan) -> Iterator[Mark]:
    for member in (*run.rails, *run.members):
        yield Outline(member_box(member).corners, "none", "joint", member.id)
    for opening in run.openings:
        yield Outline(opening_box(opening).corners, "paper", "joint", opening.id)


def _piece(one: Strip) -> Iterator[Mark]:
    if one.place is None:
        return
    of = Box(*one.place)
    hidden = one.kind == "underside"
    yield Outline(of.corners, "none" if hidden else "wood", "hidden" if hidden else "outline", one.id)
    if not hidden:
        yield GrainLines(of, "vertical" if one.upright else "horizontal", one.id, one.id)


def _names(run: RunPlan) -> Iterator[Mark]:
    for opening in run.openings:
        of = opening_box(opening)
        name = words(opening.id, size="id", bold=True, tone="ink_soft")
        yield Label(middle(of), (Choice(24, (name,)),), of, subject=opening.id, knocked_out=False)


def _number(one: Strip, selected: str) -> Label:
    return Label(_spot(one), (Choice(0, (_ring(one, selected),)),), None, subject=one.id, knocked_out=False)


def _ring(one: Strip, selected: str) -> Text:
    filled = one.id == selected
    return words(Ringed(str(one.number), filled=filled, clear=not filled), size="word")


def _spot(one: Strip) -> Point:
    """In its middle; the ring of an upright piece stands a little above, clear of the mid rails."""
    of = Box(*one.place) if one.place is not None else Box(ZERO, ZERO, ZERO, ZERO)
    return middle(of)[0], part_way(of.bottom, of.top, Fraction(3, 5) if one.upright else Fraction(1, 2))


def _beside(one: Strip, bounds: Box, selected: str) -> Caption:
    """A skin is only an edge from the front: its number stands outside the drawing."""
    of = Box(*one.place) if one.place is not None else bounds
    side: Side = "left" if half_up(of.left) < ZERO else "right"
    at = (of.left if side == "left" else of.right, part_way(of.bottom, of.top, Fraction(3, 5)))
    return Caption(at, words(_ring(one, selected), " skin", size="caption"), side, 1, stub=True, subject=one.id)


def _cut_lines(plan: Plan, run: RunPlan, bounds: Box) -> Iterator[Mark]:
    """Where the edge sections lie: a centre line through the end stile, its letter inside the run."""
    level = part_way(bounds.bottom, bounds.top, Fraction(1, 4))
    for side, letter in _LETTERS.items():
        stile = _end_member(run, side)
        if stile is None or edge_section(plan, run.id, side) is None:
            continue
        more = half_up(stile.across.length * Fraction(3, 4))
        outer = bounds.left if side == "left" else bounds.right
        inner = stile.right.length + more if side == "left" else stile.left.length - more
        yield Line((inner, level), (outer, level), "centre")
        name = words(letter, size="id", bold=True)
        beside = inner + more if side == "left" else inner - more
        yield Label((beside, level), (Choice(0, (name,)),), None, knocked_out=False)


def _walls(run: RunPlan, bounds: Box) -> Iterator[Mark]:
    for side, end in run.ends.items():
        if end.kind in ("wall", "corner"):
            x = bounds.left if side == "left" else bounds.right
            yield Wall((x, bounds.bottom), (x, bounds.top), "left" if side == "left" else "right", run.id)


def _sizes(run: RunPlan, faced: RunFacing, bounds: Box) -> Iterator[Mark]:
    """Widths of upright strips above, clear widths of the lowest openings below, the height at the left."""
    for one in faced.pieces:
        if one.kind == "stile strip" and one.place is not None:
            at = (middle(Box(*one.place))[0], bounds.top)
            yield Caption(at, words(one.width, size="figure", bold=bool(one.covers)), "above", 1, subject=one.id)
    if run.height is not None:
        yield Dimension((bounds.left, ZERO), (bounds.left, run.height.length), "left", run.height, subject=run.id)
    for column in run.columns:
        own = [o for o in run.openings if o.column == column.id and o.left is not None and o.right is not None]
        lowest = max(own, key=lambda o: o.opening.place, default=None)
        if lowest is not None and lowest.left is not None and lowest.right is not None:
            found = faced.openings.get(lowest.id)
            left = lowest.left.length + (found.shift[0].length if found else ZERO)
            width = found.widths[1] if found else lowest.width
            ends = (left, bounds.bottom), (left + width.length, bounds.bottom)
            yield Dimension(*ends, "below", width, subject=lowest.id)


# -- edge sections


def edge_section(plan: Plan, run_id: str, side: str) -> Drawing | None:
    """The end of a run cut through level, seen from above, the room below; None where nothing is put on it there."""
    run = _run(plan, run_id)
    faced = plan.facing.runs.get(run_id)
    stile = _end_member(run, side)
    if faced is None or stile is None:
        return None
    strip = next((one for one in faced.pieces if one.kind == "stile strip" and stile.id in one.on.split(", ")), None)
    skin = next((one for one in faced.pieces if one.kind == "skin" and one.on == f"{side} end"), None)
    back = _return_beside(run, faced, side)
    if strip is None and skin is None and back is None:
        return None
    marks, bounds = _cut(plan, run, stile, side, strip, skin, back)
    title = f"{_LETTERS[side]}  {side} end"
    seen = (words("seen from above, the room below", size="caption"),)
    return Drawing(title, "", tuple(marks), bounds, finer(plan.display), run_id, seen)


def _end_member(run: RunPlan, side: str) -> MemberPlan | None:
    if not run.order:
        return None
    name = run.order[0 if side == "left" else -1]
    return next((m for m in run.members if m.id == name), None)


def _return_beside(run: RunPlan, faced: RunFacing, side: str) -> tuple[EdgeReturn, Strip | None] | None:
    """The return on the stile's other edge, of the lowest opening beside it."""
    columns = [c.id for c in run.columns]
    if not columns:
        return None
    column = columns[0 if side == "left" else -1]
    for opening in reversed([o for o in run.openings if o.column == column]):
        if opening.id in faced.openings:
            strip = next((p for p in faced.pieces if p.on == f"{opening.id}, {side} edge"), None)
            return faced.openings[opening.id].returns[side], strip
    return None


def _cut(
    plan: Plan,
    run: RunPlan,
    stile: MemberPlan,
    side: str,
    strip: Strip | None,
    skin: Strip | None,
    back: tuple[EdgeReturn, Strip | None] | None,
) -> tuple[list[Mark], Box]:
    """x from the stile's inner edge outward (the left end is mirrored), y back from its face."""
    across = stile.across.length
    thick = (measured(stile.member.thickness, "frame") or assumed(plan.display.unit, "frame thickness")).length
    skin_t = skin.thickness.length if skin is not None else ZERO
    strip_t = strip.thickness.length if strip is not None else ZERO
    back_t = back[0].at_middle.length if back is not None else ZERO
    deep = thick + half_up(thick * Fraction(1, 3))

    def turned(left: Length, low: Length, right: Length, high: Length) -> Box:
        return box(left, low, right, high) if side == "right" else box(-right, low, -left, high)

    marks: list[Mark] = [*_wood(turned(ZERO, ZERO, across, thick), 45, stile.id)]
    marks.append(Label(middle(turned(ZERO, ZERO, across, thick)), (Choice(0, (words(stile.id, bold=True),)),)))
    if skin is not None:
        of = turned(across, ZERO, across + skin_t, deep)
        marks += [*_wood(of, -45, skin.id), Break((of.left, of.top), (of.right, of.top), "", "above")]
        marks.append(Dimension((of.left, of.top), (of.right, of.top), "above", skin.thickness, subject=skin.id))
        marks.append(_ringed(skin, middle(turned(across, ZERO, across + skin_t, thick)), side))
    if back is not None:
        of = turned(-back_t, ZERO, ZERO, thick)
        own = back[1].id if back[1] is not None else ""
        marks += [*_wood(of, -45, own)]
        marks.append(Dimension((of.left, thick), (of.right, thick), "above", back[0].at_middle, subject=own))
    if strip is not None:
        of = turned(-back_t, -strip_t, across + skin_t, ZERO)
        marks += [*_wood(of, -45, strip.id)]
        marks.append(Dimension((of.left, of.bottom), (of.right, of.bottom), "below", strip.width, bold=True))
        x = of.left if side == "right" else of.right
        out: Side = "left" if side == "right" else "right"
        marks.append(Dimension((x, of.bottom), (x, of.top), out, strip.thickness, subject=strip.id))
    whole = turned(ZERO, ZERO, across, thick)
    marks.append(Dimension((whole.left, thick), (whole.right, thick), "above", stile.across, 2))
    bounds = turned(-back_t, -strip_t, across + skin_t, deep)
    if run.ends.get(side) is not None and run.ends[side].kind == "wall" and skin is None:
        marks.append(_wall(bounds, side, run.id))
    return marks, bounds


def _wall(bounds: Box, side: str, run: str) -> Wall:
    x = bounds.left if side == "left" else bounds.right
    return Wall((x, bounds.bottom), (x, bounds.top), "left" if side == "left" else "right", run)


def _ringed(one: Strip, at: Point, side: str) -> Caption:
    out: Side = "right" if side == "right" else "left"
    return Caption(at, words(Ringed(str(one.number)), size="caption"), out, 1, stub=True, subject=one.id)


def _wood(of: Box, angle: int, subject: str) -> Iterator[Mark]:
    yield Outline(of.corners, "cut", "none", subject)
    yield Hatch(of.corners, 45 if angle > 0 else -45, subject, close=wide(of) < Length.mm(4))
    yield Outline(of.corners, "none", "outline", subject)
