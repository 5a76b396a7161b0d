"""Densities and masses with their units: read in the job's or in the one that is typed, carried over where it changes.

A handbook gives kg/m3, a hinge maker kilograms, whatever the job's unit. What is typed stays as typed; the value beside
it counts in the job's unit, exactly.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any, cast

from frontwright.core.job import Amount, Job, Row, amount
from frontwright.core.job.declared import declared
from frontwright.core.lengths import Unit

if TYPE_CHECKING:
    from pint import UnitRegistry

_DENSITY: dict[Unit, str] = {"in": "lb/ft3", "mm": "kg/m3"}
_MASS: dict[Unit, str] = {"in": "lb", "mm": "kg"}
_WORDS = {"lbs": "lb", "pounds": "lb", "lb/ft³": "lb/ft3", "lb/cuft": "lb/ft3", "kg/m³": "kg/m3"}
_EXPRESSIONS = {"lb/ft3": "pound/foot**3", "kg/m3": "kilogram/meter**3", "lb": "pound", "kg": "kilogram"}


def units_of(field: str) -> dict[Unit, str] | None:
    """The unit in which a field counts, by the unit of the job; None for plain numbers (shares, per cents)."""
    if field == "density":
        return _DENSITY
    return _MASS if field.endswith("_mass") else None


def read_amount(text: str, field: str, unit: Unit) -> Amount:
    """How an entry of this field is understood in a job of this unit; its value is None where it cannot be read.

    `44 lb/ft3` in a millimetre job counts as 704.8 kg/m3; a number without a unit counts in the job's own.
    """
    plain, told = _apart(text, field)
    units = units_of(field)
    number = amount(plain)
    if units is None or number.value is None or told in ("", units[unit]):
        return Amount(text, number.value)
    return Amount(text, converted(number.value, told, units[unit]))


def converted(number: Fraction, told: str, wanted: str) -> Fraction:
    """A density or mass in another unit (`lb/ft3`, `kg/m3`, `lb`, `kg`), exactly."""
    there = _registry().Quantity(number, _EXPRESSIONS[told]).to(_EXPRESSIONS[wanted])
    return Fraction(there.magnitude)


def with_units[R: Row](row: R, unit: Unit) -> R:
    """The row with a unit named beside each density and mass that names none, that of a job in `unit`."""
    return _changed(row, lambda one, field: _named(one, field, unit))


def read_in[R: Row](row: R, unit: Unit) -> R:
    """The row as a job in `unit` counts it; amounts that name no unit stay."""
    return _changed(row, lambda one, field: read_amount(one.text, field, unit) if _apart(one.text, field)[1] else one)


def carried_over(job: Job, unit: Unit) -> Job:
    """The job in another unit: every density and mass names the unit it was told in, and counts in the new one."""
    old = job.heading.unit
    woods = (read_in(with_units(wood, old), unit) for wood in job.species.values())
    hinges = (read_in(with_units(hinge, old), unit) for hinge in job.hinge_types.values())
    return job.put(*woods, *hinges)


def _named(one: Amount, field: str, unit: Unit) -> Amount:
    units = units_of(field)
    if units is None or one.value is None or _apart(one.text, field)[1]:
        return one
    return replace(one, text=f"{one.text.strip()} {units[unit]}")


def _apart(text: str, field: str) -> tuple[str, str]:
    """Number and unit of an entry; no unit where none of this field's stands at its end."""
    units = units_of(field) or {}
    bare = text.strip()
    for word, unit in (*_WORDS.items(), *((unit, unit) for unit in units.values())):
        if unit in units.values() and bare.casefold().endswith(word):
            return bare[: -len(word)], unit
    return text, ""


def _changed[R: Row](row: R, change: Callable[[Amount, str], Amount]) -> R:
    names = [field.name for field in declared(type(row)) if field.kind == "amount"]
    given = {name: value for name in names if (value := getattr(row, name)) is not None}
    new = {name: change(value, name) for name, value in given.items()}
    changed: R = replace(cast(Any, row), **new) if new != given else row
    return changed


@cache
def _registry() -> UnitRegistry[Fraction]:
    """The few units that are asked for, and no file of definitions."""
    from pint import UnitRegistry

    registry: UnitRegistry[Fraction] = UnitRegistry(None, non_int_type=Fraction)
    for one in ("meter = [length]", "foot = 0.3048 * meter", "kilogram = [mass]", "pound = 0.45359237 * kilogram"):
        registry.define(one)
    return registry
