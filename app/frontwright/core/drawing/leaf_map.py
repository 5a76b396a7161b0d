"""Which leaf lies where on a panel: show face and back, each seen from its own side, joints from the centre line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.drawing.marks import (
    Box,
    Caption,
    Choice,
    Drawing,
    Grain,
    GrainLines,
    Hatch,
    Label,
    Mark,
    Outline,
    Part,
    Point,
    Ring,
    RunningDimension,
    Stop,
    words,
)
from frontwright.core.drawing.places import box, high, middle, part_way, wide
from frontwright.core.drawing.section import finer
from frontwright.core.figures import Figure, minus, share, total
from frontwright.core.job import CoreGrain
from frontwright.core.job import Grain as GrainWay
from frontwright.core.lengths import ZERO, Length, half_up, in_units
from frontwright.core.making.result import FrontMaking, PanelPart
from frontwright.core.plan import Plan
from frontwright.core.veneer.result import Seat, SlicePlan

FaceSide = Literal["show", "back"]

SIDES: tuple[FaceSide, ...] = ("show", "back")
TITLES: dict[FaceSide, tuple[str, str]] = {"show": ("SHOW face", "from the front"), "back": ("BACK", "from the back")}
ARROWS: dict[GrainWay, str] = {"vertical": "↑", "horizontal": "→"}  # to the tree's top, on either face
CORNER = Fraction(2, 5)  # how much of the back is broken off to show the core


@dataclass(frozen=True, slots=True)
class Place:
    """One place for a leaf on a face, from the left or the top as seen there; `seat` None: nothing lies there yet."""

    number: int
    seat: Seat | None
    slice: SlicePlan | None
    left: Length
    right: Length

    @property
    def lies(self) -> str:
        """Open or shut like a book's leaf; nothing where it was not told."""
        return "" if self.seat is None else "shut" if self.seat.turned else "open"


@dataclass(frozen=True, slots=True)
class FaceMap:
    """One face of a panel: its places across the leaves, measured from the centre line, and how it is matched."""

    side: FaceSide
    places: tuple[Place, ...]
    match: str

    @property
    def booked(self) -> bool:
        return self.match == "book"


def panel_of(plan: Plan, part: str) -> tuple[FrontMaking, PanelPart]:
    """The front and the shop-made panel of this part; KeyError if there is none."""
    for made in plan.making.fronts.values():
        for panel in made.panels:
            if panel.part == part and panel.core_across is not None:
                return made, panel
    raise KeyError(part)


def face_map(plan: Plan, panel: PanelPart, side: FaceSide) -> FaceMap:
    """What lies where on one face. The outer leaves are trimmed alike to the core."""
    count = panel.leaves_across or 1
    half = half_up(Fraction(panel.core_across.length.units if panel.core_across else panel.across.length.units, 2))
    inner = [j.length for j in sorted(panel.joints or (), key=lambda f: f.units)]
    edges = [ZERO - half, *inner, half]
    seats = {s.seat: s for s in plan.veneer.seats if s.of == panel.part and s.side == side}
    slices = {s.id: s for p in plan.veneer.plans for s in p.slices}
    places = tuple(
        Place(n + 1, seat := seats.get(n + 1), slices.get(seat.leaf) if seat else None, edges[n], edges[n + 1])
        for n in range(min(count, len(edges) - 1))
    )
    matches = {p.id: p.billet.match for p in plan.veneer.plans}
    found = [matches[place.seat.billet] for place in places if place.seat is not None]
    return FaceMap(side, places, found[0] if found else "")


