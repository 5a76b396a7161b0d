"""Billets as planned and as they are: slices in order, losses by name, what was seen, what is to come (F53-F60)."""

from __future__ import annotations

import math
from fractions import Fraction

from frontwright.core.assumed import assumed, entered, entered_number, measured
from frontwright.core.figures import Figure, Term, minus, number, plus, share, total
from frontwright.core.job import Billet, Leaf, Machine, Piece
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, half_up, in_units
from frontwright.core.making.leaves import billet_size
from frontwright.core.making.result import PanelPlan
from frontwright.core.veneer.result import BilletPlan, Losses, Saving, Seen, SlicePlan

_POINTS = tuple(f"thick_{at}" for at in range(1, 7))


def machine_of(index: JobIndex, wanted: str | None) -> Machine:
    """The machine of this id, else the one chosen to plan with, else a usual band saw."""
    rows = index.job.machines
    if wanted is not None and wanted in rows:
        return rows[wanted]
    return next((m for m in rows.values() if m.chosen), next(iter(rows.values()), Machine("band saw", "band saw")))


def losses_of(index: JobIndex, machine: Machine) -> Losses:
    """Kerf, wander and re-joint loss a slice, and the keep-back, of one machine."""

    def loss(what: str) -> Figure:
        return entered(index.unit, getattr(machine, what), f"{machine.kind} {what.replace('_', ' ')}")

    kerf, wander, rejoint = loss("kerf"), loss("wander"), loss("rejoint")
    together = total(f"loss a slice, {machine.kind}", plus(kerf), plus(wander), plus(rejoint))
    return Losses(kerf, wander, rejoint, together, loss("keep_back"))


def mean_thickness(leaf: Leaf) -> Figure | None:
    """The mean of a leaf's readings, rounded to the unit; None where none was taken."""
    read = [f for at, name in enumerate(_POINTS, 1) if (f := measured(getattr(leaf, name), f"{leaf.id}, point {at}"))]
    if not read:
        return None
    value = half_up(Fraction(sum(f.length.units for f in read), len(read)))
    return Figure(
        f"thickness of {leaf.id}", value, "derived", f"mean of {len(read)} points", tuple(Term(f) for f in read)
    )


def billet_plan(index: JobIndex, billet: Billet, panel: PanelPlan) -> BilletPlan:
    """One billet: its plan by the machine's losses, the slices that exist, and the rest of it by what was seen."""
    piece = index.job.pieces.get(billet.piece or "")
    machine = machine_of(index, billet.machine)
    losses = losses_of(index, machine)
    thick = _size(index, billet, piece, "thickness")
    leaf = entered(index.unit, billet.slice, "slice", "leaf as sawn") if billet.slice else panel.slice
    planned = _count(thick, leaf, losses.together, losses.keep_back)
    sawn = {
        row.number: row for row in sorted(index.job.leaves.values(), key=lambda r: r.number) if row.billet == billet.id
    }
    latest = losses_of(index, machine_of(index, _last_machine(sawn) or billet.machine))
    now = measured(billet.slice_now, "leaf from now on")
    seen = _seen(thick, list(sawn.values()), latest, leaf, now)
    slices = _slices(billet, thick, leaf, losses, planned, sawn, seen, now)
    rest = seen.rest if seen else _rest(thick, leaf, losses, planned)
    spare_from = total("rest that gives a spare", plus(leaf), plus(assumed(index.unit, "spare rest")))
    return BilletPlan(
        billet=billet,
        machine=machine.id,
        length=_size(index, billet, piece, "length"),
        width=_size(index, billet, piece, "width"),
        thickness=thick,
        slice=leaf,
        losses=losses,
        planned=planned,
        slices=slices,
        rest=rest,
        spare=in_units(rest.value) >= in_units(spare_from.value),
        seen=seen,
        shift=_shift(billet, losses, leaf, panel),
        ways=_savings(seen, slices, latest, panel, leaf),
    )


