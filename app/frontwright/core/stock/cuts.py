"""A layout as the cuts that make it, in the order made: trims, then turn by turn, the longest setting first.

Parts and remainders are cut free as they lie; what else comes off is waste. Cuts of one turn at one setting share a
row: the fence or stop is set once, and all of them are cut. `along` is a rip, `across` a crosscut.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from frontwright.core.lengths import Length
from frontwright.core.stock.result import Clear, LayoutPlan

Direction = Literal["along", "across"]
type Box = tuple[int, int, int, int]  # left, lower, along, across, in units
_RIPPED = ("board", "solid", "billet")  # groups whose pieces are ripped into strips first


@dataclass(frozen=True, slots=True)
class LayoutCut:
    """A cut: its turn (0 for a trim), where the fence or stop stands (`setting`: what comes off is so wide or long),
    the band that the saw takes, what it cuts, and what comes off."""

    number: int
    turn: int
    direction: Direction
    setting: Length
    band: Clear
    of: Clear
    takes: Clear


@dataclass(frozen=True, slots=True)
class CutRow:
    """Cuts of one turn at one setting, by their numbers."""

    turn: int
    direction: Direction
    setting: Length
    cuts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class LayoutCuts:
    """The cuts of a layout. `frees`: row of a laid part, or letter of a remainder -> the cuts that make it free.

    `whole`: every part can be cut free from edge to edge; else only the cuts up to there are told.
    """

    cuts: tuple[LayoutCut, ...]
    rows: tuple[CutRow, ...]
    frees: Mapping[str, frozenset[int]]
    whole: bool = True

    @property
    def settings(self) -> int:
        """How often the saw is set."""
        return len(self.rows)

    def free_after(self, done: frozenset[int]) -> tuple[str, ...]:
        """Parts (rows) and remainders (letters) that these cuts have made free."""
        return tuple(name for name, needs in self.frees.items() if needs <= done)


def cuts_of(layout: LayoutPlan) -> LayoutCuts:
    """The cuts of a layout, of sheets by the direction to begin with that needs the fewest settings."""
    if not layout.offer.length or not layout.parts:
        return LayoutCuts((), (), {}, whole=layout.valid)
    ripped = layout.group.partition(" ")[0] in _RIPPED
    first = _made(layout, across=not ripped)
    if ripped and first.whole:
        return first
    other = _made(layout, across=ripped)
    return min(first, other, key=lambda one: (not one.whole, one.settings, len(one.cuts)))


@dataclass(slots=True)
class _Noted:
    """A cut before it has its number. `line`: cuts of one line are made from its near end."""

    turn: int
    across: bool
    low: int
    high: int
    beyond: int
    box: Box
    line: int


@dataclass(slots=True)
class _Cutter:
    """Cuts boxes free within boxes, noting each cut, and which of them bound what."""

    kerf: int
    noted: list[_Noted] = field(default_factory=list)
    bounds: dict[str, set[int]] = field(default_factory=dict)
    whole: bool = True
    lines: int = 0

    def node(self, items: Mapping[str, Box], box: Box, across: bool, turn: int, bound: frozenset[int]) -> None:
        if not items:
            return
        if len(items) == 1:
            self._single(*next(iter(items.items())), box, turn, bound)
            return
        bands = list(_bands(items, self.kerf, across=across))
        if len(bands) < 2:
            across = not across
            bands = list(_bands(items, self.kerf, across=across))
        if len(bands) < 2:
            self.whole = False
            for name in items:
                self.bounds[name] = set(bound)
            return
        self._segments(box, across, turn, bands, bound)

    def _single(self, name: str, place: Box, box: Box, turn: int, bound: frozenset[int]) -> None:
        """One thing out of a box, by the cut first that leaves the larger piece whole."""
        if place == box:
            self.bounds[name] = set(bound)
            return
        right, top = box[2] - place[2], box[3] - place[3]
        across = right * box[3] >= top * box[2]
        if (right if across else top) == 0:
            across = not across
        low, high = _span(place, across)
        self._segments(box, across, turn, [(low, high, {name: place})], bound)

    def _segments(
        self,
        box: Box,
        across: bool,
        turn: int,
        bands: Sequence[tuple[int, int, dict[str, Box]]],
        bound: frozenset[int],
    ) -> None:
        """Bands side by side in a box, cut off one after the other from its near end."""
        at, end = _span(box, across)
        self.lines += 1
        line, before = self.lines, frozenset[int]()
        inner: list[tuple[Box, dict[str, Box], frozenset[int]]] = []
        for low, high, items in bands:
            if low > at:
                gap = max(at, low - self.kerf)
                before = frozenset((self._note(turn, across, (at, gap, low), box, line),))
            own, at = before, high
            if high < end:
                at = min(end, high + self.kerf)
                before = frozenset((self._note(turn, across, (low, high, at), box, line),))
                own = own | before
            inner.append((_slice(box, low, high, across), items, bound | own))
        for place, items, bounds in inner:
            self.node(items, place, not across, turn + 1, bounds)

    def _note(self, turn: int, across: bool, places: tuple[int, int, int], box: Box, line: int) -> int:
        self.noted.append(_Noted(turn, across, *places, box, line))
        return len(self.noted) - 1


def _made(layout: LayoutPlan, *, across: bool) -> LayoutCuts:
    kerf = layout.kerf.units
    trims, usable = _trims(layout, kerf)
    cutter = _Cutter(kerf)
    items = {
        part.row: (part.along.units, part.across.units, part.length.units, part.width.units) for part in layout.parts
    }
    items |= {r.letter: (r.along.units, r.across.units, r.length.units, r.width.units) for r in layout.remainders}
    inside = {name: box for name, box in items.items() if _within(box, usable)}
    cutter.whole = len(inside) == len(items)
    cutter.node(inside, usable, across, 1, frozenset())
    order = _in_order(cutter.noted)
    numbers = {at: len(trims) + number for number, at in enumerate(order, 1)}
    cuts = [*trims, *(_cut(cutter.noted[at], numbers[at]) for at in order)]
    first = frozenset(cut.number for cut in trims)
    frees = {name: first | {numbers[at] for at in bound} for name, bound in cutter.bounds.items()}
    return LayoutCuts(tuple(cuts), tuple(_rows(cuts)), frees, cutter.whole)


def _trims(layout: LayoutPlan, kerf: int) -> tuple[list[LayoutCut], Box]:
    """Cuts that take the trims off, the kerf out of the trim; and what they leave."""
    left, right, lower, upper = (trim.units for trim in layout.offer.trims)
    rest: Box = (0, 0, layout.offer.length.units, layout.offer.width.units)
    cuts: list[LayoutCut] = []
    for across, at_end, size in ((True, False, left), (True, True, right), (False, False, lower), (False, True, upper)):
        begin, end = _span(rest, across)
        size = min(size, end - begin)
        if not size:
            continue
        saw = min(kerf, size)
        edge = end - size if at_end else begin + size - saw
        off = (edge + saw, end) if at_end else (begin, edge)
        cuts.append(
            LayoutCut(
                len(cuts) + 1,
                0,
                "across" if across else "along",
                Length(size - saw),
                _clear(_slice(rest, edge, edge + saw, across)),
                _clear(rest),
                _clear(_slice(rest, *off, across)),
            )
        )
        rest = _slice(rest, begin, end - size, across) if at_end else _slice(rest, begin + size, end, across)
    return cuts, rest


def _cut(noted: _Noted, number: int) -> LayoutCut:
    end = _span(noted.box, noted.across)[1]
    return LayoutCut(
        number=number,
        turn=noted.turn,
        direction="across" if noted.across else "along",
        setting=Length(noted.high - noted.low),
        band=_clear(_slice(noted.box, noted.high, noted.beyond, noted.across)),
        of=_clear(_slice(noted.box, noted.low, end, noted.across)),
        takes=_clear(_slice(noted.box, noted.low, noted.high, noted.across)),
    )


def _in_order(noted: Sequence[_Noted]) -> list[int]:
    """Turn by turn; each line from its near end, and of all lines the longest setting first."""
    waiting: dict[tuple[int, bool], dict[int, list[int]]] = {}
    for at, cut in enumerate(noted):
        waiting.setdefault((cut.turn, not cut.across), {}).setdefault(cut.line, []).append(at)
    made: list[int] = []
    for key in sorted(waiting):
        lines = list(waiting[key].values())
        while lines:
            setting = max(_setting(noted[line[0]]) for line in lines)
            for line in lines:
                while line and _setting(noted[line[0]]) == setting:
                    made.append(line.pop(0))
            lines = [line for line in lines if line]
    return made


def _setting(noted: _Noted) -> int:
    return noted.high - noted.low


def _rows(cuts: Sequence[LayoutCut]) -> Iterator[CutRow]:
    row: CutRow | None = None
    for cut in cuts:
        if row is not None and (row.turn, row.direction, row.setting) == (cut.turn, cut.direction, cut.setting):
            row = replace(row, cuts=(*row.cuts, cut.number))
            continue
        if row is not None:
            yield row
        row = CutRow(cut.turn, cut.direction, cut.setting, (cut.number,))
    if row is not None:
        yield row


def _bands(items: Mapping[str, Box], kerf: int, *, across: bool) -> Iterator[tuple[int, int, dict[str, Box]]]:
    """Things with no room for the saw between them along one axis, band by band from the near end."""
    band: dict[str, Box] = {}
    low = high = 0
    for name, box in sorted(items.items(), key=lambda one: _span(one[1], across)):
        start, end = _span(box, across)
        if band and start >= high + kerf:
            yield low, high, band
            band = {}
        if not band:
            low = high = start
        band[name] = box
        high = max(high, end)
    if band:
        yield low, high, band


def _within(box: Box, usable: Box) -> bool:
    low = box[0] >= usable[0] and box[1] >= usable[1] and min(box[2:]) > 0
    return low and box[0] + box[2] <= usable[0] + usable[2] and box[1] + box[3] <= usable[1] + usable[3]


def _span(box: Box, across: bool) -> tuple[int, int]:
    return (box[0], box[0] + box[2]) if across else (box[1], box[1] + box[3])


def _slice(box: Box, low: int, high: int, across: bool) -> Box:
    return (low, box[1], high - low, box[3]) if across else (box[0], low, box[2], high - low)


def _clear(box: Box) -> Clear:
    return Clear(*(Length(one) for one in box))
