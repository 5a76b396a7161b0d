"""Rules of fronts and facing, each by the example that goes with its formula (F15 to F22, F41), and of the look."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from frontwright.core.findings import Check
from frontwright.core.job import (
    Column,
    End,
    Facing,
    Front,
    FrontRow,
    Heading,
    Job,
    Look,
    Member,
    Opening,
    Reading,
    ReadingWhat,
    Room,
    Row,
    Run,
)
from frontwright.core.lengths import MM, Exact, Length, Typed, in_units, typed
from frontwright.core.plan import Plan, derive


def mm(text: str) -> Typed:
    return typed(text, "mm")


def millimetres(value: Exact) -> Fraction:
    return Fraction(in_units(value)) / MM.units


def reading(of: str, what: ReadingWhat, at: str, text: str) -> Reading:
    return Reading(f"{of} {what} {at}", of, what, at, mm(text))


def opening(look: Look, *fronts: Front, width: str, height: str, by_itself: bool = True) -> Plan:
    """One opening by itself. `width`, `height`: three readings in words."""
    job = Job().put(
        Heading(unit="mm", step=mm("0.5")),
        Room("room"),
        Run("R", "room", by_itself=by_itself),
        Column("C", "R", 1),
        Opening("O", "C"),
        look,
        *fronts,
    )
    for at, text in zip(("top", "middle", "bottom"), width.split(), strict=False):
        job = job.put(reading("O", "width", at, text))
    for at, text in zip(("left", "middle", "right"), height.split(), strict=False):
        job = job.put(reading("O", "height", at, text))
    return derive(job)


def run(look: Look, edges: list[int], *more: Row) -> Plan:
    """A run by its tape edges in millimetres (stile, opening, stile ...), 700 high, a door in each opening."""
    job = Job().put(
        Heading(unit="mm", step=mm("0.5")),
        Room("room"),
        Run("R", "room"),
        look,
        reading("R", "overall", "", str(edges[-1])),
        reading("R", "height", "middle", "700"),
    )
    for n in range(0, len(edges), 2):
        stile = f"S{n // 2}"
        job = job.put(
            Member(stile, "R", "stile", n),
            reading(stile, "edge left", "", str(edges[n])),
            reading(stile, "edge right", "", str(edges[n + 1])),
        )
        if n + 2 < len(edges):
            job = job.put(Column(f"C{n // 2}", "R", n + 1), Opening(f"O{n // 2}", f"C{n // 2}"))
            job = job.put(Front(f"F{n // 2}", f"O{n // 2}", hinge_side="left"))
    return derive(job.put(*more))


def widths(plan: Plan) -> list[Fraction]:
    return [millimetres(front.width.value) for front in plan.fronts.fronts.values()]


def covers(plan: Plan, side: str) -> list[Fraction | None]:
    found = (front.overlay[side] for front in plan.fronts.fronts.values())
    return [None if figure is None else millimetres(figure.value) for figure in found]


def checks(plan: Plan, code: str) -> list[Check]:
    return [check for check in plan.checks if check.code == code]


FULL = Look("room:room", "full cover", gap=mm("6"), meeting_gap=mm("3"), reveal_left=mm("6"), reveal_right=mm("6"))
PAIR = (Front("L", "O", place=1, hinge_side="left"), Front("R", "O", place=2, hinge_side="right"))


# F15 to F17


def test_a_shared_stile_of_48_with_a_gap_of_6_is_covered_by_21_on_each_side() -> None:
    plan = run(FULL, [0, 48, 448, 496, 896, 944])
    assert covers(plan, "right")[0] == covers(plan, "left")[1] == 21


def test_gaps_are_held_and_covers_differ_where_stiles_do() -> None:
    plan = run(FULL, [0, 48, 448, 496, 896, 936, 1336, 1384])
    assert (covers(plan, "right")[0], covers(plan, "right")[1]) == (Fraction(21), Fraction(17))
    fronts = list(plan.fronts.fronts.values())
    gaps = {millimetres(b.left.value) - millimetres(a.right.value) for a, b in pairwise(fronts)}
    assert gaps == {6}


def test_a_pair_over_760_with_18_on_each_side_and_a_meeting_gap_of_3_is_396_5_each() -> None:
    look = Look("room:room", "partial cover", cover=mm("18"), meeting_gap=mm("3"))
    plan = opening(look, *PAIR, width="760", height="700")
    assert widths(plan) == [Fraction("396.5")] * 2
    assert millimetres(plan.fronts.fronts["L"].height.value) == 736


def test_an_inset_front_is_the_least_reading_less_its_gaps() -> None:
    look = Look("room:room", "inset", inset_side=mm("2"), inset_top=mm("2"), inset_bottom=mm("2.5"))
    plan = opening(look, Front("D", "O"), width="447 448 449.5", height="700 699 700")
    front = plan.fronts.fronts["D"]
    assert [millimetres(front.width.value), millimetres(front.height.value)] == [443, Fraction("694.5")]
    assert front.least_cover is None


def test_an_inset_pair_shares_what_is_left_after_its_meeting_gap() -> None:
    look = Look("room:room", "inset", inset_side=mm("2"), inset_meeting=mm("3"))
    assert widths(opening(look, *PAIR, width="447", height="700")) == [220, 220]


def test_cover_alone_makes_partial_cover_fronts() -> None:
    plan = run(Look("room:room", "partial cover", cover=mm("13")), [0, 48, 448, 496, 896, 944])
    assert widths(plan) == [426, 426]


# F18


def test_five_equal_fronts_over_2400_are_rounded_by_lines_and_close_to_the_last_step() -> None:
    look = Look("room:room", "full cover", gap=mm("3"), reveal_left=mm("2"), reveal_right=mm("2"), equal_fronts=True)
    edges = [0, 20, 470, 490, 950, 970, 1430, 1450, 1910, 1930, 2380, 2400]
    plan = run(look, edges)
    assert widths(plan) == [Fraction(text) for text in ("477", "476.5", "477", "476.5", "477")]
    (row,) = (each for each in plan.fronts.sums if each.direction == "row")
    assert millimetres(row.total.value) == millimetres(row.equals.value) == 2400


def test_fronts_held_by_a_pin_push_their_neighbour_and_the_sum_still_closes() -> None:
    held = Front("F0", "O0", hinge_side="left", pin_right=mm("480"))
    plan = run(FULL, [0, 48, 448, 496, 896, 944], held)
    assert millimetres(plan.fronts.fronts["F1"].left.value) == 486
    assert not [check for check in checks(plan, "row-sum") if check.is_open]


def test_two_pins_that_leave_another_gap_than_planned_are_a_stop() -> None:
    held = (Front("F0", "O0", pin_right=mm("480")), Front("F1", "O1", pin_left=mm("484")))
    stops = [check for check in checks(run(FULL, [0, 48, 448, 496, 896, 944], *held), "row-sum") if check.is_open]
    assert [check.level for check in stops] == ["stop"]


# F20


def test_least_cover_takes_off_half_the_lean_and_half_of_what_the_widest_reading_is_over() -> None:
    look = Look("room:room", "partial cover", cover=mm("10"))
    plan = opening(look, Front("D", "O"), width="401 400 400", height="600 600 600")
    leaning = plan.job.put(reading("O", "diagonal", "\\", "723.310"), reading("O", "diagonal", "/", "718.878"))
    lean = derive(leaning).survey.openings["O"].lean
    assert lean is not None
    assert abs(millimetres(lean.value) - 4) < Fraction("0.01")
    least = derive(leaning).fronts.fronts["D"].least_cover
    assert least is not None
    assert abs(millimetres(least.value) - Fraction("7.5")) < Fraction("0.01")


@pytest.mark.parametrize(("cover", "level"), [("8", "ok"), ("5", "warn"), ("2", "stop")])
def test_cover_under_6_is_warned_of_and_under_3_is_a_stop(cover: str, level: str) -> None:
    plan = opening(Look("room:room", "partial cover", cover=mm(cover)), Front("D", "O"), width="400", height="600")
    assert [check.level for check in checks(plan, "cover")] == [level]


def test_assumed_cover_never_stops_anybody() -> None:
    plan = opening(Look("room:room", "partial cover"), Front("D", "O"), width="400", height="600")
    assert not [check for check in plan.checks if check.level == "stop"]
    assert plan.fronts.fronts["D"].width.rests


# F22


@pytest.mark.parametrize(("kerf", "level"), [("3", "ok"), ("8", "warn")])
def test_a_saw_wider_than_the_gap_breaks_the_grain_that_runs_through(kerf: str, level: str) -> None:
    row = FrontRow("row", "row", ("F0", "F1"), grain_through=True, blank_end=mm("20"), kerf=mm(kerf))
    plan = run(FULL, [0, 48, 448, 496, 896, 944], row)
    (through,) = plan.fronts.rows
    assert millimetres(through.blank_length.value) == sum(widths(plan)) + 6 + 40
    assert millimetres(through.trim.value) == 6 - int(kerf)
    assert {check.level for check in checks(plan, "kerf-vs-reveal")} == {level}


# The look: inherited, excepted


def test_what_is_set_nearer_goes_before_what_is_set_further_out_and_is_marked() -> None:
    plan = run(FULL, [0, 48, 448, 496, 896, 944], Look("run:R", gap=mm("4")), Look("opening:O1", scheme="inset"))
    looks = plan.fronts.looks
    assert [millimetres(looks[name].gap.value) for name in ("O0", "O1")] == [4, 4]
    assert (looks["O0"].scheme, looks["O1"].scheme) == ("full cover", "inset")
    assert looks["O1"].exceptions == ("scheme", "gap")
    assert looks["O0"].exceptions == ("gap",)


def test_a_wall_that_leans_in_takes_off_the_reveal() -> None:
    wall = End("E", "R", "left", "wall", leans=mm("1.5"))
    look = replace(FULL, reveal_left=mm("4"))
    (check,) = checks(run(look, [0, 48, 448, 496, 896, 944], wall), "wall-clearance")
    assert check.value == Length.mm("2.5")


def test_an_open_opening_has_no_front() -> None:
    plan = run(FULL, [0, 48, 448, 496, 896, 944], Front("F1", "O1", "open"))
    assert list(plan.making.fronts) == ["F0"]


# F41


def test_the_outer_stile_strip_covers_the_edge_of_the_skin() -> None:
    skin = End("E", "R", "right", "open", depth_seen=mm("580"), skin="bought", skin_thickness=mm("6"))
    plan = run(FULL, [0, 48, 448, 490], skin, Facing("R", faces=True, thickness=mm("2")))
    strips = {strip.on: millimetres(strip.width.value) for strip in plan.facing.strips}
    assert {on: strips[on] for on in ("S0", "S1")} == {"S0": 48, "S1": 48}


def test_skins_are_glued_first_then_stile_strips_then_rail_strips() -> None:
    skin = End("E", "R", "right", "open", depth_seen=mm("580"), skin="sawn")
    rails = (
        Member("top rail", "R", "top rail"),
        Member("bottom rail", "R", "bottom rail"),
        reading("top rail", "across", "", "40"),
        reading("bottom rail", "across", "", "40"),
    )
    plan = run(FULL, [0, 48, 448, 490], skin, *rails, Facing("R", faces=True))
    order = [(strip.order, strip.on) for strip in plan.facing.strips]
    assert sorted(order)[0] == (1, "right end")
    assert {number for number, on in order if on in ("S0", "S1")} == {2}
    assert {number for number, on in order if "rail" in on} == {3}
