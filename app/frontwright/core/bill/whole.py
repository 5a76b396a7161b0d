"""The whole bill of a job: lists to pull and buy, hours, costs, and the quote with what it rests on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.bill.costs import costs_of, hours_of, rounded
from frontwright.core.bill.covered import beside_the_parts, covered
from frontwright.core.bill.lists import (
    glass_to_buy,
    hardware_to_buy,
    left_over,
    not_laid,
    pull_list,
    standing,
    supplies_to_buy,
    wood_begun,
    wood_to_buy,
)
from frontwright.core.bill.result import BillPlan, CostWhat, Proviso, WholeBill, to_the_unit
from frontwright.core.bill.small import small_lines, small_needs, small_to_buy
from frontwright.core.facing.result import FacingPlan
from frontwright.core.findings import Check, Code
from frontwright.core.finish.result import FinishPlan
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job import HardwareLot
from frontwright.core.job.index import JobIndex
from frontwright.core.making.result import MakingPlan
from frontwright.core.stock.candidates import Judge, Wood, wood_of
from frontwright.core.stock.enough import NOT_CUT, enough
from frontwright.core.stock.fitting import first_fit
from frontwright.core.stock.result import Fit, StockPlan
from frontwright.core.veneer.result import VeneerPlan

# What is found while leaves are sawn and pressed is the shop's own, and no condition of a price.
_AT_THE_BENCH: frozenset[Code] = frozenset(("resaw-yield", "veneer-left", "press-time", "press-load"))


@dataclass(frozen=True, slots=True)
class Planned:
    """What the bill is made from."""

    index: JobIndex
    fronts: FrontsPlan
    making: MakingPlan
    hardware: HardwarePlan
    facing: FacingPlan
    finish: FinishPlan
    veneer: VeneerPlan
    stock: StockPlan
    bill: BillPlan


def whole_bill(
    planned: Planned, lying: Wood | None = None, fit: Fit = first_fit, lots: Iterable[HardwareLot] = ()
) -> WholeBill:
    """The bill of what is not cut yet: layouts as they lie, the rest fitted on what is left, then bought.

    `lying`: a whole rack instead of the job's own pieces; `lots`: hardware on hand.
    """
    p = planned
    index, layouts = p.index, standing(p.stock)
    there = left_over(lying if lying is not None else wood_of(index), p.stock)
    rest = enough(index, not_laid(p.stock), NOT_CUT, there, fit)
    pieces = {piece.id: piece for piece in (*there.pieces, *index.job.pieces.values())}
    judge = Judge(index, there)
    lots = tuple(lots)
    small = tuple(small_needs(index, p.fronts, p.making, p.hardware, p.facing, p.finish))
    purchases = (
        *wood_to_buy(judge, p.stock, rest),
        *glass_to_buy(index, p.making),
        *hardware_to_buy(index, p.fronts, p.hardware, lots),
        *small_to_buy(index, small, lots),
        *supplies_to_buy(index, p.finish, p.veneer, p.facing),
    )
    others = (*beside_the_parts(p.fronts, purchases), *small_lines(small))
    hours = hours_of(index, p.fronts, p.making, p.hardware, p.veneer, p.facing, p.finish)
    return WholeBill(
        enough=rest,
        pull=pull_list(pieces, rest, layouts),
        purchases=tuple(sorted(purchases, key=lambda one: one.supplier)),
        hours=hours,
        finish_area=p.finish.area,
        costs=costs_of(index, pieces, rest, layouts, (*wood_begun(judge, p.stock), *purchases), hours),
        kept=tuple((layout.id, one) for layout in layouts for one in layout.remainders if one.keep),
        lines=tuple(covered((*p.bill.lines, *others), p.stock, rest, purchases)),
    )


@dataclass(frozen=True, slots=True)
class QuoteLine:
    """One line for the client: what, and its price in the smallest unit of money."""

    what: CostWhat
    cost: int


@dataclass(frozen=True, slots=True)
class Quote:
    """A price with the conditions it is given under; `total` is rounded once, its lines add up to it."""

    currency: str
    lines: tuple[QuoteLine, ...]
    total: int
    conditions: tuple[Proviso, ...]


def quote(
    bill: WholeBill,
    not_read: Iterable[tuple[str, tuple[str, ...]]],
    guessed: Sequence[str],
    checks: Iterable[Check],
    unsettled: Iterable[Proviso] = (),
) -> Quote:
    """The quote of a bill. Conditions are readings not taken (`not_read`: what, of what), fronts whose size rests on
    an assumed figure (`guessed`), open warnings and stops but those of the bench, and what was not settled at the
    first visit (`unsettled`).
    """
    open_ones = [c for c in checks if c.is_open and c.level != "note" and c.code not in _AT_THE_BENCH]
    sums: dict[CostWhat, Fraction] = {}
    for line in bill.costs.lines:
        sums[line.what] = sums.get(line.what, Fraction(0)) + line.cost
    conditions = (
        *bill.costs.provisos,
        *(Proviso("not read", f"{what}: {', '.join(of)}") for what, of in not_read),
        *([Proviso("assumed", ", ".join(guessed))] if guessed else []),
        *unsettled,
        *(Proviso("finding", f"{c.code}: {', '.join(c.where)}") for c in open_ones),
    )
    total = bill.costs.total if bill.costs.lines else rounded(Fraction(0))
    told = to_the_unit(tuple(sums.values()), total)
    lines = tuple(QuoteLine(what, cost) for what, cost in zip(sums, told, strict=True))
    return Quote(bill.costs.currency, lines, total, conditions)
