"""The mistakes of space: doors that do not open, corners, drawers that no longer go in, gaps that close (F12, F23, F24,
F43). Each check is shown to fire and to fall silent."""

from __future__ import annotations

from dataclasses import replace

import pytest
from frontwright.core.findings import Check
from frontwright.core.job import (
    Cabinet,
    Corner,
    DoorBuild,
    End,
    Facing,
    Front,
    HingeType,
    Inside,
    Member,
    Obstacle,
    OldFront,
    PullType,
    Run,
)
from frontwright.core.plan import derive
from frontwright.core.space.taken import applied
from job_builder import Made, hinged, job, near, size


def run_of_two(**look: object) -> Made:
    """A base run 40 + 400 + 40 + 400 + 40, one door over each opening by 18, hung at its outer side."""
    made = job().run("K", S0="40", A="400", S1="40", C="400", S2="40").rails()
    made = made.read("K", "height", "700", "middle").read("K", "overall", "920", "").read("K", "height", "700", "left")
    for name in ("A", "C"):
        made = made.opening(name, name, widths="400", heights="620")
    made = made.look(**{"scheme": "full cover", "cover": "18", "gap": "4", "door_build": "build", **look})
    made = made.put(DoorBuild, "build", kind="slab", thickness="20", stile="60")
    return made.fronts("FA", opening="A", hinge_side="left").fronts("FC", opening="C", hinge_side="right")


def pulled(made: Made, projection: str = "35", **fields: object) -> Made:
    return made.put(PullType, "bar", projection=projection, **fields).look(pull="bar")


def angle(made: Made, front: str = "FA") -> str | None:
    figure = made.plan.space.swings[front].angle
    return None if figure is None else f"{float(figure.value):.2f}"  # type: ignore[arg-type]  # a number of degrees


def taken(made: Made, check: Check, at: int = 0) -> Made:
    return Made(applied(made.job, check.ways[at]))


def words_of(check: Check) -> list[tuple[str, str, object]]:
    return [(way.of, way.field, way.value) for way in check.ways]


# -- mistake 10: a door against a wall, trim, an appliance; an inner drawer that scrapes


def beside(made: Made, away: str, **fields: object) -> Made:
    return made.put(Obstacle, "trim", run="K", kind="trim", side="left", **{"away": away, "out": "600", **fields})


def test_a_door_whose_pull_meets_the_trim_warns_until_the_trim_is_further_off() -> None:
    """F23: hinge edge 22 from the run's end, pull at 406 with its middle 30 from the free edge"""
    near_it = pulled(beside(run_of_two(), "0"))
    check = near_it.found("swing", "FA")
    assert (check.case, check.level, check.facts["by"], check.facts["pull"]) == ("short", "warn", "trim", 1)
    assert (check.value, check.limit) == ("88.17°", "90°")
    assert pulled(beside(run_of_two(), "13")).quiet("swing")


def test_a_wall_is_no_matter_for_a_door_hung_on_the_other_side() -> None:
    made = pulled(beside(run_of_two(), "0")).put(Front, "FA", hinge_side="right")
    assert made.quiet("swing")


def test_the_ways_out_of_a_door_that_does_not_open_are_each_tried_and_clear_it() -> None:
    made = pulled(beside(run_of_two(), "0"))
    check = made.found("swing", "FA")
    assert words_of(check)[:2] == [("FA", "hinge_side", "right"), ("opening:A", "pull", "flush pull")]
    assert check.ways[2].field == "pin_left"
    assert [way.gives for way in check.ways][1:] == ["92.89°", "90°"]
    for at in range(len(check.ways)):
        assert taken(made, check, at).quiet("swing")


def test_a_wall_whose_distance_nobody_read_warns_only_of_a_pull_that_was_chosen() -> None:
    """Nothing entered, nothing warned of; what is assumed stands in the table all the same"""
    walled = run_of_two().put(End, "K left", run="K", side="left", kind="wall")
    assert angle(walled) == "88.59"
    assert walled.quiet("swing")
    assert pulled(walled).found("swing", "FA").level == "warn"
    assert walled.put(End, "K left", gap_top="0").found("swing", "FA").facts["by"] == "wall"


