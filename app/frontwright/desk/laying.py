"""What is to be laid, as orders for the cutting room; and its plans as rows of the job.

Layouts that stay are left out with their pieces and parts: those with a cut made, those that a person keeps, and,
unless all is laid anew, those that hold. A part that was placed by hand stays where it is, and the rest is laid round
it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import gcd

from frontwright.core.job import Job, Laid, LaidPart
from frontwright.core.lengths import INCH, MM, Length, Unit, typed_length
from frontwright.core.plan import Plan
from frontwright.core.stock.candidates import Judge, wood_of
from frontwright.core.stock.purchase import sizes_for
from frontwright.core.stock.result import Group, LaidOut, LayoutPlan, Offer, Want
from frontwright.cutting.values import Layout, Order, Pinned, Placed, Rect, Saw, Stock, Wanted
from frontwright.cutting.values import Plan as CutPlan
from frontwright.desk.edits.rows import without

SHEET_LEVELS = 4  # turns of the cut on sheets that a shop still follows
BOARD_LEVELS = 3  # ripped, crosscut, and a narrow part ripped once more
LARGEST = 2_000_000  # whole numbers up to which a search is quick
FACE = (10 * MM.units) ** 2  # a square centimetre
FINE: dict[Unit, Length] = {"in": Length(INCH.units // 128), "mm": Length(MM.units // 20)}


@dataclass(frozen=True, slots=True)
class Source:
    """What a stock of an order is: a piece of the job, or a size that is bought (`size` empty: the usual one)."""

    offer: Offer
    piece: str | None
    size: str | None


@dataclass(frozen=True, slots=True)
class ToLay:
    """A group as an order. `grid`: how much a whole number of the order is; `sources` and `wants` by its positions.

    `numbers`: which copies of each part are asked for; `gone`: layouts that make room for the new ones.
    """

    group: Group
    order: Order
    grid: Length
    sources: tuple[Source, ...]
    wants: tuple[Want, ...]
    numbers: tuple[tuple[int, ...], ...]
    pinned: tuple[tuple[LaidPart, Placed], ...]
    gone: tuple[str, ...]


def may_be_laid(group: Group) -> bool:
    """Leaves are sawn, not laid; everything else is."""
    return group.cut != "billets"


def stays(layout: LayoutPlan, *, anew: bool) -> bool:
    """Whether a layout is left as it is."""
    return bool(layout.cuts) or layout.laid.pinned or (not anew and layout.valid)


def to_lay(plan: Plan, *, anew: bool = False, only: str = "") -> tuple[ToLay, ...]:
    """The orders of a plan, of one group where `only` names it; nothing where everything is laid."""
    index = plan.index
    judge = Judge(index, wood_of(index))
    found = [
        _order(plan, judge, group, anew=anew)
        for group in plan.stock.groups
        if may_be_laid(group) and only in ("", group.id)
    ]
    return tuple(one for one in found if one is not None)


def _order(plan: Plan, judge: Judge, group: Group, *, anew: bool) -> ToLay | None:
    layouts = [one for one in plan.stock.layouts if one.group == group.id]
    kept = [one for one in layouts if stays(one, anew=anew)]
    gone = [one for one in layouts if not stays(one, anew=anew)]
    asked = list(_asked(group, kept))
    sources = list(_sources(plan, judge, group, {one.id for one in gone}))
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
    return ToLay(group, order, grid, tuple(sources), wants, numbers, placed, tuple(one.id for one in gone))


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


def _up(length: Length, grid: Length) -> int:
    return -(-length.units // grid.units)


def _wanted(want: Want, copies: int, grid: Length) -> Wanted:
    """Seen parts want the best face; parts of one lot are kept together."""
    grade = 1 if want.seen == "show" else 0
    return Wanted(want.id, _up(want.length, grid), _up(want.width, grid), copies, want.turns, want.lot, grade)


def _stock(source: Source, grid: Length, *, priced: bool) -> Stock:
    """A piece is a batch of its own unless one is named; sheets and boards bought in one go are one lot.

    Where not every size has a price, their faces stand for it.
    """
    offer = source.offer
    left, right, low, high = (_up(trim, grid) for trim in offer.trims)
    face = offer.length.units * offer.width.units // FACE
    cost = round(offer.cost) if priced and offer.cost is not None else face
    return Stock(
        id=_name(source),
        width=offer.length.units // grid.units,
        height=offer.width.units // grid.units,
        copies=offer.copies,
        cost=cost if source.piece is None else 0,
        trims=(left, right, low, high),
        defects=tuple(_bad(bad.along, bad.across, bad.length, bad.width, grid) for bad in offer.defects),
        batch=offer.batch if source.piece is not None else f"bought {source.size}",
        grade=1 if offer.shows else 2,
        have=source.piece is not None,
    )


def _name(source: Source) -> str:
    return source.piece or f"new {source.size}".strip()


def _bad(along: Length, across: Length, length: Length, width: Length, grid: Length) -> Rect:
    x, y = along.units // grid.units, across.units // grid.units
    return Rect(x, y, _up(along + length, grid) - x, _up(across + width, grid) - y)


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
        long, wide = _up(wants[item].length, grid), _up(wants[item].width, grid)
        if part.turned:
            long, wide = wide, long
        place = Rect(part.along.units // grid.units, part.across.units // grid.units, long, wide)
        placed = Placed(item, place.x, place.y, place.width, place.height)
        yield row, placed, Pinned(_name(sources[at]), pieces[at, layout.id], wants[item].id, place)


# -- a plan as rows


@dataclass(frozen=True, slots=True)
class NewRows:
    """Layouts of a plan, ready to be put in the job."""

    laid: tuple[Laid, ...]
    parts: tuple[LaidPart, ...]


def with_plans(job: Job, laid: Sequence[tuple[ToLay, CutPlan]]) -> Job:
    """The job with these plans in place of the layouts that make room for them."""
    for one, _ in laid:
        job = without(job, "laid", *one.gone)
    for one, plan in laid:
        rows = _rows(job, one, plan)
        job = job.put(*rows.laid, *rows.parts)
    return job


def _rows(job: Job, one: ToLay, plan: CutPlan) -> NewRows:
    unit = job.heading.unit
    left = [list(numbers) for numbers in one.numbers]
    pinned = _numbers_of_pins(one, left)
    place = max((row.place for row in job.laid.values()), default=-1) + 1
    names = _Names(job)
    laid: list[Laid] = []
    parts: list[LaidPart] = []
    for layout in sorted(plan.layouts, key=lambda one: one.stock):
        source = one.sources[layout.stock]
        for _ in range(layout.copies):
            name = names.next(one.group, source)
            kerf = typed_length(one.group.kerf, unit)
            laid.append(Laid(name, source.piece, source.size or None, place + len(laid), one.group.id, kerf))
            parts += _parts(one, layout, name, left, pinned, unit)
    return NewRows(tuple(laid), tuple(parts))


def _numbers_of_pins(one: ToLay, left: list[list[int]]) -> dict[Placed, list[LaidPart]]:
    """Placed parts keep their numbers; these are not given to others."""
    found: dict[Placed, list[LaidPart]] = {}
    for row, placed in one.pinned:
        if row.number in left[placed.item]:
            left[placed.item].remove(row.number)
        found.setdefault(placed, []).append(row)
    return found


def _parts(
    one: ToLay, layout: Layout, name: str, left: list[list[int]], pinned: dict[Placed, list[LaidPart]], unit: Unit
) -> Iterator[LaidPart]:
    for placed in sorted(layout.placed, key=lambda p: (p.x, p.y)):
        want = one.wants[placed.item]
        held = pinned.get(placed)
        row = held.pop(0) if held else None
        number = row.number if row is not None else left[placed.item].pop(0)
        turned = placed.width != _up(want.length, one.grid) or placed.height != _up(want.width, one.grid)
        yield LaidPart(
            id=f"{want.id} {number}" if want.copies > 1 else want.id,
            laid=name,
            part=want.id,
            number=number,
            along=typed_length(Length(placed.x * one.grid.units), unit),
            across=typed_length(Length(placed.y * one.grid.units), unit),
            length=typed_length(want.length, unit),
            width=typed_length(want.width, unit),
            turned=turned,
            pinned=row is not None,
        )


class _Names:
    """Names of layouts on paper: the piece's own, else "sheet 1", "board 1", counted on."""

    def __init__(self, job: Job) -> None:
        self._taken = set(job.laid)

    def next(self, group: Group, source: Source) -> str:
        word = {"sheets": "core" if group.form == "core" else "sheet"}.get(group.cut, "board")
        if source.piece is not None and source.piece not in self._taken:
            name = source.piece
        else:
            stem = word if source.piece is None else source.piece
            name = next(n for n in (f"{stem} {k}" for k in range(1, 10_000)) if n not in self._taken)
        self._taken.add(name)
        return name


def at_least(one: ToLay, plan: CutPlan | None = None) -> int:
    """A number of pieces below which the parts of an order cannot be laid; what a search found out counts too."""
    from frontwright.cutting.search.bounds import Kind, least_pieces

    order, kerf = one.order, one.order.saw.kerf
    trims = [(s, s.trims) for s in order.stock]
    width = max((s.width - t[0] - t[1] for s, t in trims), default=0)
    height = max((s.height - t[2] - t[3] for s, t in trims), default=0)
    if width <= 0 or height <= 0:
        return 0
    kinds = [Kind(w.width + kerf, w.height + kerf, w.copies, w.turns) for w in order.wanted]
    known = plan.bound if plan is not None and plan.bound is not None else 0
    return max(known, least_pieces(kinds, width + kerf, height + kerf))
