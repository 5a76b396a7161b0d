"""Rows and columns of fronts: who stands beside whom, and sums that must close (F18)."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from frontwright.core.figures import Figure, minus, plus, total
from frontwright.core.fronts.lines import Grid, by_line, planned_gap, run_end, skin_at, stacked
from frontwright.core.fronts.result import FrontPlan, Sum
from frontwright.core.lengths import in_units
from frontwright.core.survey.result import OpeningPlan

Neighbours = dict[str, dict[str, str]]


def level_rows(fronts: list[FrontPlan]) -> list[list[FrontPlan]]:
    """What level lines meet, left to right: one row for each different set, from the top."""
    placed = [f for f in fronts if f.placed]
    middles = sorted({in_units(f.bottom.value) + in_units(f.top.value) for f in placed}, reverse=True)
    rows: dict[tuple[str, ...], list[FrontPlan]] = {}
    for middle in middles:
        met = [f for f in placed if 2 * in_units(f.bottom.value) < middle < 2 * in_units(f.top.value)]
        met.sort(key=lambda f: in_units(f.left.value))
        rows.setdefault(tuple(f.id for f in met), met)
    return [row for key, row in rows.items() if key]


def stacks(fronts: list[FrontPlan], grid: Grid) -> list[list[list[FrontPlan]]]:
    """Fronts column by column, top to bottom; fronts side by side in an opening stand in one step."""
    found: list[list[list[FrontPlan]]] = []
    for column in grid.run.columns:
        steps = [[f for f in fronts if f.opening == o.id] for o in grid.run.openings if o.column == column.id]
        if filled := [step for step in steps if step]:
            found.append(filled)
    return found


def adjacent(grid: Grid, fronts: list[FrontPlan]) -> Neighbours:
    """The neighbours of each front by side, as far as fronts stand there."""
    found: Neighbours = {f.id: {} for f in fronts}
    for row in level_rows(fronts):
        for a, b in pairwise(row):
            if _next_to(grid, a, b):
                found[a.id].setdefault("right", b.id)
                found[b.id].setdefault("left", a.id)
    for a, b in _pairs_by_themselves(fronts):
        found[a.id]["right"], found[b.id]["left"] = b.id, a.id
    for stack in stacks(fronts, grid):
        for above, below in pairwise(stack):
            for f in above:
                found[f.id].setdefault("bottom", below[0].id)
            for f in below:
                found[f.id].setdefault("top", above[0].id)
    return found


def _pairs_by_themselves(fronts: list[FrontPlan]) -> Iterable[tuple[FrontPlan, FrontPlan]]:
    loose = [f for f in fronts if not f.placed]
    return ((a, b) for a, b in pairwise(loose) if a.opening == b.opening)


def _next_to(grid: Grid, a: FrontPlan, b: FrontPlan) -> bool:
    """Whether two fronts of a row stand in one opening or in neighbouring columns."""
    if a.opening == b.opening:
        return True
    columns = [c.id for c in grid.run.columns]
    first, second = grid.opening(a.opening).column, grid.opening(b.opening).column
    return columns.index(second) == columns.index(first) + 1


def sums_of(grid: Grid, fronts: list[FrontPlan]) -> list[Sum]:
    """One sum a row and a column; openings by themselves close on their own least readings."""
    if grid.run.run.by_itself:
        return [s for o in grid.run.openings for s in _inset_sums(o, [f for f in fronts if f.opening == o.id])]
    rows = [_row_sum(grid, row) for row in level_rows(fronts)]
    return rows + [_column_sum(grid, stack) for stack in stacks(fronts, grid) if stack[0][0].placed]


def _row_sum(grid: Grid, row: list[FrontPlan]) -> Sum:
    start, far = run_end(grid.run, "left"), run_end(grid.run, "right")
    terms = [_end_gap(grid, "left", total("left reveal", plus(row[0].left), minus(start)))]
    kinds = ["reveal"]
    for at, front in enumerate(row):
        if at:
            terms.append(_gap(grid, row[at - 1], front))
            kinds.append("gap")
        terms.append(front.width)
        kinds.append(front.id)
    terms.append(_end_gap(grid, "right", total("right reveal", plus(far), minus(row[-1].right))))
    equals = _with_skins(grid, total(f"length of {grid.run.id}", plus(far), minus(start)))
    return _sum(grid, tuple(f.id for f in row), "row", terms, [*kinds, "reveal"], equals)


def _column_sum(grid: Grid, stack: list[list[FrontPlan]]) -> Sum:
    start, far = run_end(grid.run, "bottom"), run_end(grid.run, "top")
    terms = [total("top reveal", plus(far), minus(stack[0][0].top))]
    kinds = ["reveal"]
    for at, step in enumerate(stack):
        if at:
            terms.append(_gap_below(grid, stack[at - 1][0], step[0]))
            kinds.append("gap")
        terms.append(step[0].height)
        kinds.append(step[0].id)
    terms.append(total("bottom reveal", plus(stack[-1][0].bottom), minus(start)))
    equals = total(f"height of {grid.run.id}", plus(far), minus(start))
    return _sum(grid, tuple(f.id for step in stack for f in step), "column", terms, [*kinds, "reveal"], equals)


def _inset_sums(opening: OpeningPlan, fronts: list[FrontPlan]) -> list[Sum]:
    if not fronts or fronts[0].look.scheme != "inset":
        return []
    ids, run = tuple(f.id for f in fronts), fronts[0].run
    terms: list[Figure] = [_turned(fronts[0].overlay["left"])]
    for at, front in enumerate(fronts):
        if at:
            terms.append(total("meeting gap", plus(front.left), minus(fronts[at - 1].right)))
        terms.append(front.width)
    terms.append(_turned(fronts[-1].overlay["right"]))
    up = [_turned(fronts[0].overlay["top"]), fronts[0].height, _turned(fronts[0].overlay["bottom"])]
    kinds = ["gap", *[k for f in fronts for k in (f.id, "gap")]]
    return [
        Sum(ids, run, "row", tuple(terms), tuple(kinds), _added(terms), opening.width_least),
        Sum(ids, run, "column", tuple(up), ("gap", ids[0], "gap"), _added(up), opening.height_least),
    ]


def _turned(overlay: Figure | None) -> Figure:
    """A gap from an inset front's overlay, which is minus its gap."""
    return total("gap", minus(overlay)) if overlay is not None else total("gap")


