"""Ink: what is left to do once a drawing is laid on a ground of so many pixels or points.

Positions are plain numbers of the ground, x to the right and y up from its lower left corner. A player (of the window,
of the sheets) draws these four kinds of ink and decides nothing; tones are names of a palette's roles.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

type Spot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through spots; `dash` is in widths of the ground (on, off, ...), empty for a solid one."""

    spots: tuple[Spot, ...]
    tone: str = "ink"
    width: float = 1.0
    dash: tuple[float, ...] = ()
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Area:
    """A filled shape without a line."""

    spots: tuple[Spot, ...]
    tone: str


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle round x, y; `fill` is the tone inside, empty for none; no line where the width is 0."""

    x: float
    y: float
    radius: float
    tone: str = "ink"
    width: float = 1.0
    fill: str = ""


@dataclass(frozen=True, slots=True)
class Glyphs:
    """Letters from the start of their baseline; `turned` ones are read from the right (they run upwards)."""

    text: str
    x: float
    y: float
    em: float
    width: float
    bold: bool = False
    tone: str = "ink"
    turned: bool = False


type Ink = Stroke | Area | Circle | Glyphs


def placed(inks: Iterable[Ink], x: float, y: float, turned: bool = False) -> tuple[Ink, ...]:
    """Ink laid round 0, 0 put at x, y; turned, it runs upwards."""

    def spot(u: float, v: float) -> Spot:
        return (x - v, y + u) if turned else (x + u, y + v)

    def move(ink: Ink) -> Ink:
        if isinstance(ink, (Circle, Glyphs)):
            new_x, new_y = spot(ink.x, ink.y)
            moved = replace(ink, x=new_x, y=new_y)
            return replace(moved, turned=turned) if isinstance(moved, Glyphs) else moved
        return replace(ink, spots=tuple(spot(u, v) for u, v in ink.spots))

    return tuple(move(ink) for ink in inks)


def extent(inks: Iterable[Ink]) -> tuple[float, float, float, float] | None:
    """Left, bottom, right and top of all ink; None where there is none."""
    corners = [corner for ink in inks for corner in _corners(ink)]
    if not corners:
        return None
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def _corners(ink: Ink) -> Sequence[Spot]:
    if isinstance(ink, Circle):
        reach = ink.radius + ink.width / 2
        return (ink.x - reach, ink.y - reach), (ink.x + reach, ink.y + reach)
    if isinstance(ink, Glyphs):
        up, down = ink.em * 0.78, ink.em * 0.24
        if ink.turned:
            return (ink.x - up, ink.y), (ink.x + down, ink.y + ink.width)
        return (ink.x, ink.y - down), (ink.x + ink.width, ink.y + up)
    return ink.spots
