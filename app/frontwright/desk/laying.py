"""What is to be laid, as orders for the cutting room.

Layouts that stay are left out with their pieces and parts: those with a cut made, those that a person keeps, and,
unless all is laid anew, those that hold. A part that was placed by hand stays where it is, and the rest is laid round
it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import gcd

from frontwright.core.job import LaidPart
from frontwright.core.lengths import INCH, MM, Length, Unit
from frontwright.core.plan import Plan
from frontwright.core.stock.candidates import Judge, Wood, wood_of
from frontwright.core.stock.purchase import sizes_for
from frontwright.core.stock.result import Group, LaidOut, LayoutPlan, Offer, Want
from frontwright.cutting.values import Order, Pinned, Placed, Rect, Saw, Stock, Wanted
from frontwright.cutting.values import Plan as CutPlan

SHEET_LEVELS = 4  # turns of the cut on sheets that a shop still follows
BOARD_LEVELS = 3  # ripped, crosscut, and a narrow part ripped once more
LARGEST = 2_000_000  # whole numbers up to which a search is quick
MOST_FREE = 40  # free pieces of the rack that are tried for a group
SHARE = 10  # of free pieces that serve as well the smaller is taken: their faces count by a tenth beside what is bought
FACE = (10 * MM.units) ** 2  # a square centimetre
FINE: dict[Unit, Length] = {"in": Length(INCH.units // 128), "mm": Length(MM.units // 20)}


@dataclass(frozen=True, slots=True)
class Source:
    """What a stock of an order is: a piece of the job, or a size that is bought (`size` empty: the usual one).

    `free`: the piece is nobody's yet, and the job has it once something is laid on it.
    """

    offer: Offer
    piece: str | None
    size: str | None
    free: bool = False


@dataclass(frozen=True, slots=True)
class ToLay:
    """A group as an order. `grid`: how much a whole number of the order is; `sources` and `wants` by its positions.

    `numbers`: which copies of each part are asked for; `gone`: layouts that make room for the new ones; `whole`: no
    other layout of the group stays.
    """

    group: Group
    order: Order
    grid: Length
    sources: tuple[Source, ...]
    wants: tuple[Want, ...]
    numbers: tuple[tuple[int, ...], ...]
    pinned: tuple[tuple[LaidPart, Placed], ...]
    gone: tuple[str, ...]
    whole: bool = True

    def without(self, used: Mapping[str, int]) -> ToLay:
        """The order without so many of these pieces, which others have taken meanwhile."""
        pinned = {pin.stock for pin in self.order.pinned}
        left: list[tuple[Stock, Source]] = []
        for stock, source in zip(self.order.stock, self.sources, strict=True):
            count = used.get(source.piece or "", 0) if stock.id not in pinned else 0
            copies = None if stock.copies is None else stock.copies - count
            if copies is None or copies > 0:
                left.append((replace(stock, copies=copies), source))
        order = replace(self.order, stock=tuple(stock for stock, _ in left))
        return replace(self, order=order, sources=tuple(source for _, source in left))


def may_be_laid(group: Group) -> bool:
    """Leaves are sawn, not laid; everything else is."""
    return group.cut != "billets"


def stays(layout: LayoutPlan, *, anew: bool) -> bool:
    """Whether a layout is left as it is."""
    return bool(layout.cuts) or layout.laid.pinned or (not anew and layout.valid)


def to_lay(plan: Plan, *, anew: bool = False, only: str = "", free: Wood | None = None) -> tuple[ToLay, ...]:
    """The orders of a plan, of one group where `only` names it; nothing where everything is laid.

    `free`: pieces of the rack that are nobody's; those that serve are laid on before anything is bought.
    """
    index = plan.index
    judges = Judge(index, wood_of(index)), Judge(index, free if free is not None else Wood(()))
    found = [
        _order(plan, judges, group, anew=anew)
        for group in plan.stock.groups
        if may_be_laid(group) and only in ("", group.id)
    ]
    return tuple(one for one in found if one is not None)


def _order(plan: Plan, judges: tuple[Judge, Judge], group: Group, *, anew: bool) -> ToLay | None:
    layouts = [one for one in plan.stock.layouts if one.group == group.id]
    kept = [one for one in layouts if stays(one, anew=anew)]
    gone = [one for one in layouts if not stays(one, anew=anew)]
    asked = list(_asked(group, kept))
    sources = [*_sources(plan, judges[0], group, {one.id for one in gone}), *_free_sources(judges[1], group)]
    if not asked or not sources:
        return None
    wants, numbers = tuple(want for want, _ in asked), tuple(numbers for _, numbers in asked)
    rows = {row.id: row for row in plan.job.laid_parts.values()}
    held = [(rows[part.row], part, one) for one in gone for part in one.parts if part.pinned and part.row in rows]
    grid = grid_of(plan.display.unit, group, wants, [source.offer for source in sources], [part for _, part, _ in held])
    pins = tuple(_pins(held, sources, wants, grid))
    priced = all(source.offer.cost is not None for source in sources if source.piece is None)
    order = Order(
        wanted=tuple(_wanted(want, len(n), grid) for want, n in zip(wants, numbers, strict=True)),
        stock=tuple(_stock(source, grid, priced=priced) for source in sources),
        saw=Saw(
            -(-group.kerf.units // grid.units),
            *(("along", BOARD_LEVELS) if group.cut == "boards" else (None, SHEET_LEVELS)),
        ),
        pinned=tuple(pin for _, _, pin in pins),
    )
    placed = tuple((row, at) for row, at, _ in pins)
    whole = not any(one.parts for one in kept)
    return ToLay(group, order, grid, tuple(sources), wants, numbers, placed, tuple(one.id for one in gone), whole)


def _asked(group: Group, kept: Sequence[LayoutPlan]) -> Iterator[tuple[Want, tuple[int, ...]]]:
    """The parts of a group with the numbers of the copies that lie nowhere yet and are not cut."""
    lying: dict[str, set[int]] = {}
    for layout in kept:
        for part in layout.parts:
            lying.setdefault(part.part, set()).add(part.number)
    for want in group.wants:
        there = lying.get(want.id, set())
        free = [number for number in range(1, want.copies + 1) if number not in there]
        made_elsewhere = max(0, want.made - len(there))  # measured as built, or cut before anything was laid
        if numbers := tuple(free[made_elsewhere:]):
            yield want, numbers


def _sources(plan: Plan, judge: Judge, group: Group, gone: set[str]) -> Iterator[Source]:
    """The job's own pieces that serve, without those on which something stays laid; then what can be bought."""
    taken: dict[str, int] = {}
    for layout in plan.stock.layouts:
        if layout.laid.piece and layout.id not in gone:
            taken[layout.laid.piece] = taken.get(layout.laid.piece, 0) + 1
    for candidate in judge.candidates(group):
        piece = candidate.piece
        if group.on_leaves and piece.form not in ("leaf", "strip"):
            continue
        left = piece.count - taken.get(piece.id, 0)
        only_lot = {one.kind for one in candidate.refusals} <= {"batch"}
        if only_lot and left > 0:
            offer = judge.offer(candidate)
            yield Source(_copies(offer, left), piece.id, None)
    if not group.on_leaves:
        for sold in sizes_for(judge, group):
            yield Source(sold.offer(), None, sold.id)


