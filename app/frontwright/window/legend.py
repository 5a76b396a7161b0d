"""One line that says what the lines under figures mean."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from frontwright.window.figures import Under, paint_parts, paint_under, parts_width
from frontwright.window.theme import Theme


class Legend(QWidget):
    """The sources of figures, each in its colour on its line."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("lines under figures: " + ", ".join(word for word, _, _ in self._entries()))

    def _entries(self) -> tuple[tuple[str, QColor, Under], ...]:
        colours = self._theme.palette
        return (
            ("taped", colours.ink_soft, "solid"),
            ("worked out", colours.ink_soft, "none"),
            ("(assumed)", colours.assumed, "dashed"),
            ("is: as built", colours.as_built, "double"),
            ("not measured", colours.ink_soft, "dotted"),
        )

    def sizeHint(self) -> QSize:
        return QSize(self._theme.px(400), self._theme.px(30))

    def paintEvent(self, _event: QPaintEvent) -> None:
        px, letters = self._theme.px, self._theme.letters(12)
        painter = QPainter(self)
        x, y = 0.0, px(16)
        for word, colour, under in self._entries():
            width = parts_width((word,), letters)
            paint_parts(painter, QPointF(x, y), (word,), letters, colour)
            paint_under(painter, x, x + width, y + px(5), under, colour, max(1, px(1)))
            x += width + px(18)
        painter.end()
