"""Stacked fractions and figures by their source, in the numbers of the look."""

from fractions import Fraction

import pytest
from frontwright.core.drawing.ink import Area, Circle, Glyphs
from frontwright.core.drawing.lettering import Laid, Lettering, Measure, layout_figure, layout_sourced, plain_number
from frontwright.core.drawing.marks import Ringed, words
from frontwright.core.figures import Figure, as_built, plus, total
from frontwright.core.lengths import IN_SIXTEENTHS, IN_THIRTYSECONDS, Length, shown

EM = 15.0
READ = Length.inch("23.625")


def texts(laid: Laid) -> list[str]:
    return [ink.text for ink in laid.inks if isinstance(ink, Glyphs)]


def glyph(laid: Laid, text: str) -> Glyphs:
    return next(ink for ink in laid.inks if isinstance(ink, Glyphs) and ink.text == text)


def stacked(measure: Measure, pixel: float = 1.0, em: float = EM) -> Laid:
    return layout_figure(shown(READ, IN_SIXTEENTHS), em, measure, pixel=pixel)


def test_the_bar_of_a_fraction_lies_0_364_em_above_the_baseline_and_is_one_pixel_thick(
    measure: Measure,
) -> None:
    bar = next(ink for ink in stacked(measure).inks if isinstance(ink, Area))
    heights = sorted({y for _, y in bar.spots})
    assert sum(heights) / 2 == pytest.approx(0.364 * EM)
    assert heights[1] - heights[0] == pytest.approx(1)


def test_figures_of_a_fraction_are_68_hundredths_of_the_size_and_clear_the_bar_by_1_8_pixels(measure: Measure) -> None:
    laid = stacked(measure)
    over, under = glyph(laid, "5"), glyph(laid, "8")
    assert over.em == under.em == pytest.approx(0.68 * EM)
    assert over.y - (0.364 * EM + 0.5) == pytest.approx(1.8)
    assert (0.364 * EM - 0.5) - (under.y + 0.729 * under.em) == pytest.approx(1.8)


def test_figures_of_a_fraction_are_never_under_8_and_a_half_pixels_on_a_screen(measure: Measure) -> None:
    assert glyph(stacked(measure, em=11), "5").em == 8.5


def test_on_paper_the_bar_is_55_thousandths_of_an_em(measure: Measure) -> None:
    bar = next(ink for ink in stacked(measure, pixel=0).inks if isinstance(ink, Area))
    heights = sorted({y for _, y in bar.spots})
    assert heights[1] - heights[0] == pytest.approx(0.055 * EM)


def test_the_axis_is_where_the_whole_ends_and_the_fraction_starts_a_tenth_of_an_em_after_it(measure: Measure) -> None:
    laid = stacked(measure)
    assert laid.axis == pytest.approx(measure("23", EM, False))
    bar = next(ink for ink in laid.inks if isinstance(ink, Area))
    assert min(x for x, _ in bar.spots) == pytest.approx(laid.axis + 0.1 * EM)


def test_a_fraction_under_one_has_its_axis_at_the_start(measure: Measure) -> None:
    laid = layout_figure(shown(Length.inch("5/8"), IN_SIXTEENTHS), EM, measure, pixel=1)
    assert (laid.axis, texts(laid)) == (0, ["5", "8"])


def test_what_is_finer_than_the_step_is_shown_with_its_sign_before_it(measure: Measure) -> None:
    laid = layout_figure(shown(Length.inch("1.01"), IN_THIRTYSECONDS), EM, measure, pixel=1)
    assert texts(laid)[0] == "~1"


def test_a_worked_out_figure_stands_bare_an_assumed_one_in_brackets_and_what_rests_on_it_too(measure: Measure) -> None:
    taped, guess = Figure("a", READ, "taped"), Figure("b", READ, "assumed")
    rests = total("c", plus(taped), plus(guess))
    plain = total("d", plus(taped), plus(taped))
    shows = [layout_sourced(f, IN_SIXTEENTHS, EM, measure, pixel=1) for f in (taped, plain, guess, rests)]
    bracketed = ["(" in texts(laid) and ")" in texts(laid) for laid in shows]
    assert bracketed == [False, False, True, True]
    assert {ink.tone for ink in shows[3].inks} == {"assumed"}


def test_a_size_as_built_has_is_before_it(measure: Measure) -> None:
    built = as_built("thickness", Length.inch("0.75"), Figure("planned", READ))
    laid = layout_sourced(built, IN_SIXTEENTHS, EM, measure, pixel=1)
    assert texts(laid)[0] == "is "
    assert {ink.tone for ink in laid.inks} == {"as_built"}


def test_the_reading_in_hand_has_a_filled_ring(measure: Measure) -> None:
    setting = Lettering(measure, IN_SIXTEENTHS, 1.0)
    rings = [ink for n in (False, True) for ink in setting.line((Ringed("8", n),), EM).inks if isinstance(ink, Circle)]
    assert [ring.fill for ring in rings] == ["", "blue"]


def test_a_text_in_a_text_keeps_its_own_weight(measure: Measure) -> None:
    line = Lettering(measure, IN_SIXTEENTHS, 1.0).line(("S1 ", words("600", bold=True)), EM)
    assert [ink.bold for ink in line.inks if isinstance(ink, Glyphs)] == [False, True]


@pytest.mark.parametrize(
    ("number", "text"), [(Fraction(3), "3"), (Fraction(5, 2), "2.5"), (Fraction(1, 3), "~0.33"), (Fraction(100), "100")]
)
def test_a_number_that_is_no_length_has_two_places_and_says_when_it_is_finer(number: Fraction, text: str) -> None:
    assert plain_number(number) == text
