"""Lists are saved and taken in through the menu; what is wrong with one is said at the bottom."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from frontwright.store import create
from frontwright.window import dialogs
from frontwright.window.main_window import MainWindow
from frontwright.window.theme import Theme
from openpyxl import load_workbook
from pytestqt.qtbot import QtBot


@pytest.fixture
def window(qtbot: QtBot, theme: Theme, tmp_path: Path) -> Iterator[MainWindow]:
    path = tmp_path / "job.frontwright"
    create(path, job_from_json(resource("samples", "laundry-pair.json").read_text("utf-8"))).close()
    made = MainWindow(theme)
    made.show()
    assert made.open_job(path)
    yield made
    made.close()
    made.deleteLater()


def test_all_lists_go_into_a_workbook(window: MainWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(dialogs, "place_for_lists", lambda _parent, _suggested: tmp_path / "all.xlsx")
    window.act_lists.trigger()
    assert "parts" in load_workbook(tmp_path / "all.xlsx").sheetnames
    assert window.status.left.text() == "all.xlsx is written"


def test_of_csv_the_list_that_is_asked_for(window: MainWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(dialogs, "place_for_lists", lambda _parent, _suggested: tmp_path / "pull.csv")
    monkeypatch.setattr(dialogs, "choose", lambda *_: None)
    window.act_lists.trigger()
    assert not (tmp_path / "pull.csv").exists()
    monkeypatch.setattr(dialogs, "choose", lambda *_: "pull")
    window.act_lists.trigger()
    assert (tmp_path / "pull.csv").read_text("utf-8-sig").startswith("shelf,piece,")


def test_a_list_taken_in_is_a_step_that_undo_takes_back(
    window: MainWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(dialogs, "list_to_take_in", lambda _parent, _folder: tmp_path / "is.csv")
    assert window.view is not None
    session = window.view.session
    (tmp_path / "is.csv").write_text("part,is width\nDA-S,2 1/\n")
    window.act_take_in.trigger()
    assert window.status.left.text().startswith("is.csv: Row 2, column is width: “2 1/” is no length")
    assert not session.job.as_built
    (tmp_path / "is.csv").write_text("part,is width\nDA-S,2 1/4\n")
    window.act_take_in.trigger()
    assert [row.of for row in session.job.as_built.values()] == ["DA-S"]
    assert session.undo_name == "take in a parts list"
    session.undo()
    assert not session.job.as_built
