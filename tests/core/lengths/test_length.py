"""The exact length and its named roundings."""

from __future__ import annotations

import operator
import pickle
from collections.abc import Callable
from dataclasses import FrozenInstanceError
from fractions import Fraction

import pint
import pytest
from frontwright.core.lengths import FOOT, INCH, LONGEST, MM, ZERO, Length, down, half_up, in_units, root, root_of, up
from hypothesis import given
from hypothesis import strategies as st

lengths = st.integers(-(10**10), 10**10).map(Length)
exact_lengths = st.fractions(-(10**9), 10**9, max_denominator=10**6)
steps = st.sampled_from([Length(1), Length.inch("1/64"), Length.inch("1/16"), Length.mm("0.1"), Length.mm("0.5"), MM])


@pytest.mark.parametrize(
    ("length", "units"),
    [
        (Length.inch("1/128"), 15_875),
        (Length.inch("0.001"), 2_032),
        (Length.mm("0.01"), 800),
        (Length.mm("0.001"), 80),
        (MM, 80_000),
        (INCH, 2_032_000),
        (FOOT, 24_384_000),
        (LONGEST, 2_400_000_000),
    ],
)
def test_every_step_of_a_rule_is_a_whole_number_of_units(length: Length, units: int) -> None:
    assert length.units == units


def test_inch_foot_and_millimetre_are_those_of_pint() -> None:
    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
    for length, name in ((INCH, "inch"), (FOOT, "foot"), (MM, "millimetre"), (MM * 10, "cm"), (MM * 1000, "metre")):
        in_mm = registry.Quantity(Fraction(1), name).to("mm").magnitude
        assert length / MM == in_mm, name


@given(lengths, lengths, lengths)
def test_sums_are_exact_in_any_order(a: Length, b: Length, c: Length) -> None:
    assert (a + b + c).units == a.units + b.units + c.units
    assert a + (b + c) == (a + b) + c
    assert sum([a, b, c], ZERO) == a + b + c
    assert a - b == a + -b
    assert a - a == ZERO


@given(lengths, st.integers(-1000, 1000))
def test_a_multiple_is_a_repeated_sum(length: Length, number: int) -> None:
    assert length * number == number * length == Length(length.units * number)


@given(lengths, st.integers(1, 1000))
def test_a_share_of_a_length_keeps_its_fraction(length: Length, number: int) -> None:
    assert (length / number) * number == length.units


def test_a_length_times_a_fraction_is_a_fraction_of_units() -> None:
    assert INCH * Fraction(1, 3) == Fraction(2_032_000, 3)
    assert Fraction(1, 3) * INCH == INCH / 3


def test_a_length_over_a_length_is_a_plain_number() -> None:
    assert FOOT / INCH == 12
    assert (MM / INCH).denominator == 127


def test_division_by_nothing_is_an_error_and_not_a_length() -> None:
    with pytest.raises(ZeroDivisionError):
        INCH / ZERO
    with pytest.raises(ZeroDivisionError):
        INCH / 0


@given(lengths, lengths)
def test_order_equality_and_hash_are_those_of_the_units(a: Length, b: Length) -> None:
    assert (a < b, a <= b, a > b, a >= b) == (
        a.units < b.units,
        a.units <= b.units,
        a.units > b.units,
        a.units >= b.units,
    )
    assert (a == b) == (a.units == b.units)
    assert hash(a) == hash(Length(a.units))
    assert {a: "kept"}[Length(a.units)] == "kept"


def test_only_zero_is_false() -> None:
    assert not ZERO
    assert Length(1)
    assert Length(-1)
    assert abs(Length(-1)) == Length(1) == -Length(-1) == +Length(1)


@pytest.mark.parametrize(
    ("operation", "left", "right"),
    [
        (operator.add, MM, 1),
        (operator.add, 1, MM),
        (operator.sub, MM, 1),
        (operator.lt, MM, 1),
        (operator.le, MM, 1),
        (operator.gt, MM, 1),
        (operator.ge, MM, 1),
        (operator.mul, MM, 1.5),
        (operator.mul, 1.5, MM),
        (operator.truediv, MM, 0.5),
        (operator.mul, MM, MM),
        (operator.add, MM, Fraction(1)),
    ],
)
def test_a_length_is_no_number(operation: Callable[[object, object], object], left: object, right: object) -> None:
    with pytest.raises(TypeError):
        operation(left, right)


