"""What a job costs, F52: wood as it is really cut, hardware, handling, hours with their set-ups shared, a reserve."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.bill.result import CONSUMABLES, CostLine, Costs, CostWhat, Hours, Proviso, Purchase
from frontwright.core.facing.result import FacingPlan
from frontwright.core.finish.result import FinishPlan
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job import Amount, Piece, Pricing, SupplierSize
from frontwright.core.job.index import JobIndex, natural
from frontwright.core.lengths import ZERO, Length
from frontwright.core.making.result import MakingPlan
from frontwright.core.stock.candidates import size
from frontwright.core.stock.purchase import content_of, counted_thickness
from frontwright.core.stock.result import Enough, GroupAnswer, LayoutPlan
from frontwright.core.veneer.result import VeneerPlan

OWN_SHARE = Fraction(50, 100)  # at what share of its price own wood is charged until the shop says; common practice
WOOD = ("board", "sheet", "core", "billet", "panel", "leaf", "strip", "solid panel")
SUPPLIES = ("finish", "stain", "sealer", "glue", "adhesive", CONSUMABLES)
_OPENS = ("door", "glass")


def f52(
    material: Fraction,
    waste: Fraction,
    handling: Fraction,
    hours: Fraction,
    rate: Fraction,
    hardware: Fraction,
    reserve: Fraction,
) -> Fraction:
    """F52: `[(M·(1+waste))·(1+handling) + h·rate + hardware·(1+handling)]·(1+reserve)`; shares plain, money exact."""
    goods = material * (1 + waste) + hardware
    return (goods * (1 + handling) + hours * rate) * (1 + reserve)


def rounded(money: Fraction) -> int:
    """Money to its smallest unit, half up: the one rounding of a price."""
    return (2 * money.numerator + money.denominator) // (2 * money.denominator)


def hours_of(
    index: JobIndex,
    fronts: FrontsPlan,
    making: MakingPlan,
    hardware: HardwarePlan,
    veneer: VeneerPlan,
    facing: FacingPlan,
    finish: FinishPlan,
) -> tuple[Hours, ...]:
    """The shop's operations in their order, each with what the job has of what it counts."""
    kinds = [front.front.kind for front in fronts.fronts.values()]
    counts = {
        "job": 1,
        "front": len(kinds),
        "door": sum(kind in _OPENS for kind in kinds),
        "drawer": sum(kind == "drawer" for kind in kinds),
        "part": sum(part.qty for part in making.parts),
        "leaf": sum(leaf.count for leaf in veneer.leaves),
        "panel": sum(len(made.panels) for made in making.fronts.values()),
        "hinge": sum(hinge.count for hinge in hardware.hinges.values()),
        "strip": len(facing.pieces),
        "opening": len(index.job.openings),
        "setting": len(making.set_ups),
        "coat": finish.coated,
    }
    rows = sorted(index.job.operations.values(), key=lambda row: (row.place, natural(row.id)))
    return tuple(
        Hours(r.id, r.name or r.id, counts[r.counts], _number(r.setup), _number(r.each), _told(r.spent)) for r in rows
    )


@dataclass(frozen=True, slots=True)
class _Wood:
    """What is charged for one piece or purchase, and how much of it becomes parts; `settled`: it is all laid out, or
    crosscut whole (billets), so that nothing is reckoned on top."""

    of: str
    cost: Fraction
    parts: Fraction
    own: bool
    settled: bool


def costs_of(
    index: JobIndex,
    pieces: Mapping[str, Piece],
    enough: Enough,
    layouts: Sequence[LayoutPlan],
    purchases: Sequence[Purchase],
    hours: Sequence[Hours],
) -> Costs:
    """The costs of a job: wood by whole boards and sheets, own wood at its share, all of it with what stays unknown."""
    row = index.job.pricings.get("pricing") or Pricing()
    own, unpriced = _own_wood(index, pieces, enough, layouts, _share(row.own_share, OWN_SHARE))
    bought = [p for p in purchases if p.what in WOOD]
    other = [p for p in purchases if p.what not in WOOD]
    wood = [*own, *(part for p in bought if p.cost for part in _bought(p, p.cost, enough, layouts))]
    material = _material(row, wood, enough)
    provisos = (
        *(Proviso("no price", name) for name in (*unpriced, *dict.fromkeys(_unpriced(purchases)))),
        *(Proviso("usual size", p.what) for p in bought if not p.size),
        *([Proviso("own share", value=OWN_SHARE)] if own and _told(row.own_share) is None else []),
        *([Proviso("waste", value=material.open_waste)] if material.waste_is != "laid" and material.net else []),
        *_not_told(row, hours),
    )
    return _summed(row, material, [*_goods(wood, material), *_fixed(other)], hours, provisos)


def _unpriced(purchases: Sequence[Purchase]) -> Iterator[str]:
    return (one.size or one.what for one in purchases if one.cost is None)


