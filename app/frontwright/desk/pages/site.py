"""The Site page: work in its order, the finish, fronts as made, hanging, what is packed, snags; a part at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from frontwright.core.drawing.hanging import hanging_drawing
from frontwright.core.plan import sited
from frontwright.core.site.made import CASE
from frontwright.core.site.prepare import preparations
from frontwright.core.site.result import Hang, LevelLine, SitePlan
from frontwright.desk.contents import Action, Board, Cell, Choice, Column, Form, PageContents, Table, TableRow
from frontwright.desk.keys import key
from frontwright.desk.pages.boards import is_wide
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.site_finish import finish_bands, finish_said
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import capital, count_of
from frontwright.desk.wording.site import HOW

type Bands = tuple[tuple[Table | Form, ...], ...]
WORK, FINISH, MADE, HANGING, PACKING, SNAGS = (
    "Work in its order",
    "Finish",
    "Fronts as made",
    "Hanging",
    "Packing and preparation",
    "Snags",
)
_SNAG = ("of", "what", "who", "found", "due", "done", "note")


def site_page(view: View) -> PageContents:
    """One part of it, by the chooser: the work first."""
    site = sited(view.plan)
    parts: Mapping[str, Callable[[View, SitePlan], Bands]] = {
        WORK: _work,
        FINISH: lambda seen, _: finish_bands(seen),
        MADE: _made,
        HANGING: _hanging,
        PACKING: _packing,
        SNAGS: _snags,
    }
    chosen = view.chosen if view.chosen in parts else WORK
    return PageContents(
        chapter="site",
        title="Site",
        choosers=tuple(Choice(part, "") for part in parts),
        chosen=chosen,
        advice=_advice(view, chosen),
        bands=parts[chosen](view, site),
        board=_board(view, site) if chosen == HANGING else None,
        findings=finding_lines(view, "site"),
    )


def _advice(view: View, chosen: str) -> str:
    if chosen == FINISH:
        return finish_said(view)
    if chosen == SNAGS:
        still = sum(1 for one in view.job.snags.values() if not one.done)
        return f"{count_of(still, 'snag')} not put right yet" if still else ""
    return ""


def _board(view: View, site: SitePlan) -> Board | None:
    """The run that the selected front hangs on, or the first, with its lines and turns."""
    front = view.plan.fronts.fronts.get(view.selected)
    runs = list(dict.fromkeys(one.run for one in site.hanging))
    run = front.run if front is not None and front.run in runs else next(iter(runs), None)
    if run is None:
        return None
    drawing = hanging_drawing(view.plan, site, run)
    return Board((drawing,), wide=is_wide(drawing))


# -- work


def _work(_: View, site: SitePlan) -> Bands:
    """Stage by stage; settings of a machine are shared over all fronts."""
    rows: list[TableRow] = []
    stage = ""
    for step in site.work:
        if step.stage != stage:
            stage = step.stage
            rows.append(TableRow("", (words(capital(stage)),), head=True))
        subject = f"work {step.number}"
        cells = (
            words(str(step.number), subject),
            words(step.what, subject, bold=True),
            words(str(step.pieces), subject),
            words(str(step.settings) if step.settings else "", subject),
            words(step.rest, subject),
        )
        rows.append(TableRow(subject, cells))
    columns = (
        Column(""),
        Column("what", axis=False, share=3),
        Column("pieces"),
        Column("settings"),
        Column("then rest", axis=False, share=2),
    )
    aside = "every setting once, for all fronts of the job"
    return ((Table("work", "Work in its order", aside, columns, tuple(rows), tall=True),),)


# -- fronts as made


def _made(view: View, _: SitePlan) -> Bands:
    """What is measured of each front out of the clamps and off the rack, and what it may be."""
    rows = []
    for one in view.plan.made.fronts.values():
        subject = one.front
        form = [_built(view, subject, what) for what in ("diagonal 1", "diagonal 2", "wind", "bow")]
        hinge = one.wind_by_hinge or one.bow_by_hinge
        cells = (
            words(subject, subject, bold=True),
            _built(view, subject, "width"),
            _built(view, subject, "height"),
            *form[:2],
            worked(one.diagonals, subject, "diagonals differ by"),
            worked(one.diagonals_allowed, subject, "diagonals may differ by"),
            *form[2:],
            worked(hinge, subject, "hinges set in or out by"),
            worked(one.adjust, subject, "hinges can be set by"),
        )
        rows.append(TableRow(subject, cells))
    columns = (
        Column("front", axis=False),
        Column("width", "as made"),
        Column("height", "as made"),
        Column("\\", "diagonals"),
        Column("/", "diagonals"),
        Column("differ", "diagonals"),
        Column("may", "diagonals"),
        Column("wind", "form"),
        Column("bow", "form"),
        Column("take", "hinges in depth"),
        Column("can", "hinges in depth"),
    )
    aside = "wind: how far the fourth corner stands off; bow: belly along the height; 0 where it is flat"
    return ((Table(CASE, "Fronts as made", aside, columns, tuple(rows), tall=True, fine=True),),)


def _built(view: View, front: str, what: str) -> Cell:
    """The cell of a size as built of a front; the planned one until it is measured."""
    plan = view.plan.fronts.fronts.get(front)
    figure = {"width": plan.width, "height": plan.height}.get(what) if plan is not None else None
    return view.entry("as_built", f"{front} {what}", "value", figure, subject=front, word=f"{what} of {front} as made")


# -- hanging


def _hanging(_: View, site: SitePlan) -> Bands:
    return ((_lines(site), _turns(site)),)


def _lines(site: SitePlan) -> Table:
    rows = [_line_row(line) for line in site.lines]
    columns = (
        Column("run", axis=False),
        Column("line"),
        Column("fronts", axis=False, share=3),
        Column("left end", "over the frame"),
        Column("right end", "over the frame"),
        Column("held", axis=False),
        Column("least cover"),
    )
    aside = "the first line first; the run is level unless a slope was read"
    return Table("lines", "Lines to level to", aside, columns, tuple(rows))


def _line_row(line: LevelLine) -> TableRow:
    subject = f"{line.run} line {line.number}"
    cells = (
        words(line.run, subject, bold=True),
        words(str(line.number), subject),
        words(", ".join(line.fronts), subject),
        worked(line.left, subject, "left end, over the frame"),
        worked(line.right, subject, "right end, over the frame"),
        words(f"at the {line.held}" if line.held else "", subject),
        worked(line.least, subject, "least cover"),
    )
    return TableRow(subject, cells)


def _turns(site: SitePlan) -> Table:
    rows: list[TableRow] = []
    run = ""
    for one in site.hanging:
        if one.run != run:
            run = one.run
            rows.append(TableRow("", (words(f"Run {run}"),), head=True))
        rows.append(_turn_row(one))
    columns = (
        Column(""),
        Column("front", axis=False),
        Column("how", axis=False, share=2),
        Column("spacer"),
        Column("to", axis=False),
        Column("adjusted already"),
    )
    return Table("turns", "Order of hanging", "bottom line first, then upward", columns, tuple(rows), tall=True)


def _turn_row(one: Hang) -> TableRow:
    how = HOW[one.how] + (f" {one.line}" if one.how == "on the line" else "")
    plates = f"; plates {', '.join(one.plates)} from below" if one.plates else ""
    cells = (
        words(str(one.number), one.front),
        words(one.front, one.front, bold=True),
        words(f"{how}{plates}", one.front),
        worked(one.spacer, one.front, "spacer"),
        words(one.beside, one.front),
        worked(one.taken, one.front, "hinge adjusted from the start"),
    )
    return TableRow(one.front, cells)


# -- packing, preparation


def _packing(view: View, site: SitePlan) -> Bands:
    rows: list[TableRow] = []
    group = ""
    for at, one in enumerate(site.packing):
        if one.group != group:
            group = one.group
            rows.append(TableRow("", (words(capital(group)),), head=True))
        subject = f"pack {at}"
        rows.append(TableRow(subject, (words(one.what, subject, bold=True), words(one.count, subject), words(one.why))))
    columns = (Column("what", axis=False, share=3), Column("how many", axis=False), Column("", axis=False, share=3))
    packed = Table("packing", "To pack", "tools and covers: common practice", columns, tuple(rows), tall=True)
    return ((packed,), (_preparation(view),))


def _preparation(view: View) -> Table:
    """Each surface that something is glued to."""
    rows = []
    for one in preparations(view.plan.condition, view.plan.facing):
        cells = (
            words(one.surface, one.surface, bold=True, level="warn" if one.open else "ok"),
            words(one.found, one.surface),
            words(one.ready, one.surface),
            words(one.adhesive, one.surface),
            words(one.trial, one.surface),
        )
        rows.append(TableRow(one.surface, cells))
    columns = (
        Column("surface", axis=False),
        Column("found", axis=False),
        Column("made ready", axis=False, share=3),
        Column("sticks with", axis=False, share=2),
        Column("trial of a day", axis=False),
    )
    aside = "from the condition of the surfaces, on the Survey page" if rows else "nothing is glued on"
    return Table("preparation", "Surfaces made ready", aside, columns, tuple(rows))


# -- snags


def _snags(view: View, _: SitePlan) -> Bands:
    rows = tuple(
        TableRow(one, tuple(view.entry("snags", one, name, subject=one) for name in _SNAG)) for one in view.job.snags
    )
    columns = tuple(Column(field_word("snags", name), axis=False, share=2 if name == "what" else 1) for name in _SNAG)
    actions = [Action(key("new", "snags"), "Add a snag")]
    if view.selected in view.job.snags:
        one = view.selected
        actions.append(Action(key("delete", "snags", one), f"Take out {one}", one))
    aside = "what is not right yet, who sees to it and until when"
    return ((Table("snags", "Snags", aside, columns, rows, tuple(actions), tall=True),),)
