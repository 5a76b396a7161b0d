"""What leaves are seated on: the faces of panels, skins, and the leaves that strips are laid on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from frontwright.core.assumed import assumed, entered
from frontwright.core.facing.result import FacingPlan
from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontsPlan
from frontwright.core.job import LeafSide
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.making.leaves import leaves_across
from frontwright.core.making.result import PanelPart, PanelPlan
from frontwright.core.veneer.counts import WIDE, Nest
from frontwright.core.veneer.seats import Face, Room

_SIDES: tuple[LeafSide, ...] = ("show", "back")


def panel_faces(
    index: JobIndex,
    fronts: FrontsPlan,
    panels: Sequence[PanelPart],
    builds: Mapping[str, PanelPlan],
    usable: Figure,
) -> Iterator[Face]:
    """Show face and back of every shop-made panel, the doors of a pair together."""
    inner, stop = int(in_units(usable.value)), assumed(index.unit, "veneer stop")
    for panel in panels:
        if panel.leaf_length is None or panel.leaves_across is None:
            continue
        pair, count, build = fronts.fronts[panel.front].opening, panel.leaves_across, builds[panel.part]
        units = panel.leaf_length.length.units
        across = in_units(panel.core_across.value) if panel.core_across is not None else 0
        outer = int(across - max(0, count - 2) * inner) // min(2, count)
        thin = int(sum(in_units(part.value) for part in (build.glue_loss, build.show_loss, stop)))
        planned = int(in_units(build.slice.value))
        for side in _SIDES:
            yield Face(panel.part, side, count, units, pair, panel.front, inner, outer, min(thin, planned), planned)


def room_of(index: JobIndex) -> Room:
    """What a billet is longer than its leaves, and a leaf wider than after its edges are jointed."""
    over = entered(index.unit, index.allowances.billet_over_leaf, "billet over leaf").length.units
    return Room(over, 2 * entered(index.unit, index.allowances.leaf_edge, "leaf edge").length.units)


def skin_faces(facing: FacingPlan, usable: Figure) -> Iterator[Face]:
    for strip in facing.strips:
        if strip.kind in WIDE:
            count, inner = leaves_across(strip.rough_width, usable), int(in_units(usable.value))
            outer = int(in_units(strip.rough_width.value) - max(0, count - 2) * inner) // min(2, count)
            yield Face(strip.id, "skin", count, strip.rough_length.length.units, inner=inner, outer=outer)


def strip_faces(index: JobIndex, nests: Sequence[Nest]) -> Iterator[Face]:
    kerf = entered(index.unit, index.allowances.rip_kerf, "kerf").length
    for use, length, laid in nests:
        for at, leaf in enumerate(laid):
            used = leaf.used(kerf).units
            yield Face(f"{use} {at + 1}", "strips", 1, length.length.units, inner=used, outer=used)
