"""Joining rectangles that match, in machine code: two of one height side by side, two of one width one on the other.

A block is the parts it holds (counts packed into whole numbers), its size, and the two blocks it was joined from.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from frontwright.cutting.search.compiled import compiled

Whole = NDArray[np.int64]
_BITS = 62  # of a whole number that counts are packed into
_ROOM = 48_000_000  # bytes that blocks may take
# columns of a block. LOW is -1 for a single part, HIGH its kind; WHOLE_H, WHOLE_W: it may be added to a row, to a
# stack, because it is none itself; LAST: the child added last; SAME_..., ADD_...: the one before it of that height or
# width, of all and of those that may be added; AFTER: the next that waits of as many parts
W, H, LOW, HIGH, ACROSS, WHOLE_H, WHOLE_W, LAST, SAME_H, SAME_W, ADD_H, ADD_W, PARTS, AFTER = range(14)
_COLUMNS = 14
COUNT, TURN, WAITING = range(3)  # blocks there are, of how many parts was the last looked at, blocks that wait
_SPREAD = 0x9E3779B97F4A7C1


class Blocks(NamedTuple):
    """All blocks found, with the tables that find those of one height, of one width, and those known already."""

    rows: Whole
    counts: Whole  # of each block: how many of each kind of part
    over: Whole  # added to counts, it sets a guard bit where there are more of a part than wanted
    guard: Whole
    rooms: Whole  # width and height of the pieces
    of_height: Whole
    of_width: Whole
    add_height: Whole
    add_width: Whole
    known: Whole
    first: Whole  # of so many parts, the first and the last block that waits to be held against the others
    last: Whole
    state: Whole


def places_of(copies: Sequence[int]) -> tuple[int, list[tuple[int, int, int]], Whole, Whole]:
    """How counts of up to so many copies are packed: words, of each part its word, shift and bits, and two masks.

    Counts of two added to the first mask set a bit of the second where they are together more than the copies.
    """
    places, word, bit = list[tuple[int, int, int]](), 0, 0
    for n in copies:
        bits = n.bit_length() + 1
        if bit + bits > _BITS:
            word, bit = word + 1, 0
        places.append((word, bit, bits))
        bit += bits
    words = word + 1
    over, guard = np.zeros(words, np.int64), np.zeros(words, np.int64)
    for (at, shift, bits), n in zip(places, copies, strict=True):
        over[at] += ((1 << (bits - 1)) - 1 - n) << shift
        guard[at] += 1 << (bits - 1 + shift)
    return words, places, over, guard


def blocks_for(
    singles: list[tuple[int, int, int]], copies: list[int], rooms: list[tuple[int, int]], most: int
) -> Blocks:
    """Single parts as the first blocks: width, height and kind of each way to lie; room for so many blocks at most."""
    words, places, over, guard = places_of(copies)
    room = max(len(singles) + 1, min(most, _ROOM // (8 * (words + _COLUMNS + 4))))
    table = 1 << (2 * room).bit_length()
    made = Blocks(
        np.zeros((room, _COLUMNS), np.int64),
        np.zeros((room, words), np.int64),
        over,
        guard,
        np.array(rooms, np.int64).reshape(len(rooms), 2),
        _none(table // 2),
        _none(table // 2),
        _none(table // 2),
        _none(table // 2),
        _none(table),
        _none(sum(copies) + 1),
        _none(sum(copies) + 1),
        np.zeros(3, np.int64),
    )
    for width, height, kind in singles:
        at, shift, _ = places[kind]
        counts = np.zeros(words, np.int64)
        counts[at] = 1 << shift
        if _fits(made.rooms, width, height):
            _take(made, width, height, counts, -1, kind, 0)
    return made


def _none(length: int) -> Whole:
    return -np.ones(length, np.int64)


@compiled
def _spot(table: Whole, value: int) -> int:
    spot: int = (value * _SPREAD >> 20) & (table.shape[0] - 1)
    return spot


@compiled
def _fits(rooms: Whole, width: int, height: int) -> bool:
    fits = False
    for room in range(rooms.shape[0]):
        fits = fits or (width <= rooms[room, 0] and height <= rooms[room, 1])
    return fits


@compiled
def _take(blocks: Blocks, width: int, height: int, counts: Whole, low: int, high: int, across: int) -> bool:
    """Keep a block that is not known yet."""
    rows, known, count = blocks.rows, blocks.known, blocks.state[COUNT]
    mixed = width * 31 + height
    for word in range(counts.shape[0]):
        mixed = (mixed ^ counts[word]) * _SPREAD
        mixed ^= mixed >> 29
    at = _spot(known, mixed)
    while known[at] >= 0:
        other = known[at]
        if rows[other, W] == width and rows[other, H] == height and (blocks.counts[other] == counts).all():
            if low >= 0:
                rows[other, WHOLE_W if across else WHOLE_H] = 1
            return False
        at = (at + 1) & (known.shape[0] - 1)
    known[at] = count
    rows[count, W], rows[count, H], rows[count, LOW] = width, height, low
    rows[count, HIGH], rows[count, ACROSS] = high, across
    rows[count, WHOLE_H] = 1 if low < 0 or across == 0 else 0
    rows[count, WHOLE_W] = 1 if low < 0 or across == 1 else 0
    rows[count, LAST] = high if low >= 0 else count
    parts = rows[low, PARTS] + rows[high, PARTS] if low >= 0 else 1
    rows[count, PARTS], rows[count, AFTER] = parts, -1
    if blocks.first[parts] < 0:
        blocks.first[parts] = count
    else:
        rows[blocks.last[parts], AFTER] = count
    blocks.last[parts] = count
    blocks.counts[count] = counts
    blocks.state[COUNT] = count + 1
    blocks.state[WAITING] += 1
    return True


@compiled
def _both(blocks: Blocks, one: int, other: int, counts: Whole) -> bool:
    """The counts of two blocks together; False where that is more of a part than is wanted."""
    for word in range(counts.shape[0]):
        counts[word] = blocks.counts[one, word] + blocks.counts[other, word]
        if (counts[word] + blocks.over[word]) & blocks.guard[word]:
            return False
    return True


@compiled
def _next(blocks: Blocks) -> int:
    """A block that waits: of more parts than the last one, round and round."""
    parts = blocks.state[TURN]
    while True:
        parts = parts + 1 if parts + 1 < blocks.first.shape[0] else 1
        one = blocks.first[parts]
        if one >= 0:
            blocks.first[parts] = blocks.rows[one, AFTER]
            blocks.state[TURN] = parts
            blocks.state[WAITING] -= 1
            return int(one)


@compiled
def _in_turn(rows: Whole, one: int, other: int, whole: int) -> bool:
    """Whether two of one height make a row whose children are added in one order only, so that each is made once."""
    if rows[other, whole] and (rows[one, whole] or other >= rows[one, LAST]):
        return True
    return bool(rows[one, whole] and one >= rows[other, LAST])


@compiled
def _join(blocks: Blocks, one: int, side: int, counts: Whole) -> int:
    """Join a block with all before it of its height (or width) that it may stand beside; pairs looked at."""
    rows, looks, whole = blocks.rows, 1, WHOLE_H if side == H else WHOLE_W
    table, link = (blocks.of_height, SAME_H) if side == H else (blocks.of_width, SAME_W)
    added, added_link = (blocks.add_height, ADD_H) if side == H else (blocks.add_width, ADD_W)
    spot = _spot(table, rows[one, side])
    rows[one, link], table[spot] = table[spot], one
    if rows[one, whole]:
        rows[one, added_link], added[spot] = added[spot], one
    else:
        table, link = added, added_link
    other = table[spot]
    while other >= 0 and blocks.state[COUNT] < rows.shape[0]:
        looks += 1
        if rows[other, side] == rows[one, side] and _in_turn(rows, one, other, whole):
            width = rows[one, W] + (rows[other, W] if side == H else 0)
            height = rows[one, H] + (rows[other, H] if side == W else 0)
            if _fits(blocks.rooms, width, height) and _both(blocks, one, other, counts):
                low, high = (one, other) if rows[other, whole] and other >= rows[one, LAST] else (other, one)
                _take(blocks, width, height, counts, low, high, 1 if side == H else 0)
        other = rows[other, link]
    return looks


@compiled
def grow(blocks: Blocks, looks: int) -> bool:
    """Join blocks until so many pairs have been looked at; whether there are more to be joined and room for them."""
    counts = np.zeros(blocks.counts.shape[1], np.int64)
    while looks > 0 and blocks.state[WAITING] and blocks.state[COUNT] < blocks.rows.shape[0]:
        one = _next(blocks)
        looks -= _join(blocks, one, H, counts) + _join(blocks, one, W, counts)
    return bool(blocks.state[WAITING] > 0 and blocks.state[COUNT] < blocks.rows.shape[0])
