"""The veneer chapter as counts: leaves by use (F56, F58), leaves a billet on each machine (F53)."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.assumed import assumed, entered, measured
from frontwright.core.facing.result import FacingPlan
from frontwright.core.figures import Figure, minus, most, plus, total
from frontwright.core.job import Machine, MachineKind
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, exact_text, in_units, up
from frontwright.core.making.builds import panel_plan
from frontwright.core.making.leaves import billet_size, leaves_across, usable_width
from frontwright.core.making.result import MakingPlan, PanelPart
from frontwright.core.skins import first_veneered
from frontwright.core.veneer.result import BilletYield, LeafCount, VeneerPlan


def veneer(index: JobIndex, making: MakingPlan, facing: FacingPlan) -> VeneerPlan:
    """Leaves for panels and skins, and what a billet of each length gives."""
    usable = usable_width(index)
    leaves = (*_panel_leaves(making), *_skin_leaves(facing, usable))
    lengths = _leaf_lengths(index, leaves, facing)
    return VeneerPlan(leaves, tuple(_billets(index, lengths)), usable)


def spares(count: int) -> int:
    """F58: one in ten of a length, at least one."""
    return max(1, -(-count // 10)) if count else 0


def _panel_leaves(making: MakingPlan) -> Iterator[LeafCount]:
    """Two faces a panel; panels of one length together."""
    groups: dict[object, list[PanelPart]] = {}
    for made in making.fronts.values():
        for panel in made.panels:
            if panel.leaf_length is not None:
                groups.setdefault(panel.leaf_length.value, []).append(panel)
    for panels in groups.values():
        count = sum(2 * (panel.leaves_across or 0) for panel in panels)
        length = panels[0].leaf_length
        if length is not None:
            yield LeafCount("panels", length, count, spares(count))


def _skin_leaves(facing: FacingPlan, usable: Figure) -> Iterator[LeafCount]:
    """A sawn skin is leaves edge to edge."""
    groups: dict[object, tuple[Figure, int]] = {}
    for strip in facing.strips:
        if strip.order == 1:
            _, sofar = groups.get(strip.rough_length.value, (strip.rough_length, 0))
            count = sofar + leaves_across(strip.rough_width, usable)
            groups[strip.rough_length.value] = (strip.rough_length, count)
    for length, count in groups.values():
        yield LeafCount("skin", length, count, spares(count))


def _leaf_lengths(index: JobIndex, leaves: tuple[LeafCount, ...], facing: FacingPlan) -> list[Figure]:
    """Each length of leaf that the job wants: of panels, and the shop's length for strips or else the longest strip."""
    lengths = [leaf.length for leaf in leaves]
    strips = [strip.rough_length for strip in facing.strips]
    given = index.allowances.strip_leaf
    if strips and given is not None and given.value is not None:
        lengths.append(Figure("leaf length for strips", given.value, "chosen"))
    elif strips:
        lengths.append(most("longest strip", strips, "the longest governs"))
    return list({length.value: length for length in lengths}.values())


def _billets(index: JobIndex, lengths: list[Figure]) -> Iterator[BilletYield]:
    for machine in _machines(index):
        done: set[object] = set()
        for leaf in lengths:
            length = billet_length(index, leaf)
            if length.value not in done:
                done.add(length.value)
                yield _yield(index, machine, length)


def _machines(index: JobIndex) -> list[Machine]:
    """The shop's saws; a usual band saw where none is entered."""
    rows = sorted(index.job.machines.values(), key=lambda m: not m.chosen)
    return rows or [Machine("band saw", "band saw")]


def billet_length(index: JobIndex, leaf: Figure) -> Figure:
    """F57: the leaf and what a billet is longer, rounded up where the shop says so."""
    longer = entered(index.unit, index.allowances.billet_over_leaf, "billet over leaf")
    bare = total("billet length", plus(leaf), plus(longer))
    step = index.allowances.billet_step
    if step is None or step.value is None or step.value.units <= 0:
        return bare
    value = up(bare.value, step.value)
    return Figure("billet length", value, "derived", "", (plus(bare),), "rounded up to the shop's step for billets")


def _yield(index: JobIndex, machine: Machine, length: Figure) -> BilletYield:
    """F53: leaves of a billet, with the keep-back; without one the last leaf needs no cut."""
    losses = [_loss(index, machine, what) for what in ("kerf", "wander", "rejoint")]
    loss = total(f"loss a slice, {machine.kind}", *(plus(one) for one in losses))
    keep = _loss(index, machine, "keep_back")
    leaf = panel_plan(index, first_veneered(index)).slice
    thick = billet_size(index, "thickness")
    count = leaves_of(thick.length, leaf.length, loss.length, keep.length)
    cuts = count if in_units(keep.value) else count - 1  # with nothing kept back the last leaf is what is left
    rest = total("rest of the billet", plus(thick), minus(leaf, count), minus(loss, cuts)) if count else thick
    spare_from = _spare_from(index, leaf)
    return BilletYield(
        id=f"{machine.name or machine.kind} {exact_text(length.value, index.unit)}",
        machine=machine.name or machine.kind,
        length=length,
        width=billet_size(index, "width"),
        thickness=thick,
        slice=leaf,
        loss=loss,
        keep_back=keep,
        leaves=count,
        rest=rest,
        spare=in_units(rest.value) >= in_units(spare_from.value),
        tallest=tallest(index, machine),
    )


def tallest(index: JobIndex, machine: Machine) -> Figure | None:
    """The widest billet that a saw takes on edge; a table saw cuts from both edges, the cuts overlapping (F54).

    None for a band saw whose height nobody told.
    """
    if machine.kind == "band saw":
        return measured(machine.most_height, "height under the guide")
    blade, overlap = _loss(index, machine, "blade_height"), _loss(index, machine, "overlap")
    return total("height in two passes", plus(blade, 2), minus(overlap))


def leaves_of(billet: Length, leaf: Length, loss: Length, keep_back: Length) -> int:
    """F53: whole leaves of a billet; with nothing kept back the last one needs no cut."""
    pitch = leaf.units + loss.units
    if pitch <= 0:
        return 0
    room = billet.units - keep_back.units if keep_back.units else billet.units + loss.units
    return max(0, room // pitch)


def _spare_from(index: JobIndex, leaf: Figure) -> Figure:
    """From which rest on a keep-back is one more leaf."""
    given = index.allowances.spare_rest
    if given is not None and given.value is not None:
        return Figure("rest that gives a spare", given.value, "chosen")
    return total("rest that gives a spare", plus(leaf), plus(assumed(index.unit, "spare rest")))


def _loss(index: JobIndex, machine: Machine, what: str) -> Figure:
    kind: MachineKind = machine.kind
    return entered(index.unit, getattr(machine, what), f"{kind} {what.replace('_', ' ')}")
