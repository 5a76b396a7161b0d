"""Whether a plan can be cut and serves the order, found out from the plan alone.

Kerf rule: between two parts the saw needs a free band as wide as the kerf; between a part and the edge of what the
trims leave, nothing. A last strip narrower than the kerf is sawn away.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from frontwright.cutting.counting import batch_of, cost_of, is_clear, overlap, serves, usable, ways
from frontwright.cutting.values import Direction, Layout, Order, Pinned, Placed, Plan, Rect, Stock

_Key = tuple[str, int, int, int, int]


def first_fault(order: Order, plan: Plan) -> str | None:
    """The first thing wrong with a plan for an order, as a sentence; None where it may be cut."""
    return next(faults(order, plan), None)


def faults(order: Order, plan: Plan) -> Iterator[str]:
    """Everything wrong with a plan for an order: layouts one by one, then what they come to together."""
    known = [fault for layout in plan.layouts for fault in _unknown(order, layout)]
    yield from known
    if known:
        return  # positions that mean nothing: the rest could not be named
    pinned = {_key(one.wanted, one.place) for one in order.pinned}
    for number, layout in enumerate(plan.layouts, 1):
        yield from (f"Layout {number}: {fault}" for fault in _layout_faults(order, layout, pinned))
    yield from _stock_faults(order, plan)
    yield from _demand_faults(order, plan)
    yield from _group_faults(order, plan)
    yield from _pinned_faults(order, plan)
    yield from _sum_faults(order, plan)


def levels(parts: Sequence[Placed], kerf: int, first: Direction | None = None) -> int | None:
    """How many turns of the cut part these from each other; trimming to size counts none. None: not edge to edge.

    `first`: the direction of the first cut; without it the better of both. Where that cut would part nothing it is not
    made, but it counts as a turn.
    """
    starts = (first,) if first else ("along", "across")
    counts = [_levels_from(parts, kerf, across=start == "across") for start in starts]
    return min((count for count in counts if count is not None), default=None)


def _levels_from(parts: Sequence[Placed], kerf: int, across: bool) -> int | None:
    """Levels used where the first cut runs so. Cutting wherever it is possible never spoils a later cut."""
    used, waiting = 0, [(list(parts), 1, across, False)]
    while waiting:
        group, level, direction, tried = waiting.pop()
        if len(group) < 2:
            continue
        pieces = split(group, kerf, direction)
        if len(pieces) == 1:
            if tried:
                return None
            waiting.append((group, level + 1, not direction, True))
            continue
        used = max(used, level)
        waiting.extend((piece, level + 1, not direction, True) for piece in pieces)
    return used


def split(parts: Sequence[Placed], kerf: int, across: bool) -> list[list[Placed]]:
    """Parts in groups that straight cuts in one direction part from each other (across: cuts at a length)."""
    spans = sorted(
        ((p.x, p.x + p.width, p) if across else (p.y, p.y + p.height, p) for p in parts), key=lambda s: s[:2]
    )
    groups: list[list[Placed]] = []
    reach = 0
    for start, end, part in spans:
        if groups and start < reach + kerf:
            groups[-1].append(part)
            reach = max(reach, end)
        else:
            groups.append([part])
            reach = end
    return groups


# A layout by itself


def _unknown(order: Order, layout: Layout) -> Iterator[str]:
    if not 0 <= layout.stock < len(order.stock):
        yield f"A layout names stock number {layout.stock}, which the order has not."
    if layout.copies < 1:
        yield f"A layout is to be cut {layout.copies} times."
    for part in layout.placed:
        if not 0 <= part.item < len(order.wanted):
            yield f"A layout names part number {part.item}, which the order has not."


def _layout_faults(order: Order, layout: Layout, pinned: set[_Key]) -> Iterator[str]:
    stock = order.stock[layout.stock]
    for part in layout.placed:
        is_fact = _key(order.wanted[part.item].id, _place(part)) in pinned
        yield from _part_faults(order, stock, part, is_fact)
    yield from _meeting_faults(order, layout)
    yield from _cut_faults(order, layout)


def _part_faults(order: Order, stock: Stock, part: Placed, is_fact: bool) -> Iterator[str]:
    """What is wrong with a part where it lies. A pinned one is a fact: it need only be of its size and on the piece."""
    wanted = order.wanted[part.item]
    size, place, box = (part.width, part.height), _place(part), usable(stock)
    if size not in ways(wanted) and not (is_fact and size == (wanted.height, wanted.width)):
        turned = size == (wanted.height, wanted.width)
        reason = "lies turned, against its grain" if turned else f"is laid as {size[0]} x {size[1]}"
        yield f"part {wanted.id} ({wanted.width} x {wanted.height}) {reason}."
    if not _inside(place, Rect(0, 0, stock.width, stock.height)):
        yield f"part {wanted.id} sticks out of the piece {stock.id}."
    elif not is_fact and not _inside(place, box):
        yield f"part {wanted.id} reaches into a trim of the piece {stock.id}."
    if is_fact:
        return
    if not is_clear(stock, place):
        yield f"part {wanted.id} lies on a defect of the piece {stock.id}."
    if not serves(stock, wanted):
        yield f"part {wanted.id} needs grade {wanted.grade}, and the piece {stock.id} is of grade {stock.grade}."


def _meeting_faults(order: Order, layout: Layout) -> Iterator[str]:
    """Parts that meet, or leave less than the kerf between them."""
    kerf, open_parts = order.saw.kerf, list[Placed]()
    for part in sorted(layout.placed, key=lambda p: p.x):
        open_parts = [other for other in open_parts if other.x + other.width + kerf > part.x]
        for other in open_parts:
            names = f"{order.wanted[other.item].id} and {order.wanted[part.item].id}"
            if overlap(_place(other), _place(part)):
                yield f"parts {names} overlap."
            elif overlap(_place(other), _place(part), kerf):
                yield f"parts {names} leave the saw less than its kerf of {kerf}."
        open_parts.append(part)


def _cut_faults(order: Order, layout: Layout) -> Iterator[str]:
    saw = order.saw
    if not order.guillotine:
        return
    used = levels(layout.placed, saw.kerf, saw.first)
    if used is None:
        yield "its parts cannot be parted by cuts from edge to edge."
    elif saw.levels is not None and used > saw.levels:
        yield f"it needs {used} turns of the cut, and the saw may make {saw.levels}."


# All layouts together


def _stock_faults(order: Order, plan: Plan) -> Iterator[str]:
    used = Counter[int]()
    for layout in plan.layouts:
        used[layout.stock] += layout.copies
    for number, count in sorted(used.items()):
        stock = order.stock[number]
        if stock.copies is not None and count > stock.copies:
            yield f"{count} pieces of {stock.id} are cut, and there are {stock.copies}."
    if order.wish in ("most value", "shortest") and sum(used.values()) > 1:
        yield f"{sum(used.values())} pieces are cut, and one was asked for."


def _demand_faults(order: Order, plan: Plan) -> Iterator[str]:
    if len(plan.missing) != len(order.wanted):
        yield "What is missing is not told for every part wanted."
        return
    laid = Counter[int]()
    for layout in plan.layouts:
        for part in layout.placed:
            laid[part.item] += layout.copies
    for number, wanted in enumerate(order.wanted):
        if laid[number] > wanted.copies:
            yield f"Part {wanted.id} is laid {laid[number]} times and wanted {wanted.copies} times."
        elif laid[number] + plan.missing[number] != wanted.copies:
            found, told = laid[number], plan.missing[number]
            yield f"Part {wanted.id} is laid {found} times of {wanted.copies}, and {told} are said to be missing."


def _group_faults(order: Order, plan: Plan) -> Iterator[str]:
    batches: dict[str, set[str]] = {}
    for layout in plan.layouts:
        for part in layout.placed:
            group = order.wanted[part.item].group
            if group:
                batches.setdefault(group, set()).add(batch_of(order, layout.stock))
    for group, found in batches.items():
        if len(found) > 1:
            yield f"The parts of the group {group} come from {len(found)} batches."


def _pinned_faults(order: Order, plan: Plan) -> Iterator[str]:
    """Pinned parts of one piece must all be on one piece of the plan, and those of two pieces on two."""
    of_piece: dict[tuple[str, int], list[Pinned]] = {}
    for one in order.pinned:
        of_piece.setdefault((one.stock, one.piece), []).append(one)
    pieces = [layout for layout in plan.layouts for _ in range(min(layout.copies, len(of_piece)))]
    contents = [{_key(order.wanted[p.item].id, _place(p)) for p in layout.placed} for layout in pieces]
    taken: dict[int, tuple[str, int]] = {}
    able = {
        key: [
            n
            for n, layout in enumerate(pieces)
            if order.stock[layout.stock].id == key[0] and contents[n] >= {_key(p.wanted, p.place) for p in ones}
        ]
        for key, ones in of_piece.items()
    }
    for key, ones in of_piece.items():
        if not _seat(key, able, taken, set()):
            yield f"Part {ones[0].wanted} is not where it is pinned on the piece {key[0]}."


def _seat(
    key: tuple[str, int], able: dict[tuple[str, int], list[int]], taken: dict[int, tuple[str, int]], seen: set[int]
) -> bool:
    """Find a piece of the plan for pinned parts, moving others where that helps (a matching, one at a time)."""
    for number in able[key]:
        if number in seen:
            continue
        seen.add(number)
        if number not in taken or _seat(taken[number], able, taken, seen):
            taken[number] = key
            return True
    return False


def _sum_faults(order: Order, plan: Plan) -> Iterator[str]:
    cost = cost_of(order, plan.layouts)
    if plan.cost != cost:
        yield f"The plan says that it comes to {plan.cost}, and it comes to {cost}."
    if plan.bound is None or not (plan.whole or order.wish == "most value"):
        return
    if plan.bound < cost if order.wish == "most value" else plan.bound > cost:
        yield f"The plan comes to {cost}, past the bound of {plan.bound} that it names."


def _place(part: Placed) -> Rect:
    return Rect(part.x, part.y, part.width, part.height)


def _key(wanted: str, place: Rect) -> _Key:
    return (wanted, place.x, place.y, place.width, place.height)


def _inside(place: Rect, box: Rect) -> bool:
    right, top = place.x + place.width, place.y + place.height
    return box.x <= place.x and box.y <= place.y and right <= box.x + box.width and top <= box.y + box.height
