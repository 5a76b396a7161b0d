"""Sheet 21, site pack: by run what hangs where, in which order and to which line; for the job what is packed, how
surfaces are made ready, and snags."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from math import ceil

from frontwright.core.cautions import CAUTIONS, DEFERS, Hazard
from frontwright.core.drawing.facing_map import facing_map
from frontwright.core.drawing.hanging import hanging_drawing
from frontwright.core.figures import Figure
from frontwright.core.hardware.weights import ON_THE_WALL
from frontwright.core.plan import Plan, sited
from frontwright.core.site.prepare import Preparation, preparations
from frontwright.core.site.result import Hang, HangHow, LevelLine, SitePlan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing, title_height
from frontwright.sheets.caution_bands import caution_bands, caution_facts, repair_bands
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, draw_bands, inside, paged, text_band, title_band
from frontwright.sheets.picture import Placed, said_scale
from frontwright.sheets.player import medium
from frontwright.sheets.rows import Cells, cells_band
from frontwright.sheets.subjects import Shows, chosen_for, ends_told, run_ids, run_of, sheet
from frontwright.sheets.words import Part, Words, figure, finely, strong, words, wrap

HOW: dict[HangHow, str] = {
    "on the line": "on line",
    "from the gap": "by the gap",
    "in its opening": "gaps even in its opening",
    "by spacers": "by spacers, box shut",
    "fixed": "from behind, gaps even",
}
LINES = (0.0, 16.0, 84.0, 108.0, 132.0, 150.0)
LINE_HEADS = ("line", "of fronts", "left end", "right end", "held", "level is")
HANG = (0.0, 9.0, 27.0, 66.0, 84.0, 100.0, 121.0, 140.0, 155.0)
HANG_HEADS = ("", "front", "how", "spacer", "to", "already", "height side depth", "done", "reveal is")
PACK = (0.0, 8.0, 86.0, 120.0)
READY = (0.0, 28.0, 62.0, 118.0, 150.0)
READY_HEADS = ("surface", "found", "made ready", "sticks with", "trial")
SNAG = (0.0, 8.0, 36.0, 98.0, 126.0, 148.0)
SNAG_HEADS = ("", "where", "what", "who", "by when", "done on")
BLANK_SNAGS = 8
ORDER = (
    "Hang the first line first. Then set each door in height, then sideways, then in depth, with its bumpers on. "
    "Drawer fronts after all doors, by spacers, boxes shut."
)
SAFE = ("lifting", "lines not located")
READY_SAFE: tuple[Hazard, ...] = ("dust", "solvents", "oily rags")


def infos(plan: Plan) -> list[SheetInfo]:
    """One for each run that fronts hang on, then one for the whole job."""
    site = sited(plan)
    runs = dict.fromkeys(one.run for one in site.hanging)
    found = [_run_info(plan, site, run) for run in runs]
    return [*found, _job_info(plan, site)] if found else []


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """Drawing, lines and list of a run; or packing list, surfaces and snags."""
    site = sited(plan)
    return _run_leaves(plan, site, info, paper) if info.subject else _job_leaves(plan, site, info, paper)


# -- a run


def _run_info(plan: Plan, site: SitePlan, run: str) -> SheetInfo:
    figures: list[tuple[str, Figure]] = []
    for line in _lines(site, run):
        figures += [(f"line {line.number}, left end", line.left), (f"line {line.number}, right end", line.right)]
    told: list[tuple[str, str]] = []
    for one in site.of_run(run):
        front = plan.fronts.fronts[one.front]
        figures += [(f"width of {one.front}", front.width), (f"height of {one.front}", front.height)]
        figures += [(f"spacer of {one.front}", one.spacer)] if one.spacer is not None else []
        figures += [(f"adjustment taken of {one.front}", one.taken)] if one.taken is not None else []
        told.append((f"turn of {one.front}", f"{one.number}, {HOW[one.how]} {one.line or ''} {one.beside}".strip()))
        told.append((f"hinge side of {one.front}", front.hinge_side or "none"))
        told += [(f"plates of {one.front}", ", ".join(one.plates))] if one.plates else []
    faced = plan.facing.runs.get(run)
    for piece in faced.pieces if faced is not None else ():
        told.append((f"number of {piece.id}", str(piece.number)))
        figures += [(f"length of {piece.id}", piece.length), (f"width of {piece.id}", piece.width)]
    told += caution_facts(plan, run)
    told += [("added weight", added)] if (added := _added(plan, run)) else []
    found = run_of(plan, run)
    told += ends_told(found) if found is not None else []
    ids = (run_ids(found) if found else {run}) | {one.front for one in site.of_run(run)}
    assumptions = tuple(a for one in site.of_run(run) for a in chosen_for(plan.fronts.fronts[one.front]))
    shows = Shows(tuple(figures), tuple(told), tuple(a for a in assumptions if not a.startswith("grain")))
    return sheet(plan, "21", "site", run, f"site pack, run {run}", ids, shows)


def _lines(site: SitePlan, run: str) -> list[LevelLine]:
    return [line for line in site.lines if line.run == run]


def _run_leaves(plan: Plan, site: SitePlan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    width, height = inside(paper, landscape=True)
    box = standing(info, plan.display)
    placed = Placed(hanging_drawing(plan, site, info.subject), medium("bench"))
    notes = (ORDER, _caution(SAFE))
    bands = [
        *repair_bands(plan, info.subject, width),
        *_weight_bands(plan, info.subject, width),
        *_line_bands(plan, site, info.subject, width),
        *_hang_bands(plan, site, info.subject, width),
        *caution_bands(plan, info.subject, width),
    ]
    top = title_height(notes, width) + sentence_height(box, width)
    drawn = min(0.55 * height, height - top - 30)
    pages = paged(bands, height - top - drawn, height - title_height(notes, width))
    name, cells = f"21  {info.title}", (("seen from", "front"), ("scale", said_scale(None)))
    first = partial(_first, placed, drawn)

    def drawer(page_bands: Sequence[Band], number: int) -> Callable[[Page], None]:
        def draw(page: Page) -> None:
            y = page.title(f"Hanging, run {info.subject}", f"{len(site.of_run(info.subject))} fronts", notes)
            y = page.sentence(y, box) if box and not number else y
            y = y if number else first(page, y)
            draw_bands(page, y, page_bands)

        return draw

    found = [Leaf(drawer(page, at), name, cells, landscape=True) for at, page in enumerate(pages)]
    faced = plan.facing.runs.get(info.subject)
    if faced is not None and faced.pieces:
        found.append(Leaf(partial(_numbers, plan, info.subject), name, cells, landscape=True))
    return found


def _numbers(plan: Plan, run: str, page: Page) -> None:
    """The bare frame with the number of every piece, in gluing order; the list is on the trim map."""
    said = "Numbers are the order of gluing: skins, inside edges, stile strips, rail strips. Sizes: trim map, sheet 18."
    y = page.title(f"Pieces by number, run {run}", "on the bare frame", (said,))
    Placed(facing_map(plan, run), medium("bench")).draw(page, page.x0, y + 2, page.x1 - page.x0, page.bottom - y - 4)


def _first(placed: Placed, drawn: float, page: Page, y: float) -> float:
    placed.draw(page, page.x0, y + 2, page.x1 - page.x0, drawn - 4)
    page.rule(y + drawn)
    return y + drawn


def _heads(columns: Sequence[float], heads: Sequence[str], width: float) -> Band:
    parts: tuple[tuple[Part, ...], ...] = tuple((head,) if head else () for head in heads)
    return cells_band(columns, Cells(parts, size=8.5, least=6.6), width)


def _line_bands(plan: Plan, site: SitePlan, run: str, width: float) -> Iterator[Band]:
    lines = _lines(site, run)
    if not lines:
        return
    found = run_of(plan, run)
    slope = found.slope if found is not None else None
    said: list[Part] = [strong("Lines to level to"), "  height over the frame's lower edge; "]
    said += (
        ["the bottom rail slopes by ", *finely(slope, plan.display)] if slope else ["no slope was read: try a level"]
    )
    yield title_band(words(*said, size=11))
    yield _heads(LINES, LINE_HEADS, width)
    for line in lines:
        parts: tuple[tuple[Part, ...], ...] = (
            (str(line.number),),
            (", ".join(line.fronts),),
            figure(line.left, plan.display),
            figure(line.right, plan.display),
            (f"at the {line.held}" if line.held else "level",),
            (),
        )
        yield cells_band(LINES, Cells(parts, frozenset((0, 2, 3)), boxes=frozenset((5,))), width)


def _weight_bands(plan: Plan, run: str, width: float) -> Iterator[Band]:
    """What new fronts add to the fixings of boxes that hang on the wall, and what is looked at before."""
    if added := _added(plan, run):
        said = f" {added}. {'; '.join(ON_THE_WALL)}."
        yield text_band(wrap(words(strong("Added on the wall fixings:"), said, size=10.5), width), 5.0)


def _added(plan: Plan, run: str) -> str:
    """The added weight, up to the next whole pound or kilogram: less makes no difference to a fixing, and no sheet
    stale. "" of boxes on the floor."""
    weight = plan.hardware.weights.get(run)
    if weight is None:
        return ""
    told = f"{ceil(weight.added.units)} {'lb' if plan.display.unit == 'in' else 'kg'}"
    return f"({told})" if weight.added.rests else told


def _hang_bands(plan: Plan, site: SitePlan, run: str, width: float) -> Iterator[Band]:
    yield title_band(words(strong("In this order"), size=11))
    yield _heads(HANG, HANG_HEADS, width)
    for one in site.of_run(run):
        yield cells_band(HANG, _hang_cells(plan, one), width)


def _hang_cells(plan: Plan, one: Hang) -> Cells:
    side = plan.fronts.fronts[one.front].hinge_side
    how = HOW[one.how] + (f" {one.line}" if one.how == "on the line" else "")
    how += f", hinges {side}" if side else ""
    how += f", plates from below: {', '.join(one.plates)}" if one.plates else ""
    parts: tuple[tuple[Part, ...], ...] = (
        (str(one.number),),
        (one.front,),
        (how,),
        figure(one.spacer, plan.display) if one.spacer is not None else (),
        (one.beside,) if one.beside else (),
        figure(one.taken, plan.display) if one.taken is not None else (),
        (),
        (),
        (),
    )
    return Cells(parts, frozenset((0, 1)), frozenset((7,)), frozenset((6, 8)))


# -- the whole job


def _job_info(plan: Plan, site: SitePlan) -> SheetInfo:
    told = [(f"{one.what}", f"{one.count} {one.why}".strip()) for one in site.packing]
    told += [
        (f"surface {one.surface}", f"{one.found}: {one.ready}; {one.adhesive}; {one.trial}") for one in _ready(plan)
    ]
    told += [
        (f"snag {one.id}", f"{one.of} {one.what} {one.who} {one.due} {one.done}") for one in plan.job.snags.values()
    ]
    ids = {one.surface for one in _ready(plan)} | {one.run for one in _ready(plan)}
    return sheet(plan, "21", "site", "", "site pack: packing, surfaces, snags", ids, Shows((), tuple(told)))


def _ready(plan: Plan) -> tuple[Preparation, ...]:
    return preparations(plan.condition, plan.facing)


def _job_leaves(plan: Plan, site: SitePlan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    width, height = inside(paper)
    box = standing(info, plan.display)
    notes = ("Tick what is packed. Whatever is loose or missing on site is a snag: where, what, who, by when.", _safe())
    bands = [*_pack_bands(site, width), *_ready_bands(plan, width), *_snag_bands(plan, width)]
    room = height - title_height(notes, width)
    pages = paged(bands, room - sentence_height(box, width), room)
    name, cells = f"21  {info.title}", (("goes to", "site"),)
    draw = partial(_job_page, plan, notes)
    return [Leaf(partial(draw, box if not n else (), page), name, cells) for n, page in enumerate(pages)]


def _job_page(plan: Plan, notes: tuple[str, ...], box: Words, bands: Sequence[Band], page: Page) -> None:
    y = page.title("Site pack", plan.job.heading.client or plan.job.heading.name, notes)
    y = page.sentence(y, box) if box else y
    draw_bands(page, y, bands)


def _pack_bands(site: SitePlan, width: float) -> Iterator[Band]:
    group = ""
    for one in site.packing:
        if one.group != group:
            group = one.group
            yield title_band(words(strong(f"{group[:1].upper()}{group[1:]}"), size=11), 8.0)
        parts: tuple[tuple[Part, ...], ...] = ((), (one.what,), (one.count,), (one.why,) if one.why else ())
        yield cells_band(PACK, Cells(parts, frozenset((2,)), frozenset((0,)), size=9.5, least=7.4), width)


def _ready_bands(plan: Plan, width: float) -> Iterator[Band]:
    ready = _ready(plan)
    if not ready:
        return
    yield title_band(words(strong("Surfaces made ready"), size=11))
    yield _heads(READY, READY_HEADS, width)
    for one in ready:
        parts: tuple[tuple[Part, ...], ...] = tuple(
            (text,) if text else () for text in (one.surface, one.found, one.ready, one.adhesive, one.trial)
        )
        yield cells_band(READY, Cells(parts, frozenset((0,)), size=9), width)


def _snag_bands(plan: Plan, width: float) -> Iterator[Band]:
    """The snags that are known, and lines for more."""
    yield title_band(words(strong("Snags"), size=11))
    yield _heads(SNAG, SNAG_HEADS, width)
    for row in plan.job.snags.values():
        said: tuple[tuple[Part, ...], ...] = tuple(
            (text,) if text else () for text in ("", row.of, row.what, row.who, row.due, row.done)
        )
        yield cells_band(SNAG, Cells(said, ticks=frozenset(() if row.done else (0,))), width)
    for _ in range(BLANK_SNAGS):
        yield cells_band(SNAG, Cells(((),) * 6, ticks=frozenset((0,)), boxes=frozenset(range(1, 6))), width)


def _caution(hazards: Sequence[str]) -> str:
    said = "; ".join(text for hazard in hazards for text in CAUTIONS[hazard].says)  # type: ignore[index]
    return f"{said[:1].upper()}{said[1:]}. {DEFERS}"


def _safe() -> str:
    return _caution(READY_SAFE)
