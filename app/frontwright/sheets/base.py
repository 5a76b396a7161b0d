"""One base for every sheet: the page with its frame, head, foot and the box that says what is assumed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from frontwright.core.findings import Check
from frontwright.core.lengths import Display
from frontwright.sheets.info import Paper, SheetInfo, Stamp
from frontwright.sheets.pen import OUTLINE, THIN, Pen
from frontwright.sheets.words import Part, Words, finely, fit, strong, width_of, words, wrap

SIZES: dict[Paper, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
HOLES, MARGIN, INNER, FOOT = 18.0, 11.0, 6.0, 13.0
FOOT_SHARES = {"job": 40.0, "sheet": 46.0, "version": 14.0, "printed": 30.0, "page": 18.0}
EXTRA_SHARE = 20.0


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page to be made: what draws it, and its foot. `cells`: what the foot says between sheet and version.

    A `blank` page has nothing but its own cells in the foot, to be filled in by pencil. A `bare` one has neither frame
    nor foot: sheets of labels.
    """

    draw: Callable[[Page], None]
    sheet: str
    cells: tuple[tuple[str, str], ...] = ()
    landscape: bool = False
    blank: bool = False
    bare: bool = False


@dataclass(frozen=True, slots=True)
class Count:
    """Which page of how many."""

    page: int
    pages: int


class Page:
    """A framed page being drawn. Inside the frame and over the foot: `left`, `top`, `right`, `bottom`, in millimetres.

    `x0`, `x1`: left and right edge of what is written, inside the inner margin.
    """

    def __init__(self, pen: Pen, width: float, height: float) -> None:
        self.pen = pen
        self.left, self.top = HOLES, MARGIN
        self.right, self.bottom = width - MARGIN, height - MARGIN - FOOT
        self.x0, self.x1 = self.left + INNER, self.right - INNER

    def frame(self) -> None:
        """The frame round the page, and the line over its foot."""
        self.pen.box(self.left, self.top, self.right - self.left, self.bottom + FOOT - self.top, OUTLINE)
        self.rule(self.bottom, OUTLINE)

    def rule(self, y: float, width: float = THIN) -> None:
        """A line across the whole frame."""
        self.pen.line(self.left, y, self.right, y, width)

    def foot(self, cells: Sequence[tuple[str, str, float]]) -> None:
        """The foot's cells: label, value and share of the width."""
        unit = (self.right - self.left) / sum(share for _, _, share in cells)
        x = self.left
        for number, (label, value, share) in enumerate(cells):
            width = share * unit
            if number:
                self.pen.line(x, self.bottom, x, self.bottom + FOOT)
            self.pen.words(x + 1.5, self.bottom + 3.6, words(label, size=6.5))
            line = _foot_words(value, label == "job", width - 2.5)
            self.pen.words(x + 1.5, self.bottom + 9.4, line)
            x += width

    def head(self, subject: str, line: Words, right: Words = (), height: float = 13.5) -> float:
        """A head with the subject big at the left, then words, then words at the right; gives the height below it."""
        base = self.top + height - 2.9
        big = fit(words(subject, size=34, bold=True), 46)
        x = self.x0 + self.pen.words(self.x0 - 0.6, base, big) + 5
        room = self.x1 - x
        side = fit(right, room * 0.45)
        self.pen.words(self.x1, base, side, "right")
        self.pen.words(x, base, fit(line, room - width_of(side) - 4))
        self.rule(self.top + height, OUTLINE)
        return self.top + height

    def title(self, title: str, right: str, notes: Sequence[str] = ()) -> float:
        """The head of a list: a bold title, a bold count at the right, cautions under it; gives the height below."""
        base = self.top + 8.8
        side = words(right, size=14, bold=True)
        self.pen.words(self.x1, base, side, "right")
        self.pen.words(self.x0, base, fit(words(title, size=20, bold=True), self.x1 - self.x0 - width_of(side) - 4))
        y = base + 6.6
        for note in notes:
            y = self.pen.paragraph(self.x0, y, self.x1 - self.x0, words(note, size=9, condensed=True), 4.3)
        bottom = y - 1.4 if notes else base + 4.4
        self.rule(bottom, OUTLINE)
        return bottom

    def sentence(self, y: float, line: Words) -> float:
        """The box under the head: words across the page, a thin line below; gives the height below it."""
        lead = _lead(line)
        y = self.pen.paragraph(self.x0, y + 5.4, self.x1 - self.x0, line, lead)
        self.rule(y - lead + 2.8)
        return y - lead + 2.8


