"""What cannot be beaten: the bound of an order in what its wish counts, and the price at which a search may stop."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from frontwright.cutting.counting import usable
from frontwright.cutting.search.bounds import Kind, least_length, least_pieces
from frontwright.cutting.search.work import prices_of
from frontwright.cutting.values import Order


def bound_of(order: Order) -> int | None:
    """No plan of all parts is better; None where nothing is known."""
    if order.pinned or not all(_area(order, n) > 0 for n in range(len(order.stock))) or not order.stock:
        return None
    if order.wish == "most value":
        return _most_value(order)
    if order.wish == "shortest":
        return _least_height(order)
    if order.wish == "best leftover":
        return _least_used(order)
    if order.wish == "fewest":
        return max(least_price(order, [1] * len(order.stock)), of_the_largest(order))
    return least_price(order, [s.cost for s in order.stock])


def of_the_largest(order: Order) -> int:
    """Pieces below which no plan can be were each as long and as wide as the longest and the widest."""
    kerf, boxes = order.saw.kerf, [usable(s) for s in order.stock if s.copies != 0]
    width, height = max((b.width for b in boxes), default=0), max((b.height for b in boxes), default=0)
    return least_pieces(kinds_of(order), width + kerf, height + kerf) if width and height else 0


def target_of(order: Order) -> int:
    """The price of pieces (as the search counts it) below which none can be."""
    return 0 if bound_of(order) is None else least_price(order, prices_of(order))


def least_price(order: Order, prices: list[int]) -> int:
    """Of pieces that hold the parts by their area; by dual feasible functions too where all are of one size."""
    kerf, area = order.saw.kerf, sum(k.width * k.height * k.copies for k in kinds_of(order))
    sizes = {(usable(s).width + kerf, usable(s).height + kerf) for s in order.stock}
    if len(sizes) == 1:
        width, height = sizes.pop()
        return _cheapest(order, prices, least_pieces(kinds_of(order), width, height))
    rows = sorted(
        (
            (Fraction(price, max(1, _area(order, n))), _area(order, n), order.stock[n].copies)
            for n, price in enumerate(prices)
        ),
        key=lambda row: row[0],
    )
    total, fine = Fraction(0), min((p for p in prices if p), default=0)
    for ratio, size, copies in rows:
        taken = area if copies is None else min(area, size * copies)
        total, area = total + taken * ratio, area - taken
    return max(ceil(total), fine)


def _cheapest(order: Order, prices: list[int], pieces: int) -> int:
    total = 0
    for price, stock in sorted(zip(prices, order.stock, strict=True), key=lambda pair: pair[0]):
        taken = pieces if stock.copies is None else min(pieces, stock.copies)
        total, pieces = total + taken * price, pieces - taken
    return total


def kinds_of(order: Order) -> list[Kind]:
    """The parts with their kerf."""
    kerf = order.saw.kerf
    return [Kind(w.width + kerf, w.height + kerf, w.copies, w.turns) for w in order.wanted if w.copies]


def _area(order: Order, stock: int) -> int:
    box, kerf = usable(order.stock[stock]), order.saw.kerf
    return (box.width + kerf) * (box.height + kerf) if box.width and box.height else 0


def _least_height(order: Order) -> int:
    kerf, box = order.saw.kerf, usable(order.stock[0])
    return box.y + least_length(kinds_of(order), box.width + kerf) - kerf


def _least_used(order: Order) -> int:
    area = sum(w.width * w.height * w.copies for w in order.wanted)
    areas = [s.width * s.height for s in order.stock]
    return max(area, least_price(order, areas) - max(areas))


def _most_value(order: Order) -> int:
    """As if the parts could be melted to fill the piece."""
    kerf, room, total = order.saw.kerf, _area(order, 0), Fraction(0)
    for wanted in sorted(order.wanted, key=lambda w: -Fraction(w.value, (w.width + kerf) * (w.height + kerf))):
        size = (wanted.width + kerf) * (wanted.height + kerf)
        taken = min(room, size * wanted.copies)
        total, room = total + Fraction(taken * wanted.value, size), room - taken
    return floor(total)
