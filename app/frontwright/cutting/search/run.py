"""Which searches are made for an order, in which row."""

from __future__ import annotations

from itertools import count
from time import sleep

import numpy as np

from frontwright.cutting.counting import plan_of, rank
from frontwright.cutting.floor import floor_plan
from frontwright.cutting.preparing import under_way
from frontwright.cutting.search.caller import Caller
from frontwright.cutting.search.calls import Calls
from frontwright.cutting.search.choosing import Choosing, may_choose
from frontwright.cutting.search.climb import CHOOSING, STEADY, Climb, fewer, lower_edge, manner_for, most
from frontwright.cutting.search.graft import trees_of
from frontwright.cutting.search.joining import may_join
from frontwright.cutting.search.keep import Clock, Keeper, Report
from frontwright.cutting.search.mixes import Mixes, is_mix, may_mix
from frontwright.cutting.search.prepare import PREPARING
from frontwright.cutting.search.scarcity import fill_scarce, may_fill
from frontwright.cutting.search.small import lay_small, may_be_small
from frontwright.cutting.search.targets import bound_of, target_of
from frontwright.cutting.search.tree import LIMIT, OPEN_PRICE, ROOT, H, Trees, W
from frontwright.cutting.search.variants import batch_choices, narrower
from frontwright.cutting.search.work import Task, layouts_of, prices_of, task_of
from frontwright.cutting.values import Layout, Order, Plan

_ENDLESS = 10**9  # rounds; the clock ends them
_FEW_PARTS = 400  # up to so many, all ways of filling a piece that are met are kept
_FEW_TO_JOIN = 120  # parts, up to which matching ones are joined where all pieces are of one size
_WHOLLY = 0.995  # of a piece filled is as good as all of it
_TIGHT = 0.97  # of as many pieces as there must be, filled by the parts: no other than matching ones will do
_SPARSE = 9  # parts on a piece, at most, on the average
_SPELL = 100_000  # rounds before a fresh start
_REMOVED, _LEANS = (12.0, 7.0), (1.0, 0.5)
_RACING = 0.55  # of the time is over when races of sets of pieces make room for the library's call
_RACES, _SPELL_OF_RACES = 3, 0.1  # turns, of which all but the last go to such races; of the time, a turn
_RELAYING = 0.7  # of the time left, to some pieces laid again, where parts are few enough to lay all of them
_EXACT, _TELLING = 1.0, 4.0  # seconds to put together sets of few parts; that must be left beside for telling them all
_SHORT = 300_000  # rounds times parts of a short search
_GATHERING = 800_000  # rounds times parts to bring a leftover together, a side


def run(order: Order, deadline: float, seed: int, report: Report) -> Plan:
    """The best plan to be found by the deadline (of the monotonic clock); `report` hears each better one.

    The same order and seed give the same plan where a bound is met before the packing library or HiGHS, which the
    clock ends, has had its turn; else the seconds decide.
    """
    keeper, clock = Keeper(order, report, bound_of(order)), Clock(deadline)
    caller = Caller(order)
    if not _ready(keeper, clock, caller):
        return keeper.best
    search = _Search(order, keeper, clock, seed, caller)
    if order.wish == "most value":
        search.fill()
    elif order.wish == "shortest":
        search.shorten()
    else:
        search.pieces()
    return keeper.best


def _ready(keeper: Keeper, clock: Clock, caller: Caller) -> bool:
    """Whether the search may begin; while it is being compiled the library does what it can, to the end if need be."""
    elsewhere = under_way()
    if not elsewhere and PREPARING.done(min(1.5, clock.seconds(0.4))):
        return True
    keeper.keep(floor_plan(keeper.order))
    while clock.left > 0 and not keeper.proven:
        if elsewhere:
            elsewhere = under_way()
        if not elsewhere and PREPARING.done(0.0):
            return True
        if caller.late:
            sleep(min(0.1, clock.left))
        else:
            caller.lay(min(clock.left, max(2.0, clock.seconds(0.3))), keeper.offer)
    return False


