"""Old hinges used again bind the new door; old holes meet new screws; screws of drawer fronts (stages 3 and 5)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.condition.ways import taken
from frontwright.core.findings import Check
from frontwright.core.hardware.found import drawer_screws, holes_left
from frontwright.core.job import DoorBuild, Drawer, Facing, OldFront, OldHinge
from frontwright.core.lengths import Length
from job_builder import Made, door, job, near, size


def kept(**hinges: object) -> Made:
    """A door 448 x 716 covering by 10, 20 thick, on its old hinges."""
    return door("448", "716", thickness="20", stile="60").put(OldHinge, "A", use="again", **hinges)


def cases(made: Made) -> list[tuple[str, str]]:
    return [(check.case, check.level) for check in made.checks("old-hinge") if check.is_open]


def after(made: Made, check: Check, at: int = 0) -> Made:
    return Made(taken(made.job, check.ways[at]))


def test_old_hinges_that_fit_the_new_door_say_nothing() -> None:
    made = kept(kind="cup", count=2, cover="10", cup="35", cup_depth="12", edge_distance="5", thickness="20")
    assert cases(made) == []
    assert made.check("old-hinge", "F").level == "ok"


def test_hinges_that_are_replaced_bind_nothing() -> None:
    assert kept(thickness="16").put(OldHinge, "A", use="replace").checks("old-hinge") == []


def test_a_thicker_door_binds_on_the_hinge_side() -> None:
    made = kept(thickness="17")
    check = made.found("old-hinge")
    assert (check.case, check.level) == ("thick", "stop")
    assert (near(check.value), near(check.limit)) == ("20.00", "17.00")
    assert after(made, check, 0).quiet("old-hinge")
    assert after(made, check, 1).quiet("old-hinge")


def test_the_cover_is_no_longer_free_where_old_hinges_are_kept() -> None:
    made = kept(kind="cup", cover="13")
    assert cases(made) == [("cover", "stop")]
    assert after(made, made.found("old-hinge")).quiet("old-hinge")
    assert cases(kept(kind="cup", cover="11")) == []
    assert cases(kept(kind="leaf", cover="11")) == [("cover", "stop")]


def test_the_old_front_tells_the_cover_where_nobody_measured_it() -> None:
    made = kept(kind="cup").put(OldFront, "A", opening="A", width="450")
    assert size(made.seen().width_middle) == 428
    assert cases(made) == []
    wider = kept(kind="cup").put(OldFront, "A", opening="A", width="460")
    assert cases(wider) == [("cover", "stop")]


def test_a_hinge_for_a_lipped_door_carries_no_flat_one() -> None:
    made = kept(kind="lipped door")
    assert cases(made) == [("lipped", "stop")]
    assert after(made, made.found("old-hinge")).quiet("old-hinge")


def test_too_few_and_worn_hinges_are_warned_of() -> None:
    assert cases(kept(count=1)) == [("count", "warn")]
    assert cases(kept(worn=True)) == [("worn", "warn")]


def test_an_old_cup_is_held_against_joint_and_floor() -> None:
    assert cases(kept(cup="40", edge_distance="12")) == [("cup", "warn")]  # the joint is only assumed
    assert cases(kept(cup_depth="18")) == [("floor", "stop")]


# -- old holes


def taken_off(**hinges: object) -> Made:
    """The same door on new hinges; the old plates were read."""
    return door("448", "716", thickness="20", stile="60").put(OldHinge, "A", use="replace", **hinges)


def left(made: Made) -> tuple[int, str | None]:
    plan = made.plan
    (found,) = holes_left(plan.index, plan.survey, plan.fronts, plan.hardware)
    return found.plugs, None if found.nearest is None else near(found.nearest)


def new_plate(made: Made) -> Fraction:
    """The middle of the lowest new plate over the opening's lower edge: the door covers it by 10."""
    return size(made.plan.hardware.hinges["F"].heights[0]) - 10


def test_a_new_screw_half_in_an_old_hole_wants_a_plug() -> None:
    at = new_plate(taken_off())
    made = taken_off(plate_1=f"{float(at + 4)}")
    check = made.found("old-holes")
    assert (check.level, near(check.value), near(check.limit)) == ("warn", "4.00", "8.00")
    assert left(made) == (2, "4.00")
    assert after(made, check).quiet("old-holes")


def test_holes_well_clear_of_the_new_screws_are_no_finding() -> None:
    at = new_plate(taken_off())
    made = taken_off(plate_1=f"{float(at + 60)}")
    assert made.check("old-holes", "F").level == "ok"


def test_plugged_holes_need_no_plugs() -> None:
    assert left(taken_off(plate_1="100", plugged=True))[0] == 0


def test_nobody_asks_for_plugs_where_plates_stay() -> None:
    assert taken_off(plate_1="84").put(OldHinge, "A", use="same borings").checks("old-holes") == []


# -- screws of drawer fronts


def drawn(**drawer: object) -> Made:
    made = job().run("K", S0="40", A="400", S1="40").rails().opening("A", "A", widths="400", heights="120")
    made = made.read("K", "height", "200", "middle").fronts("FA", opening="A", kind="drawer")
    made = made.look(scheme="partial cover", cover="10", drawer_build="slab", bumper="1.5")
    made = made.put(DoorBuild, "slab", kind="slab", thickness="20").put(Facing, "K", faces=True, thickness="2")
    return made.put(Drawer, "A", closes="against a stop", box_out="0", **drawer)


def test_the_screw_passes_box_front_and_packing_and_stays_behind_the_face() -> None:
    plan = drawn(box_front="12").plan
    (screw,) = drawer_screws(plan.index, plan.fronts, plan.making)
    assert [near(one) for one in (screw.passes, screw.least, screw.most)] == ["15.50", "25.50", "32.50"]
    assert screw.sold is not None
    assert screw.sold.value == Length.mm(30)


@pytest.mark.parametrize(("length", "case"), [("35", "screw through"), ("25", "screw short")])
def test_a_screw_too_long_or_too_short_is_found_and_the_one_that_is_sold_does(length: str, case: str) -> None:
    made = drawn(box_front="12", screw=length)
    check = made.found("drawer-front")
    assert check.case == case
    assert after(made, check).quiet("drawer-front")


def test_a_screw_that_fits_is_no_finding() -> None:
    assert drawn(box_front="12", screw="30").quiet("drawer-front")
