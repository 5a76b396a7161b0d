"""Fronts as they came out of the clamps and off the rack: diagonals (F67), wind and bow against the hinges (F74).

A wind of w at the fourth corner is shared out by setting one hinge in and the other out by a quarter of w each: then
every corner stands off by a quarter, and no more is possible with hinges. A bow is halved: both hinges go by half of
it. More than half of a hinge's adjustment in depth is a bad plan (F74); more than all of it cannot be put right there.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import isqrt

from frontwright.core.assumed import assumed, entered
from frontwright.core.figures import Figure, Term, share
from frontwright.core.findings import Check, CheckLevel, Code, Fact, WayOut, judged
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job import HingeType
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, in_units
from frontwright.core.site.result import FrontMade, MadePlan

FINER = 10**6  # a root is kept this much finer than the unit
CASE = "as made"


def made(index: JobIndex, fronts: FrontsPlan, hardware: HardwarePlan) -> MadePlan:
    """Every front with what its diagonals may differ by, what was measured of it, and what is found of that."""
    found = {front.id: _made(index, front, hardware) for front in fronts.fronts.values() if front.front.kind != "open"}
    checks = [check for one in found.values() for check in _checks(index, fronts.fronts[one.front], one)]
    return MadePlan(found, tuple(checks))


def diagonal(width: Length, height: Length) -> Fraction:
    """The diagonal of a square front, in units, far finer than one."""
    return Fraction(isqrt((width.units**2 + height.units**2) * FINER**2), FINER)


def diagonals_allowed(width: Figure, height: Figure, lean: Figure) -> Figure:
    """F67: `ΔD = 2·W·s/D` for a lean s that nobody sees."""
    across = diagonal(width.length, height.length)
    value = 2 * Fraction(in_units(width.value)) * in_units(lean.value) / across if across else Fraction(0)
    terms = (Term(width, 0), Term(height, 0), Term(lean, 0))
    return Figure("diagonals may differ by", value, "derived", "2 × width × lean / diagonal", terms)


def _made(index: JobIndex, front: FrontPlan, hardware: HardwarePlan) -> FrontMade:
    lean = assumed(index.unit, "front lean")
    one, other = (_read(index, front.id, f"diagonal {n}") for n in (1, 2))
    differ = None
    if one is not None and other is not None:
        value, how = abs(one.length - other.length), "the longer less the shorter"
        differ = Figure("diagonals differ by", value, "derived", how, (Term(one), Term(other)))
    wind, bow = _read(index, front.id, "wind"), _read(index, front.id, "bow")
    adjust = None
    if front.id in hardware.hinges:
        row = index.job.hinge_types.get(front.look.hinge or "") or HingeType("")
        adjust = entered(index.unit, row.adjust_depth, "hinge adjust out")
    return FrontMade(
        front=front.id,
        diagonal=diagonal(front.width.length, front.height.length),
        diagonals_allowed=diagonals_allowed(front.width, front.height, lean),
        diagonals=differ,
        wind=wind,
        bow=bow,
        wind_by_hinge=share("a hinge set in or out by", wind, 4) if wind is not None and adjust is not None else None,
        bow_by_hinge=share("a hinge set in or out by", bow, 2) if bow is not None and adjust is not None else None,
        adjust=adjust,
    )


def _read(index: JobIndex, front: str, what: str) -> Figure | None:
    """What was measured of a front; an answer of nothing counts, minus is taken as its size."""
    row = index.built.get((front, what))
    value = row.value.value if row is not None and row.value is not None else None
    return None if value is None else Figure(f"{what} of {front}", abs(value), "as-built", "measured on the thing made")


def _checks(index: JobIndex, front: FrontPlan, one: FrontMade) -> Iterator[Check]:
    if one.diagonals is not None:
        level: CheckLevel = "ok" if one.diagonals.units <= one.diagonals_allowed.units else "warn"
        limit, where = Fraction(one.diagonals_allowed.units), (front.id,)
        way = WayOut("enter", front.id, "diagonal 1")
        yield Check("racking", where, one.diagonals.value, limit, level, judged(level), CASE, {}, (way,), roots=True)
    measured: tuple[tuple[Code, Figure | None, int], ...] = (("wind", one.wind, 4), ("bow", one.bow, 2))
    for code, figure, parts in measured:
        if figure is not None:
            yield _against_hinges(index, front, one, code, figure, parts)


def _against_hinges(index: JobIndex, front: FrontPlan, one: FrontMade, code: Code, figure: Figure, parts: int) -> Check:
    """Up to half of what the hinges can take is well; of a front without hinges what a frame may be out by (F7)."""
    where, way = (front.id,), WayOut("enter", front.id, code)
    if one.adjust is None:
        key = {"wind": "wind", "bow": "bow cover"}[code] if front.look.scheme != "inset" else "bow inset"
        limit = assumed(index.unit, key)
        level: CheckLevel = "ok" if figure.units <= limit.units else "warn"
        return Check(code, where, figure.value, limit.value, level, judged(level), "as made, no hinges", {}, (way,))
    half = Fraction(in_units(one.adjust.value)) * parts / 2
    beyond = figure.units > 2 * half
    level = "ok" if figure.units <= half else "warn"
    limit_ = Length(int(half)) if half.denominator == 1 else half
    by = Fraction(in_units(figure.value)) / parts
    facts: dict[str, Fact] = {"beyond": "yes" if beyond else "", "adjust": one.adjust.value, "by": by}
    return Check(code, where, figure.value, limit_, level, judged(level), CASE, facts, (way,))
