"""What a set of layouts lays, leaves out and costs; the rules that search and checker both go by."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from frontwright.cutting.values import Layout, Order, Plan, Rect, Stock, Wanted


def plan_of(order: Order, layouts: Iterable[Layout], bound: int | None = None) -> Plan:
    """The plan that these layouts make: equal ones together, what they leave out and what they cost counted."""
    kept = together(layouts)
    return Plan(kept, missing_of(order, kept), cost_of(order, kept), bound)


def together(layouts: Iterable[Layout]) -> tuple[Layout, ...]:
    """Equal layouts as one with their copies added, in the order in which they first stand."""
    copies: dict[tuple[int, tuple[object, ...]], int] = {}
    first: dict[tuple[int, tuple[object, ...]], Layout] = {}
    for layout in layouts:
        key = (layout.stock, tuple(sorted((p.x, p.y, p.width, p.height, p.item) for p in layout.placed)))
        copies[key] = copies.get(key, 0) + layout.copies
        first.setdefault(key, layout)
    return tuple(Layout(one.stock, one.placed, copies[key]) for key, one in first.items())


def missing_of(order: Order, layouts: Iterable[Layout]) -> tuple[int, ...]:
    """Copies of each wanted part that are nowhere in these layouts."""
    left = [wanted.copies for wanted in order.wanted]
    for layout in layouts:
        for placed in layout.placed:
            left[placed.item] -= layout.copies
    return tuple(max(0, copies) for copies in left)


def cost_of(order: Order, layouts: Sequence[Layout]) -> int:
    """What the order's wish counts, of these layouts."""
    if order.wish == "cheapest":
        return sum(order.stock[layout.stock].cost * layout.copies for layout in layouts)
    if order.wish == "most value":
        return sum(order.wanted[p.item].value * layout.copies for layout in layouts for p in layout.placed)
    if order.wish == "shortest":
        return max((p.y + p.height for layout in layouts for p in layout.placed), default=0)
    if order.wish == "best leftover":
        area = sum(_area(order.stock[layout.stock]) * layout.copies for layout in layouts)
        return area - max((largest_offcut(order, layout) for layout in layouts), default=0)
    return sum(layout.copies for layout in layouts)


def better(order: Order, one: Plan, other: Plan) -> bool:
    """Whether the first plan is better: more is laid, then it costs less (or brings more), then fewer set-ups."""
    return rank(order, one) < rank(order, other)


def firmer(one: Plan, other: Plan) -> bool:
    """Whether the first plan is as good as the other and names a nearer bound."""
    if (one.cost, one.missing) != (other.cost, other.missing) or one.bound is None:
        return False
    return other.bound is None or abs(one.cost - one.bound) < abs(other.cost - other.bound)


def improves(order: Order, one: Plan, other: Plan) -> bool:
    """Whether the first plan is better than the other, or as good with a nearer bound."""
    return better(order, one, other) or (firmer(one, other) and not better(order, other, one))


def rank(order: Order, plan: Plan) -> tuple[int, ...]:
    """Plans in the order of the wish, the best first.

    What is missing counts by area; where few pieces are wished, those that must be bought, then those that are shared;
    then the wish, pieces that must be bought, cost and pieces, then the largest full offcut, then how many different
    layouts there are; in an order of many copies the layouts before the offcut.
    """
    if order.wish == "most value":
        return (-plan.cost, _pieces(plan))
    missing = sum(_area(w) * n for w, n in zip(order.wanted, plan.missing, strict=True))
    bought, shared = (of_tier(order, plan, tier) for tier in (2, 1))
    first = (bought, shared) if order.wish == "fewest" else ()
    cost = sum(order.stock[layout.stock].cost * layout.copies for layout in plan.layouts)
    offcut = max((largest_offcut(order, layout) for layout in plan.layouts), default=0)
    last = (len(plan.layouts), -offcut) if many_copies(order) else (-offcut, len(plan.layouts))
    return (missing, *first, plan.cost, bought, cost, _pieces(plan), *last)


def of_tier(order: Order, plan: Plan, tier: int) -> int:
    """How many pieces of a tier a plan uses."""
    return sum(layout.copies for layout in plan.layouts if order.stock[layout.stock].tier == tier)


def is_mixed(order: Order) -> bool:
    """Whether few pieces are wished of stock of which some goes before other."""
    return order.wish == "fewest" and len({stock.tier for stock in order.stock}) > 1


def many_copies(order: Order) -> bool:
    """Whether most parts are wanted several times over, so that layouts can be cut again and again."""
    return sum(wanted.copies for wanted in order.wanted) >= 3 * len(order.wanted)


def largest_offcut(order: Order, layout: Layout) -> int:
    """Area of the largest offcut over the full width or height of a piece, beyond all its parts and one kerf."""
    box, kerf = usable(order.stock[layout.stock]), order.saw.kerf
    if not layout.placed:
        return box.width * box.height
    left = min(p.x for p in layout.placed) - box.x
    right = box.x + box.width - max(p.x + p.width for p in layout.placed)
    low = min(p.y for p in layout.placed) - box.y
    high = box.y + box.height - max(p.y + p.height for p in layout.placed)
    return max(0, (max(left, right) - kerf) * box.height, (max(low, high) - kerf) * box.width)


def usable(stock: Stock) -> Rect:
    """What the trims leave of a piece; width or height 0 where they leave nothing."""
    left, right, bottom, top = stock.trims
    return Rect(left, bottom, max(0, stock.width - left - right), max(0, stock.height - bottom - top))


def batch_of(order: Order, stock: int) -> str:
    """The batch of a stock; one that has none named is its own."""
    return order.stock[stock].batch or f"\0{stock}"


def serves(stock: Stock, wanted: Wanted) -> bool:
    """Whether the grade of a stock is good enough for a part."""
    return wanted.grade == 0 or stock.grade <= wanted.grade


def ways(wanted: Wanted) -> tuple[tuple[int, int], ...]:
    """Width and height in which a part may lie: as it is and, where it may turn, turned."""
    if wanted.turns and wanted.width != wanted.height:
        return ((wanted.width, wanted.height), (wanted.height, wanted.width))
    return ((wanted.width, wanted.height),)


def fits(stock: Stock, wanted: Wanted) -> bool:
    """Whether a part finds a place on an empty piece: grade, trims and defects heeded."""
    return serves(stock, wanted) and any(_fits_so(stock, w, h) for w, h in ways(wanted))


def _fits_so(stock: Stock, width: int, height: int) -> bool:
    box = usable(stock)
    if width > box.width or height > box.height:
        return False
    xs = [box.x, *(d.x + d.width for d in stock.defects)]
    ys = [box.y, *(d.y + d.height for d in stock.defects)]
    right, top = box.x + box.width, box.y + box.height
    return any(
        box.x <= x <= right - width and box.y <= y <= top - height and is_clear(stock, Rect(x, y, width, height))
        for x in xs
        for y in ys
    )


def is_clear(stock: Stock, place: Rect) -> bool:
    """Whether no defect reaches into a place."""
    return not any(overlap(defect, place) for defect in stock.defects)


def overlap(one: Rect, other: Rect, apart: int = 0) -> bool:
    """Whether two rectangles come nearer to each other than `apart` along and across."""
    return (
        one.x < other.x + other.width + apart
        and other.x < one.x + one.width + apart
        and one.y < other.y + other.height + apart
        and other.y < one.y + one.height + apart
    )


def _pieces(plan: Plan) -> int:
    return sum(layout.copies for layout in plan.layouts)


def _area(one: Wanted | Stock) -> int:
    return one.width * one.height
