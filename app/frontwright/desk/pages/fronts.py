"""The Fronts page: the look at the level that is being chosen, the fronts it gives, the sums that must close."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from frontwright.core.findings import Code
from frontwright.core.fronts.result import FrontPlan, LookPlan
from frontwright.core.survey.result import RunPlan
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
from frontwright.desk.keys import key
from frontwright.desk.pages.boards import fronts_board
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.fronts_choices import choices_band, choices_board, choices_of
from frontwright.desk.pages.fronts_hardware import hardware_bands
from frontwright.desk.pages.fronts_space import space_bands
from frontwright.desk.pages.look import look_form
from frontwright.desk.pages.sums import sums_table
from frontwright.desk.pages.view import View, named_choices, words, worked
from frontwright.desk.wording.fields import cell_name, field_word, value_word
from frontwright.desk.wording.numbers import count_of, figure_text

_OF_SIZE: tuple[Code, ...] = ("cover", "row-sum", "wall-clearance", "hinge-overlay")
_NOTHING = tuple(words("") for _ in range(7))
_HOLD_CHOICES = tuple(Choice(one, value_word("openings", "fronts", one)) for one in HOLDS)


def fronts_page(view: View) -> PageContents:
    """The whole page of the chosen run, or of the first."""
    run = fronts_run(view)
    runs = tuple(Choice(r.id, _run_word(view, r)) for r in view.plan.survey.runs)
    if run is None:
        return PageContents("fronts", "Fronts", runs, "", "", (), None, finding_lines(view, "fronts"), ())
    fronts = fronts_of(view, run)
    board = fronts_board(view, run.id) if fronts else None
    compared = choices_of(view, run) if view.wish.compare else ((), ())
    board = choices_board(run, compared) or board
    look, table, sums = look_form(view, run), _fronts(view, run, fronts), sums_table(view, run)
    beside_board = board is not None and not board.wide  # then there is no room for three next to each other
    bands: list[tuple[Table | Form, ...]] = [(table,), (sums, look)] if beside_board else [(look, table, sums)]
    chosen = next((f for f in fronts if f.id == view.selected), None)
    if compared[0]:
        bands.insert(0, choices_band(run, compared))
    second: list[Table | Form] = [_rows(view, fronts)]
    if chosen is not None:
        second.append(_pins(view, chosen))
    elif view.selected in {o.id for o in run.openings}:
        one = view.selected
        second.append(Form("opening", f"Opening {one}", "", (_holds(view, one, one),)))
    bands.append(tuple(second))
    bands += space_bands(view, run)
    bands += hardware_bands(view, run)
    return PageContents(
        chapter="fronts",
        title="Fronts",
        choosers=runs,
        chosen=run.id,
        advice=_advice(view, run),
        bands=tuple(bands),
        board=board,
        findings=finding_lines(view, "fronts"),
        actions=(*_compare(view, run), *_actions(chosen)),
        start="compare" if compared[0] else "",
    )


def fronts_run(view: View) -> RunPlan | None:
    """The run that the chooser stands on, that the selected front hangs on, or the first."""
    runs = view.plan.survey.runs
    by_choice = next((r for r in runs if r.id == view.chosen), None)
    front = view.plan.fronts.fronts.get(view.selected)
    by_front = next((r for r in runs if front is not None and r.id == front.run), None)
    return by_choice or by_front or (runs[0] if runs else None)


def fronts_of(view: View, run: RunPlan) -> list[FrontPlan]:
    return [front for front in view.plan.fronts.fronts.values() if front.run == run.id]


def _run_word(view: View, run: RunPlan) -> str:
    fronts = count_of(len(fronts_of(view, run)), "front")
    parts = (run.run.name, count_of(len(run.openings), "opening"), fronts)
    return ", ".join(part for part in parts if part)


def _advice(view: View, run: RunPlan) -> str:
    first = next((view.plan.fronts.looks.get(o.id) for o in run.openings), None)
    if first is None:
        return ""
    apart = sum(1 for o in run.openings if (look := view.plan.fronts.looks.get(o.id)) and look.exceptions)
    exceptions = count_of(apart, "exception") if apart else "no exceptions"
    return f"Look: {first.scheme}, {_amount(view, first)}; {exceptions}"


def _amount(view: View, look: LookPlan) -> str:
    """The one size that a look goes by: its gap, its reveal where one was chosen, else its cover."""
    if look.scheme == "inset":
        return f"gap {figure_text(look.inset_side, view.display)}"
    if look.scheme == "full cover":
        return f"gap {figure_text(look.gap, view.display)}"
    if look.reveal is not None:
        return f"reveal {figure_text(look.reveal, view.display)}"
    return f"cover {figure_text(look.cover, view.display)}"


# -- fronts


def _fronts(view: View, run: RunPlan, fronts: Sequence[FrontPlan]) -> Table:
    rows = [_front_row(view, front) for front in fronts]
    with_front = {front.opening for front in fronts}
    rows += [_bare_row(view, o.id) for o in run.openings if o.id not in with_front]
    columns = (
        Column("front", axis=False),
        Column("opening", axis=False),
        Column("left"),
        Column("right"),
        Column("bottom"),
        Column("top"),
        Column("width"),
        Column("height"),
        Column("hinges", axis=False),
    )
    aside = "edges from the lines, sizes by subtraction"
    return Table("fronts", "Fronts", aside, columns, tuple(rows))


def _front_row(view: View, front: FrontPlan) -> TableRow:
    one = front.id
    placed = front.placed
    cells = (
        view.name("fronts", one),
        words(f"{front.opening} {value_word('fronts', 'kind', front.front.kind)}", one),
        worked(front.left if placed else None, one, "left edge"),
        worked(front.right if placed else None, one, "right edge"),
        worked(front.bottom if placed else None, one, "bottom edge"),
        worked(front.top if placed else None, one, "top edge"),
        worked(front.width, one, "width", bold=True, level=view.level_of(one, *_OF_SIZE)),
        worked(front.height, one, "height", bold=True),
        _hinge_cell(view, front),
    )
    return TableRow(one, cells)


def _hinge_cell(view: View, front: FrontPlan) -> Cell:
    if front.front.kind not in ("door", "glass"):
        return words("", front.id)
    return _assumable(view, front.id, "hinge_side", front.front.hinge_side, front.hinge_side)


def _assumable(view: View, front: str, name: str, own: str | None, holds: str | None) -> Cell:
    """A choice; where nobody made it, its first word is what is assumed, in brackets."""
    cell = view.entry("fronts", front, name)
    if own is not None or holds is None:
        return cell
    first = Choice("", f"({value_word('fronts', name, holds)})")
    return replace(cell, choices=(first, *(one for one in cell.choices if one.value)))


def _bare_row(view: View, opening: str) -> TableRow:
    """An opening that stays without a front."""
    held = value_word("openings", "fronts", held_by(view.job, opening))
    return TableRow(opening, (words("", opening), words(f"{opening} {held}", opening), *_NOTHING))


def _holds(view: View, opening: str, subject: str) -> FormLine:
    place = key("openings", opening, "fronts")
    name = f"what {opening} holds"
    return FormLine(f"{opening} holds", view.choice(place, held_by(view.job, opening), _HOLD_CHOICES, subject, name))


def _pins(view: View, front: FrontPlan) -> Form:
    figures = {"pin_left": front.left, "pin_right": front.right, "pin_bottom": front.bottom, "pin_top": front.top}
    lines = tuple(
        FormLine(field_word("fronts", name), view.entry("fronts", front.id, name, figure))
        for name, figure in figures.items()
    )
    overlay = [
        FormLine(f"cover, {side}", worked(figure, front.id, f"cover, {side}"))
        for side, figure in front.overlay.items()
        if figure is not None
    ]
    if front.least_cover is not None:
        overlay.append(FormLine("least cover", worked(front.least_cover, front.id, "least cover")))
    said = "held edges stay; their neighbours follow"
    return Form("pins", f"Front {front.id}", said, (*_chosen(view, front), *lines, *overlay))


def _chosen(view: View, front: FrontPlan) -> tuple[FormLine, ...]:
    """Grain and build of a front."""
    one = front.id
    builds = named_choices({**view.shop.door_builds, **view.job.door_builds}, "as the look says")
    place, said = key("fronts", one, "build"), cell_name(view.job, "fronts", one, "build")
    build = view.choice(place, front.front.build or "", builds, one, said)
    grain = _assumable(view, one, "grain", front.front.grain, front.grain)
    return _holds(view, front.opening, one), FormLine("grain", grain), FormLine("build", build)


# -- rows and columns


def _rows(view: View, fronts: Sequence[FrontPlan]) -> Table:
    ids = {front.id for front in fronts}
    plans = {plan.row.id: plan for plan in view.plan.fronts.rows}
    rows = []
    for row in view.job.front_rows.values():
        if not ids.intersection(row.fronts):
            continue
        plan = plans.get(row.id)
        one = row.id
        rows.append(
            TableRow(
                one,
                (
                    view.name("front_rows", one),
                    view.entry("front_rows", one, "direction"),
                    view.entry("front_rows", one, "fronts"),
                    view.entry("front_rows", one, "share_edges"),
                    view.entry("front_rows", one, "grain_through"),
                    view.entry("front_rows", one, "blank_end", view.assumed("row end")),
                    view.entry("front_rows", one, "kerf", plan.kerf if plan else view.assumed("kerf")),
                    view.entry("front_rows", one, "trim", plan.trim if plan else None),
                    worked(plan.blank_length if plan else None, one, "blank length"),
                    worked(plan.blank_width if plan else None, one, "blank width"),
                ),
            )
        )
    columns = (
        Column("", axis=False),
        Column("along a", axis=False),
        Column("fronts", axis=False, share=2),
        Column("edges shared", axis=False),
        Column("grain through", axis=False),
        Column("over each end"),
        Column("kerf"),
        Column("trim"),
        Column("length", "blank"),
        Column("width", "blank"),
    )
    actions: tuple[Action, ...] = ()
    if view.selected in view.job.front_rows:
        actions = (Action(key("delete", "front_rows", view.selected), f"Take out {view.selected}", view.selected),)
    return Table("rows", "Rows and columns", "fronts that belong together", columns, tuple(rows), actions)


def _compare(view: View, run: RunPlan) -> tuple[Action, ...]:
    """The button that holds choices side by side, and puts them away again."""
    if run.run.by_itself:
        return ()
    return (Action("compare", "Put choices away" if view.wish.compare else "Compare choices"),)


def _actions(front: FrontPlan | None) -> tuple[Action, ...]:
    if front is None:
        return ()
    found = [
        Action(key("add-row", front.id, "row"), f"Make a row of {front.id}", front.id),
        Action(key("add-row", front.id, "column"), f"Make a column of {front.id}", front.id),
    ]
    if front.pinned:
        found.append(Action(key("let-go", front.id), f"Let {front.id} go from where it is held", front.id))
    return tuple(found)
