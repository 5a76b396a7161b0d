"""One piece filled with what is worth most, no part more often than it is wanted.

As `filling`, but each rectangle of points keeps several ways to fill it, with the parts that each takes: two ways go
together where they take no part too often. The more ways are kept, the nearer this comes to the best there is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from frontwright.cutting.search.compiled import compiled
from frontwright.cutting.search.filling import Filling
from frontwright.cutting.search.matching import places_of
from frontwright.cutting.values import Order, Placed

Whole = NDArray[np.int64]
_ROOM = 150_000_000  # bytes that ways may take
VALUE, KIND, CUT, LOW, HIGH = range(5)  # columns of a way; LOW, HIGH: which ways of the two sides, or LOW: the part
_COLUMNS = 5
_NONE, _PART, _ACROSS, _ALONG, _NARROWER, _LOWER = range(6)


class Ways(NamedTuple):
    """The best ways known to fill each rectangle of points, the one worth most first."""

    across: Whole
    along: Whole
    rests_across: Whole  # of two points, the one that what is left of the first beyond the second reaches
    rests_along: Whole
    known: Whole  # of each rectangle: how many ways
    rows: Whole
    counts: Whole  # of each way: how many of each part, packed
    over: Whole
    guard: Whole


@dataclass(frozen=True, slots=True)
class Limited:
    """What is needed to fill one stock of an order again and again."""

    filling: Filling
    ways: Ways
    units: Whole  # the counts of one part, of each way for it to lie


def limited_of(order: Order, filling: Filling, keep: int) -> Limited | None:
    """Room for so many ways a rectangle; None where that is too much."""
    copies = [w.copies for w in order.wanted]
    words, places, over, guard = places_of(copies)
    wide, high = len(filling.across), len(filling.along)
    if wide * high * keep * 8 * (words + _COLUMNS) > _ROOM:
        return None
    units = np.zeros((len(filling.laid), words), np.int64)
    for n, (item, _, _) in enumerate(filling.laid):
        at, shift, _ = places[item]
        units[n, at] = 1 << shift
    ways = Ways(
        filling.across,
        filling.along,
        _rests(filling.across),
        _rests(filling.along),
        np.zeros((wide, high), np.int64),
        np.zeros((wide, high, keep, _COLUMNS), np.int64),
        np.zeros((wide, high, keep, words), np.int64),
        over,
        guard,
    )
    return Limited(filling, ways, units)


def _rests(points: Whole) -> Whole:
    rests = np.searchsorted(points, points[:, None] - points[None, :], side="right") - 1
    return rests.astype(np.int64)


@compiled
def _enter(ways: Ways, a: int, b: int, way: Whole, counts: Whole) -> None:
    """Keep a way among the best of a rectangle, unless one that takes the same parts is kept."""
    rows, kept, known = ways.rows[a, b], ways.counts[a, b], ways.known[a, b]
    full = rows.shape[0]
    if known == full and way[VALUE] <= rows[full - 1, VALUE]:
        return
    at = known
    while at > 0 and rows[at - 1, VALUE] < way[VALUE]:
        at -= 1
    before = at - 1
    while before >= 0 and rows[before, VALUE] == way[VALUE]:
        same = True
        for word in range(counts.shape[0]):
            same = same and kept[before, word] == counts[word]
        if same:
            return
        before -= 1
    last = known if known < full else full - 1
    for n in range(last, at, -1):
        rows[n] = rows[n - 1]
        kept[n] = kept[n - 1]
    rows[at] = way
    kept[at] = counts
    if known < full:
        ways.known[a, b] = known + 1


@compiled
def _together(ways: Ways, to: tuple[int, int], one: tuple[int, int], other: tuple[int, int], way: Whole) -> None:
    """All ways of two rectangles side by side that take no part too often, as long as they are worth it."""
    a, b = to
    rows, full = ways.rows[a, b], ways.rows.shape[2]
    first, second = ways.rows[one], ways.rows[other]
    counts = np.empty(ways.over.shape[0], np.int64)
    for low in range(ways.known[one]):
        for high in range(ways.known[other]):
            value = first[low, VALUE] + second[high, VALUE]
            if ways.known[a, b] == full and value <= rows[full - 1, VALUE]:
                break
            fits = True
            for word in range(counts.shape[0]):
                counts[word] = ways.counts[one][low, word] + ways.counts[other][high, word]
                fits = fits and (counts[word] + ways.over[word]) & ways.guard[word] == 0
            if fits:
                way[VALUE], way[LOW], way[HIGH] = value, low, high
                _enter(ways, a, b, way, counts)


@compiled
def _take_over(ways: Ways, a: int, b: int, kind: int, way: Whole) -> None:
    """The ways of the next smaller rectangle."""
    from_a, from_b = (a - 1, b) if kind == _NARROWER else (a, b - 1)
    for n in range(ways.known[from_a, from_b]):
        way[VALUE], way[KIND], way[LOW] = ways.rows[from_a, from_b, n, VALUE], kind, n
        _enter(ways, a, b, way, ways.counts[from_a, from_b, n])


@compiled
def _fill_all(ways: Ways, values: Whole, sizes: Whole, units: Whole) -> None:
    ways.known[:] = 0
    across, along, way = ways.across, ways.along, np.zeros(_COLUMNS, np.int64)
    for n in range(values.shape[0]):
        if values[n] > 0:
            a, b = np.searchsorted(across, sizes[n, 0]), np.searchsorted(along, sizes[n, 1])
            if a < across.shape[0] and b < along.shape[0]:
                way[VALUE], way[KIND], way[LOW] = values[n], _PART, n
                _enter(ways, a, b, way, units[n])
    for a in range(1, across.shape[0]):
        for b in range(1, along.shape[0]):
            _take_over(ways, a, b, _NARROWER, way)
            _take_over(ways, a, b, _LOWER, way)
            for cut in range(1, a):
                if 2 * across[cut] > across[a]:
                    break
                way[KIND], way[CUT] = _ACROSS, cut
                _together(ways, (a, b), (cut, b), (ways.rests_across[a, cut], b), way)
            for cut in range(1, b):
                if 2 * along[cut] > along[b]:
                    break
                way[KIND], way[CUT] = _ALONG, cut
                _together(ways, (a, b), (a, cut), (a, ways.rests_along[b, cut]), way)


def fill_limited(limited: Limited, worth: Sequence[int]) -> list[tuple[int, tuple[Placed, ...]]]:
    """Ways to fill the whole piece at these worths, the best first: what each is worth and where the parts lie."""
    filling, ways = limited.filling, limited.ways
    values = np.array([worth[n] for n, _, _ in filling.laid], np.int64)
    _fill_all(ways, values, filling.rounded, limited.units)
    count = int(ways.known[-1, -1])
    return [(int(ways.rows[-1, -1, n, VALUE]), _placed(filling, ways, n)) for n in range(count)]


def _placed(filling: Filling, ways: Ways, way: int) -> tuple[Placed, ...]:
    placed = list[Placed]()
    waiting = [(len(filling.across) - 1, len(filling.along) - 1, way, filling.x, filling.y)]
    while waiting:
        a, b, n, x, y = waiting.pop()
        _, kind, cut, low, high = ways.rows[a, b, n].tolist()
        if kind == _PART:
            item, w, h = filling.laid[low]
            placed.append(Placed(item, x, y, w - filling.kerf, h - filling.kerf))
        elif kind == _NARROWER:
            waiting.append((a - 1, b, low, x, y))
        elif kind == _LOWER:
            waiting.append((a, b - 1, low, x, y))
        elif kind == _ACROSS:
            waiting.append((cut, b, low, x, y))
            waiting.append((int(ways.rests_across[a, cut]), b, high, x + int(filling.across[cut]), y))
        elif kind == _ALONG:
            waiting.append((a, cut, low, x, y))
            waiting.append((a, int(ways.rests_along[b, cut]), high, x, y + int(filling.along[cut])))
    return tuple(placed)
