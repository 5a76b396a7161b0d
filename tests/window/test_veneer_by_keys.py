"""Slices read at the bench's pace: one thickness, Enter, what is left, Enter, and the next slice."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from frontwright.store import create
from frontwright.window.main_window import MainWindow
from frontwright.window.theme import Theme
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

SLICES = (("1/8", "1 31/64"), ("9/64", "1 13/64"), ("1/8", "61/64"))


@pytest.fixture
def window(qtbot: QtBot, theme: Theme, tmp_path: Path) -> Iterator[MainWindow]:
    """The laundry pair with its billets entered, the Veneer page open."""
    path = tmp_path / "job.frontwright"
    create(path, job_from_json(resource("samples", "laundry-pair.json").read_text("utf-8"))).close()
    made = MainWindow(theme)
    made.resize(1280, 800)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    assert made.open_job(path)
    assert made.view is not None
    made.view.session.act("enter-billets")
    made.view.open_chapter("veneer")
    QApplication.processEvents()
    yield made
    made.close()
    made.deleteLater()


def type_in(text: str) -> None:
    for letter in text:
        focused = QApplication.focusWidget()
        assert focused is not None
        QTest.keyClicks(focused, letter)
    focused = QApplication.focusWidget()
    assert focused is not None
    QTest.keyClick(focused, Qt.Key.Key_Return)
    QApplication.processEvents()


def test_two_figures_and_two_enters_read_a_slice_and_stand_on_the_next(window: MainWindow) -> None:
    view = window.view
    assert view is not None
    page = view.page
    assert page is not None
    assert page.stand_on("leaves/A1/thick_1")
    for at, (thick, left) in enumerate(SLICES, 1):
        assert page.current_key == f"leaves/A{at}/thick_1"
        type_in(thick)
        assert page.current_key == f"leaves/A{at}/left"
        type_in(left)
    assert page.current_key == "leaves/A4/thick_1"
    leaves = view.session.job.leaves
    assert [(leaf.thick_1 and leaf.thick_1.text, leaf.left and leaf.left.text) for leaf in leaves.values()] == [*SLICES]
    assert any("A6 will be missing" in one.sentence for one in view.session.page("veneer").findings)


def test_a_letter_in_the_state_of_a_leaf_spoils_it(window: MainWindow) -> None:
    view = window.view
    assert view is not None
    page = view.page
    assert page is not None
    assert page.stand_on("leaves/A1/state")
    focused = QApplication.focusWidget()
    assert focused is not None
    QTest.keyClicks(focused, "s")
    assert view.session.job.leaves["A1"].state == "spoiled"


def test_a_figure_typed_on_after_the_last_slice_touches_no_saw(window: MainWindow) -> None:
    view = window.view
    assert view is not None
    page = view.page
    assert page is not None
    last = next(plan for plan in view.session.plan.veneer.plans if plan.id == "A").slices[-1].id
    kerfs = [one.kerf for one in view.session.job.machines.values()]
    assert page.stand_on(f"leaves/{last}/left")
    type_in("15/64")
    assert page.current_key == f"leaves/{last}/state"
    type_in("1/8")
    assert [one.kerf for one in view.session.job.machines.values()] == kerfs
