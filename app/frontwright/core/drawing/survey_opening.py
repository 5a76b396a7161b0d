"""One opening as it was read: the eight figures in the order they are taken, what is out of true drawn ten times."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.drawing.marks import (
    Anchor,
    Choice,
    Drawing,
    Label,
    Line,
    Mark,
    Outline,
    Part,
    Point,
    Ringed,
    Text,
    words,
)
from frontwright.core.drawing.places import around, box, part_way
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.lengths import ZERO, Exact, Length, half_up, in_units
from frontwright.core.plan import Plan
from frontwright.core.survey.result import OpeningPlan

TIMES = 10
MOST = Fraction(1, 10)  # of the opening: what is drawn ten times is drawn no further out of true than this
ORDER = (
    ("width", "top"),
    ("width", "middle"),
    ("width", "bottom"),
    ("height", "left"),
    ("height", "middle"),
    ("height", "right"),
    ("diagonal", "\\"),
    ("diagonal", "/"),
)


@dataclass(frozen=True, slots=True)
class Quad:
    """The four corners, from the lower left round to the right."""

    corners: tuple[tuple[Length, Length], ...]

    def between(self, i: int, j: int, share: Fraction) -> Point:
        (ax, ay), (bx, by) = self.corners[i], self.corners[j]
        return part_way(ax, bx, share), part_way(ay, by, share)


def opening_as_read(plan: Plan, opening_id: str, current: tuple[str, str] | None = None) -> Drawing:
    """An opening with its readings; `current` (what, at) is the one in hand. KeyError if there is no such opening."""
    opening = plan.survey.openings[opening_id]
    quad = _quad(opening)
    shape = Outline(quad.corners, "paper", "outline", opening.id)
    marks: list[Mark] = [shape]
    marks += [Line(quad.corners[i], quad.corners[j], "centre", opening.id) for i, j in ((3, 1), (0, 2))]
    marks += _readings(opening, quad, current)
    xs, ys = [x for x, _ in quad.corners], [y for _, y in quad.corners]
    bounds = around([box(min(xs), min(ys), max(xs), max(ys))])
    return Drawing(
        "as read",
        "front",
        tuple(marks),
        bounds,
        plan.display,
        opening.id,
        notes=tuple(_notes(opening)),
        exaggerated="what is out of true drawn ten times",
    )


def _quad(opening: OpeningPlan) -> Quad:
    wide, high = opening.widths[1].length, opening.heights[1].length
    bottom, top = (wide + _out(f, wide, wide) for f in (opening.widths[2], opening.widths[0]))
    left, right = (high + _out(f, high, high) for f in (opening.heights[0], opening.heights[2]))
    lean = _limited(half_up(Fraction(-opening.lean.units * TIMES)), wide) if opening.lean is not None else ZERO
    over = half_up((bottom - top) / 2) if opening.lean is None else ZERO
    foot = (ZERO, ZERO)
    return Quad((foot, (bottom, ZERO), (lean + over + top, right), (lean + over, left)))


def _out(read: Figure, middle: Length, size: Length) -> Length:
    """Ten times what a reading differs from the middle one."""
    return _limited((read.length - middle) * TIMES, size)


def _limited(out: Length, size: Length) -> Length:
    most = half_up(size * MOST)
    return max(min(out, most), -most)


def _readings(opening: OpeningPlan, quad: Quad, current: tuple[str, str] | None) -> list[Mark]:
    half, centre = Fraction(1, 2), quad.between(0, 2, Fraction(1, 2))
    inner_low, inner_high = quad.between(0, 3, Fraction(28, 100)), quad.between(0, 3, half)
    spots: tuple[Point, ...] = (
        quad.between(3, 2, half),
        (centre[0], inner_high[1]),
        quad.between(0, 1, half),
        quad.between(0, 3, half),
        (centre[0], inner_low[1]),
        quad.between(1, 2, half),
        quad.between(3, 1, Fraction(30, 100)),
        quad.between(0, 2, Fraction(70, 100)),
    )
    figures = (*opening.widths, *opening.heights, *opening.diagonals)
    marks: list[Mark] = []
    # outwards, so that the middle of a small drawing stays free
    anchors = dict[int, Anchor]({3: "right", 5: "left", 6: "right", 7: "left"})
    for at, (spot, figure, order) in enumerate(zip(spots, figures, ORDER, strict=True)):
        ring = Ringed(str(at + 1), filled=current == order)
        parts: tuple[Part, ...] = (ring, figure) if figure is not None else (ring, "…")
        line = (Choice(0, (Text(parts, "figure"),)),)
        marks.append(Label(spot, line, None, anchors.get(at, "centre"), subject=opening.id))
    return marks


def _notes(opening: OpeningPlan) -> list[Text]:
    """What follows from the readings, in short lines."""
    lines = [
        words("Spread ", _spread(opening.width_most, opening.width_least), " in width,", size="caption"),
        words(_spread(opening.height_most, opening.height_least), " in height.", size="caption"),
    ]
    if opening.lean is None:
        lines.append(words("Lean not known: read both diagonals.", size="caption", tone="ink_soft"))
    else:
        value: Exact = opening.lean.value
        way = "left" if in_units(value) > 0 else "right"
        lines.append(
            words("The top stands ", half_up(abs(Fraction(in_units(value)))), f" to the {way}.", size="caption")
        )
    if opening.second_predicted is not None and opening.diagonals[1] is not None:
        lines.append(words("Diagonal / foretold from the", size="caption", tone="ink_soft"))
        foretold: tuple[Part, ...] = ("sides: ", opening.second_predicted, ". Read: ", opening.diagonals[1].value, ".")
        lines.append(words(*foretold, size="caption", tone="ink_soft"))
    if opening.impossible:
        lines.append(words("These four sides and this diagonal close no shape.", size="caption", tone="stop"))
    return lines


def _spread(most: Figure, least: Figure) -> Figure:
    return total("spread", plus(most), minus(least))