def leaf_map(
    plan: Plan, part: str, ground: Literal["screen", "bench"] = "screen", sides: tuple[FaceSide, ...] = SIDES
) -> Drawing:
    """Show face and back of a shop-made panel side by side; the core through a broken-off corner of the back.

    For the bench the two stand closer together, which may win the next larger scale; `sides`: one of them alone.

    Raises KeyError if there is no such panel.
    """
    made, panel = panel_of(plan, part)
    faces = [face_map(plan, panel, side) for side in sides]
    across, along = _length(panel.core_across), _length(panel.core_along)
    width, height = (across, along) if panel.grain == "vertical" else (along, across)
    marks: list[Mark] = []
    upright = panel.grain == "vertical"  # where leaves lie along, the figures of the first face stand between the two
    apart = half_up(max(width, height) / Fraction(3 if ground == "screen" else 5) * (1 if upright else Fraction(4, 3)))
    for number, face in enumerate(faces):
        left = (width + apart) * number
        marks += _face(made, panel, face, box(left, ZERO, left + width, height))
    wide_ = (width + apart) * len(faces) - apart
    marks += _words_below(panel, wide_) if ground == "screen" else []
    bounds = box(ZERO, ZERO, wide_, height)
    title = f"panel {part}, each face seen from its own side"
    return Drawing(title, "", tuple(marks), bounds, finer(plan.display), made.front)


def half_across(panel: PanelPart) -> Figure:
    """From the centre line to the finished panel's edge, across the leaves."""
    return share("half of the panel", panel.across, 2)


# ----------------------------------------------------------------------------------------------------- what is drawn


def _length(figure: Figure | None) -> Length:
    return figure.length if figure is not None else ZERO


def _face(made: FrontMaking, panel: PanelPart, face: FaceMap, whole: Box) -> Iterator[Mark]:
    for place in face.places:
        yield from _leaf(panel, face, place, _box_of(panel.grain, place, whole))
    finished = _inside(whole, *_turned(panel.grain, panel.across, panel.along))
    yield Outline(finished.corners, "none", "outline")
    sight = _sight(made, panel)
    if sight is not None:
        yield Outline(_inside(whole, *sight).corners, "none", "hidden")
    if face.side == "back":
        yield from _core(panel.grain, made.build.panel.core_grain, whole)
    name, seen = TITLES[face.side]
    x = _centre(whole)[0]
    yield Caption((x, whole.top), words(words(name, bold=True), f", {seen}"), "above", 1, whole.top)
    yield _joints(panel, whole)


def _box_of(grain: GrainWay, place: Place, whole: Box) -> Box:
    """Across the leaves is across the panel where the grain runs up, else down it from the top."""
    if grain == "vertical":
        at = _centre(whole)[0]
        return Box(at + place.left, whole.bottom, at + place.right, whole.top)
    at = _centre(whole)[1]
    return Box(whole.left, at - place.right, whole.right, at - place.left)


def _turned(grain: GrainWay, across: Figure, along: Figure) -> tuple[Length, Length]:
    """Width and height as drawn."""
    return (across.length, along.length) if grain == "vertical" else (along.length, across.length)


def _inside(whole: Box, width: Length, height: Length) -> Box:
    """A box of this size in the middle of another."""
    x, y = _centre(whole)
    left, bottom = x - half_up(width / 2), y - half_up(height / 2)
    return box(left, bottom, left + width, bottom + height)


def _centre(of: Box) -> tuple[Length, Length]:
    return part_way(of.left, of.right, Fraction(1, 2)), part_way(of.bottom, of.top, Fraction(1, 2))


def _sight(made: FrontMaking, panel: PanelPart) -> tuple[Length, Length] | None:
    """What the frame leaves to be seen of this panel."""
    at = next((n for n, p in enumerate(made.panels) if p.part == panel.part), None)
    if at is None or at >= len(made.fields):
        return None
    width, height = made.fields[at]
    return width.length, height.length


