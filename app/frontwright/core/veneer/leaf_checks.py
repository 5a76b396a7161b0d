"""Checks of billets and leaves: what a saw takes, belly, moisture, leaves missing or misplaced, strips, spares."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from frontwright.core.assumed import entered_number
from frontwright.core.facing.result import Strip
from frontwright.core.figures import Figure, number, only_assumed
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.making.result import PanelPart, PanelPlan
from frontwright.core.veneer.result import BilletPlan, Comparison, FaceWanted, LeafCount, Seat, Seen

_MOISTURE_APART = Fraction(2)  # F61: per cent between shell and core
_PANEL_EDGE_KEPT = 2  # an over size is narrowed to half at the most


def billet_checks(index: JobIndex, plans: Sequence[BilletPlan], panel: PanelPlan) -> Iterator[Check]:
    """What the saw takes on edge, the belly its blade leaves, the moisture within (F54, F61)."""
    for plan in plans:
        if plan.tallest is not None:
            yield _too_tall(index, plan, plan.tallest)
        if plan.belly is not None:
            yield _belly(index, plan, plan.belly, panel)
        if plan.seen is not None and plan.seen.below is not None:
            yield _no_loss(plan, plan.seen, plan.seen.below)
        yield from _moisture(plan)


def _too_tall(index: JobIndex, plan: BilletPlan, tallest: Figure) -> Check:
    """F54: a wider billet is finished on another saw or by hand, or ripped before it is sawn."""
    level: CheckLevel = "ok" if in_units(plan.width.value) <= in_units(tallest.value) else "stop"
    if level == "stop" and only_assumed(plan.width, tallest):
        level = "warn"
    ways = (WayOut("change", plan.id, "machine"), WayOut("change", plan.id, "width"))
    found = ways if level != "ok" and plan.id in index.job.billets else ()
    facts: dict[str, Fact] = {"machine": plan.machine}
    where = (plan.id,)
    return Check("resaw-yield", where, plan.width.value, tallest.value, level, judged(level), "too tall", facts, found)


def _belly(index: JobIndex, plan: BilletPlan, belly: Figure, panel: PanelPlan) -> Check:
    """F54: what a leaf is thin at mid height comes off the veneer that is left there."""
    left = in_units(plan.slice.value) - in_units(panel.glue_loss.value) - in_units(panel.show_loss.value)
    room = max(Fraction(0), Fraction(left - in_units(panel.least_left.value)))
    level: CheckLevel = "warn" if in_units(belly.value) > room else "note" if in_units(belly.value) else "ok"
    blade = index.job.blades.get(plan.saw_now.blade)
    leans = blade.id if blade is not None and blade.out_of_square is not None else plan.saw_now.machine
    ways = (WayOut("change", leans, "out_of_square"),) if level != "ok" else ()
    facts: dict[str, Fact] = {"machine": leans}
    return Check("resaw-yield", (plan.id,), belly.value, room, level, judged(level), "belly", facts, ways)


def _no_loss(plan: BilletPlan, seen: Seen, below: Figure) -> Check:
    """More wood in the leaves than went from the billet: one of the readings is wrong, or in another unit."""
    last = f"{plan.id}{seen.leaves - seen.more}"
    ways = (WayOut("change", last, "left"), WayOut("change", last, "thick_1"))
    facts: dict[str, Fact] = {"mean": seen.mean_thickness.value}
    return Check("resaw-yield", (last,), below.value, Fraction(0), "warn", "open", "no loss", facts, ways)


def _moisture(plan: BilletPlan) -> Iterator[Check]:
    """F61: shell and core within 2 % before sawing."""
    nothing = number("moisture", 0, "assumed")
    shell = entered_number(plan.billet.moisture_shell, nothing, "moisture of the shell")
    core = entered_number(plan.billet.moisture_core, nothing, "moisture of the core")
    if shell is nothing or core is nothing:
        return
    apart = abs(Fraction(in_units(shell.value)) - in_units(core.value))
    level: CheckLevel = "warn" if apart > _MOISTURE_APART else "ok"
    ways = (WayOut("change", plan.id, "moisture_core"), WayOut("change", plan.id, "moisture_shell"))
    facts: dict[str, Fact] = {"shell": _per_cent(shell), "core": _per_cent(core)}
    value, limit = _plain(apart), _plain(_MOISTURE_APART)
    way = ways if level != "ok" else ()
    yield Check("moisture", (plan.id,), value, limit, level, judged(level), "shell and core", facts, way)


def _per_cent(figure: Figure) -> str:
    return _plain(Fraction(in_units(figure.value)))


def _plain(value: Fraction) -> str:
    return f"{float(value):g}"


def leaf_checks(
    index: JobIndex,
    plans: Sequence[BilletPlan],
    compared: Sequence[Comparison],
    leaves: Sequence[LeafCount],
    seats: Sequence[Seat],
    missing: Sequence[FaceWanted],
) -> Iterator[Check]:
    """Faces that are short of leaves, leaves put where they do not fit, spares (F58)."""
    chosen = next((one for one in compared if one.chosen), None)
    enough = chosen is None or not chosen.short
    if plans and index.job.billets and enough and not any(s.state == "lost" for p in plans for s in p.slices):
        yield from _missing(plans, missing)
    for seat in seats:
        if not seat.fits:
            ways = (WayOut("change", seat.leaf, "side"),)
            facts: dict[str, Fact] = {"of": seat.of, "side": seat.side}
            yield Check("resaw-yield", (seat.leaf,), None, None, "warn", "open", "misplaced", facts, ways)
    if chosen is not None and enough:
        wanted = sum(leaf.spares for leaf in leaves)
        there = chosen.with_rests - chosen.wanted
        level: CheckLevel = "note" if there < wanted else "ok"
        yield Check("resaw-yield", (chosen.machine,), max(there, 0), wanted, level, judged(level), "spares")


def _missing(plans: Sequence[BilletPlan], missing: Sequence[FaceWanted]) -> Iterator[Check]:
    """Enough were planned, but some that were sawn cannot be used."""
    for one in missing:
        ways = (WayOut("enter", plans[-1].id, "billet"),)
        facts: dict[str, Fact] = {"side": one.side}
        yield Check("resaw-yield", (one.of,), one.has, one.wanted, "stop", "open", "leaf missing", facts, ways)


def strip_checks(unfit: Sequence[tuple[Strip, Figure, Figure]]) -> Iterator[Check]:
    """Strips that fit on no leaf: wider than one, or longer; each with the leaf's length and usable width (F44)."""
    for strip, length, usable in unfit:
        wide = in_units(strip.rough_width.value) > in_units(usable.value)
        has, most = (strip.rough_width, usable) if wide else (strip.rough_length, length)
        level: CheckLevel = "warn" if only_assumed(most) else "stop"
        case = "strip too wide" if wide else "strip too long"
        ways = () if wide else (WayOut("change", "allowances", "strip_leaf"),)
        yield Check("resaw-yield", (strip.id,), has.value, most.value, level, "open", case, {}, ways)


