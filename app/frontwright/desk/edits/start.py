"""A new job from one form: two readings and three choices, everything else assumed until it is read."""

from __future__ import annotations

from dataclasses import dataclass, replace

from frontwright.core.job import (
    Column,
    DoorBuild,
    DoorKind,
    Front,
    Heading,
    Job,
    Look,
    Member,
    Opening,
    PanelBuild,
    PanelKind,
    Reading,
    Room,
    Run,
    Scheme,
    Table,
)
from frontwright.core.lengths import IN_HALF_MM, IN_THIRTYSECONDS, Typed, Unit, read
from frontwright.desk.edits.edit import Refused
from frontwright.desk.edits.rules import impossible
from frontwright.desk.wording.fields import value_word

# the door kind names joint and panel together: a rabbet takes what the shop presses, a groove what is bought
PANEL_OF: dict[DoorKind, PanelKind | None] = {
    "dowelled": "veneered",
    "stub tenon": "sheet",
    "cope and stick": "sheet",
    "mitred": "sheet",
    "slab": None,
}
_ROOM, _RUN, _COLUMN, _OPENING = "room", "R1", "c1", "1"


@dataclass(frozen=True, slots=True)
class NewJob:
    """The one form, as typed. `amount`: the cover on each side, of an inset front the gap; empty is the usual one."""

    unit: Unit = "in"
    width: str = ""
    height: str = ""
    pair: bool = False
    scheme: Scheme = "partial cover"
    amount: str = ""
    door_kind: DoorKind = "stub tenon"
    name: str = ""


def new_job(form: NewJob) -> Job:
    """A whole job from the form. Refused names the field that has no figure which can be."""
    width = _reading(form, "width", form.width)
    height = _reading(form, "height", form.height)
    job = Job(headings=Table([Heading(name=" ".join(form.name.split())[:200], unit=form.unit)]))
    job = _place(job).put(
        Reading(f"{_OPENING} width middle", _OPENING, "width", "middle", width),
        Reading(f"{_OPENING} height middle", _OPENING, "height", "middle", height),
    )
    return _built(job.put(_look(form), *_fronts(form.pair)), form.door_kind)


def empty_job(unit: Unit) -> Job:
    """A job with nothing read yet: one run, one opening, one door."""
    return _built(_place(Job(headings=Table([Heading(unit=unit)]))).put(*_fronts(pair=False)), "stub tenon")


def _place(job: Job) -> Job:
    return job.put(
        Room(_ROOM, place=1),
        Run(_RUN, _ROOM, place=1),
        Member("S0", _RUN, "stile", 1),
        Column(_COLUMN, _RUN, 2),
        Member("S1", _RUN, "stile", 3),
        Member("top rail", _RUN, "top rail", 4),
        Member("bottom rail", _RUN, "bottom rail", 5),
        Opening(_OPENING, _COLUMN),
    )


def _fronts(pair: bool) -> tuple[Front, ...]:
    if pair:
        return Front(f"F{_OPENING}L", _OPENING, place=1), Front(f"F{_OPENING}R", _OPENING, place=2)
    return (Front(f"F{_OPENING}", _OPENING),)


def _look(form: NewJob) -> Look:
    amount = _amount(form)
    if form.scheme == "inset":
        return Look(f"room:{_ROOM}", scheme="inset", inset_side=amount)
    return Look(f"room:{_ROOM}", scheme=form.scheme, cover=amount)


def _built(job: Job, kind: DoorKind) -> Job:
    """The job with its first build, called by its joint: a shop's build of another joint can then stand beside it."""
    panel = PANEL_OF[kind]
    look = job.looks.get(f"room:{_ROOM}") or Look(f"room:{_ROOM}")
    build = DoorBuild(kind, value_word("door_builds", "kind", kind), kind, panel=panel)
    if panel is not None:
        job = job.put(PanelBuild(panel, value_word("panel_builds", "kind", panel), panel))
    return job.put(build, replace(look, door_build=build.id))


def _reading(form: NewJob, what: str, text: str) -> Typed:
    name = f"opening {what}"
    got = read(text, form.unit)
    if got.state == "empty":
        raise Refused(f"{name.capitalize()} is empty; type what the tape says between the members.")
    if got.value is None:
        raise Refused(f"{name.capitalize()}: {(got.problem or 'this cannot be read').rstrip('.')}.")
    problem = impossible("openings", what, got.value, name, IN_THIRTYSECONDS if form.unit == "in" else IN_HALF_MM)
    if problem:
        raise Refused(problem)
    return Typed(text, got.value)


def _amount(form: NewJob) -> Typed | None:
    field, name = ("inset_side", "gap on each side") if form.scheme == "inset" else ("cover", "cover on each side")
    got = read(form.amount, form.unit)
    if got.state == "empty":
        return None
    if got.value is None:
        raise Refused(f"{name.capitalize()}: {(got.problem or 'this cannot be read').rstrip('.')}.")
    problem = impossible("looks", field, got.value, name, IN_THIRTYSECONDS if form.unit == "in" else IN_HALF_MM)
    if problem:
        raise Refused(problem)
    return Typed(form.amount, got.value)
