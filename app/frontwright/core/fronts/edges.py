"""Edges of fronts: by lines, by cover, inset, pinned; pairs split in their middle (F15 to F18)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from frontwright.core.figures import Figure, least, minus, plus, share, total, unrounded
from frontwright.core.fronts.lines import (
    Grid,
    by_line,
    covered_edge,
    made_fronts,
    outer_edge,
    own_edge,
    planned_gap,
)
from frontwright.core.fronts.result import LookPlan
from frontwright.core.job import Front
from frontwright.core.lengths import Typed
from frontwright.core.survey.result import OpeningPlan

Side = Literal["left", "right", "bottom", "top"]
SIDES: tuple[Side, ...] = ("left", "right", "bottom", "top")
OPPOSITE: dict[Side, Side] = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}
LOW = ("left", "bottom")


@dataclass(frozen=True, slots=True)
class Edges:
    """Four edges of a front or of all fronts of an opening together."""

    left: Figure
    right: Figure
    bottom: Figure
    top: Figure


def pinned(front: Front, side: Side) -> Figure | None:
    """The edge where a person put it, or None."""
    typed: Typed | None = getattr(front, f"pin_{side}")
    if typed is None or typed.value is None:
        return None
    return Figure(f"{side} edge of {front.id}", typed.value, "chosen", "pinned")


def opening_edges(grid: Grid, neighbours: Mapping[tuple[str, Side], list[str]], opening: OpeningPlan) -> Edges:
    """The outer edges of what covers or fills one opening."""
    look = grid.looks[opening.id]
    rule = _inset(grid, opening, look) if look.scheme == "inset" else None
    found = {side: _edge(grid, neighbours, opening, side, rule) for side in SIDES}
    return Edges(found["left"], found["right"], found["bottom"], found["top"])


def _edge(
    grid: Grid, neighbours: Mapping[tuple[str, Side], list[str]], opening: OpeningPlan, side: Side, rule: Edges | None
) -> Figure:
    """A pin of the opening's own fronts, else of the front across the gap, else the rule of the look."""
    if (pin := _pin_of(grid, opening.id, side)) is not None:
        return pin
    across = neighbours.get((opening.id, side), [])
    if rule is None and (follows := _follows(grid, opening, across, side)) is not None:
        return follows
    if rule is not None:
        return {"left": rule.left, "right": rule.right, "bottom": rule.bottom, "top": rule.top}[side]
    return _by_look(grid, opening, across, side)


def _follows(grid: Grid, opening: OpeningPlan, across: list[str], side: Side) -> Figure | None:
    """The edge that keeps the gap to a neighbour's pinned edge; by cover alone no gap is planned, and none is kept."""
    if not by_line(grid.looks[opening.id]):
        return None
    gap = planned_gap(grid.looks[opening.id])
    for other in across:
        pin = _pin_of(grid, other, OPPOSITE[side])
        if pin is not None and grid.looks[other].scheme != "inset":
            return total(f"{side} edge over {opening.id}", plus(pin), plus(gap) if side in LOW else minus(gap))
    return None


def _pin_of(grid: Grid, opening: str, side: Side) -> Figure | None:
    """Where this side of an opening's fronts is pinned, by themselves or by a row that shares their upper and lower
    edges."""
    others = grid.beside.get(opening, []) if side in ("bottom", "top") else []
    fronts = (f for o in (opening, *others) for f in _outermost(made_fronts(grid.index, o), side))
    return next((pin for front in fronts if (pin := pinned(front, side)) is not None), None)


def _outermost(fronts: list[Front], side: Side) -> list[Front]:
    """The fronts of an opening that lie at this side: of doors side by side the first or the last, else all."""
    if side == "left":
        return fronts[:1]
    return fronts[-1:] if side == "right" else fronts


def _by_look(grid: Grid, opening: OpeningPlan, across: list[str], side: Side) -> Figure:
    look = grid.looks[opening.id]
    if opening.left is None:
        return covered_edge(grid, opening, side)
    if not across and _at_end(grid, opening, side):
        return outer_edge(grid, opening.id, side)
    line = _line(grid, opening, side)
    if line is None or not by_line(look):
        return covered_edge(grid, opening, side)
    gap = planned_gap(look)
    half = share("half the gap", gap, 2)
    low = total(f"edge before the line of {opening.id}", plus(line), minus(half))
    before = grid.step(f"{OPPOSITE[side] if side in LOW else side} edge at the line", low)
    if side not in LOW:
        return before
    return total(f"{side} edge over {opening.id}", plus(before), plus(gap))


