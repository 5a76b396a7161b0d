"""Lots of hardware: so many of one kept for each job, and what is left of it for the others."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from frontwright.core.job import HardwareLot, Reservation
from frontwright.core.stock.asked_of_moves import MoveRefused, Outcome
from frontwright.core.stock.rack import Rack, RackMove, key_of


def kept_id(lot: str, job: str) -> str:
    """The id of what a job (its mark) keeps of a lot: one row a lot and job."""
    return f"{lot} {job}"


def kept_of(reservations: Iterable[Reservation], lot: str, job: str) -> tuple[int, int]:
    """How many of a lot a job keeps, and how many all others do."""
    rows = [row for row in reservations if row.lot == lot]
    mine = sum(row.count for row in rows if row.job == job)
    return mine, sum(row.count for row in rows) - mine


def lots_for(rack: Rack, job: str) -> tuple[HardwareLot, ...]:
    """The lots with as many as there are for a job: without what others keep."""
    rows = rack.reservations.values()
    return tuple(replace(lot, count=max(0, lot.count - kept_of(rows, lot.id, job)[1])) for lot in rack.lots.values())


def reserve_lot(rack: Rack, move: RackMove) -> Outcome:
    """So many of a lot for a job, in place of what it kept before; MoveRefused where others keep too many."""
    lot, job, count = rack.lots[move.line.piece], move.line.job, move.line.count
    if not job:
        raise MoveRefused(f"{lot.id}: a reservation needs a job that counts on it.")
    _, others = kept_of(rack.reservations.values(), lot.id, job)
    if not 1 <= count <= lot.count - others:
        kept = f", {others} of them kept for others" if others else ""
        raise MoveRefused(f"{lot.id}: {count} are wanted and {lot.count} are there{kept}; keep fewer.")
    asked = next((row for row in move.rows if isinstance(row, Reservation)), Reservation(lot.id, name=move.line.name))
    return [replace(asked, id=kept_id(lot.id, job), job=job, lot=lot.id, count=count)], []


def release_lot(rack: Rack, move: RackMove) -> Outcome:
    """A job keeps nothing of a lot any more."""
    held = rack.reservations.get(kept_id(move.line.piece, move.line.job))
    if held is None:
        raise MoveRefused(f"{move.line.piece}: nothing of it is kept for this job.")
    return [], [key_of(held)]


def use_lot(rack: Rack, move: RackMove) -> Outcome:
    """So many of a lot are used; what the job kept of it goes first, what others keep stays."""
    lot, count = rack.lots[move.line.piece], move.line.count
    mine, others = kept_of(rack.reservations.values(), lot.id, move.line.job)
    if not 1 <= count <= lot.count - others:
        kept = f", {others} of them kept for others" if others else ""
        raise MoveRefused(f"{lot.id}: {count} are wanted and {lot.count} are there{kept}; take fewer.")
    less = replace(lot, count=lot.count - count)
    held = rack.reservations.get(kept_id(lot.id, move.line.job))
    if held is None:
        return [less], []
    return ([less, replace(held, count=mine - count)], []) if mine > count else ([less], [key_of(held)])
