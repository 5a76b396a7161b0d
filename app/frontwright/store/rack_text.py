"""Moves of the rack as text: in its ledger, and as the intents of a job.

A field that a text of an earlier day does not have is as when nothing is said of it.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any, cast

from frontwright.core.job import Move, Row
from frontwright.core.job.declared import declared
from frontwright.core.stock.rack import TABLES, RackMove, RackRow, key_of
from frontwright.store.columns import Cell, cells_of, columns_of, row_of
from frontwright.store.rows import DamageError

KINDS: dict[str, type[Any]] = {name: kind for kind, name in TABLES.items()}


def rows_text(rows: Sequence[RackRow]) -> str:
    """Rows, each with the name of its table."""
    return json.dumps([[key_of(row)[0], _cells(row)] for row in rows], ensure_ascii=False)


def rows_from(text: str) -> tuple[RackRow, ...]:
    """The rows of a text; DamageError if it holds none."""
    try:
        return tuple(cast(RackRow, _row(KINDS[table], cells)) for table, cells in json.loads(text))
    except (ValueError, TypeError, KeyError) as error:
        raise DamageError("rows of a move cannot be understood") from error


def move_text(move: RackMove) -> str:
    """A move with its rows."""
    return json.dumps([_cells(move.line), rows_text(move.rows), rows_text(move.was)], ensure_ascii=False)


def move_from(text: str) -> RackMove:
    """The move of a text; DamageError if it is none."""
    try:
        line, rows, was = json.loads(text)
        return RackMove(cast(Move, _row(Move, line)), rows_from(rows), rows_from(was))
    except (ValueError, TypeError, KeyError) as error:
        raise DamageError("a move that is to be made cannot be understood") from error


def _cells(row: Row) -> dict[str, Cell]:
    return {name: cell for name, cell in cells_of(row, 0).items() if name != "entered"}


def _row(kind: type[Any], cells: Mapping[str, Cell]) -> Row:
    whole = dict(cells)
    for field in declared(kind):
        columns = [name for name, _ in columns_of(field)]
        if not all(name in cells for name in columns):
            usual = cells_of(kind("x"), 0) if not field.required else {}
            whole |= {name: usual[name] for name in columns}
    return row_of(kind, whole)
