"""A run in its place: upright members and columns along the tape, rails and openings up each column."""

from __future__ import annotations

from collections.abc import Mapping

from frontwright.core.assumed import assumed, measured
from frontwright.core.figures import Figure, Term, least, minus, most, total
from frontwright.core.job import Column, End, Member, Opening, Run
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import ZERO
from frontwright.core.survey.closures import closures_of, column_closure
from frontwright.core.survey.openings import digest
from frontwright.core.survey.positions import Item, spans
from frontwright.core.survey.readings import every, middle_of, taped
from frontwright.core.survey.result import Closure, MemberPlan, OpeningPlan, RunPlan
from frontwright.core.survey.straight import over_height, scribe

Edges = tuple[Figure, Figure]


def run_plan(index: JobIndex, run: Run) -> RunPlan:
    """Everything the survey says of one run."""
    heights = tuple(every(index, run.id, "height"))
    height = least(f"height of {run.id}", heights, "the least governs") if heights else None
    columns = tuple(index.columns.get(run.id, []))
    openings = {c.id: index.openings.get(c.id, []) for c in columns}
    if run.by_itself:
        own = tuple(digest(index, o, run.id, None, None, (None, None)) for c in columns for o in openings[c.id])
        ids = tuple(c.id for c in columns)
        return RunPlan(run, ids, (), (), columns, own, None, None, heights, ends_of(index, run), (), {})
    order = index.uprights(run.id)
    across = _along(index, run, order, openings)
    ups = {c.id: _up(index, run, c, openings[c.id], height) for c in columns}
    top = (
        height or most(f"height of {run.id}", [rails[-1][1][1] for _, rails, _ in ups.values()], "") if ups else height
    )
    members = tuple(_member(index, m, across[m.id], top) for m in order if isinstance(m, Member))
    rails = tuple(_rail(index, rail, across[c.id], edges) for c in columns for rail, edges in ups[c.id][1])
    plans = tuple(_opening(index, run, o, across[c.id], ups[c.id][0][o.id]) for c in columns for o in openings[c.id])
    overall = _overall(index, run, [across[item.id] for item in order])
    closures = closures_of(index, run, order, openings)
    up_closures = {c: closure for c, (_, _, closure) in ups.items() if closure is not None}
    ids = tuple(item.id for item in order)
    return RunPlan(
        run,
        ids,
        members,
        rails,
        columns,
        plans,
        overall,
        top,
        heights,
        ends_of(index, run),
        closures,
        up_closures,
        *_straight(index, run, overall, top),
    )


def ends_of(index: JobIndex, run: Run) -> Mapping[str, End]:
    """The ends of a run that were described, by side."""
    return {side: index.ends[run.id, side] for side in ("left", "right") if (run.id, side) in index.ends}


def _overall(index: JobIndex, run: Run, edges: list[Edges]) -> Figure | None:
    """The run's length: the far edge of what stands last, else the reading in one stretch."""
    if edges:
        return Figure(f"length of {run.id}", edges[-1][1].value, "derived", "", (Term(edges[-1][1]),))
    return next(iter(every(index, run.id, "overall")), None)


def _along(
    index: JobIndex, run: Run, order: list[Member | Column], openings: Mapping[str, list[Opening]]
) -> dict[str, Edges]:
    """Left and right edge of every upright thing, from the datum."""
    items = [
        _column_item(index, thing, openings[thing.id]) if isinstance(thing, Column) else _member_item(index, run, thing)
        for thing in order
    ]
    taken = every(index, run.id, "overall")
    overall = middle_of(f"overall of {run.id}", taken) if taken else None
    return {item.id: span for item, span in zip(items, spans(items, overall=overall), strict=True)}


def _column_item(index: JobIndex, column: Column, openings: list[Opening]) -> Item:
    single = every(index, column.id, "across") or _first_widths(index, openings)
    size = middle_of(f"width of {column.id}", single) if single else None
    return Item(column.id, size, assumed(index.unit, "opening width"))


def _first_widths(index: JobIndex, openings: list[Opening]) -> list[Figure]:
    """The width of the first opening of a column that has one: at the middle before top and bottom."""
    for opening in openings:
        for at in ("middle", "top", "bottom"):
            if (read := taped(index, opening.id, "width", at)) is not None:
                return [read]
    return []


def _member_item(index: JobIndex, run: Run, member: Member) -> Item:
    single = every(index, member.id, "across")
    left, right = every(index, member.id, "edge left"), every(index, member.id, "edge right")
    return Item(
        member.id,
        middle_of(f"across {member.id}", single) if single else None,
        _usual_width(index, run, member),
        middle_of(f"left edge of {member.id}", left) if left else None,
        middle_of(f"right edge of {member.id}", right) if right else None,
    )


def _usual_width(index: JobIndex, run: Run, member: Member) -> Figure:
    if member.kind == "seam":
        return Figure(f"width of {member.id}", ZERO, "assumed", "boxes drawn tight")
    if member.kind in ("side", "partition"):
        return _side(index, run, member)
    return assumed(index.unit, "frame member")


def _side(index: JobIndex, run: Run, member: Member) -> Figure:
    boxes = index.cabinets.get(run.id, [])
    box = next((c for c in boxes if c.id == member.cabinet), boxes[0] if boxes else None)
    if box is not None and box.side is not None and box.side.value is not None:
        return Figure("side of the box", box.side.value, "taped")
    return assumed(index.unit, "side")


