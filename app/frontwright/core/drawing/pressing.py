"""A pressing taken apart: caul, film, leaves, core with its grain, leaves, film, caul; clamp places numbered.

Panels in a row lie beside each other in every layer; those of a stack one over the other, the smaller in the middle.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
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
from frontwright.core.job import CoreGrain
from frontwright.core.lengths import ZERO, Length, half_up, in_units
from frontwright.core.making.result import PanelPart
from frontwright.core.plan import Plan
from frontwright.core.veneer.result import PressingPlan

LayerKind = Literal["caul", "film", "leaves", "core"]

DEEP = Fraction(20, 100)  # how deep a layer looks, of its length
LEAN = Fraction(16, 100)  # how far its far edge lies to the right, of its length
STEP = Fraction(15, 100)  # from layer to layer, of the length
GRAIN_LINES = 28
CORE_SAYS: dict[CoreGrain, str] = {
    "across": "core, grain across",
    "along": "core, grain along",
    "none": "core, no grain",
}
MOST_SAID = 16  # more letters for the leaves of a level would leave no room for the drawing
MOST_CLAMPS = 40  # more cannot be told apart in the drawing


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of one panel, or what lies over and under all: what it is, how it lies, and its leaves from the left as
    seen on their own face. `level`: counted from the bed; the panels of a row share theirs."""

    kind: LayerKind
    says: str
    level: int
    panel: str = ""
    face: FaceMap | None = None
    grain: CoreGrain = "across"


@dataclass(frozen=True, slots=True)
class ClampPlace:
    """A clamp's place by the order of tightening; `along`, `across` as shares of what lies there, from lower left."""

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
    """What lies on what, from the bed up; panels that are stacked have a film between them."""
    found = [Layer("caul", "caul, in the bag" if pressing.in_bag else "caul, on the bed", 0)]
    found.append(Layer("film", "release film", 1))
    each = [[part] for part in pressing.panels] if pressing.lie == "stacked" else [list(pressing.panels)]
    for parts in each:
        if parts is not each[0]:
            found.append(Layer("film", "release film", found[-1].level + 1, parts[0]))
        found += _panels(plan, parts, found[-1].level + 1)
    found.append(Layer("film", "release film", found[-1].level + 1))
    found.append(Layer("caul", "caul", found[-1].level + 1))
    if pressing.in_bag:
        found.append(Layer("film", "mesh and the bag", found[-1].level + 1))
    return tuple(found)


def _panels(plan: Plan, parts: Sequence[str], level: int) -> Iterator[Layer]:
    """The three layers of panels that lie beside each other."""
    those = [panel_of(plan, part)[1] for part in parts]
    for panel in those:
        yield Layer("leaves", "show, face down", level, panel.part, face_map(plan, panel, "show"))
    for panel in those:
        grain = core_grain(plan, panel)
        yield Layer("core", CORE_SAYS[grain], level + 1, panel.part, grain=grain)
    for panel in those:
        yield Layer("leaves", "back, face up", level + 2, panel.part, face_map(plan, panel, "back"))


def core_grain(plan: Plan, panel: PanelPart) -> CoreGrain:
    """How the grain of a panel's core runs to its leaves."""
    return plan.making.fronts[panel.front].build.panel.core_grain


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


def clamps_apart(pressing: PressingPlan) -> Figure | None:
    """From one pair of clamps to the next, along what lies in the press; None for a single pair, or in a bag."""
    stations = stations_of(pressing.clamps)
    return share("clamps apart", pressing.lying.length, stations) if stations > 1 and not pressing.in_bag else None


def pressing(plan: Plan, pressing_id: str) -> Drawing:
    """The pressing taken apart, seen from the front and above. KeyError if there is none of this id."""
    of = pressing_of(plan, pressing_id)
    long, stack = of.lying.length.length, layers(plan, of)
    places = _places(plan, of)
    marks: list[Mark] = []
    for layer in stack:
        sheet = _Sheet(long, half_up(long * STEP) * layer.level)
        marks += _layer(layer, places[layer.panel].on(sheet) if layer.panel in places else sheet)
    levels = [[layer for layer in stack if layer.level == at] for at in range(stack[-1].level + 1)]
    for at, level in enumerate(levels):
        marks.append(_said(level, _Sheet(long, half_up(long * STEP) * at)))
    top = _Sheet(long, half_up(long * STEP) * max(layer.level for layer in stack if layer.kind == "caul"))
    marks += _clamps(of, top)
    high = half_up(long * STEP) * stack[-1].level + half_up(long * DEEP)
    bounds = box(ZERO, half_up(long * -THICK["caul"]), long + half_up(long * LEAN), high)
    return Drawing(f"pressing {of.id}, taken apart", "", tuple(marks), bounds, finer(plan.display), of.id)


