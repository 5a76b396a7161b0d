"""A pressing taken apart: caul, film, leaves, core with its grain across, leaves, film, caul; clamp places numbered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from frontwright.core.drawing.leaf_map import FaceMap, face_map, panel_of
from frontwright.core.drawing.marks import (
    Caption,
    Choice,
    Drawing,
    Fill,
    Hatch,
    Label,
    Line,
    Mark,
    Outline,
    Point,
    Ringed,
    Text,
    words,
)
from frontwright.core.drawing.places import box
from frontwright.core.drawing.section import finer
from frontwright.core.figures import Figure, share
from frontwright.core.lengths import ZERO, Length, half_up, in_units
from frontwright.core.making.result import PanelPart
from frontwright.core.plan import Plan
from frontwright.core.veneer.result import PressingPlan

LayerKind = Literal["caul", "film", "leaves", "core"]

DEEP = Fraction(20, 100)  # how deep a layer looks, of its length
LEAN = Fraction(16, 100)  # how far its far edge lies to the right, of its length
STEP = Fraction(15, 100)  # from layer to layer, of the length
GRAIN_LINES = 28
MOST_CLAMPS = 40  # more cannot be told apart in the drawing


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer, from below: what it is, how it lies, and the leaves in it from the left as seen on their own face."""

    kind: LayerKind
    says: str
    panel: str = ""
    face: FaceMap | None = None


@dataclass(frozen=True, slots=True)
class ClampPlace:
    """A clamp's place by the order of tightening; `along` and `across` as shares of the panel, from the lower left."""

    number: int
    along: Fraction
    across: Fraction


def pressing_of(plan: Plan, pressing_id: str) -> PressingPlan:
    """The pressing of this id; KeyError if there is none."""
    found = next((p for p in plan.veneer.pressings if p.id == pressing_id), None)
    if found is None:
        raise KeyError(pressing_id)
    return found


def layers(plan: Plan, pressing: PressingPlan) -> tuple[Layer, ...]:
    """What lies on what, from the bed up; panels pressed together have a film between them."""
    found = [Layer("caul", "caul, on the bed"), Layer("film", "release film")]
    for number, part in enumerate(pressing.panels):
        _, panel = panel_of(plan, part)
        if number:
            found.append(Layer("film", "release film", part))
        show, back = face_map(plan, panel, "show"), face_map(plan, panel, "back")
        found.append(Layer("leaves", "show, face down", part, show))
        found.append(Layer("core", "core, grain across", part))
        found.append(Layer("leaves", "back, face up", part, back))
    return (*found, Layer("film", "release film"), Layer("caul", "caul"))


def clamp_places(count: int) -> tuple[ClampPlace, ...]:
    """Clamps in pairs, one at each long edge, their stations even along the panel; the middle ones are tightened first.

    With an odd number the last station, at an end, has one clamp, in the middle of a crowned caul.
    """
    stations = stations_of(count)
    order = sorted(range(stations), key=lambda at: (abs(2 * at + 1 - stations), at))
    found: list[ClampPlace] = []
    for at in order:
        along = Fraction(2 * at + 1, 2 * stations)
        alone = len(found) + 1 == count
        for across in (Fraction(1, 2),) if alone else (Fraction(1, 5), Fraction(4, 5)):
            found.append(ClampPlace(len(found) + 1, along, across))
    return tuple(found)


