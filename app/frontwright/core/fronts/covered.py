"""Openings as inset fronts see them: made smaller by what covers their inside edges (F42)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.fronts.result import LookPlan
from frontwright.core.job.index import JobIndex
from frontwright.core.skins import inside_edge
from frontwright.core.survey.result import OpeningPlan, RunPlan


def covered(index: JobIndex, run: RunPlan, looks: Mapping[str, LookPlan]) -> RunPlan:
    """The run with its inset openings as they are once their edges are covered; the same run where none is."""
    strip = inside_edge(index, run.id)
    if strip is None:
        return run
    around = index.job.facings[run.id].inside_edges == "all round"
    openings = tuple(_smaller(o, strip, around=around) if looks[o.id].scheme == "inset" else o for o in run.openings)
    return replace(run, openings=openings)


def _smaller(opening: OpeningPlan, strip: Figure, *, around: bool) -> OpeningPlan:
    """F42: the width less two strips; the height likewise where the rails are covered too."""
    made = replace(
        opening,
        left=_moved(opening.left, strip, 1),
        right=_moved(opening.right, strip, -1),
        width=_less(opening.width, strip),
        width_least=_less(opening.width_least, strip),
        width_middle=_less(opening.width_middle, strip),
        width_most=_less(opening.width_most, strip),
    )
    if not around:
        return made
    return replace(
        made,
        bottom=_moved(opening.bottom, strip, 1),
        top=_moved(opening.top, strip, -1),
        height=_less(opening.height, strip),
        height_least=_less(opening.height_least, strip),
        height_middle=_less(opening.height_middle, strip),
        height_most=_less(opening.height_most, strip),
    )


def _less(size: Figure, strip: Figure) -> Figure:
    return total(f"{size.name}, its edges covered", plus(size), minus(strip, 2))


def _moved(edge: Figure | None, strip: Figure, way: int) -> Figure | None:
    return None if edge is None else total(f"{edge.name}, covered", plus(edge), plus(strip, way))
