"""The rack beside an open job: both sides of every step, and what happens when one side says no."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from frontwright.core.job import Billet, CutDone, Defect, HardwareLot, Heading, Job, Laid, Leaf, Piece, amount
from frontwright.core.lengths import typed
from frontwright.core.stock.asked_of_moves import MoveRefused
from frontwright.core.stock.born import born
from frontwright.core.stock.rack import recount
from frontwright.desk.contents import Table
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.keys import key
from frontwright.desk.session import Session
from frontwright.store import StoreError
from frontwright.store.files import ShopFile


def board(name: str, length: str = "60") -> Piece:
    sizes = {"length": typed(length, "in"), "width": typed("6", "in"), "thickness": typed("1", "in")}
    return replace(Piece(name, "board", "white ash", "AS1", shelf="B2", price=amount("36")), **sizes)  # type: ignore[arg-type]


def small(name: str, unit: str = "in") -> Job:
    return Job().put(Heading(name=name, unit=unit))  # type: ignore[arg-type]


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return tmp_path / "shop.frontwright-shop"


@pytest.fixture
def one(tmp_path: Path, shop: Path) -> Iterator[Session]:
    """A job called Laundry, with L-01 on the rack, and five alike ones, L-02."""
    with_rack = Session.create(tmp_path / "one.frontwright", small("Laundry"), shop)
    with_rack.rack.come(board("L-01"), [Defect("knot", "L-01", "knot")])
    with_rack.rack.come(replace(board("L-02"), count=5))
    yield with_rack
    with_rack.close()


@pytest.fixture
def other(tmp_path: Path, shop: Path, one: Session) -> Iterator[Session]:
    """A job in millimetres, called Kitchen, on the same rack."""
    session = Session.create(tmp_path / "other.frontwright", small("Kitchen", "mm"), shop)
    yield session
    session.close()


def agreed(*sessions: Session) -> None:
    """Job and rack say the same, nothing is open, and the ledger recounts to what stands."""
    for session in sessions:
        assert session.rack.disagreements() == ()
        assert session._book.intents() == ()
        rack = session.rack.rack
        assert recount(rack.moves.values()) == rack


def test_a_reserved_piece_is_the_jobs_with_its_defects_and_undo_frees_it(one: Session) -> None:
    assert one.act(key("rack-reserve", "L-01")).said == "L-01 is reserved for this job"
    assert one.job.pieces["L-01"].batch == "AS1"
    assert list(one.job.defects) == ["knot"]
    assert one.rack.rack.reservations["L-01"].name == "Laundry"
    agreed(one)
    assert one.undo().said == "Undone: reserve L-01"
    assert (list(one.job.pieces), list(one.rack.rack.reservations)) == ([], [])
    agreed(one)
    one.redo()
    assert list(one.rack.rack.reservations) == ["L-01"]
    agreed(one)


def test_two_jobs_open_at_once_never_count_on_the_same_piece(one: Session, other: Session) -> None:
    one.rack.reserve(["L-01"], until="2026-12-20")
    with pytest.raises(Refused, match="L-01 is reserved by Laundry to 2026-12-20"):
        other.rack.reserve(["L-01"])
    assert not other.job.pieces
    assert other.undo_name == ""
    agreed(one, other)


def test_of_several_pieces_all_are_reserved_or_none(one: Session, other: Session) -> None:
    other.rack.reserve(["L-01"])
    with pytest.raises(Refused, match="L-01 is reserved by Kitchen"):
        one.rack.reserve(["L-02", "L-01"])
    assert not one.job.pieces
    agreed(one, other)


def test_a_length_typed_in_inches_is_the_same_length_in_a_job_in_millimetres(one: Session, other: Session) -> None:
    other.rack.reserve(["L-01"])
    length = other.job.pieces["L-01"].length
    assert length == typed("1524", "mm")


def test_some_of_alike_pieces_get_a_name_that_neither_side_has(one: Session) -> None:
    one.rack.reserve(["L-02"], count=2)
    assert {name: piece.count for name, piece in one.job.pieces.items()} == {"L-03": 2}
    assert one.rack.rack.pieces["L-02"].count == 3
    agreed(one)
    one.undo()
    assert one.rack.rack.pieces["L-02"].count == 5
    agreed(one)


def test_what_is_entered_in_a_job_goes_to_the_rack_reserved_for_it_and_follows_its_changes(one: Session) -> None:
    one.act(key("add-piece", "board"))
    (name,) = one.job.pieces
    assert one.rack.rack.reservations[name].name == "Laundry"
    one.enter(key("pieces", name, "length"), "48")
    one.enter(key("pieces", name, "shelf"), "C1")
    there = one.rack.rack.pieces[name]
    assert (there.length, there.shelf) == (typed("48", "in"), "C1")
    agreed(one)
    one.enter(key("pieces", name, "id"), "ASH-7")
    assert set(one.rack.rack.pieces) == {"L-01", "L-02", "ASH-7"}
    agreed(one)
    for _ in range(4):
        one.undo()
    assert set(one.rack.rack.pieces) == {"L-01", "L-02"}
    assert not one.job.pieces
    agreed(one)


def test_a_page_shows_what_another_job_did_on_the_rack(one: Session, other: Session) -> None:
    def state(session: Session) -> str:
        blocks = [block for band in session.page("rack").bands for block in band if isinstance(block, Table)]
        rows = next(block for block in blocks if block.key == "pieces").rows
        return str(next(row for row in rows if row.subject == "L-01").cells[-1].text)

    assert state(one) == "free"
    other.rack.reserve(["L-01"])
    assert state(one) == "reserved, Kitchen"


def test_a_job_can_do_without_a_piece_that_was_released_for_another(one: Session, other: Session) -> None:
    one.rack.reserve(["L-01"])
    other.rack.release_for("L-01", "needed here")
    other.rack.reserve(["L-01"])
    (line,) = [found for found in one.page("rack").findings if found.key.startswith("rack differs")]
    assert [way.word for way in line.ways] == ["Do without L-01"]
    assert one.act(line.ways[0].key).problem == ""
    assert not one.job.pieces
    agreed(one, other)
    one.undo()
    assert one.job.pieces


def test_a_new_piece_of_a_job_gets_a_name_that_no_other_piece_of_the_rack_has(one: Session, other: Session) -> None:
    one.act(key("add-piece", "board"))
    outcome = other.act(key("add-piece", "board"))
    (first,), (second,) = one.job.pieces, other.job.pieces
    assert first != second
    assert outcome.select == second
    agreed(one, other)


def test_a_piece_taken_out_of_the_job_is_free_on_the_rack(one: Session, other: Session) -> None:
    one.rack.reserve(["L-01"])
    one.act(key("delete", "pieces", "L-01"))
    assert not one.rack.rack.reservations
    other.rack.reserve(["L-01"])
    assert "has been reserved since" in one.undo().problem
    assert not one.job.pieces
    agreed(one, other)


def ticked(session: Session) -> Piece:
    """L-01 is laid and its one cut ticked: the leftover."""
    session.rack.reserve(["L-01"])
    session._book.apply("lay", lambda job: job.put(Laid("B1", "L-01")))
    left = born(session.job.pieces["L-01"], session.rack.next_name("L-01"), (typed("20", "in"), typed("6", "in"), None))
    tick = Edit("cut 1 of B1", lambda job: job.put(CutDone("B1 1", "B1", 1)))
    session.rack.cut(tick, "L-01", [left], parts=["DA-TR"])
    return left


def test_a_ticked_cut_uses_the_board_up_and_its_leftover_is_free_for_all(one: Session, other: Session) -> None:
    left = ticked(one)
    rack = one.rack.rack
    assert (rack.pieces["L-01"].state, one.job.pieces["L-01"].state) == ("used up", "used up")
    assert (rack.pieces[left.id].batch, rack.pieces[left.id].price) == ("AS1", amount("12.00"))
    agreed(one)
    one.undo()
    assert left.id not in one.rack.rack.pieces
    assert one.job.pieces["L-01"].state == "free"
    assert not one.job.cuts_done
    agreed(one)
    one.redo()
    other.rack.reserve([left.id])
    agreed(one, other)
    assert f"{left.id} has gone on since" in one.undo().problem
    assert one.job.cuts_done
    agreed(one, other)


def test_a_cut_ticked_wrongly_is_taken_back_without_undo(one: Session) -> None:
    left = ticked(one)
    one.rack.uncut(Edit("untick", lambda job: job.drop(CutDone, "B1 1")), "L-01", [left.id], all_of_it=True)
    assert left.id not in one.rack.rack.pieces
    assert (one.job.pieces["L-01"].state, len(one.job.cuts_done)) == ("free", 0)
    agreed(one)
    one.undo()
    assert left.id in one.rack.rack.pieces
    agreed(one)


def test_one_of_alike_pieces_gets_a_name_of_its_own_for_its_layout(one: Session) -> None:
    one.rack.reserve(["L-02"])
    one.rack.apply(Edit("lay", lambda job: job.put(Laid("B1", "L-02"))))
    one.rack.take_one(lambda name: Edit("take one", lambda job: job.put(replace(job.laid["B1"], piece=name))), "L-02")
    assert {name: (piece.count, piece.state) for name, piece in one.job.pieces.items()} == {
        "L-02": (4, "free"),
        "L-03": (1, "free"),
    }
    assert one.job.laid["B1"].piece == "L-03"
    agreed(one)


def test_name_bad_places_and_lots_are_changed_on_the_rack_alone_or_in_the_job_too(one: Session) -> None:
    for reserved in (False, True):
        if reserved:
            one.rack.reserve(["ASH-1"])
        one.rack.rename("ASH-1" if reserved else "L-01", "ASH-2" if reserved else "ASH-1")
        name = "ASH-2" if reserved else "ASH-1"
        one.rack.change_defects(name, [Defect(f"split {reserved}", name, "split", typed("2", "in"))])
        assert [row.what for row in one.rack.rack.defects_of(name)] == ["split"]
        agreed(one)
    assert list(one.job.defects) == ["split True"]
    one.rack.put_lot(HardwareLot("H-01", "hinge", 4))
    one.rack.put_lot(HardwareLot("H-01", "hinge, 1/2 cover", 4, "D1"))
    assert one.rack.rack.lots["H-01"].shelf == "D1"
    with pytest.raises(Refused, match="fewer than none"):
        one.rack.put_lot(HardwareLot("H-01", "hinge, 1/2 cover", -1))


def test_what_was_made_of_a_board_is_told_to_the_ledger_and_found_again(one: Session, other: Session) -> None:
    one.rack.reserve(["L-01"])
    one.rack.apply(Edit("saw", lambda job: job.put(Billet("P", "L-01"), Leaf("P1", "P", 1))))
    (use,) = [made.line for made in other.rack.rack.moves.values() if made.line.kind == "made into"]
    assert (use.piece, use.parts, use.name) == ("L-01", ("billet P", "leaf P1"), "Laundry")
    assert [piece.id for piece in one.rack.came_of("P1")] == ["L-01"]
    one.undo()
    assert [made.line.parts for made in one.rack.rack.moves.values() if made.line.kind == "made into"][-1] == ()


def test_older_jobs_pieces_are_offered_and_come_under_free_names(tmp_path: Path, shop: Path, one: Session) -> None:
    old = small("Old").put(board("L-01", "30"), board("L-07"), Billet("P", "L-01"))
    session = Session.create(tmp_path / "old.frontwright", old, shop)
    assert [piece.id for piece in session.rack.to_be_taken_in()] == ["L-01", "L-07"]
    session.act(key("rack-take-in"))
    assert set(session.job.pieces) == {"L-03", "L-07"}
    assert session.job.billets["P"].piece == "L-03"
    assert session.rack.rack.pieces["L-01"].length == typed("60", "in")
    assert session.rack.to_be_taken_in() == ()
    agreed(one, session)
    session.undo()
    assert session.job.billets["P"].piece == "L-01"
    assert set(session.rack.rack.pieces) == {"L-01", "L-02"}
    session.close()


def test_counting_day_corrects_with_a_reason_and_its_last_move_is_taken_back(one: Session) -> None:
    assert "needs its reason" in one.act(key("rack-count", "L-02", "4", " ")).problem
    assert one.act(key("rack-count", "L-02", "4", "one went to the neighbour")).said == "L-02: 4 counted"
    assert one.rack.rack.pieces["L-02"].count == 4
    assert one.act(key("rack-take-back")).said == "Taken back: count L-02"
    assert one.rack.rack.pieces["L-02"].count == 5
    assert "“x” is no number of pieces" in one.act(key("rack-count", "L-02", "x", "so")).problem


def test_the_job_whose_piece_was_released_by_another_is_told(one: Session, other: Session) -> None:
    one.rack.reserve(["L-01"])
    other.rack.release_for("L-01", "Laundry is put off")
    assert one.rack.disagreements() == ("The job counts on L-01, which is free for everybody on the rack.",)


def test_a_move_that_another_was_quicker_with_is_refused_and_the_job_is_as_it_was(
    one: Session, other: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The rack changes between the trial and the move."""
    real = ShopFile.make
    quicker = iter([True])

    def make(file: ShopFile, *moves: object) -> object:
        if next(quicker, False):
            other.rack.reserve(["L-01"])
        return real(file, *moves)  # type: ignore[arg-type]

    before = one.job
    monkeypatch.setattr(ShopFile, "make", make)
    with pytest.raises(Refused, match="L-01 is reserved by Kitchen"):
        one.rack.reserve(["L-01"])
    assert one.job == before
    assert one.undo_name == ""
    agreed(one, other)


