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
    """Strips end to end; as wide as the widest of them."""

    strips: tuple[Wanted, ...]

    @property
    def width(self) -> Length:
        return max(strip.width for strip in self.strips)


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
    rows = sorted(_rows(fitting, length, kerf), key=lambda row: row.width, reverse=True)
    leaves: list[StripLeaf] = []
    while rows:
        chosen = _fullest(rows, width, kerf)
        leaves.append(StripLeaf(tuple(rows[at] for at in chosen)))
        rows = [row for at, row in enumerate(rows) if at not in chosen]
    return tuple(leaves), tuple(w.id for w in wanted if w not in fitting)


def _rows(wanted: list[Wanted], length: Length, kerf: Length) -> list[StripRow]:
    """Strips end to end: best fit among rows of the same width, the longest first."""
    rows: list[list[Wanted]] = []
    taken: list[int] = []  # of each row's length, in units
    for strip in sorted(wanted, key=lambda w: (w.width, w.length), reverse=True):
        more = kerf.units + strip.length.units
        open_rows = [
            at for at, row in enumerate(rows) if row[0].width == strip.width and taken[at] + more <= length.units
        ]
        if open_rows:
            fullest = max(open_rows, key=lambda at: taken[at])
            rows[fullest].append(strip)
            taken[fullest] += more
        else:
            rows.append([strip])
            taken.append(strip.length.units)
    return [StripRow(tuple(row)) for row in rows]


def _fullest(rows: list[StripRow], width: Length, kerf: Length) -> list[int]:
    """The places of the rows, the widest first among them, that fill a leaf best; the widest row is always taken."""
    sizes = [row.width.units + kerf.units for row in rows]
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
        firsts = {sizes[further]: further for further in range(len(sizes) - 1, at - 1, -1)}
        fitting = [further for size, further in firsts.items() if sofar + size <= room]
        stack += [(further + 1, sofar + sizes[further], [*chosen, further]) for further in fitting]
    return best
