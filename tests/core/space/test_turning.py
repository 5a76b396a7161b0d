"""Angles against direct trigonometry, and against a general-purpose library over thousands of random places (F23)."""

from __future__ import annotations

from fractions import Fraction
from math import acos, atan, cos, degrees, hypot, radians, sin
from random import Random

import pytest
from frontwright.core.lengths import Length
from frontwright.core.space.turning import (
    HALF_TURN,
    Edge,
    Spot,
    against_wall,
    clear_of_drawer,
    edges_of,
    first_touch,
    gap_for,
    hundredth,
)
from shapely import affinity
from shapely.geometry import LineString, MultiLineString, Polygon, box

mm = Length.mm
SEED = 23


@pytest.mark.parametrize(("gap", "angle"), [("20", "87.5"), ("38", "90.5")])
def test_the_angle_against_a_wall_is_that_of_the_formula(gap: str, angle: str) -> None:
    """F23: a 350, P 35, g 20 gives 87.5°, g 38 gives 90.5°"""
    assert round(against_wall(mm(gap), mm(350), mm(35)), 1) == float(angle)


def test_the_gap_that_an_angle_takes_is_the_formula_turned_round() -> None:
    """F23: 153 mm for 110°"""
    assert round(gap_for(Fraction(110), mm(350), mm(35))) == 153
    assert round(against_wall(mm(153), mm(350), mm(35))) == 110


def test_a_wall_further_off_than_the_door_reaches_stops_nothing() -> None:
    assert against_wall(mm(400), mm(350), mm(35)) == HALF_TURN


def test_a_wall_at_the_hinge_edge_lets_a_door_without_pull_open_square() -> None:
    assert hundredth(against_wall(mm(0), mm(350), mm(0))) == 90


def test_a_touch_found_by_corners_and_edges_is_that_of_the_formula() -> None:
    """Both ends of the pull and the free edge tried; the least counts"""
    chance = Random(SEED)
    for _ in range(3000):
        wide, out = chance.uniform(120, 900), chance.uniform(0, 60)
        near = chance.uniform(0.05, 0.95) * wide
        far = chance.uniform(near, wide)
        gap = chance.uniform(0, 1.2) * wide
        wall = [(-gap, -9000.0), (-gap, 9000.0), (-gap - 9000, 9000.0), (-gap - 9000, -9000.0)]
        direct = min(_formula(gap, at, p) for at, p in ((near, out), (far, out), (wide, 0.0)))
        assert first_touch(_door(wide, near, far, out), wall) == pytest.approx(direct, abs=1e-6)


def _formula(gap: float, at: float, out: float) -> float:
    reach = hypot(at, out)
    return HALF_TURN if reach <= gap else degrees(acos(-gap / reach) - atan(out / at))


def _door(wide: float, near: float, far: float, out: float) -> list[Edge]:
    return [((0, 0), (wide, 0)), ((near, 0), (near, out)), ((far, 0), (far, out)), ((near, out), (far, out))]


def test_a_door_is_free_up_to_the_angle_found_and_touches_just_beyond_it() -> None:
    """Against shapely: nothing is met on the way, something is a hundredth of a degree further on"""
    chance = Random(SEED + 1)
    stopped = 0
    for _ in range(2500):
        door = _random_door(chance)
        shape = _random_shape(chance)
        angle = first_touch(door, shape)
        lines, still = _as_lines(door), Polygon(shape)
        if angle == 0:
            assert affinity.rotate(lines, 1e-3, origin=(0, 0)).intersects(still)
            continue
        for share in (0.1, 0.3, 0.5, 0.7, 0.9, 0.97):
            turned = affinity.rotate(lines, angle * share, origin=(0, 0))
            assert turned.intersection(still).length < 1e-6, (door, shape, angle, share)
        if angle < HALF_TURN:
            stopped += 1
            assert affinity.rotate(lines, angle + 0.01, origin=(0, 0)).buffer(1e-3).intersects(still)
    assert stopped > 500


def _random_door(chance: Random) -> list[Edge]:
    wide = chance.uniform(150, 800)
    near = chance.uniform(0.2, 0.9) * wide
    return _door(wide, near, min(wide, near + chance.uniform(1, 60)), chance.uniform(5, 60))


def _random_shape(chance: Random) -> list[Spot]:
    """A rectangle somewhere round the hinge edge, at any angle, not lying on it."""
    while True:
        x, y = chance.uniform(-900, 900), chance.uniform(-50, 900)
        shape = affinity.rotate(
            box(x, y, x + chance.uniform(5, 400), y + chance.uniform(5, 400)), chance.uniform(0, 90)
        )
        if shape.distance(LineString([(0, 0), (1e-6, 0)])) > 1:
            return [(a, b) for a, b in shape.exterior.coords[:-1]]


def _as_lines(edges: list[Edge]) -> MultiLineString:
    return MultiLineString([LineString(edge) for edge in edges])


def test_a_door_shut_into_something_does_not_open() -> None:
    door = _door(400, 350, 350, 30)
    assert first_touch(door, [(100, -5), (200, -5), (200, 5), (100, 5)]) == 0
    assert first_touch(door, [(100, 0), (200, 0), (200, 50), (100, 50)]) == 0  # it lies on its face


def test_mirrored_shapes_are_met_whichever_way_round_their_corners_go() -> None:
    shape = [(-300.0, 100.0), (-20.0, 100.0), (-20.0, 200.0), (-300.0, 200.0)]
    door = _door(400, 350, 360, 30)
    assert first_touch(door, shape) == first_touch(door, shape[::-1])
    assert len(edges_of(shape)) == 4


def test_an_inner_drawer_passes_from_the_angle_found_and_not_before() -> None:
    """The leaf with its thickness against the strip that the drawer takes, by shapely"""
    chance = Random(SEED + 2)
    for _ in range(1500):
        wide, thick = chance.uniform(200, 700), chance.uniform(15, 30)
        room = chance.uniform(0, 60)
        angle = clear_of_drawer(_length(wide), _length(thick), _length(room))
        way = box(room, -thick, 3000, 3000)
        assert _leaf(wide, thick, angle + 0.01).intersection(way).area < 0.5
        assert _leaf(wide, thick, angle - 1).intersection(way).area > 1e-5


def _leaf(wide: float, thick: float, angle: float) -> Polygon:
    return affinity.rotate(box(0, -thick, wide, 0), angle, origin=(0, 0))


def _length(value: float) -> Length:
    return Length(round(value * Length.mm(1).units))


def test_room_as_wide_as_the_door_is_thick_lets_a_drawer_pass_at_a_right_angle() -> None:
    assert hundredth(clear_of_drawer(mm(400), mm(20), mm(20))) == 90
    assert clear_of_drawer(mm(400), mm(20), mm(-1)) == HALF_TURN
    assert clear_of_drawer(mm(400), mm(20), mm(30)) == pytest.approx(
        degrees(atan(20 / 400) + acos(30 / hypot(400, 20)))
    )
    beyond = clear_of_drawer(mm(400), mm(20), mm(10))
    assert 20 * sin(radians(beyond)) == pytest.approx(10)
    assert cos(radians(beyond)) < 0
