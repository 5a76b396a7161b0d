"""The checks of hinges and cups: count (F25), cover at the hinge (F26), cup against joint and floor (F27)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from frontwright.core.assumed import measured
from frontwright.core.figures import only_assumed
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.hardware.hinges import hinge_row
from frontwright.core.hardware.result import CupPlan, HardwarePlan, HingePlan
from frontwright.core.hardware.sense import contradictions
from frontwright.core.job import HingeType
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, in_units
from frontwright.core.making.result import FrontMaking, MakingPlan


def hardware_checks(index: JobIndex, fronts: FrontsPlan, making: MakingPlan, found: HardwarePlan) -> Iterator[Check]:
    """Every rule of hinges and cups, looked at for every door; of the hinges of the job, whether they make sense."""
    for row in index.job.hinge_types.values():
        yield from _sense(row)
    for hinge in found.hinges.values():
        front = fronts.fronts[hinge.front]
        yield _count(hinge)
        if front.hinge_side is not None and front.overlay[front.hinge_side] is None:
            yield _nothing_to_hang_on(front)
        elif hinge.plates:
            yield _cover(front, hinge)
        yield from _blocked(index, hinge)
        yield from _needs(index, front, making.fronts[front.id], hinge_row(index, front))
    yield from _pairs(fronts, found.hinges)
    for cup in found.cups.values():
        yield from _cup(cup, making.fronts[cup.front].build.id, fronts.fronts[cup.front].look.hinge or "")


def _sense(row: HingeType) -> Iterator[Check]:
    """Figures of a hinge that cannot all be true."""
    for one in contradictions(row):
        facts: dict[str, Fact] = {"fields": ", ".join(one.fields), "first": one.fields[0], "second": one.fields[1]}
        if isinstance(one.makes, Length | Fraction):
            facts["makes"] = one.makes
        ways = tuple(WayOut("change", row.id, name) for name in one.fields[:2])
        yield Check("hinge-overlay", (row.id,), None, None, "warn", "open", f"data {one.kind}", facts, ways)


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


def _cover(front: FrontPlan, hinge: HingePlan) -> Check:
    """F26 at every hinge's height: a note when more than half of the adjustment is used (F74), a stop beyond it."""
    worst = max(range(len(hinge.plates)), key=lambda at: abs(Fraction(in_units(hinge.plates[at].off.value))))
    plate, need = hinge.plates[worst], hinge.needs[worst]
    adjust = Fraction(in_units(hinge.adjust.value)) if hinge.adjust is not None else Fraction(0)
    given, off = Fraction(in_units(plate.gives.value)), abs(Fraction(in_units(plate.off.value)))
    level: CheckLevel = "stop" if off > adjust else "note" if 2 * off > adjust else "ok"
    if level == "stop" and need.rests:
        level = "warn"
    facts: dict[str, Fact] = {
        "side": front.hinge_side or "left",
        "given": given,
        "used": off,
        "adjust": adjust,
        "plate": plate.name,
    }
    ways: tuple[WayOut, ...] = ()
    if level in ("stop", "warn"):
        ways = (
            WayOut("change", front.look.hinge or "", "cover"),
            WayOut("change", front.id, f"pin_{front.hinge_side}"),
        )
    case = {"stop": "beyond", "warn": "beyond", "note": "at the end", "ok": ""}[level]
    value, limit = Fraction(in_units(need.value)), (given - adjust, given + adjust)
    return Check("hinge-overlay", (front.id,), value, limit, level, judged(level), case, facts, ways)


