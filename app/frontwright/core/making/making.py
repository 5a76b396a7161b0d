"""The making chapter, whole: every front as it is made, set-ups over all runs."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from frontwright.core.assumed import assumed
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Display, in_units
from frontwright.core.making.builds import as_cut, build_plan, build_row, chosen_framed
from frontwright.core.making.checks import making_checks
from frontwright.core.making.frames import (
    dowels_of,
    fields_of,
    frame_parts,
    mass_of,
    mid_rail_edges,
    proofs_of,
    rails_of,
    sight_of,
    slab_part,
)
from frontwright.core.making.panels import chain_of, groove_width, panel_parts, rabbet
from frontwright.core.making.result import BuildPlan, FrontMaking, MakingPlan, Part, SetUp, Work


def making(index: JobIndex, fronts: FrontsPlan, display: Display) -> MakingPlan:
    """Every front as made; builds are worked out once each."""
    builds: dict[tuple[str, str | None], BuildPlan] = {}
    made: dict[str, FrontMaking] = {}
    for front in fronts.fronts.values():
        row = build_row(index, front)
        key = (row.id, front.look.species)
        if key not in builds:
            builds[key] = build_plan(index, row, front.look)
        made[front.id] = _made(index, front, builds[key], front.id in fronts.row_of, display)
    set_ups = tuple(_set_ups(index, [p for m in made.values() for p in m.parts]))
    checks = tuple(making_checks(index, fronts, made))
    return MakingPlan(made, {build.id: build for build in builds.values()}, set_ups, checks)


def _made(index: JobIndex, front: FrontPlan, build: BuildPlan, from_row: bool, display: Display) -> FrontMaking:
    build = as_cut(index, front.id, build)
    rails = rails_of(index, front, build)
    sight = sight_of(front, build, rails)
    if build.kind == "slab" or _too_low(index, front, sight[1]):
        return _slab(index, front, build, from_row)
    lows = mid_rail_edges(index, front, build, rails, sight, display)
    fields = fields_of(front, build, rails, sight, lows)
    parts = frame_parts(index, front, build, rails)
    panels = panel_parts(index, front, build, fields)
    parts += [part for part, _ in panels]
    plain = [panel for _, panel in panels]
    thickest = max(plain, key=lambda panel: in_units(panel.thickness.value))
    depth, width, _ = rabbet(index, build, thickest)
    groove = groove_width(index, build, thickest)
    return FrontMaking(
        front=front.id,
        build=build,
        slab=False,
        sight_width=sight[0],
        sight_height=sight[1],
        fields=fields,
        stile=build.stile,
        top_rail=rails[0],
        bottom_rail=rails[1],
        mid_rails=(build.mid_rail,) * len(lows),
        mid_rail_low=lows,
        parts=tuple(parts),
        panels=tuple(plain),
        chain=chain_of(index, front, build, thickest),
        rabbet_depth=depth,
        rabbet_width=width,
        groove_width=groove,
        dowels=dowels_of(build, front, parts, depth),
        proofs=proofs_of(index, front, build, fields, parts, plain),
        mass=mass_of(index, front, build, fields, plain, (depth, width, groove)),
    )


def _too_low(index: JobIndex, front: FrontPlan, field: Figure) -> bool:
    """A drawer front for which nobody chose a build is a slab where its framed field would be too low."""
    return not chosen_framed(index, front) and in_units(field.value) < in_units(
        assumed(index.unit, "least field").value
    )


def _slab(index: JobIndex, front: FrontPlan, build: BuildPlan, from_row: bool) -> FrontMaking:
    return FrontMaking(
        front=front.id,
        build=build,
        slab=True,
        sight_width=None,
        sight_height=None,
        fields=(),
        stile=None,
        top_rail=None,
        bottom_rail=None,
        mid_rails=(),
        mid_rail_low=(),
        parts=(slab_part(index, front, build, from_row),),
        panels=(),
        chain=None,
        rabbet_depth=None,
        rabbet_width=None,
        groove_width=None,
        dowels=(),
        proofs=(),
        mass=mass_of(index, front, build, (), [], (None, None, None)),
    )


def _set_ups(index: JobIndex, parts: list[Part]) -> Iterable[SetUp]:
    """Parts by stop (longest first), by fence (widest first), sheet cuts by length; parts of a row's blank apart."""
    solid = [p for p in parts if p.material == "solid" and p.rough_length is not None]
    panels = [p for p in parts if p.material in ("veneered", "sheet")]
    yield from _grouped(index, "crosscut", solid, lambda p: p.length)
    yield from _grouped(index, "rip", solid, lambda p: p.width)
    yield from _grouped(index, "sheet", panels, lambda p: p.length)


def _grouped(index: JobIndex, work: Work, parts: list[Part], by: Callable[[Part], Figure]) -> Iterable[SetUp]:
    groups: dict[object, list[Part]] = {}
    for part in parts:
        groups.setdefault(by(part).value, []).append(part)
    ordered = sorted(groups.values(), key=lambda group: in_units(by(group[0]).value), reverse=True)
    apart = in_units(assumed(index.unit, "stops apart").value)
    last: Figure | None = None
    for group in ordered:
        setting = by(group[0])
        below = total("below the stop above", plus(last), minus(setting)) if last is not None else None
        near = below if below is not None and in_units(below.value) < apart else None
        yield SetUp(work, setting, tuple(group), sum(p.qty for p in group), near)
        last = setting
