"""In which order fronts go up: doors first, the longest line before all others, then drawers, then fixed fronts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.hardware.result import HardwarePlan
from frontwright.core.job.index import natural
from frontwright.core.lengths import in_units
from frontwright.core.site.result import Hang, HangHow, LevelLine

_TURN: dict[str, int] = {"door": 0, "glass": 0, "appliance": 0, "drawer": 1, "fixed": 2}
_BELOW_FIRST = ("bottom", "left", "right", "top")


def hanging(fronts: FrontsPlan, hardware: HardwarePlan, lines: Sequence[LevelLine]) -> tuple[Hang, ...]:
    """Every front in its turn, run by run, counted through within its run."""
    runs = list(dict.fromkeys(front.run for front in fronts.fronts.values()))
    found: list[Hang] = []
    for run in runs:
        mine = [f for f in fronts.fronts.values() if f.run == run and f.front.kind in _TURN]
        own = [line for line in lines if line.run == run]
        ordered = sorted(mine, key=lambda front: _turn(front, own))
        found += [replace(one, number=at) for at, one in enumerate(_hung(ordered, own, fronts, hardware), 1)]
    return tuple(found)


def _line_of(front: FrontPlan, lines: Sequence[LevelLine]) -> int:
    return next((line.number for line in lines if front.id in line.fronts), 0)


def _turn(front: FrontPlan, lines: Sequence[LevelLine]) -> tuple[object, ...]:
    """Doors by their line, drawers from below, fixed fronts last; in a line from the left."""
    turn = _TURN[front.front.kind]
    height = Fraction(_line_of(front, lines)) if turn == 0 else Fraction(in_units(front.bottom.value))
    return turn, height, Fraction(in_units(front.left.value)), natural(front.id)


def _hung(
    ordered: Sequence[FrontPlan], lines: Sequence[LevelLine], fronts: FrontsPlan, hardware: HardwarePlan
) -> Iterator[Hang]:
    """Each front with what it is set to: a line, or the gap to one that hangs already."""
    up: set[str] = set()
    for front in ordered:
        line = _line_of(front, lines)
        beside = next((o for side in _BELOW_FIRST if (o := front.neighbours.get(side, "")) in up), "")
        spacer = _gap(front, fronts.fronts[beside]) if beside else None
        yield Hang(
            number=0,
            run=front.run,
            front=front.id,
            how=_how(front, line, beside),
            line=line,
            spacer=spacer,
            beside=beside,
            plates=_plates(hardware, front.id),
            taken=_taken(hardware, front.id),
        )
        up.add(front.id)


def _how(front: FrontPlan, line: int, beside: str) -> HangHow:
    if front.front.kind == "fixed":
        return "fixed"
    if front.front.kind == "drawer":
        return "by spacers"
    if line:
        return "on the line"
    return "from the gap" if beside else "in its opening"


def _gap(front: FrontPlan, other: FrontPlan) -> Figure:
    """The gap to a front that hangs already, by the side at which it stands."""
    side = next(side for side, one in front.neighbours.items() if one == other.id)
    low, high = {
        "bottom": (other.top, front.bottom),
        "left": (other.right, front.left),
        "right": (front.right, other.left),
        "top": (front.top, other.bottom),
    }[side]
    return total(f"gap between {front.id} and {other.id}", plus(high), minus(low))


def _plates(hardware: HardwarePlan, front: str) -> tuple[str, ...]:
    """The plates of its hinges from the bottom, told only where they are not all of one kind."""
    hinge = hardware.hinges.get(front)
    return tuple(use.name or use.id for use in hinge.plates) if hinge is not None and hinge.mixed else ()


def _taken(hardware: HardwarePlan, front: str) -> Figure | None:
    """The most that one of its hinges is adjusted sideways from the start (F74); None where nothing is known."""
    hinge = hardware.hinges.get(front)
    uses = hinge.plates if hinge is not None else ()
    return max((use.off for use in uses), key=lambda off: abs(Fraction(in_units(off.value))), default=None)
