"""Pulls by one rule for each kind of front (F28): how far they stand out, and where."""

from __future__ import annotations

from fractions import Fraction

from frontwright.core.assumed import entered, measured
from frontwright.core.figures import Figure, Term, minus, plus, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.result import PullPlan
from frontwright.core.job import PullType
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO
from frontwright.core.making.result import MakingPlan

OPENS = ("door", "glass", "drawer")
NOTHING = Figure("flush pull", ZERO, "chosen")


def pull_of(index: JobIndex, making: MakingPlan, front: FrontPlan) -> PullPlan | None:
    """The pull of a front: its type as the look has it, else the usual figures; None where the front has none."""
    count = front.look.pulls
    if front.front.kind not in OPENS or count < 1:
        return None
    chosen = index.job.pull_types.get(str(index.inherited(front.opening, "pull") or ""))
    row = chosen or PullType("")
    projection = NOTHING if row.kind == "flush" else entered(index.unit, row.projection, "pull projection")
    low, high = _on_flap(row, front, making) if _is_flap(front) else _heights(index, row, front)
    return PullPlan(
        front=front.id,
        type=row.id,
        name=row.name or row.id,
        projection=projection,
        spans=_on_drawer(index, row, front, count) if lies_level(front) else _on_door(row, front, making),
        low=low,
        high=high,
        chosen=chosen is not None,
    )


def off_the_front(pull: PullPlan, front: FrontPlan) -> Figure | None:
    """By how much a pull does not lie on its front; None where it does."""
    ends = [(end, front.width) for span in pull.spans for end in span]
    beyond = [total("pull beyond the edge", plus(end), minus(size)) for end, size in ends]
    beyond += [total("pull beyond the edge", minus(end)) for end, _ in ends]
    beyond.append(total("pull beyond the edge", plus(pull.high), minus(front.top)))
    beyond.append(total("pull beyond the edge", plus(front.bottom), minus(pull.low)))
    worst = max(beyond, key=lambda figure: figure.units)
    return worst if worst.units > 0 else None


def heights_on(pull: PullPlan, front: FrontPlan) -> tuple[Figure, Figure] | None:
    """The heights between which a pull stands on its front; None where its rule puts it beside it altogether."""
    low = max((pull.low, front.bottom), key=lambda figure: figure.units)
    high = min((pull.high, front.top), key=lambda figure: figure.units)
    return (low, high) if low.units <= high.units else None


def lies_level(front: FrontPlan) -> bool:
    """Whether a pull lies along the width: on drawers, and on flaps, which are gripped at their lower edge."""
    return front.front.kind == "drawer" or _is_flap(front)


def _is_flap(front: FrontPlan) -> bool:
    return front.hinge_side == "top" and front.front.kind != "drawer"


def _on_flap(row: PullType, front: FrontPlan, making: MakingPlan) -> tuple[Figure, Figure]:
    """At its distance from the free, lower edge, else in the middle of the bottom rail."""
    edge = measured(row.from_edge, "pull from the free edge")
    up = edge or share("half a rail", making.fronts[front.id].build.bottom_rail, 2)
    at = total(f"height of the pull of {front.id}", plus(front.bottom), plus(up))
    return at, at


def _on_door(row: PullType, front: FrontPlan, making: MakingPlan) -> tuple[tuple[Figure, Figure], ...]:
    """From the hinge edge: at its distance from the free edge, else in the middle of the free stile."""
    edge = measured(row.from_edge, "pull from the free edge")
    away = edge or share("half a stile", making.fronts[front.id].build.stile, 2)
    return (_about(total(f"pull of {front.id} from the hinge edge", plus(front.width), minus(away)), row),)


def _about(middle: Figure, row: PullType) -> tuple[Figure, Figure]:
    wide = measured(row.across, "width of the pull")
    if wide is None:
        return middle, middle
    half = share("half the pull", wide, 2)
    return total(middle.name, plus(middle), minus(half)), total(middle.name, plus(middle), plus(half))


def _on_drawer(index: JobIndex, row: PullType, front: FrontPlan, count: int) -> tuple[tuple[Figure, Figure], ...]:
    """From the left edge: one in the middle, more of them in the middle of equal parts; as wide as hole to hole."""
    wide = entered(index.unit, row.across if row.kind == "knob" else row.holes, "pull holes")
    half = share("half the pull", NOTHING if row.kind == "knob" and row.across is None else wide, 2)
    found = []
    for at in range(count):
        part = Fraction(2 * at + 1, 2 * count)
        terms = Term(front.width, part)
        name = f"pull of {front.id} from its left edge"
        found.append((total(name, terms, minus(half)), total(name, terms, plus(half))))
    return tuple(found)


def _heights(index: JobIndex, row: PullType, front: FrontPlan) -> tuple[Figure, Figure]:
    """Doors: from the near end (above at a base run, below at a wall run); drawers: from the top, else mid height."""
    if front.front.kind == "drawer":
        down = measured(row.from_top, "pull from the top edge")
        half = share("half the height", front.height, 2)
        at = total(f"height of the pull of {front.id}", plus(front.top), minus(down or half))
        return at, at
    end = entered(index.unit, row.from_end, "pull end")
    long = NOTHING if row.kind == "knob" else entered(index.unit, row.holes, "pull holes")
    run = index.job.runs.get(front.run)
    name = f"height of the pull of {front.id}"
    if run is not None and run.stands == "wall":
        low = total(name, plus(front.bottom), plus(end))
        return low, total(name, plus(low), plus(long))
    high = total(name, plus(front.top), minus(end))
    return total(name, plus(high), minus(long)), high
