"""Words on paper: what can be printed, how lines are fitted and broken, how fractions stand."""

import pytest
from frontwright.core.figures import Figure, Term, as_built
from frontwright.core.lengths import IN_THIRTYSECONDS, Length, shown
from frontwright.core.lengths.display import IN_HALF_MM
from frontwright.sheets.fonts import MISSING, printable
from frontwright.sheets.words import exactly, figure, fit, text_of, width_of, with_plan, words, wrap

INCH = IN_THIRTYSECONDS
QUARTER = Figure("stile width", Length.inch("2.25"), "chosen")


@pytest.mark.parametrize(
    ("text", "on_paper"),
    [
        ("<b>Smith & Sons</b>", "<b>Smith & Sons</b>"),
        ("two\nlines\r\nand\ta tab", "two lines and a tab"),
        ("bell\x07 and null\x00", "bell and null "),
        ("\u200bno\u202ewidth", "nowidth"),
        ("漢", MISSING),
        ("\ud800", MISSING),
        ("½ × Ø é ß", "½ × Ø é ß"),
        ("", ""),
    ],
)
def test_what_a_job_says_becomes_one_line_that_the_faces_can_show(text: str, on_paper: str) -> None:
    assert printable(text) == on_paper


def test_a_line_that_fits_is_left_as_it_is() -> None:
    line = words("stile", size=10)
    assert fit(line, 40) == line


def test_a_line_a_little_too_long_is_set_condensed_before_it_is_clipped() -> None:
    line = words("bottom rail", size=10)
    fitted = fit(line, width_of(line) * 0.95)
    assert [(atom.text, atom.condensed) for atom in fitted] == [("bottom rail", True)]


@pytest.mark.parametrize("length", [80, 5000])
def test_a_line_much_too_long_ends_in_dots_inside_its_room(length: int) -> None:
    fitted = fit(words("W" * length, size=10), 30)
    assert width_of(fitted) <= 30
    assert str(fitted[-1].text).endswith("…")


def test_a_clipped_line_with_a_fraction_keeps_what_comes_before_it() -> None:
    fitted = fit(words("seam ", shown(Length.inch("100.125"), INCH), " found", size=20), 32)
    assert width_of(fitted) <= 32
    assert fitted[0].text == "seam "


def test_a_long_text_breaks_at_spaces_and_no_line_is_wider_than_its_room() -> None:
    rows = wrap(words("Closure of R1 answered: seam of ", shown(Length.inch("0.125"), INCH), " found.", size=10), 40)
    assert len(rows) > 1
    assert all(width_of(row) <= 40 for row in rows)
    assert "".join(str(atom.text) for row in rows for atom in row if atom.text != " ") == (
        "ClosureofR1answered:seamof1/8found."
    )


def test_a_word_wider_than_its_room_is_broken_and_no_letter_is_lost() -> None:
    rows = wrap(words("x" * 300, size=10), 25)
    assert all(width_of(row) <= 25 for row in rows)
    assert sum(len(str(atom.text)) for row in rows for atom in row) == 300


def test_an_assumed_figure_and_what_rests_on_it_stand_in_brackets() -> None:
    assumed = Figure("stile width", Length.inch("2.25"), "assumed")
    derived = Figure("rail", Length.inch("18.09375"), "derived", terms=(Term(assumed),))
    assert text_of(*figure(assumed, INCH)) == "(2 1/4)"
    assert text_of(*figure(derived, INCH)) == "(18 3/32)"
    assert text_of(*figure(QUARTER, INCH)) == "2 1/4"


def test_a_measured_size_has_is_before_it() -> None:
    assert text_of(*figure(Figure("rail", Length.inch("18"), "as-built"), INCH)) == "is 18"


def test_beside_a_measured_size_the_plan_is_struck_out_where_it_reads_otherwise() -> None:
    same, other = (as_built("rail", Length.inch(inches), QUARTER) for inches in ("2.25", "2.1875"))
    assert text_of(*with_plan(same, INCH)) == "is 2 1/4"
    assert text_of(*with_plan(QUARTER, INCH)) == "2 1/4"
    line = words(*with_plan(other, INCH), size=20, bold=True)
    assert [str(atom.text) for atom in line if atom.struck] == ["2 1/4"]
    assert {(atom.size, atom.bold) for atom in line if atom.struck} == {(13.0, False)}


@pytest.mark.parametrize(
    ("value", "rounded", "exact"), [("4.2", "~4", "4.2"), ("594.5", "594.5", "594.5"), ("0.125", "~0", "0.125")]
)
def test_a_sum_shows_each_term_to_its_last_digit_where_a_size_shows_it_to_the_step(
    value: str, rounded: str, exact: str
) -> None:
    of = Figure("reveal", Length.mm(value))
    assert text_of(*figure(of, IN_HALF_MM)) == rounded
    assert text_of(*exactly(of, IN_HALF_MM)) == exact


def test_a_negative_length_has_a_minus_sign_and_not_a_hyphen() -> None:
    assert text_of(*figure(Figure("cover", Length.mm(-2)), IN_HALF_MM)) == "−2"
