"""A layout pushed together: as good as before, its waste in one place."""

from random import Random

import pytest
from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import plan_of, rank
from frontwright.cutting.floor import floor_plan
from frontwright.cutting.tidy import tidied
from frontwright.cutting.values import Layout, Order, Pinned, Placed, Rect, Saw, Stock, Wanted


def _random_order(seed: int) -> Order:
    luck = Random(seed)
    wanted = tuple(
        Wanted(str(n), luck.randint(30, 400), luck.randint(20, 180), luck.randint(1, 4), luck.random() < 0.5)
        for n in range(luck.randint(2, 14))
    )
    trims = luck.choice(((0, 0, 0, 0), (5, 5, 5, 5), (2, 9, 0, 7)))
    return Order(wanted, (Stock("sheet", 1000, 450, None, trims=trims),), Saw(luck.choice((0, 1, 3, 12))))


@pytest.mark.parametrize("seed", range(60))
def test_pushing_together_never_makes_a_plan_worse(seed: int) -> None:
    asked = _random_order(seed)
    plan = floor_plan(asked)
    made = tidied(asked, plan)
    assert first_fault(asked, made) is None
    assert rank(asked, made) <= rank(asked, plan)
    assert made.missing == plan.missing


def test_pushing_together_brings_the_waste_into_one_remainder() -> None:
    """Two parts of 300 and a kerf of 3 between them: what is left begins a kerf beyond 603."""
    stock = Stock("sheet", 1000, 200)
    parts = (Placed(0, 100, 0, 300, 200), Placed(1, 500, 0, 300, 200))
    asked = Order((Wanted("a", 300, 200), Wanted("b", 300, 200)), (stock,), Saw(3))
    made = tidied(asked, plan_of(asked, [Layout(0, parts)]))
    assert sorted((one.x, one.x + one.width) for one in made.layouts[0].placed) == [(0, 300), (303, 603)]


def test_what_is_pinned_is_not_pushed() -> None:
    asked = Order(
        (Wanted("a", 300, 200),),
        (Stock("sheet", 1000, 200),),
        pinned=(Pinned("sheet", 1, "a", Rect(100, 0, 300, 200)),),
    )
    plan = plan_of(asked, [Layout(0, (Placed(0, 100, 0, 300, 200),))])
    assert tidied(asked, plan) == plan
