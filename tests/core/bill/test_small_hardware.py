"""Screws, dowels, pins, plugs, tape and abrasives, each counted from what is made (F47)."""

from __future__ import annotations

import pytest
from frontwright.core.bill.result import Purchase
from frontwright.core.job import Drawer, Facing, HardwareLot, OldHinge, Plate, PullType, SupplierSize, amount
from frontwright.core.plan import billed_whole
from job_builder import Made, door, hinged, job, opening, paneled


def bought(made: Made, *lots: HardwareLot) -> dict[str, Purchase]:
    bill = billed_whole(made.plan, lots=lots)
    return {one.name: one for one in bill.purchases if one.what in ("small hardware", "consumables")}


def counted(made: Made) -> dict[str, int]:
    return {name: int(one.amount) for name, one in bought(made).items()}


def test_each_hinge_takes_two_screws_for_its_cup_and_two_for_its_plate() -> None:
    found = counted(door("448", "716"))
    assert (found["screws for cups"], found["screws for plates"]) == (4, 4)


def test_old_hinges_that_are_used_again_are_not_bought() -> None:
    """Only what is short of their number; those that are replaced are all bought"""

    def hinges(**old: object) -> int:
        made = door("448", "716")
        (opened,) = made.job.openings
        made = made.put(OldHinge, opened, kind="cup", **old)
        bill = billed_whole(made.plan)
        lines = sum(one.line.qty for one in bill.lines if one.line.form == "hinge")
        assert lines == sum(int(one.amount) for one in bill.purchases if one.what == "hinge")
        return lines

    assert [hinges(use="replace"), hinges(use="again"), hinges(use="again", count=1)] == [2, 0, 1]


def test_dowels_are_counted_at_both_ends_of_every_rail() -> None:
    """8 across, 3 of that into each part; top, bottom and mid rail with two each"""
    assert counted(door("448", "900", kind="dowelled"))["dowels 8 mm across, 48 mm long"] == 8
    assert counted(door("448", "900", kind="dowelled", mid_rails=1))["dowels 8 mm across, 48 mm long"] == 12
    assert not any("dowels" in name for name in counted(door("448", "900")))


def test_pull_screws_are_bought_in_the_length_that_is_sold() -> None:
    assert counted(door(thickness="20"))["pull screws 28 mm"] == 2
    short = door(thickness="20").look(pull="bar").put(PullType, "bar", counterbore="3", thread="4.5")
    assert counted(short)["pull screws 21.5 mm, cut down"] == 2


def test_pins_follow_from_the_strips() -> None:
    """F73"""
    bare = (
        job().run("K", S0="40", C="400", S1="40").rails().read("K", "overall", "480").read("K", "height", "700", "left")
    )
    bare = bare.opening("A", "C", widths="400", heights="620").look(scheme="partial cover", cover="10")
    bare = bare.fronts("F", opening="A")
    assert not any("pins" in name for name in counted(bare))
    faced = bare.put(Facing, "K", faces=True, thickness="2")
    pins = sum(group.count for run in faced.plan.facing.runs.values() for group in run.pins if group.pin is not None)
    assert pins > 0
    assert sum(count for name, count in counted(faced).items() if name.startswith("pins")) == pins


def test_screws_for_applied_drawer_fronts_and_plugs_for_old_holes() -> None:
    made = opening(widths="400", heights="200").look(scheme="partial cover", cover="10")
    made = made.fronts("F", opening="A", kind="drawer").put(Drawer, "A", front="applied")
    assert counted(made)["screws for drawer fronts"] == 4
    old = door().put(OldHinge, "A", use="replace", count=3)
    assert counted(old)["plugs for old holes"] == 6
    assert "plugs for old holes" not in counted(old.put(OldHinge, "A", plugged=True))
    assert "plugs for old holes" not in counted(old.put(OldHinge, "A", use="again"))


def test_tape_runs_along_the_joints_of_both_faces_and_a_quarter_over() -> None:
    made = paneled(door("448", "716", kind="dowelled"))
    panel = made.making().panels[0]
    assert panel.leaf_length is not None
    assert panel.leaves_across is not None
    along = 2 * (panel.leaves_across - 1) * float(panel.leaf_length.units) / 80_000_000
    assert bought(made)["veneer tape"].measure == "metres"
    assert counted(made)["veneer tape"] == -(-along * 5 // 4)
    assert "veneer tape" not in counted(paneled(door("448", "716"), "sheet"))


def test_abrasives_go_by_what_is_finished_and_how_often() -> None:
    small, large = counted(door("448", "716")), counted(door("900", "1400"))
    assert 0 < small["sheets of abrasive"] < large["sheets of abrasive"]


def test_what_is_on_hand_is_not_bought() -> None:
    made = door("448", "716")
    assert bought(made, HardwareLot("1", "screws for cups", 3))["screws for cups"].amount == 1
    assert "screws for cups" not in bought(made, HardwareLot("1", "Screws for cups", 9))


def test_a_pack_is_bought_whole_and_has_its_price() -> None:
    made = door("448", "716").put(SupplierSize, "box", form="hardware", what="screws for cups", pack=100, price=None)
    row = made.job.supplier_sizes["box"]
    made = Made(made.job.put(type(row)(**{**{f: getattr(row, f) for f in row.__slots__}, "price": amount("4.50")})))
    one = bought(made)["screws for cups"]
    assert one.count == 1
    assert one.cost == 450


@pytest.mark.parametrize(("count", "lacking"), [(2, None), (0, 2)])
def test_plates_that_are_lacking_are_bought(count: int, lacking: int | None) -> None:
    made = hinged(door(), constant="13", edge_distance="5").put(Plate, "P0", hinge="hinge", height="8", count=count)
    assert counted(made).get("plates, P0") == lacking
