"""How each mark is inked in one view: outlines inside their edges, knocked-out labels, walls, breaks, findings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from frontwright.core.drawing.dressing import grain_lines, leaf_lines
from frontwright.core.drawing.ink import Area, Circle, Ink, Spot, Stroke, extent, placed
from frontwright.core.drawing.lettering import Laid, grain_arrow, layout_sign
from frontwright.core.drawing.marks import (
    Badge,
    Break,
    Caption,
    Choice,
    Dimension,
    Fill,
    Grain,
    GrainLines,
    Hatch,
    HingeLines,
    Label,
    Line,
    Mark,
    Outline,
    Path,
    Pen,
    Ring,
    RunningDimension,
    Wall,
)
from frontwright.core.drawing.medium import Medium
from frontwright.core.drawing.shapes import hatching, inset, inside
from frontwright.core.drawing.sizing import Sizing
from frontwright.core.drawing.view import Frame, View
from frontwright.core.lengths import MM, Display

FILLS: dict[Fill, str] = {"none": "", "paper": "paper", "wood": "wood", "cut": "wood", "core": "wood", "veneer": "wood"}
FILLS["solid"] = "ink"
HATCH_APART = 8.0
PAPER_HATCH_APART = 1.6 / 0.3
CLOSE = 0.45
SHRINKING = (1.0, 0.85, 0.7, 0.5)
LEAST_LETTERS = 6.0  # points


class Layer:
    """Turns marks into ink for one view."""

    def __init__(self, view: View, medium: Medium, display: Display, selected: str) -> None:
        self.view = view
        self.medium = medium
        self.display = display
        self.selected = selected
        self.fills: list[tuple[tuple[Spot, ...], str]] = []
        self.sizing = Sizing(view, medium, display)

    # --------------------------------------------------------------------------------------------- what is drawn

    def body(self, mark: Mark) -> Sequence[Ink]:
        """What is drawn to scale."""
        if isinstance(mark, Outline):
            return self._outline(mark) if mark.pen != "hidden" or self._shows_hidden else ()
        if isinstance(mark, Line):
            ends = (self.view.spot(mark.a, mark.subject), self.view.spot(mark.b, mark.subject))
            return (self._pen(mark.pen, ends, mark.tone),)
        if isinstance(mark, Path):
            spots = tuple(self.view.spot(point, mark.subject) for point in mark.points)
            return (self._pen(mark.pen, spots, mark.tone),)
        if isinstance(mark, GrainLines):
            return self._dressing(mark)
        if isinstance(mark, HingeLines):
            return self._hinge_lines(mark)
        if isinstance(mark, Hatch):
            return self._hatch(mark)
        if isinstance(mark, Ring):
            return self._ring(mark)
        return ()

    @property
    def _shows_hidden(self) -> bool:
        """Hidden lines would only blur a small drawing on a screen."""
        return self.medium.paper or self.view.length(MM) >= 0.2 * self.medium.pixel

    def spots(self, mark: Outline) -> tuple[Spot, ...]:
        return tuple(self.view.spot(corner, mark.subject) for corner in mark.corners)

    def _outline(self, mark: Outline) -> list[Ink]:
        spots, fill = self.spots(mark), self._fill(mark)
        inks: list[Ink] = [Area(spots, fill)] if fill else []
        width, dash = self.medium.pen(mark.pen)
        if width:
            inks.append(Stroke(inset(spots, width / 2), mark.tone, width, dash, closed=True))
        return inks

    def _fill(self, mark: Outline) -> str:
        fill = FILLS[mark.fill]
        if self.medium.paper and fill != "ink":
            return "paper" if fill else ""
        if mark.subject and mark.subject == self.selected and mark.fill in ("none", "paper"):
            return "wash"
        return fill

    def _pen(self, name: Pen, spots: tuple[Spot, ...], tone: str = "ink") -> Stroke:
        width, dash = self.medium.pen(name)
        return Stroke(spots, tone, width, dash)

    def _dressing(self, mark: GrainLines) -> Sequence[Ink]:
        if self.medium.paper:
            return ()
        frame = self.view.frame(mark.box, mark.subject)
        if mark.leaf:
            upright, turned = mark.along == "vertical", mark.leaf == "turned"
            return tuple(leaf_lines(frame, mark.board, self.medium.pixel, vertical=upright, turned=turned))
        return tuple(grain_lines(frame, mark.board, self.medium.pixel, vertical=mark.along == "vertical"))

    def _hinge_lines(self, mark: HingeLines) -> Sequence[Ink]:
        frame = self.view.frame(mark.box, mark.subject)
        middle_x, middle_y = (frame.left + frame.right) / 2, (frame.bottom + frame.top) / 2
        free, hinge = {
            "left": (((frame.right, frame.top), (frame.right, frame.bottom)), (frame.left, middle_y)),
            "right": (((frame.left, frame.top), (frame.left, frame.bottom)), (frame.right, middle_y)),
            "top": (((frame.left, frame.bottom), (frame.right, frame.bottom)), (middle_x, frame.top)),
        }[mark.side]
        return tuple(self._pen("hinge", (corner, hinge)) for corner in free)

    def _hatch(self, mark: Hatch) -> Sequence[Ink]:
        spots = tuple(self.view.spot(corner, mark.subject) for corner in mark.corners)
        apart = (PAPER_HATCH_APART if self.medium.paper else HATCH_APART) * self.medium.pixel
        apart *= CLOSE if mark.close else 1
        tone = "ink" if self.medium.paper else "wood_grain"
        return tuple(
            Stroke(ends, tone if mark.pen == "joint" else "ink", self.medium.thin)
            for ends in hatching(spots, mark.angle, apart)
        )

    def _ring(self, mark: Ring) -> Sequence[Ink]:
        x, y = self.view.spot(mark.at)
        width, dash = self.medium.pen(mark.pen)
        radius = 4 * self.medium.pixel if mark.diameter is None else self.view.length(mark.diameter) / 2
        inks: list[Ink] = [Circle(x, y, max(radius, 2 * self.medium.pixel), "ink", width, "" if dash else "paper")]
        if mark.cross:
            reach = max(radius, 2 * self.medium.pixel) + 3 * self.medium.pixel
            thin = self.medium.thin
            inks += [
                Stroke(((x - reach, y), (x + reach, y)), "ink", thin),
                Stroke(((x, y - reach), (x, y + reach)), "ink", thin),
            ]
        return inks

    # ------------------------------------------------------------------------------------------------- selection

    def chosen(self, outlines: Sequence[Outline]) -> list[Ink]:
        """The outline of the selected thing, in blue, with four corner brackets inside."""
        if self.medium.paper or not self.selected:
            return []
        found = [m for m in outlines if m.subject == self.selected]
        if not found:
            return []
        px = self.medium.pixel
        inks: list[Ink] = []
        for spots in map(self.spots, found):
            inks.append(Stroke(inset(spots, 1.5 * px), "blue", 3 * px, closed=True))
            room = extent((Area(spots, ""),)) or (0, 0, 0, 0)
            if room[2] - room[0] > 44 * px and room[3] - room[1] > 44 * px:
                inks += [_corner(room, i, px) for i in range(4)]
        return inks

    def grounds(self, outlines: Sequence[Outline]) -> list[tuple[tuple[Spot, ...], str]]:
        """Fills in order of drawing, to knock texts out of."""
        return [(self.spots(m), fill) for m in outlines if (fill := self._fill(m))]

    def under(self, x: float, y: float) -> str:
        """The tone that lies at a spot."""
        return next((fill for spots, fill in reversed(self.fills) if inside(spots, x, y)), "paper")

    # ------------------------------------------------------------------------------------------- what is written

    def beside(self, marks: Sequence[Mark]) -> list[Ink]:
        """Sizes, words and signs."""
        self.sizing.prepare(m for m in marks if isinstance(m, Dimension))
        inks = [ink for mark in marks for ink in self._note(mark)]
        inks += self.sizing.captions([m for m in marks if isinstance(m, Caption)])
        for mark in marks:
            if isinstance(mark, Dimension):
                inks += self.sizing.dimension(mark)
            elif isinstance(mark, RunningDimension):
                inks += self.sizing.running(mark)
        return inks

    def _note(self, mark: Mark) -> Sequence[Ink]:
        if isinstance(mark, Label):
            return self._label(mark)
        if isinstance(mark, Grain):
            return self._grain(mark)
        if isinstance(mark, Wall):
            return self._wall(mark)
        if isinstance(mark, Break):
            return self._break(mark)
        if isinstance(mark, Badge):
            return self._badge(mark)
        return ()

    def _grain(self, mark: Grain) -> Sequence[Ink]:
        x, y = self.view.spot(mark.at, mark.subject)
        px = self.medium.pixel
        reach = 32 * px if mark.reach is None else self.view.length(mark.reach)
        horizontal = mark.along == "horizontal"
        start = (x - reach / 2, y) if horizontal else (x, y - reach / 2)
        return grain_arrow(*start, reach, horizontal=horizontal, px=px, width=1.2 * self.medium.thin)

    def _label(self, mark: Label) -> Sequence[Ink]:
        lines = self._lines(mark)
        x, y = self.view.spot(mark.at, mark.subject)
        gap = 1.5 * self.medium.pixel
        height = sum(line.height for line in lines) + gap * (len(lines) - 1)
        inks: list[Ink] = []
        inward = (5 if mark.hangs else -10) * self.medium.pixel  # what does not hang straddles the line it stands on
        top = -5 * self.medium.pixel if mark.hangs else height / 2
        for line in lines:
            start = {"centre": -line.width / 2, "left": inward, "right": -line.width - inward}[mark.anchor]
            baseline = top - line.up
            if mark.knocked_out:
                inks.append(_ground(start, baseline, line, self.medium.pixel))
            inks += line.at(start, baseline)
            top -= line.height + gap
        return placed(inks, x, y, mark.turned)

    def _lines(self, mark: Label) -> list[Laid]:
        """The first way to label that has room; the selected thing always gets at least the shortest one.

        On paper, where nothing can be enlarged, letters give way before a size is left out.
        """
        if mark.room is None:
            return self._set(mark.choices[0], 1)
        frame = self.view.frame(mark.room, mark.subject)
        shrinking = SHRINKING if self.medium.paper else (1.0,)
        said = len(mark.choices) - (1 if len(mark.choices) > 2 else 0)  # the last of many is a name or an arrow alone
        tries = [(choice, by) for by in shrinking for choice in mark.choices[:said]]
        tries += [(choice, 1.0) for choice in mark.choices[said:]]
        for choice, by in (way for way in tries if self._readable(*way)):
            lines = self._set(choice, by)
            if self._has_room(mark, choice, lines, frame):
                return lines
        return self._set(mark.choices[-1], 1) if mark.subject and mark.subject == self.selected else []

    def _readable(self, choice: Choice, by: float) -> bool:
        return by == 1 or by * min(self.medium.sizes[line.size] for line in choice.lines) >= LEAST_LETTERS

    def _set(self, choice: Choice, by: float) -> list[Laid]:
        medium = self.medium
        if by != 1:
            medium = replace(medium, sizes={size: em * by for size, em in medium.sizes.items()})
        return [medium.line(text, self.display) for text in choice.lines]

    def _has_room(self, mark: Label, choice: Choice, lines: Sequence[Laid], frame: Frame) -> bool:
        across = max(line.width for line in lines) + 6 * self.medium.pixel
        down = sum(line.height + 1.5 * self.medium.pixel for line in lines) + 4 * self.medium.pixel
        if mark.turned:
            across, down = down, across
        wide_enough = self.medium.paper or frame.width >= choice.least * self.medium.pixel
        return wide_enough and across <= frame.width and down <= frame.height

    @property
    def _beyond(self) -> float:
        """How far walls and breaks reach past what is drawn; less on paper, where it would cost a scale."""
        return (6 if self.medium.paper else 10) * self.medium.pixel

    def _wall(self, mark: Wall) -> Sequence[Ink]:
        (ax, ay), (bx, by) = self.view.spot(mark.a), self.view.spot(mark.b)
        px = self.medium.pixel
        width, _ = self.medium.pen("wall")
        long = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 or 1.0
        dx, dy = (bx - ax) / long, (by - ay) / long
        over = self._beyond
        start, length = (ax - dx * over, ay - dy * over), long + 2 * over
        end = (start[0] + dx * length, start[1] + dy * length)
        ox, oy = {"left": (-1, 0), "right": (1, 0), "above": (0, 1), "below": (0, -1)}[mark.side]
        inks: list[Ink] = [Stroke((start, end), "ink", width)]
        at = 9 * px
        while at <= length:
            x, y = start[0] + dx * at, start[1] + dy * at
            tick = (x + 8 * px * (ox - abs(dx)), y + 8 * px * (oy - abs(dy)))
            inks.append(Stroke(((x, y), tick), "ink", self.medium.thin))
            at += 11 * px
        return inks

    def _break(self, mark: Break) -> Sequence[Ink]:
        (x, ay), (_, by) = self.view.spot(mark.a), self.view.spot(mark.b)
        px, middle = self.medium.pixel, (ay + by) / 2
        out = {"left": -1, "right": 1}.get(mark.side or "", 0)
        x += out * 10 * px
        low, high = min(ay, by) - self._beyond, max(ay, by) + self._beyond
        zig = (x, low), (x, middle - 9 * px), (x - 7 * px, middle - 3 * px), (x + 7 * px, middle + 3 * px)
        inks: list[Ink] = [Stroke((*zig, (x, middle + 9 * px), (x, high)), "ink", self.medium.thin)]
        if mark.letter:
            letter = self.medium.lettering(self.display).line((mark.letter,), self.medium.sizes["id"], bold=True)
            beyond_sizes = x - letter.width - 14 * px
            inks += letter.at(x + 5 * px if out > 0 else beyond_sizes, low + 4 * px)
        return inks

    def _badge(self, mark: Badge) -> Sequence[Ink]:
        x, y = self.view.spot(mark.at)
        em, px = self.medium.sizes["word"], self.medium.pixel
        line = layout_sign(mark.level, em)
        if mark.text is not None:
            text = self.medium.line(mark.text, self.display)
            line = Laid(
                line.inks + text.at(line.width, 0),
                line.width + text.width,
                max(line.up, text.up),
                max(line.down, text.down),
                0,
            )
        away = {"right": 12 * px, "left": -12 * px - line.width}.get(mark.side or "", -line.width / 2)
        up = {"above": 12 * px, "below": -12 * px - line.up}.get(mark.side or "", -0.36 * em)
        return (*((_ground(x + away, y + up, line, px),) if mark.side is None else ()), *line.at(x + away, y + up))


def _ground(start: float, baseline: float, line: Laid, px: float) -> Area:
    left, right = start - 3 * px, start + line.width + 3 * px
    low, high = baseline - line.down, baseline + line.up + px
    return Area(((left, low), (right, low), (right, high), (left, high)), "clear")


def _corner(room: tuple[float, float, float, float], which: int, px: float) -> Stroke:
    """One of the four brackets, 8 inside the corners."""
    left, bottom, right, top = room[0] + 8 * px, room[1] + 8 * px, room[2] - 8 * px, room[3] - 8 * px
    x, dx = (left, 10 * px) if which in (0, 3) else (right, -10 * px)
    y, dy = (bottom, 10 * px) if which in (0, 1) else (top, -10 * px)
    return Stroke(((x + dx, y), (x, y), (x, y + dy)), "blue", 2 * px)