@dataclass(frozen=True, slots=True)
class _Material:
    """Wood of a job: `charged` is what is paid for it, `net` what of that becomes parts; `open_waste` is reckoned on
    the parts that lie on no layout yet."""

    charged: Fraction
    net: Fraction
    open_waste: Fraction
    waste_is: Literal["laid", "fitted", "told"]

    @property
    def waste(self) -> Fraction:
        """The share on top of what becomes parts, of all the wood together."""
        return self.charged / self.net - 1 if self.net else Fraction(0)


def _material(row: Pricing, wood: Sequence[_Wood], enough: Enough) -> _Material:
    """Waste as it lies on layouts; of what does not lie there as fitted, or as the shop reckons."""
    whole, net = _paid(wood)
    rest, rest_net = _paid([one for one in wood if not one.settled])
    fitted, told = rest / rest_net - 1 if rest_net else Fraction(0), _told(row.waste)
    if not any(answer.need for answer in enough.groups):
        return _Material(whole, net, Fraction(0), "laid")
    if told is None:
        return _Material(whole, net, fitted, "fitted")
    return _Material(whole - rest + rest_net * (1 + told / 100), net, told / 100, "told")


def _paid(wood: Iterable[_Wood]) -> tuple[Fraction, Fraction]:
    """What is paid for wood, and how much of that for what becomes parts."""
    both = [(one.cost, one.cost * one.parts) for one in wood]
    return sum((cost for cost, _ in both), Fraction(0)), sum((parts for _, parts in both), Fraction(0))


def _goods(wood: Sequence[_Wood], material: _Material) -> Iterator[CostLine]:
    """Each piece and purchase with what is charged for it."""
    found: dict[tuple[CostWhat, str], Fraction] = {}
    for one in wood:
        as_reckoned = one.cost * one.parts * (1 + material.open_waste)
        charged = as_reckoned if material.waste_is == "told" and not one.settled else one.cost
        line: tuple[CostWhat, str] = ("own wood" if one.own else "wood bought", one.of)
        found[line] = found.get(line, Fraction(0)) + charged
    for (what, of), cost in found.items():
        yield CostLine(what, of, cost)


def _fixed(purchases: Iterable[Purchase]) -> Iterator[CostLine]:
    for one in purchases:
        if one.cost is not None:
            what: CostWhat = "finish and glue" if one.what in SUPPLIES else "hardware"
            yield CostLine(what, one.size or one.what, one.cost)


def _summed(
    row: Pricing, material: _Material, goods: Sequence[CostLine], hours: Sequence[Hours], provisos: Iterable[Proviso]
) -> Costs:
    """F52 line by line and altogether."""
    hardware = sum((one.cost for one in goods if one.what not in ("own wood", "wood bought")), Fraction(0))
    handling, reserve = _share(row.handling, Fraction(0)), _share(row.reserve, Fraction(0))
    rate, spent = _number(row.rate) * 100, sum((one.minutes for one in hours), Fraction(0)) / 60
    all_goods = material.charged + hardware
    before = all_goods * (1 + handling) + spent * rate
    lines = (
        *goods,
        CostLine("handling", "", all_goods * handling),
        CostLine("work", "", spent * rate),
        CostLine("reserve", "", before * reserve),
    )
    return Costs(
        currency=row.currency,
        material=material.net,
        waste=material.waste,
        waste_is=material.waste_is,
        hardware=hardware,
        handling=handling,
        hours=spent,
        rate=rate,
        reserve=reserve,
        lines=tuple(line for line in lines if line.cost),
        total=rounded(f52(material.charged, Fraction(0), handling, spent, rate, hardware, reserve)),
        provisos=tuple(dict.fromkeys(provisos)),
    )


def _not_told(row: Pricing, hours: Sequence[Hours]) -> Iterator[Proviso]:
    if not hours:
        yield Proviso("no hours")
    if _told(row.rate) is None:
        yield Proviso("no rate")
    if _told(row.handling) is None:
        yield Proviso("no handling")
    if _told(row.reserve) is None:
        yield Proviso("no reserve")


def _own_wood(
    index: JobIndex, pieces: Mapping[str, Piece], enough: Enough, layouts: Sequence[LayoutPlan], share: Fraction
) -> tuple[list[_Wood], list[str]]:
    """Own pieces at their share of price, less what is kept of them; and those whose price nobody knows."""
    found: list[_Wood] = []
    unpriced: list[str] = []
    taken: list[tuple[str, Fraction, Fraction, bool]] = []
    for layout in layouts:
        if layout.laid.piece is not None and not layout.laid.size and layout.content.all:
            kept = sum(r.length.units * r.width.units for r in layout.remainders if r.keep)
            gone = Fraction(layout.content.all - kept, layout.content.all)
            parts = Fraction(layout.content.parts, layout.content.all - kept) if gone else Fraction(0)
            taken.append((layout.laid.piece, gone, parts, True))
    for answer in enough.groups:
        for use in answer.uses:
            gone, parts = _shares(answer, pieces.get(use.piece), use.piece)
            taken.append((use.piece, gone * use.count, parts, answer.group.cut == "billets"))
    for name, gone, parts, settled in taken:
        piece = pieces.get(name)
        price = price_of_piece(index, piece) if piece is not None else None
        if price is None:
            unpriced.append(name)
        else:
            found.append(_Wood(name, price * share * gone, parts, own=True, settled=settled))
    return found, unpriced