def stations_of(count: int) -> int:
    """At how many places along the panel clamps stand."""
    return max(1, -(-count // 2))


def clamps_apart(plan: Plan, pressing: PressingPlan) -> Figure | None:
    """From one pair of clamps to the next, along the longest core of the pressing; None for a single pair."""
    stations = stations_of(pressing.clamps)
    core = longest(plan, pressing).core_along
    return share("clamps apart", core, stations) if core is not None and stations > 1 else None


def longest(plan: Plan, pressing: PressingPlan) -> PanelPart:
    """The panel of a pressing with the longest core."""
    panels = [panel_of(plan, part)[1] for part in pressing.panels]
    return max(panels, key=lambda p: in_units(p.core_along.value) if p.core_along is not None else 0)


def pressing(plan: Plan, pressing_id: str) -> Drawing:
    """The pressing taken apart, seen from the front and above. KeyError if there is none of this id."""
    of = pressing_of(plan, pressing_id)
    panel = longest(plan, of)
    long = panel.core_along.length if panel.core_along is not None else panel.along.length
    stack = layers(plan, of)
    marks: list[Mark] = []
    for number, layer in enumerate(stack):
        marks += _layer(layer, _Sheet(long, half_up(long * STEP) * number))
    top = _Sheet(long, half_up(long * STEP) * (len(stack) - 1))
    marks += _clamps(of, top)
    bounds = box(ZERO, ZERO, long + half_up(long * LEAN), top.low + half_up(long * DEEP))
    return Drawing(f"pressing {of.id}, taken apart", "", tuple(marks), bounds, finer(plan.display), of.id)


# ----------------------------------------------------------------------------------------------------- what is drawn


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A layer in space: its length, and how high its near edge lies in the drawing."""

    long: Length
    low: Length

    def spot(self, along: Fraction | int, across: Fraction | int) -> Point:
        """A place on it by shares of its length and depth, from the near left corner."""
        x = half_up(self.long * Fraction(along)) + half_up(self.long * (LEAN * across))
        return x, self.low + half_up(self.long * (DEEP * across))

    @property
    def corners(self) -> tuple[Point, ...]:
        return self.spot(0, 0), self.spot(1, 0), self.spot(1, 1), self.spot(0, 1)

    def thick(self, share: Fraction) -> tuple[tuple[Point, ...], ...]:
        """The near and the right edge of a layer that has a thickness."""
        down = half_up(self.long * share)

        def under(point: Point) -> Point:
            return point[0], half_up(Fraction(in_units(point[1]))) - down

        a, b, c = self.spot(0, 0), self.spot(1, 0), self.spot(1, 1)
        return (a, b, under(b), under(a)), (b, c, under(c), under(b))


THICK: dict[LayerKind, Fraction] = {
    "caul": Fraction(4, 100), "film": Fraction(0), "leaves": Fraction(5, 1000), "core": Fraction(12, 1000),
}  # fmt: skip


def _layer(layer: Layer, sheet: _Sheet) -> Iterator[Mark]:
    film = layer.kind == "film"
    for side in () if film else sheet.thick(THICK[layer.kind]):
        yield Outline(side, "paper", "joint")
        if layer.kind == "caul":
            yield Hatch(side, 45, close=True)
    fill: Fill = "wood" if layer.kind in ("leaves", "core") else "paper"
    yield Outline(sheet.corners, fill, "joint" if film else "outline", layer.panel if layer.kind == "core" else "")
    if layer.kind == "core":
        yield from _core_grain(sheet)
    if layer.face is not None:
        yield from _leaf_joints(layer.face, sheet)
    yield _said(layer, sheet)


def _core_grain(sheet: _Sheet) -> Iterator[Mark]:
    """Grain lines across the length of the leaves."""
    for at in range(1, GRAIN_LINES):
        yield Line(sheet.spot(Fraction(at, GRAIN_LINES), 0), sheet.spot(Fraction(at, GRAIN_LINES), 1), "joint")


def _leaf_joints(face: FaceMap, sheet: _Sheet) -> Iterator[Mark]:
    """Leaves run along the panel; the first of the face lies at the far edge, its name at the left end."""
    width = sum((Fraction((p.right - p.left).units) for p in face.places), start=Fraction(0)) or Fraction(1)
    at = Fraction(1)
    for place in face.places:
        less = at - Fraction((place.right - place.left).units) / width
        if less > 0:
            yield Line(sheet.spot(0, less), sheet.spot(1, less), "joint")
        at = less


def _said(layer: Layer, sheet: _Sheet) -> Caption:
    """What the layer is, at its right."""
    x, y = sheet.spot(1, Fraction(2, 5))
    text = words(Text((named(layer.face) + " ",), bold=True), layer.says) if layer.face else words(layer.says)
    return Caption((x, y), text, "right", base=half_up(sheet.long * (1 + LEAN)))


def named(face: FaceMap) -> str:
    """The leaves of a face from its left: "P1–P4" where they follow each other, else each by its name."""
    seats = [place.seat for place in face.places]
    found = [seat for seat in seats if seat is not None]
    follows = all(b.billet == a.billet and b.number == a.number + 1 for a, b in pairwise(found))
    if len(found) == len(seats) > 2 and follows:
        return f"{found[0].leaf}–{found[-1].leaf}"
    return " ".join(seat.leaf if seat is not None else "?" for seat in seats)


def _clamps(of: PressingPlan, top: _Sheet) -> Iterator[Mark]:
    """Each clamp's place on the upper caul, numbered in the order of tightening; of too many none."""
    if of.clamps > MOST_CLAMPS:
        return
    for place in clamp_places(of.clamps):
        at = top.spot(place.along, place.across)
        yield Label(at, (Choice(0, (words(Ringed(str(place.number)), size="caption"),)),), knocked_out=False)
