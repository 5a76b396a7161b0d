"""A billet on the Veneer page: all billets, the slices of one, losses by name with the saws compared, its leaves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from frontwright.core.figures import Figure
from frontwright.core.findings import CheckLevel
from frontwright.core.job import Job, Machine
from frontwright.core.job.index import JobIndex
from frontwright.core.veneer.result import BilletPlan, Comparison, Losses, Seat, SlicePlan
from frontwright.core.veneer.sawing import losses_of
from frontwright.desk.contents import Action, Cell, Choice, Column, Form, FormLine, Table, TableRow
from frontwright.desk.edits.learning import learned_loss, outliers, seen_losses
from frontwright.desk.edits.leaves import POINTS, doubt
from frontwright.desk.edits.rows import row_or_new
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, named_choices, words, worked
from frontwright.desk.wording.fields import cell_name, field_word
from frontwright.desk.wording.numbers import count_of, length_text
from frontwright.desk.wording.veneer import place_word

_STATES = ("good", "spoiled", "scorched", "short")  # in this order, so that the first s spoils
_LOSSES = ("kerf", "wander", "rejoint")
_SAW = ("blade", "most_height", "blade_height", "overlap", "out_of_square")
_OF_KIND = {
    "band saw": ("blade", "most_height"),
    "table saw": ("blade", "blade_height", "overlap", "out_of_square"),
}
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
    own = ((_billet(view, plan),),) if plan.id in view.job.billets else ()
    return ((_billets(view),), (_slices(view, plan),), (_losses(view, plan),), *own, (_places(view, plan),))


def sawn_of(plan: BilletPlan) -> int:
    """How many slices of a billet were measured."""
    return sum(1 for one in plan.slices if one.thick is not None or one.left_is is not None)


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
    """What its leaves go to, each once."""
    seats = (seat for seat in view.plan.veneer.seats if seat.billet == plan.id)
    return ", ".join(dict.fromkeys(place_word(seat) for seat in seats))


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
    saws = {**view.shop.machines, **view.job.machines}
    saw = view.choice(
        key("billets", one, "machine"),
        plan.billet.machine or "",
        named_choices(saws, "as planned"),
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
    """A slice to be read. Enter goes from the first thickness to what is left, from there to the next slice."""
    one = plan.slices[at]
    following = plan.slices[at + 1].id if at + 1 < len(plan.slices) else ""
    left = key("leaves", one.id, "left")
    points = []
    for name, after in zip(POINTS, (left, *(key("leaves", one.id, p) for p in POINTS[2:]), left), strict=True):
        points.append(replace(_point(view, one, name), then=after))
    then = key("leaves", following, POINTS[0]) if following else ""
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


def state_cell(view: View, one: SlicePlan, level: CheckLevel = "ok") -> Cell:
    """The state of a leaf, to be chosen; words where its billet is only planned."""
    if not _entered(view, one.id):
        return words(one.state, one.id)
    states = _STATES if one.state in _STATES else (*_STATES, one.state)
    said = f"state of {one.id}"
    cell = view.choice(key("leaves", one.id, "state"), one.state, tuple(Choice(s, s) for s in states), one.id, said)
    bad = one.state in ("spoiled", "short", "scorched")
    return replace(cell, level=level if level != "ok" else "warn" if bad else "ok")


def _saw(view: View, one: SlicePlan) -> Cell:
    saws = {**view.shop.machines, **view.job.machines}
    own = one.leaf.machine or "" if one.leaf is not None else ""
    said = cell_name(view.job, "leaves", one.id, "machine")
    return view.choice(key("leaves", one.id, "machine"), own, named_choices(saws, "as the billet"), one.id, said)


def _leaf_actions(view: View, plan: BilletPlan) -> tuple[Action, ...]:
    """What can be said of the selected leaf with one click."""
    return leaf_actions(view, next((leaf for leaf in plan.slices if leaf.id == view.selected), None))


def leaf_actions(view: View, one: SlicePlan | None) -> tuple[Action, ...]:
    """The buttons of a leaf; none where its billet is only planned."""
    if one is None or not _entered(view, one.id):
        return ()
    words_of = {"spoiled": f"Spoil {one.id}", "scorched": f"{one.id} is scorched", "short": f"{one.id} is short"}
    found = [Action(key("leaf-state", one.id, s), word, one.id) for s, word in words_of.items() if one.state != s]
    if one.state != "to come" and f"{one.id}b" not in view.job.leaves and not one.id.endswith("b"):
        found.append(Action(key("leaf-split", one.id), f"{one.id} makes two short ones", one.id))
    if one.state in words_of:
        found.append(Action(key("leaf-state", one.id, "good"), f"{one.id} is good", one.id))
    if one.leaf is not None and one.leaf.side is not None:
        found.append(Action(key("leaf-back", one.id), f"{one.id} by the plan", one.id))
    return tuple(found)


# -- losses and saws compared


def _losses(view: View, plan: BilletPlan) -> Table:
    """A row each loss, a column each saw: figures are typed here where the saw is the job's."""
    saws = list(view.job.machines.values()) or [Machine("band saw", "band saw", "usual band saw")]
    index = JobIndex(view.job)
    losses = {saw.id: losses_of(index, saw) for saw in saws}
    compared = {one.machine: one for one in view.plan.veneer.compared}
    columns = [Column("of each slice", axis=False, share=2)]
    columns += [Column(_saw_word(view.job, saw), "planned with" if saw.chosen else "compared") for saw in saws]
    columns.append(Column(f"on {plan.id} it is", "seen"))
    rows = [_loss_row(view, losses, saws, name) for name in _LOSSES]
    rows[0] = replace(rows[0], cells=(*rows[0].cells, words("")))
    rows.append(_together(view, plan, losses, saws))
    rows.append(_loss_row(view, losses, saws, "keep_back"))
    rows += _seen_rows(plan, len(saws))
    rows += _counts(compared, saws)
    rows += [_saw_row(view, saws, name) for name in _SAW if any(name in _OF_KIND[saw.kind] for saw in saws)]
    rows += _learned(view, saws)
    aside = "each by its own name; the saw that is planned with first said"
    actions = tuple(
        Action(key("use-learned", saw.id), f"Plan {_saw_word(view.job, saw)} with the learned loss", saw.id)
        for saw in saws
        if saw.id in view.job.machines and learned_loss(view.job, view.shop, saw) is not None
    )
    add = Action(key("new", "machines"), "Add a saw")
    return Table("losses", "Losses by name, saws compared", aside, tuple(columns), tuple(rows), (*actions, add))


