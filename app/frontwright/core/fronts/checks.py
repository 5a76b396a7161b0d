"""The checks of the fronts: least cover, sums, gap to the wall, kerf against reveal."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from frontwright.core.assumed import assumed, entered
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.fronts.lines import by_line
from frontwright.core.fronts.result import FrontPlan, RowPlan, Sum
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.survey.result import RunPlan, SurveyPlan


def front_checks(
    index: JobIndex,
    survey: SurveyPlan,
    fronts: Mapping[str, FrontPlan],
    sums: Sequence[Sum],
    rows: Sequence[RowPlan],
) -> Iterator[Check]:
    """Every rule of the fronts, looked at for every front, sum and row."""
    for front in fronts.values():
        if front.least_cover is not None:
            yield _cover(index, front, front.least_cover)
        if min(in_units(front.width.value), in_units(front.height.value)) <= 0:
            yield _no_size(front)
    for one in sums:
        yield from _row_sum(index, one, fronts)
    for run in survey.runs:
        yield from _walls(index, run, [f for f in fronts.values() if f.run == run.id])
    for row in rows:
        yield _kerf(row)


def _cover(index: JobIndex, front: FrontPlan, cover: Figure) -> Check:
    """F20: under the least cover a warning, under the least at all a stop; an assumption alone stops nothing."""
    wanted, at_all = front.look.least_cover, assumed(index.unit, "least cover stop")
    value = in_units(cover.value)
    level: CheckLevel = "ok"
    if value < in_units(wanted.value):
        level = "stop" if value < in_units(at_all.value) and not _guessed(cover) else "warn"
    ways: tuple[WayOut, ...] = ()
    if level != "ok":
        ways = (WayOut("change", front.opening, "cover"), WayOut("read again", front.opening, "width"))
    return Check("cover", (front.id,), cover.value, wanted.value, level, judged(level), ways=ways)


def _guessed(least_cover: Figure) -> bool:
    """Whether the cover at the tightest side rests on something nobody read or chose, before lean and spread."""
    tightest = next(term.figure for term in least_cover.terms if term.factor)
    return tightest.terms[0].figure.rests


def _no_size(front: FrontPlan) -> Check:
    facts: dict[str, Fact] = {"width": front.width.value, "height": front.height.value}
    ways = (WayOut("look at", front.opening), WayOut("change", front.id, "pin_left"))
    return Check(
        "row-sum",
        (front.id,),
        min(front.width.length, front.height.length),
        None,
        "stop",
        "open",
        "no size",
        facts,
        ways,
    )


def _row_sum(index: JobIndex, one: Sum, fronts: Mapping[str, FrontPlan]) -> Iterator[Check]:
    """F18: fronts and gaps must add up to the overall; a difference is seen from a gap's or a reveal's worth on."""
    off = Fraction(in_units(one.total.value)) - in_units(one.equals.value)
    reveals = any(fronts[f].look.scheme == "partial cover" for f in one.of if f in fronts)
    seen = assumed(index.unit, "sum reveals" if reveals else "sum gaps")
    level: CheckLevel = "stop" if abs(off) > in_units(seen.value) else "ok"
    facts: dict[str, Fact] = {"off": off, "direction": one.direction}
    ways = (
        tuple(WayOut("change", f, "pin") for f in one.of if f in fronts and fronts[f].pinned) if level != "ok" else ()
    )
    ways += tuple(WayOut("look at", f) for f in one.of[:1]) if level != "ok" else ()
    yield Check(
        "row-sum", one.of, one.total.value, one.equals.value, level, judged(level), "off" if ways else "", facts, ways
    )
    for a, b in _overlapping(one, fronts):
        over = in_units(fronts[a].right.value) - in_units(fronts[b].left.value)
        across = one.direction == "row"
        over = over if across else in_units(fronts[b].top.value) - in_units(fronts[a].bottom.value)
        pins = tuple(WayOut("change", f, "pin") for f in (a, b) if fronts[f].pinned) or (WayOut("look at", a),)
        worst: CheckLevel = "warn" if _by_usual_cover(fronts[a]) and _by_usual_cover(fronts[b]) else "stop"
        yield Check("row-sum", (a, b), Fraction(over), None, worst, "open", "overlap", {}, pins)


def _by_usual_cover(front: FrontPlan) -> bool:
    """Whether a front lies as it does by a cover that nobody chose."""
    return not front.pinned and not by_line(front.look) and front.look.cover.source == "assumed"


def _overlapping(one: Sum, fronts: Mapping[str, FrontPlan]) -> Iterator[tuple[str, str]]:
    own = [fronts[f] for f in one.of if f in fronts]
    for a, b in pairwise(own):
        if one.direction == "row" and in_units(a.right.value) > in_units(b.left.value):
            yield a.id, b.id
        if one.direction == "column" and a.opening != b.opening and in_units(a.bottom.value) < in_units(b.top.value):
            yield a.id, b.id


def _walls(index: JobIndex, run: RunPlan, fronts: list[FrontPlan]) -> Iterator[Check]:
    """The reveal at a wall or appliance less the lean of the wall."""
    least = entered(index.unit, index.limits.wall_clearance, "end gap")
    chosen, limit = least.source == "chosen", least.length
    for side, end in run.ends.items():
        if end.kind not in ("wall", "appliance"):
            continue
        for front in fronts:
            if not front.placed or side in front.neighbours or front.look.scheme == "inset":
                continue
            clear = _clearance(run, front, side)
            if clear is None:
                continue
            level: CheckLevel = "warn" if in_units(clear.value) < limit.units else "ok"
            ways = (WayOut("change", front.opening, f"reveal_{side}"),) if level != "ok" else ()
            facts: dict[str, Fact] = {"side": side, "against": end.kind or "", "chosen": int(chosen)}
            yield Check("wall-clearance", (front.id,), clear.value, limit, level, judged(level), facts=facts, ways=ways)


def _clearance(run: RunPlan, front: FrontPlan, side: str) -> Figure | None:
    edge = front.left if side == "left" else front.right
    if side == "right" and run.overall is None:
        return None
    reveal = (
        total("reveal at the wall", plus(edge))
        if side == "left" or run.overall is None
        else total("reveal at the wall", plus(run.overall), minus(edge))
    )
    lean = run.wall_leans.get(side)
    if lean is None or in_units(lean.value) <= 0:  # a wall that leans away leaves the reveal as it is
        return reveal
    return total("clear of the wall", plus(reveal), minus(lean))


def _kerf(row: RowPlan) -> Check:
    """F22: the figure runs on where kerf and trim are the gap; a kerf wider than the gap breaks it."""
    broken = in_units(row.kerf.value) > in_units(row.gap.value)
    level: CheckLevel = "warn" if broken else "ok"
    ways = (WayOut("change", row.row.id, "kerf"), WayOut("change", row.fronts[0], "gap")) if broken else ()
    return Check("kerf-vs-reveal", row.fronts, row.kerf.value, row.gap.value, level, judged(level), ways=ways)
