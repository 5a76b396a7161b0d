"""Leaves wanted by use and length (F56, F58), strips on their leaves (F44), what billets give (F53)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from frontwright.core.assumed import entered, measured
from frontwright.core.facing.result import FacingPlan, PieceKind, Strip
from frontwright.core.figures import Figure, most, plus, total
from frontwright.core.job import Allowances, Machine
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, exact_text, in_units, up
from frontwright.core.making.leaves import billet_size, leaves_across
from frontwright.core.making.result import MakingPlan
from frontwright.core.veneer.nesting import StripLeaf, Wanted, nested
from frontwright.core.veneer.result import BilletYield, LeafCount, LeafUse
from frontwright.core.veneer.sawing import is_spare, losses_of, tallest
from frontwright.core.veneer.seen import leaves_in, rest_of

MOST_SPARES_SHARE = 10
WIDE: tuple[PieceKind, ...] = ("skin", "underside", "top panel")  # leaves edge to edge
Nest = tuple[LeafUse, Figure, tuple[StripLeaf, ...]]
Unfit = tuple[Strip, Figure, Figure]


@dataclass(frozen=True, slots=True)
class Want:
    """So many leaves of one thickness, from billets of one length; `usual`: as thick as most of the job's leaves."""

    length: Figure
    slice: Figure
    count: int
    usual: bool

    @property
    def key(self) -> tuple[object, object]:
        return self.length.value, self.slice.value

    def is_of(self, one: BilletYield) -> bool:
        return self.key == (one.length.value, one.slice.value)


