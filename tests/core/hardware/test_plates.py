"""Covers that hinges must give at their own heights, and plates chosen from those on hand (F26)."""

from __future__ import annotations

from fractions import Fraction
from math import atan, tan

from frontwright.core.job import Column, Facing, Front, HingeType, Plate
from job_builder import Made, hinged, job, near, opening, size


def leaning(lean: str = "721.6") -> Made:
    """An opening 400 x 600 whose diagonals differ: its top stands to the left; a door hung left, cover 18."""
    made = opening(widths="400", heights="600", diagonals=f"{lean},720.6").look(scheme="partial cover", cover="18")
    return made.fronts("F", opening="A", hinge_side="left")


def plates(made: Made, *heights: tuple[str, str | None]) -> Made:
    """The hinge of constant 13, cup 5 from the edge (18 on the lowest plate), with plates of these heights."""
    made = hinged(made, constant="13", edge_distance="5", adjust="2")
    for height, count in heights:
        told: dict[str, object] = {} if count is None else {"count": int(count)}
        made = made.put(Plate, f"P{height}", hinge="hinge", height=height, **told)
    return made


def chosen(made: Made, front: str = "F") -> list[str]:
    return [use.id for use in made.plan.hardware.hinges[front].plates]


def test_each_hinge_on_a_leaning_frame_must_give_a_cover_of_its_own() -> None:
    """F26: the frame's edge by direct trigonometry at each hinge's height"""
    made = plates(leaning(), ("0", None))
    front, hinge = made.front(), made.plan.hardware.hinges["F"]
    lean = made.seen().lean
    assert lean is not None
    angle = atan(float(size(lean)) / 600)  # the top stands to the left: the left edge runs away from the door
    for height, need in zip(hinge.heights, hinge.needs, strict=True):
        over_middle = float(size(height)) + float(size(front.bottom)) - 300
        assert abs(float(size(need)) - (18 - over_middle * tan(angle))) < 1e-6
    assert size(hinge.needs[0]) > 18 > size(hinge.needs[1])


def test_a_door_hung_on_the_other_side_sees_the_lean_the_other_way() -> None:
    left = plates(leaning(), ("0", None)).plan.hardware.hinges["F"].needs
    right = plates(leaning().put(Front, "F", hinge_side="right"), ("0", None)).plan.hardware.hinges["F"].needs
    assert [size(a) + size(b) for a, b in zip(left, right, strict=True)] == [36, 36]


def test_the_running_tape_at_top_and_bottom_goes_before_the_diagonals() -> None:
    """F26: the very edge that the plate sits on was read at both heights"""
    made = (
        job().run("K", S0="40", C="400", S1="40").rails().read("K", "overall", "480").read("K", "height", "680", "left")
    )
    for at, where in (("top", "38"), ("bottom", "42")):
        made = made.read("S0", "edge right", where, at)
    made = made.opening("A", "C", widths="400", heights="600").look(scheme="partial cover", cover="18")
    hinge = plates(made.fronts("F", opening="A", hinge_side="left"), ("0", None)).plan.hardware.hinges["F"]
    low, high = (size(need) for need in hinge.needs)
    assert low > high
    span = size(hinge.heights[1]) - size(hinge.heights[0])
    assert low - high == Fraction(4) * span / 600


def test_a_door_takes_the_plate_that_asks_least_of_its_adjustment() -> None:
    made = plates(leaning("720.6").look(cover="15"), ("0", None), ("3", None), ("6", None))
    assert chosen(made) == ["P3", "P3"]
    assert [near(use.off) for use in made.plan.hardware.hinges["F"].plates] == ["0.00", "0.00"]


def test_one_plate_serves_a_whole_door_as_long_as_half_of_the_adjustment_is_enough() -> None:
    """F74: 17 at the bottom and 19 at the top are each within 1 of the plate for 18, with 2 to adjust"""
    made = plates(leaning(), ("0", None), ("1", None))
    assert chosen(made) in (["P0", "P0"], ["P1", "P1"])
    assert not made.plan.hardware.hinges["F"].mixed


