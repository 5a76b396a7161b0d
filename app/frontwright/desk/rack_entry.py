"""What is typed into a cell of the rack: fields of pieces that lie there for everybody, of their defects, of lots."""

from __future__ import annotations

import re
from dataclasses import replace

from frontwright.core.job import Defect, HardwareLot, Heading, Job, Piece
from frontwright.core.lengths import Display
from frontwright.core.stock.lots import kept_of
from frontwright.core.stock.rack import in_unit
from frontwright.desk.contents import Outcome
from frontwright.desk.edits.bill import moisture_read
from frontwright.desk.edits.edit import Refused
from frontwright.desk.edits.rows import with_field
from frontwright.desk.edits.values import value_of
from frontwright.desk.keys import Place, key
from frontwright.desk.pages.view import RACK
from frontwright.desk.rack_desk import RackDesk
from frontwright.desk.wording.fields import field_word

NEW_ON_RACK = {"rack-come": 1, "rack-like": 1, "rack-defect": 2, "rack-lot": 0}  # verb -> how many objects it takes
KEPT = "kept"  # the field of a lot into which it is typed how many of it are kept for this job
COUNTED = "counted"  # the field of a piece or lot into which it is typed how many were found


def entered_on_rack(rack: RackDesk, inner: str, text: str, display: Display) -> tuple[str, str]:
    """Take an entry into a cell of the rack; a notice, and what is selected then. Raises Refused."""
    place = Place.of(inner)
    if place.field == COUNTED:
        return _counted(rack, place.row, text), place.row
    if place.table == "reservations":
        return _reservation(rack, place, text), place.row
    if place.table == "lots":
        return _lot(rack, place, text, display), place.row
    if place.table == "defects":
        return _defect(rack, place, text, display)
    return _piece(rack, place, text, display)


def _piece(rack: RackDesk, place: Place, text: str, display: Display) -> tuple[str, str]:
    found = rack.rack.pieces.get(place.row)
    if found is None:
        raise Refused(f"“{place.row}” is no longer on the rack: choose another row.")
    if place.field == "id":
        new = " ".join(text.split())
        if new == place.row:
            return "", place.row
        if not new or len(new) > 24 or not new.isprintable():
            raise Refused(f"Name of {place.row}: type 1 to 24 letters or digits.")
        rack.rename(place.row, new)
        return f"{place.row} is called {new} now", new
    job = _alone(display, in_unit(found, display.unit))
    name = f"{field_word('pieces', place.field)} of {place.row}"
    got = value_of(job, place, text, name, display)
    changed = with_field(job, "pieces", place.row, place.field, got.value)
    if place.field == "moisture":
        changed = moisture_read(changed, place.row, rack.today)
    if changed is not job:
        rack.change(changed.pieces[place.row])
    return got.said, place.row


def _reservation(rack: RackDesk, place: Place, text: str) -> str:
    """Until when and why this job counts on a piece."""
    held = rack.rack.reservations.get(place.row)
    if held is None or held.job != rack.mark:
        raise Refused(f"{place.row} is not reserved for this job: reserve it first.")
    said = " ".join(text.split())[:200]
    if place.field == "until" and said and not re.fullmatch(r"\d{4}-\d\d-\d\d", said):
        raise Refused(f"Reserved until, of {place.row}: write a date as 2026-12-20, or leave it empty.")
    until = said if place.field == "until" else held.until
    why = said if place.field == "why" else held.why
    return rack.reserve([place.row], until=until, why=why)


def _defect(rack: RackDesk, place: Place, text: str, display: Display) -> tuple[str, str]:
    row = rack.rack.defects.get(place.row)
    piece = rack.rack.pieces.get(row.piece) if row is not None else None
    if row is None or piece is None:
        raise Refused(f"“{place.row}” is no longer on the rack: choose another row.")
    defects = [in_unit(one, display.unit) for one in rack.rack.defects_of(piece.id)]
    job = _alone(display, in_unit(piece, display.unit)).put(*defects)
    name = f"{field_word('defects', place.field)} of a bad place of {piece.id}"
    got = value_of(job, place, text, name, display)
    changed = with_field(job, "defects", place.row, place.field, got.value)
    if changed is not job:
        rack.change_defects(piece.id, tuple(changed.defects.values()))
    return got.said, piece.id