def _saw_word(job: Job, saw: Machine) -> str:
    name = saw.name or saw.id if saw.id in job.machines else "usual band saw"
    return f"{name}, {saw.blade}" if saw.blade else name


def _loss_row(view: View, losses: Mapping[str, Losses], saws: list[Machine], name: str) -> TableRow:
    cells = [words(field_word("machines", name))]
    for saw in saws:
        figure: Figure = getattr(losses[saw.id], name)
        own = saw.id in view.job.machines
        cells.append(view.entry("machines", saw.id, name, figure) if own else worked(figure, saw.id, name))
    return TableRow("", tuple(cells))


def _saw_row(view: View, saws: list[Machine], name: str) -> TableRow:
    """What a saw takes, and the blade that is mounted on it."""
    cells = [words(field_word("machines", name))]
    for saw in saws:
        own = saw.id in view.job.machines and name in _OF_KIND[saw.kind]
        usual = view.assumed(f"table saw {name.replace('_', ' ')}") if name in ("blade_height", "overlap") else None
        cells.append(view.entry("machines", saw.id, name, usual) if own else words(""))
    return TableRow("", tuple(cells))


def _together(view: View, plan: BilletPlan, losses: Mapping[str, Losses], saws: list[Machine]) -> TableRow:
    cells = [words("lost each slice", bold=True)]
    cells += [worked(losses[saw.id].together, saw.id, "loss a slice", bold=True) for saw in saws]
    if plan.seen is not None:
        level = view.level_of(plan.id, "resaw-yield")
        cells.append(worked(plan.seen.loss, plan.id, "loss seen", bold=True, level=level))
    return TableRow("", tuple(cells), result=True)


def _seen_rows(plan: BilletPlan, saws: int) -> list[TableRow]:
    """F60 as it is read off: each figure opens its working."""
    if plan.seen is None:
        return []
    blank = tuple(words("") for _ in range(saws))
    figures = (
        (f"mean leaf of {count_of(plan.seen.slices, 'slice')}", plan.seen.mean_thickness),
        ("leaf and loss, each slice", plan.seen.pitch),
        ("rest, if the saw goes on so", plan.seen.rest),
    )
    rows = [TableRow("", (words(said), *blank, worked(figure, plan.id, said))) for said, figure in figures]
    rows.append(TableRow("", (words("leaves still to come"), *blank, words(str(plan.seen.more), plan.id))))
    return rows


