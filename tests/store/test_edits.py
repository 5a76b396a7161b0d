"""Edits, undo and redo: named, unlimited, kept over closing; a failed or empty edit leaves nothing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from frontwright.core.job import Job, Opening, Reading, Room
from frontwright.core.lengths import typed
from frontwright.store import StoreError, create, open_job
from frontwright.store.files import JobFile


def width(text: str, reading: str = "O1 width") -> Callable[[Job], Job]:
    return lambda job: job.put(replace(job.readings[reading], value=typed(text, "in")))


def said(file: JobFile, reading: str = "O1 width") -> str | None:
    value = file.job.readings[reading].value
    return value.text if value else None


def drop_opening(job: Job) -> Job:
    return job.drop(Reading, "O2 width").drop(Opening, "O2")


EDITS: dict[str, Callable[[Job], Job]] = {
    "a field": width("24"),
    "a field emptied": lambda job: job.put(replace(job.readings["O1 width"], value=None)),
    "a row more": lambda job: job.put(Opening("O3", column="C1", place=3)),
    "a row less": drop_opening,
    "rows more, less and other": lambda job: width("24")(drop_opening(job)).put(Room("S"), Opening("O4", column="C1")),
    "a row less and again": lambda job: drop_opening(job).put(Opening("O2", column="C1", note="again")),
    "the heading": lambda job: job.put(replace(job.heading, name="Another", unit="mm")),
    "the heading dropped": lambda job: job.drop(type(job.heading), "job"),
}


@pytest.mark.parametrize("name", EDITS)
def test_undo_equals_before_and_redo_equals_after(file: JobFile, job: Job, name: str) -> None:
    after = file.apply(name, EDITS[name])
    assert after == EDITS[name](job) != job
    assert (file.can_undo, file.can_redo) == (name, None)
    assert file.undo() == job
    assert (file.can_undo, file.can_redo) == (None, name)
    assert file.redo() == after == file.job


@pytest.mark.parametrize("name", EDITS)
def test_what_is_in_memory_is_what_stands_in_the_file(file: JobFile, path: Path, name: str) -> None:
    file.apply(name, EDITS[name])
    file.apply("another", lambda job: job.put(Room("T"), Opening("O9", column="C1", place=9)))
    file.close()
    for go in ("job", "undo", "undo", "redo", "redo"):
        with open_job(path) as one:
            held = one.job if go == "job" else getattr(one, go)()
        with open_job(path) as other:
            assert other.job == held
            assert order(other.job) == order(held)


def order(job: Job) -> list[list[str]]:
    return [list(getattr(job, table)) for table in Job.kinds()]


def test_undo_goes_back_to_the_first_edit_after_closing(file: JobFile, path: Path, job: Job) -> None:
    for number in range(30):
        file.apply(f"width {number}", width(str(number + 1)))
    file.close()
    with open_job(path) as again:
        assert again.steps == tuple(f"width {number}" for number in range(30))
        while again.can_undo:
            again.undo()
        assert again.job == job
    with open_job(path) as again:
        assert again.can_redo == "width 0"
        while again.can_redo:
            again.redo()
        assert said(again) == "30"


def test_a_row_that_came_back_by_undo_is_not_overwritten_by_a_new_one(file: JobFile, path: Path) -> None:
    file.apply("less", drop_opening)
    file.close()
    with open_job(path) as again:
        again.undo()
        again.apply("more", lambda job: job.put(Opening("O3", column="C1")))
        assert list(again.job.openings) == ["O1", "O2", "O3"]
    with open_job(path) as again:
        assert list(again.job.openings) == ["O1", "O2", "O3"]


def test_an_edit_after_undo_ends_what_could_be_done_again(file: JobFile, path: Path) -> None:
    for text in ("24", "25", "26"):
        file.apply(text, width(text))
    file.undo()
    file.undo()
    file.apply("30", width("30"))
    assert (file.steps, file.can_redo) == (("24", "30"), None)
    file.close()
    with open_job(path) as again:
        assert (again.steps, again.can_redo) == (("24", "30"), None)


def test_an_edit_that_changes_nothing_makes_no_step_and_changes_no_byte(path: Path, job: Job) -> None:
    create(path, job).close()
    before = path.read_bytes()
    with open_job(path) as file:
        step = file.step
        assert file.apply("nothing", lambda job: job) == job
        assert file.apply("the same again", width("23 5/8")) == job
        assert (file.can_undo, file.step) == (None, step)
    assert path.read_bytes() == before
    assert [one.name for one in path.parent.iterdir()] == [path.name]


def test_an_edit_that_raises_leaves_nothing(file: JobFile, path: Path, job: Job) -> None:
    def fails(job: Job) -> Job:
        width("24")(job)
        raise RuntimeError("half way")

    with pytest.raises(RuntimeError, match="half way"):
        file.apply("fails", fails)
    assert (file.job, file.can_undo) == (job, None)
    file.apply("next", width("25"))
    file.close()
    with open_job(path) as again:
        assert again.steps == ("next",)


def test_an_edit_that_leaves_a_row_naming_one_that_is_gone_is_refused_by_name(file: JobFile, job: Job) -> None:
    with pytest.raises(StoreError, match="readings “O2 width”: of is “O2”"):
        file.apply("drops an opening but not its readings", lambda job: job.drop(Opening, "O2"))
    with pytest.raises(StoreError, match="openings “O3”: column is “C7”"):
        file.apply("names a column that is not there", lambda job: job.put(Opening("O3", column="C7")))
    assert (file.job, file.can_undo) == (job, None)


def test_a_new_job_with_a_row_naming_one_that_is_not_there_is_not_made(path: Path) -> None:
    with pytest.raises(StoreError, match="column is “C7”"):
        create(path, Job().put(Opening("O3", column="C7")))
    assert not list(path.parent.iterdir())


def test_edits_of_one_field_in_a_row_are_one_step(file: JobFile, path: Path, job: Job) -> None:
    for text in ("2", "24", "24 1", "24 1/2"):
        file.apply(f"width: {text}", width(text), field="O1 width")
    assert file.steps == ("width: 24 1/2",)
    file.close()
    with open_job(path) as again:
        assert again.undo() == job
        assert said(again) == "23 5/8"
        again.redo()
        assert said(again) == "24 1/2"


def test_edits_of_different_fields_are_different_steps(file: JobFile) -> None:
    file.apply("one", width("24"), field="O1 width")
    file.apply("other", width("24", "O2 width"), field="O2 width")
    file.apply("one again", width("25"), field="O1 width")
    assert file.steps == ("one", "other", "one again")


def test_an_edit_of_no_field_stands_by_itself(file: JobFile) -> None:
    file.apply("one", width("24"))
    file.apply("two", width("25"))
    assert file.steps == ("one", "two")


def test_typing_does_not_join_what_was_typed_before_an_undo(file: JobFile) -> None:
    file.apply("first", width("24"), field="O1 width")
    file.undo()
    file.redo()
    file.apply("second", width("25"), field="O1 width")
    assert list(file.steps) == ["first", "second"]


def test_typing_does_not_join_what_was_typed_in_an_earlier_sitting(file: JobFile, path: Path) -> None:
    file.apply("first", width("24"), field="O1 width")
    file.close()
    with open_job(path) as again:
        again.apply("second", width("25"), field="O1 width")
        assert again.steps == ("first", "second")


def test_typing_back_to_what_stood_there_leaves_no_step(file: JobFile, path: Path, job: Job) -> None:
    file.apply("other", width("30", "O2 width"))
    file.apply("typing", width("2"), field="O1 width")
    file.apply("typing", width("23 5/8"), field="O1 width")
    assert file.steps == ("other",)
    file.apply("typing", width("24"), field="O1 width")
    assert list(file.steps) == ["other", "typing"]
    file.close()
    with open_job(path) as again:
        again.undo()
        assert again.undo() == job


def test_typing_that_adds_a_row_is_taken_back_with_it(file: JobFile, job: Job) -> None:
    file.apply("new", lambda job: job.put(Reading("r", of="O1", what="height")), field="r")
    file.apply("new", lambda job: job.put(Reading("r", of="O1", what="height", value=typed("30", "in"))), field="r")
    assert file.steps == ("new",)
    assert file.undo() == job
    value = file.redo().readings["r"].value
    assert value is not None
    assert value.text == "30"


def test_undo_with_nothing_to_take_back_changes_nothing(file: JobFile, job: Job) -> None:
    step = file.step
    assert file.undo() == file.redo() == job
    assert file.step == step


def test_the_step_number_grows_with_each_change_back_and_forth(file: JobFile) -> None:
    seen = [file.step]
    file.apply("a", width("24"))
    seen.append(file.step)
    for go in (file.undo, file.redo):
        go()
        seen.append(file.step)
    assert seen == sorted(set(seen))


def test_rows_stand_in_the_order_of_entry_whatever_was_undone(file: JobFile) -> None:
    file.apply("less", lambda job: job.drop(Reading, "O1 width"))
    file.apply("more", lambda job: job.put(Reading("O1 height", of="O1", what="height")))
    file.undo()
    file.undo()
    assert list(file.job.readings) == ["O1 width", "O2 width"]


def test_a_draft_is_kept_over_closing_and_outside_undo(file: JobFile, path: Path) -> None:
    file.keep_draft("O1 width", "23 5/")
    file.keep_draft("note", "a pasted page " * 1000)
    file.keep_draft("O1 width", "23 5/1")
    assert file.can_undo is None
    file.close()
    with open_job(path) as again:
        assert again.drafts() == {"O1 width": "23 5/1", "note": "a pasted page " * 1000}
        again.drop_draft("O1 width")
        again.drop_draft("never there")
        assert list(again.drafts()) == ["note"]


def test_a_draft_of_more_than_20000_characters_is_refused(file: JobFile) -> None:
    file.keep_draft("note", "x" * 20_000)
    with pytest.raises(StoreError, match="20,001 characters are more than the 20,000"):
        file.keep_draft("note", "x" * 20_001)
    assert len(file.drafts()["note"]) == 20_000