def title_height(notes: Sequence[str], width: float) -> float:
    """How high the head of a list is with these cautions, on so wide a page."""
    lines = sum(len(wrap(words(note, size=9, condensed=True), width)) for note in notes)
    return 8.8 + (6.6 + 4.3 * lines - 1.4 if notes else 4.4)


def _lead(line: Words) -> float:
    """From line to line in the box under the head, in millimetres."""
    return 5.0 if line[0].size >= 10 else 4.2


def sentence_height(line: Words, width: float) -> float:
    """How high the box under the head is with this said in it; 0 where nothing is said."""
    return _lead(line) * len(wrap(line, width)) + 3.2 if line else 0.0


def standing(info: SheetInfo, display: Display, also_when_nothing: bool = False) -> Words:
    """What the box under the head says: what is assumed, which stops were answered; empty where nothing is.

    `also_when_nothing`: says so too when nothing is assumed, as a door sheet does.
    """
    parts: list[Part] = []
    if info.rests_on:
        parts += [strong("Assumed, in brackets: "), *_listed(info, display), ". "]
    elif also_when_nothing:
        parts += ["Nothing on this sheet is assumed. "]
    if also_when_nothing:
        parts += ["No stop is open. "]
    parts += [_answer(check) for check in info.answered]
    return words(*parts, size=10 if len(info.rests_on) < 7 else 9, condensed=len(info.rests_on) > 6)


def foot_cells(leaf: Leaf, job: str, version: int, stamp: Stamp, count: Count) -> list[tuple[str, str, float]]:
    """The cells of a page's foot with their shares."""
    if leaf.blank:
        shares = {"job": 55.0, "sheet": 50.0, "room": 35.0, "run": 20.0, "date": 27.0, "page": 20.0}
        own = [(label, value, shares.get(label, 36.0)) for label, value in leaf.cells]
        return [
            ("job", "", shares["job"]),
            ("sheet", leaf.sheet, shares["sheet"]),
            *own,
            ("page", "    of", shares["page"]),
        ]
    cells = [("job", job, FOOT_SHARES["job"]), ("sheet", leaf.sheet, FOOT_SHARES["sheet"])]
    cells += [(label, value, EXTRA_SHARE) for label, value in leaf.cells]
    cells += [("version", str(version), FOOT_SHARES["version"]), ("printed", stamp.printed, FOOT_SHARES["printed"])]
    return [*cells, ("page", f"{count.page} of {count.pages}", FOOT_SHARES["page"])]


def _foot_words(value: str, bold: bool, width: float) -> Words:
    """A value of the foot; a long one is set smaller before it is clipped."""
    line = words(value, size=10, bold=bold)
    return line if width_of(line) <= width else fit(words(value, size=8.5, bold=bold, condensed=True), width)


def _listed(info: SheetInfo, display: Display) -> list[Part]:
    named = {of.name: of for of in info.assumed}
    parts: list[Part] = []
    for name in info.rests_on:
        parts += [", "] if parts else []
        of = named.get(name)
        value = finely(of, display) if of is not None and of.measure == "length" else ()
        parts += [name, " ", *value] if value else [name]
    return parts


def _answer(check: Check) -> str:
    text = (check.answer or "").strip().rstrip(".")
    return f"{check.code.replace('-', ' ').capitalize()} of {' and '.join(check.where)} answered: {text}. "
