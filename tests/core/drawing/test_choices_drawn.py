"""Looks that are compared stand one under the other, to one scale, none over another."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from frontwright.core.choices import schemes
from frontwright.core.drawing.compared import compared_drawing
from frontwright.core.drawing.marks import Label, Outline
from frontwright.core.lengths import in_units
from frontwright.core.plan import Plan
from job_builder import job


@pytest.fixture(scope="module")
def plan() -> Plan:
    made = job().run("K", S0="40", C1="400", S1="48", C2="400", S2="40").rails().read("K", "height", "720", "middle")
    for at in (1, 2):
        made = made.opening(f"O{at}", f"C{at}", heights="640").fronts(f"F{at}", opening=f"O{at}", hinge_side="left")
    return made.plan


def test_every_scheme_shows_every_front_once(plan: Plan) -> None:
    drawing = compared_drawing(schemes(plan, "K"), "K")
    drawn = [mark.subject for mark in drawing.marks if isinstance(mark, Outline) and mark.subject]
    assert sorted(drawn) == ["F1", "F1", "F1", "F2", "F2", "F2"]


def test_no_front_of_one_lies_over_a_front_of_another(plan: Plan) -> None:
    drawing = compared_drawing(schemes(plan, "K"), "K")
    fronts = [mark for mark in drawing.marks if isinstance(mark, Outline) and mark.subject == "F1"]
    spans = sorted((min(map(_up, mark.corners)), max(map(_up, mark.corners))) for mark in fronts)
    assert all(low[1] < high[0] for low, high in pairwise(spans))


def _up(corner: tuple[object, object]) -> Fraction:
    return Fraction(in_units(corner[1]))  # type: ignore[arg-type]  # a point of the drawing


def test_each_is_named(plan: Plan) -> None:
    drawing = compared_drawing(schemes(plan, "K"), "K")
    assert sum(isinstance(mark, Label) and mark.room is None for mark in drawing.marks) == 3


def test_nothing_to_compare_is_refused(plan: Plan) -> None:
    with pytest.raises(ValueError, match="nothing to compare"):
        compared_drawing((), "K")