def _free_sources(judge: Judge, group: Group) -> Iterator[Source]:
    """Free pieces that serve, leftovers before whole ones, the smaller before the larger."""
    if group.on_leaves:
        return
    able = [one for one in judge.candidates(group) if one.fits]
    able.sort(key=lambda one: (not one.piece.from_piece, one.length.units * one.width.units, one.piece.id))
    for one in able[:MOST_FREE]:
        yield Source(judge.offer(one), one.piece.id, None, free=True)


def _copies(offer: Offer, count: int) -> Offer:
    return Offer(offer.id, offer.length, offer.width, count, offer.trims, offer.defects, offer.batch, offer.shows)


# -- whole numbers


def grid_of(
    unit: Unit, group: Group, wants: Iterable[Want], offers: Iterable[Offer], held: Iterable[LaidOut] = ()
) -> Length:
    """The largest length of which every size is a multiple; a fine step where that is too small to search quickly.

    On a step parts and kerf are taken a little larger, pieces a little smaller, so that what is laid can be cut.
    """
    offers = list(offers)
    sizes = [group.kerf.units, *(side.units for want in wants for side in (want.length, want.width))]
    for offer in offers:
        sizes += [offer.length.units, offer.width.units, *(trim.units for trim in offer.trims)]
        sizes += [s.units for bad in offer.defects for s in (bad.along, bad.across, bad.length, bad.width)]
    sizes += [s.units for part in held for s in (part.along, part.across)]
    common = gcd(*sizes) or 1
    longest = max((offer.length.units for offer in offers), default=1)
    return Length(common) if longest // common <= LARGEST else FINE[unit]


