"""Frames: stiles, rails, fields, dowels, proof lines, mass (F29 to F34, F40)."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.assumed import GLASS, entered, measured
from frontwright.core.built import as_it_is
from frontwright.core.figures import Figure, Term, minus, plus, rounded, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job import DOOR_LIKE
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import UNITS_IN, Display, in_units
from frontwright.core.making.panels import Field, clearances
from frontwright.core.making.result import BuildPlan, Dowels, PanelPart, Part, PartKind, Proof
from frontwright.core.wood import density

Rails = tuple[Figure, Figure]


def rails_of(index: JobIndex, front: FrontPlan, build: BuildPlan) -> Rails:
    """Top and bottom rail width, as ripped where that was measured: a framed drawer front has its own."""
    top, bottom = build.drawer_rail, build.drawer_rail
    if front.front.kind in DOOR_LIKE:
        top, bottom = build.top_rail, build.bottom_rail
    name = front.id
    return as_it_is(index, f"{name}-RT", "width", top), as_it_is(index, f"{name}-RB", "width", bottom)


def mid_rails_of(front: FrontPlan, build: BuildPlan) -> int:
    """How many mid rails a front has: those of its build, a drawer front none."""
    return build.mid_rails if front.front.kind in DOOR_LIKE else 0


def sight_of(front: FrontPlan, build: BuildPlan, rails: Rails) -> Field:
    """F29: what shows of the panel: the front less stiles, less all rails."""
    count = mid_rails_of(front, build)
    mids = [minus(build.mid_rail, count)] if count else []
    return (
        total(f"sight of {front.id}, width", plus(front.width), minus(build.stile, 2)),
        total(f"sight of {front.id}, height", plus(front.height), minus(rails[0]), minus(rails[1]), *mids),
    )


def mid_rail_edges(
    index: JobIndex, front: FrontPlan, build: BuildPlan, rails: Rails, sight: Field, display: Display
) -> tuple[Figure, ...]:
    """Lower edges of the mid rails above the front's bottom edge, from the bottom, on the step (F32).

    The lowest stands where its centre was put; the fields above it, or else all, are equal.
    """
    count = mid_rails_of(front, build)
    row = index.job.door_builds.get(build.id)
    centre = measured(row.mid_rail_at, "centre of the mid rail") if row is not None else None
    names = [f"mid rail {number} of {front.id}, lower edge" for number in range(1, count + 1)]
    found: list[Figure] = []
    start, room = rails[1], sight[1]
    if count and centre is not None:
        found.append(total(names[0], plus(centre), minus(share("half a mid rail", build.mid_rail, 2))))
        start = total("over the lowest mid rail", plus(found[0]), plus(build.mid_rail))
        above = [minus(build.mid_rail, count - 1)] if count > 1 else []
        room = total("sight over it", plus(front.height), minus(rails[0]), minus(start), *above)
    if left := count - len(found):
        field = share("each field, before rounding", room, left + 1)
        for at, name in enumerate(names[len(found) :]):
            below = [plus(build.mid_rail, at)] if at else []
            found.append(total(name, plus(start), plus(field, at + 1), *below))
    return tuple(rounded(name, edge, display.step, "the step") for name, edge in zip(names, found, strict=True))


def fields_of(
    front: FrontPlan, build: BuildPlan, rails: Rails, sight: Field, lows: tuple[Figure, ...]
) -> tuple[Field, ...]:
    """The fields between rails, top to bottom."""
    tops = [*lows, total("under the top rail", plus(front.height), minus(rails[0]))]
    bottoms = [rails[1], *(total("over a mid rail", plus(low), plus(build.mid_rail)) for low in lows)]
    heights = [
        total(f"field {at + 1} of {front.id}, height", plus(top), minus(bottom))
        for at, (top, bottom) in enumerate(zip(tops, bottoms, strict=True))
    ]
    return tuple((sight[0], height) for height in reversed(heights)) if lows else (sight,)


def frame_parts(index: JobIndex, front: FrontPlan, build: BuildPlan, rails: Rails) -> list[Part]:
    """F30: two stiles as long as the front is high, rails between them with their joints; rough sizes by F51."""
    name = front.id
    rail = total(
        f"rail of {name}, length",
        plus(front.width),
        minus(build.stile, 2),
        *([plus(build.joint, 2)] if build.joint.units else []),
    )
    stile = total(f"stile of {name}, length", plus(front.height))
    parts = [
        _solid(index, front, build, f"{name}-S", "stile", 2, stile, build.stile),
        _solid(index, front, build, f"{name}-RT", "top rail", 1, rail, rails[0]),
        _solid(index, front, build, f"{name}-RB", "bottom rail", 1, rail, rails[1]),
    ]
    if mids := mid_rails_of(front, build):
        rail = _mitred_mid_rail(front, build) if build.kind == "mitred" else rail
        parts.append(_solid(index, front, build, f"{name}-RM", "mid rail", mids, rail, build.mid_rail))
    return parts


def _mitred_mid_rail(front: FrontPlan, build: BuildPlan) -> Figure:
    """A mid rail of a mitred frame is not mitred: it stands in the grooves of the stiles."""
    name = f"mid rail of {front.id}, length"
    return total(name, plus(front.width), minus(build.stile, 2), plus(build.engagement, 2))


def slab_part(index: JobIndex, front: FrontPlan, build: BuildPlan, from_row: bool) -> Part:
    """A slab front is one part; one cut from a row's blank has no rough size of its own."""
    upright = front.grain == "vertical"
    along, across = (front.height, front.width) if upright else (front.width, front.height)
    part = _solid(index, front, build, front.id, "slab", 1, along, across)
    if not from_row:
        return part
    return Part(
        part.id,
        part.front,
        "slab",
        1,
        part.length,
        part.width,
        part.thickness,
        None,
        None,
        "solid",
        part.species,
        part.grain,
    )


