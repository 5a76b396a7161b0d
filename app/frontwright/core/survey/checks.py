"""The survey's checks: closure, spread, racking, readings, wind, bow."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from frontwright.core.assumed import assumed, entered, measured
from frontwright.core.figures import Figure, minus, most, plus, total
from frontwright.core.findings import Check, CheckLevel, Code, Fact, WayOut, judged
from frontwright.core.job import UPRIGHT
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, in_units
from frontwright.core.survey.closures import closure_limit
from frontwright.core.survey.openings import reading_error_of
from frontwright.core.survey.readings import outside, taped
from frontwright.core.survey.result import Closure, MemberPlan, OpeningPlan, RunPlan
from frontwright.core.survey.straight import bow_under, wind

ASKED = 8


def survey_checks(index: JobIndex, runs: tuple[RunPlan, ...]) -> Iterator[Check]:
    """Every rule of the survey, looked at for every run and opening."""
    for run in runs:
        for closure in run.closures:
            yield _closure(closure, run)
        for column, closure in run.column_closures.items():
            subjects = tuple(o.id for o in run.openings if o.column == column)
            yield replace(_closure(closure, run), where=subjects or (run.id,))
        yield from _apart(index, run)
        yield from _backwards(run)
        yield from _bows(index, run)
        for opening in run.openings:
            yield from _opening(index, run, opening)


def _opening(index: JobIndex, run: RunPlan, opening: OpeningPlan) -> Iterator[Check]:
    yield _spread(index, opening)
    yield from _racking(index, opening)
    yield _readings(opening)
    yield from _against_run(index, run, opening)
    gap = taped(index, opening.id, "wind gap")
    if gap is not None:
        out = wind(gap, opening.id)
        yield _compared("wind", (opening.id,), out, assumed(index.unit, "wind"), "warn")


def _closure(closure: Closure, run: RunPlan) -> Check:
    wrong = abs(Fraction(in_units(closure.error.value))) > closure.limit
    level: CheckLevel = "stop" if wrong else "ok"
    facts: dict[str, Fact] = {"sum": closure.sum.value, "overall": closure.overall.value}
    ways: list[WayOut] = []
    for number, suspect in enumerate(closure.suspects[:3]):
        facts |= {
            f"suspect {number}": suspect.reading.id,
            f"kind {number}": suspect.kind,
            f"meant {number}": suspect.meant,
        }
        ways.append(WayOut("read again", suspect.reading.of, suspect.reading.what, suspect.meant))
    if wrong and closure.error.length.units > 0 and closure.at not in [c.id for c in run.columns]:
        ways += [WayOut("enter seam", left, value=closure.error.value) for left in _where_boxes_meet(run)]
    upright = closure.at in {column.column for column in run.openings}
    if wrong:
        ways.append(WayOut("read again", run.id, "height" if upright else "overall"))
    case = "named" if closure.suspects else "like a member" if closure.like else "upright" if upright else "unexplained"
    facts |= {"like": ", ".join(closure.like)} if closure.like else {}
    limit = closure.limit
    return Check(
        "closure",
        (run.id,),
        closure.error.value,
        limit,
        level,
        judged(level),
        case if wrong else "",
        facts,
        tuple(ways),
        roots=True,
    )


def _apart(index: JobIndex, run: RunPlan) -> Iterator[Check]:
    """Two members that stand together by name, and apart or over each other by the running tape."""
    limit = closure_limit(index, 2)
    members = {m.id: m for m in run.members}
    for a, b in pairwise(run.order):
        if a not in members or b not in members:
            continue
        gap = Fraction(in_units(members[b].left.value)) - in_units(members[a].right.value)
        if abs(gap) > limit:
            again = (WayOut("read again", a, "edge right"), WayOut("read again", b, "edge left"))
            seam = (WayOut("enter seam", a, value=Length(int(gap))),) if gap > 0 else ()
            level: CheckLevel = "warn" if gap > 0 else "stop"
            yield Check(
                "closure",
                (a, b),
                gap,
                limit,
                level,
                "open",
                "apart" if gap > 0 else "crossing",
                {},
                (*seam, *again),
                roots=True,
            )


def _backwards(run: RunPlan) -> Iterator[Check]:
    """What ends before it begins by what was read: an edge or a size is wrong."""
    placed: tuple[MemberPlan | OpeningPlan, ...] = (*run.members, *run.rails, *run.openings)
    for one in placed:
        if one.left is None or one.right is None or one.bottom is None or one.top is None:
            continue
        for low, high in ((one.left, one.right), (one.bottom, one.top)):
            size = Fraction(in_units(high.value)) - in_units(low.value)
            if size < 0:
                level: CheckLevel = "warn" if low.rests or high.rests else "stop"
                ways = (WayOut("look at", one.id), WayOut("read again", run.id, "overall"))
                yield Check("closure", (one.id,), size, None, level, "open", "backwards", {}, ways)


def _where_boxes_meet(run: RunPlan) -> list[str]:
    """Upright members that have another one to their right: a seam may stand between."""
    members = {m.id: m.member.kind for m in run.members}
    pairs = zip(run.order, run.order[1:], strict=False)
    return [a for a, b in pairs if members.get(a) in ("stile", "side") and members.get(b) in ("stile", "side")]


def limit_of(index: JobIndex, field: str, key: str) -> Figure:
    """A limit: the job's own where it has one, else the usual."""
    return entered(index.unit, getattr(index.limits, field), key)


def _inset(index: JobIndex, opening: str) -> bool:
    return index.scheme(opening) == "inset"


