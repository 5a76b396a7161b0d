"""Long work under a page: what is done, a bar like a tape, the best so far, and the ways to use it or to stop."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, QTimer
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from frontwright.desk.contents import Outcome
from frontwright.desk.lay_desk import LayDesk, Progress
from frontwright.window.prose import Prose
from frontwright.window.theme import Theme

LOOKS = 100  # milliseconds between two looks at what was found
SHOWN_AFTER = 10  # looks: what is over sooner is not worth a line


class Tape(QWidget):
    """How much of the time is gone, with a mark for each tenth."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme, self._share = theme, 0.0
        self.setFixedSize(theme.px(180), theme.px(14))
        self.setAccessibleName("time that is gone")

    def stand(self, share: float) -> None:
        self._share = share
        self.setAccessibleDescription(f"{round(share * 100)} %")
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        px, colours = self._theme.px, self._theme.palette
        painter = QPainter(self)
        box = QRectF(0.5, 0.5, self.width() - 1.0, self.height() - 1.0)
        painter.fillRect(QRectF(box.left(), box.top(), box.width() * self._share, box.height()), colours.selection)
        painter.setPen(QPen(colours.ink, max(1, px(1))))
        painter.drawRect(box)
        for tenth in range(1, 10):
            x = round(box.left() + box.width() * tenth / 10) + 0.5
            painter.drawLine(QPointF(x, box.bottom()), QPointF(x, box.bottom() - px(7 if tenth == 5 else 4)))
        painter.end()


class LongWork(QWidget):
    """The line of long work. `over` is called with what came of it; the job is asked for nothing while it runs."""

    def __init__(
        self, theme: Theme, desk: LayDesk, act: Callable[[str], object], over: Callable[[Outcome], None]
    ) -> None:
        super().__init__()
        self._desk, self._over = desk, over
        self._what, self._best, self._tape = Prose(theme, "", 13, "ink"), Prose(theme), Tape(theme)
        row = QHBoxLayout(self)
        row.setContentsMargins(theme.px(20), theme.px(4), theme.px(20), theme.px(4))
        row.setSpacing(theme.px(12))
        row.addWidget(self._what, 2)
        row.addWidget(self._tape)
        row.addWidget(self._best, 2)
        self.use = self._button(row, "Use this one", lambda: act("lay-use"))
        self.stop = self._button(row, "Stop", lambda: act("lay-stop"))
        self._looks = 0
        self._timer = QTimer(self)
        self._timer.setInterval(LOOKS)
        self._timer.timeout.connect(self._look)
        self.hide()

    def _button(self, row: QHBoxLayout, word: str, do: Callable[[], object]) -> QPushButton:
        button = QPushButton(word)
        button.setAutoDefault(True)
        button.clicked.connect(lambda _checked=False: do())
        row.addWidget(button)
        return button

    def watch(self) -> None:
        """Look after what is under way, if anything is; gone when nothing is."""
        if not self._desk.busy:
            self._timer.stop()
            self._looks = 0
            self.hide()
        elif not self._timer.isActive():
            self._looks = 0
            self._timer.start()

    def _look(self) -> None:
        self._looks += 1
        outcome = self._desk.poll()
        progress = self._desk.progress()
        if outcome is not None or progress is None:
            self.watch()
            if outcome is not None:
                self._over(outcome)
            return
        self._show(progress)

    def _show(self, progress: Progress) -> None:
        self._what.say(progress.what)
        self._best.say(progress.best)
        self._tape.stand(progress.share)
        self.setVisible(self._looks >= SHOWN_AFTER)
