"""Choices compared on the Fronts page: shown on asking, taken in one step, taken back by undo."""

from __future__ import annotations

from frontwright.desk.contents import Table
from frontwright.desk.session import Session


def tables(session: Session) -> dict[str, Table]:
    return {block.key: block for band in session.page("fronts").bands for block in band if isinstance(block, Table)}


def test_choices_are_held_side_by_side_when_asked_for_and_put_away_again(laundry: Session) -> None:
    assert "spreads" not in tables(laundry)
    laundry.act("compare")
    found = tables(laundry)
    assert {"spreads", "schemes"} <= set(found)
    board = laundry.page("fronts").board
    assert board is not None
    assert board.drawings[0].title == "choices side by side"
    laundry.act("compare")
    assert "spreads" not in tables(laundry)


def test_taking_a_choice_is_one_step_and_undo_takes_it_back(laundry: Session) -> None:
    before = laundry.job
    laundry.act("compare")
    actions = [action for table in ("spreads", "schemes") for action in tables(laundry)[table].actions]
    assert actions
    for action in actions:
        assert laundry.act(action.key).problem == ""
        assert laundry.job != before
        laundry.undo()
        assert laundry.job == before


def test_a_choice_that_is_not_there_is_refused_and_nothing_is_changed(laundry: Session) -> None:
    before = laundry.job
    assert "no choice" in laundry.act("take-look/R1/upside down").problem
    assert "no choice" in laundry.act("take-look/R9/inset").problem
    assert laundry.job == before
