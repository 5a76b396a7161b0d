"""What stands where in plan: fronts and their pulls, walls and obstacles, the other leg of a corner."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import cos, radians, sin

from frontwright.core.assumed import measured
from frontwright.core.figures import Figure, Term, least, minus, number, plus, total
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.hardware.pulls import heights_on
from frontwright.core.hardware.result import PullPlan
from frontwright.core.job import Corner, Obstacle
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, Exact, Length, Typed, in_units
from frontwright.core.making.result import MakingPlan
from frontwright.core.skins import face_strip
from frontwright.core.space.result import CornerPlan, Still
from frontwright.core.survey.result import RunPlan, SurveyPlan

FAR = Length.mm(20000)  # further than any room
NOUGHT = Figure("nothing", ZERO, "chosen")
SQUARE = 90


@dataclass(frozen=True, slots=True)
class Scene:
    """Everything that is looked at in plan."""

    index: JobIndex
    survey: SurveyPlan
    fronts: FrontsPlan
    making: MakingPlan
    pulls: Mapping[str, PullPlan]
    faced: Mapping[str, Figure]

    def run(self, name: str) -> RunPlan | None:
        return next((run for run in self.survey.runs if run.id == name), None)

    def of_run(self, name: str) -> list[FrontPlan]:
        return [f for f in self.fronts.fronts.values() if f.run == name and f.placed]

    def thickness(self, front: FrontPlan) -> Figure:
        return self.making.fronts[front.id].build.thickness

    def stands_out(self, front: FrontPlan) -> Figure:
        """T of F24: how far a front stands before its covered frame; nothing where it is inset."""
        return NOUGHT if front.look.scheme == "inset" else self.thickness(front)

    def facing(self, run: str) -> Figure:
        return self.faced.get(run, NOUGHT)

    def face(self, front: FrontPlan) -> Figure:
        """Where the face of a front lies before the bare frame (F13: the front plane moves out by the facing)."""
        name = f"face of {front.id} before the bare frame"
        return total(name, plus(self.stands_out(front)), plus(self.facing(front.run)))


def faced_runs(index: JobIndex, survey: SurveyPlan) -> dict[str, Figure]:
    """What covers the frame faces, by run; runs that stay bare are not in it."""
    return {run.id: strip for run in survey.runs if (strip := face_strip(index, run.id)) is not None}


# -- one run


def stills_of(scene: Scene, run: RunPlan) -> Iterator[Still]:
    """Walls and obstacles of a run, then its fronts and their pulls. A wall entered as an obstacle goes before one that
    the run is only said to end at."""
    rows = [row for row in scene.index.job.obstacles.values() if row.run == run.id]
    placed = [one for row in rows if (one := _obstacle(run, row)) is not None]
    entered = {row.side for row in rows if row.kind == "wall" and measured(row.away, "") is not None}
    yield from (wall for side, wall in _walls(run) if wall.read or side not in entered)
    yield from placed
    for front in scene.of_run(run.id):
        yield _body(scene, front)
        yield from _pulls(scene, front)


def _walls(run: RunPlan) -> Iterator[tuple[str, Still]]:
    """A wall at an end, as near as its least gap; where none was read it stands against the run."""
    for side, end in run.ends.items():
        if end.kind != "wall" or (side == "right" and run.overall is None):
            continue
        gap = end_gap(run, side)
        away = gap or Figure(f"gap to the wall, {side}", ZERO, "assumed", "nobody read it: it stands against the run")
        lean = run.wall_leans.get(side)
        if gap is None and lean is not None and in_units(lean.value) > 0:
            away = total(away.name, plus(away), minus(lean))
        edge = _beside(run, side, away)
        corners = _box(edge, -FAR, edge + (-FAR if side == "left" else FAR), FAR)
        yield side, Still(run.id, "wall", f"wall at the {side}", corners, read=gap is not None, distance=away)


def end_gap(run: RunPlan, side: str) -> Figure | None:
    """The least gap that was read at a run's end."""
    end = run.ends.get(side)
    if end is None:
        return None
    gaps = ((end.gap_top, "top"), (end.gap_middle, "middle"), (end.gap_bottom, "bottom"))
    read = [figure for typed, at in gaps if (figure := measured(typed, f"gap at the {side} end, {at}")) is not None]
    return least(f"gap at the {side} end", read) if read else None