def _up(
    index: JobIndex, run: Run, column: Column, openings: list[Opening], height: Figure | None
) -> tuple[dict[str, Edges], list[tuple[Member, Edges]], Closure | None]:
    """Edges of a column's openings and rails, bottom rail first, from the run's bottom edge; and whether they close."""
    stack = _stack(index, run, column, openings)
    items = [
        _rail_item(index, run, thing) if isinstance(thing, Member) else _opening_item(index, thing) for thing in stack
    ]
    placed = list(zip(stack, spans(items, height), strict=True))
    return (
        {thing.id: pair for thing, pair in placed if isinstance(thing, Opening)},
        [(thing, pair) for thing, pair in placed if isinstance(thing, Member)],
        column_closure(index, run, column, items, height),
    )


def _stack(index: JobIndex, run: Run, column: Column, openings: list[Opening]) -> list[Member | Opening]:
    """Rails and openings of a column from the bottom up; rails nobody named are there all the same."""
    mids = {m.place: m for m in index.members.get(run.id, []) if m.kind == "mid rail" and m.column == column.id}
    stack: list[Member | Opening] = [_end_rail(index, run, column, "bottom rail")]
    for at in range(len(openings) - 1, -1, -1):
        stack.append(openings[at])
        if at > 0:
            above = openings[at - 1]
            stack.append(mids.get(above.place) or _usual_mid_rail(run, column, above))
    stack.append(_end_rail(index, run, column, "top rail"))
    return stack


def _usual_mid_rail(run: Run, column: Column, above: Opening) -> Member:
    return Member(f"mid rail under {above.id}", run.id, "mid rail", above.place, column=column.id)


def _end_rail(index: JobIndex, run: Run, column: Column, kind: str) -> Member:
    """The column's own top or bottom rail, else the run's, else one that is only assumed."""
    rails = [m for m in index.members.get(run.id, []) if m.kind == kind and m.column in (None, column.id)]
    rails.sort(key=lambda m: m.column is None)
    return (
        rails[0]
        if rails
        else Member(f"{run.id} {kind}", run.id, "bottom rail" if kind == "bottom rail" else "top rail")
    )


def _rail_item(index: JobIndex, run: Run, rail: Member) -> Item:
    single = every(index, rail.id, "across")
    low, high = every(index, rail.id, "edge low"), every(index, rail.id, "edge high")
    frameless = index.cabinet_kind(run.id) == "frameless"
    return Item(
        rail.id,
        middle_of(f"across {rail.id}", single) if single else None,
        assumed(index.unit, "side" if frameless else "frame member"),
        middle_of(f"lower edge of {rail.id}", low) if low else None,
        middle_of(f"upper edge of {rail.id}", high) if high else None,
    )


def _opening_item(index: JobIndex, opening: Opening) -> Item:
    for at in ("middle", "left", "right"):
        if (read := taped(index, opening.id, "height", at)) is not None:
            return Item(opening.id, read, read)
    return Item(opening.id, None, assumed(index.unit, "opening height"), gives=True)


def _member(index: JobIndex, member: Member, edges: Edges, top: Figure | None) -> MemberPlan:
    left, right = edges
    across = total(f"width of {member.id}", Term(right), Term(left, -1))
    single = every(index, member.id, "across")
    widest = most(f"widest reading of {member.id}", [across, *single])
    datum = Figure("bottom edge of the run", ZERO, "chosen", "the datum")
    return MemberPlan(member, left, right, datum, top or datum, across, widest)


def _rail(index: JobIndex, rail: Member, x: Edges, y: Edges) -> MemberPlan:
    across = total(f"width of {rail.id}", Term(y[1]), minus(y[0]))
    widest = most(f"widest reading of {rail.id}", [across, *every(index, rail.id, "across")])
    return MemberPlan(rail, x[0], x[1], y[0], y[1], across, widest)


def _opening(index: JobIndex, run: Run, opening: Opening, x: Edges, y: Edges) -> OpeningPlan:
    """Run and rails say the opening's size too; what was read of the opening itself goes before an assumption."""
    width = total(f"width of {opening.id} on the run", Term(x[1]), minus(x[0]))
    height = total(f"height of {opening.id} between rails", Term(y[1]), minus(y[0]))
    return digest(index, opening, run.id, x, y, (_positive(width), _positive(height)))


def _positive(figure: Figure) -> Figure | None:
    return figure if figure.length > ZERO else None


Straight = tuple[Figure | None, Mapping[str, Figure], Mapping[str, Figure]]


def _straight(index: JobIndex, run: Run, overall: Figure | None, height: Figure | None) -> Straight:
    """Slope of the run, lean of the walls at its ends, scribes: as far as they were read."""
    leans: dict[str, Figure] = {}
    scribes: dict[str, Figure] = {}
    for side, end in ends_of(index, run).items():
        shows, over = measured(end.leans, "wall leans towards the run"), measured(end.leans_over, "over a length of")
        if shows is not None:
            leans[side] = over_height("lean of the wall", shows, over, height) if over and height else shows
        given = (measured(gap, f"gap at the {side} end") for gap in (end.gap_top, end.gap_middle, end.gap_bottom))
        gaps = [gap for gap in given if gap is not None]
        if len(gaps) > 1:
            scribes[side] = scribe(gaps, assumed(index.unit, "scribe room"))
    slope_shows, slope_over = measured(run.slope_shows, "level shows"), measured(run.slope_over, "length of the level")
    slope = None
    if slope_shows and slope_over and overall:
        slope = over_height(f"slope of {run.id}", slope_shows, slope_over, overall)
    return slope, leans, scribes
