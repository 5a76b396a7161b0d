"""An open job in the window: the pages and their tabs, and the one place from which the job is asked and changed."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QWidget

from frontwright.core.lengths import Display
from frontwright.desk.contents import Outcome, SheetLine
from frontwright.desk.order import next_key
from frontwright.desk.session import Session
from frontwright.window.findings import FindingHands
from frontwright.window.long_work import LongWork
from frontwright.window.page import Page
from frontwright.window.sheets_page import SheetsPage
from frontwright.window.tabs import PageList
from frontwright.window.theme import Theme

SHEETS = "sheets"
CUTS = "cuts"


class JobView(QWidget):
    """One open job. `said` is sent with a notice, `changed` after each edit, `put_out` with sheets to save or print."""

    said = Signal(str)
    changed = Signal()
    put_out = Signal(str, object, bytes)

    def __init__(self, theme: Theme, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme, self.session = theme, session
        self._pages: dict[str, Page] = {}
        self._sheets: SheetsPage | None = None
        self._working = ""
        self._opened: frozenset[str] = frozenset()
        self._step = -1
        self.chapter = ""
        self.tabs = PageList(theme)
        self.tabs.opened.connect(self.open_chapter)
        self._stack = QStackedWidget()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.tabs)
        layout.addWidget(self._stack, 1)

    # pages

    @property
    def page(self) -> Page | None:
        """The open page; None where sheets are open."""
        return self._pages.get(self.chapter)

    @property
    def sheets_page(self) -> SheetsPage | None:
        return self._sheets

    def open_chapter(self, chapter: str) -> None:
        """Show a page, and put the focus where a person begins on it."""
        if self.page is not None and chapter != self.chapter:
            self.page.keep_typing()
            self.close_working()
        self.chapter = chapter
        self._stack.setCurrentWidget(self._widget(chapter))
        self.refresh()
        self.tabs.show_tabs(self.session.tabs(), chapter)
        self._watch()
        if self.page is not None:
            QTimer.singleShot(0, self.page, self.page.start)
        elif self._sheets is not None:
            self._sheets.list.setFocus()

    def _widget(self, chapter: str) -> QWidget:
        if chapter == SHEETS:
            if self._sheets is None:
                self._sheets = SheetsPage(self._theme, self)
                self._stack.addWidget(self._sheets)
            return self._sheets
        if chapter not in self._pages:
            findings = FindingHands(self._act_and_say, self._answer)
            page = Page(self._theme, self, findings)
            page.subject_chosen.connect(self._show_subject)
            page.working.toggled.connect(self._toggle_term)
            page.working.closed.connect(self.close_working)
            if chapter == CUTS:
                page.carry(LongWork(self._theme, self.session.lay, self._act_and_say, self._laid))
            self._pages[chapter] = page
            self._stack.addWidget(page)
        return self._pages[chapter]

    def _show_subject(self, subject: str) -> None:
        self.session.choose(self.chapter, subject)
        self.refresh()

    def refresh(self) -> None:
        """Show what the job is now; what is half typed stays."""
        self._step = self.session.step
        if self.chapter == SHEETS and self._sheets is not None:
            self._sheets.show_sheets()
        elif self.page is not None:
            self.page.show_contents(self.session.page(self.chapter))
            self.page.show_subject(self.session.selected)
            if self._working:
                self._show_working()
        self.tabs.show_tabs(self.session.tabs(), self.chapter)

    def keep_typing(self) -> None:
        """Keep at once what stands half typed."""
        for page in self._pages.values():
            page.keep_typing()

    # hands: what tables and forms ask for

    @property
    def display(self) -> Display:
        return self.session.display

    @property
    def selected(self) -> str:
        return self.session.selected

    def enter(self, key: str, text: str) -> Outcome:
        return self._run(lambda: self.session.enter(key, text))

    def paste(self, keys: Sequence[str], texts: Sequence[str]) -> Outcome:
        return self._run(lambda: self.session.paste(tuple(keys), tuple(texts)))

    def act(self, key: str) -> Outcome:
        outcome = self._run(lambda: self.session.act(key))
        self._lead(outcome)
        return outcome

    def undo(self) -> Outcome:
        return self._run(self.session.undo)

    def redo(self) -> Outcome:
        return self._run(self.session.redo)

    def _run(self, change: Callable[[], Outcome]) -> Outcome:
        """The one way in which the window changes the job: have it done, show what came of it, say it."""
        outcome = change()
        if self.session.step != self._step:
            self.refresh()
            self.changed.emit()
        self._watch()
        if outcome.select:
            self.select(outcome.select)
        if outcome.said and not outcome.problem:
            self.said.emit(outcome.said)
        if outcome.prints:
            self._print(outcome.prints)
        return outcome

    def _print(self, keys: Sequence[str]) -> None:
        """Print sheets that an action asks for, as if they were chosen on the page of sheets."""
        data = self.pdf(keys, self.paper())
        if isinstance(data, str):
            self.said.emit(data)
        else:
            self.print_sheets(keys, data)

    def _watch(self) -> None:
        """What is laid beside the window goes on whatever page is open."""
        page = self._pages.get(CUTS)
        if page is not None and page.work is not None:
            page.work.watch()

    def _laid(self, outcome: Outcome) -> None:
        """Laying is over: what came of it is in the job already."""
        self._run(lambda: outcome)
        self.refresh()
        self.said.emit(outcome.problem or outcome.said)

    def _act_and_say(self, key: str) -> None:
        outcome = self.act(key)
        if outcome.problem:
            self.said.emit(outcome.problem)

    def _lead(self, outcome: Outcome) -> None:
        """Lead the person to the cell in which it goes on, where that may stand on another page."""
        if not outcome.chapter:
            return
        if outcome.chapter != self.chapter:
            self.open_chapter(outcome.chapter)
        if outcome.next_key:
            QTimer.singleShot(0, self, lambda: self.go_to(outcome.next_key))

    def _answer(self, key: str, text: str) -> None:
        outcome = self._run(lambda: self.session.answer(key, text))
        if outcome.problem:
            self.said.emit(outcome.problem)

    def select(self, subject: str) -> None:
        if subject == self.session.selected:
            return
        self.session.select(subject)
        if self.page is not None:
            self.page.show_contents(self.session.page(self.chapter))
            self.page.show_subject(subject)

    def draft(self, key: str) -> str | None:
        return self.session.drafts().get(key)

    def keep_draft(self, key: str, text: str) -> None:
        self.session.keep_draft(key, text)

    def drop_draft(self, key: str) -> None:
        if key in self.session.drafts():
            self.session.drop_draft(key)
            if self.session.step != self._step:
                self.refresh()

    def go_on(self, key: str, step: int, wish: str = "") -> bool:
        return self.page is not None and self.page.go_on(key, step, wish)

    def go_to(self, key: str) -> bool:
        """Put the focus on a cell of the open page."""
        return self.page is not None and self.page.stand_on(key)

    def after(self, key: str) -> str:
        contents = self.page.contents if self.page is not None else None
        return next_key(contents, key) if contents is not None else ""

    def say(self, text: str) -> None:
        self.said.emit(text)

    # the working of a figure

    def open_working(self, key: str) -> bool:
        self._working, self._opened = key, frozenset()
        if not self._show_working():
            return False
        if self.page is not None:
            self.page.working.sheet.setFocus()
        return True

    def close_working(self) -> bool:
        if not self._working:
            return False
        key, self._working = self._working, ""
        if self.page is not None:
            self.page.working.hide()
            self.page.stand_on(key)
        return True

    def _show_working(self) -> bool:
        title, lines = self.session.working(self._working, self._opened)
        if not lines or self.page is None:
            self._working = ""
            if self.page is not None:
                self.page.working.hide()
            return False
        self.page.show_working(title, lines, self.display)
        return True

    def _toggle_term(self, key: str, wanted: bool) -> None:
        self._opened = self._opened | {key} if wanted else self._opened - {key}
        self._show_working()

    # sheets

    def sheets(self) -> Sequence[SheetLine]:
        return self.session.sheets()

    def paper(self) -> str:
        return self.session.paper

    def pdf(self, keys: Sequence[str], paper: str) -> bytes | str:
        return self.session.sheet_pdf(tuple(keys), "letter" if paper == "letter" else "a4")

    def save_sheets(self, keys: Sequence[str], data: bytes) -> None:
        self.put_out.emit("save", list(keys), data)

    def print_sheets(self, keys: Sequence[str], data: bytes) -> None:
        self.put_out.emit("print", list(keys), data)

    def sheets_are_out(self, keys: Sequence[str]) -> None:
        """These sheets were saved or printed: from now on they can be current or stale."""
        self._run(lambda: self.session.sheets_printed(tuple(keys)))