def _beside(run: RunPlan, side: str, away: Figure) -> Length:
    """Where something begins that stands so far beside the run."""
    if side == "left" or run.overall is None:
        return -away.length
    return run.overall.length + away.length


def _obstacle(run: RunPlan, row: Obstacle) -> Still | None:
    """An obstacle; None where what was said of it places nothing."""
    if row.side == "above":  # in plan it stands nowhere; it stops flaps
        return None
    low, high = _value(row.low), _value(row.high)
    away = measured(row.away, f"clear of {row.name or row.kind}")
    corners = _before(row, away) if row.side == "before" else _at_end(run, row, away)
    if corners is None:
        return None
    return Still(
        row.id, row.kind, row.name or row.kind, corners, low, high, away is not None, away or NOUGHT, row.moves
    )


def _at_end(run: RunPlan, row: Obstacle, away: Figure | None) -> tuple[tuple[Exact, Exact], ...] | None:
    out = _value(row.out)
    if (row.kind != "wall" and (out is None or away is None)) or (row.side == "right" and run.overall is None):
        return None
    edge = _beside(run, row.side, away or NOUGHT)
    reach = FAR if out is None else out + (_value(row.handle) or ZERO)
    return _box(edge, -FAR, edge + (-FAR if row.side == "left" else FAR), reach)


def _before(row: Obstacle, away: Figure | None) -> tuple[tuple[Exact, Exact], ...] | None:
    """What stands before the run: from its distance on, over the stretch that it takes; a counter from the frame."""
    if away is None and row.kind != "counter":
        return None
    near = away.length if away is not None else ZERO
    out = _value(row.out)
    if row.kind == "counter" and out is None:
        return None
    begins, ends = _value(row.begins), _value(row.ends)
    far = near + FAR if out is None else max(out, near) if row.kind == "counter" else near + out
    return _box(-FAR if begins is None else begins, near, FAR if ends is None else ends, far)


def _value(typed: Typed | None) -> Length | None:
    return typed.value if typed is not None else None


def _body(scene: Scene, front: FrontPlan) -> Still:
    face = scene.face(front).length
    back = face - scene.thickness(front).length
    corners = _box(front.left.length, back, front.right.length, face)
    return Still(front.id, "front", front.id, corners, front.bottom.value, front.top.value)


def _pulls(scene: Scene, front: FrontPlan) -> Iterator[Still]:
    """The pulls of a front as they stand while it is shut."""
    pull = scene.pulls.get(front.id)
    heights = heights_on(pull, front) if pull is not None else None
    if pull is None or heights is None or not in_units(pull.projection.value):
        return
    low, high = heights
    face = scene.face(front).length
    for near, far in pull.spans:
        a, b = from_left(front, near).length, from_left(front, far).length
        corners = _box(min(a, b), face, max(a, b), face + pull.projection.length)
        yield Still(front.id, "pull", front.id, corners, low.value, high.value, pull.chosen)


def from_left(front: FrontPlan, distance: Figure) -> Figure:
    """A place on a front, given from its hinge edge, on the tape of the run."""
    if front.hinge_side == "right":
        return total(distance.name, plus(front.right), minus(distance))
    return total(distance.name, plus(front.left), plus(distance))


def _box(left: Length, low: Length, right: Length, high: Length) -> tuple[tuple[Exact, Exact], ...]:
    a, b = min(left, right), max(left, right)
    return (a, low), (b, low), (b, high), (a, high)


# -- corners


