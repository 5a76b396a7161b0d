"""When nothing can be better, where some stock goes before other: what must be bought or shared, and pieces in all."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from frontwright.cutting.counting import fits, is_mixed, of_tier, usable
from frontwright.cutting.search.bounds import Kind, least_pieces
from frontwright.cutting.search.targets import bound_of, of_the_largest
from frontwright.cutting.values import Order, Plan


@dataclass(frozen=True)
class Least:
    """What an order cannot do without."""

    order: Order

    @cached_property
    def bought(self) -> int:
        """Pieces that must be bought, at least."""
        return beyond(self.order, 2)

    @cached_property
    def shared(self) -> int:
        """Pieces of what is there for everybody that must be used, at least, where nothing is bought."""
        return beyond(_up_to(self.order, 1), 1)

    @cached_property
    def pieces(self) -> tuple[int | None, int | None, int | None]:
        """Pieces in all, at least, where only stock up to a tier is used; None: nothing is known."""
        own, shared, bought = (bound_of(_up_to(self.order, tier)) for tier in (0, 1, 2))
        return own, shared, bought

    def settles(self, plan: Plan, bound: int | None) -> bool:
        """Whether no plan lays everything with less; `bound`: pieces in all, as far as a search has shown."""
        order = self.order
        if order.wish != "fewest" or not plan.whole:
            return False
        if not self._is_cheap(plan):
            return False
        if not is_mixed(order):
            return bound is not None and plan.cost <= bound
        bought, shared = of_tier(order, plan, 2), of_tier(order, plan, 1)
        if bought > self.bought or shared > (0 if bought else self.shared):
            return False
        known = self.pieces[2 if bought else 1 if shared else 0]
        most = max((one for one in (known, bound if bought else None) if one is not None), default=None)
        return most is not None and plan.cost <= most

    def _is_cheap(self, plan: Plan) -> bool:
        """Whether as many pieces of each tier cannot cost less."""
        stock = self.order.stock
        spent = sum(stock[layout.stock].cost * layout.copies for layout in plan.layouts)
        return spent <= sum(_cheapest(self.order, tier, of_tier(self.order, plan, tier)) for tier in (0, 1, 2))


def _cheapest(order: Order, tier: int, count: int) -> int:
    """What so many pieces of a tier cost at least."""
    total = 0
    for stock in sorted((s for s in order.stock if s.tier == tier), key=lambda s: s.cost):
        taken = count if stock.copies is None else min(count, stock.copies)
        total, count = total + taken * stock.cost, count - taken
    return total


def beyond(order: Order, tier: int) -> int:
    """How many pieces of this tier or a higher one there must be, at least, beside all of the lower ones."""
    kerf = order.saw.kerf
    high = [s for s in order.stock if s.tier >= tier and s.copies != 0]
    low = [s for s in order.stock if s.tier < tier and any(fits(s, w) for w in order.wanted)]
    if not high or any(s.copies is None for s in low):
        return 0
    width, height = max(usable(s).width for s in high) + kerf, max(usable(s).height for s in high) + kerf
    if width <= kerf or height <= kerf:
        return 0
    alone = [
        Kind(w.width + kerf, w.height + kerf, w.copies, w.turns)
        for w in order.wanted
        if w.copies and not any(fits(s, w) for s in low)
    ]
    there = sum((usable(s).width + kerf) * (usable(s).height + kerf) * (s.copies or 0) for s in low)
    area = sum((w.width + kerf) * (w.height + kerf) * w.copies for w in order.wanted)
    many = of_the_largest(order) - sum(s.copies or 0 for s in low)
    return max(least_pieces(alone, width, height), -(-max(0, area - there) // (width * height)), many)


def _up_to(order: Order, tier: int) -> Order:
    return replace(order, stock=tuple(s for s in order.stock if s.tier <= tier and s.copies != 0))
