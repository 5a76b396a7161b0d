"""The Facing page: pieces in gluing order, what is chosen, trim added and taken out, bad input told in one sentence."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from frontwright.core.drawing.marks import Label
from frontwright.core.job import Job
from frontwright.desk.contents import Form, Table
from frontwright.desk.order import cells
from frontwright.desk.session import Session

Opener = Callable[[Job | str], Session]


@pytest.fixture
def kitchen(open_session: Opener) -> Session:
    return open_session("kitchen-run")


def table(session: Session, key: str) -> Table:
    page = session.page("facing", "K")
    return next(block for band in page.bands for block in band if isinstance(block, Table) and block.key == key)


def form(session: Session, key: str) -> Form:
    page = session.page("facing", "K")
    return next(block for band in page.bands for block in band if isinstance(block, Form) and block.key == key)


def test_the_pieces_stand_in_gluing_order_the_skin_first(kitchen: Session) -> None:
    rows = table(kitchen, "pieces").rows
    assert len(rows) == 26
    said = [[cell.text for cell in row.cells if cell.kind == "words"] for row in rows]
    assert said[0][:2] == ["1", "right skin"]
    assert [line[0] for line in said] == [str(number) for number in range(1, 27)]
    assert "edge of 1" in next(line for line in said if line[1] == "S6")
    assert kitchen.page("facing", "K").advice == "26 pieces in gluing order, 25 strips from 6 leaves"


def test_a_run_that_stays_bare_begins_with_the_question_whether_its_faces_are_covered(kitchen: Session) -> None:
    kitchen.enter("ends/K right/skin", "none")
    kitchen.enter("facings/K/faces", "no")
    page = kitchen.page("facing", "K")
    assert page.start == "facings/K/faces"
    assert page.advice == "Nothing is covered yet"


def test_trim_is_added_and_taken_out_again_each_in_one_edit(kitchen: Session) -> None:
    assert kitchen.act("add-trim/K/toe kick").problem == ""
    assert table(kitchen, "trim").rows[0].subject == "K toe kick"
    assert any(piece.kind == "toe kick" for piece in kitchen.plan.facing.pieces)
    kitchen.undo()
    assert not kitchen.job.trims
    assert kitchen.act("add-trim/K/roof").problem != ""


@pytest.mark.parametrize(
    ("place", "text"),
    [
        ("facings/K/thickness", "-2"),
        ("facings/K/inside_thickness", "0"),
        ("ends/K right/skin_thickness", "-6"),
        ("facings/K/thickness", "200"),
    ],
)
def test_a_thickness_that_cannot_be_is_refused_with_its_name_and_what_was_typed_is_kept(
    kitchen: Session, place: str, text: str
) -> None:
    kitchen.act("new/adhesives")
    before = kitchen.job
    outcome = kitchen.enter(place, text)
    assert outcome.problem.endswith(".")
    assert kitchen.job == before
    shown = next(cell for cell in cells(kitchen.page("facing", "K")) if cell.key == place)
    assert (shown.text, shown.unread) == (text, True)


def test_what_the_covering_does_is_said(kitchen: Session) -> None:
    kitchen.enter("facings/K/inside_edges", "sides")
    said = {line.label: line.cell.text for line in form(kitchen, "does").lines}
    assert said["inside edges"] == "12 openings smaller"
    assert said["packing behind drawer fronts"].startswith("2 behind")


def test_an_adhesive_that_does_not_hold_is_changed_by_its_button(kitchen: Session) -> None:
    kitchen.act("new/adhesives")
    kitchen.enter("adhesives/adhesive 1/kind", "wood glue")
    kitchen.enter("facings/K/adhesive", "adhesive 1")
    (stop,) = [f for f in kitchen.page("facing", "K").findings if f.level == "stop"]
    assert "does not hold" in stop.sentence
    kitchen.act(stop.ways[-1].key)
    assert not [f for f in kitchen.page("facing", "K").findings if f.level == "stop"]


def test_the_leaves_say_how_much_of_their_width_the_strips_take(kitchen: Session) -> None:
    rows = table(kitchen, "strip leaves").rows
    assert len(rows) == len(kitchen.plan.veneer.nests) == 6
    bars = [cell.bar for row in rows for cell in row.cells if cell.bar is not None]
    assert len(bars) == 6
    assert all(0 < used <= whole for used, _, whole in bars)
    assert sum(row.cells[-1].text.count("K ") for row in rows) == 25
    assert rows[0].cells[0].text == "strips 1"


def test_the_letters_of_the_edge_sections_stand_in_the_elevation(kitchen: Session) -> None:
    board = kitchen.page("facing", "K").board
    assert board is not None
    labels = [mark for mark in board.drawings[0].marks if isinstance(mark, Label)]
    said = {str(part) for label in labels for line in label.choices[0].lines for part in line.parts}
    assert {"A", "B"} <= said
