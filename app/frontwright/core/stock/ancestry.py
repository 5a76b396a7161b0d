""" "Which board did that door come from, and is any left": from what was made back to the wood, and the other way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from frontwright.core.job import Job, Move, Piece
from frontwright.core.stock.agreement import known_to
from frontwright.core.stock.rack import GONE, Rack
from frontwright.core.stock.taking_back import holds, taken_back


@dataclass(frozen=True, slots=True)
class MadeInto:
    """What a job (its mark, and what it is called) made of a piece, by names: "billet P", "leaf P1", "part DA-TR"."""

    piece: str
    job: str
    name: str
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Descent:
    """A piece among its kin: the boards it came of, the first bought first; what came of it, near and far; its uses."""

    piece: Piece
    came_of: tuple[Piece, ...]
    born: tuple[Piece, ...]
    uses: tuple[MadeInto, ...]

    @property
    def left(self) -> tuple[Piece, ...]:
        """What is there still, of the piece itself and of all that came of it."""
        return tuple(one for one in (self.piece, *self.born) if one.state not in GONE)


def descent(rack: Rack, piece: str) -> Descent | None:
    """Where a piece came from and what became of it; None if the rack never had it."""
    found = rack.pieces.get(piece)
    if found is None:
        return None
    born = tuple(_all_born(rack, piece, {piece}))
    names = {piece, *(one.id for one in born)}
    uses = tuple(one for one in made_into(rack).values() if one.piece in names)
    return Descent(found, tuple(reversed(tuple(_parents(rack, found)))), born, uses)


def _parents(rack: Rack, piece: Piece) -> Iterator[Piece]:
    seen = {piece.id}
    while piece.from_piece and piece.from_piece in rack.pieces and piece.from_piece not in seen:
        piece = rack.pieces[piece.from_piece]
        seen.add(piece.id)
        yield piece


def _all_born(rack: Rack, piece: str, seen: set[str]) -> Iterator[Piece]:
    for one in rack.born_of(piece):
        if one.id not in seen:
            seen.add(one.id)
            yield one
            yield from _all_born(rack, one.id, seen)


def made_into(rack: Rack) -> dict[tuple[str, str], MadeInto]:
    """What each job made of each piece (piece, job): as its last line in the ledger says."""
    last, back = dict[tuple[str, str], MadeInto](), taken_back(rack)
    for made in rack.moves.values():
        if made.line.kind == "made into" and holds(made.id, back):
            line = made.line
            last[line.piece, line.job] = MadeInto(line.piece, line.job, line.name, line.parts)
    return {key: use for key, use in last.items() if use.parts}


def pieces_of(rack: Rack, subject: str, job: str = "") -> tuple[Piece, ...]:
    """The pieces that a front, part, leaf or billet came of (of that job's mark, else of any job)."""
    return tuple(
        rack.pieces[use.piece]
        for use in made_into(rack).values()
        if (not job or use.job == job) and use.piece in rack.pieces and any(names(one, subject) for one in use.parts)
    )


def names(part: str, subject: str) -> bool:
    """Whether a name such as "leaf P1 for DA" or "part DA-TR" is of this subject."""
    words = part.split()
    return subject in words or any(word.startswith(f"{subject}-") for word in words)


# -- what a job made of its pieces, as it stands in the job


def made_by(job: Job) -> dict[str, tuple[str, ...]]:
    """Piece -> what the job made of it: billets, leaves sawn (with their front), parts whose cuts are done."""
    uses: dict[str, list[str]] = {}
    for billet in job.billets.values():
        if billet.piece:
            uses.setdefault(billet.piece, []).append(f"billet {billet.id}")
            leaves = (leaf for leaf in job.leaves.values() if leaf.billet == billet.id)
            uses[billet.piece] += [f"leaf {leaf.id}" + (f" for {leaf.front}" if leaf.front else "") for leaf in leaves]
    begun = {cut.laid for cut in job.cuts_done.values()}
    for part in job.laid_parts.values():
        laid = job.laid.get(part.laid)
        if laid is not None and laid.piece and laid.id in begun:
            uses.setdefault(laid.piece, []).append(f"part {part.part}")
    return {piece: tuple(dict.fromkeys(parts)) for piece, parts in uses.items()}


def not_yet_told(rack: Rack, job: Job, mark: str, name: str) -> Iterator[Move]:
    """The lines that the ledger lacks of what this job made of the rack's pieces; their ids are still to be given."""
    told = {piece: use.parts for (piece, whose), use in made_into(rack).items() if whose == mark}
    now, known = made_by(job), known_to(rack, mark)
    for piece in dict.fromkeys([*now, *told]):
        if piece in rack.pieces and piece in known and now.get(piece, ()) != told.get(piece, ()):
            yield Move("", "made into", piece, parts=now.get(piece, ()), job=mark, name=name)
