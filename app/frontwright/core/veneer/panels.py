"""Panels read backwards: what the leaves were, and the veneer left on each face after every pass (F38, F39)."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from frontwright.core.assumed import measured
from frontwright.core.figures import Figure, Term, minus, plus, share, total
from frontwright.core.job import PlanePass
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, half_up
from frontwright.core.making.result import PanelPart, PanelPlan
from frontwright.core.veneer.result import PanelMade

PassFace = Literal["show", "back"]


def panel_made(index: JobIndex, part: PanelPart, build: PanelPlan) -> PanelMade:
    """One shop-made panel: as pressed and as planed so far; without readings as planned."""
    pressed = _pressed(index, part.part)
    start = pressed or build.pressed
    were = _leaves_were(start, build) if pressed is not None else None
    correction = total("leaf thicker than planned by", plus(were), minus(build.slice)) if were is not None else None
    each = share("veneer on each face", total("both veneers", plus(start), minus(build.core)), 2)
    passes = sorted((p for p in index.job.plane_passes.values() if p.panel == part.part), key=lambda p: p.number)
    now, left = _after(passes, start, {"show": each, "back": each})
    return PanelMade(
        panel=part.part,
        pressed=pressed,
        leaves_were=were,
        correction=correction,
        now=now,
        show_left=left["show"],
        back_left=left["back"],
        passes=len(passes),
        next_face="back" if passes and passes[-1].face == "show" else "show",
        to_plane=total("still to plane", plus(now), minus(part.thickness)),
    )


def _pressed(index: JobIndex, panel: str) -> Figure | None:
    """The mean of the corners of a panel out of the press."""
    row = index.job.pressed_panels.get(panel)
    if row is None:
        return None
    names = ("corner_1", "corner_2", "corner_3", "corner_4")
    read = [f for at, name in enumerate(names, 1) if (f := measured(getattr(row, name), f"{panel}, corner {at}"))]
    if not read:
        return None
    value = half_up(Fraction(sum(f.length.units for f in read), len(read)))
    return Figure(f"{panel} as pressed", value, "derived", f"mean of {len(read)} corners", tuple(Term(f) for f in read))


def _leaves_were(pressed: Figure, build: PanelPlan) -> Figure:
    """F38: half of what is over the core, and the loss on the glue face."""
    both = total("over the core", plus(pressed), minus(build.core))
    return total("leaves were", plus(share("each leaf as glued", both, 2)), plus(build.glue_loss))


def _after(
    passes: list[PlanePass], start: Figure, left: dict[PassFace, Figure]
) -> tuple[Figure, dict[PassFace, Figure]]:
    """Thickness now, and the veneer left on each face; a pass not measured takes nothing that could be counted."""
    now = start
    for one in passes:
        thick = measured(one.thickness, f"{one.panel} after pass {one.number}")
        if thick is None:
            continue
        gone = total(f"planed off in pass {one.number}", plus(now), minus(thick))
        if gone.length > ZERO:
            left = left | {one.face: total(f"veneer left, {one.face}", plus(left[one.face]), minus(gone))}
        now = thick
    return now, left
