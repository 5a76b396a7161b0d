"""Sheet 2, blank field sheet for a run: the running tape at two heights, members singly, ends, lean, obstacles."""

from __future__ import annotations

from collections.abc import Sequence

from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.pen import OUTLINE, Pen
from frontwright.sheets.words import width_of, words

EDGES = 13  # readings along one height; a longer run goes on on a second sheet
SCREED = "above the datum. Hook the tape at 0 and leave it there; read every edge in order, to the right."
HINT = ("write on the lines", "what fits: S0, 1, S1,", "2 and so on; sketch", "doors and drawers")


def infos(_plan: Plan) -> list[SheetInfo]:
    """The one blank sheet."""
    return [SheetInfo("02-field-run:", "02", "field-run", "", "field sheet, run")]


def leaves(_plan: Plan, _info: SheetInfo, _paper: Paper) -> list[Leaf]:
    """One page across."""
    cells = (("room", ""), ("run", ""), ("date", ""), ("read by", ""), ("written by", ""))
    return [Leaf(_draw, "2  field sheet, run", cells, landscape=True, blank=True)]


def boxes(
    pen: Pen, x0: float, x1: float, y: float, height: float, labels: Sequence[tuple[str, float]], gap: float = 2.4
) -> None:
    """A row of pencil boxes from x0 to x1, each with a label and a share of the width."""
    unit = (x1 - x0 - gap * (len(labels) - 1)) / sum(share for _, share in labels)
    for label, share in labels:
        pen.pencil(x0, y, share * unit, height, label)
        x0 += share * unit + gap


def ticks(pen: Pen, x: float, y: float, choices: Sequence[str], size: float = 11, gap: float = 5.0) -> float:
    """Boxes to tick with a word behind each, on the base line y; gives the place behind the last."""
    for choice in choices:
        pen.tick(x, y - 4.2)
        x += 6.2 + pen.words(x + 6.2, y, words(choice, size=size)) + gap
    return x


def _draw(page: Page) -> None:
    pen, x0, x1 = page.pen, page.x0 - 1, page.x1 + 1
    spare = page.bottom - page.top - 175  # a higher page gives its room to the obstacles
    _head(page, x0, x1)
    _tape(page, x0, x1)
    y = page.top + 89
    page.rule(y, OUTLINE)
    _members(pen, x0, x1, y + 2.5)
    page.rule(y + 14.3)
    _ends(pen, x0, x1, y + 20.3)
    page.rule(y + 34)
    leans = ("left edge leans", "over", "bottom rail slopes", "over", "worst bow", "on which member")
    boxes(pen, x0, x1, y + 35.8, 9.3, [(label, 1) for label in leans])
    page.rule(y + 46.9)
    _changing(pen, x0, x1, y + 53)
    page.rule(y + 56.6)
    height = (page.bottom - y - 58.2 - 3.0 - 1) / 2 if spare > 0 else 11.9
    for row, labelled in enumerate((True, False)):
        names = ("obstacle", "from datum", "sticks out", "from height", "to height", "moves?")
        shares = (3.1, 1.43, 1.43, 1.43, 1.43, 1)
        labels = [(name if labelled else "", share) for name, share in zip(names, shares, strict=True)]
        boxes(pen, x0, x1, y + 58.2 + row * (height + 1), height, labels)


def _head(page: Page, x0: float, x1: float) -> None:
    pen, base = page.pen, page.top + 8.2
    x = x0 + pen.words(x0, base, words("Run, seen from the front", size=17, bold=True)) + 5
    x += pen.words(x, base, words("unit", size=9)) + 2
    x = ticks(pen, x, base, ("mm", "inch, to 1/"), gap=2)
    pen.line(x - 1, base + 0.6, x + 8, base + 0.6)
    x += 12
    x += pen.words(x, base, words("paint included", size=9)) + 2.5
    x = ticks(pen, x, base, ("yes", "no"), gap=3)
    x += pen.words(x, base, words("counter level", size=9)) + 2.5
    pen.line(x, base + 0.6, x1, base + 0.6)
    page.rule(page.top + 12.5, OUTLINE)


