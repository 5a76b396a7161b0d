"""A piece with its rough size, and what several modules ask of a run: its skins, its length, its ends."""

from __future__ import annotations

from frontwright.core.assumed import entered
from frontwright.core.built import as_it_is
from frontwright.core.facing.result import PieceKind, Place, Strip
from frontwright.core.figures import Figure, plus, total
from frontwright.core.job import MadeOf
from frontwright.core.job.index import JobIndex
from frontwright.core.skins import skin_thickness
from frontwright.core.survey.result import RunPlan

ENDS = ("left", "right")


def piece(
    index: JobIndex,
    run: RunPlan,
    kind: PieceKind,
    own: str,
    on: str,
    size: tuple[Figure, Figure, Figure],
    *,
    made_of: MadeOf = "sawn",
    species: str = "",
    rough: tuple[Figure, Figure] | None = None,
    covers: tuple[str, ...] = (),
    ends: tuple[Figure, Figure] | None = None,
    upright: bool = False,
    place: Place | None = None,
) -> Strip:
    """A piece of a run with its rough size (F44, F51); what was measured of it goes before the plan."""
    name = f"{run.id} {own}"
    length, width, thickness = (
        as_it_is(index, name, what, one) for what, one in zip(("length", "width", "thickness"), size, strict=True)
    )
    row = index.job.facings.get(run.id)
    return Strip(
        id=name,
        run=run.id,
        on=on,
        length=length,
        width=width,
        thickness=thickness,
        rough_length=rough[0] if rough else longer(index, on, length, made_of),
        rough_width=rough[1] if rough else wider(index, on, width, made_of),
        order=0,
        kind=kind,
        made_of=made_of,
        species=species,
        covers=covers,
        ends=ends,
        group=row.match if row is not None else "",
        upright=upright,
        place=place,
    )


def longer(index: JobIndex, on: str, length: Figure, made_of: MadeOf = "sawn") -> Figure:
    """Rough length: of solid wood as of any solid part."""
    solid = made_of == "solid"
    typed = index.allowances.solid_length if solid else index.allowances.strip_length
    return total(
        f"strip on {on}, rough length",
        plus(length),
        plus(entered(index.unit, typed, "solid length" if solid else "strip length")),
    )


def wider(index: JobIndex, on: str, width: Figure, made_of: MadeOf = "sawn") -> Figure:
    solid = made_of == "solid"
    typed = index.allowances.solid_width if solid else index.allowances.strip_width
    return total(
        f"strip on {on}, rough width",
        plus(width),
        plus(entered(index.unit, typed, "solid width" if solid else "strip width")),
    )


def skins_of(index: JobIndex, run: RunPlan) -> dict[str, Figure]:
    """The thickness of the skin at each end that has one."""
    found = {side: skin_thickness(index, run.id, side) for side in ENDS}
    return {side: skin for side, skin in found.items() if skin is not None}


def run_length(run: RunPlan, skins: dict[str, Figure]) -> Figure | None:
    """F43: the run with the skins on its ends."""
    if run.overall is None:
        return None
    return total(f"length of {run.id} with its skins", plus(run.overall), *map(plus, skins.values()))


def stands_open(run: RunPlan, side: str) -> bool:
    """Whether an end of the run is seen from the side."""
    end = run.ends.get(side)
    return end is not None and (end.kind == "open" or (end.kind is None and end.skin != "none"))
