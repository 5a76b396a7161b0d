"""The checks of the veneer: what billets give, balance, veneer after planing, minutes and force of a pressing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from frontwright.core.assumed import assumed
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import IN_SIXTYFOURTHS, IN_TENTH_MM, Unit, down, in_units
from frontwright.core.making.result import PanelPart, PanelPlan
from frontwright.core.veneer.result import BilletPlan, Comparison, FaceWanted, PanelMade, PressingPlan, Saving

_ALIKE = 5  # F39: the two faces within a fifth of the thicker one
_PLACES = 2
_FINE = {"in": IN_SIXTYFOURTHS.step, "mm": IN_TENTH_MM.step}  # what a fence is set to


def veneer_checks(
    index: JobIndex,
    plans: Sequence[BilletPlan],
    compared: Sequence[Comparison],
    missing: Sequence[FaceWanted],
    panels: Sequence[PanelPart],
    made: Mapping[str, PanelMade],
    builds: Mapping[str, PanelPlan],
    pressings: Sequence[PressingPlan],
) -> Iterator[Check]:
    """Every rule of the veneer, looked at for every machine, billet, panel and pressing."""
    for one in compared:
        yield _machine(one, bool(index.job.billets))
    for plan in plans:
        yield from _billet(index, plan, missing)
    for panel in panels:
        yield _balance(index, panel, made[panel.part])
        built = panel.thickness.source == "as-built"
        if made[panel.part].passes or made[panel.part].pressed is not None or built:
            yield _left(index, panel, made[panel.part], builds[panel.part])
    front_of = {p.part: p.front for p in panels}
    for pressing in pressings:
        where = tuple(dict.fromkeys(front_of[p] for p in pressing.panels))
        yield from _press_time(pressing, where)
        yield _press_load(pressing, where)
        yield from _press_size(pressing, where)


def _machine(one: Comparison, entered: bool) -> Check:
    """F53 over all billets: enough leaves, enough with the keep-backs, or short by so many."""
    level: CheckLevel = "stop" if one.short else "ok"
    lacking = sum(count for _, count in one.short)
    if one.chosen and level == "stop" and (one.with_rests - one.gives >= lacking or not entered):
        level = "warn"
    facts: dict[str, Fact] = {"rests": one.with_rests, "short": lacking}
    ways = (WayOut("enter", "billets"), WayOut("look at", one.machine)) if level != "ok" and one.chosen else ()
    state = judged(level) if one.chosen else "compared"
    return Check("resaw-yield", (one.machine,), one.gives, one.wanted, level, state, "machine", facts, ways)


def _billet(index: JobIndex, plan: BilletPlan, missing: Sequence[FaceWanted]) -> Iterator[Check]:
    """F60: said as soon as the slices made show that a leaf is lost or at risk; and what cannot be sawn at all."""
    if in_units(plan.slice.value) > in_units(plan.thickness.value):
        ways = (WayOut("change", plan.id, "thickness"), WayOut("change", plan.id, "slice"))
        yield Check(
            "resaw-yield", (plan.id,), plan.slice.value, plan.thickness.value, "stop", "open", "too thick", {}, ways
        )
    if plan.seen is None:
        return
    lost = plan.seen.leaves < plan.planned
    risky = next((s.id for s in plan.slices if s.at_risk), "")
    level: CheckLevel = "stop" if lost and missing else "warn" if lost or risky else "ok"
    facts: dict[str, Fact] = {
        "loss": plan.seen.loss.value,
        "planned loss": plan.losses.together.value,
        "more": plan.seen.more,
        "rest": plan.seen.rest.value,
        "leaf": risky or next((s.id for s in plan.slices if s.state == "lost"), ""),
    }
    savings = tuple(_saving(plan, way, index.unit) for way in plan.ways)
    if savings:
        savings = (WayOut("change", f"{plan.id}{plan.seen.leaves - plan.seen.more + 1}", "machine"), *savings)
    case = "lost" if lost else "at risk" if risky else "seen"
    yield Check("resaw-yield", (plan.id,), plan.seen.leaves, plan.planned, level, judged(level), case, facts, savings)


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


def _press_time(one: PressingPlan, where: tuple[str, ...]) -> Iterator[Check]:
    """F63: to the last clamp, and spreading and laying within the open time; the way that was chosen counts, the other
    is told beside it."""
    for helped, minutes in ((False, one.alone), (True, one.with_helper)):
        open_time = minutes - one.clamp_minutes
        late, dry = minutes > one.limit, open_time > one.open_limit
        level: CheckLevel = "stop" if late or dry else "ok"
        counts = helped == one.helped
        if one.assumed and level == "stop":
            level = "note"
        state = judged(level) if counts else "compared"
        facts: dict[str, Fact] = {"helped": int(helped), "clamps": one.clamps, "helper": _shown(one.with_helper)}
        ways = _time_ways(one) if state == "open" else ()
        spent, limit, case = (minutes, one.limit, "minutes") if late or not dry else (open_time, one.open_limit, "open")
        yield Check("press-time", where, _shown(spent), _shown(limit), level, state, case, facts, ways)


def _time_ways(one: PressingPlan) -> tuple[WayOut, ...]:
    helper = (WayOut("change", one.id, "helper"),) if not one.helped and one.with_helper <= one.limit else ()
    halves = (WayOut("change", one.id, "panels"),) if len(one.panels) > 1 else ()
    return (*helper, *halves, WayOut("change", one.id, "glue"), WayOut("change", one.id, "clamps"))


def _press_load(one: PressingPlan, where: tuple[str, ...]) -> Check:
    """F64: under the floor a stop, between floor and goal a warning."""
    level: CheckLevel = "ok" if one.pressure >= one.goal else "warn" if one.pressure >= one.floor else "stop"
    if one.assumed and level == "stop":
        level = "warn"
    ways = (WayOut("change", one.id, "clamps"),) if level != "ok" else ()
    facts: dict[str, Fact] = {"clamps": one.clamps, "for floor": one.clamps_for_floor, "for goal": one.clamps_for_goal}
    limit = (_shown(one.floor), _shown(one.goal))
    return Check("press-load", where, _shown(one.pressure), limit, level, judged(level), "pressure", facts, ways)


def _press_size(one: PressingPlan, where: tuple[str, ...]) -> Iterator[Check]:
    """A panel that the bed does not hold, and clamps that do not reach its middle (F65)."""
    if one.bed is not None:
        over = one.over_bed
        level: CheckLevel = "stop" if over else "ok"
        ways = (WayOut("change", one.id, "press"), WayOut("change", one.id, "panels")) if over else ()
        facts: dict[str, Fact] = {"panels": ", ".join(over), "length": one.bed[0].value, "width": one.bed[1].value}
        yield Check("press-load", where, len(over), 0, level, judged(level), "bed", facts, ways)
    if one.throat is not None and one.middle is not None:
        level = "note" if in_units(one.middle.value) > in_units(one.throat.value) else "ok"
        yield Check("press-load", where, one.middle.value, one.throat.value, level, judged(level), "throat")


def _shown(number: Fraction) -> str:
    """A number to two places, half up, without trailing noughts."""
    hundredths = (number * 10**_PLACES * 2 + 1) // 2
    whole, part = divmod(int(hundredths), 10**_PLACES)
    return f"{whole}.{part:02d}".rstrip("0").rstrip(".")
