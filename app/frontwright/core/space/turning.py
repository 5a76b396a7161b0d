"""Turning about an edge, in plan: how far until one thing touches another (F23).

Lengths come in exact and become plain numbers of a millimetre here, because an arc cosine has no exact value; what
leaves is an angle in degrees, rounded to a hundredth.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import acos, asin, atan, atan2, cos, degrees, hypot, pi, sin, sqrt

from frontwright.core.lengths import MM, Exact, in_units

type Spot = tuple[float, float]
type Edge = tuple[Spot, Spot]

HALF_TURN = 180.0
_SLIGHT = 1e-5  # a first slight turn, in radians: what is touched then was in the way from the start
_NONE = 1e-9


def plain(length: Exact) -> float:
    """A length as a number of millimetres, for angles only."""
    return float(in_units(length)) / MM.units


def hundredth(angle: float) -> Fraction:
    """Degrees, rounded to a hundredth."""
    return Fraction(round(angle * 100), 100)


def against_wall(gap: Exact, at: Exact, projection: Exact) -> float:
    """F23: degrees until the point `at` from the hinge edge and `projection` before the face meets a wall that stands
    `gap` beside the hinge edge; a half turn where it never does."""
    g, a, p = plain(gap), plain(at), plain(projection)
    reach = hypot(a, p)
    if reach <= g:
        return HALF_TURN
    if reach <= -g:  # the wall stands beyond the whole of it: it does not open at all
        return 0.0
    return degrees(acos(-g / reach) - (atan(p / a) if a else pi / 2))


def gap_for(angle: Fraction, at: Exact, projection: Exact) -> float:
    """F23 turned round: millimetres beside the hinge edge that the same point takes to open to `angle`."""
    turn = float(angle) * pi / HALF_TURN
    return plain(projection) * sin(turn) - plain(at) * cos(turn)


def clear_of_drawer(width: Exact, thickness: Exact, room: Exact) -> float:
    """Degrees from which a door leaves an inner drawer its way, whose side is `room` inside the hinge edge.

    Until a right angle the free edge of the back is in the way, beyond it the hinge edge.
    """
    w, t, r = plain(width), plain(thickness), plain(room)
    if r < 0:
        return HALF_TURN
    if r < t:
        return HALF_TURN - degrees(asin(r / t))
    far = hypot(w, t)
    return degrees(atan2(t, w) + acos(min(r / far, 1.0)))


def edges_of(corners: Sequence[Spot]) -> list[Edge]:
    """The edges round a shape."""
    return list(pairwise([*corners, corners[0]]))


def first_touch(moving: Sequence[Edge], still: Sequence[Spot]) -> float:
    """Degrees that edges turn anticlockwise about 0, 0 until they touch a convex shape; a half turn at most."""
    if any(_crosses(_turned(edge, _SLIGHT), still) for edge in moving):
        return 0.0
    around = edges_of(still)
    turns = [turn for edge in moving for other in around for turn in _touches(edge, other)]
    return min([HALF_TURN, *(degrees(turn) for turn in turns if turn > _SLIGHT)])


def _touches(moving: Edge, still: Edge) -> Iterator[float]:
    """Turns at which an end of one of two edges lies on the other."""
    for spot in moving:
        for met in _at_reach(still, spot):
            yield (atan2(met[1], met[0]) - atan2(spot[1], spot[0])) % (2 * pi)
    for spot in still:
        for met in _at_reach(moving, spot):
            yield (atan2(spot[1], spot[0]) - atan2(met[1], met[0])) % (2 * pi)


def _at_reach(edge: Edge, spot: Spot) -> Iterator[Spot]:
    """Where an edge is as far from 0, 0 as a spot is."""
    (ax, ay), (bx, by) = edge
    dx, dy = bx - ax, by - ay
    long = dx * dx + dy * dy
    square = spot[0] * spot[0] + spot[1] * spot[1]
    if long < _NONE or square < _NONE:
        return
    middle = -(ax * dx + ay * dy) / long
    under = middle * middle - (ax * ax + ay * ay - square) / long
    if under < -1e-12:
        return
    half = sqrt(max(under, 0.0))
    for share in (middle - half, middle + half):
        if -_NONE <= share <= 1 + _NONE:
            yield ax + share * dx, ay + share * dy


def _turned(edge: Edge, by: float) -> Edge:
    (ax, ay), (bx, by_) = edge
    c, s = cos(by), sin(by)
    return (ax * c - ay * s, ax * s + ay * c), (bx * c - by_ * s, bx * s + by_ * c)


def _crosses(edge: Edge, shape: Sequence[Spot]) -> bool:
    """Whether an edge runs through the inside of a convex shape."""
    low, high = 0.0, 1.0
    (ax, ay), (bx, by) = edge
    way = 1.0 if _area(shape) > 0 else -1.0
    for (px, py), (qx, qy) in edges_of(shape):
        at = way * ((qx - px) * (ay - py) - (qy - py) * (ax - px))
        end = way * ((qx - px) * (by - py) - (qy - py) * (bx - px))
        if at <= _NONE and end <= _NONE:
            return False
        if at < 0 <= end:
            low = max(low, at / (at - end))
        elif end < 0 <= at:
            high = min(high, at / (at - end))
    return high - low > _NONE


def _area(shape: Sequence[Spot]) -> float:
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in edges_of(shape))
