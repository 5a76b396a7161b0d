"""A table or form on the screen: filled by keyboard alone, in the order in which things are measured."""

from __future__ import annotations

from PySide6.QtCore import QElapsedTimer, QEvent, QModelIndex, QPoint, QRectF, QSize, Qt
from PySide6.QtGui import (
    QAction,
    QFocusEvent,
    QGuiApplication,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractItemView, QFrame, QMenu, QSizePolicy, QTableView, QWidget

from frontwright.core.drawing.section import finer
from frontwright.core.lengths import Display
from frontwright.desk.contents import Cell, Form, Table
from frontwright.window.cell_look import FIELD, PAD, TICKED, CellPainter, Room
from frontwright.window.cells import CellsModel, Index, as_table
from frontwright.window.delegate import CellDelegate
from frontwright.window.entry import EntryField
from frontwright.window.hands import Hands
from frontwright.window.head import TableHead
from frontwright.window.reading import understood
from frontwright.window.shape import spans_of
from frontwright.window.theme import Theme

LEAST_ROWS = 7  # rows that a table shows at least, however little room there is
FEW_COLUMNS = 4
BAR = 10  # a scroll bar beside the rows
MOST_WORDS = 170  # pixels of the look: longer words are cut short before they push figures out of sight
MOST_CHOICE, MOST_VALUE = 100, 140
LETTERS_APART = 900  # milliseconds within which letters are one word


class Grid(QTableView):
    """The cells of one table or form. Everything it wants done goes through its hands."""

    def __init__(self, theme: Theme, hands: Hands, block: Table | Form, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.theme, self.hands = theme, hands
        self._lettered, self._letters_over = ("", ""), QElapsedTimer()
        self.is_form = isinstance(block, Form) and not block.across
        self.gutter = 0 if isinstance(block, Form) else theme.px(20)
        self.painter = CellPainter(theme)
        self.rooms: tuple[Room, ...] = ()
        self.spans: tuple[dict[int, int], ...] = ()
        self.least_rows = LEAST_ROWS
        self._refreshing = False
        self.cells = CellsModel(as_table(block), display_of(block, hands.display), self)
        self._head = TableHead(theme, self.gutter, self)
        self._delegate = CellDelegate(self)
        self._dress()
        self.setModel(self.cells)
        self.setItemDelegate(self._delegate)
        self.show_block(block)

    def _dress(self) -> None:
        self.setHorizontalHeader(self._head)
        self.verticalHeader().hide()
        self.verticalHeader().setMinimumSectionSize(1)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ContiguousSelection)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.setTabKeyNavigation(False)
        self.setMouseTracking(False)

    # what is shown

    def show_block(self, block: Table | Form) -> None:
        """Take over new contents of the same block. An open cell stays open, with its text; nothing is entered."""
        self._refreshing = True
        try:
            table = as_table(block)
            self.cells.show(table, display_of(block, self.hands.display))
            self._head.show_columns(table.columns)
            self.setAccessibleName(table.title)
            self._lay_rows()
            self._measure()
        finally:
            self._refreshing = False
        self.viewport().update()

    def _lay_rows(self) -> None:
        table, header = self.cells.table, self.verticalHeader()
        self.clearSpans()
        self.spans = tuple(spans_of(row, len(table.columns)) for row in table.rows)
        for number, row in enumerate(table.rows):
            writable = any(cell.editable for cell in row.cells)
            height = self.theme.px(34 if table.tall and writable else 28 if writable else 26)
            if header.sectionSize(number) != height:
                header.resizeSection(number, height)
            for column, width in self.spans[number].items():
                self.setSpan(number, column, 1, width)

    def _measure(self) -> None:
        table = self.cells.table
        self.rooms = tuple(self._room(number, column.axis) for number, column in enumerate(table.columns))
        self._share()

    def _room(self, number: int, axis: bool) -> Room:
        """What the cells of a column need; those that reach over several columns do not count."""
        before = after = words = 0.0
        for row, spans in zip(self.cells.table.rows, self.spans, strict=True):
            if number >= len(row.cells) or row.head or number in spans:
                continue
            left, right = self.painter.box(row.cells[number], self.cells.display)
            if self.painter.is_figure(row.cells[number]):
                before, after = max(before, left), max(after, right)
            else:
                choice = row.cells[number].kind == "choice" or (self.is_form and number > 0)
                most = (MOST_VALUE if self.is_form else MOST_CHOICE) if choice else MOST_WORDS
                words = max(words, min(left + right, self.theme.px(most)))
        return Room(before, after, words, axis)

    def _needs(self) -> list[float]:
        px = self.theme.px
        needs = []
        for number, (room, column) in enumerate(zip(self.rooms, self.cells.table.columns, strict=True)):
            least: float = px(FIELD) if (column.axis and not self.is_form) or room.figures else 0
            if self.is_form and number:
                least = max(least, px(2 * FIELD))
            if room.words:
                least = max(least, room.words + px(4))
            title = self._head.title_width(column) * 0.9
            needs.append(max(room.figures, least, title) + px(2 * PAD) + (self.gutter if number == 0 else 0))
        self._widen_for_spans(needs)
        return needs

    def _widen_for_spans(self, needs: list[float]) -> None:
        """Words that reach over several columns widen the first of them where they would not fit."""
        for row, spans in zip(self.cells.table.rows, self.spans, strict=True):
            for column, count in spans.items():
                if row.head or column >= len(row.cells):
                    continue
                width = sum(self.painter.box(row.cells[column], self.cells.display))
                wanted = min(width, self.theme.px(2 * MOST_WORDS)) + self.theme.px(2 * PAD + 2)
                wanted += self.gutter if column == 0 else 0
                needs[column] += max(0.0, wanted - sum(needs[column : column + count]))

    def _share(self) -> None:
        needs, table = self._needs(), self.cells.table
        room = self.viewport().width()
        if self.is_narrow and needs and sum(needs) > room:
            needs[-1] = max(self.theme.px(104), needs[-1] - (sum(needs) - room)) if self.is_form else needs[-1]
            needs[0] = max(self.theme.px(60), needs[0] - (sum(needs) - room))
        spare = max(0.0, room - sum(needs))
        shares = [column.share for column in table.columns]
        whole = sum(shares) or 1
        for number, need in enumerate(needs):
            width = int(need + spare * shares[number] / whole)
            if self._head.sectionSize(number) != width:
                self._head.resizeSection(number, width)

    @property
    def is_narrow(self) -> bool:
        """Words with figures beside them: where there is little room the words give way, it never scrolls sideways."""
        return self.is_form or len(self.cells.table.columns) < FEW_COLUMNS

    def sizeHint(self) -> QSize:
        return QSize(int(sum(self._needs())) + self.theme.px(BAR), self._height(len(self.cells.table.rows)))

    def minimumSizeHint(self) -> QSize:
        return QSize(self.theme.px(120), self._height(min(len(self.cells.table.rows), self.least_rows)))

    def show_at_least(self, rows: int) -> None:
        """How many rows there must be room for before the page scrolls and not the table."""
        if rows != self.least_rows:
            self.least_rows = rows
            self.updateGeometry()

    def _height(self, rows: int) -> int:
        lines = sum(self.verticalHeader().sectionSize(row) for row in range(rows))
        return self._head.sizeHint().height() + lines + self.theme.px(4)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if not self._refreshing:  # rows come and go just now; they are measured when all of them are there
            self._share()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.hasFocus() and self.currentIndex().isValid() and self._delegate.editor is None:
            painter = QPainter(self.viewport())
            self.painter.frame(painter, QRectF(self.visualRect(self.currentIndex())))
            painter.end()

    # walking

    def entry_keys(self) -> list[str]:
        """Keys of the cells that can be written in, in measuring order."""
        return [cell.key for row in self.cells.table.rows for cell in row.cells if cell.editable]

    def has(self, key: str) -> bool:
        return bool(key) and self.cells.place_of(key).isValid()

    def stand_on(self, key: str) -> None:
        """Put the focus on a cell; a half-typed one opens with its text."""
        place = self.cells.place_of(key)
        if not place.isValid():
            return
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self.setCurrentIndex(place)
        self.scrollTo(place)
        draft = self.hands.draft(key)
        if draft is not None:
            self.open_field(place, draft)

    def show_current(self) -> None:
        """Bring the current cell into sight."""
        self.scrollTo(self.currentIndex())

    @property
    def current_key(self) -> str:
        cell = self.cells.cell(self.currentIndex())
        return cell.key if cell else ""

    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        self.viewport().update()
        if not self._refreshing and self.hasFocus():
            self._select_subject()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        by_keys = event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason)
        if by_keys or not self.currentIndex().isValid():
            keys = self.entry_keys()
            if keys and event.reason() is not Qt.FocusReason.MouseFocusReason:
                back = event.reason() is Qt.FocusReason.BacktabFocusReason
                self.setCurrentIndex(self.cells.place_of(keys[-1 if back else 0]))
        self._select_subject()
        self.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.viewport().update()

    def _select_subject(self) -> None:
        index = self.currentIndex()
        cell = self.cells.cell(index)
        if cell:
            subject = cell.subject or self.cells.row(index.row()).subject
            if subject and subject != self.hands.selected:
                self.hands.select(subject)

    def show_subject(self, subject: str) -> None:
        """Bring the row of the selected subject into view."""
        self.viewport().update()
        if self.hasFocus() or self._delegate.editor is not None:
            return
        for number, row in enumerate(self.cells.table.rows):
            if row.subject == subject and subject:
                self.scrollTo(self.cells.index(number, 0))
                return

    # keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        cell = self.cells.cell(self.currentIndex())
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
            back = event.key() == Qt.Key.Key_Backtab or bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            self._walk(-1 if back else 1, reading=event.key() != Qt.Key.Key_Tab)
        elif event.key() == Qt.Key.Key_Escape:
            if not self.hands.close_working():
                event.ignore()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.paste_block()
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy_block()
        elif cell is None or not self._cell_key(event, cell):
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Tab belongs to the cells, not to the window."""
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and event.key() in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab)
        ):
            self.keyPressEvent(event)
            return True
        return super().event(event)

    def _walk(self, step: int, *, reading: bool) -> None:
        """To the next cell; after Enter to the next reading."""
        key = self.current_key
        wish = self.hands.after(key) if reading and step > 0 else ""
        if not self.hands.go_on(key, step, wish):
            self.focusNextPrevChild(step > 0)

    def _cell_key(self, event: QKeyEvent, cell: Cell) -> bool:
        plain = not event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.MetaModifier)
        text = event.text()
        if text == "=" and plain:
            return self.hands.open_working(cell.key)
        if not cell.editable:
            return False
        if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.enter(cell.key, "")
            return True
        if event.key() == Qt.Key.Key_Space and cell.kind == "choice" and self._letters_of(cell):
            return self._choose_by_letter(cell, " ")
        if event.key() == Qt.Key.Key_F2 or (event.key() == Qt.Key.Key_Space and cell.kind in ("choice", "tick")):
            self.begin(self.currentIndex())
            return True
        if (
            cell.kind == "choice"
            and event.key() == Qt.Key.Key_Down
            and event.modifiers() & Qt.KeyboardModifier.AltModifier
        ):
            self.begin(self.currentIndex())
            return True
        if not plain or not text or not text.isprintable():
            return False
        if cell.kind == "choice":
            return self._choose_by_letter(cell, text)
        if cell.kind == "tick":
            return False
        self.open_field(self.currentIndex(), text)
        return True

    def _choose_by_letter(self, cell: Cell, letter: str) -> bool:
        """Letters typed one after the other choose by the beginning of a word; one alone goes on to the next such."""
        before = self._letters_of(cell)
        for typed in dict.fromkeys((before + letter.lower(), letter.lower())):
            alone = len(set(typed)) == 1
            found = _beginning(cell, typed[:1] if alone else typed)
            if not found:
                continue
            self._lettered = (cell.key, typed)
            self._letters_over.restart()
            at = found.index(cell.text) + alone if cell.text in found else 0
            if found[at % len(found)] != cell.text:
                self.enter(cell.key, found[at % len(found)])
            return True
        return bool(before)

    def _letters_of(self, cell: Cell) -> str:
        """What was typed into a choice just now."""
        goes_on = self._letters_over.isValid() and not self._letters_over.hasExpired(LETTERS_APART)
        return self._lettered[1] if goes_on and self._lettered[0] == cell.key else ""

    def begin(self, index: QModelIndex) -> None:
        """Begin to change a cell: a tick turns over, choices are offered, anything else opens with its text."""
        cell = self.cells.cell(index)
        if cell is None or not cell.editable:
            return
        if cell.kind == "tick":
            self.enter(cell.key, "no" if cell.text.lower() in TICKED else "yes")
        elif cell.kind == "choice":
            self.offer(index, cell)
        else:
            self.open_field(index, None)

    def offer(self, index: QModelIndex, cell: Cell) -> None:
        """Offer a cell's choices in a menu at its place."""
        menu = QMenu(self)
        for choice in cell.choices:
            action = QAction(choice.word, menu)
            action.setCheckable(True)
            action.setChecked(choice.value == cell.text)
            action.triggered.connect(lambda _=False, value=choice.value: self.enter(cell.key, value))
            menu.addAction(action)
            if choice.value == cell.text:
                menu.setActiveAction(action)
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(self.viewport().mapToGlobal(self.visualRect(index).bottomLeft() + QPoint(0, 2)))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        index = self.indexAt(event.position().toPoint())
        again = index.isValid() and index == self.currentIndex() and self.hasFocus()
        super().mousePressEvent(event)
        cell = self.cells.cell(index)
        if (cell and cell.kind == "tick") or (again and cell and cell.kind == "choice"):
            self.begin(index)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        index = self.indexAt(event.position().toPoint())
        cell = self.cells.cell(index)
        if cell and cell.editable and cell.kind not in ("tick", "choice"):
            self.begin(index)
        elif cell and not cell.editable and cell.figure is not None:
            self.hands.open_working(cell.key)

    # typing

    def open_field(self, index: QModelIndex, text: str | None) -> None:
        """Open a cell for typing, with `text` in it, else with its draft, else with what was typed before."""
        cell = self.cells.cell(index)
        if cell is None or not cell.editable:
            return
        self.edit(index)
        field = self._delegate.editor
        if field is None:
            return
        draft = self.hands.draft(cell.key)
        field.setText(text if text is not None else draft if draft is not None else cell.text)
        if text is None and draft is None:
            field.selectAll()
        if text is not None and text != draft:
            field.textEdited.emit(text)

    def field_for(self, cell: Cell, parent: QWidget) -> EntryField:
        """The open field of a cell."""
        field = EntryField(self.theme, lambda text: understood(text, cell.kind, self.hands.display), parent)
        field.setAccessibleName(cell.name)
        field.setProperty("cell", "true")
        field.textChanged.connect(field.grow)
        field.kept.connect(lambda text: self.hands.keep_draft(cell.key, text))
        field.show_note_in(self._note_place())
        return field

    def _note_place(self) -> QWidget:
        place: QWidget = self
        while (above := place.parentWidget()) is not None and not place.isWindow():
            if place.objectName() == "page":
                return place
            place = above
        return place

    def finish(self, field: EntryField, step: int, *, reading: bool = False) -> None:
        """Enter the text of the open field and walk on (to the next reading or the next cell of any kind).

        Where it is refused, the field stays open and says why.
        """
        key = self._delegate.key
        outcome = self.hands.enter(key, field.text())
        if outcome.problem:
            self.hands.keep_draft(key, field.text())
            field.show_problem(outcome.problem)
            return
        self._close(field, key)
        if step:
            self.hands.go_on(key, step, outcome.next_key if reading and step > 0 else "")

    def leave(self, field: EntryField) -> None:
        """The focus went elsewhere: enter the text, or keep it half typed where it is refused."""
        key, text = self._delegate.key, field.text()
        outcome = self.hands.enter(key, text)
        if outcome.problem:
            self.hands.keep_draft(key, text)
            self.hands.say(outcome.problem)
            self._close(field, "")
        else:
            self._close(field, key)

    def give_up(self, field: EntryField) -> None:
        """Escape: the cell is as it was, and nothing is kept of the text."""
        self._close(field, self._delegate.key)

    def keep_typing(self) -> None:
        """Keep at once what stands in an open field (the window closes)."""
        field = self._delegate.editor
        if field is not None:
            field.keep()

    @property
    def open_text(self) -> str | None:
        """The text of the open field; None where none is open."""
        return self._delegate.editor.text() if self._delegate.editor else None

    def _close(self, field: EntryField, drop: str) -> None:
        field.forget()
        if drop:
            self.hands.drop_draft(drop)
        self._delegate.close(field)
        self.viewport().update()

    def enter(self, key: str, text: str) -> None:
        """Enter a text that needs no field (a choice, a tick, an emptied cell)."""
        outcome = self.hands.enter(key, text)
        if outcome.problem:
            self.hands.say(outcome.problem)
        else:
            self.hands.drop_draft(key)

    # blocks of cells

    def paste_block(self) -> None:
        """Paste lines and columns of text over the cells from the current one on, as one edit."""
        start = self.currentIndex()
        lines = QGuiApplication.clipboard().text().rstrip("\r\n").splitlines()
        keys, texts = [], []
        for down, line in enumerate(lines):
            for across, text in enumerate(line.split("\t")):
                cell = self.cells.cell(self.cells.index(start.row() + down, start.column() + across))
                if cell is not None and cell.editable:
                    keys.append(cell.key)
                    texts.append(text.strip())
        if not keys:
            self.hands.say("There is nothing on the clipboard that fits these cells.")
            return
        outcome = self.hands.paste(keys, texts)
        if outcome.problem or outcome.said:
            self.hands.say(outcome.problem or outcome.said)

    def copy_block(self) -> None:
        """Copy the selected cells as lines and columns of text."""
        places = self.selectedIndexes() or [self.currentIndex()]
        rows = sorted({place.row() for place in places})
        lines = []
        for row in rows:
            columns = sorted(place.column() for place in places if place.row() == row)
            lines.append("\t".join(self.cells.data(self.cells.index(row, c)) or "" for c in columns))
        QGuiApplication.clipboard().setText("\n".join(lines))


def display_of(block: Table | Form, display: Display) -> Display:
    """How the lengths of a block are told: a block of thicknesses as closely as the drawings of them."""
    return finer(display) if block.fine else display


def _beginning(cell: Cell, letters: str) -> list[str]:
    """Choices whose name begins with these letters; where none does, those with a word that does."""
    words = [(choice.value, choice.word.lower()) for choice in cell.choices]
    whole = [value for value, word in words if word == letters]
    first = whole or [value for value, word in words if word.startswith(letters)]
    return first or [value for value, word in words if f" {letters}" in word]
