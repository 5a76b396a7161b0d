"""Sheet 13, cutting diagram: one laid piece, its cuts in the order made with fence and stop, what is left of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.drawing.lay import SCALES, Laying
from frontwright.core.drawing.layout import layout
from frontwright.core.drawing.marks import Box
from frontwright.core.lengths import Length, finest, half_up
from frontwright.core.plan import Plan
from frontwright.core.stock.cuts import CutRow, LayoutCuts, cuts_of
from frontwright.core.stock.result import LaidOut, LayoutPlan, Remainder
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import inside
from frontwright.sheets.pen import OUTLINE
from frontwright.sheets.picture import Placed, said_scale
from frontwright.sheets.player import medium
from frontwright.sheets.subjects import Shows, front_ids, sheet, species_name
from frontwright.sheets.words import POINT, Part, Words, fit, length, text_of, width_of, words

HEAD = 13.5
ROW = 8.3
COLUMNS = 5
MOST_NAMED = 3
MOST_ROWS = 7  # rows of cuts under the drawing; more go on a page of their own
NOTE = "A number: where its cut begins. Two numbers: one setting, two cuts. Hatched: waste. Along: along the length."
TICKED = (26.0, 13.0)  # millimetres: a part drawn smaller has no room for a box to tick
DECIDED = (38.0, 26.0)  # a remainder drawn smaller is decided in the list
LETTERS = ((36.0, (14.0, 13.0)), (26.0, (12.0, 11.0)), (0.0, (10.0, 9.0)))  # by the shortest part on paper
RING = 6.2  # what a ring takes of the paper
FILLED = Fraction(62, 100)  # of the width by the piece, else it is drawn fitted
NARROW, STRETCHED = 40.0, 8  # a piece drawn lower than this is drawn wider, so many times at most
SIDES = ("left end", "right end", "lower edge", "upper edge")


type _OnPage = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Alike:
    """Pieces that are cut in the same way, by their layouts; the first of them is drawn."""

    layouts: tuple[LayoutPlan, ...]

    @property
    def first(self) -> LayoutPlan:
        return self.layouts[0]

    @property
    def name(self) -> str:
        names = [one.id for one in self.layouts]
        return ", ".join(names) if len(names) <= MOST_NAMED else f"{names[0]} and {len(names) - 1} more"


def infos(plan: Plan) -> list[SheetInfo]:
    """One for every laid piece; those that are cut alike have one together."""
    return [_info(plan, alike) for alike in all_alike(plan)]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The piece with its cuts under it; cuts that find no room go on on a second page."""
    alike = next(one for one in all_alike(plan) if one.first.id == info.subject)
    of, cuts = alike.first, cuts_of(alike.first)
    width, height = inside(paper, landscape=True)
    box = standing(info, plan.display)
    room = height - HEAD - sentence_height(box, width)
    few = list(_items(plan, of, cuts))
    drawn = _drawn(plan, of, width, room - _list_height(_lines(few)))
    items = [*few, *(_Item(_rest_drawer(plan, rest), 2) for rest in of.remainders if not drawn.decides(rest))]
    lines = _lines(items)
    below, further = lines[:MOST_ROWS], lines[MOST_ROWS:]
    if len(items) > len(few):
        drawn = _drawn(plan, of, width, room - _list_height(below))
    cells = (("seen", drawn.placed.drawing.seen_from.removeprefix("seen ")), ("scale", drawn.said))
    title = f"13  cutting diagram, {alike.name}"
    first = _First(plan, alike, box, drawn, below)
    pages = [Leaf(first.draw, title, cells, landscape=True)]
    for at in range(0, len(further), MOST_ROWS * 2):
        pages.append(Leaf(_further(plan, alike, further[at : at + MOST_ROWS * 2]), title, cells, landscape=True))
    return pages


def all_alike(plan: Plan) -> list[Alike]:
    """The laid pieces in their order; those of one wood and size with the same parts in the same places together."""
    found: dict[object, list[LayoutPlan]] = {}
    for one in plan.stock.layouts:
        found.setdefault(_signature(plan, one), []).append(one)
    return [Alike(tuple(layouts)) for layouts in found.values()]


