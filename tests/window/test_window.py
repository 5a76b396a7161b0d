"""The whole window, worked as a person works it: by keys, through the menu, over closing and opening again."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from io import BytesIO
from pathlib import Path

import pytest
from frontwright.core.job import Job, Member, Reading
from frontwright.core.lengths import read
from frontwright.desk.keys import key
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from frontwright.store import create
from frontwright.window import dialogs
from frontwright.window.main_window import MainWindow
from frontwright.window.page import Page
from frontwright.window.theme import DARK, Theme
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

Opener = Callable[[Path | None], MainWindow]
ENTER = Qt.Key.Key_Return
CONTROL = Qt.KeyboardModifier.ControlModifier


class Fingers:
    """Ten fingers on a keyboard: each key goes where the focus is, and is counted."""

    def __init__(self, qtbot: QtBot) -> None:
        self._qtbot = qtbot
        self.keys = 0

    def type(self, text: str) -> None:
        for letter in text:
            QTest.keyClicks(self._focus(), letter)
            self.keys += 1

    def press(self, *keys: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        for one in keys:
            QTest.keyClick(self._focus(), one, held)
            self.keys += 1

    def _focus(self) -> QWidget:
        self._qtbot.waitUntil(lambda: QApplication.focusWidget() is not None)
        focused = QApplication.focusWidget()
        assert focused is not None
        return focused


@pytest.fixture
def fingers(qtbot: QtBot) -> Fingers:
    return Fingers(qtbot)


@pytest.fixture
def opener(qtbot: QtBot, theme: Theme) -> Iterator[Opener]:
    """Opens the main window, with a job if there is one; all are closed at the end."""
    windows: list[MainWindow] = []

    def _open(path: Path | None = None) -> MainWindow:
        window = MainWindow(theme)
        windows.append(window)
        with qtbot.waitActive(window):
            window.show()
            window.activateWindow()
        if path is not None:
            assert window.open_job(path), window.status.left.text()
        return window

    yield _open
    for window in windows:
        window.close()
        window.deleteLater()


def sample(name: str) -> Job:
    return job_from_json(resource("samples", f"{name}.json").read_text("utf-8"))


def laid_down(job: Job, folder: Path, name: str = "job") -> Path:
    path = folder / f"{name}.frontwright"
    create(path, job).close()
    return path


def page_of(window: MainWindow, chapter: str) -> Page:
    assert window.view is not None
    window.view.open_chapter(chapter)
    page = window.view.page
    assert page is not None
    QApplication.processEvents()
    return page


def standing(job: Job, of: str) -> dict[tuple[str, str], str]:
    """The readings of an opening that stand, as typed."""
    found = [r for r in job.readings.values() if r.of == of and not r.struck and r.value is not None]
    return {(r.what, r.at): r.value.text for r in found if r.value is not None}


READ = [("width", "top"), ("width", "middle"), ("width", "bottom"), ("height", "left"), ("height", "middle")]
READ += [("height", "right"), ("diagonal", "\\"), ("diagonal", "/")]


def test_the_twelve_openings_of_a_kitchen_are_typed_with_one_closing_key_a_reading(
    qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path
) -> None:
    whole = sample("kitchen-run")
    twelve = [str(number) for number in range(1, 13)]
    bare = whole.drop(Reading, *(r.id for r in whole.readings.values() if r.of in twelve))
    window = opener(laid_down(bare, tmp_path))
    page = page_of(window, "survey")
    assert page.stand_on(key("readings", "1", "width", "top"))
    letters = 0
    for opening in twelve:
        for what, at in READ:
            text = standing(whole, opening)[what, at]
            letters += len(text)
            fingers.type(text)
            fingers.press(ENTER)
    assert window.view is not None
    typed = window.view.session.job
    for opening in twelve:
        assert standing(typed, opening) == standing(whole, opening)
    assert fingers.keys - letters <= len(twelve) * (len(READ) + 4)
    for opening in twelve:
        before, after = window.view.session.plan.survey.openings[opening], opening
        assert before.opening.id == after


def test_from_nothing_to_a_right_door_sheet_takes_at_most_sixty_keys(
    qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "door.pdf"
    monkeypatch.setattr(dialogs, "place_for_sheets", lambda _parent, _suggested: place)
    window = opener(None)
    window.new_job()
    fingers.type("21")
    fingers.press(ENTER)
    fingers.type("26 1/2")
    fingers.press(ENTER)
    fingers.press(ENTER, held=CONTROL)
    assert window.view is not None
    fingers.press(Qt.Key.Key_P, held=CONTROL)
    sheets = window.view.sheets_page
    assert sheets is not None
    qtbot.waitUntil(lambda: QApplication.focusWidget() is sheets.list)
    while not [line for line in sheets.list.chosen() if line.kind == "door"]:
        fingers.press(Qt.Key.Key_Down)
    fingers.press(Qt.Key.Key_S, held=CONTROL)
    assert fingers.keys <= 60
    qtbot.waitUntil(place.exists)
    assert place.read_bytes() == sheets.data
    text = "\n".join(page.extract_text() for page in PdfReader(BytesIO(place.read_bytes())).pages)
    assert "F1" in text
    plan = window.view.session.plan
    front = plan.fronts.fronts["F1"]
    assert front.width.value == read("22", "in").value
    assert front.height.value == read("27 1/2", "in").value
    assert "22" in text
    assert "27" in text


def test_what_is_half_typed_survives_refresh_undo_and_closing(
    qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path
) -> None:
    path = laid_down(sample("laundry-pair"), tmp_path)
    window = opener(path)
    page = page_of(window, "survey")
    place = key("readings", "OA", "height", "left")
    page.stand_on(key("readings", "OA", "width", "top"))
    fingers.type("21 1/8")
    fingers.press(ENTER)
    page.stand_on(place)
    fingers.type("26 5/")
    assert window.view is not None
    window.view.refresh()
    assert page.open_text == "26 5/"
    window.act_undo.trigger()
    assert window.view.session.redo_name
    assert page.open_text == "26 5/"
    window.close()
    again = opener(path)
    page = page_of(again, "survey")
    qtbot.waitUntil(lambda: page.open_text == "26 5/")
    fingers.type("8")
    fingers.press(ENTER)
    assert again.view is not None
    assert standing(again.view.session.job, "OA")["height", "left"] == "26 5/8"
    assert place not in again.view.session.drafts()


def test_undo_and_redo_say_what_they_take_back(qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path) -> None:
    window = opener(laid_down(sample("laundry-pair"), tmp_path))
    page = page_of(window, "survey")
    page.stand_on(key("readings", "OA", "width", "top"))
    before = window.view.session.job if window.view else None
    fingers.type("21 1/8")
    fingers.press(ENTER)
    assert window.view is not None
    name = window.view.session.undo_name
    assert name
    assert name in window.act_undo.text()
    assert window.status.right.text() == f"Undo: {name}"
    fingers.press(Qt.Key.Key_Escape)
    fingers.press(Qt.Key.Key_Z, held=CONTROL)
    assert window.view.session.job == before
    assert name in window.act_redo.text()


def test_a_pasted_block_of_readings_is_one_step_of_undo(
    qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path
) -> None:
    window = opener(laid_down(sample("laundry-pair"), tmp_path))
    page = page_of(window, "survey")
    assert window.view is not None
    before = window.view.session.job
    page.stand_on(key("readings", "OA", "width", "middle"))
    QGuiApplication.clipboard().setText("21 1/8\t21 1/4\n20 7/8\t20 3/4\n")
    fingers.press(Qt.Key.Key_V, held=CONTROL)
    job = window.view.session.job
    assert standing(job, "OA")["width", "middle"] == "21 1/8"
    assert standing(job, "OA")["width", "bottom"] == "21 1/4"
    assert standing(job, "OB")["width", "middle"] == "20 7/8"
    assert standing(job, "OB")["width", "bottom"] == "20 3/4"
    fingers.press(Qt.Key.Key_Z, held=CONTROL)
    assert window.view.session.job == before


def test_a_refused_size_stays_typed_and_the_job_is_as_it_was(
    qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path
) -> None:
    window = opener(laid_down(sample("laundry-pair"), tmp_path))
    page = page_of(window, "survey")
    page.stand_on(key("readings", "OA", "width", "top"))
    assert window.view is not None
    before = window.view.session.job
    for text in ("0", "-3", "40m", "1e400", "nan"):
        fingers.type(text)
        fingers.press(ENTER)
        assert page.open_text == text
        assert window.view.session.job == before
        fingers.press(Qt.Key.Key_Escape)


def test_equals_opens_the_working_right_opens_a_term_and_escape_closes(
    qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path
) -> None:
    window = opener(laid_down(sample("kitchen-run"), tmp_path))
    page = page_of(window, "fronts")
    place = key("figure", "F1", "width")
    page.stand_on(place)
    fingers.type("=")
    assert page.working.isVisible()
    few = len(page.working.sheet.lines)
    closed = next(n for n, line in enumerate(page.working.sheet.lines) if line.opens and not line.open)
    fingers.press(*([Qt.Key.Key_Down] * closed), Qt.Key.Key_Right)
    assert len(page.working.sheet.lines) > few
    fingers.press(Qt.Key.Key_Left)
    assert len(page.working.sheet.lines) == few
    fingers.press(Qt.Key.Key_Escape)
    assert not page.working.isVisible()
    assert page.current_key == place


def test_what_is_selected_in_the_drawing_is_selected_in_the_tables_and_the_other_way_round(
    qtbot: QtBot, opener: Opener, tmp_path: Path
) -> None:
    window = opener(laid_down(sample("kitchen-run"), tmp_path))
    page = page_of(window, "fronts")
    assert window.view is not None
    page.board.chosen.emit("F7R")
    assert window.view.selected == "F7R"
    assert page.board.selected == "F7R"
    page.stand_on(key("fronts", "F5", "id"))
    assert page.board.selected == "F5"


def test_the_page_list_names_each_page_and_opens_it_by_keys(
    qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path
) -> None:
    window = opener(laid_down(sample("kitchen-run"), tmp_path))
    assert window.view is not None
    view = window.view
    words = [tab.word for tab in view.session.tabs()]
    assert words[:2] == ["Brief", "Survey"]
    page_of(window, "survey")
    fingers.press(Qt.Key.Key_PageDown, held=CONTROL)
    assert view.chapter == "fronts"
    fingers.press(Qt.Key.Key_PageUp, held=CONTROL)
    assert view.chapter == "survey"


def test_dark_and_size_change_while_a_cell_is_half_typed(
    qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path
) -> None:
    window = opener(laid_down(sample("laundry-pair"), tmp_path))
    page = page_of(window, "survey")
    page.stand_on(key("readings", "OA", "width", "top"))
    fingers.type("21 3/")
    window._choose_mode("dark")
    assert window._theme.palette == DARK
    window._grow(2)
    assert window._theme.growth == 1.5
    assert window.view is not None
    view = window.view
    qtbot.waitUntil(lambda: view.page is not None and view.page.open_text == "21 3/")
    window._grow(-2)


@pytest.mark.parametrize("growth", [1.0, 1.25, 1.5, 1.75, 2.0])
def test_every_page_can_be_shown_in_every_size(qtbot: QtBot, tmp_path: Path, growth: float) -> None:
    theme = Theme("light", growth)
    theme.dress()
    window = MainWindow(theme)
    qtbot.addWidget(window)
    window.show()
    assert window.open_job(laid_down(sample("laundry-pair"), tmp_path))
    assert window.view is not None
    for tab in window.view.session.tabs():
        window.view.open_chapter(tab.chapter)
        picture = window.grab().toImage()
        assert picture.width() == window.width()
        colours = {picture.pixel(x, y) for x in range(0, picture.width(), 7) for y in range(0, picture.height(), 7)}
        assert len(colours) > 10
    window.close()


def test_a_file_that_is_no_job_gives_one_sentence_and_the_window_stays(
    qtbot: QtBot, opener: Opener, tmp_path: Path
) -> None:
    window = opener(laid_down(sample("laundry-pair"), tmp_path))
    foreign = tmp_path / "foreign.frontwright"
    foreign.write_bytes(b"no job at all" * 400)
    assert not window.open_job(foreign)
    assert window.status.left.text()
    assert window.view is not None
    assert foreign.read_bytes() == b"no job at all" * 400


def test_a_finding_is_answered_by_a_reason_typed_under_it(
    qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path
) -> None:
    job = sample("laundry-pair")
    job = job.drop(Reading, *(r.id for r in job.readings.values() if r.of == "seam"))
    seam = next(member.id for member in job.members.values() if member.kind == "seam")
    job = job.drop(Member, seam)
    window = opener(laid_down(job, tmp_path))
    page = page_of(window, "survey")
    rows = [row for row in page.findings.rows if row.line.level == "stop"]
    assert rows, [row.line for row in page.findings.rows]
    row = rows[0]
    page.findings.choose(row.line.key)
    button = next(b for b in row.findChildren(QPushButton) if b.text().startswith("It is so"))
    button.click()
    fingers.type("the tape was hooked over the lip")
    fingers.press(ENTER)
    assert window.view is not None
    answers = [a.answer for a in window.view.session.job.answers.values()]
    assert "the tape was hooked over the lip" in answers


def test_a_way_out_leads_to_the_cell_in_which_it_is_done(
    qtbot: QtBot, opener: Opener, fingers: Fingers, tmp_path: Path
) -> None:
    job = sample("laundry-pair")
    seam = next(member.id for member in job.members.values() if member.kind == "seam")
    job = job.drop(Reading, *(r.id for r in job.readings.values() if r.of == "seam")).drop(Member, seam)
    window = opener(laid_down(job, tmp_path))
    page = page_of(window, "survey")
    row = next(row for row in page.findings.rows if row.line.level == "stop")
    way = next(way for way in row.line.ways if way.word == "Read the overall again")
    page.findings.choose(row.line.key)
    button = next(b for b in row.findChildren(QPushButton) if b.text() == way.word)
    button.click()
    qtbot.waitUntil(lambda: page.current_key.startswith("readings/R1/overall"))


def test_a_changed_reading_makes_a_printed_sheet_stale_with_its_reason(
    qtbot: QtBot, opener: Opener, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(dialogs, "place_for_sheets", lambda _parent, _suggested: tmp_path / "all.pdf")
    window = opener(laid_down(sample("laundry-pair"), tmp_path))
    assert window.view is not None
    view = window.view
    view.open_chapter("sheets")
    sheets = view.sheets_page
    assert sheets is not None
    sheets.choose_ready()
    sheets.save.click()
    assert PdfReader(tmp_path / "all.pdf").pages
    assert {line.state for line in view.sheets()} == {"current"}
    view.enter(key("looks", "room:laundry", "reveal_left"), "2")
    stale = [line for line in view.sheets() if line.kind == "door" and line.state == "stale"]
    assert stale
    view.open_chapter("sheets")
    sheets.list.clearSelection()
    for row in range(sheets.list.count()):
        sheets.list.item(row).setSelected(sheets.list.line(row).key == stale[0].key)
    assert stale[0].reason
    assert stale[0].reason in sheets.reason.text
    assert " was " in stale[0].reason
    assert sheets.pages == 1
