"""The board: it plays what was laid, shows what is selected, and is walked by mouse and arrow keys."""

from functools import cache

import pytest
from frontwright.core.drawing.door import door
from frontwright.core.drawing.elevation import elevation
from frontwright.core.drawing.section import section
from frontwright.core.drawing.survey_opening import opening_as_read
from frontwright.core.drawing.survey_run import survey_run
from frontwright.core.plan import Plan, derive
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from frontwright.window.canvas import Board
from frontwright.window.theme import Mode, Theme
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot


@cache
def planned(name: str) -> Plan:
    return derive(job_from_json(resource("samples", f"{name}.json").read_text(encoding="utf-8")))


@pytest.fixture
def board(qtbot: QtBot) -> Board:
    """The kitchen's elevation, as wide as the page at 1280."""
    made = Board(Theme("light"))
    qtbot.addWidget(made)
    made.resize(1104, 312)
    made.set_drawings([elevation(planned("kitchen-run"), "K")])
    return made


def place(board: Board, subject: str) -> QPoint:
    found = board.place_of(subject)
    assert found is not None
    return found.toPoint()


def colours(image: QImage) -> set[str]:
    return {image.pixelColor(x, y).name() for x in range(0, image.width(), 2) for y in range(0, image.height(), 2)}


def test_a_click_chooses_the_front_under_it(board: Board, qtbot: QtBot) -> None:
    with qtbot.waitSignal(board.chosen) as told:
        QTest.mouseClick(board, Qt.MouseButton.LeftButton, pos=place(board, "F7R") + QPoint(0, 60))
    assert told.args == ["F7R"]
    assert board.selected == "F7R"


def test_a_click_beside_the_drawing_chooses_nothing(board: Board, qtbot: QtBot) -> None:
    QTest.mouseClick(board, Qt.MouseButton.LeftButton, pos=QPoint(8, 290))
    assert board.selected == ""


def test_selecting_from_outside_tells_nobody(board: Board, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(board.chosen):
        board.set_selected("F5")
    assert board.accessibleDescription() == "F5 selected"


def test_arrow_keys_walk_from_front_to_front(board: Board, qtbot: QtBot) -> None:
    board.set_selected("F5")
    walked = []
    for key in (Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Left, Qt.Key.Key_Down):
        QTest.keyClick(board, key)
        walked.append(board.selected)
    assert walked == ["F7L", "F7R", "F6", "F4", "F5"]


def test_an_arrow_key_with_nothing_selected_starts_at_the_upper_left(board: Board, qtbot: QtBot) -> None:
    QTest.keyClick(board, Qt.Key.Key_Right)
    assert board.selected == "F1"


def test_every_front_can_be_reached_by_arrow_keys(board: Board, qtbot: QtBot) -> None:
    seen, todo = {"F1"}, ["F1"]
    while todo:
        start = todo.pop()
        for key in (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down):
            board.set_selected(start)
            QTest.keyClick(board, key)
            if board.selected not in seen:
                seen.add(board.selected)
                todo.append(board.selected)
    assert seen == {f.id for f in planned("kitchen-run").fronts.fronts.values() if f.run == "K"}


def test_the_selected_front_is_outlined_in_the_blue_pencil(board: Board) -> None:
    theme = Theme("light")
    blue = theme.palette.blue.name()
    assert blue not in colours(board.grab().toImage())
    board.set_selected("F7R")
    assert blue in colours(board.grab().toImage())


def test_the_focus_frame_is_blue(board: Board, qtbot: QtBot) -> None:
    board.show()
    board.activateWindow()
    board.setFocus()
    qtbot.waitUntil(board.hasFocus)
    assert board.grab().toImage().pixelColor(0, 100).name() == Theme("light").palette.blue.name()


@pytest.mark.parametrize("mode", ["light", "dark"])
def test_paper_ink_and_wood_come_from_the_palette(qtbot: QtBot, mode: Mode) -> None:
    theme = Theme(mode)
    board = Board(theme)
    qtbot.addWidget(board)
    board.resize(900, 300)
    board.set_drawings([elevation(planned("kitchen-run"), "K")])
    palette = theme.palette
    assert {palette.paper.name(), palette.ink.name(), palette.wood.name()} <= colours(board.grab().toImage())


def test_the_frame_and_the_fronts_grow_with_the_theme(board: Board, qtbot: QtBot) -> None:
    small = board.height_for(1104)
    twice = Board(Theme("light", 2.0))
    qtbot.addWidget(twice)
    twice.set_drawings(board.drawings)
    assert twice.height_for(1104) > small


def test_a_second_drawing_lies_under_the_first_and_both_can_be_chosen(qtbot: QtBot) -> None:
    board = Board(Theme("light"))
    qtbot.addWidget(board)
    board.resize(452, 552)
    plan = planned("laundry-pair")
    board.set_drawings([survey_run(plan, "R1"), opening_as_read(plan, "OB")], "OB")
    assert place(board, "OA").y() < 300
    QTest.mouseClick(board, Qt.MouseButton.LeftButton, pos=place(board, "OA"))
    assert board.selected == "OA"


def test_parts_of_a_door_can_be_chosen(qtbot: QtBot) -> None:
    board = Board(Theme("dark"))
    qtbot.addWidget(board)
    board.resize(462, 564)
    plan = planned("kitchen-run")
    drawings = [door(plan, "F7R"), section(plan, "F7R")]
    board.set_drawings([drawing for drawing in drawings if drawing is not None])
    QTest.mouseClick(board, Qt.MouseButton.LeftButton, pos=place(board, "F7R-RT"))
    assert board.selected == "F7R-RT"


def test_a_board_without_drawings_is_an_empty_frame(qtbot: QtBot) -> None:
    board = Board(Theme("light"))
    qtbot.addWidget(board)
    board.resize(300, 200)
    assert board.grab().toImage().pixelColor(150, 100).name() == Theme("light").palette.paper.name()
    QTest.keyClick(board, Qt.Key.Key_Right)
    assert board.selected == ""


@pytest.mark.parametrize("size", [(1, 1), (40, 30), (240, 140)])
def test_a_board_squeezed_to_almost_nothing_still_paints(board: Board, size: tuple[int, int]) -> None:
    board.resize(*size)
    image = board.grab().toImage()
    assert (image.width(), image.height()) == size