def _signature(plan: Plan, of: LayoutPlan) -> object:
    """What two pieces must share to be cut alike. A piece of the rack shares it with others of its own count only."""
    parts = frozenset((p.part, p.along, p.across, p.length, p.width, p.turned, p.cut) for p in of.parts)
    done = frozenset(row.cut for row in plan.job.cuts_done.values() if row.laid == of.id)
    kept = tuple((r.letter, r.keep) for r in of.remainders)
    return of.laid.piece, of.laid.size, of.group, of.offer.length, of.offer.width, of.kerf, parts, done, kept, of.valid


# ------------------------------------------------------------------------------------------------- what it rests on


def _info(plan: Plan, alike: Alike) -> SheetInfo:
    of = alike.first
    ids = {one.id for one in alike.layouts} | {of.laid.piece or of.id}
    fronts = {front for part in of.parts for front in _fronts(plan, part.part)}
    ids |= {i for front in fronts if front in plan.fronts.fronts for i in front_ids(plan, plan.fronts.fronts[front])}
    shows = Shows((), tuple(_told(plan, alike)))
    return sheet(plan, "13", "cutting", of.id, f"cutting diagram, {alike.name}", ids, shows)


def _fronts(plan: Plan, want: str) -> Iterator[str]:
    """The fronts that a part is of; of a row's blank all of the row."""
    for group in plan.stock.groups:
        for one in group.wants:
            if one.id == want:
                yield from one.each


def _told(plan: Plan, alike: Alike) -> Iterator[tuple[str, str]]:
    of = alike.first
    yield f"what {of.id} lies on", text_of(*_wood(plan, of))
    yield f"where {of.id} comes from", _place(plan, alike)
    yield f"kerf and trims of {of.id}", text_of(*_saw(plan, of))
    if len(alike.layouts) > 1:
        yield f"cut like {of.id}", ", ".join(one.id for one in alike.layouts)
    for part in of.parts:
        size = text_of(_length(plan, part.length), " × ", _length(plan, part.width))
        place = text_of(_length(plan, part.along), ", ", _length(plan, part.across))
        yield f"size of {part.part} {part.number} on {of.id}", f"{size}{', turned' * part.turned}"
        yield f"place of {part.part} {part.number} on {of.id}", f"{place}{', cut' * part.cut}"
    for rest in of.remainders:
        size = text_of(_length(plan, rest.length), " × ", _length(plan, rest.width))
        yield f"remainder {rest.letter} of {of.id}", f"{size}, {'keep' if rest.keep else 'burn'}"
    for at, bad in enumerate(of.offer.defects, 1):
        yield f"defect {at} of {of.id}", text_of(_length(plan, bad.along), ", ", _length(plan, bad.across))


def _length(plan: Plan, of: Length) -> Part:
    """A length of a layout, to a finer step than the job's where it takes one."""
    return length(of, finest(of, plan.display))


def _wood(plan: Plan, of: LayoutPlan) -> list[Part]:
    """Which wood, how thick, how long and wide: as it is on the rack or bought."""
    piece = plan.job.pieces.get(of.laid.piece or "")
    group = next((one for one in plan.stock.groups if one.id == of.group), None)
    form = piece.form if piece is not None else group.form if group is not None else ""
    species = piece.species if piece is not None else group.species if group is not None else ""
    wood = " ".join(text for text in (species_name(plan, species), form) if text)
    parts: list[Part] = [wood[:1].upper() + wood[1:]]
    parts += [", ", _length(plan, of.thickness), " thick"] if of.thickness is not None else []
    return [*parts, ", ", _length(plan, of.offer.length), " × ", _length(plan, of.offer.width)]


