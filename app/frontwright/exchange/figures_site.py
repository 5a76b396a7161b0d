"""Finish, fronts as made, work, hanging, lines, packing and story sticks as sections of the figures."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.figures import Figure
from frontwright.core.finish.result import FinishBatch
from frontwright.core.lengths import Unit, decimal, exact_text, six_places
from frontwright.core.plan import Plan, sited
from frontwright.core.site.result import FrontMade, Hang, LevelLine, StoryStick, WorkStep

type Row = dict[str, object]
AREA_PLACES = {"in": 2, "mm": 4}  # square feet, square metres


def site_sections(plan: Plan) -> Row:
    """The keys `finish`, `fronts_made`, `work`, `lines`, `hanging`, `packing` and `story_sticks`."""
    unit = plan.job.heading.unit
    site = sited(plan)
    return {
        "finish": [_finish(batch, unit) for batch in plan.finish.batches],
        "fronts_made": [_made(one, unit) for one in plan.made.fronts.values()],
        "work": [_work(step) for step in site.work],
        "lines": [_line(line, unit) for line in site.lines],
        "hanging": [_hang(one, unit) for one in site.hanging],
        "packing": [{"group": p.group, "what": p.what, "count": p.count, "why": p.why} for p in site.packing],
        "story_sticks": [_stick(stick, unit) for stick in site.sticks],
    }


def _length(figure: Figure | None, unit: Unit) -> str | None:
    return None if figure is None else exact_text(figure.value, unit)


def _finish(batch: FinishBatch, unit: Unit) -> Row:
    """Areas and amounts a recipe; hours are decimals, days count from 1."""
    return {
        "id": batch.id,
        "name": batch.name,
        "fronts_and_strips": [area.of for area in batch.areas],
        "area": decimal(batch.area, AREA_PLACES[unit]),
        "coats": sum(step.what == "coat" for step in batch.steps),
        "volume": decimal(batch.volume, 3),
        "waiting": decimal(batch.waiting, 2),
        "minutes": decimal(batch.work, 1),
        "last_day": batch.last_day,
        "hang_day": batch.hang_day,
        "bumper_day": batch.bumper_day,
        "steps": [
            {"what": s.what, "name": s.name, "dry": decimal(Fraction(s.dry.units), 2), "volume": decimal(s.volume, 3)}
            for s in batch.steps
        ],
        "loads": [{"number": load.number, "places": [list(place) for place in load.places]} for load in batch.loads],
        "visits": [
            {
                "load": visit.load,
                "step": visit.step + 1,
                "day": visit.day,
                "begins": decimal(visit.begins % 24, 2),
                "takes": decimal(visit.ends - visit.begins, 2),
                "late": visit.late,
            }
            for visit in batch.visits
        ],
    }


def _made(one: FrontMade, unit: Unit) -> Row:
    """F67 to six places, the rest as it was measured."""
    return {
        "front": one.front,
        "diagonal": six_places(one.diagonal, unit),
        "diagonals_allowed": six_places(one.diagonals_allowed.value, unit),
        "diagonals_differ": _length(one.diagonals, unit),
        "wind": _length(one.wind, unit),
        "bow": _length(one.bow, unit),
        "hinge_adjust": _length(one.adjust, unit),
    }


def _work(step: WorkStep) -> Row:
    return {
        "number": step.number,
        "stage": step.stage,
        "what": step.what,
        "pieces": step.pieces,
        "settings": step.settings,
        "of": list(step.of),
        "rest": step.rest,
    }


def _line(line: LevelLine, unit: Unit) -> Row:
    return {
        "run": line.run,
        "number": line.number,
        "fronts": list(line.fronts),
        "at": _length(line.at, unit),
        "left": _length(line.left, unit),
        "right": _length(line.right, unit),
        "held": line.held,
        "least_cover": _length(line.least, unit),
    }


def _hang(one: Hang, unit: Unit) -> Row:
    return {
        "number": one.number,
        "run": one.run,
        "front": one.front,
        "how": one.how,
        "line": one.line,
        "spacer": _length(one.spacer, unit),
        "beside": one.beside,
        "plates": list(one.plates),
        "adjusted": _length(one.taken, unit),
    }


def _stick(stick: StoryStick, unit: Unit) -> Row:
    return {
        "run": stick.run,
        "way": stick.way,
        "lanes": list(stick.lanes),
        "length": _length(stick.length, unit),
        "marks": [{"at": _length(mark.at, unit), "what": mark.what, "lane": mark.lane} for mark in stick.marks],
    }
