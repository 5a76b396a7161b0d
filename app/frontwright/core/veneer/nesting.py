"""Strips laid on leaves: end to end in rows, rows side by side, widths mixed (F44)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from frontwright.core.lengths import Length

_STEPS = 4_000  # how many sets are tried for one leaf; strips of a kitchen need a few hundred


@dataclass(frozen=True, slots=True)
class Wanted:
    """A strip to lay: its rough length and width."""

    id: str
    length: Length
    width: Length


@dataclass(frozen=True, slots=True)
class StripRow:
    """Strips of one width end to end."""

    strips: tuple[Wanted, ...]

    @property
    def width(self) -> Length:
        return self.strips[0].width


@dataclass(frozen=True, slots=True)
class StripLeaf:
    """Rows side by side on one leaf."""

    rows: tuple[StripRow, ...]

    def used(self, kerf: Length) -> Length:
        """How much of the leaf's width the rows and the cuts between them take."""
        return sum((row.width for row in self.rows), start=Length(0)) + kerf * (len(self.rows) - 1)


def nested(
    wanted: Sequence[Wanted], length: Length, width: Length, kerf: Length
) -> tuple[tuple[StripLeaf, ...], tuple[str, ...]]:
    """Leaves of this size that hold the strips, and the ids of strips that fit on none.

    Rows are filled first-fit, the longest first, among strips of about one width; leaves by the set of rows that leaves
    the least of the width over, so that wide and narrow rows are mixed.
    """
    fitting = [w for w in wanted if w.length <= length and w.width <= width]
    rows = _rows(fitting, length, kerf)
    leaves: list[StripLeaf] = []
    while rows:
        chosen = _fullest(rows, width, kerf)
        leaves.append(StripLeaf(tuple(rows[at] for at in chosen)))
        rows = [row for at, row in enumerate(rows) if at not in chosen]
    laid = {w.id for w in fitting}
    return tuple(leaves), tuple(w.id for w in wanted if w.id not in laid)


def _rows(wanted: list[Wanted], length: Length, kerf: Length) -> list[StripRow]:
    """Strips end to end, the widest rows first: best fit among rows of the same width, the longest first."""
    rows: list[list[Wanted]] = []
    taken: list[int] = []  # of each row's length, in units
    first = 0  # of the rows as wide as the strip in hand
    for strip in sorted(wanted, key=lambda w: (w.width.units, w.length.units), reverse=True):
        if first < len(rows) and rows[first][0].width != strip.width:
            first = len(rows)
        most = length.units - kerf.units - strip.length.units
        open_rows = [at for at in range(first, len(rows)) if taken[at] <= most]
        if open_rows:
            fullest = max(open_rows, key=taken.__getitem__)
            rows[fullest].append(strip)
            taken[fullest] += kerf.units + strip.length.units
        else:
            rows.append([strip])
            taken.append(strip.length.units)
    return [StripRow(tuple(row)) for row in rows]


def _fullest(rows: list[StripRow], width: Length, kerf: Length) -> list[int]:
    """The places of the rows, the widest first among them, that fill a leaf best; the widest row is always taken."""
    sizes = [row.width.units + kerf.units for row in rows]
    starts = [at for at, size in enumerate(sizes) if at == 0 or size != sizes[at - 1]]
    alike = list(reversed(list(zip(starts, [*starts[1:], len(rows)], strict=True))))  # rows of one width, from, to
    room = width.units + kerf.units
    best: list[int] = [0]
    best_sum = sizes[0]
    steps = 0
    stack: list[tuple[int, int, list[int]]] = [(1, sizes[0], [0])]
    while stack and steps < _STEPS and best_sum < room:
        at, sofar, chosen = stack.pop()
        steps += 1
        if sofar > best_sum:
            best, best_sum = chosen, sofar
        for start, end in alike:
            further = max(start, at)
            if further < end and sofar + sizes[further] <= room:
                stack.append((further + 1, sofar + sizes[further], [*chosen, further]))
    return best
