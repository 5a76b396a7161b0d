"""Flaps hung at the top: how far they open under a ceiling, a bulkhead or a hood (F23, seen from the side)."""

from __future__ import annotations

from math import acos, atan, cos, degrees, radians, sin

import pytest
from frontwright.core.job import HingeType, Obstacle, PullType, Run
from frontwright.core.plan import bored
from frontwright.core.space.taken import applied
from job_builder import Made, hinged, job, near
from shapely.geometry import LineString, box


def flap(away: str | None = None, **above: object) -> Made:
    """A wall run 700 high with one flap, its top edge 22 under the top of the run."""
    made = (
        job().run("K", S0="40", C="400", S1="40").rails().read("K", "overall", "480").read("K", "height", "700", "left")
    )
    made = made.put(Run, "K", stands="wall").read("K top rail", "edge low", "660")
    made = made.opening("A", "C", widths="400", heights="620").look(scheme="partial cover", cover="18")
    made = made.fronts("F", opening="A", hinge_side="top")
    if away is not None:
        made = made.put(Obstacle, "ceiling", run="K", kind="other", name="ceiling", side="above", away=away, **above)
    return made


def angle(made: Made) -> float | None:
    figure = made.plan.space.flaps["F"].angle
    return None if figure is None else float(figure.units)


def height(made: Made) -> float:
    return float(near(made.front().height))


def gap(made: Made, away: float) -> float:
    return 700 + away - float(near(made.front().top))


def test_under_nothing_a_flap_is_free_and_silent() -> None:
    made = flap()
    assert angle(made) is None
    assert made.quiet("swing")


@pytest.mark.parametrize("away", ["0", "10", "60", "200"])
def test_the_leaf_meets_a_ceiling_at_the_angle_of_the_formula(away: str) -> None:
    """F23 without a pull, by direct trigonometry"""
    made = flap(away).put(PullType, "flush", kind="flush").look(pull="flush")
    wanted = degrees(acos(-gap(made, float(away)) / height(made)))
    found = angle(made)
    assert found is not None
    assert abs(found - wanted) < 0.01


def test_a_pull_meets_it_earlier_and_warns_until_the_ceiling_is_further_up() -> None:
    made = flap("0").put(PullType, "bar", projection="60", from_edge="30").look(pull="bar")
    a, g = height(made) - 30, gap(made, 0)
    found = angle(made)
    assert found is not None
    assert abs(found - (degrees(acos(-g / (a * a + 3600) ** 0.5) - atan(60 / a)))) < 0.01
    check = made.found("swing", "F")
    assert (check.case, check.level, check.facts["pull"]) == ("flap", "warn", 1)
    assert made.put(Obstacle, "ceiling", away="120").quiet("swing")


def test_every_way_out_of_a_flap_that_does_not_open_clears_it() -> None:
    made = flap("0").put(PullType, "bar", projection="60", from_edge="30").look(pull="bar")
    check = made.found("swing", "F")
    assert {way.field for way in check.ways} == {"pull", "hinge_side"}
    for way in check.ways:
        assert Made(applied(made.job, way)).quiet("swing"), way


def test_a_bulkhead_that_does_not_reach_over_it_stops_nothing() -> None:
    assert angle(flap("0", begins="460")) is None
    assert angle(flap("0", moves=True)) is None


def test_a_hood_that_reaches_out_a_little_is_met_by_the_leaf_where_it_passes() -> None:
    """The swept leaf by shapely against the same hood"""
    made = flap("0", out="100").put(PullType, "flush", kind="flush").look(pull="flush")
    found = angle(made)
    assert found is not None
    g, high, face = gap(made, 0), height(made), 20.0
    hood = box(-2000, -2000, -g, 100 - face)

    def meets(turn: float) -> bool:
        leaf = LineString([(0, 0), (high * cos(radians(turn)), high * sin(radians(turn)))])
        return bool(leaf.intersection(hood).length > 1e-6)

    assert not meets(found - 0.05)
    assert meets(found + 0.05)


def test_its_hinge_may_stop_it_first() -> None:
    made = hinged(flap("300"), opens="80")
    assert angle(made) == 80
    assert made.found("swing", "F").case == "hinge"
    assert made.put(HingeType, "hinge", opens="100").quiet("swing")


def test_the_pull_of_a_flap_lies_level_in_the_middle_of_its_lower_rail() -> None:
    made = flap()
    pull = made.plan.hardware.places["F"]
    assert near(pull.low) == near(pull.high)
    assert near(pull.low) == f"{float(near(made.front().bottom)) + 35:.2f}"
    holes = bored(made.plan)["F"].of("pull")
    assert [near(h.from_hinge) for h in holes] == ["170.00", "266.00"]
