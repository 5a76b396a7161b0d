"""The run as it is read: the tape along it, its heights, its two ends."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from frontwright.core.figures import Figure
from frontwright.core.job import UPRIGHT, Member
from frontwright.core.job import Column as RunColumn
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import UNITS_IN
from frontwright.core.skins import skin_thickness
from frontwright.core.survey.result import Closure, MemberPlan, RunPlan
from frontwright.desk.contents import (
    Action,
    Cell,
    Column,
    Form,
    FormLine,
    Table,
    TableRow,
)
from frontwright.desk.edits.rows import end_id, openings_of
from frontwright.desk.edits.survey import order_of
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.fields import field_word, reading_word
from frontwright.desk.wording.numbers import decimal

HEIGHTS = ("", "mid", "top", "bottom")
_LINE = {
    "": "one line of the tape",
    "mid": "line at mid height",
    "top": "line at the top",
    "bottom": "line at the bottom",
}
_UPRIGHTS = ("left", "middle", "right")


def heights_shown(view: View, run: RunPlan) -> tuple[str, ...]:
    """The heights of the run at which the tape was laid, or is to be."""
    ids = {run.id, *run.order}
    whats = ("overall", "across", "edge left", "edge right")
    used = {at for of, what, at in view.readings if of in ids and what in whats and at in HEIGHTS}
    shown = [at for at in HEIGHTS if at in used or f"{run.id}/{at}" in view.wish.heights]
    return tuple(shown) or ("",)


def along(view: View, run: RunPlan, at: str) -> Table:
    plans = {m.id: m for m in run.members}
    rows = [
        _member_row(view, one, plans.get(one.id), at) if isinstance(one, Member) else _column_row(view, run, one, at)
        for one in order_of(view.job, run.id)
    ]
    rows += _sum_rows(view, run, at)
    columns = (Column("member", axis=False), Column("", axis=False), Column("across"), Column("from"), Column("to"))
    title = "Along the run, left to right"
    actions = _along_actions(view, run) if at == heights_shown(view, run)[0] else ()
    return Table(f"along {at}".strip(), title, _LINE[at], columns, tuple(rows), actions)


def _member_row(view: View, member: Member, plan: MemberPlan | None, at: str) -> TableRow:
    return TableRow(
        member.id,
        (
            view.name("members", member.id),
            replace(view.entry("members", member.id, "kind"), quiet=True),
            view.reading(member.id, "across", at, plan.across if plan else None, home="members"),
            view.reading(member.id, "edge left", at, plan.left if plan else None, home="members"),
            view.reading(member.id, "edge right", at, plan.right if plan else None, home="members"),
        ),
    )


def _column_row(view: View, run: RunPlan, column: RunColumn, at: str) -> TableRow:
    openings = openings_of(view.job, column.id)
    plan = next((o for o in run.openings if o.column == column.id), None)
    names = ", ".join(o.id for o in openings)
    subject = openings[0].id if len(openings) == 1 else column.id
    kind = "opening" if len(openings) == 1 else f"{len(openings)} openings"
    return TableRow(
        subject,
        (
            words(names or column.id, subject, bold=True),
            words(kind, subject),
            view.reading(column.id, "across", at, plan.width if plan else None, subject=subject, home="columns"),
            worked(plan.left if plan else None, column.id, "from"),
            worked(plan.right if plan else None, column.id, "to"),
        ),
    )


def _sum_rows(view: View, run: RunPlan, at: str) -> list[TableRow]:
    closure = next((c for c in run.closures if (c.at or "") == at), None)
    overall = view.reading(run.id, "overall", at, run.overall, home="runs")
    blank = words("")
    rows = [
        TableRow(run.id, (words("overall, one stretch", run.id), blank, overall, blank, blank)),
    ]
    if closure is None:
        return rows
    total = worked(closure.sum, run.id, f"sum {at}".strip(), bold=True)
    rows.insert(0, TableRow(run.id, (words("sum", run.id), blank, total, blank, blank), result=True))
    return [*rows, _difference(view, run, closure)]


def _difference(view: View, run: RunPlan, closure: Closure) -> TableRow:
    level = "ok" if abs(Fraction(closure.error.units)) <= closure.limit else "stop"
    limit = decimal(closure.limit / UNITS_IN[view.unit], 3 if view.unit == "in" else 2)
    said = f"{'holds' if level == 'ok' else 'stop'}, at most {limit}"
    error = worked(closure.error, run.id, "difference", bold=True, level="stop" if level == "stop" else "ok")
    return TableRow(run.id, (words("difference", run.id), words(""), error, words(said, run.id), words("")))


def _along_actions(view: View, run: RunPlan) -> tuple[Action, ...]:
    at = view.selected if view.selected in run.order else (run.order[-1] if run.order else "")
    found = [Action(key("add-member", run.id, kind, at), f"Add a {kind}", at) for kind in UPRIGHT]
    found.insert(0, Action(key("add-column", run.id, at), "Add an opening", at))
    if view.selected in view.job.members:
        one = view.selected
        found += [
            Action(key("move", "members", one, way), f"Move {one} to the {way}", one) for way in ("left", "right")
        ]
        found.append(Action(key("remove", "members", one), f"Take out {one}", one))
    shown = heights_shown(view, run)
    words_at = {"mid": "at mid height", "top": "at the top", "bottom": "at the bottom"}
    found += [
        Action(key("height", run.id, h), f"Read the run {word} too", run.id)
        for h, word in words_at.items()
        if h not in shown
    ]
    return tuple(found)


# -- heights and ends


def heights_and_ends(view: View, run: RunPlan) -> Form:
    lines = [
        FormLine(
            reading_word("height", at),
            view.reading(run.id, "height", at, _height_at(run, i), home="runs"),
        )
        for i, at in enumerate(_UPRIGHTS)
    ]
    actions = []
    for kind in ("top rail", "bottom rail"):
        rail = next((m for m in view.job.members.values() if m.run == run.id and m.kind == kind and not m.column), None)
        if rail is None:
            actions.append(Action(key("add-rail", run.id, kind), f"Add the {kind}", run.id))
            continue
        plan = next((p for p in run.rails if p.id == rail.id), None)
        figure = plan.across if plan else None
        lines.append(FormLine(kind, view.reading(rail.id, "across", "", figure, home="members")))
    for side in ("left", "right"):
        lines += _end_lines(view, run, side)
    return Form("heights", "Heights and ends", "of the frame, outside", tuple(lines), tuple(actions))


def _height_at(run: RunPlan, at: int) -> Figure | None:
    return run.heights[at] if at < len(run.heights) else run.height


def _end_lines(view: View, run: RunPlan, side: str) -> list[FormLine]:
    """What stands at an end, and the one figure of it that matters most; the others are in a table of their own."""
    kind = _end_kind(view, run, side)
    fields = ["kind"]
    if kind in ("wall", "appliance", "corner"):
        fields.append("gap_middle")
    elif kind == "open":
        fields.append("depth_seen")
    label = {"kind": f"{side} end", "gap_middle": f"gap at the {kind}, {side}", "depth_seen": f"depth seen, {side}"}
    return [FormLine(label[name], _end_cell(view, run, side, name)) for name in fields]


def _end_kind(view: View, run: RunPlan, side: str) -> str | None:
    end = view.job.ends.get(end_id(view.job, run.id, side))
    return end.kind if end else None


def _end_cell(view: View, run: RunPlan, side: str, name: str) -> Cell:
    depth = view.assumed("end depth wall" if run.run.stands == "wall" else "end depth base")
    skin = skin_thickness(JobIndex(view.job), run.id, side) if name == "skin_thickness" else None
    figure = {"depth_seen": depth, "skin_thickness": skin}.get(name)
    word = f"{field_word('ends', name)}, {side}, of {run.id}"
    return view.entry("ends", end_id(view.job, run.id, side), name, figure, subject=run.id, word=word)


def both_ends(view: View, run: RunPlan) -> Table:
    """The rest of what is read at both ends: gaps, lean, skin."""
    rows = []
    for name in ("gap_top", "gap_bottom", "leans", "leans_over", "depth_seen", "skin", "skin_thickness"):
        cells = [_end_or_nothing(view, run, side, name) for side in ("left", "right")]
        rows.append(TableRow(run.id, (words(field_word("ends", name), run.id), *cells)))
    columns = (Column("", axis=False, share=2), Column("left"), Column("right"))
    return Table("ends", "Both ends", "walls, appliances, skins", columns, tuple(rows))


def _end_or_nothing(view: View, run: RunPlan, side: str, name: str) -> Cell:
    """Nothing where the form above has it already."""
    above = name == "depth_seen" and _end_kind(view, run, side) == "open"
    return words("") if above else _end_cell(view, run, side, name)
