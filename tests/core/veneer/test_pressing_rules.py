"""A pressing rehearsed: glue, minutes, clamps, spacing, water, each by its formula's example (F62 to F66)."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from frontwright.core.job import Front, Glue, Opening, Press, Pressing
from frontwright.core.veneer.pressing import wetter
from frontwright.core.veneer.result import PressingPlan
from job_builder import Made, door, near, paneled, size

GLUE = {
    "open_minutes": "10",
    "clamp_minutes": "10",
    "used_share": "0.8",
    "spread_rate": "0.14",
    "weight": "180",
    "layup_minutes": "2",
    "clamp_seconds": "20",
    "pressure_floor": "0.1",
    "pressure_goal": "0.35",
}
PANEL = "F-P"

GLUE_FIGURES = (
    *("open_minutes", "clamp_minutes", "used_share", "spread_rate", "weight", "layup_minutes", "clamp_seconds"),
    *("pressure_floor", "pressure_goal"),
)


def panel(**pressing: object) -> Made:
    """A door whose panel's core is 350 by 600 when rough: 0.21 m2."""
    made = paneled(
        door(width="448", height="698", stile="64", top_rail="64", bottom_rail="64", kind="cope and stick"),
        core_is="4.8",
    )
    made = made.put(Glue, "glue", **GLUE).put(Press, "clamps", force="4.5", clamps=17)
    return made.put(Pressing, "1", panels=(PANEL,), glue="glue", press="clamps", **pressing)


def plan(made: Made) -> PressingPlan:
    (found,) = made.plan.veneer.pressings
    return found


def decimals(number: Fraction, places: int = 2) -> str:
    return f"{float(number):.{places}f}"


def test_the_panel_of_these_tests_is_350_by_600_when_rough() -> None:
    one = panel().making().panels[0]
    assert one.core_along is not None
    assert one.core_across is not None
    assert [size(one.core_across), size(one.core_along)] == [350, 600]


def test_f62_two_lines_of_glue_on_the_panel() -> None:
    one = plan(panel())
    assert one.area == Fraction("0.42")
    assert decimals(one.glue_grams, 0) == "76"


def test_f63_alone_with_17_clamps_is_too_slow_and_a_helper_halves_the_spreading() -> None:
    one = plan(panel())
    assert one.minutes == one.alone == 3 + 2 + Fraction(17, 3)  # 10.67
    assert one.with_helper == Fraction(3, 2) + 2 + Fraction(17, 3)
    assert one.limit == 8
    assert panel().found("press-time").value == "10.67"


def test_f63_with_a_helper_and_half_the_clamps_it_is_accepted() -> None:
    assert panel(helper=True, clamps=8).quiet("press-time")
    assert not panel(clamps=17).quiet("press-time")


def test_f63_both_ways_are_told_and_only_the_chosen_one_counts() -> None:
    alone, helped = panel(helper=True).checks("press-time")
    assert (alone.state, helped.state) == ("compared", "open")
    alone, helped = panel().checks("press-time")
    assert (alone.state, helped.state) == ("open", "compared")


def test_f63_spreading_and_laying_alone_stay_within_the_open_time() -> None:
    short = panel(clamps=1).put(Glue, "glue", open_minutes="4")
    check = short.found("press-time")
    assert (check.case, check.level, check.limit) == ("open", "stop", "4")
    assert check.value == "5"
    assert panel(clamps=1).put(Glue, "glue", open_minutes="6").quiet("press-time")


def test_f64_a_goal_of_0_35_takes_17_clamps_of_4_5_kn() -> None:
    one = plan(panel(clamps=0).put(Press, "clamps", clamps=None))
    assert (one.clamps_for_goal, one.clamps_for_floor) == (17, 5)
    assert one.clamps == 17  # nobody said how many: as many as the goal takes


@pytest.mark.parametrize(("clamps", "level"), [(17, "ok"), (16, "warn"), (5, "warn"), (4, "stop")])
def test_f64_under_the_goal_it_warns_and_under_the_floor_it_stops(clamps: int, level: str) -> None:
    check = panel(clamps=clamps).check("press-load")
    assert check.level == level
    assert check.value == decimals(Fraction(clamps * 4500, 350 * 600))


def test_f65_clamps_are_no_further_apart_than_twice_caul_and_platen() -> None:
    spacing = plan(panel().put(Press, "clamps", caul="45", platen="18")).spacing
    assert spacing is not None
    assert size(spacing) == 126
    assert plan(panel()).spacing is None