def _size(index: JobIndex, billet: Billet, piece: Piece | None, what: str) -> Figure:
    """The billet's own size after jointing, else its piece's, else the least of those at hand."""
    own = measured(getattr(billet, what), f"{what} of billet {billet.id}")
    if own is not None:
        return own
    of_piece = measured(getattr(piece, what), f"{what} of {piece.id}") if piece is not None else None
    if of_piece is not None:
        return of_piece
    return (
        billet_size(index, what) if what != "length" else Figure(f"length of billet {billet.id}", Length(0), "assumed")
    )


def _count(thick: Figure, leaf: Figure, loss: Figure, keep: Figure) -> int:
    pitch = in_units(leaf.value) + in_units(loss.value)
    kept = in_units(keep.value)
    room = in_units(thick.value) - kept if kept else in_units(thick.value) + in_units(loss.value)
    return max(0, int(room // pitch)) if pitch > 0 else 0


def _rest(thick: Figure, leaf: Figure, losses: Losses, count: int) -> Figure:
    if not count:
        return thick
    cuts = count if in_units(losses.keep_back.value) else count - 1
    return total(
        "rest of the billet", plus(thick), minus(leaf, count), *([minus(losses.together, cuts)] if cuts else [])
    )


def _last_machine(sawn: dict[int, Leaf]) -> str | None:
    return sawn[max(sawn)].machine if sawn else None


def _seen(thick: Figure, sawn: list[Leaf], losses: Losses, leaf: Figure, now: Figure | None) -> Seen | None:
    """F60, from the slices made with the blade that is mounted now; None until one of them was measured."""
    lefts = [(row, left) for row in sawn if (left := measured(row.left, f"billet left after {row.id}")) is not None]
    if not lefts:
        return None
    last, left = lefts[-1]
    before, since = _before(thick, sawn, last)
    means = [mean for row in since if (mean := mean_thickness(row)) is not None]
    if not means or len(means) < len(since):
        return None
    mean = share("mean of the leaves", total("leaves together", *(plus(m) for m in means)), len(means))
    gone = total("billet gone", plus(before), minus(left))
    each = share("gone a slice", gone, len(since))
    loss = total("loss seen", plus(each), minus(mean))
    wanted = now or (mean if last.machine is None or len(since) > 1 else leaf)
    pitch = total("pitch seen", plus(wanted), plus(loss))
    units, kept = in_units(pitch.value), in_units(losses.keep_back.value)
    more = max(0, int((in_units(left.value) - kept) // units)) if units > 0 else 0
    rest = total("rest as it would be", plus(left), *([minus(pitch, more)] if more else []))
    return Seen(len(since), mean, loss, pitch, more, last.number + more, rest)


def _before(thick: Figure, sawn: list[Leaf], last: Leaf) -> tuple[Figure, list[Leaf]]:
    """What stood of the billet before the blade that is mounted now began, and the leaves it has sawn."""
    since: list[Leaf] = []
    for row in reversed([leaf for leaf in sawn if leaf.number <= last.number]):
        if row.machine != last.machine:
            stood = measured(row.left, f"billet left after {row.id}")
            return (stood or thick), since
        since.insert(0, row)
    return thick, since


def _slices(
    billet: Billet,
    thick: Figure,
    leaf: Figure,
    losses: Losses,
    planned: int,
    sawn: dict[int, Leaf],
    seen: Seen | None,
    now: Figure | None,
) -> tuple[SlicePlan, ...]:
    last = max(sawn, default=0)
    total_now = max(seen.leaves if seen else planned, last)
    risky = _risky(seen, losses, total_now)
    found: list[SlicePlan] = []
    for at in range(1, max(planned, total_now) + 1):
        row = sawn.get(at)
        should = _should(f"billet left after {billet.id}{at}", thick, leaf, losses, at, seen)
        state = row.state if row is not None else "to come" if at <= total_now else "lost"
        left = measured(row.left, f"billet left after {billet.id}{at}") if row is not None else None
        mean = mean_thickness(row) if row is not None else None
        wanted = (None if row else now) or leaf
        found.append(SlicePlan(f"{billet.id}{at}", at, wanted, should, row, mean, left, state, at == risky))
    return tuple(found)


def _should(name: str, thick: Figure, leaf: Figure, losses: Losses, at: int, seen: Seen | None) -> Figure:
    """What should stand of the billet after a slice: by the plan, and after the last one measured by what was seen."""
    if seen is None or at <= seen.leaves - seen.more or at > seen.leaves:
        return total(name, plus(thick), minus(leaf, at), minus(losses.together, at))
    return total(name, plus(seen.rest), *([plus(seen.pitch, seen.leaves - at)] if at < seen.leaves else []))


def _risky(seen: Seen | None, losses: Losses, total_now: int) -> int | None:
    """The leaf that one more slice as heavy as those seen would cost: the last, where the rest has no room for it."""
    if seen is None or not seen.more:
        return None
    excess = in_units(seen.loss.value) - in_units(losses.together.value)
    spare = in_units(seen.rest.value) - in_units(losses.keep_back.value)
    return total_now if excess > 0 and spare < excess else None


def _shift(billet: Billet, losses: Losses, leaf: Figure, panel: PanelPlan) -> Figure | None:
    """F59: how far the figure moves between two shown faces; an angle has no exact tangent, so it is rounded."""
    angle = billet.ring_angle.value if billet.ring_angle is not None else None
    if angle is None or not 0 < angle <= 90 or billet.match == "random":
        return None
    degrees = entered_number(billet.ring_angle, number("ring angle", 90), "ring angle")
    if billet.match == "slip":
        apart = total("between two shown faces", plus(leaf), plus(losses.together))
    else:
        apart = total("between two shown faces", plus(losses.together), plus(panel.show_loss, 2))
    tangent = Fraction(math.tan(math.radians(float(angle)))).limit_denominator(10**9)
    value = half_up(Fraction(in_units(apart.value)) / tangent) if tangent else Length(0)
    terms = (Term(apart, 0), Term(degrees, 0))
    return Figure(
        "shift of the figure", value, "derived", "distance / tangent of the ring angle", terms, "rounded to the unit"
    )


def _savings(
    seen: Seen | None, slices: tuple[SlicePlan, ...], losses: Losses, panel: PanelPlan, leaf: Figure
) -> tuple[Saving, ...]:
    """What would still save the leaf that is lost or at risk, the least trouble first.

    For one at risk there must be room for one more slice as heavy as those seen.
    """
    lost = any(one.state == "lost" for one in slices)
    if seen is None or not (lost or any(one.at_risk for one in slices)):
        return ()
    missing = sum(1 for one in slices if one.state in ("lost", "to come"))
    left = total("billet left", plus(seen.rest), *([plus(seen.pitch, seen.more)] if seen.more else []))
    kept = in_units(losses.keep_back.value)
    room = 0 if lost else max(0, in_units(seen.loss.value) - in_units(losses.together.value))
    thin = half_up((Fraction(in_units(left.value)) - kept - room) / missing - in_units(seen.loss.value), Length(1))
    least = in_units(panel.glue_loss.value) + in_units(panel.show_loss.value) + in_units(panel.least_left.value)
    found: list[Saving] = []
    if thin.units >= least:
        found.append(Saving("thinner leaves", leaf, Figure("leaf that saves one", thin, "derived", "", (plus(left),))))
    need = total("billet for all of them", plus(seen.pitch, missing))
    kept_then = in_units(left.value) - in_units(need.value) - room
    if 0 < kept_then < kept:
        less = Figure(
            "keep-back that saves one", half_up(Fraction(kept_then)), "derived", "", (plus(left), minus(need))
        )
        found.append(Saving("less kept back", losses.keep_back, less))
    found.append(Saving("plain back from elsewhere", None, None))
    return tuple(found)
