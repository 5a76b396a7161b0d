"""Rules of the survey, each by the example that the trade's own page of formulas gives for it (F2 to F10)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.findings import Check
from frontwright.core.job import (
    Column,
    End,
    Heading,
    Job,
    Member,
    Opening,
    Reading,
    ReadingWhat,
    Room,
    Row,
    Run,
)
from frontwright.core.lengths import MM, Exact, Length, in_units, typed
from frontwright.core.plan import Plan, derive
from frontwright.core.survey.result import Closure, OpeningPlan
from frontwright.core.survey.straight import bow_at, bow_radius


def millimetres(value: Exact | None) -> Fraction:
    assert value is not None
    return Fraction(in_units(value)) / MM.units


def near(value: Exact | None, expected: str, slack: str = "0.05") -> bool:
    return abs(millimetres(value) - Fraction(expected)) <= Fraction(slack)


def reading(of: str, what: ReadingWhat, at: str, text: str) -> Reading:
    return Reading(f"{of} {what} {at}", of, what, at, typed(text, "mm"))


def one_opening(widths: str, heights: str, diagonals: str = "", *more: Row) -> Plan:
    """An opening by itself; readings in words, top to bottom, left to right, a dash where one was not taken."""
    places = {"width": ("top", "middle", "bottom"), "height": ("left", "middle", "right"), "diagonal": ("\\", "/")}
    job = Job().put(
        Heading(unit="mm"),
        Room("room"),
        Run("R", "room", by_itself=True),
        Column("C", "R", 1),
        Opening("O", "C"),
        *more,
    )
    whats: tuple[ReadingWhat, ...] = ("width", "height", "diagonal")
    for what, texts in zip(whats, (widths, heights, diagonals), strict=True):
        for at, text in zip(places[what], texts.split(), strict=False):
            if text != "-":
                job = job.put(reading("O", what, at, text))
    return derive(job)


def opening(plan: Plan) -> OpeningPlan:
    return plan.survey.openings["O"]


def found(plan: Plan, code: str) -> list[Check]:
    return [check for check in plan.checks if check.code == code and check.is_open]


# F2


def test_least_most_and_middle_are_of_three_readings() -> None:
    o = opening(one_opening("612 611 613.5", "600 600 600"))
    assert [millimetres(f.value) for f in (o.width_least, o.width_middle, o.width_most)] == [
        611,
        611,
        Fraction("613.5"),
    ]


@pytest.mark.parametrize(("scheme", "level"), [("inset", "warn"), ("partial cover", "ok")])
def test_a_spread_of_2_5_is_too_much_for_inset_work_and_not_for_cover(scheme: str, level: str) -> None:
    from frontwright.core.job import Look

    look = Look("room:room", "inset" if scheme == "inset" else "partial cover")
    plan = one_opening("612 611 613.5", "600 600 600", "", look)
    (spread,) = (check for check in plan.checks if check.code == "spread")
    assert (spread.value, spread.level) == (Length.mm("2.5"), level)


def test_readings_that_were_not_taken_are_assumed_as_the_first_and_noted() -> None:
    plan = one_opening("- 612 -", "600")
    o = opening(plan)
    assert [f.source for f in o.widths] == ["assumed", "taped", "assumed"]
    assert {millimetres(f.value) for f in o.widths} == {612}
    assert o.lean is None
    (note,) = found(plan, "readings")
    assert (note.level, note.value, note.limit) == ("note", 2, 8)


def test_a_reading_that_is_struck_out_does_not_count() -> None:
    struck = Reading("old", "O", "width", "middle", typed("700", "mm"), struck=True)
    assert millimetres(opening(one_opening("- 612 -", "600", "", struck)).width.value) == 612


# F3


def test_unequal_diagonals_of_equal_sides_lean() -> None:
    lean = opening(one_opening("400 400 400", "600 600 600", "722 719")).lean
    assert lean is not None
    assert millimetres(lean.value) == Fraction("2.701875")


def test_unequal_heights_take_part_in_the_lean() -> None:
    lean = opening(one_opening("400 400 400", "602 601 600", "722 719")).lean
    assert lean is not None
    assert millimetres(lean.value) == Fraction("1.199375")


def test_equal_diagonals_prove_no_square_opening_where_heights_differ() -> None:
    lean = opening(one_opening("400 400 400", "604 602 600", "721 721")).lean
    assert lean is not None
    assert millimetres(lean.value) != 0


def test_the_lean_has_an_error_of_its_own() -> None:
    assert near(opening(one_opening("400 400 400", "602 601 600", "722 719")).lean_error, "0.8")


# F4


def test_four_sides_and_a_diagonal_foretell_the_other() -> None:
    o = opening(one_opening("402 401 400", "600 600 600", "722 726"))
    assert near(o.second_predicted, "721.3")
    assert near(o.second_residual, "4.7")


@pytest.mark.parametrize(("second", "levels"), [("726", ["warn"]), ("720.5", [])])
def test_a_diagonal_off_by_more_than_four_reading_errors_is_a_bad_reading(second: str, levels: list[str]) -> None:
    plan = one_opening("402 401 400", "600 600 600", f"722 {second}")
    assert [check.level for check in found(plan, "racking") if check.limit == 2 * MM.units] == levels


# F5, F6


def members(*sizes: str, overall: str, read_twice: str = "") -> Plan:
    """Stiles and columns in turn, taken singly at mid height, against an overall."""
    job = Job().put(Heading(unit="mm"), Room("room"), Run("R", "room"), reading("R", "overall", "mid", overall))
    for n, size in enumerate(sizes):
        if n % 2:
            job = job.put(Column(f"C{n}", "R", n), Opening(f"O{n}", f"C{n}"), reading(f"C{n}", "across", "mid", size))
        else:
            job = job.put(Member(f"M{n}", "R", "stile", n), reading(f"M{n}", "across", "mid", size))
    return derive(job)


def closure(plan: Plan) -> Closure:
    (only,) = plan.survey.runs[0].closures
    return only


def test_members_that_miss_the_overall_by_3_of_7_readings_are_a_stop() -> None:
    plan = members("40", "650", "40", "650", "40", "78", overall="1501")
    assert [millimetres(closure(plan).sum.value), millimetres(closure(plan).error.value)] == [1498, 3]
    assert closure(plan).readings == 7
    assert near(closure(plan).limit, "1.323", "0.001")
    (stop,) = found(plan, "closure")
    assert (stop.level, stop.where) == ("stop", ("R",))


def test_an_error_within_its_limit_holds() -> None:
    assert not found(members("40", "650", "40", "650", "40", "78", overall="1499"), "closure")


def test_the_slip_recogniser_names_the_reading_with_two_digits_swapped() -> None:
    plan = members("40", "361", "40", "500", "40", overall="936")
    assert ("C1", Length.mm(316)) in [(each.reading.of, each.meant) for each in closure(plan).suspects]


def test_the_slip_recogniser_names_a_reading_a_round_step_off_another_of_the_same_thing() -> None:
    plan = members("40", "300", "40", "510", "40", overall="1030")
    assert closure(plan).suspects == ()
    plan = derive(plan.job.put(reading("O1", "width", "top", "400")))
    assert ("C1", Length.mm(400)) in [(each.reading.of, each.meant) for each in closure(plan).suspects]


def test_nobody_is_named_where_no_slip_explains_the_error() -> None:
    assert closure(members("40", "300", "40", "500", "40", overall="923.5")).suspects == ()


def test_positions_come_from_the_running_tape_and_single_readings_only_check_it() -> None:
    job = members("40", "300", "40", overall="380").job
    for name, left, right in (("M0", "0", "40"), ("M2", "342", "380")):
        job = job.put(reading(name, "edge left", "", left), reading(name, "edge right", "", right))
    column = derive(job).survey.openings["O1"]
    assert column.left is not None
    assert column.right is not None
    assert [millimetres(column.left.value), millimetres(column.right.value)] == [40, 342]


# F7 to F10


def test_a_bow_of_1_5_over_900_leaves_0_6_at_100_from_the_end() -> None:
    assert near(bow_at(Length.mm("1.5"), Length.mm(900), Length.mm(100)), "0.6", "0.01")


def test_a_bow_has_its_radius() -> None:
    assert millimetres(bow_radius(Length.mm("1.5"), Length.mm(900))) == 67_500


@pytest.mark.parametrize(("bow", "levels"), [("2.5", ["warn"]), ("1", [])])
def test_a_bow_too_proud_for_fronts_to_sit_is_warned_of(bow: str, levels: list[str]) -> None:
    job = members("40", "300", "40", overall="380").job
    proud = Member("M0", "R", "stile", 0, bow=typed(bow, "mm"), bow_over=typed("700", "mm"))
    assert [check.level for check in found(derive(job.put(proud)), "bow")] == levels


def test_strings_2_apart_put_the_fourth_corner_out_by_4() -> None:
    plan = one_opening("400 400 400", "600 600 600", "721 721", reading("O", "wind gap", "", "2"))
    (wind,) = found(plan, "wind")
    assert wind.value == Length.mm(4)


def test_a_wall_that_shows_3_on_600_leans_4_5_over_900() -> None:
    job = members("40", "300", "40", overall="380").job.put(
        End("E", "R", "left", "wall", leans=typed("3", "mm"), leans_over=typed("600", "mm")),
        reading("R", "height", "middle", "900"),
    )
    assert millimetres(derive(job).survey.runs[0].wall_leans["left"].value) == Fraction("4.5")


def test_a_scribe_is_the_largest_gap_less_the_least_and_3() -> None:
    top, middle, bottom = (typed(text, "mm") for text in ("2", "7", "4"))
    end = End("E", "R", "left", "wall", gap_top=top, gap_middle=middle, gap_bottom=bottom)
    plan = derive(members("40", "300", "40", overall="380").job.put(end))
    assert millimetres(plan.survey.runs[0].scribes["left"].value) == 8
