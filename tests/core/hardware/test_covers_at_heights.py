"""The cover at each hinge's height (F26) against the frame's edge drawn as a line, in columns of several openings."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from frontwright.core.job import Facing, Member
from job_builder import Made, hinged, job, opening, size

LOW, HIGH = 40, 640  # the edge is seen between the lowest opening's lower edge and the highest one's upper edge


def taped(edge: dict[str, str], *, hinge: str = "left") -> Made:
    """Two openings over each other, 280 high each, and the edge beside them read at several heights of the run."""
    made = job().run("K", S0="40", C="400", S1="40").rails().read("K", "overall", "480")
    made = made.read("K", "height", "680", "left")
    member, what = ("S0", "edge right") if hinge == "left" else ("S1", "edge left")
    for at, where in edge.items():
        made = made.read(member, what, where, at)
    made = made.put(Member, "M", run="K", kind="mid rail", place=1, column="C").read("M", "across", "40")
    for place, name in enumerate(("A", "B"), 1):
        made = made.opening(name, "C", place, widths="400", heights="280")
        made = made.fronts(f"{name}1", opening=name, hinge_side=hinge)
    made = made.look(scheme="partial cover", cover="18")
    return hinged(made, constant="13", edge_distance="5", adjust="2")


def against_the_line(made: Made, edge: list[tuple[int, int]], *, outward: int) -> None:
    """Each hinge must give what lies between the door's edge and the line through the places read."""
    for name in ("A1", "B1"):
        front, hinge = made.front(name), made.plan.hardware.hinges[name]
        for height, need in zip(hinge.heights, hinge.needs, strict=True):
            up = size(front.bottom) + size(height)
            (y0, x0), (y1, x1) = next(pair for pair in pairwise(edge) if up <= pair[1][0])
            at = x0 + (up - y0) * Fraction(x1 - x0, y1 - y0)
            side = size(front.left if outward > 0 else front.right)
            assert size(need) == outward * (at - side)


@pytest.mark.parametrize(("hinge", "top", "bottom"), [("left", 36, 42), ("left", 42, 36), ("right", 436, 442)])
def test_an_edge_taped_at_the_top_and_bottom_of_the_run_leans_over_the_whole_column(
    hinge: str, top: int, bottom: int
) -> None:
    made = taped({"top": str(top), "bottom": str(bottom)}, hinge=hinge)
    against_the_line(made, [(LOW, bottom), (HIGH, top)], outward=1 if hinge == "left" else -1)


def test_an_edge_taped_at_three_heights_is_followed_through_all_three() -> None:
    made = taped({"top": "37", "mid": "44", "bottom": "41"})
    against_the_line(made, [(LOW, 41), ((LOW + HIGH) // 2, 44), (HIGH, 37)], outward=1)


def test_an_edge_alike_at_all_heights_needs_one_cover() -> None:
    for hinge in (taped({"top": "40", "bottom": "40"}).plan.hardware.hinges).values():
        assert {size(need) for need in hinge.needs} == {18}


@pytest.mark.parametrize("hinge", ["left", "right"])
def test_an_opening_wider_at_the_top_takes_half_of_it_at_each_side(hinge: str) -> None:
    """F20 sets the front evenly: each edge leans outward by half of what the widths differ"""
    made = opening(widths="406,403,400", heights="600").look(scheme="partial cover", cover="18")
    made = hinged(made.fronts("F", opening="A", hinge_side=hinge), constant="13", edge_distance="5", adjust="2")
    front, found = made.front(), made.plan.hardware.hinges["F"]
    for height, need in zip(found.heights, found.needs, strict=True):
        share = (size(height) + size(front.bottom)) / 600 - Fraction(1, 2)
        assert size(need) == 18 - 3 * share


def test_widths_that_differ_by_no_more_than_two_readings_may_err_lean_for_nobody() -> None:
    made = opening(widths="401,400.5,400", heights="600").look(scheme="partial cover", cover="18")
    made = hinged(made.fronts("F", opening="A", hinge_side="left"), constant="13", edge_distance="5", adjust="2")
    assert {size(need) for need in made.plan.hardware.hinges["F"].needs} == {18}


def inset(**covering: object) -> Made:
    """An inset door, 2 mm clear in an opening whose inside edges are covered with 3 mm; nothing leans."""
    made = opening(widths="400", heights="600", diagonals="721.110255,721.110255").look(scheme="inset", inset_side="2")
    made = hinged(made.fronts("F", opening="A", hinge_side="left"), constant="13", edge_distance="5", adjust="2")
    return made.put(Facing, "R", inside_edges="sides", inside_thickness="3", **covering)


@pytest.mark.parametrize("squared", [False, True])
def test_an_inset_door_counts_its_gap_from_the_covered_edge_once(squared: bool) -> None:
    """F26: o + t_r, o of the bare opening: minus 5 and 3 make minus 2"""
    made = inset(squared=squared)
    assert {size(need) for need in made.plan.hardware.hinges["F"].needs} == {-2}
