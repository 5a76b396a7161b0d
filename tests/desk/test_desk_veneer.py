"""The Veneer page: billets entered, slices read at the bench, leaves spoiled and moved, panels, pressings, learning."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from frontwright.core.job import Job, Learned, Table, amount
from frontwright.core.lengths import Length, typed, typed_length
from frontwright.core.veneer.result import BilletPlan
from frontwright.desk.contents import Cell, FindingLine, Form, PageContents
from frontwright.desk.contents import Table as Block
from frontwright.desk.edits import learning
from frontwright.desk.edits.start import NewJob, new_job
from frontwright.desk.order import cells_of
from frontwright.desk.session import Session
from frontwright.desk.ways import PRESSING
from frontwright.desk.wording.veneer import place_word

Opener = Callable[[Job | str], Session]
HEAVY = (("1/8", "1 31/64"), ("9/64", "1 13/64"), ("1/8", "61/64"))


@pytest.fixture
def sawn(laundry: Session) -> Session:
    """The laundry pair with its billets entered and three heavy slices of the first read."""
    assert laundry.act("enter-billets").problem == ""
    for at, (thick, left) in enumerate(HEAVY, 1):
        assert laundry.enter(f"leaves/A{at}/thick_1", thick).problem == ""
        assert laundry.enter(f"leaves/A{at}/left", left).problem == ""
    return laundry


def billet(session: Session, name: str) -> BilletPlan:
    return next(plan for plan in session.plan.veneer.plans if plan.id == name)


def places(session: Session) -> dict[str, str]:
    return {seat.leaf: place_word(seat) for seat in session.plan.veneer.seats}


def finding(session: Session, subject: str, words: str) -> FindingLine:
    found = [one for one in session.page("veneer").findings if one.subject == subject and words in one.sentence]
    assert len(found) == 1, [one.sentence for one in session.page("veneer").findings]
    return found[0]


def block(page: PageContents, name: str) -> Block:
    return next(one for band in page.bands for one in band if one.key == name and isinstance(one, Block))


def cell(session: Session, chosen: str, place: str) -> Cell:
    return cells_of(session.page("veneer", chosen))[place]


# -- the first step


def test_a_job_without_leaves_has_its_panels_veneered_by_one_button(open_session: Opener) -> None:
    session = open_session(new_job(NewJob("mm", "610", "560", pair=True)))
    assert [one.word for one in session.page("veneer").actions] == ["Veneer the panels on a core"]
    assert session.act("veneer-panels").problem == ""
    assert [(one.kind, one.name) for one in session.job.panel_builds.values()] == [("veneered", "veneered on a core")]
    assert session.plan.veneer.plans
    session.undo()
    assert not session.plan.veneer.plans


def test_the_name_of_a_panel_that_says_its_kind_follows_it_and_a_name_of_its_own_stays(open_session: Opener) -> None:
    session = open_session(new_job(NewJob("mm", "610", "560")))
    session.enter("panel_builds/sheet/kind", "veneered")
    assert session.job.panel_builds["sheet"].name == "veneered on a core"
    session.enter("panel_builds/sheet/name", "the good ones")
    session.enter("panel_builds/sheet/kind", "solid")
    assert session.job.panel_builds["sheet"].name == "the good ones"


def test_panels_cannot_be_veneered_where_no_door_has_one(open_session: Opener) -> None:
    session = open_session(new_job(NewJob("mm", "610", "560", door_kind="slab")))
    assert "No door build has a panel" in session.act("veneer-panels").problem


# -- billets


def test_the_billets_that_the_plan_counts_on_are_entered_in_one_step(laundry: Session) -> None:
    planned = [(plan.id, plan.length.length) for plan in laundry.plan.veneer.plans]
    outcome = laundry.act("enter-billets")
    assert outcome.problem == ""
    assert [(b.id, b.length.value) for b in laundry.job.billets.values() if b.length] == planned
    assert [plan.id for plan in laundry.plan.veneer.plans] == [name for name, _ in planned]
    laundry.undo()
    assert not laundry.job.billets


def test_no_billet_is_entered_where_no_leaf_is_short(sawn: Session) -> None:
    sawn.undo()  # the third slice shows no loss of a leaf yet
    assert "needs no further billet" in sawn.act("enter-billets").problem


def test_a_billet_that_is_missing_is_said_and_entered_by_the_way_out(sawn: Session) -> None:
    assert sawn.act("delete/billets/D").problem == ""
    short = finding(sawn, "band saw", "short by")
    assert short.level == "stop"
    assert sawn.act(short.ways[0].key).problem == ""
    assert len(sawn.job.billets) == 4
    assert not [one for one in sawn.page("veneer").findings if "short by" in one.sentence]


def test_a_billet_called_otherwise_takes_its_leaves_along(sawn: Session) -> None:
    assert sawn.enter("billets/A/id", "P").problem == ""
    assert [leaf.id for leaf in sawn.job.leaves.values()] == ["P1", "P2", "P3"]
    assert billet(sawn, "P").slices[0].thick is not None


def test_the_day_is_noted_with_the_first_reading_of_the_moisture(sawn: Session) -> None:
    sawn.enter("billets/A/moisture_shell", "9")
    noted = sawn.job.billets["A"].moisture_on
    assert len(noted) == 10
    sawn.enter("billets/A/moisture_on", "2026-01-02")
    sawn.enter("billets/A/moisture_core", "12")
    assert sawn.job.billets["A"].moisture_on == "2026-01-02"
    assert "moisture" in finding(sawn, "A", "moisture").sentence


def test_a_billet_is_sawn_earlier_and_the_last_cannot_go_later(sawn: Session) -> None:
    assert sawn.act("move-billet/B/up").problem == ""
    assert [plan.id for plan in sawn.plan.veneer.plans] == ["B", "A", "C", "D"]
    assert "last billet" in sawn.act("move-billet/D/down").problem


def test_a_further_billet_is_like_the_other_but_not_sawn(sawn: Session) -> None:
    sawn.enter("billets/A/moisture_shell", "9")
    sawn.enter("billets/A/slice_now", "3/32")
    outcome = sawn.act("add-billet/A")
    new = sawn.job.billets[outcome.select]
    assert (new.length, new.moisture_shell, new.moisture_on, new.slice_now) == (
        sawn.job.billets["A"].length,
        None,
        "",
        None,
    )
    assert all(leaf.state == "to come" for leaf in billet(sawn, new.id).slices)


# -- slices


def test_enter_goes_from_one_thickness_to_what_is_left_and_on_to_the_next_slice(laundry: Session) -> None:
    laundry.act("enter-billets")
    laundry.page("veneer", "A")
    outcome = laundry.enter("leaves/A1/thick_1", "1/8")
    assert outcome.next_key == "leaves/A1/left"
    outcome = laundry.enter("leaves/A1/left", "1 33/64")
    assert outcome.next_key == "leaves/A2/thick_1"
    assert laundry.job.leaves["A1"].number == 1


def test_six_points_follow_each_other_and_then_what_is_left(laundry: Session) -> None:
    laundry.act("enter-billets")
    laundry.page("veneer", "A")
    walked = [laundry.enter(f"leaves/A1/thick_{at}", "1/8").next_key for at in range(2, 7)]
    assert walked == [*(f"leaves/A1/thick_{at}" for at in range(3, 7)), "leaves/A1/left"]


def test_the_slice_that_costs_a_leaf_says_so_and_which_leaves_moved(sawn: Session) -> None:
    sawn.enter("leaves/A3/left", "")
    outcome = sawn.enter("leaves/A3/left", "61/64")
    assert "billet A gives 5 leaves" in outcome.said or billet(sawn, "A").slices[-1].state == "lost"
    lost = finding(sawn, "A", "A6 will be missing")
    assert lost.level == "warn"
    assert [way.word for way in lost.ways][:2] == ["Change the blade before A4", "Saw on at 3/32"]


def test_the_head_says_of_the_billet_in_hand_that_a_leaf_is_at_risk_or_lost_and_can_be_saved(sawn: Session) -> None:
    lost = next(one.id for one in billet(sawn, "A").slices if one.at_risk or one.state == "lost")
    said = sawn.page("veneer", "A").advice
    assert said.startswith(f"Look before the next slice: {lost} ")
    assert said.endswith("it can still be saved")
    sawn.enter("leaves/A4/thick_1", "1/8")
    sawn.enter("leaves/A4/left", "39/64")
    gone = next(one for one in billet(sawn, "A").slices if one.state == "lost")
    assert f"{gone.id} will be missing" in sawn.page("veneer", "A").advice


def test_thinner_leaves_from_now_on_save_the_leaf_and_leave_the_sawn_ones_alone(sawn: Session) -> None:
    way = next(w for w in finding(sawn, "A", "will be missing").ways if w.word.startswith("Saw on"))
    before = [leaf.thick for leaf in billet(sawn, "A").slices[:3]]
    assert sawn.act(way.key).problem == ""
    plan = billet(sawn, "A")
    assert [leaf.state for leaf in plan.slices] == ["good"] * 3 + ["to come"] * 3
    assert [leaf.thick and leaf.thick.value for leaf in plan.slices[:3]] == [t and t.value for t in before]
    assert {leaf.wanted.value for leaf in plan.slices[3:]} == {Length.inch(Fraction(3, 32))}


def test_changing_the_blade_leads_to_the_cell_of_the_next_slice(sawn: Session) -> None:
    way = finding(sawn, "A", "will be missing").ways[0]
    outcome = sawn.act(way.key)
    assert (outcome.next_key, outcome.chapter) == ("leaves/A4/machine", "veneer")
    assert outcome.next_key in cells_of(sawn.page("veneer"))
    sawn.enter("leaves/A4/machine", "table saw")
    assert billet(sawn, "A").slices[3].state == "to come"


def test_a_leaf_that_was_never_sawn_is_taken_out_by_saying_so(sawn: Session) -> None:
    sawn.enter("leaves/A4/thick_1", "1/8")
    assert sawn.enter("leaves/A4/state", "to come").problem == ""
    assert "A4" not in sawn.job.leaves


# -- what cannot be


def test_everything_that_is_read_of_a_leaf_has_a_cell_on_the_page(sawn: Session) -> None:
    there = cells_of(sawn.page("veneer", "A"))
    read = (*(f"thick_{at}" for at in range(1, 7)), "left", "unjointed", "length", "width", "good_length", "note")
    assert [name for name in read if f"leaves/A2/{name}" not in there] == []


def test_a_note_on_a_leaf_to_come_does_not_saw_it(sawn: Session) -> None:
    sawn.enter("leaves/A4/note", "knot at the end")
    assert next(one.state for one in billet(sawn, "A").slices if one.number == 4) == "to come"
    sawn.enter("leaves/A4/state", "good")
    assert next(one.state for one in billet(sawn, "A").slices if one.number == 4) == "good"
    sawn.enter("leaves/A4/note", "")
    sawn.enter("leaves/A4/note", "again")
    assert next(one.state for one in billet(sawn, "A").slices if one.number == 4) == "good"


@pytest.mark.parametrize(
    ("place", "text", "said"),
    [
        ("leaves/A4/thick_1", "2", "61/64 that stood of billet A"),
        ("leaves/A4/left", "1 1/2", "61/64 that stood of billet A"),
        ("leaves/A40/thick_1", "1/8", "gives no leaf of that number"),
        ("machines/band saw/kerf", "-1/8", "cannot be under zero"),
        ("panel_builds/veneered/core_is", "50", "thicker than any door"),
        ("pressings/1/panels", "DX-P", "there is no panel of leaves"),
        ("leaves/B1/seat", "2", "choose the front"),
        ("billets/A/ring_angle", "120", "lies between 0 and 90"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence_and_kept_as_typed(
    sawn: Session, place: str, text: str, said: str
) -> None:
    before = sawn.job
    outcome = sawn.enter(place, text)
    assert said in outcome.problem
    assert outcome.problem.count(". ") == 0
    assert sawn.job == before
    assert sawn.drafts()[place] == text


def test_a_leaf_beyond_those_its_billet_was_to_give_is_doubted_by_its_field_and_kept(sawn: Session) -> None:
    outcome = sawn.enter("leaves/A8/thick_1", "1/8")
    assert outcome.problem == ""
    assert outcome.said.startswith("Thickness at point 1 of A8: billet A was to give 6 leaves only")
    assert "A8" in sawn.job.leaves
    assert "was to give" not in sawn.enter("leaves/B1/thick_1", "1/8").said


def test_leaf_and_rest_together_cannot_be_more_than_there_was(sawn: Session) -> None:
    sawn.enter("leaves/A4/thick_1", "1/8")
    assert "together" in sawn.enter("leaves/A4/left", "15/16").problem
    assert sawn.enter("leaves/A4/left", "3/4").problem == ""


def test_one_of_six_readings_in_another_unit_is_said_and_stays_as_typed(sawn: Session) -> None:
    for at in (2, 3, 4, 5):
        sawn.enter(f"leaves/A1/thick_{at}", "1/8")
    outcome = sawn.enter("leaves/A1/thick_6", "3.2mm")
    assert (outcome.problem, outcome.said) == ("", "")
    outcome = sawn.enter("leaves/A1/thick_6", "1/8mm")
    assert "read in another unit" in outcome.said
    assert sawn.job.leaves["A1"].thick_6 is not None
    shown = cell(sawn, "A", "leaves/A1/thick_6")
    assert (shown.text, shown.level) == ("1/8mm", "warn")
    assert "another unit" in shown.hint
    assert cell(sawn, "A", "leaves/A1/thick_5").level == "ok"


def test_a_leaf_thicker_than_its_billet_is_a_stop_with_the_way_to_both_cells(sawn: Session) -> None:
    sawn.enter("billets/B/slice", "2")
    thick = finding(sawn, "B", "thicker than the whole")
    assert thick.level == "stop"
    cells = {sawn.act(way.key).next_key for way in thick.ways}
    assert cells == {"billets/B/thickness", "billets/B/slice"}


# -- leaves in their places


def test_spoiling_a_leaf_says_what_moved_and_undo_brings_it_all_back(sawn: Session) -> None:
    before = places(sawn)
    outcome = sawn.act("leaf-state/A3/spoiled")
    after = places(sawn)
    assert "A3 out of the show face of DA-P" in outcome.said
    assert after != before
    assert "A3" not in after
    for leaf in set(before) & set(after):
        if before[leaf] != after[leaf]:
            assert leaf in outcome.said
    assert sawn.undo_name == "A3 spoiled"
    sawn.undo()
    assert places(sawn) == before


def test_one_letter_in_the_state_of_a_leaf_spoils_it(sawn: Session) -> None:
    state = cell(sawn, "A", "leaves/A3/state")
    first = next(choice.value for choice in state.choices if choice.word.startswith("s"))
    assert first == "spoiled"
    sawn.enter("leaves/A3/state", first)
    assert sawn.job.leaves["A3"].state == "spoiled"


def test_a_leaf_goes_where_a_person_puts_it_and_back_by_the_plan(sawn: Session) -> None:
    before = places(sawn)
    assert sawn.enter("leaves/B6/front", "DA").problem == ""
    assert places(sawn)["B6"] == "back of DA-P"
    assert sawn.enter("leaves/B6/side", "show").problem == ""
    assert sawn.enter("leaves/B6/seat", "4").problem == ""
    seat = next(seat for seat in sawn.plan.veneer.seats if seat.leaf == "B6")
    assert (seat.of, seat.side, seat.seat, seat.by_hand) == ("DA-P", "show", 4, True)
    assert "takes 4 leaves" in sawn.enter("leaves/B6/seat", "5").problem
    assert sawn.act("leaf-back/B6").problem == ""
    assert places(sawn) == before
    assert billet(sawn, "B").slices[5].state == "to come"


def test_two_leaves_are_never_put_by_hand_in_one_seat(sawn: Session) -> None:
    for leaf in ("B5", "B6"):
        sawn.enter(f"leaves/{leaf}/front", "DA")
        sawn.enter(f"leaves/{leaf}/seat", "2")
    assert sawn.job.leaves["B5"].front is None
    seats = [(s.of, s.side, s.seat) for s in sawn.plan.veneer.seats if s.side in ("show", "back")]
    assert len(seats) == len(set(seats))


def test_a_stopped_cut_makes_two_short_leaves_of_one_number(sawn: Session) -> None:
    assert sawn.act("leaf-split/A3").problem == ""
    halves = [(leaf.id, leaf.number, leaf.state) for leaf in sawn.job.leaves.values() if leaf.number == 3]
    assert halves == [("A3", 3, "short"), ("A3b", 3, "short")]
    assert sawn.enter("leaves/A3b/good_length", "12").problem == ""
    assert "already" in sawn.act("leaf-split/A3").problem


# -- panels


def test_a_panel_pressed_too_thick_says_what_its_leaves_were(laundry: Session) -> None:
    for at in range(1, 5):
        assert laundry.enter(f"pressed_panels/DA-P/corner_{at}", "27/64").problem == ""
    made = laundry.plan.veneer.panels["DA-P"]
    assert made.leaves_were is not None
    page = laundry.page("veneer", "DA-P")
    said = [row.cells[0].text for row in block(page, "chain").rows]
    assert "worked back: the leaves were" in said
    assert "thicker than the saw was set by" in said


def test_passes_are_written_one_after_the_other_with_the_faces_in_turn(laundry: Session) -> None:
    for text in ("25/64", "3/8", "23/64"):
        row = block(laundry.page("veneer", "DA-P"), "passes").rows[-1]
        assert laundry.enter(row.cells[2].key, text).problem == ""
    passes = list(laundry.job.plane_passes.values())
    assert [(p.number, p.face) for p in passes] == [(1, "show"), (2, "back"), (3, "show")]
    rows = block(laundry.page("veneer", "DA-P"), "passes").rows
    assert len(rows) == 4
    assert all(row.cells[3].figure is not None for row in rows[:3])
    assert "more than the" in laundry.enter("plane_passes/DA-P pass 4/thickness", "1/2").problem


def test_a_pass_taken_back_lets_the_later_ones_count_on(laundry: Session) -> None:
    for at, text in enumerate(("25/64", "3/8", "23/64"), 1):
        laundry.enter(f"plane_passes/DA-P pass {at}/thickness", text)
    laundry.enter("plane_passes/DA-P pass 1/thickness", "")
    assert [(p.id, p.number) for p in laundry.job.plane_passes.values()] == [
        ("DA-P pass 1", 1),
        ("DA-P pass 2", 2),
    ]


def test_a_front_called_otherwise_takes_along_what_was_read_of_its_panel(laundry: Session) -> None:
    laundry.enter("pressed_panels/DA-P/corner_1", "13/32")
    laundry.enter("plane_passes/DA-P pass 1/thickness", "25/64")
    laundry.enter("as_built/DA-P thickness/value", "11/32")
    assert laundry.enter("fronts/DA/id", "DL").problem == ""
    assert list(laundry.job.pressed_panels) == ["DL-P"]
    assert list(laundry.job.plane_passes) == ["DL-P pass 1"]
    assert "DL-P thickness" in laundry.job.as_built
    assert laundry.job.pressings["1"].panels == ("DL-P",)
    assert laundry.plan.veneer.panels["DL-P"].passes == 1


# -- pressings


def test_a_pressing_too_slow_alone_is_accepted_with_a_helper_and_the_minutes_are_shown(laundry: Session) -> None:
    laundry.enter("pressings/1/helper", "no")
    late = finding(laundry, "DA", "alone")
    assert late.level == "stop"
    assert late.have == "have 8.98 min"
    assert late.need == "need at most 8 min"
    helper = next(way for way in late.ways if way.word == "Glue up with a helper: 6.83 min")
    assert laundry.act(helper.key).problem == ""
    assert not [f for f in laundry.page("veneer").findings if f.key == late.key]
    rows = block(laundry.page("veneer", "pressing 1"), "rehearsed").rows
    together = next(row for row in rows if row.cells[0].text == "together")
    assert [one.text for one in together.cells[1:]] == ["9, too slow", "6.8"]


def test_two_pressings_are_joined_and_halved_again(laundry: Session) -> None:
    assert laundry.act("join/1/2").problem == ""
    assert [p.panels for p in laundry.job.pressings.values()] == [("DA-P", "DB-P")]
    assert laundry.act("halve/1").problem == ""
    assert [p.panels for p in laundry.job.pressings.values()] == [("DA-P",), ("DB-P",)]
    assert "cannot be halved" in laundry.act("halve/1").problem


def _cells(laundry: Session, name: str, subject: str = "pressing 1") -> list[list[str]]:
    return [[cell.text for cell in row.cells] for row in block(laundry.page("veneer", subject), name).rows]


def test_how_panels_lie_is_asked_only_where_there_are_more_than_one(laundry: Session) -> None:
    def asked() -> bool:
        page = laundry.page("veneer", "pressing 1")
        return any(cell.key == "pressings/1/lie" for cell in cells_of(page).values())

    assert not asked()
    assert laundry.enter("pressings/1/panels", "DA-P, DB-P").problem == ""
    assert asked()
    assert laundry.enter("pressings/1/lie", "side by side").problem == ""
    assert laundry.plan.veneer.pressings[0].lie == "side by side"


def test_the_clock_runs_from_when_the_bottle_was_opened(laundry: Session) -> None:
    assert ["last clamp tight", "after 6.8 min", "within 8 min"] in _cells(laundry, "clock")
    laundry.enter("pressings/1/started", "9:40")
    laundry.enter("pressings/1/closed", "9:49")
    rows = _cells(laundry, "clock")
    assert ["last clamp tight", "9:47", "by 9:48"] in rows
    assert ["out of the press", "10:47", "or later"] in rows
    assert ["planed", "9:47 next day", "or later"] in rows
    assert ["took", "9 min to the last clamp, 6.8 planned"] in rows


def test_a_bag_asks_for_no_clamps_and_says_what_it_gives(laundry: Session) -> None:
    assert laundry.enter("presses/clamps/kind", "vacuum bag").problem == ""
    page = laundry.page("veneer", "pressing 1")
    assert not any(cell.key == "pressings/1/clamps" for cell in cells_of(page).values())
    said = [row[1] for row in _cells(laundry, "laid out")]
    assert "bag tried for leaks, its seal clean" in said
    assert not any("clamp" in one for one in said)
    assert "lies between 0 and 14.7" in laundry.enter("presses/clamps/bag_pressure", "20").problem


def test_the_order_of_the_lay_up_stands_on_the_page(laundry: Session) -> None:
    steps = [row[1] for row in _cells(laundry, "order")]
    assert steps[1] == "Mark the core: centre line, show side, arrow. Its grain runs across the leaves."
    assert any("Both faces in one pressing" in step for step in steps)
    laundry.enter("panel_builds/veneered/core_grain", "along")
    assert "stop, it will bend" in _cells(laundry, "order")[1][1]


def test_the_air_of_the_shop_is_held_against_the_wood_of_the_pressing(laundry: Session) -> None:
    laundry.act("enter-billets")
    for place, text in (
        ("headings/job/shop_temperature", "70"),
        ("headings/job/shop_humidity", "50"),
        ("billets/A/moisture_shell", "13"),
    ):
        assert laundry.enter(place, text).problem == ""
    bands = laundry.page("veneer", "pressing 1").bands
    form = next(one for band in bands for one in band if isinstance(one, Form) and one.key == "moisture")
    lines = {line.label: line.cell.text for line in form.lines}
    assert lines["wood comes to"] == "9.2 %"
    assert lines["billet A"] == "13 %: let the leaves rest 24 to 72 h, stickered"
    assert any("wetter than wood comes to in the shop" in one.sentence for one in laundry.page("veneer").findings)


def test_enter_goes_from_the_thickness_after_a_pass_to_the_next_pass(laundry: Session) -> None:
    laundry.page("veneer", "DA-P")
    outcome = laundry.enter("plane_passes/DA-P pass 1/thickness", "25/64")
    assert outcome.next_key == "plane_passes/DA-P pass 2/thickness"


def test_a_panel_planed_too_far_says_by_how_much(laundry: Session) -> None:
    laundry.enter("plane_passes/DA-P pass 1/thickness", "21/64")
    rows = block(laundry.page("veneer", "DA-P"), "chain").rows
    (row,) = [row for row in rows if row.cells[0].text == "planed too far by"]
    figure = row.cells[4].figure
    assert figure is not None
    assert figure.units == Length.inch("1/64").units


def test_a_panel_is_in_one_pressing_only(laundry: Session) -> None:
    laundry.enter("pressings/1/panels", "DA-P, DB-P")
    assert list(laundry.job.pressings) == ["1"]
    laundry.enter("pressings/1/panels", "")
    assert not laundry.job.pressings
    assert {p.id for p in laundry.plan.veneer.pressings} == {"DA-P", "DB-P"}


def test_an_entry_of_a_panel_that_is_in_no_pressing_makes_its_pressing(kitchen: Session) -> None:
    loose = kitchen.plan.veneer.pressings[0]
    assert loose.id not in kitchen.job.pressings
    assert kitchen.enter(f"pressings/{loose.id}/clamps", "12").problem == ""
    assert kitchen.job.pressings[loose.id].panels == loose.panels
    assert next(p.clamps for p in kitchen.plan.veneer.pressings if p.id == loose.id) == 12


def test_pressings_are_counted_by_themselves_beside_openings_that_are_numbers(
    laundry: Session, kitchen: Session
) -> None:
    laundry.act("delete/pressings/1")
    laundry.act("delete/pressings/2")
    laundry.act("new-pressing")
    assert list(laundry.job.pressings) == ["1"]
    assert "1" in kitchen.job.openings
    kitchen.act("new-pressing")
    assert list(kitchen.job.pressings) == ["P-1"]


def test_minutes_that_nobody_told_are_a_note_in_the_table_too(kitchen: Session) -> None:
    kitchen.act("new-pressing")
    kitchen.enter("pressings/P-1/clamps", "60")
    late = next(p for p in kitchen.plan.veneer.pressings if p.id == "P-1")
    assert not late.in_time
    assert late.late_assumed
    row = next(r for r in block(kitchen.page("veneer", f"{PRESSING}P-1"), "pressings").rows if r.subject == "P-1")
    assert row.cells[4].level == "note"


@pytest.mark.parametrize("selected", ["", "labels"])
def test_the_label_sheet_is_kept_in_the_shop_by_one_button(laundry: Session, selected: str) -> None:
    laundry.enter("label_sheets/labels/columns", "3")
    laundry.select(selected)
    actions = block(laundry.page("shop", "Labels"), "label_sheets").actions
    assert [one.word for one in actions if one.word.startswith("Keep")] == ["Keep these labels in the shop"]


# -- learning


def test_what_a_billet_lost_is_learned_once_with_count_and_spread(sawn: Session) -> None:
    seen = billet(sawn, "A").seen
    assert seen is not None
    outcome = sawn.act("learn/A")
    assert "learned over 1 job" in outcome.said
    row = sawn.shop.learned["loss, band saw, white ash"]
    assert row.value is not None
    assert row.value.value == seen.loss.length
    assert (row.count, row.last_job) == (1, "Laundry pair")
    assert [row.counted for row in sawn.job.leaves.values() if row.billet == "A"] == [True] * 3
    assert "nothing to learn" in sawn.act("learn/A").problem
    assert sawn.shop.learned["loss, band saw, white ash"].count == 1


def test_a_billet_that_is_not_done_is_learned_from_only_when_it_is_named(sawn: Session) -> None:
    assert "nothing to learn" in sawn.act("learn").problem
    assert not sawn.shop.learned


def learned_before(session: Session, loss: str, count: int, spread: str) -> None:
    row = Learned("loss, band saw, white ash", "loss", "band saw", "white ash")
    row = replace(row, value=typed(loss, "in"), count=count, spread=typed(spread, "in"), last_job="an earlier job")
    session._shop._change("learned before", lambda shop: replace(shop, learned=Table([row])))


def test_an_outlier_is_asked_about_and_not_swallowed(sawn: Session) -> None:
    learned_before(sawn, "7/64", 4, "1/500")
    outcome = sawn.act("learn/A")
    assert "more than 3 spreads" in outcome.said
    row = sawn.shop.learned["loss, band saw, white ash"]
    assert (row.count, row.value) == (4, typed("7/64", "in"))
    assert not any(row.counted for row in sawn.job.leaves.values())
    assert sawn.act("learn/A/all the same").problem == ""
    row = sawn.shop.learned["loss, band saw, white ash"]
    assert row.count == 5
    assert row.value is not None
    assert row.value.value is not None
    seen = billet(sawn, "A").seen
    assert seen is not None
    old = Length.inch(Fraction(7, 64))
    assert abs(row.value.value.units - (old.units + (seen.loss.length - old).units / 5)) <= 1


def test_a_saw_is_planned_with_the_loss_that_was_learned_of_it(sawn: Session) -> None:
    learned_before(sawn, "9/64", 4, "1/500")
    assert sawn.act("use-learned/band saw").problem == ""
    losses = billet(sawn, "B").losses
    assert losses.together.length == Length.inch(Fraction(9, 64))
    assert "Nothing was learned" in sawn.act("use-learned/table saw").problem


def test_further_billets_of_one_job_do_not_count_as_another_job(sawn: Session) -> None:
    sawn.act("learn/A")
    sawn.enter("leaves/B1/thick_1", "1/8")
    sawn.enter("leaves/B1/left", "1 1/2")
    sawn.act("learn/B")
    assert sawn.shop.learned["loss, band saw, white ash"].count == 1


def test_a_blade_has_losses_of_its_own() -> None:
    assert learning.learned_id("loss", "band saw", "wide", "oak") == "loss, band saw, wide, oak"
    assert learning.learned_id("loss", "band saw", "", "oak") == "loss, band saw, oak"


def test_what_jointing_took_is_learned_by_itself_and_planned_with(sawn: Session) -> None:
    left = sawn.job.leaves["A1"].left
    assert left is not None
    assert left.value is not None
    before = typed_length(left.value + Length.inch(Fraction(3, 64)), "in").text
    assert sawn.enter("leaves/A1/unjointed", before).problem == ""
    sawn.act("learn/A")
    row = sawn.shop.learned["rejoint, band saw, white ash"]
    assert row.value is not None
    assert row.value.value == Length.inch(Fraction(3, 64))
    assert sawn.act("use-learned/band saw").problem == ""
    assert billet(sawn, "B").losses.rejoint.length == Length.inch(Fraction(3, 64))
    seen = billet(sawn, "A").seen
    assert seen is not None
    assert billet(sawn, "B").losses.together.length == seen.loss.length


# -- blades


def test_another_blade_leaves_the_slices_made_to_the_one_that_made_them(sawn: Session) -> None:
    sawn.act("add-blade/band saw")
    sawn.enter("blades/blade 1/kerf", "1/8")
    before = billet(sawn, "A")
    assert sawn.enter("machines/band saw/blade", "blade 1").problem == ""
    after = billet(sawn, "A")
    made = [one.id for one in before.slices if one.leaf is not None]
    assert len(made) == 3
    assert [one.saw.blade for one in after.slices] == ["first blade"] * 3 + ["blade 1"] * (len(after.slices) - 3)
    assert [s.left_should.value for s in after.slices[:3]] == [s.left_should.value for s in before.slices[:3]]
    assert after.losses.kerf.value == before.losses.kerf.value
    assert billet(sawn, "B").losses.kerf.length == Length.inch(Fraction(1, 8))
    assert sawn.undo().problem == ""
    assert billet(sawn, "A").saw_now.blade == ""
    assert list(sawn.job.blades) == ["blade 1"]


def test_a_blade_is_learned_by_itself(sawn: Session) -> None:
    sawn.act("add-blade/band saw")
    sawn.enter("billets/A/machine", "blade 1")
    assert (sawn.job.billets["A"].machine, sawn.job.billets["A"].blade) == ("band saw", "blade 1")
    sawn.act("learn/A")
    row = sawn.shop.learned["loss, band saw, blade 1, white ash"]
    assert (row.machine, row.blade, row.species) == ("band saw", "blade 1", "white ash")
    assert sawn.act("use-learned/band saw/blade 1").problem == ""
    assert sawn.job.blades["blade 1"].wander is not None
    assert "Nothing was learned" in sawn.act("use-learned/band saw").problem


def test_slices_before_a_change_of_blade_are_learned_for_the_blade_that_made_them(sawn: Session) -> None:
    (old,) = billet(sawn, "A").stretches
    sawn.act("add-blade/band saw")
    sawn.enter("blades/blade 1/kerf", "1/32")
    sawn.enter("leaves/A4/machine", "blade 1")
    left = sawn.job.leaves["A3"].left
    assert left is not None
    assert left.value is not None
    stood = left.value - Length.inch(Fraction(1, 8)) - Length.inch(Fraction(5, 64))
    sawn.enter("leaves/A4/thick_1", "1/8")
    assert sawn.enter("leaves/A4/left", typed_length(stood, "in").text).problem == ""
    assert [one.leaves for one in billet(sawn, "A").stretches] == [("A1", "A2", "A3"), ("A4",)]
    assert sawn.act("learn/A").problem == ""
    first = sawn.shop.learned["loss, band saw, white ash"]
    second = sawn.shop.learned["loss, band saw, blade 1, white ash"]
    assert first.value is not None
    assert second.value is not None
    assert first.value.value == old.seen.loss.length
    assert second.value.value == Length.inch(Fraction(5, 64))
    assert (first.count, second.count) == (1, 1)
    assert "nothing to learn" in sawn.act("learn/A").problem


def test_a_blade_mounted_after_a_billet_was_learned_from_is_still_learned(sawn: Session) -> None:
    sawn.act("learn/A")
    before = sawn.shop.learned["loss, band saw, white ash"]
    sawn.act("add-blade/band saw")
    sawn.enter("leaves/A4/machine", "blade 1")
    sawn.enter("leaves/A4/thick_1", "1/8")
    left = sawn.job.leaves["A3"].left
    assert left is not None
    assert left.value is not None
    sawn.enter("leaves/A4/left", typed_length(left.value - Length.inch(Fraction(7, 32)), "in").text)
    assert sawn.act("learn/A").problem == ""
    assert sawn.shop.learned["loss, band saw, blade 1, white ash"].count == 1
    assert sawn.shop.learned["loss, band saw, white ash"] == before


def test_a_leaf_is_sawn_with_a_blade_or_a_saw_from_there_on(sawn: Session) -> None:
    sawn.act("add-blade/band saw")
    assert sawn.enter("leaves/A4/machine", "blade 1").problem == ""
    assert [one.saw.blade for one in billet(sawn, "A").slices] == ["", "", "", "blade 1", "blade 1", "blade 1"]
    assert sawn.enter("leaves/A4/machine", "").problem == ""
    assert "A4" not in sawn.job.leaves
    assert "choose" in sawn.enter("machines/table saw/blade", "blade 1").problem


def saws(session: Session) -> list[tuple[str, str]]:
    table = block(session.page("veneer", "A"), "losses")
    assert isinstance(table, Block)
    return [(one.title, one.group) for one in table.columns][1:-1]


def test_each_blade_has_a_column_and_what_is_mounted_is_planned_with(sawn: Session) -> None:
    sawn.act("add-blade/band saw")
    assert saws(sawn) == [
        ("Band saw", "planned with"),
        ("Band saw, blade 1", "not mounted"),
        ("Table saw", "compared"),
    ]
    own = {"machines/band saw/kerf", "blades/blade 1/kerf", "machines/band saw/rejoint", "machines/table saw/kerf"}
    assert own <= set(cells_of(sawn.page("veneer", "A")))
    assert sawn.enter("machines/band saw/blade", "blade 1").problem == ""
    assert ("Band saw, blade 1", "planned with") in saws(sawn)
    assert ("Band saw", "planned with") not in saws(sawn)


def test_typing_goes_on_in_a_blade_that_was_added_and_stays_with_it(sawn: Session) -> None:
    sawn.page("veneer", "A")
    assert sawn.act("add-blade/band saw").next_key == "blades/blade 1/kerf"
    assert sawn.enter("blades/blade 1/kerf", "1/32").next_key == "blades/blade 1/wander"
    assert sawn.enter("blades/blade 1/wander", "1/64").next_key == "machines/table saw/kerf"


def test_a_saw_taken_out_takes_its_blades_along(sawn: Session) -> None:
    sawn.act("add-blade/table saw")
    assert sawn.act("delete/machines/table saw").problem == ""
    assert list(sawn.job.blades) == []


def test_what_lies_out_of_all_that_was_learned_is_marked_before_it_is_counted(sawn: Session) -> None:
    learned_before(sawn, "7/64", 4, "1/500")
    table = block(sawn.page("veneer", "A"), "losses")
    assert isinstance(table, Block)
    odd = [row for row in table.rows if "out of what was learned" in row.cells[0].text]
    assert len(odd) == 1
    assert odd[0].cells[-1].level == "warn"


# -- the page


@pytest.mark.parametrize("name", ["laundry-pair", "kitchen-run"])
def test_the_page_stands_on_every_billet_panel_and_pressing(request: pytest.FixtureRequest, name: str) -> None:
    session: Session = request.getfixturevalue({"laundry-pair": "sawn", "kitchen-run": "kitchen"}[name])
    choices = [choice.value for choice in session.page("veneer").choosers]
    assert len(choices) == len(set(choices)) > 0
    for choice in choices:
        page = session.page("veneer", choice)
        assert page.chosen == choice
        assert page.bands
        assert page.board is not None
        shown = [one for one in cells_of(page).values() if one.editable and one.text]
        for one in shown:
            before = session.job
            assert (session.enter(one.key, one.text).problem, session.job) == ("", before), one.key


def test_a_glue_and_a_press_of_the_shop_come_into_the_job_when_they_are_chosen(laundry: Session) -> None:
    laundry.act("keep-in-shop/glues/wood glue")
    laundry.enter("pressings/1/glue", "")
    laundry.enter("pressings/2/glue", "")
    laundry.act("delete/glues/wood glue")
    assert not laundry.job.glues
    assert laundry.enter("pressings/1/glue", "wood glue").problem == ""
    assert laundry.job.glues["wood glue"].open_minutes == amount("10")


def test_the_learned_figures_stand_on_the_shop_page(sawn: Session) -> None:
    sawn.act("learn/A")
    page = sawn.page("shop", "Learned figures")
    heads = [column.title for column in block(page, "learned").columns]
    assert "loss, band saw, white ash" in heads
    keys = {one.key for one in cells_of(page).values() if one.editable}
    assert "shop:learned/loss, band saw, white ash/value" in keys


def test_a_spoiled_leaf_makes_the_sheets_stale_that_show_it_and_undo_makes_them_current(
    laundry: Session,
) -> None:
    laundry.act("enter-billets")
    laundry.sheets_printed([line.key for line in laundry.sheets()])
    laundry.act("leaf-state/A3/spoiled")
    moved = {leaf for leaf, place in places(laundry).items() if place.endswith("of DA-P")}
    stale = {line.key for line in laundry.sheets() if line.state == "stale"}
    assert {"15-saw:A", "16-leaves:DA-P", "24-labels:"} <= stale
    assert not {"10-door:DA", "12-stock", "14-set-up:rip"} & stale
    assert "A3" not in moved
    laundry.undo()
    assert not [line for line in laundry.sheets() if line.state == "stale"]


# -- where a person begins, and labels


def test_the_page_begins_at_the_button_that_enters_the_billets_then_at_the_first_slice_to_read(
    laundry: Session,
) -> None:
    assert laundry.page("veneer").start == "enter-billets"
    laundry.act("enter-billets")
    assert laundry.page("veneer").start == "leaves/A1/thick_1"
    laundry.enter("leaves/A1/thick_1", "1/8")
    laundry.enter("leaves/A1/left", "1 33/64")
    assert laundry.page("veneer", "A").start == "leaves/A2/thick_1"


def test_a_grid_of_labels_is_told_on_the_shop_page_and_said_where_it_is_too_small(laundry: Session) -> None:
    places = cells_of(laundry.page("shop", "Labels"))
    assert places["label_sheets/labels/columns"].editable
    assert laundry.enter("label_sheets/labels/columns", "3").problem == ""
    assert laundry.enter("label_sheets/labels/rows", "10").problem == ""
    assert laundry.enter("label_sheets/labels/top", "0").problem == ""
    assert laundry.page("shop", "Labels").advice == ""
    assert laundry.enter("label_sheets/labels/rows", "60").problem == ""
    assert laundry.page("shop", "Labels").advice.startswith("Plain paper on A4 and letter")


def test_a_panel_pressed_with_others_is_looked_at_in_their_pressing_and_by_itself_after_undo(kitchen: Session) -> None:
    kitchen.act("delete/pressings/" + next(iter(kitchen.job.pressings), ""))
    alone = next(one for one in kitchen.plan.veneer.pressings if one.id not in kitchen.job.pressings)
    chosen = f"pressing {alone.id}"
    assert kitchen.page("veneer", chosen).chosen == chosen
    assert kitchen.act("new-pressing").problem == ""
    together = kitchen.page("veneer").chosen
    assert together != chosen
    assert set(alone.panels) < set(kitchen.job.pressings[together.removeprefix("pressing ")].panels)
    kitchen.undo()
    assert kitchen.page("veneer").chosen == chosen


def test_a_glue_added_at_the_press_is_typed_on_in_the_shop_page(laundry: Session) -> None:
    laundry.page("veneer", "pressing 1")
    outcome = laundry.act("new/glues")
    assert (outcome.chapter, outcome.next_key.partition("/")[0]) == ("shop", "glues")
    assert laundry.page("shop").chosen == "Glues"


def test_what_is_no_time_of_day_is_refused_and_kept_as_typed(laundry: Session) -> None:
    laundry.page("veneer", "pressing 1")
    assert "type it as 9:40" in laundry.enter("pressings/1/started", "25:99").problem
    assert laundry.job.pressings["1"].started == ""
    assert laundry.drafts()["pressings/1/started"] == "25:99"
    assert laundry.enter("pressings/1/started", "9:40").problem == ""
