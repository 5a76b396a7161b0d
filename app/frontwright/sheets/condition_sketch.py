"""Two sketches of the condition sheet, to no scale: an open box with its surfaces lettered, a hinge in section."""

from __future__ import annotations

from collections.abc import Mapping

from frontwright.core.job import SurfaceWhere
from frontwright.sheets.pen import OUTLINE, Pen
from frontwright.sheets.words import words

SEVEN = (
    "how many",
    "cover it gives",
    "cup across",
    "cup deep",
    "cup from the edge",
    "plates at",
    "made for doors of",
)
HIGH = 44.0


def open_box(pen: Pen, x: float, y: float, letters: Mapping[SurfaceWhere, str]) -> None:
    """A box with its front off, seen from the front, right and above; letters stand on their surfaces."""
    wide, high, back, member = 48.0, 34.0, 10.0, 5.0
    y += 8
    pen.box(x, y, wide, high, OUTLINE)
    pen.box(x + member, y + member, wide - 2 * member, high - 2 * member - 4, OUTLINE)
    for a, b in (((x, y), (x + back, y - back * 0.7)), ((x + wide, y), (x + wide + back, y - back * 0.7))):
        pen.line(*a, *b, OUTLINE)
    pen.line(x + back, y - back * 0.7, x + wide + back, y - back * 0.7, OUTLINE)
    pen.line(x + wide + back, y - back * 0.7, x + wide + back, y + high - back * 0.7, OUTLINE)
    pen.line(x + wide, y + high, x + wide + back, y + high - back * 0.7, OUTLINE)
    pen.line(x + member, y + member, x + member + 3, y + member + 2.2)
    pen.line(x + member + 3, y + member + 2.2, x + member + 3, y + high - member - 4)
    places: dict[SurfaceWhere, tuple[float, float]] = {
        "faces": (x + wide / 2, y + 3.9),
        "inside edges": (x + member + 1.6, y + high / 2),
        "left end": (x - 3.5, y + high / 2),
        "right end": (x + wide + back / 2, y + high / 2 - 2),
        "underside": (x + wide / 2 - 8, y + high + 3.8),
        "top": (x + wide / 2 + 6, y - 2.0),
        "toe kick": (x + wide / 2 + 8, y + high - 1.2),
        "inside": (x + wide / 2 + 2, y + high / 2 + 2),
    }
    for where, letter in letters.items():
        at, down = places[where]
        pen.words(at, down, words(letter, size=11 if where != "inside edges" else 8, bold=True), "centre")


def hinge_section(pen: Pen, x: float, y: float) -> None:
    """A cup hinge from above, seven places numbered: the box's side, the door over it, the cup bored into its back."""
    pen.box(x + 14, y + 2, 7, 24, OUTLINE)
    pen.words(x + 12.5, y + 14, words("frame", size=7.5), "right")
    pen.box(x + 4, y + 27.5, 62, 9, OUTLINE)
    pen.words(x + 64.5, y + 33.4, words("door", size=7.5), "right")
    pen.clear(x + 24, y + 27.1, 13, 5.6)
    pen.line(x + 24, y + 27.5, x + 24, y + 32.7, OUTLINE)
    pen.line(x + 24, y + 32.7, x + 37, y + 32.7, OUTLINE)
    pen.line(x + 37, y + 32.7, x + 37, y + 27.5, OUTLINE)
    pen.line(x + 27, y + 27, x + 27, y + 16, 0.4)
    pen.box(x + 21, y + 12, 9, 4, 0.4)
    for number, (at, down) in {
        "2": (x + 12.5, y + 41.5),
        "3": (x + 30.5, y + 25.6),
        "4": (x + 40, y + 31),
        "5": (x + 14, y + 33.5),
        "6": (x + 33, y + 15),
        "7": (x + 69, y + 33.4),
    }.items():
        pen.words(at, down, words(number, size=9, bold=True), "centre")
    for left, right, down in ((x + 4, x + 21, y + 38.6), (x + 4, x + 24, y + 30.2)):
        pen.line(left, down, right, down)
        pen.line(left, down - 1, left, down + 1)
        pen.line(right, down - 1, right, down + 1)


def seven_boxes(pen: Pen, x: float, y: float, width: float) -> None:
    """The seven figures of a hinge, numbered, each with a box to write in; two columns."""
    half = (width - 3) / 2
    for at, label in enumerate(SEVEN):
        left, down = x + (at % 2) * (half + 3), y + at // 2 * 10.4
        pen.pencil(left, down, half, 9.4, f"{at + 1}  {label}")
