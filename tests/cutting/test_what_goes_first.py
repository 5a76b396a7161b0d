"""What is the order's own goes before what everybody may have, that before what is bought; and when that is known."""

from __future__ import annotations

import time
from dataclasses import replace

import pytest
from frontwright.cutting import lay
from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import of_tier, plan_of, rank
from frontwright.cutting.floor import floor_plan
from frontwright.cutting.search.settled import Least
from frontwright.cutting.values import Layout, Order, Placed, Saw, Stock, Wanted
from hypothesis import given, settings
from hypothesis import strategies as st

NEW = Stock("new", 2440, 1220, None, cost=29768)
OWN = Stock("own", 900, 500, have=True)
SHARED = tuple(Stock(f"L-{n}", 800, 400, cost=n, have=True, shared=True) for n in range(3))
RAILS = Wanted("rail", 700, 180, 4)
SAW = Saw(3, None, 4)


def used(order: Order) -> tuple[int, int, int]:
    plan = lay(order, 3.0)
    assert first_fault(order, plan) is None
    assert plan.whole
    own, shared, bought = (of_tier(order, plan, tier) for tier in range(3))
    return own, shared, bought


def test_own_pieces_then_shared_ones_then_a_sheet() -> None:
    assert used(Order((RAILS,), (NEW, OWN, *SHARED), SAW)) == (1, 1, 0)
    assert used(Order((replace(RAILS, copies=2),), (NEW, OWN, *SHARED), SAW)) == (1, 0, 0)
    assert used(Order((RAILS,), (NEW, OWN), SAW))[2] == 1


def test_boards_of_lengths_are_taken_in_the_same_order() -> None:
    lengths = Wanted("rail", 700, 60, 5)
    own, new = Stock("own", 1500, 60, have=True), Stock("new", 3000, 60, None, cost=100)
    shared = Stock("L-1", 2200, 60, cost=5, have=True, shared=True)
    assert used(Order((lengths,), (new, own, shared), Saw(3, "along", 3))) == (1, 1, 0)


def test_what_lies_there_is_used_up_before_one_large_sheet_that_would_hold_all() -> None:
    parts = tuple(Wanted(f"P{n}", 780, 380) for n in range(3))
    assert used(Order(parts, (NEW, *SHARED), SAW)) == (0, 3, 0)


def test_four_rails_and_a_panel_are_done_as_soon_as_nothing_can_be_better() -> None:
    order = Order((RAILS, Wanted("panel", 850, 460)), (NEW, OWN, *SHARED), SAW)
    lay(order, 1.0)  # the search may still have to be prepared
    began = time.monotonic()
    plan = lay(order, 20.0)
    assert Least(order).settles(plan, plan.bound)
    assert time.monotonic() - began < 8.0


def test_a_bought_piece_too_many_is_no_proof_though_there_are_as_few_pieces_as_can_be() -> None:
    order = Order((Wanted("panel", 700, 300),), (NEW, OWN), SAW)
    bought, own = (plan_of(order, [Layout(n, (Placed(0, 0, 0, 700, 300),))], 1) for n in (0, 1))
    assert not Least(order).settles(bought, 1)
    assert Least(order).settles(own, 1)
    assert rank(order, own) < rank(order, bought)


def test_what_must_be_bought_is_what_fits_nowhere_else_and_what_finds_no_room() -> None:
    assert Least(Order((Wanted("long", 2000, 300),), (NEW, OWN), SAW)).bought == 1
    assert Least(Order((Wanted("panel", 900, 500, 2),), (NEW, OWN), SAW)).bought == 1
    assert Least(Order((Wanted("panel", 900, 500),), (NEW, OWN), SAW)).bought == 0


SIZES = st.tuples(st.integers(10, 60), st.integers(10, 40))


@settings(max_examples=40, deadline=None)
@given(st.lists(SIZES, min_size=1, max_size=6), st.lists(SIZES, max_size=4), SIZES)
def test_one_shared_piece_more_never_makes_a_plan_laid_at_once_worse(
    parts: list[tuple[int, int]], there: list[tuple[int, int]], more: tuple[int, int]
) -> None:
    wanted = tuple(Wanted(f"P{n}", *size) for n, size in enumerate(parts))
    pieces = [Stock(f"L{n}", *size, cost=1, have=True, shared=True) for n, size in enumerate([*there, more])]
    new = Stock("new", 80, 60, None, cost=100)
    less, all_ = (Order(wanted, (new, *some), Saw(1)) for some in (pieces[:-1], pieces))
    assert rank(all_, floor_plan(all_))[:2] <= rank(less, floor_plan(less))[:2]


@pytest.mark.parametrize("kerf", [0, 3])
def test_the_plan_with_shared_pieces_is_no_worse_than_the_one_without_any(kerf: int) -> None:
    parts = tuple(Wanted(f"P{n}", 500 + 40 * n, 300, 2) for n in range(5))
    without = Order(parts, (NEW,), Saw(kerf, None, 4))
    with_ = replace(without, stock=(NEW, *SHARED))
    assert rank(with_, lay(with_, 2.0))[:2] <= rank(without, lay(without, 2.0))[:2]


def test_pieces_of_several_sizes_are_held_against_the_longest_and_widest_of_them() -> None:
    small = replace(NEW, id="small", width=1800, cost=20000)
    order = Order((Wanted("wide", 1700, 700, 5),), (NEW, small), Saw(3))
    plan = lay(order, 2.0)
    assert (plan.cost, plan.bound) == (5, 5)
    assert Least(order).settles(plan, plan.bound)
    assert {order.stock[layout.stock].id for layout in plan.layouts} == {"small"}


def test_as_few_pieces_as_can_be_are_no_proof_where_they_could_cost_less() -> None:
    dear, cheap = replace(NEW, cost=30), replace(NEW, id="cheap", width=1800, cost=20)
    order = Order((Wanted("panel", 700, 300),), (dear, cheap), SAW)
    plans = [plan_of(order, [Layout(n, (Placed(0, 0, 0, 700, 300),))], 1) for n in (0, 1)]
    assert [Least(order).settles(plan, 1) for plan in plans] == [False, True]
