"""A section through the hinge stile and the panel, seen from above: for the screen, and at full size for the bench."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.drawing.marks import (
    Break,
    Caption,
    Dimension,
    Drawing,
    Hatch,
    Line,
    Mark,
    Outline,
    Point,
    words,
)
from frontwright.core.drawing.places import box, length_of, part_way
from frontwright.core.figures import minus, plus, total
from frontwright.core.hardware.result import CupPlan
from frontwright.core.lengths import IN_SIXTYFOURTHS, IN_TENTH_MM, ZERO, Display, Length, half_up
from frontwright.core.making.result import BuildPlan, FrontMaking
from frontwright.core.plan import Plan


@dataclass(frozen=True, slots=True)
class Cut:
    """What the section goes through. x from the panel's broken end to the hinge edge, y from the show face back."""

    made: FrontMaking
    cup: CupPlan | None
    start: Length

    @property
    def build(self) -> BuildPlan:
        return self.made.build

    @property
    def thick(self) -> Length:
        return self.build.thickness.length

    @property
    def edge(self) -> Length:
        """The hinge edge."""
        return self.start + length_of(self.made.stile)

    @property
    def rear_rabbet(self) -> bool:
        return self.made.chain is not None and self.made.chain.rabbet_depth is not None

    @property
    def reach(self) -> Length:
        """How far groove or rabbet goes into the stile."""
        if self.made.chain is not None and self.made.chain.rabbet_width is not None:
            return self.made.chain.rabbet_width.length
        return self.build.engagement.length

    @property
    def recess(self) -> tuple[Length, Length]:
        """Lowest and highest place of groove or rabbet in the thickness."""
        if self.made.chain is not None and self.made.chain.rabbet_depth is not None:
            return self.thick - self.made.chain.rabbet_depth.length, self.thick
        groove = self.made.groove_width or self.build.panel.thickness
        low = half_up((self.thick - groove.length) / 2)
        return low, low + groove.length


def section(plan: Plan, front_id: str) -> Drawing | None:
    """The section at a cup of a framed front; None for a slab without a cup. KeyError if there is no such front."""
    front = plan.fronts.fronts[front_id]
    made = plan.making.fronts.get(front_id)
    cup = plan.hardware.cups.get(front_id) if front.hinge_side in ("left", "right") else None
    if made is None or (made.slab and cup is None):
        return None
    stile = length_of(made.stile) or half_up(front.width.length / 4)
    cut = Cut(made, cup, half_up(stile * Fraction(3, 4)) if not made.slab else ZERO)
    marks = [*_panel(cut), *_stile(cut, stile), *_sizes(cut, stile), *_faces(cut, stile)]
    bounds = box(ZERO, ZERO, cut.start + stile, cut.thick)
    title = "section at a cup, hinge stile" if cup is not None else "section, stile and panel"
    seen = (words("seen from above", size="caption"),)
    return Drawing(title, "", tuple(marks), bounds, finer(plan.display), front_id, seen)


def finer(display: Display) -> Display:
    """Thicknesses are measured more closely than fronts: to a tenth of a millimetre, or a 64th of an inch."""
    finest = IN_TENTH_MM if display.unit == "mm" else IN_SIXTYFOURTHS
    return finest if finest.step < display.step and not display.decimals else display


def _stile(cut: Cut, stile: Length) -> list[Mark]:
    """The stile cut through: less groove or rabbet, less the cup bored from the back."""
    left, right, thick = cut.start, cut.start + stile, cut.thick
    corners: list[Point] = [(left, ZERO), (right, ZERO), (right, thick)]
    if cut.cup is not None:
        floor = thick - cut.cup.depth.length
        near = right - (cut.cup.far_edge.length - cut.cup.diameter.length)
        far = right - cut.cup.far_edge.length
        corners += [(near, thick), (near, floor), (far, floor), (far, thick)]
    corners += _recess(cut, left)
    shape = tuple(corners)
    return [Outline(shape, "cut", "none"), Hatch(shape, 45), Outline(shape, "none", "outline")]


