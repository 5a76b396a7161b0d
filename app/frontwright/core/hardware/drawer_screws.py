"""The screws that hold an applied drawer front, from inside its box: the least and the most they may measure."""

from __future__ import annotations

from dataclasses import dataclass

from frontwright.core.assumed import assumed, measured
from frontwright.core.condition.drawers import drawer_of
from frontwright.core.figures import Figure, Term, minus, plus, total
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, Unit, in_units
from frontwright.core.making.result import FrontMaking

# lengths that wood screws are sold in: common practice, no source
_SOLD: dict[Unit, tuple[Length, ...]] = {
    "mm": tuple(Length.mm(n) for n in (16, 20, 25, 30, 35, 40, 45, 50, 60)),
    "in": tuple(Length.inch(n) for n in ("5/8", "3/4", "1", "5/4", "3/2", "7/4", "2", "9/4", "5/2")),
}


@dataclass(frozen=True, slots=True)
class DrawerScrew:
    """Screws of a drawer front: they pass box front and packing; `chosen` as told, `sold` the longest that will do."""

    front: str
    opening: str
    passes: Figure
    least: Figure
    most: Figure
    chosen: Figure | None
    sold: Figure | None


def drawer_screw(index: JobIndex, front: FrontPlan, made: FrontMaking) -> DrawerScrew:
    """From what they pass and their least bite, to what leaves wood before the face of the front."""
    drawer = drawer_of(index, front.run, front.opening)
    passes = total(f"what the screws of {front.id} pass", plus(drawer.box_front), plus(drawer.behind))
    least = total(f"least screw of {front.id}", plus(passes), plus(assumed(index.unit, "screw bite")))
    wall = assumed(index.unit, "screw end")
    most = total(f"most screw of {front.id}", plus(passes), plus(made.build.thickness), minus(wall))
    chosen = measured(drawer.row.screw, f"screws of {front.id}")
    fitting = [one for one in _SOLD[index.unit] if in_units(least.value) <= one.units <= in_units(most.value)]
    sold = None
    if fitting:
        how = "the longest that is sold and fits"
        sold = Figure(f"screw of {front.id}", fitting[-1], "derived", how, (Term(least, 0), Term(most, 0)))
    return DrawerScrew(front.id, front.opening, passes, least, most, chosen, sold)


def drawer_screw_check(screw: DrawerScrew) -> Check | None:
    """A screw that comes out of the face, or that has too little to hold in; None where none was chosen."""
    if screw.chosen is None:
        return None
    length, limit = screw.chosen.units, (screw.least.value, screw.most.value)
    through, short = length > screw.most.units, length < screw.least.units
    level: CheckLevel = "stop" if through and not screw.most.rests else "warn" if through or short else "ok"
    case = "screw through" if through else "screw short" if short else ""
    facts: dict[str, Fact] = {"opening": screw.opening}
    ways = (WayOut("change", screw.opening, "screw", screw.sold.length),) if case and screw.sold is not None else ()
    return Check(
        "drawer-front", (screw.front,), screw.chosen.value, limit, level, judged(level), case or "screw", facts, ways
    )
