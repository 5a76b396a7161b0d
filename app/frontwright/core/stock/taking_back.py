"""A move of the rack taken back: every row as it was before it, if the wood has not gone on since."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, replace
from typing import Any

from frontwright.core.job import Piece, Reservation
from frontwright.core.stock.asked_of_moves import MoveRefused, Outcome, check_sound, exceeds
from frontwright.core.stock.rack import GONE, Key, Rack, RackMove, RackRow, key_of

_SOFT = {"shelf", "note", "photo", "figure", "looked", "grade", "cut", "moisture", "moisture_on", "price"}


def take_back(rack: Rack, move: RackMove) -> Outcome:
    """Every row as it was before the move, if the wood has not gone on since; what is said of a piece may have."""
    made = rack.moves.get(move.line.undoes)
    if made is None:
        raise MoveRefused(f"The move that is to be taken back is not in the ledger ({move.line.undoes}).")
    if any(one.line.undoes == made.id for one in rack.moves.values()):
        raise MoveRefused(f"{made.line.piece}: this was taken back already.")
    was, now = ({key_of(row): row for row in rows} for rows in (made.was, made.rows))
    put: list[RackRow] = []
    gone: list[Key] = []
    for key in dict.fromkeys([*now, *was]):
        stands = rack.find(key)
        if key in now and key in was:
            put.append(_restored(stands, was[key], now[key]))
        elif key in now:
            _check_untouched(rack, made, stands, now[key])
            gone.append(key)
        else:
            if stands is not None:
                raise MoveRefused(f"{_where(key)} since: this cannot be taken back any more.")
            put.append(was[key])
    _check_held(rack, put, gone)
    return put, gone


def _check_held(rack: Rack, put: Sequence[RackRow], gone: Sequence[Key]) -> None:
    """What would be reserved then is still there, and as much of it; what is in work stays with who has it."""
    pieces = {row.id: row for row in put if isinstance(row, Piece)}
    held = {row.id: row for row in put if isinstance(row, Reservation)}
    ended = [name for table, name in gone if table == "reservations"]
    for name in dict.fromkeys([*pieces, *held, *ended]):
        piece = pieces.get(name, rack.pieces.get(name))
        row = None if name in ended else held.get(name, rack.reservations.get(name))
        if piece is None or ("pieces", name) in gone:
            continue
        lost = piece.state == "in work" if row is None else piece.state in GONE or _holds_more(row, piece)
        if lost:
            raise MoveRefused(f"{name} has gone on since: this cannot be taken back any more.")


def _holds_more(row: Reservation, piece: Piece) -> bool:
    return row.much is not None and exceeds(row.much, piece.length)


def _where(key: Key) -> str:
    return f"{key[1]} has been reserved" if key[0] == "reservations" else f"{key[1]} has come again"


def _restored(stands: RackRow | None, was: RackRow, now: RackRow) -> RackRow:
    if stands is None:
        raise MoveRefused(f"{was.id} has gone on since: this cannot be taken back any more.")
    changed = [one.name for one in fields(was) if getattr(was, one.name) != getattr(now, one.name)]
    back: dict[str, Any] = {}
    for name in changed:
        if name == "count":
            back[name] = getattr(stands, name) + getattr(was, name) - getattr(now, name)
        elif getattr(stands, name) != getattr(now, name) and name != "looked":
            raise MoveRefused(f"{was.id} has gone on since: this cannot be taken back any more.")
        else:
            back[name] = getattr(was, name)
    restored = replace(stands, **back)
    check_sound(restored)
    return restored


def _check_untouched(rack: Rack, made: RackMove, stands: RackRow | None, now: RackRow) -> None:
    """A row that the move brought can go again: it is as it came, nothing was cut of it and nobody counts on it."""
    same = stands is not None and all(
        getattr(stands, one.name) == getattr(now, one.name) for one in fields(now) if one.name not in _SOFT
    )
    brought = {key_of(row) for row in made.rows}
    held = isinstance(now, Piece) and (
        (now.id in rack.reservations and ("reservations", now.id) not in brought)
        or any(("pieces", one.id) not in brought for one in rack.born_of(now.id))
    )
    if not same or held:
        raise MoveRefused(f"{now.id} has gone on since: this cannot be taken back any more.")


def taken_back(rack: Rack) -> dict[str, str]:
    """Move -> the move that took it back, if one did."""
    return {made.line.undoes: made.id for made in rack.moves.values() if made.line.undoes}


def holds(move: str, back: dict[str, str]) -> bool:
    """Whether a move of the ledger holds: it was not taken back (see `taken_back`), or its taking back was."""
    return move not in back or not holds(back[move], back)
