"""A quick and honest first fit: one piece after the other is filled as full as a few simple orders can.

It never says that parts fit where they do not; it may say that they do not where a better search finds a way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count

from frontwright.core.lengths import Length
from frontwright.core.stock.clear import ways_round
from frontwright.core.stock.result import Clear, Fitted, Group, Offer, Place, Want

MOST_BOUGHT = 2_000  # pieces bought for one group; more come of a length that was mistyped
_AT_ONCE = 100  # parts looked at for one piece; it seldom holds more
_STEPS = 600  # sets of strips tried for one board


@dataclass(frozen=True, slots=True)
class _Item:
    """One copy of a wanted part, in units."""

    want: Want
    number: int
    long: int
    wide: int
    turned: bool = False


@dataclass(frozen=True, slots=True)
class _Spot:
    item: _Item
    x: int
    y: int


type _Fill = Callable[[Sequence[_Item], int, int, int], list[_Spot]]


def first_fit(group: Group, wants: Sequence[Want], offers: Sequence[Offer]) -> Fitted:
    """Places for the open copies of these parts on these pieces, in the order in which the pieces are given.

    A piece that comes last takes only what found no place before: one more never makes the answer worse. Parts that
    may be turned are tried unturned too, and the better of both counts.
    """
    plain = _laid(group, wants, offers, turn=False)
    if plain.lacking and any(want.turns for want in wants):
        turned = _laid(group, wants, offers, turn=True)
        return turned if turned.lacking < plain.lacking else plain
    return plain


def _laid(group: Group, wants: Sequence[Want], offers: Sequence[Offer], *, turn: bool) -> Fitted:
    items = [
        _Item(want, number, want.length.units, want.width.units)
        for want in wants
        for number in range(want.made + 1, want.copies + 1)
    ]
    places: list[Place] = []
    for offer in offers:
        copies = range(1, offer.copies + 1) if offer.copies is not None else count(1)
        for copy in copies:
            if not items or copy > MOST_BOUGHT:
                break
            found = list(_on_one(group, items, offer, copy, turn=turn))
            if not found:
                break
            places += found
            taken = {(place.want, place.number) for place in found}
            items = [item for item in items if (item.want.id, item.number) not in taken]
    missing: dict[str, int] = {}
    for item in items:
        missing[item.want.id] = missing.get(item.want.id, 0) + 1
    return Fitted(tuple(places), missing)


def _on_one(group: Group, items: list[_Item], offer: Offer, copy: int, *, turn: bool) -> Iterator[Place]:
    """One piece filled, the fuller of the ways round its bad places."""
    mine = [item for item in items if offer.shows or item.want.seen == "hidden"]
    filled = (list(_in_clear(group, mine, offer.id, copy, way, turn=turn)) for way in ways_round(offer, group.kerf))
    yield from max(filled, key=_area)


def _area(places: Sequence[Place]) -> int:
    return sum(place.length.units * place.width.units for place in places)


def _in_clear(
    group: Group, left: list[_Item], offer: str, copy: int, way: Sequence[Clear], *, turn: bool
) -> Iterator[Place]:
    """The clear rectangles of a piece filled one after the other."""
    for clear in way:
        long, wide = clear.length.units, clear.width.units
        fitting = [item for item in left if _fits(item, long, wide, turn=turn)]
        if not fitting:
            continue
        if len(fitting) > _AT_ONCE:
            fitting = _some(fitting)
        spots = _fullest(group, fitting, long, wide, turn=turn)
        taken = {id(spot.item.want): set[int]() for spot in spots}
        for spot in spots:
            taken[id(spot.item.want)].add(spot.item.number)
            x, y = clear.along + Length(spot.x), clear.across + Length(spot.y)
            size = Length(spot.item.long), Length(spot.item.wide)
            yield Place(offer, copy, spot.item.want.id, spot.item.number, x, y, *size, spot.item.turned)
        left = [item for item in left if item.number not in taken.get(id(item.want), ())]


def _some(items: Sequence[_Item]) -> list[_Item]:
    """Half of them the largest, the others of all sizes, to fill what those leave."""
    largest = sorted(items, key=lambda item: -item.long * item.wide)
    half = _AT_ONCE // 2
    rest = largest[half:]
    return [*largest[:half], *rest[:: max(1, len(rest) // half)][:half]]


def _fits(item: _Item, long: int, wide: int, *, turn: bool) -> bool:
    if item.long <= long and item.wide <= wide:
        return True
    return turn and item.want.turns and item.wide <= long and item.long <= wide


def _fullest(group: Group, items: Sequence[_Item], long: int, wide: int, *, turn: bool) -> list[_Spot]:
    """The fullest of the ways to fill one piece: strips of one width, of mixed widths, corner by corner."""
    if turn:
        items = [_lying(item, long, wide) for item in items]
    if len(items) == 1:
        return [_Spot(items[0], 0, 0)]
    ways: tuple[_Fill, ...] = (_strips, _mixed_strips, _corners, _corners_by_length)
    best: list[_Spot] = []
    most = 0
    for way in ways:
        spots = way(items, long, wide, group.kerf.units)
        area = sum(spot.item.long * spot.item.wide for spot in spots)
        if area > most:
            best, most = spots, area
        if len(best) == len(items):
            break
    return best


def _lying(item: _Item, long: int, wide: int) -> _Item:
    """The item with its longer side along the piece where it may be turned and fits so."""
    turned = item.want.turns and (item.wide > item.long or item.long > long or item.wide > wide)
    if turned and item.wide <= long and item.long <= wide:
        return _Item(item.want, item.number, item.wide, item.long, turned=True)
    return item


def _strips(items: Sequence[_Item], long: int, wide: int, kerf: int) -> list[_Spot]:
    """Strips ripped at the widths of the parts, each crosscut, side by side."""
    return _side_by_side(_rows(items, long, kerf, slack=0), wide, kerf)


def _mixed_strips(items: Sequence[_Item], long: int, wide: int, kerf: int) -> list[_Spot]:
    """Strips whose open ends take narrower parts too."""
    return _side_by_side(_rows(items, long, kerf, slack=wide), wide, kerf)


def _rows(items: Sequence[_Item], long: int, kerf: int, slack: int) -> list[list[_Item]]:
    """Parts end to end, the widest and longest first, each in the row that it fills best."""
    rows: list[list[_Item]] = []
    rest: list[int] = []
    for item in sorted(items, key=lambda i: (-i.wide, -i.long)):
        fitting = [
            at for at, row in enumerate(rows) if rest[at] >= item.long + kerf and row[0].wide - item.wide <= slack
        ]
        if fitting:
            at = min(fitting, key=lambda at: (rows[at][0].wide - item.wide, rest[at]))
            rows[at].append(item)
            rest[at] -= item.long + kerf
        else:
            rows.append([item])
            rest.append(long - item.long)
    return rows


def _side_by_side(rows: list[list[_Item]], wide: int, kerf: int) -> list[_Spot]:
    """The set of rows that covers most of the width of one piece."""
    rows = sorted(rows, key=lambda row: -sum(i.long * i.wide for i in row))
    areas = [sum(i.long * i.wide for i in row) for row in rows]
    room = wide + kerf
    best: list[int] = []
    most = steps = 0
    stack: list[tuple[int, int, int, list[int]]] = [(0, room, 0, [])]
    while stack and steps < _STEPS:
        at, left, area, chosen = stack.pop()
        steps += 1
        if area > most:
            best, most = chosen, area
        seen: set[tuple[int, int]] = set()
        for further in range(len(rows) - 1, at - 1, -1):
            need = rows[further][0].wide + kerf
            if need <= left and (need, areas[further]) not in seen:
                seen.add((need, areas[further]))
                stack.append((further + 1, left - need, area + areas[further], [*chosen, further]))
    return _spots([rows[at] for at in best], kerf)


def _spots(rows: list[list[_Item]], kerf: int) -> list[_Spot]:
    spots: list[_Spot] = []
    y = 0
    for row in sorted(rows, key=lambda r: -r[0].wide):
        x = 0
        for item in row:
            spots.append(_Spot(item, x, y))
            x += item.long + kerf
        y += row[0].wide + kerf
    return spots


def _corners(items: Sequence[_Item], long: int, wide: int, kerf: int) -> list[_Spot]:
    """Each part, the largest first, in the lower left corner of the free rectangle that it leaves the least of."""
    return _cornered(sorted(items, key=lambda i: -i.long * i.wide), long, wide, kerf)


def _corners_by_length(items: Sequence[_Item], long: int, wide: int, kerf: int) -> list[_Spot]:
    return _cornered(sorted(items, key=lambda i: (-i.long, -i.wide)), long, wide, kerf)


def _cornered(items: Sequence[_Item], long: int, wide: int, kerf: int) -> list[_Spot]:
    free = [(0, 0, long, wide)]
    spots: list[_Spot] = []
    for item in items:
        fitting = [r for r in free if r[2] >= item.long and r[3] >= item.wide]
        if not fitting:
            continue
        x, y, w, h = min(fitting, key=lambda r: min(r[2] - item.long, r[3] - item.wide))
        free.remove((x, y, w, h))
        spots.append(_Spot(item, x, y))
        right, over = w - item.long - kerf, h - item.wide - kerf
        if right * h >= over * w:  # the cut across first: the larger rest stays whole
            free += [(x + item.long + kerf, y, right, h), (x, y + item.wide + kerf, item.long, over)]
        else:
            free += [(x + item.long + kerf, y, right, item.wide), (x, y + item.wide + kerf, w, over)]
        free = [r for r in free if r[2] > 0 and r[3] > 0]
    return spots
