"""Toe kicks, valances, light rails, tops, fillers: F45, F46, F10, each by its example, and tops that cannot move."""

from __future__ import annotations

from frontwright.core.facing.result import TrimPlan
from frontwright.core.job import Corner, End, Room, Species, Trim
from frontwright.core.lengths import ZERO
from job_builder import Made, job, near, size


def run(**trim: object) -> Made:
    """A run of 1000 with an open right end, 560 deep, two columns with a door each."""
    made = job().run("K", S0="40", C1="600", S1="40", C2="280", S2="40").rails("40", "40")
    made = made.read("K", "height", "720", "middle").opening("A", "C1").opening("B", "C2")
    made = made.fronts("FA", opening="A").fronts("FB", opening="B")
    made = made.put(End, "l", run="K", side="left", kind="wall", gap_top="2", gap_middle="7", gap_bottom="4")
    made = made.put(End, "r", run="K", side="right", kind="open", depth_seen="560")
    return made.put(Trim, "t", run="K", **trim)


def plan(made: Made) -> TrimPlan:
    (found,) = made.plan.facing.runs["K"].trims
    return found


def test_a_recessed_toe_kick_loses_its_recess_at_the_open_end_and_is_clear_of_the_floor() -> None:
    """F45: O' less the recess; height less 3 mm; the return runs back from its own recess"""
    found = plan(run(kind="toe kick", recess="65", width="100"))
    assert near(found.length) == "935.00"
    assert near(found.width) == "97.00"
    assert found.mitred == ("right",)
    assert near(found.altogether) == "1430.00"  # 935 and 560 - 65
    assert [near(piece.length) for piece in found.pieces] == ["935.00", "495.00"]


def test_the_kicks_of_an_inside_corner_meet_under_the_two_legs() -> None:
    """Each goes on by the other's recess, the one put on first by the other's thickness as well"""
    made = (
        run(kind="toe kick", recess="65", thickness="6")
        .put(End, "r", kind="corner")
        .put(Corner, "k", left="K", right="L")
    )
    made = made.run("L", S8="45", C8="400", S9="55").rails(run="L").opening("D", "C8")
    assert near(plan(made).length) == "1000.00"  # the other leg has no kick
    made = made.put(Trim, "u", run="L", kind="toe kick", recess="75", thickness="10")
    (other,) = made.plan.facing.runs["L"].trims
    assert near(plan(made).length) == "1085.00"  # 1000 and 75 and 10
    assert near(other.length) == "565.00"  # 500 and 65
    place = other.pieces[0].place
    assert place is not None
    assert [near(place[0]), near(place[2])] == ["-65.00", "500.00"]
    behind = made.put(Corner, "k", left="K", right="L", runs_on="left", hidden="30")
    assert near(plan(behind).length) == "1055.00"


def test_a_kick_is_clear_of_the_floor_or_scribed_to_it_never_both() -> None:
    """F45"""
    assert near(plan(run(kind="toe kick", width="100", floor="scribed", allowance="12")).width) == "112.00"
    assert near(plan(run(kind="toe kick", width="100", floor="clear", allowance="4")).width) == "96.00"


def test_the_long_point_of_a_light_rail_is_the_run_and_what_it_projects_at_each_mitred_end() -> None:
    """F45"""
    found = plan(run(kind="light rail", projects="10"))
    assert near(found.length) == "1010.00"
    assert [near(piece.length) for piece in found.pieces] == ["1010.00", "570.00"]
    both = plan(run(kind="light rail", projects="10", left="return"))
    assert near(both.length) == "1020.00"
    assert plan(run(kind="light rail", projects="10", right="butt")).mitred == ()


def test_a_kick_is_pieced_under_the_middle_of_a_wide_front() -> None:
    """F45: 935 from pieces of 700: the only joint that serves lies under the wide door"""
    found = plan(run(kind="toe kick", longest="700"))
    ((at, under),) = found.joints
    assert under == "FA"
    assert [near(one.length) for one in found.pieces][:2] == [near(at), near_rest(found, near(at))]
    bare = plan(run(kind="toe kick", longest="480"))
    assert [under for _, under in bare.joints] == [""]


def near_rest(found: TrimPlan, at: str) -> str:
    return f"{float(near(found.length)) - float(at):.2f}"


def test_a_solid_apron_moves_across_and_is_slotted_at_one_edge() -> None:
    """F46: 120 x 0.0027 x 4 is 1.3"""
    made = run(kind="apron", width="120", species="ash", slotted=False).put(Species, "ash", flat="0.0027")
    made = made.put(Room, "room", moisture_low="7", moisture_made="9", moisture_high="11")
    found = plan(made)
    assert found.swell is not None
    assert found.shrink is not None
    assert near(found.swell.value, 1) == "0.6"
    stop = made.found("panel-movement", "t")
    assert (near(stop.value, 1), stop.level) == ("1.3", "stop")
    assert made.put(Trim, "t", slotted=True).quiet("panel-movement")


def test_a_filler_is_as_wide_as_the_widest_gap_and_rough_by_what_is_scribed_off() -> None:
    """F10: gaps 4, 7, 2 from the bottom up"""
    found = plan(run(kind="filler", side="left"))
    (one,) = found.pieces
    assert near(one.width) == "7.00"
    assert near(one.rough_width) == "10.00"
    assert one.ends is not None
    assert [near(end) for end in one.ends] == ["4.00", "2.00"]


def test_a_top_is_as_deep_as_the_run_and_what_it_projects() -> None:
    found = plan(run(kind="top panel", projects="20"))
    assert near(found.length) == "1020.00"
    assert near(found.width) == "580.00"


def test_trim_is_wanted_from_boards_or_sheet_and_stands_on_the_bill() -> None:
    solid = run(kind="toe kick", made_of="solid", species="ash").plan
    assert any(want.id == "K t" for group in solid.stock.groups if group.form == "board" for want in group.wants)
    assert any("K t" in line.parts for line in solid.bill.lines if line.form == "board")
    sheet = run(kind="underside", made_of="bought").plan
    assert any(want.id == "K t" for group in sheet.stock.groups if group.form == "sheet" for want in group.wants)


def test_a_trim_whose_run_has_no_length_is_no_error() -> None:
    made = job().run("K").put(Trim, "t", run="K")
    assert all(trim.length.length > ZERO for trims in made.plan.facing.runs.values() for trim in trims.trims)


def test_a_recess_deeper_than_the_run_is_long_leaves_no_piece_and_is_said() -> None:
    made = run(kind="toe kick", recess="1200")
    assert [one.id for one in made.plan.facing.pieces if one.length.units <= 0] == []
    assert {one.where for one in made.checks("strip-width") if one.is_open} == {("K t",), ("K t right return",)}
    assert made.put(Trim, "t", recess="65").quiet("strip-width")


def test_a_longest_piece_that_is_a_slip_does_not_make_a_thousand_joints() -> None:
    assert plan(run(kind="toe kick", longest="1")).joints == ()


def test_a_toe_kick_flush_with_the_frame_loses_nothing_at_its_open_ends() -> None:
    """F45: a recess of nothing is an answer, not a gap in the answers"""
    flush, usual = (plan(run(kind="toe kick", width="100", **told)) for told in ({"recess": "0"}, {}))
    assert size(flush.length) > size(usual.length)
    assert near(plan(run(kind="toe kick", width="100", allowance="0")).width) == "100.00"
