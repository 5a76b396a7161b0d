"""Hardware lots: so many kept for a job beside others, never more than there are."""

from __future__ import annotations

import pytest
from frontwright.core.job import HardwareLot, Move
from frontwright.core.stock.asked_of_moves import MoveRefused
from frontwright.core.stock.lots import kept_of, lots_for
from frontwright.core.stock.moves import after_all
from frontwright.core.stock.rack import Rack, RackMove, recount

HINGES = HardwareLot("H-01", "hinge 107", 20)


def moved(*moves: tuple[str, str, int]) -> Rack:
    """A rack with twenty hinges after these moves: kind, job, how many."""
    come = RackMove(Move("m0", "come", "H-01"), (HINGES,))
    lines = [
        RackMove(Move(f"m{n}", kind, "H-01", job=job, count=count))  # type: ignore[arg-type]  # a kind of move
        for n, (kind, job, count) in enumerate(moves, 1)
    ]
    return after_all(Rack(), [come, *lines])


def test_two_jobs_keep_of_one_lot_and_each_sees_what_is_left_for_it() -> None:
    rack = moved(("reserve", "A", 8), ("reserve", "B", 10))
    assert kept_of(rack.reservations.values(), "H-01", "A") == (8, 10)
    assert [lot.count for lot in lots_for(rack, "A")] == [10]
    assert [lot.count for lot in lots_for(rack, "C")] == [2]


def test_never_more_are_kept_than_there_are() -> None:
    with pytest.raises(MoveRefused, match="13 are wanted and 20 are there, 8 of them kept for others; keep fewer"):
        moved(("reserve", "A", 8), ("reserve", "B", 13))


def test_what_a_job_keeps_replaces_what_it_kept_before_and_can_be_given_back() -> None:
    assert kept_of(moved(("reserve", "A", 8), ("reserve", "A", 3)).reservations.values(), "H-01", "A") == (3, 0)
    assert not moved(("reserve", "A", 8), ("release", "A", 1)).reservations


def test_what_is_used_comes_off_what_the_job_kept_and_never_off_what_others_keep() -> None:
    rack = moved(("reserve", "A", 8), ("reserve", "B", 6), ("use up", "A", 5))
    assert kept_of(rack.reservations.values(), "H-01", "A") == (3, 6)
    assert rack.lots["H-01"].count == 15
    assert not [row for row in moved(("reserve", "A", 8), ("use up", "A", 8)).reservations.values() if row.job == "A"]
    with pytest.raises(MoveRefused, match="kept for others; take fewer"):
        moved(("reserve", "B", 15), ("use up", "A", 6))


def test_the_ledger_counts_kept_lots_too_and_takes_them_back() -> None:
    rack = moved(("reserve", "A", 8), ("reserve", "B", 6))
    assert recount(rack.moves.values()) == rack
    back = after_all(rack, [RackMove(Move("b", "take back", "H-01", job="B", undoes="m2"))])
    assert kept_of(back.reservations.values(), "H-01", "A") == (8, 0)
