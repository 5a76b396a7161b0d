"""Reading and writing the rows of an open file; every row is sealed, and the state folds all seals."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from sqlalchemy import Connection, Select, Table, bindparam, delete, insert, select, update
from sqlalchemy.dialects import sqlite

from frontwright.core.job import Row
from frontwright.store.columns import Cell, Cells, folded, row_of, sealed
from frontwright.store.moves import Move
from frontwright.store.schema import Schema

NO_ROWS = "0" * 32  # the total of no row at all


class DamageError(Exception):
    """A row is not as it was written; `str()` says which."""


@dataclass(frozen=True, slots=True)
class State:
    """The last step that stands done, and the folded seals of all rows."""

    position: int = 0
    total: str = NO_ROWS


@dataclass(frozen=True, slots=True)
class Content:
    """All rows of a file, table by table in the order of entry, with their numbers in that order."""

    rows: dict[str, list[Row]]
    entered: dict[str, dict[str, int]]
    state: State


def check_whole(connection: Connection) -> None:
    """DamageError if SQLite finds the file broken, or if there is something in it that acts by itself."""
    said = connection.exec_driver_sql("PRAGMA quick_check(1)").scalar_one()
    if said != "ok":
        raise DamageError(str(said).replace("\n", " ").removeprefix("*** in database main *** "))
    acting = connection.exec_driver_sql("SELECT name FROM sqlite_master WHERE type IN ('trigger', 'view')").first()
    if acting:
        raise DamageError(f"it holds “{acting[0]}”, which was never put there")


def load(connection: Connection, schema: Schema) -> Content:
    """Every row, each held against its seal; DamageError if one is not as written or if rows are missing."""
    rows: dict[str, list[Row]] = {}
    entered: dict[str, dict[str, int]] = {}
    total = NO_ROWS
    for name, table in schema.rows.items():
        rows[name], entered[name] = [], {}
        for cells in _all(connection, select(table).order_by(table.c.entered)):
            total = folded(total, check_seal(name, cells))
            row = _row(schema, name, cells)
            rows[name].append(row)
            entered[name][row.id] = int(cells["entered"])
    state = read_state(connection, schema)
    if state.total != total:
        raise DamageError("rows are missing")
    return Content(rows, entered, state)


def _all(connection: Connection, rows: Select[Any]) -> Iterator[dict[str, Any]]:
    return (row._asdict() for row in connection.execute(rows))


def check_seal(name: str, cells: Mapping[str, Any]) -> str:
    """The seal of a row, found right; DamageError if it is not."""
    seal = sealed(name, cells)
    if seal != cells["seal"]:
        raise DamageError(f"{name} “{cells.get('id', cells.get('name', ''))}” is not as it was written")
    return seal


def _row(schema: Schema, name: str, cells: Mapping[str, Any]) -> Row:
    try:
        return row_of(schema.kinds[name], cells)
    except (ValueError, TypeError, KeyError) as error:
        raise DamageError(f"{name} “{cells.get('id', '')}” cannot be understood") from error


def row_after(schema: Schema, move: Move) -> Row | None:
    """The row that a move leaves; DamageError if its cells make none."""
    return None if move.after is None else _row(schema, move.table, move.after)


def read_state(connection: Connection, schema: Schema) -> State:
    """The state; DamageError if it is not as written."""
    cells = next(_all(connection, select(schema.state)), None)
    if cells is None:
        raise DamageError("its state is missing")
    check_seal("state", cells)
    return State(cells["position"], cells["total"])


def write_state(connection: Connection, schema: Schema, state: State) -> None:
    """Put the one row of the state in place of the former."""
    connection.execute(delete(schema.state))
    connection.execute(insert(schema.state), with_seal("state", _state_cells(state)))


def _state_cells(state: State) -> Cells:
    return {"one": 1, "position": state.position, "total": state.total}


def with_seal(table: str, cells: Cells) -> Cells:
    """The cells and their seal."""
    return cells | {"seal": sealed(table, cells)}


def write(connection: Connection, schema: Schema, moves: Iterable[Move], total: str) -> str:
    """Write what differs; what comes back is the total of all rows after it."""
    gone: dict[str, list[dict[str, Cell]]] = defaultdict(list)
    put: dict[str, list[Cells]] = defaultdict(list)
    for move in moves:
        if move.before is not None:
            total = folded(total, sealed(move.table, move.before))
        if move.after is None:
            gone[move.table].append({"row": move.id})
        else:
            put[move.table].append(with_seal(move.table, move.after))
            total = folded(total, str(put[move.table][-1]["seal"]))
    for name, keys in gone.items():
        table = schema.rows[name]
        connection.execute(delete(table).where(table.c.id == bindparam("row")), keys)
    for name, cells in put.items():
        connection.execute(put_row(schema.rows[name]), cells)
    return total


@cache
def put_row(table: Table) -> sqlite.Insert:
    """Add a row, or put it in place of the one with the same id. Two rows of one number in the order are an error."""
    statement = sqlite.insert(table)
    return statement.on_conflict_do_update(index_elements=[table.c.id], set_=dict(statement.excluded.items()))


def read_changes(connection: Connection, schema: Schema, step: int) -> dict[tuple[str, str], Cells | None]:
    """The rows kept with a step, by table and id; DamageError if one is not as written."""
    changes = schema.changes
    found: dict[tuple[str, str], Cells | None] = {}
    for cells in _all(connection, select(changes).where(changes.c.step == step)):
        check_seal("changes", cells)
        found[cells["place"], cells["id"]] = None if cells["content"] is None else json.loads(cells["content"])
    return found


def changed_after(connection: Connection, schema: Schema, step: int, last: int) -> set[tuple[str, str]]:
    """The rows (table, id) that the steps after this one changed, up to the `last`."""
    changes = schema.changes
    found = connection.execute(
        select(changes.c.place, changes.c.id).where(changes.c.step > step, changes.c.step <= last)
    )
    return {(place, key) for place, key in found}


def write_changes(
    connection: Connection, schema: Schema, step: int, kept: Mapping[tuple[str, str], Cells | None]
) -> None:
    """Keep these rows with a step, in place of what is kept there of the same rows."""
    rows: list[Cells] = [
        {"step": step, "place": place, "id": key, "content": None if cells is None else _text(cells)}
        for (place, key), cells in kept.items()
    ]
    if rows:
        sealed_rows = [with_seal("changes", row) for row in rows]
        connection.execute(insert(schema.changes).prefix_with("OR REPLACE"), sealed_rows)


def drop_changes(connection: Connection, schema: Schema, step: int, keys: Iterable[tuple[str, str]]) -> None:
    """No longer keep these rows with a step."""
    changes = schema.changes
    for place, key in keys:
        connection.execute(delete(changes).where(changes.c.step == step, changes.c.place == place, changes.c.id == key))


def _text(cells: Cells) -> str:
    return json.dumps(cells, ensure_ascii=False)


def write_step(connection: Connection, schema: Schema, step: int, name: str) -> None:
    """Begin a step: whatever was undone after the one before it can no longer be redone."""
    connection.execute(delete(schema.steps).where(schema.steps.c.number >= step))
    connection.execute(insert(schema.steps), with_seal("steps", {"number": step, "name": name}))


def rename_step(connection: Connection, schema: Schema, step: int, name: str) -> None:
    """Give a step another name."""
    values = with_seal("steps", {"number": step, "name": name})
    connection.execute(update(schema.steps).where(schema.steps.c.number == step), values)


def step_names(connection: Connection, schema: Schema) -> dict[int, str]:
    """The name of each step that is kept, by number."""
    found = _all(connection, select(schema.steps).order_by(schema.steps.c.number))
    return {cells["number"]: cells["name"] for cells in found if check_seal("steps", cells)}