def test_a_shop_file_that_cannot_be_written_leaves_job_and_rack_as_they_were(
    one: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(file: ShopFile, *moves: object) -> object:
        raise StoreError("The disk is full; the last change was not kept.")

    monkeypatch.setattr(ShopFile, "make", full)
    assert "The disk is full" in one.act(key("rack-reserve", "L-01")).problem
    assert not one.job.pieces
    monkeypatch.undo()
    agreed(one)


def test_an_intent_that_was_cut_short_is_finished_at_the_next_opening(one: Session, shop: Path) -> None:
    path, rack = one.path, one.rack
    move = rack._move("reserve", "L-01", rows=(rack._reservation("L-01"),))
    one._book.apply("reserve L-01", rack._copied(rack._try([move]), ["L-01"]), outbox=[move])
    one.close()
    again = Session.open(path, shop)
    assert again.rack_problem == ""
    assert list(again.rack.rack.reservations) == ["L-01"]
    agreed(again)
    again.close()


@pytest.mark.parametrize("later", [False, True])
def test_an_intent_that_came_too_late_is_taken_back_and_said(
    one: Session, other: Session, shop: Path, later: bool
) -> None:
    path, rack = one.path, one.rack
    move = rack._move("reserve", "L-01", rows=(rack._reservation("L-01"),))
    one._book.apply("reserve L-01", rack._copied(rack._try([move]), ["L-01"]), outbox=[move])
    if later:
        one._book.apply("name", lambda job: job.put(replace(job.heading, name="Laundry room")))
    one.close()
    other.rack.reserve(["L-01"])
    again = Session.open(path, shop)
    assert again.rack_problem.startswith("L-01 is reserved by Kitchen")
    assert not again.job.pieces
    assert again.job.heading.name == ("Laundry room" if later else "Laundry")
    agreed(again, other)
    again.close()


def test_without_a_shop_file_the_job_is_whole_and_a_step_that_moved_wood_stays(one: Session, tmp_path: Path) -> None:
    one.rack.reserve(["L-01"])
    path = one.path
    one.close()
    (tmp_path / "foreign").write_text("a letter")
    alone = Session.open(path, tmp_path / "foreign")
    assert "is not a shop file of Frontwright" in alone.shop_problem
    assert "This step moved wood on the rack" in alone.undo().problem
    assert list(alone.job.pieces) == ["L-01"]
    assert "is not a shop file" in alone.act(key("rack-reserve", "L-02")).problem
    alone.act(key("add-piece", "board"))
    assert len(alone.job.pieces) == 2
    alone.undo()
    assert list(alone.job.pieces) == ["L-01"]
    alone.close()


def test_the_rack_answers_a_question_in_the_unit_of_the_job(other: Session) -> None:
    search, pieces = other.rack.search("ash at least 1500 long, batch AS1", other.display)
    assert search.said == ("ash", "at least 1500 long", "batch AS1")
    assert [piece.length for piece in pieces] == [typed("1524", "mm"), typed("1524", "mm")]


def test_what_another_changed_of_a_piece_is_offered_to_the_job_that_has_it(one: Session, other: Session) -> None:
    one.rack.reserve(["L-01"])
    assert one.rack.moved_on() == ()
    other.rack.change(replace(other.rack.rack.pieces["L-01"], shelf="C9"))
    assert [piece.shelf for piece in one.rack.moved_on()] == ["C9"]
    assert one.job.pieces["L-01"].shelf == "B2"
    one.act(key("rack-take-over", "L-01"))
    assert one.job.pieces["L-01"].shelf == "C9"
    assert one.rack.moved_on() == ()
    agreed(one, other)


def test_so_many_of_several_alike_pieces_get_names_of_their_own(one: Session) -> None:
    one.rack.come(replace(board("L-03"), count=3))
    one.rack.reserve(["L-02", "L-03"], count=2)
    assert {name: piece.count for name, piece in one.job.pieces.items()} == {"L-04": 2, "L-05": 2}
    assert "take at least one" in one.act(key("rack-reserve-some", "L-02", "0")).problem
    agreed(one)


def test_a_reservation_past_its_date_is_told_and_what_was_just_seen_is_not(one: Session, other: Session) -> None:
    one.rack.reserve(["L-01"], until="2020-01-01")
    assert [held.name for held in other.rack.over()] == ["Laundry"]
    assert other.rack.not_looked_at() == ()


def test_a_move_of_the_ledger_is_judged_by_the_file_not_by_what_a_window_shows(one: Session, other: Session) -> None:
    other.rack.rack  # noqa: B018  what the other window has read
    one.rack.reserve(["L-01"])
    assert other.rack._file is not None
    with pytest.raises(MoveRefused, match="reserved by Laundry"):
        other.rack._file.make(other.rack._move("reserve", "L-01"))
