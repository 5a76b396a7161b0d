"""What a job means to do on the rack is kept with its step, and goes with it back and forth."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from frontwright.core.job import Job, Move, Room
from frontwright.core.stock.rack import RackMove
from frontwright.store import StoreError, create, open_job
from frontwright.store.files import JobFile


def move(name: str) -> RackMove:
    return RackMove(Move(name, "reserve", "L-01", job="J"))


def noted(text: str) -> Job:
    return Job().put(replace(Job().heading, note=text))


def note(file: JobFile, text: str, *moves: str, field: str | None = None) -> None:
    outbox = [move(name) for name in moves]
    file.apply(text, lambda job: job.put(replace(job.heading, note=text)), field, outbox=outbox)


def test_the_step_and_what_it_means_to_do_are_kept_together(path: Path) -> None:
    with create(path, Job()) as file:
        note(file, "one", "a", "b")
    with open_job(path) as file:
        (intent,) = file.intents()
        assert (intent.step, intent.way, [one.id for one in intent.moves]) == (1, "done", ["a", "b"])
        file.confirm("a", "b")
        assert file.intents() == ()


def test_a_step_that_cannot_be_kept_means_to_do_nothing(path: Path) -> None:
    with create(path, Job()) as file:
        with pytest.raises(StoreError, match="cannot be kept in a file"):
            file.apply("half", lambda job: job.put(Room("\ud83d")), outbox=[move("a")])
        assert file.intents() == ()


def test_a_step_with_moves_is_a_step_even_if_no_row_of_the_job_changes(path: Path) -> None:
    with create(path, Job()) as file:
        file.apply("nothing here", lambda job: job, outbox=[move("a")])
        assert file.steps == ("nothing here",)


def test_edits_of_one_field_with_moves_are_steps_of_their_own(path: Path) -> None:
    with create(path, Job()) as file:
        note(file, "1", "a", field="note")
        note(file, "12", "b", field="note")
        note(file, "123", field="note")
        assert file.steps == ("1", "12", "123")


def test_undo_and_redo_mean_to_take_back_each_move_last_first(path: Path) -> None:
    with create(path, Job()) as file:
        note(file, "one", "a", "b")
        file.confirm("a", "b")
        assert file.carries(back=True)
        file.undo()
        (undone,) = file.intents()
        assert (undone.way, [one.line.undoes for one in undone.moves]) == ("undone", ["b", "a"])
        assert {one.line.kind for one in undone.moves} == {"take back"}
        file.confirm(*(one.id for one in undone.moves))
        assert file.carries(back=False)
        file.redo()
        (again,) = file.intents()
        assert [one.line.undoes for one in again.moves] == [one.id for one in reversed(undone.moves)]


@pytest.mark.parametrize("reopened", [False, True])
def test_what_the_rack_refuses_leaves_the_job_as_it_was(path: Path, reopened: bool) -> None:
    file = create(path, Job())
    note(file, "before")
    note(file, "one", "a")
    if reopened:
        file.close()
        file = open_job(path)
    (intent,) = file.intents()
    assert file.take_back(intent)
    assert (file.job, file.can_undo, file.can_redo, file.intents()) == (noted("before"), "before", None, ())
    note(file, "after")
    file.close()
    with open_job(path) as again:
        assert again.steps == ("before", "after")
        assert again.undo() == noted("before")


def test_an_undo_that_the_rack_refuses_leaves_the_step_done_and_it_can_be_tried_again(path: Path) -> None:
    with create(path, Job()) as file:
        note(file, "one", "a", "b")
        file.confirm("a", "b")
        for _ in range(2):
            file.undo()
            (intent,) = file.intents()
            assert [one.line.undoes for one in intent.moves] == ["b", "a"]
            assert file.take_back(intent)
            assert (file.job, file.can_undo, file.can_redo) == (noted("one"), "one", None)


def test_a_redo_that_the_rack_refuses_leaves_the_step_undone(path: Path) -> None:
    with create(path, Job()) as file:
        note(file, "one", "a")
        file.undo()
        first = file.intents()[0].moves + file.intents()[-1].moves
        file.confirm(*(one.id for one in first))
        file.redo()
        (intent,) = file.intents()
        assert file.take_back(intent)
        assert (file.job, file.can_undo, file.can_redo) == (Job(), None, "one")


def test_a_step_that_others_came_after_goes_back_by_a_step_of_its_own(path: Path) -> None:
    with create(path, Job()) as file:
        note(file, "one", "a")
        file.apply("room", lambda job: job.put(Room("K")))
        assert file.take_back(file.intents()[0])
        assert file.job == Job().put(Room("K"))
        assert file.steps == ("one", "room", "take back: one")
        assert file.intents() == ()
        file.undo()
        assert file.intents() == ()


def test_a_step_whose_rows_others_changed_since_stays(path: Path) -> None:
    with create(path, Job()) as file:
        note(file, "one", "a")
        note(file, "two")
        assert not file.take_back(file.intents()[0])
        assert file.job == noted("two")
        assert len(file.intents()) == 1


def test_a_job_keeps_its_mark_wherever_its_file_stands_and_no_two_have_the_same(path: Path, tmp_path: Path) -> None:
    with create(path, Job()) as file, create(tmp_path / "other", Job()) as other:
        mark = file.mark
        assert other.mark != mark
        file.copy_to(tmp_path / "copy")
    path.rename(tmp_path / "moved")
    with open_job(tmp_path / "moved") as moved, open_job(tmp_path / "copy") as copy:
        assert (moved.mark, copy.mark) == (mark, mark)
