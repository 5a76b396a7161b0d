"""Closure of a run (F5) and the slip that would explain an error (F6)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.job import Column, Member, Opening, Reading, Run
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, Unit, in_units, root_of
from frontwright.core.survey.openings import reading_error_of
from frontwright.core.survey.positions import Item
from frontwright.core.survey.readings import taped
from frontwright.core.survey.result import Closure, Suspect

_ROUND_STEPS: dict[Unit, tuple[Length, ...]] = {
    "in": (Length.inch("1/2"), Length.inch(1), Length.inch(2), Length.inch(10), Length.inch(12)),
    "mm": (Length.mm(10), Length.mm(100), Length.mm(1000)),
}
Thing = Member | Column


def closures_of(
    index: JobIndex, run: Run, order: list[Thing], openings: Mapping[str, list[Opening]]
) -> tuple[Closure, ...]:
    """One closure for each height at which the run was read in one stretch and every thing on it singly."""
    found = (_closure(index, run, order, openings, at) for at in index.heights.get((run.id, "overall"), []))
    return tuple(closure for closure in found if closure is not None)


def _closure(
    index: JobIndex, run: Run, order: list[Thing], openings: Mapping[str, list[Opening]], at: str
) -> Closure | None:
    overall = taped(index, run.id, "overall", at)
    singles = [_single(index, thing, openings, at) for thing in order]
    read = [reading for reading in singles if reading is not None]
    if overall is None or not order or len(read) < len(singles):
        return None
    sizes = [_figure(reading) for reading in read]
    summed = total(f"sum of the members of {run.id}", *(plus(s) for s in sizes))
    error = total("error of closure", plus(overall), minus(summed))
    count = len(sizes) + 1
    limit = closure_limit(index, count)
    suspects: tuple[Suspect, ...] = ()
    if abs(error.length.units) > limit:
        taken = index.readings[run.id, "overall", at]
        suspects = tuple(_suspects(index, [*read, taken], taken, error.length, limit, openings))
    return Closure(run.id, at or None, summed, overall, error, limit, count, suspects)


def column_closure(
    index: JobIndex, run: Run, column: Column, items: Sequence[Item], height: Figure | None
) -> Closure | None:
    """F5 upward: rails and openings of a column against the run's height; None unless all of them were read."""
    sizes = [_size(item) for item in items]
    read = [size for size in sizes if size is not None]
    if height is None or len(read) < len(sizes):
        return None
    summed = total(f"sum of rails and openings of {column.id}", *(plus(s) for s in read))
    error = total("error of closure", plus(height), minus(summed))
    count = len(read) + 1
    return Closure(run.id, column.id, summed, height, error, closure_limit(index, count), count)


def _size(item: Item) -> Figure | None:
    if item.size is None and item.start is not None and item.end is not None:
        return total(f"across {item.id}", plus(item.end), minus(item.start))
    return item.size


def closure_limit(index: JobIndex, readings: int) -> Fraction:
    """F5: the reading error times the root of the number of readings, in units."""
    return in_units(reading_error_of(index).value) * root_of(Fraction(readings))


def _figure(reading: Reading) -> Figure:
    value = reading.value.value if reading.value else None
    return Figure(f"{reading.what} of {reading.of}", value or Length(0), "taped")


def _single(index: JobIndex, thing: Thing, openings: Mapping[str, list[Opening]], at: str) -> Reading | None:
    """The single reading of a thing at this height, else at any; of a column also its opening's own middle width."""
    heights = [at, *index.heights.get((thing.id, "across"), [])]
    for height in heights:
        if (reading := index.readings.get((thing.id, "across", height))) is not None:
            return reading
    own = openings.get(thing.id, []) if isinstance(thing, Column) else []
    return next((r for o in own if (r := index.readings.get((o.id, "width", "middle"))) is not None), None)


def _suspects(
    index: JobIndex,
    readings: list[Reading],
    overall: Reading,
    error: Length,
    limit: Fraction,
    openings: Mapping[str, list[Opening]],
) -> Iterable[Suspect]:
    """F6: readings that alone would bring the error within the limit, with evidence for each."""
    for reading in readings:
        value = reading.value.value if reading.value else None
        if value is None:
            continue
        wanted = -error if reading is overall else error
        meant = value + wanted
        swap = next((s for s in swapped(value, index.unit) if abs((s - meant).units) <= limit), None)
        if swap is not None:
            yield Suspect(reading, "digits swapped", swap)
        elif (step := _round_step(wanted, limit, index.unit)) is not None and _confirmed(
            index, reading, value + step, limit, openings
        ):
            yield Suspect(reading, "round step", value + step)


def _round_step(error: Length, limit: Fraction, unit: Unit) -> Length | None:
    """The round figure that the error is, with its sign: an inch, half an inch, ten or a hundred millimetres."""
    sign = 1 if error.units > 0 else -1
    steps = (step * sign for step in _ROUND_STEPS[unit])
    return next((step for step in steps if abs((error - step).units) <= limit), None)


def _confirmed(
    index: JobIndex, reading: Reading, meant: Length, limit: Fraction, openings: Mapping[str, list[Opening]]
) -> bool:
    """Whether a second reading of the same thing says what this one was meant to be."""
    others = [index.readings.get((o.id, "width", at)) for o in openings.get(reading.of, []) for at in _ACROSS]
    values = [other.value.value for other in others if other and other is not reading and other.value]
    return any(v is not None and abs((v - meant).units) <= 2 * limit for v in values)


_ACROSS = ("top", "middle", "bottom")


def swapped(value: Length, unit: Unit) -> Iterable[Length]:
    """The figures got by swapping two neighbouring digits of the whole number (361 for 316: off by 45, a nine)."""
    one = Length.inch(1) if unit == "in" else Length.mm(1)
    whole = value.units // one.units
    rest = value - one * whole
    digits = str(whole)
    for at in range(len(digits) - 1):
        if digits[at] != digits[at + 1]:
            turned = digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :]
            yield one * int(turned) + rest
