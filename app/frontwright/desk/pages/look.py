"""The look at one level: room, run, box or opening; what is not chosen there shows what holds."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.figures import Figure
from frontwright.core.fronts.result import LookPlan
from frontwright.core.job import Look
from frontwright.core.job.declared import Declared
from frontwright.core.survey.result import RunPlan
from frontwright.desk.contents import (
    Action,
    Cell,
    Choice,
    Form,
    FormLine,
)
from frontwright.desk.edits.rows import fields_of
from frontwright.desk.edits.woods import choosable
from frontwright.desk.keys import key
from frontwright.desk.pages.view import View, named_choices
from frontwright.desk.ways import look_scopes
from frontwright.desk.wording.fields import cell_name, field_word, value_word

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
    "pull": "pull_types",
    "species": "species",
    "finish": "finishes",
}


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


def look_form(view: View, run: RunPlan) -> Form:
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
    return name not in ("reveals_on", "least_cover", "door_grain", "drawer_grain", "cut", "pulls", "bumper")


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
        own = view.job.looks.get(look)
        text = getattr(own, name) if own is not None else None
        choices = named_choices(choosable(view.job, view.shop, _ENTRIES[name]), _inherited_word(view, name, plan))
        return view.choice(
            key("looks", look, name), text or "", choices, subject, cell_name(view.job, "looks", look, name)
        )
    figure: Figure | None = getattr(plan, name) if plan is not None and name in _FIGURES else None
    figure = view.assumed("bumper") if name == "bumper" else figure
    cell = view.entry("looks", look, name, figure, subject=subject)
    return cell if cell.text or cell.kind != "choice" else _as_inherited(cell, name, plan)


def _inherited_word(view: View, name: str, plan: LookPlan | None) -> str:
    value = getattr(plan, name, None) if plan is not None else None
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
