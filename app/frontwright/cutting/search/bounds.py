"""Less than this cannot be done: bounds from dual feasible functions and areas, for parts and pieces with their kerf.

Fekete & Schepers 2001; Carlier, Clautiaux & Moukrim 2007. A dual feasible function turns sizes into weights such that
what fits side by side in a length never weighs more than 1; the weights of a part in its two directions multiply. A
part that may turn weighs the lesser of its two ways. Which functions tell most is found with rounded numbers; what they
tell is then summed in fractions.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

_Whole = NDArray[np.int64]
_MANY = 200  # sizes from which fewer functions are tried
_MOST_STEPS = 60  # of each kind of function


class Kind(NamedTuple):
    """Parts of one size: width, height, how many, whether they may turn."""

    width: int
    height: int
    copies: int
    turns: bool


class _Row(NamedTuple):
    """Weights of all sizes by one function, as whole numbers of `unit` in 1."""

    weights: _Whole
    unit: int

    def of(self, n: int) -> Fraction:
        return Fraction(int(self.weights[n]), self.unit)


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
    rounded = _rounded(straight[1]), _rounded(over[1])
    best, pair = -1.0, (0, 0)
    for n, row in enumerate(_rounded(straight[0])):
        products = rounded[0] * row
        if turned.any():
            # one function a direction, whichever way the part lies
            products = np.where(turned, np.minimum(products, rounded[1] * _rounded(over[0][n : n + 1])[0]), products)
        sums = products @ copies
        if sums.max() > best:
            best, pair = float(sums.max()), (n, int(sums.argmax()))
    across, along = pair
    total = Fraction(0)
    for n, kind in enumerate(kinds):
        weight = straight[0][across].of(n) * straight[1][along].of(n)
        if turned[n]:
            weight = min(weight, over[0][across].of(n) * over[1][along].of(n))
        total += weight * kind.copies
    return ceil(total)


def least_length(kinds: list[Kind], width: int) -> int:
    """A length below which no piece of this width can hold all parts."""
    if not kinds:
        return 0
    wide, high = [k.width for k in kinds], [k.height for k in kinds]
    turned = [k.turns and k.height <= width for k in kinds]
    steps = wide + [k.height for k in kinds if k.turns]
    straight, over = _weights(wide, width, steps), _weights(high, width, steps)
    products = _rounded(straight) * np.array(high, np.float64)
    products = np.where(turned, np.minimum(products, _rounded(over) * np.array(wide, np.float64)), products)
    row = int((products @ np.array([k.copies for k in kinds], np.float64)).argmax())
    total = Fraction(0)
    for n, kind in enumerate(kinds):
        weight = straight[row].of(n) * kind.height
        total += (min(weight, over[row].of(n) * kind.width) if turned[n] else weight) * kind.copies
    tallest = max(min(k.height, k.width) if t else k.height for k, t in zip(kinds, turned, strict=True))
    return max(tallest, ceil(total))


def _rounded(rows: Sequence[_Row]) -> NDArray[np.float64]:
    return np.array([row.weights / row.unit for row in rows])


def _weights(sizes: list[int], length: int, steps: list[int]) -> list[_Row]:
    """Weights of all sizes by every function; the functions change at the sizes of `steps`."""
    x = np.array(sizes, np.int64)
    rows = [_Row(x, length)]
    half = sorted({min(s, length - s) for s in steps if 0 < min(s, length - s) <= length // 2})
    step = max(1, len(half) * max(1, len(sizes) // _MANY) // _MOST_STEPS)
    rows += [_large_only(x, length, e) for e in half[::step]]
    rows += [_halves(x, length, e) for e in half[::step]]
    rows += [_stepped(x, length, k) for k in range(1, 9)]
    return [_Row(np.where(x > length, row.unit, row.weights), row.unit) for row in rows]


def _large_only(x: _Whole, length: int, e: int) -> _Row:
    """Nearly full lengths count as full, those below e not at all."""
    return _Row(np.where(x < e, 0, np.where(x > length - e, length, x)), length)


def _stepped(x: _Whole, length: int, k: int) -> _Row:
    """Rounded down to parts of k, except exact (k + 1)ths."""
    return _Row(np.where(((k + 1) * x) % length == 0, k * x, ((k + 1) * x) // length * length), k * length)


def _halves(x: _Whole, length: int, k: int) -> _Row:
    """Counted in steps of k, what is over half by what it leaves."""
    whole = length // k
    over = 2 * (whole - (length - x) // k)
    return _Row(np.where(2 * x > length, over, np.where(2 * x == length, whole, 2 * (x // k))), 2 * whole)
