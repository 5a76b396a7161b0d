"""A pressing rehearsed: glue, minutes, clamps, spacing, water, each by its formula's example (F62 to F66)."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from frontwright.core.job import Billet, Front, Glue, Opening, PanelBuild, Press, Pressing, amount
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import UNITS_IN
from frontwright.core.veneer.clock import clock, minute_of, moments, took
from frontwright.core.veneer.moisture import panel_wetter, shop_moisture, wetter
from frontwright.core.veneer.result import PressingPlan
from frontwright.core.wood import density
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


def pair_in_one(lie: str, **pressing: object) -> Made:
    return pair(**pressing).put(Pressing, "1", panels=(PANEL, "G-P"), lie=lie)


def test_a_stack_has_both_glue_lines_of_every_panel_and_the_pressure_of_its_largest() -> None:
    one, alone = plan(pair_in_one("stacked")), plan(panel())
    assert one.panels == (PANEL, "G-P")
    assert one.area == 2 * alone.area
    assert one.layup_minutes == 2 * alone.layup_minutes
    assert one.pressure == alone.pressure
    assert one.clamps_for_goal == alone.clamps_for_goal == 17
    assert one.middle is not None
    assert size(one.middle) == 175


def test_panels_in_a_row_share_the_force_of_the_clamps() -> None:
    one, alone = plan(pair_in_one("side by side")), plan(panel())
    assert one.area == 2 * alone.area
    assert one.pressure == alone.pressure / 2
    assert one.clamps_for_goal == 33  # 2 x 16.3 clamps
    assert [size(one.lying.length), size(one.lying.width)] == [1200, 350]


def test_a_row_that_is_too_long_for_the_bed_lies_sides_together() -> None:
    square = pair_in_one("side by side").put(Press, "clamps", bed_length="800", bed_width="750")
    one = plan(square)
    assert [size(one.lying.length), size(one.lying.width)] == [600, 700]
    assert one.over_bed == ()
    assert one.middle is not None
    assert size(one.middle) == 350
    narrow = plan(square.put(Press, "clamps", bed_width="599"))
    assert narrow.over_bed == (PANEL, "G-P")


def test_clamps_open_to_the_panels_and_twice_caul_and_platen() -> None:
    def opened(lie: str) -> object:
        return size(plan(pair_in_one(lie).put(Press, "clamps", caul="45", platen="18")).open_to)

    thick = size(panel().making().build.panel.pressed)
    assert opened("stacked") == 2 * thick + 126
    assert opened("side by side") == thick + 126


def test_clamps_that_do_not_open_far_enough_are_a_stop_with_the_row_as_way_out() -> None:
    made = pair_in_one("stacked").put(Press, "clamps", caul="45", platen="18", opening="140")
    (check,) = [c for c in made.checks("press-load") if c.case == "opening"]
    assert check.level == "stop"
    assert ("lie", "side by side") in [(way.field, way.value) for way in check.ways]
    wider = made.put(Press, "clamps", opening="150")
    assert [c.level for c in wider.checks("press-load") if c.case == "opening"] == ["ok"]


# a vacuum bag


def bag(**press: object) -> Made:
    return panel().put(Press, "bag", kind="vacuum bag", **press).put(Pressing, "1", press="bag")


def test_a_bag_gives_0_085_whatever_lies_in_it_and_has_no_clamps_throat_or_spacing() -> None:
    one = plan(bag(caul="45", platen="18", throat="100", opening="20"))
    assert (one.clamps, one.spacing, one.throat, one.opening) == (0, None, None, None)
    assert one.pressure == Fraction("0.085")
    assert one.pressure * one.lying.facing == 17_850  # N: 17.9 kN on 0.21 m2
    assert one.minutes == 3 + 2 + 3


def test_a_bag_never_gives_more_than_the_air_outside() -> None:
    assert plan(bag(bag_pressure="0.12")).pressure == Fraction("0.1013")


def test_a_bag_under_the_glues_floor_warns_and_under_what_any_bag_must_give_stops() -> None:
    assert [c.level for c in bag().checks("press-load")] == ["warn"]
    assert [c.level for c in bag(bag_pressure="0.06").checks("press-load")] == ["stop"]


def test_a_panel_larger_than_the_bag_is_a_stop() -> None:
    (check,) = [c for c in bag(bed_length="500", bed_width="500").checks("press-load") if c.case == "bed"]
    assert check.level == "stop"


# ways out, each tried


def ways(made: Made) -> dict[tuple[str, object], str]:
    return {(way.field, way.value): way.gives for way in made.found("press-time").ways}


def test_fewer_clamps_are_offered_as_many_as_there_is_time_for() -> None:
    assert ways(panel()) == {("clamps", "9"): "8 min", ("glue", None): "14 min to the last clamp"}
    assert panel(clamps=9).quiet("press-time")
    assert not panel(clamps=10).quiet("press-time")


def test_a_helper_is_offered_only_where_it_is_in_time_with_one() -> None:
    assert ("helper", "yes") not in ways(panel())  # 9.17 against 8
    assert ways(panel(clamps=12))["helper", "yes"] == "7.5 min"


def test_a_helper_is_not_offered_where_it_dries_all_the_same() -> None:
    short = panel(clamps=12).put(Glue, "glue", open_minutes="3")
    assert ("helper", "yes") not in ways(short)  # 1.5 and 2 are more than 3
    assert ways(short) == {("glue", None): "12 min to the last clamp, 5 min open"}


def test_a_slower_glue_and_a_bag_of_the_job_are_offered_where_they_are_in_time() -> None:
    slow = {**GLUE, "clamp_minutes": "20"}
    quick = {**GLUE, "clamp_minutes": "11"}
    made = panel().put(Glue, "slow", **slow).put(Glue, "quick", **quick).put(Press, "bag", kind="vacuum bag")
    found = ways(made)
    assert found["glue", "slow"] == "10.67 min"
    assert ("glue", "quick") not in found
    assert found["press", "bag"] == "8 min"


def test_halves_are_offered_where_each_is_in_time_and_with_a_helper_only_where_it_takes_both() -> None:
    six = pair_in_one("stacked", clamps=6)
    assert ways(six)["panels", None] == "7 min"
    twelve = pair_in_one("stacked", clamps=12)
    assert ways(twelve)["panels", "with a helper"] == "7.5 min"
    assert ("panels", None) not in ways(twelve)


def test_more_clamps_are_offered_only_where_there_are_so_many_and_time_to_set_them() -> None:
    def fields(made: Made) -> list[tuple[str, object]]:
        (check,) = [c for c in made.checks("press-load") if c.case == "pressure"]
        return [(way.field, way.value) for way in check.ways]

    slow = panel(clamps=8).put(Glue, "glue", clamp_minutes="20")
    assert fields(slow) == [("clamps", "17")]
    assert fields(slow.put(Press, "clamps", clamps=16)) == [("clamps", None)]
    assert fields(panel(clamps=8)) == [("clamps", None)]  # 17 clamps are late


# the core


def test_a_core_with_its_grain_along_the_leaves_is_a_stop_that_turning_it_clears() -> None:
    build = next(iter(panel().job.panel_builds))
    along = panel().put(PanelBuild, build, core_grain="along")
    (check,) = [c for c in along.checks("balance") if c.case == "core grain"]
    assert (check.level, check.ways[0].value) == ("stop", "across")
    for grain in ("across", "none"):
        assert not [c for c in panel().put(PanelBuild, build, core_grain=grain).checks("balance") if c.is_open]


# the clock


@pytest.mark.parametrize(
    ("text", "minute"),
    [("9:40", 580), ("9.40 am", 580), ("9:40 pm", 1300), ("12:05 am", 5), ("21h15", 1275), ("Tue 9:40, warm", 580)],
)
def test_a_time_is_read_as_people_write_it(text: str, minute: int) -> None:
    assert minute_of(text) == minute


@pytest.mark.parametrize("text", ["", "after lunch", "25:00", "9:75", "13:00 pm", "940"])
def test_what_is_no_time_of_day_is_none(text: str) -> None:
    assert minute_of(text) is None
    assert clock(text, Fraction(8), late=True) == ""


def test_the_latest_times_are_rounded_down_and_the_earliest_up() -> None:
    assert clock("9:40", Fraction("7.9"), late=True) == "9:47"
    assert clock("9:40", Fraction("7.9"), late=False) == "9:48"
    assert clock("23:55", Fraction(8), late=True) == "0:03 next day"


def test_the_last_leaf_lies_within_the_open_time_and_in_time_for_the_clamps() -> None:
    one = plan(panel(helper=True, clamps=8))
    opened, laid, tight, out, planed = moments(one)
    assert opened.planned == 0
    assert (laid.planned, laid.bound) == (Fraction("3.5"), 8 - Fraction(8, 3))
    assert [tight.planned, tight.bound] == [one.minutes, 8]
    assert out.bound == one.minutes + 60
    assert planed.bound == one.minutes + 24 * 60


def test_minutes_used_are_counted_from_bottle_to_last_clamp_past_midnight_too() -> None:
    assert took("9:40", "9:49") == 9
    assert took("23:58", "0:06") == 8
    assert took("9:40", "") is None


# the shop's air


def air(**heading: object) -> Made:
    made = panel()
    warm, wet = (amount(str(heading[name])) for name in ("shop_temperature", "shop_humidity"))
    return Made(made.job.put(replace(made.job.heading, shop_temperature=warm, shop_humidity=wet)))


def test_wood_comes_to_the_moisture_of_the_handbook_in_the_shops_air() -> None:
    shop = shop_moisture(JobIndex(air(shop_temperature=21, shop_humidity=50).job))
    assert shop is not None
    assert decimals(Fraction(shop.units), 1) == "9.2"
    assert shop_moisture(JobIndex(panel().job)) is None


@pytest.mark.parametrize(("shell", "level"), [("11.1", "ok"), ("11.4", "warn"), ("7", "warn"), ("7.3", "ok")])
def test_f61_a_billet_is_within_two_per_cent_of_the_shop(shell: str, level: str) -> None:
    made = air(shop_temperature=21, shop_humidity=50).put(Billet, "A", moisture_shell=shell)
    (check,) = [c for c in made.checks("moisture") if c.case == "shop"]
    assert check.level == level


def test_f66_the_leaves_of_a_panel_get_wetter_and_would_grow_across_its_whole_width() -> None:
    made = panel().plan.making.fronts["F"]
    found = panel_wetter(JobIndex(panel().job), made.panels[0], made.build.panel, Fraction(180))
    thick = Fraction(made.build.panel.glued.units) / UNITS_IN["mm"]
    assert found.per_cent == wetter(Fraction(180), thick, Fraction(density(JobIndex(panel().job), None).units))
    assert found.grows.units > 0


def test_a_panel_named_twice_is_pressed_once() -> None:
    assert plan(panel().put(Pressing, "1", panels=(PANEL, PANEL))).area == plan(panel()).area


def test_a_panel_in_no_pressing_is_pressed_by_itself_like_the_others() -> None:
    first, second = pair(helper=True).plan.veneer.pressings
    assert (first.panels, second.panels) == ((PANEL,), ("G-P",))
    assert second.helped
    assert second.minutes == first.minutes


def test_a_panel_that_is_not_there_is_not_pressed() -> None:
    assert plan(panel().put(Pressing, "1", panels=(PANEL, "lost"))).panels == (PANEL,)


@pytest.mark.parametrize("name", ["spread_rate", "weight", "clamp_minutes", "pressure_goal", "used_share"])
def test_a_glue_figure_of_nothing_counts_as_not_told(name: str) -> None:
    nothing, usual = plan(panel().put(Glue, "glue", **{name: "0"})), plan(panel())
    assert nothing.minutes == usual.minutes
    assert (nothing.limit, nothing.clamps_for_goal, nothing.glue_grams) == (
        usual.limit, usual.clamps_for_goal, usual.glue_grams,
    )  # fmt: skip


@pytest.mark.parametrize(("name", "minutes"), [("layup_minutes", 3 + Fraction(17, 3)), ("clamp_seconds", 5)])
def test_laying_up_and_closing_may_take_no_time(name: str, minutes: Fraction) -> None:
    assert plan(panel().put(Glue, "glue", **{name: "0"})).minutes == minutes


def test_one_face_at_a_time_is_one_glue_line() -> None:
    one, both = plan(panel(both_faces=False)), plan(panel())
    assert (one.area, one.glue_grams, one.spread_minutes) == (both.area / 2, both.glue_grams / 2, Fraction(3, 2))


@pytest.mark.parametrize("name", ["spread_rate", "layup_minutes", "clamp_seconds", "clamp_minutes", "used_share"])
def test_minutes_that_rest_on_a_figure_nobody_told_stop_nobody(name: str) -> None:
    assert panel().found("press-time").level == "stop"
    assert panel().put(Glue, "glue", **{name: None}).found("press-time").level == "note"


def test_an_open_time_that_nobody_told_stops_nobody() -> None:
    made = paneled(door("600", "1600")).put(Glue, "g", clamp_minutes="28.5", spread_rate="0.05", layup_minutes="2")
    check = made.put(Pressing, "X", panels=(PANEL,), glue="g").found("press-time")
    assert check.level == "note"


def test_a_pressure_under_a_floor_that_nobody_told_is_no_stop() -> None:
    assert panel(clamps=4).check("press-load").level == "stop"
    assert panel(clamps=4).put(Glue, "glue", pressure_floor=None).check("press-load").level == "warn"
    assert panel(clamps=4).put(Press, "clamps", force=None).check("press-load").level == "warn"


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
