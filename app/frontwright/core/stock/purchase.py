"""The least purchase for parts that find no place: whole boards, sheets and billets of the sizes that are sold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from frontwright.core.assumed import assumed
from frontwright.core.figures import Figure, plus, total
from frontwright.core.job import Piece, SupplierSize
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import INCH, UNITS_IN, ZERO, Length, up
from frontwright.core.stock.candidates import Judge, size, trims_of
from frontwright.core.stock.fitting import MOST_BOUGHT
from frontwright.core.stock.leaves_at_hand import Leaves, leaves_from, longer
from frontwright.core.stock.result import Buy, Candidate, Fit, Fitted, Group, Offer, Place, Trims, Want

SOLD_AS = {"board": ("board",), "sheet": ("sheet", "panel"), "core": ("core",), "leaf": ("billet", "board")}


@dataclass(frozen=True, slots=True)
class Sold:
    """A size that is sold, with its figures; `row` None where none is entered and the usual one is reckoned with."""

    id: str
    row: SupplierSize | None
    length: Figure
    width: Figure
    thickness: Figure
    trims: Trims
    each: Fraction | None
    content: Fraction

    def offer(self) -> Offer:
        return Offer(self.id, self.length.length, self.width.length, None, self.trims, cost=self.each)


def content_of(index: JobIndex, form: str, length: Length, width: Length, thickness: Length) -> Fraction:
    """Board feet or m3 of solid wood, square feet or m2 of sheets (F47)."""
    solid = form in ("board", "billet", "leaf", "strip", "solid panel")
    if index.unit == "in":
        inch = UNITS_IN["in"]
        face = Fraction(length.units * width.units, 144 * inch**2)
        return face * Fraction(thickness.units, inch) if solid else face
    metre = UNITS_IN["mm"] * 1000
    face = Fraction(length.units * width.units, metre**2)
    return face * Fraction(thickness.units, metre) if solid else face


def area(index: JobIndex, width: Length, length: Length) -> Fraction:
    """Square feet (an inch job) or square metres of a face."""
    return content_of(index, "sheet", length, width, Length(1))


def counted_thickness(index: JobIndex, form: str, row: SupplierSize, thickness: Length) -> Length:
    """Bought by the board foot the rough thickness counts, planed or not; under one inch it counts as one (F47)."""
    if index.unit != "in" or form not in ("board", "billet"):
        return thickness
    return nominal(thickness) if row.planed else max(INCH, thickness)


def nominal(planed: Length) -> Length:
    """The rough quarter that stock planed on both faces came from: 13/16 from 4/4, 1 3/4 from 8/4 (S11).

    Planing takes a sixteenth at least, and a quarter from 1 1/2 in up.
    """
    quarter = Length.inch("1/4")
    taken = quarter if planed >= Length.inch("3/2") else Length.inch("1/16")
    return max(INCH, up(planed + taken, quarter))


def price_of(index: JobIndex, row: SupplierSize, length: Length, width: Length, thickness: Length) -> Fraction | None:
    """What one costs, in the smallest unit of money; None without a price."""
    if row.price is None or row.price.value is None:
        return None
    cents = row.price.value * 100
    if row.per == "piece":
        return cents / max(1, row.pack)
    return cents * content_of(index, row.form, length, width, counted_thickness(index, row.form, row, thickness))


def sizes_for(judge: Judge, group: Group) -> list[Sold]:
    """Sizes of the right kind, wood and thickness, the thinnest that serve; the usual one where none is entered."""
    index = judge.index
    forms = SOLD_AS.get(group.form, (group.form,))
    rows = [r for r in index.job.supplier_sizes.values() if r.form in forms and judge.same_wood(group, r.species)]
    found = [sold for row in rows if (sold := _sold(judge, group, row)) is not None]
    return found or [_usual(judge, group)]


def _sold(judge: Judge, group: Group, row: SupplierSize) -> Sold | None:
    index = judge.index
    length, width, thick = size(row.length), size(row.width), size(row.thickness)
    if length is None or width is None or thick is None or not judge.thick_enough(group, thick, planed=row.planed):
        return None
    counted = counted_thickness(index, row.form, row, thick)
    return Sold(
        id=row.id,
        row=row,
        length=Figure("length", length, "chosen"),
        width=Figure("width", width, "chosen"),
        thickness=Figure("thickness", thick, "chosen"),
        trims=trims_of(row.end_trim, row.edge_trim),
        each=price_of(index, row, length, width, thick),
        content=content_of(index, row.form, length, width, counted),
    )


def _usual(judge: Judge, group: Group) -> Sold:
    """What is usually sold: a rough board, a sheet, a billet."""
    unit = judge.index.unit
    if group.form == "leaf":
        thick, wide = assumed(unit, "billet thickness"), assumed(unit, "billet width")
        widest = max((w.width for w in group.wants), default=ZERO)
        wide = wide if wide.length >= widest else Figure("width of the billet to buy", widest)
        long, trims = assumed(unit, "buy board length"), _board_trims(judge.index)
        need = max(map(longer(judge.index), (w.length for w in group.wants))) + trims[0] + trims[1]
        long = long if long.length >= need else Figure("length of the billet to buy", need)
    elif group.cut == "boards":
        thick = assumed(unit, "buy board thickness")
        if not judge.thick_enough(group, thick.length, planed=False):
            thick = total("thickness of the board to buy", plus(group.thickness), plus(judge.rough))
        long, wide = assumed(unit, "buy board length"), assumed(unit, "buy board width")
        trims = _board_trims(judge.index)
    else:
        thick, long, wide = group.thickness, assumed(unit, "buy sheet length"), assumed(unit, "buy sheet width")
        edge = assumed(unit, "sheet trim").length
        trims = edge, edge, edge, edge
    form = "board" if group.cut != "sheets" else "sheet"
    return Sold(
        "", None, long, wide, thick, trims, None, content_of(judge.index, form, long.length, wide.length, thick.length)
    )


def _board_trims(index: JobIndex) -> Trims:
    end = assumed(index.unit, "end trim").length
    left = Length(end.units // 2)
    return left, end - left, ZERO, ZERO


def least_purchase(judge: Judge, group: Group, missing: Mapping[str, int], fit: Fit) -> tuple[Buy, ...]:
    """The cheapest way to buy for what is missing (the least content where prices are not known): each size is tried
    as the first one, what does not fit on it goes on the next; and one of it less, the last parts on a smaller one."""
    wants = [replace(w, made=w.copies - missing[w.id]) for w in group.wants if missing.get(w.id)]
    sizes = sizes_for(judge, group)
    if group.cut == "billets":
        return tuple(_billets(judge, group, wants, sizes))
    tried = _tried(group, wants, sizes, fit)
    counts, fitted = min(tried, key=lambda one: (one[1].lacking, *_weight(one[0])))
    return tuple(_buy(group, one, count, fitted) for one, count in counts)


type _Counts = list[tuple[Sold, int]]


def _tried(group: Group, wants: Sequence[Want], sizes: Sequence[Sold], fit: Fit) -> Iterator[tuple[_Counts, Fitted]]:
    for one in sizes:
        others = [s for s in sizes if s is not one]
        counts, fitted = _bought(group, wants, [one, *others], fit)
        yield counts, fitted
        many = next((count for sold, count in counts if sold is one), 0)
        for less in others if many > 1 else ():
            if _weight([(less, 1)]) < _weight([(one, 1)]):
                order = [less, *(s for s in others if s is not less)]
                yield _bought(group, wants, [one, *order], fit, most=many - 1)


def _bought(
    group: Group, wants: Sequence[Want], sizes: Sequence[Sold], fit: Fit, most: int | None = None
) -> tuple[_Counts, Fitted]:
    """`most`: so many of the first size at most."""
    left = list(wants)
    counts: _Counts = []
    places: list[Place] = []
    for one in sizes:
        if not left:
            break
        limited = most is not None and one is sizes[0]
        fitted = fit(group, left, [replace(one.offer(), copies=most) if limited else one.offer()])
        if used := sum(fitted.used.values()):
            counts.append((one, used))
            places += fitted.places
        left = [replace(w, made=w.copies - fitted.missing[w.id]) for w in left if fitted.missing.get(w.id)]
    return counts, Fitted(tuple(places), {w.id: w.open for w in left})


def _weight(counts: _Counts) -> tuple[int, Fraction, Fraction]:
    """Prices first where every size has one, else content."""
    content = sum((sold.content * count for sold, count in counts), Fraction(0))
    if any(sold.each is None for sold, _ in counts):
        return 1, content, Fraction(0)
    return 0, sum(((sold.each or Fraction(0)) * count for sold, count in counts), Fraction(0)), content


def _buy(group: Group, sold: Sold, count: int, fitted: Fitted) -> Buy:
    on = {place.want for place in fitted.places if place.offer == sold.id}
    parts = tuple(w.id for w in group.wants if w.id in on)
    return buy_of(group, sold, count, parts)


def buy_of(group: Group, sold: Sold, count: int, parts: tuple[str, ...] = ()) -> Buy:
    """So many of a size bought for these parts of a group."""
    row = sold.row
    form = row.form if row is not None else {"boards": "board", "billets": "billet", "sheets": group.form}[group.cut]
    return Buy(
        size=sold.id,
        supplier=row.supplier if row is not None else "",
        form=form,
        species=group.species,
        length=sold.length,
        width=sold.width,
        thickness=sold.thickness,
        count=count,
        content=sold.content * count,
        cost=None if sold.each is None else sold.each * count,
        days=row.days if row is not None else None,
        parts=parts,
    )


def _billets(judge: Judge, group: Group, wants: Sequence[Want], sizes: Sequence[Sold]) -> Iterator[Buy]:
    """Boards thick enough to be sawn, crosscut into billets, the longest leaves first; the cheapest of the sizes."""
    tried = [(sold, _crosscut(judge, group, wants, sold)) for sold in sizes]
    sold, leaves = min(tried, key=lambda one: (one[1].lacking, *_weight([(one[0], one[1].copies)])))
    if leaves.copies:
        served = {want for billet in leaves.billets for want, _ in billet.gives}
        yield buy_of(group, sold, leaves.copies, tuple(w.id for w in wants if w.id in served))


def _crosscut(judge: Judge, group: Group, wants: Sequence[Want], sold: Sold) -> Leaves:
    """Leaves from as many of one size as it takes; what is bought in one go is of one batch."""
    bought = Piece(sold.id or "bought", "billet", batch="bought")
    length, width = sold.offer().usable
    count, _ = judge.sawn.leaves(sold.thickness.length)
    offer = replace(sold.offer(), copies=MOST_BOUGHT)
    return leaves_from(
        group, wants, [(Candidate(bought, length, width, (), count, count), offer)], longer(judge.index), rests=False
    )
