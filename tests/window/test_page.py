"""A page gives its room to what is looked at: the selected row, the first table, the buttons of its head."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from frontwright.core.figures import Figure
from frontwright.core.lengths import IN_HALF_MM, IN_THIRTYSECONDS, Length
from frontwright.desk import recent
from frontwright.desk.contents import Choice
from frontwright.window.chooser import Chooser
from frontwright.window.figures import value_text
from frontwright.window.main_window import MainWindow
from frontwright.window.page import Page
from frontwright.window.theme import Theme
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot


@pytest.fixture
def kitchen(theme: Theme, tmp_path: Path) -> Iterator[MainWindow]:
    window = MainWindow(theme, tmp_path / "shop.frontwright-shop")
    window.resize(1280, 800)
    window.show()
    assert window.open_job(recent.sample("kitchen-run", tmp_path))
    yield window
    window.close()


def fronts(window: MainWindow) -> Page:
    assert window.view is not None
    window.view.open_chapter("fronts")
    page = window.view.page
    assert page is not None
    return page


def test_a_table_scrolls_to_the_front_that_is_selected_in_the_drawing(qtbot: QtBot, kitchen: MainWindow) -> None:
    page = fronts(kitchen)
    qtbot.wait(20)
    page.board.chosen.emit("F12")
    grid = page.blocks["fronts"].grid
    row = next(n for n, line in enumerate(grid.cells.table.rows) if line.subject == "F12")

    def whole() -> bool:
        place = grid.visualRect(grid.cells.index(row, 0))
        return place.top() >= 0 and place.bottom() < grid.viewport().height()

    qtbot.waitUntil(whole, timeout=1000)


def test_under_a_wide_drawing_the_first_tables_fill_what_is_left_of_the_page(qtbot: QtBot, kitchen: MainWindow) -> None:
    page = fronts(kitchen)
    qtbot.waitUntil(lambda: page.blocks["fronts"].height() >= 230, timeout=1000)
    assert page.blocks["fronts"].height() == page.blocks["look"].height()


def test_in_a_narrow_window_the_buttons_of_the_head_share_one_menu(qtbot: QtBot, kitchen: MainWindow) -> None:
    assert kitchen.view is not None
    kitchen.view.open_chapter("making")
    page = kitchen.view.page
    assert page is not None

    def words() -> list[str]:
        return [button.text() for button in page.head.findChildren(QPushButton) if button.isVisibleTo(page.head)]

    qtbot.waitUntil(lambda: len(words()) == 2, timeout=1000)
    kitchen.resize(1000, 760)
    qtbot.waitUntil(lambda: words() == ["Choose …"], timeout=1000)


def test_hardware_of_an_inch_job_is_told_in_its_own_millimetres() -> None:
    cup = Figure("cup", Length.mm(35), "chosen")
    assert value_text(cup, IN_THIRTYSECONDS) == "35 mm"
    assert str(value_text(cup, IN_HALF_MM)) == "35"
    assert str(value_text(Figure("rail", Length.inch("2.25"), "chosen"), IN_THIRTYSECONDS)) == "2 1/4"


def test_a_choice_without_words_is_offered_by_its_name(theme: Theme, qtbot: QtBot) -> None:
    chooser = Chooser(theme)
    qtbot.addWidget(chooser)
    offered = [Choice("Door builds", ""), Choice("Hinges", "")]
    chooser.show_choices([(choice.value, choice.word) for choice in offered], named=False)
    assert [chooser.itemText(n) for n in range(chooser.count())] == ["Door builds", "Hinges"]


def test_after_sheets_were_printed_the_keys_go_on_from_where_they_were(kitchen: MainWindow) -> None:
    assert kitchen.view is not None
    kitchen.view.open_chapter("sheets")
    page = kitchen.view.sheets_page
    assert page is not None
    keys = [line.key for line in kitchen.view.sheets()]
    for _ in range(3):
        QTest.keyClick(page.list, Qt.Key.Key_Down)
    kitchen.view.sheets_are_out(keys[:4])
    assert page.list.keys() == [keys[3]]
    QTest.keyClick(page.list, Qt.Key.Key_Down)
    assert page.list.keys() == [keys[4]]
