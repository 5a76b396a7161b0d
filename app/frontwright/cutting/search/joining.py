"""Parts that match: two of one height side by side, two of one width one above the other, and so on without waste.

Where an order was cut from whole pieces once (or is meant to fill them), pieces filled wholly are found this way and no
other; the sizes here include one kerf on the right and on top.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from time import monotonic

from frontwright.cutting.counting import serves, usable, ways
from frontwright.cutting.values import Layout, Order, Placed

_MOST_BLOCKS = 20_000
_MOST_LOOKS = 1_500_000  # at pairs
_MOST_LAYOUTS = 1_500  # of one stock
_FULL = 0.9  # of a piece that a block must fill to be worth a layout


@dataclass(frozen=True, slots=True)
class _Block:
    """Parts joined to a rectangle: which (a bit each), and the two blocks and the side by which it was joined."""

    width: int
    height: int
    parts: int
    item: int = -1
    low: _Block | None = None
    high: _Block | None = None
    across: bool = False  # high lies beside low, else above it


def may_join(order: Order, most: int) -> bool:
    """Whether so few parts are wanted that it pays to look, and no rule of the saw stands against deep cutting."""
    told = order.saw.first or order.saw.levels is not None or order.pinned or any(s.defects for s in order.stock)
    return not told and sum(w.copies for w in order.wanted) <= most


def joined(order: Order, until: float) -> list[Layout]:
    """Pieces filled by parts that match, the fullest of each stock; looks to the moment told at the latest."""
    blocks = _blocks(order, until)
    return [layout for n in range(len(order.stock)) for layout in _layouts(order, n, blocks)]


def _blocks(order: Order, until: float) -> list[_Block]:
    kerf = order.saw.kerf
    rooms = {(usable(s).width + kerf, usable(s).height + kerf) for s in order.stock}
    blocks, known = list[_Block](), set[tuple[int, int, int]]()
    of_height, of_width = defaultdict[int, list[_Block]](list), defaultdict[int, list[_Block]](list)

    def take(block: _Block) -> None:
        key = (block.width, block.height, block.parts)
        if key not in known and any(block.width <= w and block.height <= h for w, h in rooms):
            known.add(key)
            blocks.append(block)

    for block in _single(order):
        take(block)
    at = looks = 0
    while at < len(blocks) < _MOST_BLOCKS and looks < _MOST_LOOKS and monotonic() < until:
        one = blocks[at]
        at += 1
        for other in of_height[one.height]:
            if not one.parts & other.parts:
                both = one.parts | other.parts
                take(_Block(one.width + other.width, one.height, both, -1, one, other, across=True))
        for other in of_width[one.width]:
            if not one.parts & other.parts:
                take(_Block(one.width, one.height + other.height, one.parts | other.parts, -1, one, other))
        looks += len(of_height[one.height]) + len(of_width[one.width])
        of_height[one.height].append(one)
        of_width[one.width].append(one)
    return blocks


def _single(order: Order) -> Iterator[_Block]:
    kerf, number = order.saw.kerf, 0
    for item, wanted in enumerate(order.wanted):
        for _ in range(wanted.copies):
            for w, h in ways(wanted):
                yield _Block(w + kerf, h + kerf, 1 << number, item)
            number += 1


def _layouts(order: Order, stock: int, blocks: list[_Block]) -> Iterator[Layout]:
    piece, box, kerf = order.stock[stock], usable(order.stock[stock]), order.saw.kerf
    width, height = box.width + kerf, box.height + kerf
    good = [b for b in blocks if b.width <= width and b.height <= height]
    good = [b for b in good if b.width * b.height >= _FULL * width * height]
    good.sort(key=lambda b: -b.width * b.height)
    for block in good[:_MOST_LAYOUTS]:
        placed = tuple(_placed(block, box.x, box.y, kerf))
        if all(serves(piece, order.wanted[p.item]) for p in placed):
            yield Layout(stock, placed)


def _placed(block: _Block, x: int, y: int, kerf: int) -> Iterator[Placed]:
    waiting = [(block, x, y)]
    while waiting:
        one, x, y = waiting.pop()
        if one.low is None or one.high is None:
            yield Placed(one.item, x, y, one.width - kerf, one.height - kerf)
            continue
        waiting.append((one.low, x, y))
        waiting.append((one.high, x + one.low.width if one.across else x, y if one.across else y + one.low.height))
