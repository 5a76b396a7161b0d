"""What is clear of a piece: rectangles of its face that no bad place touches, parted by cuts from edge to edge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from frontwright.core.lengths import ZERO, Length
from frontwright.core.stock.result import Clear, Offer

type _Span = tuple[int, int]
type _Box = tuple[_Span, _Span]  # along and across, from and to


def stretches(offer: Offer, kerf: Length = ZERO) -> tuple[Clear, ...]:
    """Clear stretches of an offer over its usable width, from the left, a kerf apart."""
    along, across = _usable(offer)
    bad = [one[0] for one in _bad(offer)]
    return tuple(_clear((span, across)) for span in _between(along, bad, kerf.units))


def ways_round(offer: Offer, kerf: Length) -> tuple[tuple[Clear, ...], ...]:
    """Ways to part an offer round its bad places: crosscut at them first and what lies beside them ripped off, or
    ripped first. The rectangles of one way lie a kerf apart."""
    bad = _bad(offer)
    if not bad:
        return (stretches(offer),)
    ways = (tuple(_round(_usable(offer), bad, axis, kerf.units)) for axis in (0, 1))
    return tuple(tuple(_clear(box) for box in boxes) for boxes in ways)


def has_room(offer: Offer, sizes: Iterable[tuple[int, int]]) -> bool:
    """Whether a part of one of these sizes (units along and across) lies somewhere on the offer clear of bad places."""
    (left, right), (low, high) = _usable(offer)
    bad = _bad(offer)
    xs = sorted({left, *(end for (_, end), _ in bad if left < end < right)})
    ys = sorted({low, *(end for _, (_, end) in bad if low < end < high)})
    return any(
        x + long <= right
        and y + wide <= high
        and not any(a[0] < x + long and x < a[1] and b[0] < y + wide and y < b[1] for a, b in bad)
        for long, wide in _smallest(sizes)
        for x in xs
        for y in ys
    )


def _smallest(sizes: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Those that no other is smaller than both ways: where these find no room, none does."""
    narrowest: int | None = None
    for long, wide in sorted(set(sizes)):
        if narrowest is None or wide < narrowest:
            narrowest = wide
            yield long, wide


def _usable(offer: Offer) -> _Box:
    left, _, low, _ = offer.trims
    long, wide = offer.usable
    return (left.units, (left + long).units), (low.units, (low + wide).units)


def _bad(offer: Offer) -> list[_Box]:
    """The bad places that reach into the usable face, clipped to it."""
    (left, right), (low, high) = _usable(offer)
    boxes = [
        (
            (max(left, d.along.units), min(right, (d.along + d.length).units)),
            (max(low, d.across.units), min(high, (d.across + d.width).units)),
        )
        for d in offer.defects
    ]
    return [one for one in boxes if one[0][0] < one[0][1] and one[1][0] < one[1][1]]


def _between(whole: _Span, bad: Iterable[_Span], kerf: int) -> Iterator[_Span]:
    """What lies between bad spans; the saw takes its kerf of the good wood after one that is narrower."""
    at, end = whole
    for low, high in sorted(bad):
        if low > at:
            yield at, low
            at = low + kerf
        at = max(at, high)
    if end > at:
        yield at, end


def _merged(spans: Iterable[_Span]) -> Iterator[_Span]:
    low: int | None = None
    high = 0
    for start, end in sorted(spans):
        if low is None or start > high:
            if low is not None:
                yield low, high
            low, high = start, end
        high = max(high, end)
    if low is not None:
        yield low, high


def _round(whole: _Box, bad: Sequence[_Box], axis: int, kerf: int) -> Iterator[_Box]:
    """Clear bands across `axis` between the bad places, then what is clear beside each of these."""
    spans = list(_merged(one[axis] for one in bad))
    for span in _between(whole[axis], spans, kerf):
        yield _box(span, whole[1 - axis], axis)
    for low, high in spans:
        here = [one[1 - axis] for one in bad if one[axis][0] < high and low < one[axis][1]]
        start = low + (kerf if low > whole[axis][0] else 0)
        end = high - (kerf if high < whole[axis][1] else 0)
        if start < end:
            for beside in _between(whole[1 - axis], here, kerf):
                yield _box((start, end), beside, axis)


def _box(along_axis: _Span, other: _Span, axis: int) -> _Box:
    return (along_axis, other) if axis == 0 else (other, along_axis)


def _clear(box: _Box) -> Clear:
    (left, right), (low, high) = box
    return Clear(Length(left), Length(low), Length(right - left), Length(high - low))