def spares(count: int) -> int:
    """F58: one in ten of a length, at least one."""
    return max(1, -(-count // MOST_SPARES_SHARE)) if count else 0


def leaf_counts(
    making: MakingPlan, facing: FacingPlan, usable: Figure, nests: Sequence[Nest], leaf: Figure
) -> tuple[LeafCount, ...]:
    """Leaves for panels (two faces each) by length and thickness, skins and strips by length; `leaf`: the usual."""
    strips = (LeafCount(use, length, len(leaves), spares(len(leaves)), leaf) for use, length, leaves in nests if leaves)
    return (*_panel_leaves(making), *_skin_leaves(facing, usable, leaf), *strips)


def wants_of(index: JobIndex, leaves: Sequence[LeafCount], usual: Figure) -> tuple[Want, ...]:
    """Leaves wanted by the length of the billet that they are sawn from, and by their thickness."""
    found: dict[tuple[object, object], Want] = {}
    for leaf in leaves:
        length = billet_length(index, leaf.length)
        key = (length.value, leaf.slice.value)
        count = leaf.count + (found[key].count if key in found else 0)
        found[key] = Want(length, leaf.slice, count, leaf.slice.value == usual.value)
    return tuple(found.values())


def _panel_leaves(making: MakingPlan) -> Iterator[LeafCount]:
    groups: dict[tuple[object, object], tuple[Figure, Figure, int]] = {}
    for made in making.fronts.values():
        for panel in made.panels:
            if panel.leaf_length is not None:
                leaf = made.build.panel.slice
                key = (panel.leaf_length.value, leaf.value)
                length, first, sofar = groups.get(key, (panel.leaf_length, leaf, 0))
                groups[key] = (length, first, sofar + 2 * (panel.leaves_across or 0))
    for length, leaf, count in groups.values():
        yield LeafCount("panels", length, count, spares(count), leaf)


def _skin_leaves(facing: FacingPlan, usable: Figure, leaf: Figure) -> Iterator[LeafCount]:
    """A sawn skin is leaves edge to edge."""
    groups: dict[object, tuple[Figure, int]] = {}
    for strip in facing.strips:
        if strip.kind in WIDE:
            _, sofar = groups.get(strip.rough_length.value, (strip.rough_length, 0))
            groups[strip.rough_length.value] = (strip.rough_length, sofar + leaves_across(strip.rough_width, usable))
    for length, count in groups.values():
        yield LeafCount("skin", length, count, spares(count), leaf)


def strip_nests(index: JobIndex, making: MakingPlan, facing: FacingPlan, usable: Figure) -> tuple[Nest, ...]:
    """Strips laid on leaves: all on the shop's own length for strips, else stile strips on leaves as long as they are
    and rail strips on the panels' leaves where those are long enough."""
    strips = [s for s in facing.strips if s.kind not in WIDE]
    if not strips:
        return ()
    allowances = index.job.allowances.get("allowances") or Allowances()
    kerf = entered(index.unit, allowances.rip_kerf, "kerf").length
    own = measured(allowances.strip_leaf, "leaf length for strips")
    if own is not None:
        return (_nest("strips", strips, own, usable, kerf),)
    stiles, rails = [s for s in strips if s.upright], [s for s in strips if not s.upright]
    found: list[Nest] = []
    if stiles:
        found.append(_nest("stile strips", stiles, _longest(stiles), usable, kerf))
    if rails:
        found.append(_nest("rail strips", rails, _leaf_for(rails, making), usable, kerf))
    return tuple(found)


def _nest(use: LeafUse, strips: list[Strip], length: Figure, usable: Figure, kerf: Length) -> Nest:
    """Leaves of one use; strips of different matching groups never share a leaf."""
    groups: dict[str, list[Wanted]] = {}
    for s in strips:
        groups.setdefault(s.group, []).append(Wanted(s.id, s.rough_length.length, s.rough_width.length))
    laid = (nested(wanted, length.length, usable.length, kerf)[0] for wanted in groups.values())
    return use, length, tuple(leaf for leaves in laid for leaf in leaves)


def unfit(facing: FacingPlan, nests: Sequence[Nest], usable: Figure) -> list[Unfit]:
    """Strips that fit on no leaf, each with the length and usable width of the leaves that it was tried on."""
    laid = {w.id for _, _, leaves in nests for leaf in leaves for row in leaf.rows for w in row.strips}
    lengths = {use: length for use, length, _ in nests}
    found: list[Unfit] = []
    for strip in facing.strips:
        if strip.kind not in WIDE and strip.id not in laid:
            use: LeafUse = "stile strips" if strip.upright else "rail strips"
            found.append((strip, lengths.get(use) or lengths["strips"], usable))
    return found


def _longest(strips: list[Strip]) -> Figure:
    return most("longest strip", [s.rough_length for s in strips], "the longest governs")


def _leaf_for(rails: list[Strip], making: MakingPlan) -> Figure:
    longest = _longest(rails)
    panels = [p.leaf_length for m in making.fronts.values() for p in m.panels if p.leaf_length is not None]
    fitting = [f for f in panels if in_units(f.value) >= in_units(longest.value)]
    return min(fitting, key=lambda f: in_units(f.value), default=longest)


def machines_of(index: JobIndex) -> list[Machine]:
    """The shop's saws, the chosen one first; a usual band saw where none is entered."""
    rows = sorted(index.job.machines.values(), key=lambda m: not m.chosen)
    return rows or [Machine("band saw", "band saw")]


def billet_length(index: JobIndex, leaf: Figure) -> Figure:
    """F57: the leaf and what a billet is longer, rounded up where the shop says so."""
    allowances = index.job.allowances.get("allowances") or Allowances()
    longer = entered(index.unit, allowances.billet_over_leaf, "billet over leaf")
    bare = total("billet length", plus(leaf), plus(longer))
    step = allowances.billet_step
    if step is None or step.value is None or step.value.units <= 0:
        return bare
    value = up(bare.value, step.value)
    return Figure("billet length", value, "derived", "", (plus(bare),), "rounded up to the shop's step for billets")


def thicknesses(index: JobIndex) -> tuple[Figure, ...]:
    """The thicknesses of the billets at hand, the thickest first; the usual one where there is none."""
    rows = (piece for piece in index.job.pieces.values() if piece.form == "billet")
    found = [thick for row in rows if (thick := measured(row.thickness, f"thickness of {row.id}")) is not None]
    if len({thick.value for thick in found}) < 2:
        return (billet_size(index, "thickness"),)
    return tuple(sorted({thick.value: thick for thick in found}.values(), key=lambda thick: -in_units(thick.value)))


def billet_yields(index: JobIndex, wants: Sequence[Want]) -> tuple[BilletYield, ...]:
    """F53 for each machine, thickness at hand, and length and leaf wanted."""
    thick = thicknesses(index)
    return tuple(
        _yield(index, machine, want, one, len(thick) > 1)
        for machine in machines_of(index)
        for one in thick
        for want in wants
    )


def _yield(index: JobIndex, machine: Machine, want: Want, thick: Figure, several: bool) -> BilletYield:
    losses = losses_of(index, machine)
    leaf, length = want.slice, want.length
    own = [length] if want.usual else [length, leaf]
    sizes = " x ".join(exact_text(size.value, index.unit) for size in ([*own, thick] if several else own))
    count = leaves_in(thick, leaf, losses.together, losses.keep_back)
    rest = rest_of("rest of the billet", thick, leaf, losses.together, losses.keep_back, count)
    return BilletYield(
        id=f"{machine.name or machine.kind} {sizes}",
        machine=machine.name or machine.kind,
        length=length,
        width=billet_size(index, "width"),
        thickness=thick,
        slice=leaf,
        loss=losses.together,
        keep_back=losses.keep_back,
        leaves=count,
        rest=rest,
        spare=is_spare(index, leaf, rest, losses.keep_back),
        tallest=tallest(index, machine),
    )
