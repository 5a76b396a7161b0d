"""Sheet 24, labels: for leaves and pressed panels, for parts, for leftovers; on plain paper or on labels to stick."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from frontwright.core.drawing.leaf_map import panel_of
from frontwright.core.job import LabelSheet
from frontwright.core.lengths import UNITS_IN, Typed
from frontwright.core.plan import Plan
from frontwright.core.veneer.result import BilletPlan, SlicePlan
from frontwright.sheets.base import SIZES, Leaf, Page
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.labels_wood import Label, labels_of, leftover_labels, part_labels
from frontwright.sheets.pen import THIN, Pen
from frontwright.sheets.square_code import square_code
from frontwright.sheets.subjects import Shows, sheet
from frontwright.sheets.veneer_words import minutes, of_veneer, seat_words, seats_by_leaf
from frontwright.sheets.words import Part, Words, finely, fit, text_of, words

PARTS, LEFTOVERS, OF = "parts", "leftovers", "of"
CODE = 14.0  # millimetres: a square code that a hand scanner reads
LEAST = (30.0, 14.0)  # millimetres: a smaller label holds no name that can be read
PAD = 2.5
FOOT = 8.5
WIDEST = 26.0  # no box to write in is wider
LEAST_TEXT = 18.0  # of a line beside a box
DASH = (1.2, 1.2)
LEAD = (4.2, 5.2)  # from line to line, at least and at most


@dataclass(frozen=True, slots=True)
class Grid:
    """Labels on a page, all in millimetres. `plain`: paper to be cut, with lines; else labels to stick, without."""

    columns: int
    rows: int
    left: float
    top: float
    width: float
    height: float
    gap_across: float = 0.0
    gap_down: float = 0.0
    plain: bool = False

    @property
    def count(self) -> int:
        return self.columns * self.rows

    def place(self, at: int) -> tuple[float, float]:
        """The upper left corner of a label, row by row."""
        down, across = divmod(at, self.columns)
        return self.left + across * (self.width + self.gap_across), self.top + down * (self.height + self.gap_down)


def grid_of(row: LabelSheet | None, paper: Paper) -> Grid:
    """The grid by what was told of it; plain paper where nothing was, or where it leaves labels too small to read."""
    width, height = SIZES[paper]
    plain = _plain(width, height)
    if row is None or not row.columns or not row.rows or row.columns < 0 or row.rows < 0:
        return plain
    left, top = _mm(row.left), _mm(row.top)
    right, bottom = _mm(row.right, left), _mm(row.bottom, top)
    across, down = _mm(row.gap_across), _mm(row.gap_down)
    wide = (width - left - right - across * (row.columns - 1)) / row.columns
    high = (height - top - bottom - down * (row.rows - 1)) / row.rows
    if wide < LEAST[0] or high < LEAST[1] or min(left, top, right, bottom, across, down) < 0:
        return plain
    return Grid(row.columns, row.rows, left, top, wide, high, across, down)


def _plain(width: float, height: float) -> Grid:
    """Two by ten on plain paper, inside the margin that any printer needs."""
    edge = 10.0
    return Grid(2, 10, edge, edge, (width - 2 * edge) / 2, (height - 2 * edge) / 10, plain=True)


def _mm(given: Typed | None, otherwise: float = 0.0) -> float:
    """A margin on paper: the exact length as a plain number of millimetres."""
    return given.value.units / UNITS_IN["mm"] if given is not None and given.value is not None else otherwise


def infos(plan: Plan) -> list[SheetInfo]:
    """One for what is sawn or pressed, one for the parts, one for what is left of pieces, if there is any.

    No stop holds them back: they name only what there is.
    """
    found = [
        of_veneer(plan, "24", "labels", "", "labels for leaves and panels", (), _shows(plan, labels(plan))),
        sheet(plan, "24", "labels", PARTS, "labels for parts", (), _shows(plan, part_labels(plan))),
        sheet(plan, "24", "labels", LEFTOVERS, "labels for leftovers", (), _shows(plan, leftover_labels(plan))),
    ]
    for one in plan.stock.layouts:
        if one.cuts:
            title = f"labels for what comes of {one.id}"
            found.append(
                sheet(plan, "24", "labels", of_layout(one.id), title, (), _shows(plan, labels_of(plan, one.id)))
            )
    return [info for info in found if any(_of(plan, info.subject))]


def of_layout(laid: str) -> str:
    """The subject of the labels for what the cuts of one layout free."""
    return f"{OF} {laid}"


def _of(plan: Plan, subject: str) -> Iterator[Label]:
    if subject.startswith(f"{OF} "):
        return labels_of(plan, subject.removeprefix(f"{OF} "))
    if subject == PARTS:
        return part_labels(plan)
    return leftover_labels(plan) if subject == LEFTOVERS else labels(plan)


def _shows(plan: Plan, found: Iterable[Label]) -> Shows:
    """What stands on the labels, and the grid that they are printed on."""
    told = [("job", plan.job.heading.name)]
    counts: dict[str, int] = {}
    for label in found:
        counts[label.name] = counts.get(label.name, 0) + 1
        number = f" {counts[label.name]}" if counts[label.name] > 1 else ""
        told.append((f"label {label.name}{number}", " | ".join(_plain_text(line) for line in label.lines)))
    row = plan.job.label_sheets.get("labels")
    told.append(("grid", _grid_words(row)))
    told += [("square code", "yes")] if row is not None and row.code else []
    return Shows((), tuple(told))


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """As many pages as the labels take."""
    row = plan.job.label_sheets.get("labels")
    grid = grid_of(row, paper)
    found = list(_of(plan, info.subject))
    pages = [found[at : at + grid.count] for at in range(0, len(found), grid.count)]
    code = row is not None and row.code
    return [Leaf(_drawer(grid, page, code=code), "24  labels", bare=True) for page in pages]


def labels(plan: Plan) -> Iterator[Label]:
    """Leaves billet by billet in sawing order, then pressed panels."""
    seats = seats_by_leaf(plan)
    job = plan.job.heading.name
    for of in plan.veneer.plans:
        for one in of.slices:
            if one.state not in ("lost", "spoiled"):
                yield _leaf(plan, of, one, seat_words(plan, seats.get(one.id)), job)
    for pressing in plan.veneer.pressings:
        for part in pressing.panels:
            yield _pressed(plan, part, minutes(pressing.limit), job)


def _leaf(plan: Plan, of: BilletPlan, one: SlicePlan, place: str, job: str) -> Label:
    """A leaf to come or sawn: what it is for, how thick it is wanted; how thick it is goes into the box."""
    state = f"   {one.state}" if one.state in ("scorched", "short") else ""
    size = words("face ○   ", *finely(one.wanted, plan.display), state, size=10)
    is_now = _text(*finely(one.thick, plan.display)) if one.thick is not None else ""
    about = words(f"billet {of.id}   {job}", size=7.5)
    return Label(f"{one.id} ↑", (words(place, size=10, bold=True), size, about), (("is", is_now),))


def _text(*parts: Part) -> str:
    return text_of(*parts).removeprefix("is ")


def _pressed(plan: Plan, part: str, limit: str, job: str) -> Label:
    _, panel = panel_of(plan, part)
    size = words(*finely(panel.across, plan.display), " × ", *finely(panel.along, plan.display), size=10)
    last = words(f"last clamp within {limit} min   {job}", size=7.5)
    return Label(part, (size, last), tuple((box, "") for box in ("pressed", "out after", "plane after")))


def _grid_words(row: LabelSheet | None) -> str:
    """The grid as the list of sheets tells it: what of it was told, once it is said how many stand on a sheet."""
    if row is None or not row.columns or not row.rows:
        return "plain paper"
    sizes = ("left", "top", "right", "bottom", "gap_across", "gap_down")
    given = [(name, of) for name in sizes if (of := getattr(row, name)) is not None]
    return ", ".join(
        (f"{row.columns} across", f"{row.rows} down", *(f"{name.replace('_', ' ')} {of.text}" for name, of in given))
    )


def _plain_text(line: Words) -> str:
    return "".join(str(atom.text) for atom in line)


def _drawer(grid: Grid, page_labels: list[Label], *, code: bool) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        for at, label in enumerate(page_labels):
            x, y = grid.place(at)
            if grid.plain:
                _cut_lines(page.pen, x, y, grid)
            width, height = grid.width - 2 * PAD, grid.height - 2 * PAD
            side = min(CODE, height, width / 4) if code else 0.0
            if code:
                square_code(page.pen, x + PAD + width - side, y + PAD, side, label.name.removesuffix(" ↑"))
            _draw(page.pen, x + PAD, y + PAD, width - side * 1.1, height, label)

    return draw


def _cut_lines(pen: Pen, x: float, y: float, grid: Grid) -> None:
    """Dashed lines to cut along."""
    right, low = x + grid.width, y + grid.height
    for a, b in (((x, y), (right, y)), ((x, low), (right, low)), ((x, y), (x, low)), ((right, y), (right, low))):
        pen.line(*a, *b, THIN, DASH)


def _draw(pen: Pen, x: float, y: float, width: float, height: float, label: Label) -> None:
    """The name at the left as big as it goes, the lines beside it; boxes to write in at the foot, to the right."""
    big = min(26.0, height * 1.5, width * 0.29)  # on a narrow label the place of the leaf needs the room
    boxes = label.boxes if height > LEAST[1] + 6 else ()
    wide = min(width / max(len(boxes), 1), WIDEST)
    low, end = y + height - FOOT, x + width - wide * len(boxes)
    name = fit(words(label.name, size=big, bold=True), width * 0.42)
    left = x + max(pen.words(x, y + big * 0.30 + 0.6, name) + 4, width * 0.25)
    foot = FOOT if boxes else 0.0
    lead = max(LEAD[0], min(LEAD[1], (height - foot) / max(1, len(label.lines))))
    for at, text in enumerate(label.lines):
        line = y + 3.8 + lead * at
        room = (end - 1.5 if boxes and line > low - 0.5 else x + width) - left
        if line <= y + height and room > LEAST_TEXT:
            pen.words(left, line, fit(text, room))
    for at, box in enumerate(boxes):
        _box(pen, end + at * wide + 1.5, low, wide - 1.5, box)


def _box(pen: Pen, x: float, y: float, width: float, said: tuple[str, str]) -> None:
    pen.pencil(x, y, width, FOOT, said[0])
    if said[1]:
        pen.words(x + width / 2 + 2, y + FOOT - 2.4, fit(words(said[1], size=10), width - 6), "centre")
