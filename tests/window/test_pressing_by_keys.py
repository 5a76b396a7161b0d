"""A pressing at the glue bench, by keys and buttons: joined, too slow, halved, begun, read, planed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from frontwright.core.lengths import Length
from frontwright.desk.keys import key
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from frontwright.store import create
from frontwright.window.job_view import JobView
from frontwright.window.main_window import MainWindow
from frontwright.window.theme import Theme
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot


@pytest.fixture
def view(qtbot: QtBot, theme: Theme, tmp_path: Path) -> Iterator[JobView]:
    """The laundry pair on the first of its pressings."""
    path = tmp_path / "job.frontwright"
    create(path, job_from_json(resource("samples", "laundry-pair.json").read_text("utf-8"))).close()
    made = MainWindow(theme)
    made.resize(1280, 800)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    assert made.open_job(path)
    assert made.view is not None
    stand_on(made.view, "pressing 1")
    yield made.view
    made.close()
    made.deleteLater()


def stand_on(view: JobView, subject: str) -> None:
    view.session.page("veneer", subject)
    view.open_chapter("veneer")
    QApplication.processEvents()


def go(view: JobView, place: str) -> None:
    assert view.page is not None
    assert view.page.stand_on(place)
    QApplication.processEvents()


def press(named: Qt.Key) -> None:
    focused = QApplication.focusWidget()
    assert focused is not None
    QTest.keyClick(focused, named)
    QApplication.processEvents()


def type_in(text: str) -> None:
    for letter in text:
        letter_in(letter)
    press(Qt.Key.Key_Return)


def letter_in(letter: str) -> None:
    focused = QApplication.focusWidget()
    assert focused is not None
    QTest.keyClicks(focused, letter)


def current(view: JobView) -> str:
    assert view.page is not None
    return view.page.current_key


def words_of_ways(view: JobView, code: str) -> list[str]:
    found = [one for one in view.session.page("veneer").findings if one.key.startswith(code)]
    return [way.word for one in found for way in one.ways]


def test_without_the_helper_it_is_refused_and_the_button_brings_the_helper_back(view: JobView) -> None:
    go(view, "pressings/1/helper")
    press(Qt.Key.Key_Space)
    assert not view.session.job.pressings["1"].helper
    assert words_of_ways(view, "press-time")[0] == "Glue up with a helper: 6.83 min"
    line = next(one for one in view.session.page("veneer").findings if one.key.startswith("press-time"))
    view.act(line.ways[0].key)
    assert view.session.job.pressings["1"].helper
    assert words_of_ways(view, "press-time") == []


def test_two_panels_are_joined_laid_in_a_row_and_halved(view: JobView) -> None:
    view.act(key("join", "1", "2"))
    go(view, "pressings/1/lie")
    letter_in("i")
    assert view.session.job.pressings["1"].lie == "side by side"
    assert words_of_ways(view, "press-time")[0] == "Glue up in halves: 6.83 min"
    view.act(key("halve", "1"))
    assert [one.panels for one in view.session.job.pressings.values()] == [("DA-P",), ("DB-P",)]


def test_the_times_of_the_bottle_and_of_the_last_clamp_follow_each_other(view: JobView) -> None:
    go(view, "pressings/1/started")
    type_in("9:40")
    assert current(view) == "pressings/1/closed"
    type_in("9:47")
    row = view.session.job.pressings["1"]
    assert (row.started, row.closed) == ("9:40", "9:47")


def test_corners_and_passes_are_read_one_after_the_other_and_the_rabbet_follows(view: JobView) -> None:
    stand_on(view, "DA-P")
    go(view, "pressed_panels/DA-P/corner_1")
    for text in ("27/64", "27/64", "13/32", "27/64"):
        type_in(text)
    assert current(view) == "pressed_panels/DA-P/flatness"
    go(view, "plane_passes/DA-P pass 1/thickness")
    for at, text in enumerate(("25/64", "3/8", "23/64", "21/64"), 2):
        type_in(text)
        assert current(view) == f"plane_passes/DA-P pass {at}/thickness"
    faces = [one.face for one in view.session.job.plane_passes.values()]
    assert faces == ["show", "back", "show", "back"]
    fronts = view.session.plan.making.fronts
    depths = [made.chain.rabbet_depth for made in (fronts["DA"], fronts["DB"]) if made.chain is not None]
    assert [depth and depth.value for depth in depths] == [Length.inch("21/64"), Length.inch("11/32")]


def test_veneer_planed_thin_warns_and_thinner_stops(view: JobView) -> None:
    stand_on(view, "DA-P")
    go(view, "plane_passes/DA-P pass 1/thickness")

    def level() -> str:
        found = [one for one in view.session.page("veneer").findings if "of veneer is left" in one.sentence]
        return found[0].level if found else "ok"

    found = []
    for text in ("11/32", "9/32", "17/64", "1/4", "0.244", "0.238", "0.23"):
        type_in(text)
        found.append(level())
    assert found == sorted(found, key=("ok", "warn", "stop").index)
    assert {"warn", "stop"} <= set(found)


def test_the_helper_goes_and_comes_back_by_the_space_bar(view: JobView) -> None:
    go(view, "pressings/1/helper")
    found = []
    for _ in range(2):
        press(Qt.Key.Key_Space)
        found.append((view.session.job.pressings["1"].helper, view.session.plan.veneer.pressings[0].in_time))
    assert found == [(False, False), (True, True)]
    assert current(view) == "pressings/1/helper"


def test_a_panel_pressed_thick_is_left_so_and_measured_and_its_rabbet_alone_follows(view: JobView) -> None:
    stand_on(view, "DA-P")
    go(view, "pressed_panels/DA-P/corner_1")
    for _ in range(4):
        type_in("27/64")
    assert words_of_ways(view, "veneer-left") == [
        "Plane 5/64 off DA-P",
        "Leave it 23/64: measure it, the rabbet follows",
    ]
    go(view, "as_built/DA-P thickness/value")
    type_in("23/64")
    assert words_of_ways(view, "veneer-left") == []
    fronts = view.session.plan.making.fronts
    depths = [made.chain.rabbet_depth for made in (fronts["DA"], fronts["DB"]) if made.chain is not None]
    assert [depth and depth.value for depth in depths] == [Length.inch("23/64"), Length.inch("11/32")]


def test_a_panel_page_is_shown_from_its_top_where_it_holds_the_cell(view: JobView) -> None:
    stand_on(view, "DA-P")
    page = view.page
    assert page is not None
    first = next(iter(page.blocks.values()))
    go(view, "as_built/DA-P thickness/value")
    assert first.mapTo(page, QPoint(0, 0)).y() < 0
    go(view, "pressed_panels/DA-P/corner_1")
    assert first.visibleRegion().boundingRect() == first.rect()
