"""One piece filled with what is worth most, each part as often as one likes: exactly, by dynamic programming.

Gilmore & Gomory 1966 over the raster points of Scheithauer & Terno: a rectangle is one part, or is cut in two at a
length that parts laid side by side come to. Where there are too many such lengths, parts are taken a little larger.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from frontwright.cutting.counting import usable, ways
from frontwright.cutting.search.compiled import compiled
from frontwright.cutting.values import Order, Placed

Points = NDArray[np.int64]
_LONGEST = 40_000
FINE, COARSE = 60_000_000, 3_000_000  # steps that filling a piece may take
_NONE, _PART, _ACROSS, _ALONG = range(4)


@dataclass(frozen=True, slots=True)
class Filling:
    """The points of one stock, and its parts as they may lie: part, width, height with their kerf."""

    x: int
    y: int
    kerf: int
    across: Points
    along: Points
    laid: tuple[tuple[int, int, int], ...]
    rounded: NDArray[np.int64]  # width and height as the points know them
    exact: bool


def filling_of(order: Order, stock: int, steps: int) -> Filling | None:
    """What is needed to fill a stock in so many steps; None where defects, told cuts or sheer size forbid it."""
    piece, kerf, box = order.stock[stock], order.saw.kerf, usable(order.stock[stock])
    if piece.defects or order.saw.first or order.saw.levels is not None:
        return None
    width, height = box.width + kerf, box.height + kerf
    laid = tuple(
        (n, w + kerf, h + kerf)
        for n, wanted in enumerate(order.wanted)
        if wanted.copies
        for w, h in ways(wanted)
        if w <= box.width and h <= box.height
    )
    if not laid or max(width, height) > _LONGEST:
        return None
    grain = 1
    while True:
        sizes = np.array([(-(-w // grain) * grain, -(-h // grain) * grain) for _, w, h in laid], np.int64)
        sizes = np.minimum(sizes, [width, height]) if grain > 1 else sizes
        across, along = _raster(sizes[:, 0], width), _raster(sizes[:, 1], height)
        if len(across) * len(along) * (len(across) + len(along)) // 4 <= steps:
            return Filling(box.x, box.y, kerf, across, along, laid, sizes, grain == 1)
        grain = max(grain + 1, grain * 5 // 4)


def _raster(sizes: Points, length: int) -> Points:
    """Lengths at which cuts need be thought of."""
    reached = np.zeros(length + 1, np.bool_)
    reached[0] = True
    for size in np.unique(sizes).tolist():
        for start in range(0, length + 1 - size, size):  # whole blocks at once: each takes over the one before
            block = reached[start : start + size]
            ahead = reached[start + size : start + 2 * size]
            ahead |= block[: len(ahead)]
    points = np.flatnonzero(reached)
    down = points[np.searchsorted(points, length - points, side="right") - 1]
    return np.unique(down)


@compiled
def _fill(
    across: Points, along: Points, worth: NDArray[np.float64], sizes: Points, best: NDArray[np.float64], choice: Points
) -> None:
    """Worth of each rectangle of points, and how it comes about: kind and part, or kind and point of the cut."""
    wide, high = across.shape[0], along.shape[0]
    for a in range(wide):
        for b in range(high):
            best[a, b], choice[a, b, 0], choice[a, b, 1] = 0.0, 0, -1
    for n in range(sizes.shape[0]):
        if worth[n] <= 0.0:
            continue
        for a in range(wide - 1, -1, -1):
            if across[a] < sizes[n, 0]:
                break
            for b in range(high - 1, -1, -1):
                if along[b] < sizes[n, 1]:
                    break
                if worth[n] > best[a, b]:
                    best[a, b], choice[a, b, 0], choice[a, b, 1] = worth[n], 1, n
    for a in range(wide):
        for b in range(high):
            now, kind, cut = best[a, b], choice[a, b, 0], choice[a, b, 1]
            rest = a
            for c in range(1, a):
                if 2 * across[c] > across[a]:
                    break
                while across[rest] > across[a] - across[c]:
                    rest -= 1
                both = best[c, b] + best[rest, b]
                if both > now:
                    now, kind, cut = both, 2, c
            rest = b
            for c in range(1, b):
                if 2 * along[c] > along[b]:
                    break
                while along[rest] > along[b] - along[c]:
                    rest -= 1
                both = best[a, c] + best[a, rest]
                if both > now:
                    now, kind, cut = both, 3, c
            best[a, b], choice[a, b, 0], choice[a, b, 1] = now, kind, cut


def fill(filling: Filling, worth: Sequence[float]) -> tuple[float, tuple[Placed, ...]]:
    """The most that a piece can hold at these worths of the parts, and where they lie."""
    wide, high = len(filling.across), len(filling.along)
    best, choice = np.zeros((wide, high)), np.zeros((wide, high, 2), np.int64)
    values = np.array([worth[n] for n, _, _ in filling.laid], np.float64)
    _fill(filling.across, filling.along, values, filling.rounded, best, choice)
    placed: list[Placed] = []
    waiting = [(wide - 1, high - 1, filling.x, filling.y)]
    while waiting:
        a, b, x, y = waiting.pop()
        kind, cut = int(choice[a, b, 0]), int(choice[a, b, 1])
        if kind == _PART:
            n, w, h = filling.laid[cut]
            placed.append(Placed(n, x, y, w - filling.kerf, h - filling.kerf))
        elif kind == _ACROSS:
            at = int(filling.across[cut])
            rest = int(np.searchsorted(filling.across, filling.across[a] - at, side="right")) - 1
            waiting += [(cut, b, x, y), (rest, b, x + at, y)]
        elif kind == _ALONG:
            at = int(filling.along[cut])
            rest = int(np.searchsorted(filling.along, filling.along[b] - at, side="right")) - 1
            waiting += [(a, cut, x, y), (a, rest, x, y + at)]
    return float(best[-1, -1]), tuple(placed)
