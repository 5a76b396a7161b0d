"""The board: plays drawings on the screen, shows what is selected, and lets it be chosen by mouse and arrow keys."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import hypot

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from frontwright.core.drawing.ink import Area, extent
from frontwright.core.drawing.lay import Laying, fit, natural_height
from frontwright.core.drawing.marks import Drawing, Text, words
from frontwright.core.drawing.medium import Medium, screen
from frontwright.core.lengths import INCH, MM, Length, Unit
from frontwright.window.player import play, text_width
from frontwright.window.theme import Palette, Theme

FRAME, STRIP, PAD, HEAD = 2, 24, 8, 26
BARS: dict[Unit, tuple[Fraction, ...]] = {
    "in": (*(Fraction(1, n) for n in (8, 4, 2)), *map(Fraction, (1, 2, 3, 6, 12, 24, 48))),
    "mm": tuple(map(Fraction, (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000))),
}
_WAYS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}


@dataclass(frozen=True, slots=True)
class _Part:
    """One drawing of the board: where it lies and how it was laid there."""

    drawing: Drawing
    room: QRectF
    laying: Laying
    headed: bool


class Board(QWidget):
    """One or more drawings in a frame with a title strip. `chosen` is sent with the subject that a person chose."""

    chosen = Signal(str)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._drawings: tuple[Drawing, ...] = ()
        self._selected = ""
        self._parts: list[_Part] | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        theme.changed.connect(self._again)

    @property
    def selected(self) -> str:
        return self._selected

    @property
    def drawings(self) -> tuple[Drawing, ...]:
        return self._drawings

    def set_drawings(self, drawings: Sequence[Drawing], selected: str = "") -> None:
        """Show these drawings, the first with the title strip; nothing is emitted."""
        self._drawings, self._selected = tuple(drawings), selected
        self.setAccessibleName("; ".join(_title(drawing) for drawing in self._drawings))
        self._say_selected()
        self._again()

    def set_selected(self, subject: str) -> None:
        """Select a subject without telling anybody."""
        if subject != self._selected:
            self._selected = subject
            self._say_selected()
            self._again()

    def _say_selected(self) -> None:
        self.setAccessibleDescription(f"{self._selected} selected" if self._selected else "nothing selected")

    def _again(self) -> None:
        self._parts = None
        self.update()

    # ------------------------------------------------------------------------------------------------------ sizes

    def sizeHint(self) -> QSize:
        return QSize(self._theme.px(452), self._theme.px(312))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._theme.px(240), self._theme.px(140))

    def height_for(self, width: int) -> int:
        """The height at which the drawings, beside each other, fill this width, with frame and strip."""
        if not self._drawings:
            return self._theme.px(120)
        around = 2 * self._theme.px(FRAME + PAD) + self._theme.px(STRIP)
        high = 0.0
        for at, (drawing, share) in enumerate(zip(self._drawings, _shares_across(len(self._drawings)), strict=True)):
            inside = share * (width - 2 * self._theme.px(FRAME)) - 2 * self._theme.px(PAD)
            head = self._theme.px(HEAD) if at else 0
            high = max(high, natural_height(drawing, self._medium(), max(inside, 40.0)) + head)
        return round(high) + around

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._parts = None
        super().resizeEvent(event)

    def _medium(self) -> Medium:
        return screen(text_width, self._theme.scale)

    def _laid(self) -> list[_Part]:
        if self._parts is None:
            self._parts = [self._lay(drawing, room, headed) for drawing, room, headed in self._rooms()]
        return self._parts

    def _rooms(self) -> list[tuple[Drawing, QRectF, bool]]:
        """The drawings under each other, beside each other where the board is much wider than high."""
        count = len(self._drawings)
        edge, strip = self._theme.px(FRAME), self._theme.px(STRIP)
        whole = QRectF(self.rect()).adjusted(edge, edge, -edge, -edge - strip)
        if count < 2:
            return [(drawing, whole, False) for drawing in self._drawings]
        across = whole.width() > 1.8 * whole.height()
        shares = _shares_across(count) if across else self._shares(whole)
        rooms, start = list[tuple[Drawing, QRectF, bool]](), 0.0
        for i, (drawing, share) in enumerate(zip(self._drawings, shares, strict=True)):
            if across:
                room = QRectF(whole.left() + start * whole.width(), whole.top(), share * whole.width(), whole.height())
            else:
                room = QRectF(whole.left(), whole.top() + start * whole.height(), whole.width(), share * whole.height())
            rooms.append((drawing, room, i > 0))
            start += share
        return rooms

    def _shares(self, whole: QRectF) -> list[float]:
        """How the height is shared: as the drawings would have it that fill the width."""
        pad, head = 2 * self._theme.px(PAD), self._theme.px(HEAD)
        wanted: list[float] = []
        for at, drawing in enumerate(self._drawings):
            width = whole.width() - pad - self._notes_width(drawing, whole)
            high = natural_height(drawing, self._medium(), width) + pad + (head if at else 0)
            wanted.append(min(max(high, 0.2 * whole.height()), 0.75 * whole.height()))
        return [high / sum(wanted) for high in wanted]

    def _lay(self, drawing: Drawing, room: QRectF, headed: bool) -> _Part:
        pad, head = self._theme.px(PAD), self._theme.px(HEAD) if headed else 0
        inner = room.adjusted(pad, pad + head, -pad, -pad)
        width = max(inner.width() - self._notes_width(drawing, inner), 10.0)
        laying = fit(drawing, self._medium(), width, max(inner.height(), 10.0), self._selected)
        return _Part(drawing, QRectF(inner.left(), inner.top(), width, inner.height()), laying, headed)

    def _notes_width(self, drawing: Drawing, inner: QRectF) -> float:
        medium = self._medium()
        widths = [medium.line(note, drawing.display).width for note in drawing.notes]
        wanted = max(widths, default=0.0) + self._theme.px(16)
        return wanted if drawing.notes and wanted < 0.55 * inner.width() else 0.0

    # ------------------------------------------------------------------------------------------------------ paint

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette = self._theme.palette
        painter.fillRect(self.rect(), palette.paper)
        for part in self._laid():
            self._paint_part(painter, part, palette)
        self._paint_frame(painter, palette)
        painter.end()

    def _paint_part(self, painter: QPainter, part: _Part, palette: Palette) -> None:
        painter.save()
        painter.translate(round(part.room.left()), round(part.room.top()))
        play(painter, part.laying.inks, palette, float(round(part.room.height())))
        painter.restore()
        if part.headed:
            self._paint_head(painter, part, palette)
        if part.drawing.notes and self._notes_width(part.drawing, part.room.adjusted(0, 0, 400, 0)):
            self._paint_notes(painter, part, palette)

    def _paint_head(self, painter: QPainter, part: _Part, palette: Palette) -> None:
        """A second drawing says over itself what it is."""
        px = self._theme.px
        edge = part.room.top() - px(HEAD) - px(PAD)
        painter.setPen(QPen(palette.hair, 1))
        if edge > px(HEAD):
            painter.drawLine(QPointF(px(FRAME), edge + 0.5), QPointF(self.width() - px(FRAME), edge + 0.5))
        drawing = part.drawing
        line = _title_text(drawing, drawing.exaggerated)
        self._text(painter, line, drawing, part.room.left(), edge + px(20), palette)

    def _paint_notes(self, painter: QPainter, part: _Part, palette: Palette) -> None:
        px = self._theme.px
        y = part.room.top() + px(24)
        for note in part.drawing.notes:
            self._text(painter, note, part.drawing, part.room.right() + px(12), y, palette)
            y += px(18)

    def _text(self, painter: QPainter, text: Text, drawing: Drawing, x: float, y: float, palette: Palette) -> float:
        line = self._medium().line(text, drawing.display)
        painter.save()
        painter.translate(round(x), round(y))
        play(painter, line.inks, palette, 0)
        painter.restore()
        return line.width

    def _paint_frame(self, painter: QPainter, palette: Palette) -> None:
        px = self._theme.px
        wide = float(px(FRAME))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        focused = self.hasFocus()
        painter.setPen(QPen(palette.blue if focused else palette.ink, wide))
        painter.drawRect(QRectF(self.rect()).adjusted(wide / 2, wide / 2, -wide / 2, -wide / 2))
        if self._drawings:
            self._paint_strip(painter, palette)

    def _paint_strip(self, painter: QPainter, palette: Palette) -> None:
        px = self._theme.px
        drawing = self._drawings[0]
        bottom, top = self.height() - px(FRAME), self.height() - px(FRAME) - px(STRIP)
        painter.setPen(QPen(palette.ink, 1))
        painter.drawLine(QPointF(px(FRAME), top + 0.5), QPointF(self.width() - px(FRAME), top + 0.5))
        x, baseline = float(px(FRAME) + px(8)), bottom - px(8)
        bar = self._bar(drawing)
        limit = self.width() - px(FRAME) - px(30) - (bar[1] + px(70) if bar else 0)
        cells = [_title_text(drawing), *drawing.strip]
        if drawing.exaggerated:
            cells.append(words(drawing.exaggerated, size="caption"))
        for cell in cells:
            if x + self._medium().line(cell, drawing.display).width > limit:
                break
            x += self._text(painter, cell, drawing, x, baseline, palette) + px(10)
            painter.setPen(QPen(palette.ink, 1))
            painter.drawLine(QPointF(round(x) + 0.5, top), QPointF(round(x) + 0.5, bottom))
            x += px(10)
        if bar:
            self._paint_bar(painter, drawing, bar, palette)

    def _bar(self, drawing: Drawing) -> tuple[str, float] | None:
        """What the scale bar stands for, and its length in pixels."""
        parts = self._laid()
        if not parts:
            return None
        unit: Unit = drawing.display.unit
        one: Length = INCH if unit == "in" else MM
        view = parts[0].laying.view
        room = min(160 * self._theme.scale, 0.16 * self.width())
        fitting = [(n, view.length(one) * float(n)) for n in BARS[unit] if view.length(one) * n <= room]
        return (f"{fitting[-1][0]} {unit}", fitting[-1][1]) if fitting else None

    def _paint_bar(self, painter: QPainter, drawing: Drawing, bar: tuple[str, float], palette: Palette) -> None:
        px = self._theme.px
        text, length = bar
        right = round(self.width() - px(FRAME) - px(12)) + 0.5
        left, y = round(right - length) + 0.5, round(self.height() - px(FRAME) - px(STRIP) / 2) + 0.5
        label = words(text, size="caption")
        width = self._medium().line(label, drawing.display).width
        self._text(painter, label, drawing, left - px(8) - width, y + px(4.5), palette)
        painter.setPen(QPen(palette.ink, 1))
        painter.drawLine(QPointF(left, y), QPointF(right, y))
        for x in (left, right):
            painter.drawLine(QPointF(x, y - px(3)), QPointF(x, y + px(3)))
        painter.fillRect(QRectF(left, y - px(1.5), length / 2, px(3)), palette.ink)

    # ------------------------------------------------------------------------------------------------------ choose

    def mousePressEvent(self, event: QMouseEvent) -> None:
        subject = self.subject_at(event.position())
        if subject and event.button() == Qt.MouseButton.LeftButton:
            self._choose(subject)
        super().mousePressEvent(event)

    def subject_at(self, place: QPointF) -> str:
        """What is drawn at a place of the board; "" where nothing is."""
        for part in self._laid():
            if part.room.adjusted(-40, -40, 40, 40).contains(place):
                x, y = place.x() - round(part.room.left()), round(part.room.top() + part.room.height()) - place.y()
                subject = part.laying.subject_at(x, y)
                if subject:
                    return subject
        return ""

    def place_of(self, subject: str) -> QPointF | None:
        """The middle of a subject on the board."""
        for part in self._laid():
            for name, spots in part.laying.shapes:
                if name == subject:
                    x, y = _middle(spots)
                    return QPointF(round(part.room.left()) + x, round(part.room.top() + part.room.height()) - y)
        return None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        way = _WAYS.get(Qt.Key(event.key()))
        if way is None:
            super().keyPressEvent(event)
            return
        self._walk(*way)

    def _walk(self, right: int, up: int) -> None:
        """Choose the nearest thing in a direction, of those that lie more that way than aside."""
        places = {name: _middle(spots) for part in self._laid() for name, spots in reversed(part.laying.shapes)}
        if not places:
            return
        if self._selected not in places:
            self._choose(min(places, key=lambda name: places[name][0] - places[name][1]))
            return
        x, y = places[self._selected]
        ahead = dict[str, float]()
        for name, (a, b) in places.items():
            along, aside = (a - x) * right + (b - y) * up, abs((a - x) * up) + abs((b - y) * right)
            if name != self._selected and along > 1 and along >= aside * 0.5:
                ahead[name] = hypot(along, 2.2 * aside)
        if ahead:
            self._choose(min(ahead, key=lambda name: ahead[name]))

    def _choose(self, subject: str) -> None:
        if subject != self._selected:
            self.set_selected(subject)
            self.chosen.emit(subject)

    def focusInEvent(self, event: QFocusEvent) -> None:
        self.update()
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        self.update()
        super().focusOutEvent(event)


def paint_drawing(painter: QPainter, room: QRectF, drawing: Drawing, theme: Theme, selected: str = "") -> None:
    """A drawing fitted into a place of any widget, without frame or strip."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    laying = fit(drawing, screen(text_width, theme.scale), room.width(), room.height(), selected)
    painter.translate(round(room.left()), round(room.top()))
    play(painter, laying.inks, theme.palette, room.height())
    painter.restore()


