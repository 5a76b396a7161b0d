"""Sheet 5, condition and hinge record: a line for each surface, old hinges in seven figures, drawers, what can hurt."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from frontwright.core.condition.result import SurfacePlan
from frontwright.core.job import Drawer, OldHinge, Surface, SurfaceWhere
from frontwright.core.plan import Plan
from frontwright.core.survey.result import RunPlan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.caution_bands import caution_bands, caution_facts, packers
from frontwright.sheets.condition_sketch import HIGH, hinge_section, open_box, seven_boxes
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, draw_bands, inside, paged, text_band, title_band
from frontwright.sheets.subjects import Shows, run_of, sheet
from frontwright.sheets.words import Words, fit, strong, typed_size, words, wrap

HEAD, PICTURE, ROW, HEADS, TITLE = 13.5, HIGH + 6, 8.8, 6.0, 7.0
USUAL: tuple[SurfaceWhere, ...] = ("faces", "inside edges", "left end", "right end")
SURFACE = (
    *(("", 7), ("surface", 24), ("made of", 21), ("screw", 16), ("finish", 34), ("state", 29), ("paint", 18)),
    *(("swab", 17), ("day's trial", 16), ("what is done", 20), ("made good by", 38), ("keyed", 30)),
)
HINGE = (
    *(("opening", 15), ("kind", 22), ("1 number", 14), ("2 cover", 17), ("3 cup", 15), ("4 deep", 15)),
    *(("5 edge", 15), ("6 plates at", 58), ("7 made for", 17), ("worn", 12), ("what becomes of them", 34)),
)
DRAWER = (
    *(("opening", 15), ("front", 26), ("if fixed", 30), ("closes", 36), ("box front", 18), ("stands out", 18)),
    *(("packing", 18), ("screws", 18), ("runners", 30)),
)
OVER = "heights over the opening's lower edge"


@dataclass(frozen=True, slots=True)
class _Line(Band):
    """A line of a record, and the title and heads of its columns that stand over it on every page."""

    under: Band = field(kw_only=True)


@dataclass(frozen=True, slots=True)
class _Row:
    """A line of a record: what each column says; an empty one is a box to write in."""

    name: str
    cells: tuple[str, ...]


def infos(plan: Plan) -> list[SheetInfo]:
    """One for every run; before anything was looked at it is the form to take along."""
    return [_info(plan, run) for run in plan.survey.runs if run.openings or run.members]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The sketches, then the records, then repairs, lines and cautions."""
    run = run_of(plan, info.subject)
    if run is None:
        return []
    width, height = inside(paper, landscape=True)
    box = standing(info, plan.display)
    first = height - HEAD - PICTURE - sentence_height(box, width)
    later = height - HEAD - TITLE - HEADS
    pages = [_with_heads(page, at) for at, page in enumerate(paged(list(_bands(plan, run, width)), first, later))]
    cells = (("seen from", "front"),)
    return [
        Leaf(_drawer(plan, run, page, box, first=not at), f"5  {info.title}", cells, landscape=True)
        for at, page in enumerate(pages)
    ]


def _info(plan: Plan, run: RunPlan) -> SheetInfo:
    records = [
        (f"{heads[at][0]} of {row.name}", cell)
        for heads, rows in _records(plan, run)
        for row in rows
        for at, cell in enumerate(row.cells)
        if heads[at][0]
    ]
    told = (*records, *((name, text) for name, text in _notes(plan, run)), *caution_facts(plan, run.id))
    boxes = tuple(name for name, _ in records)
    title = f"condition of run {run.id}"
    ids = {one.id for one in plan.condition.of_run(run.id)}
    info = sheet(plan, "05", "condition", run.id, title, ids, Shows((), told, boxes=boxes))
    return replace(info, held_by=())  # it is the sheet on which what holds the others back is put right


type Heads = Sequence[tuple[str, float]]


def _records(plan: Plan, run: RunPlan) -> Iterator[tuple[Heads, list[_Row]]]:
    yield SURFACE, _surfaces(plan, run)
    yield HINGE, [_hinge(plan, one) for one in _holding(plan, run, ("door", "glass"))]
    yield DRAWER, [_drawer_row(plan, one) for one in _holding(plan, run, ("drawer",))]


