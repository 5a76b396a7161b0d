"""Hinges moved clear of shelves, of drawers behind the door and of dowels, and onto old plates (F25)."""

from __future__ import annotations

from itertools import pairwise

import pytest
from frontwright.core.job import Cabinet, HingeType, Inside, OldHinge
from job_builder import Made, door, hinged, near, opening, size


def behind(made: Made, kind: str, at: str, **fields: object) -> Made:
    return made.put(Inside, f"{kind} {at}", opening="A", kind=kind, at=at, **fields)


def cabinet() -> Made:
    """A door of 420 x 620 on an opening of 400 x 600, its lower edge 10 under it; plates 50 long."""
    made = opening(widths="400", heights="600").look(scheme="partial cover", cover="10")
    return made.fronts("F", opening="A", hinge_side="left")


def heights(made: Made) -> list[str]:
    return [near(height) for height in made.plan.hardware.hinges["F"].heights]


def test_a_hinge_moves_clear_of_a_shelf_to_the_nearer_side() -> None:
    """The shelf at 85 to 104 is 95 to 114 from the door's lower edge; plate 25 and 3 of room each side"""
    made = behind(cabinet(), "shelf", "85")
    assert heights(cabinet()) == ["90.00", "530.00"]
    assert heights(made) == ["67.00", "530.00"]
    assert made.plan.hardware.hinges["F"].moved == ("shelf 85", "")
    assert heights(behind(cabinet(), "shelf", "70")) == ["127.00", "530.00"]
    assert made.quiet("cup-fit")


def test_the_shelf_is_as_thick_as_it_was_read() -> None:
    assert heights(behind(cabinet(), "shelf", "60")) == ["117.00", "530.00"]
    assert heights(behind(cabinet(), "shelf", "60", height="25")) == ["123.00", "530.00"]


def test_moved_heights_stand_on_the_step_away_from_the_shelf() -> None:
    assert heights(behind(cabinet(), "shelf", "70.2")) == ["127.50", "530.00"]


def test_two_shelves_close_together_are_cleared_together() -> None:
    made = behind(behind(cabinet(), "shelf", "75"), "shelf", "125")
    low, high = (float(size(h)) for h in made.plan.hardware.hinges["F"].heights)
    for at in (75, 125):
        assert all(h <= at + 10 - 28 or h >= at + 10 + 19 + 28 for h in (low, high))


def test_a_shelf_that_leaves_no_height_is_found_and_falls_silent_without_it() -> None:
    """Shelves behind the whole of a door that is hardly higher than its plates"""
    made = opening(widths="400", heights="120").look(scheme="partial cover", cover="10")
    made = made.fronts("F", opening="A", hinge_side="left")
    low = behind(behind(made, "shelf", "10"), "shelf", "60")
    check = next(c for c in low.checks("cup-fit", "F") if c.case == "in the way")
    assert check.is_open
    assert made.quiet("cup-fit")


@pytest.mark.parametrize(("width", "moves"), [("365", True), ("361", True), ("360", False), ("330", False)])
def test_a_drawer_behind_the_door_counts_where_the_hinge_reaches_it(width: str, moves: bool) -> None:
    """Hinge and plate stand 20 in; (400 - width)/2 is beside the box"""
    made = behind(cabinet(), "inner drawer", "60", height="100", width=width)
    assert (heights(made) != ["90.00", "530.00"]) is moves


def test_a_cup_keeps_clear_of_the_dowels_that_end_in_its_stile() -> None:
    """Dowels at 14 and 46 of a rail of 60, 24 deep into a stile of 60: the cup reaches 40, they begin at 36"""
    plain = door("448", "716", kind="dowelled", stile="60", bottom_rail="110", top_rail="60")
    moved = plain.plan.hardware.hinges["F"]
    dowels = next(one for one in plain.making().dowels if one.rail == "bottom rail").from_outer_edge
    need = 17.5 + 4 + 3
    for height in moved.heights:
        assert all(abs(float(size(height)) - float(size(at))) >= need for at in dowels)
    assert "dowel" in moved.moved[0]
    wide = door("448", "716", kind="dowelled", stile="75", bottom_rail="110", top_rail="60")
    assert wide.plan.hardware.hinges["F"].moved == ("", "")


def test_hinges_go_onto_old_plates_that_stay() -> None:
    """Plates at 75 and 540 over the opening's lower edge, 10 over the door's"""
    old = cabinet().put(OldHinge, "A", use="same borings", plate_1="75", plate_2="540")
    assert heights(old) == ["85.00", "550.00"]
    assert heights(old.put(OldHinge, "A", use="replace")) == ["90.00", "530.00"]
    assert heights(cabinet().put(OldHinge, "A", use="again", plate_2="75")) == ["85.00", "530.00"]


def test_old_plates_go_before_shelves() -> None:
    made = behind(cabinet(), "shelf", "85").put(OldHinge, "A", use="again", plate_1="75", plate_2="540")
    assert heights(made) == ["85.00", "550.00"]


def test_hinges_that_are_moved_stay_a_plate_apart() -> None:
    made = opening(widths="400", heights="1400").look(scheme="partial cover", cover="10")
    made = hinged(made.fronts("F", opening="A", hinge_side="left"), plate_long="60")
    for at in ("100", "400", "650", "700", "760", "1200"):
        made = behind(made, "shelf", at)
    placed = [size(h) for h in made.plan.hardware.hinges["F"].heights]
    assert all(b - a >= 60 for a, b in pairwise(placed))


def test_the_working_of_a_moved_height_names_what_stands_there() -> None:
    figure = behind(cabinet(), "shelf", "85").plan.hardware.hinges["F"].heights[0]
    assert figure.how == "moved clear of shelf 85"
    assert any("shelf 85" in term.figure.name for term in figure.terms)


def test_a_hinge_asks_for_depth_thickness_and_its_kind_of_box() -> None:
    made = hinged(door(thickness="20"), most_thickness="19")
    assert made.found("cup-fit").case == "too thick"
    assert hinged(door(thickness="20"), most_thickness="20").quiet("cup-fit")
    deep = hinged(door(), needs_depth="120", box="frameless").put(Cabinet, "X", run="R", depth="100")
    assert deep.found("cup-fit").case == "depth"
    assert any(c.case == "other box" for c in deep.checks("hinge-overlay", "F"))
    fine = deep.put(HingeType, "hinge", box="face frame", needs_depth="90")
    assert fine.quiet("cup-fit")
    assert fine.quiet("hinge-overlay")
