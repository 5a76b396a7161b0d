"""The line in which the rack is searched as a person asks; it takes the chooser's place."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit

from frontwright.window.theme import Theme

WAITS = 180  # milliseconds after the last letter
LONGEST = 300
WIDE = 300


class SearchLine(QLineEdit):
    """What is asked for; `asked` is sent with it a moment after the last letter, at once by Enter."""

    asked = Signal(str)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self.setPlaceholderText("ash, same batch as DA, at least 28 long, dry")
        self.setAccessibleName("what is looked for on the rack")
        self.setMaxLength(LONGEST)
        self.setFixedHeight(theme.px(28))
        self.setMinimumWidth(theme.px(180))
        self.setMaximumWidth(theme.px(WIDE))
        self.setClearButtonEnabled(True)
        self._waits = QTimer(self)
        self._waits.setSingleShot(True)
        self._waits.setInterval(WAITS)
        self._waits.timeout.connect(self._ask)
        self.textEdited.connect(lambda _text: self._waits.start())
        self.returnPressed.connect(self._ask)

    def sizeHint(self) -> QSize:
        return QSize(self._theme.px(WIDE), self._theme.px(28))

    def stand_at(self, text: str) -> None:
        """Show what was asked last, unless something else is being typed."""
        if not self._waits.isActive() and text != self.text():
            self.setText(text)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.text():
            self.clear()
            self._ask()
            return
        super().keyPressEvent(event)

    def _ask(self) -> None:
        self._waits.stop()
        self.asked.emit(self.text().strip())
