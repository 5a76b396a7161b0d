"""What a drawing is laid on: sizes of letters and lines for the screen, the wall and the bench."""

from __future__ import annotations

from dataclasses import dataclass

from frontwright.core.drawing.lettering import Laid, Lettering, Measure
from frontwright.core.drawing.marks import Pen, Size, Text
from frontwright.core.lengths import Display

# Widths and patterns in pixels of the screen; on paper half a millimetre a pixel for patterns, a quarter for widths.
PENS: dict[Pen, tuple[float, tuple[float, ...]]] = {
    "outline": (2, ()),
    "joint": (1, ()),
    "hidden": (1, (5, 3)),
    "hinge": (1, (7, 4)),
    "centre": (1, (12, 3, 2, 3)),
    "assumed": (1, (14, 3, 2, 3, 2, 3)),
    "wall": (3, ()),
    "none": (0, ()),
}
SCREEN: dict[Size, float] = {"caption": 12, "word": 13, "figure": 14, "id": 13, "entry": 18}
WALL: dict[Size, float] = {"caption": 9, "word": 10, "figure": 21, "id": 13, "entry": 22}
BENCH: dict[Size, float] = {"caption": 9, "word": 9.5, "figure": 12, "id": 12, "entry": 16}
MM = 72 / 25.4  # points
PAPER_PIXEL = 0.3 * MM  # strokes, arrowheads and what is kept clear
PAPER_LINE = 0.25 * MM  # a line one pixel wide on the screen
HALF_MM = 0.5 * MM


@dataclass(frozen=True, slots=True)
class Medium:
    """A ground to lay drawings on.

    `pixel`: how much of the ground one pixel of the look is (a screen's scaling; 0.3 mm on paper, in points).
    `sizes`: letters, in units of the ground. `bold`: every figure is bold. `paper`: black lines, no wood tone.
    """

    measure: Measure
    pixel: float
    sizes: dict[Size, float]
    paper: bool = False
    bold: bool = False

    def lettering(self, display: Display) -> Lettering:
        return Lettering(self.measure, display, 0.0 if self.paper else self.pixel)

    def line(self, text: Text, display: Display) -> Laid:
        """A line of text at the sizes of this ground."""
        bold = text.bold or (self.bold and text.size in ("figure", "id", "entry"))
        return self.lettering(display).line(text.parts, self.sizes[text.size], bold, text.tone)

    def pen(self, pen: Pen) -> tuple[float, tuple[float, ...]]:
        """Width and pattern of a pen on this ground."""
        width, dash = PENS[pen]
        line, part_of = (PAPER_LINE, HALF_MM) if self.paper else (self.pixel, self.pixel)
        return width * line, tuple(part * part_of for part in dash)

    @property
    def thin(self) -> float:
        return self.pen("joint")[0]

    @property
    def least_gap(self) -> float:
        """No gap is drawn narrower: two lines of outline must stay two."""
        return HALF_MM if self.paper else 3 * self.pixel


def screen(measure: Measure, pixel: float = 1.0) -> Medium:
    """The screen at a scaling."""
    return Medium(measure, pixel, {size: em * pixel for size, em in SCREEN.items()})


def wall(measure: Measure) -> Medium:
    """A sheet read at 1.2 m, in points."""
    return Medium(measure, PAPER_PIXEL, dict(WALL), paper=True, bold=True)


def bench(measure: Measure) -> Medium:
    """A sheet read at arm's length, in points."""
    return Medium(measure, PAPER_PIXEL, dict(BENCH), paper=True)
