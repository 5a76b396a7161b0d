"""Old hinges used again, and what that binds: cover (F11, F26), thickness, number, cup (F27), the kind of door edge."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.assumed import assumed, measured
from frontwright.core.figures import Figure, plus, total
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.result import CupPlan, HingePlan
from frontwright.core.job import OldHinge
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.making.result import FrontMaking
from frontwright.core.survey.openings import reading_error_of

REPLACE = "replace"


@dataclass(frozen=True, slots=True)
class Reused:
    """A new door on old hinges: `cover` they give now, told or by the old front; `needs`: by hinge what they must."""

    row: OldHinge
    front: FrontPlan
    made: FrontMaking
    hinge: HingePlan
    cup: CupPlan
    cover: Figure | None
    needs: tuple[Figure, ...]


def old_hinge_checks(index: JobIndex, reused: Reused) -> Iterator[Check]:
    """Every rule that can be looked at for a door on old hinges; one that holds where nothing is bound."""
    found = [check for check in _looked_at(index, reused) if check is not None]
    yield from found
    if not any(check.is_open for check in found):
        yield Check("old-hinge", (reused.front.id,), reused.row.kind or "kind not said", None)


def _looked_at(index: JobIndex, reused: Reused) -> Iterator[Check | None]:
    if reused.row.kind == "lipped door":
        yield _open(reused, "lipped", "lipped door", "flat door")
    if reused.row.worn:
        yield _open(reused, "worn", "worn", None, "warn")
    if reused.row.count is not None and reused.row.count < reused.hinge.count:
        yield _open(reused, "count", reused.row.count, reused.hinge.count, "warn")
    yield _thickness(index, reused)
    yield _cover(index, reused)
    yield from _cup(reused)


def _open(
    reused: Reused, case: str, value: Fact, limit: Fact | None, level: CheckLevel = "stop", *ways: WayOut
) -> Check:
    facts: dict[str, Fact] = {"opening": reused.front.opening}
    replaced = WayOut("change", reused.front.opening, "use", REPLACE)
    return Check("old-hinge", (reused.front.id,), value, limit, level, judged(level), case, facts, (*ways, replaced))


def _thickness(index: JobIndex, reused: Reused) -> Check | None:
    """A door thicker than the hinge was made for binds on the hinge side."""
    old = measured(reused.row.thickness, "made for doors of")
    new = reused.made.build.thickness
    if old is None or Fraction(in_units(new.value)) - in_units(old.value) <= in_units(reading_error_of(index).value):
        return None
    thinner = WayOut("change", reused.made.build.id, "thickness", old.value, gives="every front of this build")
    level: CheckLevel = "warn" if new.rests else "stop"
    ways = () if new.source == "as-built" else (thinner,)
    return _open(reused, "thick", new.value, old.value, level, *ways)


def _cover(index: JobIndex, reused: Reused) -> Check | None:
    """F26: no hinge can be adjusted further than it goes; one without adjustment only as far as the tape errs."""
    if reused.cover is None or not reused.needs or reused.front.look.scheme == "inset":
        return None
    cup = reused.row.kind in (None, "cup")
    slack = in_units((assumed(index.unit, "hinge adjust") if cup else reading_error_of(index)).value)
    given = Fraction(in_units(reused.cover.value))
    worst = max(reused.needs, key=lambda need: abs(Fraction(in_units(need.value)) - given))
    if abs(Fraction(in_units(worst.value)) - given) <= slack:
        return None
    return _open(reused, "cover", worst.value, reused.cover.value, "warn" if worst.rests else "stop")


def _cup(reused: Reused) -> Iterator[Check]:
    """F27 with the old cup: its far edge against the joint, the wood left under it."""
    edge, across, deep = (
        measured(getattr(reused.row, name), name.replace("_", " ")) for name in ("edge_distance", "cup", "cup_depth")
    )
    if edge is not None and across is not None:
        far = total(f"far edge of the old cup of {reused.front.id}", plus(edge), plus(across))
        if in_units(far.value) > in_units(reused.cup.limit.value):
            level: CheckLevel = "warn" if reused.cup.limit.rests else "stop"
            yield _open(reused, "cup", far.value, reused.cup.limit.value, level)
    if deep is not None:
        left = Fraction(in_units(reused.made.build.thickness.value)) - in_units(deep.value)
        if left < in_units(reused.cup.floor_least.value):
            level = "warn" if reused.made.build.thickness.rests else "stop"
            yield _open(reused, "floor", left, reused.cup.floor_least.value, level)


def new_hinges(index: JobIndex, hinge: HingePlan) -> int:
    """How many of a front's hinges must be had: none of those that are used again, where nobody counted them all."""
    front = index.job.fronts.get(hinge.front)
    row = index.job.old_hinges.get(front.opening) if front is not None else None
    if row is None or row.use != "again":
        return hinge.count
    return max(0, hinge.count - row.count) if row.count is not None else 0
