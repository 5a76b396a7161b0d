"""Which sheets a job has, what each shows, and the paper itself."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from io import BytesIO
from itertools import groupby
from typing import TYPE_CHECKING

from frontwright.core.plan import Plan
from frontwright.sheets import (
    door,
    elevation,
    field_opening,
    field_run,
    fronts,
    glue_up,
    labels,
    leaf_match,
    reveals,
    saw,
    section,
    set_up,
    stock,
    survey,
    sweeps,
)
from frontwright.sheets.base import SIZES, Count, Leaf, Page, foot_cells
from frontwright.sheets.fonts import printable, register
from frontwright.sheets.info import HeldBack, Paper, SheetInfo, Stamp, digest
from frontwright.sheets.pen import Pen
from frontwright.sheets.words import POINT

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of sheet: its number and word, which sheets of it a plan has, and their pages."""

    number: str
    word: str
    infos: Callable[[Plan], list[SheetInfo]]
    leaves: Callable[[Plan, SheetInfo, Paper], list[Leaf]]


KINDS: tuple[Kind, ...] = (
    Kind("02", "field-run", field_run.infos, field_run.leaves),
    Kind("03", "field-opening", field_opening.infos, field_opening.leaves),
    Kind("04", "survey", survey.infos, survey.leaves),
    Kind("06", "elevation", elevation.infos, elevation.leaves),
    Kind("07", "reveals", reveals.infos, reveals.leaves),
    Kind("08", "sweeps", sweeps.infos, sweeps.leaves),
    Kind("09", "fronts", fronts.infos, fronts.leaves),
    Kind("10", "door", door.infos, door.leaves),
    Kind("11", "section", section.infos, section.leaves),
    Kind("12", "stock", stock.infos, stock.leaves),
    Kind("14", "set-up", set_up.infos, set_up.leaves),
    Kind("15", "saw", saw.infos, saw.leaves),
    Kind("16", "leaves", leaf_match.infos, leaf_match.leaves),
    Kind("17", "glue-up", glue_up.infos, glue_up.leaves),
    Kind("24", "labels", labels.infos, labels.leaves),
)
_BY_WORD = {kind.word: kind for kind in KINDS}


def sheets_of(plan: Plan) -> tuple[SheetInfo, ...]:
    """Every sheet that this plan has, in working order; none of them is made yet."""
    return tuple(info for kind in KINDS for info in kind.infos(plan))


def make(plan: Plan, infos: Sequence[SheetInfo], paper: Paper, stamp: Stamp) -> bytes:
    """The sheets as one PDF, black on white, the same bytes for the same input.

    `infos` are of this plan, from `sheets_of`. Pages are counted kind by kind. Raises `HeldBack`, naming them, where
    one or more are held back by a stop, and ValueError where there is no sheet to make.
    """
    held = [info for info in infos if info.held]
    if held:
        raise HeldBack(held)
    if not infos:
        raise ValueError("there is no sheet to make")
    from reportlab.pdfgen.canvas import Canvas

    register()
    out = BytesIO()
    canvas = Canvas(out, invariant=1, pageCompression=1)
    canvas.setTitle(printable(infos[0].title if len(infos) == 1 else plan.job.heading.name or "sheets"))
    canvas.setCreator("Frontwright")
    for word, group in groupby(infos, key=lambda info: info.kind):
        leaves = [(info, leaf) for info in group for leaf in _BY_WORD[word].leaves(plan, info, paper)]
        for number, (info, leaf) in enumerate(leaves, 1):
            count = Count(number, len(leaves))
            foot = foot_cells(leaf, plan.job.heading.name, stamp.version_of(info.key), stamp, count)
            _page(canvas, leaf, paper, foot)
    canvas.save()
    return out.getvalue()


def _page(canvas: Canvas, leaf: Leaf, paper: Paper, foot: Sequence[tuple[str, str, float]]) -> None:
    short, long = SIZES[paper]
    width, height = (long, short) if leaf.landscape else (short, long)
    canvas.setPageSize((width / POINT, height / POINT))
    page = Page(Pen(canvas, height), width, height)
    leaf.draw(page)
    if not leaf.bare:
        page.frame()
        page.foot(foot)
    canvas.showPage()


__all__ = ["KINDS", "HeldBack", "Kind", "Paper", "SheetInfo", "Stamp", "digest", "make", "sheets_of"]
