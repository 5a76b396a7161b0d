"""Sheet 1, brief: questions of the first visit with what was said, what is to be matched, photographs, who signs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import get_args

from frontwright.core.brief import PARTS, QUESTIONS, Question, answer_of, brief_of, near_match, unasked
from frontwright.core.job import PhotoWhat
from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, draw_bands, inside, paged, text_band, title_band
from frontwright.sheets.subjects import Shows, sheet
from frontwright.sheets.words import fit, strong, typed_size, width_of, words, wrap

HEAD, ROW, SIGNED = 13.5, 8.0, 22.0
ANSWER = 90.0  # where answers begin, from the inner margin
PHOTOS: tuple[PhotoWhat, ...] = get_args(PhotoWhat)
type Fact = tuple[str, str]


def infos(plan: Plan) -> list[SheetInfo]:
    """The one sheet of the job; before anything is known it is the form to take along."""
    asked = [(question.says, answer_of(plan.job, question.key)) for question in QUESTIONS]
    told = (*_visit(plan), *_match(plan), *asked, *_photo_facts(plan))
    boxes = tuple(question.says for question in QUESTIONS)
    return [sheet(plan, "01", "brief", "", "brief", (), Shows((), told, boxes=boxes))]


def leaves(plan: Plan, _info: SheetInfo, paper: Paper) -> list[Leaf]:
    """Questions by what they are about, then match, photographs and signatures."""
    width, height = inside(paper)
    pages = paged(list(_bands(plan, width)), height - HEAD, height - HEAD)
    cells = (("goes to", "client"),)
    return [Leaf(_drawer(plan, page), "1  brief", cells) for page in pages]


def _visit(plan: Plan) -> tuple[Fact, ...]:
    row, heading = brief_of(plan.job), plan.job.heading
    return (
        ("client", heading.client),
        ("address", heading.address),
        ("first visit on", row.visited),
        ("wanted by", row.ready_by),
        ("money it may cost", row.budget),
        ("year of the house", str(row.house_year or "")),
        ("ceiling height", "".join(typed_size(row.ceiling))),
        ("largest door, height", "".join(typed_size(row.largest_door))),
    )


def _match(plan: Plan) -> tuple[Fact, ...]:
    row = brief_of(plan.job)
    sample = {True: "yes", False: "no", None: ""}[row.match_sample]
    return (
        ("to be matched", row.match_what),
        ("its wood", row.match_species),
        ("its finish", row.match_finish),
        ("its age", row.match_age),
        ("sample taken", f"{sample}: a near match only" if sample == "no" and near_match(plan.job) else sample),
    )


def _photo_facts(plan: Plan) -> Iterator[Fact]:
    for run in plan.survey.runs:
        for what in PHOTOS:
            yield f"{run.id}, {what}", _photo(plan, run.id, what)


def _photo(plan: Plan, run: str, what: str) -> str:
    found = (row.file for row in plan.job.photos.values() if (row.run, row.what) == (run, what))
    return next(found, "")


def _bands(plan: Plan, width: float) -> Iterator[Band]:
    yield from _pairs(_visit(plan), width)
    for part, title in PARTS.items():
        yield title_band(words(strong(title), size=12), 9.5)
        for question in QUESTIONS:
            if question.part == part:
                yield _question(question, answer_of(plan.job, question.key), width)
    yield title_band(words(strong("What the new work is to match"), size=12), 9.5)
    yield from _pairs(_match(plan), width)
    yield title_band(words(strong("Photographs"), "  tick, or write the number of each", size=12), 9.5)
    for run in plan.survey.runs:
        yield from _photos(plan, run.id, width)
    left = [question.short for question in unasked(plan.job)]
    if left:
        yield title_band(words(strong("Not asked yet: conditions of the price"), size=12), 9.5)
        yield text_band(wrap(words("; ".join(left), ".", size=9.5), width), 4.8)
    yield Band(SIGNED, _signed)


def _question(question: Question, said: str, width: float) -> Band:
    """The question, its answer or boxes to tick, and a line to write on; why it is asked below it."""
    asked = wrap(words(question.says, size=11), ANSWER - 3)
    answer = wrap(words(said, size=11, bold=True), width - ANSWER) if said else []
    small = fit(words(question.why, size=8, condensed=True), ANSWER - 3)
    lines = max(len(asked), len(answer), 1)

    def draw(page: Page, y: float) -> None:
        for at, row in enumerate(asked):
            page.pen.words(page.x0, y + 5.6 + at * 5, row)
        if small:
            page.pen.words(page.x0, y + 5.6 + len(asked) * 5 - 1.2, small)
        for at, row in enumerate(answer):
            page.pen.words(page.x0 + ANSWER, y + 5.6 + at * 5, row)
        if not answer:
            _to_tick(page, y + 5.6, question)

    return Band(lines * 5 + 3.6 + (3.4 if small else 0), draw)


def _to_tick(page: Page, base: float, question: Question) -> None:
    x = page.x0 + ANSWER
    for choice in question.choices:
        page.pen.tick(x, base - 4.2)
        x += 6.2 + page.pen.words(x + 6.2, base, words(choice, size=9.5, condensed=True)) + 3.4
    page.pen.line(x, base + 0.8, page.x1, base + 0.8)


def _pairs(facts: Sequence[Fact], width: float) -> Iterator[Band]:
    """Two facts a line, each with its value or a line to write on."""
    half = width / 2

    def band(pair: Sequence[Fact]) -> Band:
        def draw(page: Page, y: float) -> None:
            for at, (label, value) in enumerate(pair):
                _fact(page, page.x0 + at * half, y + 6, label, value, half - 4)

        return Band(ROW, draw)

    for at in range(0, len(facts), 2):
        yield band(facts[at : at + 2])


def _fact(page: Page, x: float, base: float, label: str, value: str, width: float) -> None:
    named = words(label, size=9, condensed=True)
    page.pen.words(x, base, named)
    after = max(26.0, width_of(named) + 2)
    if value:
        page.pen.words(x + after, base, fit(words(value, size=11, bold=True), width - after))
    else:
        page.pen.line(x + after, base + 0.8, x + width, base + 0.8)


def _photos(plan: Plan, run: str, width: float) -> Iterator[Band]:
    """The photographs of a run, four a line: its number, or a box to tick and a line."""
    share = (width - 16) / 4

    def band(first: bool, some: Sequence[str]) -> Band:
        def draw(page: Page, y: float) -> None:
            if first:
                page.pen.words(page.x0, y + 6, fit(words(run, size=12, bold=True), 14))
            for at, what in enumerate(some):
                x, file = page.x0 + 16 + at * share, _photo(plan, run, what)
                page.pen.tick(x, y + 1.8)
                if file:
                    page.pen.line(x + 0.8, y + 4.4, x + 2.2, y + 6.0, 0.5)
                    page.pen.line(x + 2.2, y + 6.0, x + 4.4, y + 2.6, 0.5)
                text = f"{what}: {file}" if file else what
                page.pen.words(x + 6.2, y + 6, fit(words(text, size=9, condensed=True), share - 7.5))

        return Band(ROW, draw)

    for at in range(0, len(PHOTOS), 4):
        yield band(not at, PHOTOS[at : at + 4])


def _signed(page: Page, y: float) -> None:
    wide = (page.x1 - page.x0 - 4) / 3
    for at, label in enumerate(("asked by", "date", "client")):
        page.pen.pencil(page.x0 + at * (wide + 2), y + 5, wide, 15, label)


def _drawer(plan: Plan, bands: Sequence[Band]) -> Callable[[Page], None]:
    left = sum(1 for _ in unasked(plan.job))
    right = words(f"{left} of {len(QUESTIONS)} not asked" if left else "all asked", size=12)

    def draw(page: Page) -> None:
        line = words(plan.job.heading.name, size=15, bold=True)
        draw_bands(page, page.head("Brief", line, right, HEAD), bands)

    return draw
