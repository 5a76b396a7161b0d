"""What a job takes and costs, as lists for suppliers and clients: pull list, purchases, costs with hours, quote."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from frontwright.core.bill.result import Proviso, Purchase, WholeBill
from frontwright.core.bill.whole import Quote
from frontwright.core.figures import Figure
from frontwright.core.lengths import Length
from frontwright.core.plan import Plan
from frontwright.exchange.tables import Cell, Column, Table

type Say = Callable[[Sequence[Proviso]], Sequence[str]]
MEASURES = {"m2": "m²", "m3": "m³"}
PULL = (
    Column("shelf"),
    Column("piece"),
    Column("form"),
    Column("species"),
    Column("batch"),
    Column("count", "count"),
    Column("for"),
)
BUY = (
    Column("supplier"),
    Column("size"),
    Column("what"),
    Column("name"),
    Column("length", "length"),
    Column("width", "length"),
    Column("thickness", "length"),
    Column("count", "count"),
    Column("amount wanted", "number"),
    Column("measure"),
    Column("each", "money"),
    Column("cost", "money"),
    Column("days", "count"),
)
COSTS = (Column("what"), Column("of"), Column("hours", "number"), Column("cost", "money"))
QUOTE = (Column("line"), Column("price", "money"))
HOURS = (
    Column("operation"),
    Column("how many", "count"),
    Column("set-up minutes", "number"),
    Column("minutes each", "number"),
    Column("hours", "number"),
    Column("hours spent", "number"),
)


def order_tables(plan: Plan, bill: WholeBill, quote: Quote, say: Say) -> dict[str, Table]:
    """Every list of a bill by its name: pull, purchases, costs, hours, quote.

    `say` puts what a price rests on into words.
    """
    unit, currency = plan.job.heading.unit, bill.costs.currency
    columns = {"pull": PULL, "purchases": BUY, "costs": COSTS, "hours": HOURS, "quote": QUOTE}
    rows: dict[str, Iterable[tuple[Cell, ...]]] = {
        "pull": _pull(bill),
        "purchases": (_purchase(one) for one in bill.purchases),
        "costs": _costs(bill),
        "hours": _hours(bill),
        "quote": _quote(quote, say),
    }
    return {name: Table(name, columns[name], tuple(rows[name]), unit, currency) for name in columns}


def _pull(bill: WholeBill) -> Iterator[tuple[Cell, ...]]:
    for one in bill.pull:
        yield one.shelf, one.piece, one.form, one.species, one.batch, one.count, ", ".join(one.of)


def _purchase(one: Purchase) -> tuple[Cell, ...]:
    return (
        one.supplier,
        one.size,
        one.what,
        one.name,
        *(_length(figure) for figure in (one.length, one.width, one.thickness)),
        one.count,
        one.amount,
        MEASURES.get(one.measure, one.measure),
        one.cost / one.count if one.cost is not None and one.count else None,
        one.cost,
        one.days,
    )


def _length(figure: Figure | None) -> Length | None:
    return figure.length if figure is not None else None


def _costs(bill: WholeBill) -> Iterator[tuple[Cell, ...]]:
    for line in bill.costs.lines:
        yield line.what, line.of, bill.costs.hours if line.what == "work" else None, line.cost
    yield "total", "", None, bill.costs.total


def _hours(bill: WholeBill) -> Iterator[tuple[Cell, ...]]:
    for one in bill.hours:
        yield one.name, one.count, one.setup, one.each, one.minutes / 60, one.spent


def _quote(quote: Quote, say: Say) -> Iterator[tuple[Cell, ...]]:
    for line in quote.lines:
        yield line.what, line.cost
    yield "total", quote.total
    for sentence in say(quote.conditions):
        yield sentence, None