def _line(grid: Grid, opening: OpeningPlan, side: Side) -> Figure | None:
    at = {"left": 1, "right": 0, "top": 1, "bottom": 0}[side]
    lines = grid.upright if side in ("left", "right") else grid.level
    me = opening.column if side in ("left", "right") else opening.id
    return next((line.at for pair, line in lines.items() if pair[at] == me), None)


def _at_end(grid: Grid, opening: OpeningPlan, side: Side) -> bool:
    """Whether nothing further stands at this side of the opening; beside an empty column the run goes on."""
    own = [o.id for o in grid.run.openings if o.column == opening.column]
    columns = [c.id for c in grid.run.columns]
    at, of = (opening.column, columns) if side in ("left", "right") else (opening.id, own)
    return of[0 if side in ("left", "top") else -1] == at


def _inset(grid: Grid, opening: OpeningPlan, look: LookPlan) -> Edges:
    """F17: the least reading less its gaps; it starts at the gap from the opening's edge."""
    name = opening.id
    width = total(f"width inside {name}", plus(opening.width_least), minus(look.inset_side, 2))
    height = total(f"height inside {name}", plus(opening.height_least), minus(look.inset_top), minus(look.inset_bottom))
    left = total(f"left edge in {name}", plus(opening.left or own_edge(opening, "left")), plus(look.inset_side))
    bottom = total(
        f"bottom edge in {name}", plus(opening.bottom or own_edge(opening, "bottom")), plus(look.inset_bottom)
    )
    wide, high = grid.step(f"width inside {name}", width), grid.step(f"height inside {name}", height)
    return Edges(
        left,
        total(f"right edge in {name}", plus(left), plus(wide)),
        bottom,
        total(f"top edge in {name}", plus(bottom), plus(high)),
    )


def split(grid: Grid, opening: OpeningPlan, fronts: list[Front], whole: Edges) -> list[Edges]:
    """The fronts of an opening side by side: the doors of a pair equal but for the step, one meeting gap between."""
    if len(fronts) < 2:
        return [whole]
    look = grid.looks[opening.id]
    inset = look.scheme == "inset"
    meeting = look.inset_meeting if inset else look.meeting_gap
    start, far = unrounded(whole.left), unrounded(whole.right)
    room = total("doors of the pair together", plus(far), minus(start), minus(meeting, len(fronts) - 1))
    each = share("each door, before rounding", room, len(fronts))
    done: list[Edges] = []
    for at, front in enumerate(fronts):
        left = total(f"left edge of {front.id}", plus(done[-1].right), plus(meeting)) if done else whole.left
        left = pinned(front, "left") or left
        right = whole.right
        if at < len(fronts) - 1:
            line = _division(grid, front, start, each, meeting, at, left if inset else None)
            right = _door_right(front, fronts[at + 1], meeting, line)
        upright = (pinned(front, "bottom") or whole.bottom, pinned(front, "top") or whole.top)
        done.append(Edges(left, right, *upright))
    return done


def _division(
    grid: Grid, front: Front, start: Figure, each: Figure, meeting: Figure, at: int, inside: Figure | None
) -> Figure:
    """Where doors side by side part: an edge on the step; inset it is the door that is on the step."""
    name = f"right edge of {front.id}"
    if inside is not None:
        return total(name, plus(inside), plus(grid.step(f"width of {front.id}", each)))
    return grid.step(name, total(name, plus(start), plus(each, at + 1), *([plus(meeting, at)] if at else [])))


def _door_right(front: Front, after: Front, meeting: Figure, otherwise: Figure) -> Figure:
    """A door's edge at the meeting gap: its own pin, or a gap before its neighbour's, or the pair's division."""
    if (pin := pinned(front, "right")) is not None:
        return pin
    if (pin := pinned(after, "left")) is not None:
        return total(f"right edge of {front.id}", plus(pin), minus(meeting))
    return otherwise


def shared_width(name: str, wholes: list[Edges]) -> Figure:
    """Fronts that share their outer edges are as wide as the narrowest of them."""
    widths = [total(f"width {at + 1} of {name}", plus(w.right), minus(w.left)) for at, w in enumerate(wholes)]
    return least(f"shared width of {name}", widths, "the narrowest governs")
