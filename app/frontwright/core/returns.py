"""Inside edges covered by returns: what an opening is left with (F42), packed out until it is upright where wanted.

The opening is laid on its bottom edge: x to the right from its lower left corner, y up, square to that edge. A lean and
three widths give each side at the bottom, in the middle and at the top; three heights give the top edge.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from frontwright.core.figures import Figure, Term, minus, plus, total
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, down, in_units, up
from frontwright.core.skins import inside_edge
from frontwright.core.survey.openings import reading_error_of
from frontwright.core.survey.result import OpeningPlan

type Spot = tuple[Fraction, Fraction]  # along the edge, and how far out it lies, in units
_ROUNDS = 8  # each brings the top of the rectangle nearer; the lean of any opening makes one enough
_UNIT = Length(1)


@dataclass(frozen=True, slots=True)
class Shape:
    """An opening as it is: x of its sides by height, y of its top edge by x; in units, exact."""

    left: tuple[Spot, ...]
    right: tuple[Spot, ...]
    top: tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class Upright:
    """The largest upright rectangle in an opening, its bottom edge on that of the opening; to one unit."""

    left: Length
    right: Length
    top: Length


@dataclass(frozen=True, slots=True)
class EdgeReturn:
    """The return on one edge: the strip, and what is packed behind it at both ends (low and high, or left and right).

    `most` is strip and packing where they are thickest. `at_middle` is both where the widths of the frame are read:
    so far does the upright edge of a face strip stand from the bare edge, whichever way that one leans.
    """

    side: str
    strip: Figure
    packing: tuple[Figure, Figure]
    most: Figure
    at_middle: Figure

    @property
    def tapered(self) -> bool:
        return any(in_units(end.value) > 0 for end in self.packing)


@dataclass(frozen=True, slots=True)
class CoveredOpening:
    """An opening with its inside edges covered: its returns by side, and the size that is left.

    `widths`, `heights`: top, middle, bottom and left, middle, right; all alike where it was squared. `shift`: how far
    its left edge at mid height and its bottom edge have moved inward.
    """

    opening: str
    returns: dict[str, EdgeReturn]
    widths: tuple[Figure, Figure, Figure]
    heights: tuple[Figure, Figure, Figure]
    shift: tuple[Figure, Figure]
    squared: bool


def covered_opening(index: JobIndex, opening: OpeningPlan) -> CoveredOpening | None:
    """The opening as its returns leave it; None where its inside edges stay bare."""
    strip, row = inside_edge(index, opening.run), index.job.facings.get(opening.run)
    if strip is None or row is None:
        return None
    around = row.inside_edges == "all round"
    if not row.squared:
        return _plain(opening, strip, around=around)
    return _squared(opening, _leaning(index, opening), strip, around=around)


def moved_in(opening: OpeningPlan, found: CoveredOpening, side: str) -> Figure | None:
    """How far an edge of a covered opening lies inward of its bare one, at mid height; None where it stays bare."""
    if side not in found.returns:
        return None
    if side == "left":
        return found.shift[0]
    if side == "right" and found.squared:
        name = f"right edge of {opening.id} moved by"
        return total(name, plus(opening.width), minus(found.shift[0]), minus(found.widths[1]))
    return found.returns[side].strip


def _leaning(index: JobIndex, opening: OpeningPlan) -> Fraction:
    """The lean; one within the reading error counts as none, as in F17 and F20."""
    lean = Fraction(in_units(opening.lean.value)) if opening.lean is not None else Fraction(0)
    return lean if abs(lean) > in_units(reading_error_of(index).value) else Fraction(0)


def _plain(opening: OpeningPlan, strip: Figure, *, around: bool) -> CoveredOpening:
    """F42: the width less two strips; the height likewise where the rails are covered too."""
    none = _nothing("packing")
    sides = ("left", "right", "bottom", "top") if around else ("left", "right")
    returns = {side: EdgeReturn(side, strip, (none, none), strip, strip) for side in sides}
    widths = tuple(_less(size, strip) for size in opening.widths)
    heights = tuple(_less(size, strip) if around else size for size in opening.heights)
    shift = (strip, strip if around else _nothing("bottom edge moved by"))
    return CoveredOpening(opening.id, returns, _three(widths), _three(heights), shift, squared=False)


def _squared(opening: OpeningPlan, lean: Fraction, strip: Figure, *, around: bool) -> CoveredOpening:
    """Returns packed out to the largest upright rectangle, and so thick inside it."""
    shape = shape_of(opening, lean)
    clear = largest_upright(shape) if around else _full_height(shape)
    left, right = clear.left.units, clear.right.units
    returns = {
        "left": _tapered(opening, "left", strip, [left - out for out in _outs(shape.left)]),
        "right": _tapered(opening, "right", strip, [out - right for out in _outs(shape.right)]),
    }
    if around:
        returns["bottom"] = _tapered(opening, "bottom", strip, [Fraction(0)] * 3)
        returns["top"] = _tapered(opening, "top", strip, [out - clear.top.units for out in _outs(shape.top)])
    terms = tuple(Term(size, 0) for size in (*opening.widths, *([opening.lean] if opening.lean is not None else [])))
    upright = Figure(
        f"upright width in {opening.id}", clear.right - clear.left, "derived", "largest upright rectangle", terms
    )
    width = _less(upright, strip)
    high = Figure(f"upright height in {opening.id}", clear.top, "derived", "largest upright rectangle", _idle(opening))
    heights = (_less(high, strip),) * 3 if around else opening.heights
    shift = returns["left"].at_middle
    bottom = strip if around else _nothing("bottom edge moved by")
    return CoveredOpening(opening.id, returns, (width,) * 3, _three(heights), (shift, bottom), squared=True)


def _idle(opening: OpeningPlan) -> tuple[Term, ...]:
    return tuple(Term(size, 0) for size in opening.heights)


def _tapered(opening: OpeningPlan, side: str, strip: Figure, packed: Sequence[Fraction]) -> EdgeReturn:
    """A return by what is packed behind it at one end, in the middle, at the other end."""
    low, middle, high = (max(Fraction(0), one) for one in packed)
    names = ("bottom", "top") if side in ("left", "right") else ("left", "right")
    first, second = (
        Figure(f"packing behind the {side} return of {opening.id}, {name}", end)
        for name, end in zip(names, (low, high), strict=True)
    )
    thicker = first if first.units >= second.units else second
    most = total(f"{side} return of {opening.id} where it is thickest", plus(strip), plus(thicker))
    at_middle = total(
        f"{side} edge of {opening.id} moved by", plus(strip), plus(Figure("packed in the middle", middle))
    )
    return EdgeReturn(side, strip, (first, second), most, at_middle)


def shape_of(opening: OpeningPlan, lean: Fraction) -> Shape:
    """F3 turned into edges: each side leans by the lean, and by half of what top and bottom width differ."""
    top, middle, bottom = (Fraction(in_units(size.value)) for size in opening.widths)
    low, mid, high = (Fraction(in_units(size.value)) for size in opening.heights)  # left, middle, right
    over_left, over_right = lean + (top - bottom) / 2, lean - (top - bottom) / 2
    in_at_middle = ((top + bottom) / 2 - middle) / 2
    left = ((Fraction(0), Fraction(0)), (low / 2, -over_left / 2 + in_at_middle), (low, -over_left))
    right = ((Fraction(0), bottom), (high / 2, bottom - over_right / 2 - in_at_middle), (high, bottom - over_right))
    return Shape(
        left, right, ((-over_left, low), ((bottom - over_left - over_right) / 2, mid), (bottom - over_right, high))
    )


def largest_upright(shape: Shape) -> Upright:
    """The largest upright rectangle on the bottom edge: as high as the top edge over it allows.

    A lower one is only wider by the lean's share of what it loses in height, so the highest is the largest.
    """
    high = min(y for _, y in shape.top)
    for _ in range(_ROUNDS):
        left, right = _sides(shape, high)
        further = min(_over(shape.top, left, right))
        if further <= high:
            break
        high = further
    left, right = _sides(shape, high)
    return Upright(up(left, _UNIT), down(right, _UNIT), down(high, _UNIT))


def _full_height(shape: Shape) -> Upright:
    """As wide as the sides leave it over their whole height; the top edge stays as it is."""
    left, right = max(x for _, x in shape.left), min(x for _, x in shape.right)
    return Upright(up(left, _UNIT), down(right, _UNIT), down(min(y for _, y in shape.top), _UNIT))


def _sides(shape: Shape, high: Fraction) -> tuple[Fraction, Fraction]:
    return max(_over(shape.left, Fraction(0), high)), min(_over(shape.right, Fraction(0), high))


def _over(edge: Sequence[Spot], low: Fraction, high: Fraction) -> list[Fraction]:
    """How far out an edge lies at both ends of a stretch and at its bends between them: its extremes are among them."""
    return [_at(edge, low), _at(edge, high), *(out for along, out in edge if low < along < high)]


def _at(edge: Sequence[Spot], along: Fraction) -> Fraction:
    """How far out an edge lies at one place; beyond its ends it goes on straight."""
    pairs = list(pairwise(edge))
    (a, out_a), (b, out_b) = next((pair for pair in pairs if along <= pair[1][0]), pairs[-1])
    return out_a if a == b else out_a + (out_b - out_a) * (along - a) / (b - a)


def _outs(edge: Sequence[Spot]) -> list[Fraction]:
    """How far out an edge lies at one end, in the middle, at the other end."""
    return [out for _, out in edge]


def _less(size: Figure, strip: Figure) -> Figure:
    return total(f"{size.name}, its edges covered", plus(size), minus(strip, 2))


def _three(sizes: Sequence[Figure]) -> tuple[Figure, Figure, Figure]:
    return sizes[0], sizes[1], sizes[2]


def _nothing(name: str) -> Figure:
    return Figure(name, Length(0), "chosen")
