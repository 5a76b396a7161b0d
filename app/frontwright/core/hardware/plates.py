"""Plates chosen from those on hand: for each hinge the one that asks least of its adjustment (F26, F74)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from frontwright.core.assumed import measured
from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.hardware.covers import Given
from frontwright.core.hardware.result import HingePlan, PlateUse
from frontwright.core.job import Plate
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units


@dataclass(frozen=True, slots=True)
class _Kind:
    """A plate that can be taken, the cover with it, and how many are on hand (None: not counted)."""

    id: str
    name: str
    height: Figure | None
    gives: Figure
    count: int | None


def with_plates(index: JobIndex, hinges: Mapping[str, HingePlan], given: Mapping[str, Given]) -> dict[str, HingePlan]:
    """The doors with a plate under each hinge; a door takes one kind wherever that kind holds all its hinges within
    half of their adjustment, else each hinge its own best."""
    wishes = {name: _wishes(index, hinge, given[name]) for name, hinge in hinges.items()}
    stock = {row.id: row.count for row in index.job.plates.values() if row.count is not None}
    taken = _shared_out(wishes, stock)
    return {
        name: replace(hinge, plates=taken.get(name, ()), adjust=given[name].adjust) for name, hinge in hinges.items()
    }


def _kinds(index: JobIndex, hinge: HingePlan, given: Given) -> list[_Kind]:
    """Its plates on hand, or the plate that it comes with."""
    rows = [row for row in index.job.plates.values() if row.hinge in (None, hinge.type) and _height(row) is not None]
    if rows and given.without is not None:
        return [_kind(row, given.without) for row in rows]
    return [] if given.cover is None else [_Kind("", "", None, given.cover, None)]


def _kind(row: Plate, without: Figure) -> _Kind:
    height = _height(row) or without
    gives = total(f"cover with the plate {row.name or row.id}", plus(without), minus(height))
    return _Kind(row.id, row.name or row.id, height, gives, row.count)


def _height(row: Plate) -> Figure | None:
    read = measured(row.height, f"height of the plate {row.name or row.id}")
    return None if read is None else Figure(read.name, read.value, "chosen")


def _off(need: Figure, kind: _Kind) -> Fraction:
    return abs(Fraction(in_units(need.value)) - in_units(kind.gives.value))


def _wishes(index: JobIndex, hinge: HingePlan, given: Given) -> list[list[PlateUse]]:
    """By hinge: the kinds that could stand under it, the best first."""
    kinds = _kinds(index, hinge, given)
    if not kinds or not hinge.needs:
        return []
    adjust = Fraction(in_units(given.adjust.value))
    if len(kinds) == 1:
        return [[_use(kinds[0], need)] for need in hinge.needs]
    worst = {kind.id: max(_off(need, kind) for need in hinge.needs) for kind in kinds}
    one_for_all = any(2 * off <= adjust for off in worst.values())
    return [_in_order(kinds, need, adjust, worst if one_for_all else {}) for need in hinge.needs]


def _in_order(kinds: Sequence[_Kind], need: Figure, adjust: Fraction, ranked: Mapping[str, Fraction]) -> list[PlateUse]:
    """The kinds within reach of a hinge, the best first by the door's ranking or its own; the best one if none is."""
    order = sorted(kinds, key=lambda kind: (ranked.get(kind.id, _off(need, kind)), -in_units(kind.gives.value)))
    usable = [kind for kind in order if _off(need, kind) <= adjust] or order[:1]
    return [_use(kind, need) for kind in usable]


def _use(kind: _Kind, need: Figure) -> PlateUse:
    off = total("adjusted by", plus(need), minus(kind.gives))
    return PlateUse(kind.id, kind.name, kind.height, kind.gives, off)


# -- sharing out what is on hand


def _shared_out(
    wishes: Mapping[str, Sequence[Sequence[PlateUse]]], stock: Mapping[str, int]
) -> dict[str, tuple[PlateUse, ...]]:
    """Every hinge gets its best plate that is left; one that would get none moves another one to a further plate of
    its own list. A hinge for which no plate is left keeps its best, marked as lacking."""
    places = [(name, at) for name, door in wishes.items() for at in range(len(door))]
    holds: dict[tuple[str, int], int] = {}
    used: dict[str, list[tuple[str, int]]] = {}
    for place in places:
        _place(place, wishes, stock, holds, used, set())
    found: dict[str, tuple[PlateUse, ...]] = {}
    for name, door in wishes.items():
        chosen = [
            door[at][holds[name, at]] if (name, at) in holds else replace(door[at][0], lacking=True)
            for at in range(len(door))
        ]
        found[name] = tuple(chosen)
    return found


def _place(
    place: tuple[str, int],
    wishes: Mapping[str, Sequence[Sequence[PlateUse]]],
    stock: Mapping[str, int],
    holds: dict[tuple[str, int], int],
    used: dict[str, list[tuple[str, int]]],
    tried: set[str],
) -> bool:
    """Whether a hinge found a plate, moving others to further plates of their own lists where it must."""
    name, at = place
    for choice, use in enumerate(wishes[name][at]):
        if use.id in tried:
            continue
        mine = used.setdefault(use.id, [])
        tried.add(use.id)
        free = use.id not in stock or len(mine) < stock[use.id]
        moved = (
            None if free else next((one for one in list(mine) if _place(one, wishes, stock, holds, used, tried)), None)
        )
        if free or moved is not None:
            if moved is not None:
                mine.remove(moved)
            mine.append(place)
            holds[place] = choice
            return True
    return False
