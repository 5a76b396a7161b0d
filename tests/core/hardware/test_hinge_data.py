"""Data of a hinge that contradict each other, and ways out of covers and cups, each tried before it is offered."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.findings import Check
from frontwright.core.job import DoorBuild, Front, HingeType, Plate
from frontwright.core.space.taken import applied
from job_builder import Made, door, hinged, job, near, opening, size


@pytest.mark.parametrize(
    ("fields", "case"),
    [
        ({"cover_least": "18", "cover_most": "16"}, "data order"),
        ({"cover_least": "14", "cover_most": "16", "cover": "18"}, "data order"),
        ({"edge_least": "3", "edge_distance": "7", "edge_most": "6"}, "data order"),
        ({"two_to": "900", "three_to": "800"}, "data order"),
        ({"two_mass": "8", "four_mass": "6"}, "data order"),
        ({"cover": "18", "edge_distance": "5", "constant": "11", "plate": "0"}, "data sum"),
        ({"cup_depth": "18", "most_thickness": "18"}, "data deep"),
    ],
)
def test_data_that_contradict_each_other_are_found(fields: dict[str, str], case: str) -> None:
    found = [check for check in hinged(door(), **fields).checks("hinge-overlay", "hinge") if check.is_open]
    assert [(check.case, check.level) for check in found] == [(case, "warn")]
    assert found[0].ways


@pytest.mark.parametrize(
    "fields",
    [
        {"cover_least": "16", "cover": "18", "cover_most": "20"},
        {"edge_least": "3", "edge_distance": "5", "edge_most": "6"},
        {"two_to": "900", "five_to": "2300"},
        {"cover": "18", "edge_distance": "5", "constant": "13", "plate": "0"},
        {"cover": "18", "constant": "11"},
        {"cup_depth": "12.5", "most_thickness": "26"},
    ],
)
def test_data_that_agree_or_are_not_all_told_say_nothing(fields: dict[str, str]) -> None:
    assert hinged(door(), **fields).checks("hinge-overlay", "hinge") == []


# -- ways out, tried


def placed(**look: object) -> Made:
    """A run with one door whose cover the look says."""
    made = (
        job().run("K", S0="60", C="400", S1="60").rails().read("K", "overall", "520").read("K", "height", "680", "left")
    )
    made = made.opening("A", "C", widths="400", heights="600").look(scheme="partial cover", door_build="build", **look)
    return made.put(DoorBuild, "build", kind="stub tenon").fronts("F", opening="A", hinge_side="left")


def finding(made: Made, code: str, case: str) -> Check:
    return next(c for c in made.plan.checks if c.code == code and c.case == case and c.is_open)


def still(made: Made, check: Check) -> bool:
    return any(
        (c.code, c.where, c.case) == (check.code, check.where, check.case) and c.is_open for c in made.plan.checks
    )


def test_every_way_out_of_a_cover_beyond_the_hinge_clears_it() -> None:
    made = hinged(
        placed(cover="14"), constant="13", edge_distance="5", plate="0", adjust="1", edge_least="1", edge_most="6"
    )
    made = made.put(HingeType, "half", cover="14", adjust="1").put(HingeType, "far", cover="30", adjust="1")
    check = finding(made, "hinge-overlay", "beyond")
    offered = {(way.field, way.of): way.value for way in check.ways}
    assert near(offered["new plate", "hinge"]) == "4.00"
    assert near(offered["edge_distance", "hinge"]) == "1.00"
    assert offered["hinge", "opening:A"] == "half"
    assert near(offered["cover_left", "F"]) == "42.50"
    for way in check.ways:
        assert way.gives
        assert not still(Made(applied(made.job, way)), check), way


def test_a_plate_that_is_got_stands_beside_those_that_are_there() -> None:
    made = hinged(placed(cover="14"), constant="13", edge_distance="5", plate="0", adjust="1")
    check = finding(made, "hinge-overlay", "beyond")
    way = next(way for way in check.ways if way.field == "new plate")
    after = applied(made.job, way)
    heights = sorted(near(plate.height.value) for plate in after.plates.values() if plate.height is not None)
    assert heights == ["0.00", "4.00"]
    more = made.put(Plate, "two", hinge="hinge", height="2")
    assert len(applied(more.job, way).plates) == 2


def test_a_cup_in_the_joint_is_offered_a_place_nearer_the_edge_and_a_wider_stile() -> None:
    """F27: 5 + 35 = 40 into a stile of 50 less 10 and 3; 3 too far"""
    made = hinged(placed(cover="18"), edge_distance="6", adjust="1").put(DoorBuild, "build", stile="51")
    check = finding(made, "cup-fit", "joint")
    offered = {way.field: way.value for way in check.ways}
    assert near(offered["edge_distance"]) == "3.00"
    assert near(offered["stile"]) == "54.00"
    for way in check.ways:
        assert not still(Made(applied(made.job, way)), check), way


def test_a_cup_nearer_than_any_maker_bores_is_not_offered() -> None:
    made = hinged(placed(cover="18"), edge_distance="4", adjust="1").put(DoorBuild, "build", stile="50")
    assert [way.field for way in finding(made, "cup-fit", "joint").ways] == ["stile"]


def test_a_cup_through_thin_stock_is_offered_thicker_stock_or_a_shallower_hinge() -> None:
    made = hinged(placed(cover="18"), cup_depth="13").put(DoorBuild, "build", thickness="15")
    made = made.put(HingeType, "shallow", cup_depth="10.5").put(HingeType, "deep", cup_depth="14")
    check = finding(made, "cup-fit", "floor")
    assert [(way.field, way.value if isinstance(way.value, str) else near(way.value)) for way in check.ways] == [
        ("thickness", "16.00"),
        ("hinge", "shallow"),
    ]


def test_a_door_hung_on_its_meeting_edge_is_offered_the_frame() -> None:
    made = opening(widths="800", heights="600").look(scheme="partial cover").fronts("L", "R", opening="A")
    check = finding(made.put(Front, "L", hinge_side="right"), "hinge-overlay", "no frame")
    assert [(way.field, way.value) for way in check.ways] == [("hinge_side", "left")]


def test_what_a_way_out_would_change_is_told_with_it() -> None:
    made = hinged(placed(cover="14"), cover="18", adjust="1")
    check = finding(made, "hinge-overlay", "beyond")
    tried = made.plan.space.tried["hinge-overlay", ("F",), "beyond"]
    assert [one.way for one in tried] == list(check.ways)
    moved = next(one for one in tried if one.way.field == "cover_left")
    assert [(name, what, size(new) - size(old)) for name, what, old, new in moved.sizes] == [
        ("F", "width", Fraction("3.5"))
    ]
