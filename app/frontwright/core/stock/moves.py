"""What a move does to the rack, and when the wood says no. One rule a kind of move; a refusal is one sentence."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import fields, replace
from fractions import Fraction
from typing import Any

from frontwright.core.job import Defect, HardwareLot, Piece, PieceState, Reservation
from frontwright.core.lengths import Typed
from frontwright.core.stock.born import content
from frontwright.core.stock.rack import GONE, Key, Rack, RackMove, RackRow, is_over, key_of, with_moves

Outcome = tuple[list[RackRow], list[Key]]  # rows put, rows that go


class MoveRefused(Exception):
    """A move that the wood does not allow; `str()` is one sentence that names the piece and the way out."""


def after(rack: Rack, move: RackMove) -> Rack:
    """The rack after a move; the same rack if a move of that id was made already. MoveRefused if it cannot be.

    Of the rack only so much need be there: the rows that the move names, or that the one it takes back names; what
    hangs on those pieces (defects, reservation, what was cut of them), and the ledger's lines of its piece.
    """
    if move.id in rack.moves:
        return rack
    put, gone = _RULES[move.line.kind](rack, move)
    touched = list(dict.fromkeys([*(key_of(row) for row in put), *gone]))
    was = tuple(row for key in touched if (row := rack.find(key)) is not None)
    return with_moves(rack, [RackMove(move.line, tuple(put), was)])


def after_all(rack: Rack, moves: Iterable[RackMove]) -> Rack:
    """The rack after these moves one after the other; MoveRefused, and none of them made, if one cannot be."""
    for move in moves:
        rack = after(rack, move)
    return rack


# -- what every rule asks


def _piece(rack: Rack, move: RackMove) -> Piece:
    """The piece, still there to be used."""
    piece = rack.pieces.get(move.line.piece)
    if piece is None:
        raise MoveRefused(f"There is no piece {move.line.piece} on the rack: choose another.")
    if piece.state in GONE:
        raise MoveRefused(f"{piece.id} is {piece.state}: choose another piece.")
    return piece


def _own(rack: Rack, move: RackMove) -> Piece:
    """The piece, which no other job counts on or has in work."""
    piece = _piece(rack, move)
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


def _count(move: RackMove, piece: Piece) -> int:
    if move.line.count < 1:
        raise MoveRefused(f"{piece.id}: take at least one piece.")
    if move.line.count > piece.count:
        there = "is only one piece" if piece.count == 1 else f"are only {piece.count} alike"
        raise MoveRefused(f"{piece.id}: {move.line.count} are wanted and there {there}; take fewer.")
    return move.line.count


def _free_id(rack: Rack, row: RackRow) -> RackRow:
    if rack.find(key_of(row)) is not None:
        raise MoveRefused(f"There is {row.id} on the rack already: give the new one another name.")
    return row


def _split(rack: Rack, move: RackMove, piece: Piece) -> tuple[Piece, list[RackRow]]:
    """The piece that so many of alike ones make, and the rows this takes: the others keep the name.

    Both came of the same piece, if of any.
    """
    count = _count(move, piece)
    if count == piece.count:
        return piece, []
    if not move.line.born:
        raise MoveRefused(f"{piece.id}: so many of alike pieces need a name of their own.")
    part = replace(piece, id=move.line.born[0], count=count)
    _free_id(rack, part)
    copies = [replace(one, id=f"{part.id} {one.id}", piece=part.id) for one in rack.defects_of(piece.id)]
    return part, [replace(piece, count=piece.count - count), *copies]


def _fewer(piece: Piece, count: int, state: PieceState) -> Piece:
    """The piece after so many of it are gone."""
    if count < piece.count:
        return replace(piece, count=piece.count - count)
    return replace(piece, state=state)


def _reservation(move: RackMove, piece: Piece) -> Reservation:
    asked = next((row for row in move.rows if isinstance(row, Reservation)), None)
    if asked is None:
        return Reservation(piece.id, move.line.job, move.line.name, by=move.line.by)
    return replace(asked, id=piece.id, job=move.line.job)


# -- one rule a kind of move


def _come(rack: Rack, move: RackMove) -> Outcome:
    put = [_free_id(rack, row) for row in move.rows]
    for row in put:
        _check_sound(row)
        if isinstance(row, Piece) and row.state != "free":
            raise MoveRefused(f"{row.id} comes to the rack free; say afterwards what became of it.")
    if not put:
        raise MoveRefused(f"{move.line.piece}: nothing is said of what has come.")
    return put, []


def _check_sound(row: RackRow) -> None:
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


def _change(rack: Rack, move: RackMove) -> Outcome:
    """Only the fields that whoever asks has changed, so that what another changed meanwhile stays.

    A piece comes with all its defects: one that is not among them any more goes.
    """
    seen = {key_of(row): row for row in move.was}
    put = [_changed(rack, row, seen.get(key_of(row)), move) for row in move.rows]
    stays = {key_of(row) for row in move.rows}
    gone = [key for key, row in seen.items() if isinstance(row, Defect) and key not in stays and rack.find(key)]
    for row in put:
        _check_sound(row)
    return put, gone


def _changed(rack: Rack, row: RackRow, seen: RackRow | None, move: RackMove) -> RackRow:
    stands = rack.find(key_of(row))
    if stands is None:
        if isinstance(row, Defect) and row.piece in rack.pieces:
            return row
        raise MoveRefused(f"{row.id} is no longer on the rack: nothing of it can be changed.")
    names = [one.name for one in fields(row) if seen is None or getattr(row, one.name) != getattr(seen, one.name)]
    new = replace(stands, **{name: getattr(row, name) for name in names if name != "state"})
    held = rack.reservations.get(row.id)
    if isinstance(stands, Piece) and held is not None and held.job != move.line.job and _counts_differ(stands, new):
        raise MoveRefused(f"{row.id} is reserved by {held.name or 'another job'}: its number stays as it is.")
    return new


def _counts_differ(one: Piece, other: RackRow) -> bool:
    return isinstance(other, Piece) and one.count != other.count


def _reserve(rack: Rack, move: RackMove) -> Outcome:
    piece = _own(rack, move)
    if not move.line.job:
        raise MoveRefused(f"{piece.id}: a reservation needs a job that counts on it.")
    part, rows = _split(rack, move, piece)
    held = _reservation(move, part)
    if held.much is not None and _exceeds(held.much, part.length):
        raise MoveRefused(f"{piece.id} is shorter than what is to be reserved of it: reserve less.")
    return [*rows, part, held], []


def _exceeds(much: Typed, whole: Typed | None) -> bool:
    value, most = much.value, whole.value if whole else None
    return value is not None and (value.units <= 0 or (most is not None and value > most))


def _release(rack: Rack, move: RackMove) -> Outcome:
    piece = _piece(rack, move)
    held = rack.reservations.get(piece.id)
    if held is None:
        raise MoveRefused(f"{piece.id} is not reserved: there is nothing to release.")
    if held.job != move.line.job and not (move.line.why or is_over(held, move.line.when)):
        raise MoveRefused(f"{piece.id} is reserved by {held.name or 'another job'}: say why it is released.")
    if held.job != move.line.job and piece.state == "in work":
        raise MoveRefused(f"{piece.id} is in work in {held.name or 'another job'}: it can only be given back there.")
    return [replace(piece, state="free")], [key_of(held)]


def _take(rack: Rack, move: RackMove) -> Outcome:
    piece = _own(rack, move)
    if piece.state == "in work":
        raise MoveRefused(f"{piece.id} is in work already.")
    part, rows = _split(rack, move, piece)
    held = rack.reservations.get(part.id) or _reservation(move, part)
    return [*rows, replace(part, state="in work"), held], []


def _cut(rack: Rack, move: RackMove) -> Outcome:
    """Cut by a job: what is born comes free; the piece is used up, or in work until its last cut."""
    piece = _own(rack, move)
    count = _count(move, piece)
    born = [_free_id(rack, row) for row in move.rows]
    pieces = [row for row in born if isinstance(row, Piece)]
    for row in pieces:
        _check_sound(row)
    _check_content(piece, count, [*_cut_so_far(rack, piece), *pieces])
    if not move.line.ends:
        held = rack.reservations.get(piece.id) or _reservation(move, piece)
        return [*born, replace(piece, state="in work"), held], []
    return _ended(rack, piece, count, "used up", born)


def _ended(rack: Rack, piece: Piece, count: int, state: PieceState, born: list[RackRow]) -> Outcome:
    left = _fewer(piece, count, state)
    held = rack.reservations.get(piece.id)
    return [*born, left], ([key_of(held)] if held is not None and left.state in GONE else [])


def _check_content(piece: Piece, count: int, born: list[Piece]) -> None:
    for row in born:
        if row.length is not None and _exceeds(row.length, piece.length):
            raise MoveRefused(f"{row.id} is longer than {piece.id}, of which it is cut: measure it again.")
    whole, parts = content(piece), [(content(row) or Fraction(0)) * row.count for row in born]
    if whole is not None and sum(parts, Fraction(0)) > whole * count:
        raise MoveRefused(f"What is cut of {piece.id} is more than the piece: measure it again.")


def _cut_so_far(rack: Rack, piece: Piece) -> list[Piece]:
    """What came of the piece by cuts that left something of it in work."""
    born, back, ended = list[Piece](), taken_back(rack), False
    for made in rack.moves.values():
        if made.line.piece != piece.id or not holds(made.id, back):
            continue
        if made.line.kind == "cut":
            brought = [row for row in made.rows if isinstance(row, Piece) and row.id != piece.id]
            born, ended = (brought if ended else [*born, *brought]), made.line.ends
        elif made.line.kind == "join back":
            born, ended = [row for row in born if row.id not in made.line.born], False
    return [] if ended else born


def taken_back(rack: Rack) -> dict[str, str]:
    """Move -> the move that took it back, if one did."""
    return {made.line.undoes: made.id for made in rack.moves.values() if made.line.undoes}


def holds(move: str, back: dict[str, str]) -> bool:
    """Whether a move of the ledger holds: it was not taken back (see `taken_back`), or its taking back was."""
    return move not in back or not holds(back[move], back)


def _join_back(rack: Rack, move: RackMove) -> Outcome:
    """A cut was ticked wrongly: what was said to be born of it never was, and the piece is there as before.

    `ends`: nothing at all was cut of it; else it is in work.
    """
    piece = rack.pieces.get(move.line.piece)
    held = rack.reservations.get(move.line.piece)
    if piece is None or piece.state == "burned" or (held is not None and held.job != move.line.job):
        raise MoveRefused(f"{move.line.piece} has gone on since: its cuts cannot be taken back any more.")
    gone: list[Key] = []
    for name in move.line.born:
        row = rack.pieces.get(name)
        same = row is not None and row.from_piece == piece.id and row.state == "free" and row.count == 1
        if not same or name in rack.reservations or rack.born_of(name):
            raise MoveRefused(f"{name} has gone on since: the cut that it came of cannot be taken back any more.")
        gone += [("pieces", name), *(key_of(one) for one in rack.defects_of(name))]
    return [replace(piece, state="free" if move.line.ends else "in work"), held or _reservation(move, piece)], gone


def _use_up(rack: Rack, move: RackMove) -> Outcome:
    lot = rack.lots.get(move.line.piece)
    if lot is not None:
        if move.line.count < 1 or move.line.count > lot.count:
            raise MoveRefused(f"{lot.id}: {move.line.count} are wanted and {lot.count} are there; take fewer.")
        return [replace(lot, count=lot.count - move.line.count)], []
    piece = _own(rack, move)
    return _ended(rack, piece, _count(move, piece), "used up", [])


def _burn(rack: Rack, move: RackMove) -> Outcome:
    piece = _own(rack, move)
    return _ended(rack, piece, _count(move, piece), "burned", [])


def _counted(rack: Rack, move: RackMove) -> Outcome:
    """What was found when the shelves were walked along: so many (none: it is used up), here, of these sizes."""
    name = move.line.piece
    if not move.line.why.strip():
        raise MoveRefused(f"{name}: a correction needs its reason.")
    if move.line.count < 0:
        raise MoveRefused(f"{name}: there cannot be fewer than none.")
    lot = rack.lots.get(name)
    if lot is not None:
        return [replace(lot, count=move.line.count)], []
    stands = rack.pieces.get(name)
    if stands is None:
        raise MoveRefused(f"There is no piece {name} on the rack: enter it as a new one.")
    held = rack.reservations.get(name)
    if move.line.count == 0:
        return [replace(stands, state="used up", looked=move.line.when[:10])], [key_of(held)] if held else []
    asked = next((row for row in move.rows if isinstance(row, Piece)), stands)
    state = "free" if stands.state in GONE else stands.state
    found = replace(asked, id=name, count=move.line.count, state=state, looked=move.line.when[:10])
    _check_sound(found)
    return [found], []


def _look(rack: Rack, move: RackMove) -> Outcome:
    return [replace(_piece(rack, move), looked=move.line.when[:10])], []


def _made_into(rack: Rack, move: RackMove) -> Outcome:
    """What a job made of a piece, all of it as the job has it now: the last such line of a job holds."""
    if move.line.piece not in rack.pieces:
        raise MoveRefused(f"There is no piece {move.line.piece} on the rack: choose another.")
    return [], []


def _rename(rack: Rack, move: RackMove) -> Outcome:
    """The name on the label: everything that named the piece names it so."""
    piece = _own(rack, move)
    if not move.line.born:
        raise MoveRefused(f"{piece.id}: say the new name.")
    new = replace(piece, id=move.line.born[0])
    put: list[RackRow] = [_free_id(rack, new)]
    put += [replace(one, piece=new.id) for one in rack.defects_of(piece.id)]
    put += [replace(one, from_piece=new.id) for one in rack.born_of(piece.id)]
    held = rack.reservations.get(piece.id)
    return put + ([replace(held, id=new.id)] if held else []), [key_of(piece), *([key_of(held)] if held else [])]


# -- taking a move back

_SOFT = {"shelf", "note", "photo", "figure", "looked", "grade", "cut", "moisture", "moisture_on", "price"}


def _take_back(rack: Rack, move: RackMove) -> Outcome:
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
    return put, gone


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
    _check_sound(restored)
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


_RULES: dict[str, Callable[[Rack, RackMove], Outcome]] = {
    "come": _come,
    "change": _change,
    "reserve": _reserve,
    "release": _release,
    "take": _take,
    "cut": _cut,
    "join back": _join_back,
    "use up": _use_up,
    "burn": _burn,
    "count": _counted,
    "look": _look,
    "made into": _made_into,
    "rename": _rename,
    "take back": _take_back,
}
