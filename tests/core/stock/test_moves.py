"""What each move does to the rack, and when the wood says no."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from frontwright.core.job import Defect, HardwareLot, Piece, Reservation, amount
from frontwright.core.lengths import typed
from frontwright.core.stock.asked_of_moves import MoveRefused
from frontwright.core.stock.born import born
from frontwright.core.stock.moves import after, after_all
from frontwright.core.stock.rack import Rack, RackMove, recount, state_of, taken_by
from stock.racks import back, board, come, move


def rack(*moves: RackMove) -> Rack:
    return after_all(Rack(), moves)


def refused(whole: Rack, asked: RackMove) -> str:
    with pytest.raises(MoveRefused) as raised:
        after(whole, asked)
    said = str(raised.value)
    assert said.count("\n") == 0
    assert said.endswith(".")
    return said


def as_seen(whole: Rack, piece: str, **changes: Any) -> RackMove:
    stands = whole.pieces[piece]
    return replace(move("change", piece, replace(stands, **changes)), was=(stands,))


def test_a_piece_comes_with_its_defects_and_is_free() -> None:
    whole = rack(come(board("L-01"), Defect("knot", "L-01", "knot")))
    assert state_of(whole, whole.pieces["L-01"]) == "free"
    assert [one.id for one in whole.defects_of("L-01")] == ["knot"]


def test_a_name_that_is_on_the_rack_is_not_given_again() -> None:
    assert "There is L-01 on the rack already" in refused(rack(come(board("L-01"))), come(board("L-01")))


@pytest.mark.parametrize(("field", "text"), [("length", "0"), ("width", "-6"), ("thickness", "0")])
def test_a_piece_of_no_size_does_not_come(field: str, text: str) -> None:
    size: dict[str, Any] = {field: typed(text, "in")}
    flat = replace(board("L-01"), **size)
    assert f"its {field} must be more than nothing" in refused(Rack(), come(flat))


def test_a_piece_that_is_not_there_cannot_be_reserved() -> None:
    assert "There is no piece L-09 on the rack" in refused(Rack(), move("reserve", "L-09"))


def test_a_reserved_piece_is_refused_to_another_job_with_its_name_and_date() -> None:
    held = Reservation("L-01", name="Laundry", until="2026-12-20")
    whole = rack(come(board("L-01")), move("reserve", "L-01", held))
    assert state_of(whole, whole.pieces["L-01"]) == "reserved"
    said = refused(whole, move("reserve", "L-01", job="K"))
    assert said == "L-01 is reserved by Laundry to 2026-12-20: choose another piece or have it released."


def test_a_reservation_past_its_date_is_said_to_be_over_and_holds_until_it_is_released() -> None:
    whole = rack(come(board("L-01")), move("reserve", "L-01", Reservation("L-01", name="Laundry", until="2026-11-01")))
    assert "2026-11-01, which is over" in refused(whole, move("reserve", "L-01", job="K"))
    whole = after_all(whole, [move("release", "L-01", job="K"), move("reserve", "L-01", job="K")])
    assert whole.reservations["L-01"].job == "K"


def test_another_jobs_reservation_is_released_with_a_reason_only() -> None:
    whole = rack(come(board("L-01")), move("reserve", "L-01"))
    assert "say why it is released" in refused(whole, move("release", "L-01", job="K"))
    assert not after(whole, move("release", "L-01", job="K", why="they agreed")).reservations


def test_of_alike_pieces_so_many_are_counted_off_under_a_name_of_their_own() -> None:
    whole = rack(come(board("L-01", count=5), Defect("knot", "L-01")), move("reserve", "L-01", count=2, born=("L-02",)))
    assert (whole.pieces["L-01"].count, whole.pieces["L-02"].count) == (3, 2)
    assert list(whole.reservations) == ["L-02"]
    assert len(whole.defects_of("L-02")) == 1
    assert whole.pieces["L-02"].from_piece is None
    other = after(whole, move("reserve", "L-01", job="K", count=3))
    assert [one.id for one in taken_by(other, "K")] == ["L-01"]


def test_more_than_are_alike_are_refused() -> None:
    assert "6 are wanted and there are only 5 alike" in refused(
        rack(come(board("L-01", count=5))), move("reserve", "L-01", count=6)
    )


@pytest.mark.parametrize("much", ["61", "0", "-1"])
def test_no_more_of_a_piece_is_reserved_than_there_is(much: str) -> None:
    held = Reservation("L-01", much=typed(much, "in"))
    assert "shorter than what is to be reserved" in refused(rack(come(board("L-01"))), move("reserve", "L-01", held))


def test_a_piece_is_not_said_to_be_shorter_than_what_is_reserved_of_it() -> None:
    held = Reservation("L-01", name="Laundry", much=typed("40", "in"))
    whole = rack(come(board("L-01")), move("reserve", "L-01", held))
    for job in ("J", "K"):
        asked = replace(as_seen(whole, "L-01", length=typed("30", "in")), line=move("change", "L-01", job=job).line)
        assert "Laundry has reserved more of it than that; release it first" in refused(whole, asked)
    longer = after(whole, as_seen(whole, "L-01", length=typed("45", "in"), shelf="C1"))
    assert longer.pieces["L-01"].shelf == "C1"


def test_a_piece_found_shorter_than_what_is_reserved_of_it_is_reserved_whole() -> None:
    whole = rack(come(board("L-01")), move("reserve", "L-01", Reservation("L-01", much=typed("40", "in"))))
    found = replace(whole.pieces["L-01"], length=typed("30", "in"))
    counted = move("count", "L-01", found, count=1, why="counting day", job="")
    after_it = after(whole, counted)
    assert after_it.reservations["L-01"].much is None
    assert after(after_it, back(counted)).reservations["L-01"].much == typed("40", "in")


def test_a_piece_in_work_cannot_be_in_two_places() -> None:
    whole = rack(come(board("L-01")), move("take", "L-01"))
    assert state_of(whole, whole.pieces["L-01"]) == "in work"
    assert "in work in job J and cannot be in two places" in refused(whole, move("take", "L-01", job="K"))
    assert "can only be given back there" in refused(whole, move("release", "L-01", job="K", why="I want it"))
    given_back = after(whole, move("release", "L-01"))
    assert state_of(given_back, given_back.pieces["L-01"]) == "free"


def test_the_last_cut_uses_a_piece_up_ends_its_reservation_and_brings_the_leftover() -> None:
    whole = rack(come(board("L-01")), move("reserve", "L-01"))
    left = born(whole.pieces["L-01"], "L-02", (typed("20", "in"), typed("6", "in"), None), job="Laundry")
    whole = after(whole, move("cut", "L-01", left, born=("L-02",)))
    assert (whole.pieces["L-01"].state, whole.pieces["L-02"].state) == ("used up", "free")
    assert not whole.reservations
    assert "L-01 is used up" in refused(whole, move("take", "L-01"))


def test_a_cut_that_is_not_the_last_leaves_the_piece_in_work_and_counts_what_came_of_it() -> None:
    whole = rack(come(board("L-01")))
    first = born(whole.pieces["L-01"], "L-02", (typed("40", "in"), typed("6", "in"), None))
    whole = after(whole, move("cut", "L-01", first, ends=False))
    assert whole.pieces["L-01"].state == "in work"
    second = born(whole.pieces["L-01"], "L-03", (typed("21", "in"), typed("6", "in"), None))
    assert "more than the piece" in refused(whole, move("cut", "L-01", second))
    enough = replace(second, length=typed("20", "in"))
    assert after(whole, move("cut", "L-01", enough)).pieces["L-01"].state == "used up"


def test_what_is_cut_is_no_longer_than_its_piece() -> None:
    whole = rack(come(board("L-01")))
    long = born(whole.pieces["L-01"], "L-02", (typed("61", "in"), typed("1", "in"), None))
    assert "L-02 is longer than L-01" in refused(whole, move("cut", "L-01", long))


def test_one_of_alike_pieces_is_cut_and_the_others_stay() -> None:
    whole = rack(come(board("L-01", count=2)))
    left = born(whole.pieces["L-01"], "L-02", (typed("20", "in"), typed("6", "in"), None))
    whole = after(whole, move("cut", "L-01", left))
    assert (whole.pieces["L-01"].count, whole.pieces["L-01"].state) == (1, "free")
    whole = after(whole, move("use up", "L-01"))
    assert whole.pieces["L-01"].state == "used up"


def test_a_leftover_has_the_wood_of_its_board_and_its_share_of_the_price() -> None:
    parent = board("L-01", price=amount("40"), moisture_on="2026-10-01", cut="rift", note="bark side", photo="p.jpg")
    left = born(parent, "L-02", (typed("15", "in"), typed("3", "in"), None), job="Laundry", when="2026-11-25")
    assert (left.species, left.batch, left.shelf, left.cut) == ("white ash", "AS1", "B2", "rift")
    assert (left.moisture, left.moisture_on) == (parent.moisture, "2026-10-01")
    assert (left.from_piece, left.from_job, left.came) == ("L-01", "Laundry", "2026-11-25")
    assert left.price == amount("5.00")
    assert (left.note, left.photo, left.thickness) == ("", "", parent.thickness)


def test_a_leftover_of_a_board_without_a_price_has_none() -> None:
    assert born(board("L-01"), "L-02", (typed("15", "in"), None, None)).price is None


def test_a_burned_piece_is_gone_and_a_reserved_one_is_not_burned_by_another() -> None:
    whole = rack(come(board("L-01")), move("reserve", "L-01"))
    assert "is reserved by job J" in refused(whole, move("burn", "L-01", job="K"))
    assert after(whole, move("burn", "L-01")).pieces["L-01"].state == "burned"


def test_a_correction_of_the_count_needs_its_reason_and_none_there_means_gone() -> None:
    whole = rack(come(board("L-01", count=5)), move("reserve", "L-01", count=5))
    assert "needs its reason" in refused(whole, move("count", "L-01", count=4, job=""))
    four = after(whole, move("count", "L-01", count=4, why="counting day", job=""))
    assert (four.pieces["L-01"].count, four.pieces["L-01"].looked) == (4, "2026-11-25")
    gone = after(four, move("count", "L-01", count=0, why="not on its shelf", job=""))
    assert (gone.pieces["L-01"].state, len(gone.reservations)) == ("used up", 0)
    again = after(gone, move("count", "L-01", count=1, why="behind the planer", job=""))
    assert (again.pieces["L-01"].state, again.pieces["L-01"].count) == ("free", 1)


def test_two_who_change_different_fields_of_a_piece_both_keep_theirs() -> None:
    whole = rack(come(board("L-01")))
    shelf, note = as_seen(whole, "L-01", shelf="C4"), as_seen(whole, "L-01", note="wane at one end")
    whole = after_all(whole, [shelf, note])
    assert (whole.pieces["L-01"].shelf, whole.pieces["L-01"].note) == ("C4", "wane at one end")


def test_a_change_never_changes_the_state_of_a_piece() -> None:
    whole = rack(come(board("L-01")))
    assert after(whole, as_seen(whole, "L-01", state="burned")).pieces["L-01"].state == "free"


def test_a_new_name_is_taken_by_all_that_named_the_piece() -> None:
    first = board("L-01")
    left = born(first, "L-02", (typed("20", "in"), typed("6", "in"), None))
    cut = move("cut", "L-01", left, ends=False)
    whole = rack(come(first, Defect("knot", "L-01")), cut, name := move("rename", "L-01", born=("ASH-1",)))
    assert set(whole.pieces) == {"ASH-1", "L-02"}
    assert (whole.pieces["L-02"].from_piece, whole.defects["knot"].piece) == ("ASH-1", "ASH-1")
    assert list(whole.reservations) == ["ASH-1"]
    assert set(after(whole, back(name)).pieces) == {"L-01", "L-02"}


def test_a_lot_is_used_up_by_number_and_never_below_none() -> None:
    whole = rack(come(HardwareLot("H-1", "hinge, 1/2 cover", 4)))
    whole = after(whole, move("use up", "H-1", count=4))
    assert whole.lots["H-1"].count == 0
    assert "1 are wanted and 0 are there" in refused(whole, move("use up", "H-1", count=1))
    assert after(whole, move("count", "H-1", count=2, why="in the drawer")).lots["H-1"].count == 2


def test_a_repeated_move_changes_nothing() -> None:
    asked = move("reserve", "L-01")
    whole = rack(come(board("L-01")), asked)
    assert after(whole, asked) is whole


def test_a_reservation_taken_back_joins_what_was_counted_off_although_the_shelf_changed() -> None:
    asked = move("reserve", "L-01", count=2, born=("L-02",))
    whole = rack(come(board("L-01", count=5)), asked)
    whole = after_all(whole, [as_seen(whole, "L-01", shelf="C4"), back(asked)])
    assert (whole.pieces["L-01"].count, whole.pieces["L-01"].shelf) == (5, "C4")
    assert set(whole.pieces) == {"L-01"}
    assert not whole.reservations


def test_a_cut_is_not_taken_back_when_its_leftover_has_gone_on() -> None:
    whole = rack(come(board("L-01")))
    left = born(whole.pieces["L-01"], "L-02", (typed("20", "in"), typed("6", "in"), None))
    cut = move("cut", "L-01", left)
    whole = after_all(whole, [cut, move("reserve", "L-02", job="K")])
    assert "L-02 has gone on since" in refused(whole, back(cut))


def test_a_release_is_not_taken_back_when_another_job_has_the_piece() -> None:
    release = move("release", "L-01")
    whole = rack(come(board("L-01")), move("reserve", "L-01"), release, move("reserve", "L-01", job="K"))
    assert "L-01 has been reserved since" in refused(whole, back(release))


def test_a_release_is_not_taken_back_when_the_piece_is_gone_or_too_short_since() -> None:
    held = Reservation("L-01", much=typed("40", "in"))
    released = move("release", "L-01")
    whole = rack(come(board("L-01")), move("reserve", "L-01", held), released)
    burned = after(whole, move("burn", "L-01", job="K"))
    assert "L-01 has gone on since" in refused(burned, back(released))
    shorter = after(whole, as_seen(whole, "L-01", length=typed("30", "in")))
    assert "L-01 has gone on since" in refused(shorter, back(released))
    assert after(whole, back(released)).reservations["L-01"].much == typed("40", "in")


def test_a_reservation_is_not_taken_back_when_the_piece_is_in_work_since() -> None:
    reserved = move("reserve", "L-01")
    whole = rack(come(board("L-01")), reserved, move("cut", "L-01", board("L-02", "20")))
    assert "L-01 has gone on since" in refused(whole, back(reserved))


def test_a_move_is_taken_back_once_and_its_taking_back_can_be_taken_back() -> None:
    asked = move("reserve", "L-01")
    counter = back(asked)
    whole = rack(come(board("L-01")), asked, counter)
    assert "was taken back already" in refused(whole, back(asked))
    assert list(after(whole, back(counter)).reservations) == ["L-01"]


def test_the_ledger_alone_tells_the_rack() -> None:
    whole = rack(come(board("L-01", count=5)), move("reserve", "L-01", count=2, born=("L-02",)), move("burn", "L-01"))
    assert recount(whole.moves.values()) == whole
    assert isinstance(whole.pieces["L-02"], Piece)


def test_a_cut_ticked_wrongly_joins_its_leftover_back_and_what_else_was_cut_still_counts() -> None:
    first = board("L-01")
    one, two = (born(first, name, (typed("25", "in"), typed("6", "in"), None)) for name in ("L-02", "L-03"))
    cuts = [move("cut", "L-01", one, ends=False), move("cut", "L-01", two)]
    whole = rack(come(first), *cuts, joined := move("join back", "L-01", born=("L-03",), ends=False))
    assert (whole.pieces["L-01"].state, whole.reservations["L-01"].job) == ("in work", "J")
    assert set(whole.pieces) == {"L-01", "L-02"}
    too_much = born(first, "L-04", (typed("36", "in"), typed("6", "in"), None))
    assert "more than the piece" in refused(whole, move("cut", "L-01", too_much))
    assert whole != after(whole, move("cut", "L-01", replace(too_much, length=typed("35", "in"))))
    assert set(after(whole, back(joined)).pieces) == {"L-01", "L-02", "L-03"}
    nothing = after(whole, move("join back", "L-01", born=("L-02",)))
    assert (nothing.pieces["L-01"].state, set(nothing.pieces)) == ("free", {"L-01"})


def test_a_leftover_that_another_job_counts_on_is_not_joined_back() -> None:
    first = board("L-01")
    left = born(first, "L-02", (typed("25", "in"), typed("6", "in"), None))
    whole = rack(come(first), move("cut", "L-01", left), move("reserve", "L-02", job="K"))
    assert "L-02 has gone on since" in refused(whole, move("join back", "L-01", born=("L-02",)))
