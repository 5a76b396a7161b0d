"""Boards and the ways to cut one: what stands behind an order of one dimension, and the search for a pattern.

Every length and every board is made longer by one kerf: then a pattern fits where the sum of its lengths does, and a
part as long as its board still fits.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import gcd

import numpy as np
import numpy.typing as npt

from frontwright.cutting.counting import serves, usable
from frontwright.cutting.values import Layout, Order, Placed

Whole = npt.NDArray[np.int64]
Real = npt.NDArray[np.float64]
TINY = 1e-9
FINE = 60_000  # steps of length at most in which a board is looked at


@dataclass(frozen=True, slots=True)
class Board:
    """Boards of one kind: position in the order's stock, room in lengths, price, copies, lengths that it serves."""

    stock: int
    room: int
    price: float
    copies: int | None
    serves: npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Boards:
    """Lengths wanted (longest first), how many of each, the items behind them, and the boards."""

    lengths: Whole
    demand: Whole
    items: tuple[tuple[int, ...], ...]
    boards: tuple[Board, ...]

    @property
    def longest(self) -> int:
        """The room of the longest board."""
        return max(board.room for board in self.boards)

    @property
    def limited(self) -> bool:
        """Whether the boards may not suffice."""
        return all(board.copies is not None for board in self.boards) or not self.served.all()

    @property
    def served(self) -> npt.NDArray[np.bool_]:
        """Lengths that some board without a limit takes."""
        endless = [b.serves & (self.lengths <= b.room) for b in self.boards if b.copies is None]
        return np.logical_or.reduce(endless) if endless else np.zeros(len(self.lengths), bool)


@dataclass(frozen=True, slots=True)
class Pattern:
    """A board (position in the boards) and how many of each length it gives."""

    board: int
    counts: Whole

    @property
    def key(self) -> tuple[int, bytes]:
        """What tells it from others."""
        return (self.board, self.counts.tobytes())


