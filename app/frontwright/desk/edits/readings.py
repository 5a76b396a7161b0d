"""Readings: taken, put right, taken again (the earlier one stays, struck out), taken back."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.job import Job, Reading
from frontwright.core.job.declared import declared
from frontwright.core.lengths import DISPLAYS, IN_HALF_MM, IN_THIRTYSECONDS, Display, Typed, read
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import belongs, table
from frontwright.desk.edits.rules import impossible, readable, unlikely
from frontwright.desk.edits.values import kept_unread
from frontwright.desk.keys import Place
from frontwright.desk.wording.fields import reading_word

_AT = {
    "width": ("top", "middle", "bottom"),
    "height": ("left", "middle", "right"),
    "diagonal": ("\\", "/"),
    "wind gap": ("",),
}
_ON_RUN = ("", "top", "mid", "bottom")


def display_of(job: Job) -> Display:
    """Unit and step that lengths of this job are read and shown in."""
    heading = job.heading
    usual = IN_THIRTYSECONDS if heading.unit == "in" else IN_HALF_MM
    if heading.step is None or heading.step.value is None:
        return usual
    wanted = (heading.unit, heading.step.value, heading.decimals and heading.unit == "in")
    return next((d for d in DISPLAYS if (d.unit, d.step, d.decimals) == wanted), usual)


def current(job: Job, of: str, what: str, at: str) -> Reading | None:
    """The reading of a thing that counts: the last one that is not struck out."""
    found = None
    for reading in job.readings.values():
        if reading.of == of and reading.what == what and reading.at == at and not reading.struck:
            found = reading
    return found


def entered_reading(job: Job, place: Place, text: str, correcting: bool = False, when: str = "") -> Edit:
    """A reading from its cell (`row` what it is of, `field` what, `at` where).

    A reading that is good stays, struck out, when another figure is read later; entered once more at once
    (`correcting`) it is put right. Refused where the figure cannot be, or where it cannot be read and a good one
    stands there.
    """
    _known(job, place)
    old = current(job, place.row, place.field, place.at)
    name = f"{reading_word(place.field, place.at)}, of {place.row}"
    if not text.strip():
        return Edit(name, lambda before: _taken_back(before, old, correcting), place.key)
    value, said = _value(job, place, text, old, name)
    return Edit(name, lambda before: _taken(before, place, value, correcting, when), place.key, said)


def _known(job: Job, place: Place) -> None:
    kinds = next(field.choices for field in declared(Reading) if field.name == "what")
    tables = (job.openings, job.members, job.columns, job.runs)
    if place.field not in kinds or place.at not in _AT.get(place.field, _ON_RUN):
        raise Refused(f"There is no reading “{place.field} {place.at}”: choose a cell of the page.")
    if not any(place.row in one for one in tables):
        raise Refused(f"“{place.row}” is no longer there: choose another row.")


def _value(job: Job, place: Place, text: str, old: Reading | None, name: str) -> tuple[Typed, str]:
    display = display_of(job)
    got = read(text, display.unit)
    if got.value is None:
        return kept_unread(text, got.problem, old is None or not readable(old.value), name)
    home = _home(job, place)
    member = job.members.get(place.row)
    seam = place.field == "across" and member is not None and member.kind == "seam"
    problem = impossible(home, place.field, got.value, name, display, seam)
    if problem:
        raise Refused(problem)
    unusual = "" if seam else unlikely(home, place.field, got.value, name, display)
    return Typed(text, got.value), got.doubt or unusual or ""


def _home(job: Job, place: Place) -> str:
    probe = Reading("", place.row, place.field)  # type: ignore[arg-type]  # held against the declared kinds before
    homes = ("openings", "runs", "members", "columns")
    return next((name for name in homes if place.row in table(job, name) and belongs(probe, name)), "members")


def _taken(job: Job, place: Place, value: Typed, correcting: bool, when: str) -> Job:
    old = current(job, place.row, place.field, place.at)
    if old is None:
        return job.put(_new(job, place, value, when))
    if old.value == value:
        return job
    same_size = old.value is not None and old.value.value == value.value
    if correcting or same_size or not readable(old.value) or old.status == "assumed":
        return job.put(replace(old, value=value, status="good"))
    return job.put(replace(old, struck=True), _new(job, place, value, when))


def _new(job: Job, place: Place, value: Typed, when: str) -> Reading:
    stem = " ".join(part for part in (place.row, place.field, place.at) if part)
    number, row = 1, stem
    while row in job.readings:
        number += 1
        row = f"{stem} {number}"
    what = place.field
    return Reading(row, place.row, what, place.at, value, when=when)  # type: ignore[arg-type]  # held against the declared kinds


def _taken_back(job: Job, old: Reading | None, correcting: bool) -> Job:
    if old is None or old.id not in job.readings:
        return job
    if correcting or not readable(old.value):
        return job.drop(Reading, old.id)
    return job.put(replace(old, struck=True))


def strike(job: Job, reading: str) -> Edit:
    """A reading struck out, or taken up again."""
    found = job.readings.get(reading)
    if found is None:
        raise Refused(f"The reading “{reading}” is no longer there.")
    word = "take up again" if found.struck else "strike out"
    name = f"{word}: {reading_word(found.what, found.at)}, of {found.of}"
    return Edit(name, lambda before: before.put(replace(found, struck=not found.struck)))


def over_paint(job: Job, reading: str) -> Edit:
    """A reading marked as taken over paint, or to bare wood."""
    found = job.readings.get(reading)
    if found is None:
        raise Refused(f"The reading “{reading}” is no longer there.")
    name = f"{'to wood' if found.over_paint else 'over paint'}: {reading_word(found.what, found.at)}, of {found.of}"
    return Edit(name, lambda before: before.put(replace(found, over_paint=not found.over_paint)))
