"""The strip under a page: what there is to see to, each with its reason and its ways out."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from frontwright.desk.contents import FindingLine
from frontwright.window.figures import paint_parts, parts_width, words_with_figures
from frontwright.window.prose import Placed, Prose, flow, lines_of, paint_flow
from frontwright.window.signs import WORDS, paint_level
from frontwright.window.theme import Theme
from frontwright.window.ways import WaysRow

IT_IS_SO = "It is so, because …"
NOTHING = "Nothing to see to on this page."
_TEXT, _SMALL = 13.0, 12.0
LEAST, MOST = 34, 220  # pixels: the height of the strip without findings, and its most
SHARE = 0.19  # of the window, for findings that are shut


class _Head(QWidget):
    """The first line of a finding, painted: sign, word, subject, sentence, have and need."""

    def __init__(self, theme: Theme, line: FindingLine, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme, self._line = theme, line
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setSizePolicy(policy)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def resizeEvent(self, _event: QResizeEvent) -> None:
        self.setFixedHeight(self.sizeHint().height())

    def sizeHint(self) -> QSize:
        return QSize(0, self.height_in(self.width()))

    def height_in(self, width: float) -> int:
        """Pixels it takes where it has so much room: a long sentence goes on in further lines."""
        return self._theme.px(32) + (max(1, lines_of(self._sentence(width))) - 1) * self._theme.px(20)

    @property
    def _ends(self) -> tuple[float, ...]:
        """Where the sentence begins, and how much room have and need take at the right."""
        px = self._theme.px
        subject = parts_width((self._line.title or self._line.subject,), self._theme.letters(_TEXT, bold=True))
        start = max(px(148), px(80) + subject + px(14))
        return start, parts_width(words_with_figures(self._have_need), self._theme.letters(_SMALL)) + px(20)

    @property
    def _have_need(self) -> str:
        return "   ".join(part for part in (self._line.have, self._line.need) if part)

    def _sentence(self, width: float) -> tuple[Placed, ...]:
        start, end = self._ends
        room = max(self._theme.px(160), width - start - end - self._theme.px(24))
        return flow(self._line.sentence, room, self._theme.letters(_TEXT))

    def paintEvent(self, _event: QPaintEvent) -> None:
        theme, line = self._theme, self._line
        px, colours = theme.px, theme.palette
        painter = QPainter(self)
        y = px(21)
        size = px(14)
        paint_level(painter, QRectF(0, y - px(5) - size / 2, size, size), line.level, theme)
        word = (WORDS.get(line.level, ""),)
        paint_parts(painter, QPointF(px(24), y), word, self._theme.letters(14, bold=True), colours.level(line.level))
        paint_parts(
            painter,
            QPointF(px(72), y),
            (line.title or line.subject,),
            self._theme.letters(_TEXT, bold=True),
            colours.ink,
        )
        start, end = self._ends
        paint_flow(
            painter, QPointF(start, y), self._sentence(self.width()), self._theme.letters(_TEXT), colours.ink, px(20)
        )
        at = QPointF(self.width() - end + px(20), y)
        paint_parts(painter, at, words_with_figures(self._have_need), self._theme.letters(_SMALL), colours.ink)
        painter.end()


class FindingRow(QFrame):
    """One finding. Open, it has its reason and its ways out as buttons."""

    chosen = Signal(str)
    walk = Signal(int)
    grown = Signal()

    def __init__(self, theme: Theme, line: FindingLine, hands: FindingHands, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme, self.line, self._hands = theme, line, hands
        self._open = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(f"{WORDS.get(line.level, '')} {line.title or line.subject}: {line.sentence}")
        self._layout = QVBoxLayout(self)
        px = theme.px
        self._layout.setContentsMargins(px(12), 0, px(12), 0)
        self._layout.setSpacing(0)
        self._head = _Head(theme, line, self)
        self._layout.addWidget(self._head)
        self._more: QWidget | None = None
        self._because: QLineEdit | None = None

    @property
    def is_open(self) -> bool:
        return self._open

    def open(self, *, wanted: bool) -> None:
        """Show or hide the reason and the ways out."""
        if wanted == self._open:
            return
        self._open = wanted
        if self._more is not None:
            self._layout.removeWidget(self._more)
            self._more.hide()
            self._more.deleteLater()
            self._more = self._because = None
        if wanted:
            self._more = self._details()
            self._layout.addWidget(self._more)
        self.update()

    def shut_height(self, width: int) -> int:
        """Pixels it takes without its reason and ways out, in so much room."""
        margins = self._layout.contentsMargins()
        return self._head.height_in(width - margins.left() - margins.right())

    def _details(self) -> QWidget:
        px = self._theme.px
        more = QWidget(self)
        layout = QVBoxLayout(more)
        layout.setContentsMargins(px(148), 0, 0, px(8))
        layout.setSpacing(px(6))
        if self.line.reason:
            layout.addWidget(Prose(self._theme, self.line.reason, _TEXT))
        if self.line.answer:
            layout.addWidget(Prose(self._theme, f"It is so, because {self.line.answer}", _TEXT, "ink"))
        ways = WaysRow(self._theme, self.line.holds)
        for way in self.line.ways:
            self._button(ways, way.word, lambda _=False, key=way.key: self._hands.act(key))
        if self.line.answerable:
            self._button(ways, IT_IS_SO, lambda _=False: self._ask(layout))
        layout.addWidget(ways)
        return more

    def _button(self, ways: WaysRow, word: str, do: Callable[..., None]) -> None:
        button = QPushButton(word)
        button.setAutoDefault(True)
        button.clicked.connect(do)
        ways.add(button)

    def _ask(self, layout: QVBoxLayout) -> None:
        """A line for the reason: it is so, because ..."""
        if self._because is None:
            field = QLineEdit()
            field.setPlaceholderText("It is so, because … (Enter keeps the reason, Esc leaves it)")
            field.setAccessibleName("It is so, because")
            field.setText(self.line.answer or "")
            field.setFixedHeight(self._theme.px(28))
            field.returnPressed.connect(self._answer)
            field.installEventFilter(self)
            layout.addWidget(field)
            self._because = field
            field.show()
            self.grown.emit()
        self._because.setFocus()
        self._because.selectAll()

    def _answer(self) -> None:
        if self._because is not None:
            self._hands.answer(self.line.key, self._because.text())

    def eventFilter(self, _watched: object, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Escape:
            if self._because is not None:
                self._because.hide()
                self._because.deleteLater()
                self._because = None
            self.setFocus()
            return True
        return False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            self.walk.emit(1 if event.key() == Qt.Key.Key_Down else -1)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.chosen.emit(self.line.key)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, _event: QMouseEvent) -> None:
        self.chosen.emit(self.line.key)
        self.setFocus()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        colours, px = self._theme.palette, self._theme.px
        painter = QPainter(self)
        if self._open:
            painter.fillRect(self.rect(), colours.selection if not self._more else colours.paper)
        if self.hasFocus():
            painter.setPen(colours.blue)
            for inset in range(px(2)):
                painter.drawRect(self.rect().adjusted(inset, inset, -inset - 1, -inset - 1))
        painter.end()


class FindingHands:
    """What a finding may have done."""

    def __init__(self, act: Callable[[str], None], answer: Callable[[str, str], None]) -> None:
        self.act, self.answer = act, answer


class FindingsStrip(QScrollArea):
    """All findings of a page; the chosen one is open. `subject_chosen` is sent with what it is about.

    `needs` is sent with the height at which the open one is whole.
    """

    subject_chosen = Signal(str)
    needs = Signal(int)

    def __init__(self, theme: Theme, hands: FindingHands, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme, self._hands = theme, hands
        self._lines: tuple[FindingLine, ...] | None = None
        self._chosen = ""
        self.rows: list[FindingRow] = []
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMinimumHeight(theme.px(LEAST))
        self.setAccessibleName("findings")

    def sizeHint(self) -> QSize:
        return QSize(self._theme.px(400), self._theme.px(110))

    def show_lines(self, lines: tuple[FindingLine, ...], in_hand: str = "") -> None:
        """Take over the findings; the open one stays open, and half a reason stays in its line.

        A finding that has just come up on what is in hand (a billet after a slice) is opened in its place.
        """
        if lines == self._lines:
            return
        before = {line.key for line in self._lines} if self._lines is not None else {line.key for line in lines}
        new = [line for line in lines if line.key not in before and line.subject == in_hand]
        self._lines = lines
        focused = next((row.line.key for row in self.rows if row.hasFocus()), "")
        came_up = next((line.key for line in new if line.level in ("stop", "warn") and line.answer is None), "")
        if came_up:
            self._chosen = came_up
        elif self._chosen not in [line.key for line in lines]:
            strong = lines[0].key if lines and lines[0].level in ("stop", "warn") else ""
            self._chosen = strong or next((line.key for line in lines if line.shown), "")
        self._build(lines)
        for row in self.rows:
            if row.line.key == focused:
                row.setFocus()
        if came_up:
            QTimer.singleShot(0, self, self._show_open)

    def _show_open(self) -> None:
        for row in self.rows:
            if row.is_open:
                self.ensureWidgetVisible(row)

    def _build(self, lines: tuple[FindingLine, ...]) -> None:
        px = self._theme.px
        body = QWidget()
        layout = QVBoxLayout(body)
        layout.setContentsMargins(px(8), px(4), px(8), px(4) if lines else 0)
        layout.setSpacing(0)
        self.rows = []
        for line in lines:
            row = FindingRow(self._theme, line, self._hands, body)
            row.chosen.connect(self.choose)
            row.walk.connect(self._walk)
            row.grown.connect(self._tell_need)
            row.open(wanted=line.key == self._chosen)
            layout.addWidget(row)
            self.rows.append(row)
        if not lines:
            nothing = Prose(self._theme, NOTHING, _TEXT)
            nothing.setContentsMargins(px(12), 0, 0, 0)
            inner = QHBoxLayout()
            inner.setContentsMargins(px(12), 0, 0, 0)
            inner.addWidget(nothing)
            layout.addLayout(inner)
        layout.addStretch(1)
        old = self.takeWidget()
        if old is not None:  # not at once: a button or field of it may be the one that brought the change
            old.hide()
            old.deleteLater()
        self.setWidget(body)
        body.setAutoFillBackground(False)
        self._tell_need()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._tell_need()

    def _tell_need(self) -> None:
        """The open one whole; the shut ones as far as they take no more than a fifth of the window with it."""
        px, width = self._theme.px, self.viewport().width() - self._theme.px(16)
        high = sum(max(row.heightForWidth(width), px(32)) for row in self.rows if row.is_open) + px(10)
        shut = sum(row.shut_height(width) for row in self.rows if not row.is_open)
        wanted = max(high, min(high + shut, round(SHARE * self.window().height())), px(LEAST))
        self.needs.emit(min(wanted, px(MOST)))

    def choose(self, key: str) -> None:
        """Open one finding, shut the others, select what it is about."""
        self._chosen = key
        for row in self.rows:
            row.open(wanted=row.line.key == key)
            if row.line.key == key:
                self.subject_chosen.emit(row.line.subject)
        self._tell_need()

    def _walk(self, step: int) -> None:
        at = next((n for n, row in enumerate(self.rows) if row.hasFocus()), 0) + step
        if 0 <= at < len(self.rows):
            self.rows[at].setFocus()
            self.choose(self.rows[at].line.key)
            self.ensureWidgetVisible(self.rows[at])
