"""Panels in their frames: size, clearance, rabbet and groove, movement of solid ones (F31, F33, F35)."""

from __future__ import annotations

from dataclasses import dataclass

from frontwright.core.assumed import assumed, entered
from frontwright.core.built import as_it_is, as_planed
from frontwright.core.figures import Figure, minus, most, plus, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job.index import JobIndex
from frontwright.core.making.leaves import joints, leaves_across, outer_visible, usable_width
from frontwright.core.making.result import BuildPlan, Chain, Material, PanelPart, Part
from frontwright.core.wood import coefficient, moisture, movement

Field = tuple[Figure, Figure]


@dataclass(frozen=True, slots=True)
class Movement:
    """F35 of one solid panel: what it shrinks and swells across the grain from the moisture when made."""

    swell: Figure
    shrink: Figure


def solid_movement(index: JobIndex, front: FrontPlan, build: BuildPlan, across: Figure) -> Movement:
    """Swelling to the wettest and shrinking to the driest of the room."""
    per_cent = coefficient(index, build.panel.species or build.species, front.look.cut)
    wet = moisture(index, front.run)
    return Movement(
        movement(f"swelling of the panel of {front.id}", across, per_cent, wet["made"], wet["high"]),
        movement(f"shrinking of the panel of {front.id}", across, per_cent, wet["low"], wet["made"]),
    )


def clearances(index: JobIndex, front: FrontPlan, build: BuildPlan, field: Field) -> tuple[Figure, Figure]:
    """Clearance each side, across and up; a solid panel's across the grain follows its swelling (F35)."""
    if build.panel.kind != "solid" or front.front.kind == "glass":
        return build.clearance, build.clearance
    row = index.job.door_builds.get(build.id)
    if row is not None and row.clearance is not None and row.clearance.value is not None:
        return build.clearance, build.clearance
    upright = front.grain == "vertical"
    sight = field[0] if upright else field[1]
    widest = total("panel with no clearance", plus(sight), plus(build.engagement, 2))
    moved = solid_movement(index, front, build, widest)
    half = share("half the swelling", moved.swell, 2)
    wanted = total("clearance for the swelling", plus(half), plus(assumed(index.unit, "swell room")))
    across = most("clearance, each side", [wanted, assumed(index.unit, "clearance solid")], "the larger")
    across = Figure(across.name, across.length, "derived", across.how, across.terms, "rounded to the unit")
    return (across, build.clearance) if upright else (build.clearance, across)


def panel_parts(
    index: JobIndex, front: FrontPlan, build: BuildPlan, fields: tuple[Field, ...]
) -> list[tuple[Part, PanelPart]]:
    """One panel a field, top to bottom, each with its rough size and leaves."""
    made: list[tuple[Part, PanelPart]] = []
    for at, field in enumerate(fields):
        name = f"{front.id}-P" if len(fields) == 1 else f"{front.id}-P{at + 1}"
        made.append(_panel(index, front, build, field, name))
    return made


def _panel(index: JobIndex, front: FrontPlan, build: BuildPlan, field: Field, name: str) -> tuple[Part, PanelPart]:
    side, up = clearances(index, front, build, field)
    across = total(f"panel {name}, across", plus(field[0]), plus(build.engagement, 2), minus(side, 2))
    high = total(f"panel {name}, up", plus(field[1]), plus(build.engagement, 2), minus(up, 2))
    upright = front.grain == "vertical"
    along, wide = (high, across) if upright else (across, high)
    glass = front.front.kind == "glass"
    planned = assumed(index.unit, "glass") if glass else build.panel.thickness
    thickness = as_planed(index, name, as_it_is(index, name, "thickness", planned))
    over = _over(index, "none" if glass else build.panel.kind)
    rough_along = total(f"panel {name}, rough length", plus(along), plus(over[0])) if over else along
    rough_wide = total(f"panel {name}, rough width", plus(wide), plus(over[1])) if over else wide
    material: Material = "glass" if glass else build.panel.kind
    part = Part(
        name,
        front.id,
        "panel",
        1,
        as_it_is(index, name, "length", along),
        as_it_is(index, name, "width", wide),
        thickness,
        rough_along,
        rough_wide,
        material,
        build.panel.species or build.species,
        front.grain,
    )
    plain = PanelPart(front.id, name, along, wide, thickness, front.grain)
    if material != "veneered":
        return part, plain
    return part, _veneered(index, plain, (rough_along, rough_wide), field[0] if upright else field[1])


def _over(index: JobIndex, kind: str) -> tuple[Figure, Figure] | None:
    """What is added to the finished length and width; nothing to bought sheet and glass."""
    if kind == "veneered":
        both = total("over size, both edges", plus(entered(index.unit, index.allowances.panel_edge, "panel edge"), 2))
        return both, both
    if kind == "solid":
        length = entered(index.unit, index.allowances.solid_length, "solid length")
        return length, entered(index.unit, index.allowances.solid_width, "solid width")
    return None


def _veneered(index: JobIndex, panel: PanelPart, core: Field, sight: Figure) -> PanelPart:
    usable = usable_width(index)
    count = leaves_across(core[1], usable)
    longer = entered(index.unit, index.allowances.leaf_over_panel, "leaf over panel")
    return PanelPart(
        panel.front,
        panel.part,
        panel.along,
        panel.across,
        panel.thickness,
        panel.grain,
        core_along=core[0],
        core_across=core[1],
        leaves_across=count,
        leaf_length=total(f"leaf length for {panel.part}", plus(panel.along), plus(longer)),
        joints=joints(count, usable),
        outer_visible=outer_visible(count, sight, usable),
    )


def chain_of(index: JobIndex, front: FrontPlan, build: BuildPlan, panel: PanelPart | None) -> Chain | None:
    """F33, F37: the chain of a shop-made panel to rabbet and lip; the panel as measured governs."""
    if panel is None or build.panel.kind != "veneered" or front.front.kind == "glass":
        return None
    depth, width, lip = rabbet(index, build, panel)
    chain = build.panel
    return Chain(
        of=front.id,
        slice=chain.slice,
        glued=chain.glued,
        pressed=chain.pressed,
        veneer_left=chain.veneer_left,
        panel=panel.thickness,
        rabbet_depth=depth,
        rabbet_width=width,
        tongue=build.tongue if build.kind != "dowelled" else None,
        lip=lip,
    )


def rabbet(index: JobIndex, build: BuildPlan, panel: PanelPart) -> tuple[Figure | None, Figure | None, Figure | None]:
    """Depth, width and lip: the frame's rabbet flush with the panel, or the back rabbet that leaves a tongue."""
    if build.kind == "dowelled":
        depth = total("rabbet depth", plus(panel.thickness), how="flush back: as deep as the panel")
        depth = as_it_is(index, panel.front, "rabbet depth", depth)
        lip = total("lip", plus(build.thickness), minus(depth))
        return depth, build.engagement, lip
    if build.tongue is None or build.panel.kind != "veneered":
        return None, None, None
    depth = total("back rabbet depth", plus(panel.thickness), minus(build.tongue))
    width = total("back rabbet width", plus(build.engagement), plus(build.clearance))
    return depth, width, None


def groove_width(index: JobIndex, build: BuildPlan, panel: PanelPart) -> Figure | None:
    """F68: the groove follows the tongue or panel that exists, with a little play."""
    if build.kind in ("dowelled", "slab"):
        return None
    play = assumed(index.unit, "groove play")
    inside = build.tongue if build.tongue is not None and build.panel.kind == "veneered" else panel.thickness
    cut = total("groove width", plus(inside), plus(play))
    return as_it_is(index, panel.front, "groove width", cut)
