"""One piece filled with what is worth most: parts that would be taken more often than wanted are counted for less.

What a part loses in worth for being scarce is found by subgradients (Held & Karp 1971): the piece is filled as if every
part could be had as often as one likes, and a part taken too often loses worth, one left over gains it back. What the
piece holds at such worths, with what the scarce copies lose added, is a bound; filled within the copies wanted at the
same worths, it gives plans near it.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import count
from math import floor
from random import Random
from time import monotonic

import numpy as np
from numpy.typing import NDArray

from frontwright.cutting.counting import serves
from frontwright.cutting.search.climb import Found
from frontwright.cutting.search.filling import FINE, Filling, fill, filling_of
from frontwright.cutting.search.limited import Limited, fill_limited, limited_of
from frontwright.cutting.values import Layout, Order, Placed

_FINE = 1000  # worths are told apart so finely
_STEPS, _MOST_STEPS = 4, 40  # of the subgradient between two fillings within the copies
_STEPPING = 0.5  # as long as a filling, if that is more than the least of steps
_PATIENCE, _SHORTER = 3, 0.6  # steps without a better bound, after which they become shorter by so much
_FIRST, _MOST = 4, 64  # ways kept of each rectangle
_FAILS = 3  # fillings that brought nothing better, after which more ways are kept
_SLOWER = 2.6  # times, with twice as many ways
_LEANINGS = (1.0, 1.0, 0.9, 0.8, 0.95)  # shares of the loss that are counted

Numbers = NDArray[np.float64]


class Scarcity:
    """The losses of worth for one order's stock, and the best bound they gave."""

    def __init__(self, order: Order, filling: Filling, seed: int) -> None:
        self._order, self._filling = order, filling
        self._worth = np.array([w.value * _FINE for w in order.wanted], np.float64)
        self._copies = np.array([w.copies for w in order.wanted], np.float64)
        self._loss, self._best_loss = np.zeros(len(self._worth)), np.zeros(len(self._worth))
        self._bound, self._step, self._since = float("inf"), 1.0, 0
        self._chance = Random(seed)  # noqa: S311 - a search, no secret

    @property
    def bound(self) -> int | None:
        """No choice of parts is worth more; None where that is not known."""
        known = self._filling.exact and self._bound < float("inf")
        return floor(self._bound / _FINE) if known else None

    def step(self, best: int) -> None:
        """One step of the subgradient, towards the value of the best plan known."""
        most, placed = fill(self._filling, np.maximum(0.0, self._worth - self._loss).tolist())
        bound = most + float(self._loss @ self._copies)
        if bound < self._bound - 0.5:
            self._bound, self._best_loss, self._since = bound, self._loss.copy(), 0
        else:
            self._since += 1
            if self._since >= _PATIENCE:
                self._step, self._since = self._step * _SHORTER, 0
        spare = self._copies - self._taken(placed)
        spare[(self._loss <= 0) & (spare > 0)] = 0
        length = float(spare @ spare)
        if length:
            over = max(1.0, bound - best * _FINE)
            self._loss = np.maximum(0.0, np.round(self._loss - self._step * over / length * spare))

    def _taken(self, placed: tuple[Placed, ...]) -> Numbers:
        return np.bincount([p.item for p in placed], minlength=len(self._worth)).astype(np.float64)

    def filled(self, room: Limited, nearest: bool) -> tuple[Placed, ...]:
        """What is worth most of some ways within the copies wanted; `nearest`: at the losses of the best bound."""
        loss = self._best_loss if nearest else self._loss
        worth = np.maximum(0.0, self._worth - loss * self._chance.choice(_LEANINGS))
        laid = [placed for _, placed in fill_limited(room, [int(w) for w in worth])]
        return max(laid, key=lambda placed: sum(self._order.wanted[p.item].value for p in placed), default=())


def may_fill(order: Order) -> bool:
    """Whether no rule of grade or place stands against any choice of parts."""
    return not order.pinned and len(order.stock) == 1 and all(serves(order.stock[0], w) for w in order.wanted)


def fill_scarce(order: Order, known: int, seed: int, until: float, found: Found, prove: Callable[[int], None]) -> None:
    """Fill the stock within the copies wanted for more than the value known, to the moment told at the latest."""
    filling = filling_of(order, 0, FINE)
    if filling is None:
        return
    scarcity, room, best = Scarcity(order, filling, seed), _Room(order, filling), known
    for n in count():
        began = monotonic()
        for at in range(_MOST_STEPS):
            if monotonic() >= until or (at >= _STEPS and monotonic() - began > _STEPPING * room.took):
                break
            scarcity.step(best)
        if scarcity.bound is not None:
            prove(scarcity.bound)
        if not room.fits(until) or scarcity.bound == best:
            return
        placed = room.used(partial(scarcity.filled, nearest=n % 2 == 0))
        value = sum(order.wanted[p.item].value for p in placed)
        room.learn(value > best, until)
        if value > best:
            best = value
            found([Layout(0, placed)])


class _Room:
    """Room for more and more ways of each rectangle, as fillings bring nothing better and time allows."""

    def __init__(self, order: Order, filling: Filling) -> None:
        self._order, self._filling = order, filling
        self._keep, self._fails, self.took = _FIRST, 0, 0.0
        self._limited = limited_of(order, filling, _FIRST)

    def fits(self, until: float) -> bool:
        """Whether there is room at all, and time for another filling."""
        return self._limited is not None and monotonic() + self.took < until

    def used(self, fill_it: Callable[[Limited], tuple[Placed, ...]]) -> tuple[Placed, ...]:
        """Fill, and remember how long that took."""
        began = monotonic()
        placed = fill_it(self._limited) if self._limited is not None else ()
        self.took = monotonic() - began
        return placed

    def learn(self, better: bool, until: float) -> None:
        """Keep twice as many ways when several fillings in a row were no better."""
        self._fails = 0 if better else self._fails + 1
        longer = _SLOWER * self.took
        if self._fails < _FAILS or self._keep >= _MOST or monotonic() + longer >= until:
            return
        larger = limited_of(self._order, self._filling, 2 * self._keep)
        if larger is not None:
            self._limited, self._keep, self._fails, self.took = larger, 2 * self._keep, 0, longer
