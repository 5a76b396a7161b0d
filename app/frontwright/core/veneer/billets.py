"""Billets as the plan counts on them, cut from the pieces at hand, and the saws compared on the same billets (F53)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.assumed import entered, measured
from frontwright.core.figures import Figure
from frontwright.core.job import Billet, Blade, Machine
from frontwright.core.job.index import JobIndex, natural
from frontwright.core.lengths import in_units, typed_length
from frontwright.core.veneer.counts import Want, machines_of, thicknesses
from frontwright.core.veneer.result import BilletPlan, BilletYield, Comparison
from frontwright.core.veneer.sawing import is_spare, losses_of, mounted_on
from frontwright.core.veneer.seen import leaves_in, rest_of

MOST_BILLETS = 60  # more are not planned by themselves: a length or width was mistyped
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


@dataclass(slots=True)
class _AtHand:
    """Pieces of billets of different thickness, and what is left of the length of each."""

    kerf: int
    left: dict[tuple[str, object], Counter[int]]  # piece and its thickness -> so many of such a length

    def take(self, thickness: Figure, length: Figure) -> str | None:
        """The piece of this thickness from which one more such billet is cut, the shortest that gives it."""
        long = int(in_units(length.value))
        found = [
            (have, piece)
            for (piece, thick), lengths in self.left.items()
            for have, count in lengths.items()
            if thick == thickness.value and count and have >= long
        ]
        if not found:
            return None
        have, piece = min(found)
        lengths = self.left[piece, thickness.value]
        lengths[have] -= 1
        lengths[max(0, have - long - self.kerf)] += 1
        return piece


def _at_hand(index: JobIndex) -> _AtHand:
    """What is at hand where the thickness decides from which piece a billet is cut; else nothing need be told."""
    kerf = int(in_units(entered(index.unit, index.allowances.rip_kerf, "kerf").value))
    found = _AtHand(kerf, {})
    if len(thicknesses(index)) > 1:
        for piece in index.job.pieces.values():
            long, thick = measured(piece.length, "length"), measured(piece.thickness, "thickness")
            if piece.form == "billet" and long is not None and thick is not None:
                found.left[piece.id, thick.value] = Counter({int(in_units(long.value)): piece.count})
    return found


def billets_of(index: JobIndex, wants: Sequence[Want], yields: Sequence[BilletYield]) -> list[Billet]:
    """The billets entered; where none is, as many of each length and leaf as the chosen machine needs: from the
    pieces at hand what gives most leaves first, the rest as the thickest of them."""
    rows = sorted(index.job.billets.values(), key=lambda b: (b.place, natural(b.id)))
    if rows:
        return rows
    machine, at_hand = machines_of(index)[0], _at_hand(index)
    found: list[Billet] = []
    for want in sorted(wants, key=lambda one: -one.count):
        gives = [y for y in yields if y.leaves and y.machine == (machine.name or machine.kind) and want.is_of(y)]
        gives.sort(key=lambda y: -y.leaves)
        wanted = want.count
        while gives and wanted > 0 and len(found) < MOST_BILLETS:
            cut = ((one, piece) for one in gives if (piece := at_hand.take(one.thickness, one.length)))
            one, piece = next(cut, (gives[0], None))
            wanted -= one.leaves
            found.append(_billet(index, want, len(found), piece))
    return found


def _billet(index: JobIndex, want: Want, at: int, piece: str | None) -> Billet:
    leaf = None if want.usual else typed_length(want.slice.length, index.unit)
    return Billet(_letter(at), piece, at, length=typed_length(want.length.length, index.unit), slice=leaf)


def _letter(at: int) -> str:
    again, letter = divmod(at, len(_LETTERS))
    return _LETTERS[letter] + (str(again + 1) if again else "")


def compared(index: JobIndex, wants: Sequence[Want], plans: Sequence[BilletPlan]) -> Iterator[Comparison]:
    """What each machine and blade would give of the same billets, each by its own thickness; the chosen one as the
    billets themselves are planned. Nothing where no leaf is wanted."""
    if not wants:
        return
    machines = machines_of(index)
    served = [(plan, want) for plan in plans if (want := _served(plan, wants)) is not None]
    for machine in machines:
        on = mounted_on(index, machine)
        others = [blade for blade in index.job.blades.values() if blade.machine == machine.id and blade is not on]
        for blade in (on, *others):
            planned = machine is machines[0] and blade is on
            given = [(p, w, (p.planned, p.spare) if planned else _given(index, machine, blade, p)) for p, w in served]
            yield _comparison(machine, blade, planned, wants, given)


def _served(plan: BilletPlan, wants: Sequence[Want]) -> Want | None:
    """What a billet is sawn for: of the leaves that it is long enough for, the longest of those nearest to its own."""
    long, leaf = in_units(plan.length.value), in_units(plan.slice.value)
    fit = [want for want in wants if in_units(want.length.value) <= long]
    return max(
        fit,
        key=lambda want: (-abs(Fraction(in_units(want.slice.value) - leaf)), in_units(want.length.value)),
        default=None,
    )


def _comparison(
    machine: Machine,
    blade: Blade | None,
    planned: bool,
    wants: Sequence[Want],
    given: Sequence[tuple[BilletPlan, Want, tuple[int, bool]]],
) -> Comparison:
    gives: Counter[tuple[object, object]] = Counter()
    for _, want, (count, _spare) in given:
        gives[want.key] += count
    short = tuple(_short(wants, gives))
    return Comparison(
        machine=machine.id,
        chosen=planned,
        gives=sum(gives.values()),
        wanted=sum(want.count for want in wants),
        with_rests=sum(count + spare for _, _, (count, spare) in given),
        short=tuple((want.length, lacking) for want, lacking in short),
        blade=blade.id if blade is not None else "",
        short_leaves=tuple(want.slice for want, _ in short),
    )


def _short(wants: Sequence[Want], gives: Mapping[tuple[object, object], int]) -> Iterator[tuple[Want, int]]:
    """Leaves lacking of each length of billet, the longest first; what long billets give over serves shorter leaves of
    the same thickness."""
    over: Counter[object] = Counter()
    for want in sorted(wants, key=lambda one: -in_units(one.length.value)):
        leaf = want.slice.value
        over[leaf] += gives.get(want.key, 0) - want.count
        if over[leaf] < 0:
            yield want, -over[leaf]
            over[leaf] = 0


def _given(index: JobIndex, machine: Machine, blade: Blade | None, plan: BilletPlan) -> tuple[int, bool]:
    """How many leaves a machine and blade would give of a billet, and whether the rest would be one more."""
    losses = losses_of(index, machine, blade)
    thick, leaf, loss, keep = plan.thickness, plan.slice, losses.together, losses.keep_back
    count = leaves_in(thick, leaf, loss, keep)
    rest = rest_of("rest", thick, leaf, loss, keep, count)
    return count, is_spare(index, leaf, rest, keep)
