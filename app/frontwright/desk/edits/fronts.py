"""The look and the fronts: what an opening holds, rows and columns of fronts."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal, cast

from frontwright.core.job import Front, FrontKind, FrontRow, Job
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import columns_of, free_id, new_id, openings_of, place_ids, run_of

HOLDS = ("door", "pair", "drawer", "fixed", "appliance", "glass", "open")
WITHOUT_FRONT = ("appliance", "open")


def fronts_of(job: Job, opening: str) -> list[Front]:
    """The fronts of an opening, from the left."""
    return sorted((f for f in job.fronts.values() if f.opening == opening), key=lambda f: f.place)


def held_by(job: Job, opening: str) -> str:
    """What an opening holds, as one of `HOLDS`."""
    fronts = fronts_of(job, opening)
    if len(fronts) > 1:
        return "pair"
    return fronts[0].kind if fronts else "open"


def with_front(job: Job, opening: str) -> Job:
    """The job with one door on an opening that has no front yet."""
    return job if fronts_of(job, opening) else job.put(Front(_free(job, f"F{opening}"), opening))


def hold(job: Job, opening: str, text: str) -> Edit:
    """What an opening holds: makes its fronts, or takes them away; their build, grain and rows are kept."""
    if opening not in job.openings:
        raise Refused(f"“{opening}” is no longer there: choose another row.")
    if text not in HOLDS:
        raise Refused(f"What {opening} holds: choose one of {', '.join(HOLDS)}.")
    return Edit(f"what {opening} holds", lambda before: _held(before, opening, text), f"openings/{opening}/fronts")


def _held(job: Job, opening: str, text: str) -> Job:
    old = fronts_of(job, opening)
    if held_by(job, opening) == text and old:
        return job
    bare = job.drop(Front, *(f.id for f in old))
    new = _pair(bare, opening, old) if text == "pair" else [_one(bare, opening, old, cast(FrontKind, text))]
    changed = bare.put(*new)
    kept = [] if text in WITHOUT_FRONT else [f.id for f in new]
    return _rows_with(changed, [f.id for f in old], kept)


def _one(job: Job, opening: str, old: list[Front], kind: FrontKind) -> Front:
    if len(old) == 1:
        return replace(old[0], kind=kind)
    row = _free(job, f"F{opening}")
    if not old:
        return Front(row, opening, kind)
    return replace(old[0], id=row, kind=kind, place=1, hinge_side=None, pin_right=old[-1].pin_right)


def _pair(job: Job, opening: str, old: list[Front]) -> list[Front]:
    stem = f"F{opening}"
    if not old:
        return [Front(_free(job, f"{stem}L"), opening, place=1), Front(_free(job, f"{stem}R"), opening, place=2)]
    left = replace(old[0], id=_free(job, f"{stem}L"), kind="door", place=1, hinge_side=None, pin_right=None)
    right = replace(old[0], id=_free(job, f"{stem}R"), kind="door", place=2, hinge_side=None, pin_left=None)
    return [left, right]


def _free(job: Job, row: str) -> str:
    taken = place_ids(job)
    return row if row not in taken else free_id(taken, row)


def _rows_with(job: Job, gone: list[str], new: list[str]) -> Job:
    """Rows of fronts with the new ones in place of the old; a row that has nothing left goes."""
    for row in list(job.front_rows.values()):
        first = next((i for i, one in enumerate(row.fronts) if one in gone), None)
        if first is None or [one for one in row.fronts if one in gone] == new:
            continue
        left = [one for one in row.fronts[:first] if one not in gone]
        right = [one for one in row.fronts[first:] if one not in gone]
        fronts = (*left, *new, *right)
        job = job.put(replace(row, fronts=fronts)) if fronts else job.drop(FrontRow, row.id)
    return job


def add_row(job: Job, front: str, direction: str) -> Edit:
    """A row of fronts at the height of this one, or its column, whose grain may run through and edges be shared."""
    found = job.fronts.get(front)
    if found is None:
        raise Refused(f"“{front}” is no longer there: choose another front.")
    way: Literal["row", "column"] = "column" if direction == "column" else "row"
    fronts = _level_with(job, found) if way == "row" else _over_and_under(job, found)
    if len(fronts) < 2:
        raise Refused(f"{front} stands alone in its {way}; a {way} takes two fronts or more.")
    new = FrontRow(new_id(job, "front_rows", f"{way} 1"), way, tuple(fronts))
    return Edit(f"add {way} of {front}", lambda before: before.put(new), select=front)


def _level_with(job: Job, front: Front) -> list[str]:
    """Fronts of the run in openings at the same place from the top."""
    opening = job.openings.get(front.opening)
    run = run_of(job, front.opening)
    if opening is None or run is None:
        return []
    openings = [o for c in columns_of(job, run.id) for o in openings_of(job, c.id) if o.place == opening.place]
    return _with_fronts(job, [o.id for o in openings], front.kind)


def _over_and_under(job: Job, front: Front) -> list[str]:
    opening = job.openings.get(front.opening)
    return _with_fronts(job, [o.id for o in openings_of(job, opening.column)], None) if opening else []


def _with_fronts(job: Job, openings: list[str], kind: FrontKind | None) -> list[str]:
    drawers = {"drawer", "fixed"}
    alike = drawers if kind in drawers else {kind}
    fronts = [f for one in openings for f in fronts_of(job, one) if f.kind not in WITHOUT_FRONT]
    return [f.id for f in fronts if kind is None or f.kind in alike]


def let_go(job: Job, front: str) -> Edit:
    """The edges of a front back to where the lines put them."""
    found = job.fronts.get(front)
    if found is None:
        raise Refused(f"“{front}” is no longer there: choose another front.")
    free = replace(found, pin_left=None, pin_right=None, pin_bottom=None, pin_top=None)
    return Edit(f"let {front} go", lambda before: before.put(free), select=front)