def _shares(answer: GroupAnswer, piece: Piece | None, name: str) -> tuple[Fraction, Fraction]:
    """How much of a piece goes into the job, and how much of that becomes parts: a billet by its length."""
    length, width = (size(piece.length), size(piece.width)) if piece is not None else (None, None)
    mine = [place for place in answer.places if place.offer == name]
    if length is None or width is None or not mine:
        return Fraction(1), Fraction(1)
    if answer.group.cut == "billets":
        cuts = {(place.copy, place.along): place.length for place in mine}
        copies = len({copy for copy, _ in cuts})
        gone = sum((one + answer.group.kerf for one in cuts.values()), ZERO) / (length * copies)
        return min(Fraction(1), gone), Fraction(1)
    copies = len({place.copy for place in mine})
    used = sum(place.length.units * place.width.units for place in mine)
    return Fraction(1), Fraction(used, length.units * width.units * copies)


def _bought(purchase: Purchase, cost: Fraction, enough: Enough, layouts: Iterable[LayoutPlan]) -> Iterator[_Wood]:
    """A purchase, apart for what layouts lie on and for the rest; by its face, how much of each becomes parts."""
    name = purchase.size or purchase.what
    laid, fitted = _faces_laid(purchase, layouts), _faces_fitted(purchase, enough)
    whole = laid[0] + fitted[0]
    if not whole:
        yield _Wood(name, cost, Fraction(1), own=False, settled=True)
    for (mine, parts), settled in ((laid, True), (fitted, False)):
        if mine:
            used = Fraction(parts, mine) if 0 < parts <= mine else Fraction(1)
            yield _Wood(name, cost * Fraction(mine, whole), used, own=False, settled=settled)


def _faces_laid(purchase: Purchase, layouts: Iterable[LayoutPlan]) -> tuple[int, int]:
    """The faces of what layouts lie on of a size, and of the parts on them."""
    on = [one for one in layouts if one.laid.size == purchase.size]
    return sum(one.content.all for one in on), sum(one.content.parts for one in on)


def _faces_fitted(purchase: Purchase, enough: Enough) -> tuple[int, int]:
    """The faces of what is bought of a size for parts that lie nowhere yet, and of these parts."""
    whole = parts = 0
    for answer in enough.groups:
        wants = {want.id: want for want in answer.group.wants}
        for buy in answer.buy:
            if buy.size == purchase.size and answer.group.cut != "billets":
                whole += buy.count * buy.length.length.units * buy.width.length.units
                on = [(wants[part], answer.short.get(part, 0)) for part in buy.parts]
                parts += sum(count * want.length.units * want.width.units for want, count in on)
    return whole, parts


def price_of_piece(index: JobIndex, piece: Piece) -> Fraction | None:
    """What was paid for a piece, else what its content costs to buy, by the size sold that is nearest to it in
    thickness; in the smallest unit of money. None where neither is known."""
    if (paid := _told(piece.price)) is not None:
        return paid * 100
    thick = size(piece.thickness)
    if thick is None:
        return None
    counted = counted_thickness(index, piece.form, SupplierSize("", planed=piece.planed), thick)
    rows = [row for row in index.job.supplier_sizes.values() if _sold_alike(row, piece)]
    rows.sort(key=lambda row: _thickness_apart(index, row, counted))
    return next((price for row in rows if (price := _price_by(index, row, piece, counted)) is not None), None)


def _sold_alike(row: SupplierSize, piece: Piece) -> bool:
    same = row.form == piece.form or (row.form, piece.form) == ("board", "billet")
    return same and row.species.casefold() == piece.species.casefold()


def _thickness_apart(index: JobIndex, row: SupplierSize, counted: Length) -> tuple[bool, Length]:
    """How far a size that is sold is from this thickness, both as they are counted (F47); one of none comes last."""
    thick = size(row.thickness)
    sold = counted_thickness(index, row.form, row, thick) if thick is not None else counted
    return thick is None, max(sold - counted, counted - sold)


def _price_by(index: JobIndex, row: SupplierSize, piece: Piece, counted: Length) -> Fraction | None:
    """What the content of a piece costs where it is bought in this size."""
    long, wide, thick = size(piece.length), size(piece.width), size(piece.thickness)
    sold = size(row.length), size(row.width), size(row.thickness)
    price = _told(row.price)
    if price is None or long is None or wide is None or thick is None:
        return None
    if row.per == "content":
        return price * 100 * content_of(index, piece.form, long, wide, counted)
    if sold[0] is None or sold[1] is None or sold[2] is None:
        return None
    share = content_of(index, piece.form, long, wide, thick) / content_of(index, row.form, sold[0], sold[1], sold[2])
    return price * 100 / max(1, row.pack) * share


def _told(amount: Amount | None) -> Fraction | None:
    return amount.value if amount is not None else None


def _number(amount: Amount | None) -> Fraction:
    return _told(amount) or Fraction(0)


def _share(amount: Amount | None, otherwise: Fraction) -> Fraction:
    """Per cent as a plain share."""
    told = _told(amount)
    return otherwise if told is None else told / 100
