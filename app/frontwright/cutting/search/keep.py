"""The best plan so far, and the time that is left."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from threading import Lock
from time import monotonic

from frontwright.cutting.checker import first_fault
from frontwright.cutting.counting import better, plan_of
from frontwright.cutting.search.settled import Least
from frontwright.cutting.values import Layout, Order, Plan

Report = Callable[[Plan], None]


class Keeper:
    """The best plan so far; every better one that may be cut is reported."""

    def __init__(self, order: Order, report: Report, bound: int | None) -> None:
        self.order, self._report, self.bound = order, report, bound
        self._least = Least(order)
        self.best = plan_of(order, (), bound)
        self._lock = Lock()  # the library speaks from a thread of its own

    def offer(self, layouts: list[Layout]) -> None:
        """Keep and report these layouts where they make a better plan."""
        self.keep(plan_of(self.order, layouts, self.bound))

    def keep(self, plan: Plan) -> None:
        """Keep and report a plan where it is better and may be cut."""
        if not better(self.order, plan, self.best) or first_fault(self.order, plan) is not None:
            return
        with self._lock:
            if better(self.order, plan, self.best):
                self.best = plan
                self._report(plan)

    def prove(self, bound: int) -> None:
        """Learn of a bound below which no plan of all parts can be; of a value above which none can be."""
        nearer = self.bound is None or (bound < self.bound if self.order.wish == "most value" else bound > self.bound)
        if nearer:
            self.bound = bound
            self.best = replace(self.best, bound=bound)
            if self.best.whole or (self.order.wish == "most value" and self.best.layouts):
                self._report(self.best)

    @property
    def proven(self) -> bool:
        """Nothing can be better in what the wish counts first."""
        if self.order.wish == "fewest" and len({(s.tier, s.cost) for s in self.order.stock}) > 1:
            return self._least.settles(self.best, self.bound)
        if self.bound is None or not (self.best.whole or self.order.wish == "most value"):
            return False
        return self.best.cost >= self.bound if self.order.wish == "most value" else self.best.cost <= self.bound


class Clock:
    """The time of one order, told in shares."""

    def __init__(self, deadline: float) -> None:
        self.start, self.deadline = monotonic(), deadline

    @property
    def now(self) -> float:
        """The moment."""
        return monotonic()

    @property
    def left(self) -> float:
        """Seconds."""
        return max(0.0, self.deadline - monotonic())

    def until(self, share: float) -> float:
        """The moment at which so much of the whole time is over."""
        return self.start + share * (self.deadline - self.start)

    def seconds(self, share: float) -> float:
        """So much of the whole time, as far as it is left."""
        return min(self.left, share * (self.deadline - self.start))
