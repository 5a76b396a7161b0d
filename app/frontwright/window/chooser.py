"""One of several, chosen from a list that folds down."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QComboBox, QStyle, QStyleOptionComboBox, QStylePainter, QWidget

from frontwright.window.figures import paint_parts, parts_width
from frontwright.window.theme import Theme


class Chooser(QComboBox):
    """A combo box in the look: the id of what is chosen bold, then words, and a triangle at the right."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)

    def show_choices(self, choices: Sequence[tuple[str, str]], *, named: bool) -> None:
        """Offer these values, each with its words; nothing is sent. `named`: the value is a name, and stands first."""
        self.clear()
        for value, words in choices:
            text = f"{value}  {words}" if named and not words.startswith(value) else words
            self.addItem(text or value, value)

    def sizeHint(self) -> QSize:
        usual, most = super().sizeHint(), self._theme.px(400)
        return QSize(min(usual.width() + self._theme.px(20), most), usual.height())

    def minimumSizeHint(self) -> QSize:
        return QSize(self._theme.px(80), super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QStylePainter(self)
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        self._words(painter)
        self._triangle(painter)
        painter.end()

    def _words(self, painter: QPainter) -> None:
        px, colours = self._theme.px, self._theme.palette
        value, words = str(self.currentData() or ""), self.currentText()
        start, rest = (value, words[len(value) :]) if words.startswith(value) else ("", words)
        bold, plain = self._theme.letters(13, bold=True), self._theme.letters(13)
        painter.setClipRect(self.rect().adjusted(px(2), 0, -px(26), 0))
        y = self.height() / 2 + px(4.5)
        paint_parts(painter, QPointF(px(9), y), (start,), bold, colours.ink)
        at = QPointF(px(9) + parts_width((start,), bold), y)
        paint_parts(painter, at, (rest,), plain, colours.ink)
        painter.setClipping(False)

    def _triangle(self, painter: QPainter) -> None:
        px = self._theme.px
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._theme.palette.ink_soft)
        middle = QPointF(self.width() - px(14), self.height() / 2 + px(0.5))
        corners = (QPointF(-px(4.5), -px(2.5)), QPointF(px(4.5), -px(2.5)), QPointF(0, px(3)))
        painter.drawPolygon(QPolygonF([middle + corner for corner in corners]))
