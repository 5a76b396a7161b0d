"""A job's rows in the order of the work, its readings that count, its looks from near to far."""

from __future__ import annotations

import pytest
from frontwright.core.job import Cabinet, Column, Heading, Job, Opening, Reading, Room, Run, Shop, Table
from frontwright.core.job.index import JobIndex, natural
from frontwright.core.lengths import Length
from job_builder import Made, job


def test_names_sort_by_their_numbers() -> None:
    assert sorted(["F10", "F2", "F1", "E3", "F2R", "F2L"], key=natural) == ["E3", "F1", "F2", "F2L", "F2R", "F10"]


def test_a_reading_taken_again_counts_and_struck_unread_and_blank_ones_do_not() -> None:
    made = job().read("A", "width", "400", "middle").read("A", "width", "401", "middle")
    made = made.read("A", "width", "999", "middle", struck=True).read("A", "width", "4o2", "middle")
    reading = JobIndex(made.job).readings["A", "width", "middle"]
    assert reading.value is not None
    assert reading.value.value == Length.mm(401)


def test_uprights_stand_by_their_place_then_by_their_name() -> None:
    made = (
        job()
        .run("K", S0=None, C1=None, S1=None)
        .put(Column, "C10", place=3, run="K")
        .put(Column, "C2", place=3, run="K")
    )
    assert [item.id for item in JobIndex(made.job).uprights("K")] == ["S0", "C1", "C2", "C10", "S1"]


def nested() -> Made:
    made = (
        job().put(Run, "K", room="room").put(Cabinet, "box", run="K").put(Column, "C", run="K", place=1, cabinet="box")
    )
    return made.put(Opening, "A", column="C").look(gap="2")


@pytest.mark.parametrize(("level", "gap"), [("run:K", 3), ("cabinet:box", 4), ("opening:A", 5)])
def test_the_nearest_look_goes_first(level: str, gap: int) -> None:
    made = nested().look(level, gap=str(gap))
    value = JobIndex(made.job).inherited("A", "gap")
    assert value == made.job.looks[level].gap


def test_a_look_that_says_nothing_readable_is_passed_over() -> None:
    made = nested().look("run:K", gap="x").look("opening:A", gap="")
    assert JobIndex(made.job).inherited("A", "gap") == made.job.looks["room:room"].gap


def test_an_opening_of_no_column_has_only_its_own_look() -> None:
    made = nested().put(Opening, "B", column="lost").look("opening:B", gap="7")
    assert JobIndex(made.job).scopes("B") == [("opening", "B")]
    assert JobIndex(made.job).inherited("B", "gap") == made.job.looks["opening:B"].gap


def test_runs_stand_in_the_order_of_their_rooms() -> None:
    rows = (
        Room("b", place=2),
        Room("a", place=1),
        Run("2", "b", place=1),
        Run("10", "a", place=2),
        Run("1", "a", place=1),
    )
    assert [run.id for run in JobIndex(Job().put(*rows)).runs] == ["1", "10", "2"]


def test_a_table_is_equal_to_one_of_the_same_rows_in_another_order() -> None:
    one, two = Run("1", "r"), Run("2", "r")
    assert Table([one, two]) == Table([two, one])
    assert Table([one]) != Table([two])
    assert Table([one]).put(Run("1", "s"))["1"].room == "s"
    assert list(Table([one, two]).drop("1", "none")) == ["2"]


def test_a_job_is_not_changed_by_what_is_made_of_it() -> None:
    first = Job().put(Run("1", "r"))
    second = first.put(Run("2", "r")).drop(Run, "1")
    assert (list(first.runs), list(second.runs)) == (["1"], ["2"])
    assert first.heading == Heading()


def test_rows_go_into_the_table_of_their_class_and_into_no_other() -> None:
    assert Job.table_of(Reading) == "readings"
    with pytest.raises(KeyError):
        Shop.table_of(Reading)
