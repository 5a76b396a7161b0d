"""Waste of boards brought together on one: the most useful leftover at the same boards."""

from __future__ import annotations

import numpy as np

from frontwright.cutting.patterns import Boards, Pattern, Whole

Cut = list[tuple[Pattern, int]]
_TRIED = 8  # boards of the most waste that are tried
_MOST = 400  # boards from where on one leftover more or less is nothing


def gathered(boards: Boards, cut: Cut) -> Cut:
    """The same pieces on the same boards with as long a rest as may be on one of them.

    Pieces of that board go over to boards that have room for them, or change places with shorter ones.
    """
    kinds = [p.board for p, n in cut for _ in range(n)]
    if not 1 < len(kinds) <= _MOST:
        return cut
    rows = np.stack([p.counts for p, n in cut for _ in range(n)])
    rests = np.array([boards.boards[k].room for k in kinds]) - rows @ boards.lengths
    best, longest = cut, int(rests.max())
    for one in np.argsort(-rests, kind="stable")[:_TRIED]:
        made = _emptied(boards, kinds, rows.copy(), rests.copy(), int(one))
        rest = boards.boards[kinds[one]].room - int(made[one] @ boards.lengths)
        if rest > longest:
            longest = rest
            best = [(Pattern(kind, row), 1) for kind, row in zip(kinds, made, strict=True) if row.any()]
    return best


def _emptied(boards: Boards, kinds: list[int], rows: Whole, rests: Whole, one: int) -> Whole:
    """The rows with board `one` emptied step by step, each step the one that frees most."""
    able = np.stack([boards.boards[kind].serves for kind in kinds])
    while True:
        step = _best_step(boards, able, rows, rests, one)
        if step is None:
            return rows
        other, gives, takes = step
        freed = int(boards.lengths[gives]) - (int(boards.lengths[takes]) if takes is not None else 0)
        for board, sign in ((one, -1), (other, 1)):
            rows[board, gives] += sign
            if takes is not None:
                rows[board, takes] -= sign
        rests[one] += freed
        rests[other] -= freed


def _best_step(
    boards: Boards, able: np.ndarray[tuple[int, int], np.dtype[np.bool_]], rows: Whole, rests: Whole, one: int
) -> tuple[int, int, int | None] | None:
    """The board, the length given to it and the length taken back (None: none) that free the most on board `one`."""
    best: tuple[int, int, int | None] | None = None
    freed = 0
    for gives in np.flatnonzero(rows[one]):
        length = int(boards.lengths[gives])
        for other in np.flatnonzero(able[:, gives] & (rests > 0)):
            if other == one:
                continue
            if length <= rests[other] and length > freed:
                best, freed = (int(other), int(gives), None), length
            for takes in np.flatnonzero(rows[other] * able[one]):
                gain = length - int(boards.lengths[takes])
                if freed < gain <= rests[other]:
                    best, freed = (int(other), int(gives), int(takes)), gain
    return best
