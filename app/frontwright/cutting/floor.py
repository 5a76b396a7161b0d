"""A plan at once: parts laid one by one where they fit best, and in shelves. What every search must not fall below."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice

from frontwright.cutting.checker import first_fault, split
from frontwright.cutting.counting import batch_of, better, fits, is_mixed, overlap, plan_of, serves, usable, ways
from frontwright.cutting.values import Direction, Layout, Order, Pinned, Placed, Plan, Rect, Stock, Wanted

_MANY = 1_500  # parts; from there on one way to lay is all
_FEW = 100  # parts; up to there a plan with less allowed is tried too
_LITTLE = 6_000  # parts times stock pieces, up to which every last piece is done without in turn
_OPEN, _OPEN_OF_MANY = 25, 4  # begun pieces looked at for a part, the last ones


def floor_plan(order: Order) -> Plan:
    """The best of a few plans laid without search (of many parts, one); what finds no place is missing.

    Few parts are laid with less allowed too: with nothing turned, and without the last stock pieces. So what is laid
    for an order is among what is laid for it with one more piece behind the others, or once all may turn where nothing
    could: neither makes the plan worse. Where only some parts could turn before, that is likely and no more.
    """
    best: Plan | None = None
    for laid in _all_laid(order):
        plan = plan_of(order, laid.layouts)
        if (best is None or better(order, plan, best)) and first_fault(order, plan) is None:
            best = plan
    return best or plan_of(order, _pinned_layouts(order))


def _all_laid(order: Order) -> Iterator[Plan]:
    """Plans of the order and of narrower ones."""
    count = sum(wanted.copies for wanted in order.wanted)
    chain = count <= _FEW and count * len(order.stock) <= _LITTLE
    both = dict.fromkeys((order, _straight(order) if count <= _FEW else order))
    for asked in (each for one in both for each in (one, *_of_fewer_tiers(one))):
        for sequence, shelf in islice(_manners(asked), 1 if count > _MANY else None):
            yield from _without_last(asked, sequence, shelf) if chain else (_Laying(asked, sequence, shelf).plan(),)


def _without_last(order: Order, sequence: Sequence[int], shelf: Direction | None) -> Iterator[Plan]:
    """Laid from all stock, then without the last stock it used and all behind, again and again."""
    needed = max((n for n, s in enumerate(order.stock) if any(p.stock == s.id for p in order.pinned)), default=0)
    while True:
        plan = _Laying(order, sequence, shelf).plan()
        yield plan
        last = max((layout.stock for layout in plan.layouts), default=0)
        if last <= needed:
            return
        order = replace(order, stock=order.stock[:last])


def _straight(order: Order) -> Order:
    """The order with nothing turned but what is pinned so."""
    return replace(order, wanted=tuple(replace(wanted, turns=False) for wanted in order.wanted))


def _of_fewer_tiers(order: Order) -> tuple[Order, ...]:
    """Where some stock goes before other: the order without what is shared, and with what is bought alone.

    A group that must come from one batch may find it there only, and what is shared never makes a plan worse.
    """
    if not is_mixed(order):
        return ()
    pinned = {pin.stock for pin in order.pinned}
    dropped = ({1}, {0, 1})
    found = (
        replace(
            order,
            stock=tuple(replace(s, copies=0) if s.tier in tiers and s.id not in pinned else s for s in order.stock),
        )
        for tiers in dropped
    )
    return tuple(one for one in found if one != order)


def _manners(order: Order) -> Iterator[tuple[tuple[int, ...], Direction | None]]:
    """In which sequence, and in shelves that run how."""
    for sequence in dict.fromkeys(tuple(_in_order(order, key)) for key in (_by_area, _by_height, _by_width)):
        if order.saw.levels is None or order.saw.levels > 4:
            yield sequence, None
        for first in (order.saw.first,) if order.saw.first else _BOTH:
            yield sequence, first


_BOTH: tuple[Direction, ...] = ("along", "across")


def _by_area(wanted: Wanted) -> tuple[int, ...]:
    return (-wanted.width * wanted.height, -max(wanted.width, wanted.height))


def _by_height(wanted: Wanted) -> tuple[int, ...]:
    return (-wanted.height, -wanted.width)


def _by_width(wanted: Wanted) -> tuple[int, ...]:
    return (-wanted.width, -wanted.height)


def _in_order(order: Order, key: Callable[[Wanted], tuple[int, ...]]) -> list[int]:
    """Positions of the parts in the order in which they are laid: groups and choosy parts first."""

    def rank(n: int) -> tuple[object, ...]:
        wanted = order.wanted[n]
        worth = -wanted.value / (wanted.width * wanted.height) if order.wish == "most value" else 0.0
        return (worth, not wanted.group, wanted.grade or 99, key(wanted), n)

    return sorted(range(len(order.wanted)), key=rank)


@dataclass(slots=True)
class _Piece:
    """A begun piece, or one of its rests beside pins: what lies on it, its free rectangles, of shelves in order."""

    stock: int
    placed: list[Placed]
    free: list[Rect]
    rows: int = 0


@dataclass(slots=True)
class _Laying:
    """One way to lay: `shelf`: in shelves that run so, else anywhere edge to edge."""

    order: Order
    sequence: Sequence[int]
    shelf: Direction | None = None
    pieces: list[_Piece] = field(default_factory=list)
    used: dict[int, int] = field(default_factory=dict)
    batches: dict[str, str] = field(default_factory=dict)
    smallest: int = 0
    open: int = _OPEN

    def plan(self) -> Plan:
        left = [wanted.copies for wanted in self.order.wanted]
        self.open = _OPEN if sum(left) <= _MANY else _OPEN_OF_MANY
        self.smallest = min(min(w.width, w.height) for w in self.order.wanted)
        for stock, placed in _pinned_pieces(self.order):
            free = list(_around(placed, usable(self.order.stock[stock]), self.order.saw.kerf))
            areas = [[rect] for rect in free] if self.shelf else [free]  # shelves begin anew in each rest of the piece
            self.pieces += [_Piece(stock, placed, area) for area in areas or [[]]]
            self.used[stock] = self.used.get(stock, 0) + 1
            for part in placed:
                left[part.item] -= 1
                self._bind(part.item, stock)
        for item in self.sequence:
            while left[item] > 0 and self._lay(item):
                left[item] -= 1
        whole = {id(piece.placed): piece for piece in self.pieces if piece.placed}.values()
        return plan_of(self.order, (Layout(piece.stock, tuple(piece.placed)) for piece in whole))

    def _lay(self, item: int) -> bool:
        wanted = self.order.wanted[item]
        places = [one for piece in self.pieces[-self.open :] for one in self._places(piece, wanted)]
        if not places and self._begin(wanted):
            places = list(self._places(self.pieces[-1], wanted))
        if not places:
            return False
        _, piece, at, size = min(places, key=lambda one: one[0])
        self._put(piece, at, item, size)
        self._bind(item, piece.stock)
        return True

    def _places(self, piece: _Piece, wanted: Wanted) -> Iterator[tuple[tuple[int, ...], _Piece, int, tuple[int, int]]]:
        """Where a part fits on a begun piece, with how well: the least height, or the tightest rectangle."""
        stock = self.order.stock[piece.stock]
        if not serves(stock, wanted) or not self._may_take(wanted, piece.stock):
            return
        for at, rect in enumerate(piece.free):
            for width, height in ways(wanted):
                if width > rect.width or height > rect.height:
                    continue
                tight = min(rect.width - width, rect.height - height)
                fit = (tight, rect.width * rect.height) if self.shelf is None else (at, tight)
                yield ((rect.y + height, *fit) if self.order.wish == "shortest" else fit), piece, at, (width, height)

    def _begin(self, wanted: Wanted) -> bool:
        """Take a new piece for a part: of the rack first, then as the wish counts."""
        able = [
            n
            for n, stock in enumerate(self.order.stock)
            if (stock.copies is None or self.used.get(n, 0) < stock.copies)
            and self._may_take(wanted, n)
            and fits(stock, wanted)
        ]
        if not able or (self.order.wish in ("shortest", "most value") and self.pieces):
            return False
        chosen = min(able, key=lambda n: self._dearness(self.order.stock[n]))
        self.used[chosen] = self.used.get(chosen, 0) + 1
        box = usable(self.order.stock[chosen])
        self.pieces.append(_Piece(chosen, [], list(_clear(box, self.order.stock[chosen].defects, self.order.saw.kerf))))
        return True

    def _dearness(self, stock: Stock) -> tuple[float, ...]:
        area = usable(stock).width * usable(stock).height
        if self.order.wish == "cheapest":
            return (stock.cost / area, not stock.have, -stock.grade)
        first = (stock.tier,) if self.order.wish == "fewest" else ()
        return (*first, -area, not stock.have, stock.cost, -stock.grade)

    def _may_take(self, wanted: Wanted, stock: int) -> bool:
        """Whether a part's group is not bound to another batch."""
        batch = batch_of(self.order, stock)
        return not wanted.group or self.batches.get(wanted.group, batch) == batch

    def _bind(self, item: int, stock: int) -> None:
        group = self.order.wanted[item].group
        if group:
            self.batches.setdefault(group, batch_of(self.order, stock))

    def _put(self, piece: _Piece, at: int, item: int, size: tuple[int, int]) -> None:
        rect, (width, height), kerf = piece.free.pop(at), size, self.order.saw.kerf
        piece.placed.append(Placed(item, rect.x, rect.y, width, height))
        right, top = width + kerf, height + kerf
        tall = Rect(rect.x + right, rect.y, rect.width - right, rect.height)
        low = replace(tall, height=height)
        wide = Rect(rect.x, rect.y + top, rect.width, rect.height - top)
        narrow = replace(wide, width=width)
        if self.shelf is not None:
            self._rests_of_shelf(piece, at, (low, wide), (narrow, tall))
            return
        flat = max(low.width * low.height, wide.width * wide.height)
        upright = max(narrow.width * narrow.height, tall.width * tall.height)
        for rest in (low, wide) if flat >= upright else (narrow, tall):
            if min(rest.width, rest.height) >= self.smallest:
                piece.free.append(rest)

    def _rests_of_shelf(self, piece: _Piece, at: int, along: tuple[Rect, Rect], across: tuple[Rect, Rect]) -> None:
        """The last free rectangle of a piece is where the next shelf begins; the others are rests of shelves."""
        rest, beyond = along if self.shelf == "along" else across
        begins = at == len(piece.free)
        if rest.width > 0 and rest.height > 0:
            piece.free.insert(at, rest)
        if begins and beyond.width > 0 and beyond.height > 0 and self.order.saw.levels != 1:
            piece.free.append(beyond)
        elif begins:
            piece.free.append(Rect(rest.x, rest.y, 0, 0))


