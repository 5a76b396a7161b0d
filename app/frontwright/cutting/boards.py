"""One dimension: boards cut to lengths, to the proven optimum where steps and time allow.

The floor is best fit, longest first. A relaxation by column generation gives the bound; rounding its patterns one by
one (a dive) with the rest laid exactly mostly meets it. For the stubborn ones, the patterns whose reduced cost is at
most what the bound leaves over are listed, and an integer program looks for an exact cover.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from math import gcd, inf
from random import Random
from time import monotonic

import numpy as np

from frontwright.cutting.columns import Pool, Relaxed, bound_of, cover, relax, trimmed
from frontwright.cutting.counting import many_copies, plan_of
from frontwright.cutting.exact import exact_cover
from frontwright.cutting.gather import gathered
from frontwright.cutting.patterns import Boards, Pattern, Whole, all_patterns, boards_of, layouts_of
from frontwright.cutting.setups import fewer_layouts
from frontwright.cutting.values import Order, Plan

Cut = list[tuple[Pattern, int]]
_DIVES, _DIVES_PRICED = 400, 40
_FINE = 2**20  # parts of a price that are told apart
_LISTED = 6_000  # patterns, at most, for an exact cover
_FEW = 45  # pieces, at most, that are laid exactly at the end of a dive
_SHORT = 1.0  # seconds for the last pieces where few layouts are sought
_LOOSE = 0.3  # boards to spare, from where on several patterns are rounded at a time
_STEPS = 3_000  # nodes of each such search
_EPS = 1e-6


def run(order: Order, deadline: float, seed: int, report: Callable[[Plan], None]) -> Plan:
    """The best plan for an order of lengths (`is_boards`) by a monotonic `deadline`; `report` hears each better one."""
    boards = boards_of(order)
    if not boards.boards:
        return plan_of(order, ())
    search = _Search(order, boards, deadline, Random(seed), report)  # noqa: S311 - luck, not secrecy
    search.go()
    prices = _second_prices(order, boards, search.best)
    if prices is not None:  # as few pieces, and then those of the rack and the cheapest
        again = _Search(order, prices, deadline, Random(seed), report, search.pool, search.best, search.bound, True)  # noqa: S311 FBT003
        again.go()
        search = again
    if many_copies(order):
        search.best = fewer_layouts(boards, search.best, deadline, seed, search.able, search.finished)
    elif search.whole():
        search.best = gathered(boards, search.best)
    search.tell()
    return search.plan()


def _second_prices(order: Order, boards: Boards, cut: Cut) -> Boards | None:
    """The boards with what they cost beside their number; None where all cost the same or only cost counts."""
    stocks = [order.stock[board.stock] for board in boards.boards]
    if order.wish != "fewest" or len({(s.tier, s.cost) for s in stocks}) == 1:
        return None
    dearest = max(stock.cost for stock in stocks)
    pieces = sum(n for _, n in cut) + 1
    beside = [s.cost / (dearest + 1) / (3 * pieces) for s in stocks]
    weights = (1.0, 1.0 + pieces, 1.0 + pieces + pieces**2)  # what is bought, then what is shared, then all pieces
    priced = [
        replace(b, price=weights[s.tier] + extra) for b, extra, s in zip(boards.boards, beside, stocks, strict=True)
    ]
    return replace(boards, boards=tuple(priced))


def best_fit(boards: Boards, among: Whole, copies: Sequence[int | None]) -> Cut:
    """Lengths laid one by one, the longest first, each on the begun board that it fills best, else on a new one.

    The new one is of the kind that is cheapest for its length among those that take it.
    """
    left, begun = list(copies), list[tuple[int, Whole]]()  # boards begun: their kind and what is on them
    rooms: list[tuple[int, int]] = []  # what is left on each, the least first
    kinds = sorted(range(len(left)), key=lambda at: boards.boards[at].price / boards.boards[at].room)
    for n in np.flatnonzero(among):
        length = int(boards.lengths[n])
        able = [k for k in kinds if boards.boards[k].room >= length and boards.boards[k].serves[n]]
        for _ in range(int(among[n])):
            at = bisect_left(rooms, (length, -1))
            while at < len(rooms) and not boards.boards[begun[rooms[at][1]][0]].serves[n]:
                at += 1
            if at < len(rooms):
                room, board = rooms.pop(at)
            else:
                kind = next((k for k in able if left[k] != 0), None)
                if kind is None:
                    break
                limit = left[kind]
                left[kind] = None if limit is None else limit - 1
                room, board = boards.boards[kind].room, len(begun)
                begun.append((kind, np.zeros(len(among), np.int64)))
            begun[board][1][n] += 1
            insort(rooms, (room - length, board))
    return trimmed(among, [(Pattern(kind, counts), 1) for kind, counts in begun])


@dataclass(slots=True)
class _Search:
    order: Order
    boards: Boards
    deadline: float
    random: Random
    report: Callable[[Plan], None]
    pool: Pool = field(default_factory=Pool)
    best: Cut = field(default_factory=list)
    bound: int = 0
    second: bool = False  # prices say more than the wish counts: the bound stays as it is
    least: float = 0.0  # no way to cut comes to less

    def plan(self) -> Plan:
        made = plan_of(self.order, layouts_of(self.order, self.boards, self.best))
        known = made.whole and (self.bound > 0 or made.cost == 0)
        return replace(made, bound=min(self.bound, made.cost)) if known else made

    def go(self) -> None:
        self.bound = max(self.bound, self._area_bound())
        if not self.best:
            self._take(best_fit(self.boards, self.boards.demand, self._copies()))
        if self._done():
            return
        whole = self._relax(self.boards.demand, self._copies())
        if whole is None:
            return
        self.least = whole.value - _EPS
        if not self.second:
            self.bound = max(self.bound, bound_of(self.boards, whole))
        for number in range(_DIVES if self._one_price() else _DIVES_PRICED):
            if self._done():
                return
            self._dive(whole, number)
            if number == 1 and not self._done():
                self._exact(whole)
            if number == 9 and not self._done():
                self._take_cover(self.pool.patterns, 2.0, nodes=50)

    def able(self, demand: Whole, count: int) -> bool:
        """Whether pieces may fit on so many boards, by the relaxation."""
        told = self._relax(demand, self._copies())
        return told is not None and told.value <= count + _EPS

    def finished(self, demand: Whole, count: int) -> Cut | None:
        """Pieces laid on so many boards; None where a short search finds no way."""
        ends = min(self.deadline, monotonic() + _SHORT)
        some = replace(self.boards, demand=demand)
        rest = _Search(self.order, some, ends, self.random, lambda _: None, self.pool)
        rest.go()
        return rest.best if sum(n for _, n in rest.best) <= count else None

    def _exact(self, whole: Relaxed) -> None:
        """All patterns that a solution at the bound can have, and an exact cover by them."""
        demand, copies = self.boards.demand, self._copies()
        listed = self._listed(demand, copies, whole, self.bound - whole.value, _LISTED)
        found = cover(self.boards, demand, copies, listed, self._seconds(6), 1, float(self.bound)) if listed else None
        if found:
            self._take(found)

    def _listed(
        self, demand: Whole, copies: list[int | None], told: Relaxed, gap: float, most: int
    ) -> list[Pattern] | None:
        listed: list[Pattern] = []
        for at, board in enumerate(self.boards.boards):
            if copies[at] == 0:
                continue
            least = board.price - told.limits[at] - max(0.0, gap) - 1e-5
            found = all_patterns(self.boards, at, told.worths, demand, least, most - len(listed))
            if found is None:
                return None
            listed += found
        return listed

    def _dive(self, whole: Relaxed, number: int) -> None:
        """Round the relaxation up pattern by pattern, lay the last few pieces exactly, and keep what is better."""
        demand, copies, fixed = self.boards.demand.copy(), self._copies(), Cut()
        told: Relaxed | None = whole
        spent, target = 0.0, self._target(number)
        while demand.any() and told is not None and spent + told.value <= target + _EPS:
            rest = self._rest(demand, copies, told, target - spent, number) if demand.sum() <= _FEW else None
            if rest is not None:
                self._take([*fixed, *rest])
                return
            step = self._rounded(told, demand, copies, number, target - spent - told.value)
            if not step:
                break
            for pattern, count in step:
                demand = demand - count * pattern.counts
                limit = copies[pattern.board]
                copies[pattern.board] = None if limit is None else limit - count
                spent += count * self.boards.boards[pattern.board].price
                fixed.append((pattern, count))
            told = self._relax(demand, copies) if demand.any() else None
        self._take([*fixed, *best_fit(self.boards, demand, copies)])

    def _rest(self, demand: Whole, copies: list[int | None], told: Relaxed, most: float, number: int) -> Cut | None:
        """The last pieces exactly, for no more than `most`."""
        if most == inf:
            return None
        listed = self._listed(demand, copies, told, most - told.value, _LISTED // 2)
        if not listed:
            return None
        losses = np.array([self._loss(pattern, told) for pattern in listed])
        found = exact_cover(demand, copies, listed, losses, most - told.value, _STEPS)
        if found is not None:
            return trimmed(demand, [(pattern, 1) for pattern in found])
        if number % 8 != 7 or len(listed) > 1000:
            return None
        return cover(self.boards, demand, copies, listed, self._seconds(1), 1, most, nodes=200)

    def _loss(self, pattern: Pattern, told: Relaxed) -> float:
        """What a pattern loses against the relaxation: its reduced cost."""
        price = self.boards.boards[pattern.board].price - told.limits[pattern.board]
        return max(0.0, float(price - told.worths @ pattern.counts))

    def _rounded(self, told: Relaxed, demand: Whole, copies: list[int | None], number: int, slack: float) -> Cut:
        """The whole parts of what the relaxation cuts; where there are none, one of the pattern nearest to whole."""
        taken, left, boards = Cut(), demand.copy(), list(copies)

        def take(pattern: Pattern, count: int) -> None:
            nonlocal left
            limit = boards[pattern.board]
            count = count if limit is None else min(count, limit)
            if count and (count * pattern.counts <= left).all():
                left = left - count * pattern.counts
                boards[pattern.board] = None if limit is None else limit - count
                taken.append((pattern, count))

        for pattern, amount in told.amounts:
            take(pattern, int(amount + _EPS))
        if taken:
            return taken
        spread = 0.0 if number == 0 else 0.3
        able = sorted(told.amounts, key=lambda one: -one[1] - spread * self.random.random())
        several = max(1, len(able) // 10) if slack > _LOOSE else 1
        for pattern, _ in able:
            if len(taken) < several:
                take(pattern, 1)
        return taken

    def _relax(self, demand: Whole, copies: list[int | None]) -> Relaxed | None:
        penalty = 10.0 * max((b.price for b in self.boards.boards), default=1.0) / float(self.boards.lengths.min())
        return relax(self.boards, demand, copies, self.pool, penalty, self.deadline)

    def _take_cover(self, patterns: Sequence[Pattern], seconds: float, nodes: int) -> None:
        found = cover(self.boards, self.boards.demand, self._copies(), patterns, self._seconds(seconds), 1, nodes=nodes)
        if found:
            self._take(found)

    def _take(self, cut: Cut) -> None:
        """Keep a way to cut that lays more or costs less, and tell of it."""
        if not self.best or self._rank(cut) < self._rank(self.best):
            self.best = cut
            self.tell()

    def tell(self) -> None:
        """Report the best plan so far."""
        self.report(self.plan())

    def _rank(self, cut: Cut) -> tuple[float, float]:
        laid = sum(int(p.counts @ self.boards.lengths) * n for p, n in cut)
        return (-laid, self._price(cut))

    def _price(self, cut: Cut) -> float:
        return sum(self.boards.boards[p.board].price * n for p, n in cut)

    def _target(self, number: int) -> float:
        """What a dive must come to, to be of use: less than the best so far; every other dive tries for the bound."""
        if not self.whole():
            return inf
        return float(self.bound) if self._one_price() and number % 2 == 0 else self._price(self.best) - self._step()

    def _step(self) -> float:
        """The least by which prices of plans can differ."""
        prices = [board.price for board in self.boards.boards]
        return prices[0] if self._one_price() else float(gcd(*(round(p * _FINE) for p in prices)) or 1) / _FINE

    def _one_price(self) -> bool:
        return len({board.price for board in self.boards.boards}) == 1

    def whole(self) -> bool:
        """Whether everything wanted is laid."""
        return sum(int(p.counts.sum()) * n for p, n in self.best) == int(self.boards.demand.sum())

    def _done(self) -> bool:
        return monotonic() > self.deadline or (
            self.whole() and self._price(self.best) <= max(self.least, self.bound) + _EPS
        )

    def _area_bound(self) -> int:
        """What the length wanted comes to on the board that gives a length most cheaply."""
        if self.second:
            return 0
        total = int(self.boards.lengths @ self.boards.demand)
        return min(-(-total * int(board.price) // board.room) for board in self.boards.boards)

    def _copies(self) -> list[int | None]:
        return [board.copies for board in self.boards.boards]

    def _seconds(self, most: float) -> float:
        return max(0.0, min(most, self.deadline - monotonic()))
