"""The Bill page: what is pulled from which shelf, what is bought from whom, hours, costs, and the quote."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from frontwright.core.bill.measures import in_both, in_the_other, measure_sign
from frontwright.core.bill.result import CONSUMABLES, SMALL, Covered, Purchase, WholeBill
from frontwright.core.bill.whole import Quote
from frontwright.core.plan import billed_whole, quoted
from frontwright.core.stock.lots import lots_for
from frontwright.core.stock.rack import Rack
from frontwright.desk.contents import Action, Cell, Column, Form, FormLine, PageContents, Table, TableRow
from frontwright.desk.keys import key
from frontwright.desk.pages.findings import finding_lines
from frontwright.desk.pages.rack_enough import lying
from frontwright.desk.pages.view import View, words, worked
from frontwright.desk.wording.fields import field_word
from frontwright.desk.wording.numbers import count_of, decimal, figure_text
from frontwright.sheets.bill_words import LINES, conditions, money
from frontwright.store import StoreError

PRICING = ("currency", "rate", "handling", "reserve", "own_share", "waste", "burn_below")
OPERATION = ("name", "setup", "each", "counts", "spent")


def bill_page(view: View) -> PageContents:
    """The whole page."""
    bill = bill_of(view)
    quote = quoted(view.plan, bill)
    empty = not bill.purchases and not bill.pull and not bill.lines
    return PageContents(
        chapter="bill",
        title="Bill",
        choosers=(),
        chosen="",
        advice="" if empty else _advice(bill, quote),
        bands=(
            (_pull(view, bill), _purchases(view, bill)),
            (_quote(quote), _pricing(view)),
            (_hours(view, bill),),
            (_conditions(quote),),
            (_takes(bill),),
            (_leaves(view),),
        ),
        board=None,
        findings=finding_lines(view, "bill"),
    )


def bill_of(view: View) -> WholeBill:
    """The bill, reckoned from the whole rack and the hardware on hand where there is a shop file."""
    try:
        rack = view.rack.rack if view.rack is not None else Rack()
    except StoreError:  # the Rack page says why; the bill goes by what the job itself has
        rack, view = Rack(), replace(view, rack=None)

    def made() -> WholeBill:
        return billed_whole(
            view.plan, lying(view, rack), lots=lots_for(rack, view.rack.mark if view.rack is not None else "")
        )

    return view.rack.remembered.get("bill", (view.plan, rack), made) if view.rack is not None else made()


def _advice(bill: WholeBill, quote: Quote) -> str:
    unpriced = sum(one.cost is None for one in bill.purchases)
    if not bill.costs.lines:
        return "No price is known yet: enter suppliers' sizes, the price of an hour and hours below"
    said = f"The quote comes to {money(quote.total, quote.currency)}"
    return f"{said}, {count_of(unpriced, 'line')} without a price" if unpriced else said


# -- lists


def _pull(view: View, bill: WholeBill) -> Table:
    """From which shelf what is taken, in the order in which one walks."""
    columns = (
        Column("shelf", axis=False),
        Column("piece", axis=False),
        Column("what", axis=False, share=2),
        Column("pieces"),
    )
    rows = tuple(
        TableRow(
            one.piece,
            (
                words(one.shelf or "–", one.piece),
                words(one.piece, one.piece, bold=True),
                words(" ".join(word for word in (one.species, one.form, one.batch) if word), one.piece),
                words(str(one.count), one.piece),
            ),
        )
        for one in bill.pull
    )
    not_ours = [one.piece for one in bill.pull if one.piece not in view.job.pieces]
    actions: tuple[Action, ...] = ()
    if not_ours:
        actions = (Action(key("rack-reserve", *not_ours), f"Reserve the {count_of(len(not_ours), 'piece')}"),)
    return Table("pull", "To pull, by shelf", "" if rows else "nothing", columns, rows, actions)


def _purchases(view: View, bill: WholeBill) -> Table:
    """What is bought from whom, with whole boards, sheets and packs."""
    columns = (
        Column("what", axis=False, share=2),
        Column("size", axis=False),
        Column("buy"),
        Column("for", axis=False, share=2),
        Column("price"),
        Column("days"),
    )
    rows: list[TableRow] = []
    supplier: str | None = None
    for at, one in enumerate(bill.purchases):
        if one.supplier != supplier:
            supplier = one.supplier
            lines = [p for p in bill.purchases if p.supplier == supplier]
            rows.append(TableRow("", (words(supplier or "No supplier entered"),), head=True, aside=_sum(view, lines)))
        rows.append(_purchase_row(view, one, f"buy {at}"))
    sizes = Action(key("lead", "shop:Supplier sizes", ""), "Sizes and prices of suppliers")
    return Table("purchases", "To buy, by supplier", "" if rows else "nothing", columns, tuple(rows), (sizes,))


def _sum(view: View, lines: list[Purchase]) -> str:
    known = [one.cost for one in lines if one.cost is not None]
    return money(sum(known, Fraction(0)), _currency(view)) if known else ""


def _currency(view: View) -> str:
    row = view.job.pricings.get("pricing")
    return row.currency if row is not None else ""


def _wanted(one: Purchase) -> str:
    """ "1 piece", "2.98 m², 32.06 square feet"."""
    if one.measure == "pieces" and one.amount.denominator == 1:
        return count_of(int(one.amount), "piece")
    return in_both(one.amount, one.measure)


def _bought_word(one: Purchase) -> str:
    """Its name, and what it is where the name does not say it; screws and tape speak for themselves."""
    if one.name in ("", one.what):
        return one.what
    return one.name if one.what in (SMALL, CONSUMABLES) or one.what in one.name else f"{one.name}, {one.what}"


def _purchase_row(view: View, one: Purchase, subject: str) -> TableRow:
    sizes = [figure_text(f, view.display) for f in (one.thickness, one.width, one.length) if f is not None]
    name = _bought_word(one)
    cells = (
        words(name, subject, bold=True),
        words(" × ".join(sizes), subject),
        words(str(one.count), subject, bold=True),
        words(_wanted(one), subject),
        words(
            money(one.cost, "") if one.cost is not None else "?",
            subject,
            level="ok" if one.cost is not None else "warn",
        ),
        words(str(one.days) if one.days is not None else "", subject),
    )
    return TableRow(subject, cells)


# -- money


def _quote(quote: Quote) -> Table:
    """The sum as in an account book: line by line, then the total."""
    columns = (Column("", axis=False, share=2), Column("", axis=False))
    rows = [
        TableRow(f"quote {line.what}", (words(LINES[line.what], bold=True), words(money(line.cost, ""))))
        for line in quote.lines
    ]
    price = money(quote.total, quote.currency) if quote.lines else "?"  # nothing has a price: that is no quote of 0
    total = (words("the quote", bold=True), words(price, bold=True))
    return Table(
        "quote", "Costs and quote", "rounded once, at the end", columns, (*rows, TableRow("", total, result=True))
    )


def _pricing(view: View) -> Form:
    lines = tuple(FormLine(field_word("pricings", name), view.entry("pricings", "pricing", name)) for name in PRICING)
    kept = Action(key("keep-in-shop", "pricings", "pricing"), "Keep these prices in the shop")
    theirs = Action(key("take-over", "pricings", "pricing"), "Take the shop's prices")
    actions = [
        *([kept] if "pricing" in view.job.pricings else []),
        *([theirs] if "pricing" in view.shop.pricings else []),
    ]
    return Form("pricing", "Prices", "the shop's rates for this job", lines, tuple(actions))


def _hours(view: View, bill: WholeBill) -> Table:
    """Operations with minutes to set up and each, what the job has of it, and the hours it took."""
    columns = (
        Column("operation", axis=False, share=2),
        Column("set up", "minutes"),
        Column("each", "minutes"),
        Column("counted by", axis=False),
        Column("count"),
        Column("hours"),
        Column("took"),
    )
    found = {one.operation: one for one in bill.hours}
    rows = []
    for row in sorted(view.job.operations.values(), key=lambda one: one.place):
        one = found.get(row.id)
        name, setup, each, counts, spent = (view.entry("operations", row.id, field) for field in OPERATION)
        count: Cell = words(str(one.count) if one is not None else "", row.id)
        hours: Cell = words(decimal(one.minutes / 60, 2) if one is not None else "", row.id, bold=True)
        rows.append(TableRow(row.id, (name, setup, each, counts, count, hours, spent)))
    actions = [Action(key("new", "operations"), "Add an operation")]
    if view.selected in view.job.operations:
        one_ = view.selected
        actions.append(
            Action(key("delete", "operations", one_), f"Take out {view.job.operations[one_].name or one_}", one_)
        )
    actions += [
        Action(key("take-over", "operations", one), f"Use {row.name or one} of the shop", one)
        for one, row in view.shop.operations.items()
        if one not in view.job.operations
    ]
    hours_ = decimal(bill.costs.hours, 1)
    return Table("hours", "Hours", f"{hours_} h, set-ups shared over the job", columns, tuple(rows), tuple(actions))


def _conditions(quote: Quote) -> Table:
    """What the price rests on: as it stands on the quote."""
    said = conditions(quote.conditions)
    rows = tuple(TableRow(f"condition {at}", (words(one),)) for at, one in enumerate(said))
    aside = "as they stand on the quote"
    return Table("conditions", "Conditions", aside, (Column("", axis=False, share=2),), rows)


# -- what the job takes


def _takes(bill: WholeBill) -> Table:
    columns = (
        Column("form", axis=False),
        Column("wood", axis=False, share=2),
        Column("thick"),
        Column("width"),
        Column("length"),
        Column("pieces"),
        Column("finished", "content"),
        Column("rough", "content"),
        Column("", "content", axis=False),
        Column("rough", "in the other measure", axis=False),
        Column("at hand"),
        Column("lacks"),
    )
    rows = tuple(_bill_row(line, at) for at, line in enumerate(bill.lines))
    return Table(
        "bill", "What the job takes", "solid by thickness and width, the rest by size", columns, rows, tall=True
    )


def _bill_row(one: Covered, at: int) -> TableRow:
    subject, line = f"bill {at}", one.line
    other = in_the_other(line.rough, line.measure)
    cells: tuple[Cell, ...] = (
        words(line.form, subject, bold=True),
        words(line.species, subject),
        worked(line.thickness, subject, "thickness"),
        worked(line.width, subject, "width"),
        worked(line.length, subject, "length"),
        words(str(line.qty) if line.qty else "", subject),
        words(_content(line.finished), subject),
        words(_content(line.rough), subject),
        words(measure_sign(line.measure), subject),
        words(other.text if other is not None else "", subject),
        words(_content(one.at_hand), subject),
        words(_content(one.lacks) if one.lacks else "", subject, bold=bool(one.lacks)),
    )
    return TableRow(subject, cells)


def _content(number: Fraction | int | None) -> str:
    return "" if number is None else decimal(number, 3)


def _leaves(view: View) -> Table:
    veneer = view.plan.veneer
    rows = [
        TableRow(
            f"leaves {at}",
            (
                words(f"leaves for {leaf.use}", bold=True),
                worked(leaf.length, f"leaves {at}", "length"),
                words(str(leaf.count)),
                words(f"and {leaf.spares} to spare" if leaf.spares else ""),
            ),
        )
        for at, leaf in enumerate(veneer.leaves)
    ]
    rows += [
        TableRow(
            billet.id,
            (
                words(billet.machine, billet.id),
                worked(billet.length, billet.id, f"length, {billet.machine}"),
                words(str(billet.leaves), billet.id),
                worked(billet.rest, billet.id, f"rest, {billet.machine}"),
            ),
        )
        for billet in veneer.billets
    ]
    columns = (Column("", axis=False, share=2), Column("length"), Column("leaves"), Column("rest"))
    return Table("leaves", "Leaves", "wanted, and what a billet gives", columns, tuple(rows))
