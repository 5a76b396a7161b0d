"""Few parts, exactly: every set of them that one piece can hold, and the fewest or cheapest of these sets.

A set fits where cuts from edge to edge divide a piece so: it is one part, or two smaller sets side by side or one above
the other. Of each set only the boxes are kept that are smaller than all others one way; the sets to which no part can
be added are the columns of an exact cover.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from frontwright.cutting.counting import usable
from frontwright.cutting.search.compiled import compiled
from frontwright.cutting.search.keep import Keeper
from frontwright.cutting.search.mixes import may_mix
from frontwright.cutting.search.patterns import Column, as_layouts, whole
from frontwright.cutting.search.tree import Ints
from frontwright.cutting.search.work import prices_of
from frontwright.cutting.values import Order, Placed

MOST_PARTS = 20
_STEPS = 40_000_000  # pairs of boxes looked at
_BOXES = 1_500_000  # kept in all
_MOST_COLUMNS = 30_000
ALONE, BESIDE, ABOVE = range(3)


class Boxes(NamedTuple):
    """Boxes that hold sets of parts; set `s` (a bit a part) has those from start[s], held[s] of them."""

    width: Ints
    height: Ints
    one: Ints  # box of the first of two sets; the part where it is one
    other: Ints
    how: NDArray[np.int8]
    start: Ints
    held: NDArray[np.int32]


def may_be_small(order: Order) -> bool:
    """Whether an order has so few parts, and no rule that this does not know."""
    plain = order.saw.first is None and order.saw.levels is None and not any(s.defects for s in order.stock)
    parts = sum(w.copies for w in order.wanted)
    return plain and order.guillotine and may_mix(order) and order.wish != "best leftover" and 0 < parts <= MOST_PARTS


def lay_small(order: Order, keeper: Keeper, seconds: float) -> None:
    """Offer the best plan there is, if all sets can be told and put together in time."""
    kerf = order.saw.kerf
    parts = [n for n, w in enumerate(order.wanted) for _ in range(w.copies)]
    ways = [(w.width + kerf, w.height + kerf, w.turns) for w in (order.wanted[n] for n in parts)]
    rooms = [(usable(s).width + kerf, usable(s).height + kerf) for s in order.stock]
    boxes = boxes_of(np.array(ways, np.int64), max(w for w, _ in rooms), max(h for _, h in rooms), _STEPS)
    if boxes.start[0] < 0:
        return  # too many
    columns, demand = dict[Column, int](), [w.copies for w in order.wanted]
    for stock, (wide, high) in enumerate(rooms):
        for box in fullest(boxes, len(parts), wide, high).tolist():
            held = Counter(parts[at] for at in _laid(boxes, box))
            columns.setdefault(Column(stock, tuple(sorted(held.items())), ()), box)
            if len(columns) > _MOST_COLUMNS:
                return
    cut = whole(order, list(columns), prices_of(order), demand, seconds)
    if cut:
        laid = [(_with_places(order, boxes, column, columns[column], parts), n) for column, n in cut]
        keeper.offer(as_layouts(demand, laid))


def _laid(boxes: Boxes, box: int) -> dict[int, tuple[int, int, int, int]]:
    """Where each part of a box lies: x, y, width and height with a kerf."""
    found, waiting = dict[int, tuple[int, int, int, int]](), [(box, 0, 0)]
    while waiting:
        n, x, y = waiting.pop()
        one, other = int(boxes.one[n]), int(boxes.other[n])
        if boxes.how[n] == ALONE:
            found[one] = (x, y, int(boxes.width[n]), int(boxes.height[n]))
        elif boxes.how[n] == BESIDE:
            waiting += [(one, x, y), (other, x + int(boxes.width[one]), y)]
        else:
            waiting += [(one, x, y), (other, x, y + int(boxes.height[one]))]
    return found


def _with_places(order: Order, boxes: Boxes, column: Column, box: int, parts: Sequence[int]) -> Column:
    kerf, corner = order.saw.kerf, usable(order.stock[column.stock])
    placed = (
        Placed(parts[at], corner.x + x, corner.y + y, w - kerf, h - kerf)
        for at, (x, y, w, h) in _laid(boxes, box).items()
    )
    return replace(column, placed=tuple(placed))


# Sets and their boxes


@compiled
def _keep(boxes: Boxes, first: int, end: int, box: tuple[int, int, int, int, int]) -> int:
    """Keep a box behind the others of its set, from `first` to `end`, unless one is as small; the new end, -1: full."""
    width, height, one, other, how = box
    at = first
    for n in range(first, end):
        if boxes.width[n] <= width and boxes.height[n] <= height:
            return end
    for n in range(first, end):
        if boxes.width[n] < width or boxes.height[n] < height:
            boxes.width[at], boxes.height[at], boxes.one[at] = boxes.width[n], boxes.height[n], boxes.one[n]
            boxes.other[at], boxes.how[at] = boxes.other[n], boxes.how[n]
            at += 1
    if at >= boxes.width.shape[0]:
        return -1
    boxes.width[at], boxes.height[at], boxes.one[at], boxes.other[at], boxes.how[at] = width, height, one, other, how
    return at + 1


@compiled
def _join(boxes: Boxes, one: int, other: int, first: int, end: int, wide: int, high: int) -> int:
    """All boxes of two sets side by side and one above the other, as far as they fit; the new end, -1: full."""
    for a in range(boxes.start[one], boxes.start[one] + boxes.held[one]):
        for b in range(boxes.start[other], boxes.start[other] + boxes.held[other]):
            w, h = boxes.width[a] + boxes.width[b], max(boxes.height[a], boxes.height[b])
            if end >= 0 and w <= wide and h <= high:
                end = _keep(boxes, first, end, (w, h, a, b, BESIDE))
            w, h = max(boxes.width[a], boxes.width[b]), boxes.height[a] + boxes.height[b]
            if end >= 0 and w <= wide and h <= high:
                end = _keep(boxes, first, end, (w, h, a, b, ABOVE))
    return end


@compiled
def boxes_of(ways: Ints, wide: int, high: int, steps: int) -> Boxes:
    """The boxes of all sets of parts (width, height, whether it turns); start[0] is -1 where they are too many."""
    parts = ways.shape[0]
    room, sets = _BOXES, 1 << parts
    boxes = Boxes(
        np.zeros(room, np.int64),
        np.zeros(room, np.int64),
        np.zeros(room, np.int64),
        np.zeros(room, np.int64),
        np.zeros(room, np.int8),
        np.zeros(sets, np.int64),
        np.zeros(sets, np.int32),
    )
    end = 0
    for s in range(1, sets):
        least, rest = s & -s, s & (s - 1)
        first = end
        if rest == 0:
            part = 0
            while 1 << part != least:
                part += 1
            w, h = ways[part, 0], ways[part, 1]
            if w <= wide and h <= high:
                end = _keep(boxes, first, end, (w, h, part, part, ALONE))
            if ways[part, 2] and h <= wide and w <= high:
                end = _keep(boxes, first, end, (h, w, part, part, ALONE))
        elif boxes.held[rest] > 0:
            other = rest
            while other > 0 and end >= 0 and steps > 0:  # the set with its first part, and each choice of the others
                one = s ^ other
                if boxes.held[one] > 0 and boxes.held[other] > 0:
                    steps -= boxes.held[one] * boxes.held[other]
                    end = _join(boxes, one, other, first, end, wide, high)
                other = (other - 1) & rest
        if end < 0 or steps <= 0:
            boxes.start[0] = -1
            return boxes
        boxes.start[s], boxes.held[s] = first, end - first
    return boxes


@compiled
def fullest(boxes: Boxes, parts: int, wide: int, high: int) -> Ints:
    """A box of each set that fits a room of this size and would not with any other part added."""
    fitting = -np.ones(1 << parts, np.int64)
    for s in range(1, 1 << parts):
        for n in range(boxes.start[s], boxes.start[s] + boxes.held[s]):
            if boxes.width[n] <= wide and boxes.height[n] <= high:
                fitting[s] = n
                break
    found = 0
    for s in range(1, 1 << parts):
        if fitting[s] >= 0:
            more = False
            for part in range(parts):
                if not s >> part & 1 and fitting[s | 1 << part] >= 0:
                    more = True
                    break
            if not more:
                fitting[found] = fitting[s]
                found += 1
    return fitting[:found].copy()
