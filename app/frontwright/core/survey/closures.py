"""Closure of a run (F5) and the slip that would explain an error (F6)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from functools import cache

from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.job import Column, Member, Opening, Reading, Run
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Length, Unit, half_up, in_units, root_of
from frontwright.core.survey.openings import reading_error_of
from frontwright.core.survey.positions import Item
from frontwright.core.survey.readings import every, taped
from frontwright.core.survey.result import Closure, Suspect

_ROUND_STEP: dict[Unit, Length] = {"in": Length.inch("1/2"), "mm": Length.mm(10)}
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
    like: tuple[str, ...] = ()
    if abs(error.length.units) > limit:
        taken = index.readings[run.id, "overall", at]
        again = _seconds(index, order, openings)
        suspects = tuple(_suspects(index, [*read, taken], taken, error.length, limit, again))
        size = abs(error.length.units)
        as_wide = [r.of for r, s in zip(read, sizes, strict=True) if abs(s.length.units - size) <= limit]
        like = tuple(of for of in as_wide if of in index.job.members)
    return Closure(run.id, at or None, summed, overall, error, limit, count, suspects, like)


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
    return in_units(reading_error_of(index).value) * _root(readings)


@cache
def _root(readings: int) -> Fraction:
    return root_of(Fraction(readings))


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
    again: Mapping[str, list[Length]],
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
            continue
        step = _round_step(wanted, limit, index.unit)
        if step is not None and any(abs((v - value - step).units) <= 2 * limit for v in again.get(reading.of, [])):
            yield Suspect(reading, "round step", value + step)


def _round_step(error: Length, limit: Fraction, unit: Unit) -> Length | None:
    """The round figure that the error is, with its sign: so many half inches, or ten or hundreds of millimetres."""
    step = half_up(error, _ROUND_STEP[unit])
    return step if step and abs((error - step).units) <= limit else None


def _seconds(index: JobIndex, order: list[Thing], openings: Mapping[str, list[Opening]]) -> dict[str, list[Length]]:
    """What else was read of each upright thing: its width at every height, that of its openings, and by running tape.

    A column's opening is found by its own id too: its width may be the column's single reading.
    """
    found: dict[str, list[Length]] = {}
    tape = [_edge(index, order, at) for at in range(len(order) + 1)]
    for at, thing in enumerate(order):
        own = openings.get(thing.id, []) if isinstance(thing, Column) else []
        read = [*every(index, thing.id, "across"), *(w for o in own for w in every(index, o.id, "width"))]
        near, far = tape[at], tape[at + 1]
        by_tape = [far - near] if near is not None and far is not None else []
        sizes = [*(figure.length for figure in read), *by_tape]
        found |= dict.fromkeys((thing.id, *(o.id for o in own)), sizes)
    return found


def _edge(index: JobIndex, order: list[Thing], at: int) -> Length | None:
    """The edge between two upright things by the running tape, from whichever side it was read."""
    before = every(index, order[at - 1].id, "edge right") if at > 0 else []
    after = every(index, order[at].id, "edge left") if at < len(order) else []
    return next((figure.length for figure in (*before, *after)), None)


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
