"""Returns on the inside edges: what they leave of an opening, squared where it leans (F42), held against shapely."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from frontwright.core.figures import Figure
from frontwright.core.job import Facing, Inside
from frontwright.core.lengths import Length
from frontwright.core.returns import CoveredOpening, Shape, largest_upright, shape_of
from hypothesis import given, settings
from hypothesis import strategies as st
from job_builder import Made, hinged, job, near, size
from shapely.geometry import Polygon, box

# F3: 2.70 to the left
LEANING = {"widths": "400", "heights": "600", "diagonals": "722, 719"}


def cabinet(faces: bool = True, **facing: object) -> Made:
    """One opening A of 400 by 600 between two stiles, its inside edges covered with 2 mm strips."""
    made = job().run("K", S0="40", C="400", S1="40").rails("40", "40").read("K", "height", "680", "middle")
    given_ = {"inside_edges": "all round", "inside_thickness": "2", "thickness": "2"} | facing
    return made.opening("A", "C", 1, **LEANING).fronts("F", opening="A").put(Facing, "K", faces=faces, **given_)


def covered(made: Made) -> CoveredOpening:
    return made.plan.facing.runs["K"].openings["A"]


def test_strips_on_the_inside_edges_make_an_opening_smaller_by_twice_their_thickness() -> None:
    """F42"""
    found = covered(cabinet())
    assert [near(found.widths[1]), near(found.heights[1])] == ["396.00", "596.00"]
    sides = covered(cabinet(inside_edges="sides"))
    assert [near(sides.widths[1]), near(sides.heights[1])] == ["396.00", "600.00"]


def test_returns_square_a_leaning_opening_to_the_largest_upright_rectangle_and_taper_at_both_ends() -> None:
    """F3, F42: 400 less the lean of 2.70; thin at one end, the lean at the other, the other way round across"""
    found = covered(cabinet(squared=True))
    assert near(found.widths[1]) == "393.30"
    assert {near(width) for width in found.widths} == {"393.30"}
    left, right = found.returns["left"], found.returns["right"]
    assert [near(end) for end in left.packing] == ["0.00", "2.70"]  # bottom, top: the top stands to the left
    assert [near(end) for end in right.packing] == ["2.70", "0.00"]
    assert near(left.most) == "4.70"


def test_strips_of_a_squared_opening_meet_at_its_upright_edges() -> None:
    """Rail strips are as long as the opening is left wide; stile strips reach there from the middle of the tape."""
    strips = {one.on: one for one in cabinet(squared=True).plan.facing.runs["K"].pieces}
    rails = [one for one in strips.values() if one.kind == "rail strip"]
    assert [near(one.length) for one in rails] == ["393.30", "393.30"]
    assert [near(strips[stile].width) for stile in ("S0", "S1")] == ["43.35", "43.35"]  # 40 + 2 + 2.70 / 2
    whole = sum(size(strips[on].width) for on in ("S0", "S1")) + size(rails[0].length)
    assert whole == pytest.approx(480, abs=0.01)


def test_a_leaning_opening_mirrored_leans_the_other_way() -> None:
    here = covered(cabinet(squared=True))
    there = covered(cabinet(squared=True).read("A", "diagonal", "719", "\\").read("A", "diagonal", "722", "/"))
    for side, other in (("left", "right"), ("right", "left")):
        assert [near(e) for e in here.returns[side].packing] == [near(e) for e in there.returns[other].packing]
    assert near(here.widths[1]) == near(there.widths[1])


def test_an_inset_front_in_a_squared_opening_has_even_gaps() -> None:
    """F17 with W' of F42: the front is made to the upright rectangle, and no lean is left"""
    made = cabinet(squared=True).look(scheme="inset", gap="2")
    bare = cabinet(inside_edges="none").look(scheme="inset", gap="2")
    assert size(made.front().width) < size(bare.front().width)
    assert near(made.front().width) in ("389.00", "389.50")


def test_a_lean_within_the_reading_error_counts_as_none() -> None:
    made = cabinet(squared=True).read("A", "diagonal", "721.1", "\\").read("A", "diagonal", "721.1", "/")
    assert not covered(made).returns["left"].tapered


def test_mistake_11_a_box_that_goes_into_the_leaning_opening_no_longer_goes_in_when_it_is_squared() -> None:
    made = cabinet(inside_thickness="1").fronts("F", opening="A", kind="drawer")
    made = made.put(Inside, "box", opening="A", width="371", runner="12.7")
    assert made.quiet("drawer-room")
    stop = made.put(Facing, "K", squared=True).found("drawer-room", "A")
    fields = {way.field for way in stop.ways}
    assert stop.level == "stop"
    assert "squared" in fields


