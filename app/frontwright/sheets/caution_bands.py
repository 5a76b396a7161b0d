"""What can hurt at a run, as lines of a sheet: the same words wherever a sheet leads there."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.cautions import CAUTIONS, DEFERS
from frontwright.core.hardware.found import holes_left
from frontwright.core.hardware.old_holes import OldHoles
from frontwright.core.plan import Plan
from frontwright.sheets.listing import Band, text_band, title_band
from frontwright.sheets.words import strong, words, wrap


def caution_bands(plan: Plan, run: str, width: float) -> Iterator[Band]:
    """The hazards of a run, each with what to do and where it is; nothing where there are none."""
    placed = plan.condition.hazards_of(run)
    if not placed:
        return
    yield title_band(words(strong("What can hurt here"), f"  {DEFERS}", size=10.5, condensed=True), 8.5)
    for one in placed:
        caution = CAUTIONS[one.hazard]
        at = f" ({', '.join(one.of)})" if one.of else ""
        line = words(strong(f"{caution.word}{at}: "), "; ".join(caution.says), ".", size=9, condensed=True)
        yield text_band(wrap(line, width), 4.2)


def repair_bands(plan: Plan, run: str, width: float) -> Iterator[Band]:
    """What of a run must be put right before strips and hinges go on, and how many old holes are plugged."""
    todo = [row for row in plan.job.repairs.values() if row.run == run and not row.done]
    said = [f"{row.what}{f', {row.at}' if row.at else ''}" for row in todo]
    holes = holes_left(plan.index, plan.survey, plan.fronts, plan.hardware)
    said += [f"plates on the side of {box} packed out by {size}" for box, size in packers(plan, run)]
    said += [f"{one.plugs} old holes of {one.front} plugged" for one in holes if one.plugs and _runs(plan, one) == run]
    if said:
        line = words(strong("First: "), "; ".join(said), ".", size=10.5)
        yield text_band(wrap(line, width), 5.0)


def packers(plan: Plan, run: str) -> Iterator[tuple[str, str]]:
    """Boxes whose frame stands before the side inside: plates that sit on the side are packed out by as much."""
    for box in plan.job.cabinets.values():
        proud = box.frame_inside
        if box.run == run and proud is not None and proud.value is not None and proud.value.units > 0:
            yield box.id, proud.text


def _runs(plan: Plan, holes: OldHoles) -> str:
    return plan.fronts.fronts[holes.front].run


def caution_facts(plan: Plan, run: str) -> tuple[tuple[str, str], ...]:
    """The same as facts of a sheet."""
    hazards = tuple((f"hazard: {one.hazard}", ", ".join(one.of)) for one in plan.condition.hazards_of(run))
    repairs = (row for row in plan.job.repairs.values() if row.run == run)
    return (*hazards, *((f"first: {row.id}", f"{row.what}, {row.at}, {row.done}") for row in repairs))
