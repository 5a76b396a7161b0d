"""One page: its head, the drawing, the tables and forms, the working of a figure, and the findings below."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QSize, Qt, QTimer, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from frontwright.core.lengths import Display
from frontwright.desk.contents import Form, PageContents, Table, WorkingLine
from frontwright.desk.keys import key as action
from frontwright.window.block import Block
from frontwright.window.canvas import Board
from frontwright.window.findings import FindingHands, FindingsStrip
from frontwright.window.grid import Grid
from frontwright.window.hands import Hands
from frontwright.window.legend import Legend
from frontwright.window.long_work import LongWork
from frontwright.window.page_head import MARGIN, PageHead
from frontwright.window.shape import shared
from frontwright.window.theme import Theme
from frontwright.window.working import WorkingPanel

NARROW = 1100
BESIDE, BESIDE_MOST, BETWEEN = 628, 760, 24
FEW_ROWS, MANY_ROWS, WHOLE_ROWS = 5, 16, 60
FORM_MOST = 380  # a label and its figure must not stand too far apart
_ENDLESS = 16_777_215  # Qt's word for no limit


class Page(QWidget):
    """A page of the job. It shows contents and asks; what they mean is the desk's affair."""

    subject_chosen = Signal(str)

    def __init__(self, theme: Theme, hands: Hands, findings: FindingHands, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("page")
        self._theme, self._hands = theme, hands
        self.contents: PageContents | None = None
        self._divided = False
        self._shape: tuple[tuple[str, ...], ...] = ()
        self.blocks: dict[str, Block] = {}
        self.head = PageHead(theme)
        self.head.subject_chosen.connect(self.subject_chosen)
        self.head.acted.connect(self._act)
        self.head.searched.connect(self._search)
        self.board = Board(theme)
        self.board.chosen.connect(hands.select)
        self.working = WorkingPanel(theme)
        self.findings = FindingsStrip(theme, findings)
        self.findings.subject_chosen.connect(hands.select)
        self.findings.needs.connect(self._give_findings)
        self.work: LongWork | None = None
        self._tables = QWidget()
        self._body = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._lay_out()

    def _lay_out(self) -> None:
        px = self._theme.px
        self._bands = QVBoxLayout(self._tables)
        self._bands.setContentsMargins(0, 0, 0, 0)
        self._bands.setSpacing(px(20))
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setWidget(self._tables)
        for surface in (self._tables, self._scroll.viewport()):
            surface.setAutoFillBackground(False)
        self._room = QWidget()
        self._room.setLayout(self._body)
        self._body.setContentsMargins(px(MARGIN), px(6), px(MARGIN), px(10))
        self._body.setSpacing(px(12))
        self._left = QWidget()
        left = QVBoxLayout(self._left)
        left.setContentsMargins(0, 0, 0, 0)
        left.setSpacing(px(8))
        left.addWidget(self._scroll, 1)
        left.addWidget(self.working)
        self._legend = Legend(self._theme)
        left.addWidget(self._legend)
        self._body.addWidget(self._left)
        self._body.addWidget(self.board)
        self._splitter = QSplitter(Qt.Orientation.Vertical)
        self._splitter.addWidget(self._room)
        self._below = QWidget()
        below = QVBoxLayout(self._below)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(0)
        below.addWidget(self.findings, 1)
        self._splitter.addWidget(self._below)
        self._splitter.setHandleWidth(max(2, px(2)))
        self._splitter.setStretchFactor(0, 1)
        self._splitter.setCollapsible(0, False)  # noqa: FBT003 - Qt's own signature
        self._splitter.setCollapsible(1, False)  # noqa: FBT003 - Qt's own signature
        self._splitter.setSizes([px(600), px(110)])
        self._splitter.splitterMoved.connect(self._was_divided)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.head)
        layout.addWidget(self._splitter, 1)

    def carry(self, work: LongWork) -> None:
        """Have the line of long work over the findings."""
        self.work = work
        layout = self._below.layout()
        if isinstance(layout, QVBoxLayout):
            layout.insertWidget(0, work)

    # what is shown

    def show_contents(self, contents: PageContents) -> None:
        """Take over what the page shows. Blocks that stay keep their widgets, focus and half-typed text."""
        self.contents = contents
        self.head.show_head(contents)
        self._legend.setVisible(contents.chapter == "survey" and not (contents.board and contents.board.wide))
        self._show_board(contents)
        self._show_blocks(contents)
        self._body.activate()
        self._pack()
        self.findings.show_lines(contents.findings, contents.chosen)

    def _show_blocks(self, contents: PageContents) -> None:
        """Each block in its widget; widgets of blocks that are gone go too."""
        kept, blocks = dict(self.blocks), dict[str, Block]()
        for block in _blocks(contents):
            widget = kept.pop(block.key, None)
            if widget is None:
                widget = Block(self._theme, self._hands, block, self._tables)
            else:
                widget.show_block(block)
            blocks[block.key] = widget
            widget.grid.show_at_least(_least_rows(contents, block))
        self.blocks = blocks
        for gone in kept.values():
            gone.hide()
            gone.setParent(None)
            gone.deleteLater()

    def _pack(self) -> None:
        """The blocks of a band beside each other as far as there is room, else under each other."""
        if self.contents is None:
            return
        room, between = self._scroll.width() - self._theme.px(12), self._theme.px(BETWEEN)
        shape: list[tuple[str, ...]] = []
        for band in self.contents.bands:
            row, used = list[str](), 0
            for block in band:
                wanted = self.blocks[block.key].least_width
                if row and used + between + wanted > room:
                    shape.append(tuple(row))
                    row, used = [], 0
                used += wanted + (between if row else 0)
                row.append(block.key)
            shape.append(tuple(row))
        if tuple(shape) != self._shape:
            self._lay_bands(tuple(shape))
        self._share_widths()

    def _lay_bands(self, shape: tuple[tuple[str, ...], ...]) -> None:
        self._clear_bands()
        self._shape = shape
        for number, band in enumerate(shape):
            row = QHBoxLayout()
            row.setSpacing(self._theme.px(BETWEEN))
            for key in band:
                row.addWidget(self.blocks[key])
                self.blocks[key].show()
            row.addStretch(0)
            self._bands.insertLayout(number, row)
        self._bands.addStretch(1)

    def _share_widths(self) -> None:
        """In each band what every block needs at least, then tables what they want, then forms, then tables more."""
        room, between = self._scroll.width() - self._theme.px(12), self._theme.px(BETWEEN)
        first = self._first_height
        for band in self._shape:
            blocks = [self.blocks[key] for key in band]
            most = self._theme.px(FORM_MOST), self._theme.px(BESIDE_MOST)
            widths = shared(room - between * (len(blocks) - 1), blocks, *most)
            for block, width in zip(blocks, widths, strict=True):
                block.setFixedWidth(width)
                block.setMinimumHeight(min(first, block.sizeHint().height()) if band == self._shape[0] else 0)

    @property
    def _first_height(self) -> int:
        """Under a wide board the first band fills what is left of the page; beside one it takes what it needs."""
        wide = self._body.direction() is QBoxLayout.Direction.BottomToTop
        return self._scroll.viewport().height() if wide else 0

    def _clear_bands(self) -> None:
        while self._bands.count():
            item = self._bands.takeAt(0)
            band = item.layout() if item is not None else None
            if band is not None:
                while band.count():
                    band.takeAt(0)
                band.deleteLater()

    def _show_board(self, contents: PageContents) -> None:
        board = contents.board
        self.board.setVisible(board is not None)
        if board is not None:
            self.board.set_drawings(board.drawings, self._hands.selected)
        self._arrange()

    def _give_findings(self, height: int) -> None:
        """As much room as the findings need, unless a person has given them some."""
        if not self._divided:
            whole = sum(self._splitter.sizes()) or self.height()
            self._splitter.setSizes([whole - height, height])

    def _was_divided(self) -> None:
        self._divided = True

    def _arrange(self) -> None:
        """The drawing across the top where it is wide or the window narrow, else at the right of the tables."""
        contents, px = self.contents, self._theme.px
        if contents is None:
            return
        board = contents.board
        on_top = board is not None and (board.wide or self.width() < px(NARROW) - px(136))
        wanted = QBoxLayout.Direction.BottomToTop if on_top else QBoxLayout.Direction.LeftToRight
        if self._body.direction() is not wanted:
            self._body.setDirection(wanted)
        width, height = self._room.width() - 2 * px(MARGIN), self._room.height()
        beside = board is not None and not on_top
        tables = min(px(BESIDE_MOST), max(px(BESIDE), round(width * 0.57))) if beside else _ENDLESS
        self._left.setMaximumWidth(tables)
        self._left.setMinimumWidth(tables if beside else 0)
        self._body.setSpacing(px(BETWEEN if beside else 8))
        self._body.setStretch(0, 0 if beside else 1)
        self._body.setStretch(1, 1 if beside else 0)
        high = min(self.board.height_for(width), round(0.55 * height)) if on_top else _ENDLESS
        self.board.setMaximumHeight(max(high, px(140)))
        self.board.setMinimumHeight(max(high, px(140)) if on_top else px(140))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()
        QTimer.singleShot(0, self, self._pack)

    def sizeHint(self) -> QSize:
        return QSize(self._theme.px(1144), self._theme.px(748))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.palette.paper)
        painter.end()

    def show_subject(self, subject: str) -> None:
        """Show everywhere what is selected; tables scroll to it once they have their room."""
        self.board.set_selected(subject)
        self._bring_into_view(subject)
        QTimer.singleShot(0, self, lambda: self._bring_into_view(subject))

    def _bring_into_view(self, subject: str) -> None:
        for block in self.blocks.values():
            block.grid.show_subject(subject)

    def show_working(self, title: str, lines: tuple[WorkingLine, ...], display: Display) -> None:
        """Open the working of a figure under the tables; the figure itself stays in sight."""
        self.working.show_working(title, lines, display, round(0.6 * self._left.height()))
        for grid in self.grids():
            if grid.currentIndex().isValid() and grid.hasFocus():
                QTimer.singleShot(0, grid, grid.show_current)

    # walking

    def grids(self) -> Iterator[Grid]:
        """The tables and forms in measuring order."""
        for band in self._shape:
            for key in band:
                yield self.blocks[key].grid

    def keys(self) -> list[str]:
        """Keys of all cells that can be written in, in measuring order."""
        return [key for grid in self.grids() for key in grid.entry_keys()]

    def stand_on(self, key: str) -> bool:
        """Put the focus on a cell; False where the page has none with this key."""
        for block in self.blocks.values():
            if block.grid.has(key):
                block.grid.stand_on(key)
                self._bring_block(block)
                return True
        return False

    def _bring_block(self, block: Block) -> None:
        """A table with its title in sight; of one that is higher than the page at least its current cell. One that the
        page holds from its top on is shown from there, so that the tables above keep their titles."""
        self._bands.activate()
        if block.geometry().bottom() <= self._scroll.viewport().height():
            self._scroll.verticalScrollBar().setValue(0)
            return
        self._scroll.ensureWidgetVisible(block, 0, 0)
        grid = block.grid
        at = grid.viewport().mapTo(self._tables, grid.visualRect(grid.currentIndex()).center())
        self._scroll.ensureVisible(0, at.y(), 0, self._theme.px(40))

    def go_on(self, key: str, step: int, wish: str = "") -> bool:
        """The focus to the wished cell, else to the next one in measuring order; False at the end."""
        if wish and self.stand_on(wish):
            return True
        keys = self.keys()
        if key not in keys:
            key = self._editable_near(key, step)
            return bool(key) and self.stand_on(key)
        at = keys.index(key) + step
        return 0 <= at < len(keys) and self.stand_on(keys[at])

    def _editable_near(self, key: str, step: int) -> str:
        """The first cell that can be written in after (or before) one that cannot; "" where there is none."""
        cells = [cell for grid in self.grids() for row in grid.cells.table.rows for cell in row.cells]
        names = [cell.key for cell in cells]
        if key not in names:
            return next((cell.key for cell in cells if cell.editable), "")
        at = names.index(key)
        rest = cells[at + 1 :] if step > 0 else reversed(cells[:at])
        return next((cell.key for cell in rest if cell.editable), "")

    def start(self) -> None:
        """The focus where a person begins: a half-typed cell, else the first reading near the page's top."""
        cells = [c for grid in self.grids() for row in grid.cells.table.rows for c in row.cells if c.editable]
        drafts = [cell.key for cell in cells if self._hands.draft(cell.key) is not None]
        readings = [cell.key for cell in cells if cell.kind == "length"]
        begin = self.contents.start if self.contents is not None else ""
        if begin and not drafts and (self.stand_on(begin) or self._stand_on_button(begin)):
            return
        wanted = drafts or [key for key in (*readings, *(cell.key for cell in cells)) if self._is_at_top(key)]
        if wanted:
            self.stand_on(wanted[0])
        elif cells:
            next(self.grids()).setFocus()
            self._scroll.verticalScrollBar().setValue(0)
        elif self.contents is not None:
            tables = [action.key for block in _blocks(self.contents) for action in block.actions]
            next((one for one in tables if self._stand_on_button(one)), None)

    def _is_at_top(self, key: str) -> bool:
        """Whether the table with this cell begins in what the page shows from its top."""
        self._bands.activate()
        block = next((block for block in self.blocks.values() if block.grid.has(key)), None)
        return block is not None and block.geometry().top() < self._scroll.viewport().height() // 2

    def _stand_on_button(self, action: str) -> bool:
        """The focus on a button of the page or of its tables; False where none does this."""
        places: tuple[PageHead | Block, ...] = (self.head, *self.blocks.values())
        button = next((found for place in places if (found := place.button_of(action))), None)
        if button is not None:
            button.setFocus()
            self._scroll.ensureWidgetVisible(button)
        return button is not None

    def keep_typing(self) -> None:
        """Keep at once what stands half typed in any cell."""
        for grid in self.grids():
            grid.keep_typing()

    @property
    def open_text(self) -> str | None:
        """What stands in the open cell; None where none is open."""
        return next((grid.open_text for grid in self.grids() if grid.open_text is not None), None)

    @property
    def current_key(self) -> str:
        """The key of the cell that has the focus."""
        return next((grid.current_key for grid in self.grids() if grid.hasFocus()), "")

    def _search(self, text: str) -> None:
        """Ask; the page is shown from its top, where what was found and how it was understood stand."""
        self._act(action("search", text))
        self._scroll.verticalScrollBar().setValue(0)

    def _act(self, key: str) -> None:
        outcome = self._hands.act(key)
        if outcome.problem or outcome.said:
            self._hands.say(outcome.problem or outcome.said)
        if outcome.next_key:
            self.stand_on(outcome.next_key)


def _least_rows(contents: PageContents, block: Table | Form) -> int:
    """How many rows of a block there must be room for: all of a form; of a table few under a wide drawing. On a page of
    tables alone the page scrolls, so that there is one scroll bar and not two, but for a list without end."""
    if contents.board is not None and contents.board.wide:
        return FEW_ROWS
    if isinstance(block, Form):
        return len(block.lines)
    alone = contents.board is None and len(block.rows) <= WHOLE_ROWS
    return WHOLE_ROWS if alone else MANY_ROWS


def _blocks(contents: PageContents) -> Iterator[Table | Form]:
    for band in contents.bands:
        yield from band
