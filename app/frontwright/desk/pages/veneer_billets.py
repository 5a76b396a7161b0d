"""A billet on the Veneer page: all billets, the slices of one, losses by name with the saws compared, its leaves."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.figures import Figure
from frontwright.core.findings import CheckLevel
from frontwright.core.veneer.result import BilletPlan, Seat, SlicePlan
from frontwright.desk.contents import Action, Cell, Choice, Column, Form, FormLine, Table, TableRow
from frontwright.desk.edits.learning import outliers, seen_losses
from frontwright.desk.edits.leaves import POINTS, doubt
from frontwright.desk.keys import key
from frontwright.desk.pages.veneer_cautions import cautions_table
from frontwright.desk.pages.veneer_leaves import PLACES, PLACES_ASIDE, leaf_actions, place_row, read_table, state_cell
from frontwright.desk.pages.veneer_losses import losses_table
from frontwright.desk.pages.view import View, named_choices, words, worked
from frontwright.desk.wording.fields import cell_name, field_word
from frontwright.desk.wording.numbers import count_of
from frontwright.desk.wording.veneer import saw_word

_FORM = (
    "slice",
    "slice_now",
    "keep_now",
    "ring_angle",
    "moisture_shell",
    "moisture_core",
    "moisture_on",
    "figure",
    "match",
    "note",
)
Bands = tuple[tuple[Table | Form, ...], ...]


def billet_bands(view: View, plan: BilletPlan) -> Bands:
    """The bands of the page that stands on a billet."""
    slices = (_billets(view),), (_slices(view, plan),), (losses_table(view, plan),), (cautions_table(view, plan),)
    if plan.id not in view.job.billets:
        return (*slices, (_places(view, plan),))
    return (*slices, (_billet(view, plan),), (_places(view, plan),), (read_table(view, plan),))


def sawn_of(plan: BilletPlan) -> int:
    """How many slices of a billet were made, measured or not; of one stopped half way two leaves came of one slice."""
    return len({one.number for one in plan.slices if one.state not in ("to come", "lost")})


# -- all billets


def _billets(view: View) -> Table:
    plans = view.plan.veneer.plans
    columns = (
        Column("billet", axis=False),
        Column("from", axis=False),
        Column("length"),
        Column("width"),
        Column("thick"),
        Column("leaves"),
        Column("sawn"),
        Column("rest"),
        Column("for", axis=False, share=2),
    )
    chosen = next((one for one in view.plan.veneer.compared if one.chosen), None)
    aside = f"{count_of(chosen.wanted, 'leaf', 'leaves')} wanted" if chosen is not None else ""
    rows = tuple(_billet_row(view, plan) for plan in plans)
    return Table("billets", "Billets, in sawing order", aside, columns, rows, _billet_actions(view), tall=False)


def _billet_row(view: View, plan: BilletPlan) -> TableRow:
    one, entered = plan.id, plan.id in view.job.billets
    sizes = (("length", plan.length), ("width", plan.width), ("thickness", plan.thickness))
    gives = plan.seen.leaves if plan.seen is not None else plan.planned
    level: CheckLevel = view.level_of(one, "resaw-yield")
    less = f"{gives}, not {plan.planned}" if gives != plan.planned else str(gives)
    sawn = sawn_of(plan)
    cells = (
        view.name("billets", one) if entered else words(one, one, bold=True),
        _from(view, plan) if entered else words("as planned", one),
        *(view.entry("billets", one, name, figure) if entered else worked(figure, one, name) for name, figure in sizes),
        words(less, one, bold=True, level=level),
        words(f"is {sawn}" if sawn else "", one),
        worked(plan.rest, one, "rest"),
        words(_serves(view, plan), one),
    )
    return TableRow(one, cells)


def _from(view: View, plan: BilletPlan) -> Cell:
    rows = view.job.pieces
    choices = (Choice("", "not said"), *(Choice(row, f"{row} {p.batch}".strip()) for row, p in rows.items()))
    text = plan.billet.piece or ""
    return view.choice(
        key("billets", plan.id, "piece"), text, choices, plan.id, cell_name(view.job, "billets", plan.id, "piece")
    )


def _serves(view: View, plan: BilletPlan) -> str:
    """What its leaves go to, each once and short: "DA-P show, stile strips, skin"."""
    seats = (seat for seat in view.plan.veneer.seats if seat.billet == plan.id)
    return ", ".join(dict.fromkeys(_short(seat) for seat in seats))


def _short(seat: Seat) -> str:
    """Where a leaf goes in as few words as tell it from the others of a billet: strips without their number."""
    if seat.side == "strips":
        return seat.of.rstrip(" 0123456789") or "strips"
    return f"{seat.of} {seat.side}" if seat.side in ("show", "back") else seat.side


def _billet_actions(view: View) -> tuple[Action, ...]:
    if not view.job.billets:
        planned = view.plan.veneer.plans
        found = [Action(key("enter-billets"), "Enter these billets")] if planned else []
        return (*found, Action(key("add-billet"), "Add a billet"))
    one = view.selected if view.selected in view.job.billets else ""
    if not one:
        return (Action(key("add-billet"), "Add a billet"),)
    return (
        *_learning(view, one),
        Action(key("add-billet", one), f"Another like {one}", one),
        Action(key("move-billet", one, "up"), f"Saw {one} earlier", one),
        Action(key("move-billet", one, "down"), f"Saw {one} later", one),
        Action(key("delete", "billets", one), f"Take out {one}", one),
    )


def _learning(view: View, billet: str) -> tuple[Action, ...]:
    """Learning from a billet that somebody is done with; what lies out of all that was learned is asked about."""
    seen = seen_losses(view.job, view.plan, billet)
    if not seen:
        return ()
    held = outliers(view.shop, seen)
    learn = Action(key("learn", billet), f"Learn from {billet}", billet)
    same = Action(key("learn", billet, "all the same"), f"Count {billet} all the same", billet)
    return (*([learn] if len(held) < len(seen) else []), *([same] if held else []))


def _billet(view: View, plan: BilletPlan) -> Form:
    """What is known of the billet beside its sizes."""
    one = plan.id
    figures: dict[str, Figure | None] = {"slice": plan.slice}
    saw = view.choice(
        key("billets", one, "machine"),
        plan.billet.blade or plan.billet.machine or "",
        _saws(view, "as planned"),
        one,
        cell_name(view.job, "billets", one, "machine"),
    )
    lines = [FormLine(field_word("billets", "machine"), saw)]
    lines += [
        FormLine(field_word("billets", name), view.entry("billets", one, name, figures.get(name))) for name in _FORM
    ]
    if plan.shift is not None:
        lines.append(FormLine("figure shifts by", worked(plan.shift, one, "shift of the figure")))
    piece = view.job.pieces.get(plan.billet.piece or "")
    return Form(
        "billet", f"Billet {one}", f"batch {piece.batch}" if piece is not None and piece.batch else "", tuple(lines)
    )


# -- slices


def _slices(view: View, plan: BilletPlan) -> Table:
    columns = (
        Column("leaf", axis=False),
        *(Column(str(at), "leaf is, at six points") for at in range(1, 7)),
        Column("should", "billet left"),
        Column("is", "billet left"),
        Column("state", axis=False),
        Column("sawn with", axis=False),
    )
    entered = plan.id in view.job.billets
    make = _slice_row if entered else _planned_row
    rows = tuple(make(view, plan, at) for at in range(len(plan.slices)))
    aside = "one thickness and what is left, then the next slice" if entered else "enter the billets to read slices"
    return Table("slices", f"Slices of {plan.id}", aside, columns, rows, _leaf_actions(view, plan), tall=False)


def _planned_row(_view: View, plan: BilletPlan, at: int) -> TableRow:
    one = plan.slices[at]
    blank = tuple(words("", one.id) for _ in POINTS)
    should = worked(one.left_should, one.id, "billet left")
    cells = (words(one.id, one.id, bold=True), *blank, should, words("", one.id), words(one.state, one.id))
    return TableRow(one.id, cells)


def _slice_row(view: View, plan: BilletPlan, at: int) -> TableRow:
    """A slice to be read. Enter goes from the first thickness to what is left, from there to the next slice; of the
    last to its state, where a figure typed on by habit does no harm."""
    one = plan.slices[at]
    following = plan.slices[at + 1].id if at + 1 < len(plan.slices) else ""
    left = key("leaves", one.id, "left")
    points = []
    for name, after in zip(POINTS, (left, *(key("leaves", one.id, p) for p in POINTS[2:]), left), strict=True):
        points.append(replace(_point(view, one, name), then=after))
    then = key("leaves", following, POINTS[0]) if following else key("leaves", one.id, "state")
    is_left = replace(view.entry("leaves", one.id, "left", subject=one.id), then=then)
    level: CheckLevel = _risk(view, plan.id) if one.at_risk or one.state == "lost" else "ok"
    cells = (
        words(one.id, one.id, bold=True, level=level),
        *points,
        worked(one.left_should, one.id, "billet left"),
        is_left,
        state_cell(view, one, level),
        _saw(view, one),
    )
    return TableRow(one.id, cells)


def _point(view: View, one: SlicePlan, name: str) -> Cell:
    cell = view.entry("leaves", one.id, name, subject=one.id)
    said = doubt(one.leaf, name, cell.name, view.display) if one.leaf is not None else ""
    return replace(cell, level="warn", hint=said) if said and not cell.unread else cell


def _saw(view: View, one: SlicePlan) -> Cell:
    own = one.leaf.blade or one.leaf.machine or "" if one.leaf is not None else ""
    said = cell_name(view.job, "leaves", one.id, "machine")
    return view.choice(key("leaves", one.id, "machine"), own, _saws(view, "as before"), one.id, said)


def _saws(view: View, empty: str) -> tuple[Choice, ...]:
    """The saws to choose from, those of the shop too, and each blade of the job's saws."""
    found = list(named_choices({**view.shop.machines, **view.job.machines}, empty))
    for blade in view.job.blades.values():
        saw = view.job.machines[blade.machine]
        found.append(Choice(blade.id, saw_word(saw.name or saw.id, blade.name or blade.id)))
    return tuple(found)


def _leaf_actions(view: View, plan: BilletPlan) -> tuple[Action, ...]:
    """What can be said of the selected leaf with one click."""
    return leaf_actions(view, next((leaf for leaf in plan.slices if leaf.id == view.selected), None))


# -- where the leaves go


def _places(view: View, plan: BilletPlan) -> Table:
    seats = {seat.leaf: seat for seat in view.plan.veneer.seats}
    rows = tuple(place_row(view, one, seats.get(one.id)) for one in plan.slices)
    return Table("places", f"Where the leaves of {plan.id} go", PLACES_ASIDE, PLACES, rows, tall=False)


def _risk(view: View, billet: str) -> CheckLevel:
    """How a leaf that is lost or at risk is marked: as strongly as its billet, and never less than a warning."""
    level = view.level_of(billet, "resaw-yield")
    return "warn" if level == "ok" else level
