"""The sheets: a list with the state of each, a preview of the very bytes that are saved and printed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from PySide6.QtCore import (
    QItemSelectionModel,
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from frontwright.desk.contents import SheetLine
from frontwright.window.chooser import Chooser
from frontwright.window.figures import paint_parts, parts_width, words_with_figures
from frontwright.window.preview import Preview
from frontwright.window.prose import Prose
from frontwright.window.signs import paint_level
from frontwright.window.theme import Theme, metrics

PAPERS = (("a4", "A4"), ("letter", "letter"))
_KEY = Qt.ItemDataRole.UserRole
Index = QModelIndex | QPersistentModelIndex


class SheetHands(Protocol):
    """What the sheets page may ask for."""

    def sheets(self) -> Sequence[SheetLine]: ...

    def pdf(self, keys: Sequence[str], paper: str) -> bytes | str:
        """The sheets as one PDF, or one sentence why there is none."""
        ...

    def paper(self) -> str: ...

    def save_sheets(self, keys: Sequence[str], data: bytes) -> None:
        """Ask where to, and save."""
        ...

    def print_sheets(self, keys: Sequence[str], data: bytes) -> None:
        """Ask which printer, and print."""
        ...


class _Line(QStyledItemDelegate):
    """A sheet in the list: its outline, stale with a diagonal, held with a stop block; number, title, reason."""

    def __init__(self, theme: Theme, parent: SheetList) -> None:
        super().__init__(parent)
        self._theme, self._list = theme, parent

    def sizeHint(self, _option: QStyleOptionViewItem, index: Index) -> QSize:
        line = self._list.line(index.row())
        return QSize(self._theme.px(300), self._theme.px(44 if line.reason else 30))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        line, theme, px, colours = self._list.line(index.row()), self._theme, self._theme.px, self._theme.palette
        rect = QRectF(option.rect)
        painter.save()
        painter.setClipRect(rect)
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, colours.selection)
        painter.fillRect(QRectF(rect.left(), rect.bottom(), rect.width(), max(1, px(1))), colours.hair)
        self._icon(painter, QRectF(rect.left() + px(10), rect.top() + px(7), px(12), px(16)), line)
        base = rect.top() + px(20)
        paint_parts(painter, QPointF(rect.left() + px(34), base), (line.number,), theme.letters(13), colours.ink_soft)
        words, at = words_with_figures(line.title), QPointF(rect.left() + px(62), base)
        paint_parts(painter, at, words, theme.letters(13, bold=line.state != "held"), colours.ink)
        state = "held back" if line.state == "held" else line.state
        colour = {"held": colours.stop, "stale": colours.warn}.get(line.state, colours.ink_soft)
        letters = theme.letters(12, bold=line.state in ("held", "stale"))
        left = rect.right() - px(10) - parts_width((state,), letters)
        paint_parts(painter, QPointF(left, base), (state,), letters, colour)
        if line.reason:
            place = QPointF(rect.left() + px(62), base + px(17))
            room = rect.right() - px(10) - place.x()
            reason = metrics(theme.letters(12).size).elidedText(line.reason, Qt.TextElideMode.ElideRight, room)
            paint_parts(painter, place, words_with_figures(reason), theme.letters(12), colours.ink_soft)
        if option.state & QStyle.StateFlag.State_HasFocus and self._list.hasFocus():
            painter.setPen(QPen(colours.blue, px(2)))
            painter.drawRect(rect.adjusted(px(1), px(1), -px(1), -px(1)))
        painter.restore()

    def _icon(self, painter: QPainter, box: QRectF, line: SheetLine) -> None:
        colours = self._theme.palette
        if line.state == "held":
            size = self._theme.px(13)
            paint_level(painter, QRectF(box.left(), box.top() + 1, size, size), "stop", self._theme)
            return
        pen = QPen(colours.ink if line.state != "not printed" else colours.rule, max(1, self._theme.px(1)))
        if line.state == "not printed":
            pen.setDashPattern([3, 2])
        painter.setPen(pen)
        painter.drawRect(box)
        if line.state == "stale":
            painter.drawLine(box.bottomLeft(), box.topRight())


class SheetList(QListWidget):
    """The sheets in working order; several can be chosen."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines: tuple[SheetLine, ...] = ()
        self.setItemDelegate(_Line(theme, self))
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setAccessibleName("sheets")

    def line(self, row: int) -> SheetLine:
        return self._lines[row]

    def show_lines(self, lines: tuple[SheetLine, ...]) -> None:
        """Take over the list; what was chosen stays chosen, and the keys go on from where they were."""
        if lines == self._lines:
            return
        chosen, at = self.keys(), self.currentRow()
        stood = self._lines[at].key if 0 <= at < len(self._lines) else ""
        self.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        self.clear()
        self._lines = lines
        for line in lines:
            item = QListWidgetItem()
            item.setData(_KEY, line.key)
            words = (line.number, line.title, line.state, line.reason)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, ", ".join(word for word in words if word))
            self.addItem(item)
            item.setSelected(line.key in chosen)
            if line.key == stood:
                self.setCurrentItem(item, QItemSelectionModel.SelectionFlag.NoUpdate)
        if not self.selectedItems() and lines:
            first = next((n for n, line in enumerate(lines) if line.state != "held"), 0)
            self.setCurrentRow(first)
        self.blockSignals(False)  # noqa: FBT003 - Qt's own signature

    def keys(self) -> list[str]:
        """Keys of the chosen sheets, in working order."""
        return [str(item.data(_KEY)) for item in sorted(self.selectedItems(), key=self.row)]

    def chosen(self) -> list[SheetLine]:
        keys = set(self.keys())
        return [line for line in self._lines if line.key in keys]


