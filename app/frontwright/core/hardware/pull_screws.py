"""How long the screws of pulls must be, and which that are sold will do (F28)."""

from __future__ import annotations

from frontwright.core.assumed import entered, measured
from frontwright.core.condition.drawers import drawer_of
from frontwright.core.figures import Figure, Term, minus, plus, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.result import PullPlan, PullScrew
from frontwright.core.job import PullType
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, Unit, in_units
from frontwright.core.making.result import FrontMaking

# lengths under the head that pull screws are sold in: common practice, no source
_SOLD: dict[Unit, tuple[Length, ...]] = {
    "mm": tuple(Length.mm(n) for n in (20, 22, 25, 28, 30, 32, 35, 38, 40, 45, 50, 55, 60)),
    "in": tuple(Length.inch(n) for n in ("3/4", "7/8", "1", "9/8", "5/4", "11/8", "3/2", "7/4", "2", "9/4", "5/2")),
}
_BITE: dict[Unit, tuple[Length, Length]] = {  # F28: 4 to 8 mm of thread, common practice
    "mm": (Length.mm(4), Length.mm(8)),
    "in": (Length.inch("5/32"), Length.inch("5/16")),
}


def pull_screw(index: JobIndex, front: FrontPlan, made: FrontMaking, pull: PullPlan) -> PullScrew | None:
    """F28: all that the screw passes, less the counterbore, and 4 to 8 mm into the pull, never beyond its thread.

    None for a flush pull: it is let in and has its own screws.
    """
    row = index.job.pull_types.get(pull.type) or PullType("")
    if row.kind == "flush":
        return None
    passes = _passes(index, front, made, row)
    bite, most_bite = (
        Figure("into the pull", one, "assumed", "common practice, no source") for one in _BITE[index.unit]
    )
    thread = entered(index.unit, row.thread, "pull thread")
    deepest = thread if in_units(thread.value) < in_units(most_bite.value) else most_bite
    least = total(f"least screw of the pull of {front.id}", plus(passes), plus(bite))
    most = total(f"most screw of the pull of {front.id}", plus(passes), plus(deepest))
    count = len(pull.spans) * (1 if row.kind == "knob" else 2)
    return PullScrew(front.id, count, passes, least, most, _sold(index.unit, front, least, most))


def _passes(index: JobIndex, front: FrontPlan, made: FrontMaking, row: PullType) -> Figure:
    """The front, and behind an applied drawer front its packing (F13) and the front of the box."""
    terms: list[Term] = [plus(made.build.thickness)]
    if front.front.kind == "drawer":
        terms += _behind(index, front)
    sunk = measured(row.counterbore, "head sunk by")
    terms += [] if sunk is None else [minus(Figure(sunk.name, sunk.value, "chosen"))]
    return total(f"what the screw of the pull of {front.id} passes", *terms)


def _behind(index: JobIndex, front: FrontPlan) -> list[Term]:
    """Packing and front of the box, where the front is applied to one whose thickness was read."""
    drawer = drawer_of(index, front.run, front.opening)
    if drawer.box_front.source == "assumed":
        return []
    return [plus(drawer.box_front), plus(drawer.behind)]


def _sold(unit: Unit, front: FrontPlan, least: Figure, most: Figure) -> Figure | None:
    """The longest that is sold between the two: the more thread the better."""
    fitting = [one for one in _SOLD[unit] if in_units(least.value) <= one.units <= in_units(most.value)]
    if not fitting:
        return None
    how = "the longest that is sold and fits"
    return Figure(f"screw of the pull of {front.id}", fitting[-1], "derived", how, (Term(least, 0), Term(most, 0)))
