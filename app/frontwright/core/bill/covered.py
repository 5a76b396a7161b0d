"""How the lines of the stock bill are covered, by the same answers that say what is pulled and bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from frontwright.core.bill.bill import NOT_CHOSEN
from frontwright.core.bill.lists import bumpers, standing
from frontwright.core.bill.result import CONSUMABLES, SMALL, BillLine, Covered, Purchase
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.stock.result import Enough, StockPlan

_POURED = ("finish", "stain", "sealer", "glue", "adhesive")
_LISTED = (
    "hinge",
    "pull",
    "bumper",
    "glass",
    SMALL,
    CONSUMABLES,
    *_POURED,
)  # what lacks of these is what the purchase list has of them


def covered(
    lines: Sequence[BillLine], stock: StockPlan, enough: Enough, purchases: Sequence[Purchase]
) -> Iterator[Covered]:
    """Each line with what is at hand of it and what it lacks, in its measure.

    A part lacks where it lies on a size that is still to be bought, or found no place on the wood there is; hardware
    and glass where it is on the purchase list.
    """
    copies = {want.id: want.copies for group in stock.groups for want in group.wants}
    missing = _missing(stock, enough)
    for line in lines:
        lacks = _bought(line, purchases) if line.form in _LISTED else _lacks(line, copies, missing)
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
    """What is missing, part by part."""
    lacks = Fraction(0)
    for part, whole in line.parts.items():
        of = copies.get(part, 0)
        lacks += whole * Fraction(min(missing[part], of), of) if of else whole
    return lacks


def _bought(line: BillLine, purchases: Sequence[Purchase]) -> Fraction:
    """What the purchase list has of a line: glass of its thickness, what has a name by its name, all of the rest."""
    same = [one for one in purchases if one.what == line.form]
    if line.form == "glass":
        thick = line.thickness.value if line.thickness is not None else None
        same = [one for one in same if one.thickness is not None and one.thickness.value == thick]
    elif line.form in ("hinge", SMALL, CONSUMABLES, *_POURED):
        same = [one for one in same if one.name == ("" if line.species == NOT_CHOSEN else line.species)]
    return sum((one.amount for one in same), Fraction(0))


def beside_the_parts(fronts: FrontsPlan, purchases: Sequence[Purchase]) -> Iterator[BillLine]:
    """Lines of what a job takes beside parts and fittings: bumpers by count, finish and glue by amount."""
    if count := bumpers(fronts):
        yield BillLine("bumper", "", None, None, count, None, None, "pieces", None)
    for one in purchases:
        if one.what in _POURED:
            yield BillLine(
                one.what, one.name, None, None, 0, None, one.amount, one.measure, None, {one.what: one.amount}
            )
