"""A drawing on a ground: it fits, narrow gaps stay open, the selected is blue, paper has the scales of the trade."""

from dataclasses import replace

import pytest
from frontwright.core.drawing.door import door
from frontwright.core.drawing.elevation import elevation
from frontwright.core.drawing.ink import Area, Glyphs, Stroke, extent
from frontwright.core.drawing.lay import Laying, fit, lay, points_per_unit, scale_of
from frontwright.core.drawing.marks import Box, Dimension, Drawing, Outline
from frontwright.core.drawing.medium import Medium
from frontwright.core.drawing.survey_opening import opening_as_read
from frontwright.core.drawing.survey_run import survey_run
from frontwright.core.figures import Figure
from frontwright.core.lengths import IN_MM, ZERO, Length
from frontwright.core.plan import Plan


def shape(laying: Laying, subject: str) -> tuple[float, float, float, float]:
    spots = next(spots for name, spots in laying.shapes if name == subject)
    found = extent((Area(spots, ""),))
    assert found is not None
    return found


def texts(laying: Laying) -> list[str]:
    return [ink.text for ink in laying.inks if isinstance(ink, Glyphs)]


def mm(n: int) -> Length:
    return Length.mm(n)


def one_size(figure: Figure) -> Drawing:
    """A bar 100 mm long with its length above."""
    bar = Box(ZERO, ZERO, mm(100), mm(20))
    dimension = Dimension((ZERO, mm(20)), (mm(100), mm(20)), "above", figure)
    return Drawing("bar", "front", (Outline(bar.corners), dimension), bar, IN_MM)


@pytest.mark.parametrize(("width", "height"), [(1104, 268), (452, 552), (300, 160)])
def test_everything_of_a_drawing_stays_on_its_ground(
    laundry: Plan, kitchen: Plan, on_screen: Medium, width: float, height: float
) -> None:
    drawings = [survey_run(laundry, "R1"), elevation(kitchen, "K"), opening_as_read(laundry, "OB"), door(laundry, "DA")]
    for drawing in drawings:
        laying = fit(drawing, on_screen, width, height)
        around = [ink for ink in laying.inks if not isinstance(ink, Glyphs) or ink.text.strip()]
        left, bottom, right, top = extent(around) or (0, 0, 0, 0)
        assert (left > -6, bottom > -6, right < width + 6, top < height + 6) == (True, True, True, True), drawing.title


def test_no_gap_between_fronts_is_drawn_under_three_pixels(kitchen: Plan, on_screen: Medium) -> None:
    laying = fit(elevation(kitchen, "K"), on_screen, 300, 120)
    gap = kitchen.fronts.looks["7"].gap.length
    assert laying.view.length(gap) < 1
    left, right = shape(laying, "F7L"), shape(laying, "F7R")
    assert right[0] - left[2] >= 3
    upper, lower = shape(laying, "F6"), shape(laying, "F7L")
    assert upper[1] - lower[3] >= 3


def test_both_neighbours_of_a_narrow_gap_give_way(kitchen: Plan, on_screen: Medium) -> None:
    laying = fit(elevation(kitchen, "K"), on_screen, 1100, 270)
    plan = kitchen.fronts.fronts
    middle = laying.view.x((plan["F7L"].right.length + plan["F7R"].left.length) * 1) / 2
    gap = (shape(laying, "F7L")[2], shape(laying, "F7R")[0])
    meeting = (laying.view.x(plan["F7L"].right.length) + laying.view.x(plan["F7R"].left.length)) / 2
    assert middle > 0
    assert gap[0] <= meeting + 0.5 <= gap[1] + 1


