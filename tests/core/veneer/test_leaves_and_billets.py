"""Leaves wanted, and leaves a billet gives, at the edges of the rules (F53, F56 to F58)."""

from __future__ import annotations

import pytest
from frontwright.core.figures import Figure
from frontwright.core.job import (
    Allowances,
    Billet,
    DoorBuild,
    End,
    Facing,
    Front,
    Machine,
    Opening,
    PanelBuild,
    Piece,
)
from frontwright.core.making.leaves import leaves_across
from frontwright.core.veneer.counts import spares
from frontwright.core.veneer.result import BilletYield
from frontwright.core.veneer.seen import leaves_in
from job_builder import Made, door, job, mm, near, paneled, size

PLAIN = paneled(door(stile="64", top_rail="64", bottom_rail="76", groove="10", clearance="1"), slice="3")
SAW = {"kerf": "1.2", "wander": "0.6", "rejoint": "0.7"}


def figure(value: str) -> Figure:
    return Figure("width", mm(value), "chosen")


def billet(made: Made) -> BilletYield:
    (one,) = made.plan.veneer.billets
    return one


@pytest.mark.parametrize(
    ("thick", "keep", "leaves"),
    [("44", "6", 6), ("43.9", "6", 6), ("39", "6", 6), ("38.9", "6", 5), ("6", "6", 0), ("3", "6", 0)],
)
def test_only_whole_leaves_count(thick: str, keep: str, leaves: int) -> None:
    """F53"""
    assert leaves_in(figure(thick), figure("3"), figure("2.5"), figure(keep)) == leaves


@pytest.mark.parametrize(("thick", "leaves"), [("43", 8), ("41.5", 8), ("41.4", 7), ("3", 1), ("2.9", 0)])
def test_with_nothing_kept_back_the_last_leaf_needs_no_cut(thick: str, leaves: int) -> None:
    """F53: eight of 3 and seven cuts of 2.5 are 41.5"""
    assert leaves_in(figure(thick), figure("3"), figure("2.5"), figure("0")) == leaves


@pytest.mark.parametrize(
    ("thick", "keep", "rest"), [("44", "6", "11.0"), ("43", "0", "1.5"), ("41.5", "0", "0.0"), ("5", "6", "5.0")]
)
def test_the_rest_is_never_less_than_nothing(thick: str, keep: str, rest: str) -> None:
    """F53"""
    made = PLAIN.put(Machine, "saw", **SAW, keep_back=keep).put(
        Piece, "B", form="billet", thickness=thick, width="150", length="900"
    )
    assert near(billet(made).rest, 1) == rest


def test_a_rest_is_a_spare_leaf_from_the_slice_and_a_little_on() -> None:
    """F53: 3 + 1.6"""
    made = PLAIN.put(Machine, "saw", **SAW, keep_back="6")
    assert billet(made.put(Piece, "B", form="billet", thickness="44", width="150", length="900")).spare
    assert not billet(
        made.put(Machine, "saw", keep_back="4").put(
            Piece, "B", form="billet", thickness="37.4", width="150", length="900"
        )
    ).spare


def test_the_machine_chosen_comes_first_and_the_others_are_compared() -> None:
    made = PLAIN.put(Machine, "band", name="Band saw", **SAW).put(
        Machine, "table", kind="table saw", name="Table saw", chosen=True
    )
    assert [one.machine for one in made.plan.veneer.billets] == ["Table saw", "Band saw"]


@pytest.mark.parametrize(("count", "wanted"), [(0, 0), (1, 1), (10, 1), (11, 2), (16, 2)])
def test_one_leaf_in_ten_is_a_spare_and_one_at_least(count: int, wanted: int) -> None:
    """F58"""
    assert spares(count) == wanted


def test_a_panel_just_as_wide_as_its_leaves_takes_no_further_one() -> None:
    """F56"""
    assert leaves_across(figure("438"), figure("146")) == 3
    assert leaves_across(figure("438.1"), figure("146")) == 4
    assert leaves_across(figure("300"), figure("0")) == 1


def test_leaves_of_panels_are_counted_by_their_length() -> None:
    """F57, F58: 624 long, 3 across, both faces"""
    (leaf,) = PLAIN.plan.veneer.leaves
    assert (leaf.use, near(leaf.length, 0), leaf.count, leaf.spares) == ("panels", "624", 6, 1)


