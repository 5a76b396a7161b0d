"""Rows found, made, renamed and taken away with all that hangs on them: what every chapter's edits have in common."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from frontwright.core.job import (
    Allowances,
    AsBuilt,
    Column,
    End,
    Facing,
    FinishRoom,
    Heading,
    Job,
    LabelSheet,
    Limits,
    Look,
    Member,
    OldFront,
    Opening,
    Pricing,
    Reading,
    Run,
    Shop,
    Table,
)
from frontwright.core.job.declared import Declared, declared
from frontwright.core.job.references import REFERENCES
from frontwright.desk.edits import condition_rows, veneer_rows
from frontwright.desk.edits.edit import Refused

PLACES = ("rooms", "runs", "cabinets", "members", "columns", "openings", "fronts")
SIZES = next(field.choices for field in declared(AsBuilt) if field.name == "what")
_HOMES: dict[str, tuple[str, ...]] = {  # what is read -> the tables whose rows have such readings
    "width": ("openings",),
    "height": ("openings", "runs"),
    "diagonal": ("openings",),
    "wind gap": ("openings",),
    "overall": ("runs",),
    "across": ("members", "columns"),
}


def table(whole: Job | Shop, name: str) -> Table[Any]:
    """A table by its name; Refused if there is none."""
    if name not in whole.kinds():
        raise Refused(f"There is no table “{name}”: choose a cell of the page.")
    found: Table[Any] = getattr(whole, name)
    return found


def fields_of(kind: Any) -> tuple[Declared, ...]:
    """The declared fields of a row class."""
    return declared(kind)


def field_of(whole: Job | Shop, table_name: str, field: str) -> Declared:
    """What is declared of a field; Refused if there is none of that name."""
    table(whole, table_name)
    for one in fields_of(whole.kinds()[table_name]):
        if one.name == field:
            return one
    raise Refused(f"There is no field “{field}” in {table_name}: choose a cell of the page.")


def row_or_new(whole: Job | Shop, table_name: str, row: str) -> Any:
    """The row of this id; a new one where its id alone says what it is (ends, looks, old fronts, single rows)."""
    found = table(whole, table_name).get(row)
    if found is not None:
        return found
    made = _made(whole, table_name, row) if isinstance(whole, Job) else _single(table_name, row)
    if made is None:
        raise Refused(f"“{row}” is no longer there: choose another row.")
    return made


def _single(table_name: str, row: str) -> Any:
    if (table_name, row) == ("allowances", "allowances"):
        return Allowances()
    if (table_name, row) == ("label_sheets", "labels"):
        return LabelSheet()
    if (table_name, row) == ("pricings", "pricing"):
        return Pricing()
    if (table_name, row) == ("finish_rooms", "finish room"):
        return FinishRoom()
    return Limits() if (table_name, row) == ("limits", "limits") else None


def _made(job: Job, table_name: str, row: str) -> Any:
    if table_name == "headings" and row == "job":
        return Heading()
    if table_name == "looks" and look_subject(job, row):
        return Look(row)
    if table_name == "facings" and row in job.runs:
        return Facing(row)
    if table_name == "old_fronts" and row in job.openings:
        return OldFront(row, row)
    if table_name == "ends":
        return _end(job, row)
    if table_name == "as_built":
        return _as_built(row)
    if table_name in condition_rows.TABLES:
        return condition_rows.condition_row(job, table_name, row)
    if table_name in veneer_rows.TABLES:
        return veneer_rows.veneer_row(job, table_name, row)
    return _single(table_name, row)


def _as_built(row: str) -> AsBuilt | None:
    """The row that an id of a size as built stands for: part and size, as in "F7R-P thickness"."""
    what = next((one for one in SIZES if row.endswith(f" {one}")), None)
    return AsBuilt(row, row.removesuffix(f" {what}"), what) if what else None  # type: ignore[arg-type]  # one of SIZES


def _end(job: Job, row: str) -> End | None:
    run, _, side = row.rpartition(" ")
    if run not in job.runs:
        return None
    if side == "left":
        return End(row, run, "left")
    return End(row, run, "right") if side == "right" else None


def end_id(job: Job, run: str, side: str) -> str:
    """The id of a run's end, also where nothing was said of it yet."""
    return next((end.id for end in job.ends.values() if (end.run, end.side) == (run, side)), f"{run} {side}")


def look_subject(job: Job, look: str) -> bool:
    """Whether the room, run, cabinet or opening that a look's id names is there."""
    level, _, subject = look.partition(":")
    homes: dict[str, Table[Any]] = {
        "room": job.rooms,
        "run": job.runs,
        "cabinet": job.cabinets,
        "opening": job.openings,
    }
    return level in homes and subject in homes[level]


def with_field[W: (Job, Shop)](whole: W, table_name: str, row: str, field: str, value: object) -> W:
    """A copy with this field set; the same object where it stood so already. A look that says nothing goes."""
    old = row_or_new(whole, table_name, row)
    if getattr(old, field) == value:
        return whole
    new = replace(old, **{field: value})
    if isinstance(new, Look) and new == Look(new.id):
        return whole.drop(Look, new.id)
    return whole.put(new)


