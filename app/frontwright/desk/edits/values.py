"""What a text means in a field: read by the field's type, held against its rules."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from frontwright.core.job import Amount, Job, Shop
from frontwright.core.job.declared import MOST_COUNT, Declared
from frontwright.core.job.references import REFERENCES
from frontwright.core.lengths import Display, Typed, read
from frontwright.desk.edits.amounts import read_amount, units_of
from frontwright.desk.edits.edit import Refused
from frontwright.desk.edits.rows import field_of, row_or_new, table
from frontwright.desk.edits.rules import impossible, impossible_amount, unlikely, unlikely_amount
from frontwright.desk.keys import Place

LONGEST_TEXT = 2_000
_YEARS = ("house_year", "lead_ban", "painted")
_YES = {"yes", "y", "true", "1", "x", "on"}
_NO = {"no", "n", "false", "0", "", "off"}


@dataclass(frozen=True, slots=True)
class Entered:
    """A value for a field, and the notice that goes with it (how it was read, or that it is unlikely)."""

    value: object
    said: str = ""


def value_of(whole: Job | Shop, place: Place, text: str, name: str, display: Display) -> Entered:
    """What a text means in this field. Refused with one sentence where the field cannot hold it."""
    field = field_of(whole, place.table, place.field)
    old = getattr(row_or_new(whole, place.table, place.row), place.field)
    if field.kind == "length":
        return _length(place, text, cast("Typed | None", old), name, display)
    if field.kind == "amount":
        return _amount(place.field, text, cast("Amount | None", old), name, display)
    if field.kind == "count":
        return Entered(_count(field, text, name))
    if field.kind == "yes or no":
        return Entered(_yes_or_no(field, text, name))
    if field.kind == "texts":
        return Entered(_texts(whole, place, text, name))
    return Entered(_text(whole, place, field, text, name))


def _length(place: Place, text: str, old: Typed | None, name: str, display: Display) -> Entered:
    got = read(text, display.unit)
    if got.state == "empty":
        return Entered(None)
    if got.value is None:
        return Entered(*kept_unread(text, got.problem, old is None or old.value is None, name))
    nothing = place.table == "as_built" and place.row.endswith(("wind", "bow"))  # flat and straight is a statement
    problem = impossible(place.table, place.field, got.value, name, display, nothing)
    if problem:
        raise Refused(problem)
    return Entered(
        Typed(text, got.value), got.doubt or unlikely(place.table, place.field, got.value, name, display) or ""
    )


def kept_unread(text: str, problem: str | None, free: bool, name: str) -> tuple[Typed, str]:
    """Text that gives no length: kept in an empty place, refused where a figure stands that can be read."""
    said = f"{name[:1].upper()}{name[1:]}: {(problem or 'this cannot be read as a length').rstrip('.')}."
    if not free or len(text) > LONGEST_TEXT:
        raise Refused(f"{said} The earlier figure stays until this one can be read.")
    return Typed(text, None), said


def _amount(field: str, text: str, old: Amount | None, name: str, display: Display) -> Entered:
    if not text.strip():
        return Entered(None)
    got = read_amount(text, field, display.unit)
    if got.value is None:
        units = units_of(field)
        unit = f", with {' or '.join(units.values())} after them if you like" if units else ""
        said = f"{name[:1].upper()}{name[1:]} is no number; type digits and at most one decimal mark{unit}."
        if (old is not None and old.value is not None) or len(text) > LONGEST_TEXT:
            raise Refused(said)
        return Entered(got, said)
    problem = impossible_amount(field, got.value, name, display.unit)
    if problem:
        raise Refused(problem)
    return Entered(got, unlikely_amount(field, got.value, name, display.unit) or "")


def _count(field: Declared, text: str, name: str) -> int | None:
    bare = text.strip()
    if not bare:
        return None if field.optional else cast(int, field.default)
    if not (bare.isascii() and bare.isdigit()) or int(bare[:12]) > MOST_COUNT:
        raise Refused(f"{name[:1].upper()}{name[1:]} is a count; type a whole number, or leave it empty.")
    if field.name in _YEARS and not 1500 <= int(bare) <= 2100:
        raise Refused(f"{name[:1].upper()}{name[1:]} is a year; type its four figures, or leave it empty.")
    return int(bare)


def _yes_or_no(field: Declared, text: str, name: str) -> bool | None:
    bare = text.strip().casefold()
    if field.optional and not bare:
        return None
    if bare in _YES or bare in _NO:
        return bare in _YES
    raise Refused(f"{name[:1].upper()}{name[1:]}: choose yes or no.")


def _texts(whole: Job | Shop, place: Place, text: str, name: str) -> tuple[str, ...]:
    ids = tuple(dict.fromkeys(part.strip() for part in text.split(",") if part.strip()))
    lost = [one for one in ids if not _there(whole, place, one)]
    if lost:
        raise Refused(
            f"{name[:1].upper()}{name[1:]}: there is no “{lost[0]}”; name what is there, with commas between."
        )
    return ids


def _text(whole: Job | Shop, place: Place, field: Declared, text: str, name: str) -> str | None:
    bare = " ".join(text.split()) if place.field != "note" else text.strip()
    clean = "".join(c for c in bare if c.isprintable() or c == "\n")
    if len(clean) > LONGEST_TEXT:
        raise Refused(f"{name[:1].upper()}{name[1:]} takes {LONGEST_TEXT} letters at most; shorten it.")
    if not clean and field.optional:
        return None
    if field.choices and clean not in field.choices:
        raise Refused(f"{name[:1].upper()}{name[1:]}: choose one of {', '.join(field.choices)}.")
    if place.field in REFERENCES.get(place.table, {}) and not _there(whole, place, clean):
        raise Refused(f"{name[:1].upper()}{name[1:]}: there is no “{clean}”; choose one that is there.")
    return clean


def _there(whole: Job | Shop, place: Place, row: str) -> bool:
    homes = REFERENCES.get(place.table, {}).get(place.field, ())
    return any(row in table(whole, home) for home in homes)
