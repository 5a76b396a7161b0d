"""The pieces of a rack, or of a job, as a list: out with all that is known of each, in as new and changed pieces."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, get_args

from frontwright.core.job import Amount, Defect, HardwareLot, Piece, PieceForm
from frontwright.core.job.stock import Cut, Grade
from frontwright.core.lengths import Typed, Unit
from frontwright.exchange.tables import NO, YES, Cell, Column, Row, Table, headed, raw_rows

NOUN = "list of pieces"
LONGEST_NAME = 60
FORMS: tuple[PieceForm, ...] = get_args(PieceForm)
COLUMNS = (
    Column("piece", needed=True),
    Column("form"),
    Column("species"),
    Column("batch"),
    Column("length", "length"),
    Column("width", "length"),
    Column("thickness", "length"),
    Column("count", "count"),
    Column("shelf"),
    Column("moisture", "number"),
    Column("moisture on"),
    Column("planed", "yes"),
    Column("cut"),
    Column("figure"),
    Column("grade"),
    Column("end trim", "length"),
    Column("edge trim", "length"),
    Column("price", "number"),
    Column("state"),
    Column("came"),
    Column("looked"),
    Column("note"),
)
DEFECT_COLUMNS = (
    Column("of piece"),
    Column("what"),
    Column("from the left", "length"),
    Column("from below", "length"),
    Column("long", "length"),
    Column("wide", "length"),
)
LOT_COLUMNS = (
    Column("lot"),
    Column("what"),
    Column("count", "count"),
    Column("for this job", "count"),
    Column("for others", "count"),
    Column("shelf"),
    Column("price", "number"),
    Column("note"),
)
FIELDS = {"piece": "id", **{column.name: column.name.replace(" ", "_") for column in COLUMNS[1:]}}
LENGTHS = ("length", "width", "thickness", "end trim", "edge trim")
AMOUNTS = ("moisture", "price")
TEXTS = ("species", "batch", "shelf", "moisture on", "figure", "came", "looked", "note")


@dataclass(frozen=True, slots=True)
class PiecesIn:
    """What a list that comes in brings: pieces that were not there, and pieces as they are now."""

    new: tuple[Piece, ...]
    changed: tuple[Piece, ...]


def pieces_table(pieces: Iterable[Piece], unit: Unit) -> Table:
    """Every piece with all that is known of it; its bad places are a list of their own (`defects_table`)."""
    return Table("rack", COLUMNS, tuple(tuple(_cells(piece)) for piece in pieces), unit)


def defects_table(defects: Iterable[Defect], unit: Unit) -> Table:
    """The bad places of pieces, from the left end and lower edge of their piece; what nobody measured is empty."""
    rows = tuple(
        (one.piece, one.what, *(_size(size) for size in (one.along, one.across, one.length, one.width)))
        for one in defects
    )
    return Table("defects", DEFECT_COLUMNS, rows, unit)


def hardware_table(lots: Iterable[HardwareLot], kept: Mapping[str, tuple[int, int]], unit: Unit) -> Table:
    """Lots of hardware; `kept`: by lot, how many are kept for this job and how many for others."""
    rows = tuple(
        (one.id, one.what, one.count, *kept.get(one.id, (0, 0)), one.shelf, _price(one.price), one.note) for one in lots
    )
    return Table("hardware", LOT_COLUMNS, rows, unit)


def _size(typed: Typed | None) -> Cell:
    return None if typed is None else typed.text if typed.value is None else typed.value


def _price(amount: Amount | None) -> Cell:
    return None if amount is None else amount.text if amount.value is None else amount.value


def _cells(piece: Piece) -> Iterator[Cell]:
    for column in COLUMNS:
        given: Any = getattr(piece, FIELDS[column.name])
        if isinstance(given, Typed | Amount):
            yield given.text if given.value is None else given.value
        elif isinstance(given, bool):
            yield YES if given else NO
        else:
            yield given


def pieces_from(name: str, content: bytes, unit: Unit, there: Mapping[str, Piece]) -> PiecesIn:
    """The pieces of a list that comes in, held against those that are `there`.

    A column that the list does not have, and of a piece that is there an empty length or number, say nothing. BadTable
    for a list that is none, a cell that cannot be read, and a state that was changed in the list: pieces change their
    state by what is done with them.
    """
    new: list[Piece] = []
    changed: list[Piece] = []
    seen: dict[str, int] = {}
    for row in headed(raw_rows(name, content), COLUMNS, NOUN):
        piece = row.text("piece")
        if not piece or len(piece) > LONGEST_NAME:
            raise row.bad("piece", "the piece is not named." if not piece else "the name is longer than 60 letters.")
        if piece in seen:
            raise row.bad("piece", f"“{piece}” stands in row {seen[piece]} already.")
        seen[piece] = row.number
        before = there.get(piece)
        after = _piece(row, before or Piece(piece), unit)
        if before is None:
            new.append(after)
        elif after != before:
            changed.append(after)
    return PiecesIn(tuple(new), tuple(changed))


def _piece(row: Row, before: Piece, unit: Unit) -> Piece:
    if row.text("state").casefold() not in ("", before.state):
        raise row.bad("state", f"{before.id} is {before.state}: a piece changes its state by what is done with it.")
    told: dict[str, Any] = {FIELDS[name]: row.text(name) for name in TEXTS if name in row.cells}
    for name in LENGTHS:
        told[FIELDS[name]] = _length(row, name, getattr(before, FIELDS[name]), unit)
    for name in AMOUNTS:
        told[FIELDS[name]] = _amount(row, name, getattr(before, FIELDS[name]))
    count = before.count if row.text("count") == str(before.count) else row.count("count", before.count)
    if count < 1 and count != before.count:
        raise row.bad("count", "there is one of a piece at least; what is gone is used up or burned.")
    grades: tuple[Grade, ...] = get_args(Grade)
    cuts: tuple[Cut, ...] = get_args(Cut)
    return replace(
        before,
        form=row.one_of("form", FORMS, before.form),
        grade=row.one_of("grade", grades, before.grade),
        cut=row.one_of("cut", cuts, before.cut),
        planed=row.yes("planed", before.planed),
        count=count,
        **told,
    )


def _length(row: Row, name: str, before: Typed | None, unit: Unit) -> Typed | None:
    """What was typed stays as it was typed where it says the same."""
    if not row.told(name):
        return before
    if before is not None and (row.text(name) == before.text or row.says(name, before.value, unit)):
        return before
    return row.length(name, unit)


def _amount(row: Row, name: str, before: Amount | None) -> Amount | None:
    if not row.told(name) or (before is not None and row.text(name) == before.text):
        return before
    given = row.amount(name)
    return before if before is not None and given is not None and given.value == before.value else given
