"""Published and common check cases on lengths and fractions, worked through as a person would type them.

The numbers are those of the trade's list of worked examples. "Arithmetic" follows from a stated rule; "common
practice" is a habit of the trade without a source; the others name where the figures are printed.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.lengths import IN_TENTH_MM, IN_THIRTYSECONDS, Display, Length, Unit, read, show

IN, MM = IN_THIRTYSECONDS, IN_TENTH_MM

CASES: list[tuple[str, str, Unit, str, str]] = [
    # case, typed, unit, shown, source
    ("25 core with two faces", "3/16 + 2*1/8", "in", "7/16", "common practice"),
    ("25 planed: off each face", "(7/16 - 3/8)/2", "in", "1/32", "common practice"),
    ("25 planed: each face", "1/8 - 1/32", "in", "3/32", "common practice"),
    ("29 blade of two passes", "5 1/2 / 2 + 1/4", "in", "3", "Modern Cabinetmaking, p. 382"),
    ("30 tallest stock of two passes", "2*3 1/8 - 1/2", "in", "5 3/4", "arithmetic from 29"),
    ("32 five equal drawer fronts", "(800 - 5*3)/5", "mm", "157", "trade knowledge base, published"),
    ("33 overlay", "5 + 13 - 2", "mm", "16", "hinge relation, own inputs"),
    ("34 cup centre, K 3", "3 + 17.5", "mm", "20.5", "hinge maker's table"),
    ("34 cup centre, K 8", "8 + 17,5", "mm", "25.5", "hinge maker's table"),
    ("35 straight arm on a 3 mm plate", "19 - 3", "mm", "16", "forum answer, published"),
    ("37 width of a door", "15 + 2*1/2", "in", "16", "arithmetic"),
    ("37 height of a door", "22 + 2*1/2", "in", "23", "arithmetic"),
    ("37 rails", "16 - 2*2 1/4", "in", "11 1/2", "arithmetic"),
    ("37 sight height", "23 - 2*2 1/4", "in", "18 1/2", "arithmetic"),
    ("38 rails with stub tenons", "11 1/2 + 2*3/8", "in", "12 1/4", "arithmetic"),
    ("39 panel width", "11 1/2 + 2*3/8 - 1/32", "in", "12 7/32", "arithmetic; clearance common practice"),
    ("39 panel height", "18 1/2 + 2*3/8 - 1/32", "in", "19 7/32", "arithmetic; clearance common practice"),
    ("40 one of a pair of doors", "(30 + 2*1/2 - 1/8)/2", "in", "15 7/16", "arithmetic"),
]


@pytest.mark.parametrize(("case", "text", "unit", "back", "source"), CASES)
def test_a_worked_example_typed_in_comes_out_as_printed(
    case: str, text: str, unit: Unit, back: str, source: str
) -> None:
    display: Display = IN if unit == "in" else MM
    understood = read(text, unit)
    assert understood.exact is not None, (case, understood.problem)
    assert show(understood.exact, display) == back, (case, source)


@pytest.mark.parametrize(
    ("blank", "kerf", "strips"),
    [
        ("1.70", "1/8", 7),  # 27, a magazine's claim for one blank, with arithmetic
        ("1.70", "3/32", 8),
        ("13/16", "1/8", 3),  # 28, arithmetic
        ("13/16", "3/32", 4),
    ],
)
def test_the_last_strip_of_a_blank_needs_no_cut(blank: str, kerf: str, strips: int) -> None:
    thickness, loss, strip = Length.inch(blank), Length.inch(kerf), Length.inch("1/8")
    assert (thickness + loss) / (strip + loss) // 1 == strips


@pytest.mark.parametrize(("kerf", "strips"), [("1/8", 1), ("3/32", 2)])
def test_with_a_piece_kept_back_each_strip_needs_its_cut(kerf: str, strips: int) -> None:
    """Case 28, planed 4/4 with 3/8 kept back: arithmetic, the keep-back common practice."""
    thickness, strip = Length.inch("13/16") - Length.inch("3/8"), Length.inch("1/8")
    assert thickness / (strip + Length.inch(kerf)) // 1 == strips


@pytest.mark.parametrize(
    ("printed", "sum_"),
    [("13/16", "1 - 3/16"), ("1 1/16", "5/4 - 3/16"), ("1 5/16", "6/4 - 3/16"), ("1 3/4", "8/4 - 1/4")],
)
def test_rough_lumber_in_quarters_of_an_inch_is_read_like_any_fraction(printed: str, sum_: str) -> None:
    """Case 20, NHLA: 4/4, 5/4, 6/4 and 8/4 rough, surfaced two sides."""
    assert read(printed, "in").value == read(sum_, "in").value


def test_the_panel_of_the_laundry_door_closes_its_proof_line() -> None:
    """Sight 18 3/32 + 3/4 - 1/16 = 18 25/32, worked by hand in 32nds: 579 + 24 - 2 = 601."""
    assert read("18 3/32 + 3/4 - 1/16", "in").value == Length.inch(Fraction(601, 32))
