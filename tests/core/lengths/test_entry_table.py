"""What people type, and what it is read as: text, job's unit, exact value, how it is shown back."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.lengths import (
    IN_THIRTYSECONDS,
    LONGEST,
    UNITS_IN,
    Display,
    Length,
    Typed,
    Unit,
    both_units,
    half_up,
    read,
    show,
    typed,
    typed_length,
)
from frontwright.core.lengths.display import IN_TENTH_MM

SHOWN_IN: dict[Unit, Display] = {"in": IN_THIRTYSECONDS, "mm": IN_TENTH_MM}

# text, unit of the job, value in that unit, shown back
READ: list[tuple[str, Unit, str, str]] = [
    ("23 5/8", "in", "189/8", "23 5/8"),
    ('23 5/8"', "in", "189/8", "23 5/8"),
    ("23 5/8 in", "in", "189/8", "23 5/8"),
    ("23 5/8in", "in", "189/8", "23 5/8"),
    ("23 5/8 in.", "in", "189/8", "23 5/8"),
    ("23 5/8 inches", "in", "189/8", "23 5/8"),
    ("23 5/8 Inch", "in", "189/8", "23 5/8"),
    ("23  5/8", "in", "189/8", "23 5/8"),
    ("23\u00a05/8", "in", "189/8", "23 5/8"),
    ("  23 5/8  ", "in", "189/8", "23 5/8"),
    ("23 5/8\n", "in", "189/8", "23 5/8"),
    ("23⅝", "in", "189/8", "23 5/8"),
    ('23 ⅝"', "in", "189/8", "23 5/8"),
    ("23⅝″", "in", "189/8", "23 5/8"),
    ("23 5∕8", "in", "189/8", "23 5/8"),
    ("23 5⁄8", "in", "189/8", "23 5/8"),
    ("½", "in", "1/2", "1/2"),
    ("⅓", "in", "1/3", "~11/32"),
    ("5/8", "in", "5/8", "5/8"),
    ("9/8", "in", "9/8", "1 1/8"),
    ("5/08", "in", "5/8", "5/8"),
    (".625", "in", "5/8", "5/8"),
    ("0.625", "in", "5/8", "5/8"),
    ("1,5", "in", "3/2", "1 1/2"),
    ("1.5", "in", "3/2", "1 1/2"),
    (",5", "in", "1/2", "1/2"),
    ("22 19/32", "in", "723/32", "22 19/32"),
    ("22.6", "in", "113/5", "~22 19/32"),
    ("574 mm", "in", "2870/127", "~22 19/32"),
    ("-1/2", "in", "-1/2", "-1/2"),
    ("−1/2", "in", "-1/2", "-1/2"),
    ("-23 5/8", "in", "-189/8", "-23 5/8"),
    ("+5", "in", "5", "5"),
    ("0", "in", "0", "0"),
    # millimetres
    ("600mm", "mm", "600", "600"),
    ("600 MM", "mm", "600", "600"),
    ("60 cm", "mm", "600", "600"),
    ("0.6m", "mm", "600", "600"),
    ("600", "mm", "600", "600"),
    ("594,5", "mm", "594.5", "594.5"),
    ('23 5/8"', "mm", "600.075", "~600.1"),
    ("0", "mm", "0", "0"),
    ("30000 mm - 29 m", "mm", "1000", "1000"),
    # feet and inches
    ("1' 11 5/8\"", "in", "189/8", "23 5/8"),
    ("1'11 5/8", "in", "189/8", "23 5/8"),
    ("1 ft 11 5/8 in", "in", "189/8", "23 5/8"),
    ("1ft 11⅝", "in", "189/8", "23 5/8"),
    ("1 foot 11.5 inch", "in", "47/2", "23 1/2"),
    ("1’ 11 5/8”", "in", "189/8", "23 5/8"),
    ("1′ 11 5/8″", "in", "189/8", "23 5/8"),
    ("1' 11 5/8''", "in", "189/8", "23 5/8"),
    ("1’ 11 5/8’’", "in", "189/8", "23 5/8"),
    ("1′ 11 5/8′′", "in", "189/8", "23 5/8"),
    ("5'", "in", "60", "60"),
    ("5 feet", "in", "60", "60"),
    ("5 1/2'", "in", "66", "66"),
    ("5' 1/2", "in", "121/2", "60 1/2"),
    ("5' 12/16", "in", "243/4", "60 3/4"),
    ("5'-3 1/2\"", "in", "127/2", "63 1/2"),
    ("5'-3", "in", "63", "63"),
    ("5'-½\"", "in", "121/2", "60 1/2"),
    ("5' - 3", "in", "57", "57"),
    ("5'-(3)", "in", "57", "57"),
    ("-5' 3\"", "in", "-63", "-63"),
    ("2 * 5' 3\"", "in", "126", "126"),
    ("1'11\"", "mm", "584.2", "584.2"),
    ("1'11", "mm", "584.2", "584.2"),
    # sums
    ("2400-2*19", "mm", "2362", "2362"),
    ("2400−2×19", "mm", "2362", "2362"),
    ("2400 – 2 x 19", "mm", "2362", "2362"),
    ("(96-1/2)/3", "in", "191/6", "~31 27/32"),
    ("(96-1/2)÷3", "in", "191/6", "~31 27/32"),
    ("23 5/8 - 2*3/4", "in", "177/8", "22 1/8"),
    ('600mm + 1/16"', "mm", "601.5875", "~601.6"),
    ('600mm + 1/16"', "in", "48127/2032", "~23 11/16"),
    ('5" - 3', "mm", "124", "124"),
    ('2 * (3 + 4")', "mm", "209.2", "209.2"),
    ("(5 + 3) in", "mm", "203.2", "203.2"),
    ("23 5/8 / 2", "in", "189/16", "11 13/16"),
    ('23 5/8"/2', "in", "189/16", "11 13/16"),
    ("23½/2", "in", "47/4", "11 3/4"),
    ('5/2"', "in", "5/2", "2 1/2"),
    ("96 / 2/3", "in", "144", "144"),
    ("96 / 2 / 3", "in", "16", "16"),
    ("2*3/4", "in", "3/2", "1 1/2"),
    ("96/.5", "in", "192", "192"),
    ("23 5/8-1/2", "in", "185/8", "23 1/8"),
    ("23-5/8 + 1", "in", "187/8", "23 3/8"),
    ("(23-5/8)", "in", "179/8", "22 3/8"),
    ("23 - 5/8", "in", "179/8", "22 3/8"),
    ("23-5", "in", "18", "18"),
    ("23-5/8", "mm", "22.375", "~22.4"),
    ("3 * -5", "mm", "-15", "-15"),
    ("5 - -3", "mm", "8", "8"),
    ("((((((((1))))))))", "mm", "1", "1"),
    ("+".join("1" * 16), "mm", "16", "16"),
]


@pytest.mark.parametrize(("text", "unit", "number", "back"), READ)
def test_an_entry_is_read_exactly_and_shown_back(text: str, unit: Unit, number: str, back: str) -> None:
    understood = read(text, unit)
    exact = Fraction(number) * UNITS_IN[unit]
    assert (understood.exact, understood.state, understood.problem) == (exact, "value", None)
    assert understood.doubt is None
    assert understood.value == half_up(exact)
    assert show(exact, SHOWN_IN[unit]) == back


# text, unit of the job, value in that unit, what the doubt names: this reading, and the other
DOUBTFUL: list[tuple[str, Unit, str, tuple[str, ...]]] = [
    ("23-5/8", "in", "189/8", ("23 5/8 in, 600.1 mm", "takes away, it is 22 3/8 in, 568.3 mm")),
    ("23–5/8", "in", "189/8", ("23 5/8 in, 600.1 mm", "takes away, it is 22 3/8 in, 568.3 mm")),
    ("23-⅝", "in", "189/8", ("23 5/8 in, 600.1 mm", "takes away, it is 22 3/8 in, 568.3 mm")),
    ("22-19/32", "in", "723/32", ("22 19/32 in", "takes away, it is 21 13/32 in")),
    ('23-5/8"', "in", "189/8", ("23 5/8 in", "takes away, it is 22 3/8 in")),
    ('23-5/8"', "mm", "600.075", ("600.075 mm, 23 5/8 in", "takes away, it is 7.125 mm, ~9/32 in")),
    ("23-5/8 in", "mm", "600.075", ("600.075 mm, 23 5/8 in", "takes away")),
    ("23-5/8 mm", "in", "945/1016", ("~0.93 in, 23.6 mm", "takes away, it is ~22.975 in, 583.6 mm")),
    ("1'11-5/8", "in", "189/8", ("23 5/8 in, 600.1 mm", "takes away, it is 22 3/8 in, 568.3 mm")),
    ("1'11-5/8", "mm", "600.075", ("600.075 mm, 23 5/8 in", "takes away, it is 583.575 mm, ~22 31/32 in")),
    ("1 ft 11-5/8 in", "in", "189/8", ("23 5/8 in, 600.1 mm", "takes away, it is 22 3/8 in, 568.3 mm")),
    ("5'-3-1/2\"", "in", "127/2", ("63 1/2 in, 1612.9 mm", "takes away, it is 62 1/2 in, 1587.5 mm")),
    ("5ft-3in", "in", "57", ("57 in, 1447.8 mm", "joins feet and inches, it is 63 in, 1600.2 mm")),
    ("1.234", "mm", "1.234", ("1.234 mm, ~3/64 in", "thousands, it is 1234 mm, ~48 37/64 in")),
    ("1,234", "mm", "1.234", ("1.234 mm, ~3/64 in", "thousands, it is 1234 mm, ~48 37/64 in")),
    ("2 * 1.250", "mm", "2.5", ("2.5 mm", "thousands, it is 2500 mm, ~98 27/64 in")),
    ("23.625in", "in", "189/8", ("23 5/8 in, 600.1 mm", "thousands, leave it out")),
    ("1.234", "in", "617/500", ("1.234 in, 31.3 mm", "thousands, leave it out")),
    ("574", "in", "574", ("574 in, 14579.6 mm", "millimetres are meant, it is 574 mm, ~22 19/32 in")),
    ("574,5", "in", "574.5", ("574 1/2 in, 14592.3 mm", "millimetres are meant, it is 574.5 mm, ~22 5/8 in")),
    ("600-2*19", "in", "562", ("562 in", "millimetres are meant, it is 562 mm, ~22 1/8 in")),
    ("29 m", "mm", "29000", ("29000 mm", "longer than a run usually is")),
    ("24000", "mm", "24000", ("24000 mm", "longer than a run usually is")),
    ("5' 14\"", "in", "74", ("74 in, 1879.6 mm", "14 in, which is a foot and more")),
    ("1'200", "in", "212", ("212 in, 5384.8 mm", "200 in, which is a foot and more")),
]


@pytest.mark.parametrize(("text", "unit", "number", "named"), DOUBTFUL)
def test_a_doubtful_entry_names_both_readings(text: str, unit: Unit, number: str, named: tuple[str, ...]) -> None:
    understood = read(text, unit)
    assert understood.state == "value"
    assert understood.exact == Fraction(number) * UNITS_IN[unit]
    assert understood.doubt is not None
    for words in named:
        assert words in understood.doubt


def test_an_inch_entry_without_unit_is_doubtful_only_above_the_longest_run() -> None:
    assert read("314", "in").doubt is None  # 7975.6 mm
    assert read("315", "in").doubt is not None  # 8001 mm
    assert read("8000", "mm").doubt is None


# what may yet become a length by more typing, and the word that the sentence turns on
UNFINISHED: list[tuple[str, Unit, str]] = [
    ("23 5", "in", "not finished"),
    ("23 5/", "in", "not finished"),
    ("23 5 ", "in", "not finished"),
    ('23 5/8"x', "in", "missing after “x”"),
    ("23 9/8", "in", "not under 1"),
    ("23 8/8", "in", "not under 1"),
    ("23-9/8", "in", "not under 1"),
    ("23 9/8 + 1", "in", "not under 1"),
    ("23 -5/8", "in", "one side only"),
    ("23- 5/8", "in", "one side only"),
    ("2400 -38", "mm", "one side only"),
    ("5'- 3\"", "in", "one side only"),
    ("5' -3\"", "in", "one side only"),
    ("- 5", "mm", "right before"),
    ("-", "mm", "missing after “-”"),
    ("5/", "mm", "missing after “/”"),
    ("5 + ", "mm", "missing after “+”"),
    ("(5", "mm", "not closed"),
    ("2*(", "mm", "missing after “(”"),
    ("23.", "mm", "missing after “23.”"),
    (".", "mm", "missing after “.”"),
    ("5 i", "mm", "no unit"),
    ("5 fee", "mm", "no unit"),
    ("5' 11'", "in", "Inches follow feet"),
    ("5/0", "mm", "divided by 0"),
    ("23 5/0", "in", "divided by 0"),
    ("40 m", "mm", "over 30 m"),
    ("30000.1", "mm", "over 30 m"),
    ("-40 m", "in", "over 30 m"),
    ("2400", "in", "If millimetres are meant, type mm after it"),
    ("9" * 64, "mm", "over 30 m"),
]


@pytest.mark.parametrize(("text", "unit", "words"), UNFINISHED)
def test_an_unfinished_entry_is_kept_as_typed_without_a_value(text: str, unit: Unit, words: str) -> None:
    understood = read(text, unit)
    assert (understood.text, understood.state) == (text, "unfinished")
    assert (understood.exact, understood.value, understood.doubt) == (None, None, None)
    assert understood.problem is not None
    assert words in understood.problem


REFUSED: list[tuple[str, Unit, str]] = [
    ("abc", "mm", "“abc” is no unit"),
    ("nan", "mm", "“nan” is no unit"),
    ("inf", "mm", "“inf” is no unit"),
    ("1e400", "mm", "“e” is no unit"),
    ("a/b/c", "mm", "“a” is no unit"),
    ("5/8/2", "in", "Two division strokes about 8"),
    ("(96)/2/3", "in", "Two division strokes about 2"),
    ("1/2/3 + 4", "in", "Two division strokes about 2"),
    ("1,234.5", "mm", "has 2 marks"),
    ("1.234.567", "mm", "has 2 marks"),
    ("1 200 mm", "mm", "a space in its thousands"),
    ('2" * 3"', "in", "Two lengths are multiplied"),
    ("2' x 3 mm", "in", "Two lengths are multiplied"),
    ('6 / 2"', "in", "not by a length"),
    ("60 mm / 2 mm", "mm", "not by a length"),
    ("5/(1-1)", "mm", "divided by 0"),
    ("5/0 + 3", "mm", "divided by 0"),
    ("(((((((((1)))))))))", "mm", "More than 8 brackets"),
    ("+".join("1" * 17), "mm", "More than 32 numbers and signs"),
    ("1" * 65, "mm", "Longer than 64 characters"),
    ("23 5/8\n22 1/2\n", "in", "More than one line"),
    ("12\t34\t56\r\n78", "in", "More than one line"),
    ("5)", "mm", "was not opened"),
    ("()", "mm", "missing before “)”"),
    ("*5", "mm", "missing before “*”"),
    ('"', "in", "missing before"),
    ("mm", "mm", "missing before “mm”"),
    ("5 mm mm", "mm", "already has its unit"),
    ("(5 mm) mm", "mm", "already has its unit"),
    ("5 (3)", "mm", "A sign is missing before “(”"),
    ("(5) 3", "mm", "A sign is missing before “3”"),
    ('23" 5/8', "in", "A sign is missing before “5”"),
    ("5--3", "mm", "Two signs"),
    ("5+-3", "mm", "Two signs"),
    ("--5", "mm", "Two signs"),
    ("5' 3 mm", "in", "Inches follow feet"),
    ("5.5 3.2", "mm", "sign is missing"),
    ("23 5.5", "mm", "side by side"),
    ("1, 5", "mm", "missing after “1,”"),
    ("~33 15/16", "in", "“~” has no meaning"),
    ("=5", "mm", "“=” has no meaning"),
    ("5²", "mm", "“²” has no meaning"),
    ("٥", "mm", "has no meaning"),
    ("🙂", "mm", "“🙂” has no meaning"),
    ("5\x00", "mm", "cannot be seen"),
    ("__import__('os')", "mm", "“_” has no meaning"),
    ("2**9", "mm", "missing before “*”"),
]


@pytest.mark.parametrize(("text", "unit", "words"), REFUSED)
def test_what_is_no_length_is_refused_with_one_sentence(text: str, unit: Unit, words: str) -> None:
    understood = read(text, unit)
    assert (understood.text, understood.state) == (text, "refused")
    assert (understood.exact, understood.value, understood.doubt) == (None, None, None)
    assert understood.problem is not None
    assert words in understood.problem
    assert understood.problem.endswith(".")
    assert len(understood.problem) < 120


def test_a_pasted_page_is_refused_at_once() -> None:
    page = "The kitchen, as measured on Monday.\n" * 100_000
    assert read(page, "mm").problem == "Longer than 64 characters: type one length."
    assert typed(page, "mm") == Typed(page, None)


@pytest.mark.parametrize("text", ["", " ", "\t", "\n"])
def test_nothing_typed_is_empty_and_no_mistake(text: str) -> None:
    understood = read(text, "in")
    assert (understood.state, understood.value, understood.problem) == ("empty", None, None)


def test_the_longest_length_is_thirty_metres() -> None:
    assert read("30 m", "mm").value == LONGEST
    assert read("30 m", "in").value == LONGEST
    assert read("30 m + 0.01 mm", "mm").value is None


def test_an_entry_becomes_a_length_by_rounding_half_a_unit_up() -> None:
    assert read("1/160000", "mm").value == Length(1)
    assert read("-1/160000", "mm").value == Length(0)
    assert read("1/160001", "mm").value == Length(0)
    assert read("1/160001", "mm").exact == Fraction(80_000, 160_001)


def test_typed_text_is_kept_beside_its_value_readable_or_not() -> None:
    assert typed(" 23 5/8 ", "in") == Typed(" 23 5/8 ", Length.inch("189/8"))
    assert typed("23 5/", "in") == Typed("23 5/", None)


@pytest.mark.parametrize(
    ("length", "unit", "text"),
    [
        (Length.inch("189/8"), "in", "23 5/8"),
        (Length.inch("1/128"), "in", "1/128"),
        (Length.inch("0.02"), "in", "0.02"),
        (Length.mm(600), "in", "600 mm"),
        (Length.mm("6.2"), "in", "6.2 mm"),
        (Length.mm("594.5"), "mm", "594.5"),
        (Length.inch("1/16"), "mm", "1.5875"),
        (Length.inch("5/8"), "mm", "15.8750"),
        (Length.inch("-5/8"), "mm", "-15.8750"),
        (Length.mm("0.125"), "mm", "0.125"),
    ],
)
def test_a_length_set_by_the_program_is_written_as_a_person_would(length: Length, unit: Unit, text: str) -> None:
    assert typed_length(length, unit) == Typed(text, length)


def test_the_live_reading_of_the_survey_is_shown_in_both_units() -> None:
    understood = read("33 15/16", "in")
    assert understood.value is not None
    assert both_units(understood.value, IN_THIRTYSECONDS) == "33 15/16 in, 862.0 mm"


@pytest.mark.parametrize(("text", "unit"), [(text, unit) for text, unit, *_ in [*READ, *DOUBTFUL]])
def test_every_beginning_of_an_entry_of_the_table_is_a_value_or_unfinished(text: str, unit: Unit) -> None:
    for end in range(len(text)):
        assert read(text[:end], unit).state != "refused", text[:end]