def _title(drawing: Drawing) -> str:
    return f"{drawing.subject} {drawing.title}".strip() + _seen(drawing)


def _seen(drawing: Drawing) -> str:
    """ ", from the front"; what lies there is not seen from a side."""
    if drawing.seen_from.startswith(("good ", "seen ")):
        return f", {drawing.seen_from}"
    side = drawing.seen_from
    return f", from {'' if side == 'above' else 'the '}{side}" if side else ""


def _shares_across(count: int) -> list[float]:
    """How drawings beside each other share the width: the first has most."""
    return [1.0] if count == 1 else [0.62, *([0.38 / (count - 1)] * (count - 1))]


def _title_text(drawing: Drawing, exaggerated: str = "") -> Text:
    """The title as a line: the subject first."""
    too_big = f"; {exaggerated}" if exaggerated else ""
    title = drawing.title if drawing.title != drawing.subject else ""
    subject = words(drawing.subject + " " * bool(drawing.subject and title), bold=True)
    return words(subject, f"{title}{_seen(drawing)}{too_big}", size="caption")


def _middle(spots: Sequence[tuple[float, float]]) -> tuple[float, float]:
    left, bottom, right, top = extent((Area(tuple(spots), ""),)) or (0, 0, 0, 0)
    return (left + right) / 2, (bottom + top) / 2
