"""Orders of lengths: the fewest boards, proved; prices; what is had; few set-ups."""

from collections import Counter
from functools import cache
from pathlib import Path
from random import Random
from time import monotonic

import pytest
from frontwright.cutting.asking import is_boards
from frontwright.cutting.bench_file import read
from frontwright.cutting.boards import run
from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import largest_offcut
from frontwright.cutting.values import Order, Plan, Rect, Saw, Stock, Wanted

HERE = Path(__file__).parent / "instances"


def laid(order: Order, seconds: float = 20) -> Plan:
    told: list[Plan] = []
    plan = run(order, monotonic() + seconds, 1, told.append)
    assert first_fault(order, plan) is None
    assert all(first_fault(order, one) is None for one in told)
    return plan


def lengths(*rows: tuple[int, int], board: int = 100, kerf: int = 0, copies: int | None = None) -> Order:
    wanted = tuple(Wanted(f"{length}", length, 1, count) for length, count in rows)
    return Order(wanted, (Stock("board", board, 1, copies),), Saw(kerf))


@pytest.mark.parametrize("name", ["boards_halves", "boards_kerf", "boards_triplets", "boards_prices"])
def test_an_instance_worked_out_by_hand_is_laid_at_its_optimum_and_proved(name: str) -> None:
    told = read(HERE / f"{name}.json")
    plan = laid(told.order)
    assert (plan.cost, plan.bound, plan.missing) == (told.best, told.best, (0,) * len(told.order.wanted))


def _fewest(pieces: tuple[int, ...], room: int, kerf: int) -> int:
    """The fewest boards by trying every board for every piece, the slow and sure way."""

    @cache
    def best(left: tuple[int, ...], rests: tuple[int, ...]) -> int:
        if not left:
            return len(rests)
        piece = left[0] + kerf
        counts = [
            best(left[1:], tuple(sorted((*rests[:n], rests[n] - piece, *rests[n + 1 :]))))
            for n in {rest: n for n, rest in enumerate(rests) if rest >= piece}.values()
        ]
        return min([*counts, best(left[1:], tuple(sorted((*rests, room + kerf - piece))))])

    return best(tuple(sorted(pieces, reverse=True)), ())


@pytest.mark.parametrize("seed", range(40))
def test_small_orders_are_laid_on_as_few_boards_as_trying_everything_finds(seed: int) -> None:
    luck = Random(seed)
    kerf, pieces = luck.choice((0, 1, 3, 12)), tuple(luck.randint(4, 60) for _ in range(9))
    rows = Counter(pieces)
    plan = laid(lengths(*rows.items(), kerf=kerf))
    assert plan.cost == plan.bound == _fewest(pieces, 100, kerf)


def test_a_piece_as_long_as_the_board_fits_whatever_the_kerf() -> None:
    assert laid(lengths((100, 2), kerf=150)).cost == 2


def test_a_kerf_wider_than_the_parts_is_laid_like_any_other() -> None:
    """Four of 4 and three kerfs of 28 are 100; of five, one is over."""
    assert laid(lengths((4, 5), kerf=28)).cost == 2


def test_pieces_and_their_marks_stay_apart_though_their_lengths_are_equal() -> None:
    order = Order((Wanted("left", 30, 1, 2), Wanted("right", 30, 1, 4)), (Stock("board", 90, 1, None),))
    plan = laid(order)
    found = Counter(p.item for layout in plan.layouts for _ in range(layout.copies) for p in layout.placed)
    assert found == {0: 2, 1: 4}
    assert plan.cost == 2


def test_among_as_few_boards_the_cheaper_are_taken() -> None:
    order = read(HERE / "boards_prices.json").order
    plan = laid(order)
    assert sorted(order.stock[layout.stock].cost for layout in plan.layouts) == [70, 100]


def test_among_as_few_boards_those_of_the_rack_are_taken() -> None:
    stock = (Stock("new", 100, 1, None, 5), Stock("rack", 100, 1, 1, 5, have=True))
    plan = laid(Order((Wanted("rail", 80, 1, 2),), stock))
    assert sorted(stock[layout.stock].id for layout in plan.layouts) == ["new", "rack"]


def test_where_cost_counts_many_short_boards_may_be_better_than_few_long() -> None:
    """Three of 50 cost 30; on long ones 2 x 40."""
    stock = (Stock("long", 100, 1, None, 40), Stock("short", 50, 1, None, 10))
    plan = laid(Order((Wanted("rail", 50, 1, 3),), stock, wish="cheapest"))
    assert (plan.cost, plan.bound) == (30, 30)


