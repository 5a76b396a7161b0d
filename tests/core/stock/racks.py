"""Pieces and moves for the tests of the rack."""

from __future__ import annotations

from itertools import count
from typing import Any

from frontwright.core.job import Move, MoveKind, Piece, amount
from frontwright.core.lengths import typed
from frontwright.core.stock.rack import RackMove, RackRow

_numbers = count(1)


def board(name: str, length: str = "60", width: str = "6", thick: str = "1", **more: Any) -> Piece:
    """A free board of white ash in inches."""
    given: dict[str, Any] = {"species": "white ash", "batch": "AS1", "shelf": "B2", "moisture": amount("8")}
    sizes = {"length": typed(length, "in"), "width": typed(width, "in"), "thickness": typed(thick, "in")}
    return Piece(name, "board", **(given | sizes | more))


def move(kind: MoveKind, piece: str, *rows: RackRow, job: str = "J", **more: Any) -> RackMove:
    """A move with a new id, on 25 November 2026."""
    given: dict[str, Any] = {"name": f"job {job}", "when": "2026-11-25 10:00"} | more
    return RackMove(Move(f"m{next(_numbers)}", kind, piece, job=job, **given), rows)


def come(*rows: RackRow) -> RackMove:
    return move("come", rows[0].id, *rows, job="")


def back(made: RackMove, job: str = "J") -> RackMove:
    """The counter-move."""
    return move("take back", made.line.piece, job=job, undoes=made.id)
