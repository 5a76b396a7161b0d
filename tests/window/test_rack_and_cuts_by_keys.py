"""Rack and Cuts by the keyboard: searching while typing, ticking with a key, laying beside a window that goes on."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from frontwright.core.plan import derive
from frontwright.cutting.floor import floor_plan
from frontwright.desk.keys import key
from frontwright.desk.laid_rows import with_plans
from frontwright.desk.laying import to_lay
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from frontwright.store import create
from frontwright.window.job_view import JobView
from frontwright.window.main_window import MainWindow
from frontwright.window.page import Page
from frontwright.window.theme import Theme
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QScrollArea, QScrollBar
from pytestqt.qtbot import QtBot


@pytest.fixture
def view(qtbot: QtBot, theme: Theme, tmp_path: Path) -> Iterator[JobView]:
    """The kitchen, laid out by the quick way, in a window with a shop of its own."""
    job = job_from_json(resource("samples", "kitchen-run.json").read_text("utf-8"))
    job = with_plans(job, [(task, floor_plan(task.order)) for task in to_lay(derive(job))])
    path = tmp_path / "job.frontwright"
    create(path, job).close()
    window = MainWindow(theme, tmp_path / "shop.frontwright-shop")
    window.resize(1280, 800)
    with qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    assert window.open_job(path)
    assert window.view is not None
    window.view.session.act("rack-take-in")
    yield window.view
    window.close()
    window.deleteLater()


def page_of(view: JobView, chapter: str) -> Page:
    view.open_chapter(chapter)
    QApplication.processEvents()
    assert view.page is not None
    return view.page


def press(*what: str | Qt.Key) -> None:
    """Letters and keys, each to what has the focus by then."""
    for one in what:
        for letter in one if isinstance(one, str) else (one,):
            focused = QApplication.focusWidget()
            assert focused is not None
            if isinstance(letter, Qt.Key):
                QTest.keyClick(focused, letter)
            else:
                QTest.keyClicks(focused, letter)
    QApplication.processEvents()


def test_the_rack_answers_while_it_is_asked(view: JobView, qtbot: QtBot) -> None:
    page = page_of(view, "rack")
    assert len(page.blocks["pieces"].grid.cells.table.rows) == 3
    page.head.search.setFocus()
    press("sheet")
    qtbot.waitUntil(lambda: len(page.blocks["pieces"].grid.cells.table.rows) == 1)
    assert page.blocks["pieces"].grid.cells.table.rows[0].subject == "K-03"
    assert QApplication.focusWidget() is page.head.search
    press(Qt.Key.Key_Escape)
    assert len(page.blocks["pieces"].grid.cells.table.rows) == 3


def test_what_is_found_is_shown_from_the_top_of_the_page(view: JobView, qtbot: QtBot) -> None:
    page = page_of(view, "rack")
    view.window().resize(1280, 620)  # the page is longer than its room
    QApplication.processEvents()
    bar = max((area.verticalScrollBar() for area in page.findChildren(QScrollArea)), key=QScrollBar.maximum)
    bar.setValue(bar.maximum())
    assert bar.value() > 0
    page.head.search.setFocus()
    press("sheet")
    qtbot.waitUntil(lambda: len(page.blocks["pieces"].grid.cells.table.rows) == 1)
    assert bar.value() == 0


def test_the_search_line_is_reached_with_f6(view: JobView) -> None:
    page = page_of(view, "rack")
    window = view.window()
    assert isinstance(window, MainWindow)
    for _ in range(20):
        if QApplication.focusWidget() is page.head.search:
            break
        window._next_part()
    assert QApplication.focusWidget() is page.head.search


def test_a_length_of_a_piece_is_typed_and_enter_goes_on_in_measuring_order(view: JobView) -> None:
    page = page_of(view, "rack")
    assert page.stand_on("pieces/K-05/length")
    for text in ("880", "148", "26"):
        press(text, Qt.Key.Key_Return)
    sizes = view.session.job.pieces["K-05"]
    assert [one.text for one in (sizes.length, sizes.width, sizes.thickness) if one] == ["880", "148", "26"]
    there = view.session.rack.rack.pieces["K-05"].length
    assert there is not None
    assert there.text == "880"


def test_a_cut_is_ticked_by_a_key(view: JobView) -> None:
    page = page_of(view, "cuts")
    laid = next(one.id for one in view.session.plan.stock.layouts if one.group.startswith("sheet"))
    view.session.select(laid)
    view.act(key("has-come", laid))
    view.refresh()
    assert page.stand_on(key("cuts", laid, "1"))
    press(Qt.Key.Key_Space)
    assert {row.cut for row in view.session.job.cuts_done.values()} == {1, 2}


def test_the_window_goes_on_while_parts_are_laid_and_stop_leaves_the_job(view: JobView, qtbot: QtBot) -> None:
    page = page_of(view, "cuts")
    before = view.session.job
    view.act(key("lay", "anew"))
    work = page.work
    assert work is not None
    slowest = 0.0
    ends = time.monotonic() + 1.5
    while time.monotonic() < ends:
        begun = time.monotonic()
        QApplication.processEvents()
        slowest = max(slowest, time.monotonic() - begun)
        time.sleep(0.01)
    assert work.isVisible()
    assert slowest < 1.0
    assert view.session.enter("headings/job/client", "Ruth").problem == ""
    work.stop.click()
    qtbot.waitUntil(lambda: not work.isVisible())
    assert not view.session.lay.busy
    assert view.session.job.laid == before.laid
    assert view.session.job.heading.client == "Ruth"


def test_the_best_so_far_is_used_with_a_button(view: JobView, qtbot: QtBot) -> None:
    page = page_of(view, "cuts")
    view.act(key("lay", "anew"))
    work = page.work
    assert work is not None
    qtbot.waitUntil(work.isVisible, timeout=5000)
    work.use.click()
    qtbot.waitUntil(lambda: not view.session.lay.busy)
    assert view.session.undo_name.startswith("lay ")
    assert all(one.valid for one in view.session.plan.stock.layouts)


def test_a_button_pressed_by_a_key_leaves_the_focus_in_its_row(view: JobView, qtbot: QtBot) -> None:
    page = page_of(view, "cuts")
    button = page.head.button_of(key("lay", "anew"))
    assert button is not None
    button.setFocus()
    press(Qt.Key.Key_Space)
    focused = QApplication.focusWidget()
    assert isinstance(focused, QPushButton)
    assert focused.text() == "Stop"
    press(Qt.Key.Key_Space)
    assert not view.session.lay.busy


def test_an_empty_page_begins_at_the_button_that_fills_it(view: JobView) -> None:
    for laid in list(view.session.job.laid):
        view.act(key("take-layout-away", laid))
    page_of(view, "rack")
    page = page_of(view, "cuts")
    view.refresh()
    page.start()
    focused = QApplication.focusWidget()
    assert isinstance(focused, QPushButton)
    assert focused.text() == "Lay"
