"""What a move does to the rack, and when the wood says no. One rule a kind of move; a refusal is one sentence."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import fields, replace
from fractions import Fraction

from frontwright.core.job import Defect, Piece, PieceState, Reservation
from frontwright.core.stock.asked_of_moves import (
    MoveRefused,
    Outcome,
    check_sound,
    counted_of,
    exceeds,
    fewer,
    free_row,
    own,
    reservation,
    split_off,
    there,
)
from frontwright.core.stock.born import content
from frontwright.core.stock.lots import release_lot, reserve_lot, use_lot
from frontwright.core.stock.rack import GONE, Key, Rack, RackMove, RackRow, is_over, key_of, with_moves
from frontwright.core.stock.taking_back import holds, take_back, taken_back


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


# -- one rule a kind of move


def _come(rack: Rack, move: RackMove) -> Outcome:
    put = [free_row(rack, row) for row in move.rows]
    for row in put:
        check_sound(row)
        if isinstance(row, Piece) and row.state != "free":
            raise MoveRefused(f"{row.id} comes to the rack free; say afterwards what became of it.")
    if not put:
        raise MoveRefused(f"{move.line.piece}: nothing is said of what has come.")
    return put, []


def _change(rack: Rack, move: RackMove) -> Outcome:
    """Only the fields that whoever asks has changed, so that what another changed meanwhile stays.

    A piece comes with all its defects: one that is not among them any more goes.
    """
    seen = {key_of(row): row for row in move.was}
    put = [_changed(rack, row, seen.get(key_of(row)), move) for row in move.rows]
    stays = {key_of(row) for row in move.rows}
    gone = [key for key, row in seen.items() if isinstance(row, Defect) and key not in stays and rack.find(key)]
    for row in put:
        check_sound(row)
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
    if isinstance(new, Piece) and "length" in names and held is not None and _too_short_for(held, new):
        raise MoveRefused(f"{row.id}: {held.name or 'a job'} has reserved more of it than that; release it first.")
    return new


def _too_short_for(held: Reservation, piece: Piece) -> bool:
    return held.much is not None and exceeds(held.much, piece.length)


def _counts_differ(one: Piece, other: RackRow) -> bool:
    return isinstance(other, Piece) and one.count != other.count


def _reserve(rack: Rack, move: RackMove) -> Outcome:
    if move.line.piece in rack.lots:
        return reserve_lot(rack, move)
    piece = own(rack, move)
    if not move.line.job:
        raise MoveRefused(f"{piece.id}: a reservation needs a job that counts on it.")
    part, rows = split_off(rack, move, piece)
    held = reservation(move, part)
    if held.much is not None and exceeds(held.much, part.length):
        raise MoveRefused(f"{piece.id} is shorter than what is to be reserved of it: reserve less.")
    return [*rows, part, held], []


def _release(rack: Rack, move: RackMove) -> Outcome:
    if move.line.piece in rack.lots:
        return release_lot(rack, move)
    piece = there(rack, move)
    held = rack.reservations.get(piece.id)
    if held is None:
        raise MoveRefused(f"{piece.id} is not reserved: there is nothing to release.")
    if held.job != move.line.job and not (move.line.why or is_over(held, move.line.when)):
        raise MoveRefused(f"{piece.id} is reserved by {held.name or 'another job'}: say why it is released.")
    if held.job != move.line.job and piece.state == "in work":
        raise MoveRefused(f"{piece.id} is in work in {held.name or 'another job'}: it can only be given back there.")
    return [replace(piece, state="free")], [key_of(held)]


def _take(rack: Rack, move: RackMove) -> Outcome:
    piece = own(rack, move)
    if piece.state == "in work":
        raise MoveRefused(f"{piece.id} is in work already.")
    part, rows = split_off(rack, move, piece)
    held = rack.reservations.get(part.id) or reservation(move, part)
    return [*rows, replace(part, state="in work"), held], []


def _cut(rack: Rack, move: RackMove) -> Outcome:
    """Cut by a job: what is born comes free; the piece is used up, or in work until its last cut."""
    piece = own(rack, move)
    count = counted_of(move, piece)
    born = [free_row(rack, row) for row in move.rows]
    pieces = [row for row in born if isinstance(row, Piece)]
    for row in pieces:
        check_sound(row)
    _check_content(piece, count, [*_cut_so_far(rack, piece), *pieces])
    if not move.line.ends:
        held = rack.reservations.get(piece.id) or reservation(move, piece)
        return [*born, replace(piece, state="in work"), held], []
    return _ended(rack, piece, count, "used up", born)


def _ended(rack: Rack, piece: Piece, count: int, state: PieceState, born: list[RackRow]) -> Outcome:
    left = fewer(piece, count, state)
    held = rack.reservations.get(piece.id)
    return [*born, left], ([key_of(held)] if held is not None and left.state in GONE else [])


def _check_content(piece: Piece, count: int, born: list[Piece]) -> None:
    for row in born:
        if row.length is not None and exceeds(row.length, piece.length):
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
    return [replace(piece, state="free" if move.line.ends else "in work"), held or reservation(move, piece)], gone


def _use_up(rack: Rack, move: RackMove) -> Outcome:
    if move.line.piece in rack.lots:
        return use_lot(rack, move)
    piece = own(rack, move)
    return _ended(rack, piece, counted_of(move, piece), "used up", [])


def _burn(rack: Rack, move: RackMove) -> Outcome:
    piece = own(rack, move)
    return _ended(rack, piece, counted_of(move, piece), "burned", [])


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
    check_sound(found)
    if held is not None and _too_short_for(held, found):  # what lies there is a fact: all of it is counted on now
        return [found, replace(held, much=None)], []
    return [found], []


def _look(rack: Rack, move: RackMove) -> Outcome:
    return [replace(there(rack, move), looked=move.line.when[:10])], []


def _made_into(rack: Rack, move: RackMove) -> Outcome:
    """What a job made of a piece, all of it as the job has it now: the last such line of a job holds."""
    if move.line.piece not in rack.pieces:
        raise MoveRefused(f"There is no piece {move.line.piece} on the rack: choose another.")
    return [], []


def _rename(rack: Rack, move: RackMove) -> Outcome:
    """The name on the label: everything that named the piece names it so."""
    piece = own(rack, move)
    if not move.line.born:
        raise MoveRefused(f"{piece.id}: say the new name.")
    new = replace(piece, id=move.line.born[0])
    put: list[RackRow] = [free_row(rack, new)]
    put += [replace(one, piece=new.id) for one in rack.defects_of(piece.id)]
    put += [replace(one, from_piece=new.id) for one in rack.born_of(piece.id)]
    held = rack.reservations.get(piece.id)
    return put + ([replace(held, id=new.id)] if held else []), [key_of(piece), *([key_of(held)] if held else [])]


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
    "take back": take_back,
}
