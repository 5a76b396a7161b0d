"""Which pieces to take, where sizes or leftovers can be chosen from: sets of them, tried against one another.

Which pieces are taken matters more than how they are filled. So sets that cost less than the best plan are filled side
by side for a little while; those that leave out most are given up, the last one is filled for longer.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from random import Random
from time import monotonic

import numpy as np
from numpy.typing import NDArray

from frontwright.cutting.counting import fits, usable
from frontwright.cutting.search.climb import STEADY, Climb, Found
from frontwright.cutting.search.patterns import Column, column_of, rest_of
from frontwright.cutting.search.work import task_of
from frontwright.cutting.values import Layout, Order

Longs = NDArray[np.int64]
_MANNER = STEADY._replace(lean=1.0)
_MOST_ROWS = 1_000_000  # of sets not yet whole
_MOST_SETS = 30_000  # that are counted out; of more, some by chance
_EASIEST = 400  # sets of which those to be filled are picked
_BESIDE = 12  # sets filled side by side
_HEAT = 300_000  # rounds times parts that each gets at first
_TRIES, _CHANGED = 150, 4  # sets made of the plan's, pieces changed in each
_MOST_ROUNDS = 4000  # that each gets at first
_LEAST_BESIDE = 6  # where there are fewer sets, each is begun several times
_HALF = 0.5  # of the sets, where there are ways to fill a piece wholly
_PATIENCE = 2  # times that rounds bring nothing better
_LOOKS = 40  # at ways to fill a piece wholly
_SHARE, _MOST_SHARE, _LEAST = 0.25, 0.4, 0.02  # of what lies between plan and bound: how far below the plan
_RANGE = 1.5  # times that: how far below these


@dataclass(frozen=True, slots=True)
class PieceSet:
    """So many pieces of each stock, what they cost, and how hard they are to fill (less is easier)."""

    pieces: tuple[int, ...]
    price: int
    hard: float


def piece_sets(order: Order, prices: Sequence[int], low: int, high: int, most: int = _MOST_SETS) -> list[PieceSet]:
    """Sets of pieces that cost over `low` and up to `high` and hold all parts by area, each by size; the easiest."""
    count = sum(w.copies for w in order.wanted)
    tops = [count if s.copies is None else min(count, s.copies) for s in order.stock]
    return _able(order, prices, _counted(tops, prices, low, high, most))[:_EASIEST]


def sets_near(
    order: Order, prices: Sequence[int], pieces: Sequence[int], low: int, high: int, chance: Random
) -> list[PieceSet]:
    """Such sets too, made of known pieces by changing a few of them for others, picked by chance."""
    rows = set[tuple[int, ...]]()
    for _ in range(_TRIES):
        row = list(pieces)
        for _ in range(chance.randint(1, _CHANGED)):
            used = [n for n, copies in enumerate(row) if copies]
            if used:
                row[chance.choice(used)] -= 1
        cost = sum(n * price for n, price in zip(row, prices, strict=True))
        while cost <= low:
            able = [n for n, s in enumerate(order.stock) if s.copies is None or row[n] < s.copies]
            able = [n for n in able if cost + prices[n] <= high and prices[n]]
            if not able:
                break
            chosen = chance.choice(able)
            row[chosen], cost = row[chosen] + 1, cost + prices[chosen]
        if low < cost <= high:
            rows.add(tuple(row))
    return _able(order, prices, np.array(sorted(rows), np.int64).reshape(len(rows), len(prices)))


def _able(order: Order, prices: Sequence[int], counted: Longs) -> list[PieceSet]:
    """Those that hold all parts by area and each by its size, the easiest to fill first."""
    kerf = order.saw.kerf
    boxes = [usable(s) for s in order.stock]
    areas = [(b.width + kerf) * (b.height + kerf) if b.width and b.height else 0 for b in boxes]
    parts = [w for w in order.wanted if w.copies]
    needed = sum((w.width + kerf) * (w.height + kerf) * w.copies for w in parts)
    holds = np.array([[fits(s, w) for s in order.stock] for w in parts], np.bool_)
    spare = counted @ np.array(areas, np.int64) - needed
    rows, spare = counted[spare >= 0], spare[spare >= 0]
    for able in np.unique(holds, axis=0):
        rows, spare = rows[rows[:, able].any(1)], spare[rows[:, able].any(1)]
    edges = np.array([b.width + b.height for b in boxes], np.float64)
    hard = rows @ edges / (1.0 + spare)
    costs = rows @ np.array(prices, np.int64)
    easy = np.argsort(hard, kind="stable").tolist()
    return [PieceSet(tuple(rows[n].tolist()), int(costs[n]), float(hard[n])) for n in easy[: 2 * _EASIEST]]


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


@dataclass(frozen=True, slots=True)
class _Entry:
    """What runs in a race: some pieces filled wholly already, and the search that fills the others."""

    done: tuple[Layout, ...]
    climb: Climb


class Choosing:
    """Sets of pieces for one order, raced below the best plan; `full`: ways to fill a piece wholly."""

    def __init__(self, order: Order, prices: Sequence[int], seed: int, full: Sequence[Layout] = ()) -> None:
        self._order, self._prices, self._chance = order, prices, Random(seed)  # noqa: S311 - a search, no secret
        self._share, self._seed = _SHARE, seed
        self._full = defaultdict[int, list[Column]](list)
        for layout in full:
            self._full[layout.stock].append(column_of(layout))

    def race(self, plan: Sequence[Layout], bound: int, until: float, found: Found) -> bool:
        """One race of sets that cost less than a plan; whether one of them held everything."""
        pieces = [0] * len(self._order.stock)
        for layout in plan:
            pieces[layout.stock] += layout.copies
        paid = sum(n * price for n, price in zip(pieces, self._prices, strict=True))
        gap = paid - bound
        high = min(paid - 1, paid - round(self._share * gap))
        low = max(bound - 1, high - round(_RANGE * self._share * gap) - 1)
        sets = piece_sets(self._order, self._prices, low, high)
        sets = sets or piece_sets(self._order, self._prices, bound - 1, paid - 1)  # few sizes, great steps
        near = sets_near(self._order, self._prices, pieces, low, high, self._chance)
        chosen = list(dict.fromkeys([*self._some(near, _BESIDE // 2), *self._some(sets, _BESIDE)]))[:_BESIDE]
        again = max(1, _LEAST_BESIDE // len(chosen)) if chosen else 0
        won = self._tried([self._entry(one) for one in chosen * again], until, found)
        self._share = min(_MOST_SHARE, self._share * 1.3) if won else max(_LEAST, self._share * 0.6)
        return won

    def _some(self, sets: Sequence[PieceSet], most: int) -> list[PieceSet]:
        """The easier ones of some sets, with some luck."""
        return sorted(sets, key=lambda one: one.hard * (0.7 + 0.6 * self._chance.random()))[:most]

    def _entry(self, one: PieceSet) -> _Entry:
        """A set to be filled; half of them with some pieces filled wholly, so that what is spare is in the others."""
        demand = [w.copies for w in self._order.wanted]
        cut = self._some_full(one, demand) if self._chance.random() < _HALF else []
        rest = rest_of(self._with(one), demand, cut)
        task = task_of(rest)
        if len(task.items) < sum(w.copies for w in rest.wanted):  # a part fits none of the pieces that are left
            cut, task = [], task_of(self._with(one))
        self._seed += 1
        return _Entry(tuple(Layout(c.stock, c.placed) for c, _ in cut), Climb(task, _MANNER, self._seed))

    def _with(self, one: PieceSet) -> Order:
        stock = tuple(replace(s, copies=n) for s, n in zip(self._order.stock, one.pieces, strict=True))
        return replace(self._order, stock=stock)

    def _some_full(self, one: PieceSet, demand: Sequence[int]) -> list[tuple[Column, int]]:
        """Some pieces of a set filled wholly, picked by chance; one at least is left."""
        pieces = [n for n, copies in enumerate(one.pieces) for _ in range(copies)]
        self._chance.shuffle(pieces)
        left, cut = list(demand), list[tuple[Column, int]]()
        for stock in pieces[: self._chance.randint(0, len(pieces) - 1)]:
            ways = self._full[stock]
            for column in self._chance.sample(ways, min(_LOOKS, len(ways))):
                if all(n <= left[i] for i, n in column.counts):
                    cut.append((column, 1))
                    for i, n in column.counts:
                        left[i] -= n
                    break
        return cut

    def _tried(self, entries: list[_Entry], until: float, found: Found) -> bool:
        """Fill all for a while, then the better half for twice as long, and so on."""
        parts = max((len(one.climb.task.items) for one in entries), default=1)
        rounds = min(_MOST_ROUNDS, _HEAT // max(1, parts))
        while entries and monotonic() < until:
            for one in entries:
                _fill(one.climb, rounds, until, to_the_end=len(entries) == 1)
                if one.climb.whole:
                    found([*one.done, *one.climb.layouts()])
                    return True
            if len(entries) == 1:
                return False
            entries = sorted(entries, key=lambda one: one.climb.left_out)[: len(entries) // 2]
            rounds *= 2
        return False


def _fill(climb: Climb, rounds: int, until: float, to_the_end: bool) -> None:
    """So many rounds; to the end: again and again until that leaves out no less several times in a row."""
    least, stuck = climb.left_out, 0
    while True:
        climb.go(rounds, until)
        stuck = 0 if climb.left_out < least else stuck + 1
        least = climb.left_out
        if climb.whole:
            climb.keep()
            return
        if not to_the_end or stuck >= _PATIENCE or monotonic() >= until:
            return