def _place(plan: Plan, alike: Alike) -> str:
    of = alike.first
    piece = plan.job.pieces.get(of.laid.piece or "")
    count = len(alike.layouts)
    if piece is None:
        return f"{count} to buy, of one lot" if count > 1 else "to buy"
    said = (
        f"{count} of piece {piece.id}" if count > 1 else f"piece {piece.id}",
        piece.shelf and f"shelf {piece.shelf}",
        piece.batch and f"batch {piece.batch}",
    )
    return ", ".join(text for text in said if text)


def _saw(plan: Plan, of: LayoutPlan) -> list[Part]:
    """Kerf, and what comes off before the first part."""
    parts: list[Part] = ["kerf ", _length(plan, of.kerf)]
    trims = of.offer.trims
    told = [(side, trim) for side, trim in zip(SIDES, trims, strict=True) if trim]
    if not told:
        return [*parts, ", no trim"]
    if len(told) == len(SIDES) and len(set(trims)) == 1:
        return [*parts, ", trim ", _length(plan, trims[0]), " on each edge"]
    left, right, low, high = trims
    if left == right and low == high:
        ends = [_length(plan, left), " each end"] if left else []
        edges = [_length(plan, low), " each edge"] if low else []
        return [*parts, ", trim ", *ends, *([", "] if ends and edges else []), *edges]
    for number, (side, trim) in enumerate(told):
        parts += [", " if number else ", trim ", _length(plan, trim), f" {side}"]
    return parts


# ------------------------------------------------------------------------------------------------- what stands on it


@dataclass(frozen=True, slots=True)
class _Item:
    """A cell of the list under the drawing; `wide`: how many columns it takes."""

    draw: Callable[[Page, float, float, float], None]
    wide: int = 1


def _items(plan: Plan, of: LayoutPlan, cuts: LayoutCuts) -> Iterator[_Item]:
    done = {row.cut for row in plan.job.cuts_done.values() if row.laid == of.id}
    for row in cuts.rows:
        yield _Item(_cut_drawer(plan, row, _setting(row, cuts), done=done.issuperset(row.cuts)))
    if not cuts.whole:
        yield _Item(_words_drawer("These parts cannot all be cut free from edge to edge."), wide=2)


def _setting(row: CutRow, cuts: LayoutCuts) -> Length:
    """Where fence or stop stands; of a trim all that comes off, the saw's part with it."""
    if row.turn:
        return row.setting
    band = cuts.cuts[row.cuts[0] - 1].band
    return row.setting + (band.length if row.direction == "across" else band.width)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """The piece as it is drawn: at 1:n or fitted, its width so many times too big."""

    placed: Placed
    n: int | None
    stretch: int
    per_mm: Fraction  # millimetres of wood for one of paper

    @property
    def said(self) -> str:
        return said_scale(self.n) + (f", width × {self.stretch}" if self.stretch > 1 else "")

    def decides(self, rest: Remainder) -> bool:
        """Whether a remainder that is kept has room for its boxes."""
        long, wide = (float(Fraction(of.units, 80_000) / self.per_mm) for of in (rest.length, rest.width))
        return rest.keep and long >= DECIDED[0] and wide * self.stretch >= DECIDED[1]


def _drawn(plan: Plan, of: LayoutPlan, width: float, height: float) -> _Drawn:
    """At the largest scale of the trade that goes in; fitted where that would leave a third of the width empty.

    A long narrow piece is drawn so many times too wide as the room allows.
    """
    long = Fraction(max(of.offer.length.units, 1), 80_000)
    for n in SCALES:
        drawn = _at(plan, of, Fraction(n), (width, height), n)
        if drawn is not None and (long / n >= Fraction(width) * FILLED or drawn.stretch == 1):
            return drawn
    per_mm = long / Fraction(width - 4 * RING)
    return _at(plan, of, per_mm, (width, height), None) or _Drawn(_placed(plan, of, per_mm, 1), None, 1, per_mm)


