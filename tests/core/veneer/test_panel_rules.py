"""Panels from leaf to rabbet and backwards, what is learned, each by its formula's example (F37 to F39, F68, F76)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from frontwright.core.job import AsBuilt, Billet, Leaf, Learned, PlanePass, PressedPanel
from frontwright.core.lengths import Length, Unit, typed
from frontwright.core.making.result import Chain
from frontwright.core.veneer.learning import is_outlier, learned
from frontwright.core.veneer.result import PanelMade
from job_builder import Made, door, mm, near, paneled

PANEL = "F-P"


def made_of(slice_: str = "3.2", kind: str = "dowelled", **build: object) -> Made:
    """The door of the trade's example: core 4.8, glue face 0.3, show face 0.6."""
    leaves = {"core_is": "4.8", "slice": slice_, "glue_loss": "0.3", "show_loss": "0.6"}
    return paneled(door(kind=kind, stile="64"), **{**leaves, **build})  # type: ignore[arg-type]


def pressed(made: Made, *corners: str) -> Made:
    return made.put(PressedPanel, PANEL, **{f"corner_{n}": corner for n, corner in enumerate(corners, 1)})


def planed(made: Made, *passes: tuple[str, str]) -> Made:
    for number, (face, thickness) in enumerate(passes, 1):
        made = made.put(PlanePass, f"{PANEL} {number}", panel=PANEL, number=number, face=face, thickness=thickness)
    return made


def panel(made: Made) -> PanelMade:
    return made.plan.veneer.panels[PANEL]


def chain(made: Made) -> Chain:
    found = made.making().chain
    assert found is not None
    return found


# F37, F38


def test_f37_the_chain_runs_from_slice_to_lip() -> None:
    one = chain(made_of())
    assert [near(f, 1) for f in (one.slice, one.glued, one.pressed, one.veneer_left, one.panel)] == [
        "3.2",
        "2.9",
        "10.6",
        "2.3",
        "9.4",
    ]
    assert one.rabbet_depth is not None
    assert one.lip is not None
    assert (near(one.rabbet_depth, 1), near(one.lip, 1)) == ("9.4", "10.6")


def test_f38_a_panel_pressed_to_12_4_says_that_its_leaves_were_4_1() -> None:
    fat = panel(pressed(made_of(), "12.4", "12.3", "12.5", "12.4"))
    assert fat.pressed is not None
    assert fat.leaves_were is not None
    assert fat.correction is not None
    assert (near(fat.pressed, 1), near(fat.leaves_were, 1), near(fat.correction, 1)) == ("12.4", "4.1", "0.9")
    assert (near(fat.now, 1), near(fat.to_plane, 1), near(fat.show_left, 1)) == ("12.4", "3.0", "3.8")


def test_f38_a_panel_that_nobody_measured_is_as_planned() -> None:
    plain = panel(made_of())
    assert (plain.pressed, plain.leaves_were, plain.correction, plain.passes) == (None, None, None, 0)
    assert (near(plain.now, 1), near(plain.to_plane, 1), plain.next_face) == ("10.6", "1.2", "show")


def test_f38_a_panel_pressed_thick_says_what_comes_off_and_what_the_fence_learns() -> None:
    check = pressed(made_of(), "12.4", "12.3", "12.5", "12.4").found("veneer-left", PANEL)
    assert (check.case, check.level, near(check.value, 1), near(check.limit, 1)) == (
        "pressed thick",
        "warn",
        "12.4",
        "10.6",
    )
    told = ("over", "were", "slice", "fence", "off show", "off back")
    assert [near(check.facts[name], 1) for name in told] == ["1.8", "4.1", "3.2", "0.9", "1.5", "1.5"]
    assert [(way.field, near(way.value, 1)) for way in check.ways] == [("pass", "3.0"), ("thickness", "11.2")]


def test_f38_as_pressed_or_planed_to_plan_or_measured_nothing_is_said() -> None:
    thick = pressed(made_of(), "12.4")
    assert pressed(made_of(), "10.7").quiet("veneer-left")
    assert planed(thick, ("show", "10.9"), ("back", "9.4")).quiet("veneer-left")
    assert thick.put(AsBuilt, "x", of=PANEL, what="thickness", value="11.2").quiet("veneer-left")


# F39


def test_f39_each_pass_takes_from_its_own_face() -> None:
    made = planed(made_of(), ("show", "10.2"), ("back", "9.9"), ("show", "9.4"))
    one = panel(made)
    assert (near(one.show_left, 1), near(one.back_left, 1), near(one.now, 1)) == ("2.0", "2.6", "9.4")
    assert (one.passes, one.next_face, near(one.to_plane, 1)) == (3, "back", "0.0")


def test_f39_a_pass_that_nobody_measured_takes_nothing_that_could_be_counted() -> None:
    made = planed(made_of(), ("show", "10.2")).put(PlanePass, "x", panel=PANEL, number=2, face="back")
    one = panel(made)
    assert (near(one.show_left, 1), near(one.back_left, 1), near(one.now, 1), one.next_face) == (
        "2.5",
        "2.9",
        "10.2",
        "show",
    )


@pytest.mark.parametrize(
    ("thickness", "left", "level"),
    [("6.4", "0.8", "ok"), ("6.2", "0.7", "warn"), ("5.8", "0.5", "warn"), ("5.6", "0.4", "stop")],
)
def test_f39_under_0_8_it_warns_and_under_0_5_it_stops(thickness: str, left: str, level: str) -> None:
    half = f"({thickness} + 10.6) / 2"
    check = planed(made_of(), ("show", half), ("back", thickness)).check("veneer-left", PANEL)
    assert (near(check.value, 1), check.level) == (left, level)


