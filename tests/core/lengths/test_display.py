"""How lengths are shown."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.lengths import (
    DISPLAYS,
    IN_HALF_MM,
    IN_MM,
    IN_SIXTEENTHS,
    IN_SIXTYFOURTHS,
    IN_TENTH_MM,
    IN_THIRTYSECONDS,
    IN_THOUSANDTHS,
    INCH,
    UNITS_IN,
    Display,
    Exact,
    Length,
    Shown,
    Unit,
    both_units,
    decimal,
    exact_text,
    finest,
    half_up,
    in_units,
    read,
    show,
    shown,
    six_places,
)
from hypothesis import given
from hypothesis import strategies as st

exact_lengths = st.one_of(
    st.integers(-(10**9), 10**9).map(Length),
    st.integers(-6000, 6000).map(lambda step: Length.inch("1/64") * step),
    st.fractions(-(10**9), 10**9, max_denominator=1000),
)


@pytest.mark.parametrize(
    ("length", "display", "text"),
    [
        (Length.inch("189/8"), IN_SIXTEENTHS, "23 5/8"),
        (Length.inch("189/8"), IN_SIXTYFOURTHS, "23 5/8"),
        (Length.inch("189/8"), IN_THOUSANDTHS, "23.625"),
        (Length.inch("47/2"), IN_THOUSANDTHS, "23.5"),
        (Length.inch("1/2"), IN_SIXTEENTHS, "1/2"),
        (Length.inch("-1/2"), IN_SIXTEENTHS, "-1/2"),
        (Length.inch("-3/2"), IN_SIXTEENTHS, "-1 1/2"),
        (Length.inch(24), IN_SIXTEENTHS, "24"),
        (Length.inch(0), IN_SIXTEENTHS, "0"),
        (Length.inch("1/32"), IN_SIXTEENTHS, "~1/16"),
        (Length.inch("1/64"), IN_SIXTEENTHS, "~0"),
        (Length.inch("-1/64"), IN_SIXTEENTHS, "~0"),
        (INCH * 191 / 6, IN_THIRTYSECONDS, "~31 27/32"),
        (INCH / 3000, IN_THOUSANDTHS, "~0"),
        (INCH / 3, IN_THOUSANDTHS, "~0.333"),
        (Length.mm("594.5"), IN_HALF_MM, "594.5"),
        (Length.mm("594.5"), IN_MM, "~595"),
        (Length.mm("594.4"), IN_HALF_MM, "~594.5"),
        (Length.mm("594"), IN_TENTH_MM, "594"),
        (Length.mm("-0.1"), IN_TENTH_MM, "-0.1"),
        (Length.mm("0.05"), IN_TENTH_MM, "~0.1"),
    ],
)
def test_a_length_is_shown_reduced_to_its_step(length: Exact, display: Display, text: str) -> None:
    assert show(length, display) == text


def test_a_shown_length_comes_apart_for_stacking() -> None:
    assert shown(Length.inch("-189/8"), IN_SIXTEENTHS) == Shown(False, True, "23", "5", "8")
    assert shown(Length.inch("5/8"), IN_SIXTEENTHS) == Shown(False, False, "", "5", "8")
    assert shown(Length.mm("862.0125"), IN_TENTH_MM) == Shown(True, False, "862")
    assert shown(Length.mm("0.5"), IN_HALF_MM) == Shown(False, False, "0", decimals="5")


@given(exact_lengths, st.sampled_from(DISPLAYS))
def test_what_is_shown_reads_back_as_the_length_unless_marked(length: Exact, display: Display) -> None:
    text = show(length, display)
    understood = read(text.removeprefix("~"), display.unit)
    assert understood.value == half_up(length, display.step)
    assert text.startswith("~") == (understood.exact != in_units(length))


@given(exact_lengths, st.sampled_from(DISPLAYS))
def test_a_fraction_is_shown_in_lowest_terms_under_one(length: Exact, display: Display) -> None:
    parts = shown(length, display)
    if parts.numerator:
        fraction = Fraction(int(parts.numerator), int(parts.denominator))
        assert str(fraction) == f"{parts.numerator}/{parts.denominator}"
        assert 0 < fraction < 1
    assert not (parts.numerator and parts.decimals)


def test_both_units_give_millimetres_to_a_tenth_and_inches_to_a_sixtyfourth() -> None:
    assert both_units(Length.inch("543/16"), IN_THIRTYSECONDS) == "33 15/16 in, 862.0 mm"
    assert both_units(Length.inch("-1/2"), IN_THIRTYSECONDS) == "-1/2 in, -12.7 mm"
    assert both_units(Length.mm("600"), IN_HALF_MM) == "600 mm, ~23 5/8 in"
    assert both_units(Length.mm("12.7"), IN_TENTH_MM) == "12.7 mm, 1/2 in"
    assert both_units(INCH * 191 / 6, IN_THIRTYSECONDS) == "~31 27/32 in, 808.6 mm"


@pytest.mark.parametrize(
    ("length", "unit", "text"),
    [
        (Length.inch("723/32"), "in", "22.59375"),
        (Length.mm(38), "in", "190/127"),
        (INCH * 191 / 6, "in", "191/6"),
        (Length.inch("-1/2"), "in", "-0.5"),
        (Length.mm("6.2"), "mm", "6.2"),
        (Length.inch("3/8"), "mm", "9.525"),
        (Length.mm(720), "mm", "720"),
        (Length(0), "mm", "0"),
        (Length.mm(1) / 3, "mm", "1/3"),
        (Length.mm(-1) / 3, "mm", "-1/3"),
    ],
)
def test_exact_text_is_a_decimal_or_else_a_fraction(length: Exact, unit: Unit, text: str) -> None:
    assert exact_text(length, unit) == text


@given(exact_lengths, st.sampled_from(["in", "mm"]))
def test_exact_text_loses_nothing(length: Exact, unit: Unit) -> None:
    assert Fraction(exact_text(length, unit)) * UNITS_IN[unit] == in_units(length)


@pytest.mark.parametrize(
    ("length", "text"),
    [
        (Length.mm("554.14875"), "554.148750"),
        (Length.mm(1) / 3, "0.333333"),
        (Length.mm(2) / 3, "0.666667"),
        (Length.mm(-2) / 3, "-0.666667"),
        (Length.mm(5), "5.000000"),
        (Fraction(80_000, 2_000_000), "0.000001"),
        (Fraction(-80_000, 2_000_000), "0.000000"),
    ],
)
def test_six_places_are_rounded_half_up(length: Exact, text: str) -> None:
    assert six_places(length, "mm") == text


@pytest.mark.parametrize(
    ("number", "places", "text"),
    [
        (Fraction(2, 3), 2, "0.67"),
        (Fraction(1, 2), 0, "1"),
        (Fraction(-1, 2), 0, "0"),
        (Fraction(-2, 3), 2, "-0.67"),
        (Fraction(-1, 1000), 2, "0.00"),
        (12, 3, "12.000"),
    ],
)
def test_a_plain_number_has_so_many_places_half_up(number: Fraction | int, places: int, text: str) -> None:
    assert decimal(number, places) == text


@pytest.mark.parametrize(
    ("length", "display", "found"),
    [
        (Length.mm("6.2"), IN_HALF_MM, IN_TENTH_MM),
        (Length.mm("6.5"), IN_HALF_MM, IN_HALF_MM),
        (Length.mm("6.25"), IN_HALF_MM, IN_HALF_MM),
        (Length.inch("1/64"), IN_SIXTEENTHS, IN_SIXTYFOURTHS),
        (Length.inch("3/32"), IN_SIXTEENTHS, IN_THIRTYSECONDS),
        (Length.inch("1/64"), IN_SIXTYFOURTHS, IN_SIXTYFOURTHS),
        (Length.mm(35), IN_SIXTEENTHS, IN_SIXTEENTHS),
    ],
)
def test_a_length_is_shown_in_the_first_step_that_tells_it_whole(
    length: Length, display: Display, found: Display
) -> None:
    assert finest(length, display) == found


@pytest.mark.parametrize(("unit", "step"), [("mm", "0"), ("mm", "-1")])
def test_a_step_of_nothing_is_no_display(unit: Unit, step: str) -> None:
    with pytest.raises(ValueError, match="no step to show lengths in"):
        Display(unit, Length.mm(step))


def test_decimals_are_not_shown_in_a_step_without_an_end() -> None:
    with pytest.raises(ValueError, match="no step to show lengths in"):
        Display("in", Length.mm(1), decimals=True)
