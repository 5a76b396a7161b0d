"""What stands round a run, pulls and the space of fronts: entered, shown, and got out of by a button."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from frontwright.core.job import Job
from frontwright.desk.contents import FindingLine, Table
from frontwright.desk.session import Session

type Opener = Callable[[Job | str], Session]


def table(session: Session, page: str, key: str) -> Table:
    found = [one for band in session.page(page).bands for one in band if isinstance(one, Table) and one.key == key]
    return found[0]


def rows(session: Session, page: str, key: str) -> dict[str, list[str]]:
    """The words of a table's cells, by subject."""
    return {row.subject: [cell.text for cell in row.cells] for row in table(session, page, key).rows}


@pytest.fixture
def beside_trim(laundry: Session) -> Session:
    """The laundry with a wall right beside it, and a pull chosen that stands out by two inches."""
    assert laundry.act("new/pull_types").problem == ""
    laundry.enter("pull_types/pull 1/projection", "2")
    assert laundry.act("add-obstacle/R1/left").select == "R1 obstacle 1"
    laundry.enter("obstacles/R1 obstacle 1/away", "0")
    return laundry


def swing(session: Session) -> FindingLine:
    return next(f for f in session.page("fronts").findings if f.subject == "DA" and "opens to" in f.sentence)


def test_the_first_pull_is_that_of_the_room(beside_trim: Session) -> None:
    assert beside_trim.job.looks["room:laundry"].pull == "pull 1"


def test_a_door_that_does_not_open_says_how_far_against_what_and_what_is_needed(beside_trim: Session) -> None:
    said = swing(beside_trim)
    assert said.sentence == "DA opens to 87.34° only: there its pull meets the wall."
    assert (said.have, said.need, said.level) == ("have 87.34°", "need at least 90°", "warn")


def test_the_table_of_swings_shows_each_door_with_what_stops_it(beside_trim: Session) -> None:
    found = rows(beside_trim, "fronts", "swings")
    assert found["DA"][:4] == ["DA", "87.34°", "wall, by its pull", "90°"]
    assert found["DB"][1:3] == ["free", "nothing"]


def test_each_way_out_says_what_it_comes_to_and_one_press_takes_it(beside_trim: Session) -> None:
    assert [way.word for way in swing(beside_trim).ways] == [
        "Hang DA on the right: 136.74°",
        "Flush pulls in opening OA: 92.54°",
        "Make DA narrower, left edge at 2: 90°",
    ]
    flush = next(way for way in swing(beside_trim).ways if way.word.startswith("Flush pulls in opening OA"))
    assert beside_trim.act(flush.key).problem == ""
    assert beside_trim.job.pull_types["flush pull"].kind == "flush"
    assert not [f for f in beside_trim.page("fronts").findings if "opens to" in f.sentence]
    beside_trim.undo()
    assert "flush pull" not in beside_trim.job.pull_types


def test_a_way_out_that_changes_sizes_says_which(beside_trim: Session) -> None:
    assert "Make DA narrower, left edge at 2: DA becomes 21 19/32 wide, then see to the cover of DA" in (
        swing(beside_trim).reason
    )


def test_the_drawing_from_above_stands_beside_the_elevation_of_the_chosen_door(beside_trim: Session) -> None:
    beside_trim.select("DA")
    board = beside_trim.page("fronts").board
    assert board is not None
    assert [drawing.title for drawing in board.drawings][1:] == ["what DA sweeps"]


def test_a_wall_inside_the_cabinet_is_refused_with_a_sentence(beside_trim: Session) -> None:
    before = beside_trim.job
    said = beside_trim.enter("obstacles/R1 obstacle 1/away", "-1").problem
    assert said.startswith("Distance of R1 obstacle 1 cannot be under zero; type the size without a sign")
    assert beside_trim.job == before


@pytest.mark.parametrize("text", ["20", "200"])
def test_an_angle_that_no_corner_has_is_refused_with_a_sentence(kitchen: Session, text: str) -> None:
    kitchen.act("add-run/kitchen")
    new = next(run for run in kitchen.job.runs if run not in ("K", "H"))
    assert kitchen.act(f"add-corner/K/{new}").select == "corner 1"
    said = kitchen.enter("corners/corner 1/angle", text).problem
    assert said == "Angle, degrees of corner 1 lies between 45 and 180; type it again, or leave it empty."
    assert kitchen.job.corners["corner 1"].angle is None


def test_a_corner_takes_two_runs(kitchen: Session) -> None:
    assert kitchen.act("add-corner/K/K").problem == "A corner takes two runs that are there."
    assert "choose a run" in kitchen.act("add-obstacle/nowhere/left").problem
    assert "choose another opening" in kitchen.act("add-inside/nowhere/shelf").problem


def test_a_run_that_goes_takes_what_stands_round_it_along(kitchen: Session) -> None:
    kitchen.act("add-obstacle/K/left")
    kitchen.act("add-inside/1/drawer box")
    kitchen.act("remove/runs/K")
    assert list(kitchen.job.obstacles) == list(kitchen.job.insides) == []
    kitchen.undo()
    assert list(kitchen.job.obstacles) == ["K obstacle 1"]


def test_boxes_walls_and_corners_have_their_cells_on_the_survey_page(kitchen: Session) -> None:
    kitchen.act("add-obstacle/K/right")
    kitchen.act("add-inside/1/drawer box")
    assert list(rows(kitchen, "survey", "around")) == ["K obstacle 1"]
    assert list(rows(kitchen, "survey", "reach")) == ["K obstacle 1"]
    assert len(table(kitchen, "survey", "inside").rows) == 1
    assert kitchen.enter("insides/1 drawer box 1/width", "500").problem == ""
    assert kitchen.enter("obstacles/K obstacle 1/kind", "appliance").problem == ""


def test_a_box_that_no_longer_goes_in_is_found_and_thinner_strips_clear_it(kitchen: Session) -> None:
    kitchen.act("add-inside/1/drawer box")
    kitchen.enter("insides/1 drawer box 1/width", "511")
    kitchen.enter("insides/1 drawer box 1/runner", "12.7")
    assert not [f for f in kitchen.page("facing").findings if "box" in f.sentence]
    kitchen.enter("facings/K/inside_edges", "sides")
    kitchen.enter("facings/K/inside_thickness", "3.5")
    (stop,) = [f for f in kitchen.page("facing").findings if "box" in f.sentence]
    assert stop.sentence == "Beside the box in 1 and its runners −2.4 is left."
    assert [way.word for way in stop.ways] == [
        "Strips inside 1.8 thick: have 1, need 1",
        "Leave the inside edges of K bare: have ~4.5, need 1",
    ]
    kitchen.act(stop.ways[0].key)
    assert not [f for f in kitchen.page("facing").findings if "box" in f.sentence]


def test_a_job_without_surroundings_is_told_nothing_of_them(kitchen: Session) -> None:
    assert rows(kitchen, "survey", "around") == rows(kitchen, "survey", "inside") == {}
    assert {row[3] for row in rows(kitchen, "fronts", "swings").values()} == {"90°"}
    assert not [f for f in kitchen.page("fronts").findings if "opens to" in f.sentence]
