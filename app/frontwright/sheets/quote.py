"""The quote: a price by what it is for, and everything that it rests on."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from frontwright.core.bill.result import WholeBill
from frontwright.core.bill.whole import Quote
from frontwright.core.plan import Plan, quoted
from frontwright.sheets.base import Leaf, Page
from frontwright.sheets.bill_words import LINES, conditions, money
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import Band, draw_bands, inside, paged, title_band
from frontwright.sheets.subjects import Shows, sheet
from frontwright.sheets.words import fit, strong, words, wrap

HEAD, FOR = 13.5, 26.0
ROW, TOTAL, SIGNED = 9.6, 15.0, 26.0
LEAD = 4.8


def infos(plan: Plan, bill: WholeBill) -> list[SheetInfo]:
    """One for the job, if anything in it has a price."""
    if not bill.costs.lines:
        return []
    return [sheet(plan, "25", "quote", "", "quote", (), Shows((), tuple(_told(plan, quoted(plan, bill)))))]


def _told(plan: Plan, quote: Quote) -> Iterator[tuple[str, str]]:
    yield from (("client", plan.job.heading.client), ("address", plan.job.heading.address))
    yield from (("fronts", _fronts(plan)), ("price", money(quote.total, quote.currency)))
    for line in quote.lines:
        yield LINES[line.what], money(line.cost, quote.currency)
    for number, text in enumerate(conditions(quote.conditions), 1):
        yield f"condition {number}", text


def _fronts(plan: Plan) -> str:
    """What is quoted for, by kind: "4 doors, 2 drawer fronts"."""
    kinds = [front.front.kind for front in plan.fronts.fronts.values() if front.front.kind != "open"]
    names = {"drawer": "drawer front", "fixed": "fixed front", "appliance": "appliance front", "glass": "glass door"}
    counts = {kind: kinds.count(kind) for kind in dict.fromkeys(kinds)}
    said = [f"{count} {names.get(kind, kind)}{'s' * (count != 1)}" for kind, count in counts.items()]
    strips = len(plan.facing.pieces)
    return ", ".join([*said, *([f"facing of {strips} strips"] if strips else [])])


def leaves(plan: Plan, bill: WholeBill, _info: SheetInfo, paper: Paper) -> list[Leaf]:
    """Lines, total, conditions, and where it is signed."""
    quote = quoted(plan, bill)
    width, height = inside(paper)
    room = height - HEAD
    pages = paged(list(_bands(quote, width)), room - FOR, room)
    cells = (("goes to", "client"),)
    return [Leaf(_drawer(plan, quote, page, first=not n), "25  quote", cells) for n, page in enumerate(pages)]


def _bands(quote: Quote, width: float) -> Iterator[Band]:
    for line in quote.lines:
        yield _line(LINES[line.what], money(line.cost, quote.currency))
    yield _total(money(quote.total, quote.currency))
    if quote.conditions:
        yield title_band(words(strong("This price is given under these conditions"), size=12), 10.5)
    for number, text in enumerate(conditions(quote.conditions), 1):
        yield _condition(number, text, width)
    yield Band(SIGNED, _signed)


def _line(what: str, price: str) -> Band:
    def draw(page: Page, y: float) -> None:
        page.pen.words(page.x0, y + 6.6, words(what, size=13))
        page.pen.words(page.x1, y + 6.6, words(price, size=13), "right")

    return Band(ROW, draw)


def _total(price: str) -> Band:
    def draw(page: Page, y: float) -> None:
        page.rule(y, 0.5)
        page.pen.words(page.x0, y + 10.2, words("Price", size=18, bold=True))
        page.pen.words(page.x1, y + 10.2, words(price, size=22, bold=True), "right")

    return Band(TOTAL, draw, heavy=True)


def _condition(number: int, text: str, width: float) -> Band:
    rows = wrap(words(text, size=10), width - 9)

    def draw(page: Page, y: float) -> None:
        page.pen.words(page.x0, y + 4.6, words(f"{number}", size=10, bold=True))
        for at, row in enumerate(rows):
            page.pen.words(page.x0 + 9, y + 4.6 + at * LEAD, row)

    return Band(len(rows) * LEAD + 1.8, draw)


def _signed(page: Page, y: float) -> None:
    wide = (page.x1 - page.x0 - 4) / 3
    for at, label in enumerate(("holds until", "agreed on", "signed")):
        page.pen.pencil(page.x0 + at * (wide + 2), y + 6, wide, 16, label)


def _drawer(plan: Plan, quote: Quote, bands: Sequence[Band], *, first: bool) -> Callable[[Page], None]:
    def draw(page: Page) -> None:
        y = page.head(
            "Quote",
            words(plan.job.heading.name, size=15, bold=True),
            words(money(quote.total, quote.currency), size=13),
        )
        draw_bands(page, _for(page, plan, y) if first else y, bands)

    return draw


def _for(page: Page, plan: Plan, y: float) -> float:
    """Whom it is for and what."""
    heading = plan.job.heading
    wide = page.x1 - page.x0
    for at, (label, text) in enumerate((("for", heading.client), ("at", heading.address), ("work", _fronts(plan)))):
        page.pen.words(page.x0, y + 7.4 + at * 7, words(label, size=9, condensed=True))
        if text:
            page.pen.words(page.x0 + 14, y + 7.4 + at * 7, fit(words(text, size=12, bold=not at), wide - 14))
        else:
            page.pen.line(page.x0 + 14, y + 8.2 + at * 7, page.x0 + 110, y + 8.2 + at * 7)
    page.rule(y + FOR, 0.5)
    return y + FOR
