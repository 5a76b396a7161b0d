"""A few pieces laid exactly: depth first, the longest piece still to be laid first, within what may be lost."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from frontwright.cutting.patterns import Pattern, Real, Whole

_EPS = 1e-6


def exact_cover(
    demand: Whole, copies: Sequence[int | None], patterns: Sequence[Pattern], losses: Real, most: float, steps: int
) -> list[Pattern] | None:
    """Patterns that give exactly what is wanted and lose no more than `most` together; None where none was found.

    `losses`: what each pattern loses against the relaxation (its reduced cost). `steps`: nodes looked at, at most.
    """
    if not patterns:
        return None
    order = np.argsort(losses, kind="stable")
    search = _Cover(
        np.stack([patterns[n].counts for n in order]),
        losses[order],
        [patterns[n].board for n in order],
        list(copies),
        steps,
    )
    found = search.go(demand, most)
    return None if found is None else [patterns[order[n]] for n in found]


class _Cover:
    def __init__(self, rows: Whole, losses: Real, boards: list[int], copies: list[int | None], steps: int) -> None:
        self._rows, self._losses, self._boards, self._copies, self._steps = rows, losses, boards, copies, steps
        self._with = [np.flatnonzero(rows[:, n]) for n in range(rows.shape[1])]
        self._failed: dict[bytes, float] = {}

    def go(self, left: Whole, most: float) -> list[int] | None:
        if not left.any():
            return []
        self._steps -= 1
        key = left.tobytes()
        if self._steps < 0 or self._failed.get(key, -1.0) >= most - _EPS:
            return None
        able = self._with[int(np.flatnonzero(left)[0])]
        able = able[: np.searchsorted(self._losses[able], most + _EPS, side="right")]
        for n in able[(self._rows[able] <= left).all(axis=1)]:
            board = self._boards[n]
            limit = self._copies[board]
            if limit == 0:
                continue
            self._copies[board] = None if limit is None else limit - 1
            rest = self.go(left - self._rows[n], most - float(self._losses[n]))
            self._copies[board] = limit
            if rest is not None:
                return [int(n), *rest]
        if all(limit is None for limit in self._copies):
            self._failed[key] = most
        return None
