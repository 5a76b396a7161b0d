"""The search in two dimensions: small orders whose best plan can be told by hand, and the rules of the shop."""

from __future__ import annotations

from time import monotonic

import pytest
from frontwright.cutting.checker import first_fault
from frontwright.cutting.search import prepare, run
from frontwright.cutting.values import Order, Pinned, Plan, Rect, Saw, Stock, Wanted

SECONDS = 1.0


@pytest.fixture(scope="module", autouse=True)
def prepared() -> None:
    prepare()


def laid(order: Order, seconds: float = SECONDS, seed: int = 1) -> Plan:
    heard: list[Plan] = []
    plan = run(order, monotonic() + seconds, seed, heard.append)
    assert first_fault(order, plan) is None
    assert all(first_fault(order, one) is None for one in heard)
    assert not heard or heard[-1] == plan
    return plan


def pieces(plan: Plan) -> int:
    return sum(layout.copies for layout in plan.layouts)


def test_four_quarters_fill_one_sheet_and_the_bound_says_so() -> None:
    # 4 x (50 x 40) = 8000 = 100 x 80
    plan = laid(Order((Wanted("a", 50, 40, 4),), (Stock("s", 100, 80, None),)))
    assert (plan.whole, plan.cost, plan.bound) == (True, 1, 1)


def test_a_kerf_between_two_parts_makes_a_second_sheet_of_what_would_just_fit() -> None:
    # 50 + 50 = 100 fits without a kerf, 50 + 3 + 50 does not
    two = (Wanted("a", 50, 80, 2),)
    assert laid(Order(two, (Stock("s", 100, 80, None),))).cost == 1
    assert laid(Order(two, (Stock("s", 100, 80, None),), Saw(3))).cost == 2
    assert laid(Order(two, (Stock("s", 103, 80, None),), Saw(3))).cost == 1


def test_a_part_as_large_as_the_sheet_fits_whatever_the_kerf() -> None:
    assert laid(Order((Wanted("a", 100, 80, 2),), (Stock("s", 100, 80, None),), Saw(7))).cost == 2


def test_trims_are_taken_off_before_the_first_part() -> None:
    # 100 - 5 - 5 = 90 leaves one part of 50, not two of 50
    parts = (Wanted("a", 50, 80, 2),)
    assert laid(Order(parts, (Stock("s", 110, 90, None, trims=(5, 5, 5, 5)),))).cost == 1
    assert laid(Order(parts, (Stock("s", 109, 90, None, trims=(5, 5, 5, 5)),))).cost == 2


def test_parts_lie_round_a_defect() -> None:
    # 100 x 100 with a bad spot of 10 x 10 in its middle: 45 x 100 on either side
    stock = (Stock("s", 100, 100, None, defects=(Rect(45, 45, 10, 10),)),)
    assert laid(Order((Wanted("a", 45, 100, 2),), stock)).cost == 1
    assert laid(Order((Wanted("a", 46, 100, 2),), stock)).missing == (2,)


def test_a_kerf_may_run_through_a_defect() -> None:
    # 48 + kerf 4 + 48: the kerf takes the bad line of 4 away
    stock = (Stock("s", 100, 50, None, defects=(Rect(48, 0, 4, 50),)),)
    assert laid(Order((Wanted("a", 48, 50, 2),), stock, Saw(4))).cost == 1


def test_only_parts_that_may_turn_are_turned() -> None:
    stock = (Stock("s", 100, 30, None),)
    assert laid(Order((Wanted("a", 30, 50, 2, turns=True),), stock)).cost == 1
    assert laid(Order((Wanted("a", 30, 50, 2),), stock)).missing == (2,)


def test_a_part_needs_a_grade_that_serves() -> None:
    stock = (Stock("plain", 100, 100, None, cost=1, grade=2), Stock("show", 100, 100, None, cost=5))
    plan = laid(Order((Wanted("front", 60, 60, 1, grade=1), Wanted("back", 90, 90, 1)), stock, wish="cheapest"))
    assert (plan.cost, plan.whole) == (6, True)


