"""Wood at hand for the job."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.job import Defect, Job, Piece, PieceForm
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import free_id, new_id

FORMS: tuple[PieceForm, ...] = ("board", "billet", "leaf", "strip", "panel", "sheet", "core", "solid panel")


def add_piece(job: Job, form: str = "board") -> Edit:
    """A piece at hand, its sizes still to be typed."""
    if form not in FORMS:
        raise Refused(f"Form of a piece: choose one of {', '.join(FORMS)}.")
    new = Piece(new_id(job, "pieces", "P-01"), form)
    return Edit(f"add piece {new.id}", lambda before: before.put(new), select=new.id)


def moisture_read(job: Job, piece: str, when: str) -> Job:
    """The day of the meter goes with its figure; without a figure there is none."""
    row = job.pieces[piece]
    return job.put(replace(row, moisture_on=when if row.moisture is not None else ""))


def add_defect(job: Job, piece: str) -> Edit:
    """A bad place of a piece, still to be measured."""
    if piece not in job.pieces:
        raise Refused(f"“{piece}” is no longer there: choose another row.")
    mine = [one.id for one in job.defects.values() if one.piece == piece]
    new = Defect(free_id(job.defects, mine[-1] if mine else f"{piece} 0"), piece)
    return Edit(f"bad place of {piece}", lambda before: before.put(new), select=piece)


def copy_piece(job: Job, piece: str) -> Edit:
    """A piece once more, to be changed by itself."""
    found = job.pieces.get(piece)
    if found is None:
        raise Refused(f"“{piece}” is no longer there: choose another row.")
    new = replace(found, id=new_id(job, "pieces", piece, [piece]))
    return Edit(f"copy piece {piece}", lambda before: before.put(new), select=new.id)
