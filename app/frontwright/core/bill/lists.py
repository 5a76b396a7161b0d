"""What to take from which shelf, and what to buy from whom: wood, glass, hardware, finish, glue (F47, F70)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from frontwright.core.bill.result import Pull, Purchase
from frontwright.core.facing.result import FacingPlan
from frontwright.core.finish.finish import VOLUME
from frontwright.core.finish.result import FinishPlan
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.old_hinges import new_hinges
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job import HardwareLot, Piece, SupplierSize
from frontwright.core.job.index import JobIndex, natural
from frontwright.core.lengths import Length
from frontwright.core.making.result import MakingPlan, Part
from frontwright.core.stock.candidates import Judge, Wood
from frontwright.core.stock.layouts import batch_of
from frontwright.core.stock.purchase import Sold, area, buy_of, sizes_for
from frontwright.core.stock.result import Buy, Enough, Group, LayoutPlan, StockPlan
from frontwright.core.veneer.result import VeneerPlan

BUMPERS = 2  # of a front that opens; common practice
MILLILITRES = {"in": Fraction("3785.411784"), "mm": Fraction(1000)}  # in a gallon, in a litre
GRAMS = {"in": Fraction("453.59237"), "mm": Fraction(1000)}  # in a pound, in a kilogram
MASS = {"in": "pounds", "mm": "kilograms"}
CONTENT = {"in": ("board feet", "square feet"), "mm": ("m3", "m2")}


def standing(stock: StockPlan) -> tuple[LayoutPlan, ...]:
    """The layouts that count: those that hold, and those that are being cut. Parts of any other are laid anew."""
    return tuple(layout for layout in stock.layouts if layout.valid or layout.cuts)


def not_laid(stock: StockPlan) -> tuple[Group, ...]:
    """The groups with the parts only that lie on no layout that holds."""
    found: list[Group] = []
    for group in stock.groups:
        if group.on_leaves:
            continue
        unlaid = stock.unlaid.get(group.id)
        if unlaid is None:
            found.append(group)
            continue
        wants = tuple(replace(w, made=w.copies - unlaid[w.id]) for w in group.wants if unlaid.get(w.id))
        if wants:
            found.append(replace(group, wants=wants, batch=_begun(group, stock)))
    return tuple(found)


def _begun(group: Group, stock: StockPlan) -> str | None:
    """The batch that parts of the group's lot lie on already."""
    bound = {want.id for want in group.wants if want.lot}
    layouts = (one for one in stock.layouts if one.group == group.id and any(p.part in bound for p in one.parts))
    return next((batch_of(one) for one in layouts), None)


def left_over(lying: Wood, stock: StockPlan) -> Wood:
    """The pieces that no layout lies on."""
    laid: dict[str, int] = {}
    for layout in standing(stock):
        if layout.laid.piece is not None:
            laid[layout.laid.piece] = laid.get(layout.laid.piece, 0) + 1
    pieces = tuple(replace(p, count=p.count - laid[p.id]) if p.id in laid else p for p in lying.pieces)
    return replace(lying, pieces=tuple(p for p in pieces if p.count > 0 or p.id not in laid))


def pull_list(pieces: Mapping[str, Piece], enough: Enough, layouts: Sequence[LayoutPlan]) -> tuple[Pull, ...]:
    """Pieces by shelf: those that layouts lie on and are not cut yet, and those that the rest is cut from."""
    counts: dict[str, int] = {}
    reasons: dict[str, list[str]] = {}
    for layout in layouts:
        if layout.laid.piece is not None and any(not part.cut for part in layout.parts):
            counts[layout.laid.piece] = counts.get(layout.laid.piece, 0) + 1
            reasons.setdefault(layout.laid.piece, []).append(layout.id)
    for answer in enough.groups:
        for use in answer.uses:
            counts[use.piece] = counts.get(use.piece, 0) + use.count
            reasons.setdefault(use.piece, []).append(answer.group.id)
    found = [(pieces[name], count) for name, count in counts.items() if name in pieces]
    lines = (
        Pull(p.shelf, p.id, p.form, p.species, p.batch, count, tuple(dict.fromkeys(reasons[p.id])))
        for p, count in found
    )
    return tuple(sorted(lines, key=lambda one: (natural(one.shelf), natural(one.piece))))


