"""Lines to level to, the order of hanging, work in its order, packing and story sticks."""

from __future__ import annotations

from itertools import pairwise

from frontwright.core.job import Column, Facing, Finish, Member, Run
from frontwright.core.plan import sited
from frontwright.core.site.result import SitePlan
from job_builder import Made, job, near


def run(**slope: str) -> Made:
    """Two columns, a drawer over a door in each; the frame is 1000 long and 720 high."""
    made = job().run("K", S0="40", C1="440", S1="40", C2="440", S2="40").rails()
    made = made.read("K", "height", "720", "middle").put(Run, "K", **slope)
    for column, low, high in (("C1", "B", "A"), ("C2", "D", "C")):
        made = made.opening(high, column, 1, heights="140").opening(low, column, 2, heights="460")
    for opening, kind in (("A", "drawer"), ("B", "door"), ("C", "drawer"), ("D", "door")):
        made = made.fronts(f"F{opening}", opening=opening, kind=kind, hinge_side="left" if kind == "door" else None)
    return made.look(scheme="full cover", gap="4", cover="18")


def planned(made: Made) -> SitePlan:
    return sited(made.plan)


def test_the_first_line_is_that_of_the_doors_and_drawers_come_after_all_doors() -> None:
    found = planned(run())
    assert found.lines[0].fronts == ("FB", "FD")
    assert [one.front for one in found.hanging] == ["FB", "FD", "FA", "FC"]
    assert [one.how for one in found.hanging] == ["on the line", "on the line", "by spacers", "by spacers"]


def test_a_level_run_has_its_line_at_the_planned_height_at_both_ends() -> None:
    line = planned(run()).lines[0]
    assert line.held == ""
    assert near(line.left) == near(line.right) == near(line.at)


def test_on_a_run_that_rises_the_line_stands_lower_over_the_frame_at_the_high_end() -> None:
    """3 mm on 1000: held at one end, it differs by 3 at the other"""
    line = planned(run(slope_shows="3", slope_over="1000")).lines[0]
    assert line.held in ("left", "right")
    assert near(line.left.units - line.right.units) == "3.00"


def test_the_line_is_held_where_it_leaves_the_most_cover() -> None:
    """A door with little cover below is not lifted off its rail"""
    made = run(slope_shows="5", slope_over="1000").look(cover="18", reveal_bottom="34")
    line = planned(made).lines[0]
    assert line.held == "left"  # held at the right, its low end would stand 5 higher on a cover of 6
    assert line.least is not None
    assert near(line.least) == "6.00"


def test_a_run_that_leans_the_other_way_is_held_at_the_other_end() -> None:
    one = planned(run(slope_shows="3", slope_over="1000")).lines[0]
    other = planned(run(slope_shows="-3", slope_over="1000")).lines[0]
    assert {one.held, other.held} == {"left", "right"}
    assert near(one.left) == near(other.right)


def test_each_front_is_set_by_a_spacer_to_one_that_hangs_already() -> None:
    up: set[str] = set()
    for one in planned(run()).hanging:
        assert not one.beside or one.beside in up
        assert one.spacer is None or near(one.spacer) == "4.00"
        up.add(one.front)


def test_a_setting_is_shared_over_all_fronts() -> None:
    """Two doors alike: one stop for their stiles, one for their rails"""
    steps = {step.what: step for step in planned(run()).work}
    cross = steps["crosscut to length by the stop, longest first"]
    plan = run().plan
    assert cross.settings == len([stop for stop in plan.making.set_ups if stop.work == "crosscut"])
    assert cross.pieces == sum(stop.pieces for stop in plan.making.set_ups if stop.work == "crosscut")
    assert cross.settings < cross.pieces


def test_work_goes_from_wood_to_site_and_bores_before_it_finishes() -> None:
    order = ("wood", "joints", "panels", "fronts", "boring", "finish", "site")
    steps = planned(run().put(Facing, "K", faces=True, thickness="2").put(Finish, "oil", coats=2)).work
    places = [order.index(step.stage) for step in steps]
    assert places == sorted(places)
    assert [step.number for step in steps] == list(range(1, len(steps) + 1))
    assert len([step for step in steps if step.what.startswith("coat")]) == 2


def test_a_story_stick_has_every_edge_of_a_row_from_the_datum() -> None:
    along, up = planned(run()).sticks
    assert along.lanes == ("FA, FC", "FB, FD")
    told = {what: (near(mark.at), mark.lane) for mark in along.marks for what in mark.what.split(", ")}
    assert (told["left of S0"], told["right of S2"], told["left of S1"]) == (("0.00", 0), ("1000.00", 0), ("480.00", 0))
    assert (told["right of FB"], told["left of FD"], told["left of FC"]) == (
        ("498.00", 2),
        ("502.00", 2),
        ("502.00", 1),
    )
    assert up.lanes == ("column C1", "column C2")
    assert all(a.at.units <= b.at.units for stick in (along, up) for a, b in pairwise(stick.marks))


def test_a_front_as_tall_as_the_run_is_marked_once() -> None:
    made = run().put(Column, "C3", run="K", place=9).read("C3", "across", "300").opening("E", "C3", heights="640")
    made = made.put(Member, "S3", run="K", kind="stile", place=10).read("S3", "across", "40")
    along = planned(made.fronts("FE", opening="E", hinge_side="left")).sticks[0]
    assert len([mark for mark in along.marks if "left of FE" in mark.what]) == 1


def test_openings_by_themselves_have_no_stick() -> None:
    from job_builder import door

    assert not planned(door()).sticks


def test_the_packing_list_counts_what_is_put_on() -> None:
    made = run().put(Facing, "K", faces=True, thickness="2")
    told = {one.what: one.count for one in planned(made).packing}
    assert (told["doors"], told["drawer fronts"]) == ("2", "2")
    assert told["strips and trim of run K"] == str(len(made.plan.facing.pieces))
    assert any(one.endswith("ml") for one in told.values())


def test_a_plain_job_packs_nothing_for_strips() -> None:
    assert not any("strip" in one.what for one in planned(run()).packing)
