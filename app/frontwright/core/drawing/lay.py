"""Laying a drawing on a ground: marks become ink, fitted to a size or at a scale."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from frontwright.core.drawing.ink import Area, Ink, Spot, extent
from frontwright.core.drawing.inking import Layer
from frontwright.core.drawing.marks import (
    Badge,
    Break,
    Caption,
    Dimension,
    Drawing,
    Label,
    Outline,
    RunningDimension,
    Wall,
)
from frontwright.core.drawing.medium import Medium
from frontwright.core.drawing.shapes import inside
from frontwright.core.drawing.view import Frame, View, plain_view, view_of

SCALES = (1, 2, 5, 10, 20, 50)
BIGGER = (Fraction(1, 5), Fraction(1, 2))  # 5:1 and 2:1, for thin things
_AROUND = (Dimension, RunningDimension, Caption, Wall, Badge, Break)


@dataclass(frozen=True, slots=True)
class Laying:
    """A drawing laid: its ink in order, where it fell, and the shapes that can be selected (the topmost last)."""

    inks: tuple[Ink, ...]
    view: View
    shapes: tuple[tuple[str, tuple[Spot, ...]], ...]

    def subject_at(self, x: float, y: float) -> str:
        """What lies at a spot: the smallest thing there, "" where nothing does."""
        hits = [(_size(spots), subject) for subject, spots in self.shapes if inside(spots, x, y)]
        return min(hits)[1] if hits else ""


def fit(
    drawing: Drawing, medium: Medium, width: float, height: float, selected: str = "", *, most: float | None = None
) -> Laying:
    """The drawing as big as it goes into width and height, its sizes beside it counted in; centred.

    `most`: the greatest scale in ground per unit of length, so that something small is not blown up.
    """
    scale = min(width / (plain_view(drawing, 1).bounds.width or 1), most or float("inf"))
    over = Frame(0, 0, 0, 0)
    for _ in range(4):
        over = overflow(drawing, medium, scale)
        new = _fitting(drawing, width - over.left - over.right, height - over.bottom - over.top, most)
        if abs(new - scale) < 0.002 * scale:
            break
        scale = new
    bounds = plain_view(drawing, scale).ground
    left = over.left + max(width - over.left - over.right - bounds.width, 0) / 2
    bottom = over.bottom + max(height - over.bottom - over.top - bounds.height, 0) / 2
    if not medium.paper:
        left, bottom = float(round(left)), float(round(bottom))
    return lay(drawing, medium, scale, left, bottom, selected)


def natural_height(drawing: Drawing, medium: Medium, width: float) -> float:
    """How high the drawing is, with its sizes beside it, where it fills a width."""
    scale = fit(drawing, medium, width, 1e6).view.scale
    over = overflow(drawing, medium, scale)
    return plain_view(drawing, scale).ground.height + over.bottom + over.top


def _fitting(drawing: Drawing, width: float, height: float, most: float | None) -> float:
    bounds = plain_view(drawing, 1).bounds
    scale = min(max(width, 8) / (bounds.width or 1), max(height, 8) / (bounds.height or 1))
    return min(scale, most) if most else scale


def overflow(drawing: Drawing, medium: Medium, scale: float) -> Frame:
    """How far the sizes beside the drawing reach past its bounds, on each side."""
    view = plain_view(drawing, scale)
    around = [m for m in drawing.marks if isinstance(m, _AROUND) or (isinstance(m, Label) and m.room is None)]
    room = extent([ink for ink in Layer(view, medium, drawing.display, "").beside(around) if not _clears(ink)])
    edge = medium.pixel * 2
    if room is None:
        return Frame(edge, edge, edge, edge)
    ground = view.ground
    return Frame(
        max(ground.left - room[0], 0) + edge,
        max(ground.bottom - room[1], 0) + edge,
        max(room[2] - ground.right, 0) + edge,
        max(room[3] - ground.top, 0) + edge,
    )


def scale_of(drawing: Drawing, medium: Medium, width: float, height: float) -> int | None:
    """The largest of 1:1, 1:2, 1:5, 1:10, 1:20, 1:50 at which it goes on paper (in points), as n of 1:n; None: none."""
    return next((n for n in SCALES if _goes_in(drawing, medium, n, width, height)), None)


def scale_of_thin(drawing: Drawing, medium: Medium, width: float, height: float) -> Fraction | None:
    """The same for something thin, 5:1 and 2:1 counted in: n of 1:n, a fifth or a half for these."""
    scales = (*BIGGER, *map(Fraction, SCALES))
    return next((n for n in scales if _goes_in(drawing, medium, n, width, height)), None)


def _goes_in(drawing: Drawing, medium: Medium, n: Fraction | int, width: float, height: float) -> bool:
    scale = points_per_unit(n)
    over = overflow(drawing, medium, scale)
    bounds = plain_view(drawing, scale).ground
    return bounds.width + over.left + over.right <= width and bounds.height + over.bottom + over.top <= height


def points_per_unit(n: Fraction | int) -> float:
    """Points of paper for a unit of length at the scale 1:n."""
    return float(Fraction(72 * 10, 254) / 80_000 / n)


def lay(drawing: Drawing, medium: Medium, scale: float, left: float, bottom: float, selected: str = "") -> Laying:
    """The drawing at a scale (ground per unit of length), the lower left of its bounds at left, bottom."""
    view = view_of(drawing, scale, left, bottom, medium.least_gap, snap=not medium.paper)
    layer = Layer(view, medium, drawing.display, selected)
    bodies = [ink for mark in drawing.marks for ink in layer.body(mark)]
    outlines = [m for m in drawing.marks if isinstance(m, Outline)]
    chosen = layer.chosen(outlines)
    layer.fills = layer.grounds(outlines)
    notes = layer.beside(drawing.marks)
    shapes = tuple((m.subject, layer.spots(m)) for m in outlines if m.subject)
    return Laying(tuple(_cleared([*bodies, *chosen, *notes], layer)), view, shapes)


def _clears(ink: Ink) -> bool:
    return isinstance(ink, Area) and ink.tone == "clear"


def _cleared(inks: Iterable[Ink], layer: Layer) -> Iterable[Ink]:
    """Knocked-out grounds get the tone of what lies under them."""
    for ink in inks:
        if isinstance(ink, Area) and ink.tone == "clear":
            yield from _ground_of(ink, layer)
        else:
            yield ink


def _ground_of(ink: Area, layer: Layer) -> Iterable[Area]:
    """One area of the tone that lies under it; strips where it reaches over an edge."""
    left, bottom, right, top = extent((ink,)) or (0, 0, 0, 0)
    x, y = (left + right) / 2, (bottom + top) / 2
    if layer.under(left, y) != layer.under(right, y):
        for a, b in pairwise(_steps(left, right)):
            yield Area(((a, bottom), (b, bottom), (b, top), (a, top)), layer.under((a + b) / 2, y))
    elif layer.under(x, bottom) != layer.under(x, top):
        for a, b in pairwise(_steps(bottom, top)):
            yield Area(((left, a), (right, a), (right, b), (left, b)), layer.under(x, (a + b) / 2))
    else:
        yield replace(ink, tone=layer.under(x, y))


def _steps(start: float, end: float) -> list[float]:
    """About a pixel each, on whole pixels, so that strips meet without a seam."""
    low, high = floor(start), ceil(end)
    return [float(at) for at in range(low, high + 1)]


def _size(spots: Sequence[Spot]) -> float:
    room = extent((Area(tuple(spots), ""),)) or (0, 0, 0, 0)
    return (room[2] - room[0]) * (room[3] - room[1])
