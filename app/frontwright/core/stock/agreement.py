"""Whether a job and the rack say the same of the wood that the job counts on."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.job import Job, Piece
from frontwright.core.stock.rack import GONE, Rack, taken_by


def disagreements(job: Job, rack: Rack, mark: str) -> Iterator[str]:
    """One sentence each on a piece of which the job (its mark) and the rack say different things.

    A piece that the rack never kept for this job is none, though it may have one of that name.
    """
    known = known_to(rack, mark)
    for piece in job.pieces.values():
        if piece.id in known and piece.id in rack.pieces:
            yield from _differs(piece, rack, mark)
    for piece in taken_by(rack, mark):
        if piece.id not in job.pieces:
            yield f"The rack keeps {piece.id} for this job, and the job does not count on it."


def known_to(rack: Rack, mark: str) -> set[str]:
    """The pieces that this job counted on, had in work or cut at some time, or gave their name."""
    known: set[str] = set()
    for made in rack.moves.values():
        if made.line.job == mark and made.line.kind in ("reserve", "take", "rename"):
            known.update(made.line.born or (made.line.piece,))
        elif made.line.job == mark and made.line.kind == "cut":
            known.add(made.line.piece)
    return known


def _differs(piece: Piece, rack: Rack, mark: str) -> Iterator[str]:
    there = rack.pieces[piece.id]
    held = rack.reservations.get(piece.id)
    if piece.state != there.state:
        yield f"{piece.id} is {piece.state} in the job and {there.state} on the rack."
    elif piece.state not in GONE and (held is None or held.job != mark):
        who = f"reserved by {held.name or 'another job'}" if held else "free for everybody"
        yield f"The job counts on {piece.id}, which is {who} on the rack."


def not_in_rack(job: Job, rack: Rack, mark: str) -> tuple[Piece, ...]:
    """The pieces of a job that the rack has never had from it: what can be taken into the rack."""
    known = known_to(rack, mark)
    return tuple(piece for piece in job.pieces.values() if piece.id not in known and piece.state not in GONE)
