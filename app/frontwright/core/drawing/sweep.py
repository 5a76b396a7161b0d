"""A run from above: what its doors and drawers sweep, arcs at true size, with walls, the corner and the neighbours."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from math import cos, radians, sin

from frontwright.core.assumed import assumed
from frontwright.core.drawing.marks import (
    Badge,
    Box,
    Choice,
    Dimension,
    Drawing,
    Label,
    Line,
    Mark,
    Outline,
    Path,
    Pen,
    Point,
    Side,
    Wall,
    words,
)
from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.lengths import ZERO, Exact, Length, half_up, in_units
from frontwright.core.plan import Plan
from frontwright.core.space.checks import degrees
from frontwright.core.space.result import Still, Swing
from frontwright.core.survey.result import RunPlan

type Corners = Sequence[tuple[Exact, Exact]]

SHOWN = 110  # a door that nothing stops is drawn so far open, in degrees
PART = 3  # an arc is drawn in pieces of so many degrees
BESIDE = Length.mm(250)
_FOUND = ("swing", "corner")


def sweep(plan: Plan, run_id: str, front: str = "") -> Drawing:
    """The run from above; with a front only that one opens, and what stands at its height is drawn. KeyError if there
    is no such run."""
    run = next((r for r in plan.survey.runs if r.id == run_id), None)
    if run is None:
        raise KeyError(run_id)
    fronts = [f for f in plan.fronts.fronts.values() if f.run == run.id and f.placed]
    chosen = next((f for f in fronts if f.id == front), None)
    moving = [chosen] if chosen is not None else fronts
    beside = [f for f in fronts if chosen is None or _same_height(f, chosen)]
    bounds = _bounds(plan, run, moving) if chosen is None else _round(plan, chosen)
    marks: list[Mark] = list(_frame(plan, run))
    marks += _stills(plan, run, chosen, bounds)
    marks += [mark for one in beside for mark in _shut(plan, one)]
    marks += [mark for one in moving for mark in _open(plan, one, alone=chosen is not None)]
    marks += _findings(plan, moving)
    if chosen is not None:
        marks = list(_inside(marks, bounds))
    title = f"what {front} sweeps" if chosen is not None else "what the fronts sweep"
    return Drawing(title, "above", tuple(marks), bounds, plan.display, chosen.id if chosen else run.id)


def _same_height(a: FrontPlan, b: FrontPlan) -> bool:
    return in_units(a.bottom.value) < in_units(b.top.value) and in_units(b.bottom.value) < in_units(a.top.value)


def _bounds(plan: Plan, run: RunPlan, moving: Iterable[FrontPlan]) -> Box:
    """The run with room beside it, as deep as anything comes out."""
    long = run.overall.length if run.overall is not None else ZERO
    out = max((_reach(plan, front) for front in moving), default=BESIDE)
    left = min([ZERO, *(f.left.length for f in plan.fronts.fronts.values() if f.run == run.id)])
    return Box(left - BESIDE, -out - BESIDE, max(long, BESIDE) + BESIDE, _thick(plan))


def _round(plan: Plan, front: FrontPlan) -> Box:
    """One front with as much beside it as it is wide: whatever it can meet."""
    out = _reach(plan, front)
    aside = max(half_up(front.width.value), BESIDE)
    return Box(front.left.length - aside, -out - BESIDE, front.right.length + aside, _thick(plan))


def _inside(marks: Iterable[Mark], bounds: Box) -> Iterator[Mark]:
    """Marks as far as they lie in the drawing; those of the front itself lie in it anyway."""
    for mark in marks:
        if isinstance(mark, Outline):
            seen = clipped(mark.corners, bounds)
            if len(seen) > 2:
                yield replace(mark, corners=seen)
        elif isinstance(mark, Line):
            left, right = half_up(bounds.left), half_up(bounds.right)
            a, b = (min(max(half_up(x), left), right) for x in (mark.a[0], mark.b[0]))
            if a != b or mark.a[0] == mark.b[0] == a:
                yield replace(mark, a=(a, mark.a[1]), b=(b, mark.b[1]))
        else:
            yield mark


def _thick(plan: Plan) -> Length:
    return assumed(plan.display.unit, "frame thickness").length


def _reach(plan: Plan, front: FrontPlan) -> Length:
    swing, drawn = plan.space.swings.get(front.id), plan.space.drawn.get(front.id)
    if swing is not None:
        return half_up(swing.width.value)
    return drawn.out.length if drawn is not None else BESIDE


# -- what stands still


def _frame(plan: Plan, run: RunPlan) -> Iterator[Mark]:
    """The frame, cut through: upright members dark, openings between thin lines."""
    thick = _thick(plan)
    if run.overall is None:
        return
    yield Line((ZERO, ZERO), (run.overall.length, ZERO), "joint", run.id)
    yield Line((ZERO, thick), (run.overall.length, thick), "joint", run.id)
    for member in run.members:
        left, right = member.left.length, member.right.length
        if right > left:
            yield Outline(Box(left, ZERO, right, thick).corners, "cut", "outline", member.id)


def _stills(plan: Plan, run: RunPlan, chosen: FrontPlan | None, bounds: Box) -> Iterator[Mark]:
    """Walls, obstacles and the other leg, as far as they lie in the drawing."""
    own = {f.id for f in plan.fronts.fronts.values() if f.run == run.id}
    for still in plan.space.stills.get(run.id, ()):
        if still.of in own or (chosen is not None and not _at_height(still, chosen)):
            continue
        seen = clipped(_drawn(still.corners), bounds)
        if len(seen) > 2:
            yield from _still(still, seen, bounds)


def _still(still: Still, seen: tuple[Point, ...], bounds: Box) -> Iterator[Mark]:
    pen: Pen = "assumed" if still.moves or not still.read else "outline" if still.kind in ("front", "pull") else "joint"
    if still.kind == "wall" and (side := _side(seen, bounds)) is not None:
        x = max(x for x, _ in seen) if side == "left" else min(x for x, _ in seen)
        yield Wall((x, bounds.bottom), (x, bounds.top), side, still.of)
        return
    yield Outline(seen, "paper" if still.kind != "front" else "wood", pen, still.of)
    if still.kind not in ("pull", "front"):
        room = _around(seen)
        at = (_middle(room.left, room.right), _middle(room.bottom, room.top))
        yield Label(at, (Choice(24, (words(still.name),)),), room, subject=still.of)


def _side(seen: tuple[Point, ...], bounds: Box) -> Side | None:
    """At which side of the drawing a wall closes it off from front to back."""
    room = _around(seen)
    if in_units(room.bottom) > in_units(bounds.bottom) or in_units(room.top) < in_units(bounds.top):
        return None
    if in_units(room.left) <= in_units(bounds.left):
        return "left"
    return "right" if in_units(room.right) >= in_units(bounds.right) else None


def _at_height(still: Still, front: FrontPlan) -> bool:
    above = still.low is None or in_units(front.top.value) > in_units(still.low)
    return above and (still.high is None or in_units(front.bottom.value) < in_units(still.high))


# -- fronts, shut and open


def _shut(plan: Plan, front: FrontPlan) -> Iterator[Mark]:
    """A front and its pulls as they stand while it is shut."""
    for still in plan.space.stills.get(front.run, ()):
        if still.of == front.id:
            yield Outline(_drawn(still.corners), "wood" if still.kind == "front" else "paper", "joint", front.id)


def _open(plan: Plan, front: FrontPlan, *, alone: bool) -> Iterator[Mark]:
    swing, drawn = plan.space.swings.get(front.id), plan.space.drawn.get(front.id)
    if swing is not None:
        yield from _swung(plan, front, swing, alone=alone)
    elif drawn is not None:
        body = next(s for s in plan.space.stills[front.run] if s.of == front.id and s.kind == "front")
        out = drawn.have.length if drawn.have is not None and drawn.short else drawn.out.length
        moved = [(x, Fraction(in_units(y)) + max(out, ZERO).units) for x, y in body.corners]
        yield Outline(_drawn(moved), "none", "hidden", front.id)
        at = _point(_middle(front.left.value, front.right.value), out / 2)
        yield Label(at, (Choice(0, (words(front.id, size="id", bold=True),)),), subject=front.id)
        yield from (
            Line(_point(x, y), _point(x, b), "hidden", front.id) for (x, y), (_, b) in _pairs(body.corners, moved)
        )


def _pairs(first: Corners, second: Corners) -> Iterator[tuple[tuple[Exact, Exact], tuple[Exact, Exact]]]:
    return iter(list(zip(first, second, strict=True))[2:])


def _swung(plan: Plan, front: FrontPlan, swing: Swing, *, alone: bool) -> Iterator[Mark]:
    """The arc of the free edge, and the door with its pull where it ends."""
    angle = swing.angle.units if swing.angle is not None else SHOWN
    shown = Fraction(min(angle, SHOWN) if not alone or swing.by == "nothing" else angle)
    yield Path(tuple(arc(swing, swing.width.value, ZERO, shown)), "joint", front.id)
    leaf = [(ZERO, ZERO), (swing.width.value, ZERO), (swing.width.value, _less(swing)), (ZERO, _less(swing))]
    pen: Pen = "outline" if swing.angle is not None else "assumed"
    yield Outline(tuple(turned(swing, x, y, shown) for x, y in leaf), "wood", pen, front.id)
    if swing.pull is not None and in_units(swing.pull.projection.value):
        out = swing.pull.projection.value
        for near, far in swing.pull.spans:
            spots = [(near.value, ZERO), (far.value, ZERO), (far.value, out), (near.value, out)]
            yield Outline(tuple(turned(swing, x, y, shown) for x, y in spots), "paper", "outline", front.id)
        yield Path(tuple(arc(swing, swing.pull.spans[-1][1].value, out, shown)), "hidden", front.id)
    at = turned(swing, Fraction(in_units(swing.width.value)) * Fraction(3, 5), ZERO, shown / 2)
    said = degrees(Fraction(swing.angle.units)) if swing.angle is not None else "free"
    name = words(front.id, size="id", bold=True)
    yield Label(at, (Choice(0, (name, words(said, bold=True))),), subject=front.id)
    if alone:
        yield from _beside(plan, front, swing)


def _beside(plan: Plan, front: FrontPlan, swing: Swing) -> Iterator[Mark]:
    """From the hinge edge to what stands beside it."""
    still = next((s for s in plan.space.stills.get(front.run, ()) if s.of == swing.stopped_by and s.distance), None)
    if still is None:
        return
    xs = [half_up(x) for x, _ in still.corners]
    pivot = half_up(swing.pivot[0])
    near = max(xs) if swing.side == "left" else min(xs)
    low, high = min(near, pivot), max(near, pivot)
    gap = Figure(f"beside the hinge edge of {front.id}", high - low, "derived")
    if high > low:
        yield Dimension(_point(low, ZERO), _point(high, ZERO), "above", gap, subject=front.id)


def _less(swing: Swing) -> Length:
    return -half_up(swing.thickness.value)


# -- turning


def arc(swing: Swing, at: Exact, out: Exact, angle: Fraction) -> Iterator[Point]:
    """The way of a point of the door, `at` from the hinge edge and `out` before the face, from shut to this angle."""
    steps = max(1, -(-int(angle) // PART))
    for step in range(steps + 1):
        yield turned(swing, at, out, angle * step / steps)


def turned(swing: Swing, at: Exact, out: Exact, angle: Fraction) -> Point:
    """A point of the door once it is open so far, in the drawing."""
    turn = radians(float(angle))
    a, p = float(in_units(at)), float(in_units(out))
    along, before = a * cos(turn) - p * sin(turn), a * sin(turn) + p * cos(turn)
    way = 1 if swing.side == "left" else -1
    x0, y0 = (Fraction(in_units(one)) for one in swing.pivot)
    return _point(x0 + way * Fraction(round(along)), y0 + Fraction(round(before)))


def _drawn(corners: Corners) -> tuple[Point, ...]:
    return tuple(_point(x, y) for x, y in corners)


def _point(x: Exact, y: Exact) -> Point:
    """A place in plan as it is drawn: what stands out lies below."""
    return half_up(x), -half_up(y)


# -- the part of a shape that lies in the drawing


def clipped(shape: Sequence[Point], to: Box) -> tuple[Point, ...]:
    """A convex shape as far as it lies in a box; empty where it lies outside."""
    left, right = Fraction(in_units(to.left)), Fraction(in_units(to.right))
    low, high = Fraction(in_units(to.bottom)), Fraction(in_units(to.top))
    spots = [(Fraction(in_units(x)), Fraction(in_units(y))) for x, y in shape]
    for across, bound, keep in ((0, left, 1), (0, right, -1), (1, low, 1), (1, high, -1)):
        spots = list(_cut(spots, across, bound, keep))
    return tuple((half_up(x), half_up(y)) for x, y in spots)


def _cut(
    spots: Sequence[tuple[Fraction, Fraction]], across: int, bound: Fraction, keep: int
) -> Iterator[tuple[Fraction, Fraction]]:
    """What is left of a shape on one side of a line."""
    for a, b in zip(spots, [*spots[1:], *spots[:1]], strict=True):
        inside, other = keep * (a[across] - bound) >= 0, keep * (b[across] - bound) >= 0
        if inside:
            yield a
        if inside != other:
            share = (bound - a[across]) / (b[across] - a[across])
            yield a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])


def _around(spots: Sequence[Point]) -> Box:
    xs, ys = [half_up(x) for x, _ in spots], [half_up(y) for _, y in spots]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _middle(a: Exact, b: Exact) -> Length:
    return half_up((Fraction(in_units(a)) + Fraction(in_units(b))) / 2)


def _findings(plan: Plan, moving: Iterable[FrontPlan]) -> Iterator[Mark]:
    """The findings of what opens, at its hinge edge or in its middle."""
    for front in moving:
        swing = plan.space.swings.get(front.id)
        at = swing.pivot if swing is not None else (front.left.value, ZERO)
        for check in plan.space.checks:
            if check.is_open and check.code in _FOUND and check.where[0] == front.id and check.level != "ok":
                yield Badge(_point(*at), check.level, None, None, front.id)
                break
