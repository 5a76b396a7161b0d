"""Less than this cannot be done: bounds from dual feasible functions and areas, for parts and pieces with their kerf.

Fekete & Schepers 2001; Carlier, Clautiaux & Moukrim 2007. A dual feasible function turns sizes into weights such that
what fits side by side in a length never weighs more than 1; the weights of a part in its two directions multiply. A
part that may turn weighs the lesser of its two ways.
"""

from __future__ import annotations

from math import ceil
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Weights = NDArray[np.float64]
_SLACK = 1e-7  # sums of weights are rounded up past this
_MANY = 200  # sizes from which fewer functions are tried
_MOST_STEPS = 60  # of each kind of function


class Kind(NamedTuple):
    """Parts of one size: width, height, how many, whether they may turn."""

    width: int
    height: int
    copies: int
    turns: bool


def least_pieces(kinds: list[Kind], width: int, height: int) -> int:
    """A number of pieces of one size below which no plan can be."""
    if not kinds:
        return 0
    copies = np.array([k.copies for k in kinds], np.float64)
    turned = np.array([k.turns and k.width != k.height for k in kinds])
    wide, high = [k.width for k in kinds], [k.height for k in kinds]
    either = [size for k in kinds if k.turns for size in (k.width, k.height)]
    straight = _weights(wide, width, wide + either), _weights(high, height, high + either)
    over = _weights(high, width, wide + either), _weights(wide, height, high + either)
    best = 0.0
    for n, row in enumerate(straight[0]):
        products = straight[1] * row
        if turned.any():
            # one function a direction, whichever way the part lies
            products = np.where(turned, np.minimum(products, over[1] * over[0][n]), products)
        best = max(best, float((products @ copies).max()))
    return ceil(best - _SLACK)


def _weights(sizes: list[int], length: int, steps: list[int]) -> Weights:
    """Weights of all sizes by every function, a row a function; the functions change at the sizes of `steps`."""
    x = np.array(sizes, np.int64)
    rows = [x / length]
    half = sorted({min(s, length - s) for s in steps if 0 < min(s, length - s) <= length // 2})
    step = max(1, len(half) * max(1, len(sizes) // _MANY) // _MOST_STEPS)
    rows += [_large_only(x, length, e) for e in half[::step]]
    rows += [_halves(x, length, e) for e in half[::step]]
    rows += [_stepped(x, length, k) for k in range(1, 9)]
    return np.array([np.where(x > length, 1.0, row) for row in rows])


def _large_only(x: NDArray[np.int64], length: int, e: int) -> Weights:
    """Nearly full lengths count as full, those below e not at all."""
    row = x / length
    row = np.where(x > length - e, 1.0, row)
    return np.where(x < e, 0.0, row)


def _stepped(x: NDArray[np.int64], length: int, k: int) -> Weights:
    """Rounded down to parts of k, except exact (k + 1)ths."""
    return np.where(((k + 1) * x) % length == 0, x / length, ((k + 1) * x) // length / k)


def _halves(x: NDArray[np.int64], length: int, k: int) -> Weights:
    """Counted in steps of k, what is over half by what it leaves."""
    whole = length // k
    over = 2 * (whole - (length - x) // k)
    row = np.where(2 * x > length, over, np.where(2 * x == length, whole, 2 * (x // k)))
    return row / (2 * whole)


def least_length(kinds: list[Kind], width: int) -> int:
    """A length below which no piece of this width can hold all parts."""
    wide, high = [k.width for k in kinds], np.array([k.height for k in kinds], np.float64)
    turned = np.array([k.turns and k.height <= width for k in kinds])
    steps = wide + [k.height for k in kinds if k.turns]
    copies = np.array([k.copies for k in kinds], np.float64)
    straight = _weights(wide, width, steps) * high
    over = _weights([k.height for k in kinds], width, steps) * np.array(wide, np.float64)
    products = np.where(turned, np.minimum(straight, over), straight)
    tallest = max((min(k.height, k.width) if t else k.height for k, t in zip(kinds, turned, strict=True)), default=0)
    return max(tallest, ceil(float((products @ copies).max()) - _SLACK)) if kinds else 0
