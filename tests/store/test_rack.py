"""The rack in the shop file: its own tables, an own ledger, outside the shop's undo."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from shutil import copyfile

import pytest
from frontwright.core.job import Defect, HardwareLot, Move, MoveKind, Piece, Reservation, Shop, Species, amount
from frontwright.core.lengths import typed
from frontwright.core.stock.asked_of_moves import MoveRefused
from frontwright.core.stock.rack import RackMove, RackRow, recount
from frontwright.store import StoreError, open_shop
from frontwright.store.files import ShopFile
from frontwright.store.rack_text import move_from, move_text
from frontwright.store.upgrade import seal_all


def board(name: str, count: int = 1) -> Piece:
    return Piece(
        name,
        "board",
        "white ash",
        "AS1",
        typed("31 1/2", "in"),
        typed("5 1/8", "in"),
        typed("1/", "in"),
        count,
        moisture=amount("8,5"),
        price=amount("27.00"),
    )


def move(name: str, kind: MoveKind, piece: str, *rows: RackRow, **more: object) -> RackMove:
    line = Move(name, kind, piece, job="J", when="2026-11-25")
    return RackMove(replace(line, **more), rows)  # type: ignore[arg-type]


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "shop.frontwright-shop"


@pytest.fixture
def file(place: Path) -> Iterator[ShopFile]:
    with open_shop(place) as made:
        yield made


def test_what_is_on_the_rack_comes_back_as_it_was_put_there(file: ShopFile, place: Path) -> None:
    file.make(
        move("1", "come", "L-01", board("L-01", 5), Defect("knot", "L-01", "knot", typed("3 1/", "in"))),
        move("2", "come", "H-1", HardwareLot("H-1", "hinge", 8)),
        move("3", "reserve", "L-01", Reservation("L-01", name="Laundry", until="2026-12-20"), count=2, born=("L-02",)),
    )
    file.make(move("4", "use up", "H-1", count=3))
    shown = file.rack
    file.close()
    with open_shop(place) as again:
        assert again.rack == shown
        assert recount(again.rack.moves.values()) == again.rack
        assert (again.rack.pieces["L-01"].count, again.rack.pieces["L-02"].count) == (3, 2)
        assert again.rack.lots["H-1"].count == 5


def test_a_move_made_twice_is_made_once(file: ShopFile) -> None:
    come = move("1", "come", "L-01", board("L-01"))
    assert [made.id for made in file.make(come)] == ["1"]
    assert file.make(come) == ()
    assert len(file.rack.moves) == 1


def test_of_moves_together_all_are_made_or_none(file: ShopFile) -> None:
    file.make(move("1", "come", "L-01", board("L-01")))
    with pytest.raises(MoveRefused, match="There is no piece L-09"):
        file.make(move("2", "reserve", "L-01"), move("3", "reserve", "L-09"))
    assert not file.rack.reservations
    assert list(file.rack.moves) == ["1"]


def test_a_later_move_sees_what_an_earlier_one_of_the_same_call_brought(file: ShopFile) -> None:
    file.make(move("1", "come", "L-01", board("L-01")), move("2", "reserve", "L-01"), move("3", "take", "L-01"))
    assert file.rack.pieces["L-01"].state == "in work"
    file.make(move("4", "take back", "L-01", undoes="3"), move("5", "take back", "L-01", undoes="2"))
    assert (file.rack.pieces["L-01"].state, list(file.rack.reservations)) == ("free", [])


def test_the_rack_is_outside_the_undo_of_the_shop(file: ShopFile) -> None:
    file.apply("ash", lambda shop: shop.put(Species("white ash")))
    file.make(move("1", "come", "L-01", board("L-01")))
    assert file.can_undo == "ash"
    assert file.undo() == Shop()
    assert list(file.rack.pieces) == ["L-01"]


def test_two_windows_see_each_others_moves_and_only_one_gets_the_piece(place: Path) -> None:
    with open_shop(place) as one, open_shop(place) as other:
        one.make(move("1", "come", "L-01", board("L-01")))
        assert list(other.rack.pieces) == ["L-01"]
        one.make(move("2", "reserve", "L-01"))
        with pytest.raises(MoveRefused, match="is reserved by another job"):
            other.make(move("3", "reserve", "L-01", job="K"))
        other.make(move("4", "look", "L-01"))
        assert one.rack == other.rack
        assert one.rack.pieces["L-01"].looked == "2026-11-25"


def test_looking_at_the_rack_changes_no_byte(place: Path) -> None:
    with open_shop(place) as file:
        file.make(move("1", "come", "L-01", board("L-01")))
    before = place.read_bytes()
    with open_shop(place) as file:
        assert len(file.rack.pieces) == 1
    assert place.read_bytes() == before


def test_a_second_reservation_of_a_piece_is_an_error_of_the_database_itself(file: ShopFile, place: Path) -> None:
    file.make(move("1", "come", "L-01", board("L-01")), move("2", "reserve", "L-01"))
    file.close()
    with closing(sqlite3.connect(place)) as connection:
        row = list(connection.execute("SELECT * FROM rack_reservations").fetchone())
        row[0] += 1
        marks = ", ".join("?" for _ in row)
        with pytest.raises(sqlite3.IntegrityError, match="UNIQUE"):
            connection.execute(f"INSERT INTO rack_reservations VALUES ({marks})", row)


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("UPDATE rack_pieces SET shelf = 'Z9'", "rack_pieces “L-01” is not as it was written"),
        ("UPDATE rack_moves SET job = 'K' WHERE id = '2'", "rack_moves “2” is not as it was written"),
        ("DELETE FROM rack_reservations", "rows of the rack are missing"),
        ("DELETE FROM rack_moves WHERE id = '2'", "rows of the rack are missing"),
    ],
)
def test_silent_damage_of_the_rack_is_found(file: ShopFile, place: Path, statement: str, said: str) -> None:
    file.make(move("1", "come", "L-01", board("L-01")), move("2", "reserve", "L-01"))
    file.close()
    with closing(sqlite3.connect(place)) as connection:
        connection.execute(statement)
        connection.commit()
    with open_shop(place) as damaged, pytest.raises(StoreError, match=f"is damaged .*{said}"):
        damaged.rack  # noqa: B018


def test_a_move_as_text_is_the_same_move(file: ShopFile) -> None:
    given = replace(
        move("1", "cut", "L-01", board("L-02"), Defect("d", "L-02"), born=("L-02",), parts=("DA-TR",), ends=False),
        was=(Reservation("L-01", "J"), HardwareLot("H")),
    )
    assert move_from(move_text(given)) == given


def test_a_move_written_before_a_field_was_there_is_read_with_its_usual_value() -> None:
    text = move_text(move("1", "come", "L-01", board("L-01")))
    assert '"ends": 1' in text
    older = text.replace(', "ends": 1', "").replace(r", \"figure\": \"\"", "")
    assert "figure" not in older
    assert move_from(older) == move_from(text)


def test_a_thousand_pieces_are_reserved_in_one_go(file: ShopFile) -> None:
    names = [f"L-{number}" for number in range(1000)]
    file.make(*(move(f"come {name}", "come", name, board(name)) for name in names))
    file.make(*(move(f"reserve {name}", "reserve", name) for name in names))
    assert set(file.rack.reservations) == set(names)


def test_the_rack_of_a_file_of_version_1_is_read(place: Path) -> None:
    copyfile(Path(__file__).parent / "files" / "version-1.frontwright-shop", place)
    with open_shop(place) as file:
        rack = file.rack
        assert (rack.pieces["L-05"].count, rack.pieces["L-06"].count) == (2, 1)
        assert [one.id for one in rack.reservations.values()] == ["L-06"]
        assert recount(rack.moves.values()) == rack


def test_rows_sealed_afresh_by_a_step_of_upgrading_are_whole_in_shop_and_rack(file: ShopFile, place: Path) -> None:
    file.apply("ash", lambda shop: shop.put(Species("white ash")))
    file.make(move("1", "come", "L-01", board("L-01")), move("2", "reserve", "L-01"))
    shop, rack = file.shop, file.rack
    file.close()
    with closing(sqlite3.connect(place, isolation_level=None)) as connection:
        connection.execute("UPDATE rack_pieces SET shelf = 'Z9'")
        seal_all(connection)
    with open_shop(place) as again:
        assert again.shop == shop
        assert again.rack.pieces["L-01"] == replace(rack.pieces["L-01"], shelf="Z9")