def test_what_can_be_pushed_aside_or_stands_at_another_height_stops_nothing() -> None:
    made = pulled(run_of_two())
    assert beside(made, "0", moves=True).quiet("swing")
    assert beside(made, "0", low="705").quiet("swing")
    assert beside(made, "0", high="10").quiet("swing")
    assert not beside(made, "0", low="600").quiet("swing")


def test_a_pull_above_the_obstacle_leaves_the_leaf_alone_to_meet_it() -> None:
    """F23 for the free edge alone: g 22, a 436"""
    assert angle(beside(pulled(run_of_two()), "0", high="300")) == "92.89"


def test_a_trim_that_ends_before_the_door_reaches_it_stops_it_later() -> None:
    """The face of the door stands 20 before the frame; trim as thick as that is passed until the door lies back"""
    assert angle(beside(run_of_two(), "0", out="20")) is None
    assert angle(beside(run_of_two(pulls=0), "0", out="30")) == "155.56"  # 90 + atan(22/10)


def test_an_appliance_handle_counts_with_what_it_stands_out() -> None:
    made = run_of_two(pulls=0).put(Obstacle, "oven", run="K", kind="appliance", side="left", away="0", out="20")
    assert angle(made) is None
    assert angle(made.put(Obstacle, "oven", handle="10")) == "155.56"


def test_a_hinge_that_opens_less_than_nothing_else_would_counts() -> None:
    made = hinged(run_of_two(), opens="95")
    assert angle(made) == "95.00"
    assert made.quiet("swing")
    assert hinged(run_of_two(), opens="85").found("swing", "FA").case == "hinge"


def test_the_neighbours_pull_stops_a_door_that_opens_far() -> None:
    """FC hung on the left: it lies back over FA until its leaf meets the pull there, 35 out at 30 from the edge"""
    made = pulled(run_of_two().put(Front, "FC", hinge_side="left"))
    swing = made.plan.space.swings["FC"]
    assert (swing.by, swing.stopped_by) == ("pull", "FA")
    assert angle(made, "FC") == "134.17"  # 180 - atan(35/(4 + 30))
    assert made.quiet("swing")


def test_a_drawer_behind_a_door_that_opens_square_at_most_scrapes() -> None:
    """20 thick, 18 cover, runners 13 each side: 31 inside the hinge edge; 87.5 would not do, 90 does"""
    made = pulled(beside(run_of_two(), "0")).put(Inside, "d", opening="A", kind="inner drawer", width="374")
    swing = made.plan.space.swings["FA"]
    assert (swing.drawer, swing.need.units) == ("", 90)
    wide = pulled(run_of_two()).put(Inside, "d", opening="A", kind="inner drawer", width="400")
    assert wide.plan.space.swings["FA"].drawer == "d"
    assert hinged(wide, opens="110").found("swing", "FA").case == "drawer"
    assert hinged(wide, opens="120").quiet("swing")


@pytest.mark.parametrize("squared", [False, True])
def test_an_inset_door_on_a_covered_edge_stands_so_much_nearer_to_the_drawer_behind_it(squared: bool) -> None:
    """Runner 13 at the bare edge: the door's edge is a 2 mm gap and a 3 mm strip inside it, 8 remain"""
    made = run_of_two(scheme="inset", inset_side="2").put(Inside, "d", opening="A", kind="inner drawer", width="374")
    made = made.put(Facing, "K", inside_edges="sides", inside_thickness="3", squared=squared)
    for side in ("left", "right"):
        need = made.put(Front, "FA", hinge_side=side).plan.space.swings["FA"].need
        room = need.terms[2].figure
        assert size(room) == 13 - 2 - 3


