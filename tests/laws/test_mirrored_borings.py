"""Laws of borings: a mirrored run is bored in the mirror, hinges stand clear of shelves, more plates serve more."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from frontwright.core.job import HingeType, Inside, Job, Plate
from frontwright.core.lengths import ZERO, Length, half_up, in_units, typed_length
from frontwright.core.plan import Plan, bored, derive
from hypothesis import given, settings
from hypothesis import strategies as st
from test_kitchens import STEP, Kitchen, is_rounded, job_of, kitchens, twin_of

PLATE, ROOM = 50 * 80_000, STEP.units * 4  # as assumed: 50 mm, 1/8 in
SHELF = STEP.units * 24
KINDS = st.lists(st.integers(0, 9), min_size=1, max_size=3, unique=True)


def shelved(job: Job, at: int) -> Job:
    """The job with a fixed shelf in every opening, so far over the datum."""
    height = typed_length(STEP * at, "in")
    return job.put(*(Inside(f"shelf {one}", one, "shelf", at=height) for one in job.openings))


def hung(job: Job, plates: tuple[int, ...], count: int | None = None) -> Job:
    """The job on one hinge, with plates of these heights in millimetres."""
    hinge = HingeType("hinge", constant=typed_length(STEP * 20, "in"))
    rows = (Plate(f"P{one}", "hinge", height=typed_length(Length(one * 80_000), "in"), count=count) for one in plates)
    return job.put(hinge, *rows, replace(job.looks["room:room"], hinge="hinge"))


@settings(max_examples=12, deadline=None)
@given(kitchens(), st.integers(60, 500))
def test_a_mirrored_run_is_bored_in_the_mirror(kitchen: Kitchen, at: int) -> None:
    ours, theirs = derive(shelved(job_of(kitchen), at)), derive(shelved(job_of(kitchen.mirrored()), at))
    here, there = bored(ours), bored(theirs)
    for name, boring in here.items():
        front, twin = (
            ours.fronts.fronts[name],
            theirs.fronts.fronts[twin_of(ours.fronts.fronts[name], len(kitchen.stacks))],
        )
        other = there[twin.id]
        assert boring.side == {"left": "right", "right": "left"}.get(other.side, other.side)
        if boring.side:
            assert [(h.kind, h.from_hinge.value, h.from_bottom.value) for h in boring.holes if h.kind != "pull"] == [
                (h.kind, h.from_hinge.value, h.from_bottom.value) for h in other.holes if h.kind != "pull"
            ]
        slack = STEP if is_rounded(front.width) or is_rounded(twin.width) else ZERO
        mine = sorted(_from_left(ours, name, hole.from_hinge.units) for hole in boring.holes)
        mirrored = sorted(
            int(in_units(twin.width.value)) - _from_left(theirs, twin.id, hole.from_hinge.units) for hole in other.holes
        )
        assert all(abs(a - b) <= slack.units for a, b in zip(mine, mirrored, strict=True))


def _from_left(plan: Plan, front: str, at: Fraction | int) -> int:
    """From the left edge, seen from the front, in whole units."""
    wide = plan.fronts.fronts[front]
    distance = half_up(Fraction(at)).units
    return half_up(wide.width.value).units - distance if wide.hinge_side == "right" else distance


@settings(max_examples=12, deadline=None)
@given(kitchens(), st.integers(60, 500))
def test_no_plate_stands_on_a_shelf_unless_that_is_said(kitchen: Kitchen, at: int) -> None:
    plan = derive(shelved(job_of(kitchen), at))
    said = {check.where[0] for check in plan.checks if check.case == "in the way"}
    for name, hinge in plan.hardware.hinges.items():
        bottom = in_units(plan.fronts.fronts[name].bottom.value)
        low, high = in_units(STEP * at) - PLATE / 2 - ROOM, in_units(STEP * at) + SHELF + PLATE / 2 + ROOM
        own = plan.fronts.fronts[name]
        opening = plan.survey.openings[own.opening]
        assert opening.bottom is not None
        for height in hinge.heights:
            stands = bottom + in_units(height.value)
            assert not low < stands < high or name in said


@settings(max_examples=12, deadline=None)
@given(kitchens(), KINDS, st.integers(0, 9), st.integers(0, 6))
def test_a_further_kind_of_plate_never_leaves_more_lacking(
    kitchen: Kitchen, heights: list[int], more: int, count: int
) -> None:
    job = job_of(kitchen)
    fewer = _lacking(derive(hung(job, tuple(heights), count)))
    assert _lacking(derive(hung(job, tuple({*heights, more}), count))) <= fewer


@settings(max_examples=12, deadline=None)
@given(kitchens(), KINDS, st.integers(0, 6))
def test_no_plate_is_taken_that_is_not_on_hand(kitchen: Kitchen, heights: list[int], count: int) -> None:
    plan = derive(hung(job_of(kitchen), tuple(heights), count))
    taken: dict[str, int] = {}
    for hinge in plan.hardware.hinges.values():
        for use in hinge.plates:
            if not use.lacking:
                taken[use.id] = taken.get(use.id, 0) + 1
    assert all(number <= count for number in taken.values())


def _lacking(plan: Plan) -> int:
    return sum(use.lacking for hinge in plan.hardware.hinges.values() for use in hinge.plates)


@settings(max_examples=10, deadline=None)
@given(kitchens())
def test_without_shelves_drawers_and_old_plates_hinges_stand_even(kitchen: Kitchen) -> None:
    plan = derive(job_of(replace(kitchen, door="stub tenon")))
    for hinge in plan.hardware.hinges.values():
        assert [one.value for one in hinge.heights] == [one.value for one in hinge.even]