def up(length: Length, grid: Length) -> int:
    """A length in whole numbers of the order, rounded up."""
    return -(-length.units // grid.units)


def _wanted(want: Want, copies: int, grid: Length) -> Wanted:
    """Seen parts want the best face; parts of one lot are kept together."""
    grade = 1 if want.seen == "show" else 0
    return Wanted(want.id, up(want.length, grid), up(want.width, grid), copies, want.turns, want.lot, grade)


def _stock(source: Source, grid: Length, *, priced: bool) -> Stock:
    """A piece is a batch of its own unless one is named; sheets and boards bought in one go are one lot.

    Where not every size has a price, their faces stand for it.
    """
    offer = source.offer
    left, right, low, high = (up(trim, grid) for trim in offer.trims)
    face = offer.length.units * offer.width.units // FACE
    cost = round(offer.cost) if priced and offer.cost is not None else face
    return Stock(
        id=_name(source),
        width=offer.length.units // grid.units,
        height=offer.width.units // grid.units,
        copies=offer.copies,
        cost=cost if source.piece is None else face // SHARE if source.free else 0,
        trims=(left, right, low, high),
        defects=tuple(_bad(bad.along, bad.across, bad.length, bad.width, grid) for bad in offer.defects),
        batch=offer.batch if source.piece is not None else f"bought {source.size}",
        grade=1 if offer.shows else 2,
        have=source.piece is not None,
        shared=source.free,
    )


def _name(source: Source) -> str:
    return source.piece or f"new {source.size}".strip()


def _bad(along: Length, across: Length, length: Length, width: Length, grid: Length) -> Rect:
    x, y = along.units // grid.units, across.units // grid.units
    return Rect(x, y, up(along + length, grid) - x, up(across + width, grid) - y)


def _pins(
    held: Sequence[tuple[LaidPart, LaidOut, LayoutPlan]], sources: Sequence[Source], wants: Sequence[Want], grid: Length
) -> Iterator[tuple[LaidPart, Placed, Pinned]]:
    """Parts that a person placed, each layout a piece of its own."""
    pieces: dict[tuple[int, str], int] = {}
    count: dict[int, int] = {}
    for row, part, layout in held:
        at = next(
            (
                n
                for n, s in enumerate(sources)
                if s.piece == layout.laid.piece and (s.piece is not None or (s.size or "") == (layout.laid.size or ""))
            ),
            None,
        )
        item = next((n for n, want in enumerate(wants) if want.id == part.part), None)
        if at is None or item is None:
            continue
        if (at, layout.id) not in pieces:
            pieces[at, layout.id] = count.get(at, 0)
            count[at] = count.get(at, 0) + 1
        long, wide = up(wants[item].length, grid), up(wants[item].width, grid)
        if part.turned:
            long, wide = wide, long
        place = Rect(part.along.units // grid.units, part.across.units // grid.units, long, wide)
        placed = Placed(item, place.x, place.y, place.width, place.height)
        yield row, placed, Pinned(_name(sources[at]), pieces[at, layout.id], wants[item].id, place)


def at_least(one: ToLay, plan: CutPlan | None = None) -> int:
    """A number of pieces below which the parts of an order cannot be laid; what a search found out counts too.

    Where a plan is the best there can be, that is its own number, though larger pieces that are bought could do with
    fewer.
    """
    from frontwright.cutting.search.bounds import Kind, least_pieces
    from frontwright.cutting.search.settled import Least

    if plan is not None and Least(one.order).settles(plan, plan.bound):
        return plan.cost
    order, kerf = one.order, one.order.saw.kerf
    trims = [(s, s.trims) for s in order.stock]
    width = max((s.width - t[0] - t[1] for s, t in trims), default=0)
    height = max((s.height - t[2] - t[3] for s, t in trims), default=0)
    if width <= 0 or height <= 0:
        return 0
    kinds = [Kind(w.width + kerf, w.height + kerf, w.copies, w.turns) for w in order.wanted]
    known = plan.bound if plan is not None and plan.bound is not None else 0
    return max(known, least_pieces(kinds, width + kerf, height + kerf))
