"""Every boring of a front: cups and their screws from the back, holes of pulls; the two of a pair mirror each other."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.assumed import entered
from frontwright.core.figures import Figure, minus, plus, rounded, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.hinges import hinge_row, step_of
from frontwright.core.hardware.pulls import lies_level
from frontwright.core.hardware.result import BoringPlan, CupPlan, HingePlan, Hole, PullPlan
from frontwright.core.job import PullType
from frontwright.core.job.index import JobIndex


def boring_of(
    index: JobIndex, front: FrontPlan, hinge: HingePlan | None, cup: CupPlan | None, pull: PullPlan | None
) -> BoringPlan | None:
    """All holes of a front, or None where it has none."""
    holes = (*_cups(index, front, hinge, cup), *_pull_holes(index, front, pull))
    if not holes:
        return None
    return BoringPlan(front.id, front.hinge_side or "", holes, pull is not None and pull.chosen)


def _cups(index: JobIndex, front: FrontPlan, hinge: HingePlan | None, cup: CupPlan | None) -> Iterator[Hole]:
    """Bored on the step. A door hung at the top has its cups along its top edge, counted from its left one."""
    if hinge is None or cup is None or front.hinge_side is None:
        return
    row, unit = hinge_row(index, front), index.unit
    half = share("half of it", entered(unit, row.screws_apart, "cup screws apart"), 2)
    behind = total(
        "cup screws from the edge", plus(cup.centre), plus(entered(unit, row.screws_behind, "cup screws behind"))
    )
    hole, deep = (
        entered(unit, row.screw_hole, "cup screw hole"),
        entered(unit, row.screw_hole_deep, "cup screw hole deep"),
    )
    for even in hinge.heights:
        height = rounded(even.name, even, step_of(index), "the step")
        yield _hole(front, "cup", cup.centre, height, cup.diameter, cup.depth)
        for sign in (-1, 1):
            along = total(f"cup screw at {height.name}", plus(height), plus(half, sign))
            yield _hole(front, "cup screw", behind, along, hole, deep)


def _hole(front: FrontPlan, kind: str, from_edge: Figure, along: Figure, wide: Figure, deep: Figure | None) -> Hole:
    """A hole so far from the hinge edge and along it; hung at the top the two change places."""
    name = "cup" if kind == "cup" else "cup screw"
    if front.hinge_side == "top":
        down = total(f"{from_edge.name}, from the bottom", plus(front.height), minus(from_edge))
        return Hole(name, along, down, wide, deep)  # type: ignore[arg-type]  # one of HoleKind
    return Hole(name, from_edge, along, wide, deep)  # type: ignore[arg-type]  # one of HoleKind


def _pull_holes(index: JobIndex, front: FrontPlan, pull: PullPlan | None) -> Iterator[Hole]:
    """Holes right through: upright on a door, level on a drawer; a knob has one, a flush pull none to bore."""
    row = (index.job.pull_types.get(pull.type) if pull is not None else None) or PullType("")
    if pull is None or row.kind == "flush":
        return
    wide = entered(index.unit, row.screw_hole, "pull hole")
    low = total(f"pull of {front.id} from its bottom edge", plus(pull.low), minus(front.bottom))
    high = total(f"pull of {front.id} from its bottom edge", plus(pull.high), minus(front.bottom))
    for near, far in pull.spans:
        middle = share(near.name, total("twice the middle", plus(near), plus(far)), 2)
        if not lies_level(front):
            heights = (low,) if row.kind == "knob" else (low, high)
            yield from (Hole("pull", middle, height, wide, None) for height in heights)
        else:
            across = (middle,) if row.kind == "knob" else (near, far)
            yield from (Hole("pull", one, low, wide, None) for one in across)
