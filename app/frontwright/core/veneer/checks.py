"""The checks of the veneer: what billets give, balance of the faces, veneer left after planing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from frontwright.core.assumed import assumed
from frontwright.core.figures import only_assumed
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import IN_SIXTYFOURTHS, IN_TENTH_MM, Unit, down, in_units
from frontwright.core.making.result import PanelPart, PanelPlan
from frontwright.core.veneer.result import BilletPlan, Comparison, FaceWanted, PanelMade, Saving

_ALIKE = 5  # F39: the two faces within a fifth of the thicker one
_FINE = {"in": IN_SIXTYFOURTHS.step, "mm": IN_TENTH_MM.step}  # what a fence is set to
_TOO_THICK = {
    "in": IN_SIXTYFOURTHS.step.units,
    "mm": 4 * IN_TENTH_MM.step.units,
}  # from here on a panel is planed otherwise


def veneer_checks(
    index: JobIndex,
    plans: Sequence[BilletPlan],
    compared: Sequence[Comparison],
    missing: Sequence[FaceWanted],
    panels: Sequence[PanelPart],
    made: Mapping[str, PanelMade],
    builds: Mapping[str, PanelPlan],
) -> Iterator[Check]:
    """Every rule of the veneer, looked at for every machine, billet and panel."""
    guessed = any(only_assumed(plan.thickness) or only_assumed(plan.losses.together) for plan in plans)
    for one in compared:
        yield _machine(one, bool(index.job.billets) and not guessed)
    for plan in plans:
        yield from _billet(index, plan, missing)
    for panel in panels:
        yield _balance(index, panel, made[panel.part])
        yield from _core_grain(panel, builds[panel.part])
        yield from _pressed_thick(index, panel, made[panel.part], builds[panel.part])
        built = panel.thickness.source == "as-built"
        if made[panel.part].passes or made[panel.part].pressed is not None or built:
            yield _left(index, panel, made[panel.part], builds[panel.part])


def _machine(one: Comparison, entered: bool) -> Check:
    """F53 over all billets: enough leaves, enough with the keep-backs, or short by so many."""
    level: CheckLevel = "stop" if one.short else "ok"
    lacking = sum(count for _, count in one.short)
    if one.chosen and level == "stop" and (one.with_rests - one.gives >= lacking or not entered):
        level = "warn"
    facts: dict[str, Fact] = {"rests": one.with_rests, "short": lacking}
    ways = (WayOut("enter", "billets"), WayOut("look at", one.machine)) if level != "ok" and one.chosen else ()
    state = judged(level) if one.chosen else "compared"
    where = (one.blade or one.machine,)
    return Check("resaw-yield", where, one.gives, one.wanted, level, state, "machine", facts, ways)


def _billet(index: JobIndex, plan: BilletPlan, missing: Sequence[FaceWanted]) -> Iterator[Check]:
    """F60: said as soon as the slices made show that a leaf is lost or at risk; and what cannot be sawn at all."""
    if in_units(plan.slice.value) > in_units(plan.thickness.value):
        yield _too_thick(plan)
    if plan.seen is None:
        return
    lost = plan.seen.leaves < plan.planned
    risky = next((s.id for s in plan.slices if s.at_risk), "")
    level: CheckLevel = "stop" if lost and missing else "warn" if lost or risky else "ok"
    facts: dict[str, Fact] = {
        "loss": plan.seen.loss.value,
        "planned loss": (plan.saw_now if plan.seen.slices else plan.saw).losses.together.value,
        "more": plan.seen.more,
        "rest": plan.seen.rest.value,
        "leaf": risky or next((s.id for s in plan.slices if s.state == "lost"), ""),
    }
    savings = tuple(_saving(plan, way, index.unit) for way in plan.ways)
    if savings:
        savings = (WayOut("change", f"{plan.id}{plan.seen.leaves - plan.seen.more + 1}", "machine"), *savings)
    case = "lost" if lost else "at risk" if risky else "seen"
    yield Check("resaw-yield", (plan.id,), plan.seen.leaves, plan.planned, level, judged(level), case, facts, savings)


def _too_thick(plan: BilletPlan) -> Check:
    ways = (WayOut("change", plan.id, "thickness"), WayOut("change", plan.id, "slice"))
    most = plan.thickness
    level: CheckLevel = "warn" if only_assumed(most) else "stop"
    return Check("resaw-yield", (plan.id,), plan.slice.value, most.value, level, "open", "too thick", {}, ways)


def _saving(plan: BilletPlan, way: Saving, unit: Unit) -> WayOut:
    """What is changed to save a leaf: leaves to come, what is kept back of it, a further billet for backs."""
    if way.kind == "plain back from elsewhere":
        return WayOut("enter", plan.id, "billet")
    field = "keep_now" if way.kind == "less kept back" else "slice_now"
    return WayOut("change", plan.id, field, down(way.to.value, _FINE[unit]) if way.to else None)


def _balance(index: JobIndex, panel: PanelPart, made: PanelMade) -> Check:
    """F39: both faces veneered in one pressing, and their veneers within a fifth of each other.

    What is still to be planed may yet come off the thicker face.
    """
    one_faced = next(
        (row.id for row in index.job.pressings.values() if panel.part in row.panels and not row.both_faces), None
    )
    show, back = Fraction(in_units(made.show_left.value)), Fraction(in_units(made.back_left.value))
    thin, thick = min(show, back), max(show, back)
    thick = max(thin, thick - max(0, in_units(made.to_plane.value)))
    off, limit = thick - thin, thick / _ALIKE
    level: CheckLevel = "stop" if one_faced is not None or off > limit else "ok"
    ways = (WayOut("change", one_faced or panel.part, "both_faces" if one_faced else "pass"),) if level != "ok" else ()
    case = "one face" if one_faced else "unlike" if level != "ok" else ""
    facts: dict[str, Fact] = {"show": made.show_left.value, "back": made.back_left.value}
    return Check("balance", (panel.front,), off, limit, level, judged(level), case, facts, ways)


def _core_grain(panel: PanelPart, build: PanelPlan) -> Iterator[Check]:
    """Mistake 14: a core whose grain runs with the leaves does not hold them, and the panel bends."""
    if build.core_grain == "along":
        ways = (WayOut("change", build.id, "core_grain", "across"),) if build.id else ()
        yield Check("balance", (panel.front,), "along", "across", "stop", "open", "core grain", {}, ways)


def _pressed_thick(index: JobIndex, panel: PanelPart, made: PanelMade, build: PanelPlan) -> Iterator[Check]:
    """F38: out of the press thicker than planned, until it is planed to plan or measured as it is to stay."""
    if made.pressed is None or made.leaves_were is None or made.correction is None:
        return
    over = Fraction(in_units(made.pressed.value)) - in_units(build.pressed.value)
    to_plane = Fraction(in_units(made.to_plane.value))
    level: CheckLevel = "warn" if over >= _TOO_THICK[index.unit] and to_plane else "ok"
    unlike = Fraction(in_units(made.show_left.value)) - in_units(made.back_left.value)
    off_show = min(to_plane, max(Fraction(0), (to_plane + unlike) / 2))
    thicker = min(Fraction(in_units(made.now.value)), in_units(panel.thickness.value) + over)
    facts: dict[str, Fact] = {
        "over": over,
        "were": made.leaves_were.value,
        "slice": build.slice.value,
        "fence": made.correction.value,
        "off show": off_show,
        "off back": to_plane - off_show,
    }
    ways = (WayOut("change", panel.part, "pass", to_plane), WayOut("enter", panel.part, "thickness", thicker))
    found = ways if level != "ok" else ()
    value, limit = made.pressed.value, build.pressed.value
    yield Check("veneer-left", (panel.part,), value, limit, level, judged(level), "pressed thick", facts, found)


def _left(index: JobIndex, panel: PanelPart, made: PanelMade, build: PanelPlan) -> Check:
    """F39 after every pass: the thinner face counts."""
    face, left = min((("show", made.show_left), ("back", made.back_left)), key=lambda one: in_units(one[1].value))
    value = in_units(left.value)
    level: CheckLevel = "warn" if value < in_units(build.least_left.value) else "ok"
    level = "stop" if value < in_units(assumed(index.unit, "veneer stop").value) else level
    ways = (WayOut("look at", panel.part),) if level != "ok" else ()
    facts: dict[str, Fact] = {"face": face, "passes": made.passes}
    return Check(
        "veneer-left", (panel.part,), left.value, build.least_left.value, level, judged(level), "planed", facts, ways
    )
