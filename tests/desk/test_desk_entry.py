"""What a cell takes, keeps unread, or refuses with one sentence; nothing typed is ever lost."""

from __future__ import annotations

import pytest
from frontwright.desk.contents import Cell
from frontwright.desk.order import cells
from frontwright.desk.session import Session

WIDTH = "readings/1/width/top"
IMPOSSIBLE = [
    (WIDTH, "0", "zero"),
    (WIDTH, "-541", "under zero"),
    (WIDTH, "59", "less than"),
    (WIDTH, "40 m", "30 m"),
    ("looks/run:K/gap", "0", "zero"),
    ("rooms/kitchen/moisture_high", "31", "between 0 and 30"),
    ("species/oak/density", "50", "between 100 and 1300"),
    ("pieces/K-01/count", "two", "whole number"),
    ("pieces/K-01/count", "-1", "whole number"),
    ("fronts/F5/hinge_side", "below", "left, right, top"),
    ("runs/K/by_itself", "perhaps", "yes or no"),
    ("front_rows/top row/fronts", "F1, F99", "F99"),
    ("looks/run:K/door_build", "unheard of", "unheard of"),
    ("headings/job/step", "0.3", "0.1"),
    ("headings/job/unit", "cubits", "inches or millimetres"),
    ("headings/job/name", "x" * 3000, "2000"),
    ("members/S3/id", "", "1 to 24"),
]
UNREADABLE = ["letters", "23 5/", "1e400", "nan", "541x", "1/2/3", "5 000 000", "(541", "a pasted page " * 200]


def _cell(session: Session, chapter: str, key: str) -> Cell:
    return next(cell for cell in cells(session.page(chapter)) if cell.key == key)


@pytest.mark.parametrize(("place", "text", "said"), IMPOSSIBLE)
def test_what_cannot_be_is_refused_in_one_sentence_and_the_text_is_kept(
    kept: Session, place: str, text: str, said: str
) -> None:
    job, name = kept.job, kept.undo_name
    outcome = kept.enter(place, text)
    assert said in outcome.problem
    assert outcome.problem[0].isupper()
    assert outcome.problem.endswith(".")
    assert kept.job == job
    assert kept.undo_name == name
    assert kept.drafts()[place] == text
    kept.drop_draft(place)


@pytest.mark.parametrize("text", UNREADABLE)
def test_text_that_cannot_be_read_never_takes_the_place_of_a_figure(kept: Session, text: str) -> None:
    job = kept.job
    outcome = kept.enter(WIDTH, text)
    assert outcome.problem.startswith("Width, top, of 1")
    assert kept.job == job
    cell = _cell(kept, "survey", WIDTH)
    assert (cell.text, cell.unread, cell.hint) == (text, True, outcome.problem)
    kept.drop_draft(WIDTH)
    assert _cell(kept, "survey", WIDTH).text == "541"


@pytest.mark.parametrize("text", ["letters", "23 5/", "nan"])
def test_text_that_cannot_be_read_is_kept_unread_in_an_empty_place_and_listed(kitchen: Session, text: str) -> None:
    place = "readings/HB/diagonal/%2F"
    outcome = kitchen.enter(place, text)
    assert outcome.problem == ""
    assert outcome.said.startswith("Diagonal /, of HB")
    reading = next(r for r in kitchen.job.readings.values() if (r.of, r.what, r.at) == ("HB", "diagonal", "/"))
    assert reading.value is not None
    assert (reading.value.text, reading.value.value) == (text, None)
    assert _cell_on(kitchen, "H", place).unread
    finding = next(f for f in kitchen.page("survey").findings if f.key.startswith("unread"))
    assert text in finding.sentence


def _cell_on(session: Session, run: str, place: str) -> Cell:
    session.choose("survey", run)
    return _cell(session, "survey", place)


def test_a_reading_typed_over_an_unread_text_takes_its_place(kitchen: Session) -> None:
    kitchen.enter("readings/HB/diagonal/%2F", "8x")
    kitchen.enter("readings/1/width/top", "542")
    kitchen.enter("readings/HB/diagonal/%2F", "853.5")
    taken = [r for r in kitchen.job.readings.values() if (r.of, r.what, r.at) == ("HB", "diagonal", "/")]
    assert [(r.value.text if r.value else "", r.struck) for r in taken] == [("853.5", False)]


def test_what_is_unlikely_is_taken_and_said(kitchen: Session) -> None:
    outcome = kitchen.enter("door_builds/kitchen/stile", "30")
    assert outcome.problem == ""
    assert "usually" in outcome.said
    assert kitchen.plan.making.builds["kitchen"].stile.length.units == 30 * 80_000


def test_a_doubtful_entry_is_taken_as_read_and_the_other_reading_said(laundry: Session) -> None:
    outcome = laundry.enter("readings/R1/overall/mid", "1,125")
    assert outcome.problem == ""
    assert outcome.said != ""


def test_zero_is_a_statement_where_nothing_can_be(kitchen: Session) -> None:
    assert kitchen.enter("ends/K left/gap_top", "0").problem == ""
    assert kitchen.enter("readings/S0/edge left/", "0").problem == ""
    assert kitchen.enter("readings/1/width/middle", "0").problem != ""


def test_an_emptied_field_is_assumed_again(kitchen: Session) -> None:
    kitchen.enter("door_builds/kitchen/stile", "")
    stile = kitchen.plan.making.builds["kitchen"].stile
    assert (stile.source, stile.length.units) == ("assumed", 60 * 80_000)


def test_diagonals_that_close_no_quadrilateral_are_refused(kitchen: Session) -> None:
    job = kitchen.job
    outcome = kitchen.enter("readings/1/diagonal/\\", "2000")
    assert "four corners" in outcome.problem
    assert kitchen.job == job
    assert kitchen.drafts()["readings/1/diagonal/\\"] == "2000"


def test_fronts_that_would_lie_over_each_other_are_refused(kitchen: Session) -> None:
    job = kitchen.job
    outcome = kitchen.enter("fronts/F4/pin_left", "1500")
    assert outcome.problem != ""
    assert kitchen.job == job


def test_stiles_wider_than_the_door_are_refused(kitchen: Session) -> None:
    job = kitchen.job
    outcome = kitchen.enter("door_builds/kitchen/stile", "160")
    assert "no field" in outcome.problem
    assert kitchen.job == job


def test_a_panel_thicker_than_the_rabbet_can_take_is_refused(laundry: Session) -> None:
    job = laundry.job
    outcome = laundry.enter("panel_builds/veneered/core_is", "3/4")
    assert "lip" in outcome.problem
    assert laundry.job == job


def test_a_width_that_contradicts_the_run_is_taken_and_becomes_a_stop(kitchen: Session) -> None:
    for at in ("top", "middle", "bottom"):
        assert kitchen.enter(f"readings/7/width/{at}", "700").problem == ""
    stops = [check for check in kitchen.plan.checks if check.code == "closure" and check.holds_back]
    assert [check.where for check in stops] == [("7",)]
