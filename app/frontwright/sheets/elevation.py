"""Sheet 6, elevation with fronts: for the wall and for the client, with sizes, hinge sides, grain, sums, agreed on."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from frontwright.core.figures import Figure, plus, total
from frontwright.core.fronts.result import FrontPlan, RowPlan, Sum
from frontwright.core.lengths import Display
from frontwright.core.plan import Plan
from frontwright.sheets.base import FOOT, SIZES, Leaf, Page, sentence_height, standing
from frontwright.sheets.drawn import Rows, key_of, run_rows
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.notes import Note, notes, scheme_of
from frontwright.sheets.pen import OUTLINE
from frontwright.sheets.picture import said_scale
from frontwright.sheets.subjects import Shows, chosen_for, ends_told, run_ids, run_of, sheet
from frontwright.sheets.words import CLIPPED, Part, Words, exactly, figure, fit, strong, words, wrap

HEAD, BESIDE, BETWEEN = 13.5, 80.0, 1.0
SIDE: dict[Paper, float] = {"a4": 42.0, "letter": 35.0}  # letter is shorter: notes give way before the scale does
CODES = ("hinge-overlay", "cover", "wall-clearance", "kerf-vs-reveal", "panel-movement")
MOST_NOTES = 6
BOX = 11.8  # from one pencil box to the next under it
UNDER = 58.0  # room for boxes and sums under a drawing that takes the whole width


@dataclass(frozen=True, slots=True)
class Place:
    """A rectangle of the page, in millimetres from its upper left corner."""

    x: float
    y: float
    width: float
    height: float


def infos(plan: Plan) -> list[SheetInfo]:
    """One sheet for every run that has fronts."""
    runs = dict.fromkeys(front.run for front in plan.fronts.fronts.values())
    return [_info(plan, run) for run in runs if run_of(plan, run) is not None]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """One page across."""
    box = standing(info, plan.display)
    long, short = SIZES[paper][::-1]
    width = long - 18 - 11 - 12
    height = short - 22 - FOOT - HEAD - sentence_height(box, width) - 3
    row = (height - BETWEEN) / 2
    rows = run_rows(
        plan,
        info.subject,
        (width - BESIDE - 4, height),
        (width, height - UNDER),
        (width - SIDE[paper] - 4, row),
        (width - BESIDE - 4, row),
    )
    cells = (("seen from", "front"), ("scale", said_scale(rows.n)))
    return [
        Leaf(
            _drawer(plan, info.subject, box, rows, SIDE[paper]),
            f"6  elevation of run {info.subject}",
            cells,
            landscape=True,
        )
    ]


def _info(plan: Plan, run: str) -> SheetInfo:
    fronts = _fronts(plan, run)
    figures: list[tuple[str, Figure]] = []
    for front in fronts:
        figures += [(f"width of {front.id}", front.width), (f"height of {front.id}", front.height)]
        figures += _frame(plan, front)
    for number, of in enumerate(_sums(plan, run), 1):
        figures += [(f"term {place} of sum {number}", term) for place, term in enumerate(of.terms, 1)]
        figures.append((f"overall of sum {number}", of.equals))
    told: list[tuple[str, str]] = [(f"hinge side of {front.id}", front.hinge_side or "none") for front in fronts]
    told += [(f"grain of {front.id}", front.grain) for front in fronts]
    told += [("note", "".join(str(part) for part in note.parts)) for note in notes(plan, _subjects(fronts), CODES)]
    found = run_of(plan, run)
    told += ends_told(found) if found else []
    figures += [(f"board of {', '.join(row.fronts)}", row.blank_length) for row in _grained(plan, fronts)]
    ids = (run_ids(found) if found else {run}) | _subjects(fronts)
    assumptions = tuple(a for front in fronts for a in chosen_for(front))
    shows = Shows(tuple(figures), tuple(told), assumptions)
    return sheet(plan, "06", "elevation", run, f"elevation of run {run}", ids, shows)


def _frame(plan: Plan, front: FrontPlan) -> Iterator[tuple[str, Figure]]:
    """The frame of a front as the drawing shows it."""
    made = plan.making.fronts.get(front.id)
    if made is None:
        return
    for word, of in (("stile", made.stile), ("top rail", made.top_rail), ("bottom rail", made.bottom_rail)):
        if of is not None:
            yield f"{word} of {front.id}", of
    for number, of in enumerate(made.mid_rail_low, 1):
        yield f"mid rail {number} of {front.id}, lower edge", of


def _fronts(plan: Plan, run: str) -> list[FrontPlan]:
    return [front for front in plan.fronts.fronts.values() if front.run == run]


def _subjects(fronts: Sequence[FrontPlan]) -> set[str]:
    return {front.id for front in fronts}


def _sums(plan: Plan, run: str) -> list[Sum]:
    """The sums of a run, those that say the same only once."""
    told: dict[tuple[object, ...], Sum] = {}
    for of in plan.fronts.sums:
        if of.run == run:
            told.setdefault((of.direction, *(term.units for term in of.terms), of.equals.units), of)
    return list(told.values())


def _drawer(plan: Plan, run: str, box: Words, rows: Rows, aside: float) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        y = _head(page, plan, run)
        y = page.sentence(y, box) if box else y
        top, low = y + 1.5, page.bottom - 1.5
        if rows.across:
            rows.rows[0].draw(page, page.x0, top, page.x1 - page.x0, low - top - UNDER, rows.n)
            under = Place(page.x0, low - UNDER, BESIDE, UNDER)
            _beside(page, under, plan, run)
            _bottom_up(page, replace(under, x=page.x1 - 1.2 * BESIDE, width=1.2 * BESIDE), plan, run, under.y)
        elif len(rows.rows) == 1:
            wide = page.x1 - page.x0 - BESIDE - 4
            rows.rows[0].draw(page, page.x0, top, wide, low - top, rows.n)
            side = Place(page.x1 - BESIDE, top, BESIDE, low - top)
            _bottom_up(page, side, plan, run, _beside(page, side, plan, run))
        else:
            _two_rows(page, plan, run, rows, Place(page.x1 - aside, top, aside, low - top))

    return draw


def _two_rows(page: Page, plan: Plan, run: str, rows: Rows, aside: Place) -> None:
    """The run's two rows: notes and boxes `aside` of the first, key and proof beside the second."""
    top, height = aside.y, (aside.height - BETWEEN) / 2
    under = top + height + BETWEEN
    first, second = rows.rows
    first.draw(page, page.x0, top, aside.x - page.x0 - 4, height, rows.n)
    second.draw(page, page.x0, under, page.x1 - page.x0 - BESIDE - 4, height, rows.n)
    _beside(page, replace(aside, height=height), plan, run)
    key = key_of(plan, run, first.drawing.subjects)
    place = Place(page.x1 - BESIDE, under, BESIDE, height)
    y = under
    if key:
        key.draw(page, place.x, under, 64, 15)
        page.pen.words(page.x1, under + 3, words("key", size=8.5), "right")
        page.pen.words(place.x, under + 19, words("hatched: the row above", size=8.5))
        y = under + 21
    _bottom_up(page, place, plan, run, y)


