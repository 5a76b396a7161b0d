"""What the search is made of: bounds, free regions, filling a piece, trees from layouts and back."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from dataclasses import replace
from itertools import combinations, pairwise
from pathlib import Path
from random import Random
from time import monotonic

import pytest
from frontwright.cutting import preparing
from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import overlap, plan_of
from frontwright.cutting.search.bounds import Kind, least_length, least_pieces
from frontwright.cutting.search.caller import Caller
from frontwright.cutting.search.choosing import Choosing, may_choose, piece_sets, sets_near
from frontwright.cutting.search.climb import STEADY, Climb, fewer, lower_edge
from frontwright.cutting.search.compiled import COMPILED, compiled
from frontwright.cutting.search.filling import COARSE, FINE, fill, filling_of
from frontwright.cutting.search.graft import trees_of
from frontwright.cutting.search.joining import joined
from frontwright.cutting.search.keep import Clock, Keeper
from frontwright.cutting.search.limited import fill_limited, limited_of
from frontwright.cutting.search.mixes import Mixes
from frontwright.cutting.search.patterns import Pool, as_layouts, column_of, relax, whole
from frontwright.cutting.search.prepare import prepare
from frontwright.cutting.search.regions import free_regions
from frontwright.cutting.search.run import run
from frontwright.cutting.search.scarcity import fill_scarce, may_fill
from frontwright.cutting.search.targets import bound_of
from frontwright.cutting.search.tree import LOST, H
from frontwright.cutting.search.variants import batch_choices
from frontwright.cutting.search.work import layouts_of, prices_of, task_of
from frontwright.cutting.search.worths import GROWTH, PATIENCE, Worths
from frontwright.cutting.values import Layout, Order, Pinned, Placed, Plan, Rect, Saw, Stock, Wanted
from hypothesis import given, settings
from hypothesis import strategies as st

FAR = 1e9
SHEET = Stock("s", 100, 100, None)


def test_parts_over_half_both_ways_need_a_sheet_each() -> None:
    # the area alone says 3: 9 x 51 x 51 = 23409
    assert least_pieces([Kind(51, 51, 9, turns=False)], 100, 100) == 9


def test_tall_parts_are_told_from_flat_ones_by_the_bound() -> None:
    # two of 60 x 40 lie one above the other; turned is another matter only for parts that may
    assert least_pieces([Kind(60, 40, 4, turns=False)], 100, 100) == 2
    assert least_pieces([Kind(60, 34, 3, turns=False)], 100, 100) == 2


def test_a_bound_with_turning_is_never_above_the_one_without() -> None:
    sizes = [(70, 30, 5), (40, 60, 7), (20, 90, 4), (55, 51, 3)]
    fixed = least_pieces([Kind(*size, turns=False) for size in sizes], 100, 100)
    assert least_pieces([Kind(*size, turns=True) for size in sizes], 100, 100) <= fixed


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(1, 99), min_size=1, max_size=6), st.lists(st.integers(1, 99), min_size=1, max_size=6))
def test_no_bound_is_above_what_a_sheet_was_cut_into(xs: list[int], ys: list[int]) -> None:
    """A sheet cut into a grid can be laid on that sheet, whatever the cuts."""
    across, along = [0, *sorted(set(xs)), 100], [0, *sorted(set(ys)), 100]
    kinds = [
        Kind(right - left, top - low, 1, turns=False)
        for left, right in pairwise(across)
        for low, top in pairwise(along)
    ]
    assert least_pieces(kinds, 100, 100) == 1
    assert least_length(kinds, 100) == 100


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 95), st.integers(0, 95), st.integers(1, 20), st.integers(1, 20)), max_size=5),
    st.integers(0, 6),
)
def test_free_regions_are_clear_of_defects_and_a_kerf_apart(spots: list[tuple[int, int, int, int]], kerf: int) -> None:
    defects = tuple(Rect(*spot) for spot in spots)
    regions = free_regions(Stock("s", 100, 100, defects=defects), kerf, None)
    places = [Rect(r.x, r.y, r.width - kerf, r.height - kerf) for r in regions]
    assert not any(overlap(place, defect) for place in places for defect in defects)
    assert not any(overlap(one, other, kerf) for one, other in combinations(places, 2))
    assert all(p.x >= 0 and p.x + p.width <= 100 and p.y >= 0 and p.y + p.height <= 100 for p in places)


def test_what_is_pinned_leaves_its_rest_in_regions() -> None:
    regions = free_regions(SHEET, 2, None, (Rect(0, 0, 50, 100),))
    assert [(r.x, r.y, r.width, r.height) for r in regions] == [(52, 0, 50, 102)]


def test_a_piece_is_filled_with_what_is_worth_most() -> None:
    # with a kerf of 2: four of 20 in 100 (20 + 2 + 20 + 2 + 20 + 2 + 20 = 86), so 16 a piece
    order = Order((Wanted("a", 20, 20, 99),), (SHEET,), Saw(2))
    filling = filling_of(order, 0, FINE)
    assert filling is not None
    assert filling.exact
    value, placed = fill(filling, [1.0])
    assert (value, len(placed)) == (16.0, 16)
    assert first_fault(order, plan_of(order, [Layout(0, placed)])) is None


def test_a_coarse_filling_is_still_one_that_can_be_cut() -> None:
    parts = tuple(Wanted(str(n), 301 + 37 * n, 205 + 53 * n, 99, turns=True) for n in range(25))
    order = Order(parts, (Stock("s", 3050, 2070, None),), Saw(4))
    filling = filling_of(order, 0, COARSE)
    assert filling is not None
    assert not filling.exact
    _, placed = fill(filling, [float(w.width * w.height) for w in parts])
    assert first_fault(order, plan_of(order, [Layout(0, placed)])) is None


def test_a_piece_with_a_defect_or_a_told_cut_is_not_filled_so() -> None:
    parts = (Wanted("a", 20, 20, 99),)
    assert filling_of(Order(parts, (Stock("s", 100, 100, defects=(Rect(1, 1, 1, 1),)),)), 0, FINE) is None
    assert filling_of(Order(parts, (SHEET,), Saw(first="along")), 0, FINE) is None


MIXED = Order(tuple(Wanted(str(n), 15 + 7 * n % 40, 12 + 11 * n % 45, 2) for n in range(12)), (SHEET,), Saw(3))


def test_trees_from_layouts_lay_the_same() -> None:
    task = task_of(MIXED)
    layouts = layouts_of(task, Climb(task, STEADY, 1).trees)
    again = trees_of(task, layouts)
    assert again is not None
    before = sorted(sorted((p.item, p.width, p.height) for p in layout.placed) for layout in layouts)
    after = sorted(sorted((p.item, p.width, p.height) for p in one.placed) for one in layouts_of(task, again))
    assert before == after
    assert first_fault(MIXED, plan_of(MIXED, layouts_of(task, again))) is None


def test_a_layout_that_no_straight_cut_parts_is_no_tree() -> None:
    # a pinwheel
    parts = (Wanted("wide", 60, 40, 2), Wanted("high", 40, 60, 2))
    places = (Placed(0, 0, 0, 60, 40), Placed(1, 60, 0, 40, 60), Placed(0, 40, 60, 60, 40), Placed(1, 0, 40, 40, 60))
    assert trees_of(task_of(Order(parts, (SHEET,))), [Layout(0, places)]) is None


def test_every_plan_on_the_way_down_can_be_cut() -> None:
    task, seen = task_of(MIXED), list[int]()

    def found(layouts: list[Layout]) -> None:
        plan = plan_of(MIXED, layouts)
        assert plan.whole
        assert first_fault(MIXED, plan) is None
        seen.append(plan.cost)

    fewer(Climb(task, STEADY, 1), 0, 3000, FAR, found)
    assert seen == sorted(seen, reverse=True)


def test_an_edge_brought_down_keeps_every_part() -> None:
    order = Order(MIXED.wanted, (Stock("s", 100, 1000, 1),), Saw(3), wish="shortest")
    climb = Climb(task_of(order), STEADY, 1)
    heights: list[int] = []

    def found(layouts: list[Layout]) -> None:
        plan = plan_of(order, layouts)
        assert plan.whole
        assert first_fault(order, plan) is None
        heights.append(plan.cost)

    lower_edge(climb, 0, H, 0, 3000, FAR, found)
    assert len(heights) > 1
    assert heights == sorted(heights, reverse=True)


def test_whole_numbers_of_columns_leave_nothing_out_and_lay_nothing_twice() -> None:
    order = Order((Wanted("a", 50, 50, 7), Wanted("b", 100, 50, 2)), (SHEET,))
    pool = Pool()
    quarters = tuple(Placed(0, x, y, 50, 50) for x in (0, 50) for y in (0, 50))
    mixed = (Placed(1, 0, 0, 100, 50), Placed(0, 0, 50, 50, 50), Placed(0, 50, 50, 50, 50))
    pool.take([Layout(0, quarters), Layout(0, mixed)])
    relaxed = relax(order, pool, prices_of(order), [7, 2])
    assert relaxed is not None
    assert relaxed.price == pytest.approx(2.75)
    cut = whole(order, pool.columns, prices_of(order), [7, 2], 5.0)
    assert cut is not None
    plan = plan_of(order, as_layouts([7, 2], cut))
    assert (plan.whole, plan.cost, first_fault(order, plan)) == (True, 3, None)


def test_a_column_met_twice_is_kept_once() -> None:
    pool = Pool()
    one = Layout(0, (Placed(0, 0, 0, 50, 50), Placed(1, 50, 0, 20, 20)))
    moved = Layout(0, (Placed(1, 0, 0, 20, 20), Placed(0, 20, 0, 50, 50)))
    assert pool.add(column_of(one))
    assert not pool.add(column_of(moved))


def test_a_group_with_a_pinned_part_stays_with_its_batch() -> None:
    stock = (Stock("s1", 100, 100, 1, batch="one"), Stock("s2", 500, 500, 1, batch="two"))
    wanted = (Wanted("a", 50, 50, group="g"), Wanted("b", 50, 50, group="g"))
    order = Order(wanted, stock, pinned=(Pinned("s1", 1, "a", Rect(0, 0, 50, 50)),))
    assert batch_choices(order) == [{"g": {0}}]


def test_preparing_compiles_all_that_a_search_uses() -> None:
    prepare()
    before = {one.py_func.__name__: len(one.signatures) for one in COMPILED}
    for wish in ("fewest", "cheapest", "best leftover", "shortest", "most value"):
        stock = (Stock("s", 100, 900, 1),) if wish in ("shortest", "most value") else (SHEET,)
        wanted = tuple(
            Wanted(w.id, w.width, w.height, w.copies, turns=True, value=n + 1) for n, w in enumerate(MIXED.wanted)
        )
        run(Order(wanted, stock, wish=wish), monotonic() + 0.3, 1, lambda _: None)
    assert {one.py_func.__name__: len(one.signatures) for one in COMPILED} == before


def test_loops_are_compiled_where_nothing_can_be_kept(tmp_path: Path) -> None:
    """A program folder that may only be read, and a home that is none: numba finds no place for what it compiles."""
    copied = tmp_path / "app" / "compiled.py"
    copied.parent.mkdir()
    copied.write_text(Path(compiled.__code__.co_filename).read_text(encoding="utf-8"), encoding="utf-8")
    code = (
        "import numba.core.caching as c; c.CacheImpl._locator_classes = [];"
        "import compiled; twice = compiled.compiled(lambda x: 2 * x); print(twice(21))"
    )
    told = subprocess.run([sys.executable, "-c", code], cwd=copied.parent, capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "42"


def test_a_bound_is_not_lifted_by_rounding() -> None:
    """Three thirds fill a length of 3 x 10**8 exactly, 27 of them in squares fill three pieces: not one more."""
    third = 10**8
    assert least_pieces([Kind(third, third, 27, turns=False)], 3 * third, 3 * third) == 3
    assert least_pieces([Kind(third, third, 28, turns=False)], 3 * third, 3 * third) == 4
    assert least_length([Kind(third, third, 27, turns=True)], 3 * third) == 9 * third


def test_the_first_program_of_a_process_prints_nothing() -> None:
    code = "from frontwright.cutting.programs import program; program(); program()"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
    assert told.stdout == told.stderr == b""


def test_parts_cut_from_two_whole_pieces_are_joined_to_them_again() -> None:
    """A 60 x 100 and a 40 x 100, cut edge to edge with a kerf of 2: of the parts only these two pieces can be made."""
    sizes = [(60, 30), (18, 68), (40, 31), (40, 35), (40, 49), (25, 49), (13, 49)]
    order = Order(
        tuple(Wanted(str(n), w, h) for n, (w, h) in enumerate(sizes)),
        (Stock("wide", 60, 100, 3, 6000), Stock("narrow", 40, 100, 3, 4000)),
        Saw(2),
        wish="cheapest",
    )
    whole_pieces = [x for x in joined(order, monotonic() + FAR) if len(x.placed) >= 3]
    for layout in whole_pieces:
        assert first_fault(order, plan_of(order, [layout])) is None
    covered = {frozenset(p.item for p in x.placed): x.stock for x in whole_pieces}
    assert covered[frozenset({0, 1, 2, 3})] == 0
    assert covered[frozenset({4, 5, 6})] == 1


def test_while_another_process_compiles_the_library_lays(monkeypatch: pytest.MonkeyPatch) -> None:
    module = sys.modules[run.__module__]
    monkeypatch.setattr(module, "under_way", lambda: True)
    monkeypatch.setattr(module.PREPARING, "done", lambda _: pytest.fail("compiled here as well"))
    order = Order((Wanted("a", 60, 100, 2), Wanted("b", 40, 50, 4)), (SHEET,))
    told = list[Plan]()
    began = monotonic()
    plan = run(order, began + 1.0, 1, told.append)
    assert plan.cost == 2
    assert told[-1] == plan
    assert first_fault(order, plan) is None
    assert monotonic() < began + 3


def test_preparing_is_under_way_until_it_is_done_or_has_failed(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    stamp = tmp_path / "prepared-1"
    monkeypatch.setattr(preparing, "_stamp", lambda: stamp)
    assert not preparing.under_way()
    assert preparing._claimed()
    assert preparing.under_way()
    assert not preparing._claimed()
    long_ago = time.time() - 1000
    os.utime(stamp.with_suffix(".begun"), (long_ago, long_ago))
    assert not preparing.under_way()
    assert preparing._claimed()
    stamp.touch()
    assert not preparing.under_way()


def test_what_the_relaxation_would_cut_and_the_rest_laid_afresh_make_a_plan() -> None:
    """40 strips that go together two by two; of all but three pairs the pool knows how: 23 sheets by the pool alone."""
    sizes = [n for low in range(20, 40) for n in (low, 100 - low)]
    order = Order(tuple(Wanted(str(n), 100, size) for n, size in enumerate(sizes)), (SHEET,))
    alone = [Layout(0, (Placed(n, 0, 0, 100, size),)) for n, size in enumerate(sizes)]
    keeper = Keeper(order, lambda _: None, bound_of(order))
    keeper.offer(alone)
    mixes = Mixes(order, keeper, Caller(order), 1)
    pairs = [(Placed(n, 0, 0, 100, sizes[n]), Placed(n + 1, 0, sizes[n], 100, sizes[n + 1])) for n in range(0, 34, 2)]
    mixes.harvest([Layout(0, pair) for pair in pairs])
    mixes.cover(Clock(monotonic() + FAR), monotonic() + 20)
    assert keeper.best.cost < 23
    assert first_fault(order, keeper.best) is None


def test_three_stacked_strips_are_joined_in_one_order_only_and_all_the_same() -> None:
    """Nine thirds of a piece: three by three in each of three pieces, each way of making a third counted once."""
    order = Order((Wanted("a", 100, 20, 2), Wanted("b", 100, 30, 2), Wanted("c", 100, 50, 2)), (SHEET,))
    found = [sorted(p.item for p in x.placed) for x in joined(order, monotonic() + FAR)]
    assert [0, 1, 2] in found
    assert [2, 2] in found
    assert len(found) == len({tuple(one) for one in found})
    assert all(n <= 2 for one in found for n in (one.count(0), one.count(1), one.count(2)))


def test_sets_of_pieces_are_counted_out_and_hold_every_part() -> None:
    """An 80 x 80 needs a large piece: of the sets up to 3 large ones' price those without one are left out."""
    large, small = Stock("large", 100, 100, 2, 100), Stock("small", 50, 60, None, 30)
    order = Order((Wanted("a", 80, 80), Wanted("b", 50, 50, 2)), (large, small), wish="cheapest")
    sets = {one.pieces: one.price for one in piece_sets(order, [100, 30], 0, 200)}
    assert sets == {(1, n): 100 + 30 * n for n in (1, 2, 3)} | {(2, 0): 200}
    assert piece_sets(order, [100, 30], 0, 99) == []