# Pieces with pins, and with defects


def _pinned_layouts(order: Order) -> Iterable[Layout]:
    return (Layout(stock, tuple(placed)) for stock, placed in _pinned_pieces(order))


def _pinned_pieces(order: Order) -> Iterator[tuple[int, list[Placed]]]:
    """Pieces on which something is pinned, and what; a pin on stock or of a part that there is not is left out."""
    stocks = {stock.id: n for n, stock in reversed(list(enumerate(order.stock)))}
    items = {wanted.id: n for n, wanted in reversed(list(enumerate(order.wanted)))}
    pieces: dict[tuple[str, int], list[Pinned]] = {}
    for one in order.pinned:
        if one.stock in stocks and one.wanted in items:
            pieces.setdefault((one.stock, one.piece), []).append(one)
    for (stock, _), ones in pieces.items():
        yield (
            stocks[stock],
            [Placed(items[p.wanted], p.place.x, p.place.y, p.place.width, p.place.height) for p in ones],
        )


def _around(parts: Sequence[Placed], box: Rect, kerf: int) -> Iterator[Rect]:
    """What is left of a box beside parts that straight cuts part from each other."""
    if not parts:
        yield box
        return
    for across in (True, False):
        groups = split(parts, kerf, across)
        edges = [_span(group, across) for group in groups]
        begin, end = (box.x, box.x + box.width) if across else (box.y, box.y + box.height)
        if len(groups) > 1 or edges[0][0] - begin > kerf or end - edges[0][1] > kerf:
            for group, (low, high) in zip(groups, edges, strict=True):
                yield from _strip(box, begin, low - kerf, across)
                yield from (
                    _around(group, _slice(box, low, high, across), kerf)
                    if len(group) > 1
                    else _around_one(group[0], _slice(box, low, high, across), kerf, across)
                )
                begin = high + kerf
            yield from _strip(box, begin, end, across)
            return


