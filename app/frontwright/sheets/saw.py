"""Sheet 15, saw sheet: one billet, its end to scale, what a slice takes, and a line to check after every slice."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from frontwright.core.drawing.billet import STOP_AFTER, billet, one_slice
from frontwright.core.drawing.billet_end import plan_of
from frontwright.core.job import Amount, Billet
from frontwright.core.lengths import Typed
from frontwright.core.plan import Plan
from frontwright.core.veneer.cautions import MANUAL, at_the_saw
from frontwright.core.veneer.result import BilletPlan, SlicePlan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, column_heads, draw_bands, inside, paged
from frontwright.sheets.pen import OUTLINE
from frontwright.sheets.picture import Placed, said_scale
from frontwright.sheets.player import medium
from frontwright.sheets.subjects import Shows
from frontwright.sheets.veneer_words import (
    AS_PLANNED,
    blade_words,
    machine_of,
    of_veneer,
    saw_words,
    seat_words,
    seats_by_leaf,
)
from frontwright.sheets.words import Part, Words, finely, fit, strong, width_of, words, wrap

HEAD, UNREAD, COLUMNS, BAR, LINE, LAST = 20.0, 11.0, 7.0, 8.6, 6.6, 10.0
DRAWN = (56.0, 70.0)  # least and most height of the drawings
ROW = (10.4, 15.0)
LEAD = 4.0
HEADS = (
    "slice",
    "leaf",
    "leaf is: six points, three along each edge",
    "billet left should",
    "billet left is",
    "state",
)
POINTS = 6
WRITTEN = ("wood", "ring angle", "shell", "core")  # into boxes of the sheet, as long as they are not known
SHARES = (0.6, 0.62, 0.64, 0.66, 0.68, 0.7)  # of the width for the end view, the rest for one slice
SMALLEST = Fraction(10_000)
BOX = 25.0  # of what is to be measured before the first cut


def infos(plan: Plan) -> list[SheetInfo]:
    """One for every billet, entered or planned."""
    return [_info(plan, of) for of in plan.veneer.plans]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """Head, cautions, drawing and check lines; further lines go on on a second page."""
    of = plan_of(plan, info.subject)
    box = standing(info, plan.display)
    width, height = inside(paper)
    cautions = _cautions(plan, of, width)
    above = HEAD + sentence_height(box, width) + UNREAD + _height(cautions)
    room = height - above - COLUMNS
    rows, fixed = len(of.slices), BAR + LAST + LINE * len(_changes(of)) + 0.2
    drawn = max(DRAWN[0], min(DRAWN[1], room - fixed - rows * ROW[0]))
    tall = max(ROW[0], min(ROW[1], (room - drawn - fixed) / max(rows, 1)))
    bands = list(_bands(plan, of, tall))
    views = _views(plan, of, width, drawn)
    first = _First(plan, of, box, cautions, views, drawn)
    pages = paged(bands, room - drawn, height - HEAD - COLUMNS)
    machine = machine_of(plan, of)
    cells = (("goes to", machine.kind), ("scale", said_scale(views.end_scale)))
    sheet = f"15  saw sheet, billet {of.id}"
    drawers = [_drawer(plan, of, page, first if not number else None) for number, page in enumerate(pages)]
    return [Leaf(draw, sheet, cells) for draw in drawers]


# -------------------------------------------------------------------------------------------------- what it rests on


def _info(plan: Plan, of: BilletPlan) -> SheetInfo:
    losses = of.saw_now.losses
    figures = [("length", of.length), ("width", of.width), ("thickness", of.thickness), ("slice", of.slice)]
    figures += [("kerf", losses.kerf), ("wander", losses.wander), ("re-joint", losses.rejoint)]
    figures += [("kept back", of.keep_back), ("rest", of.rest)]
    figures += [(f"billet left after {s.id}", s.left_should) for s in of.slices]
    figures += [(f"leaf {s.id}", s.wanted) for s in of.slices]
    ids = {of.id, of.machine, *(s.id for s in of.slices)}
    named = tuple((f"{name} of billet {of.id}" if " " not in name else name, figure) for name, figure in figures)
    shows = Shows(named, tuple(_told(plan, of)), boxes=WRITTEN)
    return of_veneer(plan, "15", "saw", of.id, f"saw sheet, billet {of.id}", ids, shows)


def _told(plan: Plan, of: BilletPlan) -> Iterator[tuple[str, str]]:
    """Readings are none of it: they were written by hand into the boxes of the sheet that hangs at the saw."""
    row, seats = of.billet, seats_by_leaf(plan)
    yield "saw", saw_words(plan, of.saw_now)
    yield "wood", _wood(plan, row)
    yield "leaves planned", str(of.planned)
    for name, given in (("ring angle", row.ring_angle), ("shell", row.moisture_shell), ("core", row.moisture_core)):
        yield name, given.text if given is not None else ""
    for one in of.slices:
        yield f"state of {one.id}", "" if one.state in AS_PLANNED else one.state
        yield f"place of {one.id}", seat_words(plan, seats.get(one.id))
    for one in _changes(of):
        yield f"saw from {one.id} on", saw_words(plan, one.saw)


def _changes(of: BilletPlan) -> list[SlicePlan]:
    """The slices from which on it is sawn with another saw or blade than before."""
    return [one for before, one in pairwise(of.slices) if one.saw != before.saw]


def _readings(one: SlicePlan) -> list[str]:
    """The six readings as typed, empty where none was taken."""
    leaf = one.leaf
    given = (getattr(leaf, f"thick_{at}", None) for at in range(1, POINTS + 1))
    return [_text(of) for of in given]


def _text(given: Typed | Amount | None) -> str:
    return given.text.strip() if given is not None else ""


def _wood(plan: Plan, row: Billet) -> str:
    """What is known of the wood: species, batch, and the piece it was cut from."""
    piece = plan.job.pieces.get(row.piece or "")
    if piece is None:
        return ", ".join(text for text in (row.figure,) if text)
    of = (piece.species, f"batch {piece.batch}" if piece.batch else "", f"from {piece.form} {piece.id}", row.figure)
    return ", ".join(text for text in of if text)


# ------------------------------------------------------------------------------------------------- what stands on it


@dataclass(frozen=True, slots=True)
class _Views:
    """The two drawings, n of the scale 1:n of each, how much of the width the first takes, and the blade in words."""

    end: Placed
    end_scale: Fraction | None
    one: Placed
    one_scale: Fraction | None
    share: float
    blade: str


@dataclass(frozen=True, slots=True)
class _First:
    """What only the first page has over its check lines."""

    plan: Plan
    of: BilletPlan
    box: Words
    cautions: list[tuple[str, list[Words]]]
    views: _Views
    drawn: float

    def draw(self, page: Page, y: float) -> float:
        y = page.sentence(y, self.box) if self.box else y
        y = _draw_cautions(page, y, self.cautions)
        y = _draw_unread(page, y, self.of.billet)
        return _draw_views(page, y, self.views, self.drawn)


def _drawer(plan: Plan, of: BilletPlan, bands: Sequence[Band], first: _First | None) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        y = _head(plan, of, page)
        y = first.draw(page, y) if first is not None else y
        y = column_heads(page, y, tuple(zip(HEADS, _columns(page), strict=True)))
        draw_bands(page, y, bands)

    return draw


def _columns(page: Page) -> tuple[float, ...]:
    return page.x0, page.x0 + 23, page.x0 + 35, page.x1 - 65, page.x1 - 39, page.x1 - 17


def _head(plan: Plan, of: BilletPlan, page: Page) -> float:
    """The letter big, sizes to find the billet by, and how many leaves it gives."""
    pen, top = page.pen, page.top
    x = page.x0 + pen.words(page.x0 - 0.6, top + 14.6, fit(words(of.id, size=38, bold=True), 40)) + 7
    count = len([s for s in of.slices if s.state != "lost"])
    right = words(f"{count} {'leaf' if count == 1 else 'leaves'}", size=19, bold=True)
    pen.words(page.x1, top + 8.4, right, "right")
    pen.words(page.x1, top + 16, words("each ", *finely(of.slice, plan.display), size=12), "right")
    room = page.x1 - x - width_of(right) - 4
    wood = _wood(plan, of.billet)
    pen.words(x, top + 7.4, fit(words(f"billet, {wood}" if wood else "billet", size=12, bold=True), room))
    for name, size in (("long", of.length), ("high", of.width), ("thick", of.thickness)):
        x += pen.words(x, top + 16, words(f"{name} ", strong(*finely(size, plan.display)), size=14)) + 5
    page.rule(top + HEAD, OUTLINE)
    return top + HEAD


def _cautions(plan: Plan, of: BilletPlan, width: float) -> list[tuple[str, list[Words]]]:
    """Each caution by its word, broken to the width."""
    lines = [(each.word, _small("; ".join(each.says), ".")) for each in at_the_saw(machine_of(plan, of).kind)]
    limit = _limit(plan, of)
    if limit:
        lines.insert(1, ("height", limit))
    lines.append(("", _small(strong(MANUAL))))
    return [(name, wrap(says, width - 21)) for name, says in lines]


def _small(*parts: Part) -> Words:
    return words(*parts, size=8.5, condensed=True)


def _limit(plan: Plan, of: BilletPlan) -> Words:
    """How high a billet the machine takes, and what a leaning blade does to a leaf."""
    if of.tallest is None:
        return ()
    how = "in two passes, one from each edge" if machine_of(plan, of).kind == "table saw" else "under the guides"
    parts: list[Part] = ["at most ", *finely(of.tallest, plan.display), f" {how}"]
    if of.belly is not None and of.belly.units:
        parts += ["; the blade leans: leaves ", *finely(of.belly, plan.display), " off at mid height"]
    return _small(*parts, ".")


def _height(cautions: list[tuple[str, list[Words]]]) -> float:
    return LEAD * sum(len(rows) for _, rows in cautions) + 3.4


def _draw_cautions(page: Page, y: float, cautions: list[tuple[str, list[Words]]]) -> float:
    line = y + 4.6
    for name, rows in cautions:
        page.pen.words(page.x0, line, fit(words(name, size=9, bold=True), 20))
        for row in rows:
            page.pen.words(page.x0 + 21, line, row)
            line += LEAD
    bottom = y + _height(cautions)
    page.rule(bottom)
    return bottom


def _draw_unread(page: Page, y: float, row: Billet) -> float:
    """Wood, ring angle and moisture: as they were read, or a box for each that was not, in the order of the page."""
    pen = page.pen
    read, missing = _known(row)
    parts: list[Part] = [", ".join(read), "; " if missing else ""] if read else []
    parts += [strong("not measured: ")] if missing else []
    x = page.x1 - BOX * len(missing)
    line, room = words(*parts, "write it here first", size=10), x - page.x0 - 3
    fits = missing and width_of(line) <= room
    pen.words(page.x0, y + 6.8, line if fits else fit(words(*parts, size=10), room))
    for place, name in enumerate(missing):
        pen.pencil(x + BOX * place + 1, y + 1.3, BOX - 1, UNREAD - 2.6, name)
    page.rule(y + UNREAD, OUTLINE)
    return y + UNREAD


def _known(row: Billet) -> tuple[list[str], list[str]]:
    """What was read of a billet, in words, and what was not."""
    asked = (
        ("ring angle", row.ring_angle, "°"),
        ("shell", row.moisture_shell, " %"),
        ("core", row.moisture_core, " %"),
    )
    read = [f"{name} {_text(of)}{unit}" for name, of, unit in asked if of is not None]
    read += [f"on {row.moisture_on}"] if row.moisture_on else []
    missing = [] if row.piece else ["wood, batch"]
    missing += [name for name, of, _ in asked if of is None]
    dry = row.moisture_shell is None or row.moisture_core is None
    return read, [*missing, "on (date)"] if dry and not row.moisture_on else missing


def _views(plan: Plan, of: BilletPlan, width: float, drawn: float) -> _Views:
    """The end view as big as it goes, and beside it what one slice takes, as big as the rest of the width allows."""
    end, one = (Placed(drawing, medium("bench")) for drawing in (billet(plan, of.id, "bench"), one_slice(plan, of.id)))
    tries = [
        _Views(
            end,
            end.scale_thin(width * share, drawn - 8),
            one,
            one.scale_thin(width * (1 - share) - 3, drawn - 8),
            share,
            blade_words(plan, of.saw_now),
        )
        for share in SHARES
    ]
    return min(tries, key=lambda way: (way.end_scale or SMALLEST, way.one_scale or SMALLEST))


def _draw_views(page: Page, y: float, views: _Views, drawn: float) -> float:
    split = page.x0 + (page.x1 - page.x0) * views.share
    told = (
        (views.end, views.end_scale, "End view, fence at the left", "height broken off", page.x0, split),
        (views.one, views.one_scale, "One slice takes", views.blade, split + 3, page.x1),
    )
    for placed, n, title, note, left, right in told:
        said = ", ".join(text for text in (said_scale(n), note) if text)
        line = words(strong(title), f"  {said}", size=9.5)
        page.pen.words(left, y + 5.4, fit(line, right - left))
        placed.draw(page, left, y + 7, right - left, drawn - 8, n)
    page.rule(y + drawn, OUTLINE)
    return y + drawn


def _bands(plan: Plan, of: BilletPlan, tall: float) -> Iterator[Band]:
    """A line a slice; after the third a bar across the page: stop and enter. Once those three are entered, a bar before
    the slice that comes next: what they have shown."""
    seats, changes = seats_by_leaf(plan), [one.id for one in _changes(of)]
    entered = of.seen is not None and all(one.left_is is not None for one in of.slices if one.number <= STOP_AFTER)
    following = next((one.id for one in of.slices if one.number > STOP_AFTER and one.state in ("to come", "lost")), "")
    for one in of.slices:
        if entered and one.id == following:
            yield Band(BAR, _seen_drawer(plan, of, following))
        if one.id in changes:
            yield _line_band(words(strong(f"From {one.id} on with {saw_words(plan, one.saw)}"), size=10))
        yield Band(tall, _row_drawer(plan, one, seat_words(plan, seats.get(one.id)), tall))
        if one.number == STOP_AFTER and len(of.slices) > STOP_AFTER and not entered:
            said = f"STOP.  Enter these three lines and look at the new plan before {of.slices[STOP_AFTER].id}."
            yield Band(BAR, _bar_drawer(said))
    yield Band(LAST, _last_drawer(plan, of))


def _line_band(line: Words) -> Band:
    return Band(LINE, lambda page, y: _line(page, y + LINE - 2.0, line))


def _row_drawer(plan: Plan, one: SlicePlan, place: str, tall: float) -> Callable[[Page, float], None]:
    wanted = words(*finely(one.wanted, plan.display), size=12)
    should = words(*finely(one.left_should, plan.display), size=18, bold=True)
    left = _text(one.leaf.left) if one.leaf is not None else ""
    state = "" if one.state in AS_PLANNED else one.state

    def draw(page: Page, y: float) -> None:
        pen, x = page.pen, _columns(page)
        middle = y + tall / 2
        if one.state != "lost":
            pen.tick(x[0], middle - 3.4)
        pen.words(x[0] + 7, middle + 1.2, fit(words(one.id, size=14, bold=True), x[1] - x[0] - 8))
        pen.words(x[0], y + tall - 1.2, fit(words(place, size=7, condensed=True), x[2] - x[0] - 1))
        pen.words(x[1], middle + 1.4, wanted)
        if one.state == "lost":
            pen.words(x[2], middle + 1.4, words(strong("no room for it"), ": look at the plan first", size=11))
            return
        wide = (x[3] - x[2] - 4) / POINTS
        for place_, text in enumerate(_readings(one)):
            _box(page, x[2] + place_ * wide, middle - 4.4, wide - 1.2, text)
        pen.words((x[3] + x[4]) / 2 - 1, middle + 2.3, should, "centre")
        _box(page, x[4], middle - 4.4, x[5] - x[4] - 1.2, left)
        _box(page, x[5], middle - 4.4, page.x1 - x[5], state)

    return draw


def _box(page: Page, x: float, y: float, width: float, text: str) -> None:
    """A box to write in, or what was written in it already."""
    page.pen.pencil(x, y, width, 8.8)
    if text:
        page.pen.words(x + width / 2, y + 5.9, fit(words(text, size=9, condensed=True), width - 1), "centre")


def _bar_drawer(text: str) -> Callable[[Page, float], None]:
    def draw(page: Page, y: float) -> None:
        pen = page.pen
        pen.filled((page.left, y), (page.right, y), (page.right, y + BAR), (page.left, y + BAR))
        pen.canvas.setFillGray(1)
        line = fit(words(text, size=13, bold=True), page.x1 - page.x0)
        pen.words((page.left + page.right) / 2, y + BAR - 2.7, line, "centre")
        pen.canvas.setFillGray(0)

    return draw


def _seen_drawer(plan: Plan, of: BilletPlan, following: str) -> Callable[[Page, float], None]:
    """What the slices so far have shown, and that from here on the plan goes by it; of another blade what is known."""
    seen = of.seen
    loss = finely(seen.loss, plan.display) if seen is not None else ()
    measured = seen is not None and seen.slices > 0
    how = "by what was seen" if measured else "by what this blade takes"
    planned = finely((of.saw_now if measured else of.saw).losses.together, plan.display)
    line = words(strong(f"From {following} on {how}: "), "loss ", *loss, " a slice, planned ", *planned, size=11)
    return lambda page, y: _line(page, y + BAR - 2.6, line)


def _line(page: Page, y: float, line: Words) -> None:
    page.pen.words(page.x0, y, fit(line, page.x1 - page.x0))


def _last_drawer(plan: Plan, of: BilletPlan) -> Callable[[Page, float], None]:
    """The rest: what it should be, what is kept back in it, and whether it gives one more leaf."""
    spare = "; planed on a carrier board: one leaf more" if of.spare else ""
    kept = finely(of.keep_back, plan.display)
    line = words(strong("rest"), ", kept back in it ", *kept, spare, size=10)
    should = words(*finely(of.rest, plan.display), size=14, bold=True)

    def draw(page: Page, y: float) -> None:
        x = _columns(page)
        page.pen.words(page.x0, y + 7, fit(line, x[3] - page.x0 - 2))
        page.pen.words((x[3] + x[4]) / 2 - 1, y + 7.4, should, "centre")
        page.pen.pencil(x[4], y + 1.2, x[5] - x[4] - 1.2, LAST - 2.4)

    return draw