# ----------------------------------------------------------------------------------------------------- what is drawn


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A layer in space: its length, how high its near edge lies in the drawing, and the part of the package that it
    covers, as shares of its length and depth. `turned`: its leaves run across the length."""

    long: Length
    low: Length
    left: Fraction = Fraction(0)
    right: Fraction = Fraction(1)
    near: Fraction = Fraction(0)
    far: Fraction = Fraction(1)
    turned: bool = False

    def spot(self, along: Fraction | int, across: Fraction | int) -> Point:
        """A place on it by shares of its own length and depth, from the near left corner."""
        x_share = self.left + (self.right - self.left) * Fraction(along)
        deep = self.near + (self.far - self.near) * Fraction(across)
        x = half_up(self.long * x_share) + half_up(self.long * (LEAN * deep))
        return x, self.low + half_up(self.long * (DEEP * deep))

    def cut(self, at: Fraction, *, across: bool) -> tuple[Point, Point]:
        """A line on it at a share of its depth, or of its length."""
        return (self.spot(at, 0), self.spot(at, 1)) if across else (self.spot(0, at), self.spot(1, at))

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


@dataclass(frozen=True, slots=True)
class _Part:
    """Where a panel lies in the package, as shares of its length and depth."""

    left: Fraction
    right: Fraction
    near: Fraction
    far: Fraction
    turned: bool

    def on(self, sheet: _Sheet) -> _Sheet:
        return _Sheet(sheet.long, sheet.low, self.left, self.right, self.near, self.far, self.turned)


def _places(plan: Plan, of: PressingPlan) -> dict[str, _Part]:
    """Each panel in the middle of a stack; in a row one after the other, end to end or side to side."""
    long, wide = Fraction(of.lying.length.units), Fraction(of.lying.width.units)
    found: dict[str, _Part] = {}
    at = Fraction(0)
    panels = [panel_of(plan, part)[1] for part in of.panels]
    ended = sum(_sides(p)[0] for p in panels) <= long
    for panel in panels:
        length, width = (side / whole for side, whole in zip(_sides(panel), (long, wide), strict=True))
        left, near = (1 - length) / 2, (1 - width) / 2
        if of.lie != "stacked" and len(panels) > 1:
            left, near = (at, near) if ended else (left, at)
            at += length if ended else width
        turned = panel.core_along is not None and Fraction(panel.core_along.units) / long < length
        found[panel.part] = _Part(left, left + length, near, near + width, turned)
    return found


def _sides(panel: PanelPart) -> tuple[Fraction, Fraction]:
    """The long and the short side of a panel's core."""
    sides = (panel.core_along or panel.along, panel.core_across or panel.across)
    short, long = sorted(Fraction(side.units) for side in sides)
    return long, short


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
    if layer.kind == "core" and layer.grain != "none":
        yield from _core_lines(sheet, across=(layer.grain == "across") != sheet.turned)
    if layer.face is not None:
        yield from _leaf_joints(layer.face, sheet)


def _core_lines(sheet: _Sheet, *, across: bool) -> Iterator[Mark]:
    """Grain lines across the length of the leaves, or along it."""
    count = GRAIN_LINES if across else GRAIN_LINES // 3
    for at in range(1, count):
        yield Line(*sheet.cut(Fraction(at, count), across=across), "joint")


def _leaf_joints(face: FaceMap, sheet: _Sheet) -> Iterator[Mark]:
    """Leaves run along the panel; the first of the face lies at the far edge, its name at the left end."""
    width = sum((Fraction((p.right - p.left).units) for p in face.places), start=Fraction(0)) or Fraction(1)
    at = Fraction(1)
    for place in face.places:
        less = at - Fraction((place.right - place.left).units) / width
        if less > 0:
            yield Line(*sheet.cut(less, across=sheet.turned), "joint")
        at = less


def _said(level: Sequence[Layer], sheet: _Sheet) -> Caption:
    """What lies at one level, at its right; of a row the leaves of each panel, where they are not too many to say."""
    x, y = sheet.spot(1, Fraction(2, 5))
    names = _leaves_of(level)
    short = 0 < len(names) <= MOST_SAID
    text = words(Text((names + " ",), bold=True), level[0].says) if short else words(level[0].says)
    return Caption((x, y), text, "right", base=half_up(sheet.long * (1 + LEAN)))


def _leaves_of(level: Sequence[Layer]) -> str:
    """The leaves of every face at one level; empty where no leaves lie."""
    return ", ".join(named(layer.face) for layer in level if layer.face is not None)


def named(face: FaceMap) -> str:
    """The leaves of a face from its left: "P1–P4" where they follow each other, else each by its name."""
    seats = [place.seat for place in face.places]
    found = [seat for seat in seats if seat is not None]
    follows = all(b.billet == a.billet and b.number == a.number + 1 for a, b in pairwise(found))
    if len(found) == len(seats) > 2 and follows:
        return f"{found[0].leaf}–{found[-1].leaf}"
    return " ".join(seat.leaf if seat is not None else "?" for seat in seats)


def _clamps(of: PressingPlan, top: _Sheet) -> Iterator[Mark]:
    """Each clamp's place on the upper caul, numbered in the order of tightening; of too many, and of a bag, none."""
    if of.in_bag or of.clamps > MOST_CLAMPS:
        return
    for place in clamp_places(of.clamps):
        at = top.spot(place.along, place.across)
        yield Label(at, (Choice(0, (words(Ringed(str(place.number)), size="caption"),)),), knocked_out=False)