def test_doors_hung_back_to_back_know_how_far_both_open_and_warn_nobody() -> None:
    made = pulled(run_of_two().put(Front, "FA", hinge_side="right").put(Front, "FC", hinge_side="left"))
    swing = made.plan.space.swings["FA"]
    assert (swing.beside, f"{float(swing.together.value):.2f}") == ("FC", "85.35")  # type: ignore[union-attr,arg-type]
    assert made.quiet("swing")


def test_an_island_before_a_drawer_warns_until_its_box_comes_out() -> None:
    made = pulled(run_of_two().put(Front, "FA", kind="drawer"))
    made = made.put(Inside, "box", opening="A", length="500")
    made = made.put(Obstacle, "island", run="K", kind="cabinet", side="before", away="550")
    check = made.found("swing", "FA")
    assert (check.case, near(check.value), near(check.limit)) == ("drawn", "495.00", "500.00")
    assert made.put(Obstacle, "island", away="560").quiet("swing")
    assert made.put(Obstacle, "island", begins="500", ends="900").quiet("swing")


def test_a_counter_that_hangs_over_a_front_lets_nothing_open() -> None:
    made = run_of_two().put(Obstacle, "top", run="K", kind="counter", side="before", out="30", low="670")
    assert made.found("swing", "FA").value == "0°"
    assert made.put(Obstacle, "top", low="690").quiet("swing")


def test_an_inset_door_whose_back_corner_does_not_clear_its_free_edge_warns() -> None:
    """√(144² + 30²) − 144 is 3.09, the gap 2"""
    made = job().run("K", S0="40", A="148", S1="40").rails().read("K", "height", "700", "middle")
    made = made.opening("A", "A", widths="148", heights="620").fronts("F", opening="A", hinge_side="left")
    made = made.look(scheme="inset", inset_side="2", door_build="build")
    thick = made.put(DoorBuild, "build", kind="slab", thickness="30")
    check = thick.found("swing", "F")
    assert (check.case, check.level, near(check.value), near(check.limit)) == ("free edge", "warn", "2.00", "3.09")
    assert made.put(DoorBuild, "build", kind="slab", thickness="20").quiet("swing")
    assert taken(thick, check).quiet("swing")


def test_a_pull_that_lies_off_its_front_is_said() -> None:
    made = pulled(run_of_two(), from_edge="500")
    assert made.found("swing", "FA").case == "pull off"
    assert pulled(run_of_two(), from_edge="50").quiet("swing")


# -- mistake 9: doors and drawers that meet in the corner


def corner(stile: str = "45", other_kind: str = "drawer", pull: bool = True, **fields: object) -> Made:
    """The right end of K in a corner with the left end of L; both covered by 18; K's is `stile` wider."""
    made = job().run("K", S0="40", A="400", S1=f"{stile} + 18").rails().read("K", "height", "700", "middle")
    made = made.run("L", S2="80", C="400", S3="40").put(Run, "L", stands="base")
    made = made.rails(run="L").read("L", "height", "700", "middle")
    made = made.opening("A", "A", widths="400", heights="620").opening("C", "C", widths="400", heights="620")
    made = made.look(scheme="full cover", cover="18", door_build="build", drawer_build="build")
    made = made.put(DoorBuild, "build", kind="slab", thickness="20", stile="60")
    made = made.fronts("FA", opening="A", hinge_side="left").fronts("FC", opening="C", kind=other_kind)
    made = made.put(Corner, "corner", left="K", right="L", **fields)
    return pulled(made, "32") if pull else made


def test_a_corner_stile_too_narrow_to_pass_the_other_legs_pull_stops() -> None:
    """F24: 20 + 32 + 6 is 58: a corner stile of 45 cannot even take zero cover"""
    made = corner("45")
    check = made.found("corner", "FA")
    assert (check.case, check.level, near(check.value), near(check.limit)) == ("past", "stop", "45.00", "58.00")
    assert [c.case for c in corner("57").checks("corner", "FA") if c.is_open and c.where[0] == "FA"] == ["past"]
    assert corner("58").quiet("corner")


