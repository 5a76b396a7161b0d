"""Division lines (F15, F18): fronts live between lines; lines are rounded, sizes are what is left."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from frontwright.core.figures import Figure, Term, minus, plus, rounded, share, total
from frontwright.core.fronts.looks import end_of
from frontwright.core.fronts.result import Line, LookPlan
from frontwright.core.job import Front
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO, Display
from frontwright.core.skins import skin_thickness
from frontwright.core.survey.result import OpeningPlan, RunPlan

Pair = tuple[Figure, Figure]


@dataclass(frozen=True, slots=True)
class Grid:
    """One placed run as the fronts chapter sees it: its lines between columns and between openings of a column.

    `beside`: the openings whose fronts share their upper and lower edges with those of an opening.
    """

    index: JobIndex
    run: RunPlan
    looks: Mapping[str, LookPlan]
    display: Display
    upright: Mapping[tuple[str, str], Line]
    level: Mapping[tuple[str, str], Line]
    beside: Mapping[str, list[str]] = field(default_factory=dict)

    def opening(self, opening: str) -> OpeningPlan:
        """An opening of this run by its id."""
        return next(o for o in self.run.openings if o.id == opening)

    def step(self, name: str, figure: Figure) -> Figure:
        """A front edge on the job's step, half up."""
        return rounded(name, figure, self.display.step, "the step")


def grid_of(index: JobIndex, run: RunPlan, looks: Mapping[str, LookPlan], display: Display) -> Grid:
    """The run with the division line between each two neighbouring columns and openings."""
    bare = Grid(index, run, looks, display, {}, {})
    upright = _equal_lines(bare) or _member_lines(run)
    rows = _sharing_rows(index, run, looks)
    beside = {opening: [other for other in row if other != opening] for row in rows for opening in row}
    return Grid(index, run, looks, display, upright, _shared_level(_rail_lines(run), rows), beside)


def _sharing_rows(index: JobIndex, run: RunPlan, looks: Mapping[str, LookPlan]) -> list[list[str]]:
    """The openings of each row whose fronts share their upper and lower edges; inset fronts keep to their openings."""
    own = {f.id: o.id for o in run.openings for f in index.fronts.get(o.id, []) if looks[o.id].scheme != "inset"}
    rows = (row for row in index.job.front_rows.values() if row.share_edges and row.direction == "row")
    return [list(dict.fromkeys(own[f] for f in row.fronts if f in own)) for row in rows]


def _shared_level(lines: dict[tuple[str, str], Line], rows: list[list[str]]) -> dict[tuple[str, str], Line]:
    """One line above and one below all openings of a row: the middle of their own."""
    for row in rows:
        for side in (0, 1):
            keys = [key for key in lines if key[side] in row]
            if len(keys) > 1:
                own = [lines[key] for key in keys]
                name = " and ".join(line.of for line in own)
                both = total(f"lines of {name} together", *(plus(line.at) for line in own))
                shared = share(f"middle of {name}", both, len(own))
                lines |= {key: Line(line.of, upright=False, at=shared) for key, line in zip(keys, own, strict=True)}
    return lines


def between(run: RunPlan) -> list[tuple[str, str, list[str]]]:
    """Neighbouring columns with the upright members that stand between them."""
    found: list[tuple[str, str, list[str]]] = []
    last, members = "", list[str]()
    columns = {c.id for c in run.columns}
    for item in run.order:
        if item not in columns:
            members.append(item)
            continue
        if last:
            found.append((last, item, members))
        last, members = item, []
    return found


def _column_edges(run: RunPlan) -> dict[str, Pair]:
    return {o.column: (o.left, o.right) for o in run.openings if o.left is not None and o.right is not None}


def _member_lines(run: RunPlan) -> dict[tuple[str, str], Line]:
    """F15: the middle of what stands between two columns."""
    edges = _column_edges(run)
    lines: dict[tuple[str, str], Line] = {}
    for left, right, members in between(run):
        if left in edges and right in edges:
            name = " and ".join(members) or f"between {left} and {right}"
            inner = _where_boxes_meet(run, members) or (edges[left][1], edges[right][0])
            lines[left, right] = Line(name, upright=True, at=_middle(f"middle of {name}", *inner))
    return lines


def _where_boxes_meet(run: RunPlan, members: list[str]) -> Pair | None:
    """F15: between two frameless boxes the line is the middle of their seam, however thick the sides are."""
    own = [m for m in run.members if m.id in members]
    kinds = [m.member.kind for m in own]
    if kinds == ["side", "seam", "side"]:
        return own[1].left, own[1].right
    return (own[0].right, own[1].left) if kinds == ["side", "side"] else None


def _middle(name: str, low: Figure, high: Figure) -> Figure:
    both = total(f"both edges, {name}", plus(low), plus(high))
    return share(name, both, 2)


def _rail_lines(run: RunPlan) -> dict[tuple[str, str], Line]:
    """The middle of each mid rail, by the opening above it and the one below."""
    lines: dict[tuple[str, str], Line] = {}
    for above, below in stacked(run):
        if above.bottom is not None and below.top is not None:
            rail = _rail_between(run, above)
            lines[above.id, below.id] = Line(
                rail, upright=False, at=_middle(f"middle of {rail}", below.top, above.bottom)
            )
    return lines


def stacked(run: RunPlan) -> list[tuple[OpeningPlan, OpeningPlan]]:
    """Openings that lie over each other in a column: (above, below)."""
    pairs: list[tuple[OpeningPlan, OpeningPlan]] = []
    for column in run.columns:
        own = [o for o in run.openings if o.column == column.id]
        pairs += list(pairwise(own))
    return pairs


