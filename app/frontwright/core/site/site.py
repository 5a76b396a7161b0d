"""Everything for work and site, put together."""

from __future__ import annotations

from frontwright.core.job.index import JobIndex
from frontwright.core.site.hanging import hanging
from frontwright.core.site.lines import level_lines
from frontwright.core.site.packing import packing
from frontwright.core.site.result import SitePlan
from frontwright.core.site.story import story_sticks
from frontwright.core.site.work import Planned, work_order
from frontwright.core.survey.result import SurveyPlan


def site(index: JobIndex, survey: SurveyPlan, plan: Planned) -> SitePlan:
    """Work in its order, lines, hanging, packing list and story sticks of a job."""
    lines = level_lines(survey, plan.fronts)
    turns = hanging(plan.fronts, plan.hardware, lines)
    return SitePlan(
        work=work_order(plan),
        lines=lines,
        hanging=turns,
        packing=packing(index, plan.fronts, plan.hardware, plan.facing, plan.finish, turns),
        sticks=story_sticks(survey, plan.fronts),
    )
