"""The Fronts page: the look at the level that is being chosen, the fronts it gives, the sums that must close."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from frontwright.core.figures import Figure, plus, total
from frontwright.core.findings import CheckLevel
from frontwright.core.fronts.result import FrontPlan, LookPlan, Sum
from frontwright.core.job import Look
from frontwright.core.job.declared import Declared
from frontwright.core.lengths import in_units
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
from frontwright.desk.edits.rows import fields_of
from frontwright.desk.keys import key
from frontwright.desk.pages.boards import fronts_board
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.view import View, named_choices, words, worked
from frontwright.desk.ways import look_scopes
from frontwright.desk.wording.fields import cell_name, field_word, value_word
from frontwright.desk.wording.numbers import count_of, figure_text, length_text

_ORDER = (
    "scheme",
    "gap",
    "meeting_gap",
    "reveal",
    "inset_side",
    "inset_top",
    "inset_bottom",
    "inset_meeting",
    "cover",
    "reveal_left",
    "edge_left",
    "reveal_right",
    "edge_right",
    "reveal_top",
    "edge_top",
    "reveal_bottom",
    "edge_bottom",
)
LOOK_FIELDS: tuple[Declared, ...] = tuple(
    sorted(
        (field for field in fields_of(Look) if field.name != "id"),
        key=lambda field: _ORDER.index(field.name) if field.name in _ORDER else len(_ORDER),
    )
)
_INSET = ("inset_side", "inset_top", "inset_bottom", "inset_meeting")
_COVERING = (
    "cover",
    "gap",
    "meeting_gap",
    "reveal",
    "reveal_left",
    "reveal_right",
    "reveal_top",
    "reveal_bottom",
    "edge_left",
    "edge_right",
    "edge_top",
    "edge_bottom",
    "reveals_on",
    "equal_fronts",
    "least_cover",
)
_FIGURES = ("cover", "gap", "meeting_gap", "reveal", *_INSET, "least_cover")
_ENTRIES = {
    "door_build": "door_builds",
    "drawer_build": "door_builds",
    "hinge": "hinge_types",
    "species": "species",
}
_NOTHING = tuple(words("") for _ in range(7))
_HOLD_CHOICES = tuple(Choice(one, value_word("openings", "fronts", one)) for one in HOLDS)


def fronts_page(view: View) -> PageContents:
    """The whole page of the chosen run, or of the first."""
    run = fronts_run(view)
    runs = tuple(Choice(r.id, _run_word(view, r)) for r in view.plan.survey.runs)
    if run is None:
        return PageContents("fronts", "Fronts", runs, "", "", (), None, finding_lines(view, "fronts"), ())
    fronts = fronts_of(view, run)
    bands: list[tuple[Table | Form, ...]] = [
        (_look(view, run), _fronts(view, run, fronts), _sums(view, run)),
    ]
    chosen = next((f for f in fronts if f.id == view.selected), None)
    second: list[Table | Form] = [_rows(view, fronts)]
    if chosen is not None:
        second.append(_pins(view, chosen))
    elif view.selected in {o.id for o in run.openings}:
        one = view.selected
        second.append(Form("opening", f"Opening {one}", "", (_holds(view, one, one),)))
    bands.append(tuple(second))
    return PageContents(
        chapter="fronts",
        title="Fronts",
        choosers=runs,
        chosen=run.id,
        advice=_advice(view, run),
        bands=tuple(bands),
        board=fronts_board(view, run.id) if fronts else None,
        findings=finding_lines(view, "fronts"),
        actions=_actions(chosen),
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
    amount = f"cover {figure_text(first.cover, view.display)}"
    if first.scheme == "inset":
        amount = f"gap {figure_text(first.inset_side, view.display)}"
    elif first.scheme == "full cover":
        amount = f"gap {figure_text(first.gap, view.display)}"
    apart = sum(1 for o in run.openings if (look := view.plan.fronts.looks.get(o.id)) and look.exceptions)
    exceptions = count_of(apart, "exception") if apart else "no exceptions"
    return f"Look: {first.scheme}, {amount}; {exceptions}"


# -- the look


def scopes_of(view: View, run: RunPlan) -> tuple[str, ...]:
    """The looks that can be chosen on this page, nearest first."""
    front = view.plan.fronts.fronts.get(view.selected)
    opening = front.opening if front is not None else view.selected
    if opening not in {o.id for o in run.openings}:
        return (f"run:{run.id}", f"room:{run.run.room}")
    return look_scopes(view.job, opening)


def shown_look(view: View, run: RunPlan) -> str:
    """The look that is being chosen: the one asked for, else the run's where it says something, else the room's."""
    scopes = scopes_of(view, run)
    if view.wish.look in scopes:
        return view.wish.look
    return f"run:{run.id}" if f"run:{run.id}" in view.job.looks else scopes[-1]


def _look(view: View, run: RunPlan) -> Form:
    look = shown_look(view, run)
    level, _, subject = look.partition(":")
    plan = _look_plan(view, run, level, subject)
    own = view.job.looks.get(look)
    shown = _shown_fields(view, look, own, plan)
    lines = [FormLine(_word(name, plan), _look_cell(view, look, name, plan)) for name in shown]
    aside = f"{level} {subject}" if level != "room" else "room, all runs"
    other = [Action(key("look", one), _scope_word(one), subject) for one in scopes_of(view, run) if one != look]
    actions = (*other, Action("whole-look", "Show less" if view.wish.whole else "Show all of it"))
    return Form("look", "Look", aside, tuple(lines), actions)


def _shown_fields(view: View, look: str, own: Look | None, plan: LookPlan | None) -> list[str]:
    """What is chosen here, what matters first under the scheme, and the cell that a way out led to."""
    said, asked = _said(own), view.wish.asked
    return [
        field.name
        for field in LOOK_FIELDS
        if field.name in said
        or view.wish.whole
        or asked == key("looks", look, field.name)
        or (_first(field.name, said) and _matters(field.name, plan))
    ]


def _said(look: Look | None) -> frozenset[str]:
    """The fields that a look chooses itself."""
    if look is None:
        return frozenset()
    return frozenset(field.name for field in LOOK_FIELDS if getattr(look, field.name) is not None)


def _first(name: str, said: frozenset[str]) -> bool:
    """Whether a field is among those shown at first: one of reveal and edge a side, and nothing seldom chosen."""
    kind, _, side = name.partition("_")
    if side in ("left", "right", "top", "bottom"):
        return kind == "reveal" and f"edge_{side}" not in said
    return name not in ("reveals_on", "least_cover", "door_grain", "drawer_grain", "cut", "pulls")


def _scope_word(look: str) -> str:
    level, _, subject = look.partition(":")
    return f"Choose for {level} {subject}"


def _look_plan(view: View, run: RunPlan, level: str, subject: str) -> LookPlan | None:
    looks = view.plan.fronts.looks
    if level == "opening":
        return looks.get(subject)
    return next((looks[o.id] for o in run.openings if o.id in looks), None)


def _matters(name: str, plan: LookPlan | None) -> bool:
    """Whether a field says something under this scheme; the other scheme's fields are left out while empty."""
    if plan is None:
        return True
    if name in _INSET:
        return plan.scheme == "inset"
    if name in _COVERING:
        if plan.scheme == "inset":
            return False
        return name not in ("gap",) if plan.scheme == "partial cover" else name != "reveal"
    return True