def _rail_between(run: RunPlan, above: OpeningPlan) -> str:
    for rail in run.rails:
        own = rail.member.column == above.column or rail.id == f"mid rail under {above.id}"
        if rail.member.kind == "mid rail" and own and rail.member.place == above.opening.place:
            return rail.id
    return f"mid rail under {above.id}"


def _equal_lines(grid: Grid) -> dict[tuple[str, str], Line]:
    """F18: lines that make the fronts of a run equal; empty where that was not chosen or an end is not known."""
    columns = [c.id for c in grid.run.columns]
    firsts = {c: next((o.id for o in grid.run.openings if o.column == c), "") for c in columns}
    if not columns or not all(firsts[c] and grid.looks[firsts[c]].equal_fronts for c in columns):
        return {}
    ends = (outer_edge(grid, firsts[columns[0]], "left"), outer_edge(grid, firsts[columns[-1]], "right"))
    counts = [_side_by_side(grid, c) for c in columns]
    reveal = planned_gap(grid.looks[firsts[columns[0]]])
    meeting = grid.looks[firsts[columns[0]]].meeting_gap
    span = total("room for the fronts", plus(ends[1]), minus(ends[0]), minus(reveal, len(columns) - 1))
    pairs = sum(counts) - len(columns)
    span = total("all fronts together", plus(span), minus(meeting, pairs)) if pairs else span
    each = share("each front, before rounding", span, sum(counts))
    return _lines_at(columns, counts, ends[0], each, reveal, meeting)


def _lines_at(
    columns: list[str], counts: list[int], start: Figure, each: Figure, reveal: Figure, meeting: Figure
) -> dict[tuple[str, str], Line]:
    lines: dict[tuple[str, str], Line] = {}
    half = share("half a reveal", reveal, 2)
    done = 0
    for at, (left, right) in enumerate(pairwise(columns)):
        done += counts[at]
        terms = [plus(start), Term(each, done), Term(reveal, at), Term(meeting, done - at - 1), plus(half)]
        name = f"line between {left} and {right}"
        lines[left, right] = Line(name, upright=True, at=total(name, *(t for t in terms if t.factor)))
    return lines


def _side_by_side(grid: Grid, column: str) -> int:
    """The most doors that stand side by side in an opening of this column."""
    own = (len(made_fronts(grid.index, o.id)) for o in grid.run.openings if o.column == column)
    return max([1, *own])


def made_fronts(index: JobIndex, opening: str) -> list[Front]:
    """The fronts of an opening that are made, left to right; an open one has none."""
    return [f for f in index.fronts.get(opening, []) if f.kind != "open"]


def planned_gap(look: LookPlan) -> Figure:
    """What is planned between two neighbouring fronts: the gap of full cover, the reveal of partial cover."""
    if look.scheme == "partial cover" and look.reveal is not None:
        return look.reveal
    return look.gap


def by_line(look: LookPlan) -> bool:
    """Whether inner edges come from division lines (F15, F19) and not from the opening's own edge and cover (F16)."""
    by_reveal = look.reveal is not None and (look.equal_fronts or not look.cover_chosen)
    return look.scheme == "full cover" or (look.scheme == "partial cover" and by_reveal)


def outer_edge(grid: Grid, opening: str, side: str) -> Figure:
    """The outermost edge at an end of the run: as pinned by the look, else on the step by its reveal or the cover."""
    plan = grid.opening(opening)
    given = end_of(grid.index, opening, side, "front")
    if given is None:
        return covered_edge(grid, plan, side)
    kind, figure = given
    if kind == "edge":
        return figure
    name, inward = f"outermost {side} edge", side in ("left", "bottom")
    skin = skin_at(grid.index, grid.run, side)
    skins = [minus(skin) if inward else plus(skin)] if skin is not None else []
    edge = total(name, plus(run_end(grid.run, side)), *skins, plus(figure) if inward else minus(figure))
    return grid.step(name, edge)


def skin_at(index: JobIndex, run: RunPlan, side: str) -> Figure | None:
    """The skin at an end, where the look counts its reveals on skins; else None."""
    first = next((o.id for o in run.openings), "")
    if not first or index.inherited(first, "reveals_on") != "skins":
        return None
    return skin_thickness(index, run.id, side)


def run_end(run: RunPlan, side: str) -> Figure:
    """The bare frame's end: its datum, its length or its height."""
    far = run.overall if side == "right" else run.height if side == "top" else None
    return far or Figure("datum", ZERO, "chosen", "where the tape is hooked")


def covered_edge(grid: Grid, plan: OpeningPlan, side: str) -> Figure:
    """F16: the opening's edge and the cover over it, on the job's step."""
    cover = grid.looks[plan.id].cover
    edge = {"left": plan.left, "right": plan.right, "bottom": plan.bottom, "top": plan.top}[side]
    base = edge or own_edge(plan, side)
    outward = minus(cover) if side in ("left", "bottom") else plus(cover)
    return grid.step(f"{side} edge over {plan.id}", total(f"{side} edge over {plan.id}", plus(base), outward))


def own_edge(plan: OpeningPlan, side: str) -> Figure:
    """An edge counted from the opening's own lower left corner."""
    if side in ("left", "bottom"):
        return Figure(f"lower left corner of {plan.id}", ZERO, "chosen", "counted from here")
    return plan.width if side == "right" else plan.height
