"""From billet to leaves, each rule by the example that goes with its formula (F44, F53 to F61)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.job import (
    Allowances,
    Billet,
    Facing,
    Leaf,
    Machine,
    Piece,
)
from frontwright.core.plan import billed_whole
from frontwright.core.veneer.counts import spares
from frontwright.core.veneer.nesting import Wanted, nested
from frontwright.core.veneer.result import BilletPlan, BilletYield, Seen
from job_builder import Made, door, inch, mm, near, paneled, size

BAND = {"kerf": "1.2", "wander": "0.6", "rejoint": "0.7", "keep_back": "6"}
TABLE = {"kerf": "3.2", "wander": "0.8", "rejoint": "0.7", "keep_back": "6"}
HEAVY = ("37.7", "31.4", "25.1")  # what stood of the billet after each of three slices, 6.3 gone a slice


def wood(thickness: str = "44", width: str = "150", least_left: str | None = None) -> Made:
    """A door with a shop-made panel, its leaves 3 mm, and one billet long enough for it."""
    made = paneled(door(stile="64"), core_is="4.8", slice="3", glue_loss="0.3", show_loss="0.6", least_left=least_left)
    made = made.put(Machine, "band saw", chosen=True, **BAND).put(Machine, "table saw", kind="table saw", **TABLE)
    return made.put(Billet, "P", length="700", width=width, thickness=thickness)


def sawn(made: Made, *lefts: str, thick: str = "3.1", billet: str = "P", first: int = 1, **fields: object) -> Made:
    """With slices of a billet: each its thickness and what then stood."""
    for number, left in enumerate(lefts, first):
        made = made.put(
            Leaf, f"{billet}{number}", billet=billet, number=number, left=left or None, thick_1=thick or None, **fields
        )
    return made


def billet(made: Made, name: str = "P") -> BilletPlan:
    return next(plan for plan in made.plan.veneer.plans if plan.id == name)


def seen(made: Made) -> Seen:
    found = billet(made).seen
    assert found is not None
    return found


def gives(made: Made, machine: str) -> BilletYield:
    return next(one for one in made.plan.veneer.billets if one.machine == machine)


# F53


def test_f53_a_billet_of_44_gives_6_leaves_on_the_band_saw_and_4_on_the_table_saw() -> None:
    made = wood().put(Piece, "W", form="billet", length="2000", width="150", thickness="44")
    band, table = gives(made, "band saw"), gives(made, "table saw")
    assert (band.leaves, near(band.rest, 1), band.spare) == (6, "11.0", True)
    assert (table.leaves, near(table.rest, 1), table.spare) == (4, "13.2", True)


def test_f53_the_billet_itself_is_planned_as_the_yield_says() -> None:
    plan = billet(wood())
    assert (plan.planned, near(plan.rest, 1), plan.spare, plan.seen) == (6, "11.0", True, None)
    assert [near(one.left_should, 1) for one in plan.slices] == ["38.5", "33.0", "27.5", "22.0", "16.5", "11.0"]


def test_f53_with_nothing_kept_back_the_last_leaf_needs_no_cut() -> None:
    made = wood("41.5").put(Machine, "band saw", keep_back="0")
    plan = billet(made)
    assert (plan.planned, near(plan.rest, 1)) == (8, "0.0")  # 8 leaves of 3.0 and 7 cuts of 2.5 are 41.5
    assert near(plan.slices[-2].left_should, 1) == "3.0"
    assert near(plan.slices[-1].left_should, 1) == "0.0"
    assert billet(wood("41.4").put(Machine, "band saw", keep_back="0")).planned == 7


def test_f53_every_billet_is_counted_by_its_own_thickness() -> None:
    made = wood().put(Billet, "Q", length="700", width="150", thickness="22")
    chosen, other = made.plan.veneer.compared
    assert (chosen.machine, chosen.gives, chosen.with_rests) == ("band saw", 6 + 2, 8 + 1 + 1)
    assert (other.machine, other.gives) == ("table saw", 4 + 2)


def test_f53_a_billet_of_its_own_machine_is_counted_by_that() -> None:
    made = wood().put(Billet, "P", machine="table saw")
    assert billet(made).planned == 4
    assert made.plan.veneer.compared[0].gives == 4


def test_f53_a_rest_is_a_spare_by_the_shops_own_rule() -> None:
    assert billet(wood()).spare
    assert not billet(wood().put(Allowances, "allowances", spare_rest="11.1")).spare


# F54


@pytest.mark.parametrize(("height", "overlap", "widest"), [("79", "3", 155), ("79", "12", 146)])
def test_f54_two_passes_take_twice_the_blade_less_the_overlap(height: str, overlap: str, widest: int) -> None:
    made = wood().put(Machine, "table saw", blade_height=height, overlap=overlap).put(Billet, "P", machine="table saw")
    tallest = billet(made).tallest
    assert tallest is not None
    assert size(tallest) == widest


def test_f54_a_blade_a_quarter_degree_out_of_square_makes_a_belly_of_a_third_of_a_millimetre() -> None:
    made = (
        wood().put(Machine, "table saw", blade_height="79", out_of_square="0.25").put(Billet, "P", machine="table saw")
    )
    belly = billet(made).belly
    assert belly is not None
    assert near(belly) == "0.34"
    assert belly.rounding


def test_f54_a_band_saw_has_no_belly_and_a_square_blade_none_either() -> None:
    assert billet(wood().put(Machine, "band saw", out_of_square="0.25")).belly is None
    square = billet(wood().put(Machine, "table saw", out_of_square="0").put(Billet, "P", machine="table saw")).belly
    assert square is not None
    assert size(square) == 0


# F56, F57, F58


@pytest.mark.parametrize(("width", "across"), [("150", 3), ("180", 2)])
def test_f56_a_core_of_350_takes_3_leaves_of_146_or_2_of_176(width: str, across: int) -> None:
    made = wood().put(Billet, "P", width=width)
    panel = made.making().panels[0]
    assert panel.leaves_across == across
    assert near(panel.core_across, 0) == "350"
    assert [size(joint) for joint in panel.joints or ()] == ([-73, 73] if across == 3 else [0])


def test_f56_odd_or_even_the_outer_leaves_are_trimmed_alike() -> None:
    for width, shows in (("150", Fraction(320 - 146, 2)), ("180", Fraction(320, 2))):
        panel = wood().put(Billet, "P", width=width).making().panels[0]
        assert size(panel.outer_visible) == shows


def test_f57_leaf_and_billet_are_longer_than_the_panel() -> None:
    made = wood()
    panel = made.making().panels[0]
    assert size(panel.leaf_length) == size(panel.along) + 30
    assert size(gives(made, "band saw").length) == size(panel.along) + 50


@pytest.mark.parametrize(("leaves", "beside"), [(0, 0), (1, 1), (10, 1), (11, 2), (16, 2), (21, 3)])
def test_f58_one_spare_in_ten_and_at_least_one(leaves: int, beside: int) -> None:
    assert spares(leaves) == beside


def test_f58_leaves_are_told_without_their_spares() -> None:
    (leaves,) = wood().plan.veneer.leaves
    assert (leaves.use, leaves.count, leaves.spares) == ("panels", 6, 1)


# F59


@pytest.mark.parametrize(
    ("match", "angle", "shift"),
    [("slip", "30", "9.5"), ("slip", "80", "1.0"), ("book", "30", "6.4"), ("book", "80", "0.7")],
)
def test_f59_the_figure_shifts_by_the_distance_over_the_tangent(match: str, angle: str, shift: str) -> None:
    found = billet(wood().put(Billet, "P", match=match, ring_angle=angle)).shift
    assert found is not None
    assert near(found, 1) == shift


def test_f59_random_match_and_an_angle_that_nobody_read_have_no_shift() -> None:
    assert billet(wood().put(Billet, "P", match="random", ring_angle="30")).shift is None
    assert billet(wood()).shift is None
    assert billet(wood().put(Billet, "P", ring_angle="120")).shift is None


# F60


def test_f60_after_three_heavy_slices_the_loss_seen_is_3_2_and_the_sixth_leaf_is_at_risk() -> None:
    made = sawn(wood(), *HEAVY)
    found = seen(made)
    assert (found.slices, near(found.mean_thickness, 1), near(found.loss, 1), near(found.pitch, 1)) == (
        3,
        "3.1",
        "3.2",
        "6.3",
    )
    assert (found.more, found.leaves, near(found.rest, 1)) == (3, 6, "6.2")
    assert [one.id for one in billet(made).slices if one.at_risk] == ["P6"]


def test_f60_what_should_be_left_follows_the_saw_from_the_last_reading_on() -> None:
    plan = billet(sawn(wood(), *HEAVY))
    assert [near(one.left_should, 1) for one in plan.slices] == ["38.5", "33.0", "27.5", "18.8", "12.5", "6.2"]
    assert [near(one.left_is, 1) if one.left_is else "" for one in plan.slices] == [*HEAVY, "", "", ""]


def test_f60_one_more_heavy_slice_and_the_sixth_leaf_is_lost() -> None:
    plan = billet(sawn(wood(), *HEAVY, "18.3", thick="3.1"))
    assert plan.seen is not None
    assert plan.seen.leaves == 5
    assert [(one.id, one.state) for one in plan.slices if one.state in ("lost", "to come")] == [
        ("P5", "to come"),
        ("P6", "lost"),
    ]


def test_f60_a_slice_that_nobody_measured_counts_in_what_a_slice_costs() -> None:
    made = sawn(wood(), "", "", "25.1", thick="").put(Leaf, "P1", thick_1="3.1").put(Leaf, "P3", thick_1="3.1")
    assert (seen(made).slices, near(seen(made).loss, 1)) == (3, "3.2")


def test_f60_a_number_that_was_left_out_was_sawn_all_the_same() -> None:
    made = sawn(wood(), "37.7").put(Leaf, "P3", billet="P", number=3, left="25.1", thick_1="3.1")
    assert (seen(made).slices, near(seen(made).loss, 1), seen(made).leaves) == (3, "3.2", 6)


def test_f60_the_billet_left_alone_says_what_it_still_gives_by_the_losses_known() -> None:
    found = seen(sawn(wood(), *HEAVY, thick=""))
    assert (found.slices, near(found.loss, 1), found.more, near(found.rest, 1)) == (0, "2.5", 3, "8.6")


def test_f60_nothing_measured_is_the_plan() -> None:
    plan = billet(sawn(wood(), "", "", thick=""))
    assert (plan.seen, len(plan.slices)) == (None, 6)


def test_f60_six_points_count_by_their_mean() -> None:
    made = wood().put(
        Leaf, "P1", billet="P", number=1, left="38.5", **{f"thick_{n}": f"{2.7 + n / 10:.1f}" for n in range(1, 7)}
    )
    assert near(seen(made).mean_thickness) == "3.05"


def test_f60_a_blade_changed_half_way_is_counted_with_its_own_kerf_at_once() -> None:
    made = sawn(wood(), "38.5", "33.0", "27.5", thick="3").put(Leaf, "P4", billet="P", number=4, machine="table saw")
    found = seen(made)
    assert (found.slices, near(found.loss, 1), near(found.pitch, 1)) == (0, "4.7", "7.7")
    assert (found.more, found.leaves, near(found.rest, 1)) == (2, 5, "12.1")
    assert billet(made).slices[-1].state == "lost"


def test_f60_after_a_change_of_blade_only_its_own_slices_count() -> None:
    made = sawn(wood(), "38.5", "33.0", "27.5", thick="3")
    made = sawn(made, "19.5", thick="3", first=4, machine="table saw")
    found = seen(made)
    assert (found.slices, near(found.loss, 1), found.more, found.leaves) == (1, "5.0", 1, 5)


def test_f60_slices_before_the_change_that_nobody_measured_are_taken_off_as_planned() -> None:
    made = sawn(wood(), "38.5", "", "", thick="3").put(Leaf, "P4", billet="P", number=4, machine="table saw")
    assert near(seen(made).rest, 1) == near(
        seen(
            sawn(wood(), "38.5", "33.0", "27.5", thick="3").put(Leaf, "P4", billet="P", number=4, machine="table saw")
        ).rest,
        1,
    )


def test_f60_with_nothing_kept_back_the_last_leaf_to_come_needs_no_cut() -> None:
    made = sawn(wood("41.5").put(Machine, "band saw", keep_back="0"), "36.0", "30.5", thick="3")
    found = seen(made)
    assert (found.more, found.leaves, near(found.rest, 1)) == (6, 8, "0.0")
    assert [near(one.left_should, 1) for one in billet(made).slices][-3:] == ["8.5", "3.0", "0.0"]


def test_f60_thinner_leaves_less_kept_back_or_a_plain_back_save_the_leaf_at_risk() -> None:
    thinner, less, elsewhere = billet(sawn(wood(), *HEAVY)).ways
    assert (thinner.kind, less.kind, elsewhere.kind) == (
        "thinner leaves",
        "less kept back",
        "plain back from elsewhere",
    )
    assert thinner.to is not None
    assert less.to is not None
    assert near(thinner.to, 2) == "2.93"  # (25.1 - 6 - 0.7) / 3 - 3.2
    assert near(less.to, 1) == "5.5"  # 25.1 - 3 x 6.3 - 0.7


def test_f60_each_way_out_that_is_taken_takes_the_risk_away() -> None:
    heavy = sawn(wood(), *HEAVY)
    assert [one.id for one in billet(heavy).slices if one.at_risk] == ["P6"]
    for made in (heavy.put(Billet, "P", slice_now="2.9"), heavy.put(Machine, "band saw", keep_back="5.5")):
        assert not [one.id for one in billet(made).slices if one.at_risk]
        assert seen(made).leaves == 6


def test_f60_leaves_thinner_than_the_chain_needs_are_no_way_out() -> None:
    ways = billet(sawn(wood(least_left="2.2"), *HEAVY)).ways
    assert "thinner leaves" not in [way.kind for way in ways]  # 0.3 + 0.6 + 2.2 is more than 2.93


def test_a_billet_whose_length_nobody_told_is_as_long_as_its_leaves_want_it() -> None:
    made = wood().put(Billet, "Q", width="150", thickness="44")
    assert size(billet(made, "Q").length) == size(made.making().panels[0].along) + 50
    assert billet(made, "Q").length.source == "assumed"


# F44


def test_f44_rows_end_to_end_lie_side_by_side_on_a_leaf() -> None:
    strips = [Wanted("centre", inch("31"), inch("3.25")), Wanted("right", inch("31"), inch(Fraction(55, 32)))]
    leaves, unfit = nested(
        [*strips, Wanted("left", inch("31"), inch("1.625"))], inch("31"), inch("5.125"), inch("0.125")
    )
    assert not unfit
    assert [[s.id for row in leaf.rows for s in row.strips] for leaf in leaves] == [["centre", "right"], ["left"]]
    assert leaves[0].used(inch("0.125")) == inch(Fraction(163, 32))  # 5 3/32 of 5 1/8


def test_f44_strips_of_one_width_share_a_row_with_a_cut_between() -> None:
    def row(length: str) -> int:
        strips = [Wanted(str(n), mm("300"), mm("40")) for n in range(2)]
        leaves, _ = nested(strips, mm(length), mm("40"), mm("3"))
        return len(leaves)

    assert (row("603"), row("602.9")) == (1, 2)


def test_f44_what_fits_on_no_leaf_is_told() -> None:
    leaves, unfit = nested(
        [Wanted("w", mm("300"), mm("147")), Wanted("n", mm("300"), mm("146"))], mm("300"), mm("146"), mm("3")
    )
    assert (unfit, len(leaves)) == (("w",), 1)


def test_f44_the_plan_names_strips_that_are_wider_than_a_leaf() -> None:
    assert faced("143").plan.veneer.unfit == ()
    made = faced("144")
    (wide,) = made.plan.veneer.unfit
    check = made.found("resaw-yield", wide)
    assert (check.case, near(check.value, 0), near(check.limit, 0), check.level) == (
        "strip too wide",
        "147",
        "146",
        "stop",
    )


def faced(stile: str) -> Made:
    """A run whose left stile is faced with a strip of this width and 3 over; its leaves give 146."""
    made = wood().put(Piece, "W", form="billet", length="2000", width="150", thickness="44")
    made = made.run("K", S1=stile, C="500", S2="40").read("K", "height", "720").rails()
    return made.opening("B", "C", widths="500", heights="640").put(Facing, "K", faces=True)


def test_f44_a_strip_longer_than_the_shops_leaf_for_strips_is_told() -> None:
    long = faced("40").put(Allowances, "allowances", strip_leaf="500")
    assert {c.where for c in long.checks("resaw-yield") if c.case == "strip too long"} == {
        ("K S1",),
        ("K S2",),
        *rails(long),
    }
    enough = faced("40").put(Allowances, "allowances", strip_leaf="740")
    assert not enough.plan.veneer.unfit


def rails(made: Made) -> set[tuple[str]]:
    return {(strip.id,) for strip in made.plan.facing.strips if strip.order == 3}


# lengths a board


@pytest.mark.parametrize(
    ("board", "kerf", "billets"),
    [("1311", "3", 2), ("1310", "3", 1), ("1309", "1", 2), ("1967", "3", 2), ("1968", "3", 3)],
)
def test_f57_lengths_of_a_board_with_a_cut_between_each_two(board: str, kerf: str, billets: int) -> None:
    made = wood().put(Billet, "P", thickness="44").put(Allowances, "allowances", rip_kerf=kerf)
    made = made.put(Piece, "W", form="billet", length=board, width="150", thickness="17")
    assert size(gives(made, "band saw").length) == 654
    assert gives(made, "band saw").leaves == 2
    (leaves,) = [one for one in billed_whole(made.plan).lines if one.line.form == "leaf"]
    assert leaves.at_hand == 2 * billets