def _at(plan: Plan, of: LayoutPlan, per_mm: Fraction, room: tuple[float, float], n: int | None) -> _Drawn | None:
    """The piece at a scale, None where it does not go in."""
    high = float(Fraction(of.offer.width.units, 80_000) / per_mm)
    if Fraction(of.offer.length.units, 80_000) / per_mm > room[0] or not 0 < high < room[1]:
        return None
    stretch = max(1, min(STRETCHED, int((room[1] - 4 * RING) / high))) if high < NARROW else 1
    placed = _placed(plan, of, per_mm, stretch)
    if n is None:
        return _Drawn(placed, None, stretch, per_mm)
    goes_in = placed.scale(*room)
    return _Drawn(placed, n, stretch, per_mm) if goes_in is not None and goes_in <= n else None


def _placed(plan: Plan, of: LayoutPlan, per_mm: Fraction, stretch: int) -> Placed:
    ring = half_up(Length(80_000) * (per_mm * Fraction(RING)))
    drawing = layout(plan, of.id, "bench", room=ring, stretch=stretch)
    narrowest = min((float(Fraction(one.length.units, 80_000) / per_mm) for one in of.parts), default=0.0)
    id_, caption = next((sizes for least, sizes in LETTERS if narrowest >= least), LETTERS[-1][1])
    return Placed(drawing, medium("bench", caption=caption, id=id_, figure=10))


def _lines(items: Sequence[_Item]) -> list[list[_Item]]:
    """The cells of the list in lines."""
    lines: list[list[_Item]] = [[]]
    free = COLUMNS
    for item in items:
        if item.wide > free:
            lines.append([])
            free = COLUMNS
        lines[-1].append(item)
        free -= item.wide
    return lines


def _list_height(lines: Sequence[Sequence[_Item]]) -> float:
    return max(len(lines), 1) * ROW + 5.2


@dataclass(frozen=True, slots=True)
class _First:
    """The first page: head, what is assumed, the piece, its cuts."""

    plan: Plan
    alike: Alike
    box: Words
    drawn: _Drawn
    lines: list[list[_Item]]

    def draw(self, page: Page) -> None:
        y = _head(page, self.plan, self.alike)
        y = page.sentence(y, self.box) if self.box else y
        top = page.bottom - _list_height(self.lines)
        room = (page.x0, y + 1, page.x1 - page.x0, top - y - 2)
        laying = self.drawn.placed.laid(page, *room, self.drawn.n)
        _boxes(page, self.alike.first, laying, room, self.drawn)
        page.rule(top, OUTLINE)
        _draw_lines(page, top, self.lines)
        wider = self.drawn.placed.drawing.exaggerated
        note = f"{NOTE} {wider.capitalize()}{'.' * bool(wider)}"
        page.pen.words(page.x0, page.bottom - 1.9, fit(words(note, size=8.5, condensed=True), page.x1 - page.x0))


def _boxes(page: Page, of: LayoutPlan, laying: Laying, room: _OnPage, drawn: _Drawn) -> None:
    """A box to tick in every part that has room for it; keep and burn in what is left."""
    for part in of.parts:
        right, top, wide, high = _on_page(part, laying, room, drawn.stretch)
        if wide >= TICKED[0] and high >= TICKED[1]:
            page.pen.tick(right - 6.6, top + 1.6)
            if part.cut:
                page.pen.words(right - 6.0, top + 5.8, words("✓", size=13, bold=True))
    for rest in of.remainders:
        right, top, wide, high = _on_page(rest, laying, room, drawn.stretch)
        if drawn.decides(rest):
            x, y = right - wide / 2 - 17.5, top + high / 2 + 8.0
            page.pen.clear(x - 1, y - 1, 37, 7)
            for at, word in enumerate(("keep", "burn")):
                page.pen.tick(x + 18.5 * at, y)
                page.pen.words(x + 18.5 * at + 6, y + 4.2, words(word, size=10))


def _on_page(one: LaidOut | Remainder, laying: Laying, room: _OnPage, stretch: int) -> _OnPage:
    """Its right and upper edge on the page, and how wide and high it is there, in millimetres."""
    low = one.across * stretch
    frame = laying.view.frame(Box(one.along, low, one.along + one.length, low + one.width * stretch))
    x, y, _, high = room
    return (
        x + frame.right * POINT,
        y + high - frame.top * POINT,
        frame.width * POINT,
        frame.height * POINT,
    )