def test_sets_near_a_plan_change_a_few_of_its_pieces() -> None:
    large, small = Stock("large", 100, 100, 2, 100), Stock("small", 50, 60, None, 30)
    order = Order((Wanted("a", 80, 80), Wanted("b", 50, 50, 2)), (large, small), wish="cheapest")
    near = {one.pieces for one in sets_near(order, [100, 30], (2, 0), 100, 199, Random(1))}
    assert near == {(1, n) for n in (1, 2, 3)}


def test_a_race_of_sets_finds_the_pieces_that_are_filled_wholly() -> None:
    """A 60 x 100 and a 40 x 100 are filled without waste; two of the wide ones cost a fifth more."""
    sizes = [(60, 30), (18, 68), (40, 31), (40, 35), (40, 49), (25, 49), (13, 49)]
    wide, narrow = Stock("wide", 60, 100, 3, 6000), Stock("narrow", 40, 100, 3, 4000)
    order = Order(
        tuple(Wanted(str(n), w, h) for n, (w, h) in enumerate(sizes)), (wide, narrow), Saw(2), wish="cheapest"
    )
    prices, found = prices_of(order), list[Plan]()
    choosing = Choosing(order, prices, 1)
    dear = [Layout(0, (), 2)]
    for _ in range(20):
        if not found and choosing.race(dear, 0, monotonic() + FAR, lambda laid: found.append(plan_of(order, laid))):
            break
    assert found[-1].whole
    assert found[-1].cost == 10_000
    assert first_fault(order, found[-1]) is None