def _leaf(panel: PanelPart, face: FaceMap, place: Place, leaf: Box) -> Iterator[Mark]:
    seat = place.seat
    if seat is None:
        yield Outline(leaf.corners, "none", "assumed")
        yield Label(middle(leaf), (Choice(0, (words("no leaf", tone="stop"),)),), leaf)
        return
    yield Outline(leaf.corners, "wood", "joint", seat.leaf)
    yield GrainLines(leaf, panel.grain, seat.billet, seat.leaf, "turned" if seat.turned else "open")
    state = place.slice.state if place.slice is not None else "to come"
    name = words(seat.leaf, size="id", bold=True)
    arrow = words(ARROWS[panel.grain], size="entry")
    lies = (words(place.lies, size="caption"),) if face.booked else ()
    flaw = (words(state, size="caption", tone="warn"),) if state in ("scorched", "short") else ()
    full = (name, arrow, *lies, *flaw), (name, arrow, *lies), (name, arrow), (name,)
    choices = tuple(Choice(0, lines) for lines in full)
    yield Label(_upper(panel.grain, leaf), choices, leaf, subject=seat.leaf, hangs=panel.grain == "vertical")
    if flaw:
        x, y = middle(leaf)
        yield Ring((x, part_way(y, leaf.top, Fraction(7, 10))), cross=True, pen="joint")


def _upper(grain: GrainWay, leaf: Box) -> Point:
    """Above the middle, clear of the broken-off corner; left of it where the leaves lie along."""
    if grain == "vertical":
        return middle(leaf)[0], part_way(leaf.bottom, leaf.top, Fraction(68, 100))
    return part_way(leaf.left, leaf.right, Fraction(2, 5)), middle(leaf)[1]


def _core(grain: GrainWay, core: CoreGrain, whole: Box) -> Iterator[Mark]:
    """The lower right corner of the back broken off: the core with its grain, across the leaves if it is right."""
    least = min(wide(whole), high(whole))
    size = half_up(least * CORNER)
    right, bottom = half_up(Fraction(in_units(whole.right))), half_up(Fraction(in_units(whole.bottom)))

    def spot(x: int, y: int) -> Point:
        return right - half_up(size * Fraction(x, 100)), bottom + half_up(size * Fraction(y, 100))

    jag = ((74, 0), (70, 34), (78, 40), (66, 66), (50, 64), (40, 92), (24, 84), (10, 104), (0, 96))
    shape = (spot(0, 0), *(spot(x, y) for x, y in jag))
    yield Outline(shape, "paper", "none")
    upright = (grain == "vertical") == (core == "along")
    if core != "none":
        yield Hatch(shape, 90 if upright else 0)
    yield Outline(shape, "none", "outline")
    room = Box(*spot(66, 8), *spot(6, 58))
    yield Label(spot(34, 46), (Choice(0, (words("core", size="caption", bold=True),)),), room)
    if core != "none":
        yield Grain(spot(34, 20), "vertical" if upright else "horizontal", reach=half_up(size * Fraction(46, 100)))


def _joints(panel: PanelPart, whole: Box) -> RunningDimension:
    """Both ways from the centre line: joints, and the edges of the finished panel."""
    half = half_across(panel)
    joints = [j for j in panel.joints or () if j.units]
    upright = panel.grain != "vertical"
    x, y = _centre(whole)
    stops: list[Stop] = []
    for figure, sign in [(half, -1), *((_without_sign(j), 1 if j.units > 0 else -1) for j in joints), (half, 1)]:
        away = figure.length if sign > 0 else ZERO - figure.length
        stops.append(Stop(y - away if upright else x + away, figure, whole.right if upright else whole.bottom))
    datum = (whole.right, y) if upright else (x, whole.bottom)
    side: Literal["right", "below"] = "right" if upright else "below"
    return RunningDimension(datum, tuple(stops), side, base=datum[0] if upright else datum[1], level=True)


def _without_sign(figure: Figure) -> Figure:
    """A distance from the centre line, whichever way."""
    return figure if figure.units >= 0 else total(figure.name, minus(figure))


def _words_below(panel: PanelPart, width: Length) -> Iterator[Caption]:
    at = (half_up(width / 2), ZERO)
    shows: tuple[Part, ...] = ()
    if panel.outer_visible is not None:
        shows = (" Outer leaves show ", panel.outer_visible, ", trimmed alike.")
    yield Caption(at, words("Joints from the centre line.", *shows, size="caption"), "below", 3)
