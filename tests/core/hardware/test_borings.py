"""Borings from the back, pairs mirrored; screws of pulls; bumpers; what hangs on the wall."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.hardware.result import Hole
from frontwright.core.job import Drawer, Facing, Front, OldFront, PullType, Run
from frontwright.core.plan import bored, screwed
from job_builder import Made, door, near, opening, size


def pair(**pull: object) -> Made:
    made = opening(widths="800", heights="600").look(scheme="partial cover", cover="18", pull="bar")
    return made.fronts("L", "R", opening="A").put(PullType, "bar", **pull)


def told(hole: Hole) -> tuple[object, ...]:
    depth = None if hole.depth is None else size(hole.depth)
    return hole.kind, size(hole.from_hinge), size(hole.from_bottom), size(hole.diameter), depth


def test_the_two_of_a_pair_are_bored_alike_from_their_hinge_edges() -> None:
    left, right = (bored(pair().plan)[name] for name in ("L", "R"))
    assert (left.side, right.side) == ("left", "right")
    assert [told(hole) for hole in left.holes] == [told(hole) for hole in right.holes]


def test_a_cup_has_two_screws_behind_its_centre() -> None:
    """T1: 45 apart, 9.5 behind; centre 22.5 from the edge"""
    holes = bored(door("448", "716").plan)["F"]
    assert [near(h.from_hinge) for h in holes.of("cup")] == ["22.50", "22.50"]
    assert [(near(h.from_hinge), near(h.from_bottom)) for h in holes.of("cup screw")][:2] == [
        ("32.00", "67.50"),
        ("32.00", "112.50"),
    ]
    assert all(h.depth is not None and size(h.depth) == 10 for h in holes.of("cup screw"))


def test_holes_of_a_pull_stand_as_far_apart_as_it_was_bought() -> None:
    """F28: 96 apart, 64 from the top, mid-stile"""
    pulls = bored(door("448", "716", stile="60").plan)["F"].of("pull")
    assert [(near(h.from_hinge), near(h.from_bottom)) for h in pulls] == [("418.00", "556.00"), ("418.00", "652.00")]
    assert all(h.depth is None for h in pulls)


def test_a_knob_has_one_hole_and_a_flush_pull_none_to_bore() -> None:
    assert len(bored(pair(kind="knob").plan)["L"].of("pull")) == 1
    assert bored(pair(kind="flush").plan)["L"].of("pull") == ()


def test_a_door_hung_at_the_top_is_bored_along_its_top_edge() -> None:
    made = opening(widths="800", heights="300").look(scheme="partial cover", cover="10")
    cups = bored(made.fronts("F", opening="A", hinge_side="top").plan)["F"].of("cup")
    assert {near(h.from_bottom) for h in cups} == {"297.50"}
    assert near(cups[0].from_hinge) == "90.00"


def test_a_drawer_front_is_bored_level() -> None:
    made = opening(widths="400", heights="200").look(scheme="partial cover", cover="10")
    pulls = bored(made.fronts("F", opening="A", kind="drawer").plan)["F"].of("pull")
    assert [(near(h.from_hinge), near(h.from_bottom)) for h in pulls] == [("162.00", "110.00"), ("258.00", "110.00")]


def test_no_front_is_bored_beyond_its_edges() -> None:
    made = pair()
    for name, boring in bored(made.plan).items():
        front = made.front(name)
        for hole in boring.holes:
            half = size(hole.diameter) / 2
            assert half <= size(hole.from_hinge) <= size(front.width) - half
            assert half <= size(hole.from_bottom) <= size(front.height) - half


# -- screws of pulls


def test_a_pull_screw_passes_the_door_and_goes_4_to_8_into_the_pull() -> None:
    """F28: 20 and 4 to 8: 24 to 28"""
    screw = screwed(door(thickness="20").plan)["F"]
    assert (near(screw.least), near(screw.most), screw.count) == ("24.00", "28.00", 2)
    assert screw.sold is not None
    assert near(screw.sold) == "28.00"


def test_no_screw_is_longer_than_the_thread_is_deep() -> None:
    made = door(thickness="20").look(pull="bar").put(PullType, "bar", thread="5")
    screw = screwed(made.plan)["F"]
    assert (near(screw.least), near(screw.most)) == ("24.00", "25.00")
    assert screw.sold is not None
    assert near(screw.sold) == "25.00"


def test_a_counterbore_shortens_it_and_no_length_that_is_sold_may_fit() -> None:
    made = door(thickness="20").look(pull="bar").put(PullType, "bar", counterbore="3", thread="4.5")
    screw = screwed(made.plan)["F"]
    assert (near(screw.least), near(screw.most)) == ("21.00", "21.50")
    assert screw.sold is None


def test_behind_an_applied_drawer_front_packing_and_box_are_passed_too() -> None:
    """F28: 20 + 2 of packing where the frame is faced (F13) + 15"""
    made = opening(widths="400", heights="200").look(scheme="partial cover", cover="10")
    made = made.fronts("F", opening="A", kind="drawer").put(Drawer, "A", front="applied", box_front="15")
    assert near(screwed(made.plan)["F"].passes) == "35.00"
    faced = made.put(Facing, "R", faces=True, thickness="2")
    assert near(screwed(faced.plan)["F"].passes) == "37.00"
    assert near(screwed(faced.put(Drawer, "A", packing="3").plan)["F"].passes) == "38.00"


# -- bumpers, weight


@pytest.mark.parametrize(("chosen", "thick"), [(None, "1.50"), ("2", "2.00")])
def test_every_front_that_opens_has_two_bumpers(chosen: str | None, thick: str) -> None:
    made = door() if chosen is None else door().look(bumper=chosen)
    bumpers = made.plan.hardware.bumpers["F"]
    assert (bumpers.count, near(bumpers.thick)) == (2, thick)
    assert made.put(Front, "F", kind="fixed").plan.hardware.bumpers == {}


def test_what_hangs_on_the_wall_is_told_against_what_hung_there() -> None:
    """448 x 716 x 20 at 700 kg/m3 is 4.49 kg as a slab; the old one of 16 weighed 3.59"""
    made = door("448", "716", kind="slab", thickness="20").put(Run, "R", stands="wall")
    weight = made.plan.hardware.weights["R"]
    assert weight.old is None
    assert weight.added.units == weight.new.units
    old = made.put(OldFront, "A", opening="A", width="448", height="716", thickness="16").plan.hardware.weights["R"]
    assert old.old is not None
    assert Fraction(old.old.units) / Fraction(old.new.units) == Fraction(16, 20)
    assert "R" not in door("448", "716").plan.hardware.weights
