"""A front as it looks: wood with its grain, the lines of its frame, its hinge side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from frontwright.core.drawing.marks import Box, GrainLines, HingeLines, Line, Mark, Outline
from frontwright.core.drawing.places import HERE, Shift, front_box, length_of
from frontwright.core.fronts.result import FrontPlan, RowPlan
from frontwright.core.job import Grain
from frontwright.core.lengths import Length, half_up
from frontwright.core.making.result import FrontMaking


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of a front as it is seen: what it is, where, and how its grain runs."""

    kind: str
    box: Box
    along: Grain


def pieces(front: FrontPlan, made: FrontMaking | None, by: Shift = HERE) -> tuple[Piece, ...]:
    """Stiles, rails and panels from the front, left to right and top down; one piece for a slab."""
    whole = front_box(front, by)
    if made is None or made.slab or made.stile is None:
        return (Piece("slab", whole, front.grain),)
    left, bottom, right, top = (half_up(edge) for edge in (whole.left, whole.bottom, whole.right, whole.top))
    stile = made.stile.length
    inner_left, inner_right = left + stile, right - stile
    rails = _rails(made, bottom, top)
    found = [
        Piece("stile", Box(left, bottom, inner_left, top), "vertical"),
        Piece("stile", Box(inner_right, bottom, right, top), "vertical"),
    ]
    found += [Piece(kind, Box(inner_left, low, inner_right, high), "horizontal") for kind, low, high in rails]
    for (_, low, _), (_, _, high) in pairwise(rails):
        found.append(Piece("panel", Box(inner_left, high, inner_right, low), front.grain))
    return tuple(found)


def _rails(made: FrontMaking, bottom: Length, top: Length) -> list[tuple[str, Length, Length]]:
    """Kind, lower and upper edge of every rail, from the top."""
    rails = [("top rail", top - length_of(made.top_rail), top)]
    mids = sorted(zip(made.mid_rail_low, made.mid_rails, strict=False), key=lambda m: m[0].length, reverse=True)
    rails += [("mid rail", bottom + low.length, bottom + low.length + wide.length) for low, wide in mids]
    return [*rails, ("bottom rail", bottom, bottom + length_of(made.bottom_rail))]


def front_marks(
    front: FrontPlan, made: FrontMaking | None, row: RowPlan | None, by: Shift = HERE, *, hinge_lines: bool = True
) -> Sequence[Mark]:
    """A front in an elevation; grain of a through row runs on from front to front."""
    whole = front_box(front, by)
    marks: list[Mark] = [Outline(whole.corners, "wood", "outline", front.id, yields=True)]
    parts = pieces(front, made, by)
    for at, piece in enumerate(parts):
        board = row.row.id if row is not None and piece.kind == "slab" else f"{front.id} {at}"
        marks.append(GrainLines(piece.box, piece.along, board, front.id))
    marks += [line for piece in parts for line in edges(piece, front.id)]
    if hinge_lines and front.hinge_side is not None:
        marks.append(HingeLines(whole, front.hinge_side, front.id))
    return marks


def edges(piece: Piece, subject: str) -> list[Line]:
    """The joint lines round a panel: they are the inner edges of stiles and rails."""
    of = piece.box
    if piece.kind == "panel":
        corners = of.corners
        sides = ((corners[0], corners[1]), (corners[2], corners[3]))
        return [Line(a, b, "joint", subject) for a, b in sides]
    if piece.kind == "stile":
        return [Line((x, of.bottom), (x, of.top), "joint", subject) for x in (of.left, of.right)]
    return []
