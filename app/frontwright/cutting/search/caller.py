"""Calls of the packing library in a thread of their own, so that a call that runs late holds up nothing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from threading import Thread
from time import monotonic

from frontwright.cutting.counting import fits
from frontwright.cutting.library import plain
from frontwright.cutting.search.climb import Found
from frontwright.cutting.values import Layout, Order, Placed, Plan, Stock

_PATIENCE = 0.05  # seconds a call may run over before it is left to itself


class Caller:
    """Calls one after the other; while one runs late, no more are made."""

    def __init__(self, order: Order) -> None:
        self._items = [n for n, w in enumerate(order.wanted) if w.copies and any(fits(s, w) for s in order.stock)]
        self._order = replace(order, wanted=tuple(order.wanted[n] for n in self._items))
        self._last: Thread | None = None

    @property
    def late(self) -> bool:
        """Whether a call is still at work after its time."""
        return self._last is not None and self._last.is_alive()

    def lay(self, seconds: float, found: Found) -> None:
        """Plans for the whole order, each better than the one before."""
        if self._items:
            self._call(self._order, seconds, self._items, found)

    def lay_deep(self, seconds: float, found: Found) -> None:
        """The same with any number of turns of the cut. It may end late, and then goes on beside what comes next."""
        if self._items:
            self._call(self._order, seconds, self._items, found, deep=True)

    def fill(self, stock: Stock, worth: Sequence[int], copies: Sequence[int], seconds: float) -> tuple[Placed, ...]:
        """What is worth most on one piece: the parts laid there, of so many copies of each part of the order."""
        items = [n for n in self._items if worth[n] > 0 and copies[n] > 0]
        wanted = tuple(
            replace(self._order.wanted[self._items.index(n)], value=worth[n], copies=copies[n]) for n in items
        )
        asked = replace(self._order, wanted=wanted, stock=(replace(stock, copies=1),), wish="most value")
        best: list[Layout] = []

        def take(layouts: list[Layout]) -> None:
            best[:] = layouts

        if items:
            self._call(asked, seconds, items, take)
        return best[0].placed if best else ()

    def _call(self, order: Order, seconds: float, items: Sequence[int], found: Found, deep: bool = False) -> None:
        if (self.late and not deep) or seconds <= 0.02:
            return
        closed = monotonic() + seconds + _PATIENCE

        def take(plan: Plan) -> None:
            if monotonic() > closed and not deep:
                raise TimeoutError
            if plan.whole or order.wish == "most value":
                found([_renamed(layout, items) for layout in plan.layouts])

        def run() -> None:
            try:
                plain(order, seconds, take, deep)
            except (TimeoutError, RuntimeError, ValueError):
                return  # what it cannot do, or too late: another search goes on

        thread = Thread(target=run, daemon=True)
        thread.start()
        thread.join(max(0.0, closed - monotonic()))
        self._last = thread


def _renamed(layout: Layout, items: Sequence[int]) -> Layout:
    return replace(layout, placed=tuple(replace(p, item=items[p.item]) for p in layout.placed))