def _pairs(fronts: FrontsPlan, hinges: Mapping[str, HingePlan]) -> Iterator[Check]:
    """Doors of one opening that stand on plates of more than one kind, and doors for which plates are lacking."""
    by_opening: dict[str, list[HingePlan]] = {}
    for hinge in hinges.values():
        by_opening.setdefault(fronts.fronts[hinge.front].opening, []).append(hinge)
    for doors in by_opening.values():
        names = list(dict.fromkeys(use.name for door in doors for use in door.plates if use.id))
        if len(names) > 1:
            where = tuple(door.front for door in doors)
            facts: dict[str, Fact] = {f"plate {at}": name for at, name in enumerate(names)}
            value = " and ".join(names)
            yield Check("hinge-overlay", where, value, None, "note", "open", "two plates", facts, (_look_at(where[0]),))
    lacking: dict[tuple[str, str], list[str]] = {}
    for hinge in hinges.values():
        for use in hinge.plates:
            if use.lacking:
                lacking.setdefault((use.id, use.name), []).append(hinge.front)
    for (plate, name), where_lacking in lacking.items():
        fronts_lacking = tuple(dict.fromkeys(where_lacking))
        told: dict[str, Fact] = {"plate": name, "lacking": len(where_lacking)}
        ways = (WayOut("change", plate, "count"),)
        yield Check(
            "hinge-overlay", fronts_lacking, len(where_lacking), None, "note", "open", "plates lack", told, ways
        )


def _look_at(of: str) -> WayOut:
    return WayOut("look at", of)


def _blocked(index: JobIndex, hinge: HingePlan) -> Iterator[Check]:
    """A hinge that stands where a shelf, a drawer or a dowel is, and finds no other height."""
    for height, of in zip(hinge.heights, hinge.blocked, strict=False):
        if of:
            level: CheckLevel = "warn" if height.rests else "stop"
            ways = [WayOut("change", hinge.type or "", "end_distance")]
            ways += [WayOut("change", of, "at")] if of in index.job.insides else []
            yield Check(
                "cup-fit", (hinge.front,), height.value, None, level, "open", "in the way", {"of": of}, tuple(ways)
            )


def _needs(index: JobIndex, front: FrontPlan, made: FrontMaking, row: HingeType) -> Iterator[Check]:
    """What a hinge asks for: a door no thicker, a box deep enough behind the frame, the kind of box it is made for."""
    thick = measured(row.most_thickness, "thickest door of the hinge")
    if thick is not None:
        over = in_units(made.build.thickness.value) > in_units(thick.value)
        level: CheckLevel = ("warn" if made.build.thickness.rests else "stop") if over else "ok"
        ways = (WayOut("change", made.build.id, "thickness"),) if over else ()
        value = made.build.thickness.value
        case = "too thick" if over else "thin enough"
        yield Check("cup-fit", (front.id,), value, thick.value, level, judged(level), case, {}, ways)
    yield from _depth(index, front, row)
    kind = index.cabinet_kind(front.run)
    if row.box is not None and row.box != kind and index.cabinets.get(front.run):
        facts: dict[str, Fact] = {"made for": row.box, "box": kind}
        yield Check(
            "hinge-overlay",
            (front.id,),
            kind,
            row.box,
            "warn",
            "open",
            "other box",
            facts,
            (WayOut("change", row.id, "box"),),
        )


def _depth(index: JobIndex, front: FrontPlan, row: HingeType) -> Iterator[Check]:
    """The depth that arm and soft close take behind the frame, against that of the box."""
    need = measured(row.needs_depth, "depth that the hinge needs")
    boxes = index.cabinets.get(front.run, [])
    column = index.job.columns.get(index.job.openings[front.opening].column)
    box = next((one for one in boxes if column is not None and one.id == column.cabinet), boxes[0] if boxes else None)
    have = measured(box.depth, f"depth of {box.id}") if box is not None else None
    if need is not None and have is not None:
        level: CheckLevel = "ok" if in_units(have.value) >= in_units(need.value) else "stop"
        case = "depth" if level != "ok" else "deep enough"
        ways = (WayOut("change", row.id, "needs_depth"),) if level != "ok" else ()
        yield Check("cup-fit", (front.id,), have.value, need.value, level, judged(level), case, {}, ways)


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
