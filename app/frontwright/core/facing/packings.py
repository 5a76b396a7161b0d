"""What is packed: behind returns that square an opening, behind skins of proud frames, behind drawer fronts (F13)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from frontwright.core.assumed import measured
from frontwright.core.condition.result import DrawerPlan
from frontwright.core.facing.result import Packing, Strip
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job.index import JobIndex
from frontwright.core.returns import CoveredOpening
from frontwright.core.skins import face_strip
from frontwright.core.survey.result import RunPlan


def packings(
    index: JobIndex,
    run: RunPlan,
    pieces: Mapping[str, Strip],
    openings: Mapping[str, CoveredOpening],
    fronts: Mapping[str, FrontPlan],
    drawers: Mapping[str, DrawerPlan],
) -> Iterator[Packing]:
    """All of a run, in gluing order: behind skins, behind returns, and what the drawer fronts need."""
    for side, end in run.ends.items():
        proud = measured(end.proud, f"frame proud at the {side} end")
        skin = pieces.get(f"{run.id} {side} skin")
        if proud is not None and skin is not None and proud.units > 0:
            yield Packing(f"{run.id} {side} packing", skin.id, "proud end", skin.length, skin.width, (proud, proud))
    for found in openings.values():
        for side, one in found.returns.items():
            strip = pieces.get(f"{run.id} {found.opening} {side} return")
            if one.tapered and strip is not None:
                name = f"{run.id} {found.opening} {side} packing"
                yield Packing(name, strip.id, "return", strip.length, strip.width, one.packing)
    yield from drawer_packings(index, run, fronts, drawers)


def drawer_packings(
    index: JobIndex, run: RunPlan, fronts: Mapping[str, FrontPlan], drawers: Mapping[str, DrawerPlan]
) -> Iterator[Packing]:
    """F13: a facing moves the front plane out: a drawer front is packed out from its box, as chosen, else as needed."""
    if face_strip(index, run.id) is None:
        return
    for front in fronts.values():
        box = drawers.get(front.opening)
        if front.run != run.id or front.front.kind != "drawer" or box is None:
            continue
        thick = box.chosen or box.packing
        if thick.units > 0:
            yield Packing(f"{front.id} packing", front.id, "drawer front", front.width, front.height, (thick, thick))
