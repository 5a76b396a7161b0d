"""A front as it is made: front and back beside each other, with cups, dowels, rabbet or groove, and sizes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.drawing.body import Piece, edges, pieces
from frontwright.core.drawing.marks import (
    Arrow,
    Box,
    Caption,
    Choice,
    Dimension,
    Drawing,
    Grain,
    GrainLines,
    HingeLines,
    Label,
    Mark,
    Outline,
    Ring,
    RunningDimension,
    Stop,
    Text,
    words,
)
from frontwright.core.drawing.places import Shift, box, front_box, length_of, middle, part_way
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.result import CupPlan, HingePlan
from frontwright.core.lengths import ZERO, Length, half_up
from frontwright.core.making.result import FrontMaking, Part
from frontwright.core.plan import Plan

type Use = Literal["screen", "bench"]
MIRROR: dict[str, Literal["left", "right", "top"]] = {"left": "right", "right": "left", "top": "top"}


@dataclass(frozen=True, slots=True)
class Door:
    """What the drawing of one front needs, and where its two views lie (both with their lower left corner on y 0)."""

    front: FrontPlan
    made: FrontMaking | None
    hinges: HingePlan | None
    cups: CupPlan | None
    front_by: Shift
    back_left: Length

    @property
    def front_view(self) -> Box:
        return front_box(self.front, self.front_by)

    @property
    def back_view(self) -> Box:
        return box(self.back_left, ZERO, self.back_left + self.front.width.length, self.front.height.length)

    def part(self, kind: str) -> Part | None:
        """The part that a piece of the drawing is."""
        if self.made is None:
            return None
        return next((part for part in self.made.parts if part.kind == kind), None)

    def subject(self, kind: str) -> str:
        part = self.part(kind)
        return part.id if part is not None else self.front.id


def door(plan: Plan, front_id: str, use: Use = "screen", *, close: bool = False) -> Drawing:
    """Front and back of a front with its sizes, `close` together to win room. KeyError if there is no such front."""
    front = plan.fronts.fronts[front_id]
    apart = half_up(front.width.length * Fraction(1, 4)) + half_up(front.height.length * Fraction(1, 16))
    apart = half_up(apart * Fraction(2, 5)) if close else apart
    it = Door(
        front,
        plan.making.fronts.get(front_id),
        plan.hardware.hinges.get(front_id),
        plan.hardware.cups.get(front_id),
        (-front.left.length, -front.bottom.length),
        front.width.length + apart,
    )
    bounds = box(ZERO, ZERO, it.back_left + front.width.length, front.height.length)
    marks = [*_front_view(it, use), *_back_view(it, use), *_sizes(it, use), *_cups(it, use)]
    kind = "door" if front.front.kind in ("door", "glass") else "front"
    size = words(f"{kind} ", front.width, " × ", front.height, *_thickness(it), size="caption")
    return Drawing("front and back", "", tuple(marks), bounds, plan.display, front_id, (size,))


def _thickness(it: Door) -> tuple[Text, ...]:
    return (words(" × ", it.made.build.thickness),) if it.made is not None else ()


# ------------------------------------------------------------------------------------------------------------- views


def _front_view(it: Door, use: Use) -> list[Mark]:
    of = it.front_view
    parts = pieces(it.front, it.made, it.front_by)
    marks: list[Mark] = [Outline(of.corners, "wood", "outline", it.front.id)]
    marks += _wood(it, parts, "front")
    marks += _hidden(it, parts)
    if it.front.hinge_side is not None:
        marks.append(HingeLines(of, it.front.hinge_side, it.front.id))
    for piece in parts:
        marks += _label(it, piece, use)
    at = (middle(of)[0], of.top)
    return [*marks, Caption(at, words("FRONT" if use == "bench" else "front", size="word", bold=True), "above", 1)]


def _wood(it: Door, parts: Sequence[Piece], view: str) -> list[Mark]:
    marks: list[Mark] = []
    for at, piece in enumerate(parts):
        if piece.kind != "slab":
            marks.append(Outline(piece.box.corners, "wood", "none", it.subject(piece.kind)))
        marks.append(GrainLines(piece.box, piece.along, f"{it.front.id} {view} {at}", it.subject(piece.kind)))
    marks += [line for piece in parts for line in edges(piece, it.subject(piece.kind))]
    marks.append(Outline((it.front_view if view == "front" else it.back_view).corners, "none", "outline"))
    return marks


def _hidden(it: Door, parts: Sequence[Piece]) -> list[Mark]:
    """How far a panel reaches into its frame."""
    if it.made is None or it.made.slab:
        return []
    reach = it.made.build.engagement.length - it.made.build.clearance.length
    if reach <= ZERO:
        return []
    return [Outline(_grown(piece.box, reach).corners, "none", "hidden", "") for piece in parts if piece.kind == "panel"]


def _grown(of: Box, by: Length) -> Box:
    return box(half_up(of.left) - by, half_up(of.bottom) - by, half_up(of.right) + by, half_up(of.top) + by)


def _label(it: Door, piece: Piece, use: Use) -> list[Mark]:
    """Each part's own length on it; on the panel its sizes, or for the bench the sight."""
    part = it.part(piece.kind)
    subject, centre = it.subject(piece.kind), middle(piece.box)
    if piece.kind == "slab":
        return [Grain(centre, piece.along, subject)]
    if piece.kind == "panel":
        lines = _sight(it) if use == "bench" else _panel_size(it)
        arrow = words(Arrow(piece.along))
        ways = (Choice(0, (*lines, arrow)), Choice(0, lines or (arrow,)), Choice(0, (arrow,)))
        return [Label(centre, ways, piece.box, subject=subject)]
    if use == "bench" or part is None:
        return [Grain(_low(piece), piece.along, subject)]
    turned = piece.along == "vertical"
    if turned and piece.box.left != it.front_view.left:
        return [Grain(_low(piece), piece.along, subject)]
    text = Choice(0, (words(part.length, size="caption"),))
    place = (centre[0], part_way(piece.box.bottom, piece.box.top, Fraction(7, 10))) if turned else centre
    marks: list[Mark] = [Label(place, (text,), piece.box, subject=subject, turned=turned)]
    return [*marks, Grain(_low(piece), piece.along, subject)] if turned else marks