class SheetsPage(QWidget):
    """Choose sheets, see them, save or print them."""

    subject_chosen = Signal(str)

    def __init__(self, theme: Theme, hands: SheetHands, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("page")
        self._theme, self._hands = theme, hands
        self.data = b""
        self.list = SheetList(theme)
        self.list.itemSelectionChanged.connect(self.preview)
        self.paper = Chooser(theme)
        self.paper.setAccessibleName("paper")
        for value, word in PAPERS:
            self.paper.addItem(word, value)
        self.paper.activated.connect(lambda _: self.preview())
        self.view = Preview(theme)
        self.reason = Prose(theme, "", 13, "ink")
        self.save = QPushButton("Save …")
        self.print = QPushButton("Print …")
        self.all = QPushButton("Choose all that are ready")
        self._lay_out()

    def _lay_out(self) -> None:
        px = self._theme.px
        title = QLabel("Sheets")
        title.setFont(self._theme.font(20, bold=True))
        self.save.clicked.connect(self._save)
        self.save.setShortcut("Ctrl+S")
        self.print.clicked.connect(self.print_chosen)
        self.print.setProperty("main", "true")
        self.all.clicked.connect(self.choose_ready)
        top = QWidget()
        top.setFixedHeight(px(52))
        head = QHBoxLayout(top)
        head.setContentsMargins(0, px(8), 0, 0)
        head.setSpacing(px(12))
        head.addWidget(title)
        head.addSpacing(px(12))
        head.addWidget(self.all)
        head.addStretch(1)
        head.addWidget(self.paper)
        head.addWidget(self.save)
        head.addWidget(self.print)
        right = QVBoxLayout()
        right.addWidget(self.reason)
        right.addWidget(self.view, 1)
        body = QHBoxLayout()
        body.setSpacing(px(24))
        body.addWidget(self.list, 5)
        body.addLayout(right, 6)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(20), 0, px(20), px(10))
        layout.setSpacing(px(6))
        layout.addWidget(top)
        layout.addLayout(body, 1)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.palette.paper)
        painter.end()

    def show_sheets(self) -> None:
        """Take over the list and what is chosen in it."""
        lines = tuple(self._hands.sheets())
        if self.paper.property("chosen") is None:
            self.paper.setCurrentIndex(max(0, self.paper.findData(self._hands.paper())))
            self.paper.setProperty("chosen", "true")
        self.list.show_lines(lines)
        self.preview()

    def choose_ready(self) -> None:
        """Choose every sheet that no stop holds back."""
        self.list.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        for row in range(self.list.count()):
            self.list.item(row).setSelected(self.list.line(row).state != "held")
        self.list.blockSignals(False)  # noqa: FBT003 - Qt's own signature
        self.preview()

    def preview(self) -> None:
        """Show the chosen sheets; over a stale or held one its reason."""
        chosen = self.list.chosen()
        reasons = [f"{line.title}: {line.reason}" for line in chosen if line.state in ("stale", "held") and line.reason]
        ready = [line.key for line in chosen if line.state != "held"]
        made = self._hands.pdf(ready, str(self.paper.currentData())) if ready else b""
        if isinstance(made, str):
            reasons.insert(0, made)
            made = b""
        held = any(line.state == "held" for line in chosen)
        self.reason.say(".  ".join(reasons), "stop" if held else "warn")
        self.reason.setVisible(bool(reasons))
        self._show(made)

    def _show(self, data: bytes) -> None:
        for button in (self.save, self.print):
            button.setEnabled(bool(data))
        if data == self.data:
            return
        self.data = data
        self.view.show_pdf(data)

    def _ready(self) -> list[str]:
        return [line.key for line in self.list.chosen() if line.state != "held"]

    def _save(self) -> None:
        self._hands.save_sheets(self._ready(), self.data)

    def print_chosen(self) -> None:
        """Print what is chosen and ready."""
        if not self.data:
            return
        self._hands.print_sheets(self._ready(), self.data)

    @property
    def pages(self) -> int:
        """How many pages the preview has."""
        return self.view.pages
