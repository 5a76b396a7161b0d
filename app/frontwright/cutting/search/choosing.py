"""Which pieces to take, where sizes or leftovers can be chosen from: sets of them, tried against one another.

Which pieces are taken matters more than how they are filled. So sets that cost less than the best plan are filled side
by side for a little while; those that leave out most are given up, the last one is filled for longer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from random import Random
from time import monotonic

import numpy as np
from numpy.typing import NDArray

from frontwright.cutting.counting import fits, usable
from frontwright.cutting.search.climb import STEADY, Climb, Found
from frontwright.cutting.search.work import task_of
from frontwright.cutting.values import Order

Longs = NDArray[np.int64]
_MANNER = STEADY._replace(lean=1.0)
_MOST_ROWS = 1_000_000  # of sets not yet whole
_MOST_SETS = 30_000  # that are counted out; of more, some by chance
_EASIEST = 400  # sets of which those to be filled are picked
_BESIDE = 12  # sets filled side by side
_HEAT = 300_000  # rounds times parts that each gets at first
_SHARE, _MOST_SHARE, _LEAST = 0.25, 0.4, 0.02  # of what lies between plan and bound: how far below the plan
_RANGE = 0.35  # of that too: how far below these


@dataclass(frozen=True, slots=True)
class PieceSet:
    """So many pieces of each stock, what they cost, and how hard they are to fill (less is easier)."""

    pieces: tuple[int, ...]
    price: int
    hard: float


def piece_sets(order: Order, prices: Sequence[int], low: int, high: int, most: int = _MOST_SETS) -> list[PieceSet]:
    """Sets of pieces that cost over `low` and up to `high` and hold all parts by area, each by size; the easiest."""
    kerf = order.saw.kerf
    boxes = [usable(s) for s in order.stock]
    areas = [(b.width + kerf) * (b.height + kerf) if b.width and b.height else 0 for b in boxes]
    parts = [w for w in order.wanted if w.copies]
    needed = sum((w.width + kerf) * (w.height + kerf) * w.copies for w in parts)
    holds = np.array([[fits(s, w) for s in order.stock] for w in parts], np.bool_)
    count = sum(w.copies for w in parts)
    tops = [count if s.copies is None else min(count, s.copies) for s in order.stock]
    counted = _counted(tops, prices, low, high, most)
    spare = counted @ np.array(areas, np.int64) - needed
    rows, spare = counted[spare >= 0], spare[spare >= 0]
    for able in np.unique(holds, axis=0):
        rows, spare = rows[rows[:, able].any(1)], spare[rows[:, able].any(1)]
    edges = np.array([b.width + b.height for b in boxes], np.float64)
    hard = rows @ edges / (1.0 + spare)
    best = np.argsort(hard, kind="stable")[:_EASIEST]
    costs = rows @ np.array(prices, np.int64)
    return [PieceSet(tuple(rows[n].tolist()), int(costs[n]), float(hard[n])) for n in best.tolist()]


def _counted(tops: Sequence[int], prices: Sequence[int], low: int, high: int, most: int) -> Longs:
    """How many of each stock, up to so many, in all ways that cost so much; some by chance where there are too many."""
    rows, costs, chance = np.zeros((1, 0), np.int64), np.zeros(1, np.int64), np.random.default_rng(1)
    for n, (have, price) in enumerate(zip(tops, prices, strict=True)):
        counts = np.arange((min(have, high // price) if price else have) + 1)
        some = max(1, _MOST_ROWS // len(counts))
        if len(rows) > some:
            chosen = chance.choice(len(rows), some, replace=False)
            rows, costs = rows[chosen], costs[chosen]
        total = (costs[:, None] + price * counts[None, :]).ravel()
        rows = np.column_stack([np.repeat(rows, len(counts), axis=0), np.tile(counts, len(rows))])
        keep = total <= high if n < len(prices) - 1 else (total <= high) & (total > low)
        rows, costs = rows[keep], total[keep]
        if len(rows) > most:
            chosen = chance.choice(len(rows), most, replace=False)
            rows, costs = rows[chosen], costs[chosen]
    return rows


def may_choose(order: Order) -> bool:
    """Whether pieces of several sizes or prices can be chosen from, and no rule ties a part to its piece."""
    kinds = {(s.width, s.height, s.trims, s.defects) for s in order.stock}
    tied = order.pinned or any(w.group for w in order.wanted)
    return len(kinds) > 1 and not tied and order.wish in ("fewest", "cheapest")


class Choosing:
    """Sets of pieces for one order, raced below the best plan."""

    def __init__(self, order: Order, prices: Sequence[int], seed: int) -> None:
        self._order, self._prices, self._chance = order, prices, Random(seed)  # noqa: S311 - a search, no secret
        self._share, self._seed = _SHARE, seed

    def race(self, paid: int, bound: int, until: float, found: Found) -> bool:
        """One race of sets that cost less than was paid; whether one of them held everything."""
        gap = paid - bound
        high = min(paid - 1, paid - round(self._share * gap))
        sets = piece_sets(self._order, self._prices, max(bound - 1, high - round(_RANGE * gap) - 1), high)
        chosen = sorted(sets, key=lambda one: one.hard * (0.7 + 0.6 * self._chance.random()))[:_BESIDE]
        won = self._tried([self._climb(one) for one in chosen], until, found)
        self._share = min(_MOST_SHARE, self._share * 1.3) if won else max(_LEAST, self._share * 0.6)
        return won

    def _climb(self, one: PieceSet) -> Climb:
        stock = tuple(replace(s, copies=n) for s, n in zip(self._order.stock, one.pieces, strict=True))
        self._seed += 1
        return Climb(task_of(replace(self._order, stock=stock)), _MANNER, self._seed)

    def _tried(self, climbs: list[Climb], until: float, found: Found) -> bool:
        """Fill all for a while, then the better half for twice as long, and so on."""
        rounds = _HEAT // max(1, len(climbs[0].task.items)) if climbs else 0
        while climbs and monotonic() < until:
            for climb in climbs:
                _fill(climb, rounds, until, to_the_end=len(climbs) == 1)
                if climb.whole:
                    found(climb.layouts())
                    return True
            if len(climbs) == 1:
                return False
            climbs = sorted(climbs, key=lambda climb: climb.left_out)[: len(climbs) // 2]
            rounds *= 2
        return False


def _fill(climb: Climb, rounds: int, until: float, to_the_end: bool) -> None:
    """So many rounds; to the end: again and again as long as that leaves out less."""
    before = climb.left_out
    climb.go(rounds, until)
    while to_the_end and not climb.whole and climb.left_out < before and monotonic() < until:
        before = climb.left_out
        climb.go(rounds, until)
    if climb.whole:
        climb.keep()
