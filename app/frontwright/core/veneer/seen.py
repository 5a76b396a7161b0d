"""A billet as it is: what the slices really cost, what it will still give, and what would save a leaf (F60)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from frontwright.core.assumed import measured
from frontwright.core.figures import Figure, Term, minus, only_assumed, plus, share, total
from frontwright.core.job import Leaf
from frontwright.core.lengths import Length, down, half_up, in_units
from frontwright.core.making.result import PanelPlan
from frontwright.core.veneer.result import Mounted, Saving, Seen, SlicePlan, Stretch

MOST_SLICES = 500  # of one billet; more come of a leaf that was mistyped
_POINTS = tuple(f"thick_{at}" for at in range(1, 7))


@dataclass(frozen=True, slots=True)
class Sawing:
    """What is known before a billet is looked at: its thickness, the leaf wanted, that wanted from now on, the slices
    made in sawing order. `stretches`: from which number on with which saw and blade, in order, the first as planned;
    `mounted`: what is on now; `keep`: what is kept back of this billet alone."""

    thick: Figure
    leaf: Figure
    now: Figure | None
    sawn: Sequence[Leaf]
    stretches: Sequence[tuple[int, Mounted]]
    mounted: Mounted
    keep: Figure | None = None

    @property
    def first(self) -> Mounted:
        """What the billet was begun with."""
        return self.stretches[0][1]

    @property
    def keep_back(self) -> Figure:
        """What is kept back of this billet: less than its saw keeps back where somebody said so."""
        return self.keep if self.keep is not None else self.mounted.losses.keep_back

    def with_what(self, number: int) -> Mounted:
        """The saw and blade of a slice."""
        return next((on for start, on in reversed(self.stretches) if start <= number), self.first)

    def lost_by(self, cuts: int) -> list[Term]:
        """What so many first cuts lose as they were planned, each with the blade that makes it."""
        ends = [start - 1 for start, _ in self.stretches[1:]]
        both = zip(self.stretches, [*ends, cuts], strict=True)
        counts = [(on, min(end, cuts) - max(start, 1) + 1) for (start, on), end in both]
        return [minus(on.losses.together, count) for on, count in counts if count > 0]


def mean_thickness(leaf: Leaf) -> Figure | None:
    """The mean of a leaf's readings, rounded to the unit; None where none was taken."""
    read = [f for at, name in enumerate(_POINTS, 1) if (f := measured(getattr(leaf, name), f"{leaf.id}, point {at}"))]
    if not read:
        return None
    value = half_up(Fraction(sum(f.length.units for f in read), len(read)))
    return Figure(
        f"thickness of {leaf.id}", value, "derived", f"mean of {len(read)} points", tuple(Term(f) for f in read)
    )


