"""The rack: pieces with their defects, who counts on them, lots of hardware, and the ledger of its moves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, fields, replace
from functools import lru_cache
from typing import Any, Literal, cast

from frontwright.core.job import Defect, HardwareLot, Move, Piece, Reservation, Table
from frontwright.core.lengths import Typed, Unit, typed, typed_length

RackRow = Piece | Defect | Reservation | HardwareLot
Key = tuple[str, str]  # table and id of a row
State = Literal["free", "reserved", "in work", "used up", "burned"]

TABLES: dict[type[RackRow], str] = {
    Piece: "pieces",
    Defect: "defects",
    Reservation: "reservations",
    HardwareLot: "lots",
}
GONE = ("used up", "burned")


@dataclass(frozen=True, slots=True)
class RackMove:
    """A move with the rows that belong to it.

    As it is asked: the rows it brings, and of a change `was`, the same rows as whoever asks had them before. In the
    ledger: the rows it touched as they stand after it, and as they were before it.
    """

    line: Move
    rows: tuple[RackRow, ...] = ()
    was: tuple[RackRow, ...] = ()

    @property
    def id(self) -> str:
        return self.line.id


@dataclass(frozen=True, slots=True)
class Rack:
    """All that stands on the shelves, and the moves in the order in which they were made."""

    pieces: Table[Piece] = field(default_factory=Table)
    defects: Table[Defect] = field(default_factory=Table)
    reservations: Table[Reservation] = field(default_factory=Table)
    lots: Table[HardwareLot] = field(default_factory=Table)
    moves: Table[RackMove] = field(default_factory=Table)

    def find(self, key: Key) -> RackRow | None:
        """The row of this table and id, if it is there."""
        table: Table[Any] = getattr(self, key[0])
        return cast(RackRow | None, table.get(key[1]))

    def defects_of(self, piece: str) -> tuple[Defect, ...]:
        """The bad places of a piece."""
        return tuple(one for one in self.defects.values() if one.piece == piece)

    def born_of(self, piece: str) -> tuple[Piece, ...]:
        """The pieces that came of a piece directly."""
        return tuple(one for one in self.pieces.values() if one.from_piece == piece)


def key_of(row: RackRow) -> Key:
    """Table and id of a row of the rack."""
    return TABLES[type(row)], row.id


def with_moves(rack: Rack, moves: Iterable[RackMove]) -> Rack:
    """The rack after these moves of its own ledger, not judged again: their rows put, what they ended gone."""
    tables: dict[str, dict[str, Any]] = {one.name: dict(getattr(rack, one.name)) for one in fields(Rack)}
    for made in moves:
        stays = {key_of(row) for row in made.rows}
        for table, row in (key_of(row) for row in made.was):
            if (table, row) not in stays:
                tables[table].pop(row, None)
        for one in made.rows:
            table, row = key_of(one)
            tables[table][row] = one
        tables["moves"][made.id] = made
    return Rack(**{name: Table(rows.values()) for name, rows in tables.items()})


def recount(moves: Iterable[RackMove]) -> Rack:
    """The rack that a ledger tells of, counted from its first line."""
    return with_moves(Rack(), moves)


def state_of(rack: Rack, piece: Piece) -> State:
    """The state of a piece as people say it: a free one that a job counts on is reserved."""
    return "reserved" if piece.state == "free" and piece.id in rack.reservations else piece.state


def is_over(reservation: Reservation, today: str) -> bool:
    """Whether a reservation is past its date; dates are written 2026-12-20."""
    return bool(reservation.until) and reservation.until[:10] < today[:10]


def over(rack: Rack, today: str) -> Iterator[Reservation]:
    """The reservations that are past their date and hold their piece still."""
    return (one for one in rack.reservations.values() if is_over(one, today))


def taken_by(rack: Rack, job: str) -> tuple[Piece, ...]:
    """The pieces that a job (its mark) counts on."""
    return tuple(rack.pieces[one.id] for one in rack.reservations.values() if one.job == job and one.id in rack.pieces)


def in_unit[R: RackRow](row: R, unit: Unit) -> R:
    """The row with lengths that read back right in this unit: one typed "60" in inches is 60 in, not 60 mm."""
    changed = {
        one.name: anew
        for one in fields(row)
        if isinstance(old := getattr(row, one.name), Typed) and (anew := _typed_in(old, unit)) != old
    }
    return replace(row, **changed) if changed else row  # type: ignore[arg-type]  # fields of that very row


@lru_cache(maxsize=50_000)
def _typed_in(length: Typed, unit: Unit) -> Typed:
    same = length.value is None or typed(length.text, unit).value == length.value
    return length if same or length.value is None else typed_length(length.value, unit)
