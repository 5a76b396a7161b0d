"""Leaves that pieces give: those that lie there, and those that billets crosscut to length would be sawn into (F50)."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from frontwright.core.figures import Figure
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length
from frontwright.core.stock.clear import stretches
from frontwright.core.stock.result import Candidate, Group, Offer, Want
from frontwright.core.veneer.counts import billet_length

type Longer = Callable[[Length], Length]  # leaf length -> length of the billet that it is sawn from


@dataclass(frozen=True, slots=True)
class Crosscut:
    """A billet (or a leaf that lies there) for these wants: so many leaves of each; `at` its left end, `length`."""

    piece: str
    copy: int
    at: Length
    length: Length
    leaves: int
    gives: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Leaves:
    """Billets to be crosscut, and leaves of each want that are missing."""

    billets: tuple[Crosscut, ...]
    missing: dict[str, int]

    @property
    def lacking(self) -> int:
        return sum(self.missing.values())

    @property
    def copies(self) -> int:
        """How many pieces are crosscut."""
        return len({(billet.piece, billet.copy) for billet in self.billets})


def longer(index: JobIndex) -> Longer:
    """How long a billet is for a leaf of this length (F57); worked out once for each."""
    known: dict[Length, Length] = {}

    def of(leaf: Length) -> Length:
        if leaf not in known:
            known[leaf] = billet_length(index, Figure("leaf", leaf, "derived")).length
        return known[leaf]

    return of


def leaves_from(
    group: Group, wants: Sequence[Want], offers: Sequence[tuple[Candidate, Offer]], to_billet: Longer, *, rests: bool
) -> Leaves:
    """Leaves for these wants, the batch that serves show faces best chosen for them; backs take any.

    `rests`: keep-backs that are thick enough count. A piece that comes last takes only what was missing before.
    """
    lots = {want.lot for want in wants if want.lot and want.open}
    batches: list[str | None] = list(dict.fromkeys(one.batch for one, _ in offers)) if lots else []
    tried = [_sawn(group, wants, offers, to_billet, batch, rests=rests) for batch in batches or [None]]
    return min(tried, key=lambda one: one.lacking)


def _sawn(
    group: Group,
    wants: Sequence[Want],
    offers: Sequence[tuple[Candidate, Offer]],
    to_billet: Longer,
    batch: str | None,
    *,
    rests: bool,
) -> Leaves:
    left = {want.id: want.open for want in wants}
    order = sorted(wants, key=lambda w: (-w.length.units, w.seen == "hidden"))
    billets: list[Crosscut] = []
    for candidate, offer in offers:
        mine = [w for w in order if not w.lot or batch is None or candidate.batch == batch]
        mine = [w for w in mine if offer.shows or w.seen == "hidden"]
        count = candidate.with_rest if rests else candidate.leaves
        for copy in range(1, (offer.copies or 0) + 1):
            if not any(left[w.id] for w in mine):
                break
            billets += _cut(group, mine, (offer, copy), left, to_billet, count, whole=candidate.piece.form != "leaf")
    return Leaves(tuple(billets), {name: count for name, count in left.items() if count > 0})


def _cut(
    group: Group,
    wants: Sequence[Want],
    of: tuple[Offer, int],
    left: dict[str, int],
    to_billet: Longer,
    count: int,
    *,
    whole: bool,
) -> Iterator[Crosscut]:
    """One piece crosscut, the longest that is still wanted first; leaves over of it serve shorter wants."""
    offer, copy = of
    for clear in stretches(offer, group.kerf):
        at, end = clear.along, clear.along + clear.length
        while True:
            need = ((w, to_billet(w.length) if whole else w.length) for w in wants if left[w.id] > 0)
            fitting = next(((w, long) for w, long in need if at + long <= end and w.width <= clear.width), None)
            if fitting is None or not count:
                break
            length = fitting[1]
            gives = tuple(_given(wants, left, fitting[0], count))
            yield Crosscut(offer.id, copy, at, length, count, gives)
            at = at + length + group.kerf


def _given(wants: Sequence[Want], left: dict[str, int], first: Want, count: int) -> Iterator[tuple[str, int]]:
    for want in wants:
        taken = min(count, left[want.id]) if want.length <= first.length and want.width <= first.width else 0
        if taken:
            left[want.id] -= taken
            count -= taken
            yield want.id, taken