def test_too_few_boards_give_the_most_length_and_say_what_is_missing() -> None:
    plan = laid(lengths((60, 3), (40, 3), copies=2))
    assert plan.missing == (1, 1)
    assert sum(p.width for layout in plan.layouts for p in layout.placed for _ in range(layout.copies)) == 200
    assert plan.bound is None


def test_a_piece_longer_than_any_board_is_left_out_and_the_rest_is_laid() -> None:
    plan = laid(lengths((101, 1), (50, 4)))
    assert (plan.missing, plan.cost) == ((1, 0), 2)


def test_no_board_at_all_leaves_everything_out() -> None:
    assert laid(lengths((50, 4), copies=0)).missing == (4,)


def test_a_show_piece_stays_on_a_board_of_its_grade() -> None:
    stock = (Stock("plain", 100, 1, None, grade=2), Stock("show", 100, 1, 1, grade=1))
    plan = laid(Order((Wanted("face", 50, 1, 2, grade=1), Wanted("back", 50, 1, 2)), stock))
    assert {stock[n.stock].id: {p.item for p in n.placed} for n in plan.layouts} == {"plain": {1}, "show": {0}}


def test_trims_are_kept_on_both_ends() -> None:
    order = Order((Wanted("rail", 45, 1, 2),), (Stock("board", 100, 1, None, trims=(4, 3, 0, 0)),), Saw(3))
    plan = laid(order)
    assert sorted(p.x for p in plan.layouts[0].placed) == [4, 52]


@pytest.mark.parametrize("seed", range(6))
def test_a_free_board_more_never_makes_a_plan_worse(seed: int) -> None:
    luck = Random(seed)
    wanted = tuple(Wanted(str(n), luck.randint(10, 70), 1, luck.randint(1, 3)) for n in range(6))
    stock = (Stock("new", 100, 1, None, 10),)
    free = Stock("rack", luck.randint(30, 140), 1, 1, 0, have=True)
    for wish in ("fewest", "cheapest"):
        without = laid(Order(wanted, stock, Saw(2), wish))
        assert laid(Order(wanted, (*stock, free), Saw(2), wish)).cost <= without.cost


def test_boards_measured_in_very_small_units_are_laid_as_others_are() -> None:
    """Two halves less half a kerf fill a board to the last unit; one unit more, and there is room for one alone."""
    wanted = (Wanted("half", 97_535_900, 1, 20), Wanted("more", 97_535_901, 1, 1))
    plan = laid(Order(wanted, (Stock("board", 195_072_000, 1, None),), Saw(200)))
    assert (plan.cost, plan.bound) == (11, 11)


def test_the_same_seed_gives_the_same_plan() -> None:
    luck = Random(3)
    order = lengths(*Counter(luck.randint(11, 55) for _ in range(60)).items(), board=140, kerf=2)
    assert laid(order) == laid(order)


def test_pieces_that_divide_evenly_are_cut_in_one_layout() -> None:
    """Twelve each of 50, 30 and 20: one layout twelve times, whatever else would fill the boards too."""
    plan = laid(lengths((50, 12), (30, 12), (20, 12)))
    assert [(layout.copies, len(layout.placed)) for layout in plan.layouts] == [(12, 3)]


def test_fewer_layouts_never_cost_a_board() -> None:
    order = lengths((47, 24), (31, 36), (22, 30), (17, 48), board=140)
    plan = laid(order, 3)
    assert plan.cost == plan.bound
    assert len(plan.layouts) <= 7


def test_what_is_left_is_brought_together_on_one_board() -> None:
    """60 + 40 and 70 + 30 fill two boards; the 20 leaves 80 of the third."""
    order = lengths((60, 1), (40, 1), (70, 1), (30, 1), (20, 1))
    plan = laid(order)
    assert plan.cost == 3
    assert max(largest_offcut(order, layout) for layout in plan.layouts) == 80


def test_what_is_an_order_of_lengths() -> None:
    strip = (Wanted("strip", 30, 50),)
    assert is_boards(Order(strip, (Stock("ripped", 100, 60),)))
    assert not is_boards(Order(strip, (Stock("two fit", 100, 100),)))
    assert not is_boards(Order((Wanted("strip", 30, 50, turns=True),), (Stock("ripped", 100, 60),)))
    assert not is_boards(Order(strip, (Stock("knotty", 100, 60, defects=(Rect(1, 1, 1, 1),)),)))
    assert not is_boards(Order(strip, (Stock("ripped", 100, 60),), wish="most value"))
