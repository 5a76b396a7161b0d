"""What a job file means to do on the rack: intents, written with the job's own step, and which moves a step carries."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any, Literal, cast
from uuid import uuid4

from sqlalchemy import Connection, delete, func, insert, select

from frontwright.core.job import Move
from frontwright.core.stock.rack import RackMove
from frontwright.store import rows
from frontwright.store.columns import Cells
from frontwright.store.rack_text import move_from, move_text
from frontwright.store.rows import DamageError
from frontwright.store.schema import OutboxTables

Way = Literal["done", "undone", "done again"]


@dataclass(frozen=True, slots=True)
class Intent:
    """Moves that belong to a step of the job and are not confirmed yet; `way`: what was done with the step."""

    step: int
    way: Way
    moves: tuple[RackMove, ...]


def new_id() -> str:
    """An id for a move: never given twice, whoever gives it."""
    return uuid4().hex


def counter(move: str, piece: str, job: str) -> RackMove:
    """The move that takes back the one of this id."""
    return RackMove(Move(new_id(), "take back", piece, job=job, undoes=move))


def write(connection: Connection, tables: OutboxTables, intent: Intent) -> None:
    """Keep an intent, and which moves its step carries from now on."""
    last = connection.execute(select(func.coalesce(func.max(tables.outbox.c.entered), 0))).scalar_one()
    for number, move in enumerate(intent.moves, last + 1):
        cells: Cells = {
            "entered": number,
            "id": move.id,
            "step": intent.step,
            "way": intent.way,
            "content": move_text(move),
        }
        connection.execute(insert(tables.outbox), rows.with_seal("outbox", cells))
    carry(connection, tables, intent.step, [(move.id, move.line.piece) for move in intent.moves])


def read(connection: Connection, tables: OutboxTables) -> tuple[Intent, ...]:
    """The intents that are open, the oldest first; DamageError if one is not as written."""
    found = [row._asdict() for row in connection.execute(select(tables.outbox).order_by(tables.outbox.c.entered))]
    for cells in found:
        rows.check_seal("outbox", cells)
    return tuple(
        Intent(step, way, tuple(move_from(one["content"]) for one in group))
        for (step, way), group in groupby(found, key=_step_and_way)
    )


def _step_and_way(cells: dict[str, Any]) -> tuple[int, Way]:
    if cells["way"] not in ("done", "undone", "done again"):
        raise DamageError("a move that is to be made cannot be understood")
    return cells["step"], cast(Way, cells["way"])


def drop(connection: Connection, tables: OutboxTables, moves: Iterable[str]) -> None:
    """No longer mean to make these moves."""
    connection.execute(delete(tables.outbox).where(tables.outbox.c.id.in_(list(moves))))


def carry(connection: Connection, tables: OutboxTables, step: int, moves: Sequence[tuple[str, str]]) -> None:
    """A step carries these moves (id, piece) in this order, in place of those it carried."""
    connection.execute(delete(tables.carried).where(tables.carried.c.step == step))
    for place, (move, piece) in enumerate(moves, 1):
        cells: Cells = {"step": step, "place": place, "move": move, "piece": piece}
        connection.execute(insert(tables.carried), rows.with_seal("carried", cells))


def carried(connection: Connection, tables: OutboxTables, step: int) -> list[tuple[str, str]]:
    """The moves that a step carries, and the piece of each."""
    wanted = select(tables.carried).where(tables.carried.c.step == step).order_by(tables.carried.c.place)
    found = [row._asdict() for row in connection.execute(wanted)]
    for cells in found:
        rows.check_seal("carried", cells)
    return [(cells["move"], cells["piece"]) for cells in found]


def mark(connection: Connection, tables: OutboxTables) -> str:
    """What the rack knows this job by; DamageError if it is gone."""
    cells = next((row._asdict() for row in connection.execute(select(tables.marks))), None)
    if cells is None:
        raise DamageError("its mark is missing")
    rows.check_seal("marks", cells)
    return str(cells["mark"])


def write_mark(connection: Connection, tables: OutboxTables) -> None:
    """Give a new file its mark."""
    connection.execute(insert(tables.marks), rows.with_seal("marks", {"one": 1, "mark": new_id()}))
