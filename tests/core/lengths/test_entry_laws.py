"""Laws that hold for every entry."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.lengths import LONGEST, UNITS_IN, Length, Unit, half_up, read, typed_length
from hypothesis import example, given
from hypothesis import strategies as st

units: st.SearchStrategy[Unit] = st.sampled_from(["in", "mm"])
lengths = st.one_of(
    st.integers(-LONGEST.units, LONGEST.units).map(Length),
    st.integers(-30_000, 30_000).map(lambda step: Length.inch("1/32") * step),
    st.integers(-60_000, 60_000).map(lambda step: Length.mm("0.1") * step),
)
marks = st.sampled_from([*"0123456789 /.,-+*()'\"x⅝′″’”", "in", "mm", "ft", "m", "cm"])


@given(st.one_of(st.text(max_size=80), st.lists(marks, max_size=40).map("".join)), units)
@example("5/8/", "in")
@example("’" * 64, "mm")
@example("(" * 64, "mm")
@example("-" * 64, "mm")
def test_any_text_is_read_without_an_exception(text: str, unit: Unit) -> None:
    understood = read(text, unit)
    assert understood.text == text
    has_value = understood.state == "value"
    assert (understood.value is not None) == (understood.exact is not None) == has_value
    assert (understood.problem is not None) == (understood.state in ("unfinished", "refused"))
    assert understood.doubt is None or has_value
    if understood.exact is not None and understood.value is not None:
        assert understood.value == half_up(understood.exact)
        assert abs(understood.value) <= LONGEST


@given(st.lists(marks, max_size=14).map("".join), units)
def test_every_beginning_of_a_readable_entry_is_a_value_or_unfinished(text: str, unit: Unit) -> None:
    if read(text, unit).state == "value":
        for end in range(len(text)):
            assert read(text[:end], unit).state != "refused", text[:end]


@given(lengths, units)
def test_a_length_set_by_the_program_reads_back_exactly_and_without_doubt(length: Length, unit: Unit) -> None:
    entry = typed_length(length, unit)
    understood = read(entry.text, unit)
    assert entry.value == understood.value == length
    assert understood.exact == length.units
    assert understood.doubt is None or "longer than a run" in understood.doubt


@given(st.lists(lengths.map(lambda length: half_up(length / 20)), min_size=1, max_size=5), units)
def test_a_typed_sum_is_the_sum_of_its_terms(terms: list[Length], unit: Unit) -> None:
    texts = [typed_length(term, unit).text for term in terms]
    text = " + ".join(texts)
    if len(text) <= 64:
        assert read(text, unit).exact == sum(term.units for term in terms)


@given(st.integers(0, 500), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_a_hyphen_in_an_inch_job_joins_what_a_space_joins(whole: int, over: int, under: int) -> None:
    spaced, hyphened = read(f"{whole} {over}/{under}", "in"), read(f"{whole}-{over}/{under}", "in")
    assert (spaced.state, spaced.exact) == (hyphened.state, hyphened.exact)
    assert spaced.state == ("value" if over < under else "unfinished")


@given(st.decimals(0, 999, places=2, allow_nan=False), units)
def test_point_and_comma_are_the_same_decimal_mark(number: object, unit: Unit) -> None:
    text = str(number)
    with_point, with_comma = read(text, unit), read(text.replace(".", ","), unit)
    assert with_point.exact == with_comma.exact == Fraction(text) * UNITS_IN[unit]
