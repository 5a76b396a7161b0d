"""The edits of the Veneer page by table and by verb, and the ways out of its findings."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from frontwright.core.findings import Check, WayOut
from frontwright.core.job import Job
from frontwright.core.lengths import Length, typed_length
from frontwright.core.plan import Plan
from frontwright.desk.edits import blades, leaves, making, pressings
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.keys import Place

TABLES = ("billets", "leaves", "pressings", "pressed_panels", "plane_passes")
_VERBS: dict[str, Callable[..., Edit]] = {
    "veneer-panels": making.veneer_panels,
    "enter-billets": leaves.enter_billets,
    "add-billet": leaves.add_billet,
    "move-billet": leaves.move_billet,
    "add-blade": blades.add_blade,
    "leaf-state": leaves.leaf_state,
    "leaf-back": leaves.leaf_back,
    "leaf-split": leaves.leaf_split,
    "new-pressing": pressings.new_pressing,
    "halve": pressings.halve,
    "join": pressings.join,
}


def entered(job: Job, place: Place, text: str, when: str) -> Edit:
    """The edit of a cell of the Veneer page; `when` is the day that a reading of moisture is noted with."""
    if place.table == "leaves":
        return leaves.entered_leaf(job, place, text)
    if place.table == "billets":
        return leaves.entered_billet(job, place, text, when)
    if place.table == "pressings":
        return pressings.entered_pressing(job, place, text)
    return pressings.entered_of_panel(job, place, text)


def is_edit(verb: str) -> bool:
    return verb in _VERBS


def goes_on_there(verb: str) -> bool:
    """Whether typing goes on in what this action put in or told of."""
    return verb in ("add-blade", "add-billet", "leaf-state", "leaf-split")


def edit_of(job: Job, plan: Plan, verb: str, objects: tuple[str, ...]) -> Edit:
    """The edit of an action. Refused where what it is about is no longer there."""
    try:
        return _VERBS[verb](job, plan, *objects)
    except TypeError as wrong:
        raise Refused(f"“{verb}” takes other objects than {', '.join(objects) or 'none'}.") from wrong


def way_out(job: Job, plan: Plan, check: Check, way: WayOut) -> Edit | None:
    """The edit of a way out of a finding of the veneer; None where it is none of these, or only leads to a cell."""
    if check.code == "resaw-yield" and way.kind == "enter":
        return leaves.enter_billets(job, plan) if way.of == "billets" else leaves.add_billet(job, plan, way.of)
    if check.code == "resaw-yield" and way.of in job.billets and isinstance(way.value, Length):
        text = typed_length(way.value, job.heading.unit).text
        return replace(leaves.entered_billet(job, Place("billets", way.of, way.field), text, ""), field=None)
    if way.kind != "change" or check.code not in ("press-time", "press-load", "balance"):
        return None
    return pressings.way_out(job, plan, way)


def renamed(job: Job, table: str, old: str, new: str) -> Job:
    """What is called after a billet or a front that has another name now."""
    if table == "billets":
        return leaves.billet_renamed(job, old, new)
    return pressings.panels_renamed(job, old, new) if table == "fronts" else job
