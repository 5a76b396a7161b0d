"""Sheet 12, pull list: what to take from which shelf, and what it is for."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from frontwright.core.bill.result import Pull, WholeBill
from frontwright.core.job import Piece
from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing, title_height
from frontwright.sheets.bill_words import alternative
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import (
    COLUMN_HEAD,
    Band,
    ListHead,
    inside,
    list_drawer,
    paged,
    spread,
    text_band,
    title_band,
)
from frontwright.sheets.subjects import Shows, sheet, species_name
from frontwright.sheets.words import Part, fit, strong, typed_size, words, wrap

SUBJECT = "pull"
ROW = 12.0
NOTE = "Take it from its shelf, mark it with the job, tick it. What is not there: say so before anything is cut."
HEADS = ("taken", "piece", "count", "wood", "length × width × thickness", "for")
COLUMNS = (0.0, 9.0, 36.0, 51.0, 86.0, 133.0)
NO_SHELF = "No shelf told"


def infos(plan: Plan, bill: WholeBill) -> list[SheetInfo]:
    """One for the job, if it takes anything from the rack."""
    if not bill.pull:
        return []
    told = [fact for one in bill.pull for fact in _told(plan, one)]
    told += [(f"instead, {at}", text) for at, text in enumerate(_instead(plan, bill), 1)]
    return [sheet(plan, "12", "stock", SUBJECT, "pull list", {one.piece for one in bill.pull}, Shows((), tuple(told)))]


def _told(plan: Plan, one: Pull) -> Iterator[tuple[str, str]]:
    yield f"shelf of {one.piece}", one.shelf
    yield f"how many of {one.piece}", f"{one.count}{_of_more(plan, one)}"
    yield f"wood of {one.piece}", _wood(plan, one)
    yield f"size of {one.piece}", "".join(str(part) for part in _size(plan.job.pieces.get(one.piece)))
    yield f"what {one.piece} is for", ", ".join(one.of)


def leaves(plan: Plan, bill: WholeBill, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """Shelf by shelf; then what would have to be allowed so that less is bought."""
    width, height = inside(paper)
    box = standing(info, plan.display)
    room = height - title_height((NOTE,), width) - COLUMN_HEAD
    pages = paged(list(_bands(plan, bill, width)), room - sentence_height(box, width), room)
    count = sum(one.count for one in bill.pull)
    said = f"{count} {'piece' if count == 1 else 'pieces'}"
    cells = (("goes to", "rack"),)
    head = ListHead("Pull list", said, NOTE, HEADS, COLUMNS)
    return [Leaf(list_drawer(head, page, box if not n else ()), "12  pull list", cells) for n, page in enumerate(pages)]


def _bands(plan: Plan, bill: WholeBill, width: float) -> Iterator[Band]:
    shelves = sorted(bill.pull, key=lambda one: not one.shelf)
    for shelf, lines in groupby(shelves, key=lambda one: one.shelf):
        yield title_band(words(strong(f"Shelf {shelf}" if shelf else NO_SHELF), size=13))
        for one in lines:
            yield _band(plan, one)
    instead = list(_instead(plan, bill))
    if instead:
        yield title_band(words(strong("Less would be bought"), " if one of these were allowed", size=11))
        yield text_band([row for text in instead for row in wrap(words(text, size=10), width)])


def _instead(plan: Plan, bill: WholeBill) -> Iterator[str]:
    """What would have to be allowed, group by group."""
    for answer in bill.enough.groups:
        for one in answer.conditions:
            yield f"{answer.group.id}: {alternative(one, plan.display)}."


def _wood(plan: Plan, one: Pull) -> str:
    wood = " ".join(text for text in (species_name(plan, one.species), one.form) if text)
    return f"{wood}, batch {one.batch}" if one.batch else wood


def _size(piece: Piece | None) -> tuple[str, ...]:
    return typed_size(piece.length, piece.width, piece.thickness) if piece is not None else ()


def _of_more(plan: Plan, one: Pull) -> str:
    """How many alike lie there, where not all of them are taken."""
    piece = plan.job.pieces.get(one.piece)
    return f" of {piece.count}" if piece is not None and piece.count > one.count else ""


def _band(plan: Plan, one: Pull) -> Band:
    piece = plan.job.pieces.get(one.piece)
    size: list[Part] = list(_size(piece))

    def draw(page: Page, y: float) -> None:
        pen, x, base = page.pen, spread(page, COLUMNS), y + 6.6
        pen.tick(x[0], y + 2.6)
        lines = (
            words(one.piece, size=15, bold=True),
            words(f"{one.count}{_of_more(plan, one)}", size=12),
            words(f"{species_name(plan, one.species)} {one.form}".strip(), size=11),
            words(*size, size=12, bold=True),
            words(", ".join(one.of), size=10),
        )
        batch = words(f"batch {one.batch}" if one.batch else "", size=9, condensed=True)
        pen.words(x[3], y + 10.8, fit(batch, x[4] - x[3] - 1.5)) if batch else None
        for at, end, line in zip(x[1:], (*x[2:], page.x1), lines, strict=True):
            pen.words(at, base, fit(line, end - at - 1.5)) if line else None

    return Band(ROW, draw)
