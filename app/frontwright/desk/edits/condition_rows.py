"""Rows of condition and brief whose id alone says what they are: a surface of a run, the hinges of an opening."""

from __future__ import annotations

from typing import Any, get_args

from frontwright.core.brief import QUESTIONS
from frontwright.core.job import Asked, Brief, Drawer, Job, OldHinge, Photo, PhotoWhat, Surface, SurfaceWhere

WHERES: tuple[SurfaceWhere, ...] = get_args(SurfaceWhere)
PHOTOS: tuple[PhotoWhat, ...] = get_args(PhotoWhat)
_KEYS = frozenset(question.key for question in QUESTIONS)
TABLES = ("surfaces", "old_hinges", "drawers", "briefs", "asked", "photos")


def condition_row(job: Job, table: str, row: str) -> Any:
    """A new row of this table for its id; None where the id is that of nothing in the job."""
    if table == "briefs":
        return Brief() if row == "brief" else None
    if table == "asked":
        return Asked(row) if row in _KEYS else None
    if table in ("old_hinges", "drawers"):
        made = OldHinge if table == "old_hinges" else Drawer
        return made(row) if row in job.openings else None
    return _of_a_run(job, table, row)


def _of_a_run(job: Job, table: str, row: str) -> Surface | Photo | None:
    """A surface or a photograph by the run that its id begins with."""
    for run in job.runs:
        what = row.removeprefix(f"{run} ")
        if table == "surfaces":
            for where in WHERES:
                if where == what and row != what:
                    return Surface(row, run, where)
        else:
            for photo in PHOTOS:
                if photo == what and row != what:
                    return Photo(row, run, photo)
    return None


def surface_id(job: Job, run: str, where: str) -> str:
    """The id of a surface of a run, also where nothing was said of it yet."""
    return next((row.id for row in job.surfaces.values() if (row.run, row.where) == (run, where)), f"{run} {where}")


def photo_id(job: Job, run: str, what: str) -> str:
    """The id of a photograph of a run, likewise."""
    return next((row.id for row in job.photos.values() if (row.run, row.what) == (run, what)), f"{run} {what}")
