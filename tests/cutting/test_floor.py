"""The plan that is laid at once: whole, valid, and no worse where more is allowed."""

from dataclasses import replace
from random import Random

import pytest
from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import better
from frontwright.cutting.floor import floor_plan
from frontwright.cutting.values import Order, Pinned, Rect, Saw, Stock, Wanted

SHEETS = (Stock("rest", 700, 500, have=True), Stock("sheet", 1000, 450, 2, 30), Stock("large", 1300, 600, None, 50))


def _random_order(seed: int) -> Order:
    luck = Random(seed)
    wanted = tuple(
        Wanted(str(n), luck.randint(30, 420), luck.randint(20, 300), luck.randint(1, 4))
        for n in range(luck.randint(2, 12))
    )
    return Order(wanted, SHEETS, Saw(luck.choice((0, 3, 12))))


@pytest.mark.parametrize("seed", range(40))
def test_turning_or_one_piece_more_never_makes_the_first_plan_worse(seed: int) -> None:
    asked = _random_order(seed)
    plan = floor_plan(asked)
    assert first_fault(asked, plan) is None
    turning = replace(asked, wanted=tuple(replace(one, turns=True) for one in asked.wanted))
    assert not better(turning, plan, floor_plan(turning))
    more = replace(asked, stock=(*asked.stock, Stock("more", 1100, 500, have=True)))
    assert not better(more, plan, floor_plan(more))


def test_the_first_plan_lays_the_rest_round_a_part_that_a_person_placed() -> None:
    wanted = (
        Wanted("F2", 275, 199, group="R"), Wanted("F1", 403, 199, group="R"), Wanted("F3", 275, 243, group="R"),
        Wanted("F4", 275, 239, group="R"), Wanted("F5", 275, 210, 2, group="R"), Wanted("F6", 371, 292, group="R"),
    )  # fmt: skip
    stock = (Stock("own", 1536, 768, 1, batch="lot 1", have=True), Stock("new", 1536, 768, None, batch="bought"))
    pin = Pinned("own", 0, "F2", Rect(960, 560, 275, 199))
    order = Order(wanted, stock, Saw(2, levels=4), pinned=(pin,))
    plan = floor_plan(order)
    assert plan.whole
    assert [layout.stock for layout in plan.layouts] == [0]
    assert first_fault(order, plan) is None


@pytest.mark.parametrize("seed", range(5))
def test_the_last_of_many_pieces_of_the_rack_never_makes_the_first_plan_worse(seed: int) -> None:
    luck = Random(seed)
    wanted = tuple(Wanted(str(n), luck.randint(60, 400), luck.randint(40, 250), 5) for n in range(14))
    rack = tuple(Stock(f"L-{n}", luck.randint(200, 700), luck.randint(150, 500), have=True) for n in range(9))
    less, more = (Order(wanted, rack[:count], Saw(3)) for count in (8, 9))
    assert not better(more, floor_plan(less), floor_plan(more))


@pytest.mark.parametrize("seed", [3, 4, 5])
def test_turning_never_makes_the_first_plan_worse_round_what_is_pinned(seed: int) -> None:
    asked = _random_order(seed)
    pin = Pinned("sheet", 1, asked.wanted[0].id, Rect(17, 23, asked.wanted[0].width, asked.wanted[0].height))
    asked = replace(asked, pinned=(pin,))
    turning = replace(asked, wanted=tuple(replace(one, turns=True) for one in asked.wanted))
    plan = floor_plan(asked)
    assert first_fault(asked, plan) is None
    assert not better(turning, plan, floor_plan(turning))
