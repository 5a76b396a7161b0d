"""Orders of many copies: columns priced one after the other, whole numbers of them, and the rest laid afresh."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import count
from math import ceil
from random import Random
from time import monotonic

from frontwright.cutting.search.caller import Caller
from frontwright.cutting.search.climb import CHOOSING, Climb, Found, fewer, manner_for, most
from frontwright.cutting.search.filling import COARSE, FINE, Filling, fill_ways, filling_of, steps_of
from frontwright.cutting.search.joining import joined
from frontwright.cutting.search.keep import Clock, Keeper
from frontwright.cutting.search.limited import Limited, fill_limited, limited_of
from frontwright.cutting.search.patterns import (
    Column,
    Pool,
    Relaxed,
    as_layouts,
    column_of,
    relax,
    rest_of,
    rounded_down,
    whole,
)
from frontwright.cutting.search.targets import least_price
from frontwright.cutting.search.work import prices_of, task_of
from frontwright.cutting.values import Layout, Order, Plan

MANY, MANY_OF_SIZES = 2, 3  # copies of a part on the average from which columns pay; where there are several sizes
_FINE = 10**7  # worths as whole numbers
_PRICING_ROUNDS = 200_000  # times parts
_MOST_KINDS = 400  # of parts; beyond them columns are too many
_MOST_COLUMNS = 6000
_WAYS, _LITTLE = 6, 0.004  # ways to fill a piece at a time; a gain that is too little to go on with rounded sizes
_KEPT, _STEPS = (
    4,
    1_300_000,
)  # ways of a rectangle, and steps of a filling, where a piece is filled within the copies wanted
_PRICINGS = 2  # between two searches
_COVERING = 1.5  # seconds for whole numbers of columns, at a time
_RELAID, _DIVE = 4_000_000, 400_000  # rounds times parts, of pieces laid again and of what a dive leaves
_DIVES, _HELD, _LEFT_TO_LAY = 4, 0.02, (12, 30)  # in a row; share of a column that is not nothing; parts
_LARGE = 400  # parts in one search; more than these are searched in lots


class Mixes:
    """Columns for one order; a group, a grade or a pinned part would need more and is left to other searches."""

    def __init__(self, order: Order, keeper: Keeper, caller: Caller, seed: int) -> None:
        self.order, self.keeper, self._caller = order, keeper, caller
        self._prices = prices_of(order)
        self._demand = [w.copies - missing for w, missing in zip(order.wanted, keeper.best.missing, strict=True)]
        self._chance = Random(seed)  # noqa: S311 - a search, no secret
        self._seed = seed
        self._fillings: list[list[Filling]] = [[] for _ in order.stock]
        self._limited: dict[int, Limited] = {}
        self._most: dict[int, int] = {}  # what a stock can hold at most at the worths looked at
        self.pool = Pool()
        self.pool.take(keeper.best.layouts)

    def price(self, clock: Clock, until: float) -> Relaxed | None:
        """Columns until none is found that would better the relaxation, or to the moment told."""
        if len(self.order.wanted) > _MOST_KINDS:
            return None
        self._fillings = [_fillings(self.order, n) for n in range(len(self.order.stock))]
        self._limited = self._within_demand()
        relaxed = relax(self.order, self.pool, self._prices, self._demand)
        while relaxed is not None and clock.now < until:
            fresh = [self._better(relaxed, n, clock, until) for n in range(len(self.order.stock))]
            self._prove(_whole_worth(relaxed))
            if not any(fresh):
                return relaxed
            relaxed = relax(self.order, self.pool, self._prices, self._demand)
        return relaxed

    def _within_demand(self) -> dict[int, Limited]:
        """Of each stock that can be filled so, what is needed to fill it with no part more often than wanted."""
        wanted = tuple(replace(w, copies=n) for w, n in zip(self.order.wanted, self._demand, strict=True))
        order = replace(self.order, wanted=wanted)
        small = {n: ways[0] for n, ways in enumerate(self._fillings) if ways and steps_of(ways[0]) <= _STEPS}
        found = {n: limited_of(order, filling, _KEPT) for n, filling in small.items()}
        return {n: limited for n, limited in found.items() if limited is not None}

    def _better(self, relaxed: Relaxed, stock: int, clock: Clock, until: float, thorough: bool = True) -> bool:
        """Whether a column was found that is worth more than the piece of this stock: quick ways first."""
        worth = [max(0.0, float(w)) for w in relaxed.worth]
        cost = self._cost(relaxed, stock)
        whole_worth, found = _whole_worth(relaxed), False
        for filling in self._fillings[stock] if thorough else ():
            ways = fill_ways(filling, whole_worth, 1 if filling.exact else _WAYS)
            if filling.exact:
                self._most[stock] = round(ways[0][0])
            new = [self._worth_adding(Layout(stock, placed), worth, cost) for _, placed in ways]
            if any(new) and ways[0][0] > (1 + _LITTLE) * cost * _FINE and stock not in self._limited:
                return True
            found = found or any(new)
        limited = self._limited.get(stock) if thorough else None
        if limited is not None:
            new = [
                self._worth_adding(Layout(stock, laid), worth, cost) for _, laid in fill_limited(limited, whole_worth)
            ]
            found = found or any(new)
        if found:
            return True

        added = list[bool]()

        def take(layouts: list[Layout]) -> None:
            added.extend(self._worth_adding(replace(layout, stock=stock), worth, cost) for layout in layouts)

        self._fill(stock, whole_worth, take, until)
        if thorough and not any(added) and clock.now < until:
            seconds = min(0.15, until - clock.now)
            take([Layout(stock, self._caller.fill(self.order.stock[stock], whole_worth, self._demand, seconds))])
        return any(added)

    def _cost(self, relaxed: Relaxed, stock: int) -> float:
        limited = [n for n, s in enumerate(self.order.stock) if s.copies is not None]
        limit = float(relaxed.limits[limited.index(stock)]) if stock in limited else 0.0
        return self._prices[stock] / max(self._prices) - limit

    def _worth_adding(self, layout: Layout, worth: Sequence[float], cost: float) -> bool:
        """Put a filled piece in, no more of a part than is wanted, if it is worth more than it costs."""
        made = as_layouts(self._demand, [(column_of(layout), 1)])
        if not made:
            return False
        column = column_of(made[0])
        return sum(worth[i] * n for i, n in column.counts) > cost + 1e-6 and self.pool.add(column)

    def _prove(self, worth: Sequence[int]) -> None:
        """A bound from what pieces can hold at most at these worths of the parts (Farley 1990)."""
        most, self._most = self._most, {}
        if len(most) < len(self.order.stock) or self.order.wish == "best leftover":
            return  # not known exactly for every stock
        prices = [1 if self.order.wish == "fewest" else s.cost for s in self.order.stock]
        if min(prices) > 0 and max(most.values()) > 0:
            total = sum(w * n for w, n in zip(worth, self._demand, strict=True))
            self.keeper.prove(ceil(total / max(Fraction(most[n], price) for n, price in enumerate(prices))))

    def _fill(self, stock: int, worth: Sequence[int], found: Found, until: float) -> None:
        piece = self.order.stock[stock]
        room = piece.width * piece.height
        wanted = tuple(
            replace(w, value=v, copies=min(n, room // (w.width * w.height)) if v else 0)
            for w, v, n in zip(self.order.wanted, worth, self._demand, strict=True)
        )
        task = task_of(replace(self.order, wanted=wanted, stock=(replace(piece, copies=1),), wish="most value"))
        if task.items:
            self._seed += 1
            climb = Climb(task, CHOOSING, self._seed)
            climb.harvest = found
            most(climb, max(500, _PRICING_ROUNDS // len(task.items)), until, found)

    def harvest(self, layouts: list[Layout]) -> None:
        """Take in how pieces were laid on the way."""
        self.pool.take(layouts)
        if len(self.pool.columns) > _MOST_COLUMNS:
            self.pool.thin(lambda column: self._use(Layout(column.stock, column.placed)))
            self.pool.take(self.keeper.best.layouts)

    def cover(self, clock: Clock, until: float) -> None:
        """Whole numbers of the columns met where that promises less, and a few more columns priced."""
        unit = max(self._prices)
        paid = sum(self._prices[layout.stock] * layout.copies for layout in self.keeper.best.layouts)
        step = unit if len(set(self._prices)) == 1 else 1
        tried = False
        for _ in range(_PRICINGS):
            relaxed = relax(self.order, self.pool, self._prices, self._demand) if clock.now < until else None
            if relaxed is None:
                return
            if not tried and relaxed.price * unit <= paid - step * (1 - 1e-6):
                self._choose(min(_COVERING, until - clock.now))
                self._dive(relaxed, paid - step, clock, until)
                tried = True
            fresh = [self._better(relaxed, n, clock, until, thorough=False) for n in range(len(self.order.stock))]
            if True not in fresh:
                return

    def _dive(self, relaxed: Relaxed, limit: int, clock: Clock, until: float) -> None:
        """Some pieces that the relaxation would cut, picked by chance, and the parts left over laid on what remains."""
        amounts = zip(relaxed.amounts, self.pool.columns, strict=False)  # columns found since have none
        held = [(x - n, column) for x, column in amounts if x > _HELD for n in range(ceil(x - _HELD))]
        for _ in range(_DIVES):
            if clock.now >= until or self.keeper.proven:
                return
            left, cut, few = list(self._demand), list[tuple[Column, int]](), self._chance.randint(*_LEFT_TO_LAY)
            for _, column in sorted(held, key=lambda one: -one[0] * (0.3 + self._chance.random())):
                if sum(left) > few and all(n <= left[i] for i, n in column.counts):
                    cut.append((column, 1))
                    for i, n in column.counts:
                        left[i] -= n
            rest = replace(rest_of(self.order, self._demand, cut), wish=self.order.wish)
            over = limit - sum(self._prices[column.stock] for column, _ in cut)
            if sum(left) and least_price(rest, self._prices) > over:
                continue  # these do not go together
            if self._lay(rest, as_layouts(self._demand, cut), until, over, _DIVE):
                return

    def _choose(self, seconds: float) -> None:
        cut = whole(self.order, self.pool.columns, self._prices, self._demand, seconds)
        if cut is not None:
            self.keeper.offer(as_layouts(self._demand, cut))

    def join(self, until: float) -> list[Layout]:
        """Pieces filled by parts that match without waste, put together by an integer program; these pieces."""
        clear = joined(self.order, until)
        before = len(self.pool.columns)
        self.pool.take(clear)
        if len(self.pool.columns) > before and monotonic() < until:
            self._choose(until - monotonic())
        return clear

    def round(self, relaxed: Relaxed, clock: Clock, until: float) -> None:
        """Whole numbers of columns: rounded down and the rest laid afresh, and by an integer program."""
        self._with_rest(rounded_down(self.pool, relaxed), clock.now + 0.3 * (until - clock.now))
        self._choose(0.7 * (until - clock.now))

    def _with_rest(self, cut: list[tuple[Column, int]], until: float) -> None:
        done = as_layouts(self._demand, cut)
        rest = replace(rest_of(self.order, self._demand, cut), wish=self.order.wish)
        self._lay(rest, done, until)

    def _lay(
        self, order: Order, done: list[Layout], until: float, limit: int | None = None, rounds: int = _RELAID
    ) -> bool:
        """Lay an order beside what is done, for less than the limit; whether it went."""
        task = task_of(order)
        if not task.items:
            self.keeper.offer(done)
            return True
        self._seed += 1
        climb = Climb(task, manner_for(task), self._seed)
        target = least_price(order, prices_of(self.order))
        if limit is not None:
            climb.lower(limit)

        def found(layouts: list[Layout]) -> None:
            self.pool.take(layouts)
            self.keeper.offer([*done, *layouts])

        fewer(climb, target, 10**9 if limit is None else rounds // len(task.items), until, found)
        return climb.good is not None

    def relay(self, clock: Clock, until: float, relaxed: Relaxed | None = None) -> None:
        """Some poor pieces of the best plan again, on fewer, until the moment told; what the relaxation holds too."""
        unit = max(self._prices)
        for n in count():
            if clock.now >= until or self.keeper.proven:
                return
            kept, taken = self._some(self.keeper.best)
            if not taken:
                return
            price = sum(self._prices[layout.stock] * layout.copies for layout in (*kept, *taken))
            least = min(self._prices)
            if n % 4 and relaxed is not None and relaxed.price * unit <= price - least:
                self._dive(relaxed, price - least, clock, until)
                continue
            cut = [(column_of(layout), layout.copies) for layout in kept]
            over = sum(self._prices[layout.stock] for layout in taken)
            self._lay(rest_of(self.order, self._demand, cut), kept, until, over - 1)

    def _some(self, plan: Plan) -> tuple[list[Layout], list[Layout]]:
        """The plan in two: what stays, and pieces with up to so many parts, the poor ones more often."""
        pieces = [replace(layout, copies=1) for layout in plan.layouts for _ in range(layout.copies)]
        order = sorted(pieces, key=lambda p: self._use(p) * (0.3 + self._chance.random()))
        parts, taken = self._chance.randint(40, 150), list[Layout]()
        while order and (len(taken) < 2 or parts > 0):
            one = order.pop(0)
            parts -= len(one.placed)
            taken.append(one)
        return order, taken

    def _use(self, layout: Layout) -> float:
        stock = self.order.stock[layout.stock]
        return sum(p.width * p.height for p in layout.placed) / (stock.width * stock.height)


def _whole_worth(relaxed: Relaxed) -> list[int]:
    """What the parts are worth, as whole numbers."""
    return [round(max(0.0, float(w)) * _FINE) for w in relaxed.worth]


def _fillings(order: Order, stock: int) -> list[Filling]:
    """A coarse and a fine way to fill a stock, or the one that is exact."""
    found = [f for steps in (COARSE, FINE) if (f := filling_of(order, stock, steps)) is not None]
    return found[:1] if found and found[0].exact else found


def may_mix(order: Order) -> bool:
    """Whether any column may stand beside any other: no rule ties a part to its piece."""
    tied = order.pinned or any(w.group for w in order.wanted) or len({s.grade for s in order.stock}) > 1
    return not tied and order.wish in ("fewest", "cheapest", "best leftover")


def is_mix(order: Order) -> bool:
    """Whether columns pay: many parts of few sizes, no rule that ties a part to its piece."""
    wanted = [w for w in order.wanted if w.copies]
    parts = sum(w.copies for w in wanted)
    tied = not may_mix(order)
    several = len({(s.width, s.height) for s in order.stock}) > 1
    many = MANY_OF_SIZES if several else MANY
    return bool(wanted) and not tied and (parts > _LARGE or parts >= many * len(wanted))
