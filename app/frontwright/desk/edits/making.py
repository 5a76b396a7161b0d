"""Builds, panels, hinges, saws and woods: made, copied, chosen; a shop's entries taken into the job."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from frontwright.core.job import (
    Adhesive,
    Blade,
    DoorBuild,
    Finish,
    Glue,
    HingeType,
    Job,
    KeepRule,
    Look,
    Machine,
    Operation,
    PanelBuild,
    Plate,
    Press,
    PullType,
    Row,
    Shop,
    Snag,
    Species,
    SupplierSize,
    TestPiece,
)
from frontwright.core.job.references import REFERENCES
from frontwright.core.lengths import Unit
from frontwright.core.plan import Plan
from frontwright.desk.edits import amounts, blades
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.hardware import plates_of
from frontwright.desk.edits.readings import display_of
from frontwright.desk.edits.rows import field_of, free_id, new_id, table, with_field
from frontwright.desk.edits.values import value_of
from frontwright.desk.keys import Place
from frontwright.desk.wording.fields import cell_name, table_word, value_word

ShopChange = Callable[[Shop], Shop]
_FIRST: dict[str, str] = {
    "door_builds": "build 1",
    "panel_builds": "panel 1",
    "hinge_types": "hinge 1",
    "plates": "plate 1",
    "pull_types": "pull 1",
    "machines": "saw 1",
    "blades": "blade 1",
    "species": "wood 1",
    "glues": "glue 1",
    "presses": "clamps 1",
    "adhesives": "adhesive 1",
    "supplier_sizes": "size 1",
    "keep_rules": "rule 1",
    "operations": "operation 1",
    "finishes": "finish 1",
    "test_pieces": "test piece 1",
    "snags": "snag 1",
}
_KINDS: dict[str, type[Any]] = {
    "door_builds": DoorBuild,
    "panel_builds": PanelBuild,
    "hinge_types": HingeType,
    "plates": Plate,
    "pull_types": PullType,
    "machines": Machine,
    "blades": Blade,
    "species": Species,
    "glues": Glue,
    "presses": Press,
    "adhesives": Adhesive,
    "supplier_sizes": SupplierSize,
    "keep_rules": KeepRule,
    "operations": Operation,
    "finishes": Finish,
    "test_pieces": TestPiece,
    "snags": Snag,
}


def new_entry(job: Job, name: str) -> Edit:
    """A new reusable entry of this kind, all of it assumed until it is chosen.

    The first door build becomes that of the first room, the first hinge its hinge, the first saw the one planned with.
    """
    if name not in _FIRST:
        raise Refused(f"There are no entries in “{name}”: choose another page.")
    row = new_id(job, name, _FIRST[name])
    new = blades.new_blade(job) if name == "blades" else _KINDS[name](row)
    first = not table(job, name)
    return Edit(f"add {table_word(name)} {row}", lambda before: _used(before.put(new), name, row, first), select=row)


def _used(job: Job, name: str, row: str, first: bool) -> Job:
    if not first:
        return job
    if name == "machines":
        return job.put(replace(job.machines[row], chosen=True))
    field = {"door_builds": "door_build", "hinge_types": "hinge", "pull_types": "pull", "species": "species"}.get(name)
    room = next(iter(job.rooms), None)
    if field is None or room is None:
        return job
    look = job.looks.get(f"room:{room}") or Look(f"room:{room}")
    return job if getattr(look, field) else with_field(job, "looks", look.id, field, row)


def copy_entry(job: Job, name: str, row: str) -> Edit:
    """A reusable entry once more under a new id, to be changed by itself."""
    found = table(job, name).get(row)
    if found is None or name not in _FIRST:
        raise Refused(f"“{row}” is no longer there: choose another row.")
    fresh = new_id(job, name, row, [row])
    changes: dict[str, Any] = {"id": fresh}
    if hasattr(found, "name"):
        changes["name"] = f"{found.name} copy" if found.name else ""
    if name == "machines":
        changes["chosen"] = False
    new = replace(found, **changes)
    return Edit(f"copy {table_word(name)} {row}", lambda before: before.put(new), select=fresh)


def choose_machine(job: Job, row: str, text: str) -> Edit:
    """The saw that is planned with; the others are compared."""
    if row not in job.machines:
        raise Refused(f"“{row}” is no longer there: choose another row.")
    on = text.strip().casefold() in ("yes", "y", "true", "1", "x", "on")

    def change(before: Job) -> Job:
        saws = before.machines.values()
        return before.put(*(replace(m, chosen=on and m.id == row) for m in saws if m.chosen != (on and m.id == row)))

    return Edit(f"planned with {job.machines[row].name or row}", change, f"machines/{row}/chosen")


def with_kind[R: (DoorBuild, PanelBuild)](row: R, table_name: str, was: str) -> R:
    """A build whose kind was `was` before; a name that only said the kind says the new one."""
    word = value_word(table_name, "kind", row.kind)
    return replace(row, name=word) if row.name == value_word(table_name, "kind", was) else row


def panel_kind(job: Job, row: str, text: str) -> Edit:
    """How a panel is made: veneered on a core, bought sheet, solid."""
    return _kind(job, Place("panel_builds", row, "kind"), text)


def door_kind(job: Job, row: str, text: str) -> Edit:
    """How a door's corners are joined."""
    return _kind(job, Place("door_builds", row, "kind"), text)