def _word(name: str, plan: LookPlan | None) -> str:
    if name == "cover" and plan is not None and plan.scheme == "full cover":
        return "cover at the ends"
    return field_word("looks", name)


def _look_cell(view: View, look: str, name: str, plan: LookPlan | None) -> Cell:
    subject = look.partition(":")[2]
    if name in _ENTRIES:
        rows = getattr(view.job, _ENTRIES[name])
        shop_rows = getattr(view.shop, _ENTRIES[name])
        own = view.job.looks.get(look)
        text = getattr(own, name) if own is not None else None
        choices = named_choices({**shop_rows, **rows}, _inherited_word(view, name, plan))
        return view.choice(
            key("looks", look, name), text or "", choices, subject, cell_name(view.job, "looks", look, name)
        )
    figure: Figure | None = getattr(plan, name) if plan is not None and name in _FIGURES else None
    cell = view.entry("looks", look, name, figure, subject=subject)
    return cell if cell.text or cell.kind != "choice" else _as_inherited(cell, name, plan)


def _inherited_word(view: View, name: str, plan: LookPlan | None) -> str:
    value = getattr(plan, name) if plan is not None else None
    if not value:
        return "not chosen"
    found = getattr(view.job, _ENTRIES[name]).get(value)
    return f"as above: {(found.name if found else '') or value}"


