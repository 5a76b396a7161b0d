"""The list of pages at the left: tabs of paper, each with its strongest finding and how many there are."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QSizePolicy, QVBoxLayout, QWidget

from frontwright.desk.contents import Tab
from frontwright.window.signs import WORDS, paint_level
from frontwright.window.theme import Theme, metrics

WIDTH, ROW = 136, 38


class PageTab(QAbstractButton):
    """One page in the list; the open one is joined to the page."""

    def __init__(self, theme: Theme, tab: Tab, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme, self._tab = theme, tab
        self.setCheckable(True)
        self.setFixedSize(theme.px(WIDTH) + 1, theme.px(ROW))
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.show_tab(tab)

    @property
    def chapter(self) -> str:
        return self._tab.chapter

    def show_tab(self, tab: Tab) -> None:
        self._tab = tab
        found = f", {tab.count} {WORDS.get(tab.level, '')}" if tab.count else ""
        self.setAccessibleName(tab.word + found)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        theme, px, colours = self._theme, self._theme.px, self._theme.palette
        painter = QPainter(self)
        line = max(1, px(1))
        if self.isChecked():
            paper = QRectF(px(10), 0, self.width() - px(10), self.height())
            painter.fillRect(paper, colours.paper)
            painter.setPen(QPen(colours.rule, line))
            painter.drawLine(paper.topLeft(), paper.topRight())
            painter.drawLine(QPointF(paper.left(), paper.bottom() - 1), QPointF(paper.right(), paper.bottom() - 1))
            painter.drawLine(paper.topLeft(), paper.bottomLeft())
        else:
            painter.fillRect(QRectF(self.width() - line, 0, line, self.height()), colours.rule)
        middle = Qt.AlignmentFlag.AlignVCenter
        painter.setFont(theme.font(13.5, bold=self.isChecked()))
        painter.setPen(colours.ink if self.isChecked() or self.underMouse() else colours.ink_soft)
        painter.drawText(QRectF(px(24), 0, self.width(), self.height()), middle, self._tab.word)
        if self._tab.count:
            self._finding(painter)
        if self.hasFocus():
            painter.setPen(QPen(colours.blue, px(2)))
            painter.drawRect(QRectF(px(13), px(3), self.width() - px(18), self.height() - px(7)))
        painter.end()

    def _finding(self, painter: QPainter) -> None:
        theme, px = self._theme, self._theme.px
        size = px(12)
        box = QRectF(self.width() - px(26), (self.height() - size) / 2, size, size)
        paint_level(painter, box, self._tab.level, theme)
        text = str(self._tab.count)
        painter.setFont(theme.font(12))
        painter.setPen(theme.palette.ink)
        left = box.left() - px(6) - metrics(12 * theme.scale).horizontalAdvance(text)
        painter.drawText(QPointF(left, self.height() / 2 + px(4.5)), text)


class PageList(QWidget):
    """The pages from the top in the order of work. `opened` is sent with a chapter."""

    opened = Signal(str)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._tabs: dict[str, PageTab] = {}
        self._group = QButtonGroup(self)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, theme.px(46), 0, 0)
        self._layout.setSpacing(0)
        self._layout.addStretch(1)
        self.setFixedWidth(theme.px(WIDTH) + 1)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("pages")

    def sizeHint(self) -> QSize:
        return QSize(self._theme.px(WIDTH) + 1, self._theme.px(ROW) * 8)

    @property
    def chapters(self) -> list[str]:
        return list(self._tabs)

    def show_tabs(self, tabs: tuple[Tab, ...], chapter: str) -> None:
        """Take over the pages that there are; `chapter` is open."""
        if [tab.chapter for tab in tabs] != self.chapters:
            self._build(tabs)
        for tab in tabs:
            self._tabs[tab.chapter].show_tab(tab)
            self._tabs[tab.chapter].setChecked(tab.chapter == chapter)

    def _build(self, tabs: tuple[Tab, ...]) -> None:
        for button in self._tabs.values():
            self._group.removeButton(button)
            button.hide()
            button.deleteLater()
        self._tabs = {}
        for number, tab in enumerate(tabs):
            button = PageTab(self._theme, tab, self)
            button.clicked.connect(lambda _=False, chapter=tab.chapter: self.opened.emit(chapter))
            self._group.addButton(button)
            self._layout.insertWidget(number, button)
            self._tabs[tab.chapter] = button

    def keyPressEvent(self, event: QKeyEvent) -> None:
        chapters = self.chapters
        open_now = next((c for c, tab in self._tabs.items() if tab.isChecked()), None)
        step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(Qt.Key(event.key()))
        if step and open_now is not None:
            at = (chapters.index(open_now) + step) % len(chapters)
            self.opened.emit(chapters[at])
            self._tabs[chapters[at]].setFocus()
            return
        super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        line = max(1, self._theme.px(1))
        painter.fillRect(self.rect(), self._theme.palette.ground)
        painter.fillRect(QRectF(self.width() - line, 0, line, self.height()), self._theme.palette.rule)
        painter.end()
