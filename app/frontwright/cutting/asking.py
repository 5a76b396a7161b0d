"""What can be said about an order before anything is laid, and about what a plan leaves out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from frontwright.cutting.checker import levels
from frontwright.cutting.counting import batch_of, fits, overlap, serves, usable, ways
from frontwright.cutting.values import Order, Placed, Plan, Rect, Stock

MOST_PARTS = 20_000


class BadOrder(ValueError):
    """An order that means nothing; `str()` says which field and the way out."""


def refuse(order: Order) -> None:
    """Raises `BadOrder` where an order cannot be meant so: sizes, counts, kerf, trims, pins."""
    for sentence in _nonsense(order):
        raise BadOrder(sentence)


def _nonsense(order: Order) -> Iterator[str]:
    if not order.wanted:
        yield "No part is wanted: name at least one."
    if order.saw.kerf < 0:
        yield f"The kerf is {order.saw.kerf}: give 0 or more."
    if order.saw.levels is not None and order.saw.levels < 1:
        yield f"The saw may make {order.saw.levels} turns of the cut: give 1 or more, or leave it open."
    for wanted in order.wanted:
        if wanted.width <= 0 or wanted.height <= 0 or wanted.copies < 0:
            yield f"Part {wanted.id} is {wanted.width} x {wanted.height}, {wanted.copies} times: sizes must be above 0."
    for stock in order.stock:
        if stock.width <= 0 or stock.height <= 0 or (stock.copies is not None and stock.copies < 0):
            yield f"Stock {stock.id} is {stock.width} x {stock.height}: sizes must be above 0."
        if min(stock.trims) < 0:
            yield f"A trim of {stock.id} is below 0: give 0 or more."
    for what, ids in (("part", [w.id for w in order.wanted]), ("stock", [s.id for s in order.stock])):
        twice = [name for name, count in Counter(ids).items() if count > 1]
        if twice:
            yield f"The {what} {twice[0]} is named twice: give each a name of its own."
    count = sum(wanted.copies for wanted in order.wanted)
    if count > MOST_PARTS:
        yield f"{count} parts are wanted; {MOST_PARTS} can be laid at once: divide the order."
    yield from _bad_pins(order)


def _bad_pins(order: Order) -> Iterator[str]:
    stocks, items = {s.id: s for s in order.stock}, {w.id: n for n, w in enumerate(order.wanted)}
    pieces: dict[tuple[str, int], list[Placed]] = {}
    counts = Counter(pin.wanted for pin in order.pinned)
    for pin in order.pinned:
        if pin.stock not in stocks or pin.wanted not in items:
            yield f"The part {pin.wanted} is pinned on {pin.stock}, and one of the two is not in the order."
            return
        place, stock, wanted = pin.place, stocks[pin.stock], order.wanted[items[pin.wanted]]
        if (place.width, place.height) not in ((wanted.width, wanted.height), (wanted.height, wanted.width)):
            yield f"The part {pin.wanted} is pinned as {place.width} x {place.height}, which is not its size."
        if place.x < 0 or place.y < 0 or place.x + place.width > stock.width or place.y + place.height > stock.height:
            yield f"The part {pin.wanted} is pinned over the edge of {pin.stock}."
        if counts[pin.wanted] > wanted.copies:
            yield f"The part {pin.wanted} is pinned {counts[pin.wanted]} times and wanted {wanted.copies} times."
        parts = pieces.setdefault((pin.stock, pin.piece), [])
        if any(overlap(place, Rect(p.x, p.y, p.width, p.height), order.saw.kerf) for p in parts):
            yield f"The part {pin.wanted} is pinned nearer to another than the kerf."
        parts.append(Placed(items[pin.wanted], place.x, place.y, place.width, place.height))
    for (name, _), parts in pieces.items():
        if order.guillotine and levels(parts, order.saw.kerf) is None:
            yield f"The parts pinned on {name} cannot be parted by cuts from edge to edge: move one."
    for name, used in Counter(name for name, _ in pieces).items():
        limit = stocks[name].copies
        if limit is not None and used > limit:
            yield f"Parts are pinned on {used} pieces of {name}, and there are {limit}."


def is_boards(order: Order) -> bool:
    """Whether an order is one of lengths alone: all parts fill the width of their boards, whole and without a pin."""
    if order.wish not in ("fewest", "cheapest") or order.pinned or any(s.defects for s in order.stock):
        return False
    batches = {batch_of(order, n) for n in range(len(order.stock))}
    if any(w.group for w in order.wanted) and (len(batches) > 1):
        return False
    heights = {w.height for w in order.wanted}
    if len(heights) != 1 or order.saw.levels == 0:
        return False
    height, widest = heights.pop(), max((usable(s).height for s in order.stock), default=0)
    turned = any(tall <= widest for w in order.wanted for _, tall in ways(w)[1:])
    return widest < 2 * height + order.saw.kerf and not turned


def missing_sentences(order: Order, plan: Plan) -> tuple[str, ...]:
    """One sentence for each part of which something found no place: how many, and why."""
    return tuple(
        f"{order.wanted[n].id}: {_of(count, order.wanted[n].copies)} found no place; {why_not(order, n)}."
        for n, count in enumerate(plan.missing)
        if count
    )


def why_not(order: Order, item: int) -> str:
    """Why a part finds no place on empty stock, or that the stock is used up."""
    wanted = order.wanted[item]
    if not order.stock or all(stock.copies == 0 for stock in order.stock):
        return "there is no stock"
    large = [stock for stock in order.stock if any(_within(stock, w, h) for w, h in ways(wanted))]
    if not large:
        turned = any(_within(stock, wanted.height, wanted.width) for stock in order.stock)
        return "it would fit only against its grain" if turned else "it is larger than any piece"
    good = [stock for stock in large if serves(stock, wanted)]
    if not good:
        return f"no piece large enough is of grade {wanted.grade} or better"
    if not any(fits(stock, wanted) for stock in good):
        return "the defects leave no clear place large enough"
    if order.wish in ("most value", "shortest"):
        return "the piece is full"
    return "no piece of one batch is left for its group" if wanted.group else "the stock is used up"


def _of(count: int, copies: int) -> str:
    return "it" if count == copies == 1 else f"{count} of {copies}"


def _within(stock: Stock, width: int, height: int) -> bool:
    box = usable(stock)
    return width <= box.width and height <= box.height
