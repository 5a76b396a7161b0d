"""A content in both measures: what a board foot, a square foot, a gallon and a pound are in the other system."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.bill.measures import in_both, in_the_other
from pint import UnitRegistry

PAIRS = [
    ("board feet", "m3", "board_foot", "m**3"),
    ("square feet", "m2", "foot**2", "m**2"),
    ("gallons", "litres", "gallon", "liter"),
    ("pounds", "kilograms", "pound", "kilogram"),
]


@pytest.mark.parametrize(("a", "b", "unit_a", "unit_b"), PAIRS)
def test_measures_are_those_of_the_table_of_units(a: str, b: str, unit_a: str, unit_b: str) -> None:
    units: UnitRegistry[Fraction] = UnitRegistry(non_int_type=Fraction)
    told = in_the_other(Fraction(7, 3), a)
    assert told is not None
    assert told.measure == b
    assert told.amount == units.Quantity(Fraction(7, 3), unit_a).to(unit_b).magnitude
    assert in_the_other(*told) == (Fraction(7, 3), a)


def test_a_content_is_told_in_both_measures_side_by_side() -> None:
    """4.375 board feet (F47) are 0.010323850... m3"""
    assert in_both(Fraction("4.375"), "board feet") == "4.38 board feet, 0.0103 m³"
    assert in_both(Fraction(1), "m3") == "1 m³, 423.78 board feet"
    assert in_both(16, "pieces") == "16 pieces"
    assert in_the_other(None, "pieces") is None
