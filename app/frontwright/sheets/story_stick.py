"""Sheet 26, story stick: all edges of a run from the datum, by height, as a list and full size in pieces.

The pieces are cut out and stuck end to end on a straight batten: the arrow of each lies on that of the one before, and
its first mark is checked with a tape from the datum.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from frontwright.core.figures import Figure
from frontwright.core.lengths import MM, in_units
from frontwright.core.plan import Plan
from frontwright.core.site.result import Mark, StoryStick
from frontwright.core.site.story import story_sticks
from frontwright.sheets.base import Leaf, Page, sentence_height, standing, title_height
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, draw_bands, inside, paged
from frontwright.sheets.pen import OUTLINE, THIN
from frontwright.sheets.rows import Cells, cells_band
from frontwright.sheets.section import bar
from frontwright.sheets.subjects import Shows, run_ids, run_of, sheet
from frontwright.sheets.words import Part, Words, exactly, fit, width_of, words

LIST = (0.0, 32.0, 96.0, 128.0, 155.0)
HEADS = ("from the datum", "edge", "lane", "is", "drawn")
LANES = {"along": "row", "up": "column"}
STRIP, BETWEEN, BAR = 30.0, 4.0, 18.0  # height of a piece, between pieces, room for the bar to measure
NAME = 30.0  # the widest name of a mark
TOP = 4.6  # the head of a piece: its number, and the names of members
LAP = 10.0  # so much of the end of a piece stands on the next one too
HOW = (
    "Full size: measure the bar first. Cut the pieces out, lay the arrows at their ends on each other, stick them on a "
    "straight batten. Check the last mark with a tape from the datum before the stick is trusted."
)
NOTE = (
    "Every edge of frame and fronts from the datum, the tape not moved in between. Write beside it what it really is."
)


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of a stick that goes on the paper: from so many millimetres of it to so many."""

    number: int
    start: float
    end: float


def infos(plan: Plan) -> list[SheetInfo]:
    """Two for every run: along it and up it."""
    return [_info(plan, stick) for stick in story_sticks(plan.survey, plan.fronts)]


def _subject(stick: StoryStick) -> str:
    return f"{stick.run} {stick.way}"


