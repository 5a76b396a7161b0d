"""From billet to leaves, each rule by the example that goes with its formula (F44, F53 to F61)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.job import (
    Allowances,
    Billet,
    Blade,
    Facing,
    Leaf,
    Machine,
    PanelBuild,
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


def test_f53_a_rest_thinner_than_a_leaf_is_no_spare_whatever_the_shop_says() -> None:
    made = wood("38.5").put(Allowances, "allowances", spare_rest="3").put(Billet, "P", slice="8")
    assert (near(billet(made).rest, 1), billet(made).spare) == ("7.0", False)


def test_f53_with_nothing_kept_back_the_rest_is_no_spare() -> None:
    made = wood("8").put(Machine, "band saw", keep_back="0")
    assert (billet(made).planned, near(billet(made).rest, 1), billet(made).spare) == (1, "5.0", False)
    assert next(one for one in made.plan.veneer.compared if one.chosen).with_rests == 1


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


def test_f54_a_billet_that_the_blade_cuts_in_one_pass_has_no_belly() -> None:
    made = (
        wood().put(Machine, "table saw", blade_height="79", out_of_square="0.25").put(Billet, "P", machine="table saw")
    )
    assert billet(made).belly is not None
    assert billet(made.put(Billet, "P", width="79")).belly is None


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


def test_f60_what_is_left_of_the_billet_says_alone_what_it_still_gives() -> None:
    found = seen(sawn(wood(), *HEAVY, thick=""))
    assert (found.read, found.slices, near(found.pitch, 1), near(found.loss, 1)) == (False, 3, "6.3", "3.3")
    assert (found.more, found.leaves, near(found.rest, 1)) == (3, 6, "6.2")
    heavier = seen(sawn(wood(), "36", "28", "20", thick=""))
    assert (near(heavier.pitch, 1), heavier.more) == ("8.0", 1)


def test_f60_less_gone_than_the_leaf_wanted_says_nothing_without_its_thickness() -> None:
    found = seen(sawn(wood(), "41.5", thick=""))
    assert (found.slices, near(found.loss, 1)) == (0, "2.5")


def test_f60_more_left_than_the_billet_was_thick_promises_no_leaf_more_than_the_plan() -> None:
    for thick in ("3", ""):
        plan = billet(sawn(wood(), "60", thick=thick))
        assert plan.seen is not None
        assert plan.seen.below is not None
        assert (plan.planned, plan.seen.leaves) == (6, 6)
        assert near(plan.slices[-1].left_should, 1) == "11.0"
    untold = billet(sawn(wood(), "60", thick="3").put(Billet, "P", thickness=None))
    assert untold.seen is not None
    assert untold.seen.leaves > 6  # nobody measured the billet: the reading is the better figure


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


def test_f60_slices_made_keep_the_losses_of_the_blade_that_made_them() -> None:
    made = sawn(wood(), "38.5", "33.0", "27.5", thick="3")
    made = sawn(made, "19.8", thick="3", first=4, machine="table saw")
    assert [near(one.left_should, 1) for one in billet(made).slices] == ["38.5", "33.0", "27.5", "19.8", "12.1", "4.4"]
    assert [one.saw.machine for one in billet(made).slices[2:5]] == ["band saw", "table saw", "table saw"]
    assert (billet(made).saw.machine, billet(made).saw_now.machine) == ("band saw", "table saw")


def test_f60_a_saw_named_again_is_no_change_of_blade() -> None:
    plain = sawn(wood(), *HEAVY)
    named = sawn(wood(), *HEAVY, machine="band saw")
    assert (seen(named).slices, near(seen(named).loss, 1)) == (seen(plain).slices, near(seen(plain).loss, 1))


def test_f60_leaves_sawn_since_the_last_reading_are_taken_off_what_is_to_come() -> None:
    made = sawn(sawn(wood(), *HEAVY), "", first=4)
    assert (seen(made).more, seen(made).leaves, near(seen(made).rest, 1)) == (2, 6, "6.2")
    all_six = sawn(sawn(wood(), *HEAVY), "", "", "", first=4)
    assert (seen(all_six).more, seen(all_six).leaves) == (0, 6)
    assert not [one.id for one in billet(all_six).slices if one.at_risk]
    assert [near(one.left_should, 1) for one in billet(all_six).slices][3:] == ["18.8", "12.5", "6.2"]


def test_f60_a_leaf_of_which_nothing_was_read_is_taken_to_be_as_thick_as_the_others() -> None:
    made = sawn(sawn(wood(), *HEAVY), "", thick="", first=4)
    assert (seen(made).more, near(seen(made).rest, 1)) == (2, "6.2")  # 25.1 less three times 6.3, not 6.2


def test_f60_more_leaves_than_there_is_wood_for_leave_nothing_and_never_less() -> None:
    made = sawn(sawn(wood(), *HEAVY), *[""] * 7, first=4)
    assert (seen(made).more, seen(made).leaves) == (0, 10)
    assert near(billet(made).slices[-1].left_should, 1) == "0.0"
    assert near(seen(made).rest, 1) == "0.0"


def test_f60_a_reading_that_cannot_be_takes_no_leaf_away_and_gives_none() -> None:
    for left in ("46", "42"):
        found = seen(sawn(wood(), left, thick="3"))
        assert found.below is not None
        assert near(found.loss, 1) == "2.5"
        assert found.leaves == 6  # as planned: one of the two readings is wrong, nobody knows which


@pytest.mark.parametrize("field", ["length", "width", "good_length", "unjointed"])
def test_a_leaf_of_which_anything_was_read_was_sawn_wherever_it_lies(field: str) -> None:
    made = wood().put(Leaf, "P1", billet="P", number=1, front="F", side="back", **{field: "120"})
    assert billet(made).slices[0].state == "good"
    placed = wood().put(Leaf, "P1", billet="P", number=1, front="F", side="back")
    assert billet(placed).slices[0].state == "to come"
    assert billet(placed.put(Leaf, "P1", sawn=True)).slices[0].state == "good"


# F55


def bladed() -> Made:
    """The band saw with a thin and a wide blade, the wide one mounted; its own kerf is 1.2."""
    made = wood().put(Blade, "thin", machine="band saw", kerf="0.8")
    made = made.put(Blade, "wide", machine="band saw", kerf="1.6", wander="0.9")
    return made.put(Machine, "band saw", blade="wide")


def test_f55_a_blade_has_its_own_kerf_and_the_saw_says_what_it_does_not() -> None:
    losses = billet(bladed()).losses
    assert [near(one, 1) for one in (losses.kerf, losses.wander, losses.rejoint)] == ["1.6", "0.9", "0.7"]
    thin = billet(bladed().put(Machine, "band saw", blade="thin")).losses
    assert [near(one, 1) for one in (thin.kerf, thin.wander, thin.together)] == ["0.8", "0.6", "2.1"]
    none = billet(bladed().put(Machine, "band saw", blade=None)).losses
    assert near(none.kerf, 1) == "1.2"


def test_f55_a_billet_is_planned_with_the_blade_that_it_names() -> None:
    made = bladed().put(Billet, "P", blade="thin")
    assert (billet(made).saw.machine, billet(made).saw.blade) == ("band saw", "thin")
    assert (billet(made).planned, billet(bladed()).planned) == (7, 6)  # 38 / 5.1 and 38 / 6.2


def test_f55_another_blade_from_a_leaf_on_is_counted_by_its_own_kerf() -> None:
    made = sawn(bladed(), "37.8", "31.6", thick="3").put(Leaf, "P3", billet="P", number=3, blade="thin")
    found = seen(made)
    assert (found.slices, near(found.loss, 1), found.more, found.leaves) == (0, "2.1", 5, 7)
    assert [near(one.left_should, 1) for one in billet(made).slices[:3]] == ["37.8", "31.6", "26.5"]


def test_f55_each_blade_of_a_saw_is_compared() -> None:
    compared = {(one.machine, one.blade): (one.gives, one.chosen) for one in bladed().plan.veneer.compared}
    assert compared["band saw", "wide"] == (6, True)
    assert compared["band saw", "thin"] == (7, False)


def test_f55_a_blade_of_another_saw_does_not_count_on_this_one() -> None:
    made = bladed().put(Machine, "table saw", blade="wide")
    assert gives(made, "table saw").loss.length == gives(wood(), "table saw").loss.length


def test_f54_a_blade_that_leans_makes_a_belly_and_another_none() -> None:
    made = wood().put(Blade, "ripping", machine="table saw", out_of_square="0.25")
    made = made.put(Blade, "true", machine="table saw").put(Billet, "P", machine="table saw", blade="ripping")
    found = billet(made).belly
    assert found is not None
    assert near(found) == "0.34"
    assert billet(made.put(Billet, "P", blade="true")).belly is None


def test_f76_what_jointing_took_is_seen_where_it_was_read_before_and_after() -> None:
    made = sawn(wood(), *HEAVY)
    assert seen(made).rejoint is None
    for name, before in (("P1", "38.6"), ("P3", "25.8")):
        made = made.put(Leaf, name, unjointed=before)
    found = seen(made).rejoint
    assert found is not None
    assert near(found) == "0.80"  # (38.6 - 37.7 + 25.8 - 25.1) / 2


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


def test_f60_leaves_that_are_sawn_heavier_than_wanted_are_sawn_as_wanted() -> None:
    made = wood().put(PanelBuild, "panel", slice="2", least_left="0.8")
    ways = billet(sawn(made, "38.9", "33.8", "28.7", thick="3.2")).ways
    thinner = [
        (near(way.was, 1), near(way.to, 1)) for way in ways if way.was and way.to and way.kind.startswith("thin")
    ]
    assert thinner == [("3.2", "2.0")]


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
