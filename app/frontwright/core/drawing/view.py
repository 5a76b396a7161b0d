"""A drawing seen at a scale: where its points fall on the ground, with narrow gaps kept open."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import floor

from frontwright.core.drawing.ink import Spot
from frontwright.core.drawing.marks import Box, Drawing, Outline, Point, Side
from frontwright.core.lengths import Exact, in_units


@dataclass(frozen=True, slots=True)
class Frame:
    """A rectangle of the ground, or of the drawing in plain numbers."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.top - self.bottom


def frame_of(box: Box) -> Frame:
    """A box in plain numbers of units."""
    return Frame(
        float(in_units(box.left)), float(in_units(box.bottom)), float(in_units(box.right)), float(in_units(box.top))
    )


@dataclass(frozen=True, slots=True)
class View:
    """`scale`: ground per unit of length; `left`, `bottom`: where the lower left of the bounds falls.

    `moved`: where fronts that yield to keep a gap open lie, beside where they would have lain.
    """

    bounds: Frame
    scale: float
    left: float
    bottom: float
    moved: Mapping[str, tuple[Frame, Frame]] = field(default_factory=dict)

    def x(self, x: Exact, subject: str = "") -> float:
        plain = self.left + (float(in_units(x)) - self.bounds.left) * self.scale
        if subject not in self.moved:
            return plain
        was, now = self.moved[subject]
        return now.left + (plain - was.left) * (now.width / was.width if was.width else 1)

    def y(self, y: Exact, subject: str = "") -> float:
        plain = self.bottom + (float(in_units(y)) - self.bounds.bottom) * self.scale
        if subject not in self.moved:
            return plain
        was, now = self.moved[subject]
        return now.bottom + (plain - was.bottom) * (now.height / was.height if was.height else 1)

    def spot(self, point: Point, subject: str = "") -> Spot:
        return self.x(point[0], subject), self.y(point[1], subject)

    def frame(self, box: Box, subject: str = "") -> Frame:
        return Frame(
            self.x(box.left, subject), self.y(box.bottom, subject), self.x(box.right, subject), self.y(box.top, subject)
        )

    def length(self, length: Exact) -> float:
        return float(in_units(length)) * self.scale

    @property
    def ground(self) -> Frame:
        """The bounds of the drawing on the ground."""
        width, height = self.bounds.width * self.scale, self.bounds.height * self.scale
        return Frame(self.left, self.bottom, self.left + width, self.bottom + height)

    def edge(self, side: Side, base: Exact | None) -> float:
        """Where lanes on a side are counted from."""
        if base is not None:
            return self.x(base) if side in ("left", "right") else self.y(base)
        ground = self.ground
        return {"left": ground.left, "right": ground.right, "above": ground.top, "below": ground.bottom}[side]


def plain_view(drawing: Drawing, scale: float, left: float = 0.0, bottom: float = 0.0) -> View:
    """The view at a scale, every gap as wide as it comes out."""
    return View(frame_of(drawing.bounds), scale, left, bottom)


def view_of(drawing: Drawing, scale: float, left: float, bottom: float, least_gap: float, *, snap: bool) -> View:
    """The view at a scale, no gap narrower than `least_gap`. On a screen (`snap`) edges of fronts fall between pixels,
    so that lines stay sharp."""
    view = plain_view(drawing, scale, left, bottom)
    yielding = [m for m in drawing.marks if isinstance(m, Outline) and m.yields]
    if not yielding:
        return view
    was = [view.frame(m.box) for m in yielding]
    now = [_rounded(frame) for frame in was] if snap else was
    now = _opened(now, least_gap)
    moved = {m.subject: (a, b) for m, a, b in zip(yielding, was, now, strict=True)}
    return View(view.bounds, scale, left, bottom, moved)


def _rounded(frame: Frame) -> Frame:
    return Frame(*(float(round(edge)) for edge in (frame.left, frame.bottom, frame.right, frame.top)))


def _opened(frames: Sequence[Frame], least: float) -> list[Frame]:
    """Frames whose gaps are under `least` give way on both sides, each by its part."""
    lefts, rights, bottoms, tops = _edges(frames)
    for i, a in enumerate(frames):
        for j, b in enumerate(frames):
            if i != j and _beside(a.bottom, a.top, b.bottom, b.top):
                _part(rights, lefts, i, j, a.right, b.left, a.width, b.width, least)
            if i != j and _beside(a.left, a.right, b.left, b.right):
                _part(tops, bottoms, i, j, a.top, b.bottom, a.height, b.height, least)
    return [Frame(*edges) for edges in zip(lefts, bottoms, rights, tops, strict=True)]


def _edges(frames: Sequence[Frame]) -> tuple[list[float], list[float], list[float], list[float]]:
    return (
        [f.left for f in frames],
        [f.right for f in frames],
        [f.bottom for f in frames],
        [f.top for f in frames],
    )


def _beside(low: float, high: float, other_low: float, other_high: float) -> bool:
    return min(high, other_high) - max(low, other_low) > 1


def _part(
    ends: list[float],
    begins: list[float],
    i: int,
    j: int,
    end: float,
    begin: float,
    one: float,
    other: float,
    least: float,
) -> None:
    """Draw the end of i and the beginning of j apart where they nearly meet; both keep most of their own size."""
    gap = begin - end
    if not -least < gap < least or min(one, other) < 3 * least:
        return
    give = (least - gap) / 2
    first = float(floor(give)) if end.is_integer() and begin.is_integer() else give  # sharp edges stay sharp
    ends[i] = min(ends[i], end - first)
    begins[j] = max(begins[j], begin - first + (least - gap))