def _head(page: Page, plan: Plan, alike: Alike) -> float:
    """The name big, which wood it is; at the right where it comes from and what the saw takes."""
    of = alike.first
    base = page.top + 10.2
    told = [words(_place(plan, alike), size=10.5), words(*_saw(plan, of), size=10.5)]
    side = max(width_of(line) for line in told)
    side = min(side, (page.x1 - page.x0) * 0.4)
    for number, line in enumerate(told):
        page.pen.words(page.x1, page.top + 5.4 + 5.2 * number, fit(line, side), "right")
    name = fit(words(alike.name, size=30, bold=True), (page.x1 - page.x0) * 0.3)
    x = page.x0 + page.pen.words(page.x0, base, name) + 5
    page.pen.words(x, base, fit(words(*_wood(plan, of), size=15, bold=True), page.x1 - side - 5 - x))
    page.rule(page.top + HEAD, OUTLINE)
    return page.top + HEAD


def _draw_lines(page: Page, y: float, lines: Sequence[Sequence[_Item]]) -> None:
    unit = (page.x1 - page.x0) / COLUMNS
    for number, line in enumerate(lines):
        x = page.x0
        for item in line:
            item.draw(page, x, y + 1.2 + number * ROW, unit * item.wide)
            x += unit * item.wide


def _cut_drawer(plan: Plan, row: CutRow, at_stop: Length, *, done: bool) -> Callable[[Page, float, float, float], None]:
    word = "trim" if not row.turn else row.direction
    setting = words(_length(plan, at_stop), size=14, bold=True)

    def draw(page: Page, x: float, y: float, width: float) -> None:
        pen, base = page.pen, y + 5.6
        pen.tick(x, y + 1.2)
        if done:
            pen.words(x + 0.6, y + 5.4, words("✓", size=13, bold=True))
        numbers = fit(words(numbers_of(row.cuts), size=10.5, bold=True, condensed=True), width * 0.34)
        pen.words(x + 6.2, base, numbers)
        left = x + 6.2 + max(width_of(numbers) + 1.5, width * 0.17)
        pen.words(left, base, words(word, size=9.5, condensed=True))
        at = left + width_of(words("across", size=9.5, condensed=True)) + 1.6
        pen.words(at, base, fit(setting, x + width - at - 0.5))

    return draw


def numbers_of(cuts: Sequence[int]) -> str:
    """Numbers of cuts: "1 to 4", "6, 7", "2, 4 to 6"."""
    runs: list[list[int]] = []
    for cut in sorted(cuts):
        if runs and cut == runs[-1][-1] + 1:
            runs[-1].append(cut)
        else:
            runs.append([cut])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)


def _rest_drawer(plan: Plan, rest: Remainder) -> Callable[[Page, float, float, float], None]:
    size = words(_length(plan, rest.length), " × ", _length(plan, rest.width), size=12, bold=True)

    def draw(page: Page, x: float, y: float, width: float) -> None:
        pen, base = page.pen, y + 5.6
        name = words("remainder ", size=10) + words(rest.letter, size=12, bold=True)
        at = x + pen.words(x, base, name) + 2
        at += pen.words(at, base, fit(size, width * 0.34)) + 3
        for word in ("keep", "burn"):
            pen.tick(at, y + 1.2)
            at += 6.2 + pen.words(at + 6.2, base, words(word, size=10, bold=(word == "keep") == rest.keep)) + 3

    return draw


def _words_drawer(text: str) -> Callable[[Page, float, float, float], None]:
    return lambda page, x, y, width: _said(page, x, y, width, text)


def _said(page: Page, x: float, y: float, width: float, text: str) -> None:
    page.pen.words(x, y + 5.6, fit(words(text, size=10, bold=True), width))


def _further(plan: Plan, alike: Alike, lines: list[list[_Item]]) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        _draw_lines(page, _head(page, plan, alike) + 1, lines)

    return draw