def test_no_race_where_a_rule_ties_parts_to_their_pieces() -> None:
    two = (Stock("a", 100, 100, 1, 5), Stock("b", 100, 90, 1, 4))
    assert may_choose(Order((Wanted("p", 10, 10),), two))
    assert not may_choose(Order((Wanted("p", 10, 10, group="doors"),), two))
    assert not may_choose(Order((Wanted("p", 10, 10),), two[:1]))
    assert piece_sets(Order((Wanted("p", 10, 10),), two), [0, 0], -1, 0)


SCARCE = Order(
    (Wanted("half", 100, 50, 1, value=10), Wanted("quarter", 50, 50, 4, value=4)),
    (Stock("s", 100, 100),),
    wish="most value",
)


def test_a_piece_is_filled_with_no_part_more_often_than_it_is_wanted() -> None:
    """Two halves would bring 20; there is one, and two quarters beside it bring 18."""
    filling = filling_of(SCARCE, 0, FINE)
    assert filling is not None
    assert fill(filling, [10, 4])[0] == 20
    limited = limited_of(SCARCE, filling, 4)
    assert limited is not None
    laid = fill_limited(limited, [10, 4])
    assert laid[0][0] == 18
    assert [value for value, _ in laid] == sorted((value for value, _ in laid), reverse=True)
    for value, placed in laid:
        plan = plan_of(SCARCE, [Layout(0, placed)])
        assert first_fault(SCARCE, plan) is None
        assert plan.cost == value


