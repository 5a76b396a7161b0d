"""The survey chapter, whole."""

from __future__ import annotations

from frontwright.core.job.index import JobIndex
from frontwright.core.survey.checks import survey_checks
from frontwright.core.survey.old_fronts import old_front_checks
from frontwright.core.survey.result import SurveyPlan
from frontwright.core.survey.runs import run_plan


def survey(index: JobIndex) -> SurveyPlan:
    """Every run in order, every opening by its id, and the survey's checks."""
    runs = tuple(run_plan(index, run) for run in index.runs)
    openings = {opening.id: opening for run in runs for opening in run.openings}
    return SurveyPlan(runs, openings, (*survey_checks(index, runs), *old_front_checks(index, openings)))
