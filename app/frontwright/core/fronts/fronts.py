"""The fronts chapter, whole: every front with its edges, sizes by subtraction, covers and neighbours."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from frontwright.core.figures import Figure, Term, least, minus, plus, share, total
from frontwright.core.fronts.checks import front_checks
from frontwright.core.fronts.covered import covered
from frontwright.core.fronts.edges import SIDES, Edges, Side, opening_edges, pinned, shared_width, split
from frontwright.core.fronts.lines import Grid, between, grid_of, made_fronts, own_edge, stacked
from frontwright.core.fronts.looks import look_of
from frontwright.core.fronts.result import FrontPlan, FrontsPlan, Line, LookPlan, Sum
from frontwright.core.fronts.rows import row_plans
from frontwright.core.fronts.sums import adjacent, sums_of
from frontwright.core.job import DOOR_LIKE, Front, Grain, HingeSide
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import Display, in_units
from frontwright.core.survey.openings import reading_error_of
from frontwright.core.survey.result import OpeningPlan, RunPlan, SurveyPlan

Across = Mapping[tuple[str, Side], list[str]]


def fronts(index: JobIndex, survey: SurveyPlan, display: Display) -> FrontsPlan:
    """All fronts of all runs from the survey and the look."""
    looks: dict[str, LookPlan] = {}
    found: dict[str, FrontPlan] = {}
    lines: dict[str, tuple[Line, ...]] = {}
    sums: list[Sum] = []
    for run in survey.runs:
        looks |= {o.id: look_of(index, o.id, run.id) for o in run.openings}
        grid = grid_of(index, covered(index, run, looks), looks, display)
        own = _fronts_of(grid)
        neighbours = adjacent(grid, own)
        found |= {f.id: _with_neighbours(f, neighbours.get(f.id, {})) for f in own}
        lines[run.id] = (*grid.upright.values(), *grid.level.values())
        sums += sums_of(grid, own)
    rows = row_plans(index, found)
    row_of = {front: row for row in rows for front in row.fronts}
    checks = tuple(front_checks(index, survey, found, sums, rows))
    return FrontsPlan(looks, found, row_of, lines, tuple(sums), rows, checks)


def _with_neighbours(front: FrontPlan, neighbours: Mapping[str, str]) -> FrontPlan:
    return replace(front, neighbours=neighbours)


@dataclass(frozen=True, slots=True)
class _Placed:
    opening: OpeningPlan
    front: Front
    edges: Edges
    whole: Edges
    first: bool
    last: bool
    pinned_aside: bool


def _fronts_of(grid: Grid) -> list[FrontPlan]:
    """Every front of a run, column by column, from the top."""
    across = _across(grid.run)
    wholes = {o.id: opening_edges(grid, across, o) for o in grid.run.openings if made_fronts(grid.index, o.id)}
    wholes |= _shared(grid, wholes)
    placed: list[_Placed] = []
    for opening in grid.run.openings:
        own = made_fronts(grid.index, opening.id)
        if not own:
            continue
        whole = wholes[opening.id]
        edges = split(grid, opening, own, whole)
        aside = pinned(own[0], "left") is not None or pinned(own[-1], "right") is not None
        placed += [
            _Placed(opening, front, edges[at], whole, at == 0, at == len(own) - 1, aside)
            for at, front in enumerate(own)
        ]
    return [_front(grid, one) for one in placed]


def _across(run: RunPlan) -> Across:
    """The openings on the other side of each division line of an opening."""
    found: dict[tuple[str, Side], list[str]] = {}
    for left, right, _ in between(run):
        for a in (o for o in run.openings if o.column == left):
            for b in (o for o in run.openings if o.column == right and _overlap(a, o)):
                found.setdefault((a.id, "right"), []).append(b.id)
                found.setdefault((b.id, "left"), []).append(a.id)
    for above, below in stacked(run):
        found[above.id, "bottom"] = [below.id]
        found[below.id, "top"] = [above.id]
    return found


def _overlap(a: OpeningPlan, b: OpeningPlan) -> bool:
    if a.bottom is None or a.top is None or b.bottom is None or b.top is None:
        return False
    return a.bottom.length < b.top.length and b.bottom.length < a.top.length


def _shared(grid: Grid, wholes: Mapping[str, Edges]) -> dict[str, Edges]:
    """F17: fronts that share their outer edges, each centred in its own opening, by the narrowest."""
    changed: dict[str, Edges] = {}
    by_front = {f.id: o for o in wholes for f in made_fronts(grid.index, o)}
    for row in grid.index.job.front_rows.values():
        openings = list(dict.fromkeys(by_front[f] for f in row.fronts if f in by_front))
        if not row.share_edges or row.direction != "column" or len(openings) < 2:
            continue
        width = shared_width(row.id, [wholes[o] for o in openings])
        for opening in openings:
            changed[opening] = _centred(grid.opening(opening), wholes[opening], width)
    return changed


def _centred(opening: OpeningPlan, whole: Edges, width: Figure) -> Edges:
    if total("width", plus(whole.right), minus(whole.left)).value == width.value:
        return whole
    rest = total(f"both side gaps in {opening.id}", plus(opening.width_least), minus(width))
    gap = share(f"side gap in {opening.id}", rest, 2)
    left = total(f"left edge in {opening.id}", plus(opening.left or own_edge(opening, "left")), plus(gap))
    return Edges(left, total(f"right edge in {opening.id}", plus(left), plus(width)), whole.bottom, whole.top)


def _front(grid: Grid, one: _Placed) -> FrontPlan:
    front, edges, look = one.front, one.edges, grid.looks[one.opening.id]
    width = total(f"width of {front.id}", plus(edges.right), minus(edges.left))
    height = total(f"height of {front.id}", plus(edges.top), minus(edges.bottom))
    overlay = _overlay(one, look)
    side, assumed_side = _hinge_side(one)
    grain, assumed_grain = _grain(grid.index, front, look)
    return FrontPlan(
        front=front,
        run=grid.run.id,
        opening=one.opening.id,
        look=look,
        placed=one.opening.left is not None,
        left=edges.left,
        right=edges.right,
        bottom=edges.bottom,
        top=edges.top,
        width=width,
        height=height,
        hinge_side=side,
        hinge_side_assumed=assumed_side,
        grain=grain,
        grain_assumed=assumed_grain,
        overlay=overlay,
        least_cover=None if look.scheme == "inset" else _least_cover(grid.index, one.opening, front, overlay),
        neighbours={},
        pinned=tuple(s for s in SIDES if pinned(front, s) is not None),
    )


def _overlay(one: _Placed, look: LookPlan) -> dict[str, Figure | None]:
    """Cover on the frame by side; minus the gap where inset; None where a pair meets."""
    opening = one.opening
    if look.scheme == "inset":
        sides = _inset_gaps(one)
    else:
        bounds: dict[str, tuple[Figure, Figure]] = {
            "left": (opening.left or own_edge(opening, "left"), one.edges.left),
            "right": (one.edges.right, opening.right or own_edge(opening, "right")),
            "bottom": (opening.bottom or own_edge(opening, "bottom"), one.edges.bottom),
            "top": (one.edges.top, opening.top or own_edge(opening, "top")),
        }
        sides = {
            side: total(f"cover {side} of {one.front.id}", plus(outer), minus(inner))
            for side, (outer, inner) in bounds.items()
        }
    meets = {"left": not one.first, "right": not one.last}
    return {side: None if meets.get(side) else figure for side, figure in sides.items()}


def _inset_gaps(one: _Placed) -> dict[str, Figure]:
    """The gaps of an inset front, counted down: even at both sides unless an edge is pinned, the rest of the height
    at the top."""
    opening, name = one.opening, one.front.id
    wide = total("all fronts", plus(one.whole.right), minus(one.whole.left))
    both = total("both side gaps", plus(wide), minus(opening.width_least))
    left = right = share(f"side gap of {name}, counted down", both, 2)
    if one.pinned_aside:
        base = opening.left or own_edge(opening, "left")
        left = total(f"left gap of {name}, counted down", plus(base), minus(one.whole.left))
        right = total(f"right gap of {name}, counted down", plus(both), minus(left))
    base = opening.bottom or own_edge(opening, "bottom")
    high = total(f"height of {name}", plus(one.edges.top), minus(one.edges.bottom))
    bottom = total(f"bottom gap of {name}, counted down", plus(base), minus(one.edges.bottom))
    top = total(f"top gap of {name}, counted down", plus(high), minus(opening.height_least), minus(bottom))
    return {"left": left, "right": right, "top": top, "bottom": bottom}


def _least_cover(index: JobIndex, opening: OpeningPlan, front: Front, overlay: Mapping[str, Figure | None]) -> Figure:
    """F20: cover less half of what the widest reading is over the width, and half of a lean over the reading error."""
    covers: list[Figure] = []
    for side, cover in overlay.items():
        if cover is None:
            continue
        sideways = side in ("left", "right")
        widest, size = (opening.width_most, opening.width) if sideways else (opening.height_most, opening.height)
        terms = [plus(cover)]
        over = total(f"widest over {size.name}", plus(widest), minus(size))
        if in_units(over.value) > 0:
            terms.append(Term(over, Fraction(-1, 2)))
        if sideways and (lean := _counted_lean(index, opening)) is not None:
            terms.append(Term(lean, Fraction(-1, 2) if in_units(lean.value) > 0 else Fraction(1, 2)))
        covers.append(total(f"cover {side} of {front.id} at the tightest", *terms))
    return least(f"least cover of {front.id}", covers, "the tightest side")


def _counted_lean(index: JobIndex, opening: OpeningPlan) -> Figure | None:
    """The lean, unless it is within the reading error (then it counts as none)."""
    if opening.lean is None or abs(Fraction(in_units(opening.lean.value))) <= in_units(reading_error_of(index).value):
        return None
    return opening.lean


def _hinge_side(one: _Placed) -> tuple[HingeSide | None, bool]:
    if one.front.kind not in ("door", "glass"):
        return None, False
    if one.front.hinge_side is not None:
        return one.front.hinge_side, False
    return ("left" if one.first else "right"), one.first == one.last  # of a pair it is plain, else to be chosen


def _grain(index: JobIndex, front: Front, look: LookPlan) -> tuple[Grain, bool]:
    """The front's own grain, the row's that it is cut from, else the look's for its kind."""
    if front.grain is not None:
        return front.grain, False
    for row in index.job.front_rows.values():
        if row.grain_through and front.id in row.fronts:
            return ("horizontal" if row.direction == "row" else "vertical"), False
    field = "door_grain" if front.kind in DOOR_LIKE else "drawer_grain"
    usual = look.door_grain if field == "door_grain" else look.drawer_grain
    return usual, index.inherited(front.opening, field) is None
