"""The tables of a job file and of a shop file, made from the classes of what is entered."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from sqlalchemy import Column, ForeignKey, Index, Integer, MetaData, Table, Text

from frontwright.core.job import Job, Move, Shop
from frontwright.core.job.declared import declared
from frontwright.core.stock.rack import TABLES
from frontwright.store.columns import columns_of

Noun = Literal["job", "shop"]

VERSION = {"job": 1, "shop": 1}
APPLICATION = {"job": 0x46574A42, "shop": 0x46575348}  # "FWJB", "FWSH": at byte 68 of the file
_WHOLE: dict[Noun, type[Job] | type[Shop]] = {"job": Job, "shop": Shop}
_TYPES = {"INTEGER": Integer, "TEXT": Text}


@dataclass(frozen=True, slots=True)
class RackTables:
    """The rack's own tables in a shop file: what stands there by name, the ledger, and the total of all seals.

    A reservation has the id of its piece and goes when it ends: of a piece there is one at most, whoever writes.
    """

    rows: dict[str, Table]
    moves: Table
    state: Table


@dataclass(frozen=True, slots=True)
class OutboxTables:
    """What a job means to do on the rack, the moves that each step carries, and what the rack knows the job by."""

    outbox: Table
    carried: Table
    marks: Table


@dataclass(frozen=True, slots=True)
class Schema:
    """All tables of one kind of file: those of the rows by name, and the store's own."""

    noun: Noun
    whole: type[Job] | type[Shop]
    metadata: MetaData
    kinds: dict[str, type[Any]]
    rows: dict[str, Table]
    steps: Table
    changes: Table
    state: Table
    drafts: Table
    rack: RackTables | None = None
    outbox: OutboxTables | None = None


@cache
def schema(noun: Noun) -> Schema:
    """The tables of a job file or of a shop file."""
    metadata = MetaData()
    kinds = _WHOLE[noun].kinds()
    rows = {name: _row_table(metadata, name, kind) for name, kind in kinds.items()}
    own = _own_tables(metadata)
    rack = _rack_tables(metadata) if noun == "shop" else None
    outbox = _outbox_tables(metadata) if noun == "job" else None
    return Schema(noun, _WHOLE[noun], metadata, kinds, rows, *own, rack, outbox)


def _row_table(metadata: MetaData, name: str, kind: type[Any], *more: str) -> Table:
    """`entered` is the order of entry; every row carries a seal over its cells, `more` columns of text among them."""
    columns = [Column("entered", Integer, primary_key=True, autoincrement=False)]
    for field in declared(kind):
        for column, affinity in columns_of(field):
            last_says_none = column == columns_of(field)[-1][0]
            nullable = field.optional or not last_says_none
            columns.append(Column(column, _TYPES[affinity], nullable=nullable, unique=column == "id" or None))
    texts = [Column(column, Text, nullable=False) for column in (*more, "seal")]
    return Table(name, metadata, *columns, *texts)


def _rack_tables(metadata: MetaData) -> RackTables:
    rows = {name: _row_table(metadata, f"rack_{name}", kind) for kind, name in TABLES.items()}
    moves = _row_table(metadata, "rack_moves", Move, "rows", "was")
    Index("rack_moves_of_piece", moves.c.piece)
    Index("rack_moves_undone", moves.c.undoes)
    Index("rack_pieces_born", rows["pieces"].c.from_piece)
    Index("rack_defects_of_piece", rows["defects"].c.piece)
    state = Table(
        "rack_state",
        metadata,
        Column("one", Integer, primary_key=True, autoincrement=False),
        Column("total", Text, nullable=False),
        Column("seal", Text, nullable=False),
    )
    return RackTables(rows, moves, state)


def _outbox_tables(metadata: MetaData) -> OutboxTables:
    """An intent outlives its step, the moves that a step carries do not."""
    outbox = Table(
        "outbox",
        metadata,
        Column("entered", Integer, primary_key=True, autoincrement=False),
        Column("id", Text, nullable=False, unique=True),
        Column("step", Integer, nullable=False),
        Column("way", Text, nullable=False),
        Column("content", Text, nullable=False),
        Column("seal", Text, nullable=False),
    )
    carried = Table(
        "carried",
        metadata,
        Column("step", Integer, ForeignKey("steps.number", ondelete="CASCADE"), primary_key=True),
        Column("place", Integer, primary_key=True),
        Column("move", Text, nullable=False),
        Column("piece", Text, nullable=False),
        Column("seal", Text, nullable=False),
    )
    marks = Table(
        "marks",
        metadata,
        Column("one", Integer, primary_key=True, autoincrement=False),
        Column("mark", Text, nullable=False),
        Column("seal", Text, nullable=False),
    )
    return OutboxTables(outbox, carried, marks)


def _own_tables(metadata: MetaData) -> tuple[Table, Table, Table, Table]:
    """Steps (named, 1 upwards), their changes (what a row is not just now), the state, and drafts outside undo.

    `content` of a change is the row as it was before the step, or, once the step is undone, as it was after: undo and
    redo swap it with the row. `position` of the state is the last step that stands done, `total` folds the seals
    of all rows, so that a row that has gone is missed.
    """
    steps = Table(
        "steps",
        metadata,
        Column("number", Integer, primary_key=True, autoincrement=False),
        Column("name", Text, nullable=False),
        Column("seal", Text, nullable=False),
    )
    changes = Table(
        "changes",
        metadata,
        Column("step", Integer, ForeignKey("steps.number", ondelete="CASCADE"), primary_key=True),
        Column("place", Text, primary_key=True),
        Column("id", Text, primary_key=True),
        Column("content", Text),
        Column("seal", Text, nullable=False),
        sqlite_with_rowid=False,
    )
    state = Table(
        "state",
        metadata,
        Column("one", Integer, primary_key=True, autoincrement=False),
        Column("position", Integer, nullable=False),
        Column("total", Text, nullable=False),
        Column("seal", Text, nullable=False),
    )
    drafts = Table(
        "drafts",
        metadata,
        Column("place", Text, primary_key=True),
        Column("text", Text, nullable=False),
        Column("seal", Text, nullable=False),
    )
    return steps, changes, state, drafts
