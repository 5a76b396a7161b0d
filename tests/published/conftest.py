"""Reads the tables of published figures that come with the program."""

from __future__ import annotations

import csv
from collections.abc import Callable
from fractions import Fraction

import pytest
from frontwright.core.assumed import assumed
from frontwright.core.lengths import UNITS_IN, Unit
from frontwright.resources import resource

type Span = tuple[Fraction | None, Fraction, Fraction]
type Rows = dict[str, dict[str, str]]


@pytest.fixture(scope="session")
def table() -> Callable[[str], dict[str, dict[str, str]]]:
    """The rows of a table of resources/reference by their quantity."""

    def rows(name: str) -> dict[str, dict[str, str]]:
        with resource("reference", name).open(encoding="utf-8", newline="") as file:
            return {line["quantity"]: line for line in csv.DictReader(file)}

    return rows


@pytest.fixture(scope="session")
def span() -> Callable[[dict[str, str]], Span]:
    """Value (None where only a range is published), least and most of a row."""

    def found(row: dict[str, str]) -> Span:
        value = Fraction(row["value"]) if row["value"] else None
        ends = [Fraction(row[end]) for end in ("low", "high") if row[end]]
        known = [*ends, *([value] if value is not None else [])]
        return value, min(known), max(known)

    return found


@pytest.fixture(scope="session")
def usual() -> Callable[[str, Unit], Fraction]:
    """An assumed length of this key, in the unit."""
    return lambda key, unit: Fraction(assumed(unit, key).length.units) / UNITS_IN[unit]


@pytest.fixture(scope="session")
def lies_within(
    table: Callable[[str], Rows], span: Callable[[dict[str, str]], Span], usual: Callable[[str, Unit], Fraction]
) -> Callable[[str, Unit, str, str], None]:
    """Holds an assumed length against what a table publishes of a quantity, in the same unit."""

    def held(key: str, unit: Unit, name: str, quantity: str) -> None:
        row = table(name)[quantity]
        assert row["unit"] == unit
        _, least, most = span(row)
        assert least <= usual(key, unit) <= most, row["source"]

    return held
