"""How one cell is painted: words, figures on their axis, the line under them, ticks, findings."""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF

from frontwright.core.lengths import Display, read, shown
from frontwright.desk.contents import Cell
from frontwright.window.cells import choice_word
from frontwright.window.figures import (
    Look,
    Part,
    Under,
    box_of,
    digit_height,
    figure_look,
    paint_parts,
    paint_under,
    parts_width,
    words_with_figures,
)
from frontwright.window.signs import paint_level
from frontwright.window.theme import Letters, Theme, metrics

WORDS, FIGURES = 13.0, 15.0
PAD = 4.0  # pixels of the look left and right of what stands in a cell
FIELD = 38.0  # the least width of a line that can be written on
BAR = (64, 12)  # how long and high a bar is
TICKED = ("yes", "true", "1", "on")


@dataclass(frozen=True, slots=True)
class Room:
    """A column's common room: how far its figures reach before and after the axis, and whether it has one."""

    before: float = 0.0
    after: float = 0.0
    words: float = 0.0
    axis: bool = True

    @property
    def figures(self) -> float:
        return self.before + self.after


class CellPainter:
    """Paints cells in one theme; knows no table."""

    def __init__(self, theme: Theme) -> None:
        self._theme = theme

    def look(self, cell: Cell, display: Display, draft: str | None = None) -> Look:
        """What a cell shows, in which colour, on which line."""
        colours = self._theme.palette
        if draft is not None:
            return Look((draft,), colours.blue, "dotted")
        if cell.unread:
            return Look((f"{cell.text} ?",), colours.ink, "wavy")
        if cell.kind == "choice":
            return self._choice(cell)
        if cell.kind == "words":
            return self._words(cell)
        found = self._written(cell, display)
        return self._with_level(replace(found, under="none") if cell.quiet and cell.text else found, cell)

    def letters(self, cell: Cell) -> Letters:
        """The letters in which a cell is set."""
        figures = cell.kind in ("length", "number", "count", "figure") and not cell.unread
        return self._theme.letters(FIGURES if figures else WORDS, bold=cell.bold)

    def is_figure(self, cell: Cell) -> bool:
        return cell.kind in ("length", "number", "count") or cell.figure is not None

    def box(self, cell: Cell, display: Display, draft: str | None = None) -> tuple[float, float]:
        """How far a cell's figure reaches before and after its axis; words count as after."""
        if cell.bar is not None:
            return 0.0, self._theme.px(BAR[0])
        look = self.look(cell, display, draft)
        found = box_of(look.parts, self.letters(cell))
        beside = self._beside_width(look)
        return found.before, found.after + beside

    def paint(
        self, painter: QPainter, rect: QRectF, cell: Cell, display: Display, room: Room, draft: str | None, right: bool
    ) -> None:
        """Paint a cell into `rect`; figures on the axis of `room`; `right`: against the right edge (forms)."""
        if cell.kind == "tick":
            self._tick(painter, rect, cell, right=right)
            return
        if cell.bar is not None:
            self._bar(painter, rect, cell.bar)
            return
        room_for = rect.width() - 2 * self._theme.px(PAD)
        look, letters = cut_short(self.look(cell, display, draft), self.letters(cell), room_for)
        baseline = self._baseline(rect)
        inner = rect.adjusted(self._theme.px(PAD), 0, -self._theme.px(PAD), 0)
        left = self._left(inner, cell, look, room, letters, right)
        painter.save()
        painter.setClipRect(rect)
        end = paint_parts(painter, QPointF(left, baseline), look.parts, letters, look.colour)
        self._planned(painter, QPointF(end, baseline), look)
        self._line(painter, inner, (left, end), baseline, look, cell, right)
        painter.restore()

    def _left(self, inner: QRectF, cell: Cell, look: Look, room: Room, letters: Letters, right: bool) -> float:
        found = box_of(look.parts, letters)
        width = found.width + self._beside_width(look)
        if not self.is_figure(cell):
            if right:
                return inner.right() - width
            return inner.left() if not room.axis else inner.left() + max(0.0, (inner.width() - width) / 2)
        if not room.axis:
            return inner.left()
        axis = inner.right() - room.after
        if not right:
            axis = inner.left() + max(0.0, (inner.width() - room.figures) / 2) + room.before
        return axis - found.before

    def _line(
        self,
        painter: QPainter,
        inner: QRectF,
        ends: tuple[float, float],
        baseline: float,
        look: Look,
        cell: Cell,
        right: bool,
    ) -> None:
        px = self._theme.px
        y = baseline + px(4.5 if look.under == "double" else 6.5)
        left, stop = ends[0] - px(4), ends[1] + px(3)
        if cell.kind in ("length", "number", "count"):
            least = px(FIELD)
            if right:
                stop, left = inner.right() + px(2), min(left, inner.right() - least)
            else:
                middle = inner.center().x()
                left, stop = min(left, middle - least / 2), max(stop, middle + least / 2)
        elif cell.kind == "text" and not right:
            left, stop = inner.left() - px(2), inner.right()
        elif not look.parts or look.parts == ("",):
            left, stop = (inner.right() - px(70), inner.right()) if right else (inner.left(), inner.left() + px(70))
        colour = look.colour if look.under in ("dashed", "double") else self._theme.palette.ink
        if look.under == "wavy":
            colour = self._theme.palette.stop
        paint_under(painter, left, stop, y, look.under, colour, max(1, px(1)))

    def _baseline(self, rect: QRectF) -> float:
        return round(rect.center().y() + digit_height(FIGURES * self._theme.scale) / 2 - self._theme.px(0.5))

    def _words(self, cell: Cell) -> Look:
        colours = self._theme.palette
        colour = colours.ink if cell.bold or cell.figure else colours.ink_soft
        if cell.level != "ok":
            colour = colours.level(cell.level)
        return Look(words_with_figures(cell.text), colour)

    def _choice(self, cell: Cell) -> Look:
        colours = self._theme.palette
        word = choice_word(cell)
        if word:
            return Look((word,), colours.ink_soft if cell.quiet else colours.ink, "none" if cell.quiet else "solid")
        if cell.hint:
            return Look((f"({cell.hint})",), colours.assumed, "dashed")
        return Look(("",), colours.ink, "dotted")

    def _written(self, cell: Cell, display: Display) -> Look:
        colours = self._theme.palette
        if cell.figure is not None and not (cell.text and cell.kind in ("text", "count")):
            look = figure_look(cell.figure, display, colours, writable=cell.editable)
            return Look(look.parts, look.colour, "solid", look.beside) if self._plain(cell, look) else look
        if cell.kind == "length" and cell.text:
            return Look(_as_length(cell.text, display), colours.ink, "solid" if cell.editable else "none")
        under: Under = "solid" if cell.text else "dotted"
        return Look((cell.text,), colours.ink, under if cell.editable else "none")

    def _plain(self, cell: Cell, look: Look) -> bool:
        """A typed entry stands on a solid line whatever its figure calls itself, but for as-built and assumed ones."""
        return cell.editable and bool(cell.text) and look.under == "none"

    def _with_level(self, look: Look, cell: Cell) -> Look:
        if cell.level in ("ok", "note"):
            return look
        return Look(look.parts, self._theme.palette.level(cell.level), look.under, look.beside)

    def _beside_width(self, look: Look) -> float:
        if not look.beside:
            return 0.0
        return self._theme.px(8) + parts_width(look.beside, self._theme.letters(WORDS))

    def _planned(self, painter: QPainter, at: QPointF, look: Look) -> None:
        if not look.beside:
            return
        start = at + QPointF(self._theme.px(6), 0)
        scale, colour = self._theme.scale, self._theme.palette.ink_soft
        end = paint_parts(painter, start, look.beside, self._theme.letters(WORDS), colour)
        height = at.y() - digit_height(WORDS * scale) / 2
        painter.setPen(QPen(colour, max(1, self._theme.px(1))))
        painter.drawLine(QPointF(start.x() - 1, height), QPointF(end + 1, height))

    def _tick(self, painter: QPainter, rect: QRectF, cell: Cell, *, right: bool) -> None:
        px, colours = self._theme.px, self._theme.palette
        box = QRectF(0, 0, px(13), px(13))
        box.moveCenter(rect.center())
        if right:
            box.moveRight(rect.right() - px(PAD))
        elif rect.width() > px(80):  # in a wide column under the beginning of its title
            box.moveLeft(rect.left() + px(6))
        painter.save()
        painter.setPen(QPen(colours.rule, max(1, px(1))))
        painter.drawRect(box)
        if cell.text.lower() in TICKED:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(colours.ink, px(2), Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
            points = [(0.2, 0.5), (0.42, 0.75), (0.82, 0.22)]
            painter.drawPolyline(
                QPolygonF([QPointF(box.left() + x * box.width(), box.top() + y * box.height()) for x, y in points])
            )
        painter.restore()

    def _bar(self, painter: QPainter, rect: QRectF, bar: tuple[int, int, int]) -> None:
        """What is had in ink, what comes with the condition hatched, what is missing empty."""
        px, colours = self._theme.px, self._theme.palette
        have, more, need = bar
        box = QRectF(0, 0, px(BAR[0]), px(BAR[1]))
        box.moveCenter(QPointF(rect.left() + px(PAD) + box.width() / 2, rect.center().y()))
        one = box.width() / max(1, need)
        full = QRectF(box.left(), box.top(), min(box.width(), one * have), box.height())
        hatched = QRectF(full.right(), box.top(), min(box.right() - full.right(), one * more), box.height())
        painter.save()
        painter.fillRect(full, colours.ink)
        painter.fillRect(hatched, QBrush(colours.ink, Qt.BrushStyle.BDiagPattern))
        painter.setPen(QPen(colours.ink, max(1, px(1))))
        painter.drawRect(box)
        painter.restore()

    def level_sign(self, painter: QPainter, left: float, middle: float, level: str) -> None:
        """The sign of a finding at a row's left end."""
        size = self._theme.px(12)
        paint_level(painter, QRectF(left, middle - size / 2, size, size), level, self._theme)

    def frame(self, painter: QPainter, rect: QRectF) -> None:
        """The blue frame of the focus, two pixels wide, one clear of the cell."""
        px = self._theme.px
        painter.setPen(
            QPen(
                QColor(self._theme.palette.blue),
                px(2),
                Qt.PenStyle.SolidLine,
                Qt.PenCapStyle.FlatCap,
                Qt.PenJoinStyle.MiterJoin,
            )
        )
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(rect.adjusted(px(1), px(1), -px(1), -px(1)))


def cut_short(look: Look, letters: Letters, room: float) -> tuple[Look, Letters]:
    """Words that are longer than their room: condensed, and where that does not help, with an ellipsis at the end."""
    if len(look.parts) != 1 or not isinstance(look.parts[0], str) or parts_width(look.parts, letters) <= room:
        return look, letters
    condensed = replace(letters, condensed=True)
    if parts_width(look.parts, condensed) <= room:
        return look, condensed
    measure = metrics(condensed.size, condensed.bold, condensed.condensed)
    return replace(look, parts=(measure.elidedText(look.parts[0], Qt.TextElideMode.ElideRight, room),)), condensed


def _as_length(text: str, display: Display) -> tuple[Part, ...]:
    value = read(text, display.unit).exact
    return (text,) if value is None else (shown(value, display),)
