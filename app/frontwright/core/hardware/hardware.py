"""The hardware chapter, whole: hinges, plates (F25, F26), cups (F27), pulls and bumpers (F28), borings, weight."""

from __future__ import annotations

from frontwright.core.assumed import entered
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.hardware.boring import boring_of
from frontwright.core.hardware.checks import hardware_checks
from frontwright.core.hardware.clear import cleared, on_old_plates, zones_of
from frontwright.core.hardware.covers import Given, given_by, needed_covers
from frontwright.core.hardware.cups import cup_of
from frontwright.core.hardware.found import found_checks
from frontwright.core.hardware.hinges import even_heights, hinge_count, hinge_row
from frontwright.core.hardware.plates import with_plates
from frontwright.core.hardware.pull_screws import pull_screw
from frontwright.core.hardware.pulls import OPENS, pull_of
from frontwright.core.hardware.result import BoringPlan, Bumpers, CupPlan, HardwarePlan, HingePlan, PullPlan, PullScrew
from frontwright.core.hardware.weights import weights
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Typed
from frontwright.core.making.result import FrontMaking, MakingPlan
from frontwright.core.skins import face_strip
from frontwright.core.survey.result import SurveyPlan

HINGED = ("door", "glass")
BUMPERS = 2  # of a front that opens (F28); common practice


def hardware(index: JobIndex, survey: SurveyPlan, fronts: FrontsPlan, making: MakingPlan) -> HardwarePlan:
    """Hinges and cups of every door, pulls, bumpers and borings of every front that opens."""
    doors = [f for f in fronts.fronts.values() if f.front.kind in HINGED]
    cups = {f.id: cup_of(index, f, making.fronts[f.id].build, making.fronts[f.id].slab) for f in doors}
    given = {f.id: given_by(index, hinge_row(index, f)) for f in doors}
    hinges = {f.id: _hinges(index, survey, f, making.fronts[f.id], cups[f.id], given[f.id]) for f in doors}
    hinges = with_plates(index, hinges, given)
    places = _places(index, fronts, making)
    opening = [f for f in fronts.fronts.values() if f.front.kind in OPENS]
    found = HardwarePlan(
        hinges=hinges,
        cups=cups,
        pulls={f.id: max(0, f.look.pulls) for f in opening},
        checks=(),
        places=places,
        bumpers={f.id: _bumpers(index, f) for f in opening},
        weights={weight.run: weight for weight in weights(index, fronts, making)},
    )
    kept = found_checks(index, survey, fronts, making, found)
    return found.with_checks((*hardware_checks(index, fronts, making, found), *kept))


def borings(index: JobIndex, fronts: FrontsPlan, found: HardwarePlan) -> dict[str, BoringPlan]:
    """Every boring of every front: asked for, not part of every working out."""
    asked = (
        boring_of(index, f, found.hinges.get(f.id), found.cups.get(f.id), found.places.get(f.id))
        for f in fronts.fronts.values()
    )
    return {boring.front: boring for boring in asked if boring is not None}


def pull_screws(index: JobIndex, fronts: FrontsPlan, making: MakingPlan, found: HardwarePlan) -> dict[str, PullScrew]:
    """The screws of every pull, likewise."""
    asked = (pull_screw(index, fronts.fronts[n], making.fronts[n], pull) for n, pull in found.places.items())
    return {screw.front: screw for screw in asked if screw is not None}


def _places(index: JobIndex, fronts: FrontsPlan, making: MakingPlan) -> dict[str, PullPlan]:
    found = {front.id: pull_of(index, making, front) for front in fronts.fronts.values()}
    return {name: pull for name, pull in found.items() if pull is not None}


def _bumpers(index: JobIndex, front: FrontPlan) -> Bumpers:
    chosen = index.inherited(front.opening, "bumper")
    return Bumpers(front.id, BUMPERS, entered(index.unit, chosen if isinstance(chosen, Typed) else None, "bumper"))


def _hinges(
    index: JobIndex, survey: SurveyPlan, front: FrontPlan, made: FrontMaking, cup: CupPlan, given: Given
) -> HingePlan:
    row, opening = hinge_row(index, front), survey.openings[front.opening]
    count, why = hinge_count(index, row, front, made.mass)
    even = even_heights(index, row, front, count)
    old = on_old_plates(index, opening, front, even)
    clear = cleared(zones_of(index, opening, front, made, cup), index, front, even, old)
    inset = front.look.scheme == "inset" and (row.constant is None or row.constant.value is None)
    unknown = given.cover is None and given.without is None
    return HingePlan(
        front=front.id,
        type=row.id or None,
        name=row.name or row.id,
        count=count,
        heights=clear.heights,
        cover=given.cover,
        why=why,
        even=even,
        moved=clear.moved,
        blocked=clear.blocked,
        needs=() if inset or unknown else needed_covers(index, survey, front, clear.heights),
        forward=face_strip(index, front.run) if index.cabinet_kind(front.run) == "face frame" else None,
    )
