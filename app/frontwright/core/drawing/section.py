"""A section through the hinge stile and the panel, seen from above: for the screen, and at full size for the bench."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

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
    def tongue(self) -> Length | None:
        """How thick a panel is left at its edge by a rabbet of its own; None where it goes in as it is."""
        chain = self.made.chain
        return chain.tongue.length if chain is not None and chain.tongue is not None else None

    @property
    def rear_rabbet(self) -> bool:
        """Whether the panel lies in a rabbet of the frame."""
        return self.made.chain is not None and self.made.chain.rabbet_depth is not None and self.tongue is None

    @property
    def reach(self) -> Length:
        """How far groove or rabbet goes into the stile."""
        if self.rear_rabbet and self.made.chain is not None and self.made.chain.rabbet_width is not None:
            return self.made.chain.rabbet_width.length
        return self.build.engagement.length

    @property
    def recess(self) -> tuple[Length, Length]:
        """Lowest and highest place of groove or rabbet in the thickness."""
        if self.rear_rabbet and self.made.chain is not None and self.made.chain.rabbet_depth is not None:
            return self.thick - self.made.chain.rabbet_depth.length, self.thick
        groove = self.made.groove_width or self.build.panel.thickness
        low = half_up((self.thick - groove.length) / 2)
        return low, low + groove.length

    @property
    def panel(self) -> tuple[Length, Length]:
        """Lowest and highest place of the panel; of a tongued one the tongue lies in the groove, its rabbet behind."""
        thick = self.made.panels[0].thickness.length if self.made.panels else self.build.panel.thickness.length
        low, high = self.recess
        held = self.tongue or thick
        bottom = low if self.rear_rabbet else half_up((low.units + high.units) / Fraction(2)) - half_up(held / 2)
        return bottom, bottom + thick

    @property
    def panel_steps(self) -> tuple[tuple[Length, Length], ...]:
        """Where the panel ends in the stile and how high it is up to there: whole, then its tongue where it has one."""
        bottom, top = self.panel
        end, chain = self.start + self.reach - self.build.clearance.length, self.made.chain
        if self.tongue is None or chain is None or chain.rabbet_width is None:
            return ((end, top),)
        return (end - chain.rabbet_width.length, top), (end, bottom + self.tongue)


def section(plan: Plan, front_id: str, *, bored: bool = False) -> Drawing | None:
    """The section at a cup of a framed front; None for a slab without a cup. KeyError if there is no such front.

    `bored`: for the drill press, with less of the panel and the depth of the cup.
    """
    front = plan.fronts.fronts[front_id]
    made = plan.making.fronts.get(front_id)
    cup = plan.hardware.cups.get(front_id) if front.hinge_side in ("left", "right") else None
    if made is None or (made.slab and cup is None):
        return None
    stile = length_of(made.stile) or half_up(front.width.length / 4)
    cut = Cut(made, cup, half_up(stile * Fraction(1 if bored else 3, 4)) if not made.slab else ZERO)
    marks = [*_panel(cut), *_stile(cut, stile), *_sizes(cut, stile, bored=bored), *_faces(cut, stile)]
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
    bottom, top = cut.panel
    spots: list[Point] = [(ZERO, top)]
    for end, high in cut.panel_steps:
        spots += [(spots[-1][0], high), (end, high)]
    spots += [(spots[-1][0], bottom), (ZERO, bottom)]
    marks: list[Mark] = [Outline(tuple(spots[1:]), "core", "none"), *_layers(cut)]
    marks += [Line(a, b, "outline") for a, b in pairwise(spots[1:])]
    return [*marks, Break((ZERO, bottom), (ZERO, top))]


def _layers(cut: Cut) -> Iterator[Mark]:
    """Leaf, core, leaf from the show face back, or the one wood of a panel, as far as each reaches into the stile."""
    bottom, top = cut.panel
    leaf = half_up((top - bottom - cut.build.panel.core.length) / 2)
    veneered = cut.build.panel.kind == "veneered"
    levels = (bottom, bottom + leaf, top - leaf, top) if veneered and leaf > ZERO else (bottom, top)
    start = ZERO
    for end, high in cut.panel_steps:
        for at, (low, up) in enumerate(pairwise(levels)):
            core = veneered and (len(levels) == 2 or at == 1)
            if low < high:
                yield Hatch(box(start, low, end, min(up, high)).corners, 0 if core else -45)
            if at and low < high:
                yield Line((start, low), (end, low), "joint")
        start = end


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


def _sizes(cut: Cut, stile: Length, *, bored: bool) -> list[Mark]:
    left, right, thick = cut.start, cut.start + stile, cut.thick
    marks: list[Mark] = [Dimension((right, ZERO), (right, thick), "right", cut.build.thickness)]
    if cut.made.stile is not None:
        marks.append(Dimension((left, ZERO), (right, ZERO), "below", cut.made.stile))
    if cut.cup is not None:
        far, near = right - cut.cup.far_edge.length, right - (cut.cup.far_edge.length - cut.cup.diameter.length)
        middle = part_way(far, near, Fraction(2, 3) if bored else Fraction(1, 2))
        floor = thick - cut.cup.depth.length
        wall = total("from the cup to the edge", plus(cut.cup.far_edge), minus(cut.cup.diameter))
        marks.append(Dimension((far, thick), (near, thick), "above", cut.cup.diameter))
        marks.append(Dimension((near, thick), (right, thick), "above", wall))
        marks.append(Dimension((middle, ZERO), (middle, floor), "left", cut.cup.floor_left, 0, middle))
        if bored:
            deep = part_way(far, near, Fraction(1, 3))
            marks.append(Dimension((deep, floor), (deep, thick), "left", cut.cup.depth, 0, deep, bold=True))
    if not cut.made.slab and not bored:
        panel = cut.made.panels[0].thickness if cut.made.panels else cut.build.panel.thickness
        bottom, top = cut.panel
        at = part_way(ZERO, cut.start, Fraction(1, 2))
        ends = (at, bottom), (at, top)
        marks.append(Dimension(*ends, "left", panel, 0, at, "arrow"))
    return marks
