"""Sheet 12, stock bill: what the job takes by form, species and thickness, what is at hand of it, what it lacks.

With it go the pull list and the purchase lists.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from frontwright.core.bill.measures import amount_text, in_both, in_the_other, measure_sign
from frontwright.core.bill.result import BillLine, Covered, WholeBill
from frontwright.core.figures import Figure
from frontwright.core.job import Piece
from frontwright.core.lengths import Display
from frontwright.core.plan import Plan
from frontwright.core.stock.rack import GONE
from frontwright.sheets import pull, purchases
from frontwright.sheets.base import Leaf, Page, sentence_height, standing, title_height
from frontwright.sheets.info import Paper, SheetInfo
from frontwright.sheets.listing import COLUMN_HEAD, Band, ListHead, inside, list_drawer, paged, spread, title_band
from frontwright.sheets.subjects import Shows, front_ids, sheet
from frontwright.sheets.words import Part, finely, fit, strong, typed_size, words

ROW = 11.6
NOTE = (
    "Rough is what to take from the rack or to buy: finished size and the shop's own allowances. Tick what lies ready."
)
COLUMNS = (0.0, 30.0, 45.0, 62.0, 81.0, 93.0, 110.0, 127.0, 144.0, 162.0)
HEADS = ("stock", "thick", "wide", "long", "pieces", "finished", "rough", "at hand", "lacks", "ready")


def infos(plan: Plan, bill: WholeBill) -> list[SheetInfo]:
    """The bill of the whole job, if it takes anything; what is pulled from the rack; what is bought, by supplier."""
    return [*_bill_infos(plan, bill), *pull.infos(plan, bill), *purchases.infos(plan, bill)]


def _bill_infos(plan: Plan, bill: WholeBill) -> list[SheetInfo]:
    lines = bill.lines
    if not lines:
        return []
    figures = [pair for number, one in enumerate(lines, 1) for pair in _figures(_name(number, one.line), one.line)]
    told = [pair for number, one in enumerate(lines, 1) for pair in _told(_name(number, one.line), one)]
    told += [(f"{piece.id} at hand", ", ".join(_piece(piece))) for piece in plan.job.pieces.values()]
    ids = {i for front in plan.fronts.fronts.values() for i in front_ids(plan, front)}
    return [sheet(plan, "12", "stock", "", "stock bill", ids, Shows(tuple(figures), tuple(told)))]


def leaves(plan: Plan, bill: WholeBill, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The pages of one of the three."""
    if info.subject == pull.SUBJECT:
        return pull.leaves(plan, bill, info, paper)
    if info.subject.startswith(purchases.SUBJECT):
        return purchases.leaves(plan, bill, info, paper)
    return _bill_leaves(plan, bill, info, paper)


def _bill_leaves(plan: Plan, bill: WholeBill, info: SheetInfo, paper: Paper) -> list[Leaf]:
    """The bill, form by form, then the list of pieces at hand."""
    width, height = inside(paper)
    box = standing(info, plan.display)
    room = height - title_height((NOTE,), width) - COLUMN_HEAD
    pages = paged(list(_bands(plan, bill)), room - sentence_height(box, width), room)
    lacking = sum(one.lacks > 0 for one in bill.lines)
    count = f"{lacking} of {len(bill.lines)} lines lacking, see the purchase lists" if lacking else "all at hand"
    cells = (("goes to", "rack, shop"),)
    head = ListHead("Stock bill", count, NOTE, HEADS, COLUMNS)
    return [
        Leaf(list_drawer(head, page, box if not n else ()), "12  stock bill", cells) for n, page in enumerate(pages)
    ]


def _name(number: int, line: BillLine) -> str:
    return f"line {number}, {line.form} {line.species}".rstrip()


def _figures(name: str, line: BillLine) -> Iterator[tuple[str, Figure]]:
    for what, of in (("thickness", line.thickness), ("width", line.width), ("length", line.length)):
        if of is not None:
            yield f"{what} of {name}", of


def _told(name: str, one: Covered) -> Iterator[tuple[str, str]]:
    line = one.line
    yield f"pieces of {name}", str(line.qty)
    yield f"finished content of {name}", content(line.finished, line.measure)
    yield f"rough content of {name}", in_both(line.rough, line.measure) if line.rough is not None else ""
    yield f"at hand of {name}", content(one.at_hand, line.measure)
    yield f"lacking of {name}", content(one.lacks, line.measure)


