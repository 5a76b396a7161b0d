"""A layout as the cuts that make it, in the order made: trims, then all cuts of one direction, then of the other.

Cuts of one turn are made together, the longest setting first, so that equal widths share a fence and equal lengths a
stop. What comes off and is no part is a remainder, named by size: R1 is the largest.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from frontwright.cutting.checker import split
from frontwright.cutting.counting import usable
from frontwright.cutting.values import Direction, Layout, Order, Placed, Plan, Rect

Kind = Literal["part", "rest", "piece"]


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut: its turn (0 for a trim), what it cuts, the band that the saw takes, and what comes off at `setting`.

    `setting` is the width of what comes off, where the fence or stop stands. `number` counts from 1 as they are made.
    """

    number: int
    turn: int
    direction: Direction
    setting: int
    band: Rect
    of: Rect
    takes: Rect


@dataclass(frozen=True, slots=True)
class Piece:
    """A node of the tree of cuts: a part, a remainder (with its name), or what is cut further."""

    place: Rect
    kind: Kind
    item: int | None = None
    name: str = ""
    pieces: tuple[Piece, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """Cuts at one setting in one turn: a row of the cutting sheet. `cuts` are their numbers on one piece of stock."""

    turn: int
    direction: Direction
    setting: int
    count: int
    cuts: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class CutPlan:
    """A layout as cuts: the tree, the cuts in order, their rows, and the remainders, the largest first."""

    tree: Piece
    cuts: tuple[Cut, ...]
    rows: tuple[Row, ...]
    remainders: tuple[Piece, ...]

    @property
    def settings(self) -> int:
        """How often the saw is set."""
        return len(self.rows)


def cuts_of(order: Order, layout: Layout) -> CutPlan:
    """The cuts of a layout that passes the checker. Of the ways to begin, the one that leaves the largest remainder.

    Raises `ValueError` where the layout cannot be cut from edge to edge.
    """
    stock = order.stock[layout.stock]
    whole = Rect(0, 0, stock.width, stock.height)
    trims = list(_trims(whole, stock.trims, order.saw.kerf))
    box = usable(stock)
    plans = [_plan(order, layout, trims, box, way) for way in _beginnings(order, layout)]
    return min(plans, key=_leaves_less)


def _plan(order: Order, layout: Layout, trims: Sequence[Cut], box: Rect, way: _Way) -> CutPlan:
    tree, made = _Cutter(order.saw.kerf).cut(layout.placed, box, way)
    cuts = _in_order(trims, made)
    named, rests = _named(tree)
    return CutPlan(named, cuts, _rows(cuts), rests)


def _leaves_less(plan: CutPlan) -> tuple[int, int, int]:
    """Smaller is better: the largest remainder large, then few settings, then few cuts."""
    return (-max((_area(rest.place) for rest in plan.remainders), default=0), plan.settings, len(plan.cuts))


def rows_of(order: Order, plan: Plan) -> tuple[Row, ...]:
    """The rows of a whole plan's cutting sheet: widths and lengths of all pieces together, times their copies."""
    counts: dict[tuple[int, Direction, int], int] = {}
    for layout in plan.layouts:
        for cut in cuts_of(order, layout).cuts:
            key = (cut.turn, cut.direction, cut.setting)
            counts[key] = counts.get(key, 0) + layout.copies
    rows = sorted(counts.items(), key=lambda one: (one[0][0], one[0][1], -one[0][2]))
    return tuple(Row(turn, direction, setting, count) for (turn, direction, setting), count in rows)


# Ways to begin


_Way = tuple[Direction | None, bool]


def _beginnings(order: Order, layout: Layout) -> Iterator[_Way]:
    """The direction of the first cuts, and whether the end behind all parts is cut off before them."""
    for first in (order.saw.first,) if order.saw.first else ("along", "across"):
        across = first == "across"
        yield first, len(layout.placed) < 2 or len(split(layout.placed, order.saw.kerf, across)) == 1


def _trims(whole: Rect, trims: tuple[int, int, int, int], kerf: int) -> Iterator[Cut]:
    """Cuts that take the trims off, the kerf out of the trim."""
    left, right, bottom, top = trims
    rest = whole
    for across, at_end, size in ((True, False, left), (True, True, right), (False, False, bottom), (False, True, top)):
        begin, end = _span(rest, across)
        size = min(size, end - begin)
        if not size:
            continue
        saw = min(kerf, size)
        edge = end - size if at_end else begin + size - saw
        off = (edge + saw, end) if at_end else (begin, edge)
        takes, band = _slice(rest, *off, across), _slice(rest, edge, edge + saw, across)
        yield Cut(0, 0, _direction(across), size - saw, band, rest, takes)
        rest = _slice(rest, begin, end - size, across) if at_end else _slice(rest, begin + size, end, across)


class _Cutter:
    """Makes the tree of a layout and notes each cut with its turn and its way down the tree."""

    def __init__(self, kerf: int) -> None:
        self._kerf = kerf
        self._cuts: list[tuple[int, Cut]] = []

    def cut(self, parts: Sequence[Placed], box: Rect, way: _Way) -> tuple[Piece, list[tuple[int, Cut]]]:
        first, off = way
        across = first == "across"
        if off and parts:
            begin, end = _span(box, across)
            reach = max(p.x + p.width if across else p.y + p.height for p in parts)
            if reach < end:
                near = self._node(parts, _slice(box, begin, reach, across), not across, 2)
                pieces = self._segments(box, across, 1, [(begin, reach, near)])
                return Piece(box, "piece", pieces=pieces), self._cuts
        return self._node(parts, box, across, 1), self._cuts

    def _node(self, parts: Sequence[Placed], box: Rect, across: bool, turn: int) -> Piece:
        if not parts:
            return Piece(box, "rest")
        if len(parts) == 1:
            return self._single(parts[0], box, turn)
        groups = split(parts, self._kerf, across)
        if len(groups) == 1:
            across = not across
            groups = split(parts, self._kerf, across)
            if len(groups) == 1:
                raise ValueError("the parts of this layout cannot be parted by cuts from edge to edge")
        made = []
        for group in groups:
            low = min(_span(_place(p), across)[0] for p in group)
            high = max(_span(_place(p), across)[1] for p in group)
            made.append((low, high, self._node(group, _slice(box, low, high, across), not across, turn + 1)))
        return Piece(box, "piece", pieces=self._segments(box, across, turn, made))

    def _single(self, part: Placed, box: Rect, turn: int) -> Piece:
        """One part out of a piece, by the cut first that leaves the larger remainder whole."""
        place = _place(part)
        whole = Piece(place, "part", part.item)
        if place == box:
            return whole
        right, top = box.width - place.width, box.height - place.height
        across = right * box.height >= top * box.width
        low, high = _span(place, across)
        near = _slice(box, low, high, across)
        inner = whole
        if near != place:
            begin, end = _span(place, not across)
            inner = Piece(near, "piece", pieces=self._segments(near, not across, turn + 1, [(begin, end, whole)]))
        return (
            Piece(box, "piece", pieces=self._segments(box, across, turn, [(low, high, inner)]))
            if near != box
            else inner
        )

    def _segments(
        self, box: Rect, across: bool, turn: int, made: Sequence[tuple[int, int, Piece]]
    ) -> tuple[Piece, ...]:
        """Pieces side by side in a box, with the rests between them, and the cuts from the near end to the far one."""
        at, end = _span(box, across)
        pieces: list[Piece] = []
        for low, high, piece in made:
            if low > at:
                gap = max(at, low - self._kerf)
                self._note(box, at, gap, low, across, turn)
                if gap > at:
                    pieces.append(Piece(_slice(box, at, gap, across), "rest"))
            pieces.append(piece)
            at = high
            if high < end:
                at = min(end, high + self._kerf)
                self._note(box, low, high, at, across, turn)
        if at < end:
            pieces.append(Piece(_slice(box, at, end, across), "rest"))
        return tuple(pieces)

    def _note(self, box: Rect, low: int, high: int, beyond: int, across: bool, turn: int) -> None:
        """A cut that takes off what lies from low to high, its band up to `beyond`."""
        end = _span(box, across)[1]
        cut = Cut(
            0,
            turn,
            _direction(across),
            high - low,
            _slice(box, high, beyond, across),
            _slice(box, low, end, across),
            _slice(box, low, high, across),
        )
        self._cuts.append((turn, cut))


# Names, numbers and rows


def _in_order(trims: Sequence[Cut], cuts: Sequence[tuple[int, Cut]]) -> tuple[Cut, ...]:
    """Turn by turn; within one piece from its near end, and of all pieces the longest setting first."""
    waiting: dict[tuple[int, Direction], dict[Rect, list[Cut]]] = {}
    for turn, cut in cuts:
        low = replace(cut.of, x=0, width=0) if cut.direction == "across" else replace(cut.of, y=0, height=0)
        waiting.setdefault((turn, cut.direction), {}).setdefault(low, []).append(cut)
    made = list(trims)
    for key in sorted(waiting):
        made += _longest_first(list(waiting[key].values()))
    return tuple(replace(cut, number=number) for number, cut in enumerate(made, 1))


def _longest_first(lines: list[list[Cut]]) -> Iterator[Cut]:
    """Of the next cuts of all lines the longest, and with it all that are as long: set once, cut all."""
    while lines:
        setting = max(line[0].setting for line in lines)
        for line in lines:
            while line and line[0].setting == setting:
                yield line.pop(0)
        lines = [line for line in lines if line]


def _rows(cuts: Iterable[Cut]) -> tuple[Row, ...]:
    rows: list[Row] = []
    for cut in cuts:
        last = rows[-1] if rows else None
        if last is not None and (last.turn, last.direction, last.setting) == (cut.turn, cut.direction, cut.setting):
            rows[-1] = replace(last, count=last.count + 1, cuts=(*last.cuts, cut.number))
        else:
            rows.append(Row(cut.turn, cut.direction, cut.setting, 1, (cut.number,)))
    return tuple(rows)


def _named(tree: Piece) -> tuple[Piece, tuple[Piece, ...]]:
    """The tree with its remainders named, and those, the largest first."""
    rests = sorted(_rests(tree), key=lambda p: (-_area(p.place), p.place.x, p.place.y))
    names = {rest.place: f"R{n}" for n, rest in enumerate(rests, 1)}

    def name(piece: Piece) -> Piece:
        if piece.kind == "rest":
            return replace(piece, name=names[piece.place])
        return replace(piece, pieces=tuple(name(one) for one in piece.pieces))

    return name(tree), tuple(replace(rest, name=names[rest.place]) for rest in rests)


def _rests(piece: Piece) -> Iterator[Piece]:
    if piece.kind == "rest":
        yield piece
    for one in piece.pieces:
        yield from _rests(one)


def _direction(across: bool) -> Direction:
    return "across" if across else "along"


def _place(part: Placed) -> Rect:
    return Rect(part.x, part.y, part.width, part.height)


def _span(box: Rect, across: bool) -> tuple[int, int]:
    return (box.x, box.x + box.width) if across else (box.y, box.y + box.height)


def _slice(box: Rect, low: int, high: int, across: bool) -> Rect:
    return Rect(low, box.y, high - low, box.height) if across else Rect(box.x, low, box.width, high - low)


def _area(box: Rect) -> int:
    return box.width * box.height
