"""Sheet 14, set-up list: every stop and fence once, longest first, with a box to tick for every piece."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import groupby

from frontwright.core.figures import Figure
from frontwright.core.lengths import Display
from frontwright.core.making.result import Part, PartKind, SetUp
from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing, title_height
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import COLUMN_HEAD, Band, column_heads, draw_bands, inside, paged
from frontwright.sheets.pen import TICK, Pen
from frontwright.sheets.subjects import Shows, chosen_for, front_ids, part_figures, sheet
from frontwright.sheets.words import Part as Piece
from frontwright.sheets.words import Words, figure, fit, length, strong, width_of, words

ITEM = 16.6  # a box to tick and the name of its front
ROW, HEAD_ROW, PAD, BETWEEN = 7.2, 6.0, 4.4, 2.0
FIGURE_WIDTH, BOX_WIDTH = 39.0, 27.0
MANUAL = "Where the saw's own manual says otherwise, the manual is right."
WORDS = {
    "crosscut": (
        "Crosscut to finished length",
        "stop at",
        "stop",
        "Longest first. Cut one, measure it, write it down, cut the rest. Move the stop when every box is ticked.",
        "Blade at rest before the stop is moved. Guard on. Short rails on the sled under a clamp, never held by hand.",
    ),
    "rip": (
        "Rip to finished width",
        "fence at",
        "setting",
        "Widest first. Rip one, measure it, write it down, rip the rest. Move the fence when every box is ticked.",
        "Blade at rest before the fence is moved. Guard and riving knife on. Push stick for all that is narrow; "
        "stand out of the line of the cut.",
    ),
    "sheet": (
        "Cut panels and cores",
        "fence at",
        "setting",
        "Widest first. Cut one, measure it, write it down, cut the rest. Grain runs along the length.",
        "Blade at rest before the fence is moved. Guard and riving knife on. Hold up large pieces before and behind "
        "the blade.",
    ),
}
NOUNS: dict[PartKind, str] = {
    "top rail": "rail",
    "bottom rail": "rail",
    "mid rail": "rail",
    "slab": "slab front",
    "core": "core",
    "lipping": "lipping",
}
PLACES: dict[PartKind, str] = {"top rail": "top", "bottom rail": "bottom", "mid rail": "mid"}


@dataclass(frozen=True, slots=True)
class Group:
    """Pieces of one noun at a stop: title words, and lines of a caption with the names to tick."""

    title: Words
    lines: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class Stop:
    """One stop laid out: its figure, groups, remark and height in millimetres."""

    setting: Words
    groups: tuple[Group, ...]
    remark: Words
    height: float


def infos(plan: Plan) -> list[SheetInfo]:
    """One list each for crosscutting, ripping and panels, as far as there is anything to cut."""
    return [_info(plan, work) for work in WORDS if any(s.work == work for s in plan.making.set_ups)]


def leaves(plan: Plan, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """As many pages as the stops take; a page breaks only between stops."""
    stops = [s for s in plan.making.set_ups if s.work == info.subject]
    width, height = inside(paper)
    box = standing(info, plan.display)
    notes = _notes(info.subject)
    room = height - title_height(notes, width) - COLUMN_HEAD
    laid = [_stop(plan.display, stop) for stop in stops]
    bands = [Band(stop.height, _stop_drawer(stop)) for stop in laid]
    pages = paged(bands, room - sentence_height(box, width), room)
    count = f"{_many(len(stops), WORDS[info.subject][2])}, {_many(sum(stop.pieces for stop in stops), 'piece')}"
    name = f"14  set-up list, {info.subject}"
    cells = (("goes to", "saw"),)
    return [Leaf(_drawer(info.subject, page, count, box if not n else ()), name, cells) for n, page in enumerate(pages)]


def _info(plan: Plan, work: str) -> SheetInfo:
    stops = [s for s in plan.making.set_ups if s.work == work]
    parts = [part for stop in stops for part in stop.parts]
    fronts = [plan.fronts.fronts[f] for f in dict.fromkeys(part.front for part in parts) if f in plan.fronts.fronts]
    ids = {i for front in fronts for i in front_ids(plan, front)}
    figures = tuple(pair for part in parts for pair in part_figures(part)[:2])
    told = tuple((f"pieces of {part.id}", str(part.qty)) for part in parts)
    assumptions = tuple(a for front in fronts for a in chosen_for(front) if a.startswith("grain"))
    return sheet(plan, "14", "set-up", work, f"set-up list, {work}", ids, Shows(figures, told, assumptions))


def _many(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"


def _stop(display: Display, stop: SetUp) -> Stop:
    groups = tuple(_groups(display, stop))
    rows = sum(_rows(group) for group in groups)
    remark: Words = ()
    if stop.below_last is not None:
        remark = words(length(stop.below_last.value, display), " below the setting above", size=9, bold=True)
    height = max(2 * PAD + 10.6, PAD * 2 + HEAD_ROW * len(groups) + ROW * rows - 1.6 + BETWEEN * (len(groups) - 1))
    return Stop(words(*figure(stop.setting, display), size=31, bold=True), groups, remark, height)


def _groups(display: Display, stop: SetUp) -> Iterator[Group]:
    parts = sorted(stop.parts, key=lambda part: _noun(part))
    for noun, same in groupby(parts, key=_noun):
        alike = list(same)
        count = sum(part.qty for part in alike)
        title: list[Piece] = [strong(_many(count, noun)), "  ", *_other_sizes(display, stop, alike)]
        captions = dict.fromkeys(PLACES.get(part.kind, "") for part in alike)
        lines = tuple((caption, tuple(_names(alike, caption))) for caption in captions)
        yield Group(words(*title, size=10.5), lines)


def _names(parts: list[Part], caption: str) -> Iterator[str]:
    """The front's name once for each piece of this place."""
    for part in parts:
        if PLACES.get(part.kind, "") == caption:
            yield from (part.front for _ in range(part.qty))