def test_a_group_comes_from_one_batch() -> None:
    # each batch has one sheet for two fronts: the pair cannot be parted, the odd one goes to the other batch
    stock = (Stock("s1", 100, 50, 1, batch="one"), Stock("s2", 100, 50, 1, batch="two"))
    fronts = (Wanted("left", 50, 50, group="pair"), Wanted("odd", 50, 50), Wanted("right", 50, 50, group="pair"))
    plan = laid(Order(fronts, stock))
    assert plan.whole
    by_stock = {layout.stock: {p.item for p in layout.placed} for layout in plan.layouts}
    assert {0, 2} in by_stock.values()


def test_a_group_goes_to_the_batch_that_has_room_for_all_of_it() -> None:
    stock = (Stock("short", 60, 50, 1, batch="one"), Stock("long", 160, 50, 1, batch="two"))
    plan = laid(Order((Wanted("a", 50, 50, 3, group="g"),), stock))
    assert (plan.whole, [layout.stock for layout in plan.layouts]) == (True, [1])


def test_a_pinned_part_stays_and_the_rest_is_laid_round_it() -> None:
    # the pinned 40 x 100 in the middle leaves 30 on either side
    order = Order(
        (Wanted("pinned", 40, 100), Wanted("a", 30, 100, 2)),
        (Stock("s", 100, 100, None),),
        pinned=(Pinned("s", 1, "pinned", Rect(30, 0, 40, 100)),),
    )
    plan = laid(order)
    assert (plan.whole, pieces(plan)) == (True, 1)


def test_a_rack_piece_is_used_before_one_is_bought() -> None:
    stock = (Stock("new", 100, 100, None), Stock("rack", 100, 100, 1, have=True))
    plan = laid(Order((Wanted("a", 80, 80),), stock))
    assert [layout.stock for layout in plan.layouts] == [1]


def test_the_cheaper_sizes_are_chosen_not_the_fewer_pieces() -> None:
    # two small at 4 are 8, one large at 10 would hold both
    stock = (Stock("large", 100, 100, None, cost=10), Stock("small", 50, 100, None, cost=4))
    parts = (Wanted("a", 50, 100, 2),)
    assert laid(Order(parts, stock, wish="cheapest")).cost == 8
    assert laid(Order(parts, stock)).cost == 1


def test_too_little_stock_gives_the_most_that_can_be_laid() -> None:
    # one sheet of 100 x 100: of 60 x 100 and two 50 x 100 the two are more
    plan = laid(Order((Wanted("a", 60, 100), Wanted("b", 50, 100, 2)), (Stock("s", 100, 100, 1),)))
    assert plan.missing == (1, 0)


def test_a_part_that_fits_nowhere_is_missing_and_the_others_are_laid() -> None:
    plan = laid(Order((Wanted("huge", 500, 10), Wanted("a", 50, 50, 4)), (Stock("s", 100, 100, None),)))
    assert (plan.missing, plan.cost) == ((1, 0), 1)


def test_no_stock_and_no_part_are_no_trouble() -> None:
    assert laid(Order((Wanted("a", 50, 50, 4),), ())).missing == (4,)
    assert laid(Order((), (Stock("s", 100, 100, None),))).cost == 0


def test_the_leftover_of_equal_plans_is_one_rectangle() -> None:
    # 4 parts of 30 x 50 on 120 x 100: two columns of two leave 60 x 100 in one
    plan = laid(Order((Wanted("a", 30, 50, 4),), (Stock("s", 120, 100, None),)))
    assert max(p.x + p.width for p in plan.layouts[0].placed) == 60


def test_the_first_cut_runs_as_told() -> None:
    # two turns of the cut: ripped first, two long rows and two of short parts; crosscut first, a long part leaves no
    # room for a column of short ones
    parts = (Wanted("long", 99, 20, 2), Wanted("short", 49, 20, 4))
    stock = (Stock("s", 100, 80, None),)
    assert laid(Order(parts, stock, Saw(first="along", levels=2))).cost == 1
    assert laid(Order(parts, stock, Saw(first="across", levels=2))).cost == 2


