"""Sheet 20, finish schedule: a recipe with its test piece, front by coat by side, loads of the rack, day by day."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from frontwright.core.cautions import CAUTIONS, DEFERS, Hazard
from frontwright.core.figures import Figure
from frontwright.core.finish.finish import VOLUME
from frontwright.core.finish.result import FinishBatch, Visit
from frontwright.core.job import TestPiece
from frontwright.core.lengths import decimal
from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing, title_height
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, draw_bands, inside, paged, title_band
from frontwright.sheets.pen import OUTLINE, TICK
from frontwright.sheets.rows import Cells, cells_band
from frontwright.sheets.subjects import Shows, sheet
from frontwright.sheets.words import Part, Words, finely, fit, strong, words

AREAS = {"in": "sq ft", "mm": "m²"}
NAME, LOAD, PLACE, AREA_COLUMN, FIRST = 0.0, 34.0, 45.0, 56.0, 70.0  # millimetres of 169
GRID_ROW, GRID_HEAD = 8.2, 15.0
CALENDAR = (0.0, 30.0, 50.0, 66.0, 112.0, 134.0)
CALENDAR_HEADS = ("day", "begin, h", "load", "what", "dry after", "begun at")
PLACES_A_ROW = 6


def infos(plan: Plan) -> list[SheetInfo]:
    """One for each recipe that goes on anything."""
    return [_info(plan, batch) for batch in plan.finish.batches]


def _info(plan: Plan, batch: FinishBatch) -> SheetInfo:
    figures: list[tuple[str, Figure]] = [
        ("coats", batch.figures.coats),
        ("cover of a coat", batch.figures.cover),
        ("for brush and tray", batch.figures.extra),
        ("places of the rack", plan.finish.places),
        ("first to last coat of a day", plan.finish.coat_hours),
        ("before hanging", batch.figures.hang_days),
        ("before bumpers", batch.figures.bumper_days),
    ]
    figures += [("off an inset gap", batch.film)] if batch.film is not None else []
    told = [
        ("area a coat", decimal(batch.area, 2)),
        ("amount", decimal(batch.volume, 2)),
        ("recipe", "; ".join(_recipe(batch))),
        ("steps", ", ".join(step.name for step in batch.steps)),
        ("areas", ", ".join(f"{one.of} {decimal(one.area, 2)}" for one in batch.areas)),
        ("loads", "; ".join(" | ".join(", ".join(on) for on in load.places) for load in batch.loads)),
        ("days", ", ".join(_visit(visit) for visit in batch.visits)),
        ("first day", plan.finish.start),
        ("hung and bumpers from", f"day {batch.hang_day} and {batch.bumper_day}"),
        *(("test piece", _tested(piece)) for piece in _pieces(plan, batch)),
    ]
    ids = {one.of for one in batch.areas} & set(plan.fronts.fronts)
    name = batch.name if batch.known else "no recipe written down"
    title = f"finish schedule, {name}"
    assumptions = () if batch.known else ("recipe",)
    return sheet(plan, "20", "finish", batch.id, title, ids, Shows(tuple(figures), tuple(told), assumptions))


def _visit(visit: Visit) -> str:
    begins, takes = decimal(visit.begins % 24, 1), decimal(visit.ends - visit.begins, 1)
    return (
        f"load {visit.load} step {visit.step} on day {visit.day} at {begins} for {takes}{' late' if visit.late else ''}"
    )


def _pieces(plan: Plan, batch: FinishBatch) -> list[TestPiece]:
    """The test pieces of a recipe; those of no recipe too where it is the only one."""
    alone = len(plan.finish.batches) == 1
    return [one for one in plan.job.test_pieces.values() if one.finish == batch.id or (alone and not one.finish)]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The grid first, then loads, days, what came of it."""
    batch = next(one for one in plan.finish.batches if one.id == info.subject)
    width, height = inside(paper)
    box = standing(info, plan.display)
    notes = tuple(_notes(batch))
    bands = [*_recipe_bands(plan, batch, width), *_grid(plan, batch), *_rack(plan, batch), *_days(plan, batch, width)]
    bands += _came_of_it(plan, width)
    room = height - title_height(notes, width)
    pages = paged(bands, room - sentence_height(box, width), room)
    name, cells = f"20  {info.title}", (("goes to", "finish room"),)
    return [Leaf(_drawer(plan, batch, page, notes, box if not n else ()), name, cells) for n, page in enumerate(pages)]


