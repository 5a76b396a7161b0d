"""The Survey page: what was read of a run, in the order in which things are measured."""

from __future__ import annotations

from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.job import Opening
from frontwright.core.plan import ReadNext
from frontwright.core.survey.result import OpeningPlan, RunPlan
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
from frontwright.desk.edits.condition_rows import surface_id
from frontwright.desk.edits.fronts import HOLDS, held_by
from frontwright.desk.edits.rows import columns_of, mid_rails_of, openings_of
from frontwright.desk.keys import key
from frontwright.desk.pages.boards import survey_board
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.survey_around import around_run
from frontwright.desk.pages.survey_condition import condition_of_run
from frontwright.desk.pages.survey_run import along, both_ends, heights_and_ends, heights_shown
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.fields import field_word, reading_word, value_word
from frontwright.desk.wording.numbers import count_of

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
        lines = tuple(along(view, run, at) for at in heights_shown(view, run))
        tables.append((lines[0], heights_and_ends(view, run)))
        tables += [(line,) for line in lines[1:]]
        rails = _mid_rails(view, run)
        tables += [(rails,)] if rails.rows else []
    tables.append((_openings(view, run),))
    if readings := _readings_of(view):
        tables.append((readings,))
    if not run.run.by_itself:
        tables.append((_straight(view, run), both_ends(view, run)))
    else:
        tables.append((_straight(view, run),))
    tables.append((_run_form(view, run),))
    tables += around_run(view, run)
    tables += condition_of_run(view, run)
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
    wanted = view.plan.read_next[:2]
    return f"Read next: {', then '.join(_wanted_word(view, one) for one in wanted)}" if wanted else ""


def _wanted_word(view: View, wanted: ReadNext) -> str:
    """ "diagonals of OA", "second width of OA and 3 more", "core thickness of veneered on a core"."""
    first, more = wanted.of[0], len(wanted.of) - 1
    build = view.job.panel_builds.get(first)
    name = (build.name or first) if build is not None else first
    return f"{wanted.what} of {name}{f' and {more} more' if more else ''}"


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
    level = view.level_of(one, "spread")
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
            for name in ("width", "height", "depth", "side", "sound", "frame_inside")
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
                worked(view.plan.space.old_covers.get(one), one, "cover its hinges give"),
                view.entry("old_fronts", own.get(one, one), "note", subject=one),
            ),
        )
        for one in openings
    ]
    heads = [Column(field_word("old_fronts", name)) for name in fields]
    given = Column("its hinges give")
    columns = (Column("", axis=False), *heads, given, Column("note", axis=False, share=2))
    aside = "less the cover they had they give the openings"
    return Table("old fronts", "Old fronts", aside, columns, tuple(rows))


def _actions(view: View, run: RunPlan) -> tuple[Action, ...]:
    room = run.run.room
    first = key("surfaces", surface_id(view.job, run.id, "faces"), "finish")
    return (
        *((Action(key("lead", "survey", first, run.id), "Condition"),) if not run.run.by_itself else ()),
        Action(key("add-run", room), "Add a run"),
        Action(key("add-openings", room), "Add openings by themselves"),
        *((Action(key("remove", "runs", run.id), f"Take out run {run.id}", run.id),) if len(view.job.runs) > 1 else ()),
    )