def content(number: Fraction | int | None, measure: str) -> str:
    """A content in its measure; empty for none."""
    return "" if number is None else amount_text(number, measure)


def _bands(plan: Plan, bill: WholeBill) -> Iterator[Band]:
    forms = list(dict.fromkeys(one.line.form for one in bill.lines))
    for form in forms:
        same = [one for one in bill.lines if one.line.form == form]
        yield title_band(words(strong(form.capitalize()), _together(same), size=11))
        for one in same:
            yield _line_band(one, plan.display)
    pieces = [piece for piece in plan.job.pieces.values() if piece.state not in GONE]
    yield title_band(words(strong("At hand for this job"), "" if pieces else ": nothing has been listed", size=11))
    for piece in pieces:
        yield _piece_band(piece)


def _together(lines: Sequence[Covered]) -> str:
    """The measure of the lines of a form, and what they take altogether in both measures."""
    measures = dict.fromkeys(one.line.measure for one in lines if one.line.measure)
    rough = sum((one.line.rough for one in lines if one.line.rough is not None), Fraction(0))
    said = f"  in {', '.join(map(measure_sign, measures))}" if measures else ""
    return f"{said}; together {in_both(rough, next(iter(measures)))} rough" if rough else said


def _line_band(one: Covered, display: Display) -> Band:
    line = one.line
    sizes = [
        words(*finely(of, display), size=13, bold=True) if of else ()
        for of in (line.thickness, line.width, line.length)
    ]
    texts = (
        str(line.qty) if line.qty else "",
        *(content(n, line.measure) for n in (line.finished, line.rough, one.at_hand)),
    )
    lacks = content(one.lacks, line.measure)
    other = in_the_other(line.rough, line.measure)
    under = f"{other.text} rough" if other is not None else ""

    def draw(page: Page, y: float) -> None:
        pen, x = page.pen, spread(page, COLUMNS)
        base = y + 6.9
        free = next((at for at, size in zip(x[1:4], sizes, strict=True) if size), x[4])
        pen.words(x[0], base, fit(words(line.species or line.form, size=12), free - x[0] - 2))
        for at, end, size in zip(x[1:4], x[2:5], sizes, strict=True):
            pen.words(at, base, fit(size, end - at - 1.5)) if size else 0
        for at, end, text in zip(x[4:8], x[5:9], texts, strict=True):
            pen.words(at, base, fit(words(text, size=11, bold=at == x[6]), end - at - 1.5))
        if under:
            pen.words(x[6], y + 10.2, fit(words(under, size=8.5, condensed=True), x[8] - x[6] - 1.5))
        pen.words(x[8], base, fit(words(lacks if one.lacks > 0 else "–", size=13, bold=True), x[9] - x[8] - 1.5))
        pen.tick(x[9] + 1, y + 3.2)

    return Band(ROW, draw)


def _piece(piece: Piece) -> tuple[str, str, str]:
    """A piece at hand in words: how many of what form, which wood, its sizes and where it lies."""
    count = f"{piece.count} × " if piece.count != 1 else ""
    wood = " ".join(text for text in (piece.species, piece.batch and f"batch {piece.batch}") if text)
    sizes = "".join(typed_size(piece.length, piece.width, piece.thickness))
    right = ", ".join(text for text in (sizes, piece.shelf and f"shelf {piece.shelf}", piece.note) if text)
    return f"{count}{piece.form}", wood, right


def _piece_band(piece: Piece) -> Band:
    form, wood, right = _piece(piece)
    parts: list[Part] = [strong(piece.id), "  ", form, "  ", wood]

    def draw(page: Page, y: float) -> None:
        pen, half = page.pen, page.x0 + (page.x1 - page.x0) * 0.47
        pen.words(page.x0, y + 5.8, fit(words(*parts, size=11), half - page.x0 - 3))
        pen.words(half, y + 5.8, fit(words(right, size=11), page.x1 - half - 8))
        pen.tick(page.x1 - 6, y + 1.7)

    return Band(8.4, draw)
