"""Rooms, runs, boxes, members, columns and openings: put in, moved, taken out, a column divided."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any, Literal, cast

from frontwright.core.job import UPRIGHT, Cabinet, Column, Heading, Job, Member, MemberKind, Opening, Reading, Room, Run
from frontwright.core.lengths import DISPLAYS, Display, Typed, Unit, read, show, typed_length
from frontwright.desk.edits import amounts
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.fronts import with_front
from frontwright.desk.edits.rows import mid_rails_of, new_id, openings_of, table, without

type Standing = Member | Column
RAILS: tuple[MemberKind, ...] = ("top rail", "bottom rail")
_BOX_KINDS = ("face frame", "frameless")


def order_of(job: Job, run: str) -> list[Standing]:
    """Upright members and columns of a run, left to right."""
    members = [m for m in job.members.values() if m.run == run and m.kind in UPRIGHT]
    columns = [c for c in job.columns.values() if c.run == run]
    return sorted([*members, *columns], key=lambda one: one.place)


def _placed(job: Job, order: list[Standing]) -> Job:
    """The job with these in this order; rows that stood right already are left alone."""
    return job.put(*(_at(one, i) for i, one in enumerate(order, 1)))


def _at(one: Standing, place: int) -> Standing:
    return one if one.place == place else replace(one, place=place)


def _names(job: Job, run: str, kind: type[Standing]) -> list[str]:
    return [one.id for one in order_of(job, run) if isinstance(one, kind)]


def _spot(order: list[Standing], after: str) -> int:
    """Where to put something in: after this one, or first where `after` is empty or no longer there."""
    return next((i + 1 for i, one in enumerate(order) if one.id == after), 0 if not after else len(order))


def add_member(job: Job, run: str, kind: str, after: str) -> Edit:
    """An upright member after another one (or a column) of the run; with `after` empty as the first."""
    _there(job, "runs", run)
    if kind not in UPRIGHT:
        raise Refused(f"“{kind}” does not stand in a run: choose {', '.join(UPRIGHT)}.")
    like = "seam" if kind == "seam" else "S0"
    kin = [] if kind == "seam" else [m.id for m in order_of(job, run) if isinstance(m, Member) and m.kind != "seam"]
    new = Member(new_id(job, "members", like, kin), run, kind)
    return Edit(f"add {kind} {new.id}", lambda before: _put_in(before, run, after, new), select=new.id)


def _put_in(job: Job, run: str, after: str, *new: Standing) -> Job:
    order = order_of(job, run)
    spot = _spot(order, after)
    return _placed(job, [*order[:spot], *new, *order[spot:]])


def add_rail(job: Job, run: str, kind: str) -> Edit:
    """The top or bottom rail of a run, through every column."""
    _there(job, "runs", run)
    if kind not in RAILS:
        raise Refused(f"“{kind}” does not lie through a run: choose top rail or bottom rail.")
    new = Member(new_id(job, "members", kind, []), run, kind)
    return Edit(f"add {kind} of {run}", lambda before: before.put(new), select=new.id)


def add_opening(job: Job, run: str, after: str = "") -> Edit:
    """An opening at the right end of a run, or after one that stands there, with the stile it takes.

    In a run of openings by themselves the opening comes alone.
    """
    found = _there(job, "runs", run)
    order = order_of(job, run)
    spot = order[_spot(order, after) - 1] if after else (order[-1] if order else None)
    opening = new_id(job, "openings", "1", [o.id for c in _names(job, run, Column) for o in openings_of(job, c)])
    column = Column(new_id(job, "columns", "c1", _names(job, run, Column)), run, 0)
    new: list[Standing] = [column] if found.by_itself else _with_stiles(job, run, spot, column)
    change = _opening_put_in(run, spot.id if spot else "", new, Opening(opening, column.id))
    return Edit(f"add opening {opening}", change, select=opening)


def _opening_put_in(run: str, after: str, new: list[Standing], opening: Opening) -> Callable[[Job], Job]:
    return lambda before: with_front(_put_in(before, run, after, *new).put(opening), opening.id)


def _with_stiles(job: Job, run: str, spot: Standing | None, column: Column) -> list[Standing]:
    kind: MemberKind = "stile" if not _frameless(job, run) else "side"
    first = new_id(job, "members", "S0", [m for m in _names(job, run, Member) if job.members[m].kind != "seam"])
    if isinstance(spot, Member):
        return [column, Member(first, run, kind)]
    if spot is not None:
        return [Member(first, run, kind), column]
    second = new_id(job.put(Member(first, run, kind)), "members", "S0", [first])
    return [Member(first, run, kind), column, Member(second, run, kind)]


def _frameless(job: Job, run: str) -> bool:
    return any(c.run == run and c.kind == "frameless" for c in job.cabinets.values())


def split(job: Job, opening: str) -> Edit:
    """A mid rail under an opening: what was one opening becomes two, the new one below."""
    found = _there(job, "openings", opening)
    column = job.columns[found.column]
    kin = [o.id for c in _names(job, column.run, Column) for o in openings_of(job, c)]
    below = new_id(job, "openings", "1", kin)
    rail = Member(
        new_id(job, "members", f"{column.id} mid 1", [m.id for m in mid_rails_of(job, column.id)]),
        column.run,
        "mid rail",
        found.place,
        column.id,
    )

    def change(before: Job) -> Job:
        lower_openings = [o for o in openings_of(before, column.id) if o.place > found.place]
        lower_rails = [m for m in mid_rails_of(before, column.id) if m.place >= found.place]
        moved = before.put(*(replace(o, place=o.place + 1) for o in lower_openings))
        moved = moved.put(*(replace(m, place=m.place + 1) for m in lower_rails))
        return with_front(moved.put(rail, Opening(below, column.id, found.place + 1)), below)

    return Edit(f"divide {opening} by a mid rail", change, select=below)


def remove(job: Job, kind: str, row: str) -> Edit:
    """A member, column, opening, run, room or box taken out with all that is read of it.

    A mid rail goes with the opening under it, an opening with the mid rail over it (the first with the one below), the
    last opening of a column with its column.
    """
    _there(job, kind, row)
    if kind in ("runs", "rooms") and len(table(job, kind)) == 1:
        raise Refused(f"{row} is the only {kind.removesuffix('s')} of the job; put in another one before it goes.")
    ways: dict[str, Callable[[Job, str], Job]] = {"members": _no_member, "openings": _no_opening, "columns": _no_column}
    way = ways.get(kind)
    return Edit(f"take out {row}", lambda before: way(before, row) if way else without(before, kind, row))


def _no_member(job: Job, row: str) -> Job:
    member = job.members[row]
    if member.kind == "mid rail" and member.column is not None:
        under = next((o for o in openings_of(job, member.column) if o.place == member.place + 1), None)
        return _no_opening(job, under.id) if under else without(job, "members", row)
    job = without(job, "members", row)
    return _placed(job, order_of(job, member.run)) if member.kind in UPRIGHT else job


def _no_opening(job: Job, row: str) -> Job:
    opening = job.openings[row]
    if len(openings_of(job, opening.column)) == 1:
        return _no_column(job, opening.column)
    over = max(opening.place - 1, 1)
    rails = mid_rails_of(job, opening.column)
    job = without(job, "members", *(m.id for m in rails if m.place == over))
    job = without(job, "openings", row)
    openings = [replace(o, place=i) for i, o in enumerate(openings_of(job, opening.column), 1)]
    members = [replace(m, place=i) for i, m in enumerate(mid_rails_of(job, opening.column), 1)]
    return job.put(*openings).put(*members)


def _no_column(job: Job, row: str) -> Job:
    """The column goes with the stile at its right, or where that is the last one with the one at its left."""
    column = job.columns[row]
    order = order_of(job, column.run)
    beside = _stile_to_go(order, next(i for i, one in enumerate(order) if one.id == row and isinstance(one, Column)))
    job = without(job, "columns", row)
    if beside is not None:
        job = without(job, "members", beside)
    return _placed(job, order_of(job, column.run))


def _stile_to_go(order: list[Standing], at: int) -> str | None:
    right, left = order[at + 1 : at + 2], order[max(at - 1, 0) : at]
    between = right and left and isinstance(right[0], Member) and isinstance(left[0], Member)
    if not between or len(order) <= 3:
        return None
    return right[0].id if at + 2 < len(order) else left[0].id


def move(job: Job, kind: str, row: str, way: str) -> Edit:
    """A member or column one place to the left or right in its run."""
    found = cast(Standing, _there(job, kind, row))
    step = -1 if way == "left" else 1

    def change(before: Job) -> Job:
        order = order_of(before, found.run)
        at = next((i for i, one in enumerate(order) if one.id == row and type(one) is type(found)), None)
        if at is None or not 0 <= at + step < len(order):
            return before
        order[at], order[at + step] = order[at + step], order[at]
        return _placed(before, order)

    return Edit(f"move {row} to the {way}", change, select=row)


def move_opening(job: Job, row: str, way: str) -> Edit:
    """An opening one place up or down in its column; its readings and fronts go with it."""
    found = _there(job, "openings", row)
    other_place = found.place + (-1 if way == "up" else 1)
    other = next((o for o in openings_of(job, found.column) if o.place == other_place), None)
    if other is None:
        raise Refused(f"{row} is already at the {'top' if way == 'up' else 'bottom'} of its column.")
    swapped = (replace(found, place=other.place), replace(other, place=found.place))
    return Edit(f"move {row} {way}", lambda before: before.put(*swapped), select=row)


def add_room(job: Job) -> Edit:
    new = Room(new_id(job, "rooms", "room"), place=len(job.rooms) + 1)
    return Edit(f"add room {new.id}", lambda before: before.put(new), select=new.id)


def add_run(job: Job, room: str, by_itself: bool = False) -> Edit:
    """A new run with one opening, between two stiles unless its openings stand by themselves."""
    _there(job, "rooms", room)
    new = Run(new_id(job, "runs", "R1"), room, place=len(job.runs) + 1, by_itself=by_itself)
    inner = add_opening(job.put(new), new.id)
    return Edit(f"add run {new.id}", lambda before: inner.change(before.put(new)), select=new.id)


def box_kind(job: Job, row: str, text: str) -> Edit:
    """A box built with a face frame or frameless; its upright stiles become sides, or the other way round."""
    cabinet = _there(job, "cabinets", row)
    kind = _kind_of_box(text)

    def change(before: Job) -> Job:
        changed = before.put(replace(before.cabinets[row], kind=kind))
        mine = [m for m in before.members.values() if m.cabinet == row]
        alone = [c for c in before.cabinets.values() if c.run == cabinet.run] == [before.cabinets[row]]
        members = [m for m in before.members.values() if m.run == cabinet.run] if alone else mine
        return changed.put(*(_of_box(m, kind) for m in members))

    return Edit(f"box of {row}", change, f"cabinets/{row}/kind")


def run_box_kind(job: Job, row: str, text: str) -> Edit:
    """How all boxes of a run are built; a run that has none gets one for the whole of it."""
    _there(job, "runs", row)
    kind = _kind_of_box(text)
    mine = [c.id for c in job.cabinets.values() if c.run == row]
    if not mine and kind == "face frame":
        return Edit(f"box of {row}", lambda before: before)
    if not mine:
        new = Cabinet(new_id(job, "cabinets", f"{row} box"), row)
        return Edit(f"box of {row}", lambda before: _whole_box(before, row, new, kind), f"runs/{row}/box")

    def change(before: Job) -> Job:
        members = [m for m in before.members.values() if m.run == row]
        boxes = [replace(before.cabinets[one], kind=kind) for one in mine]
        return before.put(*boxes).put(*(_of_box(m, kind) for m in members))

    return Edit(f"box of {row}", change, f"runs/{row}/box")


def _whole_box(job: Job, run: str, new: Cabinet, kind: Literal["face frame", "frameless"]) -> Job:
    members = [replace(_of_box(m, kind), cabinet=new.id) for m in job.members.values() if m.run == run]
    columns = [replace(c, cabinet=new.id) for c in job.columns.values() if c.run == run]
    return job.put(replace(new, kind=kind)).put(*members).put(*columns)


def _kind_of_box(text: str) -> Literal["face frame", "frameless"]:
    if text not in _BOX_KINDS:
        raise Refused("Box: choose face frame or frameless.")
    return cast(Literal["face frame", "frameless"], text)


def _of_box(member: Member, kind: Literal["face frame", "frameless"]) -> Member:
    if kind == "frameless" and member.kind == "stile":
        return replace(member, kind="side")
    return replace(member, kind="stile") if kind == "face frame" and member.kind == "side" else member


def step(job: Job, _row: str, text: str) -> Edit:
    """The step of front edges: one of those that lengths are shown in; empty is the usual one."""
    if not text.strip():
        value, decimals = None, False
    else:
        found = _step_named(job.heading.unit, text)
        value, decimals = typed_length(found.step, job.heading.unit), found.decimals
    return _heading("step of front edges", "step", lambda old: replace(old, step=value, decimals=decimals))


def _step_named(unit: Unit, text: str) -> Display:
    """By a key such as "1/32" or ".001"; Refused where lengths are not shown in it."""
    got = read(text, unit).value
    found = [d for d in DISPLAYS if d.unit == unit and d.step == got]
    if not found:
        steps = ", ".join(step_word(d) for d in DISPLAYS if d.unit == unit)
        raise Refused(f"Step of front edges: choose one of {steps}.")
    return found[0]


def step_word(display: Display) -> str:
    """A step as it is typed and shown: "1/32", "0.001", "0.5"."""
    return show(display.step, display)


def unit(_job: Job, _row: str, text: str) -> Edit:
    """The unit that a job is shown in and bare numbers are read in; what was told stays, the step is the usual one."""
    if text not in ("in", "mm"):
        raise Refused("Unit: choose inches or millimetres.")
    chosen = cast(Unit, text)

    def change(before: Job) -> Job:
        if before.heading.unit == chosen:
            return before
        heading = replace(before.heading, unit=chosen, step=None, decimals=False)
        return amounts.carried_over(before, chosen).put(heading)

    return Edit("unit", change, "headings/job/unit")


def _heading(name: str, field: str, change: Callable[[Heading], Heading]) -> Edit:
    def made(before: Job) -> Job:
        new = change(before.heading)
        return before if new == before.heading else before.put(new)

    return Edit(name, made, f"headings/job/{field}")


def seam_after(job: Job, member: str, value: Typed | None) -> Edit:
    """A seam put in after a member, with its width as read."""
    after = _there(job, "members", member)
    seam = Member(new_id(job, "members", "seam", []), after.run, "seam")

    def change(before: Job) -> Job:
        put = _put_in(before, after.run, member, seam)
        return put if value is None else put.put(Reading(f"{seam.id} across", seam.id, "across", "", value))

    return Edit(f"enter a seam after {member}", change, select=seam.id)


def _there(job: Job, name: str, row: str) -> Any:
    found = table(job, name).get(row)
    if found is None:
        raise Refused(f"“{row}” is no longer there: choose another row.")
    return found
