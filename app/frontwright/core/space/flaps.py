"""How far a flap opens that is hung at its top edge, against what stands above the run (F23, seen from the side)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import hypot

from frontwright.core.assumed import measured
from frontwright.core.figures import Figure, Term, minus, number, plus, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.result import PullPlan
from frontwright.core.job import Obstacle
from frontwright.core.lengths import in_units
from frontwright.core.space.bodies import FAR, Scene
from frontwright.core.space.result import Flap
from frontwright.core.space.swings import FREE
from frontwright.core.space.turning import HALF_TURN, Edge, Spot, first_touch, hundredth, plain

_HOW = "arccos(−g/√(a² + P²)) − arctan(P/a), top edge of the face as pivot"


@dataclass(frozen=True, slots=True)
class _Stop:
    angle: Fraction
    row: Obstacle | None
    gap: Figure | None
    with_pull: bool


def flap_of(scene: Scene, front: FrontPlan) -> Flap | None:
    """A door hung at the top; None for anything else. What stands above counts as far as it reaches over it."""
    if front.hinge_side != "top" or front.front.kind not in ("door", "glass"):
        return None
    pull = scene.pulls.get(front.id)
    stop = min(_stops(scene, front, pull), key=lambda one: one.angle, default=None)
    return Flap(
        front=front.id,
        height=front.height,
        angle=_angle(front, stop, pull),
        stopped_by=stop.row.id if stop is not None and stop.row is not None else "",
        name="" if stop is None else "hinge" if stop.row is None else stop.row.name or stop.row.kind,
        with_pull=stop is not None and stop.with_pull,
        read=stop is None or not stop.with_pull or pull is None or pull.chosen,
        need=number(f"{front.id} must open to", FREE, "assumed", "a right angle at least"),
    )


def _angle(front: FrontPlan, stop: _Stop | None, pull: PullPlan | None) -> Figure | None:
    if stop is None:
        return None
    if stop.gap is None:
        return number(f"{front.id} opens to", stop.angle, "derived", "as far as its hinge goes")
    terms = [Term(stop.gap, 0), Term(front.height, 0)]
    if stop.with_pull and pull is not None:
        terms.append(Term(pull.projection, 0))
    return number(f"{front.id} opens to", stop.angle, "derived", _HOW, *terms)


def _stops(scene: Scene, front: FrontPlan, pull: PullPlan | None) -> Iterator[_Stop]:
    hinge = scene.index.job.hinge_types.get(front.look.hinge or "")
    if hinge is not None and hinge.opens is not None and hinge.opens.value is not None:
        yield _Stop(hinge.opens.value, None, None, with_pull=False)
    run = scene.run(front.run)
    if run is None or run.height is None or not front.placed:
        return
    for row in scene.index.job.obstacles.values():
        away = measured(row.away, f"{row.name or row.kind} above {run.id}")
        if (row.run, row.side) != (run.id, "above") or away is None or row.moves or not _over(front, row):
            continue
        gap = total(f"from {front.id} up to {row.name or row.kind}", plus(run.height), plus(away), minus(front.top))
        yield from _met(scene, front, pull, row, gap)


def _over(front: FrontPlan, row: Obstacle) -> bool:
    """Whether an obstacle stands over some of the flap's width."""
    begins, ends = measured(row.begins, "begins"), measured(row.ends, "ends")
    after = begins is None or in_units(begins.value) < in_units(front.right.value)
    return after and (ends is None or in_units(ends.value) > in_units(front.left.value))


def _met(scene: Scene, front: FrontPlan, pull: PullPlan | None, row: Obstacle, gap: Figure) -> Iterator[_Stop]:
    """Leaf and pull against it: the flap lies down from its pivot, out of the frame is out of the frame."""
    out = measured(row.out, "stands out by")
    face = plain(scene.face(front).value)
    reach = plain(FAR) if out is None else plain(out.value) - face
    near, far = -plain(gap.value), -plain(FAR)
    spots: list[Spot] = [(near, far), (far, far), (far, reach), (near, reach)]
    leaf: list[Edge] = [((0.0, 0.0), (plain(front.height.value), 0.0))]
    for edges, with_pull in ((leaf, False), (_grip(front, pull), True)):
        most = max((hypot(x, y) for edge in edges for x, y in edge), default=0.0)
        if most > -near and (angle := first_touch(edges, spots)) < HALF_TURN:
            yield _Stop(hundredth(angle), row, gap, with_pull=with_pull)


def _grip(front: FrontPlan, pull: PullPlan | None) -> list[Edge]:
    """The pull, from the side: as it stands out of the leaf, between its heights."""
    if pull is None or not in_units(pull.projection.value):
        return []
    top, out = plain(front.top.value), plain(pull.projection.value)
    near, far = top - plain(pull.high.value), top - plain(pull.low.value)
    sides: list[Edge] = [((near, 0.0), (near, out)), ((far, 0.0), (far, out))]
    return [*sides, ((near, out), (far, out))] if far > near else sides[:1]