def _info(plan: Plan, stick: StoryStick) -> SheetInfo:
    figures = tuple((mark.what, mark.at) for mark in stick.marks)
    lanes = (("lanes", "; ".join(stick.lanes)),)
    run = run_of(plan, stick.run)
    ids = (run_ids(run) if run else {stick.run}) | set(stick.of)
    title = f"story stick, run {stick.run}, {stick.way}"
    return sheet(plan, "26", "story-stick", _subject(stick), title, ids, Shows(figures, lanes))


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The list upright, then the pieces across."""
    stick = next(s for s in story_sticks(plan.survey, plan.fronts) if _subject(s) == info.subject)
    width, height = inside(paper)
    box = standing(info, plan.display)
    lanes = "; ".join(f"{LANES[stick.way]} {at}: {lane}" for at, lane in enumerate(stick.lanes, 1))
    told = cells_band((0.0,), Cells(((lanes,),), size=9.5), width)
    bands = [told, _head(width), *(_band(plan, stick, mark, width) for mark in stick.marks)]
    room = height - title_height((NOTE,), width)
    name, cells = f"26  {info.title}", (("seen from", "front"),)
    title = partial(_list_page, f"Story stick, run {stick.run}, {stick.way}", f"{len(stick.marks)} marks")
    found = [
        Leaf(partial(title, box if not n else (), page), name, cells)
        for n, page in enumerate(paged(bands, room - sentence_height(box, width), room))
    ]
    return [*found, *_full_size(stick, name, paper)]


def _list_page(title: str, count: str, box: Words, bands: Sequence[Band], page: Page) -> None:
    y = page.title(title, count, (NOTE,))
    y = page.sentence(y, box) if box else y
    draw_bands(page, y, bands)


def _head(width: float) -> Band:
    parts: tuple[tuple[Part, ...], ...] = tuple((head,) for head in HEADS)
    return cells_band(LIST, Cells(parts, size=8.5, least=6.6), width)


def _band(plan: Plan, stick: StoryStick, mark: Mark, width: float) -> Band:
    lane = f"{LANES[stick.way]} {mark.lane}" if mark.lane else "all"
    parts: tuple[tuple[Part, ...], ...] = (exactly(mark.at, plan.display), (mark.what,), (lane,), (), ())
    return cells_band(LIST, Cells(parts, frozenset((0,)), frozenset((4,)), frozenset((3,)), size=11, box=6.6), width)


# -- full size


def _full_size(stick: StoryStick, name: str, paper: Paper) -> list[Leaf]:
    width, height = inside(paper, landscape=True)
    pieces = list(_pieces(_paper(stick.length), width - 8))
    a_page = max(1, int((height - title_height((HOW,), width) - BAR) // (STRIP + BETWEEN)))
    pages = [pieces[at : at + a_page] for at in range(0, len(pieces), a_page)]
    cells = (("seen from", "front"), ("scale", "1:1"))
    return [Leaf(_full_size_drawer(stick, page, len(pieces)), name, cells, landscape=True) for page in pages]


def _paper(figure: Figure) -> float:
    """Millimetres of paper at full size."""
    return float(in_units(figure.value)) / MM.units


def _pieces(long: float, width: float) -> Iterator[Piece]:
    """So many as the stick takes; each goes on a lap beyond where the next begins."""
    step, at, number = width - LAP, 0.0, 1
    while True:
        yield Piece(number, at, min(at + width, long))
        if at + width >= long:
            return
        at, number = at + step, number + 1


def _full_size_drawer(stick: StoryStick, pieces: Sequence[Piece], of: int) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        title = f"Story stick, run {stick.run}, {stick.way}, full size"
        first, last = pieces[0].number, pieces[-1].number
        y = page.title(title, f"pieces {first} to {last} of {of}", (HOW,))
        bar(page.pen, page.x0, y + 10)
        y += BAR
        for piece in pieces:
            _piece(page, y, stick, piece, last=piece.number == of)
            y += STRIP + BETWEEN

    return draw


def _piece(page: Page, y: float, stick: StoryStick, piece: Piece, *, last: bool) -> None:
    """A piece to cut out: members marked through its whole height, fronts in their lanes; arrows where pieces meet."""
    pen, x0 = page.pen, page.x0
    long = piece.end - piece.start
    pen.box(x0, y, long, STRIP, THIN)
    tall = (STRIP - TOP) / max(len(stick.lanes), 1)
    for lane in range(len(stick.lanes)):
        pen.line(x0, y + TOP + lane * tall, x0 + long, y + TOP + lane * tall, THIN, (1.0, 1.0))
    name = words(f"piece {piece.number}", size=8, bold=True)
    pen.words(x0 + long / 2, y + 3.4, name, "centre")
    taken = {3.4: [((long - width_of(name)) / 2, (long + width_of(name)) / 2)]}  # by height: from, to
    if piece.number > 1:
        _arrow(page, x0 + LAP, y, "down")
    if not last:
        _arrow(page, x0 + long, y, "up")
    for mark in stick.marks:
        at = _paper(mark.at) - piece.start
        if -0.01 <= at <= long + 0.01:
            top = y + TOP + (mark.lane - 1) * tall if mark.lane else y
            low = top + tall if mark.lane else y + STRIP
            pen.line(x0 + at, top, x0 + at, low, OUTLINE if not mark.lane else THIN)
            line = fit(words(_short(mark.what), size=min(7.5, tall * 2.2)), NAME)
            wide = width_of(line) + 1
            before = (mark.what.startswith(("right", "top")) or at + wide > long) and at > wide
            down = min(3.4, tall - 0.6) if mark.lane else _free(taken, at - wide if before else at, wide)
            _name(page, x0 + at, top + down, line, before=before)


def _free(taken: dict[float, list[tuple[float, float]]], begins: float, wide: float) -> float:
    """How far down a name of a member stands: at the top, else above the lower edge or one line higher."""
    heights = (3.4, STRIP - 1.0, STRIP - 4.4)
    for down in heights:
        if all(begins + wide <= one or begins >= other for one, other in taken.get(down, ())):
            break
    else:
        down = heights[0]
    taken.setdefault(down, []).append((begins, begins + wide))
    return down


def _name(page: Page, x: float, y: float, line: Words, *, before: bool) -> None:
    """The name of an edge beside its mark: on the side where its thing lies, where there is room."""
    page.pen.words(x - 0.6 if before else x + 0.6, y, line, "right" if before else "left")


def _short(what: str) -> str:
    """Names of edges in few letters: "F5 left, S1 right"."""
    parts = (text.split(" of ", 1) for text in what.split(", "))
    return ", ".join(f"{part[1]} {part[0]}" if len(part) == 2 else part[0] for part in parts)


def _arrow(page: Page, x: float, y: float, way: str) -> None:
    """Where the next piece begins on this one, and this one on the piece before."""
    tip, back = (y + STRIP, y + STRIP - 2.4) if way == "down" else (y, y + 2.4)
    page.pen.filled((x, tip), (x - 1.2, back), (x + 1.2, back))