def _head(page: Page, plan: Plan, run: str) -> float:
    found = run_of(plan, run)
    name = found.run.name if found and found.run.name else "run"
    line = words(f"fronts of the {name}, seen from the front", size=15, bold=True)
    return page.head(run, line, words(*scheme_of(_fronts(plan, run), plan.display), size=12.5), HEAD)


def _beside(page: Page, place: Place, plan: Plan, run: str) -> float:
    """How to read it, which board runs through, and boxes for what is there on site; gives the height below."""
    y = place.y + 4
    for line in _hints(plan, run):
        y = page.pen.paragraph(place.x, y, place.width, line, 4.6) + 2.4
    y += 1.5
    page.pen.words(place.x, y, words("on site it is", size=10, bold=True))
    labels = _on_site(plan, run)
    rows = max(int((place.y + place.height - y - 2.4) / BOX), 1)
    columns = -(-len(labels) // rows)
    wide = (place.width + 1.8) / columns
    for number, label in enumerate(labels):
        row, column = divmod(number, columns)
        page.pen.pencil(place.x + column * wide, y + 2.4 + row * BOX, wide - 1.8, 10, label)
    return y + -(-len(labels) // columns) * BOX + 4


def _hints(plan: Plan, run: str) -> Iterator[Words]:
    fronts = _fronts(plan, run)
    if any(front.hinge_side for front in fronts):
        yield words("Two dashed lines meet at the hinge edge.", size=9.5)
    for row in _grained(plan, fronts):
        board = strong(*figure(row.blank_length, plan.display))
        ends = f" long; the grain runs on from {row.fronts[0]} to {row.fronts[-1]}."
        yield words("One board, ", board, ends, size=9.5)


def _grained(plan: Plan, fronts: Sequence[FrontPlan]) -> list[RowPlan]:
    """The rows among these fronts that are cut from one board."""
    return [row for row in plan.fronts.rows if set(row.fronts) & _subjects(fronts) and row.row.grain_through]


def _on_site(plan: Plan, run: str) -> list[str]:
    found = run_of(plan, run)
    walls = [side for side, end in found.ends.items() if end.kind in ("wall", "corner")] if found else []
    which = "" if len(walls) < 2 else "{} "
    boxes = [f"gap at the {which.format(side)}wall, {at}" for side in walls for at in ("top", "bottom")]
    return [*boxes, "overall"]


def _bottom_up(page: Page, place: Place, plan: Plan, run: str, top: float) -> None:
    """Proof, notes and the line to sign on, ending at the foot of the place; as many sums as go in."""
    pen, low = page.pen, place.y + place.height
    pen.words(place.x, low - 1.5, words("agreed", size=10.5, bold=True))
    pen.line(place.x + 16, low - 0.8, place.x + place.width * 0.62, low - 0.8)
    pen.words(place.x + place.width * 0.66, low - 1.5, words("on", size=10))
    pen.line(place.x + place.width * 0.73, low - 0.8, place.x + place.width, low - 0.8)
    said = [row for note in notes(plan, _subjects(_fronts(plan, run)), CODES) for row in _note_rows(note, place.width)]
    said = said[:MOST_NOTES]
    y = low - 10 - len(said) * 4.6
    pen.line(place.x, low - 7.6, place.x + place.width, low - 7.6)
    for number, (level, row) in enumerate(said):
        base = y + 4.6 + number * 4.6 - 1
        if level:
            pen.ring(place.x + 1.6, base - 1.2, 1.4)
            pen.words(place.x + 4.4, base, words(level, size=9.5, bold=True))
        pen.words(place.x + 15, base, row)
    if said:
        y -= 3
        pen.line(place.x, y + 1.6, place.x + place.width, y + 1.6, OUTLINE)
    rows = [row for of in _sums(plan, run) for row in _sum_rows(of, plan.display, place.width - 14)]
    fitting = rows[: max(int((y - top - 2) / 5.2), 0)]
    if not fitting:
        return
    start = y - len(fitting) * 5.2
    pen.line(place.x, start - 1, place.x + place.width, start - 1)
    pen.words(place.x, start + 4, words("proof", size=10, bold=True))
    for number, row in enumerate(fitting):
        pen.words(place.x + 14, start + 4 + number * 5.2, row)


def _note_rows(note: Note, width: float) -> Iterator[tuple[str, Words]]:
    """A note broken to its room; the level stands before its first line only."""
    for number, row in enumerate(wrap(words(*note.parts, size=9, condensed=True), width - 15)):
        yield (note.level if not number else ""), row


def _sum_rows(of: Sum, display: Display, width: float) -> list[Words]:
    """A sum in short: 4 + 3110 + 5 × 4 + 4.2 = 3138.2; the overall beside it where they differ."""
    same = of.total.units == of.equals.units
    verdict: tuple[Part, ...] = () if same else (" is not ", *exactly(of.equals, display))
    line = words(*short_sum(of, display), " = ", strong(*exactly(of.total, display)), *verdict, size=10.5)
    fitted = fit(line, width)
    clipped = str(fitted[-1].text).endswith(CLIPPED)
    return wrap(line, width) if clipped else [fitted]


def short_sum(of: Sum, display: Display) -> Iterator[Part]:
    """The terms of a row with its fronts added up and equal gaps counted; of a column one by one."""
    pairs = list(zip(of.kinds, of.terms, strict=True))
    if of.direction == "row" and len(pairs) > 5:
        pairs = [pairs[0], *_gathered(pairs[1:-1]), pairs[-1]]
    for number, (term, times) in enumerate(_counted(pairs)):
        yield " + " if number else ""
        yield f"{times} × " if times > 1 else ""
        yield from exactly(term, display)


def _gathered(pairs: Sequence[tuple[str, Figure]]) -> list[tuple[str, Figure]]:
    fronts = [term for kind, term in pairs if kind not in ("gap", "reveal")]
    gaps = [(kind, term) for kind, term in pairs if kind in ("gap", "reveal")]
    return [("fronts", total("fronts together", *(plus(front) for front in fronts))), *gaps]


def _counted(pairs: Sequence[tuple[str, Figure]]) -> Iterator[tuple[Figure, int]]:
    """Equal gaps that follow each other once with their number; everything else by itself."""
    for (kind, _), same in groupby(pairs, key=lambda pair: (pair[0], pair[1].units)):
        terms = [term for _, term in same]
        if kind == "gap":
            yield terms[0], len(terms)
        else:
            yield from ((term, 1) for term in terms)
