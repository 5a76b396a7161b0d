"""Panels read backwards: what the leaves were, and the veneer left on each face after every pass (F38, F39)."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from frontwright.core.assumed import measured
from frontwright.core.figures import Figure, Term, minus, plus, share, total
from frontwright.core.job import PlanePass
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, half_up, in_units
from frontwright.core.making.result import PanelPart, PanelPlan
from frontwright.core.veneer.result import BilletPlan, PanelMade, Seat

PassFace = Literal["show", "back"]


def leaves_of_faces(plans: Sequence[BilletPlan], seats: Sequence[Seat], part: str) -> Figure | None:
    """How much thicker the leaves of a panel's show face are than those of its back, by their readings; None until
    both were read."""
    thick = {s.id: s.thick for p in plans for s in p.slices if s.thick is not None}
    means: dict[str, Figure] = {}
    for side in ("show", "back"):
        read = [thick[s.leaf] for s in seats if (s.of, s.side) == (part, side) and s.leaf in thick]
        if not read:
            return None
        means[side] = share(f"leaves of the {side}", total("leaves together", *(plus(f) for f in read)), len(read))
    return total("leaves of the show face thicker by", plus(means["show"]), minus(means["back"]))


def panel_made(index: JobIndex, part: PanelPart, build: PanelPlan, thicker: Figure | None = None) -> PanelMade:
    """One shop-made panel: as pressed and as planed so far; without readings as planned.

    `thicker`: by how much the leaves of its show face are thicker than those of its back.
    """
    pressed = _pressed(index, part.part)
    start = pressed or build.pressed
    were = _leaves_were(start, build) if pressed is not None else None
    correction = total("leaf thicker than planned by", plus(were), minus(build.slice)) if were is not None else None
    glued = _as_glued(start, build, thicker)
    passes = sorted((p for p in index.job.plane_passes.values() if p.panel == part.part), key=lambda p: p.number)
    after = [_after(passes[:at], start, glued) for at in range(len(passes) + 1)]
    now, left = _as_built(part, *after[-1])
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
        to_plane=_over("still to plane", now, part.thickness),
        too_far=_over("planed too far by", part.thickness.planned or part.thickness, now),
        left_after=tuple((faces["show"], faces["back"]) for _, faces in after[1:]),
    )


def _as_glued(start: Figure, build: PanelPlan, thicker: Figure | None) -> dict[PassFace, Figure]:
    """The veneer of each face before the first pass: half of what is over the core, and of what the leaves differ."""
    each = share("veneer on each face", total("both veneers", plus(start), minus(build.core)), 2)
    if thicker is None or not in_units(thicker.value):
        return {"show": each, "back": each}
    half = share("half of the difference", thicker, 2)
    return {
        "show": total("veneer of the show face", plus(each), plus(half)),
        "back": total("veneer of the back", plus(each), minus(half)),
    }


def _over(name: str, one: Figure, other: Figure) -> Figure:
    """By how much one is more than the other; never under nothing."""
    found = total(name, plus(one), minus(other))
    return found if found.units > 0 else Figure(name, ZERO, "derived", "", found.terms)


def _as_built(part: PanelPart, now: Figure, left: dict[PassFace, Figure]) -> tuple[Figure, dict[PassFace, Figure]]:
    """A panel measured thinner than its passes tell was planed or sanded further, nobody told on which face."""
    thick = part.thickness
    if thick.source != "as-built" or in_units(thick.value) >= in_units(now.value):
        return now, left
    each = share("taken off each face", total("taken off", plus(now), minus(thick)), 2)
    faces: tuple[PassFace, PassFace] = ("show", "back")
    return thick, {face: total(f"veneer left, {face}", plus(left[face]), minus(each)) for face in faces}


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
        if in_units(gone.value) > 0:
            left = left | {one.face: total(f"veneer left, {one.face}", plus(left[one.face]), minus(gone))}
        now = thick
    return now, left
