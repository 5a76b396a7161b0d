"""Choices compared on the Fronts page: spreads of reveal and cover, and schemes, with what the eye sees and what plates
each takes; beside them every one of them drawn."""

from __future__ import annotations

from frontwright.core.choices import Compared, schemes, spreads
from frontwright.core.drawing.compared import compared_drawing
from frontwright.core.survey.result import RunPlan
from frontwright.desk.contents import Action, Board, Column, Table, TableRow
from frontwright.desk.keys import key
from frontwright.desk.pages.boards import is_wide
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.checks import sentence
from frontwright.desk.wording.numbers import count_of

type Choices = tuple[tuple[Compared, ...], tuple[Compared, ...]]


def choices_of(view: View, run: RunPlan) -> Choices:
    """Spreads and schemes of a run, worked out; none for openings by themselves."""
    if run.run.by_itself:
        return (), ()
    return spreads(view.plan, run.id), schemes(view.plan, run.id)


def choices_band(run: RunPlan, found: Choices) -> tuple[Table, ...]:
    """The two tables, with a button to take each choice."""
    aside = "held side by side; taking one is one step, and can be undone"
    return (_table(run, "spreads", "Spreads", aside, found[0]), _table(run, "schemes", "Schemes", "", found[1]))


def choices_board(run: RunPlan, found: Choices) -> Board | None:
    """The run in each scheme, and in each spread that is not among them, one under the other to one scale."""
    shown = [*found[1], *(one for one in found[0] if not one.taken)]
    if not shown:
        return None
    drawing = compared_drawing(shown, run.id)
    return Board((drawing,), wide=is_wide(drawing))


def _word(one: Compared) -> str:
    return f"{one.kind}, as it is" if one.taken and one.kind != "as it is" else one.kind


def _table(run: RunPlan, name: str, title: str, aside: str, found: tuple[Compared, ...]) -> Table:
    columns = (
        Column(name[:-1], axis=False, share=2),
        Column("differ", "reveals"),
        Column("", "reveals", axis=False),
        Column("least", "covers"),
        Column("most", "covers"),
        Column("least left"),
        Column("plates", axis=False, share=2),
        Column("", axis=False, share=2),
    )
    rows = tuple(_row(name, one) for one in found)
    actions = tuple(
        Action(key("take-look", run.id, one.kind), f"Take {one.kind}", run.id) for one in found if not one.taken
    )
    return Table(name, title, aside, columns, rows, actions)


def _row(name: str, one: Compared) -> TableRow:
    subject = f"{name} {one.kind}"
    covers = one.covers or (None, None)
    cells = (
        words(_word(one), subject, bold=True),
        worked(one.differ, subject, "reveals differ by", level="warn" if one.seen else "ok"),
        words("it is seen" if one.seen else "not seen" if one.differ is not None else "", subject),
        worked(covers[0], subject, "least cover at a side"),
        worked(covers[1], subject, "most cover at a side"),
        worked(one.least_cover, subject, "least cover left"),
        words(", ".join(f"{count} × {plate}" for plate, count in one.plates), subject),
        words(_against(one), subject, level="stop" if one.stops else "ok"),
    )
    return TableRow(subject, cells)


def _against(one: Compared) -> str:
    """What speaks against it: hinges that do not reach, plates that are lacking, stops."""
    parts = [f"hinges of {', '.join(one.beyond)} do not reach"] if one.beyond else []
    parts += [f"{count_of(one.lacking, 'plate')} short"] if one.lacking else []
    if one.stops:
        first = sentence(one.stops[0], one.plan.display)
        parts.append(f"{count_of(len(one.stops), 'stop')}: {first}" if len(one.stops) > 1 else first)
    return "; ".join(parts)
