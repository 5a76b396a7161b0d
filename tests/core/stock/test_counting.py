"""Counting day."""

from __future__ import annotations

from frontwright.core.job import HardwareLot, Reservation
from frontwright.core.stock.counting import along_the_shelves, last_seen, not_looked_at, year_before
from frontwright.core.stock.moves import after_all
from frontwright.core.stock.rack import Rack, over
from stock.racks import board, come, move


def test_the_shelves_are_walked_along_in_order_and_what_has_no_place_comes_last() -> None:
    pieces = [board("L-10", shelf="B10"), board("L-2", shelf="B2"), board("L-11", shelf="B2"), board("L-3", shelf="")]
    rack = after_all(Rack(), [*(come(one) for one in pieces), come(HardwareLot("H-1", "hinge", 4, "B2"))])
    walk = along_the_shelves(rack)
    assert [shelf.name for shelf in walk] == ["B2", "B10", ""]
    assert [piece.id for piece in walk[0].pieces] == ["L-2", "L-11"]
    assert [lot.id for lot in walk[0].lots] == ["H-1"]


def test_what_is_used_up_is_not_looked_for() -> None:
    rack = after_all(Rack(), [come(board("L-01")), move("use up", "L-01")])
    assert along_the_shelves(rack) == ()


def test_a_piece_that_nobody_saw_or_moved_for_a_year_is_named() -> None:
    old = {"when": "2025-01-05", "job": ""}
    rack = after_all(
        Rack(),
        [move("come", name, board(name), **old) for name in ("L-01", "L-02", "L-03")]
        + [move("look", "L-02", job=""), move("reserve", "L-03")],
    )
    assert [piece.id for piece in not_looked_at(rack, "2026-11-26")] == ["L-01"]
    assert last_seen(rack) == {"L-01": "2025-01-05", "L-02": "2026-11-25", "L-03": "2026-11-25"}
    assert not_looked_at(rack, "2026-01-05") == ()


def test_text_that_is_no_date_has_no_year_before() -> None:
    assert (year_before("2026-11-25 10:00"), year_before("tomorrow")) == ("2025-11-25", "")


def test_reservations_past_their_date_are_told() -> None:
    rack = after_all(
        Rack(),
        [
            come(board("L-01")),
            come(board("L-02")),
            move("reserve", "L-01", Reservation("L-01", until="2026-11-30")),
            move("reserve", "L-02"),
        ],
    )
    assert list(over(rack, "2026-11-30")) == []
    assert [one.id for one in over(rack, "2026-12-01")] == ["L-01"]
