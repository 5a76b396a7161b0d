"""The rack in the shop file: its own tables, outside the shop's undo, and the one way to change them.

Other windows write there too. So a move is judged within its transaction, on the rows it touches as they stand in the
file then; what a window shows is brought up to date by the lines of the ledger that it has not read yet.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, cast

from sqlalchemy import ColumnElement, Connection, Table, delete, func, insert, or_, select

from frontwright.core.job import Move
from frontwright.core.job import Table as Rows
from frontwright.core.stock.moves import after_all
from frontwright.core.stock.rack import Key, Rack, RackMove, RackRow, key_of, with_moves
from frontwright.store import rows
from frontwright.store.columns import Cell, Cells, cells_of, folded, row_of
from frontwright.store.rack_text import KINDS, rows_from, rows_text
from frontwright.store.rows import NO_ROWS, DamageError
from frontwright.store.schema import RackTables


@dataclass(slots=True)
class _Stands:
    """Rows of the rack as they stand in the file, each with its number in the order of entry and its seal."""

    rack: Rack
    entered: dict[Key, int]
    seals: dict[Key, str]


class RackBook:
    """The rack of an open shop file. Every call is made within a transaction of that file."""

    def __init__(self, connection: Connection, tables: RackTables) -> None:
        self._connection = connection
        self._tables = tables
        self._rack: Rack | None = None
        self._last = 0

    def current(self) -> Rack:
        """The rack as it stands; DamageError if a row is not as written, or gone."""
        if self._rack is None:
            self._rack = self._whole()
        else:
            unread = self._moves(self._tables.moves.c.entered > self._last)
            if unread:
                self._rack = with_moves(self._rack, unread)
        self._last = self._count(self._tables.moves)
        return self._rack

    def make(self, moves: Sequence[RackMove]) -> tuple[RackMove, ...]:
        """Make these moves, all or none; those that were not made before come back as they stand in the ledger.

        MoveRefused if the wood does not allow one of them.
        """
        stands = self._touched(moves)
        after = after_all(stands.rack, moves)
        new = tuple(move for key, move in after.moves.items() if key not in stands.rack.moves)
        if new:
            self._write(stands, after, new)
        return new

    # -- reading

    def _whole(self) -> Rack:
        total = NO_ROWS
        found: dict[str, Rows[Any]] = {}
        for name, table in self._tables.rows.items():
            cells = self._cells(table)
            total = folded(total, *(str(one["seal"]) for one in cells))
            found[name] = Rows([_row(name, one) for one in cells])
        lines = self._cells(self._tables.moves)
        if self._total() != folded(total, *(str(one["seal"]) for one in lines)):
            raise DamageError("rows of the rack are missing")
        return Rack(**found, moves=Rows([_move(one) for one in lines]))

    def _cells(self, table: Table, which: ColumnElement[bool] | None = None) -> list[dict[str, Any]]:
        wanted = select(table).order_by(table.c.entered)
        found = self._connection.execute(wanted if which is None else wanted.where(which))
        cells = [row._asdict() for row in found]
        for one in cells:
            rows.check_seal(table.name, one)
        return cells

    def _moves(self, which: ColumnElement[bool]) -> list[RackMove]:
        return [_move(cells) for cells in self._cells(self._tables.moves, which)]

    def _total(self) -> str:
        cells = next((row._asdict() for row in self._connection.execute(select(self._tables.state))), None)
        if cells is None:
            return NO_ROWS
        rows.check_seal(self._tables.state.name, cells)
        return str(cells["total"])

    def _count(self, table: Table) -> int:
        return int(self._connection.execute(select(func.coalesce(func.max(table.c.entered), 0))).scalar_one())

    def _touched(self, moves: Sequence[RackMove]) -> _Stands:
        """So much of the rack as these moves are about (see `core.stock.moves.after`)."""
        ledger = self._lines(moves)
        keys = set(_named([*moves, *(made for made in ledger if made.id in {m.line.undoes for m in moves})]))
        pieces = {key for table, key in keys if table != "defects"}  # or lots
        chosen = self._tables.rows
        born = chosen["pieces"].c.from_piece.in_(pieces)
        conditions = {
            "pieces": or_(chosen["pieces"].c.id.in_(pieces), born),
            "defects": or_(
                chosen["defects"].c.piece.in_(pieces),
                chosen["defects"].c.id.in_({k for t, k in keys if t == "defects"}),
            ),
            "reservations": or_(chosen["reservations"].c.id.in_(pieces), chosen["reservations"].c.lot.in_(pieces)),
            "lots": chosen["lots"].c.id.in_(pieces),
        }
        stands = _Stands(Rack(moves=Rows(ledger)), {}, {})
        found: dict[str, Rows[Any]] = {}
        for name, which in conditions.items():
            cells = self._cells(chosen[name], which)
            found[name] = Rows([_row(name, one) for one in cells])
            stands.entered |= {(name, one["id"]): one["entered"] for one in cells}
            stands.seals |= {(name, one["id"]): one["seal"] for one in cells}
        stands.rack = Rack(**found, moves=stands.rack.moves)
        return stands

    def _lines(self, moves: Sequence[RackMove]) -> list[RackMove]:
        """The lines of the ledger about the same pieces; those made already, taken back, or that took those back."""
        ids = {move.id for move in moves} | {move.line.undoes for move in moves} - {""}
        table = self._tables.moves.c
        return self._moves(
            or_(table.id.in_(ids), table.undoes.in_(ids), table.piece.in_({m.line.piece for m in moves}))
        )

    # -- writing

    def _write(self, stands: _Stands, after: Rack, new: Sequence[RackMove]) -> None:
        total = self._total()
        touched = dict.fromkeys(key_of(row) for move in new for row in (*move.was, *move.rows))
        for key in touched:
            before, now = stands.rack.find(key), after.find(key)
            if before != now:
                total = self._put(stands, key, now, total)
        for number, move in enumerate(new, self._count(self._tables.moves) + 1):
            cells = rows.with_seal(self._tables.moves.name, _move_cells(move, number))
            self._connection.execute(insert(self._tables.moves), cells)
            total = folded(total, str(cells["seal"]))
        self._connection.execute(delete(self._tables.state))
        self._connection.execute(
            insert(self._tables.state), rows.with_seal(self._tables.state.name, {"one": 1, "total": total})
        )

    def _put(self, stands: _Stands, key: Key, row: RackRow | None, total: str) -> str:
        table = self._tables.rows[key[0]]
        if key in stands.seals:
            total = folded(total, stands.seals[key])
        if row is None:
            self._connection.execute(delete(table).where(table.c.id == key[1]))
            return total
        entered = stands.entered.get(key) or self._count(table) + 1
        cells = rows.with_seal(table.name, cells_of(row, entered))
        self._connection.execute(rows.put_row(table), cells)
        return folded(total, str(cells["seal"]))


def _named(moves: Iterable[RackMove]) -> Iterable[Key]:
    for move in moves:
        yield from (("pieces", name) for name in (move.line.piece, *move.line.born) if name)
        for row in (*move.rows, *move.was):
            yield key_of(row)


def _row(table: str, cells: dict[str, Any]) -> RackRow:
    try:
        return cast(RackRow, row_of(KINDS[table], cells))
    except (ValueError, TypeError, KeyError) as error:
        raise DamageError(f"{table} “{cells.get('id', '')}” of the rack cannot be understood") from error


def _move(cells: dict[str, Cell]) -> RackMove:
    try:
        line = cast(Move, row_of(Move, cells))
    except (ValueError, TypeError, KeyError) as error:
        raise DamageError(f"move “{cells.get('id', '')}” of the rack cannot be understood") from error
    return RackMove(line, rows_from(str(cells["rows"])), rows_from(str(cells["was"])))


def _move_cells(move: RackMove, entered: int) -> Cells:
    return cells_of(move.line, entered) | {"rows": rows_text(move.rows), "was": rows_text(move.was)}