def test_the_narrowest_billet_at_hand_gives_the_width_of_all_leaves() -> None:
    """F56"""
    made = PLAIN.put(Piece, "B", form="billet", thickness="44", width="180", length="900")
    assert near(made.plan.veneer.usable_width, 0) == "176"
    narrower = made.put(Piece, "D", form="billet", thickness="44", width="120", length="900")
    assert near(narrower.plan.veneer.usable_width, 0) == "116"


def test_billets_are_longer_than_their_leaf_and_rounded_up_where_the_shop_says_so() -> None:
    """F57: 624 + 20"""
    assert near(billet(PLAIN).length, 0) == "644"
    assert near(billet(PLAIN.put(Allowances, "allowances", billet_step="50")).length, 0) == "650"


def test_a_door_of_sheet_wants_no_leaves_and_no_billets() -> None:
    made = paneled(door(), "sheet")
    assert made.plan.veneer.leaves == ()
    assert made.plan.veneer.billets == ()


def test_a_sawn_skin_is_leaves_edge_to_edge() -> None:
    """F56: 315 rough over 146 is 3"""
    made = job().run("K", S0="40", C1="541", S1="40").read("K", "height", "720", "middle").opening("A", "C1")
    made = made.put(End, "r", run="K", side="right", skin="sawn", depth_seen="300").put(Facing, "K", faces=True)
    (leaf,) = (one for one in made.plan.veneer.leaves if one.use == "skin")
    assert (near(leaf.length, 0), leaf.count, leaf.spares) == ("740", 3, 1)


def test_a_billet_of_its_own_width_and_no_piece_gives_narrower_leaves() -> None:
    """F56: 120 less two joints of 2"""
    usual = PLAIN.plan.veneer.usable_width
    narrow = PLAIN.put(Billet, "A", width="120", length="900", thickness="44").plan.veneer
    assert (near(usual, 0), near(narrow.usable_width, 0)) == ("146", "116")


def test_billets_are_cut_piece_by_piece_where_they_differ_in_thickness() -> None:
    made = PLAIN.put(Piece, "thick", form="billet", length="750", width="150", thickness="24")
    alone = made.plan.veneer
    both = made.put(Piece, "thin", form="billet", length="750", width="150", thickness="20").plan.veneer
    assert [
        (int(size(one.thickness)), one.leaves) for one in both.billets if one.machine == both.billets[0].machine
    ] == [
        (24, alone.billets[0].leaves),
        (20, both.billets[-1].leaves),
    ]
    assert [plan.billet.piece for plan in both.plans[:2]] == ["thick", "thin"]
    assert {size(plan.thickness) for plan in both.plans[2:]} <= {24}  # what is not at hand is taken to be as the best
    assert len(both.plans) <= len(alone.plans) + 1
    assert next(one for one in both.compared if one.chosen).short == ()


def test_a_long_piece_gives_as_many_billets_as_its_length_and_the_cuts_allow() -> None:
    made = PLAIN.put(Piece, "thin", form="billet", length="300", width="150", thickness="20")
    long = size(made.plan.veneer.billets[0].length)
    for more, count in ((2, 1), (3, 2)):  # a cut takes 3
        piece = made.put(Piece, "W", form="billet", length=str(2 * long + more), width="150", thickness="30")
        assert [plan.billet.piece for plan in piece.plan.veneer.plans].count("W") == count


def test_leaves_of_another_thickness_are_wanted_by_themselves_and_sawn_from_billets_of_their_own() -> None:
    made = PLAIN.put(PanelBuild, "thick", slice="4", core_is="4.8")
    made = made.put(DoorBuild, "thick door", kind="cope and stick", panel="thick")
    made = made.put(Opening, "B", column="C", place=2).read("B", "width", "428", "middle")
    made = made.read("B", "height", "696", "middle").put(Front, "G", opening="B", kind="door", place=1)
    made = made.put(Front, "G", build="thick door")
    veneer = made.plan.veneer
    wanted = {int(size(one.slice)): one.count for one in veneer.leaves if one.use == "panels"}
    assert set(wanted) == {3, 4}
    assert {int(size(plan.slice)) for plan in veneer.plans} == {3, 4}
    billets = {plan.id: size(plan.slice) for plan in veneer.plans}
    on = {(seat.of, int(billets[seat.billet])) for seat in veneer.seats if seat.side in ("show", "back")}
    assert on == {("F-P", 3), ("G-P", 4)}
    entered = made.put(Billet, "A", length="900", width="150", thickness="44")
    chosen = next(one for one in entered.plan.veneer.compared if one.chosen)
    assert [(int(size(leaf)), count) for leaf, (_, count) in zip(chosen.short_leaves, chosen.short, strict=True)] == [
        (4, wanted[4])
    ]