def test_a_closed_front_needs_the_other_fronts_thickness_and_a_clearance() -> None:
    cases = [(c.case, near(c.limit)) for c in corner("25").checks("corner") if c.is_open and c.where[0] == "FA"]
    assert cases == [("closed", "26.00"), ("past", "58.00")]


def test_a_door_hung_on_the_corner_needs_the_greater_pull_and_both_where_they_meet() -> None:
    hung = corner("57", "fixed").put(Front, "FA", hinge_side="right")
    assert (hung.found("corner", "FA").case, near(hung.found("corner", "FA").limit)) == ("hung here", "58.00")
    meets = corner("70", "door").put(Front, "FA", hinge_side="right").put(Front, "FC", hinge_side="left")
    meets = meets.put(PullType, "other", projection="32", from_edge="72").look("opening:C", pull="other")
    check = next(c for c in meets.checks("corner") if c.is_open and c.where[0] == "FA")
    assert (check.case, near(check.limit)) == ("pulls meet", "90.00")
    apart = meets.put(PullType, "other", from_edge="200")
    assert "pulls meet" not in [c.case for c in apart.checks("corner")]


def test_the_other_legs_facing_is_taken_off_the_corner_stile() -> None:
    """F24, F13"""
    made = corner("59").put(Facing, "L", faces=True, thickness="2")
    assert near(made.found("corner", "FA").value) == "57.00"
    assert corner("60").put(Facing, "L", faces=True, thickness="2").quiet("corner")


def test_what_is_hidden_of_the_leg_that_runs_on_is_no_room_for_its_fronts() -> None:
    made = corner("658", runs_on="left", hidden="600")
    assert made.quiet("corner")
    assert near(corner("657", runs_on="left", hidden="600").found("corner", "FA").value) == "57.00"


def test_an_inset_leg_and_a_flush_pull_leave_more_room() -> None:
    assert near(corner("45").look("run:L", scheme="inset").checks("corner", "FA")[0].limit) == "6.00"
    flush = corner("27").put(PullType, "flush", kind="flush").look("run:L", pull="flush")
    assert flush.quiet("corner")


def test_the_ways_out_of_a_corner_come_in_the_order_of_trouble_and_each_clears_it() -> None:
    """Hang away; inset on one leg; flush pull; narrower front"""
    made = corner("50", "fixed").put(Front, "FA", hinge_side="right")
    check = made.found("corner", "FA")
    fields = [(way.of, way.field) for way in check.ways]
    assert fields == [
        ("FA", "hinge_side"),
        ("run:L", "scheme"),
        ("run:K", "scheme"),
        ("run:K", "pull"),
        ("FA", "pin_right"),
    ]
    for at in range(len(check.ways)):
        assert not [c for c in taken(made, check, at).checks("corner") if c.is_open and c.where[0] == "FA"]


def test_a_way_out_says_what_it_changes_and_brings() -> None:
    made = corner("40", "fixed").put(Front, "FA", hinge_side="right")
    tried = made.plan.space.tried["corner", ("FA", "FC"), "hung here"]
    narrower = next(one for one in tried if one.way.field == "pin_right")
    assert [(name, what, near(old), near(new)) for name, what, old, new in narrower.sizes] == [
        ("FA", "width", "436.00", "418.00")
    ]
    assert "cover" in {check.code for check in narrower.brings}
    assert next(one for one in tried if one.way.field == "hinge_side").sizes == ()


def test_a_corner_that_breaks_by_what_nobody_chose_only_warns() -> None:
    assert {c.level for c in corner("45", pull=False).checks("corner", "FA") if c.is_open} == {"warn"}


def test_fronts_at_different_heights_do_not_meet() -> None:
    assert near(corner("45").found("corner", "FA").value) == "45.00"
    apart = corner("45").put(Front, "FC", pin_top="100").put(Front, "FA", pin_bottom="110")
    assert apart.quiet("corner")


