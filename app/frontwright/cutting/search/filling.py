"""One piece filled with what is worth most, each part as often as one likes: exactly, by dynamic programming.

Gilmore & Gomory 1966 over the raster points of Scheithauer & Terno: a rectangle is one part, or is cut in two at a
length that parts laid side by side come to. Where there are too many such lengths, parts are taken a little larger.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from frontwright.cutting.counting import usable, ways
from frontwright.cutting.search.compiled import compiled
from frontwright.cutting.values import Order, Placed

Points = NDArray[np.int64]
_LONGEST = 40_000
FINE, COARSE = 60_000_000, 3_000_000  # steps that filling a piece may take
_PART, _ACROSS, _ALONG = 1, 2, 3


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


class _Grid(NamedTuple):
    """Worth of each rectangle of points, and how it comes about: nothing, a part, or a cut at a point."""

    across: Points
    along: Points
    best: NDArray[np.float64]
    kind: Points
    what: Points


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
        filling = Filling(box.x, box.y, kerf, across, along, laid, sizes, grain == 1)
        if steps_of(filling) <= steps:
            return filling
        grain = max(grain + 1, grain * 5 // 4)


def steps_of(filling: Filling) -> int:
    """How many cuts are looked at to fill the stock."""
    wide, high = len(filling.across), len(filling.along)
    return wide * high * (wide + high) // 4


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
def _best_cut(points: Points, line: NDArray[np.float64], at: int) -> tuple[float, int]:
    """The best of all cuts that divide a side at point `at` in two; `line`: the worth at each point of that side."""
    most, cut, rest = 0.0, -1, at
    for c in range(1, at):
        if 2 * points[c] > points[at]:
            break
        while points[rest] > points[at] - points[c]:
            rest -= 1
        both = line[c] + line[rest]
        if both > most:
            most, cut = both, c
    return most, cut


@compiled
def _lay_parts(filling: _Grid, worth: NDArray[np.float64], sizes: Points) -> None:
    """What each rectangle is worth with a single part in it."""
    filling.best[:] = 0.0
    filling.kind[:] = 0
    for n in range(sizes.shape[0]):
        if worth[n] > 0.0:
            for a in range(np.searchsorted(filling.across, sizes[n, 0]), filling.across.shape[0]):
                for b in range(np.searchsorted(filling.along, sizes[n, 1]), filling.along.shape[0]):
                    if worth[n] > filling.best[a, b]:
                        filling.best[a, b], filling.kind[a, b], filling.what[a, b] = worth[n], _PART, n


@compiled
def _cut_all(filling: _Grid) -> None:
    """What each rectangle is worth cut in two, the small ones first."""
    for a in range(filling.across.shape[0]):
        for b in range(filling.along.shape[0]):
            most, cut = _best_cut(filling.across, filling.best[:, b], a)
            if most > filling.best[a, b]:
                filling.best[a, b], filling.kind[a, b], filling.what[a, b] = most, _ACROSS, cut
            most, cut = _best_cut(filling.along, filling.best[a], b)
            if most > filling.best[a, b]:
                filling.best[a, b], filling.kind[a, b], filling.what[a, b] = most, _ALONG, cut


def fill(filling: Filling, worth: Sequence[float]) -> tuple[float, tuple[Placed, ...]]:
    """The most that a piece can hold at these worths of the parts, and where they lie."""
    return fill_ways(filling, worth, 1)[0]


def fill_ways(filling: Filling, worth: Sequence[float], most: int) -> list[tuple[float, tuple[Placed, ...]]]:
    """So many ways to fill a piece at these worths, each with another first cut: the one worth most comes first."""
    wide, high = len(filling.across), len(filling.along)
    shape = (wide, high)
    grid = _Grid(filling.across, filling.along, np.zeros(shape), np.zeros(shape, np.int64), np.zeros(shape, np.int64))
    values = np.array([worth[n] for n, _, _ in filling.laid], np.float64)
    _lay_parts(grid, values, filling.rounded)
    _cut_all(grid)
    best = float(grid.best[-1, -1])
    found = [(best, _placed(filling, grid))]
    for value, kind, cut in _first_cuts(grid)[: most - 1] if most > 1 else ():
        grid.kind[-1, -1], grid.what[-1, -1] = kind, cut
        found.append((value, _placed(filling, grid)))
    return found


def _first_cuts(grid: _Grid) -> list[tuple[float, int, int]]:
    """All first cuts but the chosen one: worth, kind, point, the one worth most first."""
    found = list[tuple[float, int, int]]()
    for points, line, kind in ((grid.across, grid.best[:, -1], _ACROSS), (grid.along, grid.best[-1], _ALONG)):
        cuts = np.flatnonzero(2 * points <= points[-1])[1:]
        rests = np.searchsorted(points, points[-1] - points[cuts], side="right") - 1
        both = line[cuts] + line[rests]
        found += [(float(v), kind, int(c)) for v, c in zip(both, cuts, strict=True)]
    chosen = (int(grid.kind[-1, -1]), int(grid.what[-1, -1]))
    return sorted((one for one in found if one[1:] != chosen), reverse=True)


def _placed(filling: Filling, grid: _Grid) -> tuple[Placed, ...]:
    """Where the parts lie."""
    placed: list[Placed] = []
    waiting = [(len(filling.across) - 1, len(filling.along) - 1, filling.x, filling.y)]
    while waiting:
        a, b, x, y = waiting.pop()
        kind, cut = int(grid.kind[a, b]), int(grid.what[a, b])
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
    return tuple(placed)
