"""Take parts away at random, put them back by best fit, keep what is no worse than some rounds ago.

After Gardeyn & Wauters 2022 (goal-driven ruin and recreate): the pieces in use may cost no more than a limit below the
best plan known; what does not fit has no place, and the search lowers the worth of what has none. Big leftovers are
worth more than small ones of the same area, so that waste gathers.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from frontwright.cutting.search.compiled import compiled
from frontwright.cutting.search.tree import (
    DEPTH,
    KIND,
    LEFTS,
    LIMIT,
    LOST,
    OPEN_PRICE,
    PARENT,
    ROOT,
    ROUND,
    ROW,
    STACK,
    H,
    Ints,
    Longs,
    Trees,
    W,
    begin_region,
    copy,
    end_region,
    put,
    take_out,
)

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
_UNKNOWN = 1e300
_FEW = 40  # up to so many are sorted by insertion


class Work(NamedTuple):
    """What is to be laid, and from what; parts one by one, pieces one by one, each with its regions free of defects."""

    sizes: Ints  # of each part: width, height
    worth: Floats  # of each part: what it costs to leave it out
    turns: Flags
    allowed: Flags  # part by type of piece
    prices: Longs  # of each type
    pieces_of: Ints  # type t has the pieces pieces_of[t] to pieces_of[t + 1]
    type_of: Ints  # of each piece
    kept: Flags  # of each piece: it stays in use
    regions_of: Ints  # piece p has the regions regions_of[p] to regions_of[p + 1]
    regions: Ints  # of each: width, height, type of its piece, turns of the cut that made it, kind of its first cut
    least: Ints  # nothing narrower, nothing lower is wanted
    levels: int


class Manner(NamedTuple):
    """How the search goes about it; chances are 0 to 1."""

    blink: float  # a place is overlooked
    removed: float  # strips taken out in a round, about
    climb: float  # the strip round a part is taken out with it
    swap: float  # a whole piece is taken out of use
    lean: float  # weight of gathered leftovers
    history: int  # compared with the state so many rounds ago
    rules: Ints  # orders to put back in: 0 area, 1 longer side, 2 width, 3 height, 4 girth, 5 worth, 6 worth an area


@compiled
def sow(seed: int) -> None:
    """Begin the row of chances anew."""
    np.random.seed(seed)


@compiled
def use_piece(trees: Trees, work: Work, piece: int) -> None:
    for r in range(work.regions_of[piece], work.regions_of[piece + 1]):
        row = work.regions[r]
        begin_region(trees, r, row[0], row[1], row[3], row[4])
    trees.in_use[piece] = 1
    trees.state[OPEN_PRICE] += work.prices[work.type_of[piece]]


@compiled
def leave_piece(trees: Trees, work: Work, piece: int) -> None:
    """Take a piece out of use; its parts lose their place."""
    for r in range(work.regions_of[piece], work.regions_of[piece + 1]):
        end_region(trees, r)
    trees.in_use[piece] = 0
    trees.state[OPEN_PRICE] -= work.prices[work.type_of[piece]]


@compiled
def _gathered(width: int, height: int, least: Ints) -> float:
    """What a leftover is worth: its area squared, nothing where no part fits."""
    if width < least[0] or height < least[1]:
        return 0.0
    area = float(width) * float(height)
    return area * area


@compiled
def _place(trees: Trees, work: Work, item: int, blink: float) -> bool:
    """Lay a part where the leftovers lose least; False where it finds no place."""
    nodes, least = trees.nodes, work.least
    best, best_n, best_w, best_h, best_kind = _UNKNOWN, -1, 0, 0, 0
    for seat in range(trees.state[LEFTS]):
        n = trees.lefts[seat]
        full_w, full_h, depth = nodes[n, W], nodes[n, H], nodes[n, DEPTH]
        parent = nodes[n, PARENT]
        parent_kind = nodes[parent, KIND] if parent >= 0 else 0
        for turned in range(2 if work.turns[item] else 1):
            w, h = work.sizes[item, turned], work.sizes[item, 1 - turned]
            if w > full_w or h > full_h or not work.allowed[item, work.regions[nodes[n, ROOT], 2]]:
                continue
            if blink > 0.0 and np.random.random() < blink:
                continue
            before = _gathered(full_w, full_h, least)
            exact = w == full_w and h == full_h
            for kind in (ROW, STACK):
                if not exact and ((kind == ROW and w == full_w) or (kind == STACK and h == full_h)):
                    continue
                if depth + (0 if exact or parent_kind == kind else 1) > work.levels:
                    continue
                if kind == ROW:
                    after = _gathered(full_w - w, full_h, least) + _gathered(w, full_h - h, least)
                else:
                    after = _gathered(full_w, full_h - h, least) + _gathered(full_w - w, h, least)
                if before - after < best:
                    best, best_n, best_w, best_h, best_kind = before - after, n, w, h, kind
    if best_n < 0:
        return False
    put(trees, best_n, item, best_w, best_h, best_kind)
    return True


@compiled
def _fits_piece(work: Work, item: int, piece: int) -> bool:
    w, h = work.sizes[item, 0], work.sizes[item, 1]
    for r in range(work.regions_of[piece], work.regions_of[piece + 1]):
        region_w, region_h = work.regions[r, 0], work.regions[r, 1]
        if (w <= region_w and h <= region_h) or (work.turns[item] and h <= region_w and w <= region_h):
            return True
    return False


@compiled
def _new_piece(trees: Trees, work: Work, item: int) -> int:
    """A piece of any type that the part fits and the limit allows, -1 where there is none."""
    seen, found = 0, -1
    for t in range(work.prices.shape[0]):
        if trees.state[OPEN_PRICE] + work.prices[t] > trees.state[LIMIT] or not work.allowed[item, t]:
            continue
        for piece in range(work.pieces_of[t], work.pieces_of[t + 1]):
            if trees.in_use[piece] == 0:
                if _fits_piece(work, item, piece):
                    seen += 1
                    if np.random.randint(seen) == 0:
                        found = piece
                break
    return found


@compiled
def _sort_lost(trees: Trees, work: Work, manner: Manner, keys: Floats) -> None:
    """Put the parts without a place in the order in which they are to be laid, the first most pressing."""
    lost, count = trees.lost, trees.state[LOST]
    rule = manner.rules[np.random.randint(manner.rules.shape[0])]
    noise = 0.0 if np.random.random() < 0.5 else 0.4 * np.random.random()
    for j in range(count):
        w, h = float(work.sizes[lost[j], 0]), float(work.sizes[lost[j], 1])
        if rule == 0:
            key = w * h
        elif rule == 1:
            key = max(w, h)
        elif rule == 2:
            key = w
        elif rule == 3:
            key = h
        elif rule == 4:
            key = w + h
        elif rule == 5:
            key = work.worth[lost[j]]
        else:
            key = work.worth[lost[j]] / (w * h)
        keys[j] = key * (1.0 + noise * (np.random.random() - 0.5))
    if count > _FEW:
        order = np.argsort(-keys[:count])
        lost[:count] = lost[:count][order]
        return
    for a in range(1, count):
        key, item, b = keys[a], lost[a], a - 1
        while b >= 0 and keys[b] < key:
            keys[b + 1], lost[b + 1] = keys[b], lost[b]
            b -= 1
        keys[b + 1], lost[b + 1] = key, item


@compiled
def put_back(trees: Trees, work: Work, manner: Manner, keys: Floats) -> None:
    """Lay all parts that have no place, as far as they find one; new pieces are taken as the limit allows."""
    lost, count, rest = trees.lost, trees.state[LOST], 0
    _sort_lost(trees, work, manner, keys)
    for j in range(count):
        item = lost[j]
        if _place(trees, work, item, manner.blink):
            continue
        piece = _new_piece(trees, work, item)
        if piece >= 0:
            use_piece(trees, work, piece)
            if _place(trees, work, item, 0.0):
                continue
        lost[rest] = item
        rest += 1
    trees.state[LOST] = rest


@compiled
def _leave_any(trees: Trees, work: Work) -> None:
    seen, found = 0, -1
    for piece in range(trees.in_use.shape[0]):
        if trees.in_use[piece] and not work.kept[piece]:
            seen += 1
            if np.random.randint(seen) == 0:
                found = piece
    if found >= 0:
        leave_piece(trees, work, found)


@compiled
def _take_away(trees: Trees, work: Work, manner: Manner) -> None:
    """Take strips out at random, half of the time from two pieces only."""
    parts, nodes = trees.where.shape[0], trees.nodes
    if np.random.random() < manner.swap:
        _leave_any(trees, work)
    one = two = -1
    if np.random.random() < 0.5:
        first, second = trees.where[np.random.randint(parts)], trees.where[np.random.randint(parts)]
        if first >= 0 and second >= 0:
            one, two = nodes[first, ROOT], nodes[second, ROOT]
    for _ in range(1 + int(-manner.removed * np.log(1.0 - np.random.random()))):
        for _ in range(30):
            n = trees.where[np.random.randint(parts)]
            if n < 0 or (one >= 0 and nodes[n, ROOT] != one and nodes[n, ROOT] != two):
                continue
            while nodes[n, PARENT] >= 0 and nodes[nodes[n, PARENT], PARENT] >= 0:
                if np.random.random() >= manner.climb:
                    break
                n = nodes[n, PARENT]
            take_out(trees, n)
            break


@compiled
def left_out(trees: Trees, work: Work) -> float:
    """Worth of the parts without a place."""
    total = 0.0
    for j in range(trees.state[LOST]):
        total += work.worth[trees.lost[j]]
    return total


@compiled
def _standing(trees: Trees, work: Work, lean: float) -> float:
    gathered = 0.0
    for seat in range(trees.state[LEFTS]):
        n = trees.lefts[seat]
        gathered += _gathered(trees.nodes[n, W], trees.nodes[n, H], work.least)
    return left_out(trees, work) - lean * gathered


@compiled
def rounds(trees: Trees, spare: Trees, best: Trees, work: Work, manner: Manner, history: Floats, count: int) -> int:
    """Up to so many rounds, fewer where every part finds a place; how many there were.

    `trees` is where the search stands, `spare` room for one copy, `best` the trees that leave out least so far, and
    `history` the standing of earlier rounds (begun anew where it holds nothing).
    """
    keys = np.zeros(trees.where.shape[0])
    now = _standing(trees, work, manner.lean)
    least = left_out(best, work)
    if history[0] == _UNKNOWN:
        history[:] = now
    copy(trees, spare)
    for done in range(count):
        _take_away(trees, work, manner)
        put_back(trees, work, manner, keys)
        new = _standing(trees, work, manner.lean)
        at = (spare.state[ROUND]) % history.shape[0]
        if new <= now or new < history[at] or trees.state[LOST] == 0:
            now = new
            trees.state[ROUND] = spare.state[ROUND] + 1
            out = left_out(trees, work)
            if out < least:
                least = out
                copy(trees, best)
            if trees.state[LOST] == 0:
                return done + 1
            copy(trees, spare)
        else:
            spare.state[ROUND] += 1
            copy(spare, trees)
        history[at] = min(history[at], now)
    return count


@compiled
def emptiest(trees: Trees, work: Work) -> int:
    """The piece in use, of those that need not stay, that has the smallest share of it laid; -1 for none."""
    laid = np.zeros(trees.in_use.shape[0])
    whole = np.zeros(trees.in_use.shape[0])
    owner = np.zeros(work.regions.shape[0], np.int64)
    for piece in range(trees.in_use.shape[0]):
        for r in range(work.regions_of[piece], work.regions_of[piece + 1]):
            owner[r] = piece
            whole[piece] += float(work.regions[r, 0]) * float(work.regions[r, 1])
    for item in range(trees.where.shape[0]):
        n = trees.where[item]
        if n >= 0:
            laid[owner[trees.nodes[n, ROOT]]] += float(work.sizes[item, 0]) * float(work.sizes[item, 1])
    found, share = -1, 2.0
    for piece in range(trees.in_use.shape[0]):
        if trees.in_use[piece] and not work.kept[piece] and laid[piece] / whole[piece] < share:
            found, share = piece, laid[piece] / whole[piece]
    return found