def _tape(page: Page, x0: float, x1: float) -> None:
    pen, top = page.pen, page.top
    x = x0 + pen.words(x0, top + 18.5, words("TOP line", size=11, bold=True)) + 2
    x += pen.words(x, top + 18.5, words("at height", size=11)) + 2
    pen.line(x, top + 19.3, x + 20, top + 19.3)
    pen.words(x + 23, top + 18.5, words(SCREED, size=10.5, condensed=True))
    pen.words(x1, top + 18.5, words("overall", size=11, bold=True), "right")
    left, right = x0 + 18, x1 - 33
    pitch = (right - left) / EDGES
    _readings(pen, left, pitch, top + 20.9, x1)
    _arrows(pen, left, pitch, top + 33.6)
    _grid(pen, left, pitch, top + 36.6)
    _arrows(pen, left, pitch, top + 68.7)
    _readings(pen, left, pitch, top + 72.0, x1)
    pen.words(x0, top + 49.5, words("datum", size=10, bold=True))
    pen.words(x0, top + 53.8, words("left edge", size=9))
    for row, text in enumerate(HINT):
        pen.words(right + 3.5, top + 42.5 + row * 3.8, words(text, size=8, condensed=True))
    base = top + 85.8
    x = x0 + pen.words(x0, base, words("BOTTOM line", size=11, bold=True)) + 2
    x += pen.words(x, base, words("at height", size=11)) + 2
    pen.line(x, base + 0.8, x + 20, base + 0.8)
    pen.words(x1, base, words("overall", size=11, bold=True), "right")


def _readings(pen: Pen, left: float, pitch: float, y: float, x1: float) -> None:
    pen.words(left, y + 6.4, words("0", size=15, bold=True), "centre")
    for edge in range(1, EDGES + 1):
        pen.pencil(left + edge * pitch - (pitch - 1.6) / 2, y, pitch - 1.6, 9.4)
    pen.pencil(x1 - 22, y, 22, 9.4, width=OUTLINE)


def _arrows(pen: Pen, left: float, pitch: float, y: float) -> None:
    pen.line(left + 1.1, y, left + EDGES * pitch, y)
    pen.ring(left, y, 1.1, 0.35)
    for edge in range(1, EDGES + 1):
        tip = left + edge * pitch
        pen.filled((tip, y), (tip - 2.7, y - 0.8), (tip - 2.7, y + 0.8))
        pen.line(tip, y - 1.4, tip, y + 1.4)


def _grid(pen: Pen, left: float, pitch: float, y: float) -> None:
    pen.box(left, y, pitch * EDGES, 29.1, OUTLINE)
    for column in range(EDGES):
        x = left + column * pitch
        if column:
            pen.line(x, y, x, y + 29.1)
        pen.line(x + 2.4, y + 6.3, x + pitch - 2.4, y + 6.3)
        for dot in range(15):
            at, down = x + pitch / 2 + (dot % 3 - 1) * 4, y + 10 + dot // 3 * 3.8
            pen.line(at, down, at + 0.2, down, 0.3)


def _members(pen: Pen, x0: float, x1: float, y: float) -> None:
    pen.words(x0, y + 3.5, words("members,", size=11, bold=True))
    pen.words(x0, y + 8.0, words("singly", size=11, bold=True))
    split = x1 - 63
    boxes(pen, x0 + 23.5, split - 2, y, 9.4, [(str(number + 1), 1) for number in range(EDGES)], gap=1.3)
    boxes(pen, split, x1, y, 9.4, [("sum", 1), ("overall", 1), ("differ", 1)], gap=1.3)


def _ends(pen: Pen, x0: float, x1: float, y: float) -> None:
    half = (x1 - x0 - 8) / 2
    for x, name in ((x0, "LEFT end"), (x0 + half + 8, "RIGHT end")):
        title = words(name, size=11, bold=True)
        pen.words(x, y, title)
        ticks(pen, x + width_of(title) + 5, y, ("wall", "corner", "appliance", "open"), size=10, gap=4)
        boxes(pen, x, x + half, y + 2.6, 9.3, [("gap, top", 1), ("gap, bottom", 1), ("depth seen", 1)])


def _changing(pen: Pen, x0: float, x1: float, y: float) -> None:
    x = x0 + pen.words(x0, y, words("Changing soon?", size=11, bold=True)) + 4
    x = ticks(pen, x, y, ("counter", "floor", "appliance", "nothing", "not asked"), size=10.5)
    pen.line(x, y + 0.8, x1, y + 0.8)