def test_f65_a_throat_that_does_not_reach_the_middle_is_a_note() -> None:
    short = panel().put(Press, "clamps", throat="170")
    (check,) = [c for c in short.checks("press-load") if c.case == "throat"]
    assert (check.level, near(check.value, 0), near(check.limit, 0)) == ("note", "175", "170")
    (check,) = [c for c in panel().put(Press, "clamps", throat="175").checks("press-load") if c.case == "throat"]
    assert check.level == "ok"


def test_f65_a_panel_larger_than_the_bed_is_a_stop_whichever_way_it_lies() -> None:
    def bed(length: str, width: str) -> str:
        made = panel().put(Press, "clamps", bed_length=length, bed_width=width)
        (check,) = [c for c in made.checks("press-load") if c.case == "bed"]
        return check.level

    assert (bed("600", "350"), bed("350", "600"), bed("599", "400")) == ("ok", "ok", "stop")


def test_f66_half_of_the_glue_is_water_and_makes_a_leaf_5_per_cent_wetter() -> None:
    one = plan(panel())
    assert one.water_grams == one.glue_grams / 2
    assert decimals(wetter(Fraction(180), Fraction("2.6"), Fraction(650)), 1) == "5.3"
    assert wetter(Fraction(180), Fraction(0), Fraction(650)) == 0


# what is pressed together


def pair(**pressing: object) -> Made:
    made = panel(**pressing).put(Opening, "B", column="C", place=2)
    for what, value in (("width", "428"), ("height", "678")):
        made = made.read("B", what, value, "middle")
    return made.put(Front, "G", opening="B", kind="door", place=1, hinge_side="left")


def test_panels_in_one_pressing_add_their_areas() -> None:
    both = pair().put(Pressing, "1", panels=(PANEL, "G-P"))
    one = plan(both)
    assert one.panels == (PANEL, "G-P")
    assert one.area == 2 * plan(panel()).area
    assert one.clamps_for_goal == 33  # 2 x 16.3 clamps


def test_a_panel_named_twice_is_pressed_once() -> None:
    assert plan(panel().put(Pressing, "1", panels=(PANEL, PANEL))).area == plan(panel()).area


def test_a_panel_in_no_pressing_is_pressed_by_itself_like_the_others() -> None:
    first, second = pair(helper=True).plan.veneer.pressings
    assert (first.panels, second.panels) == ((PANEL,), ("G-P",))
    assert second.helped
    assert second.minutes == first.minutes


def test_a_panel_that_is_not_there_is_not_pressed() -> None:
    assert plan(panel().put(Pressing, "1", panels=(PANEL, "lost"))).panels == (PANEL,)


@pytest.mark.parametrize(
    "name", ["spread_rate", "weight", "clamp_seconds", "clamp_minutes", "pressure_goal", "used_share"]
)
def test_a_glue_figure_of_nothing_counts_as_not_told(name: str) -> None:
    assert replace(plan(panel().put(Glue, "glue", **{name: "0"})), middle=None) == replace(plan(panel()), middle=None)


def test_a_force_of_nothing_counts_as_the_usual_clamp() -> None:
    assert plan(panel().put(Press, "clamps", force="0")).pressure == plan(panel()).pressure


def test_with_the_usual_figures_alone_nothing_is_a_stop() -> None:
    made = paneled(door(width="448", height="1400", kind="cope and stick"), core_is="4.8")
    assert {c.level for c in made.plan.checks if c.code in ("press-time", "press-load") and c.is_open} == {"note"}


def test_a_glue_known_by_its_name_alone_stops_nobody() -> None:
    made = panel(clamps=17).put(Glue, "glue", name="Wood glue", **dict.fromkeys(GLUE_FIGURES))
    assert made.found("press-time").level == "note"


def test_an_inch_job_counts_square_feet_pounds_and_psi() -> None:
    made = paneled(door(unit="in", width="21 1/2", height="28", kind="cope and stick"), core_is="3/16")
    made = made.put(Press, "clamps", force="1000", clamps=8).put(Pressing, "1", panels=(PANEL,), press="clamps")
    one = plan(made)
    core = made.making().panels[0]
    assert core.core_along is not None
    assert core.core_across is not None
    face = size(core.core_along, "in") * size(core.core_across, "in")
    assert one.area == 2 * face / 144
    assert one.pressure == 8000 / face
    assert one.spread_minutes == one.area / Fraction("1.5")
    assert one.glue_grams == one.area * Fraction("0.09290304") * 180
