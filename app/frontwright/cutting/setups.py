"""Fewer different layouts at the same boards: fewer settings of the saw's stop.

Two ways, one after the other. Layouts are built that can be cut as often as possible (the longest repeat first, with
no more waste than the boards allow); then three layouts are made two, or two one, wherever their pieces divide so.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations
from random import Random
from time import monotonic

import numpy as np

from frontwright.cutting.patterns import Boards, Pattern, Whole, best_patterns

Cut = list[tuple[Pattern, int]]
_ROUNDS = 200


def fewer_layouts(boards: Boards, cut: Cut, deadline: float, seed: int) -> Cut:
    """The same pieces out of as many boards of each kind in fewer different layouts, or as they were."""
    if len(cut) < 2:
        return cut
    luck = Random(seed)  # noqa: S311 - luck, not secrecy
    best = _merged(boards, cut, deadline)
    if len({p.board for p, _ in cut}) > 1:
        return best
    for number in range(_ROUNDS):
        if monotonic() > deadline:
            break
        built = _built(boards, cut, luck, number)
        if built is not None and len(built) < len(best) + 3:
            made = _merged(boards, built, deadline)
            best = made if len(made) < len(best) else best
    return best


# Layouts that are cut as often as possible


def _built(boards: Boards, cut: Cut, luck: Random, number: int) -> Cut | None:
    """Layouts with long repeats for the same pieces; None where they would need more boards."""
    at, count = cut[0][0].board, sum(n for _, n in cut)
    room = boards.boards[at].room
    left = sum((n * p.counts for p, n in cut), np.zeros(len(boards.lengths), np.int64))
    waste = count * room - int(left @ boards.lengths)
    made: Cut = []
    while left.any():
        if count == 0:
            return None
        found = _longest_repeat(boards, at, left, count, waste, luck if number else None)
        if found is None:
            return None
        pattern, repeat = found
        made.append(found)
        left = left - repeat * pattern.counts
        count -= repeat
        waste -= repeat * (room - int(pattern.counts @ boards.lengths))
        if waste < 0:
            return None
    return made


def _longest_repeat(
    boards: Boards, at: int, left: Whole, count: int, waste: int, luck: Random | None
) -> tuple[Pattern, int] | None:
    """The fullest pattern that can be cut most often while its waste keeps to its share of what may be wasted."""
    room, share = boards.boards[at].room, waste / count
    values = boards.lengths.astype(float)
    if luck is not None:
        values = values * np.array([1 + 0.02 * luck.random() for _ in values])
        share *= luck.choice((0.5, 1.0, 1.0, 1.5))
    repeat = min(count, int(left.max()))
    while repeat >= 1:
        limits = left // repeat
        found = best_patterns(boards, at, values, limits, 0.0)
        if found:
            spare = room - int(found[0].counts @ boards.lengths)
            if spare <= share or repeat == 1:
                fits = left[found[0].counts > 0] // found[0].counts[found[0].counts > 0]
                return found[0], min(count, int(fits.min()))
        repeat -= 1 if repeat < 12 else max(1, repeat // 10)
    return None


# Three layouts made two, two made one


def _merged(boards: Boards, cut: Cut, deadline: float) -> Cut:
    """Layouts put together as long as some can be."""
    while monotonic() < deadline:
        for size in (2, 3):
            found = next(_unions(boards, cut, size, deadline), None)
            if found is not None:
                break
        else:
            return cut
        where, made = found
        cut = [one for n, one in enumerate(cut) if n not in where] + made
    return cut


def _unions(boards: Boards, cut: Cut, size: int, deadline: float) -> Iterator[tuple[tuple[int, ...], Cut]]:
    for where in combinations(range(len(cut)), size):
        ones = [cut[n] for n in where]
        if len({p.board for p, _ in ones}) == 1:
            made = _as_fewer(boards, ones)
            if made is not None:
                yield where, made
        if monotonic() > deadline:
            return


def _as_fewer(boards: Boards, ones: Sequence[tuple[Pattern, int]]) -> Cut | None:
    """The pieces of these layouts in one layout fewer, as many boards; None where they do not divide so."""
    at, count = ones[0][0].board, sum(n for _, n in ones)
    total = sum((n * p.counts for p, n in ones), np.zeros(len(boards.lengths), np.int64))
    rows = np.flatnonzero(total)
    wanted, lengths, room = total[rows], boards.lengths[rows], boards.boards[at].room
    if len(ones) == 2:
        fits = not (wanted % count).any() and int(wanted // count @ lengths) <= room
        return [(Pattern(at, total // count), count)] if fits else None
    for first in range(1, count // 2 + 1):
        halves = _halves([int(w) for w in wanted], [int(x) for x in lengths], first, count - first, room)
        if halves is not None:
            made = np.zeros((2, len(total)), np.int64)
            made[:, rows] = halves
            return [(Pattern(at, made[0]), first), (Pattern(at, made[1]), count - first)]
    return None


def _halves(
    wanted: Sequence[int], lengths: Sequence[int], first: int, second: int, room: int
) -> tuple[list[int], list[int]] | None:
    """Counts a and b of each length with first * a + second * b as wanted, and both within the room."""
    choices = []
    for w in wanted:
        able = [(a, (w - first * a) // second) for a in range(w // first + 1) if (w - first * a) % second == 0]
        if not able:
            return None
        choices.append(able)
    whole = sum(w * x for w, x in zip(wanted, lengths, strict=True))
    least = -(-(whole - second * room) // first)  # shorter, and the second would be over its room
    mask = (1 << (room + 1)) - 1
    reach = [1]
    for able, length in zip(choices, lengths, strict=True):
        step = 0
        for a, _ in able:
            step |= reach[-1] << (a * length)
        if not step & mask:
            return None
        reach.append(step & mask)
    good = reach[-1] >> max(0, least)
    if not good:
        return None
    at = max(0, least) + (good & -good).bit_length() - 1
    return _traced(choices, lengths, reach, at)


def _traced(
    choices: Sequence[Sequence[tuple[int, int]]], lengths: Sequence[int], reach: Sequence[int], at: int
) -> tuple[list[int], list[int]]:
    firsts, seconds = list[int](), list[int]()
    for n in range(len(choices) - 1, -1, -1):
        a, b = next((a, b) for a, b in choices[n] if at >= a * lengths[n] and reach[n] >> (at - a * lengths[n]) & 1)
        firsts.append(a)
        seconds.append(b)
        at -= a * lengths[n]
    return firsts[::-1], seconds[::-1]
