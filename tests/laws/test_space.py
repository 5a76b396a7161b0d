"""Laws of space: what is entered more never makes more room, a mirror mirrors, a way out that is offered clears."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from frontwright.core.findings import Check, WayOut
from frontwright.core.job import (
    Corner,
    End,
    Facing,
    Inside,
    InsideEdges,
    Job,
    Look,
    Obstacle,
    PullType,
    Table,
)
from frontwright.core.lengths import Typed, typed_length
from frontwright.core.plan import derive
from frontwright.core.space.taken import applied
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from test_kitchens import STEP, Kitchen, job_of, kitchens

SPACE = ("swing", "corner", "drawer-room", "end-gap")
SIDES = st.sampled_from(("left", "right"))


def steps(count: int) -> Typed:
    return typed_length(STEP * count, "in")


def pulled(job: Job, out: int) -> Job:
    """The job with one pull chosen for all of it."""
    return job.put(PullType("pull", projection=steps(out)), replace(job.looks["room:room"], pull="pull"))


def walled(job: Job, side: str, away: int) -> Job:
    return job.put(Obstacle("wall", "K", "wall", "left" if side == "left" else "right", away=steps(away)))


def found(job: Job) -> list[Check]:
    return [check for check in derive(job).checks if check.code in SPACE and check.is_open]


def angles(job: Job) -> dict[str, Fraction]:
    """How far each door opens, a half turn where nothing stops it."""
    swings = derive(job).space.swings.values()
    return {s.front: Fraction(s.angle.units) if s.angle is not None else Fraction(180) for s in swings}


@settings(max_examples=30, deadline=None)
@given(kitchens())
def test_where_nothing_of_the_surroundings_is_entered_nothing_warns(kitchen: Kitchen) -> None:
    assert [(c.case, c.where) for c in found(job_of(kitchen)) if c.case != "free edge"] == []


@settings(max_examples=20, deadline=None)
@given(kitchens(), SIDES, st.integers(0, 200), st.integers(1, 200), st.integers(0, 60))
def test_a_wall_further_off_never_lessens_an_angle(kitchen: Kitchen, side: str, away: int, more: int, out: int) -> None:
    job = pulled(job_of(kitchen), out)
    near, far = angles(walled(job, side, away)), angles(walled(job, side, away + more))
    assert all(far[front] >= angle for front, angle in near.items())


@settings(max_examples=20, deadline=None)
@given(kitchens(), SIDES, st.integers(0, 200), st.integers(0, 60), st.integers(1, 30))
def test_a_pull_that_stands_out_further_never_adds_to_an_angle_at_a_wall(
    kitchen: Kitchen, side: str, away: int, out: int, more: int
) -> None:
    job = walled(job_of(kitchen), side, away)
    low, high = angles(pulled(job, out)), angles(pulled(job, out + more))
    assert all(high[front] <= angle for front, angle in low.items())


@settings(max_examples=20, deadline=None)
@given(kitchens(), SIDES, st.integers(0, 200), st.integers(0, 60))
def test_a_mirrored_run_opens_as_far(kitchen: Kitchen, side: str, away: int, out: int) -> None:
    assume(not kitchen.equal)
    plain = kitchen.mirrored().mirrored()
    other = "right" if side == "left" else "left"
    here = sorted(angles(walled(pulled(job_of(plain), out), side, away)).values())
    there = sorted(angles(walled(pulled(job_of(plain.mirrored()), out), other, away)).values())
    assert [abs(a - b) <= Fraction(1, 2) for a, b in zip(here, there, strict=True)] == [True] * len(here)


@settings(max_examples=20, deadline=None)
@given(kitchens(), st.integers(1, 12), st.integers(1, 12), st.sampled_from(("sides", "all round")))
def test_covering_more_never_makes_an_opening_or_its_inset_front_larger(
    kitchen: Kitchen, thin: int, more: int, edges: str
) -> None:
    around: InsideEdges = "all round" if edges == "all round" else "sides"
    job = job_of(replace(kitchen, scheme="inset"))
    boxes = [Inside(f"box {one}", one, width=steps(100), height=steps(40), runner=steps(16)) for one in job.openings]
    job = job.put(*boxes)
    plans = [
        derive(job.put(Facing("K", inside_edges=around, inside_thickness=steps(t)) if t else Facing("K")))
        for t in (0, thin, thin + more)
    ]
    for before, after in pairwise(plans):
        for front, plan in after.fronts.fronts.items():
            assert plan.width.units < before.fronts.fronts[front].width.units
            assert plan.height.units <= before.fronts.fronts[front].height.units
        for old, new in zip(before.space.drawers, after.space.drawers, strict=True):
            assert new.have.units <= old.have.units


@settings(max_examples=12, deadline=None)
@given(kitchens(), SIDES, st.integers(0, 20), st.integers(16, 60), st.integers(0, 30), st.integers(1, 40))
def test_a_way_out_that_is_offered_clears_its_finding(
    kitchen: Kitchen, side: str, away: int, out: int, gap: int, skin: int
) -> None:
    """A wall, deep pulls, a skin beside an appliance, boxes between covered edges"""
    job = walled(pulled(job_of(kitchen), out), side, away)
    end = End("K end", "K", "right", "appliance", gap_top=steps(gap), skin="bought", skin_thickness=steps(skin))
    opening = next(iter(job.openings))
    width = kitchen.stacks[0].width - 34
    box = Inside("box", opening, width=steps(width), runner=steps(16))
    _all_clear(job.put(end, box, Facing("K", inside_edges="sides", inside_thickness=steps(3))))


@settings(max_examples=10, deadline=None)
@given(kitchens(), kitchens(), st.integers(16, 60))
def test_a_way_out_of_a_corner_clears_it(left: Kitchen, right: Kitchen, out: int) -> None:
    """Two runs that meet"""
    other = renamed(job_of(replace(right, scheme=left.scheme)))
    here = pulled(job_of(left), out)
    names = ("runs", "members", "columns", "openings", "fronts", "readings")
    rows = [row for name in names for row in getattr(other, name).values()]
    job = here.put(*rows, Corner("corner", "K", "L"))
    _all_clear(job)


def renamed(job: Job) -> Job:
    """The run under other names."""

    def anew(name: str | None) -> str | None:
        return None if name is None else "L" if name == "K" else f"L{name}"

    changes = {
        "runs": [replace(r, id="L", place=1) for r in job.runs.values()],
        "members": [replace(m, id=f"L{m.id}", run="L", column=anew(m.column)) for m in job.members.values()],
        "columns": [replace(c, id=f"L{c.id}", run="L") for c in job.columns.values()],
        "openings": [replace(o, id=f"L{o.id}", column=f"L{o.column}") for o in job.openings.values()],
        "fronts": [replace(f, id=f"L{f.id}", opening=f"L{f.opening}") for f in job.fronts.values()],
        "readings": [replace(r, id=f"L{r.id}", of=anew(r.of) or "") for r in job.readings.values()],
    }
    return replace(job, **{name: Table(rows) for name, rows in changes.items()})  # type: ignore[arg-type]


def _all_clear(job: Job) -> None:
    plan = derive(job)
    for check in (c for c in plan.space.checks if c.is_open):
        for way in check.ways:
            if way.kind != "change" or not way.gives:
                continue
            changed = applied(job, way)
            assert changed != job
            after = derive(changed).space.checks
            assert not [c for c in after if c.is_open and c.code == check.code and c.where[:1] == check.where[:1]], (
                check,
                way,
            )


def test_a_look_that_is_only_made_for_a_way_out_says_nothing_else() -> None:
    """Flush pulls for a run: one field of its look, and the pull itself"""
    job = applied(Job(), WayOut("change", "run:K", "pull", "flush pull"))
    assert job.looks["run:K"] == Look("run:K", pull="flush pull")
    assert job.pull_types["flush pull"].kind == "flush"
