"""The other laid pieces of a job as strips, one under the other at one scale, unnamed in their parts until chosen."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from frontwright.core.drawing.marks import Choice, Drawing, Label, Mark, Outline, Text, words
from frontwright.core.drawing.places import box
from frontwright.core.lengths import ZERO, Length, half_up
from frontwright.core.plan import Plan
from frontwright.core.stock.result import LayoutPlan

MOST_STRIPS = 8
ROOM, WIDE, CAPTION = 250, 390, 19  # pixels of the look: how high and wide they stand beside a layout, a caption


def strips(plan: Plan, laid: str) -> Drawing | None:
    """All laid pieces but this one; None where there are no others. Of many those that come next."""
    rest = [one for one in plan.stock.layouts if one.id != laid and one.offer.length]
    if not rest:
        return None
    at = next((n for n, one in enumerate(plan.stock.layouts) if one.id == laid), 0)
    first = max(0, min(at - MOST_STRIPS // 2, len(rest) - MOST_STRIPS))
    shown = rest[first : first + MOST_STRIPS]
    long = max((one.offer.length for one in shown), key=lambda one: one.units)
    gap = half_up(long * Fraction(CAPTION, WIDE))
    most = half_up(long * max(Fraction(1, 40), Fraction(ROOM // len(shown) - CAPTION, WIDE)))
    marks: list[Mark] = []
    top = ZERO
    for one in shown:
        low = top - min(one.offer.width, most)
        marks += _strip(plan, one, low, top, long)
        top = low - gap
    bounds = box(ZERO, top + gap, long, gap)
    more = f", {len(rest) - len(shown)} more" if len(rest) > len(shown) else ""
    return Drawing(f"the other pieces{more}: choose one to see it large", "", tuple(marks), bounds, plan.display)


def _strip(plan: Plan, of: LayoutPlan, low: Length, up: Length, long: Length) -> Iterator[Mark]:
    """A piece as a strip, a wide one pressed flat: its own name and size over it, at the right where it lies."""
    yield Outline(box(ZERO, low, of.offer.length, up).corners, "paper", "joint", of.id)
    flat = Fraction((up - low).units, of.offer.width.units)
    for part in of.parts:
        at = low + half_up(part.across * flat)
        inner = box(part.along, at, part.along + part.length, at + half_up(part.width * flat))
        yield Outline(inner.corners, "wood", "joint")
    name = Text((Text((of.id,), bold=True), "  ", of.offer.width, " × ", of.offer.length), "caption")
    middle = up + half_up(long * Fraction(CAPTION, 2 * WIDE))
    inward = half_up(long * Fraction(10, WIDE))
    yield Label((inward, middle), (Choice(0, (name,)),), None, "left", knocked_out=False, subject=of.id)
    used = words(_used(plan, of), size="caption", tone="ink_soft")
    yield Label((long - inward, middle), (Choice(0, (used,)),), None, "right", knocked_out=False, subject=of.id)


def _used(plan: Plan, of: LayoutPlan) -> str:
    piece = plan.job.pieces.get(of.laid.piece or "")
    if piece is not None and piece.shelf:
        return piece.shelf
    share = Fraction(of.content.parts, of.content.all) if of.content.all else Fraction(0)
    return f"{round(share * 100)} % used"
