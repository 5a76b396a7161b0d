"""The space chapter as it is measured: everything but the ways out, which are tried by measuring again."""

from __future__ import annotations

from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job.index import JobIndex
from frontwright.core.making.result import MakingPlan
from frontwright.core.space.bodies import Scene, corner_plans, faced_runs, other_leg, stills_of
from frontwright.core.space.checks import space_checks
from frontwright.core.space.corners import meetings_of
from frontwright.core.space.flaps import flap_of
from frontwright.core.space.result import CornerPlan, SpacePlan, Still
from frontwright.core.space.rooms import drawer_rooms, drawn_out, end_gaps, run_lengths
from frontwright.core.space.seats import seats
from frontwright.core.space.swings import swing_of, turning_room
from frontwright.core.survey.old_fronts import old_covers
from frontwright.core.survey.result import SurveyPlan


def measured_space(
    index: JobIndex, survey: SurveyPlan, fronts: FrontsPlan, making: MakingPlan, hardware: HardwarePlan
) -> SpacePlan:
    """What stands where, how far each door opens, what meets, what still goes in; checks without ways out."""
    pulls = dict(hardware.places)
    scene = Scene(index, survey, fronts, making, pulls, faced_runs(index, survey))
    corners = corner_plans(index, survey)
    stills = _stills(scene, corners)
    every = list(fronts.fronts.values())
    swings = {f.id: swing for f in every if (swing := swing_of(scene, f, stills.get(f.run, ()))) is not None}
    turning = {f.id: room for f in every if (room := turning_room(scene, f)) is not None}
    drawn = {f.id: one for f in every if f.placed and (one := drawn_out(scene, stills.get(f.run, ()), f)) is not None}
    found = SpacePlan(
        pulls=pulls,
        swings=swings,
        turning=turning,
        corners=corners,
        meetings=tuple(meeting for corner in corners for meeting in meetings_of(scene, corner)),
        drawers=tuple(drawer_rooms(index, survey)),
        gaps=tuple(gap for run in survey.runs for gap in end_gaps(index, run)),
        lengths=run_lengths(index, survey),
        seats=tuple(seats(index, fronts)),
        old_covers=old_covers(index, survey),
        stills=stills,
        drawn=drawn,
        checks=(),
        flaps={f.id: flap for f in every if (flap := flap_of(scene, f)) is not None},
    )
    return found.with_checks(tuple(space_checks(found, fronts)))


def _stills(scene: Scene, corners: tuple[CornerPlan, ...]) -> dict[str, tuple[Still, ...]]:
    """By run: its own, then those of the legs that meet it in a corner."""
    own = {run.id: tuple(stills_of(scene, run)) for run in scene.survey.runs if not run.run.by_itself}
    found = dict(own)
    for corner in corners:
        for run in (corner.left, corner.right):
            found[run] = (*found.get(run, ()), *other_leg(scene, corner, run, own.get(corner.other(run), ())))
    return found
