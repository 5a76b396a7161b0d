"""Patterns chosen by linear and integer programs: the relaxation by column generation, and an exact cover."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from math import ceil
from time import monotonic

import highspy
import numpy as np

from frontwright.cutting import programs
from frontwright.cutting.patterns import (
    Boards,
    Pattern,
    Real,
    Whole,
    best_patterns,
    coarser,
    is_true,
    looser,
    most_worth,
)

_SCALE = 10**7  # duals as whole numbers for an exact bound
_EPS = 1e-6
_COARSE = 3_000  # steps of length that a long board is seen in at first


@dataclass(slots=True)
class Pool:
    """Patterns met so far, each once."""

    patterns: list[Pattern] = field(default_factory=list)
    known: set[tuple[int, bytes]] = field(default_factory=set)

    def add(self, found: Iterable[Pattern]) -> int:
        """Put patterns in; gives how many were new."""
        fresh = 0
        for pattern in found:
            if pattern.key not in self.known:
                self.known.add(pattern.key)
                self.patterns.append(pattern)
                fresh += 1
        return fresh

    def within(self, demand: Whole, copies: Sequence[int | None]) -> list[Pattern]:
        """The patterns that give no more of a length than is wanted, on boards that are left."""
        if not self.patterns:
            return []
        fit = (np.stack([p.counts for p in self.patterns]) <= demand).all(axis=1)
        return [p for p, able in zip(self.patterns, fit, strict=True) if able and copies[p.board] != 0]


@dataclass(frozen=True, slots=True)
class Relaxed:
    """The relaxation's value, how much of each pattern it cuts, what a length is worth, what a board's limit costs."""

    value: float
    amounts: tuple[tuple[Pattern, float], ...]
    worths: Real
    limits: Real
    missing: float


def relax(
    boards: Boards, demand: Whole, copies: Sequence[int | None], pool: Pool, penalty: float, deadline: float
) -> Relaxed | None:
    """The least price of boards where fractions of patterns may be cut. `penalty`: price of a unit of missing length.

    None where the deadline came first.
    """
    pool.add(_single(boards, demand))
    program = _Program(boards, demand, copies, penalty)
    program.put(pool.within(demand, copies))
    long = boards.longest > 2 * _COARSE  # each look for a pattern takes its time
    views = [coarser(boards, _COARSE), looser(boards)] if long else [boards]
    while monotonic() < deadline:
        told = program.solve()
        found = [
            pattern
            for at, board in enumerate(boards.boards)
            if copies[at] != 0
            for pattern in best_patterns(views[0], at, told.worths, demand, board.price - told.limits[at] + _EPS)
        ]
        fresh = [pattern for pattern in found if not program.has(pattern) and is_true(boards, pattern)]
        safe = _safe(boards, copies, told, found)
        near = long and safe is not None and ceil(safe.value - _EPS) == ceil(told.value - _EPS)
        if not fresh or near:
            if len(views) == 1:
                return safe or told
            views.pop(0)  # the coarse view shows nothing more: look exactly
        pool.add(fresh)
        program.put(fresh)
    return None


def _safe(boards: Boards, copies: Sequence[int | None], told: Relaxed, found: Sequence[Pattern]) -> Relaxed | None:
    """The relaxation with worths that no pattern exceeds, where boards are endless and of one price (Farley)."""
    price = boards.boards[0].price
    if any(limit is not None for limit in copies) or any(board.price != price for board in boards.boards):
        return None
    over = max((float(told.worths @ pattern.counts) for pattern in found), default=price) / price
    return told if over <= 1 else replace(told, value=told.value / over, worths=told.worths / over)


def exact_bound(boards: Boards, relaxed: Relaxed) -> int:
    """A bound that no rounding in the relaxation can have made too high, where boards of one price are endless.

    Whole values for the lengths, the most a board can be worth of them, and the board's price over that (Farley).
    """
    values = np.maximum(0, np.floor(relaxed.worths * _SCALE)).astype(np.int64)
    view = looser(boards)
    worth = max(most_worth(view, at, values, boards.demand) for at in range(len(boards.boards)))
    total = int(values @ boards.demand)
    return -(-total * int(boards.boards[0].price) // worth) if worth else 0


def bound_of(boards: Boards, relaxed: Relaxed) -> int:
    """The fewest boards, or the least price, that the relaxation leaves."""
    if len({board.price for board in boards.boards}) == 1 and not boards.limited:
        return exact_bound(boards, relaxed)
    if looser(boards) is not boards:
        return 0  # the relaxation is not exact where lengths are rounded
    return ceil(relaxed.value - relaxed.missing - 1e-5 * max(1.0, abs(relaxed.value)))


def cover(
    boards: Boards,
    demand: Whole,
    copies: Sequence[int | None],
    patterns: Sequence[Pattern],
    seconds: float,
    seed: int,
    most: float | None = None,
    nodes: int = 20_000,
) -> list[tuple[Pattern, int]] | None:
    """Whole numbers of these patterns that give exactly what is wanted at the least price; None where none is found.

    `most`: what they may come to together: then the first such choice serves.
    """
    if seconds <= 0 or not patterns:
        return None
    program = programs.program(random_seed=seed, time_limit=seconds, mip_max_nodes=nodes)
    _rows(program, demand, copies, exact=most is not None, most=most)
    for pattern in patterns:
        price = 0.0 if most is not None else boards.boards[pattern.board].price
        _column(program, boards, pattern, price, boards.boards[pattern.board].price if most is not None else None)
    count = len(patterns)
    program.changeColsIntegrality(
        count, np.arange(count, dtype=np.int32), np.full(count, highspy.HighsVarType.kInteger)
    )
    program.run()
    if program.getInfo().primal_solution_status != 2:
        return None
    chosen = [round(x) for x in program.getSolution().col_value]
    return trimmed(demand, [(p, n) for p, n in zip(patterns, chosen, strict=True) if n > 0])


def trimmed(demand: Whole, cut: Sequence[tuple[Pattern, int]]) -> list[tuple[Pattern, int]]:
    """Patterns of which nothing is cut that is not wanted: too many of a length are left off the last ones."""
    left, kept = demand.copy(), dict[tuple[int, bytes], tuple[Pattern, int]]()
    for pattern, copies in cut:
        for _ in range(copies):
            counts = np.minimum(pattern.counts, left)
            left -= counts
            one = Pattern(pattern.board, counts)
            kept[one.key] = (one, kept.get(one.key, (one, 0))[1] + 1)
    return [(one, n) for one, n in kept.values() if one.counts.any()]


def _single(boards: Boards, demand: Whole) -> list[Pattern]:
    """One pattern a length: as many as a board takes."""
    made = []
    for at, board in enumerate(boards.boards):
        for n in np.flatnonzero(demand):
            count = min(int(demand[n]), board.room // int(boards.lengths[n]))
            if count and board.serves[n]:
                counts = np.zeros(len(demand), np.int64)
                counts[n] = count
                made.append(Pattern(at, counts))
    return made


class _Program:
    """The relaxation as HiGHS holds it: a row a length, a row a limited board, columns as they are found."""

    def __init__(self, boards: Boards, demand: Whole, copies: Sequence[int | None], penalty: float) -> None:
        self._boards, self._patterns = boards, list[Pattern]()
        self._keys = set[tuple[int, bytes]]()
        self._program = programs.program(solver="simplex")
        _rows(self._program, demand, copies)
        self._rows = len(demand)
        for n in range(self._rows):
            price = penalty * float(boards.lengths[n])
            self._program.addCol(price, 0, highspy.kHighsInf, 1, np.array([n], np.int32), np.array([1.0]))

    def has(self, pattern: Pattern) -> bool:
        return pattern.key in self._keys

    def put(self, patterns: Iterable[Pattern]) -> None:
        for pattern in patterns:
            self._patterns.append(pattern)
            self._keys.add(pattern.key)
            _column(self._program, self._boards, pattern, self._boards.boards[pattern.board].price)

    def solve(self) -> Relaxed:
        self._program.run()
        told = self._program.getSolution()
        values, duals = np.array(told.col_value), np.array(told.row_dual)
        missing = float(values[: self._rows] @ np.array(self._program.getLp().col_cost_)[: self._rows])
        amounts = values[self._rows :]
        kept = tuple((self._patterns[n], float(amounts[n])) for n in np.flatnonzero(amounts > _EPS))
        value = float(self._program.getInfo().objective_function_value)
        return Relaxed(
            value, kept, duals[: self._rows], duals[self._rows : self._rows + len(self._boards.boards)], missing
        )


def _rows(
    program: highspy.Highs,
    demand: Whole,
    copies: Sequence[int | None],
    exact: bool = False,
    most: float | None = None,
) -> None:
    none = (0, np.array([], np.int32), np.array([], np.float64))
    for count in demand:
        program.addRow(float(count), float(count) if exact else highspy.kHighsInf, *none)
    for limit in copies:
        program.addRow(0.0, highspy.kHighsInf if limit is None else float(limit), *none)
    if most is not None:
        program.addRow(0.0, most + _EPS, *none)


def _column(program: highspy.Highs, boards: Boards, pattern: Pattern, price: float, spent: float | None = None) -> None:
    rows = np.flatnonzero(pattern.counts)
    ends = [len(boards.lengths) + pattern.board]
    values = [*pattern.counts[rows].astype(float), 1.0]
    if spent is not None:
        ends.append(len(boards.lengths) + len(boards.boards))
        values.append(spent)
    where = np.array([*rows, *ends], np.int32)
    program.addCol(price, 0.0, highspy.kHighsInf, len(where), where, np.array(values))