def test_a_wide_corner_takes_less_room_than_a_square_one() -> None:
    """135°: the face of the other front, 20 out and 80 from the corner, lies clear of this leg's plane"""
    made = corner("45", angle="135")
    (check,) = made.checks("corner", "FA")[:1]
    assert check.level == "ok"
    assert float(check.limit) < 0  # type: ignore[arg-type]  # a fraction of units


def test_no_corner_entered_says_nothing() -> None:
    made = corner("20")
    assert derive(made.job.drop(Corner, "corner")).space.meetings == ()


# -- mistake 11: inside edges covered, drawers no longer go in


def boxed(strip: str = "2.0", edges: str = "sides", **fields: object) -> Made:
    made = run_of_two().put(Front, "FA", kind="drawer").read("A", "width", "420", "middle").read("A", "across", "420")
    made = made.put(Facing, "K", inside_edges=edges, inside_thickness=strip)
    return made.put(Inside, "box", opening="A", **{"width": "388", "runner": "12.7", **fields})


def test_returns_that_leave_a_drawer_no_room_stop() -> None:
    """F12: 420 − 2·2.0 − 388 − 2·12.7 is 2.6; with returns of 3.5 it is −0.4"""
    assert near(boxed().check("drawer-room").value) == "2.60"
    assert boxed().quiet("drawer-room")
    check = boxed("3.5").found("drawer-room")
    assert (check.level, near(check.value), near(check.limit), check.case) == ("stop", "-0.40", "1.00", "across")


def test_the_same_upward_where_the_rails_are_covered_too() -> None:
    high = boxed(edges="all round", height="616")
    assert [c.case for c in high.checks("drawer-room") if c.is_open] == ["upright"]
    assert boxed(edges="sides", height="616").quiet("drawer-room")


def test_thinner_returns_or_none_let_the_drawer_in_again() -> None:
    made = boxed("3.5")
    check = made.found("drawer-room")
    assert [(way.of, way.field) for way in check.ways] == [("K", "inside_thickness"), ("K", "inside_edges")]
    assert near(check.ways[0].value) == "2.80"
    for at in (0, 1):
        assert taken(made, check, at).quiet("drawer-room")


def test_a_drawer_by_a_runner_nobody_measured_only_warns() -> None:
    assert boxed("3.5", runner=None).found("drawer-room").level == "warn"


def test_covered_inside_edges_make_inset_fronts_smaller_and_ask_more_of_the_hinge() -> None:
    """F42, F26"""
    inset = run_of_two(scheme="inset", inset_side="2", inset_top="2", inset_bottom="2.5")
    bare, sides = inset.front("FA"), inset.put(Facing, "K", inside_edges="sides", inside_thickness="2").front("FA")
    around = inset.put(Facing, "K", inside_edges="all round", inside_thickness="2").front("FA")
    assert (near(bare.width), near(sides.width), near(around.width)) == ("396.00", "392.00", "392.00")
    assert (near(bare.height), near(sides.height), near(around.height)) == ("615.50", "615.50", "611.50")
    assert near(sides.overlay["left"]) == "-2.00"
    covered = hinged(run_of_two(), cover="18").put(HingeType, "hinge", adjust="1")
    assert covered.quiet("hinge-overlay")
    lined = covered.put(Facing, "K", inside_edges="sides", inside_thickness="2")
    assert near(lined.found("hinge-overlay", "FA").value) == "20.00"


# -- mistake 12: ends skinned, the appliance no longer fits


def skinned(gap: str = "8", skin: str = "6.2") -> Made:
    made = run_of_two().put(End, "K right", run="K", side="right", kind="appliance", gap_top="12", gap_bottom=gap)
    return made.put(End, "K right", skin="bought", skin_thickness=skin)


def test_a_skin_that_takes_the_gap_of_the_appliance_stops() -> None:
    """F43: 8 − 6.2 is 1.8, and 3 must be left"""
    check = skinned().found("end-gap")
    assert (check.level, near(check.value), near(check.limit), check.case) == ("stop", "1.80", "3.00", "right")
    assert skinned("9.2").quiet("end-gap")
    assert near(skinned().plan.space.lengths["K"]) == "926.20"


