"""Usual figures of kitchens against the published ones (resources/reference/kitchen-dimensions.csv, with sources)."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from frontwright.core.lengths import UNITS_IN, Display, Length, Unit
from frontwright.desk.edits.rules import unlikely

Table = Callable[[str], dict[str, dict[str, str]]]
Spans = Callable[[dict[str, str]], tuple[Fraction | None, Fraction, Fraction]]
Usual = Callable[[str, Unit], Fraction]


@pytest.mark.parametrize(
    ("key", "unit", "quantity"),
    [
        ("end depth base", "in", "base cabinet depth"),
        ("end depth wall", "in", "wall cabinet depth"),
        ("frame member", "in", "face frame stock"),
        ("frame member", "in", "face frame stile width, end"),
        ("frame member", "in", "face frame top rail"),
        ("frame member", "in", "face frame bottom rail"),
        ("stile", "in", "door stile and rail width"),
        ("top rail", "in", "door stile and rail width"),
        ("bottom rail", "in", "door stile and rail width"),
        ("end depth base", "mm", "metric base cabinet depth"),
    ],
)
def test_what_is_assumed_lies_within_what_is_published(
    key: str, unit: Unit, quantity: str, lies_within: Callable[[str, Unit, str, str], None]
) -> None:
    lies_within(key, unit, "kitchen-dimensions.csv", quantity)


def test_a_drawer_front_as_high_as_its_rails_and_an_inch_of_panel_is_framed(table: Table, usual: Usual) -> None:
    """Door makers: frame parts and one inch; here the field must be 1 3/4 high, or it is a slab"""
    row = table("kitchen-dimensions.csv")["smallest framed front"]
    assert row["value"] == "frame parts + 1"
    assert usual("least field", "in") >= 1


@pytest.mark.parametrize(
    ("quantity", "table_name", "field"),
    [
        ("base cabinet height, without top", "runs", "height"),
        ("wall cabinet height", "runs", "height"),
        ("metric base carcase height", "runs", "height"),
        ("single-door width", "openings", "width"),
        ("face frame stile width, centre", "members", "across"),
    ],
)
def test_published_sizes_are_not_called_unlikely(
    quantity: str, table_name: str, field: str, table: Table, span: Spans
) -> None:
    row = table("kitchen-dimensions.csv")[quantity]
    unit: Unit = "in" if row["unit"] == "in" else "mm"
    display = Display(unit, Length.inch("1/32") if unit == "in" else Length.mm("0.5"))
    for size in span(row)[1:]:
        length = Length(int(size * UNITS_IN[unit]))
        assert unlikely(table_name, field, length, quantity, display) is None, (size, row["source"])
