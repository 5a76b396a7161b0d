"""The checks of a pressing: minutes against the glue's, pressure, bed, throat and opening; ways out that were tried."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Unit
from frontwright.core.making.result import PanelPart
from frontwright.core.veneer.press_ways import Tried, helper_in_time, in_full, in_time, on_bed, slower_glue
from frontwright.core.veneer.pressing import Bench
from frontwright.core.veneer.result import PressingPlan

_PLACES = 2
_MOST_WAYS = 5
_PRESSURE: dict[Unit, str] = {"in": "psi", "mm": "MPa"}


def press_checks(
    index: JobIndex,
    benches: Sequence[Bench],
    pressings: Sequence[PressingPlan],
    panels: Sequence[PanelPart],
) -> Iterator[Check]:
    """Every rule of every pressing; `benches` and `pressings` in one order."""
    front_of: Mapping[str, str] = {p.part: p.front for p in panels}
    for bench, one in zip(benches, pressings, strict=True):
        where = tuple(dict.fromkeys(front_of[p] for p in one.panels))
        yield from _time(index, bench, one, where)
        yield _load(index, bench, one, where)
        yield from _size(index, bench, one, where)


def _time(index: JobIndex, bench: Bench, one: PressingPlan, where: tuple[str, ...]) -> Iterator[Check]:
    """F63: to the last clamp, and spreading and laying within the open time; the way that was chosen counts, the other
    is told beside it."""
    for helped, minutes in ((False, one.alone), (True, one.with_helper)):
        judged_so = replace(one, minutes=minutes)
        opened = minutes - one.clamp_minutes
        late, dry = minutes > one.limit, opened > one.open_limit
        level: CheckLevel = "stop" if judged_so.is_stop else "note" if late or dry else "ok"
        state = judged(level) if helped == one.helped else "compared"
        facts: dict[str, Fact] = {"helped": int(helped), "clamps": one.clamps, "bag": int(one.in_bag)}
        open_case = dry and (not late or (one.late_assumed and not one.dry_assumed))
        spent, limit, case = (opened, one.open_limit, "open") if open_case else (minutes, one.limit, "minutes")
        ways = _time_ways(index, bench, one) if state == "open" else ()
        yield Check("press-time", where, _shown(spent), _shown(limit), level, state, case, facts, ways)


def _time_ways(index: JobIndex, bench: Bench, one: PressingPlan) -> tuple[WayOut, ...]:
    """What was tried and is in time, with its minutes; last a slower glue, which nobody has entered yet. By figures
    that nobody told little can be tried: only the helper."""
    tried = in_time(index, bench, one) if one.is_stop else helper_in_time(one)
    ways = [_way(one, each, f"{_shown(each.minutes)} min") for each in tried]
    return (*ways[:_MOST_WAYS], WayOut("change", one.id, "glue", gives=_slower(bench, one)))


def _slower(bench: Bench, one: PressingPlan) -> str:
    """What a glue would have to leave for this pressing as it is."""
    opened = one.minutes - one.clamp_minutes
    late = [f"{slower_glue(bench, one)} min to the last clamp"] if one.minutes > one.limit else []
    dry = [f"{_shown(opened)} min open"] if opened > one.open_limit else []
    return ", ".join((*late, *dry))


def _load(index: JobIndex, bench: Bench, one: PressingPlan, where: tuple[str, ...]) -> Check:
    """F64: under the floor a stop, between floor and goal a warning. A bag stops under what any bag must give."""
    level: CheckLevel = "ok" if one.pressure >= one.goal else "warn" if one.pressure >= one.least else "stop"
    if one.weak_assumed and level == "stop":
        level = "warn"
    ways = _load_ways(index, bench, one) if level != "ok" else ()
    facts: dict[str, Fact] = {"clamps": one.clamps, "for floor": one.clamps_for_floor, "for goal": one.clamps_for_goal}
    limit = (_shown(one.least), _shown(one.goal))
    case = "bag" if one.in_bag else "pressure"
    return Check("press-load", where, _shown(one.pressure), limit, level, judged(level), case, facts, ways)


def _load_ways(index: JobIndex, bench: Bench, one: PressingPlan) -> tuple[WayOut, ...]:
    """What was tried and gives the full pressure; else the field to be changed."""
    unit = _PRESSURE[bench.unit]
    ways = tuple(_way(one, tried, f"{_shown(tried.pressure)} {unit}") for tried in in_full(index, bench, one))
    return ways or (WayOut("change", one.id, "press" if one.in_bag else "clamps"),)


def _size(index: JobIndex, bench: Bench, one: PressingPlan, where: tuple[str, ...]) -> Iterator[Check]:
    """A panel that the bed does not hold, clamps that do not open far enough or do not reach the middle (F65)."""
    if one.bed is not None:
        over = one.over_bed
        facts: dict[str, Fact] = {"panels": ", ".join(over), "length": one.bed[0].value, "width": one.bed[1].value}
        level: CheckLevel = "stop" if over else "ok"
        ways = _size_ways(one, on_bed(index, bench)) if over else ()
        yield Check("press-load", where, len(over), 0, level, judged(level), "bed", facts, ways)
    if one.opening is not None:
        level = "stop" if one.open_to.units > one.opening.units else "ok"
        ways = _size_ways(one, on_bed(index, bench)) if level != "ok" else ()
        value, limit = one.open_to.value, one.opening.value
        yield Check("press-load", where, value, limit, level, judged(level), "opening", {}, ways)
    if one.throat is not None and one.middle is not None:
        level = "note" if one.middle.units > one.throat.units else "ok"
        yield Check("press-load", where, one.middle.value, one.throat.value, level, judged(level), "throat")


def _size_ways(one: PressingPlan, tried: Iterable[Tried]) -> tuple[WayOut, ...]:
    ways = tuple(_way(one, each, "") for each in tried)
    return ways or (WayOut("change", one.id, "press"),)


def _way(one: PressingPlan, tried: Tried, gives: str) -> WayOut:
    """A change that was tried, as it is offered."""
    field = "panels" if tried.change == "panels helped" else tried.change
    return WayOut("change", one.id, field, tried.to or None, gives)


def _shown(number: Fraction) -> str:
    """A number to two places, half up, without trailing noughts."""
    hundredths = (number * 10**_PLACES * 2 + 1) // 2
    whole, part = divmod(int(hundredths), 10**_PLACES)
    return f"{whole}.{part:02d}".rstrip("0").rstrip(".")
