"""The costly mistakes of shop-made veneer: each is found, and work without it is left in peace (13, 14, 15, 17)."""

from __future__ import annotations

import pytest
from frontwright.core.findings import Check
from frontwright.core.job import Billet, Glue, Leaf, Machine, PlanePass, Press, Pressing
from job_builder import Made, door, near, paneled

PANEL = "F-P"


def sound(letters: str = "PQ") -> Made:
    """A door whose 12 leaves come from two billets, glued up by two people with enough clamps."""
    made = paneled(
        door(width="448", height="698", stile="64", top_rail="64", bottom_rail="64", kind="cope and stick"),
        core_is="4.8",
        slice="3.2",
        glue_loss="0.3",
        show_loss="0.6",
    )
    made = made.put(Machine, "band saw", chosen=True, kerf="1.2", wander="0.6", rejoint="0.7", keep_back="6")
    made = made.put(
        Machine,
        "table saw",
        kind="table saw",
        kerf="3.2",
        wander="0.8",
        rejoint="0.7",
        keep_back="12",
        blade_height="79",
        overlap="12",
    )
    for place, letter in enumerate(letters):
        made = made.put(Billet, letter, place=place, length="750", width="150", thickness="44", match="slip")
    made = made.put(
        Glue,
        "glue",
        open_minutes="20",
        clamp_minutes="20",
        used_share="0.8",
        spread_rate="0.14",
        layup_minutes="2",
        clamp_seconds="20",
        pressure_floor="0.1",
        pressure_goal="0.35",
    )
    made = made.put(Press, "clamps", force="4.5", clamps=17)
    return made.put(Pressing, "1", panels=(PANEL,), glue="glue", press="clamps", helper=True)


def heavy(made: Made, *lefts: str, billet: str = "P") -> Made:
    for number, left in enumerate(lefts, 1):
        made = made.put(Leaf, f"{billet}{number}", billet=billet, number=number, left=left, thick_1="3.1")
    return made


def planed(made: Made, *passes: tuple[str, str]) -> Made:
    for number, (face, thickness) in enumerate(passes, 1):
        made = made.put(PlanePass, str(number), panel=PANEL, number=number, face=face, thickness=thickness)
    return made


def said(made: Made, code: str) -> list[tuple[str, str]]:
    return [(c.case, c.level) for c in made.plan.checks if c.code == code and c.is_open and c.level != "note"]


def test_sound_work_is_left_in_peace() -> None:
    assert [c for c in sound().plan.checks if c.is_open and c.code in CODES and c.level != "note"] == []


CODES = ("resaw-yield", "balance", "veneer-left", "press-time", "press-load", "moisture")


# 13: one leaf short, the blade changed half way, the loss guessed


def test_mistake_13_a_billet_too_few_is_a_stop_before_the_first_cut() -> None:
    check = sound("P").put(Billet, "P", thickness="30").found("resaw-yield", "band saw")
    assert (check.case, check.level, check.value, check.limit) == ("machine", "stop", 4, 6)
    assert check.facts["short"] == 2


def test_mistake_13_enough_only_with_the_keep_back_is_a_warning() -> None:
    check = sound("P").put(Billet, "P", thickness="39").found("resaw-yield", "band saw")
    assert (check.level, check.value, check.facts["rests"]) == ("warn", 5, 6)


def test_mistake_13_the_other_saw_is_compared_and_stops_nothing() -> None:
    (other,) = sound("P").put(Billet, "P", thickness="40").checks("resaw-yield", "table saw")
    assert (other.level, other.state, other.value, other.limit) == ("stop", "compared", 3, 6)


def test_mistake_13_billets_that_nobody_entered_warn_at_most() -> None:
    made = sound("").put(Machine, "band saw", keep_back="43")
    assert made.found("resaw-yield", "band saw").level == "warn"


def test_mistake_13_billets_whose_thickness_nobody_read_warn_at_most() -> None:
    made = sound("P").put(Billet, "P", thickness=None, slice="16")
    found = {c.case: c.level for c in made.checks("resaw-yield") if c.is_open and c.level != "note"}
    assert found["machine"] == "warn"
    read = made.put(Billet, "P", thickness="44")
    assert {c.case: c.level for c in read.checks("resaw-yield") if c.is_open}["machine"] == "stop"
    thick = made.put(Billet, "P", slice="60")
    assert next(c for c in thick.checks("resaw-yield", "P") if c.case == "too thick").level == "warn"