def test_lines_inside_a_front_that_gave_way_move_with_it(kitchen: Plan, on_screen: Medium) -> None:
    laying = fit(elevation(kitchen, "K"), on_screen, 300, 120)
    left, bottom, right, top = shape(laying, "F7R")
    dashed = [ink for ink in laying.inks if isinstance(ink, Stroke) and ink.dash == (7.0, 4.0)]
    inside = [s for s in dashed if all(left - 0.01 <= x <= right + 0.01 for x, _ in s.spots)]
    assert {y for stroke in inside for _, y in stroke.spots} >= {bottom, top}


def test_the_selected_front_has_a_blue_outline_with_four_brackets(kitchen: Plan, on_screen: Medium) -> None:
    drawing = elevation(kitchen, "K")
    blue = [
        ink for ink in fit(drawing, on_screen, 1100, 270, "F7R").inks if isinstance(ink, Stroke) and ink.tone == "blue"
    ]
    assert sorted(ink.width for ink in blue) == [2, 2, 2, 2, 3]
    assert not [ink for ink in fit(drawing, on_screen, 1100, 270).inks if ink.tone == "blue"]


def test_an_assumed_size_has_a_dashed_line_and_brackets(on_screen: Medium) -> None:
    taped, guess = (Figure("length", mm(100), source) for source in ("taped", "assumed"))
    solid, dashed = (fit(one_size(figure), on_screen, 300, 200) for figure in (taped, guess))
    assert not [ink for ink in solid.inks if isinstance(ink, Stroke) and ink.dash]
    assert [ink.tone for ink in dashed.inks if isinstance(ink, Stroke) and ink.dash] == ["assumed"]
    assert texts(solid) == ["100"]
    assert texts(dashed) == ["(", "100", ")"]


def test_worked_out_sizes_end_in_strokes_and_taped_ones_in_arrowheads(on_screen: Medium) -> None:
    drawing = one_size(Figure("length", mm(100)))
    strokes = fit(drawing, on_screen, 300, 200)
    assert len([ink for ink in strokes.inks if isinstance(ink, Stroke) and ink.width == 1.5]) == 2
    arrows = replace(drawing, marks=(drawing.marks[0], replace(drawing.marks[1], ends="arrow")))  # type: ignore[arg-type]
    heads = [ink for ink in fit(arrows, on_screen, 300, 200).inks if isinstance(ink, Area) and len(ink.spots) == 3]
    assert len(heads) == 2


def test_a_drawing_on_paper_is_to_scale(on_bench: Medium) -> None:
    laying = lay(one_size(Figure("length", mm(100))), on_bench, points_per_unit(2), 20, 20)
    assert laying.view.length(mm(100)) == pytest.approx(50 * 72 / 25.4)


def test_the_largest_scale_of_the_trade_that_fits_is_taken(on_bench: Medium) -> None:
    drawing = one_size(Figure("length", mm(100)))
    scales = [scale_of(drawing, on_bench, width * 72 / 25.4, 200) for width in (110, 60, 30, 1)]
    assert scales == [1, 2, 5, None]


def test_there_is_no_wood_tone_on_paper(laundry: Plan, on_bench: Medium) -> None:
    laying = lay(door(laundry, "DA", "bench"), on_bench, points_per_unit(5), 0, 0)
    assert not [ink for ink in laying.inks if ink.tone in ("wood", "wood_grain", "wash", "blue")]


def test_what_lies_at_a_spot_is_the_smallest_thing_there(laundry: Plan, on_screen: Medium) -> None:
    laying = fit(door(laundry, "DA"), on_screen, 800, 600)
    rail = next(part.id for part in laundry.making.fronts["DA"].parts if part.kind == "top rail")
    left, bottom, right, top = shape(laying, rail)
    assert laying.subject_at((left + right) / 2, (bottom + top) / 2) == rail
    assert laying.subject_at(-5, -5) == ""


def test_a_drawing_laid_twice_is_the_same(kitchen: Plan, on_screen: Medium) -> None:
    first, second = (fit(elevation(kitchen, "K"), on_screen, 1100, 270) for _ in range(2))
    assert first.inks == second.inks
