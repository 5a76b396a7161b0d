"""The search's own process: best so far, stop, what a broken child leaves, and orders that mean nothing."""

from dataclasses import replace
from pathlib import Path
from time import monotonic

import pytest
from frontwright.cutting.asking import BadOrder, missing_sentences
from frontwright.cutting.bench_file import read
from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import rank
from frontwright.cutting.floor import floor_plan
from frontwright.cutting.values import Order, Pinned, Rect, Saw, Stock, Wanted
from frontwright.cutting.worker import Running, lay

INSTANCES = sorted((Path(__file__).parent / "instances").glob("*.json"))
BOARDS = Order(
    tuple(Wanted(str(n), 2000 + 37 * n % 1501, 1, 1 + n % 3) for n in range(60)), (Stock("board", 10_000, 1, None),)
)


@pytest.mark.parametrize("path", INSTANCES, ids=lambda path: path.stem)
def test_an_instance_worked_out_by_hand_is_laid_at_its_optimum(path: Path) -> None:
    told = read(path)
    plan = lay(told.order, 5)
    assert first_fault(told.order, plan) is None
    assert plan.cost == (150 if told.name == "sheet_rest" else told.best)


@pytest.mark.parametrize("path", INSTANCES, ids=lambda path: path.stem)
def test_the_plan_without_search_may_be_cut(path: Path) -> None:
    order = read(path).order
    plan = floor_plan(order)
    assert first_fault(order, plan) is None
    assert plan.whole or order.wish == "most value"


def test_each_plan_told_is_better_than_the_one_before_and_may_be_cut() -> None:
    with Running(BOARDS, 3) as running:
        plans = list(running.plans())
    assert plans
    assert all(first_fault(BOARDS, plan) is None for plan in plans)
    ranks = [rank(BOARDS, plan) for plan in plans]
    assert ranks == sorted(ranks, reverse=True)


def test_a_search_that_is_stopped_is_gone_at_once_and_leaves_its_best() -> None:
    running = Running(BOARDS, 60)
    running.poll(30)
    began = monotonic()
    plan = running.stop()
    assert monotonic() - began < 5
    assert running._child.poll() is not None
    assert plan.whole
    assert first_fault(BOARDS, plan) is None


def test_a_child_that_dies_leaves_a_plan_all_the_same() -> None:
    running = Running(BOARDS, 60)
    running._child.kill()
    assert list(running.plans()) == [] or running.best is not None
    assert first_fault(BOARDS, running.stop()) is None


def test_no_time_at_all_gives_a_plan_without_search() -> None:
    plan = lay(BOARDS, 0)
    assert plan.whole
    assert first_fault(BOARDS, plan) is None


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"saw": Saw(-1)}, "kerf is -1"),
        ({"wanted": ()}, "No part is wanted"),
        ({"wanted": (Wanted("door", 0, 5),)}, "Part door is 0 x 5"),
        ({"wanted": (Wanted("door", 5, 5), Wanted("door", 4, 4))}, "named twice"),
        ({"wanted": (Wanted("door", 5, 5, 30_000),)}, "divide the order"),
        ({"stock": (Stock("sheet", 5, -1),)}, "Stock sheet is 5 x -1"),
        ({"pinned": (Pinned("board", 1, "door", Rect(0, 0, 5, 5)),)}, "not in the order"),
    ],
)
def test_an_order_that_means_nothing_is_refused_by_its_field(change: dict[str, object], words: str) -> None:
    with pytest.raises(BadOrder, match=words):
        lay(replace(BOARDS, **change), 1)  # type: ignore[arg-type]


def test_pins_that_no_saw_could_part_are_refused() -> None:
    places = (Rect(0, 0, 2, 1), Rect(2, 0, 1, 2), Rect(1, 2, 2, 1), Rect(0, 1, 1, 2))
    names = ("long", "tall", "long", "tall")
    pins = tuple(Pinned("sheet", 1, name, place) for name, place in zip(names, places, strict=True))
    order = Order((Wanted("long", 2, 1, 2), Wanted("tall", 1, 2, 2)), (Stock("sheet", 3, 3),), pinned=pins)
    with pytest.raises(BadOrder, match="move one"):
        lay(order, 1)


SHEET = Stock("sheet", 100, 50, 1)


@pytest.mark.parametrize(
    ("wanted", "stock", "sentence"),
    [
        (Wanted("door", 101, 60), SHEET, "door: it found no place; it is larger than any piece."),
        (Wanted("door", 40, 90), SHEET, "door: it found no place; it would fit only against its grain."),
        (Wanted("door", 40, 40, grade=1), replace(SHEET, grade=2), "no piece large enough is of grade 1 or better"),
        (Wanted("door", 40, 40), replace(SHEET, defects=(Rect(0, 0, 100, 50),)), "the defects leave no clear place"),
        (Wanted("door", 40, 40, 3), SHEET, "door: 1 of 3 found no place; the stock is used up."),
        (Wanted("door", 40, 40), replace(SHEET, copies=0), "there is no stock"),
    ],
)
def test_what_finds_no_place_is_said_with_its_reason(wanted: Wanted, stock: Stock, sentence: str) -> None:
    order = Order((wanted,), (stock,))
    (told,) = missing_sentences(order, floor_plan(order))
    assert sentence in told


def test_five_thousand_parts_have_a_plan_in_seconds() -> None:
    wanted = tuple(Wanted(str(n), 100 + 7 * n % 400, 80 + 11 * n % 300, 50) for n in range(100))
    order = Order(wanted, (Stock("sheet", 2440, 1220, None),), Saw(3))
    began = monotonic()
    plan = lay(order, 2)
    assert monotonic() - began < 20
    assert plan.whole
    assert first_fault(order, plan) is None


def test_parts_are_laid_round_what_is_pinned_and_the_knot() -> None:
    stock = Stock("sheet", 100, 50, 1, trims=(2, 2, 2, 2), defects=(Rect(60, 20, 5, 5),))
    pin = Pinned("sheet", 1, "door", Rect(2, 2, 30, 20))
    order = Order((Wanted("door", 30, 20, 2), Wanted("drawer", 20, 10, 3)), (stock,), Saw(3), pinned=(pin,))
    plan = floor_plan(order)
    assert first_fault(order, plan) is None
    assert plan.missing == (0, 0)


def test_a_group_keeps_to_one_batch_though_both_have_room() -> None:
    stock = tuple(Stock(name, 100, 50, 1, batch=name) for name in ("A", "B"))
    order = Order((Wanted("pair", 60, 40, 2, group="doors"), Wanted("back", 60, 40, 1)), stock)
    plan = floor_plan(order)
    assert first_fault(order, plan) is None
    assert sum(plan.missing) == 1


@pytest.mark.parametrize(("first", "levels"), [("along", 2), ("across", 2), ("along", None), (None, 1)])
def test_the_saws_own_limits_are_kept(first: str | None, levels: int | None) -> None:
    wanted = tuple(Wanted(str(n), 10 + n, 25 - n, 2) for n in range(8))
    order = Order(wanted, (Stock("sheet", 100, 50, None),), Saw(2, first, levels))  # type: ignore[arg-type]
    plan = floor_plan(order)
    assert first_fault(order, plan) is None
    assert plan.whole
