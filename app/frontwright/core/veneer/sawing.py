"""Billets as planned and as they are: slices in order, losses by name, what was seen, what is to come (F53-F60)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from frontwright.core.assumed import assumed, entered, entered_number, measured
from frontwright.core.figures import Figure, Term, minus, number, plus, total
from frontwright.core.job import Billet, Blade, Leaf, Machine, Piece
from frontwright.core.job.index import JobIndex, natural
from frontwright.core.lengths import Length, half_up, in_units
from frontwright.core.making.leaves import billet_size
from frontwright.core.making.result import PanelPlan
from frontwright.core.veneer.result import BilletPlan, Losses, Mounted, Seen, SlicePlan
from frontwright.core.veneer.seen import (
    MOST_SLICES,
    Sawing,
    at_risk,
    leaves_in,
    left_should,
    mean_thickness,
    rest_of,
    savings,
    seen,
    stretches,
)

_READ = ("left", "unjointed", "length", "width", "good_length")


def machine_of(index: JobIndex, wanted: str | None) -> Machine:
    """The machine of this id, else the one chosen to plan with, else the first, else a usual band saw."""
    rows = index.job.machines
    if wanted is not None and wanted in rows:
        return rows[wanted]
    return next((m for m in rows.values() if m.chosen), next(iter(rows.values()), Machine("band saw", "band saw")))


def mounted_on(index: JobIndex, machine: Machine) -> Blade | None:
    """The blade that is mounted on a machine; None where nobody named one of its own."""
    blade = index.job.blades.get(machine.blade or "")
    return blade if blade is not None and blade.machine == machine.id else None


def saw_with(index: JobIndex, machine: str | None, blade: str | None) -> Mounted:
    """The machine wanted with the blade wanted, else with the one mounted; a blade comes with its machine."""
    own = index.job.blades.get(blade or "")
    row = machine_of(index, own.machine if own is not None else machine)
    fits = own if own is not None and own.machine == row.id else mounted_on(index, row)
    return Mounted(row.id, fits.id if fits is not None else "", losses_of(index, row, fits))


def losses_of(index: JobIndex, machine: Machine, blade: Blade | None = None) -> Losses:
    """Kerf, wander and re-joint loss a slice, and the keep-back, of a machine with this blade, else the one mounted."""
    on = blade if blade is not None else mounted_on(index, machine)

    def loss(what: str) -> Figure:
        own = getattr(on, what, None)
        said = own if own is not None and own.value is not None else getattr(machine, what)
        return entered(index.unit, said, f"{machine.kind} {what.replace('_', ' ')}")

    kerf, wander, rejoint = loss("kerf"), loss("wander"), loss("rejoint")
    together = total(f"loss a slice, {machine.kind}", plus(kerf), plus(wander), plus(rejoint))
    return Losses(kerf, wander, rejoint, together, loss("keep_back"))


def billet_plan(index: JobIndex, billet: Billet, panel: PanelPlan, usual_length: Figure | None = None) -> BilletPlan:
    """One billet: its plan by the machine's losses, the slices that exist, and the rest of it by what was seen.

    `usual_length`: what a billet is taken to be long as long as nobody told.
    """
    piece = index.job.pieces.get(billet.piece or "")
    thick = _size(index, billet, piece, "thickness")
    own = measured(billet.slice, "leaf as sawn")
    leaf = Figure(own.name, own.value, "chosen") if own is not None else panel.slice
    saw = _sawing(index, billet, thick, leaf)
    losses = saw.first.losses
    planned = leaves_in(thick, leaf, losses.together, losses.keep_back)
    found = seen(saw)
    slices = _slices(index, billet, saw, planned, found)
    rest = rest_of("rest of the billet", thick, leaf, losses.together, losses.keep_back, planned)
    rest = found.rest if found else rest
    return BilletPlan(
        billet=billet,
        saw=saw.first,
        saw_now=saw.mounted,
        length=_length(billet, piece, usual_length),
        width=_size(index, billet, piece, "width"),
        thickness=thick,
        slice=leaf,
        keep_back=saw.keep_back,
        planned=planned,
        slices=slices,
        rest=rest,
        spare=is_spare(index, leaf, rest, saw.keep_back),
        seen=found,
        shift=_shift(billet, losses, leaf, panel),
        ways=savings(found, slices, saw, panel),
        tallest=tallest(index, machine_of(index, saw.mounted.machine)),
        belly=belly(index, saw.mounted, _size(index, billet, piece, "width")),
        stretches=tuple(stretches(saw)),
    )


def _size(index: JobIndex, billet: Billet, piece: Piece | None, what: str) -> Figure:
    """The billet's own size after jointing, else its piece's, else the least of those at hand."""
    return _own(billet, piece, what) or billet_size(index, what)


def _length(billet: Billet, piece: Piece | None, usual: Figure | None) -> Figure:
    """The billet's own length, else its piece's, else as long as the longest leaf of the job wants it."""
    unread = Length(0) if usual is None else usual.value
    assumed_so = Figure(f"length of billet {billet.id}", unread, "assumed", "as long as the longest leaf wants it")
    return _own(billet, piece, "length") or assumed_so


def _own(billet: Billet, piece: Piece | None, what: str) -> Figure | None:
    own = measured(getattr(billet, what), f"{what} of billet {billet.id}")
    if own is not None or piece is None:
        return own
    return measured(getattr(piece, what), f"{what} of {piece.id}")


def spare_from(index: JobIndex, leaf: Figure) -> Figure:
    """From which rest on a keep-back is one more leaf: as the shop says, as long as that is a leaf at least."""
    chosen = measured(index.allowances.spare_rest, "rest that gives a spare")
    if chosen is not None and in_units(chosen.value) >= in_units(leaf.value):
        return Figure(chosen.name, chosen.value, "chosen")
    return total("rest that gives a spare", plus(leaf), plus(assumed(index.unit, "spare rest")))


def is_spare(index: JobIndex, leaf: Figure, rest: Figure, keep: Figure) -> bool:
    """F53: whether the rest is one more leaf. Where nothing is kept back every leaf is counted already."""
    return in_units(keep.value) > 0 and in_units(rest.value) >= in_units(spare_from(index, leaf).value)


def tallest(index: JobIndex, machine: Machine) -> Figure | None:
    """The widest billet that a saw takes on edge; a table saw cuts from both edges, the cuts overlapping (F54).

    None for a band saw whose height nobody told.
    """
    if machine.kind == "band saw":
        return measured(machine.most_height, "height under the guide")
    blade = entered(index.unit, machine.blade_height, "table saw blade height")
    overlap = entered(index.unit, machine.overlap, "table saw overlap")
    return total("height in two passes", plus(blade, 2), minus(overlap))


def belly(index: JobIndex, saw: Mounted, width: Figure) -> Figure | None:
    """F54: how much thicker or thinner a leaf is at mid height where a table saw's blade leans; an angle has no exact
    tangent, so it is rounded. None where nobody told the angle, or where one cut goes through the billet."""
    machine, on = machine_of(index, saw.machine), index.job.blades.get(saw.blade)
    lean = on.out_of_square if on is not None and on.out_of_square is not None else machine.out_of_square
    angle = lean.value if lean is not None else None
    if machine.kind != "table saw" or angle is None or not abs(angle) < 90:
        return None
    blade = entered(index.unit, machine.blade_height, "table saw blade height")
    if in_units(width.value) <= in_units(blade.value):
        return None
    degrees = number("blade out of square", angle, "taped")
    value = half_up(in_units(blade.value) * _tangent(abs(angle)))
    terms = (Term(blade, 0), Term(degrees, 0))
    return Figure(
        "belly of a leaf", value, "derived", "blade height × tangent of the lean", terms, "rounded to the unit"
    )


def _tangent(degrees: Fraction) -> Fraction:
    return Fraction(math.tan(math.radians(float(degrees)))).limit_denominator(10**9)


def _sawing(index: JobIndex, billet: Billet, thick: Figure, leaf: Figure) -> Sawing:
    """The slices made of a billet, and with which saw and blade each was made; a change holds from its leaf on."""
    rows = sorted((row for row in index.job.leaves.values() if row.billet == billet.id), key=_in_order)
    sawn = [row for row in rows if was_sawn(row)]
    changes = [(0, saw_with(index, billet.machine, billet.blade))]
    for row in rows:
        if row.machine is not None or row.blade is not None:
            changes.append((max(1, row.number), saw_with(index, row.machine, row.blade)))
    now, keep = measured(billet.slice_now, "leaf from now on"), measured(billet.keep_now, "kept back of this billet")
    return Sawing(thick, leaf, now, sawn, _in_turn(changes), changes[-1][1], keep)


def _in_turn(changes: Sequence[tuple[int, Mounted]]) -> list[tuple[int, Mounted]]:
    """Each change of saw or blade once: of two at one number the later, none where it is as before."""
    found: list[tuple[int, Mounted]] = []
    for start, on in changes:
        if found and found[-1][0] == start:
            found.pop()
        if not found or found[-1][1] != on:
            found.append((start, on))
    return found


def _in_order(row: Leaf) -> tuple[int, tuple[object, ...]]:
    return row.number, tuple(natural(row.id))


def was_sawn(row: Leaf) -> bool:
    """Whether a leaf is there; one that only has a place, a saw or a note, and nothing read of it, is still to come."""
    read = mean_thickness(row) is not None or any(measured(getattr(row, name), "") is not None for name in _READ)
    return read or row.sawn or row.state != "good" or not (row.side or row.machine or row.blade or row.note)


def _slices(index: JobIndex, billet: Billet, saw: Sawing, planned: int, found: Seen | None) -> tuple[SlicePlan, ...]:
    """Every leaf in sawing order; a stopped cut gives two of one number."""
    rows: dict[int, list[Leaf]] = {}
    for row in sorted((one for one in index.job.leaves.values() if one.billet == billet.id), key=_in_order):
        rows.setdefault(row.number, []).append(row)
    total_now = max(found.leaves if found else planned, max((row.number for row in saw.sawn), default=0))
    risky = at_risk(found, saw, total_now)
    slices: list[SlicePlan] = []
    should: Figure | None = None
    for at in range(1, min(max(planned, total_now, *rows), MOST_SLICES) + 1):
        should = left_should(f"billet left after {billet.id}{at}", saw, planned, found, at, should)
        state: Literal["to come", "lost"] = "to come" if at <= total_now else "lost"
        on = saw.with_what(at)
        if at not in rows:
            name = f"{billet.id}{at}"
            slices.append(SlicePlan(name, at, saw.now or saw.leaf, should, None, None, None, state, at == risky, on))
        for row in rows.get(at, ()):
            left = measured(row.left, f"billet left after {row.id}")
            mean = mean_thickness(row)
            is_now = row.state if was_sawn(row) else state
            wanted = saw.leaf if was_sawn(row) else saw.now or saw.leaf
            slices.append(SlicePlan(row.id, at, wanted, should, row, mean, left, is_now, at == risky, on))
    return tuple(slices)


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
    tangent = _tangent(angle)
    value = half_up(Fraction(in_units(apart.value)) / tangent) if tangent else Length(0)
    terms = (Term(apart, 0), Term(degrees, 0))
    return Figure(
        "shift of the figure", value, "derived", "distance / tangent of the ring angle", terms, "rounded to the unit"
    )