def _sum(grid: Grid, of: tuple[str, ...], direction: str, terms: list[Figure], kinds: list[str], equals: Figure) -> Sum:
    return Sum(of, grid.run.id, direction, tuple(terms), tuple(kinds), _added(terms), equals)


def _added(terms: list[Figure]) -> Figure:
    return total("fronts and gaps together", *(plus(t) for t in terms))


def _gap(grid: Grid, left: FrontPlan, right: FrontPlan) -> Figure:
    """The gap as planned between neighbours; where none is planned, what lies between them."""
    if left.opening == right.opening:
        return left.look.inset_meeting if left.look.scheme == "inset" else left.look.meeting_gap
    if _planned(left, right) and _next_to(grid, left, right):
        return planned_gap(left.look)
    return total("between them", plus(right.left), minus(left.right))


def _gap_below(grid: Grid, above: FrontPlan, below: FrontPlan) -> Figure:
    if _planned(above, below) and _under(grid, above, below):
        return planned_gap(above.look)
    return total("between them", plus(above.bottom), minus(below.top))


def _under(grid: Grid, above: FrontPlan, below: FrontPlan) -> bool:
    """Whether no open opening lies between two fronts of a column."""
    return any((a.id, b.id) == (above.opening, below.opening) for a, b in stacked(grid.run))


def _planned(a: FrontPlan, b: FrontPlan) -> bool:
    """Whether a gap between these two is chosen, and not only what is left."""
    return by_line(a.look) and by_line(b.look) and planned_gap(a.look).value == planned_gap(b.look).value


def _end_gap(grid: Grid, side: str, bare: Figure) -> Figure:
    skin = skin_at(grid.index, grid.run, side)
    return total(f"{side} reveal, to the skin", plus(bare), plus(skin)) if skin is not None else bare


def _with_skins(grid: Grid, bare: Figure) -> Figure:
    skins = [skin for side in ("left", "right") if (skin := skin_at(grid.index, grid.run, side)) is not None]
    return total(f"{bare.name} with its skins", plus(bare), *(plus(s) for s in skins)) if skins else bare
