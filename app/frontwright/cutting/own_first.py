"""What the shop has, asked by itself first: a search with many ways to lay rarely comes back to one small offcut."""

from __future__ import annotations

from dataclasses import replace

from frontwright.cutting.counting import plan_of
from frontwright.cutting.values import Order, Plan

SHARE = 0.35  # of the time, at most
LONGEST = 4.0  # seconds


def own_only(order: Order) -> Order | None:
    """The order with the shop's own pieces alone; None where that is nothing, all, or not what pins name."""
    own = tuple(stock for stock in order.stock if stock.have)
    names = {stock.id for stock in own}
    if not 0 < len(own) < len(order.stock) or any(pin.stock not in names for pin in order.pinned):
        return None
    return replace(order, stock=own)


def only_own(order: Order, plan: Plan) -> bool:
    """Whether everything is laid and nothing is bought."""
    return plan.whole and all(order.stock[layout.stock].have for layout in plan.layouts)


def without_shared(order: Order) -> Order | None:
    """The order without what is there for everybody; None where that is nothing, or all, or a part is pinned on it."""
    left = tuple(stock for stock in order.stock if stock.tier != 1)
    names = {stock.id for stock in left}
    if not 0 < len(left) < len(order.stock) or any(pin.stock not in names for pin in order.pinned):
        return None
    return replace(order, stock=left)


def of_whole(order: Order, part: Order, plan: Plan) -> Plan:
    """A plan of the order with a part of its stock as one of the whole, with nothing said about how good it is."""
    names = {stock.id: n for n, stock in enumerate(order.stock)}
    at = [names[stock.id] for stock in part.stock]
    return plan_of(order, [replace(layout, stock=at[layout.stock]) for layout in plan.layouts])


def time_for_own(deadline: float, now: float) -> float:
    """When the search with the own pieces ends."""
    return now + min(LONGEST, SHARE * max(0.0, deadline - now))