def _counts(compared: Mapping[str, Comparison], saws: list[Machine]) -> list[TableRow]:
    """So many leaves with this saw, short by so many with that."""
    found = [compared.get(saw.id) for saw in saws]
    if not any(found):
        return []
    wanted = next(one.wanted for one in found if one is not None)

    def row(said: str, texts: list[str], *, bold: bool = False) -> TableRow:
        return TableRow("", (words(said, bold=bold), *(words(text, bold=bold) for text in texts)))

    short = [sum(count for _, count in one.short) if one is not None else 0 for one in found]
    return [
        row(f"leaves of the {wanted} wanted", [str(one.gives) if one is not None else "" for one in found]),
        row("short by", [str(count) for count in short], bold=True),
        row("with rests planed to leaves", [str(one.with_rests) if one is not None else "" for one in found]),
    ]


def _learned(view: View, saws: list[Machine]) -> list[TableRow]:
    """What the shop learned of each saw in this wood: the figure, how far it spreads, over how many jobs."""
    found = [learned_loss(view.job, view.shop, saw) for saw in saws]
    if not any(found):
        return []
    cells = [words("learned, each slice")]
    for one in found:
        value = one.value.value if one is not None and one.value is not None else None
        spread = one.spread.value if one is not None and one.spread is not None else None
        text = length_text(value, view.display) if value is not None else ""
        apart = f" ± {length_text(spread, view.display)}" if spread else ""
        cells.append(words(f"{text}{apart}, {count_of(one.count, 'job')}" if one is not None and text else ""))
    return [TableRow("", tuple(cells))]


# -- where the leaves go


def _places(view: View, plan: BilletPlan) -> Table:
    seats = {seat.leaf: seat for seat in view.plan.veneer.seats}
    rows = tuple(place_row(view, one, seats.get(one.id)) for one in plan.slices)
    return Table("places", f"Where the leaves of {plan.id} go", PLACES_ASIDE, PLACES, rows, tall=False)


PLACES_ASIDE = "worked out; choose a front and a side to put one elsewhere"
PLACES = (
    Column("leaf", axis=False),
    Column("goes to", axis=False, share=2),
    Column("seat"),
    Column("lies", axis=False),
    Column("front", "put there by hand", axis=False),
    Column("side", "put there by hand", axis=False),
    Column("seat", "put there by hand"),
    Column("good length"),
)


def place_row(view: View, one: SlicePlan, seat: Seat | None) -> TableRow:
    """Where a leaf goes, and the cells by which it is put elsewhere."""
    leaf = one.id
    at = str(seat.seat) if seat is not None and seat.seat else ""
    lies = "" if seat is None or seat.side not in ("show", "back") else "shut" if seat.turned else "open"
    cells: list[Cell] = [
        words(leaf, leaf, bold=True),
        words(place_word(seat) if one.state != "lost" else "lost", leaf),
        words(at, leaf),
        words(lies, leaf),
    ]
    return TableRow(leaf, (*cells, *by_hand(view, leaf, ("side", "seat", "good_length"))))


def by_hand(view: View, leaf: str, names: tuple[str, ...]) -> tuple[Cell, ...]:
    """The cells by which a leaf is put elsewhere: the front first; none where its billet is only planned."""
    if not _entered(view, leaf):
        return ()
    fronts = tuple(
        Choice(made.front, made.front)
        for made in view.plan.making.fronts.values()
        if any(panel.part in view.plan.veneer.panels for panel in made.panels)
    )
    row = row_or_new(view.job, "leaves", leaf)
    said = cell_name(view.job, "leaves", leaf, "front")
    none = Choice("", "by the plan")
    front = view.choice(key("leaves", leaf, "front"), row.front or "", (none, *fronts), leaf, said)
    return (front, *(view.entry("leaves", leaf, name, subject=leaf) for name in names))


def _entered(view: View, leaf: str) -> bool:
    """Whether a leaf is of a billet that was entered: only such a one can be read, spoiled or moved."""
    plans = view.plan.veneer.plans
    return any(plan.id in view.job.billets and any(one.id == leaf for one in plan.slices) for plan in plans)


def _risk(view: View, billet: str) -> CheckLevel:
    """How a leaf that is lost or at risk is marked: as strongly as its billet, and never less than a warning."""
    level = view.level_of(billet, "resaw-yield")
    return "warn" if level == "ok" else level
