"""Sheet 18, trim map and strip list: the bare frame with every piece numbered, who covers whom, how it is glued."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from frontwright.core.cautions import CAUTIONS, DEFERS, Hazard
from frontwright.core.drawing.facing_map import edge_section, facing_map
from frontwright.core.facing.result import Bond, Packing, Pins, RunFacing, Strip, TrimPlan
from frontwright.core.figures import Figure
from frontwright.core.lengths import Display
from frontwright.core.plan import Plan
from frontwright.core.veneer.nesting import StripLeaf
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.caution_bands import caution_bands, caution_facts
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import COLUMN_HEAD, Band, column_heads, draw_bands, inside, paged, text_band, title_band
from frontwright.sheets.picture import Placed, said_scale
from frontwright.sheets.player import medium
from frontwright.sheets.subjects import Shows, ends_told, run_ids, run_of, sheet
from frontwright.sheets.words import Part, Words, finely, fit, length, strong, words, wrap

HEAD, PICTURE, SECTIONS, ROW = 13.5, 72.0, 52.0, 8.6
HEADS = ("", "no.", "piece", "length × width × thick", "rough", "covers", "is")
SHARES = (0.0, 0.035, 0.085, 0.3, 0.56, 0.74, 0.88)
GROUNDS = {
    "not said": "surface not looked at",
    "bare wood": "bare wood",
    "sound finish": "sound finish",
    "sound film": "sound film",
    "lifting": "lifting",
    "laminate": "laminate",
    "greasy": "greasy",
}
FIRST = {
    "not said": "find out what is on it; degrease, key, trial strip for a day",
    "bare wood": "clean and flat",
    "sound finish": "degrease, key with 80 grit (wet where there may be lead), dust off",
    "sound film": "cut off at the member, else small strips on keyed film; trial for a day",
    "lifting": "peel and scrape first: nothing is glued on it",
    "laminate": "degrease and key",
    "greasy": "degrease until a drop of water spreads; then key",
}


def infos(plan: Plan) -> list[SheetInfo]:
    """One for every run that something is put on."""
    return [_info(plan, run) for run in plan.facing.runs.values() if run.pieces]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The map and the sections, then pieces, packing, trim, adhesive and pins; more pages for more of them."""
    run, faced = run_of(plan, info.subject), plan.facing.runs.get(info.subject)
    if run is None or faced is None:
        return []
    width, height = inside(paper, landscape=True)
    box = standing(info, plan.display)
    whole = Placed(facing_map(plan, run.id), medium("bench"))
    cuts = [cut for side in ("right", "left") if (cut := edge_section(plan, run.id, side)) is not None]
    sections = [Placed(cut, medium("bench")) for cut in cuts]
    n = whole.scale(width, PICTURE - 3)
    room = height - HEAD - COLUMN_HEAD
    above = PICTURE + (SECTIONS if sections else 0) + sentence_height(box, width)
    pages = paged(list(_bands(plan, faced, width)), room - above, room)
    cells = (("seen from", "front"), ("scale", said_scale(n)))

    def drawer(bands: Sequence[Band], first: bool) -> Callable[[Page], None]:
        def draw(page: Page) -> None:
            count = words(f"{len(faced.pieces)} piece{'s' * (len(faced.pieces) != 1)}", size=14, bold=True)
            y = page.head(
                run.id, words(f"{run.run.name or 'run'}, trim map and strips", size=15, bold=True), count, HEAD
            )
            if first:
                y = page.sentence(y, box) if box else y
                whole.draw(page, page.x0, y + 1.5, page.x1 - page.x0, PICTURE - 3, n)
                y += PICTURE
                y = _sections(page, sections, y)
            draw_bands(page, column_heads(page, y, tuple(zip(HEADS, _columns(page), strict=True))), bands)

        return draw

    name = f"18  {info.title}"
    return [Leaf(drawer(page, not number), name, cells, landscape=True) for number, page in enumerate(pages)]