def corner_plans(index: JobIndex, survey: SurveyPlan) -> tuple[CornerPlan, ...]:
    """The corners whose two legs are there and stand on one tape each."""
    runs = {run.id: run for run in survey.runs}
    found = (_corner(row, runs.get(row.left), runs.get(row.right)) for row in index.job.corners.values())
    return tuple(corner for corner in found if corner is not None)


def _corner(row: Corner, left: RunPlan | None, right: RunPlan | None) -> CornerPlan | None:
    if left is None or right is None or left is right or left.overall is None or right.overall is None:
        return None
    hidden = measured(row.hidden, f"hidden behind the other leg of {row.id}") or NOUGHT
    angle = number("angle of the corner", SQUARE, "assumed", "square until it is read")
    if row.angle is not None and row.angle.value is not None:
        angle = number("angle of the corner", row.angle.value, "taped")
    here = plus(left.overall)
    at = {
        left.id: total(
            f"face of {right.id} on the tape of {left.id}", here, minus(hidden if _on(row, "left") else NOUGHT)
        ),
        right.id: total(f"face of {left.id} on the tape of {right.id}", plus(hidden if _on(row, "right") else NOUGHT)),
    }
    return CornerPlan(row.id, left.id, right.id, angle, at)


def _on(row: Corner, leg: str) -> bool:
    return row.runs_on == leg


def from_corner(corner: CornerPlan, run: str, at: Figure) -> Figure:
    """How far a place on a leg's tape is from the corner."""
    if corner.side(run) == "right":
        return total("from the corner", plus(corner.at[run]), minus(at))
    return total("from the corner", plus(at), minus(corner.at[run]))


def other_leg(scene: Scene, corner: CornerPlan, run: str, stills: Sequence[Still]) -> Iterator[Still]:
    """The other leg of a corner as it stands in this leg's plan: its frame, its fronts and pulls."""
    other = corner.other(run)
    facing = scene.facing(other).length
    frame = _box(ZERO, -FAR, FAR, facing)
    away = from_corner(corner, run, corner.at[run])
    yield Still(other, "cabinet", other, _turned(corner, run, frame), distance=away)
    for still in stills:
        if still.kind in ("front", "pull"):
            spots = tuple((_along(corner, other, x), y) for x, y in still.corners)
            yield replace(still, corners=_turned(corner, run, spots), distance=None)


def _along(corner: CornerPlan, run: str, x: Exact) -> Exact:
    """A place on a leg's tape, counted from the corner."""
    at = Fraction(in_units(corner.at[run].value))
    return at - in_units(x) if corner.side(run) == "right" else Fraction(in_units(x)) - at


def _turned(corner: CornerPlan, run: str, spots: Sequence[tuple[Exact, Exact]]) -> tuple[tuple[Exact, Exact], ...]:
    """Places of the other leg (from the corner, before its face) on this leg's tape."""
    c, s = turn_of(corner)
    at = Fraction(in_units(corner.at[run].value))
    sign = -1 if corner.side(run) == "right" else 1
    found: list[tuple[Exact, Exact]] = []
    for away, out in spots:
        p, q = Fraction(in_units(away)), Fraction(in_units(out))
        found.append((at + sign * (p * c + q * s), p * s - q * c))
    return tuple(found)


def turn_of(corner: CornerPlan) -> tuple[Fraction, Fraction]:
    """Cosine and sine of the corner's angle; exact where it is square."""
    degrees = Fraction(corner.angle.units)
    if degrees == SQUARE:
        return Fraction(0), Fraction(1)
    return Fraction(cos(radians(float(degrees)))), Fraction(sin(radians(float(degrees))))


def reach_over(corner: CornerPlan, scene: Scene, front: FrontPlan) -> Figure:
    """How far the face of the other leg's front reaches over this leg, from the bare corner (F24, at any angle)."""
    c, s = turn_of(corner)
    face = scene.face(front)
    edges = [from_corner(corner, front.run, edge) for edge in (front.left, front.right)]
    edge = max(edges, key=lambda figure: Fraction(figure.units) * c)
    return total(f"reach of {front.id} over the corner", Term(face, s), Term(edge, c))
