"""The working of a figure: a sum as in an account book, opened under the table by one key."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QWidget

from frontwright.core.lengths import Display
from frontwright.desk.contents import WorkingLine
from frontwright.window.figures import (
    box_of,
    figure_look,
    paint_parts,
    paint_under,
    parts_width,
    spoken,
    words_with_figures,
)
from frontwright.window.signs import paint_pointer
from frontwright.window.theme import Theme

ROW, HEAD, STEP = 25, 40, 88


class _Sheet(QWidget):
    """The lines of a working, painted; one of them is current."""

    toggled = Signal(str, bool)
    closed = Signal()

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme
        self._display: Display | None = None
        self.title, self.lines, self.current = "", (), 0  # type: tuple[str, tuple[WorkingLine, ...], int]
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_lines(self, title: str, lines: tuple[WorkingLine, ...], display: Display) -> None:
        key = self.lines[self.current].key if self.current < len(self.lines) else ""
        self.title, self.lines, self._display = title, lines, display
        self.current = next((n for n, line in enumerate(lines) if key and line.key == key), 0)
        self.setFixedHeight(self.sizeHint().height())
        self._speak()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._theme.px(480), self._theme.px(HEAD + ROW * len(self.lines) + 12))

    def _speak(self) -> None:
        self.setAccessibleName(f"working: {self.title}")
        if self.lines and self._display:
            line = self.lines[self.current]
            words = (line.sign, line.name, line.how, spoken(line.figure, self._display), line.source, line.rounding)
            self.setAccessibleDescription(", ".join(word for word in words if word))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        line = self.lines[self.current] if self.lines else None
        if key in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            self.current = min(max(0, self.current + (1 if key == Qt.Key.Key_Down else -1)), len(self.lines) - 1)
            self._speak()
            self.update()
        elif line and line.opens and key == (Qt.Key.Key_Left if line.open else Qt.Key.Key_Right):
            self.toggled.emit(line.key, not line.open)
        elif key in (Qt.Key.Key_Escape, Qt.Key.Key_Equal):
            self.closed.emit()
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = int((event.position().y() - self._theme.px(HEAD)) // self._theme.px(ROW))
        self.setFocus()
        if 0 <= at < len(self.lines):
            self.current = at
            line = self.lines[at]
            if line.opens and event.position().x() < self._theme.px(36):
                self.toggled.emit(line.key, not line.open)
            self._speak()
            self.update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._display is None:
            return
        px, colours = self._theme.px, self._theme.palette
        painter = QPainter(self)
        painter.setPen(colours.ink)
        y = px(24)
        paint_parts(painter, QPointF(px(14), y), ("=",), self._theme.letters(15, bold=True), colours.blue)
        paint_parts(
            painter, QPointF(px(36), y), words_with_figures(self.title), self._theme.letters(14, bold=True), colours.ink
        )
        hint = ("Right opens a term, Esc closes",)
        left = self.width() - px(14) - parts_width(hint, self._theme.letters(12))
        paint_parts(painter, QPointF(left, y), hint, self._theme.letters(12), colours.ink_soft)
        painter.fillRect(QRectF(px(14), px(34), self.width() - px(28), max(1, px(1))), colours.rule)
        for number, line in enumerate(self.lines):
            self._paint_line(painter, number, line, self._display)
        painter.end()

    @property
    def _sources(self) -> float:
        """Room at the right for the words of where a figure comes from, or how it was rounded."""
        words = [parts_width((line.rounding or line.source,), self._theme.letters(12)) for line in self.lines]
        return max([*words, self._theme.px(70)]) + self._theme.px(14)

    def _paint_line(self, painter: QPainter, number: int, line: WorkingLine, display: Display) -> None:
        px, colours = self._theme.px, self._theme.palette
        top = px(HEAD) + number * px(ROW)
        base = top + px(18)
        if number == self.current and self.hasFocus():
            painter.setPen(QPen(colours.blue, px(2)))
            painter.drawRect(QRectF(px(6), top + 1, self.width() - px(12), px(ROW) - 2))
        indent = px(36)
        if line.opens:
            self._opener(painter, QPointF(px(18), top + px(13)), line.open)
        result = number == len(self.lines) - 1
        name = words_with_figures(line.name)
        end = paint_parts(painter, QPointF(indent, base), name, self._theme.letters(13, bold=result), colours.ink)
        right = self._figure(painter, base, line, display, result)
        how = words_with_figures(line.how)
        if how and end + px(10) + parts_width(how, self._theme.letters(12)) < right:
            paint_parts(painter, QPointF(end + px(10), base), how, self._theme.letters(12), colours.ink_soft)
        source = (line.rounding or line.source,)
        left = self.width() - px(14) - parts_width(source, self._theme.letters(12))
        paint_parts(painter, QPointF(left, base), source, self._theme.letters(12), colours.ink_soft)

    def _figure(self, painter: QPainter, base: float, line: WorkingLine, display: Display, result: bool) -> float:
        """Paint sign and figure in the column of the line's depth; returns where they begin."""
        px, colours = self._theme.px, self._theme.palette
        letters = self._theme.letters(18 if result else 15, bold=result)
        look = figure_look(line.figure, display, colours, writable=line.figure.source in ("taped", "chosen"))
        box = box_of(look.parts, letters)
        axis = self.width() - self._sources - px(40) - line.depth * px(STEP)
        left = axis - box.before
        if line.sum:
            rule = QRectF(axis - px(68), base - px(18), px(68) + px(30), max(1, px(1)))
            painter.fillRect(rule, colours.ink)
        paint_parts(painter, QPointF(left, base), look.parts, letters, look.colour)
        line_wide = max(1, px(1))
        paint_under(painter, left - px(3), left + box.width + px(3), base + px(5), look.under, look.colour, line_wide)
        if line.sign:
            sign = min(axis - px(50), left - px(20))
            paint_parts(painter, QPointF(sign, base), (line.sign,), self._theme.letters(15), colours.ink)
        return (min(axis - px(50), left - px(20)) if line.sign else left) - px(6)

    def _opener(self, painter: QPainter, at: QPointF, opened: bool) -> None:
        if not opened:
            paint_pointer(painter, at, self._theme, self._theme.palette.ink_soft)
            return
        painter.save()
        painter.translate(at + QPointF(self._theme.px(3), -self._theme.px(3)))
        painter.rotate(90)
        paint_pointer(painter, QPointF(0, 0), self._theme, self._theme.palette.ink_soft)
        painter.restore()


