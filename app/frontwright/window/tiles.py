"""Pieces of a numbered form: choices as small drawings with words, numbers in rings, a rule across."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QFrame, QHBoxLayout, QWidget

from frontwright.core.drawing.marks import Drawing
from frontwright.core.lengths import Unit
from frontwright.window.canvas import paint_drawing
from frontwright.window.figures import paint_parts
from frontwright.window.theme import Theme


@dataclass(frozen=True, slots=True)
class Option:
    """One of a few choices: its value, its word, and the small drawing that shows it."""

    value: str
    word: str
    icon: Drawing | None


class ChoiceTile(QAbstractButton):
    """A choice as a small drawing with a word; the chosen one has a frame of ink and a bar."""

    def __init__(self, theme: Theme, option: Option, size: QSize) -> None:
        super().__init__()
        self._theme, self.option = theme, option
        self.setCheckable(True)
        self.setFixedSize(size)
        self.setAccessibleName(option.word)
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)

    def paintEvent(self, _event: QPaintEvent) -> None:
        theme, px, colours = self._theme, self._theme.px, self._theme.palette
        painter = QPainter(self)
        rect = QRectF(self.rect())
        painter.fillRect(rect, colours.field)
        high = px(22) if self.option.icon is not None else rect.height()
        bar = QRectF(0, rect.height() - high, rect.width(), high)
        icon = rect.adjusted(px(8), px(8), -px(8), -px(28))
        if self.option.icon is not None:
            painter.save()
            paint_drawing(painter, icon, self.option.icon, theme)
            painter.restore()
        chosen = self.isChecked()
        if chosen:
            painter.fillRect(bar, colours.ink)
        painter.setFont(theme.font(12, bold=chosen, condensed=len(self.option.word) > 13))
        painter.setPen(colours.paper if chosen else colours.ink)
        painter.drawText(bar, Qt.AlignmentFlag.AlignCenter, self.option.word)
        line = px(2) if chosen else max(1, px(1))
        painter.setPen(QPen(colours.ink if chosen else colours.rule, line))
        painter.drawRect(rect.adjusted(line / 2, line / 2, -line / 2, -line / 2))
        if self.hasFocus():
            painter.setPen(QPen(colours.blue, px(2)))
            painter.drawRect(rect.adjusted(px(3), px(3), -px(3), -px(3)))
        painter.end()


class Tiles(QWidget):
    """Choices side by side; arrow keys walk and choose."""

    chosen = Signal(str)

    def __init__(
        self, theme: Theme, options: Sequence[Option], name: str, width: float, gap: float, high: float
    ) -> None:
        super().__init__()
        self._group = QButtonGroup(self)
        self._tiles: dict[str, ChoiceTile] = {}
        self.setAccessibleName(name)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme.px(gap))
        for option in options:
            tile = ChoiceTile(theme, option, QSize(theme.px(width), theme.px(high)))
            tile.toggled.connect(lambda on, value=option.value: self._toggled(value, on=on))
            self._group.addButton(tile)
            self._tiles[option.value] = tile
            layout.addWidget(tile)
        layout.addStretch(1)

    @property
    def value(self) -> str:
        return next((value for value, tile in self._tiles.items() if tile.isChecked()), "")

    def _toggled(self, value: str, *, on: bool) -> None:
        """The chosen tile is the one that Tab stops at."""
        self._tiles[value].setFocusPolicy(Qt.FocusPolicy.StrongFocus if on else Qt.FocusPolicy.ClickFocus)
        if on:
            self.chosen.emit(value)

    def choose(self, value: str) -> None:
        self._tiles[value].setChecked(True)

    @property
    def tiles(self) -> list[ChoiceTile]:
        return list(self._tiles.values())


class UnitSwitch(Tiles):
    """Inches or millimetres, as two words side by side."""

    def __init__(self, theme: Theme) -> None:
        options = (Option("in", "inches", None), Option("mm", "millimetres", None))
        super().__init__(theme, options, "unit", 88, 0, 28)

    @property
    def unit(self) -> Unit:
        return "mm" if self.value == "mm" else "in"


class Numbered(QWidget):
    """A number in a ring with words beside it: one line of the form."""

    def __init__(self, theme: Theme, number: str, words: str, small: str = "") -> None:
        super().__init__()
        self._theme, self._number, self._words, self._small = theme, number, words, small
        self.setFixedSize(theme.px(172), theme.px(60 if small else 32))

    def say(self, words: str) -> None:
        self._words = words
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        theme, px, colours = self._theme, self._theme.px, self._theme.palette
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._number:
            painter.setPen(QPen(colours.ink, 1.4 * theme.scale))
            painter.drawEllipse(QPointF(px(10.5), px(16)), px(9.5), px(9.5))
            painter.setFont(theme.font(12, bold=True))
            painter.drawText(QRectF(0, px(6), px(21), px(20)), Qt.AlignmentFlag.AlignCenter, self._number)
        paint_parts(painter, QPointF(px(34), px(21)), (self._words,), theme.letters(14), colours.ink)
        for row, line in enumerate(self._small.split("\n") if self._small else ()):
            at = QPointF(px(34), px(38 + 16 * row))
            paint_parts(painter, at, (line,), theme.letters(12), colours.ink_soft)
        painter.end()


class Line(QFrame):
    """A rule across the form."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self.setFixedHeight(max(2, theme.px(1.5)))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.palette.ink)
        painter.end()
