"""What a drawing is made of: marks in exact lengths, x to the right and y up, each knowing what it belongs to.

Marks say what a thing is (an outline of wood, a hidden line, a dimension), never how many pixels it takes: that follows
when a drawing is laid on a ground (`ink`). A mark's `subject` is the id of what it belongs to, "" where it belongs to
nothing that can be selected.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.findings import CheckLevel
from frontwright.core.lengths import Display, Exact, in_units

type Point = tuple[Exact, Exact]
Pen = Literal["outline", "joint", "hidden", "hinge", "centre", "assumed", "wall", "none"]
Fill = Literal["none", "paper", "wood", "cut", "core", "veneer", "solid"]
Side = Literal["left", "right", "above", "below"]
Size = Literal["caption", "word", "figure", "id", "entry"]
Tone = Literal["ink", "ink_soft", "blue", "assumed", "as_built", "note", "warn", "stop"]
Anchor = Literal["centre", "left", "right"]


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle."""

    left: Exact
    bottom: Exact
    right: Exact
    top: Exact

    @property
    def corners(self) -> tuple[Point, ...]:
        """From the lower left one, round to the right."""
        return (self.left, self.bottom), (self.right, self.bottom), (self.right, self.top), (self.left, self.top)


@dataclass(frozen=True, slots=True)
class Ringed:
    """A number in a ring (the order of reading); `filled` for the one in hand, `clear` where it stands on lines."""

    text: str
    filled: bool = False
    clear: bool = False


@dataclass(frozen=True, slots=True)
class Arrow:
    """A double arrow along the grain, standing between words."""

    along: Literal["vertical", "horizontal"]


@dataclass(frozen=True, slots=True)
class Sign:
    """The mark of a finding: ring, triangle or stop block."""

    level: CheckLevel


type Part = str | Figure | Exact | Ringed | Arrow | Sign | Text


@dataclass(frozen=True, slots=True)
class Text:
    """One line of words and figures; a `Figure` is shown by its source, a bare length in the tone of the line.

    A text within a text keeps its own weight and tone, at the size of the line.
    """

    parts: tuple[Part, ...]
    size: Size = "word"
    bold: bool = False
    tone: Tone = "ink"


def words(*parts: Part, size: Size = "word", bold: bool = False, tone: Tone = "ink") -> Text:
    """A line of text."""
    return Text(parts, size, bold, tone)


@dataclass(frozen=True, slots=True)
class Line:
    a: Point
    b: Point
    pen: Pen = "joint"
    subject: str = ""
    tone: Tone = "ink"


@dataclass(frozen=True, slots=True)
class Path:
    """An open line through points: the way that an edge takes as a door turns."""

    points: tuple[Point, ...]
    pen: Pen = "joint"
    subject: str = ""
    tone: Tone = "ink"


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed shape; its line lies inside the edge. `yields`: the gap beside it is never drawn too narrow to see."""

    corners: tuple[Point, ...]
    fill: Fill = "none"
    pen: Pen = "outline"
    subject: str = ""
    yields: bool = False
    tone: Tone = "ink"

    @property
    def box(self) -> Box:
        """The upright rectangle round it."""
        xs, ys = [x for x, _ in self.corners], [y for _, y in self.corners]
        return Box(_least(xs), _least(ys), _most(xs), _most(ys))


@dataclass(frozen=True, slots=True)
class Hatch:
    """Section hatching of a closed shape: 45 degrees rising or falling, across or upright; `close` for narrow ones."""

    corners: tuple[Point, ...]
    angle: Literal[45, -45, 0, 90] = 45
    subject: str = ""
    pen: Pen = "joint"
    close: bool = False


@dataclass(frozen=True, slots=True)
class GrainLines:
    """Grain as dressing, on wood only; parts of one `board` have lines that run on from one to the next.

    `leaf`: instead each has the same figure, as neighbours in the tree have, mirrored where the leaf is turned.
    """

    box: Box
    along: Literal["vertical", "horizontal"]
    board: str
    subject: str = ""
    leaf: Literal["", "open", "turned"] = ""


@dataclass(frozen=True, slots=True)
class Grain:
    """The double arrow that says how the grain runs; `reach`: its whole length where it spans something, else short."""

    at: Point
    along: Literal["vertical", "horizontal"]
    subject: str = ""
    reach: Exact | None = None


@dataclass(frozen=True, slots=True)
class HingeLines:
    """Two dashed lines from the free corners to mid height of the hinge edge."""

    box: Box
    side: Literal["left", "right", "top"]
    subject: str = ""


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle to scale (a cup, with its centre cross) or, without `diameter`, a small one (a datum)."""

    at: Point
    diameter: Exact | None = None
    cross: bool = False
    pen: Pen = "outline"
    subject: str = ""