class WorkingPanel(QFrame):
    """The blue-framed panel under the tables. `toggled`: a term is to be opened or shut; `closed`: Esc."""

    toggled = Signal(str, bool)
    closed = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._scroll = QScrollArea(self)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.sheet = _Sheet(theme, self._scroll)
        self._scroll.setWidget(self.sheet)
        for surface in (self.sheet, self._scroll.viewport()):
            surface.setAutoFillBackground(False)
        self.sheet.toggled.connect(self.toggled)
        self.sheet.closed.connect(self.closed)
        self.hide()

    def show_working(self, title: str, lines: tuple[WorkingLine, ...], display: Display, most: int) -> None:
        """Show these lines, at most so high; the title names the figure."""
        self.sheet.show_lines(title, lines, display)
        self.setFixedHeight(min(self.sheet.sizeHint().height() + self._theme.px(4), max(most, self._theme.px(120))))
        self.show()

    def resizeEvent(self, _event: object) -> None:
        line = self._theme.px(1)
        self._scroll.setGeometry(self.rect().adjusted(line, line, -line, -line))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        line = max(1, self._theme.px(1.2))
        painter.fillRect(self.rect(), self._theme.palette.field)
        painter.setPen(QPen(self._theme.palette.blue, line))
        painter.drawRect(QRectF(self.rect()).adjusted(line / 2, line / 2, -line / 2, -line / 2))
        painter.end()