class _Search:
    def __init__(self, order: Order, keeper: Keeper, clock: Clock, seed: int, caller: Caller) -> None:
        self.order, self.keeper, self.clock, self.seed = order, keeper, clock, seed
        self.task, self.caller, self.calls = task_of(order), caller, Calls(keeper, clock, caller)
        self.choosing: Choosing | None = None
        self.clear: list[Layout] = []  # pieces filled by parts that match

    # one piece

    def fill(self) -> None:
        """One piece with what is worth most."""
        clock, offer = self.clock, self.keeper.offer
        climb = Climb(self.task, CHOOSING, self.seed)
        most(climb, _ENDLESS, clock.until(0.08), offer)
        if not self.keeper.proven:
            self.caller.lay(clock.seconds(0.2), offer)
        if not self.keeper.proven and may_fill(self.order):
            fill_scarce(self.order, self.keeper.best.cost, self.seed, clock.until(0.7), offer, self.keeper.prove)
        if not self.keeper.proven:
            self.caller.lay_deep(clock.until(0.95) - clock.now, offer)
        for n in count(1):
            if clock.left <= 0 or self.keeper.proven or not self.task.items:
                return
            climb = Climb(self.task, CHOOSING, self.seed + n)
            if n % 2:
                self._from_best(climb)
            most(climb, 200_000, clock.deadline, offer)

    def shorten(self) -> None:
        """All parts on one piece, in as little of its height as may be."""
        clock, offer = self.clock, self.keeper.offer
        climb = Climb(self.task, STEADY, self.seed)
        offer(climb.layouts())
        if not climb.whole:
            climb.go(_ENDLESS, clock.until(0.2))
            offer(climb.layouts())
        if len(self.task.work.regions) != 1:
            self.caller.lay(clock.left, offer)
            return
        bound = (self.keeper.bound or 0) + self.order.saw.kerf - self.task.forms[0].regions[0].y
        if climb.whole:
            climb.keep()
            lower_edge(climb, 0, H, bound, _ENDLESS, clock.until(0.4), offer)
        if not self.keeper.proven:
            self.caller.lay(clock.seconds(0.15), offer)
        for n in count(1):
            if clock.left <= 0 or self.keeper.proven or not self.task.items:
                return
            again = climb if n == 1 and climb.whole else Climb(self.task, STEADY._replace(removed=12.0), self.seed + n)
            lower_edge(again, 0, H, bound, _ENDLESS, clock.until(0.7 if n == 1 else 1.0), offer)

    # several pieces

    def pieces(self) -> None:
        """All parts out of the fewest or cheapest pieces, then what is left over in one."""
        clock, keeper = self.clock, self.keeper
        self.choose_batches()
        target = target_of(self.order)
        climb = Climb(self.task, manner_for(self.task), self.seed)
        keeper.offer(climb.layouts())
        if self.task.items:
            self._drive(climb, target)
        if keeper.best.whole and not self.order.pinned:
            self.gather(clock.deadline)

    def choose_batches(self) -> None:
        """Which batch each group comes from: a short search under each choice."""
        choices = batch_choices(self.order)
        if choices == [None]:
            return
        best: tuple[tuple[int, ...], Task] | None = None
        for n, choice in enumerate(choices):
            task = task_of(self.order, choice)
            until = self.clock.now + self.clock.seconds(0.3) / (len(choices) - n)
            climb = Climb(task, manner_for(task), self.seed)
            fewer(climb, 0, _SHORT // max(1, len(task.items)), until, self.keeper.offer)
            self.keeper.offer(climb.layouts())
            here = rank(self.order, plan_of(self.order, layouts_of(task, climb.good or climb.best)))
            if best is None or here < best[0]:
                best = (here, task)
        if best is not None:
            self.task = best[1]

    def _narrower(self, target: int, until: float) -> None:
        """Short searches under narrower rules."""
        for task in narrower(self.task):
            if self.keeper.proven:
                return
            climb = Climb(task, manner_for(task), self.seed)
            self.keeper.offer(climb.layouts())
            fewer(climb, target, _SHORT // max(1, len(task.items)), until, self.keeper.offer)

    def _begin(self, climb: Climb, target: int, end: float) -> None:
        """A short search, then every other way once: columns where copies are many, parts that match, the library."""
        clock, keeper = self.clock, self.keeper
        mixed, choice = is_mix(self.order), may_choose(self.order)
        shares = mixed or choice
        rounds = _ENDLESS if shares else _SHORT // max(1, len(self.task.items))
        fewer(climb, target, rounds, clock.until(0.05 if shares else 0.15), keeper.offer)
        if not climb.good:
            keeper.offer(climb.layouts())
        mixes = Mixes(self.order, keeper, self.caller, self.seed) if mixed and keeper.best.whole else None
        relaxed, few = None, len(self.task.items) <= _FEW_PARTS
        if mixes is not None and not keeper.proven:
            relaxed = mixes.price(clock, clock.until(0.25 if few else 0.45))
            if relaxed is not None:
                mixes.round(relaxed, clock, clock.until(0.35 if few else 0.6))
        self._narrower(target, clock.until(0.1 if choice else 0.3))
        self._join()
        if not keeper.proven and keeper.best.whole and clock.left > _EXACT + _TELLING and may_be_small(self.order):
            lay_small(self.order, keeper, _EXACT)
        if choice and not mixed:
            self._race(target, clock.until(_RACING))
        if shares:
            self.calls.for_a_share()
        if mixes is not None and keeper.best.whole:
            mixes.relay(clock, clock.now + _RELAYING * (end - clock.now) if few else end, relaxed)

    def _drive(self, climb: Climb, target: int) -> None:
        """Search below each plan in turns, until the time that is for it is over or nothing can be better."""
        clock, keeper = self.clock, self.keeper
        end = clock.until(0.6 if self.order.wish == "best leftover" else 0.92)
        self._begin(climb, target, end)
        counted = not (may_choose(self.order) or is_mix(self.order))
        mixes: Mixes | None = None
        for n in count(1):
            if counted:
                self.calls.when_due()
            if clock.now >= end or keeper.proven:
                return
            if n % _RACES and self._race(target, min(end, clock.now + clock.seconds(_SPELL_OF_RACES))):
                continue
            if n > 1:
                manner = manner_for(self.task)
                manner = manner._replace(removed=_REMOVED[n % 2], lean=manner.lean * _LEANS[n // 2 % 2])
                climb = Climb(self.task, manner, self.seed + n)
                if n % 3 == 0 and len(self.task.forms) > 1:
                    self._from_best(climb)
            if n == 1 and self._is_sparse():
                mixes = Mixes(self.order, keeper, self.caller, self.seed)
            climb.harvest = mixes.harvest if mixes else None
            if self._below_best(climb, target, _SPELL, end):
                return
            if mixes:
                mixes.cover(clock, end)

    def _race(self, target: int, until: float) -> bool:
        """Sets of pieces raced to the moment told; False where there is nothing to choose from."""
        keeper = self.keeper
        if not may_choose(self.order) or not keeper.best.whole:
            return False
        self.choosing = self.choosing or self._choosing()
        while self.clock.now < until and not keeper.proven:
            self.choosing.race(keeper.best.layouts, target, until, keeper.offer)
        return True

    def _choosing(self) -> Choosing:
        """Races of sets of pieces, some of them filled by parts that match."""

        def full(layout: Layout) -> bool:
            stock = self.order.stock[layout.stock]
            return sum(p.width * p.height for p in layout.placed) >= _WHOLLY * stock.width * stock.height

        return Choosing(self.order, prices_of(self.order), self.seed, [one for one in self.clear if full(one)])

    def _join(self) -> None:
        """Parts that match, where little may be lost or pieces can be chosen that fit."""
        plan, stock, most = self.keeper.best, self.order.stock, _FEW_PARTS
        if len({(s.width, s.height) for s in stock}) == 1:
            most = _FEW_TO_JOIN
            room = (self.keeper.bound or 0) * stock[0].width * stock[0].height
            if self.order.wish != "fewest" or self.task.area < _TIGHT * room:
                return
        if not self.keeper.proven and plan.whole and may_mix(self.order) and may_join(self.order, most):
            mixes = Mixes(self.order, self.keeper, self.caller, self.seed)
            self.clear = mixes.join(self.clock.now + self.clock.seconds(0.1))

    def _from_best(self, climb: Climb) -> None:
        """Begin at the best plan rather than anew."""
        plan = self.keeper.best
        trees = trees_of(self.task, plan.layouts) if plan.whole or self.order.wish == "most value" else None
        if trees is not None:
            climb.rearrange(trees)

    def _is_sparse(self) -> bool:
        """Whether so few parts lie on a piece that ways of filling one are worth keeping."""
        plan, parts = self.keeper.best, len(self.task.items)
        pieces = sum(layout.copies for layout in plan.layouts)
        return plan.whole and may_mix(self.order) and parts <= _FEW_PARTS and parts <= _SPARSE * pieces

    def _below_best(self, climb: Climb, target: int, rounds: int, until: float) -> bool:
        price = self._price(self.keeper.best)
        if self.keeper.best.whole and climb.price >= price:
            climb.lower(price - 1)
        reached = fewer(climb, target, rounds, until, self.keeper.offer)
        if not self.keeper.best.whole:
            self.keeper.offer(climb.layouts())
        return reached

    def _price(self, plan: Plan) -> int:
        prices = prices_of(self.order)
        pinned = sum(1 for form in self.task.forms if form.pinned)
        return sum(prices[layout.stock] * layout.copies for layout in plan.layouts) if not pinned else 2**61

    # what is left over

    def gather(self, until: float) -> None:
        """Bring what is left over on one piece together along one side, in as little of the other as may be."""
        trees = trees_of(self.task, self.keeper.best.layouts)
        if trees is None:
            return
        parts = max(1, len(self.task.items))
        rounds = _ENDLESS if self.order.wish == "best leftover" else _GATHERING // parts
        pieces = self._poorest(trees)
        for n, (piece, side) in enumerate((p, s) for p in pieces for s in (W, H)):
            if self.clock.now >= until:
                return
            climb = Climb(self.task, STEADY, self.seed + n)
            climb.rearrange(trees)
            climb.trees.state[LIMIT] = climb.trees.state[OPEN_PRICE]
            share = self.clock.now + (until - self.clock.now) / (2 * len(pieces) - n)
            lower_edge(climb, int(self.task.work.regions_of[piece]), side, 0, rounds, share, self.keeper.offer)

    def _poorest(self, trees: Trees) -> list[int]:
        """The piece with the least laid on it."""
        work = self.task.work
        piece_of = np.repeat(np.arange(len(work.type_of)), np.diff(work.regions_of))
        areas = work.sizes[:, 0].astype(np.int64) * work.sizes[:, 1]
        laid = np.bincount(piece_of[trees.nodes[trees.where, ROOT]], areas, len(work.type_of))
        return sorted(np.flatnonzero(trees.in_use).tolist(), key=lambda piece: float(laid[piece]))[:1]
