"""Sheet 7, reveal strip: every line of a run with its reveal planned, the covers beside it and the plate; at the head
the run as a band with each upright reveal at real size over it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from frontwright.core.drawing.shapes import spread
from frontwright.core.figures import Figure, Term, minus, plus, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.result import HingePlan
from frontwright.core.lengths import MM, Display, in_units
from frontwright.core.plan import Plan
from frontwright.core.skins import skin_thickness
from frontwright.core.survey.result import RunPlan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import COLUMN_HEAD, Band, column_heads, draw_bands, inside, paged
from frontwright.sheets.pen import OUTLINE
from frontwright.sheets.section import bar
from frontwright.sheets.subjects import Shows, run_ids, run_of, sheet
from frontwright.sheets.words import Part, Words, finely, fit, words, wrap

HEAD, PICTURE, ROW = 13.5, 66.0, 10.4
BAND, TALL = 8.0, 20.0  # millimetres of paper: the run as a band, a reveal over it
HEADS = ("line", "between", "reveal", "is", "cover left / below", "cover right / above", "plate")
LONG = 24  # letters that go on one line of the usual size
SHARES = (0.0, 0.08, 0.34, 0.43, 0.53, 0.67, 0.81)


@dataclass(frozen=True, slots=True)
class Reveal:
    """What lies between two fronts, or between a front and the run's end: `before` is left of it, or below.

    `at`: its middle from the datum where it is upright. Covers None where a pair meets.
    """

    before: tuple[str, ...]
    after: tuple[str, ...]
    upright: bool
    at: Figure
    reveal: Figure
    cover_before: Figure | None
    cover_after: Figure | None
    plates: tuple[tuple[str, Figure], ...]

    @property
    def same(self) -> tuple[object, ...]:
        """What makes two of them one line of the sheet."""
        covers = tuple(c.units if c is not None else None for c in (self.cover_before, self.cover_after))
        plates = tuple((side, cover.units) for side, cover in self.plates)
        return (self.upright, self.at.units, self.reveal.units, covers, plates)


def infos(plan: Plan) -> list[SheetInfo]:
    """One for every run whose fronts stand on one tape."""
    return [_info(plan, run) for run in plan.survey.runs if not run.run.by_itself and _reveals(plan, run)]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The strip and its lines; more pages for more lines."""
    run = run_of(plan, info.subject)
    if run is None:
        return []
    width, height = inside(paper, landscape=True)
    box = standing(info, plan.display)
    reveals = _reveals(plan, run)
    room = height - HEAD - COLUMN_HEAD
    bands = [_band(number, one, plan.display) for number, one in enumerate(reveals, 1)]
    pages = paged(bands, room - PICTURE - sentence_height(box, width), room)

    def drawer(bands: Sequence[Band], first: bool) -> Callable[[Page], None]:
        def draw(page: Page) -> None:
            y = page.head(run.id, words(f"{run.run.name or 'run'}, reveals and plates", size=15, bold=True), (), HEAD)
            if first:
                y = page.sentence(y, box) if box else y
                _strip(page, y, run, reveals)
                y += PICTURE
                page.rule(y)
            heads = tuple(zip(HEADS, _columns(page), strict=True))
            draw_bands(page, column_heads(page, y, heads), bands)

        return draw

    name = f"7  {info.title}"
    cells = (("seen from", "front"), ("reveals", "1:1"))
    return [Leaf(drawer(page, not number), name, cells, landscape=True) for number, page in enumerate(pages)]


def _info(plan: Plan, run: RunPlan) -> SheetInfo:
    figures: list[tuple[str, Figure]] = []
    for one in _reveals(plan, run):
        name = _between(one)
        figures.append((f"reveal {name}", one.reveal))
        figures += [(f"cover beside {name}", c) for c in (one.cover_before, one.cover_after) if c is not None]
        figures += [(f"plate of {front}", cover) for front, cover in one.plates]
    ids = run_ids(run) | {front.id for front in _fronts(plan, run)}
    return sheet(plan, "07", "reveals", run.id, f"reveal strip of run {run.id}", ids, Shows(tuple(figures)))


# -- the lines


def _fronts(plan: Plan, run: RunPlan) -> list[FrontPlan]:
    return [f for f in plan.fronts.fronts.values() if f.run == run.id and f.placed]


def _reveals(plan: Plan, run: RunPlan) -> list[Reveal]:
    """Upright ones from the left, then level ones from below; alike ones at one line are told once."""
    fronts = _fronts(plan, run)
    found = [*_upright(plan, run, fronts), *_level(plan, fronts)]
    told: dict[tuple[object, ...], Reveal] = {}
    for one in sorted(found, key=lambda r: (not r.upright, r.at.units)):
        known = told.get(one.same)
        told[one.same] = one if known is None else _joined(known, one)
    return list(told.values())


def _joined(a: Reveal, b: Reveal) -> Reveal:
    before, after = dict.fromkeys((*a.before, *b.before)), dict.fromkeys((*a.after, *b.after))
    return replace(a, before=tuple(before), after=tuple(after))


def _upright(plan: Plan, run: RunPlan, fronts: Sequence[FrontPlan]) -> Iterator[Reveal]:
    by_id = {front.id: front for front in fronts}
    for front in fronts:
        if "left" not in front.neighbours:
            reveal = total("reveal at the left end", plus(front.left), *_skin(plan, run, "left"))
            yield _reveal(plan, None, front, reveal, reveal, upright=True)
        other = by_id.get(front.neighbours.get("right", ""))
        if other is not None:
            reveal = total(f"reveal {front.id} to {other.id}", plus(other.left), minus(front.right))
            yield _reveal(plan, front, other, front.right, reveal, upright=True)
        elif run.overall is not None:
            reveal = total("reveal at the right end", plus(run.overall), *_skin(plan, run, "right"), minus(front.right))
            yield _reveal(plan, front, None, front.right, reveal, upright=True)


