"""The Brief page: what the job is called, its unit and step, its rooms and runs, the questions of the first visit."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.assumed import assumed_moisture
from frontwright.core.lengths import DISPLAYS, INCH, MM, Length
from frontwright.desk.contents import Action, Choice, Column, Form, FormLine, PageContents, Table, TableRow
from frontwright.desk.edits.survey import step_word
from frontwright.desk.keys import key
from frontwright.desk.pages.brief_questions import hours_form, match_form, photos_table, questions_table, visit_form
from frontwright.desk.pages.view import View, words
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import length_text


def brief_page(view: View) -> PageContents:
    """The whole page."""
    return PageContents(
        chapter="brief",
        title="Brief",
        choosers=(),
        chosen="",
        advice="",
        bands=(
            (_job(view),),
            (_rooms(view), _runs(view)),
            *((_answers(view),) if view.job.answers else (),),
            (questions_table(view),),
            (visit_form(view), match_form(view), hours_form(view)),
            (photos_table(view),),
        ),
        board=None,
        findings=(),
        actions=(Action(key("add-room"), "Add a room"),),
    )


def _job(view: View) -> Form:
    fields = ("name", "client", "address", "unit", "shop_temperature", "shop_humidity", "note")
    lines = [FormLine(field_word("headings", f), view.entry("headings", "job", f)) for f in fields]
    steps = [d for d in DISPLAYS if d.unit == view.unit]
    choices = tuple(Choice(step_word(d), f"{step_word(d)} {d.unit}") for d in steps)
    step = view.choice(key("headings", "job", "step"), step_word(view.display), choices, "job", "step of front edges")
    lines.insert(4, FormLine("step of front edges", step))
    return Form("job", "The job", "", tuple(lines))


def _rooms(view: View) -> Table:
    figures = {f"moisture_{at}": assumed_moisture(f"moisture {at}") for at in ("low", "made", "high")}
    rows = [
        TableRow(
            room.id,
            (
                view.name("rooms", room.id),
                view.entry("rooms", room.id, "name"),
                *(view.entry("rooms", room.id, name, figure) for name, figure in figures.items()),
            ),
        )
        for room in sorted(view.job.rooms.values(), key=lambda room: room.place)
    ]
    columns = (
        Column("room", axis=False),
        Column("name", axis=False, share=2),
        Column("driest", "moisture of the wood, per cent"),
        Column("when made", "moisture of the wood, per cent"),
        Column("wettest", "moisture of the wood, per cent"),
    )
    actions = [Action(key("add-room"), "Add a room")]
    if view.selected in view.job.rooms and len(view.job.rooms) > 1:
        actions.append(Action(key("remove", "rooms", view.selected), f"Take out {view.selected}", view.selected))
    return Table("rooms", "Rooms", "how dry and how damp their wood gets", columns, tuple(rows), tuple(actions))


def _answers(view: View) -> Table:
    """What was said to checks, with the figures they stood at then."""
    rows = tuple(
        TableRow(
            one.where,
            (
                words(one.code, one.where, bold=True),
                words(one.where, one.where),
                words(one.level, one.where),
                words(_stood(view, one.code, one.value), one.where),
                words(_stood(view, one.code, one.limit), one.where),
                view.entry("answers", one.id, "answer", subject=one.where),
            ),
        )
        for one in view.job.answers.values()
    )
    columns = (
        Column("check", axis=False),
        Column("of", axis=False),
        Column("level", axis=False),
        Column("stood at", axis=False),
        Column("limit", axis=False),
        Column("answer", axis=False, share=3),
    )
    return Table("answers", "Answers given", "printed on the sheets they let through", columns, rows)


def _stood(view: View, code: str, text: str) -> str:
    """A figure that a check stood at, as its finding tells it: a size like the sizes beside it."""
    values = [check.value for check in view.plan.checks if check.code == code]
    if not any(isinstance(value, Length | Fraction) for value in values):
        return text
    try:
        size = Fraction(text)
    except ValueError:
        return text
    return length_text(size * (INCH if view.display.unit == "in" else MM).units, view.display)


def _runs(view: View) -> Table:
    rows = [
        TableRow(
            run.id,
            (
                view.name("runs", run.id),
                view.entry("runs", run.id, "name"),
                view.entry("runs", run.id, "room"),
                view.entry("runs", run.id, "stands"),
                view.entry("runs", run.id, "by_itself"),
            ),
        )
        for run in view.job.runs.values()
    ]
    columns = (
        Column("run", axis=False),
        Column("name", axis=False, share=2),
        Column("room", axis=False),
        Column("stands", axis=False),
        Column("by themselves", axis=False),
    )
    rooms = list(view.job.rooms)
    actions = [Action(key("add-run", room), f"Add a run in {room}") for room in rooms]
    actions += [Action(key("add-openings", room), f"Add openings by themselves in {room}") for room in rooms]
    if view.selected in view.job.runs and len(view.job.runs) > 1:
        actions.append(Action(key("remove", "runs", view.selected), f"Take out {view.selected}", view.selected))
    return Table("runs", "Runs", "boxes that stand in one line", columns, tuple(rows), tuple(actions))
