"""The drawing beside the tables of a page."""

from __future__ import annotations

from frontwright.core.drawing.door import door
from frontwright.core.drawing.elevation import elevation
from frontwright.core.drawing.marks import Drawing
from frontwright.core.drawing.section import section
from frontwright.core.drawing.survey_opening import opening_as_read
from frontwright.core.drawing.survey_run import survey_run
from frontwright.core.drawing.sweep import sweep
from frontwright.core.lengths import in_units
from frontwright.core.survey.result import RunPlan
from frontwright.desk.contents import Board
from frontwright.desk.pages.view import View

WIDE = 2.2  # as wide to high as a run must be to lie across the top


def survey_board(view: View, run: RunPlan) -> Board:
    """The run as read, and the selected opening by itself."""
    drawings = [survey_run(view.plan, run.id)]
    opening = next((o.id for o in run.openings if o.id == view.selected), None)
    if opening is None and len(run.openings) == 1:
        opening = run.openings[0].id
    if opening is not None:
        drawings.append(opening_as_read(view.plan, opening))
    return Board(tuple(drawings), wide=is_wide(drawings[0]))


def fronts_board(view: View, run: str) -> Board:
    """The elevation of a run, and from above what the selected front sweeps."""
    drawing = elevation(view.plan, run)
    one = view.plan.fronts.fronts.get(view.selected)
    opens = one is not None and one.placed and (one.id in view.plan.space.swings or one.id in view.plan.space.drawn)
    drawings = (drawing, sweep(view.plan, run, view.selected)) if opens and one and one.run == run else (drawing,)
    return Board(drawings, wide=is_wide(drawing))


def is_wide(drawing: Drawing) -> bool:
    box = drawing.bounds
    across, up = in_units(box.right) - in_units(box.left), in_units(box.top) - in_units(box.bottom)
    return up > 0 and across >= WIDE * up


def making_board(view: View, front: str) -> Board:
    """A front from before and behind, and the section at its cup."""
    drawings = [door(view.plan, front)]
    cut = section(view.plan, front)
    return Board((drawings[0], cut) if cut is not None else tuple(drawings))
