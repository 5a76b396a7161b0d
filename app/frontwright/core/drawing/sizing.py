"""How sizes stand beside a drawing: dimension lines in lanes, positions from one edge, captions and their stubs.

Everything runs along a line whose text stands on its upper side; a line that runs upwards is the same, turned, and is
read from the right.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from frontwright.core.drawing.ink import Area, Circle, Ink, Spot, Stroke, extent, placed
from frontwright.core.drawing.lettering import Laid, tone_of
from frontwright.core.drawing.marks import Caption, Dimension, RunningDimension, Side, Stop, Text
from frontwright.core.drawing.medium import Medium
from frontwright.core.drawing.shapes import spread
from frontwright.core.drawing.view import View
from frontwright.core.lengths import MM, Display, Exact, in_units

UPRIGHT_SIDES: tuple[Side, ...] = ("left", "right")


@dataclass(slots=True)
class Sizing:
    """Lays what stands beside a drawing; `taken` are the texts laid so far, which later ones keep clear of."""

    view: View
    medium: Medium
    display: Display
    taken: list[tuple[float, float, float, float]] = field(default_factory=list)
    ends: dict[tuple[Side, int, Exact | None], list[float]] = field(default_factory=dict)

    @property
    def text_height(self) -> float:
        """The room a line of figures takes: more where fractions are stacked."""
        stacked = self.display.unit == "in" and not self.display.decimals
        return self.medium.sizes["figure"] * (1.62 if stacked else 1.05)

    def lane(self, side: Side, lane: int, base: Exact | None, *, running: bool = False) -> float:
        """Where a lane runs, across the measured way; figures of a running one stand beyond its line."""
        edge = self.view.edge(side, base)
        if lane == 0:
            return edge
        px = self.medium.pixel
        first = 16 * px if running or side in ("left", "above") else 9 * px + self.text_height
        away = first + (lane - 1) * (self.text_height + 9 * px)
        return edge + away if side in ("right", "above") else edge - away

    def prepare(self, dimensions: Iterable[Dimension]) -> None:
        """Ends of a chain that nearly meet share one stroke."""
        for mark in dimensions:
            upright = mark.side in UPRIGHT_SIDES
            ends = self.ends.setdefault((mark.side, mark.lane, mark.base), [])
            ends += [self._along(mark.a, upright, mark.subject), self._along(mark.b, upright, mark.subject)]

    def _along(self, point: tuple[Exact, Exact], upright: bool, subject: str = "") -> float:
        return self.view.y(point[1], subject) if upright else self.view.x(point[0], subject)

    def _across(self, point: tuple[Exact, Exact], upright: bool, subject: str = "") -> float:
        return self.view.x(point[0], subject) if upright else self.view.y(point[1], subject)

    def _shared(self, mark: Dimension, u: float) -> float:
        near = [
            v for v in self.ends.get((mark.side, mark.lane, mark.base), []) if abs(v - u) < 1.2 * self.medium.least_gap
        ]
        return (min(near) + max(near)) / 2 if near else u

    # ------------------------------------------------------------------------------------------------- dimensions

    def dimension(self, mark: Dimension) -> tuple[Ink, ...]:
        """One size between two points."""
        upright = mark.side in UPRIGHT_SIDES
        first, second = sorted((mark.a, mark.b), key=lambda p: in_units(p[1] if upright else p[0]))
        line = self.lane(mark.side, mark.lane, mark.base)
        u0 = self._shared(mark, self._along(first, upright, mark.subject))
        u1 = self._shared(mark, self._along(second, upright, mark.subject))
        feet = [self._across(p, upright, mark.subject) - line for p in (first, second)]
        if upright:
            feet = [-foot for foot in feet]
        tone = tone_of(mark.figure)
        inks = [*self._extensions((u0, u1), feet), *self._line(u0, u1, mark, tone)]
        text = self._text(mark)
        x, y = (line, 0.0) if upright else (0.0, line)
        inks += self._place_text(text, u0, u1, (x, y), mark)
        if mark.before:
            word = self.medium.line(Text((mark.before,), "caption", tone="ink_soft"), self.display)
            inks += word.at(u0 - 9 * self.medium.pixel - word.width, -0.3 * self.medium.sizes["caption"])
        return placed(inks, x, y, upright)

    def _text(self, mark: Dimension) -> Laid:
        parts = (mark.figure, mark.after) if mark.after else (mark.figure,)
        return self.medium.line(Text(parts, "figure", mark.bold), self.display)

    def _extensions(self, ends: Sequence[float], feet: Sequence[float]) -> list[Ink]:
        """From 4 clear of the thing to 5 beyond the line."""
        px, inks = self.medium.pixel, list[Ink]()
        for u, foot in zip(ends, feet, strict=True):
            if abs(foot) <= 8 * px:
                continue
            way = 1 if foot > 0 else -1
            inks.append(Stroke(((u, foot - way * 4 * px), (u, -way * 5 * px)), "ink", self.medium.thin))
        return inks

    def _line(self, u0: float, u1: float, mark: Dimension, tone: str) -> list[Ink]:
        px, thin = self.medium.pixel, self.medium.thin
        dash = tuple(part * px for part in (5, 3)) if mark.figure.rests else ()
        inks: list[Ink] = [Stroke(((u0, 0), (u1, 0)), tone, thin, dash)]
        if mark.ends == "stroke":
            return inks + [self._stroke(u, tone) for u in (u0, u1)]
        if u1 - u0 < 20 * px:
            outer = ((u0 - 12 * px, 0.0), (u0, 0.0)), ((u1, 0.0), (u1 + 12 * px, 0.0))
            inks += [Stroke(spots, tone, thin) for spots in outer]
            return [*inks, arrowhead(u0, 1, px, tone), arrowhead(u1, -1, px, tone)]
        return [*inks, arrowhead(u0, -1, px, tone), arrowhead(u1, 1, px, tone)]

    def _stroke(self, u: float, tone: str) -> Stroke:
        reach = 4 * self.medium.pixel
        return Stroke(((u - reach, -reach), (u + reach, reach)), tone, 1.5 * self.medium.thin)

    def _place_text(self, text: Laid, u0: float, u1: float, origin: Spot, mark: Dimension) -> tuple[Ink, ...]:
        """The first of: above the middle, beyond the end, before the beginning, above the end, that is free."""
        px, upright = self.medium.pixel, mark.side in UPRIGHT_SIDES
        over = 3.5 * px + (text.down if len(text.inks) > 1 else 0)
        middle = -0.36 * self.medium.sizes["figure"]
        places = [
            (u1 + 9 * px, middle),
            (u0 - 9 * px - text.width, middle),
            ((u0 + u1 - text.width) / 2, over),
            (u1 + 9 * px, middle + text.height),
            (u1 + 9 * px, middle - text.height),
        ]
        if mark.outside == "before":
            places[:2] = places[1::-1]
        if text.width <= u1 - u0 - (2 if self.medium.paper else 6) * px:
            places.insert(0, ((u0 + u1 - text.width) / 2, over))
        rest = places[0]
        for u, v in places:
            if self._free(placed(text.at(u, v), *origin, upright)):
                rest = (u, v)
                break
        inks = text.at(*rest)
        self._take(placed(inks, *origin, upright))
        self._take(placed([Stroke(((u0 - 4 * px, -3 * px), (u1 + 4 * px, 3 * px)), "ink")], *origin, upright))
        ground = Area(
            _rectangle(rest[0] - px, rest[1] - text.down, rest[0] + text.width + px, rest[1] + text.up), "clear"
        )
        return (ground, *inks)

    def _free(self, inks: Sequence[Ink]) -> bool:
        room = extent(inks)
        return room is not None and not any(_overlap(room, other) for other in self.taken)

    def _take(self, inks: Sequence[Ink]) -> None:
        room = extent(inks)
        if room is not None:
            self.taken.append(room)

    # ------------------------------------------------------------------------------------------ running dimensions

    def running(self, mark: RunningDimension) -> tuple[Ink, ...]:
        """Positions from a circle at the datum, an arrowhead at each, figures fanned out where they crowd."""
        upright = mark.side in UPRIGHT_SIDES
        line = self.lane(mark.side, mark.lane, mark.base, running=True)
        px, thin = self.medium.pixel, self.medium.thin
        stops = list(mark.stops)
        at = [self._stop(stop.at, upright) for stop in stops]
        zero = self._along(mark.datum, upright)
        furthest = [min([zero, *at]), max([zero, *at])]
        inks: list[Ink] = [Stroke(((furthest[0], 0), (furthest[1], 0)), "ink", thin)]
        for stop, u in zip(stops, at, strict=True):
            foot = self._foot(stop, mark, line, upright)
            inks += self._extensions((u,), (foot,))
            inks.append(arrowhead(u, 1 if u >= zero else -1, px, tone_of(stop.figure)))
        inks.append(Circle(zero, 0, 4 * px, "ink", 1.5 * thin, "paper"))
        inks += self._extensions((zero,), (self._foot_of(mark.datum, line, upright),))
        x, y = (line, 0.0) if upright else (0.0, line)
        return placed(inks, x, y, upright) + self._fan(mark, stops, at, zero, line)

    def _stop(self, at: Exact, upright: bool) -> float:
        return self.view.y(at) if upright else self.view.x(at)

    def _foot(self, stop: Stop, mark: RunningDimension, line: float, upright: bool) -> float:
        reach = stop.reach
        if reach is None:
            return self._foot_of(mark.datum, line, upright)
        return -(self.view.x(reach) - line) if upright else self.view.y(reach) - line

    def _foot_of(self, point: tuple[Exact, Exact], line: float, upright: bool) -> float:
        return -(self.view.x(point[0]) - line) if upright else self.view.y(point[1]) - line

    def _fan(
        self, mark: RunningDimension, stops: Sequence[Stop], at: Sequence[float], zero: float, line: float
    ) -> tuple[Ink, ...]:
        """The figures beyond the line, each joined to its place by a bent one."""
        texts = [
            self.medium.line(Text((stop.name, stop.figure) if stop.name else (stop.figure,), "figure"), self.display)
            for stop in stops
        ]
        wanted = list(at)
        if mark.zero:
            word = (mark.words,) if mark.words else ("0",)
            texts.insert(0, self.medium.line(Text(word, "word" if mark.words else "figure"), self.display))
            wanted.insert(0, zero)
        if mark.side in UPRIGHT_SIDES:
            if mark.level and mark.lane == 0 and mark.side == "left":
                return self._fan_inside(texts, wanted, line)
            return self._fan_beside(mark.side, texts, wanted, line)
        if mark.level:
            return self._fan_level(mark.side, texts, wanted, line)
        return self._fan_under(mark.side, texts, wanted, line)

    def _fan_under(self, side: Side, texts: Sequence[Laid], wanted: Sequence[float], line: float) -> tuple[Ink, ...]:
        px, way = self.medium.pixel, -1 if side == "below" else 1
        places = spread(wanted, [text.height for text in texts], 2 * px)
        inks: list[Ink] = []
        for text, u, place in zip(texts, wanted, places, strict=True):
            bend = ((u, line), (u, line + way * 6 * px), (place, line + way * 14 * px), (place, line + way * 18 * px))
            inks.append(Stroke(bend, "ink", self.medium.thin))
            foot = line + way * 20 * px - (text.width if way < 0 else 0)
            inks += text.at(place + (text.up - text.down) / 2, foot, turned=True)
        self._take(inks)
        return tuple(inks)

    def _fan_level(self, side: Side, texts: Sequence[Laid], wanted: Sequence[float], line: float) -> tuple[Ink, ...]:
        """Figures side by side, each under or over its place; a bent line leads to one that had to give way."""
        px, way = self.medium.pixel, -1 if side == "below" else 1
        places = spread(wanted, [text.width for text in texts], 5 * px)
        inks: list[Ink] = []
        up, down = max(text.up for text in texts), max(text.down for text in texts)
        for text, u, place in zip(texts, wanted, places, strict=True):
            if abs(place - u) > px:
                bend = ((u, line), (u, line + way * 5 * px), (place, line + way * 10 * px))
                inks.append(Stroke(bend, "ink", self.medium.thin))
            inks += text.at(place - text.width / 2, line + way * 12 * px + (down if way > 0 else -up))
        self._take(inks)
        return tuple(inks)

    def _fan_beside(self, side: Side, texts: Sequence[Laid], wanted: Sequence[float], line: float) -> tuple[Ink, ...]:
        """Right of the line figures stand level at their places; left of it, where there is less room, along it."""
        px = self.medium.pixel
        if side == "left":
            return self._fan_along(texts, wanted, line - 3.5 * px)
        places = spread(wanted, [text.height for text in texts], 1 * px)
        inks: list[Ink] = []
        for text, u, place in zip(texts, wanted, places, strict=True):
            if abs(place - u) > px:
                inks.append(Stroke(((line, u), (line + 5 * px, u), (line + 11 * px, place)), "ink", self.medium.thin))
            inks += text.at(line + 12 * px, place - (text.up - text.down) / 2)
        self._take(inks)
        return tuple(inks)

    def _fan_inside(self, texts: Sequence[Laid], wanted: Sequence[float], line: float) -> tuple[Ink, ...]:
        """Left of a line that runs inside the drawing there is room: level, ending at it."""
        px = self.medium.pixel
        places = spread(wanted, [text.height for text in texts], 1 * px)
        found = zip(texts, places, strict=True)
        inks = [
            ink for text, at in found for ink in text.at(line - 12 * px - text.width, at - (text.up - text.down) / 2)
        ]
        self._take(inks)
        return tuple(inks)

    def _fan_along(self, texts: Sequence[Laid], wanted: Sequence[float], line: float) -> tuple[Ink, ...]:
        """Read from the right, each ending at its place."""
        px = self.medium.pixel
        ends = [u - text.width / 2 - 2 * px for text, u in zip(texts, wanted, strict=True)]
        places = spread(ends, [text.width for text in texts], 6 * px)
        inks: list[Ink] = []
        for text, place in zip(texts, places, strict=True):
            inks += text.at(line - max(text.down - 0.24 * text.up, 0), place - text.width / 2, turned=True)
        self._take(inks)
        return tuple(inks)

    # ---------------------------------------------------------------------------------------------------- captions

    def captions(self, marks: Sequence[Caption]) -> tuple[Ink, ...]:
        """Captions row by row; those that crowd are moved apart, and their stubs bend."""
        rows: dict[tuple[Side, int, Exact | None], list[Caption]] = {}
        hundredths = self.view.length(MM) / self.medium.pixel * 100
        for mark in (m for m in marks if self.medium.paper or hundredths >= m.from_scale):
            rows.setdefault((mark.side, mark.lane, mark.base), []).append(mark)
        return tuple(ink for row in rows.values() for ink in self._caption_row(row))

    def _caption_row(self, row: Sequence[Caption]) -> list[Ink]:
        side, lane, base = row[0].side, row[0].lane, row[0].base
        if side in UPRIGHT_SIDES:
            return [ink for mark in row for ink in self._caption_beside(mark)]
        px = self.medium.pixel
        texts = [self.medium.line(mark.text, self.display) for mark in row]
        wanted = [self.view.x(mark.at[0]) + _lean(mark, text, px) for mark, text in zip(row, texts, strict=True)]
        places = spread(wanted, [text.width for text in texts], 7 * px)
        edge = self.view.edge(side, base)
        line = edge + self._caption_away(side, lane)
        inks: list[Ink] = []
        for mark, text, middle in zip(row, texts, places, strict=True):
            if mark.stub:
                inks.append(self._stub(mark, middle, text, edge, line))
            inks += text.at(middle - text.width / 2, line)
        self._take(inks)
        return inks

    def _caption_away(self, side: Side, lane: int) -> float:
        """Where the baseline of a row of captions lies, from the edge."""
        px, em = self.medium.pixel, self.medium.sizes["word"]
        further = (lane - 1) * (self.text_height + 9 * px)
        return 14 * px + further if side == "above" else -(7 * px + 0.76 * em + further)

    def _stub(self, mark: Caption, middle: float, text: Laid, edge: float, line: float) -> Stroke:
        px = self.medium.pixel
        x, out = self.view.x(mark.at[0]), 1 if mark.side == "above" else -1
        if mark.anchor != "centre" or abs(middle - x) < text.width / 2:
            far = line - 2 * px if out > 0 else line + text.up * (mark.anchor == "centre")
            return Stroke(((x, edge + out * px), (x, far)), "ink", self.medium.thin)
        turn = edge + (line - edge) * 0.45
        return Stroke(((x, edge + out * px), (x, turn), (middle, line)), "ink", self.medium.thin)

    def _caption_beside(self, mark: Caption) -> tuple[Ink, ...]:
        text = self.medium.line(mark.text, self.display)
        away = 10 * self.medium.pixel
        edge, y = self.view.edge(mark.side, mark.base), self.view.y(mark.at[1])
        x = edge + away if mark.side == "right" else edge - away - text.width
        inks = text.at(x, y - 0.36 * self.medium.sizes[mark.text.size])
        self._take(inks)
        return inks


def _lean(mark: Caption, text: Laid, px: float) -> float:
    """How far the middle of a caption lies from its point."""
    return {"centre": 0.0, "left": text.width / 2 + 5 * px, "right": -text.width / 2 - 5 * px}[mark.anchor]


def arrowhead(u: float, way: int, px: float, tone: str) -> Area:
    """A filled arrowhead, 8 by 5, its point at u."""
    return Area(((u, 0.0), (u - way * 8 * px, 2.5 * px), (u - way * 8 * px, -2.5 * px)), tone)


def _rectangle(left: float, bottom: float, right: float, top: float) -> tuple[Spot, ...]:
    return (left, bottom), (right, bottom), (right, top), (left, top)


def _overlap(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