def joint_checks(
    plans: Sequence[BilletPlan], seats: Sequence[Seat], panels: Sequence[PanelPart], usable: Figure, edges: int
) -> Iterator[Check]:
    """F56: a leaf too narrow for half of a panel of two serves where the joint is moved from the middle: by so much."""
    spare = {seat.leaf for seat in seats if seat.side == "spare"}
    for plan in plans:
        for one in plan.slices:
            width = one.leaf.width if one.leaf is not None else None
            if one.id in spare and one.state in ("good", "scorched") and width is not None and width.value is not None:
                yield from _joint(one.id, width.value.units - edges, plan, panels, usable)


def _joint(leaf: str, wide: int, plan: BilletPlan, panels: Sequence[PanelPart], usable: Figure) -> Iterator[Check]:
    for panel in panels:
        if panel.leaves_across != 2 or panel.core_across is None or panel.leaf_length is None:
            continue
        across = Fraction(in_units(panel.core_across.value))
        long = in_units(plan.length.value) >= in_units(panel.leaf_length.value)
        if long and wide < across / 2 and wide + in_units(usable.value) >= across:
            facts: dict[str, Fact] = {"of": panel.part, "by": across / 2 - wide}
            yield Check("resaw-yield", (leaf,), Fraction(wide), across / 2, "note", "open", "joint moved", facts)
            return


def narrower_checks(panels: Sequence[PanelPart], usable: Figure, edge: Figure) -> Iterator[Check]:
    """F56: where a little less over size would save a leaf on each face, which over size that is."""
    wide, most = in_units(usable.value), in_units(edge.value)
    for panel in panels:
        count = panel.leaves_across
        if panel.core_across is None or count is None or count < 2:
            continue
        less = Fraction(in_units(panel.core_across.value) - wide * (count - 1), 2)
        if less > 0 and less * _PANEL_EDGE_KEPT <= most:
            facts: dict[str, Fact] = {"over size": Fraction(most) - less, "leaves": count - 1}
            limit = wide * (count - 1)
            value = panel.core_across.value
            yield Check("resaw-yield", (panel.part,), value, Fraction(limit), "note", "open", "narrower", facts)
