"""Where things lie along one line: running tape first, single readings between, assumptions last."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.lengths import ZERO, Length

Span = tuple[Figure, Figure]


@dataclass(frozen=True, slots=True)
class Item:
    """A thing on the line: its size read singly (or None), what it is assumed at, and its two edges by the tape.

    `gives`: not read, it takes what the others leave before any of those is (an opening between rails), several evenly.
    """

    id: str
    size: Figure | None
    otherwise: Figure
    start: Figure | None = None
    end: Figure | None = None
    gives: bool = False


def spans(items: Sequence[Item], last: Figure | None = None, overall: Figure | None = None) -> list[Span]:
    """Near and far edge of things that lie side by side, from the datum on.

    A taped edge is taken as read; between taped edges, sizes read singly are added from the near side, and one size
    that was not read is what is left; only then is a size assumed, of things that give way last. `last` is the far
    edge where it is known; `overall` only tells what is left for the one thing that was not read.
    """
    edges = _edges(items, last, overall)
    return [(item.start or edges[at], edges[at + 1]) for at, item in enumerate(items)]


def _edges(items: Sequence[Item], last: Figure | None, overall: Figure | None) -> list[Figure]:
    fixed = _fixed(items, last)
    edges: list[Figure] = [fixed[0] or Figure("datum", ZERO, "chosen", "where the tape is hooked")]
    for at, item in enumerate(items):
        known = fixed[at + 1]
        if known is not None:
            edges.append(known)
        elif item.size is None and (left := _what_is_left(items, fixed, at, overall)) is not None:
            edges.append(left)
        elif item.size is None and item.gives and (part := _even_part(items, fixed, at, edges[-1])) is not None:
            edges.append(total(f"far edge of {item.id}", plus(edges[-1]), plus(part)))
        else:
            edges.append(total(f"far edge of {item.id}", plus(edges[-1]), plus(item.size or item.otherwise)))
    return edges


def _fixed(items: Sequence[Item], last: Figure | None) -> list[Figure | None]:
    fixed: list[Figure | None] = [items[0].start if items else None]
    for at, item in enumerate(items):
        after = items[at + 1].start if at + 1 < len(items) else last
        fixed.append(item.end or after)  # read twice, the edge of the thing itself goes first
    return fixed


def _what_is_left(
    items: Sequence[Item], fixed: Sequence[Figure | None], at: int, overall: Figure | None
) -> Figure | None:
    """The far edge of an unread thing, counted back from the next taped edge or the end, if all between is read."""
    sizes: list[Figure] = []
    for further in range(at + 1, len(items)):
        size = items[further].size
        if size is None:
            return None
        sizes.append(size)
        edge = fixed[further + 1]
        if edge is not None:
            return total(f"far edge of {items[at].id}", plus(edge), *(minus(s) for s in sizes))
    return total(f"far edge of {items[at].id}", plus(overall), *(minus(s) for s in sizes)) if overall else None


def _even_part(items: Sequence[Item], fixed: Sequence[Figure | None], at: int, near: Figure) -> Figure | None:
    """What each of the unread things that give way gets before the next taped edge; None where there is none left."""
    end = next((n for n in range(at + 1, len(fixed)) if fixed[n] is not None), None)
    far = fixed[end] if end is not None else None
    if end is None or far is None:
        return None
    among = items[at:end]
    givers = [item for item in among if item.size is None and item.gives]
    others = [item.size or item.otherwise for item in among if item.size is not None or not item.gives]
    left = total("left between the taped edges", plus(far), minus(near), *(minus(size) for size in others))
    if left.units <= 0:
        return None
    if len(givers) == 1:
        return left
    part = Length(int(left.units) // len(givers))
    return Figure(f"size of {items[at].id}", part, "assumed", "what is left, shared evenly")
