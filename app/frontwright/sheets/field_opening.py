"""Sheet 3, blank field sheet for openings: ten boxes in reading order, four openings to a page."""

from __future__ import annotations

from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page
from frontwright.sheets.field_run import boxes, ticks
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.pen import OUTLINE, THIN, Pen
from frontwright.sheets.words import words

TO_A_PAGE = 4
ORDER = "Read in the order of the numbers. Each box: to the nearest 1/32 in or 0.5 mm. Ring what was read twice."


def infos(_plan: Plan) -> list[SheetInfo]:
    """The one blank sheet."""
    return [SheetInfo("03-field-opening:", "03", "field-opening", "", "field sheet, openings")]


def leaves(_plan: Plan, _info: SheetInfo, _paper: Paper) -> list[Leaf]:
    """One page, four openings."""
    cells = (("run", ""), ("date", ""), ("read by", ""), ("written by", ""))
    return [Leaf(_draw, "3  field sheet", cells, blank=True)]


def _draw(page: Page) -> None:
    pen = page.pen
    base = page.top + 7.6
    x = page.x0 + pen.words(page.x0, base, words("Openings, seen from the front", size=15, bold=True)) + 5
    x += pen.words(x, base, words("unit", size=9)) + 2
    ticks(pen, x, base, ("mm", "inch"), size=10, gap=2.5)
    pen.words(page.x0, base + 5.4, words(ORDER, size=9, condensed=True))
    top = page.top + 15.6
    page.rule(top, OUTLINE)
    height = (page.bottom - top) / TO_A_PAGE
    for number in range(TO_A_PAGE):
        if number:
            page.rule(top + number * height, OUTLINE)
        _opening(page, top + number * height, height)


def _opening(page: Page, top: float, height: float) -> None:
    pen = page.pen
    split = page.x0 + 104
    _sketch(pen, page.x0, split - 4, top + 2.2, top + height - 2.2)
    pen.line(split, top, split, top + height)
    _asked(pen, split + 4, page.x1, top + 2.2, top + height - 2.2)


def _sketch(pen: Pen, x0: float, x1: float, y0: float, y1: float) -> None:
    """The opening with both diagonals; each box lies where its reading is taken."""
    box = (24.0, 8.2)
    left, right = x0 + 25, x1 - 25
    top, low = y0 + box[1] + 1.4, y1 - box[1] - 1.4
    pen.box(left, top, right - left, low - top, OUTLINE)
    pen.line(left, top, right, low, THIN, (2.4, 1.4))
    pen.line(left, low, right, top, THIN, (2.4, 1.4))
    middle, centre = (left + right) / 2, (top + low) / 2
    _blank(pen, middle - 12, y0, "1  width, top")
    _blank(pen, middle - 12, centre - 8.4, "2  width, middle")
    _blank(pen, middle - 12, y1 - box[1], "3  width, bottom")
    _blank(pen, x0, centre - 4.1, "4  height, left")
    _blank(pen, middle - 12, centre + 0.6, "5  height, middle")
    _blank(pen, x1 - 24, centre - 4.1, "6  height, right")
    _blank(pen, x0, y0, "7  diagonal \\")
    _blank(pen, x0, y1 - box[1], "8  diagonal /")
    pen.words(right + 1.5, y0 + 3.4, words("opening", size=7))
    pen.line(right + 1.5, y0 + 8.2, x1, y0 + 8.2)
    pen.words(right + 1.5, y1 - 4.8, words("over paint?", size=7))
    pen.line(right + 1.5, y1, x1, y1)


def _blank(pen: Pen, x: float, y: float, label: str) -> None:
    """A pencil box that covers what lies under it."""
    pen.clear(x, y, 24, 8.2)
    pen.pencil(x, y, 24, 8.2, label)


def _asked(pen: Pen, x0: float, x1: float, y0: float, y1: float) -> None:
    """What is asked beside the sketch, in rows of equal height."""
    row = (y1 - y0) / 6
    high = row - 1.6
    boxes(pen, x0, x1, y0, high, [("9  depth inside", 1), ("10  shelf heights", 1.6)])
    pen.words(x0, y0 + row + 4.6, words("holds", size=9, bold=True))
    ticks(pen, x0 + 12, y0 + row + 4.6, ("door", "pair"), size=9, gap=2.5)
    ticks(pen, x0 + 12, y0 + 2 * row + 3.6, ("drawer", "fixed"), size=9, gap=2.5)
    boxes(
        pen, x0, x1, y0 + 3 * row, high, [("drawer box, w", 1.35), ("h", 0.75), ("long", 0.8), ("runner", 1)], gap=1.2
    )
    boxes(
        pen,
        x0,
        x1,
        y0 + 4 * row,
        high,
        [("old front, w", 1.25), ("h", 0.75), ("thick", 0.8), ("hinge side", 1.1)],
        gap=1.2,
    )
    boxes(pen, x0, x1, y0 + 5 * row, row, [("doubtful", 1)])
