"""Area, amount, loads and calendar of every recipe of the job (F70, F71)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from frontwright.core.assumed import assumed, entered_number
from frontwright.core.facing.result import FacingPlan
from frontwright.core.figures import Figure, plus, total
from frontwright.core.finish.calendar import Rack, loads_of, visits_of, waiting_of
from frontwright.core.finish.result import Area, FinishBatch, FinishPlan, Load, Step, Usual
from frontwright.core.finish.usual import usual_finish
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.job import Amount, Finish, FinishRoom
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import UNITS_IN, Length, Unit, in_units
from frontwright.core.making.result import MakingPlan

VOLUME: dict[Unit, str] = {"in": "gallons", "mm": "litres"}
_LEAST_COVER = Fraction(1, 100)


def finish(index: JobIndex, fronts: FrontsPlan, making: MakingPlan, facing: FacingPlan) -> FinishPlan:
    """The finish of a job: one batch a recipe, in the order of its fronts, one after the other on the rack."""
    row = index.job.finish_rooms.get("finish room") or FinishRoom()
    unit = index.unit
    hours = entered_number(row.coat_hours, usual_finish(unit, "coat_hours"), "first to last coat of a day, h")
    places, strips = _count(unit, row.places, "places"), _count(unit, row.strips_a_place, "strips_a_place")
    plan = FinishPlan((), places, strips, hours, row.start.strip())
    free = Fraction(0)
    for recipe, going in _by_recipe(index, fronts, making, facing).items():
        batch = _batch(index, plan, recipe, going, free)
        plan = replace(plan, batches=(*plan.batches, batch))
        free = max((visit.ends for visit in batch.visits), default=free)
    return plan


@dataclass(slots=True)
class _Going:
    """What one recipe goes on: areas in their order, fronts of a pair or row together, strips."""

    areas: list[Area] = field(default_factory=list)
    together: dict[str, tuple[str, ...]] = field(default_factory=dict)
    strips: list[str] = field(default_factory=list)
    inset: bool = False


def _by_recipe(index: JobIndex, fronts: FrontsPlan, making: MakingPlan, facing: FacingPlan) -> dict[str, _Going]:
    found: dict[str, _Going] = {}
    for front in fronts.fronts.values():
        if front.id in making.fronts and front.front.kind != "open":
            going = found.setdefault(_recipe_of(index, front.look.finish), _Going())
            going.areas.append(Area(front.id, front_area(index.unit, front, making)))
            going.inset = going.inset or front.look.scheme == "inset"
            row = fronts.row_of.get(front.id)
            group = f"row {row.row.id}" if row is not None else front.opening
            going.together[group] = (*going.together.get(group, ()), front.id)
    for strip in facing.pieces:
        going = found.setdefault(_recipe_of(index, _look_of_run(fronts, strip.run)), _Going())
        going.areas.append(Area(strip.id, _square(index.unit, strip.width.length, strip.length.length)))
        going.strips.append(strip.id)
    return found


def front_area(unit: Unit, front: FrontPlan, making: MakingPlan) -> Fraction:
    """F70: both faces and the edges of a front, in square feet or m2."""
    width, height = front.width.length, front.height.length
    thick = making.fronts[front.id].build.thickness.length
    return 2 * _square(unit, width, height) + 2 * _square(unit, width + height, thick)


def _square(unit: Unit, one: Length, other: Length) -> Fraction:
    side = UNITS_IN[unit] * (12 if unit == "in" else 1000)
    return Fraction(in_units(one) * in_units(other), side * side)


def _recipe_of(index: JobIndex, chosen: str | None) -> str:
    """The recipe that the look names; the only one of the job where it names none, else one that nobody wrote down."""
    known = index.job.finishes
    if chosen in known:
        return str(chosen)
    return next(iter(known)) if len(known) == 1 else ""


def _look_of_run(fronts: FrontsPlan, run: str) -> str | None:
    """The finish that the fronts of a run have: its strips have the same."""
    return next((front.look.finish for front in fronts.fronts.values() if front.run == run), None)


def _count(unit: Unit, told: int | None, key: str) -> Figure:
    usual = usual_finish(unit, key)
    if told is None or told < 1:
        return usual
    return Figure(usual.name, Fraction(told), "chosen", measure="number")


def _usual(unit: Unit, row: Finish) -> Usual:
    def told(key: str) -> Figure:
        usual = usual_finish(unit, key)
        given: Amount | None = getattr(row, key)
        found = entered_number(given, usual, usual.name)
        return usual if found.units < 0 or (key == "cover" and found.units < _LEAST_COVER) else found

    return Usual(
        coats=_count(unit, row.coats, "coats"),
        cover=told("cover"),
        extra=told("extra"),
        turn_hours=told("turn_hours"),
        side_minutes=told("side_minutes"),
        dry_hours=told("dry_hours"),
        recoat_most=told("recoat_most"),
        hang_days=told("hang_days"),
        bumper_days=told("bumper_days"),
    )


def _steps(unit: Unit, row: Finish, figures: Usual, area: Fraction) -> Iterator[Step]:
    """Stain and sealer where the recipe names them, then its coats."""
    more = 1 + Fraction(figures.extra.units) / 100
    for what in ("stain", "sealer"):
        if name := getattr(row, what):
            dry = entered_number(getattr(row, f"{what}_hours"), usual_finish(unit, f"{what}_hours"), f"{what} dries, h")
            cover = entered_number(getattr(row, f"{what}_cover"), figures.cover, f"{what} covers")
            cover = cover if cover.units >= _LEAST_COVER else figures.cover
            yield Step("stain" if what == "stain" else "sealer", name, cover, dry, area / Fraction(cover.units) * more)
    for at in range(int(figures.coats.units)):
        volume = area / Fraction(figures.cover.units) * more
        yield Step("coat", f"coat {at + 1}", figures.cover, figures.dry_hours, volume)


def _batch(index: JobIndex, plan: FinishPlan, recipe: str, going: _Going, free: Fraction) -> FinishBatch:
    row = index.job.finishes.get(recipe) or Finish("")
    figures = _usual(index.unit, row)
    area = sum((one.area for one in going.areas), Fraction(0))
    steps = tuple(_steps(index.unit, row, figures, area))
    places, a_place = int(plan.places.units), int(plan.strips_a_place.units)
    loads = loads_of(going.together.values(), going.strips, places, a_place)
    turn = Fraction(0) if row.both_sides is not False else Fraction(figures.turn_hours.units)
    minutes = [_sides(load, going) * Fraction(figures.side_minutes.units) for load in loads]
    dry = [Fraction(step.dry.units) for step in steps]
    rack = Rack(turn, Fraction(plan.coat_hours.units), Fraction(figures.recoat_most.units), free)
    visits = visits_of([m / 60 for m in minutes], dry, rack)
    last = max((visit.day for visit in visits), default=0)
    return FinishBatch(
        row=row,
        known=bool(recipe),
        figures=figures,
        areas=tuple(going.areas),
        area=area,
        steps=steps,
        volume=sum((step.volume for step in steps if step.what == "coat"), Fraction(0)),
        loads=tuple(loads),
        visits=tuple(visits),
        waiting=waiting_of(len(loads), dry, turn),
        work=sum(minutes, Fraction(0)) * len(steps),
        last_day=last,
        hang_day=last + _days(figures.hang_days),
        bumper_day=last + _days(figures.bumper_days),
        film=_film(index.unit, figures) if going.inset else None,
    )


def _film(unit: Unit, figures: Usual) -> Figure:
    """What the coats of two edges take off a gap: some 0.3 mm of three coats."""
    return total("off an inset gap", plus(assumed(unit, "finish film"), 2 * int(figures.coats.units)))


def _sides(load: Load, going: _Going) -> int:
    """Sides to be coated: both of a front, the show face of a strip."""
    flat = set(going.strips)
    return sum(1 if one in flat else 2 for one in load.of)


def _days(figure: Figure) -> int:
    """Whole days, a part of one counted whole."""
    return -(-Fraction(figure.units).numerator // Fraction(figure.units).denominator)
