"""How far each door opens (F23), what stops it, and what it must open to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import hypot

from frontwright.core.assumed import entered, measured
from frontwright.core.figures import Figure, Term, minus, number, plus, share, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.pulls import heights_on
from frontwright.core.hardware.result import PullPlan
from frontwright.core.job import Inside
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Exact, in_units, root
from frontwright.core.returns import covered_opening, moved_in
from frontwright.core.space.bodies import NOUGHT, Scene
from frontwright.core.space.result import Hung, Still, StillKind, Swing, TurningRoom
from frontwright.core.space.turning import (
    HALF_TURN,
    Edge,
    Spot,
    against_wall,
    clear_of_drawer,
    first_touch,
    hundredth,
    plain,
)

FREE = 90  # a door opens to a right angle at least
_F23 = "arccos(−g/√(a² + P²)) − arctan(P/a), hinge edge of the face as pivot"


@dataclass(frozen=True, slots=True)
class _Stop:
    """What a door meets first."""

    angle: Fraction
    still: Still | None
    with_pull: bool


def swing_of(scene: Scene, front: FrontPlan, stills: Sequence[Still]) -> Swing | None:
    """A door hung at a side; None for anything else."""
    if front.front.kind not in ("door", "glass") or front.hinge_side not in ("left", "right"):
        return None
    side: Hung = "left" if front.hinge_side == "left" else "right"
    edge = front.left if side == "left" else front.right
    pull = scene.pulls.get(front.id)
    stop = _first(scene, front, pull, stills, _hinge_angle(scene.index, front))
    need, drawer = _need(scene, front)
    together, beside = _together(scene, front, side, pull)
    return Swing(
        front=front.id,
        side=side,
        pivot=(edge.value, scene.face(front).value),
        width=front.width,
        thickness=scene.thickness(front),
        pull=pull,
        angle=_angle_figure(front, stop, pull, edge),
        stopped_by=stop.still.of if stop is not None and stop.still is not None else "",
        by=_kind(stop),
        name=stop.still.name if stop is not None and stop.still is not None else "",
        with_pull=stop is not None and stop.with_pull,
        read=_read(stop, pull),
        need=need,
        drawer=drawer,
        together=together,
        beside=beside,
    )


def _kind(stop: _Stop | None) -> StillKind:
    if stop is None:
        return "nothing"
    return stop.still.kind if stop.still is not None else "hinge"


def _read(stop: _Stop | None, pull: PullPlan | None) -> bool:
    """Whether it may be said as a finding: a wall that nobody measured and a pull that nobody chose say nothing
    together."""
    if stop is None or stop.still is None:
        return True
    guessed = stop.with_pull and pull is not None and not pull.chosen
    return stop.still.read or not guessed


def _hinge_angle(index: JobIndex, front: FrontPlan) -> Fraction | None:
    row = index.job.hinge_types.get(front.look.hinge or "")
    return row.opens.value if row is not None and row.opens is not None else None


def _angle_figure(front: FrontPlan, stop: _Stop | None, pull: PullPlan | None, edge: Figure) -> Figure | None:
    name = f"{front.id} opens to"
    if stop is None:
        return None
    if stop.still is None:
        return number(name, stop.angle, "derived", "as far as its hinge goes")
    terms = [Term(stop.still.distance, 0)] if stop.still.distance is not None else []
    terms.append(Term(edge, 0))
    if stop.with_pull and pull is not None:
        terms += [Term(pull.spans[0][1], 0), Term(pull.projection, 0)]
    else:
        terms.append(Term(front.width, 0))
    return number(name, stop.angle, "derived", _F23, *terms)


# -- what is met first


def _first(
    scene: Scene, front: FrontPlan, pull: PullPlan | None, stills: Sequence[Still], hinge: Fraction | None
) -> _Stop | None:
    found = [] if hinge is None else [_Stop(hinge, None, with_pull=False)]
    if front.placed:
        found += _met(scene, front, pull, stills)
    return min(found, key=lambda stop: stop.angle, default=None)


def _met(scene: Scene, front: FrontPlan, pull: PullPlan | None, stills: Sequence[Still]) -> Iterator[_Stop]:
    """Everything that stops the leaf or its pull, each at its angle."""
    leaf: list[Edge] = [((0.0, 0.0), (plain(front.width.value), 0.0))]
    own = heights_on(pull, front) if pull is not None else None
    grips = _grips(pull) if own is not None else []
    reach = max([plain(front.width.value), *(hypot(x, y) for edge in grips for x, y in edge)])
    hinge = _hinge(scene, front)
    for still in stills:
        if still.of == front.id or still.moves:
            continue
        leaf_too = _level(front.bottom.value, front.top.value, still)
        pull_too = bool(grips) and own is not None and _level(own[0].value, own[1].value, still)
        if not (leaf_too or pull_too) or not _within(spots := _seen_from_hinge(hinge, still), reach):
            continue
        if leaf_too:
            yield from _stop(leaf, spots, still, with_pull=False)
        if pull_too:
            yield from _stop(grips, spots, still, with_pull=True)


def _stop(edges: Sequence[Edge], spots: Sequence[Spot], still: Still, *, with_pull: bool) -> Iterator[_Stop]:
    angle = first_touch(edges, spots)
    if angle < HALF_TURN:
        yield _Stop(hundredth(angle), still, with_pull)


def _grips(pull: PullPlan | None) -> list[Edge]:
    """The pull as it turns with the door: its two sides and its front; a narrow one is a single line."""
    if pull is None or not in_units(pull.projection.value):
        return []
    out = plain(pull.projection.value)
    found: list[Edge] = []
    for near, far in pull.spans:
        a, b = plain(near.value), plain(far.value)
        found += [((a, 0.0), (a, out)), ((b, 0.0), (b, out)), ((a, out), (b, out))] if b > a else [((a, 0.0), (a, out))]
    return found


def _hinge(scene: Scene, front: FrontPlan) -> tuple[float, float, int]:
    """The hinge edge of the face, and the way in which the door lies from it."""
    left = front.hinge_side == "left"
    return plain((front.left if left else front.right).value), plain(scene.face(front).value), 1 if left else -1


def _seen_from_hinge(hinge: tuple[float, float, int], still: Still) -> list[Spot]:
    """Corners of a still thing from the hinge edge, the door lying to the right of it, shut."""
    x0, y0, way = hinge
    return [((plain(x) - x0) * way, plain(y) - y0) for x, y in still.corners]


def _within(spots: Sequence[Spot], reach: float) -> bool:
    """Whether a thing can be met at all: before the face, and as near as the door reaches."""
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    if max(ys) <= 1e-9 or max(xs) < -reach or min(xs) > reach or min(ys) > reach:
        return False
    x, y = max(min(xs), -max(xs), 0.0), max(min(ys), 0.0)
    return x * x + y * y <= reach * reach


def _level(low: Exact, high: Exact, still: Still) -> bool:
    """Whether something between two heights and a still thing stand at one height somewhere."""
    above = still.low is None or in_units(high) > in_units(still.low)
    return above and (still.high is None or in_units(low) < in_units(still.high))


# -- what it must open to


def _need(scene: Scene, front: FrontPlan) -> tuple[Figure, str]:
    """A right angle; further where a drawer behind it must pass."""
    needs = [(number(f"{front.id} must open to", FREE, "assumed", "a right angle at least"), "")]
    for row in scene.index.job.insides.values():
        if row.opening == front.opening and row.kind == "inner drawer":
            needs.append((_passing(scene, front, row), row.id))
    return max(needs, key=lambda need: need[0].units)


def _passing(scene: Scene, front: FrontPlan, row: Inside) -> Figure:
    """From where on the inner drawer comes out beside the open door."""
    room = _room_beside(scene, front, row)
    thick = scene.thickness(front)
    angle = hundredth(clear_of_drawer(front.width.value, thick.value, room.value))
    terms = (Term(front.width, 0), Term(thick, 0), Term(room, 0))
    return number(f"{front.id} must open to", angle, "derived", f"to let {row.id} pass", *terms)


def _room_beside(scene: Scene, front: FrontPlan, row: Inside) -> Figure:
    """From the hinge edge of the door in to the side of the drawer: cover, and what is left beside the box.

    The gap of an inset door counts from its covered edge, the room beside the box from the bare one.
    """
    side = front.hinge_side or "left"
    cover = front.overlay[side] or NOUGHT
    opening = scene.survey.openings[front.opening]
    wide = measured(row.width, f"width of {row.id}")
    if wide is None:
        beside = entered(scene.index.unit, row.runner, "runner")
    else:
        beside = share(
            f"beside {row.id}", total("both sides", plus(opening.width_least), minus(wide)), 2, "it runs in the middle"
        )
    covered = covered_opening(scene.index, opening) if front.look.scheme == "inset" else None
    inward = moved_in(opening, covered, side) if covered is not None else None
    return total(f"from the hinge edge to {row.id}", plus(cover), minus(inward or NOUGHT), plus(beside))


# -- doors hung back to back, doors that are inset


def _together(scene: Scene, front: FrontPlan, side: Hung, pull: PullPlan | None) -> tuple[Figure | None, str]:
    """How far it opens while the door hung back to back with it stands open as far: half the way between them."""
    other = scene.fronts.fronts.get(front.neighbours.get(side, ""))
    if other is None or other.hinge_side == front.hinge_side or other.front.kind not in ("door", "glass"):
        return None, ""
    far = (front.left, other.right) if side == "left" else (other.left, front.right)
    half = share(
        "half the way to the hinge edge beside", total("between the hinge edges", plus(far[0]), minus(far[1])), 2
    )
    points: list[tuple[Figure, Figure]] = [(front.width, NOUGHT)]
    if pull is not None:
        points += [(end, pull.projection) for span in pull.spans for end in span]
    angles = [(against_wall(half.value, a.value, p.value), a, p) for a, p in points]
    angle, a, p = min(angles, key=lambda one: one[0])
    terms = (Term(half, 0), Term(a, 0), Term(p, 0))
    return number(f"{front.id} with {other.id} open too", hundredth(angle), "derived", _F23, *terms), other.id


def turning_room(scene: Scene, front: FrontPlan) -> TurningRoom | None:
    """The gap at the free edge of an inset door against what its back corner takes: √(w² + T²) − w."""
    if front.look.scheme != "inset" or front.hinge_side not in ("left", "right"):
        return None
    side: Hung = "right" if front.hinge_side == "left" else "left"
    have = _free_gap(scene, front, side)
    if have is None:
        return None
    thick = scene.thickness(front)
    far = root(Fraction(in_units(front.width.value)) ** 2 + Fraction(in_units(thick.value)) ** 2)
    diagonal = Figure(
        "from the hinge edge to the back corner", far, "derived", "√(w² + T²)", (Term(front.width, 0), Term(thick, 0))
    )
    need = total(f"turning room of {front.id}", plus(diagonal), minus(front.width))
    gap = front.look.inset_meeting if front.overlay[side] is None else front.look.inset_side
    return TurningRoom(front.id, side, have, need, gap.rests)


def _free_gap(scene: Scene, front: FrontPlan, side: str) -> Figure | None:
    cover = front.overlay[side]
    if cover is not None:
        return total(f"gap at the free edge of {front.id}", minus(cover))
    other = scene.fronts.fronts.get(front.neighbours.get(side, ""))
    if other is None:
        return None
    edges = (other.left, front.right) if side == "right" else (front.left, other.right)
    return total(f"gap at the free edge of {front.id}", plus(edges[0]), minus(edges[1]))