def _low(piece: Piece) -> tuple[Length, Length]:
    """Where the arrow of a stile stands: in its lower part; in the middle of a rail."""
    share = Fraction(28, 100) if piece.along == "vertical" else Fraction(1, 2)
    return half_up(middle(piece.box)[0]), part_way(piece.box.bottom, piece.box.top, share)


def _sight(it: Door) -> tuple[Text, ...]:
    if it.made is None or it.made.sight_width is None or it.made.sight_height is None:
        return ()
    return words("sight", size="caption"), words(it.made.sight_width, " × ", it.made.sight_height, size="figure")


def _panel_size(it: Door) -> tuple[Text, ...]:
    if it.made is None or not it.made.panels:
        return ()
    panel = it.made.panels[0]
    return words(panel.along, size="caption"), words("× ", panel.across, size="caption")


def _back_view(it: Door, use: Use) -> list[Mark]:
    """The front turned over: what was left is right."""
    of = it.back_view
    parts = [Piece(p.kind, _mirrored(it, p.box), p.along) for p in pieces(it.front, it.made, it.front_by)]
    marks: list[Mark] = [Outline(of.corners, "wood", "outline", it.front.id), *_wood(it, parts, "back")]
    marks += _rabbet(it, parts, use) if it.made is not None and it.made.chain is not None else _hidden(it, parts)
    marks += _dowels(it)
    side = it.front.hinge_side
    if side is not None:
        marks.append(HingeLines(of, MIRROR[side], it.front.id))
    at = (middle(of)[0], of.top)
    return [
        *marks,
        Caption(at, words(_back_title(it) if use == "bench" else "back", size="word", bold=True), "above", 1),
    ]


def _back_title(it: Door) -> str:
    """Hinges at the left of the back leave no room to say beside them where their heights are taken from."""
    cups = it.cups is not None and it.front.hinge_side == "right"
    return "BACK, heights from the bottom edge" if cups else "BACK"


def _mirrored(it: Door, of: Box) -> Box:
    right = it.back_left + it.front.width.length
    return box(right - half_up(of.right), half_up(of.bottom), right - half_up(of.left), half_up(of.top))