def _solid(
    index: JobIndex,
    front: FrontPlan,
    build: BuildPlan,
    name: str,
    kind: PartKind,
    qty: int,
    length: Figure,
    width: Figure,
) -> Part:
    longer = entered(index.unit, index.allowances.solid_length, "solid length")
    wider = entered(index.unit, index.allowances.solid_width, "solid width")
    return Part(
        id=name,
        front=front.id,
        kind=kind,
        qty=qty,
        length=as_it_is(index, name, "length", length),
        width=as_it_is(index, name, "width", width),
        thickness=as_it_is(index, name, "thickness", build.thickness),
        rough_length=total(f"{name}, rough length", plus(length), plus(longer)),
        rough_width=total(f"{name}, rough width", plus(width), plus(wider)),
        material="solid",
        species=build.species,
        grain="vertical" if kind in ("stile", "mullion") else front.grain if kind == "slab" else "horizontal",
    )


def dowels_of(build: BuildPlan, front: FrontPlan, parts: list[Part], rabbet_depth: Figure | None) -> tuple[Dowels, ...]:
    """F34: two dowels a joint; where the rabbet reaches them the inner one keeps clear of it."""
    if build.kind != "dowelled" or rabbet_depth is None:
        return ()
    middle = Fraction(in_units(build.thickness.value)) / 2 - Fraction(in_units(build.dowel.value)) / 2
    must_keep = in_units(rabbet_depth.value) > middle - in_units(build.dowel_wall.value)
    radius = share("half a dowel", build.dowel, 2)
    keep = total("dowel from the inner edge", plus(build.engagement), plus(radius), plus(build.dowel_wall))
    clear = keep if must_keep else build.dowel_outer
    rails = [p for p in parts if p.kind in ("top rail", "bottom rail", "mid rail")]
    return tuple(_rail_dowels(build, front, rail, clear, keep, must_keep) for rail in rails)


def _rail_dowels(
    build: BuildPlan, front: FrontPlan, rail: Part, clear: Figure, keep: Figure, must_keep: bool
) -> Dowels:
    outer = clear if rail.kind == "mid rail" and must_keep else build.dowel_outer
    inner = total(f"inner dowel of the {rail.kind} of {front.id}", plus(rail.width), minus(clear))
    return Dowels(front.id, rail.kind, (outer, inner), keep, must_keep)


