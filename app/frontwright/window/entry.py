"""The one field in which anything is typed: it takes every text, says at once how it was read, and keeps half of it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import QLineEdit, QWidget

from frontwright.window.figures import paint_parts, parts_width, words_with_figures
from frontwright.window.reading import NOTHING, Understood
from frontwright.window.theme import Letters, Theme

LONGEST_DRAFT = 20_000
PAUSE = 250  # milliseconds after a keystroke until what stands in the field is kept

Reader = Callable[[str], Understood]


class EntryField(QLineEdit):
    """A line of text without validator or mask. `kept` is sent with the text shortly after the typing pauses.

    `note` (given a place by `show_note_in`) is the second line under the field; `problem` puts words of the desk there.
    """

    kept = Signal(str)
    read_as = Signal(object)

    def __init__(self, theme: Theme, reader: Reader | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme, self._reader = theme, reader
        self._note: ReadingNote | None = None
        self._pause = QTimer(self, singleShot=True, interval=PAUSE)
        self._pause.timeout.connect(self.keep)
        self._unkept = False
        self.setMaxLength(LONGEST_DRAFT)
        self.textEdited.connect(self._was_edited)
        self.textChanged.connect(self._explain)

    @property
    def understood(self) -> Understood:
        """How the text of the moment is read."""
        return self._reader(self.text()) if self._reader else NOTHING

    def set_reader(self, reader: Reader) -> None:
        """Read by other rules from now on (the unit of the job was changed)."""
        self._reader = reader
        self._explain()

    def keep(self) -> None:
        """Send on what was typed since it was last kept, without waiting."""
        self._pause.stop()
        if self._unkept:
            self._unkept = False
            self.kept.emit(self.text())

    def forget(self) -> None:
        """What stands here was taken over or given up: nothing is left to keep."""
        self._pause.stop()
        self._unkept = False

    def show_note_in(self, place: QWidget) -> None:
        """Have the second line stand under the field, over whatever `place` shows there."""
        self._note = ReadingNote(self._theme, place)
        self._explain()

    def show_problem(self, sentence: str) -> None:
        """Words of the desk under the field; they go with the next keystroke."""
        self._tell(Understood(sentence, "refused"))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter with Ctrl belongs to the form around the field."""
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: object) -> None:
        super().focusInEvent(event)  # type: ignore[arg-type]
        self._explain()

    def moveEvent(self, event: object) -> None:
        super().moveEvent(event)  # type: ignore[arg-type]
        self._lay_note()

    def hideEvent(self, event: object) -> None:
        super().hideEvent(event)  # type: ignore[arg-type]
        if self._note:
            self._note.hide()

    def drop_note(self) -> None:
        """Take the second line away for good."""
        if self._note:
            self._note.hide()
            self._note.deleteLater()
            self._note = None

    def grow(self) -> None:
        """Be as wide as the text needs, within the place that the field stands in."""
        place = self.parentWidget()
        need = self.fontMetrics().horizontalAdvance(self.text()) + self._theme.px(16)
        if place and need > self.width():
            width = min(need, place.width())
            self.setGeometry(min(self.x(), place.width() - width), self.y(), width, self.height())

    def _was_edited(self) -> None:
        self._unkept = True
        self._pause.start()

    def _explain(self) -> None:
        self._tell(self.understood)

    def _tell(self, found: Understood) -> None:
        self.read_as.emit(found)
        self.setAccessibleDescription(found.line)
        if self._note:
            self._note.tell(found)
            self._lay_note()

    def _lay_note(self) -> None:
        place = self._note.parentWidget() if self._note else None
        if self._note and place and self._note.said:
            self._note.stand_under(QRect(self.mapTo(place, QPoint(0, 0)), self.size()), place.rect())
        elif self._note:
            self._note.hide()


class ReadingNote(QWidget):
    """The second line of an open field, in a blue frame."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme
        self.said = NOTHING.line
        self._state = NOTHING.state
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.hide()

    def tell(self, found: Understood) -> None:
        """Take over what is to be said; shown by `stand_under`."""
        self.said, self._state = found.line, found.state
        self.setAccessibleName(found.line)
        self.update()

    def sizeHint(self) -> QSize:
        width = parts_width(words_with_figures(self.said), self._letters)
        return QSize(round(width) + self._theme.px(18), self._theme.px(29))

    def stand_under(self, field: QRect, room: QRect) -> None:
        """Stand right under the field, moved left where the room ends, over it where there is no room below."""
        size = self.sizeHint()
        left = max(room.left(), min(field.left(), room.right() - size.width()))
        top = field.bottom() - self._theme.px(1)
        if top + size.height() > room.bottom():
            top = field.top() - size.height() + self._theme.px(2)
        self.setGeometry(QRect(QPoint(left, top), size))
        self.show()
        self.raise_()

    def paintEvent(self, _event: object) -> None:
        colours, px = self._theme.palette, self._theme.px
        painter = QPainter(self)
        line = max(1, px(1.2))
        painter.fillRect(self.rect(), colours.field)
        painter.setPen(QPen(colours.blue, line))
        painter.drawRect(QRectF(self.rect()).adjusted(line / 2, line / 2, -line / 2, -line / 2))
        colour = {"doubt": colours.warn, "refused": colours.stop}.get(self._state, colours.ink)
        if self._state == "unfinished":
            colour = colours.ink_soft
        at = QPointF(px(9), round(self.height() / 2 + px(4.5)))
        paint_parts(painter, at, words_with_figures(self.said), self._letters, colour)
        painter.end()

    @property
    def _letters(self) -> Letters:
        return self._theme.letters(12.5)
