"""Inside corners (F24): what each front at the corner must be clear of, have and need."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from frontwright.core.assumed import assumed
from frontwright.core.figures import Figure, minus, most, plus, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.hardware.result import PullPlan
from frontwright.core.lengths import in_units
from frontwright.core.space.bodies import NOUGHT, SQUARE, Scene, from_corner, from_left, reach_over
from frontwright.core.space.result import CornerPlan, Does, Hung, Meeting


def meetings_of(scene: Scene, corner: CornerPlan) -> Iterator[Meeting]:
    """Every front of both legs that stands at the corner, with what it does there."""
    for run in (corner.left, corner.right):
        others = list(_at_corner(scene, corner, corner.other(run)))
        for front in _at_corner(scene, corner, run):
            beside = [other for other in others if _same_height(front, other)]
            yield from _meetings(scene, corner, front, beside)


def _at_corner(scene: Scene, corner: CornerPlan, run: str) -> Iterator[FrontPlan]:
    """The fronts of a leg that have no neighbour towards the corner."""
    side = corner.side(run)
    return (front for front in scene.of_run(run) if side not in front.neighbours)


def _same_height(a: FrontPlan, b: FrontPlan) -> bool:
    return in_units(a.bottom.value) < in_units(b.top.value) and in_units(b.bottom.value) < in_units(a.top.value)


def _meetings(scene: Scene, corner: CornerPlan, front: FrontPlan, beside: Sequence[FrontPlan]) -> Iterator[Meeting]:
    side = corner.side(front.run)
    edge = front.left if side == "left" else front.right
    bare = from_corner(corner, front.run, edge)
    if corner.angle.units != SQUARE:
        have = total(f"{front.id} from the corner", plus(bare))
        yield from _at_an_angle(scene, corner, front, beside, side, have)
        return
    have = total(f"{front.id} from the face of the other leg", plus(bare), minus(scene.facing(corner.other(front.run))))
    yield from _square(scene, corner, front, beside, side, have)


def _square(
    scene: Scene, corner: CornerPlan, front: FrontPlan, beside: Sequence[FrontPlan], side: Hung, have: Figure
) -> Iterator[Meeting]:
    """F24 as it stands: a square corner."""
    name, names = f"{front.id} needs at the corner", tuple(other.id for other in beside)
    clear = assumed(scene.index.unit, "corner clearance")
    thick = _most("front of the other leg", [scene.stands_out(other) for other in beside])
    if beside:
        need = total(name, plus(thick), plus(clear))
        yield Meeting(corner.id, front.id, side, names, "closed", have, need, have.rests or thick.rests)
    theirs = _their_pull(scene, front, beside)
    if _opens_here(front, side):
        yield _hung_here(scene, corner, front, beside, side, have)
    elif beside and _opens(front):
        need = total(name, plus(thick), plus(theirs), plus(clear))
        guessed = have.rests or thick.rests or theirs.rests
        yield Meeting(corner.id, front.id, side, names, "past", have, need, guessed)


def _hung_here(
    scene: Scene, corner: CornerPlan, front: FrontPlan, beside: Sequence[FrontPlan], side: Hung, have: Figure
) -> Meeting:
    """A door hung on the corner side, opened to a right angle: the greater pull, both where they meet."""
    thick = _most("front of the other leg", [scene.stands_out(other) for other in beside])
    theirs, own = _their_pull(scene, front, beside), _own_pull(scene, front)
    clear = assumed(scene.index.unit, "corner clearance")
    meet = own is not None and any(_pulls_meet(scene, corner, front, own, other) for other in beside)
    ours = own.projection if own is not None else NOUGHT
    pulls = (plus(theirs), plus(ours)) if meet else (plus(_most("the greater pull", [theirs, ours])),)
    need = total(f"{front.id} needs at the corner", plus(thick), *pulls, plus(clear))
    guessed = have.rests or thick.rests or theirs.rests or ours.rests
    names = tuple(other.id for other in beside) or (corner.other(front.run),)
    what: Does = "hung here, pulls meet" if meet else "hung here"
    return Meeting(corner.id, front.id, side, names, what, have, need, guessed)


def _at_an_angle(
    scene: Scene, corner: CornerPlan, front: FrontPlan, beside: Sequence[FrontPlan], side: Hung, have: Figure
) -> Iterator[Meeting]:
    """Another angle than a square one: how far the faces of the other leg reach over this one."""
    if not beside:
        return
    clear = assumed(scene.index.unit, "corner clearance")
    reach = _most("reach of the other leg", [reach_over(corner, scene, other) for other in beside])
    need = total(f"{front.id} needs at the corner", plus(reach), plus(clear))
    names = tuple(other.id for other in beside)
    yield Meeting(corner.id, front.id, side, names, "closed", have, need, have.rests or reach.rests)


def _most(name: str, figures: Sequence[Figure]) -> Figure:
    return most(name, figures, "the greatest governs") if figures else NOUGHT


def _opens(front: FrontPlan) -> bool:
    return front.front.kind in ("door", "glass", "drawer")


def _opens_here(front: FrontPlan, side: Hung) -> bool:
    return front.front.kind in ("door", "glass") and front.hinge_side == side


def _own_pull(scene: Scene, front: FrontPlan) -> PullPlan | None:
    return scene.pulls.get(front.id)


def _their_pull(scene: Scene, front: FrontPlan, beside: Sequence[FrontPlan]) -> Figure:
    """P₂: the pulls of the other leg that stand at the height of this front."""
    pulls = [pull for other in beside if (pull := scene.pulls.get(other.id)) is not None]
    return _most("pull of the other leg", [p.projection for p in pulls if _at_height(p, front)])


def _at_height(pull: PullPlan, front: FrontPlan) -> bool:
    low, high = in_units(pull.low.value), in_units(pull.high.value)
    return low < in_units(front.top.value) and high > in_units(front.bottom.value)


def _pulls_meet(scene: Scene, corner: CornerPlan, front: FrontPlan, own: PullPlan, other: FrontPlan) -> bool:
    """Whether the two pulls stand at one height and at one distance from the corner while the door stands open."""
    theirs = scene.pulls.get(other.id)
    if theirs is None or in_units(theirs.low.value) > in_units(own.high.value):
        return False
    if in_units(own.low.value) > in_units(theirs.high.value):
        return False
    clear = in_units(assumed(scene.index.unit, "corner clearance").value)
    out = in_units(scene.face(front).value)
    mine = [(out + in_units(near.value), out + in_units(far.value)) for near, far in own.spans]
    return any(
        near - clear < high and low < far + clear
        for low, high in _from_corner(corner, other, theirs)
        for near, far in mine
    )


def _from_corner(corner: CornerPlan, front: FrontPlan, pull: PullPlan) -> Iterator[tuple[int, int]]:
    """Where the pulls of the other leg begin and end, from the corner."""
    for span in pull.spans:
        ends = [int(from_corner(corner, front.run, from_left(front, end)).units) for end in span]
        yield min(ends), max(ends)
