"""The main window: menu, the open job or the form of a new one, the line at the bottom."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QRectF, Qt, QTimer
from PySide6.QtGui import QAction, QActionGroup, QCloseEvent, QKeySequence, QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QLabel, QMainWindow, QMenu, QMenuBar, QStackedWidget, QVBoxLayout, QWidget

from frontwright import __version__
from frontwright.desk import recent
from frontwright.desk.contents import Outcome
from frontwright.desk.edits.start import NewJob
from frontwright.desk.lists import LISTS
from frontwright.desk.session import Session, SessionError
from frontwright.desk.ways import CHAPTER_OF_TABLE
from frontwright.window import crash, dialogs
from frontwright.window.job_view import SHEETS, JobView
from frontwright.window.opening import open_session, sample_job, start_session
from frontwright.window.settings import Settings
from frontwright.window.status import StatusLine
from frontwright.window.theme import GROWTHS, Mode, Theme

if TYPE_CHECKING:
    from frontwright.window.new_job import NewJobPage

RACK_PAGES = ("rack", "cuts", "bill")  # what they show can change without the job

HELP = (
    "Enter or Tab: on to the next reading. Shift+Tab: back. F2: change what stands there. "
    "=: the working of a figure. Esc: as it was. Ctrl+Z: undo. Ctrl+PgDn, Ctrl+PgUp: next and previous page. "
    "Letters or Space choose among choices. Arrow keys walk tables and drawings. F6: to the next part of the window."
)


class MainWindow(QMainWindow):
    """The one window. `shop`: the shop file to use, else the usual one."""

    def __init__(self, theme: Theme, shop: Path | None = None, settings: Settings | None = None) -> None:
        super().__init__()
        self._theme, self._shop = theme, shop
        self._settings = settings or Settings()
        self.view: JobView | None = None
        self.form: NewJobPage | None = None
        self._make()
        theme.changed.connect(self._theme_changed)
        self.setWindowTitle("Frontwright")
        self.resize(theme.px(1280), theme.px(800))
        self.setMinimumSize(theme.px(760), theme.px(480))

    def _make(self) -> None:
        self._stack = QStackedWidget()
        self.status = StatusLine(self._theme)
        body = QWidget()
        layout = QVBoxLayout(body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(Rule(self._theme))
        layout.addWidget(self._stack, 1)
        layout.addWidget(self.status)
        self.setCentralWidget(body)
        self._name = QLabel()
        self._name.setContentsMargins(0, self._theme.px(5), self._theme.px(16), 0)
        self._name.setFont(self._theme.font(12))
        self.menuBar().setCornerWidget(self._name)
        self._menus()

    # opening

    def open_first(self, path: Path | None) -> None:
        """The job that was asked for, else the one opened last, else a copy of the sample; else the new-job form."""
        wanted = path or next((p for p in recent.recent() if p.exists()), None)
        try:
            wanted = wanted or sample_job()
        except SessionError as error:
            self.notice(str(error))
        if wanted is None or not self.open_job(wanted):
            said = self.status.left.text()
            self.new_job()
            self.notice(said)

    def show_last_crash(self, text: str) -> None:
        """Tell about the crash that ended the program last time."""
        dialogs.tell(self, "Frontwright", f"Last time the program broke off. {crash.SENTENCE}", text)

    def open_job(self, path: Path) -> bool:
        """Open a job; False, with one sentence for the person, where it cannot be."""
        try:
            session = open_session(path, self._shop)
        except SessionError as error:
            self.notice(str(error))
            return False
        self._show_session(session)
        return True

    def _show_session(self, session: Session) -> None:
        self.close_job()
        recent.remember(session.path)
        self._drop_form()
        self._show_view(session, self._first_chapter(session))

    def _show_view(self, session: Session, chapter: str) -> None:
        view = JobView(self._theme, session)
        view.said.connect(self.notice)
        view.changed.connect(self._changed)
        view.put_out.connect(self._put_out)
        view.tabs.opened.connect(lambda _chapter: self._show_state())
        self.view = view
        self._stack.addWidget(view)
        self._stack.setCurrentWidget(view)
        view.open_chapter(chapter)
        self.status.stands("All is in the file")
        self._show_state()

    def _first_chapter(self, session: Session) -> str:
        """The page of a half-typed cell, else the survey."""
        begun = (CHAPTER_OF_TABLE.get(key.partition("/")[0]) for key in session.drafts())
        return next((chapter for chapter in begun if chapter), "survey")

    def close_job(self) -> None:
        """Close the open job, keeping what is half typed in it."""
        if self.view is None:
            return
        view, self.view = self.view, None
        view.keep_typing()
        self._stack.removeWidget(view)
        view.hide()
        view.session.close()
        view.deleteLater()

    def new_job(self) -> None:
        """Show the form of a new job."""
        from frontwright.window.new_job import NewJobPage
        from frontwright.window.start_icons import icons

        self._drop_form()
        page = NewJobPage(self._theme, icons())
        page.show_draft(self._settings.begun)
        page.kept.connect(self._keep_form)
        page.unit.chosen.connect(lambda _unit: self._show_state())
        page.started.connect(self.start_job)
        page.field_sheet.connect(self._blank_sheet)
        page.left.connect(self._leave_form)
        self.form = page
        self._stack.addWidget(page)
        self._stack.setCurrentWidget(page)
        self.status.stands("The file is made when the job is started")
        self._show_state()

    def start_job(self, form: NewJob) -> None:
        """Make the file of a new job and open it."""
        try:
            session = start_session(form, self._shop)
        except SessionError as error:
            if self.form is not None:
                self.form.say(str(error))
            return
        self._keep_form({})
        self._show_session(session)

    def _keep_form(self, texts: dict[str, str]) -> None:
        self._settings.begun = texts

    def _leave_form(self) -> None:
        if self.view is not None:
            self._stack.setCurrentWidget(self.view)
            self._drop_form()
            self._show_state()

    def _drop_form(self) -> None:
        if self.form is not None:
            self._stack.removeWidget(self.form)
            self.form.hide()
            self.form.deleteLater()
            self.form = None

    # menus

    def _menus(self) -> None:
        bar = self.menuBar()
        job = bar.addMenu("&Job")
        self._add(job, "&New …", self.new_job, QKeySequence.StandardKey.New)
        self._add(job, "&Open …", self._ask_open, QKeySequence.StandardKey.Open)
        self._recent = job.addMenu("Open &recent")
        self._recent.aboutToShow.connect(self._show_recent)
        job.addSeparator()
        self.act_copy = self._add(job, "Keep a &copy as …", self._ask_copy)
        self.act_lists = self._add(job, "Save &lists …", self._ask_lists)
        self.act_take_in = self._add(job, "&Take in a list …", self._ask_take_in)
        self.act_sheets = self._add(job, "&Print sheets …", self._print, QKeySequence.StandardKey.Print)
        self._add(job, "Print a &blank field sheet …", lambda: self._blank_sheet(""))
        job.addSeparator()
        self._add(job, "&Quit", self.close, QKeySequence.StandardKey.Quit)
        edit = bar.addMenu("&Edit")
        self.act_undo = self._add(edit, "&Undo", self._undo, QKeySequence.StandardKey.Undo)
        self.act_redo = self._add(edit, "&Redo", self._redo, QKeySequence.StandardKey.Redo)
        edit.addSeparator()
        self.act_working = self._add(edit, "&Working of this figure", self._working)
        look = bar.addMenu("&View")
        self._pages = look.addMenu("&Page")
        self._pages.aboutToShow.connect(self._show_pages)
        self._add(look, "&Next page", lambda: self._turn(1), "Ctrl+PgDown")
        self._add(look, "Pre&vious page", lambda: self._turn(-1), "Ctrl+PgUp")
        self._add(look, "Next p&art of the window", self._next_part, "F6")
        look.addSeparator()
        self._look_menu(look)
        about = bar.addMenu("&Help")
        self._add(about, "&Keys", lambda: dialogs.tell(self, "Keys", HELP), QKeySequence.StandardKey.HelpContents)
        self._add(about, "&About Frontwright", self._about)

    def _look_menu(self, menu: QMenu) -> None:
        modes = QActionGroup(menu)
        words: tuple[tuple[Mode, str], ...] = (("desktop", "As the &desktop"), ("light", "&Light"), ("dark", "Da&rk"))
        for mode, word in words:
            action = self._add(menu, word, partial(self._choose_mode, mode))
            action.setCheckable(True)
            action.setChecked(self._theme.mode == mode)
            modes.addAction(action)
        menu.addSeparator()
        self._add(menu, "Lar&ger", lambda: self._grow(1), "Ctrl++")
        self._add(menu, "S&maller", lambda: self._grow(-1), "Ctrl+-")

    def _add(
        self, menu: QMenu, word: str, do: Callable[[], object], keys: QKeySequence.StandardKey | str | None = None
    ) -> QAction:
        action = QAction(word, menu)
        action.triggered.connect(lambda _checked=False: do())
        if keys is not None:
            action.setShortcut(QKeySequence(keys))
        menu.addAction(action)
        return action

    def _show_recent(self) -> None:
        self._recent.clear()
        paths = recent.recent()
        for path in paths:
            action = self._recent.addAction(path.stem)
            action.setToolTip(str(path))
            action.triggered.connect(lambda _checked=False, path=path: self.open_job(path))
        if not paths:
            self._recent.addAction("no job was opened yet").setEnabled(False)

    def _show_pages(self) -> None:
        self._pages.clear()
        if self.view is None:
            return
        for number, tab in enumerate(self.view.session.tabs(), 1):
            action = self._pages.addAction(f"&{number} {tab.word}")
            action.triggered.connect(lambda _checked=False, chapter=tab.chapter: self._open(chapter))

    # what the menus do

    def _ask_open(self) -> None:
        path = dialogs.job_to_open(self, recent.jobs_folder())
        if path is not None:
            self.open_job(path)

    def _ask_copy(self) -> None:
        if self.view is None:
            return
        path = dialogs.place_for_copy(self, self.view.session.path.with_suffix(".json"))
        if path is not None:
            outcome = self.view.session.export(path)
            self.notice(outcome.problem or outcome.said)

    def _ask_lists(self) -> None:
        """Lists for a spreadsheet; of CSV one, which is asked for."""
        view = self.view
        path = dialogs.place_for_lists(self, view.session.path.with_suffix(".xlsx")) if view is not None else None
        if view is None or path is None:
            return
        which: str | None = ""
        if path.suffix.lower() == ".csv":
            which = dialogs.choose(self, "Save lists", "Which list?", LISTS)
        if which is not None:
            outcome = view.session.lists.save(path, which)
            self.notice(outcome.problem or outcome.said)

    def _ask_take_in(self) -> None:
        """Sizes as built out of a parts list, or pieces of wood."""
        path = dialogs.list_to_take_in(self, recent.jobs_folder()) if self.view is not None else None
        if self.view is not None and path is not None:
            outcome = self.view.session.lists.take_in(path)
            self.notice(outcome.problem or outcome.said)

    def _open(self, chapter: str) -> None:
        if self.view is not None:
            self._stack.setCurrentWidget(self.view)
            self.view.open_chapter(chapter)
            self._show_state()

    def _print(self) -> None:
        """Open the sheets; there, print what is chosen."""
        view = self.view
        if view is not None and view.chapter == SHEETS and view.sheets_page is not None:
            view.sheets_page.print_chosen()
        else:
            self._open(SHEETS)

    def _turn(self, step: int) -> None:
        if self.view is not None:
            chapters = [tab.chapter for tab in self.view.session.tabs()]
            at = chapters.index(self.view.chapter) if self.view.chapter in chapters else 0
            self._open(chapters[(at + step) % len(chapters)])

    def _undo(self) -> None:
        self._back_or_on(self.view.undo if self.view else None)

    def _redo(self) -> None:
        self._back_or_on(self.view.redo if self.view else None)

    def _back_or_on(self, do: Callable[[], Outcome] | None) -> None:
        if do is not None:
            outcome = do()
            if outcome.problem or outcome.said:
                self.notice(outcome.problem or outcome.said)

    def _working(self) -> None:
        if self.view is not None and self.view.page is not None:
            self.view.open_working(self.view.page.current_key)

    def _next_part(self) -> None:
        """Search line, tables, drawing, findings: one after the other."""
        if self.view is None or self.view.page is None:
            return
        page = self.view.page
        parts: list[QWidget] = [page.head.search, *page.grids(), page.board, *page.findings.rows[:1]]
        shown = [part for part in parts if part.isVisible()]
        now = QApplication.focusWidget()
        at = next(
            (n for n, part in enumerate(shown) if part is now or (now is not None and part.isAncestorOf(now))), -1
        )
        if shown:
            shown[(at + 1) % len(shown)].setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _choose_mode(self, mode: Mode) -> None:
        self._settings.mode = mode
        self._theme.choose(mode)

    def _grow(self, step: int) -> None:
        at = min(max(0, GROWTHS.index(self._theme.growth) + step), len(GROWTHS) - 1)
        self._settings.growth = GROWTHS[at]
        self._theme.choose(growth=GROWTHS[at])

    def _theme_changed(self) -> None:
        """Everything is laid out anew in the new colours and sizes; the job and what is half typed stay."""
        view, form = self.view, self.form
        if view is not None:
            view.keep_typing()
        texts = form.texts if form is not None else None
        self.view = self.form = None
        self.setMenuBar(QMenuBar())
        self._make()
        if view is not None:
            self._show_view(view.session, view.chapter)
        if texts is not None:
            self.new_job()

    def _about(self) -> None:
        words = f"Frontwright {__version__}: the workbook for new doors, drawer fronts and facings on old cabinets."
        dialogs.tell(self, "About Frontwright", words, "Letters: DejaVu Sans, under its own free licence.")

    # sheets

    def _put_out(self, way: str, keys: list[str], data: bytes) -> None:
        from frontwright.window.paper import print_data, save_data

        if self.view is None:
            return
        name = self.view.session.path.stem
        if way == "save":
            said, done = save_data(self, data, recent.jobs_folder() / f"{name}.pdf")
        else:
            said, done = print_data(self, data, name)
        if done:
            self.view.sheets_are_out(keys)
        if said:
            self.notice(said)

    def _blank_sheet(self, unit: str) -> None:
        from frontwright.window.paper import blank_sheets, print_data, save_data

        way = dialogs.choose(self, "Blank field sheet", "The field sheet for openings:", ("print", "save as a PDF"))
        if way is None:
            return
        shown = self.view.session.display.unit if self.view is not None and not unit else unit
        data = blank_sheets("mm" if shown == "mm" else "in")
        if way == "print":
            said, _ = print_data(self, data, "field sheet")
        else:
            said, _ = save_data(self, data, recent.jobs_folder() / "field sheet.pdf")
        if said:
            self.notice(said)

    # what is shown around the job

    def notice(self, text: str) -> None:
        """One line for the person, at the bottom."""
        self.status.notice(text)

    def _changed(self) -> None:
        self.status.saved()
        self._show_state()

    def _show_state(self) -> None:
        view = self.view
        session = view.session if view is not None else None
        undo, redo = (session.undo_name, session.redo_name) if session is not None else ("", "")
        self.act_undo.setText(f"&Undo {undo}" if undo else "&Undo")
        self.act_undo.setEnabled(bool(undo))
        self.act_redo.setText(f"&Redo {redo}" if redo else "&Redo")
        self.act_redo.setEnabled(bool(redo))
        for action in (self.act_copy, self.act_lists, self.act_take_in, self.act_sheets, self.act_working):
            action.setEnabled(session is not None)
        self._name.setText(session.name if session is not None else "")
        self._name.setStyleSheet(f"color: {self._theme.palette.ink_soft.name()}")
        self.menuBar().setCornerWidget(self._name)  # laid out anew for the length of the name
        self.setWindowTitle(f"{session.name} – Frontwright" if session is not None else "Frontwright")
        if self.form is not None:
            self.status.show_job(self.form.unit_words, "")
        else:
            self.status.show_job(session.unit_words if session is not None else "", undo)

    def rescue(self) -> None:
        """Keep what is half typed: something went wrong."""
        if self.view is not None:
            self.view.keep_typing()
        if self.form is not None:
            self.form.keep_typing()

    def closeEvent(self, event: QCloseEvent) -> None:
        self._settings.geometry = self.saveGeometry()
        self.rescue()
        self.close_job()
        super().closeEvent(event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.view is not None:
            QTimer.singleShot(0, self, self._look_again if self.isActiveWindow() else self.rescue)

    def _look_again(self) -> None:
        """What another window did on the rack meanwhile is shown."""
        view = self.view
        if view is not None and view.chapter in RACK_PAGES and view.page is not None and view.page.open_text is None:
            view.refresh()


class Rule(QWidget):
    """The thin line under the menu."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self.setFixedHeight(max(1, theme.px(1)))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(QRectF(self.rect()), self._theme.palette.rule)
        painter.end()
