"""The Survey page: what was read of a run, in the order in which things are measured."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.job import UPRIGHT, Member, Opening
from frontwright.core.job import Column as RunColumn
from frontwright.core.lengths import UNITS_IN
from frontwright.core.survey.result import Closure, MemberPlan, OpeningPlan, RunPlan
from frontwright.desk.contents import (
    Action,
    Cell,
    Choice,
    Column,
    Form,
    FormLine,
    PageContents,
    Table,
    TableRow,
)
from frontwright.desk.edits.fronts import HOLDS, held_by
from frontwright.desk.edits.rows import columns_of, end_id, mid_rails_of, openings_of
from frontwright.desk.edits.survey import order_of
from frontwright.desk.keys import key
from frontwright.desk.pages.boards import survey_board
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.fields import field_word, reading_word, value_word
from frontwright.desk.wording.numbers import count_of, decimal

HEIGHTS = ("", "mid", "top", "bottom")
_LINE = {
    "": "one line of the tape",
    "mid": "line at mid height",
    "top": "line at the top",
    "bottom": "line at the bottom",
}
_WIDTHS = ("top", "middle", "bottom")
_UPRIGHTS = ("left", "middle", "right")
_DIAGONALS = ("\\", "/")
_HOLD_CHOICES = tuple(Choice(one, value_word("openings", "fronts", one)) for one in HOLDS)
_BOX_CHOICES = (Choice("face frame", "face frame"), Choice("frameless", "frameless"))


def survey_page(view: View) -> PageContents:
    """The whole page of the chosen run, or of the first."""
    run = chosen_run(view)
    runs = tuple(Choice(r.id, run_word(r)) for r in view.plan.survey.runs)
    if run is None:
        return PageContents("survey", "Survey", runs, "", "", (), None, finding_lines(view, "survey"), ())
    tables: list[tuple[Table | Form, ...]] = []
    if not run.run.by_itself:
        lines = tuple(_along(view, run, at) for at in heights_shown(view, run))
        tables.append((lines[0], _heights_and_ends(view, run)))
        tables += [(line,) for line in lines[1:]]
        rails = _mid_rails(view, run)
        tables += [(rails,)] if rails.rows else []
    tables.append((_openings(view, run),))
    if readings := _readings_of(view):
        tables.append((readings,))
    if not run.run.by_itself:
        tables.append((_straight(view, run), _ends(view, run)))
    else:
        tables.append((_straight(view, run),))
    tables.append((_run_form(view, run),))
    tables.append((_old_fronts(view, run),))
    return PageContents(
        chapter="survey",
        title="Survey",
        choosers=runs,
        chosen=run.id,
        advice=advice(view),
        bands=tuple(tables),
        board=survey_board(view, run),
        findings=finding_lines(view, "survey"),
        actions=_actions(view, run),
    )


def chosen_run(view: View) -> RunPlan | None:
    """The run that the chooser stands on, that the selected subject lies in, or the first."""
    runs = view.plan.survey.runs
    by_choice = next((r for r in runs if r.id == view.chosen), None)
    return by_choice or next((r for r in runs if view.selected in r.order), runs[0] if runs else None)


def run_word(run: RunPlan) -> str:
    """A run in the chooser: "K  base run, 12 openings"."""
    return ", ".join(part for part in (run.run.name, count_of(len(run.openings), "opening")) if part)


def advice(view: View) -> str:
    """The readings most worth taking next."""
    wanted = view.plan.read_next[:3]
    return f"Most worth reading next: {', then '.join(wanted)}" if wanted else ""


# -- along the run


def heights_shown(view: View, run: RunPlan) -> tuple[str, ...]:
    """The heights of the run at which the tape was laid, or is to be."""
    ids = {run.id, *run.order}
    whats = ("overall", "across", "edge left", "edge right")
    used = {at for of, what, at in view.readings if of in ids and what in whats and at in HEIGHTS}
    shown = [at for at in HEIGHTS if at in used or f"{run.id}/{at}" in view.wish.heights]
    return tuple(shown) or ("",)


def _along(view: View, run: RunPlan, at: str) -> Table:
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


def _heights_and_ends(view: View, run: RunPlan) -> Form:
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
    figure = {"depth_seen": depth, "skin_thickness": view.assumed("skin")}.get(name)
    word = f"{field_word('ends', name)}, {side}, of {run.id}"
    return view.entry("ends", end_id(view.job, run.id, side), name, figure, subject=run.id, word=word)


def _ends(view: View, run: RunPlan) -> Table:
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


# -- rails and openings


def _mid_rails(view: View, run: RunPlan) -> Table:
    plans = {p.id: p for p in run.rails}
    rows = []
    for column in columns_of(view.job, run.id):
        for rail in mid_rails_of(view.job, column.id):
            plan = plans.get(rail.id)
            under = next((o.id for o in openings_of(view.job, column.id) if o.place == rail.place), column.id)
            cells = (
                view.name("members", rail.id),
                words(f"under {under}", rail.id),
                view.reading(rail.id, "edge low", "", plan.bottom if plan else None, home="members"),
                view.reading(rail.id, "edge high", "", plan.top if plan else None, home="members"),
                view.reading(rail.id, "across", "", plan.across if plan else None, home="members"),
            )
            rows.append(TableRow(rail.id, cells))
    columns = (Column("mid rail", axis=False), Column("", axis=False), Column("from"), Column("to"), Column("across"))
    actions: tuple[Action, ...] = ()
    if any(row.subject == view.selected for row in rows):
        one = view.selected
        actions = (Action(key("remove", "members", one), f"Take out {one} and the opening under it", one),)
    return Table("mid rails", "Mid rails, upward", "from the datum", columns, tuple(rows), actions)


def _openings(view: View, run: RunPlan) -> Table:
    plans = {o.id: o for o in run.openings}
    rows = [
        _opening_row(view, opening, plans.get(opening.id))
        for column in columns_of(view.job, run.id)
        for opening in openings_of(view.job, column.id)
    ]
    columns = (
        Column("", axis=False),
        Column("holds", axis=False, share=2),
        *(Column(at, "width") for at in _WIDTHS),
        *(Column(at, "height") for at in _UPRIGHTS),
        *(Column(at, "diagonals") for at in _DIAGONALS),
        *(Column(name, "worked out") for name in ("least", "spread", "lean")),
    )
    title = "Openings, in the order they are read"
    return Table("openings", title, "", columns, tuple(rows), _opening_actions(view, run), tall=True)


def _opening_row(view: View, opening: Opening, plan: OpeningPlan | None) -> TableRow:
    one = opening.id
    widths = plan.widths if plan else (None, None, None)
    heights = plan.heights if plan else (None, None, None)
    diagonals = plan.diagonals if plan else (None, None)
    level = view.levels.get(one, "ok")
    cells: list[Cell] = [
        view.name("openings", one),
        view.choice(key("openings", one, "fronts"), held_by(view.job, one), _HOLD_CHOICES, one, f"what {one} holds"),
        *(view.reading(one, "width", at, figure) for at, figure in zip(_WIDTHS, widths, strict=True)),
        *(view.reading(one, "height", at, figure) for at, figure in zip(_UPRIGHTS, heights, strict=True)),
        *(view.reading(one, "diagonal", at, figure) for at, figure in zip(_DIAGONALS, diagonals, strict=True)),
        worked(plan.width_least if plan else None, one, "least width"),
        worked(_spread(plan) if plan else None, one, "spread", level=level),
        worked(plan.lean if plan else None, one, "lean"),
    ]
    return TableRow(one, tuple(cells))


def _spread(plan: OpeningPlan) -> Figure:
    across = total(f"spread of the widths of {plan.id}", plus(plan.width_most), minus(plan.width_least))
    up = total(f"spread of the heights of {plan.id}", plus(plan.height_most), minus(plan.height_least))
    return across if across.units >= up.units else up


def _opening_actions(view: View, run: RunPlan) -> tuple[Action, ...]:
    found = [Action(key("add-opening", run.id), "Add an opening", run.id)]
    one = view.selected
    if one in view.job.openings:
        if not run.run.by_itself:
            found.append(Action(key("split", one), f"Divide {one} by a mid rail", one))
            found += [Action(key("move-opening", one, way), f"Move {one} {way}", one) for way in ("up", "down")]
        found.append(Action(key("remove", "openings", one), f"Take out {one}", one))
    return tuple(found)


def _readings_of(view: View) -> Table | None:
    """Every reading ever taken of what is selected, struck out or not; None where there is none."""
    own = view.job.openings.get(view.selected)
    alone = own is not None and len(openings_of(view.job, own.column)) == 1
    subjects = {view.selected, own.column} if own is not None and alone else {view.selected}
    found = [r for r in view.job.readings.values() if r.of in subjects]
    if not found:
        return None
    heads = ("over_paint", "by", "when", "status", "note")
    rows = [
        TableRow(
            view.selected,
            (
                words(f"{reading_word(r.what, r.at)}{', of the column' if r.of != view.selected else ''}", r.of),
                words(f"{r.value.text if r.value else ''}{', struck out' if r.struck else ''}", r.of),
                *(view.taken(r, name) for name in heads),
            ),
        )
        for r in found
    ]
    shown = (Column("reading", axis=False, share=2), Column("size", axis=False))
    heads_shown = tuple(Column(field_word("readings", name), axis=False) for name in heads)
    actions = tuple(
        Action(
            key("strike", r.id),
            f"{'Take up' if r.struck else 'Strike out'} {reading_word(r.what, r.at)} {r.value.text if r.value else ''}",
            view.selected,
        )
        for r in found
    )
    title = f"Readings of {view.selected}"
    return Table("readings", title, "an earlier one stays, struck out", (*shown, *heads_shown), tuple(rows), actions)


# -- what is out of true, the run itself, old fronts


def _straight(view: View, run: RunPlan) -> Table:
    rows = [
        TableRow(
            member.id,
            (
                words(member.id, member.id, bold=True),
                view.entry("members", member.id, "bow"),
                view.entry("members", member.id, "bow_over"),
                view.entry("members", member.id, "thickness", view.assumed("frame thickness")),
            ),
        )
        for member in view.job.members.values()
        if member.run == run.id and member.kind != "seam"
    ]
    rows += [
        TableRow(
            opening.id,
            (
                words(opening.id, opening.id, bold=True),
                view.reading(opening.id, "wind gap"),
                words("where the strings cross", opening.id),
                words(""),
            ),
        )
        for opening in run.openings
    ]
    columns = (Column("", axis=False), Column("out of flat by"), Column("over"), Column("thick"))
    return Table("straight", "Straightedge and strings", "bow of members, wind of openings", columns, tuple(rows))


def _run_form(view: View, run: RunPlan) -> Form:
    one = run.id
    fields = ("name", "stands", "by_itself", "datum", "slope_shows", "slope_over")
    lines = [FormLine(field_word("runs", name), view.entry("runs", one, name)) for name in fields]
    box = next((c.kind for c in view.job.cabinets.values() if c.run == one), "face frame")
    lines.insert(2, FormLine("box", view.choice(key("runs", one, "box"), box, _BOX_CHOICES, one, f"box of {one}")))
    for cabinet in [c.id for c in view.job.cabinets.values() if c.run == one]:
        side = view.assumed("side")
        figures = {"side": side}
        lines += [
            FormLine(
                f"{field_word('cabinets', name)}, {cabinet}",
                view.entry("cabinets", cabinet, name, figures.get(name), subject=one),
            )
            for name in ("width", "height", "depth", "side", "sound")
        ]
    facing = view.assumed("facing")
    lines += [
        FormLine(field_word("facings", "faces"), view.entry("facings", one, "faces")),
        FormLine(field_word("facings", "thickness"), view.entry("facings", one, "thickness", facing)),
    ]
    return Form("run", f"Run {one}", "", tuple(lines))


def _old_fronts(view: View, run: RunPlan) -> Table:
    fields = ("width", "height", "thickness", "cover")
    openings = [o.id for o in run.openings]
    own = {old.opening: old.id for old in view.job.old_fronts.values()}
    rows = [
        TableRow(
            one,
            (
                words(one, one, bold=True),
                *(view.entry("old_fronts", own.get(one, one), name, subject=one) for name in fields),
                view.entry("old_fronts", own.get(one, one), "note", subject=one),
            ),
        )
        for one in openings
    ]
    heads = [Column(field_word("old_fronts", name)) for name in fields]
    columns = (Column("", axis=False), *heads, Column("note", axis=False, share=2))
    aside = "less the cover they had they give the openings"
    return Table("old fronts", "Old fronts", aside, columns, tuple(rows))


def _actions(view: View, run: RunPlan) -> tuple[Action, ...]:
    room = run.run.room
    return (
        Action(key("add-run", room), "Add a run"),
        Action(key("add-openings", room), "Add openings by themselves"),
        *((Action(key("remove", "runs", run.id), f"Take out run {run.id}", run.id),) if len(view.job.runs) > 1 else ()),
    )