def test_a_saw_that_turns_once_gets_strips_only() -> None:
    order = Order((Wanted("a", 30, 40, 6), Wanted("b", 60, 20, 3)), (Stock("s", 100, 100, None),), Saw(2, levels=2))
    assert laid(order).whole


def test_the_most_valuable_choice_is_laid() -> None:
    # one of 10 for 100 x 100, or four of 3 in its place
    parts = (Wanted("whole", 100, 100, 1, value=10), Wanted("quarter", 50, 50, 5, value=3))
    plan = laid(Order(parts, (Stock("s", 100, 100, 1),), wish="most value"))
    assert plan.cost == 12


def test_a_long_sheet_is_used_no_higher_than_it_must_be() -> None:
    # 6 parts of 50 x 20 on a width of 100: three rows, 60 high, and with a kerf of 2 between rows 64
    parts = (Wanted("a", 49, 20, 6),)
    stock = (Stock("s", 100, 500, 1),)
    assert laid(Order(parts, stock, wish="shortest")).cost == 60
    assert laid(Order(parts, stock, Saw(2), wish="shortest")).cost == 64


def test_many_copies_are_laid_as_patterns_to_the_bound() -> None:
    # 1000 halves and 500 quarters beside: 500 + 125 sheets, equal layouts counted together
    parts = (Wanted("half", 50, 100, 1000), Wanted("quarter", 50, 50, 500))
    plan = laid(Order(parts, (Stock("s", 100, 100, None),)), 3.0)
    assert (plan.cost, plan.bound) == (625, 625)
    assert len(plan.layouts) <= 4


KITCHEN = Order(
    (
        Wanted("door", 715, 396, 14),
        Wanted("wide door", 715, 446, 6),
        Wanted("drawer", 140, 596, 9, turns=True),
        Wanted("panel", 720, 330, 8),
        Wanted("rail", 600, 80, 22, turns=True),
        Wanted("shelf", 564, 300, 18, turns=True),
    ),
    (Stock("sheet", 2440, 1220, None, trims=(10, 10, 10, 10)),),
    Saw(4),
)


def test_the_same_seed_gives_the_same_plan() -> None:
    # a bound that is met ends the search by itself, not by the clock
    one, other = laid(KITCHEN, 20.0, seed=3), laid(KITCHEN, 20.0, seed=3)
    assert one.cost == one.bound
    assert one == other


def test_a_kitchen_of_seventy_parts_is_proven_best_in_two_seconds() -> None:
    plan = laid(KITCHEN, 2.0)
    assert (plan.whole, plan.cost) == (True, plan.bound)


@pytest.mark.parametrize("seed", range(3))
def test_allowing_turning_never_makes_a_plan_worse(seed: int) -> None:
    parts = tuple(Wanted(str(n), 20 + (n * (7 + seed)) % 45, 15 + (n * 11) % 50) for n in range(30))
    turned = tuple(Wanted(w.id, w.width, w.height, turns=True) for w in parts)
    stock = (Stock("s", 100, 100, None),)
    assert laid(Order(turned, stock), 0.7).cost <= laid(Order(parts, stock), 0.7).cost


@pytest.mark.parametrize("seed", range(3))
def test_a_free_piece_more_never_makes_a_plan_worse(seed: int) -> None:
    parts = tuple(Wanted(str(n), 20 + (n * (5 + seed)) % 45, 15 + (n * 13) % 50) for n in range(25))
    stock = (Stock("s", 100, 100, None, cost=10),)
    more = (*stock, Stock("rack", 70, 60, 1, cost=0, have=True))
    assert laid(Order(parts, more, wish="cheapest"), 0.7).cost <= laid(Order(parts, stock, wish="cheapest"), 0.7).cost
