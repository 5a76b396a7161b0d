"""Fewer different layouts at the same boards: fewer settings of the saw's stop.

Two ways, one after the other. Layouts are built that can be cut as often as possible (the longest repeat first, with
no more waste than the boards allow), and the last pieces laid exactly; then three layouts are made two, or two one,
wherever their pieces divide so.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations
from random import Random
from time import monotonic

import numpy as np

from frontwright.cutting.patterns import FINE, Boards, Pattern, Whole, best_patterns

Cut = list[tuple[Pattern, int]]
Finish = Callable[[Whole, int], Cut | None]
Able = Callable[[Whole, int], bool]
_ROUNDS = 200
_LAST = (0.01, 0.05, 0.2, 0.4)  # the share of the pieces that is left to an exact search


def fewer_layouts(boards: Boards, cut: Cut, deadline: float, seed: int, able: Able, finish: Finish) -> Cut:
    """The same pieces out of as many boards of each kind in fewer different layouts, or as they were.

    `able`: whether pieces may still fit on so many boards; `finish`: lays them on so many, or finds no way.
    """
    if len(cut) < 2 or boards.longest > 2 * FINE:
        return cut
    luck = Random(seed)  # noqa: S311 - luck, not secrecy
    best = _merged(boards, cut, deadline)
    if len({p.board for p, _ in cut}) > 1:
        return best
    for number in range(_ROUNDS):
        if monotonic() > deadline:
            break
        built = _built(boards, cut, luck, number, able, finish)
        made = _merged(boards, built, deadline) if built else best
        best = made if len(made) < len(best) else best
    return best


# Layouts that are cut as often as possible


def _built(boards: Boards, cut: Cut, luck: Random, number: int, able: Able, finish: Finish) -> Cut | None:
    """Layouts with long repeats for the same pieces; None where they would need more boards."""
    at, count = cut[0][0].board, sum(n for _, n in cut)
    left = sum((n * p.counts for p, n in cut), np.zeros(len(boards.lengths), np.int64))
    last = int(luck.choice(_LAST) * left.sum())
    waste = count * boards.boards[at].room - int(left @ boards.lengths)
    made: Cut = []
    while int(left.sum()) > last:
        found = _longest_repeat(boards, at, left, count, waste, luck if number else None, able)
        if found is None:
            break
        pattern, repeat = found
        made.append(found)
        left = left - repeat * pattern.counts
        count -= repeat
        waste -= repeat * (boards.boards[at].room - int(pattern.counts @ boards.lengths))
    rest = finish(left, count) if left.any() else []
    return None if rest is None else [*made, *rest]


def _longest_repeat(
    boards: Boards, at: int, left: Whole, count: int, waste: int, luck: Random | None, able: Able
) -> tuple[Pattern, int] | None:
    """The fullest pattern that can be cut most often while its waste keeps to its share and the rest still fits."""
    room, share = boards.boards[at].room, waste / count
    values = boards.lengths.astype(float)
    if luck is not None:
        values = values * np.array([1 + 0.02 * luck.random() for _ in values])
        share *= luck.choice((0.5, 1.0, 1.0, 1.5))
    repeat, refused = min(count, int(left.max())), 0
    while repeat >= 2 and refused < 4:
        found = best_patterns(boards, at, values, left // repeat, 0.0)
        if found and room - int(found[0].counts @ boards.lengths) <= share:
            counts = found[0].counts
            often = min(count, int((left[counts > 0] // counts[counts > 0]).min()))
            if able(left - often * counts, count - often):
                return found[0], often
            refused += 1
        repeat -= 1 if repeat < 12 else max(1, repeat // 10)
    return None


# Three layouts made two, two made one


def _merged(boards: Boards, cut: Cut, deadline: float) -> Cut:
    """Layouts put together as long as some can be; each is tried with all that are tried already."""
    waiting, tried = sorted(cut, key=lambda one: -one[1]), Cut()
    while waiting:
        one = waiting.pop()
        found = None if monotonic() > deadline else _union(boards, one, tried)
        if found is None:
            tried.append(one)
            continue
        with_it, made = found
        tried = [other for n, other in enumerate(tried) if n not in with_it]
        waiting += made
    return tried


def _union(boards: Boards, one: tuple[Pattern, int], others: Cut) -> tuple[tuple[int, ...], Cut] | None:
    for size in (1, 2):
        for where in combinations(range(len(others)), size):
            ones = [one, *(others[n] for n in where)]
            if len({p.board for p, _ in ones}) == 1:
                made = _as_fewer(boards, ones)
                if made is not None:
                    return where, made
    return None


def _as_fewer(boards: Boards, ones: Sequence[tuple[Pattern, int]]) -> Cut | None:
    """The pieces of these layouts in one layout fewer, as many boards; None where they do not divide so."""
    at, count = ones[0][0].board, sum(n for _, n in ones)
    total = sum((n * p.counts for p, n in ones), np.zeros(len(boards.lengths), np.int64))
    rows = np.flatnonzero(total)
    wanted, lengths, room = total[rows], boards.lengths[rows], boards.boards[at].room
    if len(ones) == 2:
        fits = not (wanted % count).any() and int(wanted // count @ lengths) <= room
        return [(Pattern(at, total // count), count)] if fits else None
    for first in range(1, min(count // 2, int(wanted.min())) + 1):  # a lone piece is in one of the two
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
