"""The head of a table: soft words over an ink rule, groups of columns under a thin one."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHeaderView, QWidget

from frontwright.desk.contents import Column
from frontwright.window.theme import Theme, metrics

_WORDS = 12


class TableHead(QHeaderView):
    """Titles of the columns of a table; without any title it is no more than the rule."""

    def __init__(self, theme: Theme, gutter: int, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._theme, self._gutter = theme, gutter
        self._columns: tuple[Column, ...] = ()
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMinimumSectionSize(1)
        self.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)

    def show_columns(self, columns: tuple[Column, ...]) -> None:
        """Take over the titles."""
        if columns != self._columns:
            self._columns = columns
            self.updateGeometry()
            self.viewport().update()

    @property
    def _grouped(self) -> bool:
        return any(column.group for column in self._columns)

    def sizeHint(self) -> QSize:
        titles = any(column.title for column in self._columns)
        height = (27 if self._grouped else 0) + (24 if titles else 2)
        return QSize(0, self._theme.px(height))

    def title_width(self, column: Column) -> float:
        """The room that a column's title needs."""
        size = _WORDS * self._theme.scale
        return max((metrics(size).horizontalAdvance(line) for line in column.title.split("\n")), default=0.0)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self.viewport())
        painter.fillRect(self.viewport().rect(), self._theme.palette.paper)
        width = self.viewport().width()
        rule = max(1.0, self._theme.scale * 1.5)
        painter.fillRect(QRectF(0, self.height() - rule, width, rule), self._theme.palette.ink)
        for number, column in enumerate(self._columns[: self.count()]):
            self._title(painter, number, column)
        self._groups(painter)
        painter.end()

    def _title(self, painter: QPainter, number: int, column: Column) -> None:
        px = self._theme.px
        left, width = self.sectionViewportPosition(number), self.sectionSize(number)
        condensed = self.title_width(column) > width - px(4)
        painter.setFont(self._theme.font(_WORDS, condensed=condensed))
        painter.setPen(self._theme.palette.ink_soft)
        rect = QRectF(left, self.height() - px(24), width, px(20))
        if column.axis:
            painter.drawText(rect, Qt.AlignmentFlag.AlignCenter, column.title)
            return
        rect.adjust(px(6) + (self._gutter if number == 0 else 0), 0, 0, 0)
        painter.drawText(rect, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, column.title)

    def _groups(self, painter: QPainter) -> None:
        start = 0
        while start < min(len(self._columns), self.count()):
            group, end = self._columns[start].group, start
            while end + 1 < min(len(self._columns), self.count()) and self._columns[end + 1].group == group:
                end += 1
            if group:
                self._group(painter, group, start, end)
            start = end + 1

    def _group(self, painter: QPainter, group: str, start: int, end: int) -> None:
        px = self._theme.px
        left = self.sectionViewportPosition(start) + px(5)
        right = self.sectionViewportPosition(end) + self.sectionSize(end) - px(5)
        painter.setFont(self._theme.font(_WORDS))
        painter.setPen(self._theme.palette.ink_soft)
        painter.drawText(QRectF(left, 0, right - left, px(20)), Qt.AlignmentFlag.AlignCenter, group)
        painter.setPen(QPen(self._theme.palette.rule, max(1, px(1))))
        painter.drawLine(left, px(23), right, px(23))