def wood_to_buy(judge: Judge, stock: StockPlan, enough: Enough) -> Iterator[Purchase]:
    """Whole boards and sheets: those that layouts lie on, and the least purchase for the rest."""
    laid = list(_laid_sizes(judge, stock, begun=False))
    buys: dict[tuple[str, str, Length], tuple[Group, Buy]] = {}
    for answer in enough.groups:
        for buy in answer.buy:
            buys[(answer.group.id, buy.size, buy.length.length)] = (answer.group, buy)
    for group, sold, count in laid:
        more = buys.pop((group.id, sold.id, sold.length.length), None)
        yield _wood(judge.index, group, buy_of(group, sold, count + (more[1].count if more is not None else 0)))
    for group, buy in buys.values():
        yield _wood(judge.index, group, buy)


def wood_begun(judge: Judge, stock: StockPlan) -> Iterator[Purchase]:
    """Boards and sheets that were bought for layouts and have come: nothing to buy any more, and paid for whole."""
    for group, sold, count in _laid_sizes(judge, stock, begun=True):
        yield _wood(judge.index, group, buy_of(group, sold, count))


def _laid_sizes(judge: Judge, stock: StockPlan, *, begun: bool) -> Iterator[tuple[Group, Sold, int]]:
    """Sizes that layouts lie on, so many of each: those that have come or are being cut, or the others."""
    groups = {group.id: group for group in stock.groups}
    counts = Counter(
        (layout.group, layout.laid.size or "")
        for layout in standing(stock)
        if (layout.laid.piece is None or layout.laid.size) and layout.group in groups
        if bool(layout.cuts or layout.laid.piece) is begun
    )
    for (name, size), count in counts.items():
        sold = next((one for one in sizes_for(judge, groups[name]) if one.id == size), None)
        if sold is not None:
            yield groups[name], sold, count


def _wood(index: JobIndex, group: Group, buy: Buy) -> Purchase:
    solid, sheet = CONTENT[index.unit]
    return Purchase(
        supplier=buy.supplier,
        size=buy.size,
        what=buy.form,
        name=buy.species or group.species,
        count=buy.count,
        amount=buy.content,
        measure=sheet if group.cut == "sheets" else solid,
        cost=buy.cost,
        days=buy.days,
        length=buy.length,
        width=buy.width,
        thickness=buy.thickness,
    )


def hardware_to_buy(
    index: JobIndex, fronts: FrontsPlan, hardware: HardwarePlan, lots: Iterable[HardwareLot] = ()
) -> Iterator[Purchase]:
    """Hinges by type, pulls and bumpers, less what is on hand."""
    hand: dict[str, int] = {}
    for lot in lots:
        hand[lot.what.casefold()] = hand.get(lot.what.casefold(), 0) + max(0, lot.count)
    hinges: dict[tuple[str, str], int] = {}
    for hinge in hardware.hinges.values():
        key = (hinge.type or "", hinge.name)
        hinges[key] = hinges.get(key, 0) + new_hinges(index, hinge)
    for (kind, name), count in hinges.items():
        yield from _hardware(index, "hinge", (kind, name), count, hand)
    yield from _hardware(index, "pull", ("pull",), sum(hardware.pulls.values()), hand)
    yield from _hardware(index, "bumper", ("bumper",), bumpers(fronts), hand)


def bumpers(fronts: FrontsPlan) -> int:
    """How many bumpers the fronts that open take."""
    return BUMPERS * sum(front.front.kind in ("door", "glass", "drawer") for front in fronts.fronts.values())


