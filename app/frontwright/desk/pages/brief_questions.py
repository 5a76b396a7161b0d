"""The first visit on the Brief page: its questions, which may stay *not asked*, what is to be matched, photographs."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.assumed import LEAD_BAN
from frontwright.core.brief import PARTS, QUESTIONS, Bracket, Question, answer_of, bracket, unasked
from frontwright.desk.contents import Choice, Column, Form, FormLine, Table, TableRow
from frontwright.desk.edits.condition_rows import PHOTOS, photo_id
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, words
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import count_of, decimal

_VISIT = ("visited", "ready_by", "budget", "house_year", "lead_ban", "ceiling", "largest_door")
_MATCH = ("match_what", "match_species", "match_finish", "match_age", "match_sample")
_COUNTED = ("doors", "drawers", "fixed_fronts", "frame_length")
_HOURS = ("hours_door", "hours_drawer", "hours_fixed", "hours_frame")
NOT_ASKED = "not asked"


def visit_form(view: View) -> Form:
    """Dates, money and the figures that only the first visit gives."""
    lines = [FormLine(field_word("briefs", name), view.entry("briefs", "brief", name)) for name in _VISIT]
    usual = LEAD_BAN[view.job.heading.unit]
    aside = f"lead paint: {usual} counts until the year of the country is told"
    return Form("visit", "First visit", aside, tuple(lines))


def match_form(view: View) -> Form:
    """What the new work is to match."""
    lines = [FormLine(field_word("briefs", name), view.entry("briefs", "brief", name)) for name in _MATCH]
    return Form("match", "To be matched", "without a sample it is a near match", tuple(lines))


def questions_table(view: View) -> Table:
    """The fixed questions by what they are about, with what was said."""
    rows: list[TableRow] = []
    for part, title in PARTS.items():
        rows.append(TableRow("", (words(title, bold=True), words(""), words("")), head=True))
        rows += [_question(view, question) for question in QUESTIONS if question.part == part]
    columns = (
        Column("question", axis=False, share=3),
        Column("answer", axis=False, share=2),
        Column("", axis=False, share=3),
    )
    return Table("questions", "Questions of the first visit", _aside(view), columns, tuple(rows))


def _aside(view: View) -> str:
    left = sum(1 for _ in unasked(view.job))
    return f"{count_of(left, 'question')} not asked: conditions on the quote" if left else "all of them were asked"


def _question(view: View, question: Question) -> TableRow:
    said = answer_of(view.job, question.key)
    place = key("asked", question.key, "answer")
    if question.choices:
        choices = (Choice("", NOT_ASKED), *(Choice(one, one) for one in question.choices))
        own = () if said in ("", *question.choices) else (Choice(said, said),)
        cell = view.choice(place, said, (*choices, *own), question.key, question.says)
    else:
        cell = view.entry("asked", question.key, "answer", word=question.says)
    unsaid = "" if said or question.choices else NOT_ASKED
    mark = words(", ".join(part for part in (unsaid, question.why) if part), question.key)
    return TableRow(question.key, (words(question.says, question.key), cell, mark))


def photos_table(view: View) -> Table:
    """The photographs wanted of every run, with the file or number each has."""
    rows = tuple(
        TableRow(
            run.id,
            (
                words(run.id, run.id, bold=True),
                *(view.entry("photos", photo_id(view.job, run.id, what), "file", subject=run.id) for what in PHOTOS),
            ),
        )
        for run in view.job.runs.values()
    )
    columns = (Column("run", axis=False), *(Column(what, axis=False) for what in PHOTOS))
    return Table("photos", "Photographs", "the file or number of each", columns, rows)


def hours_form(view: View) -> Form:
    """F1: what was counted by eye, the shop's hours for each, and what they come to."""
    lines = [FormLine(field_word("briefs", name), view.entry("briefs", "brief", name)) for name in _COUNTED]
    lines += [FormLine(field_word("pricings", name), view.entry("pricings", "pricing", name)) for name in _HOURS]
    found = _bracket(view)
    if found is not None:
        said = f"{decimal(found.hours, 1)} h, quoted as {found.low} to {found.high}"
        lines.append(FormLine("hours of the job", words(said, bold=True)))
    wide = ", ".join(found.wide) if found is not None else ""
    aside = f"wide because: {wide}" if wide else "counted by eye; empty: as in the job"
    return Form("hours", "Hours before the survey", aside, tuple(lines))


def _bracket(view: View) -> Bracket | None:
    covered = [run for run in view.plan.survey.runs if run.overall is not None and _faced(view, run.id)]
    frame = sum((Fraction(run.overall.units) for run in covered if run.overall is not None), Fraction(0))
    wide = []
    if any(end.kind == "open" and end.depth_seen is None for end in view.job.ends.values()):
        wide.append("an end not seen")
    if any(not one.looked_at for one in view.plan.condition.surfaces):
        wide.append("a finish not known")
    return bracket(view.job, frame, wide)


def _faced(view: View, run: str) -> bool:
    row = view.job.facings.get(run)
    return row is not None and row.faces
