"""Corners held against a general-purpose library: what is said to pass keeps its clearance, what is not does not."""

from __future__ import annotations

from random import Random

from frontwright.core.job import Corner, DoorBuild, PullType
from frontwright.core.plan import Plan
from frontwright.core.space.result import Still
from job_builder import Made, job, size
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

CLEAR = 6


def two_legs(chance: Random, angle: str | None = None) -> Made:
    """Drawers of random width on both legs, each as near the corner as chance has it, thick fronts, long pulls."""
    here, there = (chance.randint(20, 110) for _ in range(2))
    wide, thick, out = chance.randint(250, 700), chance.randint(16, 26), chance.randint(0, 45)
    made = job().run("K", S0="40", A=str(wide), S1=f"{here} + 18").rails().read("K", "height", "700", "middle")
    made = made.run("L", S2=f"{there} + 18", C="400", S3="40").rails(run="L").read("L", "height", "700", "middle")
    made = made.opening("A", "A", widths=str(wide), heights="620").opening("C", "C", widths="400", heights="620")
    made = made.look(scheme="full cover", cover="18", door_build="build", drawer_build="build", pull="pull")
    made = made.put(DoorBuild, "build", kind="slab", thickness=str(thick), stile="60")
    made = made.put(PullType, "pull", projection=str(out) if out else "0", holes="96")
    made = made.fronts("FA", opening="A", kind="drawer").fronts("FC", opening="C", kind="drawer")
    return made.put(Corner, "corner", left="K", right="L", **({} if angle is None else {"angle": angle}))


def shape(still: Still) -> Polygon:
    spots = [(float(size(x)), float(size(y))) for x, y in still.corners]
    return Polygon(spots).buffer(1e-6)


def other_fronts(plan: Plan, run: str, kinds: tuple[str, ...]) -> Polygon:
    own = {f.id for f in plan.fronts.fronts.values() if f.run == run}
    return unary_union([shape(s) for s in plan.space.stills[run] if s.kind in kinds and s.of not in own])


def way_out_of(plan: Plan, front: str) -> Polygon:
    """The strip that a drawer front sweeps as it comes straight out, from its face on."""
    one = plan.fronts.fronts[front]
    face = max(
        float(size(y)) for s in plan.space.stills[one.run] if s.of == front and s.kind == "front" for _, y in s.corners
    )
    return box(float(size(one.left)), face, float(size(one.right)), face + 3000)


def test_a_drawer_that_passes_the_other_leg_keeps_its_clearance_and_one_that_does_not_lacks_it() -> None:
    """F24: T₂ + P₂ + c, over random corners; the pulls of both legs stand at one height"""
    chance = Random(24)
    passed = 0
    for _ in range(80):
        plan = two_legs(chance).plan
        for meeting in (m for m in plan.space.meetings if m.what == "past"):
            run = plan.fronts.fronts[meeting.front].run
            apart = way_out_of(plan, meeting.front).distance(other_fronts(plan, run, ("front", "pull")))
            margin = float(size(meeting.have) - size(meeting.need))
            assert (apart >= CLEAR - 1e-3) == (margin >= -1e-3) or abs(margin) < 1e-3
            if apart > 0:
                assert abs(apart - CLEAR - margin) < 1e-3
            passed += margin >= 0
    assert 30 < passed < 130


def test_fronts_of_a_corner_that_is_not_square_do_not_touch_where_they_are_said_to_fit() -> None:
    chance = Random(25)
    for _ in range(60):
        plan = two_legs(chance, str(chance.randint(60, 170))).plan
        for meeting in (m for m in plan.space.meetings if not m.short):
            one = plan.fronts.fronts[meeting.front]
            body = next(shape(s) for s in plan.space.stills[one.run] if s.of == one.id and s.kind == "front")
            assert body.distance(other_fronts(plan, one.run, ("front",))) > 0


def test_the_two_legs_are_each_others_mirror() -> None:
    """What the left leg is from the right one, the right one is from the left"""
    chance = Random(26)
    for _ in range(60):
        plan = two_legs(chance, str(chance.randint(60, 170))).plan
        gaps = []
        for run, front in (("K", "FA"), ("L", "FC")):
            body = next(shape(s) for s in plan.space.stills[run] if s.of == front and s.kind == "front")
            gaps.append(body.distance(other_fronts(plan, run, ("front",))))
        assert abs(gaps[0] - gaps[1]) < 1e-3
