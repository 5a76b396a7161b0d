"""How the lines of the stock bill are covered, by the same answers that say what is pulled and bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from frontwright.core.bill.bill import NOT_CHOSEN
from frontwright.core.bill.lists import standing
from frontwright.core.bill.result import BillLine, Covered, Purchase
from frontwright.core.stock.result import Enough, StockPlan


def covered(
    lines: Sequence[BillLine], stock: StockPlan, enough: Enough, purchases: Sequence[Purchase]
) -> Iterator[Covered]:
    """Each line with what is at hand of it and what it lacks, in its measure.

    A part lacks where it lies on a size that is still to be bought, or found no place on the wood there is; hardware
    where it is on the purchase list.
    """
    copies = {want.id: want.copies for group in stock.groups for want in group.wants}
    missing = _missing(stock, enough)
    for line in lines:
        lacks = _bought(line, purchases) if line.form in ("hinge", "pull") else _lacks(line, copies, missing)
        yield Covered(line, _whole(line) - lacks, lacks)


def _missing(stock: StockPlan, enough: Enough) -> Counter[str]:
    """Wanted part -> copies for which wood must be bought."""
    found = Counter[str]()
    for answer in enough.groups:
        found.update(answer.short)
    for layout in standing(stock):
        if layout.laid.piece is None and not layout.cuts:
            found.update(part.part for part in layout.parts)
    return found


def _whole(line: BillLine) -> Fraction | int:
    return sum(line.parts.values()) if line.parts else line.qty


def _lacks(line: BillLine, copies: Mapping[str, int], missing: Mapping[str, int]) -> Fraction:
    """What is missing, part by part; what no group asks of the wood there is (glass) is missing whole."""
    lacks = Fraction(0)
    for part, whole in line.parts.items():
        of = copies.get(part, 0)
        lacks += whole * Fraction(min(missing[part], of), of) if of else whole
    return lacks


def _bought(line: BillLine, purchases: Sequence[Purchase]) -> int:
    name = "" if line.species == NOT_CHOSEN else line.species or line.form
    return sum(int(one.amount) for one in purchases if one.what == line.form and one.name == name)
