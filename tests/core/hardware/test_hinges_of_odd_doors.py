"""Hinges and cups of doors that are hung at the top, short, wide, slab, or on a hinge known by its constant."""

from __future__ import annotations

import pytest
from frontwright.core.job import DoorKind, Front
from job_builder import Made, door, hinged, near, opening, size


def heights(made: Made) -> list[str]:
    return [near(h) for h in made.plan.hardware.hinges["F"].heights]


def count(made: Made) -> int:
    return made.plan.hardware.hinges["F"].count


@pytest.mark.parametrize(
    ("height", "hinges"), [("900", 2), ("901", 3), ("1500", 3), ("1900", 4), ("2300", 5), ("2301", 6)]
)
def test_the_height_asks_for_its_hinges_up_to_and_with_the_limit(height: str, hinges: int) -> None:
    """F25; a narrow door, so that its mass asks for no more"""
    assert count(door("150", height, kind="slab", thickness="16")) == hinges


def test_the_hinges_own_table_goes_before_the_usual_one() -> None:
    """F25: the maker's sheet overrules"""
    assert count(hinged(door(height="800"), two_to="700")) == 3
    assert count(hinged(door(height="800"), two_mass="1")) == 3


def test_three_hinges_stand_even() -> None:
    """F25: 90, 700, 1310"""
    assert heights(door("500", "1400")) == ["90.00", "700.00", "1310.00"]


def test_a_door_hung_at_the_top_counts_hinges_along_its_width() -> None:
    """F25"""
    made = door("1000", "400").put(Front, "F", hinge_side="top")
    assert count(made) == 3
    assert heights(made) == ["90.00", "500.00", "910.00"]


def test_a_door_hung_at_the_top_is_wide_by_its_height() -> None:
    """F25: one more over 600, counted away from the hinges"""
    assert count(door("650", "400", kind="slab", thickness="16").put(Front, "F", hinge_side="top")) == 2
    assert count(door("650", "400", kind="slab", thickness="16")) == 3
    assert count(door("400", "650", kind="slab", thickness="16").put(Front, "F", hinge_side="top")) == 3


def test_a_door_hung_at_the_top_is_bored_into_its_top_rail() -> None:
    """F27"""
    made = door(kind="dowelled", stile="80", top_rail="60", rabbet_width="10").put(Front, "F", hinge_side="top")
    assert near(made.plan.hardware.cups["F"].limit) == "47.00"


def test_the_cover_of_a_door_hung_at_the_top_is_the_one_above() -> None:
    """F26"""
    made = opening(widths="400", heights="600").fronts("F", opening="A", hinge_side="top")
    made = hinged(made.look(scheme="partial cover", cover="18").put(Front, "F", pin_top="625"), cover="18", adjust="1")
    check = made.found("hinge-overlay")
    assert (near(check.value), check.facts["side"], check.level) == ("25.00", "top", "stop")


def test_a_short_door_has_its_hinges_a_quarter_from_each_end() -> None:
    """With 90 from each end those of a door of 160 would cross"""
    assert heights(door(height="160", kind="slab")) == ["40.00", "120.00"]
    assert heights(door(height="270", kind="slab")) == ["90.00", "180.00"]


def test_an_end_distance_that_was_chosen_holds_while_two_hinges_fit() -> None:
    chosen = hinged(door(height="160", kind="slab"), end_distance="70")
    assert heights(chosen) == ["70.00", "90.00"]
    assert heights(hinged(door(height="160", kind="slab"), end_distance="90")) == ["40.00", "120.00"]


def test_the_cover_that_a_hinge_gives_follows_from_its_constant_and_plate() -> None:
    """F26: 5 + 13 - 0 is 18"""
    made = hinged(door(), edge_distance="5", constant="13", plate="0")
    assert size(made.plan.hardware.hinges["F"].cover) == 18
    assert size(hinged(door(), edge_distance="5", constant="13", plate="2").plan.hardware.hinges["F"].cover) == 16
    assert hinged(door(), constant="13").plan.hardware.hinges["F"].cover is None


def test_a_slab_has_no_joint_for_the_cup_to_meet() -> None:
    """F27"""
    made = door("448", "716", kind="slab")
    assert near(made.plan.hardware.cups["F"].limit) == "445.00"
    assert made.quiet("cup-fit")


@pytest.mark.parametrize(
    ("kind", "limit"), [("dowelled", "48.00"), ("stub tenon", "47.00"), ("cope and stick", "46.00")]
)
def test_the_cup_keeps_clear_of_whichever_joint_there_is(kind: DoorKind, limit: str) -> None:
    """F27: stile 60 less rabbet 9, groove 10 or stick 11, less 3"""
    made = door(kind=kind, stile="60", rabbet_width="9", groove="10", stick="11")
    cup = made.plan.hardware.cups["F"]
    assert (near(cup.limit), near(cup.far_edge), near(cup.centre)) == (limit, "40.00", "22.50")


def test_hardware_keeps_its_millimetres_in_an_inch_job() -> None:
    """F27: 3 mm and 35 mm"""
    made = door("18", "28", unit="in")
    assert near(made.plan.hardware.cups["F"].far_edge) == "38.00"
    assert near(made.plan.hardware.cups["F"].floor_left, 4, "in") == "0.2500"


def test_a_pair_hangs_outside_and_a_single_door_left_until_chosen() -> None:
    made = opening(widths="800", heights="600").look(scheme="partial cover").fronts("L", "R", opening="A")
    assert [(made.front(n).hinge_side, made.front(n).hinge_side_assumed) for n in ("L", "R")] == [
        ("left", False),
        ("right", False),
    ]
    single = opening(widths="400", heights="600").fronts("F", opening="A")
    assert (single.front().hinge_side, single.front().hinge_side_assumed) == ("left", True)


def test_drawers_and_fixed_fronts_take_no_hinges_and_fixed_ones_no_pull() -> None:
    made = door().put(Front, "F", kind="drawer")
    assert made.plan.hardware.hinges == {}
    assert made.plan.hardware.pulls == {"F": 1}
    assert door().put(Front, "F", kind="fixed").plan.hardware.pulls == {}


def test_a_door_hung_where_it_meets_another_has_no_frame_to_hang_on() -> None:
    """Cup bored on the wrong edge"""
    made = opening(widths="800", heights="600").look(scheme="partial cover").fronts("L", "R", opening="A")
    check = made.put(Front, "L", hinge_side="right").found("hinge-overlay", "L")
    assert (check.case, check.level) == ("no frame", "stop")
    assert made.quiet("hinge-overlay")
    three = made.fronts("L", "M", "R", opening="A")
    assert three.found("hinge-overlay", "M").level == "warn"


def test_the_makers_own_width_goes_before_the_usual_one() -> None:
    """F25: one more from 600 on, or from what the maker says"""
    assert count(hinged(door("650", "400", kind="slab", thickness="16"), wide="700")) == 2
    assert count(hinged(door("500", "400", kind="slab", thickness="16"), wide="450")) == 3
