"""An order as the arrays the search works on, and trees back as layouts."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate

import numpy as np

from frontwright.cutting.counting import is_mixed, serves, ways
from frontwright.cutting.search.rebuild import Work
from frontwright.cutting.search.regions import Region, free_regions
from frontwright.cutting.search.tree import FIRST, FREE, ITEM, KIND, LEFT, NEXT, PART, ROW, STACK, H, Ints, Trees, W
from frontwright.cutting.values import Direction, Layout, Order, Placed, Rect, Stock

_DEEPEST = 10**6
_MANY = 1_000  # parts up to which costs are told apart where some stock goes before other
_FINE = 10**5  # costs are told apart so finely where pieces come first
_KINDS: dict[Direction | None, int] = {None: FREE, "across": ROW, "along": STACK}


@dataclass(frozen=True, slots=True)
class Form:
    """Pieces that are alike to the search: of one stock, with what is pinned on them."""

    stock: int
    pieces: int
    regions: tuple[Region, ...]
    pinned: tuple[Placed, ...] = ()


@dataclass(frozen=True, slots=True)
class Task:
    """The arrays of an order, what each of the parts is (position in `wanted`) and what each piece is."""

    order: Order
    work: Work
    items: tuple[int, ...]
    forms: tuple[Form, ...]
    prices: tuple[int, ...]  # of each form

    @property
    def area(self) -> int:
        """Of all parts, a kerf larger each way."""
        sizes = self.work.sizes.astype(np.int64)
        return int((sizes[:, 0] * sizes[:, 1]).sum())


def task_of(order: Order, batches: dict[str, set[int]] | None = None, use_rest: bool = True) -> Task:
    """The task of an order. `batches`: from which stocks each group may come; `use_rest`: of pinned pieces too."""
    kerf = order.saw.kerf
    forms = _forms(order, use_rest)
    prices = prices_of(order)
    allowed = [[_may(order, i, form, batches) for form in forms] for i in range(len(order.wanted))]
    items = tuple(i for i in _items(order) if any(allowed[i]))
    sizes = [(order.wanted[i].width + kerf, order.wanted[i].height + kerf) for i in items]
    turns = [order.wanted[i].turns for i in items]
    regions = [
        _region_row(order, region, n)
        for n, form in enumerate(forms)
        for _ in range(form.pieces)
        for region in form.regions
    ]
    worth = [
        float(order.wanted[i].value if order.wish == "most value" else w * h)
        for i, (w, h) in zip(items, sizes, strict=True)
    ]
    work = Work(
        sizes=np.array(sizes, np.int64).reshape(len(items), 2),
        worth=np.array(worth, np.float64),
        turns=np.array(turns, np.bool_),
        allowed=np.array([allowed[i] for i in items], np.bool_).reshape(len(items), len(forms)),
        prices=np.array([0 if form.pinned else prices[form.stock] for form in forms], np.int64),
        pieces_of=_runs(form.pieces for form in forms),
        type_of=np.array([n for n, form in enumerate(forms) for _ in range(form.pieces)], np.int64),
        kept=np.array([bool(form.pinned) for form in forms for _ in range(form.pieces)], np.bool_),
        regions_of=_runs(len(form.regions) for form in forms for _ in range(form.pieces)),
        regions=np.array(regions, np.int64).reshape(len(regions), 5),
        least=_least(sizes, turns),
        levels=_DEEPEST if order.saw.levels is None else order.saw.levels,
    )
    return Task(order, work, items, forms, tuple(int(p) for p in work.prices))


def prices_of(order: Order) -> list[int]:
    """What a piece of each stock counts: what is bought, what is shared, pieces, cost; or as the wish tells."""
    most = max((s.cost for s in order.stock), default=0)
    many = 1 + sum(w.copies for w in order.wanted)
    if order.wish == "cheapest":
        return [s.cost * 2 + (not s.have) for s in order.stock]
    if order.wish == "best leftover":
        return [s.width * s.height for s in order.stock]
    fine = _FINE if many <= _MANY or not is_mixed(order) else 1  # the sum of all stays within 64 bits
    costs = [s.cost * fine // max(_FINE, most) for s in order.stock]
    one = fine * many if len(set(costs)) > 1 else 1
    if is_mixed(order):
        return [one * (1, 1 + many, 1 + many + many**2)[s.tier] + c for s, c in zip(order.stock, costs, strict=True)]
    return [one * (many + (not s.have)) + c for s, c in zip(order.stock, costs, strict=True)]


def _items(order: Order) -> tuple[int, ...]:
    """The parts one by one, without those that are pinned."""
    left = [w.copies for w in order.wanted]
    number = {w.id: n for n, w in enumerate(order.wanted)}
    for one in order.pinned:
        left[number[one.wanted]] -= 1
    return tuple(n for n, copies in enumerate(left) for _ in range(copies))


def _forms(order: Order, use_rest: bool) -> tuple[Form, ...]:
    number = {w.id: n for n, w in enumerate(order.wanted)}
    pinned: dict[tuple[str, int], list[Placed]] = defaultdict(list)
    for one in order.pinned:
        p = one.place
        pinned[one.stock, one.piece].append(Placed(number[one.wanted], p.x, p.y, p.width, p.height))
    forms: list[Form] = []
    for n, stock in enumerate(order.stock):
        own = [parts for (name, _), parts in pinned.items() if name == stock.id]
        for parts in own:
            regions = _regions(order, stock, parts) if use_rest else ()
            forms.append(Form(n, 1, regions, tuple(parts)))
        pieces = _most_pieces(order, stock)
        if stock.copies is not None:
            pieces = min(pieces, stock.copies - len(own))
        regions = _regions(order, stock, [])
        if pieces > 0 and regions:
            forms.append(Form(n, pieces, regions))
    return tuple(forms)


def _regions(order: Order, stock: Stock, parts: Sequence[Placed]) -> tuple[Region, ...]:
    places = tuple(Rect(p.x, p.y, p.width, p.height) for p in parts)
    return tuple(free_regions(stock, order.saw.kerf, order.saw.first, places))


def _most_pieces(order: Order, stock: Stock) -> int:
    """As many as could be needed: one a part, or a quarter of each filled."""
    if order.wish in ("most value", "shortest"):
        return 1
    parts = sum(w.copies for w in order.wanted)
    area = sum((w.width + order.saw.kerf) * (w.height + order.saw.kerf) * w.copies for w in order.wanted)
    return min(parts, 8 + 4 * area // max(1, stock.width * stock.height))


def _may(order: Order, item: int, form: Form, batches: dict[str, set[int]] | None) -> bool:
    """Whether a part may come from these pieces and one of their free regions holds it."""
    wanted, kerf = order.wanted[item], order.saw.kerf
    if not serves(order.stock[form.stock], wanted):
        return False
    if batches is not None and wanted.group in batches and form.stock not in batches[wanted.group]:
        return False
    return any(w + kerf <= r.width and h + kerf <= r.height for r in form.regions for w, h in ways(wanted))


def _region_row(order: Order, region: Region, form: int) -> tuple[int, int, int, int, int]:
    kind = _KINDS[order.saw.first] if region.depth == 0 else FREE
    return (region.width, region.height, form, region.depth, kind)


def _runs(counts: Iterable[int]) -> Ints:
    return np.array([0, *accumulate(counts)], np.int64)


def _least(sizes: list[tuple[int, int]], turns: list[bool]) -> Ints:
    wide = min((min(s) if t else s[0] for s, t in zip(sizes, turns, strict=True)), default=0)
    high = min((min(s) if t else s[1] for s, t in zip(sizes, turns, strict=True)), default=0)
    return np.array([wide, high], np.int64)


def layouts_of(task: Task, trees: Trees) -> list[Layout]:
    """The pieces in use as layouts, each with what is pinned on it; leftovers lie right and on top."""
    found: list[Layout] = []
    work, nodes = task.work, trees.nodes.tolist()
    for piece in np.flatnonzero(trees.in_use).tolist():
        form = task.forms[work.type_of[piece]]
        placed = list(form.pinned)
        for region, r in zip(form.regions, range(work.regions_of[piece], work.regions_of[piece + 1]), strict=True):
            _lay(task, nodes, int(trees.roots[r]), region.x, region.y, placed)
        if placed:
            found.append(Layout(form.stock, tuple(placed)))
    return found


def _lay(task: Task, nodes: list[list[int]], n: int, x: int, y: int, placed: list[Placed]) -> None:
    node, kerf = nodes[n], task.order.saw.kerf
    if node[KIND] == PART:
        placed.append(Placed(task.items[node[ITEM]], x, y, node[W] - kerf, node[H] - kerf))
    if node[KIND] not in (ROW, STACK):
        return
    side = W if node[KIND] == ROW else H
    for child in _in_order(nodes, node, side):
        _lay(task, nodes, child, x, y, placed)
        if side == W:
            x += nodes[child][W]
        else:
            y += nodes[child][H]


def _in_order(nodes: list[list[int]], node: list[int], side: int) -> list[int]:
    """Children of a row or stack without its leftover: large ones first, the one with most to spare at its end last."""
    children: list[int] = []
    child = node[FIRST]
    while child >= 0:
        if nodes[child][KIND] != LEFT:
            children.append(child)
        child = nodes[child][NEXT]
    children.sort(key=lambda c: (nodes[c][side] - _used(nodes, c, side), -nodes[c][side]))
    return children


def _used(nodes: list[list[int]], n: int, side: int) -> int:
    """As `narrowing.used`, for lists."""
    node = nodes[n]
    if node[KIND] not in (ROW, STACK):
        return 0 if node[KIND] == LEFT else node[side]
    children: list[int] = []
    child = node[FIRST]
    while child >= 0:
        if nodes[child][KIND] != LEFT:
            children.append(child)
        child = nodes[child][NEXT]
    used = [_used(nodes, c, side) for c in children]
    if (node[KIND] == ROW) != (side == W):
        return max(used, default=0)
    slack = max((nodes[c][side] - u for c, u in zip(children, used, strict=True)), default=0)
    return sum(nodes[c][side] for c in children) - slack
