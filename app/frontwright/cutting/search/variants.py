"""The same order under narrower rules: a group from this batch or that, nothing turned, one stock only.

What is laid under a narrower rule may be cut under the wider one, so that allowing more never makes a plan worse.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from itertools import islice, product

import numpy as np

from frontwright.cutting.counting import batch_of, fits, usable
from frontwright.cutting.search.work import Task
from frontwright.cutting.values import Order

Batches = dict[str, set[int]]
_MOST_CHOICES = 8
_MOST_STOCKS = 4


def batch_choices(order: Order) -> list[Batches | None]:
    """From which stocks each group may come, in ways that look promising, the best first."""
    groups = sorted({w.group for w in order.wanted if w.group})
    if not groups:
        return [None]
    stocks = defaultdict[str, set[int]](set)
    for n in range(len(order.stock)):
        stocks[batch_of(order, n)].add(n)
    able = [_able(order, group, stocks) for group in groups]
    choices = sorted(islice(product(*(range(len(a)) for a in able)), 1000), key=sum)[:_MOST_CHOICES]
    return [{g: stocks[of[at]] for g, of, at in zip(groups, able, choice, strict=True)} for choice in choices]


def _able(order: Order, group: str, stocks: dict[str, set[int]]) -> list[str]:
    """Batches that a group may come from: where it is pinned, else those that hold most of it, the larger first."""
    number = {s.id: n for n, s in enumerate(order.stock)}
    parts = [w for w in order.wanted if w.group == group]
    names = {w.id for w in parts}
    pinned = [batch_of(order, number[p.stock]) for p in order.pinned if p.wanted in names]
    if pinned:
        return pinned[:1]
    wanted = sum(w.width * w.height * w.copies for w in parts)

    def serves(batch: str) -> tuple[int, int, int]:
        fit = sum(w.width * w.height * w.copies for w in parts if any(fits(order.stock[n], w) for n in stocks[batch]))
        room = sum(_room(order, n) for n in stocks[batch])
        return (-fit, -min(room, wanted), -sum(order.stock[n].have for n in stocks[batch]))

    ranked = sorted(stocks, key=serves)
    best = serves(ranked[0])[0]
    return [batch for batch in ranked if serves(batch)[0] == best]


def _room(order: Order, stock: int) -> int:
    box, copies = usable(order.stock[stock]), order.stock[stock].copies
    return box.width * box.height * (10**6 if copies is None else copies)


def narrower(task: Task) -> Iterator[Task]:
    """The task with nothing turned, and with one stock only."""
    work = task.work
    if work.turns.any():
        yield replace(task, work=work._replace(turns=np.zeros_like(work.turns)))
    free = [n for n, form in enumerate(task.forms) if not form.pinned]
    if 1 < len(free) <= _MOST_STOCKS:
        for n in free:
            allowed = np.zeros_like(work.allowed)
            allowed[:, n] = work.allowed[:, n]
            yield replace(task, work=work._replace(allowed=allowed))