def glass_to_buy(index: JobIndex, making: MakingPlan) -> Iterator[Purchase]:
    """Panes by size, cut to it where they are bought; one that was measured is there. A price by content is by the
    square foot or square metre."""
    made = {row.of for row in index.job.as_built.values()}
    panes: dict[tuple[Length, Length, Length], list[Part]] = {}
    for part in making.parts:
        if part.material == "glass" and part.id not in made:
            panes.setdefault((part.length.length, part.width.length, part.thickness.length), []).append(part)
    row = sold_as(index, {"glass"})
    for (length, width, _), parts in panes.items():
        count, one = sum(part.qty for part in parts), parts[0]
        face = area(index, width, length) * count
        line = bought_line(row, "glass", "glass", count, face, CONTENT[index.unit][1])
        if row is not None and row.per == "content" and row.price is not None and row.price.value is not None:
            line = replace(line, cost=row.price.value * 100 * face)
        yield replace(line, length=one.length, width=one.width, thickness=one.thickness)


def _hardware(
    index: JobIndex, what: str, names: tuple[str, ...], wanted: int, hand: dict[str, int]
) -> Iterator[Purchase]:
    known = [name.casefold() for name in names if name]
    lacks = wanted
    for name in dict.fromkeys(known):
        taken = min(lacks, hand.get(name, 0))
        hand[name] = hand.get(name, 0) - taken
        lacks -= taken
    if lacks <= 0:
        return
    row = sold_as(index, set(known)) or sold_as(index, {what})
    packs = -(-lacks // max(1, row.pack)) if row is not None else lacks
    yield bought_line(row, what, names[-1], packs, Fraction(lacks), "pieces")


def sold_as(index: JobIndex, names: set[str]) -> SupplierSize | None:
    """The cheapest that a supplier sells under one of these names, in small letters; None where none does."""
    rows = [r for r in index.job.supplier_sizes.values() if r.form in ("hardware", "supplies")]
    fitting = [r for r in rows if r.what.casefold() in names]
    return min(fitting, key=_dear, default=None)


def _dear(row: SupplierSize) -> tuple[bool, Fraction]:
    """The cheapest by the piece; one without a price last."""
    price = row.price.value if row.price is not None else None
    return price is None, (price or Fraction(0)) / max(1, row.pack)


def bought_line(row: SupplierSize | None, what: str, name: str, count: int, amount: Fraction, measure: str) -> Purchase:
    """A line of the purchase list: so many of what is sold, for an amount that is wanted."""
    price = row.price.value if row is not None and row.price is not None else None
    return Purchase(
        supplier=row.supplier if row is not None else "",
        size=row.id if row is not None else "",
        what=what,
        name=name,
        count=count,
        amount=amount,
        measure=measure,
        cost=None if price is None else price * 100 * count,
        days=row.days if row is not None else None,
    )


def supplies_to_buy(index: JobIndex, finish: FinishPlan, veneer: VeneerPlan, facing: FacingPlan) -> Iterator[Purchase]:
    """Each finish in one batch, with its stain and sealer; glue for the pressings, adhesive (F72); whole tins."""
    unit = index.unit
    for batch in finish.batches:
        if batch.volume:
            yield _supply(index, "finish", batch.volume, VOLUME[unit], batch.name if batch.known else "")
        for step in batch.steps:
            if step.what != "coat":
                yield _supply(index, step.what, step.volume, VOLUME[unit], step.name)
    grams = sum((pressing.glue_grams for pressing in veneer.pressings), Fraction(0))
    if grams:
        yield _supply(index, "glue", grams / GRAMS[unit], MASS[unit])
    adhesives: dict[str, Fraction] = {}
    for bond in (bond for run in facing.runs.values() for bond in run.bonds if bond.kind is not None):
        adhesives[bond.adhesive] = adhesives.get(bond.adhesive, Fraction(0)) + bond.millilitres
    for name, volume in adhesives.items():
        yield _supply(index, "adhesive", volume / MILLILITRES[unit], VOLUME[unit], name)


def _supply(index: JobIndex, what: str, amount: Fraction, measure: str, name: str = "") -> Purchase:
    """What is sold under its own name, else as what it is."""
    row = (sold_as(index, {name.casefold()}) if name else None) or sold_as(index, {what})
    holds = row.holds.value if row is not None and row.holds is not None else None
    count = -(-amount // holds) if holds else 1
    return bought_line(row, what, name or (row.id if row is not None else what), int(count), amount, measure)
