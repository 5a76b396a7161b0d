"""Fronts as they were measured when made: rows and columns add up what will hang, not what was planned (F18)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from frontwright.core.built import as_it_is
from frontwright.core.figures import Figure, plus, total
from frontwright.core.fronts.checks import front_checks
from frontwright.core.fronts.result import FrontPlan, FrontsPlan, Sum
from frontwright.core.job.index import JobIndex
from frontwright.core.making.result import FrontMaking, MakingPlan
from frontwright.core.survey.result import SurveyPlan

Sizes = Mapping[str, Figure]


def with_measured_fronts(index: JobIndex, survey: SurveyPlan, plan: FrontsPlan, made: MakingPlan) -> FrontsPlan:
    """The fronts with the sums of their rows and columns by the sizes as built, and their checks anew."""
    if not index.job.as_built:
        return plan
    sizes = {
        direction: {
            front.id: size
            for front in plan.fronts.values()
            if (size := _measured(index, front, made.fronts[front.id], direction)).source == "as-built"
        }
        for direction in ("row", "column")
    }
    if not any(sizes.values()):
        return plan
    sums = tuple(_as_measured(one, sizes[one.direction]) for one in plan.sums)
    return replace(plan, sums=sums, checks=tuple(front_checks(index, survey, plan.fronts, sums, plan.rows)))


def _measured(index: JobIndex, front: FrontPlan, made: FrontMaking, direction: str) -> Figure:
    """The width or height of a front as it is. A slab bears its front's id: its length is the size along the grain."""
    what, planned = ("width", front.width) if direction == "row" else ("height", front.height)
    if made.slab:
        along = (front.grain == "vertical") == (direction == "column")
        slab = made.parts[0].length if along else made.parts[0].width
        return slab if slab.source == "as-built" or what == "width" else as_it_is(index, front.id, what, planned)
    return as_it_is(index, front.id, what, planned)


def _as_measured(one: Sum, sizes: Sizes) -> Sum:
    if not any(kind in sizes for kind in one.kinds):
        return one
    terms = tuple(sizes.get(kind, term) for kind, term in zip(one.kinds, one.terms, strict=True))
    return replace(one, terms=terms, total=total(one.total.name, *(plus(term) for term in terms)))