def free_id(taken: Iterable[str], like: str) -> str:
    """The next id after `like` that is not taken: S3 after S2, L-03 after L-02, OC after OB, 13 after 12."""
    used = set(taken)
    new = _after(like)
    while new in used:
        new = _after(new)
    return new


def _after(text: str) -> str:
    found = re.fullmatch(r"(.*?)(\d+)", text, re.DOTALL)
    if found:
        return f"{found[1]}{int(found[2]) + 1:0{len(found[2])}}"
    if text[-1:].isascii() and text[-1:].isalpha() and text[-1:] not in "zZ":
        return text[:-1] + chr(ord(text[-1]) + 1)
    return f"{text}2"


def place_ids(job: Job) -> set[str]:
    """All ids by which places and fronts are selected."""
    return {row for name in PLACES for row in table(job, name)}


def new_id(job: Job, table_name: str, first: str, among: Iterable[str] | None = None) -> str:
    """An id for a new row, counted on from the last of its kind (`among`: those of the same run); else `first`."""
    kin = list(table(job, table_name) if among is None else among)
    taken = place_ids(job) | set(table(job, table_name))
    if not kin:
        return first if first not in taken else free_id(taken, first)
    return free_id(taken, kin[-1])


def without(job: Job, table_name: str, *rows: str) -> Job:
    """A copy without these rows and all that cannot be without them; what only names them names nothing then."""
    for row in rows:
        job = _without_one(job, table_name, row)
    return job


def _without_one(job: Job, table_name: str, row: str) -> Job:
    if row not in table(job, table_name):
        return job
    job = job.drop(job.kinds()[table_name], row)
    for name, fields in REFERENCES.items():
        for field, homes in fields.items():
            if table_name in homes:
                job = _forget(job, name, field, table_name, row)
    return job.drop(Look, f"{table_name.removesuffix('s')}:{row}")


def _forget(job: Job, name: str, field: str, home: str, gone: str) -> Job:
    asked = field_of(job, name, field)
    for other in list(table(job, name).values()):
        value = getattr(other, field)
        if isinstance(value, tuple) and gone in value:
            left = tuple(one for one in value if one != gone)
            job = job.put(replace(other, **{field: left})) if left else job.drop(type(other), other.id)
        elif value == gone and belongs(other, home):
            job = job.put(replace(other, **{field: None})) if asked.optional else _without_one(job, name, other.id)
    return job


def belongs(row: Any, home: str) -> bool:
    """Whether a reading of this `what` can be of a row of this table (a column and its opening may share an id)."""
    return not isinstance(row, Reading) or home in _HOMES.get(row.what, ("members",))


def renamed(job: Job, table_name: str, old: str, new: str) -> Job:
    """A copy in which a row has another id, and everything that named it names it so."""
    row = table(job, table_name)[old]
    rows = [replace(one, id=new) if one is row else one for one in table(job, table_name).values()]
    job = replace(job, **{table_name: Table(rows)})
    for name, fields in REFERENCES.items():
        for field, homes in fields.items():
            if table_name in homes:
                job = _name_anew(job, name, field, table_name, old, new)
    return _looks_anew(job, f"{table_name.removesuffix('s')}:", old, new)


def _name_anew(job: Job, name: str, field: str, home: str, old: str, new: str) -> Job:
    for other in list(table(job, name).values()):
        value = getattr(other, field)
        if isinstance(value, tuple) and old in value:
            job = job.put(replace(other, **{field: tuple(new if one == old else one for one in value)}))
        elif value == old and belongs(other, home):
            anew = replace(other, **{field: new})
            job = job.put(anew) if anew.id == other.id else job.drop(type(other), other.id).put(anew)
    return job


def _looks_anew(job: Job, level: str, old: str, new: str) -> Job:
    look = job.looks.get(level + old)
    return job if look is None else job.drop(Look, look.id).put(replace(look, id=level + new))


def run_of_column(job: Job, column: str) -> Run | None:
    found = job.columns.get(column)
    return job.runs.get(found.run) if found else None


def run_of(job: Job, opening: str) -> Run | None:
    """The run an opening lies in."""
    found = job.openings.get(opening)
    return run_of_column(job, found.column) if found else None


def columns_of(job: Job, run: str) -> list[Column]:
    return sorted((c for c in job.columns.values() if c.run == run), key=lambda c: c.place)


def openings_of(job: Job, column: str) -> list[Opening]:
    """The openings of a column, from the top."""
    return sorted((o for o in job.openings.values() if o.column == column), key=lambda o: o.place)


def mid_rails_of(job: Job, column: str) -> list[Member]:
    """The mid rails of a column, from the top."""
    rails = (m for m in job.members.values() if m.column == column and m.kind == "mid rail")
    return sorted(rails, key=lambda m: m.place)
