"""What is typed into a cell becomes an edit: read by the type of its field, held against the field's rules."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.job import Job, Plate, Shop
from frontwright.core.lengths import Display
from frontwright.desk.edits import blades, cuts, fronts, making, survey, veneer
from frontwright.desk.edits.amounts import with_units
from frontwright.desk.edits.bill import moisture_read
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.hardware import hinge_holds, plates_of, pull_lies_on
from frontwright.desk.edits.readings import display_of, entered_reading
from frontwright.desk.edits.rows import PLACES, field_of, place_ids, renamed, table, with_field, without
from frontwright.desk.edits.values import value_of
from frontwright.desk.edits.woods import with_wood
from frontwright.desk.keys import TAKEN, Place
from frontwright.desk.wording.fields import cell_name, field_word, table_word


def entered(job: Job, key: str, text: str, correcting: bool = False, when: str = "") -> Edit:
    """The edit of a cell by its key; Refused (the job stays as it was, the text is a draft) where it cannot stand.

    `correcting`: the same cell was the last one entered, so a reading is put right and not taken a second time.
    `when` is the day that a new reading is noted with.
    """
    place = Place.of(key)
    if place.table == "readings":
        return entered_reading(job, place, text, correcting, when)
    if place.table == TAKEN:
        return plain(job, Place("readings", place.row, place.field), text, display_of(job))
    if place.field == "id":
        return rename(job, place, text)
    if place.table in veneer.TABLES:
        return veneer.entered(job, place, text, when)
    if place.table in cuts.TABLES:
        display = display_of(job)
        name = cell_name(job, place.table, place.row, place.field)
        return cuts.entered(job, place, text, name, lambda: plain(job, place, text, display))
    if (place.table, place.field) == ("pieces", "moisture"):
        edit = plain(job, place, text, display_of(job))
        return replace(edit, change=lambda before: moisture_read(edit.change(before), place.row, when))
    special = _SPECIAL.get((place.table, place.field))
    return special(job, place.row, text) if special else plain(job, place, text, display_of(job))


def entered_in_shop(shop: Shop, key: str, text: str, display: Display) -> tuple[Shop, str]:
    """The shop with an entry's field changed, and a notice; lengths without a unit are read in that of `display`."""
    place = Place.of(key)
    field_of(shop, place.table, place.field)
    name = cell_name(shop, place.table, place.row, place.field)
    got = value_of(shop, place, text, name, display)
    changed = with_field(shop, place.table, place.row, place.field, got.value)
    changed = hinge_holds(shop, changed, place, display)
    row = table(changed, place.table).get(place.row)
    return (changed if row is None else changed.put(with_units(row, display.unit))), got.said


def plain(job: Job, place: Place, text: str, display: Display) -> Edit:
    """One field of one row set to what was typed; a wood of the table comes with its name into the job."""
    field_of(job, place.table, place.field)
    name = cell_name(job, place.table, place.row, place.field)
    wood = text.strip()
    got = value_of(with_wood(job, place.table, place.field, wood), place, text, name, display)

    def change(before: Job) -> Job:
        whole = with_wood(before, place.table, place.field, wood)
        return with_field(whole, place.table, place.row, place.field, got.value)

    if place.table in ("hinge_types", "pull_types"):
        pull_lies_on(job, hinge_holds(job, change(job), place, display), place)
    return Edit(name, change, place.key, got.said)


def rename(job: Job, place: Place, text: str) -> Edit:
    """Another id for a row, and for all that names it. Refused where it is empty or taken."""
    old, new = place.row, " ".join(text.split())
    word = f"{field_word(place.table, 'id')} of {old}"
    if old not in table(job, place.table):
        raise Refused(f"“{old}” is no longer there: choose another row.")
    if not new or len(new) > 24 or not new.isprintable():
        raise Refused(f"{word[:1].upper()}{word[1:]}: type 1 to 24 letters or digits.")
    if new != old and _taken(job, place.table, old, new):
        raise Refused(f"{word[:1].upper()}{word[1:]}: “{new}” is already the name of another; choose one that is free.")
    return Edit(word, lambda before: _renamed(before, place.table, old, new), None, select=new)


def _renamed(job: Job, table_name: str, old: str, new: str) -> Job:
    return job if old == new else veneer.renamed(renamed(job, table_name, old, new), table_name, old, new)


def _taken(job: Job, table_name: str, old: str, new: str) -> bool:
    if table_name not in PLACES:
        return new in table(job, table_name)
    sharing = {"columns", "openings"}  # a column may be called as its only opening
    if table_name in sharing:
        others = {row for name in PLACES if name not in sharing for row in table(job, name)}
        return new in others or new in table(job, table_name)
    return new in place_ids(job) - {old}


def remove_row(job: Job, table_name: str, row: str) -> Edit:
    """A reusable entry, piece or size taken away; what named it names nothing then."""
    if row not in table(job, table_name):
        raise Refused(f"“{row}” is no longer there: choose another row.")

    def change(before: Job) -> Job:
        own = plates_of(before, row) if table_name == "hinge_types" else ()
        return without(before.drop(Plate, *(plate.id for plate in own)), table_name, row)

    return Edit(f"remove {table_word(table_name)} {row}", change)


_SPECIAL = {
    ("openings", "fronts"): fronts.hold,
    ("cabinets", "kind"): survey.box_kind,
    ("runs", "box"): survey.run_box_kind,
    ("door_builds", "kind"): making.door_kind,
    ("panel_builds", "kind"): making.panel_kind,
    ("machines", "chosen"): making.choose_machine,
    ("machines", "blade"): blades.mount,
    ("headings", "step"): survey.step,
    ("headings", "unit"): survey.unit,
}
