"""What was found on the old doors and drawers, held against the new ones: old hinges, old holes, screws of drawers."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.assumed import measured
from frontwright.core.findings import Check
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.covers import needed_covers
from frontwright.core.hardware.drawer_screws import DrawerScrew, drawer_screw, drawer_screw_check
from frontwright.core.hardware.old_hinges import Reused, old_hinge_checks
from frontwright.core.hardware.old_holes import OldHoles, old_hole_check, old_holes
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job.index import JobIndex
from frontwright.core.making.result import MakingPlan
from frontwright.core.survey.old_fronts import old_covers
from frontwright.core.survey.result import SurveyPlan


def found_checks(
    index: JobIndex, survey: SurveyPlan, fronts: FrontsPlan, making: MakingPlan, hung: HardwarePlan
) -> Iterator[Check]:
    """Every rule of what is kept of the old doors and drawers."""
    for reused in _reused(index, survey, fronts, making, hung):
        yield from old_hinge_checks(index, reused)
    yield from map(old_hole_check, holes_left(index, survey, fronts, hung))
    for screw in drawer_screws(index, fronts, making):
        if (check := drawer_screw_check(screw)) is not None:
            yield check


def holes_left(index: JobIndex, survey: SurveyPlan, fronts: FrontsPlan, hung: HardwarePlan) -> Iterator[OldHoles]:
    """The holes that old plates leave, by door."""
    for name, hinge in hung.hinges.items():
        front = fronts.fronts[name]
        row = index.job.old_hinges.get(front.opening)
        if row is not None:
            found = old_holes(index, survey.openings[front.opening], front, row, hinge.heights)
            if found is not None:
                yield found


def drawer_screws(index: JobIndex, fronts: FrontsPlan, making: MakingPlan) -> Iterator[DrawerScrew]:
    """The screws of every drawer of which something was said."""
    for name, front in fronts.fronts.items():
        if front.front.kind == "drawer" and front.opening in index.job.drawers:
            yield drawer_screw(index, front, making.fronts[name])


def _reused(
    index: JobIndex, survey: SurveyPlan, fronts: FrontsPlan, making: MakingPlan, hung: HardwarePlan
) -> Iterator[Reused]:
    if not any(row.use == "again" for row in index.job.old_hinges.values()):
        return
    by_front = old_covers(index, survey)
    for name, hinge in hung.hinges.items():
        front = fronts.fronts[name]
        row = index.job.old_hinges.get(front.opening)
        if row is None or row.use != "again":
            continue
        told = measured(row.cover, f"cover of the old hinges of {front.opening}")
        needs = hinge.needs or needed_covers(index, survey, front, hinge.heights)
        cover = told or by_front.get(front.opening)
        yield Reused(row, front, making.fronts[name], hinge, hung.cups[name], cover, needs)
