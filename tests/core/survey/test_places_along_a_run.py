"""Where things lie along a run and up a column, whatever of it was read; readings that are missing or no size."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.figures import Figure
from frontwright.core.job import End, Member, Run
from frontwright.core.survey.straight import over_height, scribe
from job_builder import Made, inch, job, mm, near, opening, size


def taken(value: str) -> Figure:
    return Figure("read", mm(value), "taped")


def test_a_diagonal_that_closes_no_figure_foretells_nothing() -> None:
    seen = opening(widths="400", heights="600", diagonals="1100, 719").seen()
    assert seen.impossible
    assert seen.second_predicted is None


def test_what_was_not_read_is_assumed_as_what_was_and_says_so() -> None:
    seen = opening(widths=", 612, ", heights="700, , ").seen()
    assert [w.value for w in seen.widths] == [mm("612")] * 3
    assert [w.source for w in seen.widths] == ["assumed", "taped", "assumed"]
    assert [h.value for h in seen.heights] == [mm("700")] * 3
    assert seen.lean is None
    assert seen.readings_taken == 2


def test_a_reading_taken_again_counts_and_a_struck_one_does_not() -> None:
    made = opening(widths="612", heights="700").read("A", "width", "613", "middle")
    assert made.seen().width_middle.value == mm("613")
    assert made.read("A", "width", "999", "middle", struck=True).seen().width_middle.value == mm("613")


def test_an_assumed_reading_stays_assumed() -> None:
    made = opening(heights="700").read("A", "width", "612", "middle", status="assumed")
    assert made.seen().width_middle.rests
    assert made.seen().width_middle.value == mm("612")


def test_a_level_is_carried_over_the_height() -> None:
    """F9: 3 on a 600 level are 4.5 over 900"""
    assert size(over_height("lean", taken("3"), taken("600"), taken("900"))) == Fraction("4.5")


def test_a_scribe_is_the_difference_of_the_gaps_and_room_to_plane() -> None:
    """F10: gaps 2, 7, 4 need 8"""
    assert scribe([taken("2"), taken("7"), taken("4")], taken("3")).value == mm(8)


def test_an_end_with_two_gaps_gets_its_scribe_and_a_leaning_wall_its_lean() -> None:
    """F9, F10 on a run"""
    made = two_columns().read("K", "height", "900", "middle")
    made = made.put(
        End,
        "left",
        run="K",
        side="left",
        kind="wall",
        gap_top="2",
        gap_middle="7",
        gap_bottom="4",
        leans="3",
        leans_over="600",
    )
    (run,) = made.plan.survey.runs
    assert run.scribes["left"].value == mm(8)
    assert size(run.wall_leans["left"]) == Fraction("4.5")


def test_the_slope_of_a_run_is_counted_over_its_length() -> None:
    """F9"""
    (run,) = two_columns().put(Run, "K", slope_shows="2", slope_over="600").plan.survey.runs
    assert size(run.slope) == Fraction(2 * 1062, 600)


def two_columns() -> Made:
    return job().run("K", S0="40", C1="541", S1="39", C2="401", S2="41").opening("A", "C1").opening("B", "C2")


def edges(made: Made) -> list[str]:
    (run,) = made.plan.survey.runs
    return [f"{near(m.left, 1)} {near(m.right, 1)}" for m in run.members]


def test_single_readings_are_added_from_the_datum() -> None:
    assert edges(two_columns()) == ["0.0 40.0", "581.0 620.0", "1021.0 1062.0"]


def test_the_running_tape_goes_before_single_readings() -> None:
    """F5: single readings add up their errors, running positions do not"""
    made = (
        two_columns().read("S1", "edge left", "582").read("S1", "edge right", "621.5").read("S2", "edge right", "1064")
    )
    assert edges(made) == ["0.0 40.0", "582.0 621.5", "1022.5 1064.0"]
    assert made.seen("A").width.value == mm(542)


def test_tape_edges_that_are_missing_are_bridged_by_single_readings() -> None:
    made = two_columns().read("S1", "edge left", "582")
    assert edges(made) == ["0.0 40.0", "582.0 621.0", "1022.0 1063.0"]


def test_the_one_size_not_read_is_what_is_left_before_the_next_taped_edge() -> None:
    made = job().run("K", S0="40", C1=None, S1="39").opening("A", "C1").read("S1", "edge right", "620")
    assert made.seen().width.value == mm(541)
    assert not made.seen().width.rests


def test_the_one_size_not_read_is_what_is_left_of_the_overall() -> None:
    made = job().run("K", S0="40", C1="541", S1=None, C2="401", S2="41").opening("A", "C1").opening("B", "C2")
    assert edges(made.read("K", "overall", "1064")) == ["0.0 40.0", "581.0 622.0", "1023.0 1064.0"]


def test_an_overall_moves_nothing_where_all_was_read() -> None:
    assert edges(two_columns().read("K", "overall", "1070")) == edges(two_columns())


def test_running_tape_at_two_heights_gives_the_middle_of_both() -> None:
    made = two_columns()
    for at, left, right in (("top", "580", "619"), ("bottom", "584", "623")):
        made = made.read("S1", "edge left", left, at).read("S1", "edge right", right, at)
    assert edges(made)[1] == "582.0 621.0"


def test_boxes_apart_by_the_tape_keep_each_its_own_width() -> None:
    made = job().run("K", S0="40", C1="541", S1=None, S2=None, C2="401", S3="40").opening("A", "C1").opening("B", "C2")
    made = made.read("S1", "edge left", "581").read("S1", "edge right", "621")
    made = made.read("S2", "edge left", "624").read("S2", "edge right", "664")
    assert edges(made) == ["0.0 40.0", "581.0 621.0", "624.0 664.0", "1065.0 1105.0"]


def test_a_run_without_rails_stands_on_assumed_ones() -> None:
    made = job().run("K", S0="40", C1="541", S1="39").opening("A", "C1", heights="600")
    (run,) = made.plan.survey.runs
    assert [(rail.member.kind, rail.across.value, rail.across.rests) for rail in run.rails] == [
        ("bottom rail", mm(40), True),
        ("top rail", mm(40), True),
    ]
    assert made.seen().bottom is not None
    assert run.height is not None
    assert (run.height.value, run.height.rests) == (mm(680), True)


def test_openings_of_a_column_lie_from_the_top_with_their_mid_rails_between() -> None:
    made = job().run("K", S0="40", C1="541", S1="39").rails()
    made = made.opening("A", "C1", 1, heights="120").opening("B", "C1", 2, heights="490")
    made = made.put(Member, "M", run="K", kind="mid rail", column="C1", place=1).read("M", "across", "30")
    a, b = made.seen("A"), made.seen("B")
    assert [size(f) for f in (b.bottom, b.top, a.bottom, a.top)] == [40, 530, 560, 680]


def test_a_tall_opening_stands_beside_a_stack_of_the_same_run() -> None:
    made = job().run("K", S0="40", C1="541", S1="39", C2="248", S2="42").rails().read("K", "height", "720", "middle")
    made = (
        made.opening("A", "C1", 1, heights="120").opening("B", "C1", 2, heights="490").opening("T", "C2", heights="640")
    )
    made = (
        made.put(Member, "M", run="K", kind="mid rail", column="C1", place=1)
        .read("M", "edge low", "530")
        .read("M", "edge high", "560")
    )
    assert [size(f) for f in (made.seen("T").bottom, made.seen("T").top)] == [40, 680]
    assert size(made.seen("A").bottom) == 560


def test_an_inch_job_assumes_inch_figures() -> None:
    made = job("in").run("K", S0=None, C1=None, S1=None).opening("A", "C1")
    assert made.seen().width.value == inch(18)
    (run,) = made.plan.survey.runs
    assert run.members[0].across.value == inch("3/2")


def test_what_is_no_size_counts_for_nothing() -> None:
    made = opening(widths="-400", heights="0")
    assert made.seen().width_middle.value == mm(450)
    assert made.seen().height_middle.value == mm(600)
    assert {c.case for c in made.checks("unread")} == {"no size"}


def test_an_opening_not_read_takes_what_the_rails_leave_and_not_the_rail_a_size_below_nothing() -> None:
    """height 800, rails 40 each, opening A 560: the opening under it gets 800 − 80 − 560 − the assumed mid rail"""
    made = job().run("K", S0="40", C1="541", S1="39").read("K", "height", "800", "middle")
    made = made.rails().opening("A", "C1", place=1).opening("B", "C1", place=2).read("A", "height", "560", "middle")
    rail = next(r for r in made.plan.survey.runs[0].rails if "mid" in r.member.kind)
    assert rail.across.value == mm("40")
    assert made.seen("B").height_middle.value == mm("120")
    assert made.seen("B").height_middle.rests


def test_openings_not_read_share_the_height_evenly() -> None:
    """height 800 less four rails of 40 is 640; no opening read of three, the last takes what rounding leaves"""
    made = job().run("K", S0="40", C1="541", S1="39").read("K", "height", "800", "middle")
    for number, one in enumerate("ABCD", 1):
        made = made.opening(one, "C1", place=number)
    heights = [made.seen(one).height_middle for one in "ABCD"]
    assert [h.value for h in heights] == [mm("150")] * 4
    assert all(h.rests for h in heights)


def test_a_column_that_does_not_close_asks_for_the_height_and_not_the_overall() -> None:
    """height 800, rails 40 each, opening 700: 20 over"""
    made = job().run("K", S0="40", C1="541", S1="39").rails().opening("A", "C1", heights="700, 700, 700")
    check = made.read("K", "height", "800", "middle").found("closure", "A")
    assert check.case == "upright"
    assert [(way.kind, way.of, way.field) for way in check.ways] == [("read again", "K", "height")]