def boards_of(order: Order) -> Boards:
    """The lengths and boards of an order for which `asking.is_boards` holds. Sizes are divided by what they share."""
    kerf, height = order.saw.kerf, order.wanted[0].height
    stocks = [n for n, s in enumerate(order.stock) if usable(s).height >= height and s.copies != 0]
    kinds: dict[tuple[int, tuple[bool, ...]], list[int]] = {}
    for n, wanted in enumerate(order.wanted):
        takes = tuple(serves(order.stock[s], wanted) for s in stocks)
        kinds.setdefault((wanted.width + kerf, takes), []).append(n)
    rows = sorted(kinds.items(), key=lambda kind: (-kind[0][0], kind[0][1]))
    unit = gcd(*(length for (length, _), _ in rows))
    return Boards(
        np.array([length // unit for (length, _), _ in rows], np.int64),
        np.array([sum(order.wanted[n].copies for n in items) for _, items in rows], np.int64),
        tuple(tuple(n for n in items for _ in range(order.wanted[n].copies)) for _, items in rows),
        tuple(
            Board(
                s,
                (usable(order.stock[s]).width + kerf) // unit,
                1.0 if order.wish == "fewest" else float(order.stock[s].cost),
                order.stock[s].copies,
                np.array([takes[at] for (_, takes), _ in rows], bool),
            )
            for at, s in enumerate(stocks)
        ),
    )


def layouts_of(order: Order, boards: Boards, cut: Sequence[tuple[Pattern, int]]) -> Iterator[Layout]:
    """Layouts of patterns and their numbers; a pattern becomes several where its equal lengths are different items."""
    left = [list(reversed(items)) for items in boards.items]
    for pattern, copies in cut:
        rows = [_taken(left, pattern) for _ in range(copies)]
        for row in dict.fromkeys(rows):
            yield _layout(order, boards.boards[pattern.board].stock, row, rows.count(row))


def _taken(left: list[list[int]], pattern: Pattern) -> tuple[int, ...]:
    return tuple(left[at].pop() for at in np.flatnonzero(pattern.counts) for _ in range(int(pattern.counts[at])))


def _layout(order: Order, stock: int, row: tuple[int, ...], copies: int) -> Layout:
    box = usable(order.stock[stock])
    x, placed = box.x, []
    for item in row:
        wanted = order.wanted[item]
        placed.append(Placed(item, x, box.y, wanted.width, wanted.height))
        x += wanted.width + order.saw.kerf
    return Layout(stock, tuple(placed), copies)


def coarser(boards: Boards, steps: int) -> Boards:
    """The same boards with lengths rounded up to about so many steps of a board: what fits there fits."""
    unit = _unit(boards, steps)
    return _in_units(boards, unit, -(-boards.lengths // unit))


def looser(boards: Boards) -> Boards:
    """The same boards where they are short in units; else with lengths rounded down: what fits, fits there too."""
    unit = _unit(boards, FINE) if boards.longest > 2 * FINE else 1
    return boards if unit == 1 else _in_units(boards, unit, boards.lengths // unit)


def _unit(boards: Boards, steps: int) -> int:
    return max(1, boards.longest // steps)


def _in_units(boards: Boards, unit: int, lengths: Whole) -> Boards:
    kinds = tuple(replace(board, room=board.room // unit) for board in boards.boards)
    return replace(boards, lengths=np.maximum(1, lengths), boards=kinds)


def is_true(boards: Boards, pattern: Pattern) -> bool:
    """Whether a pattern that was found in a looser view fits its board."""
    return int(pattern.counts @ boards.lengths) <= boards.boards[pattern.board].room


# The best pattern of a board


def best_patterns(boards: Boards, at: int, values: Real, limits: Whole, least: float) -> list[Pattern]:
    """Patterns of board `at` worth more than `least`, the best first: a bounded knapsack filled to its room.

    The others are the best that do with the first so many lengths: a run of the search gives several.
    """
    board = boards.boards[at]
    able = np.minimum(limits, board.room // boards.lengths) * (board.serves & (values > TINY))
    chunks = [(int(n), k) for n in np.flatnonzero(able) for k in _chunks(int(able[n]))]
    if not chunks:
        return []
    takes, tops = _filled(boards.lengths, values, chunks, board.room)
    found: dict[bytes, Pattern] = {}
    top = least
    for last, worth in enumerate(tops):
        if worth > top + TINY:
            top = worth
            pattern = Pattern(at, _counts(boards.lengths, chunks[: last + 1], takes, board.room))
            found[pattern.key[1]] = pattern
    return list(found.values())[::-1][:12]


def _chunks(limit: int) -> Iterator[int]:
    """1, 2, 4, ... and a rest, that make every number up to the limit."""
    step = 1
    while limit > 0:
        take = min(step, limit)
        yield take
        limit -= take
        step *= 2


def _filled(
    lengths: Whole, values: Real, chunks: Sequence[tuple[int, int]], room: int
) -> tuple[list[npt.NDArray[np.bool_]], list[float]]:
    """For each chunk where it is taken, room by room, and what a full board is worth with the chunks so far."""
    best = np.zeros(room + 1)
    takes, tops = [], []
    for n, k in chunks:
        shift = k * int(lengths[n])
        with_it = best[:-shift] + k * values[n]
        take = with_it > best[shift:] + TINY
        np.copyto(best[shift:], with_it, where=take)
        takes.append(take)
        tops.append(float(best[room]))
    return takes, tops


def _counts(
    lengths: Whole, chunks: Sequence[tuple[int, int]], takes: Sequence[npt.NDArray[np.bool_]], room: int
) -> Whole:
    counts = np.zeros(len(lengths), np.int64)
    for at in range(len(chunks) - 1, -1, -1):
        n, k = chunks[at]
        shift = k * int(lengths[n])
        if room >= shift and takes[at][room - shift]:
            counts[n] += k
            room -= shift
    return counts


def most_worth(boards: Boards, at: int, values: Whole, limits: Whole) -> int:
    """The most that whole values come to on one board `at`, exactly."""
    board = boards.boards[at]
    able = np.minimum(limits, board.room // boards.lengths) * (board.serves & (values > 0))
    best = np.zeros(board.room + 1, np.int64)
    for n in np.flatnonzero(able):
        for k in _chunks(int(able[n])):
            shift = k * int(boards.lengths[n])
            best[shift:] = np.maximum(best[shift:], best[:-shift] + k * values[n])
    return int(best[board.room])


def all_patterns(boards: Boards, at: int, values: Real, limits: Whole, least: float, most: int) -> list[Pattern] | None:
    """All patterns of board `at` worth at least `least`; None where there are more than `most`, or they are too long.

    What the lengths still to come can add, room by room, cuts off every branch that ends too low.
    """
    board, view = boards.boards[at], looser(boards)
    able = np.minimum(limits, board.room // boards.lengths) * board.serves
    rows, room = [int(n) for n in np.flatnonzero(able)], view.boards[at].room
    if len(rows) * room > 10_000_000:
        return None
    adds = [np.zeros(room + 1)]
    for n in reversed(rows):
        best = adds[-1].copy()
        for k in _chunks(int(able[n])):
            shift = k * int(view.lengths[n])
            if shift > room:
                break
            best[shift:] = np.maximum(best[shift:], best[:-shift] + k * values[n])
        adds.append(best)
    adds.reverse()
    return _listed(boards, at, rows, able, values, adds, least, most)


def _listed(
    boards: Boards, at: int, rows: list[int], able: Whole, values: Real, adds: list[Real], least: float, most: int
) -> list[Pattern] | None:
    found: list[Pattern] = []
    unit = _unit(boards, FINE) if boards.longest > 2 * FINE else 1
    waiting: list[tuple[int, int, float, tuple[int, ...]]] = [(0, boards.boards[at].room, 0.0, ())]
    steps = 0
    while waiting:
        depth, room, worth, counts = waiting.pop()
        steps += 1
        if steps > 100 * most:
            return None
        if depth == len(rows):
            whole = np.zeros(len(boards.lengths), np.int64)
            whole[rows] = counts
            found.append(Pattern(at, whole))
            if len(found) > most:
                return None
            continue
        n = rows[depth]
        length, value = int(boards.lengths[n]), float(values[n])
        for k in range(min(int(able[n]), room // length) + 1):
            rest = room - k * length
            if worth + k * value + adds[depth + 1][rest // unit] >= least - TINY:
                waiting.append((depth + 1, rest, worth + k * value, (*counts, k)))
    return found
