"""The buttons of a finding's ways out, in as many rows as the strip is wide enough for, and words at their right."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from frontwright.window.prose import Prose
from frontwright.window.theme import Theme

_ROW, _BETWEEN, _WORDS, _SMALL = 28, 10, 240, 12.0  # pixels


class WaysRow(QWidget):
    """Buttons from the left; `words` behind them where there is room for them, else in a row of their own."""

    def __init__(self, theme: Theme, words: str) -> None:
        super().__init__()
        self._theme = theme
        self._buttons: list[QPushButton] = []
        self._words = Prose(theme, words, _SMALL) if words else None
        if self._words is not None:
            self._words.setParent(self)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def add(self, button: QPushButton) -> None:
        button.setParent(self)
        button.ensurePolished()
        self._buttons.append(button)

    def heightForWidth(self, width: int) -> int:
        return self._places(width)[1]

    def sizeHint(self) -> QSize:
        return QSize(self._theme.px(400), self._theme.px(_ROW))

    def minimumSizeHint(self) -> QSize:
        return QSize(0, self._theme.px(_ROW))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        for widget, place in self._places(self.width())[0]:
            widget.setGeometry(place)

    def _places(self, width: int) -> tuple[Sequence[tuple[QWidget, QRect]], int]:
        """Where each lies at this width, and how high they are together."""
        px = self._theme.px
        x, y, places = 0, 0, list[tuple[QWidget, QRect]]()
        for button in self._buttons:
            wide = min(button.sizeHint().width(), width)
            if x and x + wide > width:
                x, y = 0, y + px(_ROW) + px(6)
            places.append((button, QRect(x, y, wide, px(_ROW))))
            x += wide + px(_BETWEEN)
        bottom = y + px(_ROW) if self._buttons else 0
        if self._words is None:
            return places, bottom
        room = min(px(_WORDS), width - x)
        high = self._words.heightForWidth(room)
        if room < px(_WORDS):
            room, high, y = width, self._words.heightForWidth(width), bottom
        places.append((self._words, QRect(width - room, y, room, high)))
        return places, max(bottom, y + high)
