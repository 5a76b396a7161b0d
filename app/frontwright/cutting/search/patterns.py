"""Many copies of few parts: ways to fill a piece as columns of a linear program, then whole numbers of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from math import floor

import highspy
import numpy as np
from numpy.typing import NDArray

from frontwright.cutting import programs
from frontwright.cutting.values import Layout, Order, Placed

_EPS = 1e-6
_MOST_SECONDS = 5.0  # for a relaxation


@dataclass(frozen=True, slots=True)
class Column:
    """A filled piece: its stock, how many of each part, and where."""

    stock: int
    counts: tuple[tuple[int, int], ...]  # part, copies
    placed: tuple[Placed, ...]


def column_of(layout: Layout) -> Column:
    """A layout, once."""
    counts = Counter(p.item for p in layout.placed)
    return Column(layout.stock, tuple(sorted(counts.items())), layout.placed)


class Pool:
    """All ways of filling a piece that were met, each once."""

    def __init__(self) -> None:
        self.columns: list[Column] = []
        self._known: set[tuple[int, tuple[tuple[int, int], ...]]] = set()

    def add(self, column: Column) -> bool:
        """Whether it was new."""
        key = (column.stock, column.counts)
        if not column.counts or key in self._known:
            return False
        self._known.add(key)
        self.columns.append(column)
        return True

    def thin(self, use: Callable[[Column], float]) -> None:
        """Let the poorest half go."""
        kept = sorted(self.columns, key=use, reverse=True)[: len(self.columns) // 2]
        self.columns, self._known = [], set()
        for column in kept:
            self.add(column)

    def take(self, layouts: Iterable[Layout]) -> None:
        """Put layouts in, each once."""
        for layout in layouts:
            self.add(column_of(layout))


@dataclass(frozen=True, slots=True)
class Relaxed:
    """A solution in fractions: its price, how much of each column, what a copy of each part is worth, of a piece."""

    price: float
    amounts: tuple[float, ...]
    worth: NDArray[np.float64]
    limits: NDArray[np.float64]


def relax(order: Order, pool: Pool, prices: Sequence[int], demand: Sequence[int]) -> Relaxed | None:
    """The least price at which fractions of the columns give all that is wanted."""
    program = _program(order, pool.columns, prices, demand)
    program.run()
    if program.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    told = program.getSolution()
    duals, parts = np.array(told.row_dual), len(demand)
    return Relaxed(program.getInfo().objective_function_value, tuple(told.col_value), duals[:parts], duals[parts:])


def whole(
    order: Order, columns: list[Column], prices: Sequence[int], demand: Sequence[int], seconds: float
) -> list[tuple[Column, int]] | None:
    """The least price in whole pieces, as far as that was found in time."""
    if seconds <= 0:
        return None
    program = _program(order, columns, prices, demand)
    for n in range(len(columns)):
        program.changeColIntegrality(n, highspy.HighsVarType.kInteger)
    program.setOptionValue("time_limit", seconds)
    program.setOptionValue("mip_rel_gap", 0.0)
    if len({prices[column.stock] for column in columns}) == 1:
        program.setOptionValue("mip_abs_gap", 0.99)  # less than a piece
    program.run()
    if program.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    values = program.getSolution().col_value
    return [(column, round(x)) for column, x in zip(columns, values, strict=True) if x > 0.5]


def _program(order: Order, columns: list[Column], prices: Sequence[int], demand: Sequence[int]) -> highspy.Highs:
    program = programs.program(time_limit=_MOST_SECONDS)
    unit = float(max(prices))
    for wanted in demand:
        program.addRow(float(wanted), highspy.kHighsInf, 0, [], [])
    limited = [n for n, s in enumerate(order.stock) if s.copies is not None]
    row_of = {n: len(demand) + at for at, n in enumerate(limited)}
    for n in limited:
        program.addRow(-highspy.kHighsInf, float(order.stock[n].copies or 0), 0, [], [])
    for column in columns:
        rows = [item for item, _ in column.counts]
        values = [float(count) for _, count in column.counts]
        if column.stock in row_of:
            rows.append(row_of[column.stock])
            values.append(1.0)
        program.addCol(prices[column.stock] / unit, 0.0, highspy.kHighsInf, len(rows), rows, values)
    return program


def rounded_down(pool: Pool, relaxed: Relaxed) -> list[tuple[Column, int]]:
    """The whole part of what the relaxation cuts."""
    pairs = ((column, floor(x + _EPS)) for column, x in zip(pool.columns, relaxed.amounts, strict=True))
    return [(column, n) for column, n in pairs if n]


def rest_of(order: Order, demand: Sequence[int], cut: Iterable[tuple[Column, int]]) -> Order:
    """What is still wanted, and what stock is left, once these are cut."""
    left, stock = list(demand), [s.copies for s in order.stock]
    for column, copies in cut:
        for item, count in column.counts:
            left[item] -= count * copies
        have = stock[column.stock]
        if have is not None:
            stock[column.stock] = max(0, have - copies)
    wanted = tuple(replace(w, copies=max(0, n)) for w, n in zip(order.wanted, left, strict=True))
    return replace(
        order, wanted=wanted, stock=tuple(replace(s, copies=n) for s, n in zip(order.stock, stock, strict=True))
    )


def as_layouts(demand: Sequence[int], cut: Iterable[tuple[Column, int]]) -> list[Layout]:
    """Layouts of columns so many times; what is laid beyond the demand is left off the last ones."""
    left, found = list(demand), list[Layout]()
    for column, copies in cut:
        times = min((left[i] // n for i, n in column.counts), default=0)
        times = min(times, copies)
        if times:
            found.append(Layout(column.stock, column.placed, times))
            for item, count in column.counts:
                left[item] -= count * times
        for _ in range(copies - times):
            kept = []
            for placed in column.placed:
                if left[placed.item]:
                    left[placed.item] -= 1
                    kept.append(placed)
            if kept:
                found.append(Layout(column.stock, tuple(kept)))
    return found
