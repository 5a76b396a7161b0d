"""Which drawings of the core a sheet takes, and how a long run is broken to stand as big as it can."""

from __future__ import annotations

from dataclasses import dataclass

from frontwright.core.drawing.door import door
from frontwright.core.drawing.elevation import breaks, elevation, fronts_of, in_two, key_elevation
from frontwright.core.drawing.marks import Drawing
from frontwright.core.lengths import in_units
from frontwright.core.plan import Plan
from frontwright.sheets.picture import Placed
from frontwright.sheets.player import medium, scale_for

type Room = tuple[float, float]  # width and height in millimetres
WALL_FIGURES = (22.0, 20.0, 18.0)
FIRST_ROW = 1.25  # the first row has so much more room: beside the second stand key and proof
SMALLEST = 10_000  # stands for "goes in at no scale of the trade"


@dataclass(frozen=True, slots=True)
class Rows:
    """A run for the wall: one drawing, or two rows broken at a line; `n` of the scale 1:n, None where it is fitted.

    `across`: one drawing over the whole width, with notes and sums under it instead of beside it.
    """

    rows: tuple[Placed, ...]
    n: int | None
    across: bool = False


def run_rows(plan: Plan, run: str, single: Room, across: Room, first: Room, second: Room) -> Rows:
    """The run as big as it goes: whole into `single` or `across`, or broken with its rows in `first` and `second`.

    Figures give way by a few points where the next larger scale is won by it.
    """
    whole = elevation(plan, run, "wall")
    best = Rows((Placed(whole, medium("wall", figure=WALL_FIGURES[0])),), None)
    tries = [((whole,), (single,)), ((whole,), (across,)), *((rows, (first, second)) for rows in _broken(plan, run))]
    for drawings, rooms in tries:
        for size in WALL_FIGURES:
            on = medium("wall", figure=size)
            found = [scale_for(drawing, on, *room) for drawing, room in zip(drawings, rooms, strict=True)]
            n = None if None in found else max(n for n in found if n is not None)
            if n is not None and n < (best.n or SMALLEST):
                best = Rows(tuple(Placed(drawing, on) for drawing in drawings), n, rooms == (across,))
    return best


def _broken(plan: Plan, run: str) -> list[tuple[Drawing, Drawing]]:
    """Every way to break it in two, that first which fills both rows best."""
    found = [rows for at in breaks(plan, run) if all((rows := in_two(plan, run, at))[n].subjects for n in (0, 1))]
    return sorted(found, key=lambda rows: max(_wide(rows[0]) / FIRST_ROW, _wide(rows[1])))


def _wide(drawing: Drawing) -> float:
    return float(in_units(drawing.bounds.right) - in_units(drawing.bounds.left))


def of_front(plan: Plan, front: str, room: Room) -> tuple[Placed, int | None]:
    """Front and back of a front, side by side, for the bench, and n of its scale 1:n; None where it is fitted.

    The two stand closer together where the next larger scale is won by it.
    """
    ways = [Placed(door(plan, front, "bench", close=close), medium("bench")) for close in (False, True)]
    found = [(way, way.scale(*room)) for way in ways]
    return min(found, key=lambda way: way[1] or SMALLEST)


def key_of(plan: Plan, run: str, hatched: tuple[str, ...] = ()) -> Placed | None:
    """A small elevation of a run; None where it has no fronts."""
    if not fronts_of(plan, run):
        return None
    return Placed(key_elevation(plan, run, hatched), medium("bench", id=8))