def leaves_in(thick: Figure, leaf: Figure, loss: Figure, keep: Figure) -> int:
    """F53: whole leaves of what stands of a billet; with nothing kept back the last one needs no cut."""
    pitch = in_units(leaf.value) + in_units(loss.value)
    kept = in_units(keep.value)
    room = in_units(thick.value) - kept if kept else in_units(thick.value) + in_units(loss.value)
    return max(0, int(room // pitch)) if pitch > 0 else 0


def rest_of(name: str, thick: Figure, leaf: Figure, loss: Figure, keep: Figure, count: int) -> Figure:
    """What is left after so many leaves and their cuts."""
    if not count:
        return thick
    cuts = count if in_units(keep.value) else count - 1
    return total(name, plus(thick), minus(leaf, count), *([minus(loss, cuts)] if cuts else []))


@dataclass(frozen=True, slots=True)
class _Cost:
    """What the slices so far cost: how many of the blade mounted now were measured, their mean thickness, whether any
    thickness was read, the loss to go on with. `below`: a loss seen that is less than nothing."""

    made: int
    mean: Figure
    loss: Figure
    read: bool = False
    below: Figure | None = None


@dataclass(frozen=True, slots=True)
class _Each:
    """What a slice takes of which nothing was read. `doubted`: the readings contradict each other."""

    leaf: Figure
    loss: Figure
    doubted: bool


def seen(saw: Sawing) -> Seen | None:
    """F60, by the blade that is mounted now: its own slices where they were measured, else its losses as they are
    known, from what then stands of the billet. None as long as nothing was measured and no blade was changed."""
    lefts = _lefts(saw)
    changed = max((row.number for row in saw.sawn if saw.with_what(row.number) != saw.mounted), default=0)
    if not lefts and not changed and saw.mounted == saw.first:
        return None
    cost = _cost(saw, lefts, changed)
    after = min(max((row.number for row in saw.sawn), default=0), MOST_SLICES)
    each = _each(saw, cost.mean, cost.loss, cost.below)
    stands = _stands("billet left", saw, each, after)
    wanted = saw.now or each.leaf
    more = leaves_in(stands, wanted, cost.loss, saw.keep_back)
    rest = rest_of("rest as it would be", stands, wanted, cost.loss, saw.keep_back, more)
    pitch = total("pitch seen" if cost.made else "pitch of this blade", plus(wanted), plus(cost.loss))
    jointed = _jointed(saw, changed) if cost.made else None
    return Seen(cost.made, cost.mean, cost.loss, pitch, more, after + more, rest, jointed, cost.read, cost.below)


def stretches(saw: Sawing) -> Iterator[Stretch]:
    """What each saw and blade in turn really cost, by its own slices alone (F60); only those that were measured."""
    ends = [start for start, _ in saw.stretches[1:]]
    for at, (start, on) in enumerate(saw.stretches):
        end = ends[at] if at < len(ends) else MOST_SLICES + 1
        sawn = [row for row in saw.sawn if row.number < end]
        found = seen(replace(saw, sawn=sawn, stretches=saw.stretches[: at + 1], mounted=on))
        if found is not None and found.slices and found.read and found.below is None:
            yield Stretch(on, tuple(row.id for row in sawn if row.number >= start), found)


def _lefts(saw: Sawing) -> dict[int, Figure]:
    """What was read to be left of the billet, by slice."""
    return {row.number: left for row in saw.sawn if (left := _left(row)) is not None}


def _jointed(saw: Sawing, changed: int) -> Figure | None:
    """What jointing took of the billet each time with the blade mounted now, where it was read before and after."""
    both = [
        (before, after)
        for row in saw.sawn
        if row.number > changed
        and (before := measured(row.unjointed, f"before jointing, after {row.id}")) is not None
        and (after := _left(row)) is not None
    ]
    if not both:
        return None
    terms = [term for before, after in both for term in (plus(before), minus(after))]
    return share("re-joint loss seen", total("jointed off together", *terms), len(both))


def _left(row: Leaf) -> Figure | None:
    return measured(row.left, f"billet left after {row.id}")


def _each(saw: Sawing, mean: Figure, loss: Figure, below: Figure | None) -> _Each:
    return _Each(mean if below is None else saw.leaf, loss, below is not None)


def _stands(name: str, saw: Sawing, each: _Each, after: int) -> Figure:
    """What stands of the billet after a slice: as it was last read, less what was sawn since.

    Of the slices since then each takes its thickness and its loss: with the blade mounted now as seen.
    """
    lefts = _believed(saw) if each.doubted else _lefts(saw)
    last = max((number for number in lefts if number <= after), default=0)
    gone = [term for number in range(last + 1, after + 1) for term in _gone(saw, each, number)]
    stands = lefts.get(last, saw.thick)
    return _not_under_nothing(total(name, plus(stands), *gone)) if gone else stands


def _believed(saw: Sawing) -> dict[int, Figure]:
    """Where readings contradict each other those that promise no more than the plan; all of a billet that nobody
    measured before."""
    known = not only_assumed(saw.thick)
    return {at: left for at, left in _lefts(saw).items() if not known or left.units <= _planned("", saw, at, at).units}


def _planned(name: str, saw: Sawing, leaves: int, cuts: int) -> Figure:
    """What stands by the plan after so many leaves and cuts."""
    return _not_under_nothing(total(name, plus(saw.thick), minus(saw.leaf, leaves), *saw.lost_by(cuts)))


def _gone(saw: Sawing, each: _Each, number: int) -> tuple[Term, Term]:
    """What a slice takes that was sawn since the last reading: its leaf and its loss."""
    row = next((row for row in saw.sawn if row.number == number), None)
    thick = mean_thickness(row) if row is not None else None
    on = saw.with_what(number)
    if on == saw.mounted:
        return minus(thick or each.leaf), minus(each.loss)
    return minus(thick or saw.leaf), minus(on.losses.together)


def _not_under_nothing(figure: Figure) -> Figure:
    if in_units(figure.value) >= 0:
        return figure
    return Figure(figure.name, Length(0), "derived", "more was sawn than there is", figure.terms, "nothing is left")


def _cost(saw: Sawing, lefts: Mapping[int, Figure], changed: int) -> _Cost:
    """What a slice costs. Where no thickness was read the leaves are taken to be as wanted: what went from the billet
    each time stands all the same. Nothing measured: the leaf that is wanted and the losses that are known."""
    known = saw.mounted.losses.together
    marks = {number: left for number, left in lefts.items() if number >= changed} | ({} if changed else {0: saw.thick})
    first, last = min(marks, default=0), max(marks, default=0)
    if last <= first:
        return _Cost(0, saw.leaf, known)
    means = [mean for row in saw.sawn if first < row.number <= last and (mean := mean_thickness(row)) is not None]
    mean = saw.leaf
    if means:
        mean = share("mean of the leaves", total("leaves together", *(plus(one) for one in means)), len(means))
    each = share("gone a slice", total("billet gone", plus(marks[first]), minus(marks[last])), last - first)
    loss = total("loss seen", plus(each), minus(mean))
    if in_units(loss.value) < 0:
        return _Cost(0, mean, known, bool(means), loss if means or in_units(each.value) < 0 else None)
    return _Cost(last - first, mean, loss, bool(means))


def at_risk(found: Seen | None, saw: Sawing, total_now: int) -> int | None:
    """The leaf that one more slice as heavy as those seen would cost: the last, where the rest has no room for it."""
    if found is None or not found.more or not found.slices:
        return None
    excess = in_units(found.loss.value) - in_units(saw.mounted.losses.together.value)
    spare = in_units(found.rest.value) - in_units(saw.keep_back.value)
    return total_now if excess > 0 and spare < excess else None


def left_should(
    name: str, saw: Sawing, planned: int, found: Seen | None, at: int, before: Figure | None = None
) -> Figure:
    """What should stand of the billet after a slice: by the plan, each cut with the blade that made it, and after the
    last one measured by what was seen.

    The last leaf of a billet of which nothing is kept back needs no cut. `before`: what should stand before the slice.
    """
    last = max(_lefts(saw), default=0)
    if found is None or at <= last or at > found.leaves:
        cuts = at - (at == planned and not in_units(saw.first.losses.keep_back.value))
        return _planned(name, saw, at, cuts)
    if at <= found.leaves - found.more:
        each = _each(saw, found.mean_thickness, found.loss, found.below)
        if at == last + 1 or before is None:
            return _stands(name, saw, each, at)
        return _not_under_nothing(total(name, plus(before), *_gone(saw, each, at)))
    if at == found.leaves:
        return total(name, plus(found.rest))
    uncut = [] if in_units(saw.keep_back.value) else [minus(found.loss)]
    return total(name, plus(found.rest), plus(found.pitch, found.leaves - at), *uncut)


def savings(found: Seen | None, slices: Sequence[SlicePlan], saw: Sawing, panel: PanelPlan) -> tuple[Saving, ...]:
    """What would still save the leaf that is lost or at risk, the least trouble first.

    For one at risk there must be room for one more slice as heavy as those seen.
    """
    lost = any(one.state == "lost" for one in slices)
    if found is None or not (lost or any(one.at_risk for one in slices)):
        return ()
    missing = sum(1 for one in slices if one.state == "lost" or one.number > found.leaves - found.more)
    keep, loss = saw.keep_back, in_units(found.loss.value)
    kept = in_units(keep.value)
    uncut = 0 if kept else loss
    cuts = found.more - (1 if found.more and not kept else 0)
    left = total("billet left", plus(found.rest), *_again(found, found.more, cuts))
    room = 0 if lost else max(0, loss - in_units(saw.mounted.losses.together.value))
    free = Fraction(in_units(left.value)) - room + uncut
    sawn = total("leaf as it is sawn", plus(found.pitch), minus(found.loss))
    room_each = down((free - kept) / missing - loss) if missing else Length(0)  # nearest might be a hair too much
    thin = min(room_each, half_up(saw.leaf.value))  # one sawn thicker than wanted: as wanted will do
    least = sum(in_units(part.value) for part in (panel.glue_loss, panel.show_loss, panel.least_left))
    ways: list[Saving] = []
    if least <= thin.units < in_units(sawn.value):
        named = Figure("leaf that saves one", thin, "derived", "", (plus(left),))
        ways.append(Saving("thinner leaves", sawn, named))
    need = total("billet for all of them", plus(found.pitch, missing))
    less = free - in_units(need.value)
    if 0 < less < kept:
        named = Figure("keep-back that saves one", down(less), "derived", "", (plus(left), minus(need)))
        ways.append(Saving("less kept back", keep, named))
    ways.append(Saving("plain back from elsewhere", None, None))
    return tuple(ways)


def _again(found: Seen, leaves: int, cuts: int) -> list[Term]:
    """So many leaves and cuts put back on the rest."""
    wanted = total("leaf", plus(found.pitch), minus(found.loss))
    return [plus(wanted, leaves)] * bool(leaves) + [plus(found.loss, cuts)] * bool(cuts)