def _around_one(part: Placed, box: Rect, kerf: int, across: bool) -> Iterator[Rect]:
    """A slice as long as its one part: what is left of it in the other direction."""
    low, high = _span([part], not across)
    begin, end = (box.x, box.x + box.width) if not across else (box.y, box.y + box.height)
    yield from _strip(box, begin, low - kerf, not across)
    yield from _strip(box, high + kerf, end, not across)


def _span(parts: Sequence[Placed], across: bool) -> tuple[int, int]:
    if across:
        return min(p.x for p in parts), max(p.x + p.width for p in parts)
    return min(p.y for p in parts), max(p.y + p.height for p in parts)


def _slice(box: Rect, low: int, high: int, across: bool) -> Rect:
    return Rect(low, box.y, high - low, box.height) if across else Rect(box.x, low, box.width, high - low)


def _strip(box: Rect, low: int, high: int, across: bool) -> Iterator[Rect]:
    if high > low:
        yield _slice(box, low, high, across)


def _clear(box: Rect, defects: Sequence[Rect], kerf: int) -> Iterator[Rect]:
    """A box in clear rectangles: cut left and right of its first defect, then above and below it."""
    if box.width <= 0 or box.height <= 0:
        return
    hit = next((d for d in defects if overlap(d, box)), None)
    if hit is None:
        yield box
        return
    right, top = box.x + box.width, box.y + box.height
    beyond = max(hit.x + hit.width, hit.x + kerf, box.x)
    yield from _clear(Rect(box.x, box.y, hit.x - box.x, box.height), defects, kerf)
    middle = Rect(max(box.x, hit.x + kerf), box.y, min(right, beyond - kerf) - max(box.x, hit.x + kerf), box.height)
    yield from _clear(replace(middle, height=max(0, hit.y - box.y)), defects, kerf)
    above = max(hit.y + hit.height, hit.y + kerf, box.y)
    yield from _clear(replace(middle, y=above, height=max(0, top - above)), defects, kerf)
    yield from _clear(Rect(beyond, box.y, right - beyond, box.height), defects, kerf)
