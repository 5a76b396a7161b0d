"""Reads the tables of published figures that come with the program."""

from __future__ import annotations

import csv
from collections.abc import Callable
from fractions import Fraction

import pytest
from frontwright.resources import resource

type Span = tuple[Fraction | None, Fraction, Fraction]


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
