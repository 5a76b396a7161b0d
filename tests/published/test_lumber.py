"""Lumber, purchase and coverage against figures that others have published, each named with its source.

S11 is the NHLA's rules, S7 the Architectural Woodwork Standards, both as in resources/reference/SOURCES.md; "public
guide" and "magazine" are pages without a name of their own. "arithmetic": follows from a stated rule.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.bill.costs import f52
from frontwright.core.figures import Figure
from frontwright.core.job import Heading, Job, SupplierSize, amount
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length
from frontwright.core.stock.fitting import first_fit
from frontwright.core.stock.purchase import area, counted_thickness, nominal, price_of
from frontwright.core.stock.result import Group, Offer, Want

INCHES = JobIndex(Job().put(Heading(unit="in")))


def inches(text: str) -> Length:
    return Length.inch(Fraction(text))


@pytest.mark.parametrize(
    ("rough", "planed"),
    [("1", "13/16"), ("5/4", "17/16"), ("3/2", "21/16"), ("2", "7/4"), ("3", "11/4"), ("4", "15/4")],
)
def test_s11_stock_surfaced_on_two_sides_is_counted_as_the_rough_size_it_came_from(rough: str, planed: str) -> None:
    """Table of the NHLA's thickness rules, hardwood from 4/4 to 16/4"""
    assert nominal(inches(planed)) == inches(rough)


@pytest.mark.parametrize("planed", ["3/4", "13/16", "7/8", "15/16"])
def test_s11_retail_boards_of_three_quarters_to_fifteen_sixteenths_are_4_4(planed: str) -> None:
    assert nominal(inches(planed)) == inches("1")


def test_common_practice_lumber_under_one_inch_is_tallied_as_one() -> None:
    row = SupplierSize("thin", "yard", "board")
    assert counted_thickness(INCHES, "board", row, inches("5/8")) == inches("1")


@pytest.mark.parametrize(("size", "feet"), [(("1", "6", "96"), "4"), (("5/4", "15/2", "96"), "25/4")])
def test_arithmetic_a_board_is_paid_by_its_board_feet(size: tuple[str, str, str], feet: str) -> None:
    """4/4 × 6 × 96 is 4 board feet, 5/4 × 7 1/2 × 96 is 6.25"""
    thick, wide, long = (inches(each) for each in size)
    row = SupplierSize("b", "yard", "board", price=amount("10"), per="content")
    assert price_of(INCHES, row, long, wide, thick) == Fraction(feet) * 1000


def test_s11_8_4_planed_to_1_3_4_is_paid_as_two_inches() -> None:
    row = SupplierSize("b", "yard", "board", price=amount("10"), per="content", planed=True)
    assert price_of(INCHES, row, inches("60"), inches("6"), inches("7/4")) == 5 * 1000


def test_public_calculator_350_board_feet_and_10_per_cent_are_385() -> None:
    nothing = Fraction(0)
    assert f52(Fraction(350), Fraction(10, 100), nothing, nothing, nothing, nothing, nothing) == 385


def test_magazine_half_as_much_again_is_a_third_of_the_purchase_wasted() -> None:
    """Waste here is always a share of the parts: 50 % of them are 33.3 % of what is bought"""
    nothing = Fraction(0)
    order = f52(Fraction(100), Fraction(50, 100), nothing, nothing, nothing, nothing, nothing)
    assert (order - 100) / order == Fraction(1, 3)


@pytest.mark.parametrize(("sheet", "missing"), [(("96", "48"), 0), (("48", "96"), 1)])
def test_s7_a_sheet_of_48_by_96_is_long_grain_one_of_96_by_48_cross_grain(sheet: tuple[str, str], missing: int) -> None:
    """Listed with the grain last; here length runs along the grain, and a part of 90 along it does not turn"""
    want = Want("P", 1, inches("90"), inches("40"))
    figure = Figure("thickness", inches("1/4"), "chosen")
    group = Group("sheet", "sheet", "", figure, "sheets", inches("1/8"), (want,))
    offer = Offer("S", inches(sheet[0]), inches(sheet[1]))
    assert first_fit(group, [want], [offer]).lacking == missing


def test_arithmetic_finish_of_a_door_of_16_by_23() -> None:
    """794.5 square inches, 5.52 square feet a coat, both faces and the edges of 3/4"""
    face, edge = area(INCHES, inches("16"), inches("23")), area(INCHES, inches("16") + inches("23"), inches("3/4"))
    assert (2 * face + 2 * edge) * 144 == Fraction("794.5")
    assert abs(2 * face + 2 * edge - Fraction("5.52")) <= Fraction("0.01")