def _kind(job: Job, place: Place, text: str) -> Edit:
    was = table(job, place.table).get(place.row)
    if was is None:
        raise Refused(f"“{place.row}” is no longer there: choose another row.")
    name = cell_name(job, place.table, place.row, place.field)
    value = value_of(job, place, text, name, display_of(job)).value

    def change(before: Job) -> Job:
        after = with_field(before, place.table, place.row, place.field, value)
        return after.put(with_kind(table(after, place.table)[place.row], place.table, was.kind))

    return Edit(name, change, place.key)


def veneer_panels(job: Job, _plan: Plan) -> Edit:
    """The panels of all door builds veneered on a core: the leaves follow. Refused where no build has a panel."""
    used = [build.panel for build in job.door_builds.values() if build.panel is not None]
    panels = [job.panel_builds[row] for row in dict.fromkeys(used) if row in job.panel_builds]
    if not panels:
        raise Refused("No door build has a panel: choose one at “panel” on the page Making, then veneer it.")

    def change(before: Job) -> Job:
        new: list[PanelBuild] = [replace(one, kind="veneered") for one in panels]
        return before.put(*(with_kind(row, "panel_builds", one.kind) for row, one in zip(new, panels, strict=True)))

    return Edit("veneer the panels on a core", change)


def taken_over(job: Job, shop: Shop, name: str, row: str) -> Job:
    """The job with the shop's entry of this id, and with what that entry names, put in place of its own copy."""
    entry = table(shop, name).get(row)
    if entry is None:
        return job
    job = job.put(amounts.read_in(entry, job.heading.unit))
    if name == "machines":
        own = (blade for blade in shop.blades.values() if blade.machine == row and blade.id not in job.blades)
        job = job.put(*(amounts.read_in(blade, job.heading.unit) for blade in own))
    if name == "hinge_types":
        job = job.put(*(plate for plate in plates_of(shop, row) if plate.id not in job.plates))
    for field, homes in REFERENCES.get(name, {}).items():
        named = getattr(entry, field)
        for home in homes:
            if isinstance(named, str) and named not in table(job, home):
                job = taken_over(job, shop, home, named)
    return job


def take_over(job: Job, shop: Shop, name: str, row: str) -> Edit:
    """The shop's entry copied into the job, or its newer state taken over."""
    if name not in shop.kinds() or row not in table(shop, name):
        raise Refused(f"The shop has no {table_word(name)} “{row}” any more.")
    word = "take over" if row in table(job, name) else "use"
    return Edit(f"{word} {table_word(name)} {row}", lambda before: taken_over(before, shop, name, row), select=row)


def moved_on(job: Job, shop: Shop) -> tuple[tuple[str, str], ...]:
    """Entries of the job (table, id) whose namesake in the shop is another one by now."""
    return tuple(
        (name, row)
        for name in shop.kinds()
        if name in job.kinds()
        for row, entry in table(shop, name).items()
        if row in table(job, name) and _differ(table(job, name)[row], entry, job.heading.unit)
    )


def _differ(mine: Row, theirs: Row, unit: Unit) -> bool:
    """A job's `chosen` saw is the job's own choice, and an amount that names its unit no other: no differences."""
    if isinstance(mine, Machine) and isinstance(theirs, Machine):
        return mine != replace(theirs, chosen=mine.chosen)
    return amounts.with_units(mine, unit) != amounts.with_units(amounts.read_in(theirs, unit), unit)


def kept_in_shop(shop: Shop, job: Job, name: str, row: str) -> Shop:
    """The shop with a job's entry put in under its id, and with what that entry names."""
    entry = table(job, name)[row]
    shop = shop.put(amounts.with_units(entry, job.heading.unit))
    if name == "machines":
        own = (blade for blade in job.blades.values() if blade.machine == row and blade.id not in shop.blades)
        shop = shop.put(*(amounts.with_units(blade, job.heading.unit) for blade in own))
    if name == "hinge_types":
        shop = shop.put(*(plate for plate in plates_of(job, row) if plate.id not in shop.plates))
    for field, homes in REFERENCES.get(name, {}).items():
        named = getattr(entry, field)
        for home in homes:
            if isinstance(named, str) and named in table(job, home) and named not in table(shop, home):
                shop = kept_in_shop(shop, job, home, named)
    return shop


def without_shop_entry(shop: Shop, name: str, row: str) -> Shop:
    """The shop without an entry; what named it names nothing then."""
    if name == "hinge_types":
        shop = shop.drop(Plate, *(plate.id for plate in plates_of(shop, row)))
    shop = shop.drop(shop.kinds()[name], row)
    for other, fields in REFERENCES.items():
        if other not in shop.kinds():
            continue
        for field, homes in fields.items():
            naming = [one for one in table(shop, other).values() if name in homes and getattr(one, field) == row]
            if field_of(shop, other, field).optional:
                shop = shop.put(*(replace(one, **{field: None}) for one in naming))
            else:
                shop = shop.drop(shop.kinds()[other], *(one.id for one in naming))
    return shop


def new_shop_entry(shop: Shop, name: str) -> tuple[Shop, str]:
    """The shop with a new entry of this kind, and its id."""
    if name not in _FIRST:
        raise Refused(f"There are no entries in “{name}”: choose another page.")
    taken = table(shop, name)
    row = _FIRST[name] if _FIRST[name] not in taken else free_id(taken, _FIRST[name])
    return shop.put(blades.shop_blade(shop, row) if name == "blades" else _KINDS[name](row)), row
