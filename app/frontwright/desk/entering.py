"""What is typed into a cell of an open job: the edit of it, and why an earlier text was not taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from frontwright.core.job import Job, Shop
from frontwright.core.job.references import REFERENCES
from frontwright.desk.acting import Acts
from frontwright.desk.edits import making
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.entry import entered
from frontwright.desk.edits.rows import table
from frontwright.desk.keys import Place


def edit_of_cell(job: Job, shop: Shop, place: str, text: str, *, correcting: bool, today: str) -> Edit:
    """The edit of a cell; an entry of the shop that is chosen comes with it into the job. Refused where it cannot be.

    `correcting`: the cell was the last one entered, so what stands there is put right; `today`: noted with a reading.
    """
    where = Place.of(place)
    homes = REFERENCES.get(where.table, {}).get(where.field, ())
    home = next((h for h in homes if h in Shop.kinds() and text in table(shop, h)), None)
    if home is None or text in table(job, home):
        return entered(job, place, text, correcting, today)
    edit = entered(making.taken_over(job, shop, home, text), place, text)
    return replace(edit, change=lambda before: edit.change(making.taken_over(before, shop, home, text)))


def why_not_taken(job: Job, place: str, text: str) -> str:
    """Why a draft of an earlier sitting was not taken; empty where it was only half typed."""
    if Acts.takes(place):
        return ""
    try:
        entered(job, place, text)
    except Refused as refused:
        return str(refused)
    except ValueError:
        return ""
    return ""


def after_all(job: Job, edits: Sequence[Edit]) -> Job:
    """The job after these edits, one after the other."""
    for edit in edits:
        job = edit.change(job)
    return job
