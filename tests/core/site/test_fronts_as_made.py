"""Fronts as they were made: diagonals (F67), wind and bow against the hinges in depth (F74)."""

from __future__ import annotations

import pytest
from frontwright.core.figures import Figure
from frontwright.core.job import AsBuilt
from frontwright.core.lengths import Length
from frontwright.core.site.made import diagonals_allowed
from job_builder import Made, door, hinged, near


def built(made: Made, **sizes: str) -> Made:
    """The front F with what was measured of it: wind, bow, d1, d2."""
    words = {"d1": "diagonal 1", "d2": "diagonal 2"}
    for key, value in sizes.items():
        what = words.get(key, key)
        made = made.put(AsBuilt, f"F {what}", of="F", what=what, value=value)
    return made


def test_a_door_of_448_by_716_may_have_diagonals_that_differ_by_half_a_millimetre() -> None:
    """F67"""
    sizes = [Figure("", Length.mm(text), "chosen") for text in ("448", "716", "0.5")]
    assert near(diagonals_allowed(*sizes), 1) == "0.5"
    assert near(door().plan.made.fronts["F"].diagonals_allowed, 1) == "0.5"


def test_diagonals_that_differ_by_more_than_is_allowed_are_found() -> None:
    check = built(door(), d1="845", d2="844").found("racking", "F")
    assert (near(check.value), check.level, check.case) == ("1.00", "warn", "as made")


def test_diagonals_that_differ_by_less_hold() -> None:
    made = built(door(), d1="845", d2="844.6")
    assert made.check("racking", "F").state == "holds"


def test_one_diagonal_alone_says_nothing() -> None:
    assert not built(door(), d1="845").checks("racking", "F")


@pytest.mark.parametrize(("wind", "state"), [("3", "holds"), ("4", "holds"), ("4.5", "open")])
def test_a_wind_is_shared_out_by_hinges_set_in_and_out_by_a_quarter_of_it(wind: str, state: str) -> None:
    """Hinges of ± 2: a quarter of 4 is half of what they can take"""
    made = built(hinged(door(), adjust_depth="2"), wind=wind)
    assert made.check("wind", "F").state == state


@pytest.mark.parametrize(("bow", "state"), [("2", "holds"), ("2.5", "open")])
def test_a_bow_is_halved_between_the_hinges(bow: str, state: str) -> None:
    made = built(hinged(door(), adjust_depth="2"), bow=bow)
    assert made.check("bow", "F").state == state


def test_a_hinge_that_can_be_set_further_takes_more_wind() -> None:
    assert built(hinged(door(), adjust_depth="3"), wind="6").check("wind", "F").state == "holds"


def test_a_wind_beyond_all_of_the_adjustment_says_so() -> None:
    found = built(hinged(door(), adjust_depth="2"), wind="9").found("wind", "F")
    assert found.facts["beyond"] == "yes"
    assert not built(hinged(door(), adjust_depth="2"), wind="5").found("wind", "F").facts["beyond"]


def test_a_front_without_hinges_is_held_against_what_a_frame_may_be_out_by() -> None:
    """F7: 1.5 mm under a front that covers"""
    from frontwright.core.job import Front

    made = door().put(Front, "F", kind="fixed", hinge_side=None)
    assert built(made, bow="1.5").check("bow", "F").state == "holds"
    assert built(made, bow="2").found("bow", "F").case == "as made, no hinges"


def test_nothing_is_said_of_a_front_that_nobody_measured() -> None:
    assert not door().plan.made.checks
