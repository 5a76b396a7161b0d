"""Billets and leaves: readings held against what stood of the billet, leaves put in their places, billets entered."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from statistics import median
from typing import Any

from frontwright.core.job import Billet, Job, Leaf
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, Display, Length, half_up, in_units, typed_length
from frontwright.core.making.builds import panel_plan
from frontwright.core.plan import Plan, derive
from frontwright.core.skins import first_veneered
from frontwright.core.veneer.result import BilletPlan
from frontwright.core.veneer.sawing import billet_plan, was_sawn
from frontwright.core.veneer.seen import mean_thickness
from frontwright.desk.edits.blades import with_saw
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.readings import display_of
from frontwright.desk.edits.rows import free_id, row_or_new, table, with_field
from frontwright.desk.edits.values import value_of
from frontwright.desk.edits.veneer_rows import leaf_id
from frontwright.desk.keys import Place
from frontwright.desk.wording.fields import cell_name
from frontwright.desk.wording.numbers import capital, count_of, length_text
from frontwright.desk.wording.veneer import moved

POINTS = tuple(f"thick_{at}" for at in range(1, 7))
NOT_SAWN = ("to come", "lost", "")
_SPREAD = Length.mm("0.6")  # from here on the points of a leaf differ more than usual
_FAR = 2  # times the others, or half of them: read in another unit


# -- leaves


def entered_leaf(job: Job, place: Place, text: str) -> Edit:
    """A field of a leaf; the first that is typed makes the leaf.

    Refused where leaf and rest would be more than there was, or where there is no such place for the leaf.
    """
    old: Leaf = row_or_new(job, "leaves", place.row)
    name = cell_name(job, "leaves", place.row, place.field)
    if place.field == "state" and text.strip() in NOT_SAWN:
        return Edit(name, lambda before: before.drop(Leaf, old.id), place.key, tell=moved)
    if place.field == "machine" and (chosen := with_saw(job, old, text)) is not None:
        return Edit(name, lambda before: _sawn_with(before, chosen), place.key, tell=moved)
    got = value_of(job, place, text, name, display_of(job))
    new: Leaf = replace(old, **{place.field: got.value})  # type: ignore[arg-type]  # read by the type of its field
    if new == old and old.id not in job.leaves:
        return Edit(name, lambda before: before)
    if place.field in ("front", "side", "seat"):
        return _placing(job, place, replace(new, **_place_of(new, place.field)), name)
    problem = _impossible(job, new, place.field, name)
    if problem:
        raise Refused(problem)
    said = doubt(new, place.field, name, display_of(job)) or _beyond(job, new, place.field, name) or got.said
    return Edit(name, lambda before: _with(before, new, place.field), place.key, said, tell=moved)


def _with(job: Job, new: Leaf, field: str) -> Job:
    old: Leaf = row_or_new(job, "leaves", new.id)
    return _kept(job, replace(old, **{field: getattr(new, field)}), field)


def _sawn_with(job: Job, new: Leaf) -> Job:
    old: Leaf = row_or_new(job, "leaves", new.id)
    return _kept(job, replace(old, machine=new.machine, blade=new.blade), "machine")


def _kept(job: Job, row: Leaf, field: str, *others: Leaf) -> Job:
    """The leaf put in; one of which nothing is said any more is to come again, unless it was just called good."""
    old = job.leaves.get(row.id)
    there = field == "state" or (old is not None and was_sawn(old) and field in ("seat", "machine", "note"))
    if there and not was_sawn(row):
        row = replace(row, sawn=True)  # a place, a saw or a note makes no leaf unsawn
    bare = replace(row, counted=False) == Leaf(row.id, row.billet, row.number) and field != "state"
    if bare:
        return job.drop(Leaf, row.id) if row.id in job.leaves else job
    return job if job.leaves.get(row.id) == row else job.put(row, *others)


def _impossible(job: Job, leaf: Leaf, field: str, name: str) -> str:
    """One sentence where a leaf cannot have been sawn from what stood of its billet; empty where it can."""
    if field not in (*POINTS, "left", "unjointed"):
        return ""
    index, display = JobIndex(job), display_of(job)
    plan = billet_plan(index, job.billets[leaf.billet], panel_plan(index, first_veneered(index)))
    if leaf.id not in job.leaves and leaf.number > _most(job, plan):
        said = f"billet {leaf.billet} gives no leaf of that number"
        return f"{capital(name)}: {said}; look at the number, or at the thickness of the billet."
    stood, between = _stood(job, plan, leaf)
    if stood is None:
        return ""
    typed = getattr(leaf, field)
    value = typed.value if typed is not None else None
    before = f"the {length_text(stood, display)} that stood of billet {leaf.billet} before it"
    if value is not None and value >= stood:
        typed_as = length_text(value, display)
        return f"{capital(name)}: {typed_as} is not less than {before}; look at the unit, or read again."
    left = leaf.left.value if leaf.left is not None else None
    thick = [mean for one in (*between, leaf) if (mean := mean_thickness(one)) is not None]
    together = Length(0) if left is None else left + sum((mean.length for mean in thick), start=ZERO)
    if left is not None and together > stood:
        return (
            f"{capital(name)}: leaf and billet left are together {length_text(together, display)}, more than {before}; "
            "read one of them again."
        )
    return ""


def _beyond(job: Job, leaf: Leaf, field: str, name: str) -> str:
    """One sentence where a leaf that is new bears a number beyond what its billet was to give; empty where not."""
    if leaf.id in job.leaves or field not in (*POINTS, "left", "unjointed"):
        return ""
    index = JobIndex(job)
    plan = billet_plan(index, job.billets[leaf.billet], panel_plan(index, first_veneered(index)))
    gives = max(plan.planned, plan.seen.leaves if plan.seen is not None else 0)
    if leaf.number <= gives + plan.spare:
        return ""
    return (
        f"{capital(name)}: billet {leaf.billet} was to give {count_of(gives, 'leaf', 'leaves')} only; "
        "look at the number of the leaf, or at the thickness of the billet. It is kept as typed."
    )


def _stood(job: Job, plan: BilletPlan, leaf: Leaf) -> tuple[Length | None, list[Leaf]]:
    """What stood of the billet before this leaf, as read, and the leaves sawn between without a reading of the rest."""
    earlier = sorted((r for r in job.leaves.values() if r.billet == leaf.billet), key=lambda r: -r.number)
    between: list[Leaf] = []
    for row in earlier:
        if row.number >= leaf.number:
            continue
        if row.left is not None and row.left.value is not None:
            return row.left.value, between
        between.append(row)
    return (plan.thickness.length if plan.thickness.source == "taped" else None), between


def _most(job: Job, plan: BilletPlan) -> int:
    """The highest number a leaf of the billet can have: by leaf and kerf alone, from what was last read to be left."""
    rows = [row for row in job.leaves.values() if row.billet == plan.id]
    lefts = {row.number: row.left.value for row in rows if row.left is not None and row.left.value is not None}
    last = max(lefts, default=0)
    stood = lefts[last] if last else plan.thickness.length
    thin = [in_units(mean.value) for row in rows if (mean := mean_thickness(row)) is not None]
    kerf = in_units(plan.saw_now.losses.kerf.value)
    pitch = min([in_units(plan.slice.value), *thin]) + kerf
    room = int((stood.units + kerf) // pitch) if pitch > 0 else 0
    return max(last + room, plan.planned, *(row.number for row in rows), 0)


def doubt(leaf: Leaf, field: str, name: str, display: Display) -> str:
    """One sentence where a point of a leaf lies far from its others; empty where it does not."""
    if field not in POINTS:
        return ""
    read = {at: typed.value for at in POINTS if (typed := getattr(leaf, at)) is not None and typed.value is not None}
    if field not in read or len(read) == 1:
        return ""
    own = read[field].units
    others = median(value.units for at, value in read.items() if at != field)
    said = length_text(half_up(Fraction(others)), display)
    if own >= _FAR * others or _FAR * own <= others:
        return (
            f"{capital(name)} is far from the other points, {said}: was it read in another unit? It is kept as typed."
        )
    apart = half_up(abs(Fraction(own) - Fraction(others)))
    if apart > _SPREAD:
        off = length_text(apart, display)
        return f"{capital(name)} is {off} off the other points, more than usual; leave it if it is so."
    return ""


# -- places


def _place_of(leaf: Leaf, field: str) -> dict[str, Any]:
    """What goes with the choice of a front or a side: without one the plan places the leaf."""
    if field == "front":
        if leaf.front is None:
            return {"side": None, "seat": None}
        return {"side": leaf.side if leaf.side in ("show", "back") else "back", "seat": None}
    if field == "side" and leaf.side not in ("show", "back"):
        return {"front": None, "seat": None}
    return {}


def _placing(job: Job, place: Place, new: Leaf, name: str) -> Edit:
    if new.seat is not None and new.side is None:
        raise Refused(f"{capital(name)}: choose the front and the side of the leaf first.")
    if new.front is not None:
        _has_seat(job, new, name)
    return Edit(name, lambda before: _placed(before, new), place.key, tell=moved)


def _has_seat(job: Job, leaf: Leaf, name: str) -> None:
    made = derive(job).making.fronts.get(leaf.front or "")
    count = sum(panel.leaves_across or 0 for panel in made.panels) if made is not None else 0
    if not count:
        raise Refused(f"{capital(name)}: {leaf.front} has no panel of leaves; choose another front.")
    if leaf.seat is not None and not 1 <= leaf.seat <= count:
        raise Refused(f"{capital(name)}: a face of {leaf.front} takes {count} leaves; type a seat from 1 to {count}.")


def _placed(job: Job, new: Leaf) -> Job:
    """The leaf in its place; one that a person had put there goes back to where the plan puts it."""
    there = (new.front, new.side, new.seat)
    others = [
        replace(one, front=None, side=None, seat=None)
        for one in job.leaves.values()
        if new.seat is not None and one.id != new.id and (one.front, one.side, one.seat) == there
    ]
    return _kept(job, new, "seat", *others)


def leaf_state(job: Job, _plan: Plan, leaf: str, state: str) -> Edit:
    """A leaf said to be good, scorched, short or spoiled; where it cannot serve any more others step up."""
    edit = entered_leaf(job, Place("leaves", leaf, "state"), state)
    return replace(edit, name=f"{leaf} {state}", field=None, select=leaf)


def leaf_split(job: Job, _plan: Plan, leaf: str) -> Edit:
    """A leaf of a stopped cut: two short ones of the same number, whose lengths are still to be read."""
    old: Leaf = row_or_new(job, "leaves", leaf)
    other = f"{leaf_id(old.billet, old.number)}b"
    if other in job.leaves:
        raise Refused(f"{leaf} is two short leaves already; type their good lengths.")
    new = (
        replace(old, state="short"),
        Leaf(other, old.billet, old.number, state="short", machine=old.machine, blade=old.blade),
    )
    return Edit(f"{leaf} makes two short leaves", lambda before: before.put(*new), select=leaf, tell=moved)


def leaf_back(job: Job, _plan: Plan, leaf: str) -> Edit:
    """A leaf that a person had placed goes to where the plan puts it."""
    old: Leaf = row_or_new(job, "leaves", leaf)
    new = replace(old, front=None, side=None, seat=None)
    return Edit(f"{leaf} as the plan puts it", lambda before: _placed(before, new), select=leaf, tell=moved)


# -- billets


def entered_billet(job: Job, place: Place, text: str, when: str) -> Edit:
    """A field of a billet; with the first reading of its moisture the day is noted."""
    name = cell_name(job, "billets", place.row, place.field)
    saw = with_saw(job, row_or_new(job, "billets", place.row), text) if place.field == "machine" else None
    if saw is not None:
        return Edit(name, lambda before: _billet_with(before, saw), place.key, tell=moved)
    got = value_of(job, place, text, name, display_of(job))

    def change(before: Job) -> Job:
        after = with_field(before, "billets", place.row, place.field, got.value)
        moist = place.field.startswith("moisture_") and place.field != "moisture_on" and got.value is not None
        if moist and when and not after.billets[place.row].moisture_on:
            after = with_field(after, "billets", place.row, "moisture_on", when)
        return after

    return Edit(name, change, place.key, got.said, tell=moved)


def _billet_with(job: Job, new: Billet) -> Job:
    return job.put(replace(job.billets[new.id], machine=new.machine, blade=new.blade))


def billet_renamed(job: Job, old: str, new: str) -> Job:
    """The leaves of a billet called after it anew; `job` has the billet under its new id already."""
    for leaf in [one for one in job.leaves.values() if one.billet == new and one.id.startswith(old)]:
        job = job.drop(Leaf, leaf.id).put(replace(leaf, id=f"{new}{leaf.id[len(old) :]}"))
    return job


def enter_billets(job: Job, plan: Plan) -> Edit:
    """The billets that the plan counts on, entered; where they are, as many more as leaves are short."""
    new = [one.billet for one in plan.veneer.plans if one.id not in job.billets] or _lacking(job, plan)
    if not new:
        raise Refused("The plan needs no further billet: no leaf is short.")
    many = "billet" if len(new) == 1 else "billets"
    return Edit(f"enter {many} {', '.join(one.id for one in new)}", lambda before: before.put(*new), select=new[0].id)


def _lacking(job: Job, plan: Plan) -> list[Billet]:
    chosen = next((one for one in plan.veneer.compared if one.chosen), None)
    found: list[Billet] = []
    taken = set(table(job, "billets"))
    usual = panel_plan(JobIndex(job), first_veneered(JobIndex(job))).slice
    for (length, count), leaf in zip(chosen.short, chosen.short_leaves, strict=True) if chosen is not None else ():
        sizes = (length.value, leaf.value)
        gives = next((y.leaves for y in plan.veneer.billets if (y.length.value, y.slice.value) == sizes), 0)
        own = None if leaf.value == usual.value else typed_length(leaf.length, job.heading.unit)
        for _ in range(-(-count // gives) if gives else 0):
            letter = free_id(taken, max(taken, default="A"))
            taken.add(letter)
            long = typed_length(length.length, job.heading.unit)
            found.append(Billet(letter, place=len(taken), length=long, slice=own))
    return found


def add_billet(job: Job, plan: Plan, like: str = "") -> Edit:
    """One more billet, like another one where that is named; it has its own moisture and is not sawn yet."""
    old = job.billets.get(like) or next((p.billet for p in plan.veneer.plans if p.id == like), None)
    taken = {*job.billets, *(one.id for one in plan.veneer.plans)} if job.billets else set[str]()
    letter = free_id(taken, max(taken)) if taken else "A"
    base = old or Billet(letter)
    new = replace(
        base,
        id=letter,
        place=max((b.place for b in job.billets.values()), default=0) + 1,
        slice_now=None,
        keep_now=None,
        moisture_shell=None,
        moisture_core=None,
        moisture_on="",
    )
    return Edit(f"add billet {letter}", lambda before: before.put(new), select=letter, tell=moved)


def move_billet(job: Job, _plan: Plan, billet: str, way: str) -> Edit:
    """A billet sawn one place earlier or later."""
    order = sorted(job.billets.values(), key=lambda b: b.place)
    at = next((i for i, one in enumerate(order) if one.id == billet), None)
    to = (at or 0) + (-1 if way == "up" else 1)
    if at is None or not 0 <= to < len(order):
        raise Refused(f"{billet} is already the {'first' if way == 'up' else 'last'} billet to be sawn.")
    order[at], order[to] = order[to], order[at]
    placed = [replace(one, place=i) for i, one in enumerate(order)]
    return Edit(f"saw {billet} {'earlier' if way == 'up' else 'later'}", lambda before: before.put(*placed), tell=moved)
