"""Old screw holes of plates that come off, against the screws of the new plates: what must be plugged first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.assumed import assumed, entered, measured
from frontwright.core.figures import Figure, Term, minus, plus, share, total
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job import OldHinge
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.survey.result import OpeningPlan


@dataclass(frozen=True, slots=True)
class OldHoles:
    """Holes of the old plates of an opening over its lower edge; `plugs`: so many are filled, 0 where it is done.

    `nearest`: the least distance of a new screw from a hole that it does not meet in the middle; `needed`: what it
    must keep to hold.
    """

    front: str
    opening: str
    holes: tuple[Figure, ...]
    plugs: int
    nearest: Figure | None
    needed: Figure


def old_holes(
    index: JobIndex, opening: OpeningPlan, front: FrontPlan, row: OldHinge, heights: Sequence[Figure]
) -> OldHoles | None:
    """The holes that plates leave which are taken off; None where they stay, or their heights were not read."""
    read = [measured(getattr(row, f"plate_{n}"), f"old plate {n} of {row.id}") for n in range(1, 6)]
    plates = [plate for plate in read if plate is not None]
    if row.use != "replace" or not plates or front.hinge_side == "top":
        return None
    apart = entered(index.unit, row.screws_apart, "plate screws apart")
    holes = tuple(hole for plate in plates for hole in _screws(plate, apart, "old hole"))
    low = [plus(front.bottom)] + ([minus(opening.bottom)] if opening.bottom is not None else [])
    usual = assumed(index.unit, "plate screws apart")
    new = [screw for height in heights for screw in _screws(total("new plate", plus(height), *low), usual, "new screw")]
    near = [distance for screw in new for hole in holes if (distance := _distance(screw, hole)).units]
    needed = total("screw clear of an old hole", plus(assumed(index.unit, "old hole")), plus(_wall(index)))
    nearest = min(near, key=lambda one: one.units, default=None)
    return OldHoles(front.id, row.id, holes, 0 if row.plugged else len(holes), nearest, needed)


def _wall(index: JobIndex) -> Figure:
    return assumed(index.unit, "hole wall")


def _screws(plate: Figure, apart: Figure, name: str) -> Iterator[Figure]:
    """The two screws of a plate, below and above its middle."""
    half = share("half of it", apart, 2)
    yield total(f"{name} under {plate.name}", plus(plate), minus(half))
    yield total(f"{name} over {plate.name}", plus(plate), plus(half))


def _distance(one: Figure, other: Figure) -> Figure:
    apart = abs(Fraction(in_units(one.value)) - in_units(other.value))
    return Figure("from an old hole", apart, "derived", "middle to middle", (Term(one), Term(other, -1)))


def old_hole_check(found: OldHoles) -> Check:
    """A screw that goes half into an old hole holds in nothing: plug it first."""
    close = found.nearest is not None and found.nearest.units < found.needed.units and found.plugs
    level: CheckLevel = "warn" if close else "ok"
    facts: dict[str, Fact] = {"plugs": found.plugs, "opening": found.opening}
    ways = (WayOut("change", found.opening, "plugged", "yes"),) if close else ()
    value = found.nearest.value if found.nearest is not None else None
    case = "near" if close else ""
    return Check("old-holes", (found.front,), value, found.needed.value, level, judged(level), case, facts, ways)