def _holding(plan: Plan, run: RunPlan, kinds: tuple[str, ...]) -> list[str]:
    held = {front.opening for front in plan.job.fronts.values() if front.kind in kinds}
    return [opening.id for opening in run.openings if opening.id in held]


def lettered(plan: Plan, run: RunPlan) -> dict[SurfaceWhere, str]:
    """The letter of each surface of the sheet: those looked at or covered, then the usual ones."""
    known = plan.condition.of_run(run.id)
    places = [one.row.where for one in known]
    places += [where for where in USUAL if where not in places and not run.run.by_itself]
    return {where: chr(ord("A") + at) for at, where in enumerate(places)}


def _surfaces(plan: Plan, run: RunPlan) -> list[_Row]:
    known = {one.row.where: one for one in plan.condition.of_run(run.id)}
    letters = lettered(plan, run)
    return [_surface(run, where, letter, known.get(where)) for where, letter in letters.items()]


def _surface(run: RunPlan, where: SurfaceWhere, letter: str, plan: SurfacePlan | None) -> _Row:
    row = plan.row if plan is not None else Surface(f"{run.id} {where}", run.id, where)
    paint = ", ".join(part for part in (_coats(row.coats), str(row.painted or "")) if part)
    done = row.treated or ("cover" if plan is not None and plan.glued else "")
    return _Row(
        row.id,
        (
            letter,
            where,
            row.made_of or "",
            _yes(row.screw_holds),
            row.finish or "",
            row.state or "",
            paint if row.finish in (None, "paint") else "–",
            {"lead": "LEAD", "no lead": "no lead", None: ""}[row.swab] if row.finish in (None, "paint") else "–",
            row.trial or "",
            _DONE.get(done, done),
            (row.made_good or "") if plan is None or not plan.may_be_glued else row.made_good or "–",
            row.keyed or "",
        ),
    )


_DONE = {"keep": "kept", "refinish": "refinished", "cover": "covered", "replace": "replaced"}


def _coats(coats: int | None) -> str:
    return f"{coats} coats" if coats else ""


def _yes(said: bool | None) -> str:
    return "" if said is None else "yes" if said else "no"


def _hinge(plan: Plan, opening: str) -> _Row:
    row = plan.job.old_hinges.get(opening) or OldHinge(opening)
    plates = [getattr(row, f"plate_{at}") for at in range(1, 6)]
    told = ", ".join(part for plate in plates for part in typed_size(plate))
    sizes = ["".join(typed_size(one)) for one in (row.cover, row.cup, row.cup_depth, row.edge_distance)]
    uses = {"again": "used again", "replace": "replaced", "same borings": "replaced, same borings", None: ""}
    return _Row(
        opening,
        (
            opening,
            row.kind or "",
            str(row.count or ""),
            *sizes,
            told,
            "".join(typed_size(row.thickness)),
            _yes(row.worn),
            uses[row.use],
        ),
    )


def _drawer_row(plan: Plan, opening: str) -> _Row:
    row = plan.job.drawers.get(opening) or Drawer(opening)
    front = {"applied": "screwed on", "fixed": "part of the box", None: ""}[row.front]
    sizes = ["".join(typed_size(one)) for one in (row.box_front, row.box_out, row.packing, row.screw)]
    runners = ", ".join(part for part in (row.runners or "", "worn" if row.runners_worn else "") if part)
    fixed = "–" if row.front == "applied" else row.way or ""
    return _Row(opening, (opening, front, fixed, row.closes or "", *sizes, runners))