def _lot(rack: RackDesk, place: Place, text: str, display: Display) -> str:
    """A lot is no row of a job: its fields are a name, a count, a place and a price, and how many the job keeps."""
    row = rack.rack.lots.get(place.row)
    if row is None:
        raise Refused(f"“{place.row}” is no longer on the rack: choose another row.")
    from frontwright.desk.edits.amounts import read_amount

    said = " ".join(text.split())[:200]
    if place.field == KEPT:
        wanted = _number(place.row, text) if text.strip() else 0
        mine, _ = kept_of(rack.rack.reservations.values(), place.row, rack.mark)
        if wanted != mine:
            rack.keep_of_lot(place.row, wanted)
            return f"{wanted or 'none'} of {place.row} kept for this job"
    elif place.field == "count":
        rack.put_lot(replace(row, count=_number(place.row, text)))
    elif place.field == "price":
        price = read_amount(text, "price", display.unit) if text.strip() else None
        if price is not None and (price.value is None or price.value < 0):
            raise Refused(f"Price of {place.row} is no number; type digits and at most one decimal mark.")
        rack.put_lot(replace(row, price=price))
    elif place.field in ("what", "shelf", "note"):
        changed = {"what": replace(row, what=said), "shelf": replace(row, shelf=said), "note": replace(row, note=said)}
        rack.put_lot(changed[place.field])
    else:
        raise Refused(f"There is no field “{place.field}” in a lot: choose a cell of the page.")
    return ""


def _counted(rack: RackDesk, name: str, text: str) -> str:
    """How many were found on counting day: as many as thought is only looked at; else it is a correction."""
    there = rack.rack.pieces.get(name) or rack.rack.lots.get(name)
    if there is None:
        raise Refused(f"“{name}” is no longer on the rack: choose another row.")
    if not text.strip():
        return ""
    count = _number(name, text)
    if count == there.count:
        if isinstance(there, Piece):
            rack.look([name])
        return f"{name} is there"
    rack.count(name, count, "found on counting day")
    return f"{name}: {there.count} thought, {count} counted"


def new_on_rack(rack: RackDesk, verb: str, objects: list[str], beside: str, wood: str) -> Outcome:
    """Do what one of NEW_ON_RACK says; where the first thing is typed comes back."""
    if len(objects) < NEW_ON_RACK[verb]:
        raise Refused(f"“{verb}” takes other objects than {', '.join(objects) or 'none'}.")
    if verb == "rack-lot":
        name = select = new_lot(rack)
        return Outcome(said=f"{name} is a new lot", select=select, next_key=key(f"{RACK}lots", name, "what"))
    if verb == "rack-defect":
        name, select = new_defect(rack, *objects[:2]), objects[0]
        said = f"{name} is a new bad place of {select}"
        return Outcome(said=said, select=select, next_key=key(f"{RACK}defects", name, "what"))
    like = verb == "rack-like"
    name = piece_like(rack, objects[0]) if like else new_piece(rack, objects[0], beside, wood)
    first = key(f"{RACK}pieces", name, "length" if like else "batch")
    return Outcome(said=f"{name} is new on the rack", select=name, next_key=first)


def new_piece(rack: RackDesk, form: str, beside: str = "", wood: str = "") -> str:
    """A piece that is new on the rack, its sizes still to be typed; its name comes back.

    It is of the wood of the piece `beside` which the page stood, else of the one that came last, else `wood`.
    """
    from frontwright.desk.edits.bill import FORMS

    named = next((one for one in FORMS if one == form), None)
    if named is None:
        raise Refused(f"Form of a piece: choose one of {', '.join(FORMS)}.")
    there, last = rack.rack.pieces, _last(rack, "L-00")
    near = there.get(beside) or there.get(last)
    name = rack.next_name(last)
    rack.come(Piece(name, named, species=near.species if near is not None else wood))
    return name


def piece_like(rack: RackDesk, piece: str) -> str:
    """One more piece as another is, to be changed by itself; its name comes back."""
    found = rack.rack.pieces.get(piece)
    if found is None:
        raise Refused(f"“{piece}” is no longer on the rack: choose another row.")
    name = rack.next_name(_last(rack, piece))
    rack.come(replace(found, id=name, state="free", count=1, looked="", from_job="", from_piece=None))
    return name


def new_lot(rack: RackDesk) -> str:
    """A lot of hardware, still without a name; its id comes back."""
    from frontwright.desk.edits.rows import free_id

    lots = rack.rack.lots
    name = free_id(lots, list(lots)[-1] if lots else "H-00")
    rack.put_lot(HardwareLot(name))
    return name


def new_defect(rack: RackDesk, piece: str, unit: str) -> str:
    """A bad place of a piece, still to be measured; its id comes back."""
    there = rack.rack
    if piece not in there.pieces:
        raise Refused(f"“{piece}” is no longer on the rack: choose another row.")
    from frontwright.desk.edits.rows import free_id

    name = free_id(there.defects, f"{piece} 0")
    mine = [in_unit(one, "mm" if unit == "mm" else "in") for one in there.defects_of(piece)]
    rack.change_defects(piece, (*mine, Defect(name, piece)))
    return name


def _last(rack: RackDesk, first: str) -> str:
    return next(reversed(list(rack.rack.pieces)), first)


def _alone(display: Display, piece: Piece) -> Job:
    return Job().put(Heading(unit=display.unit), piece)


def _number(name: str, text: str) -> int:
    bare = text.strip()
    if not bare.isdecimal() or len(bare) > 6:
        raise Refused(f"{name}: “{bare}” is no number of pieces; write one such as 4.")
    return int(bare)