def _skin(plan: Plan, run: RunPlan, side: str) -> list[Term]:
    """What a skin adds to the run at this end."""
    skin = skin_thickness(plan.index, run.id, side)
    return [] if skin is None else [plus(skin)]


def _level(plan: Plan, fronts: Sequence[FrontPlan]) -> Iterator[Reveal]:
    by_id = {front.id: front for front in fronts}
    for front in fronts:
        other = by_id.get(front.neighbours.get("top", ""))
        if other is not None:
            reveal = total(f"reveal {front.id} to {other.id}", plus(other.bottom), minus(front.top))
            yield _reveal(plan, front, other, front.top, reveal, upright=False)


def _reveal(
    plan: Plan, before: FrontPlan | None, after: FrontPlan | None, at: Figure, reveal: Figure, *, upright: bool
) -> Reveal:
    last, first = ("right", "left") if upright else ("top", "bottom")
    plates: list[tuple[str, Figure]] = []
    for front, side in ((before, last), (after, first)):
        hinge = plan.hardware.hinges.get(front.id) if front is not None else None
        if front is not None and hinge is not None and front.hinge_side == side:
            plates += _plates(front, hinge)
    return Reveal(
        before=(before.id,) if before is not None else (),
        after=(after.id,) if after is not None else (),
        upright=upright,
        at=at,
        reveal=reveal,
        cover_before=before.overlay[last] if before is not None else None,
        cover_after=after.overlay[first] if after is not None else None,
        plates=tuple(plates),
    )


def _plates(front: FrontPlan, hinge: HingePlan) -> list[tuple[str, Figure]]:
    """The cover with each kind of plate under a door, by its name where it has one; else what its hinge gives."""
    kinds = {use.id: use for use in hinge.plates}
    if kinds:
        return [(f"{front.id} {use.name}".rstrip(), use.gives) for use in kinds.values()]
    return [(front.id, hinge.cover)] if hinge.cover is not None else []


def _between(one: Reveal) -> str:
    ends = ("left end", "right end") if one.upright else ("below", "above")
    return f"{', '.join(one.before) or ends[0]} | {', '.join(one.after) or ends[1]}"


def _band(number: int, one: Reveal, display: Display) -> Band:
    plates = [part for side, cover in one.plates for part in (f"{side} ", *finely(cover, display), "  ")]
    cells: Mapping[int, tuple[Part, ...]] = {
        2: finely(one.reveal, display),
        4: finely(one.cover_before, display) if one.cover_before is not None else ("–",),
        5: finely(one.cover_after, display) if one.cover_after is not None else ("–",),
        6: tuple(plates) or ("–",),
    }

    def draw(page: Page, y: float) -> None:
        pen, x, base = page.pen, _columns(page), y + 6.8
        ends = (*x[1:], page.x1)
        pen.words(x[0], base, words(str(number), size=12, bold=True))
        for at_line, row in enumerate(_named(one, ends[1] - x[1] - 1.5)):
            pen.words(x[1], base - 2.2 + at_line * 3.6 if len(_between(one)) > LONG else base, row)
        pen.pencil(x[3], y + 0.7, ends[3] - x[3] - 3, ROW - 1.4)
        for at, parts in cells.items():
            pen.words(x[at], base, fit(words(*parts, size=12, bold=at == 2), ends[at] - x[at] - 1.5))

    return Band(ROW, draw)


def _named(one: Reveal, room: float) -> list[Words]:
    """What a line lies between, on two small lines where there are many fronts."""
    text = _between(one)
    if len(text) <= LONG:
        return [fit(words(text, size=10), room)]
    first, *more = wrap(words(text, size=8, condensed=True), room)
    return [first, *(fit(row, room) for row in more[:1])]


def _columns(page: Page) -> tuple[float, ...]:
    """Where each column begins."""
    return tuple(page.x0 + share * (page.x1 - page.x0) for share in SHARES)


# -- the strip


def _strip(page: Page, y: float, run: RunPlan, reveals: Sequence[Reveal]) -> None:
    """The run as a band; over it each upright reveal as wide as it will be, joined to its place by a line."""
    shown = [(number, one) for number, one in enumerate(reveals, 1) if one.upright]
    long = in_units(run.overall.value) if run.overall is not None else 0
    if long <= 0 or not shown:
        return
    pen, low = page.pen, y + TALL + 16
    wide = page.x1 - page.x0
    pen.box(page.x0, low, wide, BAND, OUTLINE)
    places = [page.x0 + wide * min(max(float(in_units(one.at.value)) / long, 0.0), 1.0) for _, one in shown]
    sizes = [max(_paper(one.reveal), 5.0) for _, one in shown]
    wanted = [min(max(at, page.x0 + s / 2), page.x1 - s / 2) for at, s in zip(places, sizes, strict=True)]
    for (number, one), at, middle in zip(shown, places, spread(wanted, sizes, 2.5), strict=True):
        half = _paper(one.reveal) / 2
        for edge in (middle - half, middle + half):
            pen.line(edge, y + 8, edge, y + 8 + TALL, OUTLINE)
        pen.words(middle, y + 6.5, words(str(number), size=9, bold=True), "centre")
        pen.line(middle, y + 8 + TALL, at, low)
        pen.line(at, low, at, low + BAND, OUTLINE)
    bar(pen, page.x0, low + BAND + 10)


def _paper(figure: Figure) -> float:
    """Millimetres of paper at real size; nothing where fronts lie over each other."""
    return max(0.0, float(in_units(figure.value)) / MM.units)
