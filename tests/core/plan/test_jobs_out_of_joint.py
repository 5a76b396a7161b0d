"""Jobs whose rows name what is not there, stand in one place, or say what cannot be: the rest is worked out."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from frontwright.core.answers import subject, told
from frontwright.core.job import (
    Answer,
    AsBuilt,
    Column,
    DoorBuild,
    End,
    Facing,
    Front,
    FrontRow,
    HingeType,
    Member,
    Opening,
    PanelBuild,
    Piece,
    Run,
)
from job_builder import Made, door, job, mm, size

WELL = door(stile="64", top_rail="64", bottom_rail="76", groove="10")
ODD: dict[str, Callable[[Made], Made]] = {
    "a member of a run that is not there": lambda m: m.put(Member, "X", run="lost", kind="stile"),
    "an opening of a column that is not there": lambda m: m.put(Opening, "X", column="lost"),
    "a front of an opening that is not there": lambda m: m.put(Front, "X", opening="lost"),
    "a front of an opening of no column": lambda m: m.put(Opening, "X", column="lost").put(Front, "Y", opening="X"),
    "a column of a run that is not there": lambda m: m.put(Column, "X", run="lost", place=1),
    "a reading of nothing": lambda m: m.read("lost", "width", "300", "middle"),
    "a run of a room that is not there": lambda m: m.put(Run, "X", room="lost"),
    "an end of a run that is not there": lambda m: m.put(End, "X", run="lost", side="left"),
    "a row of fronts that are not there": lambda m: m.put(FrontRow, "X", fronts=("lost", "gone"), grain_through=True),
    "a row of nothing": lambda m: m.put(FrontRow, "X", share_edges=True, grain_through=True),
    "a facing of no run": lambda m: m.put(Facing, "lost", faces=True),
    "a size as built of no part": lambda m: m.put(AsBuilt, "X", of="lost", what="length", value="300"),
    "a hinge that nobody has": lambda m: m.look(hinge="lost"),
    "a wood that nobody has": lambda m: m.look(species="lost"),
    "a mid rail under an opening that is not there": lambda m: m.put(
        Member, "X", run="R", kind="mid rail", column="C", place=9
    ),
    "a piece of no size": lambda m: m.put(Piece, "X", form="billet", count=-1),
}


@pytest.mark.parametrize("what", ODD)
def test_what_belongs_to_nothing_moves_no_part(what: str) -> None:
    sound, odd = WELL.plan, ODD[what](WELL).plan
    sizes = [(part.id, part.length.value, part.width.value) for part in sound.making.parts]
    assert [(part.id, part.length.value, part.width.value) for part in odd.making.parts] == sizes


def test_a_build_that_is_not_there_is_taken_for_the_jobs_own() -> None:
    made = WELL.put(Front, "F", build="lost").look(door_build="gone")
    assert made.making().build.id == "build"


def test_a_panel_that_is_not_there_is_taken_for_the_usual_one_of_its_joint() -> None:
    assert WELL.put(DoorBuild, "build", panel="lost").making().build.panel.kind == "sheet"
    assert WELL.put(DoorBuild, "build", panel="lost", kind="dowelled").making().build.panel.kind == "veneered"


def test_openings_in_one_place_stand_over_each_other_by_their_names() -> None:
    made = job().run("K", S0="40", C1="400", S1="40").rails()
    made = made.opening("A2", "C1", 1, heights="100").opening("A10", "C1", 1, heights="200")
    upper, lower = made.seen("A2"), made.seen("A10")
    assert size(upper.bottom) - size(lower.top) == 40
    made = made.fronts("F", opening="A2", kind="drawer").fronts("G", opening="A10", kind="drawer")
    assert len(made.plan.fronts.fronts) == 2


def test_a_whole_column_of_nothing_but_a_reading_has_no_front() -> None:
    made = job().run("K", S0="40", C1="400", S1="40")
    assert made.plan.fronts.fronts == {}
    assert made.plan.survey.runs[0].overall is not None
    assert made.plan.survey.runs[0].overall.value == mm(480)


def test_tape_edges_that_run_backwards_stop_and_nothing_falls() -> None:
    made = job().run("K", S0="40", C1=None, S1=None).rails().opening("A", "C1").fronts("F", opening="A")
    made = made.read("S1", "edge left", "20").read("S1", "edge right", "60")
    check = made.found("closure", "A")
    assert (check.case, check.level) == ("backwards", "stop")
    assert size(check.value) == -20


def test_a_height_too_small_for_what_was_only_assumed_warns() -> None:
    made = job().run("K", S0="40", C1="400", S1="40").opening("A", "C1").read("K", "height", "60", "middle")
    assert {(c.case, c.level) for c in made.checks("closure") if c.is_open} == {("backwards", "warn")}


def stopped() -> Made:
    return door(stile="64").put(AsBuilt, "rail", of="F-RT", what="length", value="300")


def answered(made: Made) -> Made:
    check = made.found("rail-proof")
    value, limit = told(check, made.job)
    return made.put(
        Answer,
        "1",
        code=check.code,
        where=subject(check.where),
        value=value,
        limit=limit,
        level=check.level,
        answer="so it is",
    )


def test_an_answered_stop_holds_nothing_back_and_keeps_its_answer() -> None:
    made = answered(stopped())
    check = made.found("rail-proof")
    assert (check.answer, check.holds_back) == ("so it is", False)
    assert stopped().found("rail-proof").holds_back


def test_an_answer_does_not_hold_for_another_figure() -> None:
    made = answered(stopped()).put(AsBuilt, "rail", value="310")
    assert made.found("rail-proof").holds_back


def test_an_answer_to_what_is_no_longer_found_stands_as_cleared() -> None:
    made = answered(stopped())
    sound = Made(made.job.drop(AsBuilt, "rail"))
    cleared = [c for c in sound.plan.checks if c.state == "cleared"]
    assert [(c.code, c.where, c.answer) for c in cleared] == [("rail-proof", ("F",), "so it is")]
    assert sound.quiet("rail-proof")


def test_a_panel_build_chosen_and_a_hinge_chosen_are_no_longer_asked_for() -> None:
    made = WELL.put(PanelBuild, "panel", kind="sheet", sheet_is="6.2").put(DoorBuild, "build", panel="panel")
    made = made.put(HingeType, "hinge", cover="10").look(hinge="hinge")
    assert tuple(r.what for r in made.plan.read_next) == ("second width", "second height", "diagonals")