def test_mistake_13_a_saw_of_which_nothing_was_told_warns_at_most() -> None:
    made = sound("P").put(Billet, "P", thickness="14")
    assert next(c for c in made.checks("resaw-yield", "band saw") if c.case == "machine").level == "stop"
    bare = made.put(Machine, "band saw", kerf=None, wander=None, rejoint=None, keep_back=None)
    assert next(c for c in bare.checks("resaw-yield", "band saw") if c.case == "machine").level == "warn"


def test_mistake_13_after_three_heavy_slices_the_leaf_at_risk_is_named_with_three_ways_out() -> None:
    check = heavy(sound(), "37.7", "31.4", "25.1").found("resaw-yield", "P")
    assert (check.case, check.level, check.facts["leaf"]) == ("at risk", "warn", "P6")
    assert [(way.kind, way.of, way.field) for way in check.ways] == [
        ("change", "P4", "machine"),
        ("change", "P", "slice_now"),
        ("change", "P", "keep_now"),
        ("enter", "P", "billet"),
    ]
    assert near(check.ways[1].value, 1) == "2.9"


def test_mistake_13_slices_as_planned_are_left_in_peace() -> None:
    made = sound()
    for number, left in enumerate(("38.3", "32.6", "26.9"), 1):
        made = made.put(Leaf, f"P{number}", billet="P", number=number, left=left, thick_1="3.2")
    assert made.quiet("resaw-yield")


def test_mistake_13_a_lost_leaf_that_nothing_waits_for_is_a_warning_and_else_a_stop() -> None:
    lost = ("37.7", "31.4", "25.1", "18.3")
    assert said(heavy(sound(), *lost), "resaw-yield") == [("lost", "warn")]
    assert ("lost", "stop") in said(heavy(sound("P"), *lost), "resaw-yield")


def test_mistake_13_a_blade_changed_half_way_is_said_before_it_cuts() -> None:
    made = sound("P")
    for number, left in enumerate(("38.3", "32.6"), 1):
        made = made.put(Leaf, f"P{number}", billet="P", number=number, left=left, thick_1="3.2")
    changed = made.put(Leaf, "P3", billet="P", number=3, machine="table saw")
    check = next(c for c in changed.checks("resaw-yield", "P") if c.case == "lost")
    assert (check.level, check.value, check.limit) == ("stop", 4, 6)
    assert ("too tall", "stop") in said(changed, "resaw-yield")  # what is left of it goes through the table saw now
    assert near(check.facts["loss"], 1) == "4.7"


def test_mistake_13_a_leaf_thicker_than_its_billet_is_a_stop() -> None:
    check = next(c for c in sound().put(Billet, "P", thickness="3").checks("resaw-yield", "P") if c.case == "too thick")
    assert (check.level, near(check.value, 1), near(check.limit, 1)) == ("stop", "3.2", "3.0")


def test_mistake_13_leaves_thicker_than_what_went_from_the_billet_are_asked_about() -> None:
    check = next(c for c in heavy(sound(), "42").checks("resaw-yield") if c.case == "no loss")
    assert (check.level, check.where) == ("warn", ("P1",))


# what the saw takes, and the wood itself


def test_a_billet_wider_than_the_saw_takes_is_a_stop() -> None:
    wide = sound().put(Billet, "P", machine="table saw", width="147")
    check = next(c for c in wide.checks("resaw-yield", "P") if c.case == "too tall" and c.is_open)
    assert (check.level, near(check.value, 0), near(check.limit, 0)) == ("stop", "147", "146")
    fits = sound().put(Billet, "P", machine="table saw", width="146")
    assert ("too tall", "stop") not in said(fits, "resaw-yield")


def test_a_band_saws_own_height_counts_where_it_was_told() -> None:
    assert ("too tall", "stop") in said(sound().put(Machine, "band saw", most_height="149"), "resaw-yield")
    assert said(sound().put(Machine, "band saw", most_height="150"), "resaw-yield") == []


def test_a_belly_is_told_and_warned_of_where_the_veneer_cannot_spare_it() -> None:
    def belly(degrees: str) -> Check:
        made = sound().put(Machine, "table saw", out_of_square=degrees).put(Billet, "P", machine="table saw")
        return next(c for c in made.checks("resaw-yield", "P") if c.case == "belly")

    assert (belly("0.25").level, near(belly("0.25").value)) == ("note", "0.34")
    assert (belly("1.1").level, near(belly("1.1").limit)) == ("warn", "1.50")  # 3.2 - 0.3 - 0.6 - 0.8
    assert belly("0").level == "ok"