def test_scarce_parts_lose_worth_until_the_bound_is_what_can_be_had() -> None:
    found, bounds = list[Plan](), list[int]()
    fill_scarce(SCARCE, 0, 1, monotonic() + 20, lambda laid: found.append(plan_of(SCARCE, laid)), bounds.append)
    assert found[-1].cost == 18
    assert min(bounds) == 18
    assert not may_fill(replace(SCARCE, pinned=(Pinned("s", 0, "half", Rect(0, 0, 100, 50)),)))


def test_a_value_is_proved_from_above() -> None:
    told = list[Plan]()
    keeper = Keeper(SCARCE, told.append, 20)
    keeper.offer([Layout(0, (Placed(0, 0, 0, 100, 50), Placed(1, 0, 50, 50, 50), Placed(1, 50, 50, 50, 50)))])
    keeper.prove(25)
    assert not keeper.proven
    keeper.prove(18)
    assert keeper.proven
    assert told[-1].bound == 18


def test_columns_priced_hold_no_part_more_often_than_it_is_wanted() -> None:
    """One half, and quarters: a sheet of two halves would be a column of use to nobody."""
    order = Order((Wanted("half", 100, 50, 1), Wanted("quarter", 50, 50, 9)), (SHEET,))
    keeper = Keeper(order, lambda _: None, bound_of(order))
    keeper.offer([Layout(0, (Placed(0, 0, 0, 100, 50),)), Layout(0, (Placed(1, 0, 0, 50, 50),), 9)])
    mixes = Mixes(order, keeper, Caller(order), 1)
    relaxed = mixes.price(Clock(monotonic() + FAR), monotonic() + 20)
    assert relaxed is not None
    assert relaxed.price == pytest.approx(2.75)
    assert all(n <= order.wanted[item].copies for column in mixes.pool.columns for item, n in column.counts)
    assert {((0, 1), (1, 2)), ((1, 4),)} <= {column.counts for column in mixes.pool.columns}


