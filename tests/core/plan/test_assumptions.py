"""Two readings and a few choices give a whole plan; what is only assumed never stops anybody."""

from __future__ import annotations

from typing import Any

import pytest
from frontwright.core.figures import Figure, only_assumed, plus, total
from frontwright.core.job import Cabinet, DoorBuild, DoorKind, PanelBuild, PanelKind, Scheme
from frontwright.core.lengths import Unit
from hypothesis import given
from hypothesis import strategies as st
from job_builder import BUILDS, PANELS, SCHEMES, UNITS, Made, job, mm, opening

FILLINGS: dict[str, tuple[tuple[str, ...], str]] = {
    "door": (("F",), "door"),
    "pair": (("FL", "FR"), "door"),
    "drawer": (("F",), "drawer"),
    "fixed": (("F",), "fixed"),
    "glass": (("F",), "glass"),
    "appliance": (("F",), "appliance"),
}


def told(made: Made, scheme: Scheme, build: DoorKind, panel: PanelKind, filling: str, *openings: str) -> Made:
    """The three choices, and what fills each opening; all else is assumed."""
    made = made.put(PanelBuild, "panel", kind=panel).put(DoorBuild, "build", kind=build, panel="panel")
    made = made.look(scheme=scheme, door_build="build", drawer_build="build")
    names, kind = FILLINGS[filling]
    for one in openings:
        made = made.fronts(*(f"{name} of {one}" for name in names), opening=one, kind=kind)
    return made


choices: dict[str, st.SearchStrategy[Any]] = {
    "scheme": st.sampled_from(SCHEMES),
    "build": st.sampled_from(BUILDS),
    "panel": st.sampled_from(PANELS),
    "filling": st.sampled_from(sorted(FILLINGS)),
    "unit": st.sampled_from(UNITS),
    "width": st.integers(200, 1000),
    "height": st.integers(100, 2300),
}


def stops(made: Made) -> list[tuple[str, tuple[str, ...], str]]:
    return [(c.code, c.where, c.case) for c in made.plan.checks if c.level == "stop"]


@given(**choices)
def test_two_readings_and_three_choices_never_stop_anybody(
    scheme: Scheme, build: DoorKind, panel: PanelKind, filling: str, unit: Unit, width: int, height: int
) -> None:
    made = opening(unit, widths=f"{width}mm", heights=f"{height}mm")
    assert stops(told(made, scheme, build, panel, filling, "A")) == []


@pytest.mark.parametrize("box", ["face frame", "frameless"])
@given(**choices)
def test_a_run_of_openings_with_everything_else_assumed_never_stops_anybody(
    box: str, scheme: Scheme, build: DoorKind, panel: PanelKind, filling: str, unit: Unit, width: int, height: int
) -> None:
    uprights = {"S0": None, "C1": None, "S1": None, "C2": None, "S2": None}
    if box == "frameless":
        uprights = {"B0": None, "C1": None, "P1": None, "C2": None, "B2": None}
    made = job(unit).run("K", **uprights).put(Cabinet, "box", run="K", kind=box)
    size = {"widths": f"{width}mm", "heights": f"{height}mm"}
    made = made.opening("A", "C1", 1, **size).opening("B", "C1", 2, **size).opening("D", "C2", 1, **size)
    assert stops(told(made, scheme, build, panel, filling, "A", "B", "D")) == []


def test_a_figure_made_of_assumed_ones_alone_is_a_guess_and_one_choice_makes_it_more() -> None:
    guess, chosen = Figure("stile", mm(60), "assumed"), Figure("stile", mm(50), "chosen")
    nought = Figure("datum", mm(0), "chosen")
    assert only_assumed(total("both", plus(guess, 2), plus(nought)))
    assert not only_assumed(total("both", plus(guess), plus(chosen)))


def test_two_readings_give_every_part_and_name_what_is_most_worth_reading_next() -> None:
    made = told(opening(widths="412", heights="690"), "partial cover", "stub tenon", "sheet", "door", "A")
    plan = made.plan
    assert {part.kind for part in plan.making.parts} == {"stile", "top rail", "bottom rail", "panel"}
    assert all(part.length.rests for part in plan.making.parts)
    worth = ("sheet thickness", "second width", "second height", "diagonals", "hinge and its cover")
    assert tuple(reading.what for reading in plan.read_next) == worth
