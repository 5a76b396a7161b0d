"""The tables that come with the program (`resources/reference/`, with their sources)."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from fractions import Fraction

from frontwright.core.job import Amount, Species, amount
from frontwright.core.lengths import Unit, decimal
from frontwright.resources import resource

_HANDBOOK = "Wood Handbook, FPL-GTR-190"
_WET = Fraction("1.12")  # a gravity on volume at 12 % of moisture counts dry wood only: with its water it is heavier
_WATER: dict[Unit, tuple[Fraction, int]] = {  # lb/ft3 and kg/m3; so many decimals are shown
    "in": (Fraction("62.4"), 1),
    "mm": (Fraction(1000), 0),
}

type Line = Mapping[str, str]


def species(unit: Unit) -> tuple[Species, ...]:
    """The woods of the table by name, each with its source; density in lb/ft3 for "in", in kg/m3 for "mm".

    FileNotFoundError if this copy of the program is not whole.
    """
    return tuple(sorted((_species(line, unit) for line in _lines("wood-movement.csv")), key=lambda one: one.name))


def _lines(name: str) -> Iterator[Line]:
    with resource("reference", name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def _species(line: Line, unit: Unit) -> Species:
    own = bool(line["C_T"])
    flat, quarter = (line["C_T"], line["C_R"]) if own else (line["C_T_from_shrinkage"], line["C_R_from_shrinkage"])
    name = _name(line["species"])
    gravity = "" if "basic" in line["SG_verified"] else line["SG_12"]  # on green volume the rule does not hold
    return Species(
        name, name, amount(flat), amount(quarter), _density(gravity, unit), _source(line, own=own, dense=bool(gravity))
    )


def _name(listed: str) -> str:
    """ "ash, white" is called white ash; "maple, sugar (hard)" sugar maple (hard)."""
    wood, _, rest = listed.partition(", ")
    kind, bracket, more = rest.partition(" (")
    return f"{kind} {wood}{bracket}{more}" if rest else listed


def _density(gravity: str, unit: Unit) -> Amount | None:
    """Density at 12 % of moisture from the gravity there (Wood Handbook, chapter 4), half up to the decimals shown."""
    if not gravity:
        return None
    water, places = _WATER[unit]
    return amount(decimal(water * Fraction(gravity) * _WET, places))


def _source(line: Line, *, own: bool, dense: bool) -> str:
    table, verified = ("13-5", line["coeff_verified"]) if own else ("4-3", line["shrinkage_verified"])
    worked = "" if own else ", worked out from shrinkage"
    movement = f"movement: {_HANDBOOK}, Table {table}{worked} ({_seen(verified)})"
    if not dense:
        return movement
    return f"{movement}; density: Table 5-3 and the rule of chapter 4 ({_seen(line['SG_verified'])})"


def _seen(verified: str) -> str:
    """How far a figure was held against its source, said to whoever meets it on a page."""
    if verified.startswith("yes"):
        return "read in a copy of it"
    return "in part from memory" if "yes" in verified else "from memory"
