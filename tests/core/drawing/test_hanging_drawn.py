"""The run as it is hung: each front with its turn, and every line that is levelled to."""

from __future__ import annotations

import pytest
from frontwright.core.drawing.hanging import hanging_drawing
from frontwright.core.drawing.marks import Caption, HingeLines, Label, Line
from frontwright.core.plan import Plan, sited
from job_builder import job


@pytest.fixture(scope="module")
def plan() -> Plan:
    made = job().run("K", S0="40", C1="400", S1="48", C2="400", S2="40").rails().read("K", "height", "720", "middle")
    made = made.opening("O1", "C1", heights="640").fronts("F1", opening="O1", hinge_side="left")
    return made.opening("O2", "C2", heights="640").fronts("F2", opening="O2", hinge_side="right").plan


def test_each_front_carries_its_turn_and_its_hinge_side(plan: Plan) -> None:
    site = sited(plan)
    drawing = hanging_drawing(plan, site, "K")
    labels = {mark.subject: mark for mark in drawing.marks if isinstance(mark, Label)}
    turns = {one.front: one.number for one in site.hanging}
    assert {front: labels[front].choices[0].lines[0].parts[0] for front in turns} == {
        front: str(turn) for front, turn in turns.items()
    }
    assert {mark.subject: mark.side for mark in drawing.marks if isinstance(mark, HingeLines)} == {
        "F1": "left",
        "F2": "right",
    }


def test_the_first_line_is_drawn_heavier_and_named(plan: Plan) -> None:
    drawing = hanging_drawing(plan, sited(plan), "K")
    (line,) = [mark for mark in drawing.marks if isinstance(mark, Line)]
    assert line.pen == "outline"
    assert line.a[1] == plan.fronts.fronts["F1"].bottom.value
    assert [mark.text.parts[0] for mark in drawing.marks if isinstance(mark, Caption)] == ["line 1"]


def test_a_run_that_is_not_there_is_named(plan: Plan) -> None:
    with pytest.raises(KeyError):
        hanging_drawing(plan, sited(plan), "Z")
