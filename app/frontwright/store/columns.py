"""Rows of a job as columns of a table and back: one column type for each type of value."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from hashlib import blake2b
from typing import Any, Literal, cast

from frontwright.core.job import Amount, Row
from frontwright.core.job.declared import Declared, ValueKind, declared
from frontwright.core.lengths import Length, Typed

Cell = str | int | None
Cells = dict[str, Cell]  # column -> what stands in it
Affinity = Literal["INTEGER", "TEXT"]

TEXT_OF = "_text"  # a column of this ending holds what was typed; the one without it holds its value


@dataclass(frozen=True, slots=True)
class ColumnType:
    """How one type of value is kept: its columns (ending, affinity), and the way in and out of their cells."""

    columns: tuple[tuple[str, Affinity], ...]
    put: Callable[[Any], tuple[Cell, ...]]
    take: Callable[..., object]


def _typed(units: int | None, text: str) -> Typed:
    return Typed(text, None if units is None else Length(units))


def _amount(value: str | None, text: str) -> Amount:
    return Amount(text, None if value is None else Fraction(value))


def _bool(number: int) -> bool:
    if number not in (0, 1):
        raise ValueError(f"{number} is neither yes nor no")
    return bool(number)


COLUMN_TYPES: dict[ValueKind, ColumnType] = {
    "text": ColumnType((("", "TEXT"),), lambda text: (text,), lambda text: text),
    "count": ColumnType((("", "INTEGER"),), lambda count: (count,), lambda count: count),
    "yes or no": ColumnType((("", "INTEGER"),), lambda yes: (int(yes),), _bool),
    "texts": ColumnType(
        (("", "TEXT"),), lambda texts: (json.dumps(texts, ensure_ascii=False),), lambda text: tuple(json.loads(text))
    ),
    "length": ColumnType(
        (("", "INTEGER"), (TEXT_OF, "TEXT")),
        lambda typed: (None if typed.value is None else typed.value.units, typed.text),
        _typed,
    ),
    "amount": ColumnType(
        (("", "TEXT"), (TEXT_OF, "TEXT")),
        lambda amount: (None if amount.value is None else str(amount.value), amount.text),
        _amount,
    ),
}


def columns_of(field: Declared) -> tuple[tuple[str, Affinity], ...]:
    """The columns of one field: name and affinity."""
    return tuple((field.name + ending, affinity) for ending, affinity in COLUMN_TYPES[field.kind].columns)


def cells_of(row: Row, entered: int) -> Cells:
    """A row as the cells of its table, `entered` being its place in the order of entry.

    TypeError if a field holds what it does not take.
    """
    cells: Cells = {"entered": entered}
    for field in declared(type(row)):
        value = getattr(row, field.name)
        if not field.takes(value):
            raise TypeError(f"{type(row).__name__} “{row.id}”: {field.name} cannot be {value!r}")
        kept = COLUMN_TYPES[field.kind]
        filling = (None,) * len(kept.columns) if value is None else kept.put(value)
        for (ending, _), cell in zip(kept.columns, filling, strict=True):
            cells[field.name + ending] = cell
    return cells


def row_of(kind: type[Any], cells: Mapping[str, Cell]) -> Row:
    """The row of a class that stands in these cells; ValueError, TypeError or KeyError if none can."""
    return cast(Row, kind(**{field.name: _value(field, cells) for field in declared(kind)}))


def _value(field: Declared, cells: Mapping[str, Cell]) -> object:
    filling = [cells[name] for name, _ in columns_of(field)]
    value = None if filling[-1] is None else COLUMN_TYPES[field.kind].take(*filling)
    if not field.takes(value):
        raise ValueError(f"{field.name} cannot be {value!r}")
    return value


def sealed(table: str, cells: Mapping[str, Cell]) -> str:
    """Sixteen bytes over all cells of a row but its seal, as hex: tells whether it is as it was written."""
    content = [[name, cells[name]] for name in sorted(cells) if name != "seal"]
    return blake2b(json.dumps([table, content]).encode(), digest_size=16).hexdigest()


def folded(total: str, *seals: str) -> str:
    """`total` with these seals put in, or taken out if they are in it: one figure for all rows, in any order."""
    number = int(total, 16)
    for one in seals:
        number ^= int(one, 16)
    return f"{number:032x}"