def _rabbet(it: Door, parts: Sequence[Piece], use: Use) -> list[Mark]:
    """A rear rabbet is seen from the back; without one the panel's reach is hidden."""
    if it.made is None or it.made.chain is None or it.made.chain.rabbet_depth is None:
        return _hidden(it, parts)
    width = length_of(it.made.chain.rabbet_width)
    marks: list[Mark] = []
    for piece in (p for p in parts if p.kind == "panel"):
        marks.append(Outline(_grown(piece.box, width).corners, "wood", "joint", it.subject("panel")))
        marks.append(
            Outline(_grown(piece.box, width - length_of(it.made.build.clearance)).corners, "none", "joint", "")
        )
        marks.append(GrainLines(_grown(piece.box, width), piece.along, f"{it.front.id} back", it.subject("panel")))
        if use == "bench" and it.made.chain.rabbet_width is not None:
            lines = (
                words("rabbet", size="caption"),
                words(it.made.chain.rabbet_width, " wide"),
                words(it.made.chain.rabbet_depth, " deep"),
            )
            marks.append(Label(middle(piece.box), (Choice(0, lines),), piece.box))
    return marks


def _dowels(it: Door) -> list[Mark]:
    """Dowels from the back, hidden: half in the stile, half in the rail."""
    if it.made is None:
        return []
    build, of = it.made.build, it.back_view
    thick, deep, stile = build.dowel.length, build.dowel_depth.length, length_of(it.made.stile)
    marks: list[Mark] = []
    for dowels in it.made.dowels:
        for joint in (half_up(of.left) + stile, half_up(of.right) - stile):
            for figure in dowels.from_outer_edge:
                y = figure.length if dowels.rail == "bottom rail" else half_up(of.top) - figure.length
                half = half_up(thick / 2)
                marks.append(Outline(box(joint - deep, y - half, joint + deep, y + half).corners, "none", "hidden"))
    return marks


# ------------------------------------------------------------------------------------------------------------- sizes


def _sizes(it: Door, use: Use) -> list[Mark]:
    of, front = it.front_view, it.front
    corners = of.corners
    marks: list[Mark] = [
        Dimension(corners[0], corners[3], "left", front.height, subject=front.id),
        Dimension(corners[0], corners[1], "below", front.width, subject=front.id),
    ]
    if use == "screen" and it.made is not None and it.made.sight_width is not None and it.made.stile is not None:
        stile = it.made.stile.length
        a, b = (half_up(of.left) + stile, of.bottom), (half_up(of.right) - stile, of.bottom)
        marks.append(Dimension(a, b, "below", it.made.sight_width, 2, before="sight"))
    return marks


def _cups(it: Door, use: Use) -> list[Mark]:
    """Cups from the bottom edge at the hinge edge, bored from the back, and how far their centres lie from the edge."""
    if it.cups is None or it.hinges is None or it.front.hinge_side not in ("left", "right"):
        return []
    of = it.back_view
    on_right = it.front.hinge_side == "left"
    edge = half_up(of.right if on_right else of.left)
    centre = edge - it.cups.centre.length if on_right else edge + it.cups.centre.length
    marks: list[Mark] = [Ring((centre, h.length), it.cups.diameter.length, cross=True) for h in it.hinges.heights]
    stops = tuple(Stop(h.length, h, centre) for h in it.hinges.heights)
    if on_right:
        bottom = "from the bottom" if use == "bench" else ""
        marks.append(RunningDimension((edge, ZERO), stops, "right", 1, edge, zero=bool(bottom), words=bottom))
    else:
        marks.append(RunningDimension((edge, ZERO), stops, "left", 1, edge, zero=False))
    lowest = min((h.length for h in it.hinges.heights), default=ZERO)
    under = 3 if on_right and use == "screen" else 1  # clear of the figures under the front view
    away = Dimension(
        (centre, lowest),
        (edge, ZERO),
        "below",
        it.cups.centre,
        under,
        ZERO,
        after=" to the centre" if use == "bench" else " to the cup centre",
        outside="before" if on_right else "after",
    )
    return [*marks, away]
