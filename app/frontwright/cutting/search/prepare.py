"""Compiling all inner loops by laying a few small orders with them."""

from __future__ import annotations

from dataclasses import replace
from time import monotonic

from frontwright.cutting.search.climb import STEADY, Climb, fewer, lower_edge
from frontwright.cutting.search.compiled import Preparing
from frontwright.cutting.search.filling import COARSE, fill, filling_of
from frontwright.cutting.search.graft import trees_of
from frontwright.cutting.search.joining import joined
from frontwright.cutting.search.keep import Keeper
from frontwright.cutting.search.limited import fill_limited, limited_of
from frontwright.cutting.search.small import lay_small
from frontwright.cutting.search.tree import H
from frontwright.cutting.search.work import layouts_of, task_of
from frontwright.cutting.values import Order, Stock, Wanted

_ROUNDS = 50


def prepare() -> None:
    """Compile what is not compiled yet and keep it for the next start: some 15 seconds once, else a quarter of one."""
    parts = (Wanted("a", 5, 3, 4, turns=True), Wanted("b", 7, 2, 3), Wanted("c", 2, 2, 40))
    task = task_of(Order(parts, (Stock("s", 10, 12, None),)))
    never = monotonic() + 1e6
    climb = Climb(task, STEADY, 1)
    fewer(climb, 0, _ROUNDS, never, lambda _: None)
    trees = trees_of(task, layouts_of(task, climb.good or climb.trees))
    if trees is not None:
        climb.rearrange(trees)
        lower_edge(climb, 0, H, 0, _ROUNDS, never, lambda _: None)
    filling = filling_of(task.order, 0, COARSE)
    if filling is not None:
        fill(filling, [1.0, 1.0, 1.0])
        limited = limited_of(task.order, filling, 2)
        if limited is not None:
            fill_limited(limited, [1, 1, 1])
    joined(task.order, never)
    few = replace(task.order, wanted=parts[:2])
    lay_small(few, Keeper(few, lambda _: None, None), 1.0)


PREPARING = Preparing(prepare)
