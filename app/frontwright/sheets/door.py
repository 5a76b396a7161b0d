"""Sheet 10, door sheet: front and back, every part with room for its real size, proof lines, rabbet and cups."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan, RowPlan
from frontwright.core.lengths import Display
from frontwright.core.making.result import Dowels, FrontMaking, Proof
from frontwright.core.making.result import Part as MadePart
from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.drawn import of_front
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import inside
from frontwright.sheets.pen import OUTLINE, THIN
from frontwright.sheets.picture import Placed, said_scale
from frontwright.sheets.subjects import Shows, chosen_for, front_ids, part_figures, sheet
from frontwright.sheets.words import (
    Part,
    Words,
    exactly,
    figure,
    finely,
    fit,
    strong,
    text_of,
    width_of,
    with_plan,
    words,
)

HEAD, PART_HEAD, PART_ROW, PROOF_ROW, LINE_ROW, GLUED = 21.0, 7.4, 11.0, 7.0, 10.0, 16.6
LEAST_PICTURE = 62.0
BUILDS = {
    "dowelled": "dowelled, rear rabbet",
    "stub tenon": "stub tenon and groove",
    "cope and stick": "cope and stick",
    "mitred": "mitred",
    "slab": "solid slab",
}
KINDS = {"drawer": "drawer front", "fixed": "fixed front", "glass": "glass door", "appliance": "appliance front"}
SIDES = {"left": "LEFT", "right": "RIGHT", "top": "at the TOP"}


@dataclass(frozen=True, slots=True)
class Block:
    """A band of the sheet under the drawing: its height, and what draws it from there down."""

    height: float
    draw: Callable[[Page, float], None]


def infos(plan: Plan) -> list[SheetInfo]:
    """One sheet for every front that is made."""
    return [
        _info(plan, plan.fronts.fronts[f], made) for f, made in plan.making.fronts.items() if f in plan.fronts.fronts
    ]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """One page; a second where the parts leave no room for the drawing."""
    front, made = plan.fronts.fronts[info.subject], plan.making.fronts[info.subject]
    box = standing(info, plan.display, also_when_nothing=True)
    width, height = inside(paper)
    room = height - HEAD - sentence_height(box, width)
    blocks = list(_blocks(plan, front, made))
    first, second = _shared_out(blocks, room - LEAST_PICTURE)
    picture, n = of_front(plan, info.subject, (width + 10, room - sum(block.height for block in first) - 1))
    cells = (("run", front.run), ("scale", said_scale(n)))
    name = f"10  {info.title}"
    pages = [Leaf(_drawer(plan, front, made, box, first, picture, n), name, cells)]
    return pages if not second else [*pages, Leaf(_drawer(plan, front, made, (), second, None, None), name, cells)]


def _info(plan: Plan, front: FrontPlan, made: FrontMaking) -> SheetInfo:
    of = front.id
    figures: list[tuple[str, Figure]] = [(f"width of {of}", front.width), (f"height of {of}", front.height)]
    for part in made.parts:
        figures += part_figures(part)
    optional = (
        (f"width of the sight of {of}", made.sight_width),
        (f"height of the sight of {of}", made.sight_height),
        (f"groove width of {of}", made.groove_width),
        (f"rabbet depth of {of}", made.rabbet_depth),
        (f"rabbet width of {of}", made.rabbet_width),
    )
    figures += [(name, value) for name, value in optional if value is not None]
    figures += [
        (f"dowel {n} of the {d.rail} of {of}", v) for d in made.dowels for n, v in enumerate(d.from_outer_edge, 1)
    ]
    if made.dowels:
        figures.append((f"dowels of {of}, into each part", made.build.dowel_depth))
    if (row := plan.fronts.row_of.get(of)) is not None:
        figures.append((f"board of {', '.join(row.fronts)}", row.blank_length))
    hinges, cup = plan.hardware.hinges.get(of), plan.hardware.cups.get(of)
    if hinges and _hinged(front):
        figures += [(f"height of hinge {n} of {of}", height) for n, height in enumerate(hinges.heights, 1)]
    if cup and _hinged(front):
        figures += [
            (f"cup of {of}", cup.diameter),
            (f"cup depth of {of}", cup.depth),
            (f"cup centre of {of}", cup.centre),
        ]
    told = (
        (f"kind of {of}", _what(front)),
        (f"build of {of}", _build(made)),
        (f"grain of {of}", front.grain),
        *((f"pieces of {part.id}", str(part.qty)) for part in made.parts),
        *(
            (f"proof of the {proof.kind} of {of}", "agrees" if proof.agrees else "does not agree")
            for proof in made.proofs
        ),
    )
    title = f"{'door' if front.front.kind in ('door', 'glass') else 'front'} sheet, {of}"
    return sheet(plan, "10", "door", of, title, front_ids(plan, front), Shows(tuple(figures), told, chosen_for(front)))


def _hinged(front: FrontPlan) -> bool:
    return front.hinge_side is not None


def _what(front: FrontPlan) -> str:
    """What it is, its hinges and from where it is seen."""
    kind = KINDS.get(front.front.kind, front.front.kind)
    if not front.hinge_side:
        return f"{kind}, seen from the front"
    side = SIDES[front.hinge_side]
    return f"{kind}, hinges {f'({side})' if front.hinge_side_assumed else side}, seen from the front"


def _build(made: FrontMaking) -> str:
    return BUILDS["slab" if made.slab else made.build.kind]


def _shared_out(blocks: Sequence[Block], room: float) -> tuple[list[Block], list[Block]]:
    """The blocks that go under the drawing, and those for a second page."""
    used = 0.0
    for number, block in enumerate(blocks):
        used += block.height
        if used > room and number:
            return list(blocks[:number]), list(blocks[number:])
    return list(blocks), []


def _drawer(
    plan: Plan,
    front: FrontPlan,
    made: FrontMaking,
    box: Words,
    blocks: list[Block],
    picture: Placed | None,
    n: int | None,
) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        y = _head(page, plan.display, front, made)
        y = page.sentence(y, box) if box else y
        heights = sum(block.height for block in blocks)
        if picture:
            low = page.bottom - heights
            picture.draw(page, page.left + 1, y + 0.5, page.right - page.left - 2, low - y - 1, n)
            y = low
        for block in blocks:
            block.draw(page, y)
            y += block.height
        if not picture:
            page.rule(y)

    return draw


def _head(page: Page, display: Display, front: FrontPlan, made: FrontMaking) -> float:
    pen, top = page.pen, page.top
    big = fit(words(front.id, size=40, bold=True), 50)
    x = page.x0 + pen.words(page.x0 - 0.8, top + 15.5, big) + 7
    what = fit(words(_what(front), size=12.5, bold=True), page.x1 - x)
    pen.words(x, top + 7.4, what)
    at = x
    for label, size in (("W", front.width), ("H", front.height), ("T", made.build.thickness)):
        at += pen.words(at, top + 16.2, words(label, size=12)) + 1.6
        told = finely(size, display) if label == "T" else figure(size, display)
        at += pen.words(at, top + 16.2, words(*told, size=22, bold=True)) + 6.5
    build = words(f"build: {_build(made)}", size=10)
    if width_of(build) > page.x1 - at:
        build = words(_build(made), size=9.5, condensed=True)
    beside = x + width_of(what) + 5 + width_of(build) <= page.x1
    upper = width_of(build) > page.x1 - at and beside
    pen.words(page.x1, top + (7.4 if upper else 16.2), fit(build, width_of(build) if upper else page.x1 - at), "right")
    page.rule(top + HEAD, OUTLINE)
    return top + HEAD


def _blocks(plan: Plan, front: FrontPlan, made: FrontMaking) -> Iterator[Block]:
    display = plan.display
    parts = _alike(made.parts)
    yield Block(PART_HEAD + PART_ROW * len(parts) + 1, lambda page, y: _parts(page, y, display, parts))
    dowels = [d for d in made.dowels if d.from_outer_edge]
    proofs = _once(made.proofs, display)
    rows = max(len(proofs), len(dowels) + 1 if dowels else 0)
    if rows:
        yield Block(PROOF_ROW * rows + 4, lambda page, y: _proofs(page, y, display, proofs, dowels))
    lines = list(_lines(plan, front, made))
    if lines:
        yield Block(LINE_ROW * len(lines), lambda page, y: _said_lines(page, y, lines))
    yield Block(GLUED, lambda page, y: _glued(page, y, _apart(plan, front)))


def _parts(page: Page, y: float, display: Display, parts: tuple[MadePart, ...]) -> None:
    pen = page.pen
    page.rule(y, OUTLINE)
    columns = _columns(page)
    heads = (("part", "left"), ("pieces", "centre"), ("length", "left"), ("width", "left"), ("thick", "left"))
    for (label, align), x in zip(heads, columns, strict=False):
        pen.words(x, y + 5.2, words(label, size=9), align)  # type: ignore[arg-type]
    for label, x in zip(("length is", "width is"), columns[5:], strict=True):
        pen.words(x + 11, y + 5.2, words(label, size=9), "centre")
    pen.line(page.x0, y + PART_HEAD, page.x1, y + PART_HEAD, OUTLINE)
    for number, part in enumerate(parts):
        top = y + PART_HEAD + number * PART_ROW
        _part(page, top, display, part, columns)
        if number:
            pen.line(page.x0, top, columns[5] - 2, top)


def _columns(page: Page) -> tuple[float, ...]:
    """Where part, pieces (middle), length, width, thickness and the two boxes stand."""
    unit = (page.x1 - page.x0) / 175
    at = (0.0, 37.5, 47.0, 77.0, 109.0)
    return (*(page.x0 + x * unit for x in at), page.x1 - 45.5, page.x1 - 22)


def _part(page: Page, top: float, display: Display, part: MadePart, columns: tuple[float, ...]) -> None:
    pen, base = page.pen, top + 7.6
    name, pieces, length, width, thick, *is_boxes = columns
    pen.words(name, base, fit(words(part.kind, size=13, bold=True), pieces - name - 6))
    _pieces(page, pieces, base, part.qty)
    for x, of, room in ((length, part.length, width - length), (width, part.width, thick - width)):
        pen.words(x, base, _size(of, display, room - 1.5))
    pen.words(thick, base, fit(words(*finely(part.thickness, display), size=12.5), is_boxes[0] - thick - 2))
    for x in is_boxes:
        pen.pencil(x, top + 1.3, 22, 8.6)


def _size(of: Figure, display: Display, room: float) -> Words:
    """A size to work to; one that was measured stands smaller, with the plan struck out beside it."""
    line = words(*with_plan(of, display), size=20, bold=True)
    for smaller in (17, 14.5, 12):
        if width_of(line) > room and of.planned is not None:
            line = words(*with_plan(of, display), size=smaller, bold=True)
    return fit(line, room)


def _alike(parts: tuple[MadePart, ...]) -> tuple[MadePart, ...]:
    """Parts of one kind and size once, with all their pieces."""
    found: dict[tuple[object, ...], MadePart] = {}
    for part in parts:
        key = (part.kind, part.length.units, part.width.units, part.thickness.units, part.length.source)
        same = found.get(key)
        found[key] = replace(same, qty=same.qty + part.qty) if same else part
    return tuple(found.values())


def _once(proofs: tuple[Proof, ...], display: Display) -> list[Proof]:
    """Proofs that read alike only once."""
    return list({(text_of(*_sum(proof, display)), proof.agrees): proof for proof in proofs}.values())


def _pieces(page: Page, middle: float, base: float, count: int) -> None:
    """A box to tick for each piece, smaller ones for more; from six on one box and their number."""
    if count > 5:
        page.pen.tick(middle - 7, base - 4.6)
        page.pen.words(middle, base, words(f"all {count}", size=9))
        return
    pitch = min(6.0, 16.5 / count)
    for piece in range(count):
        page.pen.tick(middle - (count * pitch - 1) / 2 + piece * pitch, base - pitch + 1.4, pitch - 1)


def _proofs(page: Page, y: float, display: Display, proofs: Sequence[Proof], dowels: Sequence[Dowels]) -> None:
    pen = page.pen
    page.rule(y, OUTLINE)
    split = page.x0 + (page.x1 - page.x0) * 0.6 if dowels else page.x1 + 3
    pen.words(page.x0, y + 6.4, words("proof", size=9))
    for number, proof in enumerate(proofs):
        base = y + 6.4 + number * PROOF_ROW
        verdict = words("agrees" if proof.agrees else "does not agree", size=11, bold=True)
        pen.words(split - 3, base, verdict, "right")
        line = words(*_sum(proof, display), size=12)
        pen.words(page.x0 + 14, base, fit(line, split - page.x0 - 20 - width_of(verdict)))
    if not dowels:
        return
    bottom = y + PROOF_ROW * max(len(proofs), len(dowels) + 1) + 4
    pen.line(split, y, split, bottom)
    pen.words(split + 3, y + 6.4, words("dowels", size=9))
    x = split + 18
    pen.words(x, y + 6.4, fit(words("from the outer edge of the rail", size=9.5), page.x1 - x))
    for number, rail in enumerate(dowels, 1):
        told: list[Part] = [rail.rail.removesuffix(" rail"), " "]
        for place, at in enumerate(rail.from_outer_edge):
            told += [" and "] if place else []
            told += figure(at, display)
        pen.words(x, y + 6.4 + number * PROOF_ROW, fit(words(*told, size=12), page.x1 - x))


def _sum(proof: Proof, display: Display) -> Iterator[Part]:
    """Both sides of a proof, the stiles written out: 2 1/4 + 2 1/4 + 18 3/32 = 22 19/32."""
    yield from _side(proof.left, display)
    yield " = " if proof.agrees else " is not "
    yield from _side(proof.right, display)


def _side(terms: tuple[tuple[int, Figure], ...], display: Display) -> Iterator[Part]:
    first = True
    for times, of in terms:
        twice = first and times == 2
        for _ in range(2 if twice else 1):
            if not first or times < 0:
                yield " − " if times < 0 else " + "
            first = False
            if abs(times) > 1 and not twice:
                yield f"{abs(times)} × "
            yield from exactly(of, display)


def _lines(plan: Plan, front: FrontPlan, made: FrontMaking) -> Iterator[Callable[[Page, float], None]]:
    """Lines to work by: the rabbet or groove, the cups, the blank of a row."""
    display = plan.display
    depth = made.rabbet_depth
    if depth is not None:
        yield lambda page, y: _cut_to(page, y, "rabbet", depth, display)
    if made.groove_width is not None:
        groove = made.groove_width
        yield lambda page, y: _cut_to(page, y, "groove", groove, display)
    cup = plan.hardware.cups.get(front.id)
    if cup and _hinged(front):
        told = (*finely(cup.diameter, display), ", ", *finely(cup.depth, display), " deep, floor ")
        floor = finely(cup.floor_left, display)
        yield lambda page, y: _cups(page, y, words(strong("bore from the BACK"), ", ", *told, *floor, size=10))
    row = plan.fronts.row_of.get(front.id)
    if row:
        yield lambda page, y: _said(page, y, "grain", _blank(row, display))


def _blank(row: RowPlan, display: Display) -> Words:
    return words("one board ", *figure(row.blank_length, display), " long, cut in order: ", ", ".join(row.fronts))


def _said_lines(page: Page, y: float, lines: list[Callable[[Page, float], None]]) -> None:
    page.rule(y, OUTLINE)
    for number, line in enumerate(lines):
        if number:
            page.pen.line(page.x0, y + number * LINE_ROW, page.x1, y + number * LINE_ROW)
        line(page, y + number * LINE_ROW)


def _said(page: Page, y: float, label: str, line: Words) -> None:
    page.pen.words(page.x0, y + 6.2, words(label, size=9))
    page.pen.words(page.x0 + 14, y + 6.2, fit(line, page.x1 - page.x0 - 14))


def _cut_to(page: Page, y: float, label: str, planned: Figure, display: Display) -> None:
    pen, base = page.pen, y + 6.2
    pen.words(page.x0, base, words(label, size=9))
    plan_words = words("plan ", *finely(planned, display), size=10)
    pen.words(page.x1, base, plan_words, "right")
    x = page.x1 - width_of(plan_words) - 2 - 18
    pen.pencil(x, y + 1.3, 18, 7.4)
    cut = words(f"{label} cut", size=10)
    pen.words(x - 1.5, base, cut, "right")
    x -= width_of(cut) + 4.5 + 18
    pen.pencil(x, y + 1.3, 18, 7.4)
    panel = words("panel is", size=10)
    pen.words(x - 1.5, base, panel, "right")
    room = x - width_of(panel) - 4 - page.x0 - 14
    pen.words(page.x0 + 14, base, fit(words("cut it to the panel that exists", size=10, bold=True), room))


def _cups(page: Page, y: float, line: Words) -> None:
    pen, base = page.pen, y + 6.2
    pen.words(page.x0, base, words("cups", size=9))
    x = page.x1
    for label in ("bored", "hinge edge marked"):
        x -= pen.words(x, base, words(label, size=10), "right") + 7
        pen.tick(x, base - 4.2)
        x -= 5
    pen.words(page.x0 + 14, base, fit(line, x - page.x0 - 14))


def _apart(plan: Plan, front: FrontPlan) -> Words:
    """How far the diagonals may differ (F67), by the lean that nobody sees."""
    allowed = plan.made.fronts[front.id].diagonals_allowed
    value = Figure(allowed.name, allowed.value, "derived")
    return words("diagonals ± ", *finely(value, plan.display), size=7.5, condensed=True)


def _glued(page: Page, y: float, apart: Words) -> None:
    pen = page.pen
    page.rule(y)
    pen.words(page.x0, y + 6, words("glued up,", size=10, bold=True))
    pen.words(page.x0, y + 10.4, words("it is", size=10, bold=True))
    labels = ("width", "height", "diagonal \\", "diagonal /", "thickness")
    x = page.x0 + 23
    wide = (page.x1 - x - 2.4 * (len(labels) - 1)) / len(labels)
    for label in labels:
        pen.pencil(x, y + 1.8, wide, GLUED - 3.6, label, THIN)
        x += wide + 2.4
    pen.words(page.x0, y + 14.6, fit(apart, 22))