def _as_inherited(cell: Cell, name: str, plan: LookPlan | None) -> Cell:
    """A choice that is not made says what holds instead."""
    value = getattr(plan, name, None) if plan is not None else None
    if value is None or isinstance(value, Figure):
        return cell
    text = value_word("looks", name, ("yes" if value else "no") if isinstance(value, bool) else str(value))
    first = Choice("", f"({text})")
    return replace(cell, choices=(first, *(one for one in cell.choices if one.value)))


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
        worked(front.width, one, "width", bold=True, level=view.levels.get(one, "ok")),
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


# -- sums and rows


def _sums(view: View, run: RunPlan) -> Table:
    rows: list[TableRow] = []
    for at, one in enumerate(s for s in view.plan.fronts.sums if s.run == run.id):
        rows += _sum_rows(view, one, at)
    columns = (Column("", axis=False, share=2), Column(""))
    return Table("sums", "Sums that must close", "", columns, tuple(rows))


def _sum_rows(view: View, one: Sum, at: int) -> list[TableRow]:
    """A row of fronts term by term, like ones together; a column in one line."""
    subject = one.of[0] if one.of else one.run
    name = f"{one.direction} {at + 1}"
    agrees = in_units(one.total.value) == in_units(one.equals.value)
    said = "agrees" if agrees else "does not agree"
    total_of = worked(one.total, subject, f"{name}, together", bold=True, level=_level(view, subject, agrees))
    if one.direction == "column":
        terms = " + ".join(figure_text(term, view.display) for term in one.terms if in_units(term.value))
        return [TableRow(subject, (words(f"{terms}: {said}", subject), total_of))]
    rows = [TableRow(subject, (words(f"Row {', '.join(one.of)}", subject, bold=True),), head=True)]
    rows += [
        TableRow(subject, (words(word, subject), worked(f, subject, f"{name}, {word}")))
        for word, f in _terms(view, one)
    ]
    rows.append(TableRow(subject, (words("together", subject), total_of), result=True))
    equals = worked(one.equals, subject, f"{name}, overall")
    return [*rows, TableRow(subject, (words(f"overall, {said}", subject, bold=agrees), equals))]


def _level(view: View, subject: str, agrees: bool) -> CheckLevel:
    return "ok" if agrees else view.levels.get(subject, "ok")


def _terms(view: View, one: Sum) -> list[tuple[str, Figure]]:
    """Reveals singly, all fronts together, gaps of a size together."""
    pairs = list(zip(one.kinds, one.terms, strict=True))
    reveals = [(term.name, term) for kind, term in pairs if kind == "reveal"]
    gaps = [term for kind, term in pairs if kind == "gap"]
    fronts = [term for kind, term in pairs if kind not in ("reveal", "gap")]
    found = reveals[:1]
    if fronts:
        found.append((count_of(len(fronts), "front"), total(count_of(len(fronts), "front"), *map(plus, fronts))))
    for size in dict.fromkeys(gap.value for gap in gaps):
        same = [gap for gap in gaps if gap.value == size]
        word = f"{count_of(len(same), 'gap')} of {length_text(size, view.display)}"
        found.append((word, total(word, *map(plus, same))))
    return [*found, *reveals[1:]]


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
