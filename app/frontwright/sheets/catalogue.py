"""Which sheets a job has, what each shows, and the paper itself."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from io import BytesIO
from itertools import groupby

from frontwright.core.plan import Plan
from frontwright.sheets import door, field_opening, field_run, set_up
from frontwright.sheets.base import SIZES, Count, Leaf, Page, foot_cells
from frontwright.sheets.info import HeldBack, Paper, SheetInfo, Stamp, digest
from frontwright.sheets.pen import Pen


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
    Kind("10", "door", door.infos, door.leaves),
    Kind("14", "set-up", set_up.infos, set_up.leaves),
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

    from frontwright.sheets.fonts import register

    register()
    out = BytesIO()
    canvas = Canvas(out, invariant=1, pageCompression=1)
    canvas.setTitle(infos[0].title if len(infos) == 1 else plan.job.heading.name or "sheets")
    canvas.setCreator("Frontwright")
    for word, group in groupby(infos, key=lambda info: info.kind):
        _play(canvas, plan, [(info, leaf) for info in group for leaf in _BY_WORD[word].leaves(plan, info, paper)], paper, stamp)
    canvas.save()
    return out.getvalue()


def _play(canvas: object, plan: Plan, leaves: Sequence[tuple[SheetInfo, Leaf]], paper: Paper, stamp: Stamp) -> None:
    """Draw the pages of one kind."""
    for number, (info, leaf) in enumerate(leaves, 1):
        short, long = SIZES[paper]
        width, height = (long, short) if leaf.landscape else (short, long)
        _page(canvas, leaf, width, height, foot_cells(leaf, plan.job.heading.name, stamp.version_of(info.key), stamp, Count(number, len(leaves))))


def _page(canvas: object, leaf: Leaf, width: float, height: float, foot: list[tuple[str, str, float]]) -> None:
    from reportlab.pdfgen.canvas import Canvas

    from frontwright.sheets.words import POINT

    assert isinstance(canvas, Canvas)
    canvas.setPageSize((width / POINT, height / POINT))
    page = Page(Pen(canvas, height), width, height)
    leaf.draw(page)
    page.frame()
    page.foot(foot)
    canvas.showPage()


__all__ = ["KINDS", "HeldBack", "Kind", "Paper", "SheetInfo", "Stamp", "digest", "make", "sheets_of"]
