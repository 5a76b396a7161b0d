"""The working of a figure: terms that add up to it, each by its name, sign and source, opened term by term."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.figures import Figure, as_built, least, minus, plus, rounded, share, total
from frontwright.core.lengths import IN_HALF_MM, Length, in_units
from frontwright.desk.contents import WorkingLine
from frontwright.desk.order import cells
from frontwright.desk.session import Session
from frontwright.desk.working import working

WIDTH = Figure("front width", Length.mm("396.5"), "taped")
STILE = Figure("stile width", Length.mm(70), "chosen")
GROOVE = Figure("groove depth", Length.mm(10), "assumed", "usual figure")
SIGHT = total("sight width", plus(WIDTH), minus(STILE, 2))
RAIL = total("top rail", plus(SIGHT), plus(GROOVE, 2))


def _shown(figure: Figure, *opened: str) -> list[tuple[int, str, str, str, str]]:
    return [(w.depth, w.sign, w.name, w.how, w.source) for w in working(figure, opened, IN_HALF_MM)]


def test_a_sum_is_told_term_by_term_and_its_result_stands_last() -> None:
    assert _shown(RAIL) == [
        (0, "", "sight width", "", "worked out"),
        (0, "+", "groove depth", "2 × 10", "assumed"),
        (0, "", "top rail", "", "rests on an assumed figure"),
    ]


def test_an_opened_term_shows_its_own_terms_one_column_further_left_and_its_sum_under_a_rule() -> None:
    lines = working(RAIL, ["0"], IN_HALF_MM)
    assert [(w.depth, w.sign, w.name, w.sum, w.open) for w in lines] == [
        (1, "", "front width", False, False),
        (1, "−", "stile width", False, False),
        (0, "", "sight width", True, True),
        (0, "+", "groove depth", False, False),
        (0, "", "top rail", True, False),
    ]
    assert lines[1].how == "2 × 70"
    assert lines[1].figure.length == Length.mm(140)


def test_the_lines_of_every_open_column_add_up_to_the_result() -> None:
    lines = working(RAIL, ["0"], IN_HALF_MM)
    inner = [w for w in lines if w.depth == 1]
    assert sum(_signed(w) for w in inner) == in_units(SIGHT.value)
    outer = [w for w in lines if w.depth == 0][:-1]
    assert sum(_signed(w) for w in outer) == in_units(RAIL.value)


def _signed(line: WorkingLine) -> Fraction:
    return Fraction(in_units(line.figure.value)) * (-1 if line.sign == "−" else 1)


def test_a_rounding_is_named_and_what_was_not_rounded_says_so() -> None:
    third = share("field", Figure("sight", Length.mm(500), "taped"), 3)
    edge = rounded("edge", third, Length.mm("0.5"), "0.5 mm")
    assert working(edge, (), IN_HALF_MM)[-1].rounding == "rounded to 0.5 mm, half up"
    assert working(RAIL, (), IN_HALF_MM)[-1].rounding == "not rounded"
    assert working(third, (), IN_HALF_MM)[0].how == "500 ÷ 3"


def test_a_figure_that_only_was_looked_at_says_that_another_governs() -> None:
    governed = least("least width", [WIDTH, STILE])
    assert [w.how for w in working(governed, (), IN_HALF_MM)][:2] == ["looked at; another governs", ""]


def test_a_size_as_built_shows_the_planned_one_beside_it() -> None:
    measured = as_built("top rail", Length.mm(276), RAIL)
    lines = working(measured, ["planned"], IN_HALF_MM)
    assert [w.name for w in lines] == ["sight width", "groove depth", "top rail", "top rail"]
    assert (lines[-1].source, lines[-1].figure.length) == ("is", Length.mm(276))


def test_every_figure_on_every_page_has_a_working_whose_last_line_is_itself(kitchen: Session) -> None:
    for chapter in ("survey", "fronts", "making", "bill"):
        page = kitchen.page(chapter)
        for cell in [c for c in cells(page) if c.figure is not None]:
            title, lines = kitchen.working(cell.key)
            assert title
            assert cell.figure is not None
            assert lines[-1].figure.value == cell.figure.value, cell.key


def test_terms_of_a_front_open_down_to_what_was_taped(kitchen: Session) -> None:
    kitchen.choose("making", "F7R")
    kitchen.page("making")
    place = "as_built/F7R-RT length/value"
    opened: set[str] = set()
    for _ in range(8):
        _, lines = kitchen.working(place, opened)
        opened |= {line.key for line in lines if line.opens}
    sources = {line.source for line in kitchen.working(place, opened)[1]}
    assert {"taped", "chosen", "worked out"} <= sources


def test_a_cell_without_a_figure_has_no_working(kitchen: Session) -> None:
    kitchen.page("brief")
    assert kitchen.working("headings/job/name")[1] == ()
    assert kitchen.working("nowhere") == ("", ())
