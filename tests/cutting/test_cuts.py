"""Layouts as cuts in the order made: what comes off, what is left, how often the saw is set."""

from collections.abc import Iterator
from random import Random

import pytest
from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import plan_of, rank, usable
from frontwright.cutting.cuts import CutPlan, Piece, cuts_of, rows_of
from frontwright.cutting.floor import floor_plan
from frontwright.cutting.tidy import tidied
from frontwright.cutting.values import Layout, Order, Pinned, Placed, Plan, Rect, Saw, Stock, Wanted

SAW = Saw(3)


def order(stock: Stock, *wanted: Wanted, saw: Saw = SAW) -> Order:
    return Order(wanted, (stock,), saw)


def lines(plan: CutPlan) -> list[tuple[int, str, int]]:
    return [(cut.turn, cut.direction, cut.setting) for cut in plan.cuts]


def leaves(piece: Piece) -> Iterator[Piece]:
    if not piece.pieces:
        yield piece
    for one in piece.pieces:
        yield from leaves(one)


def area(place: Rect) -> int:
    return place.width * place.height


BOARD = Stock("board", 1000, 200)
STILES = Wanted("stile", 480, 60, 4)
TWO_STRIPS = (
    Placed(0, 0, 0, 480, 60),
    Placed(0, 483, 0, 480, 60),
    Placed(0, 0, 63, 480, 60),
    Placed(0, 483, 63, 480, 60),
)


def test_strips_are_ripped_first_and_then_crosscut_by_stop() -> None:
    """Two strips of 60, each cut twice at 480: two settings of the saw, and what is left over the whole length."""
    plan = cuts_of(order(BOARD, STILES), Layout(0, TWO_STRIPS))
    assert lines(plan) == [(1, "along", 60)] * 2 + [(2, "across", 480)] * 4
    assert [(row.setting, row.count, row.cuts) for row in plan.rows] == [(60, 2, (1, 2)), (480, 4, (3, 4, 5, 6))]
    assert plan.settings == 2
    assert plan.remainders[0].place == Rect(0, 126, 1000, 74)
    assert [rest.name for rest in plan.remainders] == ["R1", "R2", "R3"]


def test_the_end_is_cut_off_first_where_that_leaves_the_larger_remainder() -> None:
    """480 of 1000 are used: the crosscut first leaves 517 x 200; the rips first would leave 1000 x 74."""
    parts = (Placed(0, 0, 0, 480, 60), Placed(0, 0, 63, 480, 60))
    plan = cuts_of(order(BOARD, STILES), Layout(0, parts))
    assert plan.remainders[0].place == Rect(483, 0, 517, 200)
    assert lines(plan) == [(1, "across", 480), (2, "along", 60), (2, "along", 60)]


def test_a_saw_that_must_rip_first_does() -> None:
    parts = (Placed(0, 0, 0, 480, 60), Placed(0, 0, 63, 480, 60))
    plan = cuts_of(order(BOARD, STILES, saw=Saw(3, "along")), Layout(0, parts))
    assert plan.cuts[0].direction == "along"
    assert plan.remainders[0].place == Rect(0, 126, 1000, 74)


def test_a_part_as_large_as_the_piece_needs_no_cut() -> None:
    plan = cuts_of(order(BOARD, Wanted("all", 1000, 200)), Layout(0, (Placed(0, 0, 0, 1000, 200),)))
    assert (plan.cuts, plan.remainders, plan.tree.kind) == ((), (), "part")


def test_a_last_strip_narrower_than_the_kerf_is_sawn_away() -> None:
    plan = cuts_of(order(BOARD, Wanted("wide", 1000, 198)), Layout(0, (Placed(0, 0, 0, 1000, 198),)))
    assert lines(plan) == [(1, "along", 198)]
    assert plan.cuts[0].band == Rect(0, 198, 1000, 2)
    assert plan.remainders == ()


def test_trims_come_off_before_anything_else_with_the_kerf_out_of_them() -> None:
    stock = Stock("sheet", 1000, 200, trims=(10, 5, 10, 2))
    plan = cuts_of(order(stock, Wanted("all", 985, 188)), Layout(0, (Placed(0, 10, 10, 985, 188),)))
    assert lines(plan) == [(0, "across", 7), (0, "across", 2), (0, "along", 7), (0, "along", 0)]
    assert [cut.band for cut in plan.cuts][:2] == [Rect(7, 0, 3, 200), Rect(995, 0, 3, 200)]


