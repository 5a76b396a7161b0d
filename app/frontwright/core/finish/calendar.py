"""Loads of the rack, and on which day each of them is coated (F71)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from frontwright.core.finish.result import Load, Visit

DAY = 24


def loads_of(
    together: Iterable[tuple[str, ...]], strips: Sequence[str], places: int, strips_a_place: int
) -> list[Load]:
    """Fronts shared out over loads, a place each; what belongs together is not parted where one load holds it.

    `together`: fronts in their order, those of a pair or row of one grain in one tuple. Strips come last, so many to a
    place. `places` and `strips_a_place` are one at least.
    """
    loads: list[list[tuple[str, ...]]] = [[]]
    for group in together:
        if loads[-1] and len(loads[-1]) + len(group) > places and len(group) <= places:
            loads.append([])
        for one in group:
            if len(loads[-1]) >= places:
                loads.append([])
            loads[-1].append((one,))
    for at in range(0, len(strips), strips_a_place):
        if len(loads[-1]) >= places:
            loads.append([])
        loads[-1].append(tuple(strips[at : at + strips_a_place]))
    return [Load(number, tuple(load)) for number, load in enumerate(loads, 1) if load]


@dataclass(frozen=True, slots=True)
class Rack:
    """When the rack is coated, all in hours: `turn` until the other side can be coated (0: both at once), the `window`
    of a day in which a coat is begun, the most between two coats, and when it is `free` for the first."""

    turn: Fraction
    window: Fraction
    recoat_most: Fraction
    free: Fraction = Fraction(0)


def visits_of(work: Sequence[Fraction], dry: Sequence[Fraction], rack: Rack) -> list[Visit]:
    """Every coat of every load with the time it begins: one load after the other, since one fills the rack.

    `work`: hours to coat a load, by load; `dry`: hours by step.
    """
    found: list[Visit] = []
    free = rack.free
    for load, each in enumerate(work, 1):
        last: Fraction | None = None
        for step, hours in enumerate(dry):
            begins = _next_start(free, rack.window)
            late = last is not None and begins - last > rack.recoat_most
            free = begins + each + rack.turn + hours
            last = begins
            found.append(Visit(load, step, begins, free, int(begins // DAY) + 1, late))
    return found


def _next_start(free: Fraction, window: Fraction) -> Fraction:
    """The first moment from `free` on that lies in the hours of a day in which a coat is begun."""
    into_the_day = free % DAY
    return free if into_the_day <= window else free - into_the_day + DAY


def waiting_of(loads: int, dry: Iterable[Fraction], turn: Fraction) -> Fraction:
    """F71: hours in which the rack is taken: loads × steps × (turn and dry)."""
    return loads * sum((turn + hours for hours in dry), Fraction(0))
