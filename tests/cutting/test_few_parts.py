"""Few parts laid exactly: every set that a piece can hold, and the fewest or cheapest of them."""

from __future__ import annotations

from random import Random

import pytest
from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import usable
from frontwright.cutting.search import prepare, small
from frontwright.cutting.search.keep import Keeper
from frontwright.cutting.search.small import lay_small, may_be_small
from frontwright.cutting.values import Order, Plan, Saw, Stock, Wanted


@pytest.fixture(scope="module", autouse=True)
def prepared() -> None:
    prepare()


def laid(order: Order) -> Plan:
    assert may_be_small(order)
    keeper = Keeper(order, lambda _plan: None, None)
    lay_small(order, keeper, 2.0)
    assert first_fault(order, keeper.best) is None
    return keeper.best


def cut_up(luck: Random, width: int, height: int, kerf: int, parts: int) -> list[tuple[int, int]]:
    """A sheet cut from edge to edge into so many parts: they fit on it again."""
    found = [(width, height)]
    while len(found) < parts:
        found.sort(key=lambda one: one[0] * one[1])
        wide, high = found.pop()
        at = luck.randint(max(wide, high) // 4, max(wide, high) // 2)
        if wide > high:
            found += [(at, high), (wide - at - kerf, high)]
        else:
            found += [(wide, at), (wide, high - at - kerf)]
    return found


@pytest.mark.parametrize("kerf", [0, 3])
@pytest.mark.parametrize("seed", range(3))
def test_parts_of_two_sheets_cut_up_go_on_two_sheets_again(seed: int, kerf: int) -> None:
    luck = Random(seed)
    sizes = [size for _ in range(2) for size in cut_up(luck, 200, 150, kerf, 6)]
    wanted = tuple(Wanted(str(n), *size) for n, size in enumerate(sizes))
    stock = Stock("s", 220, 160, None, trims=(12, 8, 4, 6))
    assert usable(stock).width == 200
    plan = laid(Order(wanted, (stock,), Saw(kerf)))
    assert (plan.whole, plan.cost) == (True, 2)


def test_parts_that_lie_round_a_hole_cannot_be_cut_from_edge_to_edge() -> None:
    # four of 3 x 2 round a free 1 x 1 are 5 x 5, but no cut goes through
    lying, standing = Wanted("lying", 3, 2, 2), Wanted("standing", 2, 3, 2)
    assert laid(Order((lying, standing), (Stock("s", 5, 5, None),))).cost == 2
    assert laid(Order((lying, standing), (Stock("s", 6, 5, None),))).cost == 1


def test_a_part_is_turned_only_where_it_may() -> None:
    stock = (Stock("s", 100, 30, None),)
    assert laid(Order((Wanted("a", 30, 50, 2, turns=True),), stock)).cost == 1
    assert not laid(Order((Wanted("a", 30, 50, 2),), stock)).whole


def test_of_several_sizes_the_cheapest_are_taken_as_far_as_there_are_any() -> None:
    # the offcut holds one door, the sheet two: three doors are one of each
    stock = (Stock("sheet", 100, 80, None, cost=10), Stock("offcut", 50, 80, 1, cost=1))
    plan = laid(Order((Wanted("door", 50, 80, 3),), stock, wish="cheapest"))
    assert (plan.whole, plan.cost) == (True, 11)


def test_where_there_are_too_many_sets_nothing_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(small, "_STEPS", 100_000)
    wanted = tuple(Wanted(str(n), 3 + n, 40 - n, turns=True) for n in range(20))
    order = Order(wanted, (Stock("s", 500, 400, None),))
    keeper = Keeper(order, lambda _plan: None, None)
    lay_small(order, keeper, 1.0)
    assert keeper.best.layouts == ()


def test_orders_with_rules_that_tie_parts_to_their_piece_are_left_to_the_search() -> None:
    parts, sheet = (Wanted("a", 30, 50, 2),), Stock("s", 100, 80, None)
    assert may_be_small(Order(parts, (sheet,)))
    assert not may_be_small(Order(parts, (sheet,), Saw(first="along")))
    assert not may_be_small(Order((Wanted("a", 30, 50, 21),), (sheet,)))
    assert not may_be_small(Order((Wanted("a", 30, 50, 2, group="g"),), (sheet,)))
