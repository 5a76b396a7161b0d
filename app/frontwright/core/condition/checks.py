"""Checks of what is there: surfaces that are worked on (mistake 18), frames to be put right first, drawer fronts."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.condition.result import DrawerPlan, SurfacePlan
from frontwright.core.condition.surfaces import covered, described, objections
from frontwright.core.condition.ways import ways_out
from frontwright.core.findings import Check, CheckLevel, Fact, WayOut, judged
from frontwright.core.job.index import JobIndex
from frontwright.core.survey.result import SurveyPlan


def surface_checks(index: JobIndex, survey: SurveyPlan, surfaces: tuple[SurfacePlan, ...]) -> Iterator[Check]:
    """Every surface that something is glued onto, or whose paint is disturbed."""
    runs = {run.id: run for run in survey.runs}
    for surface in surfaces:
        if not surface.disturbed:
            continue
        row, facts = surface.row, _facts(surface)
        found = list(objections(row, surface.glued, surface.disturbed, surface.old_paint))
        for one in found:
            ways = tuple(ways_out(index.job, row, one, covered(index, runs[row.run], row.where)))
            yield Check("surface", (row.id,), one.have or None, one.need, one.level, "open", one.case, facts, ways)
        if not found:
            yield Check("surface", (row.id,), described(row), "sound", "ok", judged("ok"), "", facts)


def _facts(surface: SurfacePlan) -> dict[str, Fact]:
    return {"run": surface.run, "at": surface.row.where, "finish": surface.row.finish or ""}


def repair_checks(index: JobIndex, survey: SurveyPlan) -> Iterator[Check]:
    """What must be put right before strips and hinges go on; a box not sound without a word of what is wrong."""
    runs = {run.id for run in survey.runs}
    listed = set()
    for row in index.job.repairs.values():
        if row.run not in runs:
            continue
        listed.add(row.run)
        level: CheckLevel = "ok" if row.done else "warn"
        facts: dict[str, Fact] = {"what": row.what, "at": row.at, "run": row.run}
        ways = () if row.done else (WayOut("change", row.id, "done", "yes"),)
        yield Check("repair", (row.id,), row.what, None, level, judged(level), "" if row.done else "to do", facts, ways)
    for box in index.job.cabinets.values():
        if box.sound is False and box.run in runs and box.run not in listed:
            ways = (WayOut("enter", box.id, "sound"),)
            yield Check("repair", (box.id,), "not sound", None, "warn", "open", "not said", {"run": box.run}, ways)


def drawer_checks(drawers: tuple[DrawerPlan, ...], fronts: dict[str, str]) -> Iterator[Check]:
    """A fixed front that nobody decided on, and a box that stands out too far for its front to shut.

    `fronts`: the front of each opening that is drawn out.
    """
    for drawer in drawers:
        front = fronts.get(drawer.opening)
        if front is None:
            continue
        if drawer.row.front == "fixed" and drawer.row.way is None:
            of = drawer.opening
            ways = (WayOut("change", of, "way", "sawn off"), WayOut("change", of, "way", "box end remade"))
            yield Check("drawer-front", (front,), "part of the box", None, "warn", "open", "fixed", _of(drawer), ways)
        else:
            yield _closing(drawer, front)


def _of(drawer: DrawerPlan) -> dict[str, Fact]:
    return {"opening": drawer.opening}


def _closing(drawer: DrawerPlan, front: str) -> Check:
    """F13: with nothing between them the front would not come down on its bumpers."""
    packing = drawer.packing
    have = drawer.chosen if drawer.chosen is not None else packing
    if packing.units < 0:
        ways = (WayOut("enter", drawer.opening, "box_out"),)
        level: CheckLevel = "warn" if packing.rests else "stop"
        facts = {**_of(drawer), "over": -packing.units}
        return Check("drawer-front", (front,), packing.value, 0, level, "open", "stands out", facts, ways)
    if drawer.chosen is not None and drawer.chosen.units != packing.units:
        ways = (WayOut("change", drawer.opening, "packing", packing.length),)
        return Check("drawer-front", (front,), have.value, packing.value, "warn", "open", "packing", _of(drawer), ways)
    return Check("drawer-front", (front,), have.value, packing.value, "ok", judged("ok"), "", _of(drawer))