def test_the_gap_that_the_appliance_wants_goes_before_the_usual_one() -> None:
    made = skinned("12.1").put(Obstacle, "d", run="K", kind="appliance", side="right", away="12", out="20", wanted="6")
    assert near(made.found("end-gap").limit) == "6.00"
    assert made.put(Obstacle, "d", wanted="5").quiet("end-gap")


def test_a_thinner_skin_or_none_leaves_the_gap() -> None:
    made = skinned()
    check = made.found("end-gap")
    assert [(way.field, near(way.value) if way.field != "skin" else way.value) for way in check.ways] == [
        ("skin_thickness", "5.00"),
        ("skin", "none"),
    ]
    for at in (0, 1):
        assert taken(made, check, at).quiet("end-gap")


def test_an_end_whose_gap_nobody_read_says_nothing() -> None:
    made = skinned()
    end = replace(made.job.ends["K right"], gap_top=None, gap_bottom=None)
    assert Made(made.job.put(end)).checks("end-gap") == []


@pytest.mark.parametrize("text", ["-5", "0"])
def test_a_wall_inside_the_cabinet_is_said_to_be_no_size(text: str) -> None:
    made = run_of_two().put(Obstacle, "wall", run="K", side="left", away=text)
    assert [c.case for c in made.checks("unread")] == (["no size"] if text == "-5" else [])


def test_a_squared_opening_leaves_a_box_the_upright_height_between_its_returns() -> None:
    """F12: 600 left, 610 right, the top 6 to the left: over the upright rectangle it is higher than the least"""
    made = job().run("K", S0="40", C="400", S1="40").rails().read("K", "height", "690", "left")
    made = made.opening("A", "C", widths="400", heights="600,605,610", diagonals="724.14,725.86")
    made = made.fronts("F", opening="A", kind="drawer").put(Inside, "b", opening="A", height="590")
    made = made.put(Facing, "K", inside_edges="all round", inside_thickness="2", squared=True)
    (room,) = made.plan.space.drawers
    covered = made.plan.facing.runs["K"].openings["A"]
    assert size(room.have) == size(covered.heights[1]) - 590
    assert 6.1 < size(room.have) < 6.2


# -- F11, F14


def test_a_plate_wider_than_the_frame_is_thick_stops() -> None:
    """F14"""
    made = hinged(run_of_two(), plate_width="22").put(Member, "S0", thickness="19").put(Member, "S2", thickness="22")
    check = next(c for c in made.checks("cup-fit", "FA") if c.case == "plate seat")
    assert (check.level, near(check.value), near(check.limit)) == ("stop", "19.00", "22.00")
    assert [c.level for c in made.checks("cup-fit", "FC") if c.case == "plate seat"] == ["ok"]
    assert not [c for c in run_of_two().checks("cup-fit") if c.case == "plate seat"]


def test_a_frame_that_nobody_measured_only_warns_of_the_plate() -> None:
    made = hinged(run_of_two(), plate_width="22")
    assert {c.level for c in made.checks("cup-fit") if c.case == "plate seat"} == {"warn"}


def test_screws_that_come_through_the_side_stop_and_shorter_ones_do_not() -> None:
    """F14: the screw and 3 mm"""
    box = run_of_two().put(Cabinet, "box", run="K", kind="frameless", side="16")
    found = {c.level for c in hinged(box, screw="14").checks("cup-fit") if c.case == "screw seat"}
    assert found == {"stop"}
    assert {c.level for c in hinged(box, screw="13").checks("cup-fit") if c.case == "screw seat"} == {"ok"}


def test_an_old_door_says_what_cover_its_hinges_give_now() -> None:
    """F11: door 450 on opening 424 gives 13"""
    made = run_of_two().read("A", "width", "424", "middle").put(OldFront, "A", opening="A", width="450")
    assert {opening: near(cover) for opening, cover in made.plan.space.old_covers.items()} == {"A": "13.00"}
    assert made.put(OldFront, "A2", opening="A", width="200").plan.space.old_covers == {}