def _drawer(
    plan: Plan, batch: FinishBatch, bands: Sequence[Band], notes: tuple[str, ...], box: Words
) -> Callable[[Page], None]:
    unit = plan.job.heading.unit
    right = f"{decimal(batch.area, 2)} {AREAS[unit]} a coat, {decimal(batch.volume, 2)} {VOLUME[unit]}"

    def draw(page: Page) -> None:
        y = page.title(f"Finish: {batch.name}" if batch.known else "Finish", right, notes)
        y = page.sentence(y, box) if box else y
        draw_bands(page, y, bands)

    return draw


def _notes(batch: FinishBatch) -> Iterator[str]:
    """Cautions, and the two that spoil the work."""
    yield "No finish on glue faces of strips: tape or scrape. Same coats on both sides of a front. One batch of tins."
    hazards: list[Hazard] = ["solvents", "oily rags"] if batch.drying_oil else ["solvents"]
    said = "; ".join(text for hazard in hazards for text in CAUTIONS[hazard].says)
    yield f"{said[:1].upper()}{said[1:]}. {DEFERS}"


def _recipe(batch: FinishBatch) -> Iterator[str]:
    row = batch.row
    for word, text in (
        ("", row.medium or ""),
        ("sheen ", row.sheen),
        ("sanded before: ", row.sanding),
        ("stain: ", row.stain),
        ("sealer: ", row.sealer),
        ("between coats: ", row.between),
        ("batch of the tins: ", row.batch),
        ("", row.note),
    ):
        if text:
            yield f"{word}{text}"
    yield "both sides at once, on points" if batch.both_sides else "one side, turned, the other side"


def _tested(piece: TestPiece) -> str:
    light = [word for word, seen in (("daylight", piece.daylight), ("lamplight", piece.lamplight)) if seen]
    parts = (
        piece.id,
        piece.recipe,
        f"wood {piece.wood}" if piece.wood else "",
        f"batch {piece.batch}" if piece.batch else "",
        f"tins {piece.tins}" if piece.tins else "",
        f"matches {piece.matches}" if piece.matches else "",
        f"{piece.age} old" if piece.age else "",
        f"to match it {piece.aim}" if piece.aim else "",
        f"seen by {' and '.join(light)}" if light else "not looked at by daylight and lamplight yet",
        {True: "it will do", False: "it will not do", None: "not judged yet"}[piece.good],
    )
    return ", ".join(part for part in parts if part)


def _recipe_bands(plan: Plan, batch: FinishBatch, width: float) -> Iterator[Band]:
    yield cells_band((0.0,), Cells(((strong("Recipe: "), "; ".join(_recipe(batch)), "."),)), width)
    if batch.film is not None:
        film: list[Part] = ["Coats take about ", *finely(batch.film, plan.display), " off the gap of an inset front."]
        yield cells_band((0.0,), Cells((tuple(film),)), width)
    pieces = _pieces(plan, batch)
    if not pieces:
        said = "none yet: every step on a piece of this wood, beside what it must match, by daylight and lamplight."
        yield cells_band((0.0,), Cells(((strong("Test piece: "), said),)), width)
    for piece in pieces:
        yield cells_band((0.0,), Cells(((strong("Test piece: "), _tested(piece), "."),)), width)


# -- front by coat by side


def _grid(plan: Plan, batch: FinishBatch) -> Iterator[Band]:
    """A row a front or strip; two boxes a step for a front (show side, back), one for a strip."""
    stands = [(load.number, at, place) for load in batch.loads for at, place in enumerate(load.places, 1)]
    places = {one: (load, at) for load, at, place in stands for one in place}
    names = [step.name for step in batch.steps]
    yield Band(GRID_HEAD, lambda page, y: _grid_head(page, y, names), keep=True)
    for area in batch.areas:
        load, place = places.get(area.of, (0, 0))
        cells = (area.of, str(load), str(place), decimal(area.area, 2))
        yield Band(GRID_ROW, _grid_drawer(cells, len(names), one_side=area.of not in plan.fronts.fronts))


def _grid_columns(page: Page, steps: int) -> list[float]:
    unit = (page.x1 - page.x0) / 169
    wide = (169 - FIRST) / max(steps, 1)
    return [page.x0 + (FIRST + wide * at) * unit for at in range(steps + 1)]


