"""The checks of the making: proofs, measured thickness, dowels, veneer left, movement, lip, low fields."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction

from frontwright.core.assumed import assumed
from frontwright.core.figures import Figure, minus, only_assumed, plus, share, total
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.fronts.lines import planned_gap
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, in_units
from frontwright.core.making.panels import clearances, solid_movement
from frontwright.core.making.result import FrontMaking
from frontwright.core.wood import coefficient, guessed, moisture, movement

Made = Mapping[str, FrontMaking]


def making_checks(index: JobIndex, fronts: FrontsPlan, made: Made) -> Iterator[Check]:
    """Every rule of the making, looked at for every front; what holds for all of one build is said once."""
    framed = [m for m in made.values() if not m.slab]
    for one in framed:
        yield _rail_proof(index, fronts.fronts[one.front], one)
        yield from _low_field(index, one)
    yield from _nominal(framed)
    yield from _dowels(framed)
    yield from _veneer(index, framed)
    yield from _lips(index, framed)
    yield from _slabs(index, fronts, made)
    for one in framed:
        if one.build.panel.kind == "solid" and not _glazed(one):
            yield from _solid_panels(index, fronts.fronts[one.front], one)


def _rail_proof(index: JobIndex, front: FrontPlan, one: FrontMaking) -> Check:
    """F69 with what was really cut: the frame must come out as wide as the front, to one step."""
    proof = one.proofs[0]
    built = sum((Fraction(in_units(f.value)) * sign for sign, f in proof.left), start=Fraction(0))
    off = built - in_units(front.width.value)
    where = (front.id,)
    ways: tuple[WayOut, ...]
    across, up = (min((f[at] for f in one.fields), key=lambda f: in_units(f.value)) for at in (0, 1))
    least = min(across, up, key=lambda f: in_units(f.value))
    if in_units(least.value) <= 0:
        field = "stile" if least is across else "drawer_rail" if front.front.kind == "drawer" else "top_rail"
        ways = (WayOut("change", one.build.id, field), WayOut("change", front.id, "build"))
        worst: CheckLevel = "warn" if only_assumed(one.build.stile, *_rails(one)) else "stop"
        return Check("rail-proof", where, least.value, None, worst, "open", "no room", {}, ways)
    limit = in_units(assumed(index.unit, "step").value)
    level: CheckLevel = "stop" if abs(off) >= limit else "ok"
    facts: dict[str, Fact] = {"off": off}
    again = (
        WayOut("enter", p.id, "length")
        for p in one.parts
        if p.length.source == "as-built" or p.width.source == "as-built"
    )
    ways = tuple(again) if level != "ok" else ()
    return Check(
        "rail-proof", where, built, front.width.value, level, judged(level), "cut wrong" if ways else "", facts, ways
    )


def _rails(one: FrontMaking) -> tuple[Figure, ...]:
    return tuple(rail for rail in (one.top_rail, one.bottom_rail, *one.mid_rails) if rail is not None)


def _low_field(index: JobIndex, one: FrontMaking) -> Iterator[Check]:
    least = assumed(index.unit, "least field")
    for _, height in one.fields:
        if 0 < in_units(height.value) < in_units(least.value):
            ways = (WayOut("change", one.front, "build"), WayOut("change", one.build.id, "drawer_rail"))
            yield Check("field", (one.front,), height.value, least.value, "warn", "open", ways=ways)


def _grouped(made: Iterable[FrontMaking], key: Callable[[FrontMaking], object]) -> Iterator[list[FrontMaking]]:
    groups: dict[object, list[FrontMaking]] = {}
    for one in made:
        groups.setdefault(key(one), []).append(one)
    yield from groups.values()


def _glazed(one: FrontMaking) -> bool:
    return any(part.material == "glass" for part in one.parts)


def _where(group: list[FrontMaking]) -> tuple[str, ...]:
    return tuple(one.front for one in group)


def _nominal(framed: list[FrontMaking]) -> Iterator[Check]:
    """Groove and rabbet are cut to a panel that was measured, not to a name."""
    named = (m for m in framed if m.build.panel.kind != "solid" and not _glazed(m))
    for group in _grouped(named, lambda m: m.build.panel.id):
        panel = group[0].build.panel
        given = all(p.thickness.source == "as-built" for m in group for p in m.panels)
        level: CheckLevel = "ok" if panel.measured or given else "warn"
        field = "core_is" if panel.kind == "veneered" else "sheet_is"
        ways = (WayOut("enter", panel.id, field),) if level != "ok" else ()
        facts: dict[str, Fact] = {"what": "core" if panel.kind == "veneered" else "sheet", "panel": panel.id}
        yield Check(
            "nominal-thickness", _where(group), panel.nominal.value, None, level, judged(level), "", facts, ways
        )


def _dowels(framed: list[FrontMaking]) -> Iterator[Check]:
    """F34: a note when dowels must keep clear of the rabbet, a stop where the rail has no room for them."""
    dowelled = [m for m in framed if m.dowels]
    for group in _grouped(dowelled, lambda m: (m.build.id, m.dowels[0].keep.value, m.dowels[0].must_keep, _tight(m))):
        dowels, build = group[0].dowels[0], group[0].build
        level: CheckLevel = "note" if dowels.must_keep else "ok"
        case, ways = "keep clear" if dowels.must_keep else "", tuple[WayOut, ...]()
        if _tight(group[0]):
            guess = only_assumed(build.dowel, *(f for d in group[0].dowels for f in d.from_outer_edge))
            level, case = "warn" if guess else "stop", "no room"
            ways = (WayOut("change", build.id, "top_rail"), WayOut("change", build.id, "dowel"))
        yield Check("dowel-rabbet", _where(group), dowels.keep.value, None, level, judged(level), case, {}, ways)


def _tight(one: FrontMaking) -> bool:
    """Whether some rail leaves its two dowels closer than two diameters."""
    apart = 2 * in_units(one.build.dowel.value)
    return any(in_units(d.from_outer_edge[1].value) - in_units(d.from_outer_edge[0].value) < apart for d in one.dowels)


def _veneer(index: JobIndex, framed: list[FrontMaking]) -> Iterator[Check]:
    """F39: veneer left on the panel."""
    at_all = assumed(index.unit, "veneer stop")
    for group in _grouped((m for m in framed if m.chain is not None), lambda m: m.build.panel.id):
        panel = group[0].build.panel
        left = in_units(panel.veneer_left.value)
        chosen = (
            panel.slice.source != "assumed"
            or panel.show_loss.source != "assumed"
            or panel.glue_loss.source != "assumed"
        )
        level: CheckLevel = "warn" if left < in_units(panel.least_left.value) else "ok"
        level = "stop" if left < in_units(at_all.value) and chosen else level
        ways = (WayOut("change", panel.id, "slice"), WayOut("change", panel.id, "show_loss")) if level != "ok" else ()
        yield Check(
            "veneer-left",
            _where(group),
            panel.veneer_left.value,
            panel.least_left.value,
            level,
            judged(level),
            ways=ways,
        )


def _lips(index: JobIndex, framed: list[FrontMaking]) -> Iterator[Check]:
    """F33: the lip in front of a rabbet, and the wood beside a groove."""
    for group in _grouped(framed, lambda m: (m.build.id, _wall(m).value)):
        one = group[0]
        wall = _wall(one)
        wanted = assumed(index.unit, "lip" if one.build.kind == "dowelled" else "groove wall")
        value = in_units(wall.value)
        level: CheckLevel = "ok" if value >= in_units(wanted.value) else "warn"
        if value <= 0 and not only_assumed(wall):
            level = "stop"
        ways = (
            (WayOut("change", one.build.panel.id, "slice"), WayOut("change", one.build.id, "thickness"))
            if level != "ok"
            else ()
        )
        case = "rabbet" if one.build.kind == "dowelled" else "groove"
        yield Check("lip", _where(group), wall.value, wanted.value, level, judged(level), case, {}, ways)


def _wall(one: FrontMaking) -> Figure:
    """The wood left in front of the rabbet, or on each side of the groove."""
    if one.rabbet_depth is not None and one.build.kind == "dowelled":
        return total("lip", plus(one.build.thickness), minus(one.rabbet_depth))
    if one.groove_width is None:
        return one.build.thickness
    both = total("wood beside the groove, both", plus(one.build.thickness), minus(one.groove_width))
    return share("wood beside the groove", both, 2)


def _slabs(index: JobIndex, fronts: FrontsPlan, made: Made) -> Iterator[Check]:
    """F35: a solid slab moves across its grain; a note while it is less than the gap beside it, else a stop.

    Movement of a wood and a room that nobody told is a warning, never a stop.
    """
    found: dict[tuple[object, object, bool], list[str]] = {}
    for one in made.values():
        if not one.slab:
            continue
        front = fronts.fronts[one.front]
        row = fronts.row_of.get(front.id)
        moved = row.movement if row is not None else _slab_movement(index, front, one)
        gap = _gap_across(front, fronts)
        found.setdefault((moved.value, gap.value if gap is not None else None, guessed(moved)), []).append(front.id)
    for (value, limit, guess), where in found.items():
        if not isinstance(value, Fraction):
            continue
        gap_units = in_units(limit) if isinstance(limit, Length | Fraction) else None
        over = gap_units is not None and value >= gap_units
        level: CheckLevel = ("warn" if guess else "stop") if over else "note" if value > 0 else "ok"
        shown = limit if isinstance(limit, Length | Fraction) else None
        ways = (WayOut("change", where[0], "gap"), WayOut("change", where[0], "build")) if over else ()
        yield Check("panel-movement", tuple(where), value, shown, level, judged(level), "slab", {}, ways)


def _slab_movement(index: JobIndex, front: FrontPlan, one: FrontMaking) -> Figure:
    across = front.height if front.grain == "horizontal" else front.width
    wet = moisture(index, front.run)
    per_cent = coefficient(index, one.build.species, front.look.cut)
    return movement(f"movement of {front.id} over the year", across, per_cent, wet["low"], wet["high"])


def _gap_across(front: FrontPlan, fronts: FrontsPlan) -> Figure | None:
    """The least gap beside a front in the direction in which it moves; None where nothing is near."""
    sides = ("top", "bottom") if front.grain == "horizontal" else ("left", "right")
    near = {side: fronts.fronts[front.neighbours[side]] for side in sides if side in front.neighbours}
    beside = {side: other for side, other in near.items() if front.placed or other.opening == front.opening}
    gaps = [_between(front, side, other) for side, other in beside.items()]
    if front.look.scheme == "inset":
        overlays = [front.overlay[side] for side in sides if side not in beside]
        gaps += [total("gap", minus(overlay)) for overlay in overlays if overlay is not None]
    elif len(near) > len(beside):  # openings by themselves have no common place
        gaps.append(planned_gap(front.look))
    return min(gaps, key=lambda g: in_units(g.value), default=None)


def _between(front: FrontPlan, side: str, other: FrontPlan) -> Figure:
    low, high = (other, front) if side in ("left", "bottom") else (front, other)
    ends = (low.right, high.left) if side in ("left", "right") else (low.top, high.bottom)
    return total("gap", plus(ends[1]), minus(ends[0]))


def _solid_panels(index: JobIndex, front: FrontPlan, one: FrontMaking) -> Iterator[Check]:
    """F35: room to swell, and enough left in the groove at the driest."""
    upright = front.grain == "vertical"
    for field, panel in zip(one.fields, one.panels, strict=False):
        side, up = clearances(index, front, one.build, field)
        room = side if upright else up
        moved = solid_movement(index, front, one.build, panel.across)
        engaged = total(
            "engagement at the driest",
            plus(one.build.engagement),
            minus(room),
            minus(share("half the shrinking", moved.shrink, 2)),
        )
        wanted, at_all = assumed(index.unit, "engagement"), assumed(index.unit, "engagement stop")
        tight = 2 * in_units(room.value) < in_units(moved.swell.value)
        value = in_units(engaged.value)
        level: CheckLevel = "warn" if value < in_units(wanted.value) else "ok"
        if tight or value < in_units(at_all.value):
            level = "warn" if guessed(moved.swell) else "stop"
        shown = (
            (moved.swell.value, total("room to swell", plus(room, 2)).value) if tight else (engaged.value, wanted.value)
        )
        case = "tight" if tight else "loose" if level != "ok" else ""
        ways = (
            (WayOut("change", one.build.id, "clearance"), WayOut("change", one.build.id, one.build.engagement_word))
            if level != "ok"
            else ()
        )
        yield Check("panel-movement", (front.id,), shown[0], shown[1], level, judged(level), case, {}, ways)