def test_a_layout_that_cannot_be_cut_is_refused() -> None:
    pinwheel = (Placed(0, 0, 0, 2, 1), Placed(1, 2, 0, 1, 2), Placed(0, 1, 2, 2, 1), Placed(1, 0, 1, 1, 2))
    asked = Order((Wanted("long", 2, 1, 2), Wanted("tall", 1, 2, 2)), (Stock("sheet", 3, 3),))
    with pytest.raises(ValueError, match="edge to edge"):
        cuts_of(asked, Layout(0, pinwheel))


def _random_order(seed: int) -> Order:
    luck = Random(seed)
    wanted = tuple(
        Wanted(str(n), luck.randint(30, 400), luck.randint(20, 180), luck.randint(1, 4), luck.random() < 0.5)
        for n in range(luck.randint(2, 14))
    )
    trims = luck.choice(((0, 0, 0, 0), (5, 5, 5, 5), (2, 9, 0, 7)))
    return Order(wanted, (Stock("sheet", 1000, 450, None, trims=trims),), Saw(luck.choice((0, 1, 3, 12))))


@pytest.mark.parametrize("seed", range(60))
def test_every_piece_is_parts_and_remainders_and_kerf_and_trims_and_nothing_else(seed: int) -> None:
    asked = _random_order(seed)
    for layout in floor_plan(asked).layouts:
        plan = cuts_of(asked, layout)
        ends = list(leaves(plan.tree))
        found = sorted((p.item, p.place.x, p.place.y) for p in ends if p.kind == "part")
        assert found == sorted((p.item, p.x, p.y) for p in layout.placed)
        trims = sum(area(cut.takes) for cut in plan.cuts if cut.turn == 0)
        kerf = sum(area(cut.band) for cut in plan.cuts)
        assert sum(area(p.place) for p in ends) + trims + kerf == 1000 * 450


@pytest.mark.parametrize("seed", range(60))
def test_cuts_are_numbered_in_the_order_made_and_each_runs_through_a_piece_that_is_there(seed: int) -> None:
    """A cut of a later turn never comes before one of an earlier, and rows of one setting follow each other."""
    asked = _random_order(seed)
    for layout in floor_plan(asked).layouts:
        plan = cuts_of(asked, layout)
        assert [cut.number for cut in plan.cuts] == list(range(1, len(plan.cuts) + 1))
        assert [cut.turn for cut in plan.cuts] == sorted(cut.turn for cut in plan.cuts)
        assert sum(row.count for row in plan.rows) == len(plan.cuts)
        for cut in plan.cuts:
            if cut.direction == "across":
                assert (cut.band.y, cut.band.height) == (cut.of.y, cut.of.height)
            else:
                assert (cut.band.x, cut.band.width) == (cut.of.x, cut.of.width)


@pytest.mark.parametrize("seed", range(60))
def test_pushing_together_never_makes_a_plan_worse(seed: int) -> None:
    asked = _random_order(seed)
    plan = floor_plan(asked)
    made = tidied(asked, plan)
    assert first_fault(asked, made) is None
    assert rank(asked, made) <= rank(asked, plan)
    assert made.missing == plan.missing


def test_pushing_together_brings_the_waste_into_one_remainder() -> None:
    stock = Stock("sheet", 1000, 200)
    parts = (Placed(0, 100, 0, 300, 200), Placed(1, 500, 0, 300, 200))
    asked = order(stock, Wanted("a", 300, 200), Wanted("b", 300, 200))
    made = tidied(asked, plan_of(asked, [Layout(0, parts)]))
    assert cuts_of(asked, made.layouts[0]).remainders[0].place == Rect(606, 0, 394, 200)


def test_what_is_pinned_is_not_pushed() -> None:
    asked = Order(
        (Wanted("a", 300, 200),),
        (Stock("sheet", 1000, 200),),
        pinned=(Pinned("sheet", 1, "a", Rect(100, 0, 300, 200)),),
    )
    plan = plan_of(asked, [Layout(0, (Placed(0, 100, 0, 300, 200),))])
    assert tidied(asked, plan) == plan


def test_the_rows_of_a_plan_put_equal_settings_of_all_pieces_together() -> None:
    asked = Order((STILES, Wanted("rail", 300, 60, 4)), (Stock("board", 1000, 60, None),), Saw(3))
    parts = (Placed(0, 0, 0, 480, 60), Placed(0, 483, 0, 480, 60))
    rails = (Placed(1, 0, 0, 300, 60), Placed(1, 303, 0, 300, 60), Placed(0, 606, 0, 480, 60))
    plan = Plan((Layout(0, parts, 2), Layout(0, rails[:2], 2)), (0, 0), 4)
    assert [(row.setting, row.count) for row in rows_of(asked, plan)] == [(480, 4), (300, 4)]
    assert usable(asked.stock[0]) == Rect(0, 0, 1000, 60)
