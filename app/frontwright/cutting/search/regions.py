"""What is free of a piece beside its defects and the parts pinned on it: rectangles parted by straight cuts."""

from __future__ import annotations

from dataclasses import dataclass

from frontwright.cutting.counting import usable
from frontwright.cutting.values import Direction, Rect, Stock


@dataclass(frozen=True, slots=True)
class Region:
    """A free rectangle, one kerf larger on the right and on top than what is laid there; `depth` turns of the cut."""

    x: int
    y: int
    width: int
    height: int
    depth: int = 0


@dataclass(frozen=True, slots=True)
class _Block:
    """What no part may cover, from and to, in sizes that include the kerf; a solid one may not be cut through."""

    left: int
    right: int
    low: int
    high: int
    solid: bool


def free_regions(stock: Stock, kerf: int, first: Direction | None, pinned: tuple[Rect, ...] = ()) -> list[Region]:
    """The free regions of a piece. Where its pinned parts cannot be parted by straight cuts, those that can."""
    box = usable(stock)
    if box.width <= 0 or box.height <= 0:
        return []
    blocks = [_defect(one, kerf) for one in stock.defects]
    blocks += [_Block(p.x, p.x + p.width + kerf, p.y, p.y + p.height + kerf, solid=True) for p in pinned]
    return _parted(Region(box.x, box.y, box.width + kerf, box.height + kerf), blocks, kerf, first, None)


def _defect(defect: Rect, kerf: int) -> _Block:
    """A part may end where a defect begins: the kerf behind it runs in the defect."""
    left, low = defect.x + kerf, defect.y + kerf
    return _Block(left, max(left, defect.x + defect.width), low, max(low, defect.y + defect.height), solid=False)


def _parted(
    region: Region, blocks: list[_Block], kerf: int, first: Direction | None, made_by: Direction | None
) -> list[Region]:
    inside = [b for b in blocks if _meets(region, b)]
    if region.width <= kerf or region.height <= kerf:
        return []
    if not inside:
        return [region]
    cut = _best_cut(region, inside, first)
    if cut is None:
        return []
    direction, at = cut
    depth = region.depth + (direction != made_by)
    return [
        found for side in _sides(region, direction, at, depth) for found in _parted(side, inside, kerf, None, direction)
    ]


def _meets(region: Region, block: _Block) -> bool:
    return (
        block.left < region.x + region.width
        and block.right > region.x
        and block.low < region.y + region.height
        and block.high > region.y
    )


def _sides(region: Region, direction: Direction, at: int, depth: int) -> tuple[Region, Region]:
    if direction == "across":
        width = at - region.x
        rest = region.width - width
        return (
            Region(region.x, region.y, width, region.height, depth),
            Region(at, region.y, rest, region.height, depth),
        )
    height = at - region.y
    rest = region.height - height
    return (Region(region.x, region.y, region.width, height, depth), Region(region.x, at, region.width, rest, depth))


def _best_cut(region: Region, blocks: list[_Block], first: Direction | None) -> tuple[Direction, int] | None:
    """The cut that sets the largest clear rectangle free; where none does, the one nearest to the middle."""
    best: tuple[tuple[int, int], Direction, int] | None = None
    for direction, at in _cuts(region, blocks, first):
        sides = _sides(region, direction, at, 0)
        clear = max((s.width * s.height for s in sides if not any(_meets(s, b) for b in blocks)), default=0)
        lean = -abs(sides[0].width * sides[0].height - sides[1].width * sides[1].height)
        if best is None or (clear, lean) > best[0]:
            best = ((clear, lean), direction, at)
    return None if best is None else best[1:]


def _cuts(region: Region, blocks: list[_Block], first: Direction | None) -> list[tuple[Direction, int]]:
    found: list[tuple[Direction, int]] = []
    if first in (None, "across"):
        edges = {e for b in blocks for e in (b.left, b.right) if region.x < e < region.x + region.width}
        found += [("across", e) for e in sorted(edges) if not any(b.solid and b.left < e < b.right for b in blocks)]
    if first in (None, "along"):
        edges = {e for b in blocks for e in (b.low, b.high) if region.y < e < region.y + region.height}
        found += [("along", e) for e in sorted(edges) if not any(b.solid and b.low < e < b.high for b in blocks)]
    return found