def _spread(index: JobIndex, opening: OpeningPlan) -> Check:
    """F2: widest less least, of widths or heights, whichever is more."""
    across = opening.width_most.length - opening.width_least.length
    up = opening.height_most.length - opening.height_least.length
    inset = _inset(index, opening.id)
    limit = limit_of(index, "spread_inset" if inset else "spread_cover", "spread inset" if inset else "spread cover")
    level: CheckLevel = "warn" if max(across, up) > limit.length else "ok"
    ways = (WayOut("read again", opening.id, "width" if across > up else "height"),) if level != "ok" else ()
    facts: dict[str, Fact] = {"widths": across, "heights": up, "scheme": index.scheme(opening.id)}
    return Check("spread", (opening.id,), max(across, up), limit.value, level, judged(level), "", facts, ways)


def _racking(index: JobIndex, opening: OpeningPlan) -> Iterator[Check]:
    """F3 and F4: lean over its limit, a second diagonal that is not as foretold, diagonals that close nothing."""
    where = (opening.id,)
    again = (WayOut("read again", opening.id, "diagonal"), WayOut("read again", opening.id, "height"))
    if opening.impossible:
        first = opening.diagonals[0]
        yield Check(
            "racking", where, first.value if first else None, None, "stop", "open", "no quadrilateral", {}, again
        )
    if opening.lean is not None and opening.lean_error is not None:
        inset = _inset(index, opening.id)
        own = limit_of(index, "lean_inset" if inset else "lean_cover", "lean inset" if inset else "lean cover")
        limit = max(Fraction(in_units(own.value)), 2 * opening.lean_error)
        level: CheckLevel = "warn" if abs(Fraction(in_units(opening.lean.value))) > limit else "ok"
        ways = again if level != "ok" else ()
        yield Check(
            "racking",
            where,
            opening.lean.value,
            limit,
            level,
            judged(level),
            "lean" if ways else "",
            {},
            ways,
            roots=True,
        )
    if opening.second_residual is not None:
        limit = Fraction(4 * in_units(reading_error_of(index).value))
        if abs(opening.second_residual) > limit:
            facts: dict[str, Fact] = {"foretold": opening.second_predicted or 0}
            yield Check("racking", where, opening.second_residual, limit, "warn", "open", "residual", facts, again)


def _readings(opening: OpeningPlan) -> Check:
    taken = opening.readings_taken
    level: CheckLevel = "note" if taken < ASKED else "ok"
    ways = (WayOut("enter", opening.id, "width"),) if level != "ok" else ()
    return Check("readings", (opening.id,), taken, ASKED, level, judged(level), ways=ways)


def _against_run(index: JobIndex, run: RunPlan, opening: OpeningPlan) -> Iterator[Check]:
    """What run and rails say of an opening against what was read of it (F6: two readings of one thing)."""
    if opening.left is None or opening.right is None or opening.bottom is None or opening.top is None:
        return
    limit = closure_limit(index, 3)
    sides = (
        ("width", opening.left, opening.right, opening.widths),
        ("height", opening.bottom, opening.top, opening.heights),
    )
    for what, low, high, own in sides:
        taken = [f for f in own if f.source == "taped"]
        if not taken or low.rests or high.rests or _made_of(high, taken) or _made_of(low, taken):
            continue
        value = in_units(high.value) - in_units(low.value)
        off = outside(value, taken)
        level: CheckLevel = "stop" if abs(off) > limit else "ok"
        facts: dict[str, Fact] = {"what": what, "run": Fraction(value), "own": taken[0].value}
        again = (WayOut("read again", opening.id, what), WayOut("read again", run.id, what)) if level != "ok" else ()
        yield Check(
            "closure",
            (opening.id,),
            off,
            limit,
            level,
            judged(level),
            "two readings",
            facts,
            again,
            roots=True,
        )


def _made_of(figure: Figure, readings: list[Figure]) -> bool:
    """Whether a figure was worked out from one of these readings, so that it says nothing new."""
    same = any(figure.name == r.name for r in readings)
    return same or any(_made_of(term.figure, readings) for term in figure.terms if term.factor)


def _bows(index: JobIndex, run: RunPlan) -> Iterator[Check]:
    """F7: a member that stands proud by more than fronts can sit on."""
    inset = any(_inset(index, o.id) for o in run.openings)
    limit = assumed(index.unit, "bow inset" if inset else "bow cover")
    for plan in (*run.members, *run.rails):
        bow = measured(plan.member.bow, f"bow of {plan.id}")
        if bow is not None:
            yield _compared("bow", (plan.id,), _under_a_front(run, plan, bow), limit, "warn")


def _under_a_front(run: RunPlan, plan: MemberPlan, bow: Figure) -> Figure:
    """The bow over the highest opening beside an upright, or the opening over a rail; as read where over is unknown."""
    over = measured(plan.member.bow_over, f"length of the straightedge on {plan.id}")
    spans = [o.height for o in run.openings]
    if over is None or not spans:
        return bow
    upright = plan.member.kind in UPRIGHT
    along = total(f"length of {plan.id}", plus(plan.right), minus(plan.left))
    return bow_under(bow, over, most("highest opening", spans, "the highest") if upright else along)


def _compared(code: Code, where: tuple[str, ...], value: Figure, limit: Figure, worst: CheckLevel) -> Check:
    level: CheckLevel = worst if in_units(value.value) > in_units(limit.value) else "ok"
    ways = (WayOut("look at", where[0]),) if level != "ok" else ()
    return Check(code, where, value.value, limit.value, level, judged(level), ways=ways)