def _recess(cut: Cut, left: Length) -> list[Point]:
    """The left side of the stile from the back down: a groove, a rabbet, or plain for a slab."""
    if cut.made.slab:
        return [(left, cut.thick)]
    low, high = cut.recess
    inner = left + cut.reach
    if cut.rear_rabbet:
        return [(inner, cut.thick), (inner, low), (left, low)]
    return [(left, cut.thick), (left, high), (inner, high), (inner, low), (left, low)]


def _panel(cut: Cut) -> list[Mark]:
    """The panel from a break into its groove or rabbet: core across, leaves on both faces where it is veneered."""
    if cut.made.slab:
        return []
    low, high = cut.recess
    thick = cut.made.panels[0].thickness.length if cut.made.panels else cut.build.panel.thickness.length
    bottom = low if cut.rear_rabbet else half_up((low.units + high.units) / Fraction(2)) - half_up(thick / 2)
    top = bottom + thick
    end = cut.start + cut.reach - cut.build.clearance.length
    whole = box(ZERO, bottom, end, top)
    angle: Literal[-45, 0] = -45 if cut.build.panel.kind != "veneered" else 0
    marks: list[Mark] = [Outline(whole.corners, "core", "none")]
    leaf = half_up((thick - cut.build.panel.core.length) / 2)
    if cut.build.panel.kind == "veneered" and leaf > ZERO:
        core = box(ZERO, bottom + leaf, end, top - leaf)
        marks.append(Hatch(core.corners, angle))
        marks += [Hatch(box(ZERO, y, end, y + leaf).corners, -45) for y in (bottom, top - leaf)]
        marks += [Line((ZERO, y), (end, y), "joint") for y in (bottom + leaf, top - leaf)]
    else:
        marks.append(Hatch(whole.corners, angle))
    marks += [Line((ZERO, y), (end, y), "outline") for y in (bottom, top)]
    return [*marks, Line((end, bottom), (end, top), "outline"), Break((ZERO, bottom), (ZERO, top))]


def _faces(cut: Cut, stile: Length) -> list[Mark]:
    """Which face is which, and the faces drawn on past the stile in thin lines."""
    spots = (cut.thick, "back"), (ZERO, "show face")
    if cut.made.slab:
        at = part_way(cut.start, cut.start + stile, Fraction(1, 2))
        sides = zip(spots, ("above", "below"), strict=True)
        return [Caption((at, y), words(word, size="caption", tone="ink_soft"), side, 2) for (y, word), side in sides]  # type: ignore[arg-type]
    return [
        *(Line((ZERO, y), (cut.start, y), "joint") for y, _ in spots),
        Caption((ZERO, cut.thick), words("back", size="caption", tone="ink_soft"), "above", 1, anchor="left"),
        Caption((ZERO, ZERO), words("show face", size="caption", tone="ink_soft"), "below", 1, anchor="left"),
    ]


def _sizes(cut: Cut, stile: Length) -> list[Mark]:
    left, right, thick = cut.start, cut.start + stile, cut.thick
    marks: list[Mark] = [Dimension((right, ZERO), (right, thick), "right", cut.build.thickness)]
    if cut.made.stile is not None:
        marks.append(Dimension((left, ZERO), (right, ZERO), "below", cut.made.stile))
    if cut.cup is not None:
        far, near = right - cut.cup.far_edge.length, right - (cut.cup.far_edge.length - cut.cup.diameter.length)
        middle = part_way(far, near, Fraction(1, 2))
        floor = thick - cut.cup.depth.length
        wall = total("from the cup to the edge", plus(cut.cup.far_edge), minus(cut.cup.diameter))
        marks.append(Dimension((far, thick), (near, thick), "above", cut.cup.diameter))
        marks.append(Dimension((near, thick), (right, thick), "above", wall))
        marks.append(Dimension((middle, ZERO), (middle, floor), "left", cut.cup.floor_left, 0, middle))
    if not cut.made.slab:
        panel = cut.made.panels[0].thickness if cut.made.panels else cut.build.panel.thickness
        low, high = cut.recess
        bottom = low if cut.rear_rabbet else half_up((low.units + high.units) / Fraction(2)) - half_up(panel.length / 2)
        at = part_way(ZERO, cut.start, Fraction(1, 2))
        ends = (at, bottom), (at, bottom + panel.length)
        marks.append(Dimension(*ends, "left", panel, 0, at, "arrow"))
    return marks
