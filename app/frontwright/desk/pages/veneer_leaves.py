"""A leaf in the tables of the Veneer page: its state, where it goes, and the cells by which it is put elsewhere."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.findings import CheckLevel
from frontwright.core.veneer.result import BilletPlan, Seat, SlicePlan
from frontwright.desk.contents import Action, Cell, Choice, Column, Table, TableRow
from frontwright.desk.edits.rows import row_or_new
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, words
from frontwright.desk.wording.fields import cell_name
from frontwright.desk.wording.veneer import place_word

_STATES = ("good", "spoiled", "scorched", "short")  # in this order, so that the first s spoils
PLACES_ASIDE = "worked out; choose a front and a side to put one elsewhere"
PLACES = (
    Column("leaf", axis=False),
    Column("goes to", axis=False, share=2),
    Column("seat"),
    Column("lies", axis=False),
    Column("front", "put there by hand", axis=False),
    Column("side", "put there by hand", axis=False),
    Column("seat", "put there by hand"),
)
_READ_ASIDE = "what was read before jointing tells the re-joint loss by itself"
_READ = (
    Column("leaf", axis=False),
    Column("not jointed", "billet left"),
    Column("length"),
    Column("width"),
    Column("good length"),
    Column("note", axis=False, share=2),
)


def state_cell(view: View, one: SlicePlan, level: CheckLevel = "ok") -> Cell:
    """The state of a leaf, to be chosen; words where its billet is only planned."""
    if not _entered(view, one.id):
        return words(one.state, one.id)
    states = _STATES if one.state in _STATES else (*_STATES, one.state)
    said = f"state of {one.id}"
    cell = view.choice(key("leaves", one.id, "state"), one.state, tuple(Choice(s, s) for s in states), one.id, said)
    bad = one.state in ("spoiled", "short", "scorched")
    return replace(cell, level=level if level != "ok" else "warn" if bad else "ok")


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
    return TableRow(leaf, (*cells, *by_hand(view, leaf, ("side", "seat"))))


def read_table(view: View, plan: BilletPlan) -> Table:
    """What is read of the leaves of a billet beside their thickness: only where it matters."""
    names = ("unjointed", "length", "width", "good_length", "note")
    rows = tuple(
        TableRow(
            one.id,
            (words(one.id, one.id, bold=True), *(view.entry("leaves", one.id, n, subject=one.id) for n in names)),
        )
        for one in plan.slices
    )
    return Table("read", f"Leaves of {plan.id}, as they came", _READ_ASIDE, _READ, rows, tall=False)


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