def _sections(page: Page, sections: Sequence[Placed], y: float) -> float:
    """Edge sections side by side: who covers whose edge."""
    if not sections:
        return y
    page.rule(y)
    wide = (page.x1 - page.x0 - 8 * (len(sections) - 1)) / len(sections)
    for number, one in enumerate(sections):
        x = page.x0 + number * (wide + 8)
        page.pen.words(x, y + 5.6, words(one.drawing.title, size=11, bold=True))
        n = one.scale_thin(wide, SECTIONS - 11)
        page.pen.words(x + wide, y + 5.6, words(f"from above, {said_scale(n)}", size=9), "right")
        one.draw(page, x, y + 8, wide, SECTIONS - 10, n)
    page.rule(y + SECTIONS)
    return y + SECTIONS


def _info(plan: Plan, faced: RunFacing) -> SheetInfo:
    run = run_of(plan, faced.run)
    figures = [
        (f"{what} of {one.id}", size)
        for one in faced.pieces
        for what, size in (("length", one.length), ("width", one.width), ("thickness", one.thickness))
    ]
    told = [(one.id, f"{one.number}, covers {', '.join(one.covers) or 'nothing'}") for one in faced.pieces]
    told += [(f"packing behind {one.of}", str(one.ends[0].value) + str(one.ends[1].value)) for one in faced.packings]
    told += [(f"{bond.where} stuck on", f"{bond.adhesive} on {bond.ground}") for bond in faced.bonds]
    told += [(f"leaf {number}", str(leaf)) for number, leaf in _laid(plan, faced)]
    told += ends_told(run) if run is not None else []
    told += caution_facts(plan, faced.run)
    ids = (run_ids(run) if run is not None else set()) | {one.id for one in faced.pieces} | {t.id for t in faced.trims}
    ids |= {one.id for one in plan.condition.of_run(faced.run)}  # a surface that fails holds the gluing back
    shows = Shows(tuple(figures), tuple(told))
    return sheet(plan, "18", "trim-map", faced.run, f"trim map of run {faced.run}", ids, shows)


def _columns(page: Page) -> tuple[float, ...]:
    return tuple(page.x0 + share * (page.x1 - page.x0) for share in SHARES)


# -- the lines


def _bands(plan: Plan, faced: RunFacing, width: float) -> Iterator[Band]:
    numbers = {one.id: one.number for one in faced.pieces}
    for one in faced.pieces:
        yield _piece(one, numbers, plan.display)
    yield from _under(plan, faced, width)
    yield from caution_bands(plan, faced.run, width)
    told = {one.hazard for one in plan.condition.hazards_of(faced.run)}
    for hazard in (one for one in _hazards(faced) if one not in told):
        caution = CAUTIONS[hazard]
        line = words(strong(f"{caution.word}: "), "; ".join(caution.says), ". ", DEFERS, size=9, condensed=True)
        yield text_band(wrap(line, width), 4.2)


def _hazards(faced: RunFacing) -> tuple[Hazard, ...]:
    solvent = any(bond.kind in ("epoxy", "contact adhesive") for bond in faced.bonds)
    return ("dust", "solvents") if solvent else ("dust",)


def _piece(one: Strip, numbers: dict[str, int], display: Display) -> Band:
    def draw(page: Page, y: float) -> None:
        pen, x, base = page.pen, _columns(page), y + 6.0
        pen.tick(x[0], y + 1.8)
        covers = [str(numbers[of]) for of in one.covers if of in numbers]
        size = _sizes(one.length, one.width, one.thickness, display=display)
        rough = _sizes(one.rough_length, one.rough_width, display=display)
        said = f"edge of {', '.join(covers)}" if covers else {"skin": "end", "return": "inside edge"}.get(one.kind, "")
        cells = (
            words(str(one.number), size=13, bold=True),
            words(one.id.removeprefix(f"{one.run} "), size=11),
            words(*size, size=13, bold=True),
            words(*rough, size=11),
            words(said, size=10, condensed=True),
        )
        for at, end, cell in zip(x[1:6], x[2:], cells, strict=True):
            pen.words(at, base, fit(cell, end - at - 1.5))
        pen.pencil(x[6], y + 0.8, page.x1 - x[6], ROW - 1.6, "is")

    return Band(ROW, draw)