def _notes(plan: Plan, run: RunPlan) -> Iterator[tuple[str, str]]:
    """Repairs and lines in words, and what was noted of surfaces, hinges and drawers."""
    for row in plan.job.repairs.values():
        if row.run == run.id:
            at = f", {row.at}" if row.at else ""
            yield f"repair {row.id}", f"{row.what}{at}: {'done' if row.done else 'to do before strips and hinges'}"
    for box, size in packers(plan, run.id):
        yield f"frame of {box}", f"frame of {box} stands {size} before the side, inside: plates on it are packed out"
    openings = {opening.id for opening in run.openings}
    for line in plan.job.service_lines.values():
        if line.opening in openings:
            heights = " to ".join(part for one in (line.low, line.high) for part in typed_size(one))
            found = "" if line.found else ", not located yet"
            yield (
                f"line {line.id}",
                f"{line.kind} behind {line.opening}, {line.where}{heights and f', {heights}'}{found}",
            )
    noted = [(one.id, one.note) for one in plan.job.surfaces.values() if one.run == run.id]
    noted += [(one.id, one.note) for one in plan.job.old_hinges.values() if one.id in openings]
    noted += [(one.id, one.note) for one in plan.job.drawers.values() if one.id in openings]
    yield from ((f"note on {of}", f"{of}: {note}") for of, note in noted if note)


# -- drawing


def _with_heads(page: list[Band], number: int) -> list[Band]:
    """A further page that begins within a record, with the heads of its columns told again."""
    return [page[0].under, *page] if number and isinstance(page[0], _Line) else page


def _bands(plan: Plan, run: RunPlan, width: float) -> Iterator[Band]:
    yield from caution_bands(plan, run.id, width)
    titles = ("Surfaces", "Old hinges", "Drawers as a whole")
    for title, (heads, rows) in zip(titles, _records(plan, run), strict=True):
        if rows:
            head = _heads_band(title, heads, width)
            yield head
            yield from (_row_band(row, heads, width, head) for row in rows)
    notes = list(_notes(plan, run))
    if notes:
        yield title_band(words(strong("Repairs, lines, notes"), size=12), 8.5)
        yield from (text_band(wrap(words(text, size=10.5), width), 5.0) for _, text in notes)


def _places(heads: Heads, width: float) -> list[tuple[float, float]]:
    """Where each column begins, from the inner margin, and how wide it is."""
    unit = width / sum(share for _, share in heads)
    found, x = [], 0.0
    for _, share in heads:
        found.append((x, share * unit))
        x += share * unit
    return found


def _heads_band(title: str, heads: Heads, width: float) -> Band:
    """The title of a record with the heads of its columns, never the last on a page."""
    places = _places(heads, width)

    def draw(page: Page, y: float) -> None:
        page.pen.words(page.x0, y + 5.8, words(title, size=12, bold=True))
        y += TITLE
        for (label, _), (x, wide) in zip(heads, places, strict=True):
            page.pen.words(page.x0 + x, y + 4.2, fit(words(label, size=8, condensed=True), wide - 1))

    return Band(TITLE + HEADS, draw, keep=True)


def _row_band(row: _Row, heads: Heads, width: float, under: Band) -> Band:
    places = _places(heads, width)

    def draw(page: Page, y: float) -> None:
        for at, (cell, (x, wide)) in enumerate(zip(row.cells, places, strict=True)):
            if not cell:
                page.pen.pencil(page.x0 + x, y + 1, wide - 1.4, ROW - 2)
                continue
            said = words(cell, size=9.5 if at else 12, bold=not at or cell == "LEAD")
            page.pen.words(page.x0 + x, y + 6, fit(said, wide - 1.2))

    return _Line(ROW, draw, under=under)


def _drawer(plan: Plan, run: RunPlan, bands: Sequence[Band], box: Words, *, first: bool) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        line = words(f"{run.run.name or 'run'}, condition and hinges", size=15, bold=True)
        y = page.head(run.id, line, words(OVER, size=9, condensed=True), HEAD)
        if first:
            y = page.sentence(y, box) if box else y
            y = _pictures(page, plan, run, y)
        draw_bands(page, y, bands)

    return draw


def _pictures(page: Page, plan: Plan, run: RunPlan, y: float) -> float:
    """The open box with its letters, the hinge in section, and boxes for the seven figures of one hinge."""
    open_box(page.pen, page.x0 + 6, y + 3, lettered(plan, run))
    hinge_section(page.pen, page.x0 + 78, y + 5)
    seven_boxes(page.pen, page.x0 + 156, y + 5, page.x1 - page.x0 - 156)
    page.rule(y + PICTURE)
    return y + PICTURE
