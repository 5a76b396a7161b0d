"""Loose frames are put right first; a drawer is looked at as a whole: its front, its box, how it shuts (F13)."""

from __future__ import annotations

import pytest
from frontwright.core.condition.ways import taken
from frontwright.core.job import Cabinet, Drawer, Facing, Repair, ServiceLine
from frontwright.core.lengths import Length
from job_builder import Made, job, size


def drawn(**drawer: object) -> Made:
    """A run with one drawer; its frame is covered by 2 mm."""
    made = job().run("K", S0="40", A="400", S1="40").rails().opening("A", "A", widths="400", heights="120")
    made = made.read("K", "height", "200", "middle").fronts("FA", opening="A", kind="drawer")
    made = made.put(Facing, "K", faces=True, thickness="2")
    return made.put(Drawer, "A", **drawer) if drawer else made


def packing(made: Made) -> float:
    return float(size(made.plan.condition.drawers["A"].packing))


def test_an_applied_front_is_packed_out_by_the_facing_where_a_stop_ends_the_drawer() -> None:
    assert packing(drawn(front="applied", closes="against a stop")) == 2.0


def test_packing_is_facing_and_bumper_less_what_the_box_stands_out() -> None:
    assert packing(drawn(closes="against a stop", box_out="0.5").look(bumper="1.5")) == 3.0
    assert packing(drawn(closes="against a stop", box_out="-3").look(bumper="2")) == 7.0


def test_a_drawer_that_its_own_front_stops_needs_no_packing() -> None:
    assert packing(drawn(closes="against the frame", box_out="1")) == 0.0


def test_a_box_that_stands_out_further_than_its_front_may_is_a_stop() -> None:
    made = drawn(closes="against a stop", box_out="20").look(bumper="1.5")
    check = made.found("drawer-front")
    assert (check.level, check.case, check.where) == ("stop", "stands out", ("FA",))
    assert made.put(Drawer, "A", box_out="1").quiet("drawer-front")


def test_a_fixed_front_is_sawn_off_or_its_box_end_made_anew() -> None:
    made = drawn(front="fixed", closes="against a stop")
    check = made.found("drawer-front")
    assert [way.value for way in check.ways] == ["sawn off", "box end remade"]
    for way in check.ways:
        assert Made(taken(made.job, way)).quiet("drawer-front")


def test_packing_that_was_chosen_otherwise_is_found_and_the_way_out_sets_it_right() -> None:
    made = drawn(closes="against a stop", box_out="0", packing="1").look(bumper="1.5")
    check = made.found("drawer-front")
    assert (check.value, check.limit) == (Length.mm(1), Length.mm("3.5"))
    assert Made(taken(made.job, check.ways[0])).quiet("drawer-front")


def test_a_drawer_of_which_nothing_was_said_is_no_finding() -> None:
    assert drawn().checks("drawer-front") == []


def test_a_loose_frame_is_put_right_before_anything_is_hung() -> None:
    made = drawn().put(Repair, "K repair 1", run="K", what="loose joint", at="lower left")
    check = made.found("repair")
    assert (check.level, check.value) == ("warn", "loose joint")
    assert Made(taken(made.job, check.ways[0])).quiet("repair")


def test_a_box_that_is_not_sound_asks_what_is_wrong_with_it() -> None:
    made = drawn().put(Cabinet, "B1", run="K", sound=False)
    assert made.found("repair").case == "not said"
    told = made.put(Repair, "K repair 1", run="K", what="split", done=True)
    assert told.quiet("repair")


@pytest.mark.parametrize("kind", ["gas", "water", "electric"])
def test_lines_behind_the_doors_are_hazards_at_their_openings(kind: str) -> None:
    made = drawn().put(ServiceLine, "line 1", opening="A", kind=kind)
    placed = next(one for one in made.plan.condition.hazards_of("K") if one.hazard == kind)
    assert placed.of == ("A",)
    assert "lines not located" not in [one.hazard for one in made.plan.condition.hazards_of("K")]