def test_parts_that_find_no_place_for_long_come_to_cost_more_and_the_sum_stays() -> None:
    # nine of ten 10 x 9 and 9 x 10, which are one size, fill the sheet with the 30 x 10: one has no place
    parts = (Wanted("a", 10, 9, 5, turns=True), Wanted("b", 9, 10, 5, turns=True), Wanted("c", 30, 10))
    task = task_of(Order(parts, (Stock("s", 30, 40, 1),)))
    climb = Climb(task, STEADY, 1)
    climb.go(100, monotonic() + 60)
    lost = climb.best.lost[0]
    assert not climb.whole
    assert task.items[lost] != 2
    worths = Worths(task.work)
    assert not worths.learn(climb.best, PATIENCE)  # the first time there is nothing to compare with
    assert not worths.learn(climb.best, PATIENCE - 1)
    assert worths.learn(climb.best, 1)
    before, after = task.work.worth, worths.work.worth
    assert after.sum() == pytest.approx(before.sum())
    gain = after / before
    assert gain[:10] == pytest.approx(gain[lost])
    assert gain[lost] / gain[10] == pytest.approx(GROWTH)


def test_worths_are_learned_only_where_all_parts_shall_find_a_place() -> None:
    # too little stock: the largest area is laid, however long the rest waits
    parts = tuple(Wanted(str(n), 30 + n, 45 - n) for n in range(6))
    climb = Climb(task_of(Order(parts, (Stock("s", 100, 50, 1),))), STEADY, 1)
    climb.go(5 * PATIENCE, monotonic() + 60)
    assert climb.left_out == sum(climb.task.work.worth[climb.best.lost[: int(climb.best.state[LOST])]])


def test_a_race_keeps_pieces_that_parts_fill_wholly_and_lays_the_rest_on_the_others() -> None:
    """A 40 x 100 filled by three parts that match; the race of the set is won with it or without, never with a gap."""
    sizes = [(60, 30), (18, 68), (40, 31), (40, 35), (40, 49), (25, 49), (13, 49)]
    wide, narrow = Stock("wide", 60, 100, 2, 6000), Stock("narrow", 40, 100, 1, 4000)
    order = Order(
        tuple(Wanted(str(n), w, h) for n, (w, h) in enumerate(sizes)), (wide, narrow), Saw(2), wish="cheapest"
    )
    full = [x for x in joined(order, monotonic() + FAR) if {p.item for p in x.placed} == {4, 5, 6}]
    choosing, found = Choosing(order, [6000, 4000], 1, full), list[Plan]()
    for _ in range(10):
        if not found:
            choosing.race([Layout(0, (), 2)], 9_999, monotonic() + FAR, lambda laid: found.append(plan_of(order, laid)))
    assert full
    assert found[0].whole
    assert first_fault(order, found[0]) is None