def _grid_head(page: Page, y: float, names: Sequence[str]) -> None:
    unit = (page.x1 - page.x0) / 169
    for label, at in (("front or strip", NAME), ("load", LOAD), ("place", PLACE), ("area", AREA_COLUMN)):
        page.pen.words(page.x0 + at * unit, y + 12, words(label, size=9, condensed=True))
    x = _grid_columns(page, len(names))
    for at, name in enumerate(names):
        page.pen.words(x[at], y + 5.5, fit(words(name, size=9, bold=True), x[at + 1] - x[at] - 1.5))
        page.pen.words(x[at], y + 12, words("show back", size=7.5, condensed=True))


def _grid_drawer(cells: tuple[str, str, str, str], steps: int, *, one_side: bool) -> Callable[[Page, float], None]:
    def draw(page: Page, y: float) -> None:
        unit = (page.x1 - page.x0) / 169
        for text, at, end in zip(
            cells, (NAME, LOAD, PLACE, AREA_COLUMN), (LOAD, PLACE, AREA_COLUMN, FIRST), strict=True
        ):
            room = (end - at) * unit - 1.5
            page.pen.words(page.x0 + at * unit, y + 5.7, fit(words(text, size=11, bold=at == NAME), room))
        for x in _grid_columns(page, steps)[:-1]:
            page.pen.tick(x, y + 1.6)
            if not one_side:
                page.pen.tick(x + TICK + 2.2, y + 1.6)

    return draw


# -- loads, days, what came of it


def _rack(plan: Plan, batch: FinishBatch) -> Iterator[Band]:
    """The rack drawn load by load: its places as boxes, named."""
    yield title_band(words(strong("Rack"), f"  {int(plan.finish.places.units)} places", size=11))
    for load in batch.loads:
        yield Band(4.0 + 13.0 * -(-len(load.places) // PLACES_A_ROW), _rack_drawer(load.number, load.places))


def _rack_drawer(number: int, places: Sequence[tuple[str, ...]]) -> Callable[[Page, float], None]:
    def draw(page: Page, y: float) -> None:
        page.pen.words(page.x0, y + 9, words(f"load {number}", size=11, bold=True))
        left = page.x0 + 20
        wide = (page.x1 - left) / PLACES_A_ROW
        for at, on in enumerate(places):
            x, top = left + wide * (at % PLACES_A_ROW), y + 2 + 13 * (at // PLACES_A_ROW)
            page.pen.box(x, top, wide - 2, 11, OUTLINE)
            page.pen.words(x + 1.2, top + 3.2, words(str(at + 1), size=7))
            said = on[0] if len(on) == 1 else f"{len(on)} strips"  # which, the grid says
            page.pen.words(x + 3.4, top + 6.8, fit(words(said, size=9.5, bold=True), wide - 7))

    return draw


def _days(plan: Plan, batch: FinishBatch, width: float) -> Iterator[Band]:
    hung, bumpers = f"hung from day {batch.hang_day} on", f"bumpers from day {batch.bumper_day} on"
    first = f"day 1 is {plan.finish.start}; " if plan.finish.start else "day 1 is ________; "
    yield title_band(words(strong("Day by day"), f"  {first}{hung}, {bumpers}", size=11))
    heads: tuple[tuple[Part, ...], ...] = tuple((head,) for head in CALENDAR_HEADS)
    yield cells_band(CALENDAR, Cells(heads, size=9, least=6.5), width)
    for visit in batch.visits:
        late: tuple[Part, ...] = (" key it first",) if visit.late else ()
        parts: tuple[tuple[Part, ...], ...] = (
            (f"day {visit.day}",),
            (decimal(visit.begins % 24, 1),),
            (str(visit.load),),
            (batch.steps[visit.step].name, *late),
            (f"{decimal(visit.ends - visit.begins, 1)} h",),
            (),
        )
        yield cells_band(CALENDAR, Cells(parts, bold=frozenset((0, 2)), boxes=frozenset((5,))), width)


def _came_of_it(plan: Plan, width: float) -> Iterator[Band]:
    """What is written down when it is done."""
    labels = (f"used, {VOLUME[plan.job.heading.unit]}", "days it took", "batch of the tins", "test piece")

    def draw(page: Page, y: float) -> None:
        wide = (page.x1 - page.x0) / len(labels)
        for at, label in enumerate(labels):
            page.pen.pencil(page.x0 + wide * at, y + 2, wide - 3, 11, label)

    if width:
        yield Band(15.0, draw)
