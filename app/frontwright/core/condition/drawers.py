"""Drawers as a whole: what must lie behind an applied front, so that it comes down on its bumpers when shut (F13)."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.assumed import assumed, entered, measured
from frontwright.core.condition.result import DrawerPlan
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.job import Drawer
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, Typed
from frontwright.core.skins import face_strip
from frontwright.core.survey.result import SurveyPlan


def drawers_of(index: JobIndex, survey: SurveyPlan) -> Iterator[DrawerPlan]:
    """Every opening that holds a drawer, by run."""
    drawn = {front.opening for front in index.job.fronts.values() if front.kind == "drawer"}
    for run in survey.runs:
        for opening in run.openings:
            if opening.id in drawn:
                yield drawer_of(index, run.id, opening.id)


def drawer_of(index: JobIndex, run: str, opening: str) -> DrawerPlan:
    """The drawer of one opening of a run."""
    row = index.job.drawers.get(opening) or Drawer(opening)
    bumper = _bumper(index, opening)
    facing = face_strip(index, run)
    chosen = measured(row.packing, f"packing behind the front of {opening}")
    return DrawerPlan(
        opening=opening,
        row=row,
        facing=facing,
        bumper=bumper,
        box_front=_box_front(index, row),
        packing=_packing(row, facing, bumper),
        chosen=None if chosen is None else Figure(chosen.name, chosen.value, "chosen"),
    )


def _packing(row: Drawer, facing: Figure | None, bumper: Figure) -> Figure:
    """Facing and bumper less what the box stands out; nothing where the front itself stops the drawer."""
    name = f"packing behind the front of {row.id}"
    if row.closes == "against the frame":
        return Figure(name, Length(0), "derived", "the front itself stops the drawer on the frame")
    out = measured(row.box_out, f"box front of {row.id} before the frame")
    if out is None:
        out = Figure(
            f"box front of {row.id} before the frame", bumper.value, "assumed", "as far as the old front's bumper"
        )
    return total(name, *([] if facing is None else [plus(facing)]), plus(bumper), minus(out), how="F13")


def _bumper(index: JobIndex, opening: str) -> Figure:
    told = index.inherited(opening, "bumper")
    return entered(index.unit, told if isinstance(told, Typed) else None, "bumper")


def _box_front(index: JobIndex, row: Drawer) -> Figure:
    """How thick the front of the box is, read or as usual."""
    return measured(row.box_front, f"box front of {row.id}") or assumed(index.unit, "box front")