def test_a_length_equals_no_number() -> None:
    assert operator.ne(Length(5), 5)


def test_a_length_cannot_be_changed() -> None:
    length = Length(1)
    with pytest.raises(FrozenInstanceError):
        setattr(length, "units", 2)  # noqa: B010 - mypy would not let the plain form through
    assert length.units == 1


def test_a_length_goes_to_another_process_and_back() -> None:
    assert pickle.loads(pickle.dumps(INCH)) == INCH


@pytest.mark.parametrize(
    ("made", "units"),
    [
        (Length.mm(20), 1_600_000),
        (Length.mm("19.5"), 1_560_000),
        (Length.mm(Fraction(1, 8)), 10_000),
        (Length.inch("5/8"), 1_270_000),
        (Length.inch(".625"), 1_270_000),
        (Length.inch("-0.5"), -1_016_000),
    ],
)
def test_a_length_is_made_of_a_number_of_its_unit(made: Length, units: int) -> None:
    assert made.units == units


@pytest.mark.parametrize("text", ["", " 1", "1e3", "1_000", "nan", "inf", "1/0", "1/2/3", "a", "9" * 41, "--1", "٣"])
def test_text_that_is_no_plain_number_makes_no_length(text: str) -> None:
    with pytest.raises(ValueError, match=r"“.*” (is no number|divides by zero)"):
        Length.mm(text)


def test_what_is_no_whole_number_of_units_makes_no_length() -> None:
    with pytest.raises(ValueError, match="1/3 in is no whole number"):
        Length.inch("1/3")


def test_a_float_makes_no_length() -> None:
    with pytest.raises(TypeError, match="never made from a float"):
        Length.mm(0.5)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("units", "nearest", "under", "over"),
    [
        (0, 0, 0, 0),
        (1, 0, 0, 4),
        (2, 4, 0, 4),
        (3, 4, 0, 4),
        (4, 4, 4, 4),
        (-1, 0, -4, 0),
        (-2, 0, -4, 0),
        (-3, -4, -4, 0),
    ],
)
def test_half_a_step_goes_up_also_below_zero(units: int, nearest: int, under: int, over: int) -> None:
    step = Length(4)
    for length in (Length(units), Fraction(units)):
        assert half_up(length, step) == Length(nearest)
        assert down(length, step) == Length(under)
        assert up(length, step) == Length(over)


@given(exact_lengths, steps)
def test_roundings_are_multiples_of_the_step_about_the_length(length: Fraction, step: Length) -> None:
    nearest, under, over = (in_units(rounding(length, step)) for rounding in (half_up, down, up))
    assert nearest % step.units == under % step.units == over % step.units == 0
    assert under <= length <= over
    assert over - under in (0, step.units)
    assert -step.units <= 2 * (length - nearest) < step.units


@given(st.integers(0, 10**11))
def test_the_root_of_a_square_is_its_side(units: int) -> None:
    assert root(Fraction(units * units)) == Length(units)


@given(st.fractions(0, 10**20, max_denominator=10**6))
def test_a_root_is_the_nearest_unit(square: Fraction) -> None:
    units = root(square).units
    assert square < Fraction(2 * units + 1, 2) ** 2
    assert units == 0 or square >= Fraction(2 * units - 1, 2) ** 2


def test_the_diagonal_of_three_and_four_is_five() -> None:
    assert root(Fraction((INCH * 3).units ** 2 + (INCH * 4).units ** 2)) == INCH * 5


@given(st.fractions(0, 10**6, max_denominator=1000), st.integers(0, 15))
def test_the_root_of_a_number_is_right_to_its_last_place(number: Fraction, places: int) -> None:
    found = root_of(number, places)
    half = Fraction(1, 2 * 10**places)
    assert (found * 10**places).denominator == 1
    assert number < (found + half) ** 2
    assert found == 0 or number >= (found - half) ** 2


def test_nothing_below_zero_has_a_root() -> None:
    with pytest.raises(ValueError, match="nonnegative"):
        root(Fraction(-1))
