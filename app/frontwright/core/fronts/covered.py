"""Openings as inset fronts see them: made smaller, and upright where wanted, by what covers their edges (F42)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from frontwright.core.figures import Figure, Term, least, minus, most, plus, total
from frontwright.core.fronts.result import LookPlan
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO
from frontwright.core.returns import CoveredOpening, covered_opening
from frontwright.core.skins import inside_edge
from frontwright.core.survey.result import OpeningPlan, RunPlan


def covered(index: JobIndex, run: RunPlan, looks: Mapping[str, LookPlan]) -> RunPlan:
    """The run with its inset openings as they are once their edges are covered; the same run where none is."""
    if inside_edge(index, run.id) is None:
        return run
    return replace(run, openings=tuple(_seen(index, o) if looks[o.id].scheme == "inset" else o for o in run.openings))


def _seen(index: JobIndex, opening: OpeningPlan) -> OpeningPlan:
    found = covered_opening(index, opening)
    return opening if found is None else smaller(opening, found)


def smaller(opening: OpeningPlan, found: CoveredOpening) -> OpeningPlan:
    """The opening that its returns leave; a squared one leans no more."""
    lean = Figure(f"lean of {opening.id}", ZERO, "derived", "squared by its returns") if found.squared else opening.lean
    x, y = _edges(opening, found)
    return replace(
        opening,
        left=x[0],
        right=x[1],
        bottom=y[0],
        top=y[1],
        widths=found.widths,
        heights=found.heights,
        width=_size(opening.width, opening.widths[1], found.widths[1], squared=found.squared),
        height=_size(opening.height, opening.heights[1], found.heights[1], squared=found.squared),
        width_least=least(f"least width of {opening.id}, its edges covered", found.widths),
        width_middle=found.widths[1],
        width_most=most(f"widest of {opening.id}, its edges covered", found.widths),
        height_least=least(f"least height of {opening.id}, its edges covered", found.heights),
        height_middle=found.heights[1],
        height_most=most(f"highest of {opening.id}, its edges covered", found.heights),
        lean=lean,
    )


def _size(bare: Figure, middle: Figure, covered: Figure, *, squared: bool) -> Figure:
    """The size where the running tape ran, less what the returns take of the middle one."""
    if squared or bare.value == middle.value:
        return covered
    return total(f"{bare.name}, its edges covered", plus(bare), minus(middle), plus(covered))


type _Edges = tuple[Figure | None, Figure | None]


def _edges(opening: OpeningPlan, found: CoveredOpening) -> tuple[_Edges, _Edges]:
    """Where its edges lie on the run: moved in by the returns, the far ones a covered size further."""
    left, bottom = _moved(opening.left, found.shift[0]), _moved(opening.bottom, found.shift[1])
    width = _size(opening.width, opening.widths[1], found.widths[1], squared=found.squared)
    height = _size(opening.height, opening.heights[1], found.heights[1], squared=found.squared)
    top = _further(bottom, height) if "top" in found.returns else opening.top
    return (left, _further(left, width)), (bottom, top)


def _moved(edge: Figure | None, by: Figure) -> Figure | None:
    return None if edge is None else total(f"{edge.name}, covered", plus(edge), plus(by))


def _further(edge: Figure | None, size: Figure) -> Figure | None:
    return None if edge is None else total(f"{edge.name}, further edge", Term(edge), plus(size))