def test_a_door_whose_hinges_want_more_than_half_of_it_takes_two_plates_and_says_so() -> None:
    made = plates(leaning("725"), ("0", None), ("3", None)).look(cover="16.5")
    assert made.plan.hardware.hinges["F"].mixed
    check = next(c for c in made.checks("hinge-overlay", "F") if c.case == "two plates")
    assert (check.level, check.value) == ("note", "P0 and P3")
    assert all(
        c.case != "two plates" for c in plates(leaning("720.6"), ("0", None), ("3", None)).checks("hinge-overlay")
    )


def test_one_plate_that_would_use_up_all_of_the_adjustment_is_not_taken_for_both_hinges() -> None:
    """F74: 16.98 and 16.02 lie 1.98 from the plates for 15 and 18: within 2, but more than half of it"""
    made = plates(leaning("722"), ("0", None), ("3", None)).look(cover="16.5")
    hinge = made.plan.hardware.hinges["F"]
    assert [near(need) for need in hinge.needs] == ["16.98", "16.02"]
    assert chosen(made) == ["P0", "P3"]
    assert hinge.mixed


def test_plates_that_were_counted_are_not_taken_twice() -> None:
    made = plates(leaning("720.6").look(cover="16"), ("3", "1"), ("0", "1"))
    hinge = made.plan.hardware.hinges["F"]
    assert sorted(chosen(made)) == ["P0", "P3"]
    assert not any(use.lacking for use in hinge.plates)


def test_a_hinge_gives_way_to_one_that_can_take_no_other_plate() -> None:
    """Two doors, covers 18 and 15: the plate 3 goes to the second one, the first can also hang on plate 1"""
    made = opening(widths="400", heights="600").look(scheme="partial cover", cover="16.5")
    made = made.fronts("A1", opening="A", hinge_side="left")
    made = plates(made, ("3", "2"), ("1", "2"))
    made = (
        made.put(Column, "D", run="R", place=2)
        .opening("B", "D", 1, widths="400", heights="600")
        .fronts("B1", opening="B", hinge_side="left")
    )
    made = made.look("opening:B", cover="14")
    assert chosen(made, "B1") == ["P3", "P3"]
    assert chosen(made, "A1") == ["P1", "P1"]
    assert made.quiet("hinge-overlay")


def test_plates_that_are_lacking_are_counted() -> None:
    made = plates(leaning("720.6"), ("0", "1"))
    check = next(c for c in made.checks("hinge-overlay", "F") if c.case == "plates lack")
    assert (check.level, check.value) == ("note", 1)
    assert all(c.case != "plates lack" for c in plates(leaning("720.6"), ("0", "2")).checks("hinge-overlay"))


def test_a_plate_of_another_hinge_is_left_where_it_is() -> None:
    made = plates(leaning("720.6").look(cover="15"), ("0", None)).put(HingeType, "other")
    assert chosen(made.put(Plate, "X", hinge="other", height="3")) == ["P0", "P0"]
    assert chosen(made.put(Plate, "X", height="3")) == ["X", "X"]


def test_a_hinge_told_by_the_range_it_covers_counts_from_its_middle() -> None:
    """A range of 16 to 20 is a hinge for 18 with 2 to either side"""
    made = hinged(leaning("720.6").look(cover="19.5"), cover_least="16", cover_most="20")
    check = made.found("hinge-overlay")
    assert (check.case, check.level) == ("at the end", "note")
    assert isinstance(check.limit, tuple)
    assert [size(one) for one in check.limit] == [16, 20]
    assert (
        hinged(leaning("720.6").look(cover="21"), cover_least="16", cover_most="20").found("hinge-overlay").level
        == "stop"
    )


def test_covered_inside_edges_count_for_the_plate() -> None:
    """F26: o + t_r"""
    bare = plates(leaning("720.6"), ("0", None))
    covered = bare.put(Facing, "R", inside_edges="sides", inside_thickness="2")
    assert size(covered.plan.hardware.hinges["F"].needs[0]) - size(bare.plan.hardware.hinges["F"].needs[0]) == 2


def test_a_facing_takes_the_plate_forward() -> None:
    made = plates(leaning("720.6"), ("0", None)).put(Facing, "R", faces=True, thickness="2")
    forward = made.plan.hardware.hinges["F"].forward
    assert forward is not None
    assert size(forward) == 2
