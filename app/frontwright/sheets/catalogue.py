"""Which sheets a job has, what each shows, and the paper itself."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from itertools import groupby
from typing import TYPE_CHECKING

from frontwright.core.bill.result import WholeBill
from frontwright.core.plan import Plan, billed_whole
from frontwright.core.stock.counting import Shelf
from frontwright.sheets import (
    boring,
    brief,
    condition,
    counting,
    cutting,
    door,
    elevation,
    field_opening,
    field_run,
    finish,
    fronts,
    glue_up,
    labels,
    leaf_match,
    quote,
    reveals,
    saw,
    section,
    set_up,
    site,
    stock,
    story_stick,
    survey,
    sweeps,
    trim_map,
    work,
)
from frontwright.sheets.base import SIZES, Count, Leaf, Page, foot_cells
from frontwright.sheets.fonts import printable, register
from frontwright.sheets.info import HeldBack, Paper, SheetInfo, Stamp, digest, with_blanks
from frontwright.sheets.pen import Pen
from frontwright.sheets.words import POINT

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas


type Bill = Callable[[], WholeBill]


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of sheet: its number and word, which sheets of it a plan has, and their pages."""

    number: str
    word: str
    infos: Callable[[Plan, Bill], list[SheetInfo]]
    leaves: Callable[[Plan, Bill, SheetInfo, Paper], list[Leaf]]


def _planned(
    number: str,
    word: str,
    infos: Callable[[Plan], list[SheetInfo]],
    leaves: Callable[[Plan, SheetInfo, Paper], list[Leaf]],
) -> Kind:
    """A kind that is made from the plan alone."""
    return Kind(number, word, lambda plan, _: infos(plan), lambda plan, _, info, paper: leaves(plan, info, paper))


def _billed(
    number: str,
    word: str,
    infos: Callable[[Plan, WholeBill], list[SheetInfo]],
    leaves: Callable[[Plan, WholeBill, SheetInfo, Paper], list[Leaf]],
) -> Kind:
    """A kind that shows what is pulled, bought and paid."""
    return Kind(
        number,
        word,
        lambda plan, bill: infos(plan, bill()),
        lambda plan, bill, info, paper: leaves(plan, bill(), info, paper),
    )


KINDS: tuple[Kind, ...] = (
    _planned("01", "brief", brief.infos, brief.leaves),
    _planned("02", "field-run", field_run.infos, field_run.leaves),
    _planned("03", "field-opening", field_opening.infos, field_opening.leaves),
    _planned("04", "survey", survey.infos, survey.leaves),
    _planned("05", "condition", condition.infos, condition.leaves),
    _planned("06", "elevation", elevation.infos, elevation.leaves),
    _planned("07", "reveals", reveals.infos, reveals.leaves),
    _planned("08", "sweeps", sweeps.infos, sweeps.leaves),
    _planned("09", "fronts", fronts.infos, fronts.leaves),
    _planned("10", "door", door.infos, door.leaves),
    _planned("11", "section", section.infos, section.leaves),
    _billed("12", "stock", stock.infos, stock.leaves),
    _planned("13", "cutting", cutting.infos, cutting.leaves),
    _planned("14", "set-up", set_up.infos, set_up.leaves),
    _planned("15", "saw", saw.infos, saw.leaves),
    _planned("16", "leaves", leaf_match.infos, leaf_match.leaves),
    _planned("17", "glue-up", glue_up.infos, glue_up.leaves),
    _planned("18", "trim-map", trim_map.infos, trim_map.leaves),
    _planned("19", "boring", boring.infos, boring.leaves),
    _planned("20", "finish", finish.infos, finish.leaves),
    _planned("21", "site", site.infos, site.leaves),
    _planned("24", "labels", labels.infos, labels.leaves),
    _billed("25", "quote", quote.infos, quote.leaves),
    _planned("26", "story-stick", story_stick.infos, story_stick.leaves),
    _planned("27", "work", work.infos, work.leaves),
)
_BY_WORD = {kind.word: kind for kind in KINDS}


def sheets_of(plan: Plan, bill: Bill | None = None) -> tuple[SheetInfo, ...]:
    """Every sheet that this plan has, in working order; none of them is made yet.

    `bill` gives what is pulled, bought and paid, as it was reckoned with a whole rack; else it is reckoned with the
    job's own pieces.
    """
    whole = _once(plan, bill)
    return tuple(info for kind in KINDS for info in kind.infos(plan, whole))


def _once(plan: Plan, bill: Bill | None) -> Bill:
    """The bill, reckoned when it is asked for, and once."""
    return cache(bill if bill is not None else lambda: billed_whole(plan))


def make(plan: Plan, infos: Sequence[SheetInfo], paper: Paper, stamp: Stamp, bill: Bill | None = None) -> bytes:
    """The sheets as one PDF, black on white, the same bytes for the same input.

    `infos` are of this plan and bill, from `sheets_of`. Pages are counted kind by kind. Raises `HeldBack`, naming them,
    where one or more are held back by a stop, and ValueError where there is no sheet to make.
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
    whole = _once(plan, bill)
    for word, group in groupby(infos, key=lambda info: info.kind):
        leaves = [(info, leaf) for info in group for leaf in _BY_WORD[word].leaves(plan, whole, info, paper)]
        for number, (info, leaf) in enumerate(leaves, 1):
            count = Count(number, len(leaves))
            foot = foot_cells(leaf, plan.job.heading.name, stamp.version_of(info.key), stamp, count)
            _page(canvas, leaf, paper, foot)
    canvas.save()
    return out.getvalue()


def counting_list(shelves: Sequence[Shelf], seen: Mapping[str, str], paper: Paper, job: str, stamp: Stamp) -> bytes:
    """The list of counting day as a PDF, black on white; `seen`: the day each piece was last seen."""
    from reportlab.pdfgen.canvas import Canvas

    register()
    out = BytesIO()
    canvas = Canvas(out, invariant=1, pageCompression=1)
    canvas.setTitle(counting.TITLE)
    canvas.setCreator("Frontwright")
    found = counting.leaves(shelves, seen, paper)
    for number, leaf in enumerate(found, 1):
        _page(canvas, leaf, paper, foot_cells(leaf, job, stamp.version, stamp, Count(number, len(found))))
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


__all__ = [
    "KINDS",
    "HeldBack",
    "Kind",
    "Paper",
    "SheetInfo",
    "Stamp",
    "counting_list",
    "digest",
    "make",
    "sheets_of",
    "with_blanks",
]
