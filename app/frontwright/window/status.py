"""The line at the bottom: what was done or said, the unit and step, and what undo would take back."""

from __future__ import annotations

from PySide6.QtCore import QDateTime, QRectF, Qt, QTimer
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QLabel, QWidget

from frontwright.window.theme import Theme

HIGH, NOTICE = 26, 9_000


class StatusLine(QWidget):
    """Three texts side by side; a notice takes the left one's place for a while."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._saved = ""
        self.left, self.middle, self.right = QLabel(self), QLabel(self), QLabel(self)
        self.middle.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.right.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        for label in (self.left, self.middle, self.right):
            label.setFont(theme.font(12))
        self._over = QTimer(self, singleShot=True, interval=NOTICE)
        self._over.timeout.connect(self._notice_over)
        self.setFixedHeight(theme.px(HIGH))
        self.left.setAccessibleName("notice")

    def saved(self) -> None:
        """Everything is in the file; the time is that of the last edit. A notice of an edit before it is over."""
        self._saved = f"All is in the file, {QDateTime.currentDateTime().toString('HH:mm:ss')}"
        self._over.stop()
        self._notice_over()

    def stands(self, words: str) -> None:
        """What stands at the left while nothing was saved yet."""
        self._saved = words
        self._over.stop()
        self._notice_over()

    def notice(self, text: str) -> None:
        """Say something for a while."""
        self.left.setText(text)
        self.left.setToolTip(text)
        self.left.setStyleSheet(f"color: {self._theme.palette.ink.name()}; font-weight: bold")
        self._lay()
        self._over.start()

    def _notice_over(self) -> None:
        self.left.setText(self._saved)
        self.left.setToolTip("")
        self.left.setStyleSheet(f"color: {self._theme.palette.ink_soft.name()}")
        self._lay()

    def show_job(self, unit: str, undo: str) -> None:
        """Unit and step in words, and what undo would take back."""
        self.middle.setText(unit)
        self.right.setText(f"Undo: {undo}" if undo else "")
        for label in (self.middle, self.right):
            label.setStyleSheet(f"color: {self._theme.palette.ink_soft.name()}")
        self._lay()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay()

    def _lay(self) -> None:
        px = self._theme.px
        width, high = self.width() - px(32), self.height()
        right = min(self.right.sizeHint().width(), width // 2)
        self.right.setGeometry(px(16) + width - right, 0, right, high)
        middle = self.middle.sizeHint().width()
        left = min(self.left.sizeHint().width(), width - right - px(12))
        start = (self.width() - middle) // 2
        self.middle.setVisible(px(16) + left + px(12) < start)
        self.middle.setGeometry(start, 0, middle, high)
        self.left.setGeometry(px(16), 0, left, high)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.palette.ground)
        line = max(1, self._theme.px(1))
        painter.fillRect(QRectF(0, 0, self.width(), line), self._theme.palette.rule)
        painter.end()
