"""The small drawings on the choices of a new job: how many doors, how they lie, how they are built."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from frontwright.core.drawing.marks import Box, Drawing, GrainLines, Hatch, HingeLines, Line, Mark, Outline
from frontwright.core.job import DoorKind, Scheme
from frontwright.core.lengths import Display, Length

_SHOWN = Display("mm", Length.mm(1))


def _mm(left: int, bottom: int, right: int, top: int) -> Box:
    return Box(Length.mm(left), Length.mm(bottom), Length.mm(right), Length.mm(top))


def _icon(name: str, bounds: Box, marks: Sequence[Mark]) -> Drawing:
    return Drawing(name, "", tuple(marks), bounds, _SHOWN)


def fronts_icon(doors: Literal[1, 2]) -> Drawing:
    """One door, or a pair, from the front."""
    boxes = [_mm(18, 0, 48, 44)] if doors == 1 else [_mm(0, 0, 31, 44), _mm(35, 0, 66, 44)]
    sides: tuple[Literal["left", "right"], ...] = ("left",) if doors == 1 else ("left", "right")
    marks: list[Mark] = []
    for of, side in zip(boxes, sides, strict=True):
        marks += [Outline(of.corners, "wood"), HingeLines(of, side)]
    return _icon("one door" if doors == 1 else "a pair", _mm(0, 0, 66, 44), marks)


def scheme_icon(scheme: Scheme) -> Drawing:
    """How a front lies on the frame, seen from above: frame hatched, the front before or between."""
    front = {"inset": _mm(16, 15, 70, 27), "partial cover": _mm(8, 0, 78, 13), "full cover": _mm(1, 0, 85, 13)}[scheme]
    marks: list[Mark] = [Outline(front.corners, "wood")]
    for of in (_mm(0, 13, 14, 27), _mm(72, 13, 86, 27)):
        marks += [Outline(of.corners, "paper", "joint"), Hatch(of.corners, 45)]
    return _icon(scheme, _mm(0, 0, 86, 40), marks)


def build_icon(kind: DoorKind) -> Drawing:
    """The upper left corner of a door as it is built, from the front."""
    marks = _slab() if kind == "slab" else _corner(kind)
    return _icon(kind, _mm(0, 0, 80, 52), marks)


def _slab() -> list[Mark]:
    of = _mm(0, 0, 80, 52)
    grain = [GrainLines(of, "vertical", "slab")]
    return [Outline(of.corners, "wood", "none"), *grain, *_outer_edges()]


def _outer_edges() -> list[Mark]:
    return [_line(0, 0, 0, 52, "outline"), _line(0, 52, 80, 52, "outline")]


def _line(x0: int, y0: int, x1: int, y1: int, pen: Literal["outline", "joint", "hidden"] = "joint") -> Line:
    return Line((Length.mm(x0), Length.mm(y0)), (Length.mm(x1), Length.mm(y1)), pen)


def _corner(kind: DoorKind) -> list[Mark]:
    marks: list[Mark] = [
        Outline(_mm(0, 0, 24, 52).corners, "wood", "none"),
        Outline(_mm(24, 28, 80, 52).corners, "wood", "none"),
        *_outer_edges(),
        _line(24, 0, 24, 28, "outline"),
        _line(24, 28, 80, 28, "outline"),
    ]
    return marks + _JOINTS[kind]


_JOINTS: dict[DoorKind, list[Mark]] = {
    "dowelled": [
        _line(24, 28, 24, 52),
        Outline(_mm(13, 32, 35, 36).corners, "none", "hidden"),
        Outline(_mm(13, 43, 35, 47).corners, "none", "hidden"),
    ],
    "stub tenon": [_line(24, 28, 24, 52), _line(14, 0, 14, 52, "hidden"), _line(14, 38, 80, 38, "hidden")],
    "cope and stick": [
        _line(20, 0, 20, 32),
        _line(20, 32, 80, 32),
        _line(16, 0, 16, 36),
        _line(16, 36, 80, 36),
        _line(24, 36, 24, 52),
    ],
    "mitred": [_line(0, 52, 24, 28), _line(18, 0, 18, 34), _line(18, 34, 80, 34)],
    "slab": [],
}
