"""The checks of hinges and cups: count (F25), cover at the hinge (F26), cup against joint and floor (F27)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from frontwright.core.assumed import entered
from frontwright.core.figures import Figure, only_assumed, plus, total
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.hardware.result import CupPlan, HingePlan
from frontwright.core.job import HingeType
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.making.result import MakingPlan
from frontwright.core.skins import inside_edge
from frontwright.core.survey.openings import reading_error_of
from frontwright.core.survey.result import OpeningPlan, SurveyPlan


def hardware_checks(
    index: JobIndex,
    survey: SurveyPlan,
    fronts: FrontsPlan,
    making: MakingPlan,
    hinges: Mapping[str, HingePlan],
    cups: Mapping[str, CupPlan],
) -> Iterator[Check]:
    """Every rule of hinges and cups, looked at for every door."""
    for hinge in hinges.values():
        front = fronts.fronts[hinge.front]
        yield _count(hinge)
        if front.hinge_side is not None and front.overlay[front.hinge_side] is None:
            yield _nothing_to_hang_on(front)
        elif hinge.cover is not None and front.look.scheme != "inset":
            yield from _cover(index, survey.openings[front.opening], front, hinge)
    for cup in cups.values():
        yield from _cup(cup, making.fronts[cup.front].build.id, fronts.fronts[cup.front].look.hinge or "")


def _nothing_to_hang_on(front: FrontPlan) -> Check:
    """A door hung where it meets another one: there is no frame."""
    level: CheckLevel = "warn" if front.hinge_side_assumed else "stop"
    facts: dict[str, Fact] = {"side": front.hinge_side or ""}
    ways = (WayOut("change", front.id, "hinge_side"),)
    return Check("hinge-overlay", (front.id,), None, None, level, "open", "no frame", facts, ways)


def _count(hinge: HingePlan) -> Check:
    level: CheckLevel = "note" if hinge.count > 2 else "ok"
    ways = (WayOut("look at", hinge.front),) if level != "ok" else ()
    facts: dict[str, Fact] = {"why": hinge.why}
    return Check("hinge-count", (hinge.front,), hinge.count, None, level, judged(level), "", facts, ways)


def _cover(index: JobIndex, opening: OpeningPlan, front: FrontPlan, hinge: HingePlan) -> Iterator[Check]:
    """F26 at every hinge's height: a note when more than half of the adjustment is used, a stop beyond it."""
    side = front.hinge_side or "left"
    cover = front.overlay[side]
    if cover is None or hinge.cover is None:
        return
    strip = inside_edge(index, front.run)
    if strip is not None:  # the plate sits on the strip that covers the inside edge
        cover = total(f"cover {side} of {front.id}, from the covered edge", plus(cover), plus(strip))
    row = index.job.hinge_types.get(hinge.type or "") or HingeType("")
    adjust = in_units(entered(index.unit, row.adjust, "hinge adjust").value)
    given = Fraction(in_units(hinge.cover.value))
    needs = [_needed(index, opening, front, side, cover, height) for height in hinge.heights]
    worst = max(needs, key=lambda need: abs(need - given))
    off = abs(worst - given)
    level: CheckLevel = "stop" if off > adjust else "note" if 2 * off > adjust else "ok"
    if level == "stop" and cover.rests:
        level = "warn"
    ways = (
        (WayOut("change", front.look.hinge or "", "cover"), WayOut("change", front.id, f"pin_{side}"))
        if level in ("stop", "warn")
        else ()
    )
    limit = (given - adjust, given + adjust)
    facts: dict[str, Fact] = {"side": side, "given": given, "used": off, "adjust": Fraction(adjust)}
    case = {"stop": "beyond", "warn": "beyond", "note": "at the end", "ok": ""}[level]
    yield Check("hinge-overlay", (front.id,), worst, limit, level, judged(level), case, facts, ways)


def _needed(
    index: JobIndex, opening: OpeningPlan, front: FrontPlan, side: str, cover: Figure, height: Figure
) -> Fraction:
    """The cover needed at one hinge: on a leaning opening the frame's edge is elsewhere at each height."""
    needed = Fraction(in_units(cover.value))
    lean = opening.lean
    if lean is None or side == "top" or abs(Fraction(in_units(lean.value))) <= in_units(reading_error_of(index).value):
        return needed
    up = Fraction(in_units(height.value)) + in_units(front.bottom.value)
    low = in_units(opening.bottom.value) if opening.bottom is not None else 0
    share = (up - low) / in_units(opening.height.value) - Fraction(1, 2)
    shift = in_units(lean.value) * share  # how far the frame's edge lies to the left of its middle at this height
    return needed - shift if side == "left" else needed + shift


def _cup(cup: CupPlan, build: str, hinge: str) -> Iterator[Check]:
    """F27: into the joint is a stop; so is a floor under the least."""
    far, limit = in_units(cup.far_edge.value), in_units(cup.limit.value)
    level: CheckLevel = "ok" if far <= limit else "warn" if only_assumed(cup.limit, cup.far_edge) else "stop"
    ways = (WayOut("change", build, "stile"), WayOut("change", hinge, "edge_distance")) if level != "ok" else ()
    yield Check(
        "cup-fit",
        (cup.front,),
        cup.far_edge.value,
        cup.limit.value,
        level,
        judged(level),
        "joint" if ways else "",
        {},
        ways,
    )
    floor, least = in_units(cup.floor_left.value), in_units(cup.floor_least.value)
    if floor < least:
        worst: CheckLevel = "warn" if only_assumed(cup.floor_left, cup.floor_least) else "stop"
        deeper = (WayOut("change", hinge, "cup_depth"), WayOut("change", build, "thickness"))
        yield Check(
            "cup-fit", (cup.front,), cup.floor_left.value, cup.floor_least.value, worst, "open", "floor", {}, deeper
        )
