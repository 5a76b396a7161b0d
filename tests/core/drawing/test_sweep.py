"""A run from above: arcs at true size, walls and the corner where they stand, what stops a door."""

from __future__ import annotations

from fractions import Fraction
from math import hypot

import pytest
from frontwright.core.drawing.lay import fit
from frontwright.core.drawing.marks import Badge, Box, Dimension, Label, Outline, Path, Wall
from frontwright.core.drawing.medium import Medium
from frontwright.core.drawing.sweep import arc, clipped, sweep, turned
from frontwright.core.job import Corner, DoorBuild, Front, Inside, Obstacle, PullType
from frontwright.core.lengths import Exact, Length, in_units
from frontwright.core.plan import Plan
from job_builder import Made, job, near, size
from shapely.geometry import Polygon, box

mm = Length.mm


def two_doors() -> Made:
    """Doors of 436 over openings of 400, hung outside, a drawer under none of them."""
    made = job().run("K", S0="40", A="400", S1="40", C="400", S2="40").rails()
    made = made.read("K", "height", "700", "middle")
    made = made.opening("A", "A", widths="400", heights="620").opening("C", "C", widths="400", heights="620")
    made = made.look(scheme="full cover", cover="18", gap="4", door_build="build", drawer_build="build", pull="bar")
    made = made.put(DoorBuild, "build", kind="slab", thickness="20", stile="60")
    made = made.put(PullType, "bar", projection="35")
    return made.fronts("FA", opening="A", hinge_side="left").fronts("FC", opening="C", hinge_side="right")


def trimmed() -> Made:
    return two_doors().put(Obstacle, "wall", run="K", kind="wall", side="left", name="party wall", away="0")


def marks_of[M](plan: Plan, kind: type[M], front: str = "", run: str = "K") -> list[M]:
    return [mark for mark in sweep(plan, run, front).marks if isinstance(mark, kind)]


def spot(point: tuple[Exact, Exact]) -> tuple[float, float]:
    return float(size(point[0])), float(size(point[1]))


def test_the_arc_of_the_free_edge_is_as_far_from_the_hinge_edge_as_the_door_is_wide() -> None:
    plan = trimmed().plan
    swing = plan.space.swings["FA"]
    path = marks_of(plan, Path, "FA")[0]
    x0, y0 = float(size(swing.pivot[0])), -float(size(swing.pivot[1]))
    reaches = [hypot(x - x0, y - y0) for x, y in map(spot, path.points)]
    assert reaches == pytest.approx([436.0] * len(reaches), abs=1e-4)
    assert spot(path.points[0]) == pytest.approx((458.0, -20.0))


def test_a_door_is_drawn_as_far_open_as_it_goes() -> None:
    """88.17° from the run, to the left of its hinge edge by what its pull leaves it"""
    plan = trimmed().plan
    end = marks_of(plan, Path, "FA")[0].points[-1]
    x, y = spot(end)
    assert (round(x - 22, 1), round(-y - 20, 1)) == (13.9, 435.8)


def test_a_right_hand_door_turns_the_other_way() -> None:
    plan = two_doors().plan
    swing = plan.space.swings["FC"]
    assert spot(turned(swing, mm(436), mm(0), Fraction(90))) == pytest.approx((898.0, -456.0))
    assert spot(next(iter(arc(swing, mm(436), mm(0), Fraction(90))))) == pytest.approx((462.0, -20.0))


def test_a_wall_beside_the_run_closes_the_drawing_off_where_it_stands() -> None:
    (wall,) = marks_of(trimmed().plan, Wall)
    assert (near(wall.a[0]), wall.side, wall.subject) == ("0.00", "left", "wall")


def test_what_stops_the_chosen_door_is_dimensioned_from_its_hinge_edge_and_marked() -> None:
    plan = trimmed().plan
    (gap,) = marks_of(plan, Dimension, "FA")
    assert size(gap.figure) == 22
    assert [badge.level for badge in marks_of(plan, Badge, "FA")] == ["warn"]
    assert marks_of(plan, Badge, "FC") == []


def test_the_angle_stands_beside_the_name_and_free_where_nothing_stops_it() -> None:
    plan = trimmed().plan
    said = {
        mark.subject: mark.choices[0].lines[1].parts for mark in marks_of(plan, Label) if len(mark.choices[0].lines) > 1
    }
    assert said == {"FA": ("88.17°",), "FC": ("free",)}


def test_only_what_stands_at_the_height_of_the_chosen_door_is_drawn() -> None:
    plan = trimmed().put(Obstacle, "wall", low="690").plan
    assert marks_of(plan, Wall, "FA") == []
    assert len(marks_of(plan, Wall)) == 1


def test_a_drawer_is_drawn_out_by_the_length_of_its_box_or_as_far_as_it_comes() -> None:
    drawer = two_doors().put(Front, "FA", kind="drawer").put(Inside, "box", opening="A", length="450")
    (out,) = [m for m in marks_of(drawer.plan, Outline) if m.pen == "hidden"]
    assert (near(out.box.bottom), near(out.box.top)) == ("-470.00", "-450.00")
    island = drawer.put(Obstacle, "island", run="K", kind="cabinet", side="before", away="400")
    (short,) = [m for m in marks_of(island.plan, Outline) if m.pen == "hidden"]
    assert size(short.box.bottom) == -365  # its pull stands against the island


def test_the_other_leg_of_a_corner_stands_square_to_the_run_with_its_fronts() -> None:
    made = two_doors().run("L", S3="80", D="300", S4="40").rails(run="L").read("L", "height", "700", "middle")
    made = made.opening("D", "D", widths="300", heights="620").fronts("FD", opening="D", kind="drawer")
    plan = made.put(Corner, "corner", left="K", right="L").plan
    body = next(m for m in marks_of(plan, Outline) if m.subject == "FD" and m.fill == "wood")
    assert [size(one) for one in (body.box.left, body.box.right)] == [900, 920]
    assert [size(one) for one in (body.box.top, body.box.bottom)] == [-62, -398]
    mirrored = next(m for m in marks_of(plan, Outline, run="L") if m.subject == "FC" and m.fill == "wood")
    assert [size(one) for one in (mirrored.box.left, mirrored.box.right)] == [0, 20]


def test_a_run_that_is_not_there_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        sweep(two_doors().plan, "nowhere")


def test_it_can_be_laid_and_its_fronts_selected(on_screen: Medium) -> None:
    drawing = sweep(trimmed().plan, "K")
    assert fit(drawing, on_screen, 400, 300).inks
    assert {"FA", "FC"} <= set(drawing.subjects)
    assert drawing.seen_from == "above"


def test_a_shape_is_clipped_to_the_drawing_as_a_general_library_clips_it() -> None:
    to = Box(mm(0), mm(0), mm(100), mm(60))
    for shape in (
        [(mm(-50), mm(10)), (mm(50), mm(-40)), (mm(150), mm(30)), (mm(40), mm(120))],
        [(mm(-50), mm(-50)), (mm(500), mm(-50)), (mm(500), mm(500)), (mm(-50), mm(500))],
        [(mm(200), mm(200)), (mm(300), mm(200)), (mm(300), mm(300))],
    ):
        seen = [spot(point) for point in clipped(shape, to)]
        area = Polygon(seen).area if len(seen) > 2 else 0.0
        whole = Polygon([spot(point) for point in shape])
        assert area == pytest.approx(whole.intersection(box(0, 0, 100, 60)).area)
        assert all(0 <= in_units(x) <= mm(100).units for x, _ in clipped(shape, to))