def _sizes(*sizes: Figure, display: Display) -> tuple[Part, ...]:
    parts: list[Part] = []
    for size in sizes:
        parts += [" × "] if parts else []
        parts += finely(size, display)
    return tuple(parts)


def _under(plan: Plan, faced: RunFacing, width: float) -> Iterator[Band]:
    """What is packed, how trim is made, which leaf holds what, what it is stuck on and pinned with."""
    display = plan.display
    yield from _said("Packing", (_packing(one, display) for one in faced.packings), width)
    yield from _said("Trim", (_trim(one, display) for one in faced.trims), width)
    yield from _said("Rows per leaf", (_leaf(n, leaf, display) for n, leaf in _laid(plan, faced)), width)
    yield from _said("Adhesive", (_bond(one) for one in faced.bonds), width)
    yield from _said("Pins, not where a hinge screw comes", (_pins(one, display) for one in faced.pins), width)


def _said(title: str, lines: Iterator[Words], width: float) -> Iterator[Band]:
    for number, line in enumerate(lines):
        if not number:
            yield title_band(words(title, size=12, bold=True))
        yield text_band(wrap(line, width), 5.0)


def _packing(one: Packing, display: Display) -> Words:
    first, last = (finely(end, display) for end in one.ends)
    ends = (
        [*first]
        if one.ends[0].value == one.ends[1].value
        else [*first, " at one end (bottom, left), ", *last, " at the other"]
    )
    return words(strong("behind ", one.of), f", {one.what}: ", *ends, " thick", size=10)


def _trim(one: TrimPlan, display: Display) -> Words:
    parts: list[Part] = [strong(one.id), ": long point ", *finely(one.length, display)]
    parts += [f", mitred {' and '.join(one.mitred)}"] if one.mitred else []
    for at, front in one.joints:
        parts += [", joint at ", *finely(at, display), f" under {front}" if front else ", no front hides it"]
    if one.swell is not None and one.shrink is not None:
        parts += [", swells ", *finely(one.swell, display), " and shrinks ", *finely(one.shrink, display)]
        parts += [": screw one edge tight, the other in slots"]
    return words(*parts, size=10)


def _laid(plan: Plan, faced: RunFacing) -> Iterator[tuple[int, StripLeaf]]:
    """The leaves of the job that hold strips of this run, by their numbers."""
    own = {one.id for one in faced.pieces}
    for number, (_, leaf) in enumerate(plan.veneer.nests, 1):
        if any(strip.id in own for row in leaf.rows for strip in row.strips):
            yield number, leaf


def _leaf(number: int, leaf: StripLeaf, display: Display) -> Words:
    parts: list[Part] = [strong(f"leaf {number}"), ": "]
    for at, row in enumerate(leaf.rows):
        parts += ["; "] if at else []
        parts += [" + ".join(strip.id for strip in row.strips), " in a row ", length(row.width, display), " wide"]
    return words(*parts, size=10)


def _bond(one: Bond) -> Words:
    what = one.adhesive or "nothing until it is made good"
    parts: list[Part] = [strong(one.where), f", {GROUNDS[one.ground]}: {FIRST[one.ground]}. ", strong(what)]
    if one.kind is not None:
        parts += [f", about {round(one.millilitres)} ml"]
    if one.kind == "epoxy" and one.per_mix:
        parts += [f", {one.per_mix} to a mix, {one.mixes} mix{'es' * (one.mixes != 1)}"]
    return words(*parts, ".", size=10)


def _pins(one: Pins, display: Display) -> Words:
    of: list[Part] = [
        f"{len(one.pieces)} piece{'s' * (len(one.pieces) != 1)} of ",
        *finely(one.thickness, display),
        " on ",
        *finely(one.behind, display),
    ]
    between: list[Part] = [", from ", *finely(one.least, display), " to ", *finely(one.most, display), ": "]
    pin: list[Part] = (
        [length(one.pin, display), f", about {one.count}"] if one.pin is not None else ["none fits, use tape"]
    )
    return words(*of, *between, *pin, size=10)
