"""What an edit of a job is for the rack: pieces that differ, are called otherwise, or of which something was made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from frontwright.core.job import Defect, Job
from frontwright.core.stock.ancestry import made_by
from frontwright.core.stock.rack import Rack, RackMove, RackRow
from frontwright.desk.edits.rows import renamed
from frontwright.desk.wording.numbers import count_of

if TYPE_CHECKING:
    from frontwright.store.outbox import Intent


def of_this_rack(rack: Rack, intent: Intent) -> list[RackMove]:
    """The moves of an intent without those that take back what this rack never did: it is another, or new."""
    return [move for move in intent.moves if move.line.kind != "take back" or move.line.undoes in rack.moves]


def made_differs(before: Job, after: Job) -> bool:
    names = ("billets", "leaves", "laid", "laid_parts", "cuts_done")
    if all(getattr(before, name) is getattr(after, name) for name in names):
        return False
    return made_by(before) != made_by(after)


def with_bad_places(job: Job, piece: str, defects: Sequence[Defect]) -> Job:
    return job.drop(Defect, *(one.id for one in job.defects.values() if one.piece == piece)).put(*defects)


def all_renamed(job: Job, anew: dict[str, str]) -> Job:
    for old, new in anew.items():
        job = job if old == new else renamed(job, "pieces", old, new)
    return job


def named(pieces: Sequence[str]) -> str:
    return pieces[0] if len(pieces) == 1 else count_of(len(pieces), "piece")


def with_defects(job: Job, piece: str, *, free: bool = False) -> tuple[RackRow, ...]:
    """A piece of the job with its bad places; nothing if the job has it not."""
    found = job.pieces.get(piece)
    if found is None:
        return ()
    row = replace(found, state="free") if free else found
    return (row, *(one for one in job.defects.values() if one.piece == piece))


def touched(before: Job, after: Job) -> list[str]:
    """The pieces that differ between two states of a job, in themselves or by a bad place."""
    pieces = [
        key for key in dict.fromkeys([*before.pieces, *after.pieces]) if before.pieces.get(key) != after.pieces.get(key)
    ]
    defects = [
        row.piece
        for key in dict.fromkeys([*before.defects, *after.defects])
        if before.defects.get(key) != after.defects.get(key)
        for row in (before.defects.get(key), after.defects.get(key))
        if row is not None
    ]
    return list(dict.fromkeys([*pieces, *defects]))


def renamed_piece(before: Job, after: Job) -> tuple[str, str] | None:
    """Old and new name, where all that happened to the pieces is that one is called otherwise."""
    gone = [piece for piece in before.pieces if piece not in after.pieces]
    new = [piece for piece in after.pieces if piece not in before.pieces]
    if len(gone) != 1 or len(new) != 1:
        return None
    same = replace(before.pieces[gone[0]], id=new[0]) == after.pieces[new[0]]
    return (gone[0], new[0]) if same else None
