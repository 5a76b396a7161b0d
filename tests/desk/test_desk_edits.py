"""Every edit: what it changes, and that undo gives what was before and redo what was after."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from frontwright.core.job import Job
from frontwright.desk.contents import Cell, Table
from frontwright.desk.edits import Refused, acts
from frontwright.desk.edits.entry import entered
from frontwright.desk.edits.fronts import fronts_of, held_by
from frontwright.desk.edits.rows import mid_rails_of, openings_of
from frontwright.desk.edits.survey import order_of
from frontwright.desk.keys import Place, key, parts_of
from frontwright.desk.order import cells
from frontwright.desk.session import Session

Opener = Callable[[Job | str], Session]

ENTRIES = [
    ("headings/job/name", "another kitchen"),
    ("headings/job/client", "a neighbour"),
    ("headings/job/unit", "in"),
    ("headings/job/step", "0.1"),
    ("rooms/kitchen/moisture_high", "12"),
    ("rooms/kitchen/id", "scullery"),
    ("runs/K/name", "long run"),
    ("runs/K/id", "L"),
    ("runs/K/box", "frameless"),
    ("runs/K/slope_shows", "2"),
    ("ends/K right/skin", "sawn"),
    ("ends/H left/kind", "open"),
    ("members/S3/id", "middle stile"),
    ("members/S3/kind", "partition"),
    ("members/S3/bow", "-1"),
    ("members/S3/thickness", "18.5"),
    ("columns/O3/id", "wide"),
    ("openings/7/id", "sink"),
    ("openings/7/fronts", "door"),
    ("openings/5/fronts", "pair"),
    ("openings/1/fronts", "open"),
    ("openings/6/fronts", "appliance"),
    ("openings/12/note", "tall"),
    ("readings/S3/edge left/", "1761"),
    ("readings/1/width/top", "541.5"),
    ("readings/1/diagonal/%2F", "554.5"),
    ("readings/1/height/left", ""),
    ("readings/K/overall/", "3131.5"),
    ("taken/K overall/by", "the helper"),
    ("taken/K overall/over_paint", "yes"),
    ("taken/K overall/status", "repeat"),
    ("readings/2/wind gap/", "0"),
    ("old_fronts/3/width", "560"),
    ("looks/room:kitchen/least_cover", "7"),
    ("looks/run:K/gap", "3"),
    ("looks/run:K/gap", ""),
    ("looks/run:H/scheme", "partial cover"),
    ("looks/opening:5/cover", "15"),
    ("looks/opening:5/door_build", "hutch"),
    ("looks/room:kitchen/equal_fronts", "no"),
    ("fronts/F5/hinge_side", "right"),
    ("fronts/F7L/id", "left leaf"),
    ("fronts/F7L/grain", "horizontal"),
    ("fronts/F12/pin_right", "3130"),
    ("fronts/F12/build", "slab"),
    ("front_rows/top row/fronts", "F1, F4, F6"),
    ("front_rows/top row/grain_through", "no"),
    ("front_rows/top row/trim", "0.5"),
    ("door_builds/kitchen/kind", "dowelled"),
    ("door_builds/kitchen/stile", "65"),
    ("door_builds/kitchen/mid_rails", "1"),
    ("door_builds/kitchen/panel", "veneered"),
    ("door_builds/kitchen/id", "framed"),
    ("panel_builds/veneered/core_is", "4.1"),
    ("hinge_types/cover 18/two_mass", "6"),
    ("machines/band saw/chosen", "no"),
    ("machines/band saw/kerf", "1.3"),
    ("species/oak/density", "720"),
    ("allowances/allowances/rip_kerf", "3.2"),
    ("limits/limits/lean_cover", "5"),
    ("facings/H/faces", "yes"),
    ("facings/H/inside_edges", "sides"),
    ("pieces/K-01/count", "2"),
    ("pieces/K-01/id", "K-02"),
    ("as_built/F5-P thickness/value", "6.4"),
]
ACTIONS = [
    "add-member/K/filler/S6",
    "add-member/K/seam/S2",
    "add-rail/H/top rail",
    "add-column/K/S2",
    "add-opening/K",
    "add-opening/H",
    "split/12",
    "split/1",
    "remove/members/S3",
    "remove/members/mid a 1",
    "remove/openings/2",
    "remove/openings/12",
    "remove/columns/O1",
    "remove/runs/H",
    "move/members/S3/right",
    "move/columns/O2/left",
    "move-opening/2/up",
    "add-room",
    "add-run/kitchen",
    "add-openings/kitchen",
    "add-row/F5/row",
    "add-row/F2/column",
    "new/door_builds",
    "new/panel_builds",
    "new/hinge_types",
    "new/machines",
    "new/species",
    "copy/door_builds/kitchen",
    "copy/hinge_types/inset",
    "delete/door_builds/kitchen",
    "delete/species/oak",
    "delete/front_rows/top row",
    "delete/pieces/K-03",
    "add-piece/billet",
    "copy-piece/K-01",
    "add-defect/K-01",
    "strike/1 width top",
    "over-paint/1 width top",
    "add-obstacle/K/left",
    "add-obstacle/K/before",
    "add-corner/K/H",
    "add-inside/1/drawer box",
    "add-trim/K/toe kick",
    "add-line/1/gas",
    "add-repair/K",
    "add-surface/K/toe kick",
    "new/pull_types",
]


@pytest.mark.parametrize(("place", "text"), ENTRIES)
def test_an_entry_changes_the_job_and_undo_and_redo_lead_back_and_forth(kept: Session, place: str, text: str) -> None:
    before = kept.job
    outcome = kept.enter(place, text)
    assert outcome.problem == ""
    _back_and_forth(kept, before)


@pytest.mark.parametrize("action", ACTIONS)
def test_an_action_changes_the_job_and_undo_and_redo_lead_back_and_forth(kept: Session, action: str) -> None:
    before = kept.job
    outcome = kept.act(action)
    assert outcome.problem == ""
    _back_and_forth(kept, before)


def _back_and_forth(session: Session, before: Job) -> None:
    """Undo gives what was before, redo what was after; the session is left as it was found."""
    after, plan = session.job, session.plan
    assert after != before
    session.undo()
    assert session.job == before
    session.redo()
    assert session.job == after
    assert list(session.job.readings) == list(after.readings)
    assert session.plan.checks == plan.checks
    session.undo()


def test_every_verb_of_an_action_is_tried_here() -> None:
    of_layouts = {"keep-layout", "take-layout-away", "let-part-go", "put-by-hand", "put-on-bill"}
    tried = {parts_of(action)[0] for action in ACTIONS} | {"let-go"} | of_layouts
    assert tried == set(acts._VERBS)


def test_an_edit_that_changes_nothing_makes_no_step(kitchen: Session) -> None:
    step, name = kitchen.step, kitchen.undo_name
    assert kitchen.enter("door_builds/kitchen/stile", "70").problem == ""
    assert (kitchen.step, kitchen.undo_name) == (step, name)


# -- readings


def _good(job: Job, of: str, what: str, at: str) -> list[tuple[str, bool]]:
    return [
        (r.value.text if r.value else "", r.struck)
        for r in job.readings.values()
        if (r.of, r.what, r.at) == (of, what, at)
    ]


def test_reading_again_strikes_out_the_earlier_reading_and_keeps_it(kitchen: Session) -> None:
    kitchen.enter("readings/1/width/top", "542")
    assert _good(kitchen.job, "1", "width", "top") == [("541", True), ("542", False)]
    assert kitchen.plan.survey.openings["1"].widths[0].length.units == 542 * 80_000


def test_a_reading_entered_once_more_at_once_is_put_right_and_not_taken_a_second_time(kitchen: Session) -> None:
    kitchen.enter("readings/1/width/top", "524")
    kitchen.enter("readings/1/width/top", "542")
    assert _good(kitchen.job, "1", "width", "top") == [("541", True), ("542", False)]
    kitchen.undo()
    assert _good(kitchen.job, "1", "width", "top") == [("541", False)]


def test_a_reading_put_right_after_another_one_is_a_reading_again(kitchen: Session) -> None:
    kitchen.enter("readings/1/width/top", "542")
    kitchen.enter("readings/1/width/bottom", "542")
    kitchen.enter("readings/1/width/top", "543")
    assert _good(kitchen.job, "1", "width", "top") == [("541", True), ("542", True), ("543", False)]


def test_an_emptied_reading_is_struck_out_and_not_measured(kitchen: Session) -> None:
    kitchen.enter("readings/1/width/top", "")
    assert _good(kitchen.job, "1", "width", "top") == [("541", True)]
    assert kitchen.plan.survey.openings["1"].widths[0].source == "assumed"


def test_a_new_reading_is_noted_with_the_day_it_was_taken(kitchen: Session) -> None:
    kitchen.enter("readings/1/width/top", "542")
    days = [r.when for r in kitchen.job.readings.values() if (r.of, r.what, r.at) == ("1", "width", "top")]
    assert days[0] == ""
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", days[1])


def test_every_reading_ever_taken_of_what_is_selected_is_listed_the_struck_out_ones_too(kitchen: Session) -> None:
    kitchen.enter("readings/1/width/top", "542")
    kitchen.choose("survey", "K")
    kitchen.select("1")
    table = next(b for band in kitchen.page("survey").bands for b in band if b.key == "readings")
    assert isinstance(table, Table)
    assert [row.cells[1].text for row in table.rows][:2] == ["541, struck out", "541"]
    assert "542" in [row.cells[1].text for row in table.rows]


# -- structure


def test_dividing_an_opening_adds_one_under_it_with_a_door_and_a_mid_rail_between(kitchen: Session) -> None:
    kitchen.act(key("split", "12"))
    column = openings_of(kitchen.job, "O6")
    assert [(o.id, o.place) for o in column] == [("12", 1), ("13", 2)]
    assert [m.place for m in mid_rails_of(kitchen.job, "O6")] == [1]
    assert held_by(kitchen.job, "13") == "door"


def test_dividing_the_upper_of_three_moves_the_lower_ones_down(kitchen: Session) -> None:
    kitchen.act(key("split", "1"))
    assert [o.id for o in openings_of(kitchen.job, "O1")] == ["1", "13", "2", "3"]
    assert [m.place for m in mid_rails_of(kitchen.job, "O1")] == [1, 2, 3]


def test_taking_out_a_mid_rail_takes_the_opening_under_it_with_its_readings(kitchen: Session) -> None:
    kitchen.act(key("remove", "members", "mid a 1"))
    assert [(o.id, o.place) for o in openings_of(kitchen.job, "O1")] == [("1", 1), ("3", 2)]
    assert [m.id for m in mid_rails_of(kitchen.job, "O1")] == ["mid b 1"]
    assert not [r for r in kitchen.job.readings.values() if r.of in ("2", "mid a 1")]
    assert "F2" not in kitchen.job.fronts


def test_an_opening_added_at_the_end_brings_the_stile_at_its_right(kitchen: Session) -> None:
    kitchen.act("add-opening/K")
    order = order_of(kitchen.job, "K")
    assert [type(one).__name__ for one in order[-3:]] == ["Member", "Column", "Member"]
    assert order[-1].id == "S7"
    assert [one.place for one in order] == list(range(1, len(order) + 1))


def test_a_column_taken_out_leaves_members_and_columns_in_turn(kitchen: Session) -> None:
    kitchen.act("remove/columns/O3")
    kinds = [type(one).__name__ for one in order_of(kitchen.job, "K")]
    assert kinds == ["Member", "Column"] * 5 + ["Member"]


def test_what_an_opening_holds_makes_its_fronts_by_rule(kitchen: Session) -> None:
    kitchen.enter("openings/5/fronts", "pair")
    assert [f.id for f in fronts_of(kitchen.job, "5")] == ["F5L", "F5R"]
    kitchen.enter("openings/5/fronts", "drawer")
    assert [(f.id, f.kind) for f in fronts_of(kitchen.job, "5")] == [("F5", "drawer")]


def test_a_front_that_becomes_a_pair_stays_in_its_row(kitchen: Session) -> None:
    kitchen.enter("openings/4/fronts", "pair")
    assert list(kitchen.job.front_rows["top row"].fronts) == ["F1", "F4L", "F4R", "F6", "F8", "F10"]
    kitchen.enter("openings/4/fronts", "open")
    assert list(kitchen.job.front_rows["top row"].fronts) == ["F1", "F6", "F8", "F10"]


def test_a_renamed_opening_takes_its_readings_fronts_and_looks_along(laundry: Session) -> None:
    laundry.enter("looks/opening:OA/cover", "3/8")
    readings = sum(r.of == "OA" for r in laundry.job.readings.values())
    assert laundry.enter("openings/OA/id", "left").problem == ""
    job = laundry.job
    assert job.fronts["DA"].opening == "left"
    assert "opening:left" in job.looks
    assert "opening:OA" not in job.looks
    assert sum(r.of == "left" for r in job.readings.values()) == readings - 1  # the column keeps its own
    assert [r.what for r in job.readings.values() if r.of == "OA"] == ["across"]


def test_a_name_that_is_taken_is_refused(kitchen: Session) -> None:
    before = kitchen.job
    outcome = kitchen.enter("members/S3/id", "S4")
    assert "S4" in outcome.problem
    assert kitchen.job == before


def test_a_deleted_build_is_no_longer_named_by_anything(kitchen: Session) -> None:
    kitchen.act("delete/door_builds/kitchen")
    assert kitchen.job.looks["run:K"].door_build is None
    assert kitchen.job.fronts["F2"].build is None


def test_only_one_saw_is_planned_with(laundry: Session) -> None:
    laundry.enter("machines/table saw/chosen", "yes")
    assert [m.id for m in laundry.job.machines.values() if m.chosen] == ["table saw"]


def test_a_cleared_look_field_is_inherited_and_a_look_that_says_nothing_goes(kitchen: Session) -> None:
    kitchen.enter("looks/opening:5/gap", "6")
    assert list(kitchen.plan.fronts.looks["5"].exceptions) == ["gap"]
    kitchen.enter("looks/opening:5/gap", "")
    assert "opening:5" not in kitchen.job.looks
    assert list(kitchen.plan.fronts.looks["5"].exceptions) == []


def test_the_unit_can_change_and_the_sizes_stay(kitchen: Session) -> None:
    size = kitchen.plan.fronts.fronts["F5"].width.length
    kitchen.enter("headings/job/unit", "in")
    assert kitchen.display.unit == "in"
    assert abs((kitchen.plan.fronts.fronts["F5"].width.length - size).units) <= 2 * kitchen.display.step.units
    cell = next(c for c in _cells(kitchen, "survey") if c.key == "readings/1/width/top")
    assert cell.text == "541 mm"


def _cells(session: Session, chapter: str) -> list[Cell]:
    return list(cells(session.page(chapter)))


def test_an_edit_on_what_is_gone_is_refused_with_a_sentence(kitchen: Session) -> None:
    before = kitchen.job
    for action in ("remove/members/S99", "split/99", "move/columns/O99/left", "copy-piece/K-99", "strike/nothing"):
        assert "no longer there" in kitchen.act(action).problem
    assert kitchen.job == before


def test_the_only_run_and_the_only_room_of_a_job_stay(laundry: Session) -> None:
    before = laundry.job
    assert "only run" in laundry.act("remove/runs/R1").problem
    assert "only room" in laundry.act("remove/rooms/laundry").problem
    assert laundry.job == before


def test_a_place_that_is_none_is_refused(kitchen: Session) -> None:
    for place in ("nothing/at all/here", "members/S0/colour", "readings/S0/smell/top", "looks/attic:K/gap"):
        with pytest.raises(Refused):
            entered(kitchen.job, place, "1")
    assert kitchen.enter("members", "1").problem != ""


def test_keys_keep_strokes_and_per_cents_apart() -> None:
    place = Place("readings", "a/b%2F", "diagonal", "/")
    assert Place.of(place.key) == place


def test_an_opening_can_be_opened_by_anybody(open_session: Opener) -> None:
    session = open_session("laundry-pair")
    assert session.enter("openings/OA/fronts", "open").problem == ""
    assert "DA" not in session.plan.making.fronts
