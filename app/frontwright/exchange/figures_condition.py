"""What was found as sections of the figures: surfaces, drawers, old holes, hazards, and what nobody asked."""

from __future__ import annotations

from frontwright.core.brief import unasked
from frontwright.core.condition.result import DrawerPlan, SurfacePlan
from frontwright.core.figures import Figure
from frontwright.core.hardware.drawer_screws import DrawerScrew
from frontwright.core.hardware.found import drawer_screws, holes_left
from frontwright.core.hardware.old_holes import OldHoles
from frontwright.core.lengths import Unit, exact_text
from frontwright.core.plan import Plan

type Row = dict[str, object]


def condition_sections(plan: Plan) -> Row:
    """The keys `surfaces`, `drawers`, `old_holes`, `hazards` and `not_asked`."""
    unit, index = plan.job.heading.unit, plan.index
    screws = {screw.opening: screw for screw in drawer_screws(index, plan.fronts, plan.making)}
    holes = holes_left(index, plan.survey, plan.fronts, plan.hardware)
    return {
        "surfaces": [_surface(one) for one in plan.condition.surfaces],
        "drawers": [_drawer(one, screws.get(one.opening), unit) for one in plan.condition.drawers.values()],
        "old_holes": [_holes(one, unit) for one in holes],
        "hazards": [{"hazard": one.hazard, "run": one.run, "at": list(one.of)} for one in plan.condition.hazards],
        "not_asked": [question.key for question in unasked(plan.job)],
    }


def _length(figure: Figure | None, unit: Unit) -> str | None:
    return None if figure is None else exact_text(figure.value, unit)


def _surface(surface: SurfacePlan) -> Row:
    row = surface.row
    return {
        "id": surface.id,
        "run": surface.run,
        "where": row.where,
        "finish": row.finish,
        "state": row.state,
        "glued": surface.glued,
        "meets": surface.ground,
        "may_be_glued": surface.may_be_glued,
        "may_hold_lead": surface.old_paint or row.swab == "lead",
    }


def _drawer(drawer: DrawerPlan, screw: DrawerScrew | None, unit: Unit) -> Row:
    """Screws are told where something was said of the drawer."""
    return {
        "opening": drawer.opening,
        "packing": _length(drawer.behind, unit),
        "box_front": _length(drawer.box_front, unit),
        "screw_least": _length(screw.least if screw else None, unit),
        "screw_most": _length(screw.most if screw else None, unit),
        "screw": _length((screw.chosen or screw.sold) if screw else None, unit),
    }


def _holes(found: OldHoles, unit: Unit) -> Row:
    return {
        "front": found.front,
        "opening": found.opening,
        "heights": [_length(hole, unit) for hole in found.holes],
        "plugs": found.plugs,
        "nearest": _length(found.nearest, unit),
        "needed": _length(found.needed, unit),
    }
