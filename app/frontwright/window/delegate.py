"""Between a table and its cells: paints them, and opens the one field in which a cell is typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QRectF,
    Qt,
)
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPainter
from PySide6.QtWidgets import QAbstractItemDelegate, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from frontwright.core.findings import LEVELS
from frontwright.desk.contents import Cell, TableRow
from frontwright.window.cell_look import Room, cut_short
from frontwright.window.entry import EntryField
from frontwright.window.figures import Look, paint_parts, parts_width, words_with_figures
from frontwright.window.signs import paint_pointer

if TYPE_CHECKING:
    from frontwright.window.grid import Grid

Index = QModelIndex | QPersistentModelIndex
_STAYS = (
    Qt.FocusReason.PopupFocusReason,
    Qt.FocusReason.MenuBarFocusReason,
    Qt.FocusReason.ActiveWindowFocusReason,
)


class CellDelegate(QStyledItemDelegate):
    """Paints the cells of one grid. `editor` is the open field, `key` the key of the cell that it stands in."""

    def __init__(self, grid: Grid) -> None:
        super().__init__(grid)
        self._grid = grid
        self.editor: EntryField | None = None
        self.key = ""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        grid = self._grid
        cell, row = grid.cells.cell(index), grid.cells.row(index.row())
        rect = QRectF(option.rect)
        several = len(grid.selectedIndexes()) > 1 and bool(option.state & QStyle.StateFlag.State_Selected)
        self._ground(painter, rect, row, index.column(), several=several)
        if cell is None:
            return
        if row.head:
            self._head_row(painter, rect, row)
            return
        draft = grid.hands.draft(cell.key) if cell.editable else None
        room = grid.rooms[index.column()] if index.column() < len(grid.rooms) else Room()
        if index.column() in grid.spans[index.row()]:
            room = Room(axis=False)
        inner = rect.adjusted(grid.gutter if index.column() == 0 else 0, 0, 0, 0)
        right = grid.is_form and index.column() == 1
        grid.painter.paint(painter, inner, cell, grid.cells.display, room, draft, right)

    def _ground(self, painter: QPainter, rect: QRectF, row: TableRow, column: int, *, several: bool) -> None:
        grid, colours = self._grid, self._grid.theme.palette
        chosen = bool(row.subject) and row.subject == grid.hands.selected and not grid.is_form
        line = max(1, grid.theme.px(1))
        painter.fillRect(rect, colours.selection if chosen or several else colours.paper)
        if not chosen and not any(cell.editable for cell in row.cells):
            painter.fillRect(QRectF(rect.left(), rect.bottom() - line, rect.width(), line), colours.hair)
        if row.result:
            left = rect.left() + (grid.gutter if column == 0 else 0)
            painter.fillRect(QRectF(left, rect.top(), rect.right() - left, line), colours.ink)
        if column == 0 and grid.gutter:
            self._gutter(painter, rect, row, chosen)

    def _gutter(self, painter: QPainter, rect: QRectF, row: TableRow, chosen: bool) -> None:
        grid = self._grid
        level = max((cell.level for cell in row.cells), key=LEVELS.index, default="ok")
        if level != "ok":
            grid.painter.level_sign(painter, rect.left() + grid.theme.px(2), rect.center().y(), level)
        elif chosen:
            paint_pointer(painter, QPointF(rect.left() + grid.theme.px(5), rect.center().y()), grid.theme)

    def _head_row(self, painter: QPainter, rect: QRectF, row: TableRow) -> None:
        theme, px = self._grid.theme, self._grid.theme.px
        y = round(rect.center().y() + px(4.5))
        words, aside = words_with_figures(row.cells[0].text), words_with_figures(row.aside)
        left = QPointF(rect.left() + self._grid.gutter + px(6), y)
        right = QPointF(rect.right() - px(8) - parts_width(aside, theme.letters(12)), y)
        room = right.x() - left.x() - (px(8) if row.aside else 0)
        look, letters = cut_short(Look(words, theme.palette.ink), theme.letters(13, bold=True), room)
        paint_parts(painter, left, look.parts, letters, look.colour)
        paint_parts(painter, right, aside, theme.letters(12), theme.palette.ink_soft)

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, index: Index) -> QWidget:
        cell = self._grid.cells.cell(index) or Cell("", "words")
        self.key = cell.key
        self.editor = self._grid.field_for(cell, parent)
        self.editor.destroyed.connect(self._gone)
        return self.editor

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        """Nothing: the grid fills the field once; a refresh must not touch what is being typed."""

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        """Nothing: what was typed goes into the job through the grid's hands."""

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, index: Index) -> None:
        theme, cell = self._grid.theme, self._grid.cells.cell(index)
        rect = QRect(option.rect)
        if index.column() == 0:
            rect.setLeft(rect.left() + self._grid.gutter)
        least = theme.px(130 if cell and cell.kind == "text" else 74)
        if rect.width() < least:
            rect.setWidth(least)
            room = self._grid.viewport().width()
            if rect.right() > room:
                rect.moveRight(room - 1)
        editor.setGeometry(rect)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        field = self.editor
        if field is None or watched is not field:
            return False
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            return self._key(field, event)
        if isinstance(event, QFocusEvent) and event.type() == QEvent.Type.FocusOut:
            if event.reason() not in _STAYS:
                self._grid.leave(field)
            return False
        return False

    def _key(self, field: EntryField, event: QKeyEvent) -> bool:
        steps = {
            Qt.Key.Key_Return: 1,
            Qt.Key.Key_Enter: 1,
            Qt.Key.Key_Tab: 1,
            Qt.Key.Key_Backtab: -1,
        }
        key = Qt.Key(event.key())
        if key in steps:
            back = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            self._grid.finish(field, -1 if back else steps[key], reading=key is not Qt.Key.Key_Tab)
            return True
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self._grid.finish(field, 0)
            if self.editor is None:
                self._grid.keyPressEvent(event)
            return True
        if key == Qt.Key.Key_Escape:
            self._grid.give_up(field)
            return True
        return False

    def close(self, field: EntryField) -> None:
        """Close the field; what stood in it has been seen to."""
        self.editor, self.key = None, ""
        field.drop_note()
        self.closeEditor.emit(field, QAbstractItemDelegate.EndEditHint.NoHint)

    def _gone(self) -> None:
        if self.sender() is self.editor:
            self.editor = None
