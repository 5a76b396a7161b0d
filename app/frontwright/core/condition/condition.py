"""The condition chapter, whole: what is there, what may be glued to, what must be put right first, what can hurt."""

from __future__ import annotations

from frontwright.core.condition.checks import drawer_checks, repair_checks, surface_checks
from frontwright.core.condition.drawers import drawers_of
from frontwright.core.condition.hazards import hazards_at
from frontwright.core.condition.result import ConditionPlan
from frontwright.core.condition.surfaces import surfaces_of
from frontwright.core.job.index import JobIndex
from frontwright.core.survey.result import SurveyPlan


def condition(index: JobIndex, survey: SurveyPlan) -> ConditionPlan:
    """Surfaces, drawers and hazards of every run; the checks on them."""
    surfaces = tuple(surfaces_of(index, survey))
    drawers = {one.opening: one for one in drawers_of(index, survey)}
    told = tuple(one for one in drawers.values() if one.opening in index.job.drawers)
    fronts = {front.opening: front.id for front in index.job.fronts.values() if front.kind == "drawer"}
    checks = (
        *surface_checks(index, survey, surfaces),
        *repair_checks(index, survey),
        *drawer_checks(told, fronts),
    )
    return ConditionPlan(surfaces, drawers, tuple(hazards_at(index, survey, surfaces)), checks)
