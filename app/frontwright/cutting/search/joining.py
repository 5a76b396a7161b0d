"""Parts that match: two of one height side by side, two of one width one above the other, and so on without waste.

Where an order was cut from whole pieces once (or is meant to fill them), pieces filled wholly are found this way and no
other; the sizes here include one kerf on the right and on top.
"""

from __future__ import annotations

from collections.abc import Iterator
from time import monotonic

import numpy as np

from frontwright.cutting.counting import serves, usable, ways
from frontwright.cutting.search.matching import ACROSS, COUNT, HIGH, LOW, Blocks, H, W, blocks_for, grow
from frontwright.cutting.values import Layout, Order, Placed

_MOST_BLOCKS = 400_000
_LOOKS = 2_000_000  # at pairs, between two looks at the clock
_MOST_LAYOUTS = 1_500  # of one stock
_FULL = 0.9  # of a piece that a block must fill to be worth a layout


def may_join(order: Order, most: int) -> bool:
    """Whether so few parts are wanted that it pays to look, and no rule of the saw stands against deep cutting."""
    told = order.saw.first or order.saw.levels is not None or order.pinned or any(s.defects for s in order.stock)
    return not told and sum(w.copies for w in order.wanted) <= most


def joined(order: Order, until: float) -> list[Layout]:
    """Pieces filled by parts that match, the fullest of each stock; looks to the moment told at the latest."""
    kerf = order.saw.kerf
    rooms = sorted({(usable(s).width + kerf, usable(s).height + kerf) for s in order.stock})
    kinds = [n for n, wanted in enumerate(order.wanted) if wanted.copies]
    singles = [(w + kerf, h + kerf, at) for at, n in enumerate(kinds) for w, h in ways(order.wanted[n])]
    blocks = blocks_for(singles, [order.wanted[n].copies for n in kinds], rooms, _MOST_BLOCKS)
    while grow(blocks, _LOOKS) and monotonic() < until:
        pass
    return [layout for n in range(len(order.stock)) for layout in _layouts(order, n, blocks, kinds)]


def _layouts(order: Order, stock: int, blocks: Blocks, kinds: list[int]) -> Iterator[Layout]:
    piece, box, kerf = order.stock[stock], usable(order.stock[stock]), order.saw.kerf
    width, height = box.width + kerf, box.height + kerf
    rows = blocks.rows[: blocks.state[COUNT]]
    areas = rows[:, W] * rows[:, H]
    good = np.flatnonzero((rows[:, W] <= width) & (rows[:, H] <= height) & (areas >= _FULL * width * height))
    for block in good[np.argsort(-areas[good], kind="stable")][:_MOST_LAYOUTS].tolist():
        placed = tuple(_placed(order, blocks, block, kinds, (box.x, box.y)))
        if all(serves(piece, order.wanted[p.item]) for p in placed):
            yield Layout(stock, placed)


def _placed(order: Order, blocks: Blocks, block: int, kinds: list[int], at: tuple[int, int]) -> Iterator[Placed]:
    kerf, waiting = order.saw.kerf, [(block, *at)]
    while waiting:
        one, x, y = waiting.pop()
        row = blocks.rows[one].tolist()
        if row[LOW] < 0:
            yield Placed(kinds[row[HIGH]], x, y, row[W] - kerf, row[H] - kerf)
            continue
        low = blocks.rows[row[LOW]].tolist()
        waiting.append((row[LOW], x, y))
        waiting.append((row[HIGH], x + low[W] if row[ACROSS] else x, y if row[ACROSS] else y + low[H]))