def proofs_of(
    index: JobIndex,
    front: FrontPlan,
    build: BuildPlan,
    fields: tuple[Field, ...],
    parts: list[Part],
    panels: list[PanelPart],
) -> tuple[Proof, ...]:
    """F69: stiles and rail less the joints, as cut, are the width; panel and clearance, as planned, are sight and
    engagement."""
    stile, rail = parts[0], parts[1]
    joints = [(-2, build.joint)] if build.joint.units else []
    proofs = [_proof(front, "width", [(2, stile.width), (1, rail.length), *joints], [(1, front.width)])]
    for field, panel in zip(fields, panels, strict=True):
        side, up = clearances(index, front, build, field)
        upright = panel.grain == "vertical"
        across, high = (panel.across, panel.along) if upright else (panel.along, panel.across)
        proofs.append(_proof(front, "panel across", [(1, across), (2, side)], [(1, field[0]), (2, build.engagement)]))
        proofs.append(_proof(front, "panel up", [(1, high), (2, up)], [(1, field[1]), (2, build.engagement)]))
    return tuple(proofs)


def _proof(front: FrontPlan, kind: str, left: list[tuple[int, Figure]], right: list[tuple[int, Figure]]) -> Proof:
    agrees = _side(left) == _side(right)
    return Proof(
        front.id,
        "width" if kind == "width" else "panel up" if kind == "panel up" else "panel across",
        tuple(left),
        tuple(right),
        agrees,
    )


def _side(terms: list[tuple[int, Figure]]) -> Fraction | int:
    return sum(in_units(f.value) * sign for sign, f in terms)


def mass_of(
    index: JobIndex,
    front: FrontPlan,
    build: BuildPlan,
    fields: tuple[Field, ...],
    panels: list[PanelPart],
    cut: tuple[Figure | None, Figure | None, Figure | None],
) -> Figure:
    """F25, F40: the wood that is there, less rabbets and grooves, times its density; in lb or kg."""
    rabbet_depth, rabbet_width, groove = cut
    whole = _area(front.width, front.height)
    thick = in_units(build.thickness.value)
    frame: Fraction | int = 0
    panel_volume: Fraction | int = 0
    sight: Fraction | int = 0
    edge = in_units(build.engagement.value)
    for (wide, high), panel in zip(fields, panels, strict=False):
        shown = _area(wide, high)
        sight += shown
        ring = (in_units(wide.value) + 2 * edge) * (in_units(high.value) + 2 * edge) - shown
        depth = rabbet_depth if build.kind == "dowelled" else groove
        frame -= ring * in_units(depth.value) if depth is not None else 0
        panel_volume += _panel_volume(build, panel, rabbet_depth, rabbet_width)
    frame += (whole - sight) * thick
    wood = density(index, build.species)
    glass = GLASS[index.unit] if front.front.kind == "glass" else Fraction(in_units(wood.value))
    weight = Fraction(frame * in_units(wood.value) + panel_volume * glass) / _cube(index)
    how = "volume less rabbets and grooves × density"
    return Figure(
        f"mass of {front.id}",
        weight,
        "derived",
        how,
        (_looked_at(wood), _looked_at(front.width), _looked_at(front.height)),
        measure="mass",
    )


def _looked_at(figure: Figure) -> Term:
    return Term(figure, 0)


def _panel_volume(
    build: BuildPlan, panel: PanelPart, rabbet_depth: Figure | None, rabbet_width: Figure | None
) -> Fraction | int:
    long, wide = in_units(panel.along.value), in_units(panel.across.value)
    volume = long * wide * in_units(panel.thickness.value)
    if build.kind == "dowelled" or rabbet_depth is None or rabbet_width is None:
        return volume
    edge = in_units(rabbet_width.value)
    return volume - (long * wide - (long - 2 * edge) * (wide - 2 * edge)) * in_units(rabbet_depth.value)


def _area(width: Figure, height: Figure) -> Fraction | int:
    return in_units(width.value) * in_units(height.value)


def _cube(index: JobIndex) -> int:
    """Cubic units in the cube that densities count by: a cubic foot or a cubic metre."""
    return (UNITS_IN[index.unit] * (12 if index.unit == "in" else 1000)) ** 3
