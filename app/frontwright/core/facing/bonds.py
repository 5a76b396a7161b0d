"""What holds the pieces: adhesive by what it is glued to, volume, strips to a mix (F72); pins by thickness (F73)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from frontwright.core.assumed import (
    POT_MINUTES,
    POT_SHARE,
    STRIP_MINUTES,
    assumed,
    entered,
    measured,
    pins_sold,
)
from frontwright.core.condition.result import Ground
from frontwright.core.condition.surfaces import ground_of
from frontwright.core.facing.result import Bond, PieceKind, Pins, Strip
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.job import Adhesive, AdhesiveKind, Amount, Facing, SurfaceWhere
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import MM, Length, in_units
from frontwright.core.survey.result import RunPlan

GLUED: tuple[PieceKind, ...] = ("skin", "underside", "return", "stile strip", "rail strip", "filler")
PINNED: tuple[PieceKind, ...] = ("skin", "return", "stile strip", "rail strip", "toe kick")
ADHESIVE_USUAL = {"pot_minutes": POT_MINUTES, "used_share": POT_SHARE, "strip_minutes": STRIP_MINUTES}
_ML = (MM * 10).units ** 3  # cubic units in a millilitre

# By what is found there, what a strip and what a skin is stuck on with; None: nothing until it is removed
HOLDS: dict[Ground, tuple[AdhesiveKind | None, AdhesiveKind | None]] = {
    "bare wood": ("wood glue", "wood glue"),
    "sound finish": ("epoxy", "contact adhesive"),
    "sound film": ("epoxy", None),
    "lifting": (None, None),
    "laminate": ("epoxy", "contact adhesive"),
    "greasy": ("epoxy", "contact adhesive"),
    "not said": ("epoxy", "contact adhesive"),
}
FITS: dict[Ground, tuple[AdhesiveKind, ...]] = {
    "bare wood": ("wood glue", "epoxy", "contact adhesive"),
    "sound finish": ("epoxy", "contact adhesive"),
    "sound film": ("epoxy",),
    "lifting": (),
    "laminate": ("epoxy", "contact adhesive"),
    "greasy": ("epoxy", "contact adhesive"),
    "not said": ("wood glue", "epoxy", "contact adhesive"),
}


def millilitres(area: Fraction, film: Figure) -> Fraction:
    """F72: area (square units) x film, in millilitres."""
    return area * in_units(film.value) / _ML


def per_mix(pot: Fraction, share: Fraction, minutes: Fraction) -> int:
    """F72: strips to one mix, ⌊share x pot life / minutes a strip⌋."""
    return int(share * pot / minutes) if minutes > 0 else 0


def bonds(index: JobIndex, run: RunPlan, pieces: Sequence[Strip]) -> Iterator[Bond]:
    """The pieces of a run by the surface that they are glued to, in gluing order."""
    groups: dict[SurfaceWhere, list[Strip]] = {}
    for one in pieces:
        if one.kind in GLUED:
            groups.setdefault(_where(one), []).append(one)
    for where, own in groups.items():
        yield _bond(index, run, where, own)


def _where(one: Strip) -> SurfaceWhere:
    if one.kind == "skin":
        return "left end" if one.on.startswith("left") else "right end"
    return "underside" if one.kind == "underside" else "inside edges" if one.kind == "return" else "faces"


def _bond(index: JobIndex, run: RunPlan, where: SurfaceWhere, pieces: Sequence[Strip]) -> Bond:
    chosen, ground = _chosen(index, run.id), ground_of(index, run.id, where)
    wide = where in ("left end", "right end", "underside")
    kind = chosen.kind if chosen is not None else HOLDS[ground][1 if wide else 0]
    row = chosen or Adhesive("", name=kind or "", kind=kind or "epoxy")
    film = entered(index.unit, row.film, "glue film")
    pot, share = _number(row.pot_minutes, POT_MINUTES), _number(row.used_share, POT_SHARE)
    minutes = _number(row.strip_minutes, STRIP_MINUTES)
    area = sum((Fraction(one.width.units) * one.length.units for one in pieces), Fraction(0))
    mix = per_mix(pot, share, minutes)
    return Bond(
        run=run.id,
        where=where,
        ground=ground,
        fits=kind in FITS[ground],
        kind=kind,
        adhesive=row.name or (row.kind if kind is not None else ""),
        area=area,
        millilitres=millilitres(area, film) if kind is not None else Fraction(0),
        strips=len(pieces),
        per_mix=mix,
        mixes=-(-len(pieces) // max(mix, 1)),
        film=film,
        pot=pot,
        share=share,
        minutes=minutes,
    )


def _chosen(index: JobIndex, run: str) -> Adhesive | None:
    row = index.job.facings.get(run) or Facing(run)
    return index.job.adhesives.get(row.adhesive or "")


def _number(given: Amount | None, otherwise: Fraction) -> Fraction:
    return given.value if given is not None and given.value is not None else otherwise


# -- pins


def pin_for(index: JobIndex, thick: Figure, behind: Figure) -> tuple[Figure, Figure, Length | None]:
    """F73: `t + 10 <= pin <= t + what is behind - 2`, and the shortest pin sold between; None where there is none."""
    least = total("pin, at least", plus(thick), plus(assumed(index.unit, "pin hold")))
    most = total("pin, at most", plus(thick), plus(behind), minus(assumed(index.unit, "pin clear")))
    low, high = in_units(least.value), in_units(most.value)
    return least, most, next((one for one in pins_sold(index.unit) if low <= one.units <= high), None)


def pins_of(index: JobIndex, run: RunPlan, pieces: Sequence[Strip]) -> Iterator[Pins]:
    """Pins for pieces of one thickness that lie on wood of one thickness."""
    groups: dict[tuple[object, object], list[tuple[Strip, Figure]]] = {}
    for one in (piece for piece in pieces if piece.kind in PINNED):
        behind = _behind(index, run, one)
        groups.setdefault((one.thickness.value, behind.value), []).append((one, behind))
    for group in groups.values():
        first, behind = group[0]
        least, most, pin = pin_for(index, first.thickness, behind)
        count = sum(_count(index, one) for one, _ in group)
        yield Pins(run.id, tuple(one.id for one, _ in group), first.thickness, behind, least, most, pin, count)


def _count(index: JobIndex, one: Strip) -> int:
    """One at each end and so far apart between; two rows in a wide strip."""
    apart, wide = assumed(index.unit, "pin spacing").length, assumed(index.unit, "pin row").length
    rows = 2 if one.width.length > wide else 1
    return rows * (-(-one.length.length.units // apart.units) + 1)


def _behind(index: JobIndex, run: RunPlan, one: Strip) -> Figure:
    """What the pin is driven into: the frame behind a face, the side behind a skin, the stile behind a return."""
    if one.kind == "skin":
        boxes = sorted(index.cabinets.get(run.id, []), key=lambda box: box.place)
        side = next((box.side for box in boxes if box.side is not None), None)
        return entered(index.unit, side, "side")
    if one.kind == "return":
        widths = [m.across for m in (*run.members, *run.rails) if m.member.kind != "seam" and m.across.units > 0]
        return min(widths, key=lambda f: f.units, default=assumed(index.unit, "frame member"))
    read = [t for m in (*run.members, *run.rails) if (t := measured(m.member.thickness, f"thickness of {m.id}"))]
    return min(read, key=lambda f: f.units, default=assumed(index.unit, "frame thickness"))
