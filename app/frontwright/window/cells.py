"""The model of a table or form: contents that are compared with what comes after them, cell by cell."""

from __future__ import annotations

from difflib import SequenceMatcher

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from frontwright.core.lengths import Display
from frontwright.desk.contents import Cell, Column, Form, Table, TableRow
from frontwright.window.figures import spoken

Index = QModelIndex | QPersistentModelIndex
_NOWHERE = QModelIndex()
SOURCE_WORDS = {
    "taped": "taped",
    "chosen": "chosen",
    "derived": "worked out",
    "assumed": "assumed",
    "as-built": "is",
}


def as_table(block: Table | Form) -> Table:
    """A form as a table: a row a line, its label a cell of words; lines that stand across make one row."""
    if isinstance(block, Table):
        return block
    if block.across:
        columns = tuple(Column(line.label) for line in block.lines)
        rows: tuple[TableRow, ...] = (TableRow("", tuple(line.cell for line in block.lines)),) if block.lines else ()
    else:
        columns = (Column("", axis=False), Column("", axis=True))
        rows = tuple(_line(line.label, line.cell) for line in block.lines)
    return Table(block.key, block.title, block.aside, columns, rows, block.actions, fine=block.fine)


def _line(label: str, cell: Cell) -> TableRow:
    return TableRow(cell.subject, (Cell(f"label {cell.key}", "words", label, bold=cell.bold), cell))


class CellsModel(QAbstractTableModel):
    """Cells as Qt sees them. It decides nothing: what a cell says and does is in its contents."""

    def __init__(self, table: Table, display: Display, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.table = table
        self.display = display
        self._rows: list[TableRow] = list(table.rows)
        self._columns = len(table.columns)

    def rowCount(self, parent: Index = _NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = _NOWHERE) -> int:
        return 0 if parent.isValid() else self._columns

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> str | None:
        cell = self.cell(index)
        if cell is None:
            return None
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return plain_text(cell, self.display)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return spoken_name(cell, self.display)
        if role == Qt.ItemDataRole.ToolTipRole:
            return tip(cell) or None
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> str | None:
        if orientation is not Qt.Orientation.Horizontal or not 0 <= section < len(self.table.columns):
            return None
        if role not in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return None
        column = self.table.columns[section]
        return " ".join(part for part in (column.group, column.title) if part)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if self.cell(index) is None:
            return Qt.ItemFlag.NoItemFlags
        usual = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        cell = self.cell(index)
        return usual | Qt.ItemFlag.ItemIsEditable if cell and cell.editable else usual

    def cell(self, index: Index) -> Cell | None:
        """The cell at an index; None where a row has fewer cells than the table has columns."""
        if not index.isValid() or index.row() >= len(self._rows):
            return None
        cells = self._rows[index.row()].cells
        return cells[index.column()] if index.column() < len(cells) else None

    def row(self, number: int) -> TableRow:
        return self._rows[number]

    def place_of(self, key: str) -> QModelIndex:
        """Where the cell with this key stands; an index of nothing where there is none."""
        for number, row in enumerate(self._rows):
            for column, cell in enumerate(row.cells):
                if cell.key == key:
                    return self.index(number, column)
        return QModelIndex()

    def show(self, table: Table, display: Display) -> None:
        """Take over new contents: rows that came or went are told as such, of the others only cells that differ."""
        redraw = display != self.display
        self.display = display
        if len(table.columns) != self._columns:
            self.beginResetModel()
            self.table, self._rows, self._columns = table, list(table.rows), len(table.columns)
            self.endResetModel()
            return
        heads = self.table.columns != table.columns
        self.table = table
        self._match_rows(table.rows)
        for number, row in enumerate(table.rows):
            self._change_row(number, row, redraw)
        if heads:
            self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, self._columns - 1)

    def _match_rows(self, new: tuple[TableRow, ...]) -> None:
        old = [_row_name(row) for row in self._rows]
        names = [_row_name(row) for row in new]
        if old == names:
            return
        steps = SequenceMatcher(None, old, names, autojunk=False).get_opcodes()
        for what, left, right, first, last in reversed(steps):
            if what in ("delete", "replace"):
                self.beginRemoveRows(QModelIndex(), left, right - 1)
                del self._rows[left:right]
                self.endRemoveRows()
            if what in ("insert", "replace"):
                self.beginInsertRows(QModelIndex(), left, left + last - first - 1)
                self._rows[left:left] = new[first:last]
                self.endInsertRows()

    def _change_row(self, number: int, row: TableRow, redraw: bool) -> None:
        old = self._rows[number]
        if old is row or (old == row and not redraw):
            self._rows[number] = row
            return
        self._rows[number] = row
        for column in range(self._columns):
            if redraw or _at(old, column) != _at(row, column):
                place = self.index(number, column)
                self.dataChanged.emit(place, place)


def _at(row: TableRow, column: int) -> Cell | None:
    return row.cells[column] if column < len(row.cells) else None


def _row_name(row: TableRow) -> tuple[str, str]:
    """What a row is known by from one showing to the next: the key of its first cell that has one."""
    return row.subject, next((cell.key for cell in row.cells if cell.key), row.aside)


def plain_text(cell: Cell, display: Display) -> str:
    """What a cell says, in one line."""
    if cell.kind == "choice":
        return choice_word(cell)
    if cell.text:
        return cell.text
    return spoken(cell.figure, display) if cell.figure else ""


def choice_word(cell: Cell) -> str:
    return next((choice.word for choice in cell.choices if choice.value == cell.text), cell.text)


def source_word(cell: Cell) -> str:
    """Where the cell's figure comes from, in one word."""
    if cell.unread:
        return "unread"
    if cell.figure:
        return "assumed" if cell.figure.rests else SOURCE_WORDS[cell.figure.source]
    return "not measured" if cell.kind == "length" and not cell.text else ""


def tip(cell: Cell) -> str:
    return ", ".join(part for part in (cell.name, source_word(cell), cell.hint) if part)


def spoken_name(cell: Cell, display: Display) -> str:
    """What a screen reader says: name, value, where it comes from, and whether a finding stands here."""
    level = cell.level if cell.level != "ok" else ""
    return ", ".join(part for part in (cell.name, plain_text(cell, display), source_word(cell), level) if part)