@pytest.mark.parametrize(("shell", "core", "level"), [("8", "10", "ok"), ("8", "10.1", "warn"), ("12", "8", "warn")])
def test_shell_and_core_more_than_2_per_cent_apart_are_a_warning(shell: str, core: str, level: str) -> None:
    check = sound().put(Billet, "P", moisture_shell=shell, moisture_core=core).check("moisture", "P")
    assert (check.level, check.limit) == (level, "2")


def test_moisture_that_was_half_read_says_nothing() -> None:
    assert sound().put(Billet, "P", moisture_shell="8").checks("moisture") == []


def test_too_few_spares_are_a_note() -> None:
    check = next(c for c in sound("P").checks("resaw-yield") if c.case == "spares")
    assert (check.level, check.value, check.limit) == ("ok", 1, 1)
    bare = sound("P").put(Machine, "band saw", keep_back="4").put(Billet, "P", thickness="38.3")
    check = next(c for c in bare.checks("resaw-yield") if c.case == "spares")  # the rest of 4.1 is no leaf
    assert (check.level, check.value, check.limit) == ("note", 0, 1)


def test_an_over_size_that_costs_a_leaf_a_face_is_a_note() -> None:
    wide = sound().put(Billet, "P", width="150")
    panel = wide.making().panels[0]
    assert panel.leaves_across == 3
    made = paneled(door(width="396", height="698", stile="64", kind="cope and stick"), core_is="4.8")
    check = next(c for c in made.checks("resaw-yield") if c.case == "narrower")  # 298 of two leaves, 292
    assert (check.level, near(check.value, 0), near(check.limit, 0)) == ("note", "298", "292")
    assert near(check.facts["over size"], 0) == "3"
    wider = paneled(door(width="397", height="698", stile="64", kind="cope and stick"), core_is="4.8")
    assert "narrower" not in {c.case for c in wider.checks("resaw-yield")}


# 14: one face first, unlike faces


def test_mistake_14_one_face_at_a_time_is_a_stop() -> None:
    check = sound().put(Pressing, "1", both_faces=False).found("balance")
    assert (check.case, check.level, check.where) == ("one face", "stop", ("F",))
    assert [(way.of, way.field) for way in check.ways] == [("1", "both_faces")]


def test_mistake_14_faces_planed_unlike_are_a_stop_and_alike_are_left_in_peace() -> None:
    assert planed(sound(), ("show", "9.4")).found("balance").case == "unlike"
    assert planed(sound(), ("show", "10.0"), ("back", "9.4")).quiet("balance")


# 15: planed through


def test_mistake_15_veneer_is_watched_after_every_pass() -> None:
    assert planed(sound(), ("show", "10.0"), ("back", "9.4")).quiet("veneer-left")
    thin = planed(sound(), ("show", "8.4"), ("back", "6.3"))
    check = next(c for c in thin.checks("veneer-left") if c.is_open and c.case == "planed")
    assert (check.level, near(check.value, 1), check.facts["face"]) == ("warn", "0.7", "show")
    gone = planed(sound(), ("show", "8.1"))
    assert next(c for c in gone.checks("veneer-left") if c.case == "planed").level == "stop"


# 17: the glue sets first, too few clamps


def test_mistake_17_alone_with_quick_glue_is_refused_and_with_a_helper_accepted() -> None:
    quick = sound().put(Glue, "glue", clamp_minutes="12.5", open_minutes="12.5")  # 10 minutes to the last clamp
    alone = quick.put(Pressing, "1", helper=False).found("press-time")
    assert (alone.level, alone.value, alone.limit) == ("stop", "10.67", "10")
    assert next((way.of, way.field) for way in alone.ways) == ("1", "helper")
    assert quick.quiet("press-time")


def test_mistake_17_too_few_clamps_are_a_stop() -> None:
    assert said(sound().put(Pressing, "1", clamps=4), "press-load") == [("pressure", "stop")]
    assert said(sound().put(Pressing, "1", clamps=5), "press-load") == [("pressure", "warn")]
    assert sound().quiet("press-load")
