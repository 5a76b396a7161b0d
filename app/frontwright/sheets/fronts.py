"""Sheet 9, front list: every front with its size, hinge side, build and grain, and the sums of rows and columns."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan, Sum
from frontwright.core.lengths import Display
from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing, title_height
from frontwright.sheets.drawn import key_of
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import COLUMN_HEAD, Band, column_heads, draw_bands, inside, paged, text_band, title_band
from frontwright.sheets.picture import Placed
from frontwright.sheets.subjects import Shows, chosen_for, front_ids, run_of, sheet
from frontwright.sheets.words import Part, Words, exactly, figure, fit, strong, words, wrap

ROW, KEY = 10.6, 30.0
GRAINS = {"vertical": "grain upright", "horizontal": "grain along"}
SIDES = {"left": "LEFT", "right": "RIGHT", "top": "TOP"}
BUILDS = {
    "dowelled": "dowelled",
    "stub tenon": "stub tenon",
    "cope and stick": "cope and stick",
    "mitred": "mitred",
    "slab": "slab",
}
NOTE = "Width first, then height, seen from the front. Write beside each front what it really is when it is made."


def infos(plan: Plan) -> list[SheetInfo]:
    """The one list of the whole job, if it has any front."""
    fronts = list(plan.fronts.fronts.values())
    if not fronts:
        return []
    figures = [pair for f in fronts for pair in ((f"width of {f.id}", f.width), (f"height of {f.id}", f.height))]
    figures += [pair for number, of in enumerate(plan.fronts.sums, 1) for pair in _sum_facts(number, of)]
    told = [(f"{what} of {f.id}", word) for f in fronts for what, word in _told(plan, f)]
    ids = {i for front in fronts for i in front_ids(plan, front)}
    assumptions = tuple(a for front in fronts for a in chosen_for(front))
    return [sheet(plan, "09", "fronts", "", "front list", ids, Shows(tuple(figures), tuple(told), assumptions))]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The list with the runs one after the other, then sums, then a small elevation of each run that has one."""
    width, height = inside(paper)
    box = standing(info, plan.display)
    bands = list(_bands(plan, width))
    room = height - title_height((NOTE,), width) - COLUMN_HEAD
    pages = paged(bands, room - sentence_height(box, width), room)
    count = f"{len(plan.fronts.fronts)} fronts"
    return [
        Leaf(_drawer(page, count, box if not n else ()), "9  front list", (("goes to", "wall"),))
        for n, page in enumerate(pages)
    ]


def _told(plan: Plan, front: FrontPlan) -> Iterator[tuple[str, str]]:
    yield "kind", front.front.kind
    yield "hinge side", front.hinge_side or "none"
    yield "build", _build(plan, front)
    yield "grain", front.grain


def _sum_facts(number: int, of: Sum) -> Iterator[tuple[str, Figure]]:
    for place, term in enumerate(of.terms, 1):
        yield f"term {place} of sum {number}", term
    yield f"overall of sum {number}", of.equals


def _build(plan: Plan, front: FrontPlan) -> str:
    made = plan.making.fronts.get(front.id)
    return BUILDS["slab" if made.slab else made.build.kind] if made else "not made"


def _bands(plan: Plan, width: float) -> Iterator[Band]:
    runs = list(dict.fromkeys(front.run for front in plan.fronts.fronts.values()))
    for run in runs:
        yield title_band(words(strong(run), "  ", _run_name(plan, run), size=11))
        for front in plan.fronts.fronts.values():
            if front.run == run:
                yield _front_band(plan, front)
        yield from _sum_bands(plan, run, width)
        key = key_of(plan, run)
        if key:
            yield Band(KEY, _key_drawer(key))


def _run_name(plan: Plan, run: str) -> str:
    found = run_of(plan, run)
    return found.run.name if found else ""


def _front_band(plan: Plan, front: FrontPlan) -> Band:
    display = plan.display
    size = words(*figure(front.width, display), " × ", *figure(front.height, display), size=20, bold=True)
    side = "" if not front.hinge_side else SIDES[front.hinge_side]
    hinges = f"({side})" if front.hinge_side_assumed and side else side
    small = (_build(plan, front), GRAINS[front.grain])

    def draw(page: Page, y: float) -> None:
        pen, x = page.pen, _columns(page)
        base = y + 7.4
        pen.words(x[0], base, fit(words(front.id, size=14, bold=True), x[1] - x[0] - 2))
        pen.words(x[1], base, fit(words(front.front.kind, size=11), x[2] - x[1] - 2))
        pen.words(x[2], base, fit(size, x[3] - x[2] - 2))
        pen.words(x[3], base, fit(words(hinges, size=11, bold=True), x[4] - x[3] - 1.5))
        for row, text in enumerate(small):
            pen.words(x[4], y + 4.5 + row * 4, fit(words(text, size=9, condensed=True), x[5] - x[4] - 1.5))
        for at in x[5:]:
            pen.pencil(at, y + 1.1, 16, ROW - 2.2)

    return Band(ROW, draw)


def _columns(page: Page) -> tuple[float, ...]:
    """Where id, kind, size, hinge side, build and the two boxes begin."""
    return (page.x0, page.x0 + 17, page.x0 + 38, page.x1 - 74, page.x1 - 57, page.x1 - 33.5, page.x1 - 16)


def _sum_bands(plan: Plan, run: str, width: float) -> Iterator[Band]:
    """Every different sum of the run; columns that add up alike are told once, with all their fronts."""
    told: dict[tuple[str, ...], tuple[Sum, list[str]]] = {}
    for of in plan.fronts.sums:
        if of.run == run:
            key = (of.direction, *(str(term.units) for term in of.terms), str(of.equals.units))
            told.setdefault(key, (of, []))[1].append(", ".join(of.of))
    for of, names in told.values():
        yield text_band(_sum_lines(of, names, plan.display, width))


def _sum_lines(of: Sum, names: Sequence[str], display: Display, width: float) -> list[Words]:
    head: list[Part] = [strong(of.direction), " ", "; ".join(names), ": "]
    same = of.total.units == of.equals.units
    verdict: tuple[Part, ...] = (strong(" agrees"),) if same else (" is not ", *exactly(of.equals, display))
    return wrap(words(*head, *added(of.terms, display), " = ", *exactly(of.total, display), *verdict, size=11), width)


def added(terms: Sequence[Figure], display: Display) -> Iterator[Part]:
    """Terms with plus signs between them, as they lie from left to right or top to bottom."""
    for number, term in enumerate(terms):
        if number:
            yield " + "
        yield from exactly(term, display)


def _key_drawer(picture: Placed) -> Callable[[Page, float], None]:
    return lambda page, y: picture.draw(page, page.x0, y + 2, page.x1 - page.x0, KEY - 4)


def _drawer(bands: Sequence[Band], count: str, box: Words) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        y = page.title("Fronts", count, (NOTE,))
        y = page.sentence(y, box) if box else y
        heads = ("front", "kind", "width × height", "hinges", "build, grain", "width is", "height is")
        y = column_heads(page, y, tuple(zip(heads, _columns(page), strict=True)))
        draw_bands(page, y, bands)

    return draw
