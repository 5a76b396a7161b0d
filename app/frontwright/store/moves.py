"""Which rows differ between two states of a job or shop, and the cells that say so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from frontwright.core.job import Job, Row, Shop, Table
from frontwright.store.columns import Cells, cells_of


@dataclass(frozen=True, slots=True)
class Move:
    """One row's cells before and after; None where it is not there."""

    table: str
    id: str
    before: Cells | None
    after: Cells | None


def differences[W: (Job, Shop)](old: W, new: W) -> Iterator[tuple[str, str, Row | None, Row | None]]:
    """Table, id, row before and row after of each that differs; what is the very same object is passed over unseen."""
    for name in old.kinds():
        before, after = getattr(old, name), getattr(new, name)
        if before is after:
            continue
        was = dict(before.items())
        for key, row in after.items():
            former = was.pop(key, None)
            if row is not former and row != former:
                yield name, key, former, row
        for key, row in was.items():
            yield name, key, row, None


class Numbers:
    """The order of entry: a number for each row of each table, never given twice in a sitting."""

    def __init__(self, entered: dict[str, dict[str, int]]) -> None:
        self._entered = entered
        self._last = {name: max(numbers.values(), default=0) for name, numbers in entered.items()}

    def of(self, table: str, key: str) -> int:
        """The number of a row; a row that has none gets the next."""
        numbers = self._entered.setdefault(table, {})
        if key not in numbers:
            numbers[key] = self._last[table] = self._last.get(table, 0) + 1
        return numbers[key]

    def moves[W: (Job, Shop)](self, old: W, new: W) -> list[Move]:
        """What differs between two states, as cells."""
        return [
            Move(table, key, self.cells(table, before), self.cells(table, after))
            for table, key, before, after in differences(old, new)
        ]

    def cells(self, table: str, row: Row | None) -> Cells | None:
        """The cells of a row with its number; None for no row."""
        return None if row is None else cells_of(row, self.of(table, row.id))

    def arranged[W: (Job, Shop)](self, whole: W, moves: list[Move]) -> W:
        """The same content, the rows in the order of entry, numbers as moved."""
        touched = {move.table for move in moves if move.before is None or move.after is None}
        for move in moves:
            numbers = self._entered.setdefault(move.table, {})
            if move.after is None:
                numbers.pop(move.id, None)
            else:  # a row that comes back brings its number with it; the next new row must not be given the same
                numbers[move.id] = int(move.after["entered"] or 0)
                self._last[move.table] = max(self._last.get(move.table, 0), numbers[move.id])
        tables: dict[str, Any] = {}
        for name in touched:
            numbers = self._entered[name]
            tables[name] = Table(sorted(getattr(whole, name).values(), key=lambda row: numbers[row.id]))
        return replace(whole, **tables) if tables else whole
