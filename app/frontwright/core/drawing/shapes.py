"""Plane geometry of the ground: shapes drawn in, hatched, and crowded things moved apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, floor, hypot, radians, sin

from frontwright.core.drawing.ink import Spot


def inset(spots: Sequence[Spot], by: float) -> tuple[Spot, ...]:
    """A simple closed shape with every edge moved inwards; as it is where it is too small for that."""
    ring = list(spots) if _area(spots) > 0 else list(reversed(spots))
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    if max(xs) - min(xs) <= 2 * by or max(ys) - min(ys) <= 2 * by:
        return tuple(ring)
    edges = [_moved(a, b, by) for a, b in zip(ring, ring[1:] + ring[:1], strict=True)]
    return tuple(_crossing(edges[i - 1], edges[i]) for i in range(len(edges)))


def _area(spots: Sequence[Spot]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(spots, [*spots[1:], spots[0]], strict=True)) / 2


def _moved(a: Spot, b: Spot, by: float) -> tuple[Spot, Spot]:
    """An edge of a shape that runs round to the left, moved to its left."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    long = hypot(dx, dy) or 1.0
    out = (-dy / long * by, dx / long * by)
    return (a[0] + out[0], a[1] + out[1]), (b[0] + out[0], b[1] + out[1])


def _crossing(first: tuple[Spot, Spot], second: tuple[Spot, Spot]) -> Spot:
    """Where two lines meet; where they run alike, the start of the second."""
    (ax, ay), (bx, by) = first
    (cx, cy), (dx, dy) = second
    bottom = (ax - bx) * (cy - dy) - (ay - by) * (cx - dx)
    if abs(bottom) < 1e-9:
        return cx, cy
    one, two = ax * by - ay * bx, cx * dy - cy * dx
    return (one * (cx - dx) - (ax - bx) * two) / bottom, (one * (cy - dy) - (ay - by) * two) / bottom


def inside(spots: Sequence[Spot], x: float, y: float) -> bool:
    """Whether a spot lies in a closed shape."""
    within = False
    for (ax, ay), (bx, by) in zip(spots, [*spots[1:], spots[0]], strict=True):
        if (ay > y) != (by > y) and x < (bx - ax) * (y - ay) / (by - ay) + ax:
            within = not within
    return within


def hatching(spots: Sequence[Spot], angle: int, apart: float) -> Iterator[tuple[Spot, Spot]]:
    """Lines inside a closed shape, rising at an angle in degrees, so far apart from each other."""
    turn = radians(angle)
    along, across = (cos(turn), sin(turn)), (-sin(turn), cos(turn))
    ring = [(x * along[0] + y * along[1], x * across[0] + y * across[1]) for x, y in spots]
    lowest, highest = min(v for _, v in ring), max(v for _, v in ring)
    level = (floor(lowest / apart) + 0.5) * apart
    while level < highest:
        for start, end in _spans(ring, level):
            yield (
                (start * along[0] + level * across[0], start * along[1] + level * across[1]),
                (end * along[0] + level * across[0], end * along[1] + level * across[1]),
            )
        level += apart


def _spans(ring: Sequence[Spot], level: float) -> list[tuple[float, float]]:
    cuts = sorted(
        ax + (level - ay) * (bx - ax) / (by - ay)
        for (ax, ay), (bx, by) in zip(ring, [*ring[1:], ring[0]], strict=True)
        if (ay > level) != (by > level)
    )
    return list(zip(cuts[::2], cuts[1::2], strict=True))


def spread(wanted: Sequence[float], sizes: Sequence[float], gap: float) -> list[float]:
    """Middles of things of these sizes, moved from where they are wanted by as little as keeps them `gap` apart.

    Things that touch move as one block, whose mean displacement is nought; order is kept.
    """
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    blocks: list[tuple[list[int], float, float]] = []  # members, where the block begins, its length
    for i in order:
        members, length = [i], sizes[i]
        begin = wanted[i] - sizes[i] / 2
        while blocks and blocks[-1][1] + blocks[-1][2] + gap > begin:
            before = blocks.pop()[0]
            members = before + members
            length = sum(sizes[j] for j in members) + gap * (len(members) - 1)
            begin = _mean_begin(members, wanted, sizes, gap)
        blocks.append((members, begin, length))
    return _middles(blocks, sizes, gap)


def _mean_begin(members: Sequence[int], wanted: Sequence[float], sizes: Sequence[float], gap: float) -> float:
    offset, total = 0.0, 0.0
    for j in members:
        total += wanted[j] - (offset + sizes[j] / 2)
        offset += sizes[j] + gap
    return total / len(members)


def _middles(blocks: Sequence[tuple[list[int], float, float]], sizes: Sequence[float], gap: float) -> list[float]:
    middles = [0.0] * len(sizes)
    for members, begin, _ in blocks:
        at = begin
        for j in members:
            middles[j] = at + sizes[j] / 2
            at += sizes[j] + gap
    return middles
