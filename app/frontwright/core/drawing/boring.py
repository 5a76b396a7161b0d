"""Doors as they lie on the drill press: backs beside each other, hinge edges outside, every boring from two edges."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.drawing.body import Piece, edges, pieces
from frontwright.core.drawing.door import MIRROR
from frontwright.core.drawing.marks import (
    Box,
    Caption,
    Choice,
    Dimension,
    Drawing,
    HingeLines,
    Label,
    Line,
    Mark,
    Outline,
    Pen,
    Point,
    Ring,
    RunningDimension,
    Side,
    Stop,
    words,
)
from frontwright.core.drawing.places import box, middle, part_way
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.pulls import lies_level
from frontwright.core.hardware.result import BoringPlan, Hole
from frontwright.core.lengths import ZERO, Length, half_up
from frontwright.core.making.result import FrontMaking
from frontwright.core.plan import Plan


@dataclass(frozen=True, slots=True)
class Lying:
    """A front on its face: its lower left corner, as seen from the back, is at `left`, 0."""

    front: FrontPlan
    made: FrontMaking | None
    boring: BoringPlan
    left: Length

    @property
    def box(self) -> Box:
        return box(self.left, ZERO, self.left + self.width, self.height)

    @property
    def width(self) -> Length:
        return self.front.width.length

    @property
    def height(self) -> Length:
        return self.front.height.length

    @property
    def hinge_left(self) -> bool:
        """Whether its hinge edge is at the left as it lies."""
        return self.boring.side == "right"

    def x(self, hole: Hole) -> Length:
        """Where a hole's centre is across: what is left from the front is right from the back."""
        at = hole.from_hinge.length
        return self.left + (at if self.boring.side == "right" else self.width - at)

    def spot(self, hole: Hole) -> Point:
        return self.x(hole), hole.from_bottom.length


def boring_view(plan: Plan, fronts: Sequence[str], borings: Mapping[str, BoringPlan]) -> Drawing:
    """These fronts from the back, in this order from the left. KeyError where one of them has no boring."""
    lying: list[Lying] = []
    at = ZERO
    for name in fronts:
        front = plan.fronts.fronts[name]
        lying.append(Lying(front, plan.making.fronts.get(name), borings[name], at))
        at = at + front.width.length + half_up(front.width.length * Fraction(1, 9))
    marks = [mark for one in lying for mark in _marks(one)]
    high = max(one.height for one in lying)
    bounds = box(ZERO, ZERO, lying[-1].left + lying[-1].width, high)
    seen = (words("seen from the back", size="caption"),)
    return Drawing("borings", "from the back", tuple(marks), bounds, plan.display, fronts[0], seen)


def _marks(it: Lying) -> Iterator[Mark]:
    yield Outline(it.box.corners, "none", "outline", it.front.id)
    yield from _frame(it)
    if it.front.hinge_side is not None:
        yield HingeLines(it.box, MIRROR[it.front.hinge_side], it.front.id)
    yield from _edges_named(it)
    yield from _holes(it)
    yield from _cup_sizes(it)
    yield from _pull_sizes(it)
    yield _name(it)


def _frame(it: Lying) -> Iterator[Mark]:
    """Stiles and rails as they show, and how far the panel reaches into them."""
    by = (it.left - it.front.left.length, -it.front.bottom.length)
    turned = [Piece(p.kind, _turned(it, p.box), p.along) for p in pieces(it.front, it.made, by)]
    for piece in turned:
        yield from edges(piece, it.front.id)
    if it.made is None or it.made.slab:
        return
    reach = it.made.build.engagement.length - it.made.build.clearance.length
    for piece in turned:
        if piece.kind == "panel" and reach > ZERO:
            yield Outline(_grown(piece.box, reach).corners, "none", "hidden")


def _turned(it: Lying, of: Box) -> Box:
    mirror = 2 * it.left.units + it.width.units
    return Box(Length(mirror) - half_up(of.right), of.bottom, Length(mirror) - half_up(of.left), of.top)


def _grown(of: Box, by: Length) -> Box:
    return box(half_up(of.left) - by, half_up(of.bottom) - by, half_up(of.right) + by, half_up(of.top) + by)


def _edges_named(it: Lying) -> Iterator[Mark]:
    """Which edge is which, over the upper corners."""
    left, right = it.left, it.left + it.width
    if it.boring.side == "top":
        yield Caption((middle(it.box)[0], it.height), words("hinge edge", bold=True), "above", 1)
        return
    if not it.boring.side:
        return
    hinge, free = (left, right) if it.hinge_left else (right, left)
    near, far = ("left", "right") if it.hinge_left else ("right", "left")
    yield Caption((hinge, it.height), words("hinge edge", bold=True), "above", 1, anchor=near)  # type: ignore[arg-type]
    yield Caption((free, it.height), words("free edge"), "above", 1, anchor=far)  # type: ignore[arg-type]


