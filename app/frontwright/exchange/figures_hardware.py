"""Hinges, plates, borings, pulls, and what the space leaves, in the form of `figures_json`."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.result import BoringPlan, HingePlan, Hole, PlateUse, PullPlan, PullScrew
from frontwright.core.lengths import Length, Unit, decimal, exact_text, in_units, six_places
from frontwright.core.plan import Plan, bored, screwed
from frontwright.core.space.result import Swing

type Row = dict[str, object]

DEGREES, MASS_PLACES = 2, 3


def hardware_sections(plan: Plan) -> Row:
    """Sections `hinges`, `pulls`, `borings`, `bumpers`, `wall_weights`, and of the space `swings`, `turning_rooms`,
    `corner_rooms`, `drawer_rooms`, `end_gaps`."""
    unit = plan.job.heading.unit
    fronts, screws, space = plan.fronts.fronts, screwed(plan), plan.space
    return {
        "hinges": [_hinge(hinge, unit) for hinge in plan.hardware.hinges.values()],
        "pulls": [_pull(pull, screws.get(pull.front), unit) for pull in plan.hardware.places.values()],
        "borings": [_boring(fronts[boring.front], boring, unit) for boring in bored(plan).values()],
        "bumpers": [
            {"front": one.front, "count": one.count, "thick": _length(one.thick, unit)}
            for one in plan.hardware.bumpers.values()
        ],
        "wall_weights": [
            {"run": w.run, "new": _mass(w.new), "old": None if w.old is None else _mass(w.old), "added": _mass(w.added)}
            for w in plan.hardware.weights.values()
        ],
        "swings": [_swing(swing) for swing in space.swings.values()],
        "turning_rooms": [
            {"front": one.front, "side": one.side} | _have_need(one.have, one.need, unit)
            for one in space.turning.values()
        ],
        "corner_rooms": [
            {"corner": one.corner, "front": one.front, "others": list(one.others), "what": one.what}
            | _have_need(one.have, one.need, unit)
            for one in space.meetings
        ],
        "drawer_rooms": [
            {"opening": one.opening, "box": one.box, "way": one.way} | _have_need(one.have, one.need, unit)
            for one in space.drawers
        ],
        "end_gaps": [
            {"run": one.run, "side": one.side, "against": one.against} | _have_need(one.have, one.need, unit)
            for one in space.gaps
        ],
    }


def _length(figure: Figure | None, unit: Unit) -> str | None:
    return None if figure is None else exact_text(figure.value, unit)


def _have_need(have: Figure, need: Figure, unit: Unit) -> Row:
    """Have and need; what comes from a root as a decimal of six places."""
    return {"have": _told(have, unit), "need": _told(need, unit)}


def _told(figure: Figure, unit: Unit) -> str:
    whole = isinstance(figure.value, Length) or figure.value.denominator < 1_000_000
    return exact_text(figure.value, unit) if whole else six_places(figure.value, unit)


def _mass(figure: Figure) -> str:
    return decimal(Fraction(figure.units), MASS_PLACES)


def _hinge(hinge: HingePlan, unit: Unit) -> Row:
    return {
        "front": hinge.front,
        "count": hinge.count,
        "heights": [exact_text(height.value, unit) for height in hinge.heights],
        "type": hinge.type,
        "covers": [exact_text(need.value, unit) for need in hinge.needs],
        "plates": [_plate(use, unit) for use in hinge.plates],
        "moved": list(hinge.moved),
        "forward": _length(hinge.forward, unit),
    }


def _plate(use: PlateUse, unit: Unit) -> Row:
    return {
        "plate": use.id or None,
        "height": _length(use.height, unit),
        "gives": exact_text(use.gives.value, unit),
        "adjusted": exact_text(use.off.value, unit),
        "lacking": use.lacking,
    }


def _pull(pull: PullPlan, screw: PullScrew | None, unit: Unit) -> Row:
    return {
        "front": pull.front,
        "type": pull.type or None,
        "low": _length(pull.low, unit),
        "high": _length(pull.high, unit),
        "spans": [[exact_text(end.value, unit) for end in span] for span in pull.spans],
        "screws": screw.count if screw is not None else 0,
        "screw_least": _length(screw.least, unit) if screw is not None else None,
        "screw_most": _length(screw.most, unit) if screw is not None else None,
        "screw": _length(screw.sold, unit) if screw is not None else None,
        "chosen": pull.chosen,
    }


def _boring(front: FrontPlan, boring: BoringPlan, unit: Unit) -> Row:
    return {
        "front": boring.front,
        "hinge_edge": boring.side or None,
        "holes": list(_holes(front, boring, unit)),
        "pull_chosen": boring.pull_chosen,
    }


def _holes(front: FrontPlan, boring: BoringPlan, unit: Unit) -> Iterator[Row]:
    for hole in boring.holes:
        yield {
            "kind": hole.kind,
            "from_hinge_edge": exact_text(hole.from_hinge.value, unit),
            "from_left": exact_text(_from_left(front, boring, hole), unit),
            "from_bottom": exact_text(hole.from_bottom.value, unit),
            "diameter": exact_text(hole.diameter.value, unit),
            "depth": _length(hole.depth, unit),
        }


def _from_left(front: FrontPlan, boring: BoringPlan, hole: Hole) -> Fraction:
    """From the left edge as seen from the front."""
    at = Fraction(in_units(hole.from_hinge.value))
    return Fraction(in_units(front.width.value)) - at if boring.side == "right" else at


def _swing(swing: Swing) -> Row:
    return {
        "front": swing.front,
        "side": swing.side,
        "opens": None if swing.angle is None else decimal(Fraction(swing.angle.units), DEGREES),
        "need": decimal(Fraction(swing.need.units), DEGREES),
        "stopped_by": swing.stopped_by or None,
        "by": swing.by,
        "with_pull": swing.with_pull,
        "together": None if swing.together is None else decimal(Fraction(swing.together.units), DEGREES),
    }
