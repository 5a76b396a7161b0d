"""Laying with the rack: own pieces, then free ones of the rack, then what is bought; reserved with the layouts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from frontwright.core.job import Job, Piece, Reservation, amount
from frontwright.core.lengths import typed
from frontwright.cutting.floor import floor_plan
from frontwright.desk.contents import Table
from frontwright.desk.keys import key
from frontwright.desk.laying import to_lay
from frontwright.desk.session import Session

Opener = Callable[[Job | str], Session]
BOARDS = "board white ash 0.75"


def board(name: str, sizes: tuple[str, str, str] = ("60", "6", "1"), **given: object) -> Piece:
    long, wide, thick = (typed(one, "in") for one in sizes)
    made = Piece(name, "board", "white ash", "AS4", long, wide, thick, moisture=amount("9"))
    return replace(made, **given)  # type: ignore[arg-type]


@pytest.fixture
def stocked(laundry: Session) -> Session:
    """The laundry pair, and boards on the rack: three that serve, one wet, one that another job counts on."""
    laundry.act("rack-take-in")
    for name in ("L-21", "L-22"):
        laundry.rack.come(board(name))
    laundry.rack.come(board("L-23", count=3))
    laundry.rack.come(board("L-24", moisture=amount("19")))
    laundry.rack.come(board("L-25"))
    held = laundry.rack._move("reserve", "L-25", rows=(Reservation("L-25", "other", "Maple Street"),))
    laundry.rack.make(replace(held, line=replace(held.line, job="other")))
    laundry.take_anew()
    laundry.lay.seconds = 2.0
    return laundry


def lay(session: Session, group: str = BOARDS) -> str:
    assert session.act(key("lay", "open", group)).problem == ""
    outcome = session.lay.finish()
    assert outcome.problem == ""
    return outcome.said


def on(session: Session) -> set[str]:
    return {one.laid.piece or "bought" for one in session.plan.stock.layouts if one.group == BOARDS}


def test_free_boards_of_the_rack_are_laid_on_before_a_board_is_bought_and_reserved_with_the_layouts(
    stocked: Session,
) -> None:
    before = stocked.job
    said = lay(stocked)
    taken = on(stocked)
    assert taken
    assert "bought" not in taken
    assert not taken & {"L-24", "L-25"}
    assert all(stocked.rack.rack.reservations[piece].job == stocked.rack.mark for piece in taken)
    assert all(one.valid for one in stocked.plan.stock.layouts)
    mine = {piece for piece in taken if piece in before.pieces}
    assert all((piece in said) is (piece not in mine) for piece in taken)
    taken -= mine
    note = next(line for line in stocked.page("cuts").findings if line.key == "taken")
    assert note.sentence.startswith("Taken from the rack: free")
    assert stocked.undo().problem == ""
    assert stocked.job == before
    assert not set(stocked.rack.rack.reservations) & taken
    assert stocked.redo().problem == ""
    assert on(stocked) == taken | mine
    assert taken <= set(stocked.rack.rack.reservations)


def test_of_alike_boards_only_so_many_as_are_laid_on_are_taken_under_a_name_of_their_own(laundry: Session) -> None:
    laundry.act("rack-take-in")
    laundry.rack.come(board("L-23", count=9))
    laundry.lay.seconds = 2.0
    laundry.take_anew()
    lay(laundry)
    (mine,) = on(laundry) - {"L-03"}
    assert mine != "L-23"
    count = sum(one.laid.piece == mine for one in laundry.plan.stock.layouts)
    assert laundry.rack.rack.pieces[mine].count == count
    assert laundry.rack.rack.pieces["L-23"].count == 9 - count


def test_own_boards_go_before_free_ones(stocked: Session) -> None:
    stocked.act(key("rack-reserve", "L-22"))
    lay(stocked)
    assert "L-22" in on(stocked)


def test_a_board_that_another_job_took_meanwhile_is_said_and_nothing_is_laid(stocked: Session) -> None:
    stocked.act(key("lay", "open", BOARDS))
    for name in ("L-21", "L-22", "L-23"):
        gone = stocked.rack._move("use up", name, count=stocked.rack.rack.pieces[name].count)
        stocked.rack.make(replace(gone, line=replace(gone.line, job="other")))
    before = stocked.job
    outcome = stocked.lay.finish()
    assert "used up: choose another piece" in outcome.problem
    assert stocked.job == before


def test_one_free_board_more_is_never_worse(stocked: Session) -> None:
    plan, wood = stocked.plan, stocked.rack.free_wood()
    bought = []
    for many in range(len(wood.pieces) + 1):
        (task,) = to_lay(plan, only=BOARDS, free=replace(wood, pieces=wood.pieces[:many]))
        found = floor_plan(task.order)
        assert found.whole
        bought.append(sum(one.copies for one in found.layouts if not task.order.stock[one.stock].have))
    assert bought == sorted(bought, reverse=True)
    assert bought[0] > bought[-1] == 0


def test_what_one_group_takes_is_not_there_for_the_next(stocked: Session) -> None:
    (task,) = to_lay(stocked.plan, only=BOARDS, free=stocked.rack.free_wood())
    less = task.without({"L-21": 1, "L-23": 2})
    left = {source.piece: stock.copies for stock, source in zip(less.order.stock, less.sources, strict=True)}
    assert "L-21" not in left
    assert left["L-23"] == 1


def fewer(session: Session) -> str:
    page = session.page("cuts")
    found = next(b for band in page.bands for b in band if isinstance(b, Table) and b.key == "fewer")
    return " ".join(cell.text for row in found.rows for cell in row.cells)


def test_that_fewer_cannot_be_is_kept_with_the_layouts_in_the_job(open_session: Opener, laundry: Session) -> None:
    lay(laundry, "core 0.1875")
    assert {one.laid.least for one in laundry.plan.stock.layouts} == {1}
    raised = {row.id: replace(row, least=0) for row in laundry.job.laid.values()}
    again = open_session(laundry.job.put(*raised.values()))
    assert " 1 0 1" in fewer(again)


def test_what_was_shown_is_silent_once_the_parts_have_changed(open_session: Opener, laundry: Session) -> None:
    lay(laundry, "core 0.1875")
    raised = [replace(row, least=0) for row in laundry.job.laid.values()]
    again = open_session(laundry.job.put(*raised))
    again.enter("door_builds/framed/stile", "2")
    assert " 1 0 1" not in fewer(again)
