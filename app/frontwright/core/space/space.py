"""The space chapter, whole: fronts against walls, appliances, corners, drawers and skins, with tried ways out."""

from __future__ import annotations

from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Display
from frontwright.core.making.result import MakingPlan
from frontwright.core.space.measure import measured_space
from frontwright.core.space.result import SpacePlan
from frontwright.core.space.ways import After, with_ways
from frontwright.core.survey.result import SurveyPlan


def space(
    index: JobIndex,
    survey: SurveyPlan,
    fronts: FrontsPlan,
    making: MakingPlan,
    hardware: HardwarePlan,
    display: Display,
) -> SpacePlan:
    """Everything that opens, meets or goes in; nothing is tried as long as nothing is found."""
    found = measured_space(index, survey, fronts, making, hardware)
    here = (*fronts.checks, *making.checks, *hardware.checks, *found.checks)
    return with_ways(index.job, After(fronts, making, hardware, found, here), display)