@dataclass(frozen=True, slots=True)
class Dimension:
    """A size between two points, measured along x (above, below) or y (left, right).

    `lane` counts dimension lines outwards from `base` (a coordinate across the measured way), from the edge of the
    whole drawing without it; lane 0 lies on the base itself. How it ends follows from the drawing: taped ones have
    arrowheads, worked-out ones strokes. An assumed figure has brackets and a dashed line. `outside`: where the figure
    goes when there is no room between the ends.
    """

    a: Point
    b: Point
    side: Side
    figure: Figure
    lane: int = 1
    base: Exact | None = None
    ends: Literal["stroke", "arrow"] = "stroke"
    before: str = ""
    after: str = ""
    bold: bool = False
    subject: str = ""
    outside: Literal["after", "before"] = "after"


@dataclass(frozen=True, slots=True)
class Stop:
    """One position of a running dimension, and where its extension line starts."""

    at: Exact
    figure: Figure
    reach: Exact | None = None
    name: str = ""
    subject: str = ""


@dataclass(frozen=True, slots=True)
class RunningDimension:
    """Positions from one edge: a small circle at the datum, an arrowhead at each position.

    `base` is the coordinate across the measured way that the lane counts from, else the edge of the drawing.
    `level`: figures under or over the line stand level instead of along their stops; left of a line inside the drawing
    (lane 0) too.
    """

    datum: Point
    stops: tuple[Stop, ...]
    side: Side
    lane: int = 1
    base: Exact | None = None
    zero: bool = True
    words: str = ""
    subject: str = ""
    level: bool = False


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to label: the least width of its room in pixels of the screen, and the lines."""

    least: int
    lines: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class Label:
    """Words inside a thing, on a knocked-out ground. The first choice that has room is taken.

    `room` is the box whose width decides and into which the lines must go (None: always the first).
    `turned`: read from the right. `hangs`: below the point instead of round it.
    """

    at: Point
    choices: tuple[Choice, ...]
    room: Box | None = None
    anchor: Anchor = "centre"
    knocked_out: bool = True
    subject: str = ""
    turned: bool = False
    hangs: bool = False


@dataclass(frozen=True, slots=True)
class Caption:
    """Words beside the drawing: at a point of it, on one side, so many rows out from the edge (or from `base`).

    `from_scale`: left out on a screen where a millimetre takes less than so many hundredths of a pixel.
    """

    at: Point
    text: Text
    side: Side
    lane: int = 1
    base: Exact | None = None
    anchor: Anchor = "centre"
    stub: bool = False
    subject: str = ""
    from_scale: int = 0


@dataclass(frozen=True, slots=True)
class Wall:
    """A wall or floor from a to b: a thick line, hatched on its `side`."""

    a: Point
    b: Point
    side: Side
    subject: str = ""


@dataclass(frozen=True, slots=True)
class Break:
    """Where the drawing is broken off: a thin line with one zigzag, and the letter under which it goes on.

    `side`: it stands a little outside the line a to b, on that side.
    """

    a: Point
    b: Point
    letter: str = ""
    side: Side | None = None


@dataclass(frozen=True, slots=True)
class Badge:
    """A finding at its place in the drawing, with its figure beside it."""

    at: Point
    level: CheckLevel
    text: Text | None = None
    side: Side | None = None
    subject: str = ""


type Mark = (
    Line
    | Path
    | Outline
    | Hatch
    | GrainLines
    | Grain
    | HingeLines
    | Ring
    | Dimension
    | RunningDimension
    | Label
    | Caption
    | Wall
    | Break
    | Badge
)


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing as a value. `bounds`: what is drawn to scale; dimensions and captions stand outside it.

    `strip`: cells of the title strip after the title. `notes`: lines beside the drawing. `exaggerated`: what is drawn
    too big, in words, else empty. `subject`: what the drawing as a whole is about.
    """

    title: str
    seen_from: str
    marks: tuple[Mark, ...]
    bounds: Box
    display: Display
    subject: str = ""
    strip: tuple[Text, ...] = ()
    notes: tuple[Text, ...] = ()
    exaggerated: str = ""

    @property
    def wide(self) -> bool:
        """2.2 times as wide as high or more: such a drawing lies across the top of a page."""
        width = in_units(self.bounds.right) - in_units(self.bounds.left)
        height = in_units(self.bounds.top) - in_units(self.bounds.bottom)
        return width * 10 >= height * 22

    @property
    def subjects(self) -> tuple[str, ...]:
        """Everything in it that can be selected, in the order of drawing, each once."""
        return tuple(dict.fromkeys(m.subject for m in self.marks if isinstance(m, Outline) and m.subject))


def _least(values: list[Exact]) -> Exact:
    return min(values, key=in_units)


def _most(values: list[Exact]) -> Exact:
    return max(values, key=in_units)