def _noun(part: Part) -> str:
    return NOUNS.get(part.kind, part.kind)


def _other_sizes(display: Display, stop: SetUp, parts: list[Part]) -> list[Piece]:
    """The size that is not being cut: widths at a crosscut stop, lengths at a fence."""
    cross = stop.work == "crosscut"
    sizes: dict[object, Figure] = {}
    for part in parts:
        size = part.width if cross else part.length
        sizes.setdefault(size.units, size)
    out: list[Piece] = []
    for size in sorted(sizes.values(), key=lambda f: f.units):
        out += [", "] if out else []
        out += figure(size, display)
    return [*out, " wide" if cross else " long"]


def _inline(group: Group, width: float) -> bool:
    """Whether all captions and names of the group stand on one line."""
    return sum(_caption(c) + len(names) * ITEM for c, names in group.lines) <= width and len(group.lines) > 0


def _caption(caption: str) -> float:
    return width_of(words(caption, size=10)) + 3 if caption else 0.0


NAMES_WIDTH = 100.0  # the narrower of the two papers


def _rows(group: Group) -> int:
    if _inline(group, NAMES_WIDTH):
        return 1
    a_row = int((NAMES_WIDTH - max(_caption(c) for c, _ in group.lines)) // ITEM)
    return sum(-(-len(names) // a_row) for _, names in group.lines)


def _notes(work: str) -> tuple[str, str]:
    _, _, _, order, caution = WORDS[work]
    return order, f"{caution} {MANUAL}"


def _drawer(work: str, stops: list[Band], count: str, box: Words) -> Callable[[Page], None]:
    title, head, *_ = WORDS[work]

    def draw(page: Page) -> None:
        y = page.title(title, count, _notes(work))
        y = page.sentence(y, box) if box else y
        labels = (head, "tick each piece", "first one is")
        y = column_heads(page, y, tuple(zip(labels, _columns(page), strict=True)))
        draw_bands(page, y, stops)

    return draw


def _columns(page: Page) -> tuple[float, float, float]:
    return page.x0, page.x0 + FIGURE_WIDTH + 3, page.x1 - BOX_WIDTH


def _stop_drawer(stop: Stop) -> Callable[[Page, float], None]:
    return lambda page, y: _draw_stop(page, y, stop)


def _draw_stop(page: Page, y: float, stop: Stop) -> None:
    pen, (x0, x1, x2) = page.pen, _columns(page)
    middle = y + stop.height / 2
    pen.words(x0, middle + 4.0, fit(stop.setting, FIGURE_WIDTH))
    pen.pencil(x2, middle - 5, BOX_WIDTH, 10)
    line = y + PAD + 2.6
    for number, group in enumerate(stop.groups):
        pen.words(x1, line, fit(group.title, x2 - x1 - 4 - (width_of(stop.remark) + 6 if not number else 0)))
        if stop.remark and not number:
            right = x2 - 4
            pen.words(right, line, stop.remark, "right")
            pen.ring(right - width_of(stop.remark) - 2.4, line - 1.2, 1.3)
        line = _draw_names(pen, x1, line + HEAD_ROW + 1.2, group)


def _draw_names(pen: Pen, x0: float, line: float, group: Group) -> float:
    """The boxes and names; gives the base line of the next group's title."""
    inline = _inline(group, NAMES_WIDTH)
    start = 0.0 if inline else max(_caption(c) for c, _ in group.lines)
    x = x0
    for caption, names in group.lines:
        if caption:
            pen.words(x, line, words(caption, size=10))
        x += _caption(caption) if inline else start
        for name in names:
            if not inline and x + ITEM > x0 + NAMES_WIDTH:
                x, line = x0 + start, line + ROW
            pen.tick(x, line - 4.1)
            pen.words(x + TICK + 1.4, line, fit(words(name, size=11), ITEM - TICK - 2))
            x += ITEM
        if not inline:
            x, line = x0, line + ROW
    return line + (ROW if inline else 0) - 1.2 + BETWEEN
