"""What is added while the job is worked: sizes as built, answers to checks, the ways out of a finding."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.answers import subject, told
from frontwright.core.findings import Check, WayOut
from frontwright.core.job import Answer, Job
from frontwright.core.lengths import Length, half_up, typed_length
from frontwright.desk.edits import fronts, survey
from frontwright.desk.edits.edit import Edit, Refused

LONGEST_ANSWER = 300


def answer_id(check: Check) -> str:
    return f"{check.code} {subject(check.where)}"


def answer(job: Job, check: Check, text: str) -> Edit:
    """`It is so, because ...`: the reason beside the figures that the check stood at. Empty takes the answer back."""
    said = " ".join(text.split())
    if len(said) > LONGEST_ANSWER:
        raise Refused(f"The answer to {check.code} takes {LONGEST_ANSWER} letters at most; shorten it.")
    row, name = answer_id(check), f"answer to {check.code} of {subject(check.where)}"
    if not said:
        return Edit(name, lambda before: before.drop(Answer, row), name)
    new = _answered(job, check, said)
    return Edit(name, lambda before: before.put(new), name)


def _answered(job: Job, check: Check, said: str) -> Answer:
    value, limit = told(check, job)
    return Answer(answer_id(check), check.code, subject(check.where), value, limit, check.level, said)


def way_out(job: Job, check: Check, way: WayOut) -> Edit | None:
    """The edit of a way out that the desk can carry out itself; None where the person is only led to a cell."""
    if way.kind == "enter seam":
        return _seam(job, check, way)
    if way.kind == "change" and way.field.startswith("pin") and _pinned(job, way.of):
        return fronts.let_go(job, way.of)
    if way.kind == "change" and way.field and isinstance(way.value, Length | str):
        return _changed(job, way)
    return None


def _pinned(job: Job, front: str) -> bool:
    row = job.fronts.get(front)
    return row is not None and any((row.pin_left, row.pin_right, row.pin_bottom, row.pin_top))


def _seam(job: Job, check: Check, way: WayOut) -> Edit:
    """The seam, as wide as what is not accounted for; the finding it answers stays on record."""
    unit = job.heading.unit
    width = None if way.value is None or isinstance(way.value, str) else half_up(way.value)
    edit = survey.seam_after(job, way.of, None if width is None else typed_length(width, unit))
    found = _answered(job, check, f"seam after {way.of}, found after the closure check asked")
    return replace(edit, change=lambda before: edit.change(before).put(found))


def _changed(job: Job, way: WayOut) -> Edit | None:
    """A field set to the figure that clears the finding."""
    from frontwright.desk.edits.entry import entered

    name = way.field if way.field.count("/") >= 2 else f"{way.of}/{way.field}"
    if name.count("/") < 2:
        return None
    text = way.value if isinstance(way.value, str) else typed_length(_length(way), job.heading.unit).text
    return entered(job, name, text)


def _length(way: WayOut) -> Length:
    if not isinstance(way.value, Length):
        raise Refused("This way out has no figure; type it into the cell.")
    return way.value