# -- held against shapely


def outline(shape: Shape) -> Polygon:
    """The opening as a polygon, round from its lower left corner."""
    right = [(float(x), float(y)) for y, x in shape.right]
    top = [(float(x), float(y)) for x, y in reversed(shape.top)]
    left = [(float(x), float(y)) for y, x in reversed(shape.left)]
    return Polygon([*right, *top[1:], *left[1:]])


SEEN = job().run("K", S0="40", C="400", S1="40").rails().opening("A", "C", 1, **LEANING).seen("A")
MM = st.integers(0, 60).map(lambda tenth: Fraction(tenth, 10))


@settings(max_examples=150, deadline=None)
@given(top=MM, middle=MM, bottom=MM, left=MM, mid=MM, right=MM, lean=st.integers(-60, 60))
def test_the_upright_rectangle_lies_in_the_opening_and_no_larger_one_does(
    top: Fraction, middle: Fraction, bottom: Fraction, left: Fraction, mid: Fraction, right: Fraction, lean: int
) -> None:
    made = SEEN
    widths = [replace_value(made.widths[1], 400 + add) for add in (top, middle, bottom)]
    heights = [replace_value(made.heights[1], 600 + add) for add in (left, mid, right)]
    opening = replace(made, widths=(widths[0], widths[1], widths[2]), heights=(heights[0], heights[1], heights[2]))
    shape = shape_of(opening, Fraction(lean * 8000))
    found = largest_upright(shape)
    polygon = outline(shape).buffer(2)  # a unit of rounding
    west, r, t = float(found.left.units), float(found.right.units), float(found.top.units)
    assert polygon.contains(box(west, 0, r, t))
    bare = outline(shape)
    wider = 400.0  # units: 0.005 mm
    for grown in (box(west - wider, 0, r, t), box(west, 0, r + wider, t), box(west, 0, r, t + wider)):
        assert not bare.buffer(1).contains(grown)
    for share in (0.5, 0.9, 0.99):
        lower = share * t
        a = max([west - 500_000.0, *(x for x in _side(shape.left, lower))])
        b = min([r + 500_000.0, *(x for x in _side(shape.right, lower))])
        assert (b - a) * lower <= (r - west) * t * 1.000001


def replace_value(figure: Figure, millimetres: Fraction) -> Figure:
    return Figure(figure.name, Length.mm(str(float(millimetres))), "taped")


def _side(edge: tuple[tuple[Fraction, Fraction], ...], high: float) -> list[float]:
    """x of a side at the bottom, at its bends below, and at this height."""
    spots = [float(x) for y, x in edge if y <= high]
    (y0, x0), (y1, x1) = next(((a, b) for a, b in pairwise(edge) if high <= b[0]), edge[-2:])
    return [*spots, float(x0 + (x1 - x0) * (Fraction(high) - y0) / (y1 - y0))]


@pytest.mark.parametrize("squared", [False, True])
@pytest.mark.parametrize("thick", ["1", "2", "3.5"])
def test_covering_more_never_makes_an_opening_larger(thick: str, squared: bool) -> None:
    bare = cabinet(inside_edges="none").seen("A")
    order = ("sides", "all round")
    found = [covered(cabinet(inside_edges=edges, inside_thickness=thick, squared=squared)) for edges in order]
    thicker = covered(cabinet(inside_thickness="4", squared=squared))
    for one in found:
        assert all(size(a) <= size(b) for a, b in zip(one.widths, bare.widths, strict=True))
        assert all(size(a) <= size(b) for a, b in zip(one.heights, bare.heights, strict=True))
    assert size(found[1].heights[1]) <= size(found[0].heights[1])
    assert size(thicker.widths[1]) <= size(found[1].widths[1])


def test_the_plates_on_a_squared_edge_all_see_one_cover() -> None:
    """F26: a leaning edge asks for another cover at each hinge, an upright one does not"""
    made = cabinet(inside_edges="sides", squared=True).look(scheme="partial cover", cover="12")
    made = hinged(made.fronts("F", opening="A", hinge_side="left"), cover="12")
    needed = made.plan.hardware.hinges["F"].needs
    assert len({near(one) for one in needed}) == 1
    assert near(needed[0]) == "15.35"  # 12 and the strip of 2, and half of the lean of 2.70
    leaning = made.put(Facing, "K", squared=False).plan.hardware.hinges["F"].needs
    assert len({near(one) for one in leaning}) == len(leaning)
