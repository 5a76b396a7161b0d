"""What every rule of a move asks: whether the piece is there, whose it is, how many, whether a name is free."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.job import HardwareLot, Piece, PieceState, Reservation
from frontwright.core.lengths import Typed
from frontwright.core.stock.rack import GONE, Key, Rack, RackMove, RackRow, is_over, key_of

Outcome = tuple[list[RackRow], list[Key]]  # rows put, rows that go


class MoveRefused(Exception):
    """A move that the wood does not allow; `str()` is one sentence that names the piece and the way out."""


def there(rack: Rack, move: RackMove) -> Piece:
    """The piece, still there to be used."""
    piece = rack.pieces.get(move.line.piece)
    if piece is None:
        raise MoveRefused(f"There is no piece {move.line.piece} on the rack: choose another.")
    if piece.state in GONE:
        raise MoveRefused(f"{piece.id} is {piece.state}: choose another piece.")
    return piece


def own(rack: Rack, move: RackMove) -> Piece:
    """The piece, which no other job counts on or has in work."""
    piece = there(rack, move)
    held = rack.reservations.get(piece.id)
    if held is None or held.job == move.line.job:
        return piece
    who = held.name or "another job"
    if piece.state == "in work":
        raise MoveRefused(f"{piece.id} is in work in {who} and cannot be in two places: choose another piece.")
    if is_over(held, move.line.when):
        raise MoveRefused(f"{piece.id} was reserved by {who} to {held.until}, which is over: release it first.")
    until = f" to {held.until}" if held.until else ""
    raise MoveRefused(f"{piece.id} is reserved by {who}{until}: choose another piece or have it released.")


def counted_of(move: RackMove, piece: Piece) -> int:
    if move.line.count < 1:
        raise MoveRefused(f"{piece.id}: take at least one piece.")
    if move.line.count > piece.count:
        there = "is only one piece" if piece.count == 1 else f"are only {piece.count} alike"
        raise MoveRefused(f"{piece.id}: {move.line.count} are wanted and there {there}; take fewer.")
    return move.line.count


def free_row(rack: Rack, row: RackRow) -> RackRow:
    if rack.find(key_of(row)) is not None:
        raise MoveRefused(f"There is {row.id} on the rack already: give the new one another name.")
    return row


def split_off(rack: Rack, move: RackMove, piece: Piece) -> tuple[Piece, list[RackRow]]:
    """The piece that so many of alike ones make, and the rows this takes: the others keep the name.

    Both came of the same piece, if of any.
    """
    count = counted_of(move, piece)
    if count == piece.count:
        return piece, []
    if not move.line.born:
        raise MoveRefused(f"{piece.id}: so many of alike pieces need a name of their own.")
    part = replace(piece, id=move.line.born[0], count=count)
    free_row(rack, part)
    copies = [replace(one, id=f"{part.id} {one.id}", piece=part.id) for one in rack.defects_of(piece.id)]
    return part, [replace(piece, count=piece.count - count), *copies]


def fewer(piece: Piece, count: int, state: PieceState) -> Piece:
    """The piece after so many of it are gone."""
    if count < piece.count:
        return replace(piece, count=piece.count - count)
    return replace(piece, state=state)


def reservation(move: RackMove, piece: Piece) -> Reservation:
    asked = next((row for row in move.rows if isinstance(row, Reservation)), None)
    if asked is None:
        return Reservation(piece.id, move.line.job, move.line.name, by=move.line.by)
    return replace(asked, id=piece.id, job=move.line.job)


def check_sound(row: RackRow) -> None:
    """A piece is one at least and has sizes above nothing; of a lot there may be none."""
    if isinstance(row, HardwareLot) and row.count < 0:
        raise MoveRefused(f"{row.id}: there cannot be fewer than none.")
    if not isinstance(row, Piece):
        return
    if row.count < 1:
        raise MoveRefused(f"{row.id}: there must be one piece at least.")
    for name, size in (("length", row.length), ("width", row.width), ("thickness", row.thickness)):
        if size is not None and size.value is not None and size.value.units <= 0:
            raise MoveRefused(f"{row.id}: its {name} must be more than nothing.")


def exceeds(much: Typed, whole: Typed | None) -> bool:
    value, most = much.value, whole.value if whole else None
    return value is not None and (value.units <= 0 or (most is not None and value > most))