def test_f39_faces_within_a_fifth_of_the_thicker_one_are_in_balance() -> None:
    alike = planed(made_of(), ("show", "9.95"), ("back", "9.4"))  # 2.25 and 2.35
    assert alike.check("balance").level == "ok"
    unlike = planed(made_of(), ("show", "9.4"))  # 1.7 and 2.9
    check = unlike.found("balance")
    assert (near(check.value, 2), near(check.limit, 2), check.level) == ("1.20", "0.58", "stop")


def test_f39_half_way_through_planing_the_other_face_still_has_its_turn() -> None:
    made = planed(made_of(), ("show", "9.9"))  # 2.2 and 2.9, and half a millimetre still to come off
    assert made.quiet("balance")


def test_f39_leaves_that_were_unlike_stay_unlike_in_the_panel() -> None:
    made = made_of().put(Billet, "P", length="800", width="150", thickness="60", match="random")
    for number in range(1, 7):
        thick = "3.2" if number <= 3 else "2.4"
        made = made.put(
            Leaf,
            f"P{number}",
            billet="P",
            number=number,
            thick_1=thick,
            front="F",
            side="show" if number <= 3 else "back",
        )
    made = pressed(made, "9.8")  # 4.8 + 2.9 + 2.1
    one = panel(made)
    assert (near(one.show_left, 1), near(one.back_left, 1)) == ("2.9", "2.1")
    even = planed(made, ("show", "9.4"))
    assert even.quiet("balance")
    assert not planed(made, ("back", "9.4")).quiet("balance")


# F68


def test_f68_the_rabbet_is_cut_to_the_panel_that_exists() -> None:
    made = made_of().put(AsBuilt, "x", of=PANEL, what="thickness", value="9.1")
    depth, lip = chain(made).rabbet_depth, chain(made).lip
    assert depth is not None
    assert lip is not None
    assert (near(depth, 1), near(lip, 1)) == ("9.1", "10.9")


def test_f68_the_rabbet_follows_a_panel_that_was_planed_too_far() -> None:
    depth = chain(planed(made_of(), ("show", "10.0"), ("back", "9.2"))).rabbet_depth
    assert depth is not None
    assert near(depth, 1) == "9.2"
    assert panel(planed(made_of(), ("show", "10.0"), ("back", "9.2"))).to_plane.units == 0


def test_f68_a_panel_still_to_be_planed_keeps_the_rabbet_to_plan() -> None:
    depth = chain(planed(pressed(made_of(), "12.4"), ("show", "11.0"))).rabbet_depth
    assert depth is not None
    assert near(depth, 1) == "9.4"


def test_f68_a_groove_is_a_tenth_wider_than_the_panel_that_exists() -> None:
    made = planed(made_of(kind="cope and stick"), ("show", "9.2"))
    groove = made.making().groove_width
    assert groove is not None
    assert near(groove, 1) == "9.3"


def test_f68_a_panel_measured_thinner_than_its_passes_lost_half_on_each_face() -> None:
    one = panel(made_of().put(AsBuilt, "x", of=PANEL, what="thickness", value="6.0"))
    assert (near(one.show_left, 1), near(one.back_left, 1), near(one.now, 1)) == ("0.6", "0.6", "6.0")
    check = made_of().put(AsBuilt, "x", of=PANEL, what="thickness", value="6.0").found("veneer-left", PANEL)
    assert check.level == "warn"


# F76


def known(value: str, count: int, spread: str = "0.1", unit: Unit = "mm") -> Learned:
    return Learned("x", "loss", "band saw", "oak", typed(value, unit), count, typed(spread, unit), "before")


def value(figure: Learned) -> Length:
    assert figure.value is not None
    assert figure.value.value is not None
    return figure.value.value


def test_f76_the_fifth_job_moves_a_learned_figure_by_a_fifth() -> None:
    new = learned(known("2.5", 4), mm("3.2"), "this", "mm")
    assert (value(new), new.count, new.last_job) == (mm("2.64"), 5, "this")
    assert new.value is not None
    assert new.value.text == "2.64"


def test_f76_never_more_than_five_jobs_are_counted() -> None:
    assert value(learned(known("2.5", 40), mm("3.2"), "this", "mm")) == mm("2.64")


def test_f76_the_first_job_is_taken_as_it_is() -> None:
    new = learned(Learned("x", "loss"), mm("3.2"), "this", "mm")
    assert (value(new), new.count) == (mm("3.2"), 1)
    assert value(learned(replace(known("2.5", 0), count=0), mm("3.2"), "this", "mm")) == mm("3.2")


def test_f76_the_second_job_is_worth_half() -> None:
    assert value(learned(known("2.5", 1, "0"), mm("3.2"), "this", "mm")) == mm("2.85")


def test_f76_spread_follows_the_distance_in_the_same_way() -> None:
    spread = learned(known("2.5", 4, "0.2"), mm("3.2"), "this", "mm").spread
    assert spread is not None
    assert spread.value == mm("0.3")  # 0.2 + (0.7 - 0.2) / 5


def test_f76_a_figure_over_three_spreads_away_is_an_outlier() -> None:
    assert is_outlier(known("2.5", 4, "0.2"), mm("3.11"))
    assert not is_outlier(known("2.5", 4, "0.2"), mm("3.1"))
    assert is_outlier(known("2.5", 4, "0.2"), mm("1.89"))


def test_f76_after_one_job_nothing_is_an_outlier_yet() -> None:
    assert not is_outlier(known("2.5", 1, "0"), mm("9"))
