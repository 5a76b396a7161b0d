"""Sheet 12, purchase list: what to buy from one supplier, in the sizes and packs that it is sold in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from frontwright.core.bill.measures import Measured, in_both, in_the_other
from frontwright.core.bill.result import Purchase, WholeBill
from frontwright.core.figures import Figure
from frontwright.core.plan import Plan
from frontwright.sheets.base import Leaf, Page, sentence_height, standing, title_height
from frontwright.sheets.bill_words import money
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import COLUMN_HEAD, Band, ListHead, inside, list_drawer, paged, spread
from frontwright.sheets.subjects import Shows, sheet, species_name
from frontwright.sheets.words import Part, Words, finely, fit, strong, words

SUBJECT = "buy"
ROW = 12.0
NOTE = "Whole boards, sheets and packs. Write the price that was paid: the next job reckons with it."
HEADS = ("count", "what", "length × width × thickness", "wanted", "each", "cost", "paid", "got")
COLUMNS = (0.0, 16.0, 54.0, 98.0, 118.0, 131.0, 146.0, 163.0)
WOOD = ("board", "sheet", "core", "billet", "panel", "leaf", "strip", "solid panel")
NOBODY = "no supplier named"


def infos(plan: Plan, bill: WholeBill) -> list[SheetInfo]:
    """One for each supplier that anything is bought from."""
    return [_info(plan, bill, supplier) for supplier in dict.fromkeys(one.supplier for one in bill.purchases)]


def _info(plan: Plan, bill: WholeBill, supplier: str) -> SheetInfo:
    lines = _lines(bill, supplier)
    figures = [
        (f"{word} of {_name(one)}", of)
        for one in lines
        for word, of in (("length", one.length), ("width", one.width), ("thickness", one.thickness))
        if of is not None
    ]
    told = [fact for one in lines for fact in _told(one, bill.costs.currency)]
    title = f"purchase list, {supplier or NOBODY}"
    shows = Shows(tuple(figures), tuple(told))
    return sheet(plan, "12", "stock", f"{SUBJECT} {supplier}".rstrip(), title, (), shows)


def _lines(bill: WholeBill, supplier: str) -> list[Purchase]:
    return [one for one in bill.purchases if one.supplier == supplier]


def _told(one: Purchase, currency: str) -> Iterator[tuple[str, str]]:
    yield f"how many {_name(one)}", str(one.count)
    yield f"{_name(one)} wanted", in_both(one.amount, one.measure)
    yield f"cost of {_name(one)}", money(one.cost, currency) if one.cost is not None else "not known"
    if one.days is not None:
        yield f"days for {_name(one)}", str(one.days)


def _name(one: Purchase) -> str:
    """What is bought, in words, with the size's own name where it has one."""
    what = f"{one.name} {one.what}" if one.what in WOOD and one.name else one.name or one.what
    return f"{what} {one.size}" if one.size and one.size != one.name else what


def leaves(plan: Plan, bill: WholeBill, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """Line by line, and the sum."""
    supplier = info.subject.removeprefix(SUBJECT).strip()
    lines = _lines(bill, supplier)
    width, height = inside(paper)
    box = standing(info, plan.display)
    room = height - title_height((NOTE,), width) - COLUMN_HEAD
    bands = [*(_band(plan, one) for one in lines), _sum_band(lines, bill.costs.currency)]
    pages = paged(bands, room - sentence_height(box, width), room)
    cells = (("goes to", supplier or "supplier"),)
    name = f"12  {info.title}"
    title = supplier or NOBODY
    head = ListHead("Purchase list", title, NOTE, HEADS, COLUMNS)
    return [Leaf(list_drawer(head, page, box if not n else ()), name, cells) for n, page in enumerate(pages)]


def _what(plan: Plan, one: Purchase) -> str:
    wood = one.what in WOOD and one.name
    return f"{species_name(plan, one.name)} {one.what}" if wood else one.name or one.what


def _wanted(one: Purchase) -> str:
    return Measured(one.amount, one.measure).short


def _in_the_other(one: Purchase) -> str:
    other = in_the_other(one.amount, one.measure)
    return other.short if other is not None else ""


def _band(plan: Plan, one: Purchase) -> Band:
    what = _what(plan, one)
    own = f"sold as {one.size}" if one.size and one.size != one.name else "no size is entered" if not one.size else ""
    days = f"{one.days} days" if one.days is not None else ""
    under = ", ".join(text for text in (own, days) if text)
    each = money(one.cost / one.count, "") if one.cost is not None and one.count else ""
    lines = (
        words(f"{one.count} ×", size=14 if one.count < 100 else 10, bold=True),
        words(what, size=12, bold=True),
        words(*_size(plan, one), size=12, bold=True),
        words(_wanted(one), size=9, condensed=True),
        words(each, size=10),
        words(money(one.cost, "") if one.cost is not None else "", size=11),
    )

    def draw(page: Page, y: float) -> None:
        pen, x = page.pen, spread(page, COLUMNS)
        for number, line in enumerate(lines):
            if line:
                end = (
                    x[3] if number == 1 and not lines[2] else x[number + 1]
                )  # a name has the room of a size that is none
                pen.words(x[number], y + 6.2, fit(line, end - x[number] - 1.5))
        for at, end, text in ((x[1], x[2], under), (x[3], x[4], _in_the_other(one))):
            pen.words(at, y + 10.2, fit(words(text, size=8.5, condensed=True), end - at - 1.5))
        pen.pencil(x[6], y + 1.4, x[7] - x[6] - 1.5, 9.2)
        pen.tick(x[7] + 1, y + 3.4)

    return Band(ROW, draw)


def _size(plan: Plan, one: Purchase) -> Iterator[Part]:
    given: list[Figure] = [of for of in (one.length, one.width, one.thickness) if of is not None]
    for number, of in enumerate(given):
        yield from (" × " if number else "", *finely(of, plan.display))


def _sum_band(lines: Sequence[Purchase], currency: str) -> Band:
    known = [one.cost for one in lines if one.cost is not None]
    without = len(lines) - len(known)
    if known:
        text: list[Part] = [strong(f"Together {money(sum(known, Fraction(0)), currency)}")]
        text += [f", without {without} of which no price is known"] if without else []
    else:
        text = ["No price is known of any of these."]
    days = max((one.days for one in lines if one.days is not None), default=None)
    text += [f"; all here after {days} days"] if days is not None else []
    line = words(*text, size=12)
    return Band(11, lambda page, y: _said(page, y, line))


def _said(page: Page, y: float, line: Words) -> None:
    page.pen.words(page.x0, y + 7, fit(line, page.x1 - page.x0))