def _holes(it: Lying) -> Iterator[Mark]:
    for hole in it.boring.holes:
        pen: Pen = "joint" if hole.kind == "cup screw" else "outline"
        yield Ring(it.spot(hole), hole.diameter.length, hole.kind != "cup screw", pen, it.front.id)


# -- sizes


def _cup_sizes(it: Lying) -> Iterator[Mark]:
    """Heights from the bottom edge inside the door, and the distance of the cups' centres from the hinge edge."""
    cups = it.boring.of("cup")
    if not cups:
        return
    if it.boring.side == "top":
        yield from _along_the_top(it, cups)
        return
    wide = cups[0].diameter.length
    inward = 1 if it.hinge_left else -1
    line = it.x(cups[0]) + Length(inward * wide.units)
    stops = tuple(Stop(c.from_bottom.length, c.from_bottom, it.x(c), subject=it.front.id) for c in cups)
    side: Side = "right" if it.hinge_left else "left"
    yield RunningDimension((line, ZERO), stops, side, 0, line, zero=False, subject=it.front.id, level=True)
    yield from _to_the_centre(it, cups[0])


def _to_the_centre(it: Lying, cup: Hole) -> Iterator[Mark]:
    """How far the centres of the cups are from the hinge edge."""
    edge = it.left if it.hinge_left else it.left + it.width
    a, b = sorted((edge, it.x(cup)), key=lambda x: x.units)
    outside: Literal["after", "before"] = "after" if it.hinge_left else "before"
    figure = cup.from_hinge
    yield Dimension((a, ZERO), (b, ZERO), "below", figure, 1, ZERO, bold=True, subject=it.front.id, outside=outside)


def _along_the_top(it: Lying, cups: Sequence[Hole]) -> Iterator[Mark]:
    """Hung at the top: along the top edge from what is the left edge from the front."""
    down = it.height - cups[0].from_bottom.length
    line = cups[0].from_bottom.length - cups[0].diameter.length
    stops = tuple(Stop(it.x(c), c.from_hinge, c.from_bottom.length, subject=it.front.id) for c in cups)
    start = it.left + it.width
    yield RunningDimension((start, line), stops, "below", 0, line, zero=False, subject=it.front.id, level=True)
    figure = total(f"cup centre of {it.front.id} from the top edge", plus(it.front.height), minus(cups[0].from_bottom))
    a, b = (start, it.height - down), (start, it.height)
    yield Dimension(a, b, "right", figure, 1, start, bold=True, subject=it.front.id)


def _pull_sizes(it: Lying) -> Iterator[Mark]:
    """The pull in its place, two-dot while nobody chose it; each hole from the nearer end, beside it."""
    holes = it.boring.of("pull")
    if not holes:
        return
    xs, ys = [it.x(hole) for hole in holes], [hole.from_bottom.length for hole in holes]
    margin = half_up(holes[0].diameter.length * Fraction(2))
    around = box(min(xs) - margin, min(ys) - margin, max(xs) + margin, max(ys) + margin)
    yield Outline(around.corners, "none", "joint" if it.boring.pull_chosen else "assumed", it.front.id)
    if lies_level(it.front):
        return
    from_top = min(ys) > half_up(it.height / 2)
    to_right = not it.hinge_left  # words stand on the hinge side of the pull, where there is room
    for hole in holes:
        end = _from_end(it, hole, from_top=from_top)
        x = around.right if to_right else around.left
        stub = half_up(x) + Length((1 if to_right else -1) * margin.units * 2)
        yield Line((half_up(x), hole.from_bottom.length), (stub, hole.from_bottom.length), "joint", it.front.id)
        text = Choice(0, (words(end, size="word"),))
        anchor = "left" if to_right else "right"
        yield Label((stub, hole.from_bottom.length), (text,), anchor=anchor, subject=it.front.id)  # type: ignore[arg-type]


def _from_end(it: Lying, hole: Hole, *, from_top: bool) -> Figure:
    if not from_top:
        return hole.from_bottom
    return total(f"hole of the pull of {it.front.id} from the top", plus(it.front.height), minus(hole.from_bottom))


def _name(it: Lying) -> Mark:
    lines = (
        words(it.front.id, size="entry", bold=True),
        words("BACK", size="word", bold=True),
        words(it.front.width, " × ", it.front.height, size="word"),
    )
    at = (middle(it.box)[0], part_way(ZERO, it.height, _free_height(it)))
    return Label(at, (Choice(0, lines), Choice(0, lines[:2]), Choice(0, lines[:1])), it.box, subject=it.front.id)


def _free_height(it: Lying) -> Fraction:
    """Where the name stands: at mid height, or beside it where the height of a hinge stands there."""
    taken = [Fraction(cup.from_bottom.length.units, it.height.units) for cup in it.boring.of("cup")]
    shares = (Fraction(1, 2), Fraction(5, 8), Fraction(3, 8))
    return next((at for at in shares if all(abs(at - one) > Fraction(1, 10) for one in taken)), shares[0])
