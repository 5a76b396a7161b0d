"""Which hazards are at a run: old paint and old glue, dust, solvents and rags, lifting, lines behind the doors."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.assumed import ASBESTOS_UNTIL
from frontwright.core.brief import brief_of
from frontwright.core.cautions import Hazard
from frontwright.core.condition.result import Placed, SurfacePlan
from frontwright.core.job import ServiceLine
from frontwright.core.job.index import JobIndex
from frontwright.core.survey.result import RunPlan, SurveyPlan


def hazards_at(index: JobIndex, survey: SurveyPlan, surfaces: tuple[SurfacePlan, ...]) -> Iterator[Placed]:
    """The hazards of every run, the gravest first."""
    for run in survey.runs:
        own = [one for one in surfaces if one.run == run.id and one.disturbed]
        yield from _of_surfaces(index, run, own)
        if run.run.stands == "wall":
            yield Placed("lifting", run.id)
        yield from _of_lines(index, run, pinned=any(one.glued for one in own))


def _of_surfaces(index: JobIndex, run: RunPlan, own: list[SurfacePlan]) -> Iterator[Placed]:
    found: dict[Hazard, list[SurfacePlan]] = {
        "lead found": [one for one in own if one.row.finish == "paint" and one.row.swab == "lead"],
        "lead not ruled out": [one for one in own if one.old_paint],
        "asbestos": [one for one in own if one.row.where == "toe kick" and _old_house(index)],
        "dust": own,
        "solvents": [one for one in own if one.ground != "bare wood"],
        "oily rags": [one for one in own if one.row.finish == "oil or wax"],
    }
    for hazard, at in found.items():
        if at:
            yield Placed(hazard, run.id, tuple(one.id for one in at))


def _old_house(index: JobIndex) -> bool:
    year = brief_of(index.job).house_year
    return year is None or year <= ASBESTOS_UNTIL


def _of_lines(index: JobIndex, run: RunPlan, *, pinned: bool) -> Iterator[Placed]:
    openings = {opening.id for opening in run.openings}
    rows = [row for row in index.job.service_lines.values() if row.opening in openings]
    for kind in ("gas", "water", "electric"):
        at = _openings(row for row in rows if row.kind == kind)
        if at:
            yield Placed(kind, run.id, at)
    if pinned and not rows:
        yield Placed("lines not located", run.id)


def _openings(rows: Iterator[ServiceLine]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(row.opening for row in rows))
