"""Room for drawer boxes between covered edges (F12), gaps at the ends beside skins (F43), drawers as they come out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from frontwright.core.assumed import assumed, entered, measured
from frontwright.core.figures import Figure, Term, minus, plus, total
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job import Inside, Obstacle
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.returns import covered_opening
from frontwright.core.skins import inside_edge, skin_thickness
from frontwright.core.space.bodies import NOUGHT, Scene, end_gap
from frontwright.core.space.result import DrawerRoom, Drawn, EndGap, Hung, Still
from frontwright.core.survey.result import OpeningPlan, RunPlan, SurveyPlan

SIDES: tuple[Hung, ...] = ("left", "right")


def drawer_rooms(index: JobIndex, survey: SurveyPlan) -> Iterator[DrawerRoom]:
    """F12 for every box whose width or height was entered."""
    for row in index.job.insides.values():
        opening = survey.openings.get(row.opening)
        if opening is not None and row.kind != "shelf":
            yield from _rooms(index, opening, row)


def _rooms(index: JobIndex, opening: OpeningPlan, row: Inside) -> Iterator[DrawerRoom]:
    strip, play = inside_edge(index, opening.run), assumed(index.unit, "drawer play")
    wide = measured(row.width, f"width of the box of {opening.id}")
    if wide is not None:
        runner = entered(index.unit, row.runner, "runner")
        terms = [*_clear(index, opening, strip), minus(wide), minus(runner, 2)]
        have = total(f"room beside the box of {opening.id}", *terms)
        guessed = opening.width.rests or runner.rests or (strip is not None and strip.rests)
        yield DrawerRoom(opening.id, row.id, "across", have, play, strip, guessed)
    high = measured(row.height, f"height of the box of {opening.id}")
    if high is not None and row.kind == "drawer box":
        around = strip is not None and index.job.facings[opening.run].inside_edges == "all round"
        terms = [*_clear_up(index, opening, strip if around else None), minus(high)]
        have = total(f"room above the box of {opening.id}", *terms)
        guessed = opening.height.rests or (around and strip is not None and strip.rests)
        yield DrawerRoom(opening.id, row.id, "upright", have, play, strip if around else None, guessed)


def _clear(index: JobIndex, opening: OpeningPlan, strip: Figure | None) -> list[Term]:
    """The least width, less the returns; of a squared opening what its returns leave upright."""
    found = covered_opening(index, opening)
    if found is not None and found.squared:
        return [plus(found.widths[1])]
    return [plus(opening.width_least), *_both(strip)]


def _clear_up(index: JobIndex, opening: OpeningPlan, strip: Figure | None) -> list[Term]:
    """Likewise up: the least height, or the upright one where the rails are covered and squared."""
    found = covered_opening(index, opening)
    if strip is not None and found is not None and found.squared:
        return [plus(found.heights[1])]
    return [plus(opening.height_least), *_both(strip)]


def _both(strip: Figure | None) -> list[Term]:
    return [] if strip is None else [minus(strip, 2)]


def end_gaps(index: JobIndex, run: RunPlan) -> Iterator[EndGap]:
    """F43: what is left of the gap at each end, once the skin is on; the tightest where more than one was read."""
    for side in SIDES:
        found = list(_gaps(index, run, side))
        if found:
            yield min(found, key=lambda gap: Fraction(gap.have.units) - gap.need.units)


def _gaps(index: JobIndex, run: RunPlan, side: Hung) -> Iterator[EndGap]:
    skin = skin_thickness(index, run.id, side)
    end = run.ends.get(side)
    gap = end_gap(run, side)
    if gap is not None and end is not None and (end.kind == "appliance" or skin is not None):
        kind: str = end.kind or "what stands there"
        yield _gap(run, side, kind, gap, skin, _wanted(index, kind, None))
    for row in index.job.obstacles.values():
        away = measured(row.away, f"gap to {row.name or row.kind}")
        if (row.run, row.side) == (run.id, side) and away is not None and (row.kind == "appliance" or skin):
            against = row.name or row.kind
            yield _gap(run, side, against, away, skin, _wanted(index, row.kind, row))


def _wanted(index: JobIndex, kind: str, row: Obstacle | None) -> Figure:
    """What an appliance must keep; beside anything else the skin only has to fit in."""
    told = measured(row.wanted, f"gap that {row.name or row.kind} must keep") if row is not None else None
    if told is not None:
        return told
    return assumed(index.unit, "appliance gap") if kind == "appliance" else NOUGHT


def _gap(run: RunPlan, side: Hung, against: str, gap: Figure, skin: Figure | None, need: Figure) -> EndGap:
    have = total(f"gap at the {side} end of {run.id}", plus(gap), *([] if skin is None else [minus(skin)]))
    return EndGap(run.id, side, against, gap, have, need, skin)


def run_lengths(index: JobIndex, survey: SurveyPlan) -> dict[str, Figure]:
    """F43: each run with the skins on its ends."""
    found = {}
    for run in survey.runs:
        if run.overall is not None:
            skins = [skin for side in SIDES if (skin := skin_thickness(index, run.id, side)) is not None]
            found[run.id] = total(f"length of {run.id} with its skins", plus(run.overall), *map(plus, skins))
    return found


def drawn_out(scene: Scene, stills: Sequence[Still], front: FrontPlan) -> Drawn | None:
    """How far a drawer comes out, by the length of its box, and the way that is free before it."""
    rows = (r for r in scene.index.job.insides.values() if r.opening == front.opening and r.kind == "drawer box")
    long = next((one for r in rows if (one := measured(r.length, f"length of the box of {front.opening}"))), None)
    if front.front.kind != "drawer" or long is None:
        return None
    nearest = min((one for one in stills if _before(scene, front, one)), key=_near, default=None)
    if nearest is None:
        return Drawn(front.id, long)
    pull = scene.pulls.get(front.id)
    near = Figure(f"{nearest.name} before the frame", min(y for _, y in nearest.corners), "taped")
    terms = [plus(near), minus(scene.face(front)), *([] if pull is None else [minus(pull.projection)])]
    return Drawn(front.id, long, total(f"free way before {front.id}", *terms), nearest.of, nearest.name)


def _near(still: Still) -> int:
    return int(min(in_units(y) for _, y in still.corners))


def _before(scene: Scene, front: FrontPlan, still: Still) -> bool:
    """Whether an obstacle stands in the way that a drawer comes out."""
    if still.moves or still.kind in ("front", "pull") or still.of == front.run:
        return False
    xs, ys = [in_units(x) for x, _ in still.corners], [in_units(y) for _, y in still.corners]
    across = min(xs) < in_units(front.right.value) and max(xs) > in_units(front.left.value)
    above = still.low is None or in_units(front.top.value) > in_units(still.low)
    level = above and (still.high is None or in_units(front.bottom.value) < in_units(still.high))
    return across and level and min(ys) >= in_units(scene.face(front).value)
