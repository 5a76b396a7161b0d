"""The tables of a job file and of a shop file, made from the classes of what is entered."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from sqlalchemy import Column, ForeignKey, Integer, MetaData, Table, Text

from frontwright.core.job import Job, Shop
from frontwright.core.job.declared import declared
from frontwright.store.columns import columns_of

Noun = Literal["job", "shop"]

VERSION = {"job": 1, "shop": 1}
APPLICATION = {"job": 0x46574A42, "shop": 0x46575348}  # "FWJB", "FWSH": at byte 68 of the file
_WHOLE: dict[Noun, type[Job] | type[Shop]] = {"job": Job, "shop": Shop}
_TYPES = {"INTEGER": Integer, "TEXT": Text}


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


@cache
def schema(noun: Noun) -> Schema:
    """The tables of a job file or of a shop file."""
    metadata = MetaData()
    kinds = _WHOLE[noun].kinds()
    rows = {name: _row_table(metadata, name, kind) for name, kind in kinds.items()}
    return Schema(noun, _WHOLE[noun], metadata, kinds, rows, *_own_tables(metadata))


def _row_table(metadata: MetaData, name: str, kind: type[Any]) -> Table:
    """`entered` is the order of entry; every row carries a seal over its cells."""
    columns = [Column("entered", Integer, primary_key=True, autoincrement=False)]
    for field in declared(kind):
        for column, affinity in columns_of(field):
            last_says_none = column == columns_of(field)[-1][0]
            nullable = field.optional or not last_says_none
            columns.append(Column(column, _TYPES[affinity], nullable=nullable, unique=column == "id" or None))
    return Table(name, metadata, *columns, Column("seal", Text, nullable=False))


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
