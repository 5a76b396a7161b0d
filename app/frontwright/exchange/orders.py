"""What a job takes and costs, as lists for suppliers and clients: pull list, purchases, costs with hours, quote."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction

from frontwright.core.bill.measures import in_the_other, measure_sign
from frontwright.core.bill.result import Covered, Proviso, Purchase, WholeBill
from frontwright.core.bill.whole import Quote
from frontwright.core.figures import Figure
from frontwright.core.lengths import Length
from frontwright.core.plan import Plan
from frontwright.exchange.tables import Cell, Column, Table

type Say = Callable[[Sequence[Proviso]], Sequence[str]]
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
    Column("or amount", "number"),
    Column("or measure"),
    Column("each", "money"),
    Column("cost", "money"),
    Column("days", "count"),
)
STOCK = (
    Column("form"),
    Column("species"),
    *(Column(size, "length") for size in ("thickness", "width", "length")),
    Column("pieces", "count"),
    Column("finished", "number"),
    Column("rough", "number"),
    Column("measure"),
    Column("or rough", "number"),
    Column("or measure"),
    Column("at hand", "number"),
    Column("lacks", "number"),
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
    """Every list of a bill by its name: stock, pull, purchases, costs, hours, quote.

    `say` puts what a price rests on into words.
    """
    unit, currency = plan.job.heading.unit, bill.costs.currency
    columns = {"stock": STOCK, "pull": PULL, "purchases": BUY, "costs": COSTS, "hours": HOURS, "quote": QUOTE}
    rows: dict[str, Iterable[tuple[Cell, ...]]] = {
        "stock": (_taken(one) for one in bill.lines),
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


def _taken(one: Covered) -> tuple[Cell, ...]:
    line = one.line
    return (
        line.form,
        line.species,
        *(_length(figure) for figure in (line.thickness, line.width, line.length)),
        line.qty or None,
        line.finished,
        line.rough,
        measure_sign(line.measure),
        *_other(line.rough, line.measure),
        one.at_hand,
        one.lacks,
    )


def _other(amount: Fraction | None, measure: str) -> tuple[Cell, Cell]:
    """The same content in the measure of the other system."""
    found = in_the_other(amount, measure)
    return (found.amount, measure_sign(found.measure)) if found is not None else (None, None)


def _purchase(one: Purchase) -> tuple[Cell, ...]:
    return (
        one.supplier,
        one.size,
        one.what,
        one.name,
        *(_length(figure) for figure in (one.length, one.width, one.thickness)),
        one.count,
        one.amount,
        measure_sign(one.measure),
        *_other(one.amount, one.measure),
        one.cost / one.count if one.cost is not None and one.count else None,
        one.cost,
        one.days,
    )


def _length(figure: Figure | None) -> Length | None:
    return figure.length if figure is not None else None


def _costs(bill: WholeBill) -> Iterator[tuple[Cell, ...]]:
    costs = bill.costs
    for line, cost in zip(costs.lines, costs.told, strict=True):
        yield line.what, line.of, costs.hours if line.what == "work" else None, cost
    yield "total", "", None, costs.total


def _hours(bill: WholeBill) -> Iterator[tuple[Cell, ...]]:
    for one in bill.hours:
        yield one.name, one.count, one.setup, one.each, one.minutes / 60, one.spent


def _quote(quote: Quote, say: Say) -> Iterator[tuple[Cell, ...]]:
    for line in quote.lines:
        yield line.what, line.cost
    yield "total", quote.total
    for sentence in say(quote.conditions):
        yield sentence, None
