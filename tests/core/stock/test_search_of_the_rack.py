"""The rack searched as a person asks."""

from __future__ import annotations

from dataclasses import replace

import pytest
from frontwright.core.job import Piece, Table, amount
from frontwright.core.lengths import Display, Length, typed
from frontwright.core.stock.moves import after_all
from frontwright.core.stock.rack import Rack
from frontwright.core.stock.search import Asking, found, understood
from stock.racks import board, come, move

INCHES = Display("in", Length.inch("1/16"))
MILLIMETRES = Display("mm", Length.mm(1))


@pytest.fixture
def rack() -> Rack:
    leaf = replace(board("L-05", "31 1/2", "5 1/8", "1/8"), form="leaf", from_piece="L-01")
    pieces = [
        board("L-01", "84", "5 1/4", "1 3/4"),
        leaf,
        board("L-06", "27 5/16", "2 1/2", batch="AS4", shelf="A1", moisture=amount("14")),
        board("L-07", "60", batch="OK3", species="white oak", shelf="A1", moisture=None, grade="show"),
        Piece("S-01", "sheet", "birch", length=typed("2440mm", "in"), width=typed("1220mm", "in")),
    ]
    return after_all(Rack(), [*(come(piece) for piece in pieces), move("reserve", "L-05"), move("use up", "L-01")])


def names(rack: Rack, text: str, display: Display = INCHES, selected: str = "") -> list[str]:
    search = understood(text, Asking(rack, display, {"DA": ["AS1"]}, selected))
    assert search.unknown == ()
    assert search.problem == ""
    return [piece.id for piece in found(rack, search)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", ["L-05", "L-06", "L-07", "S-01"]),
        ("ash", ["L-05", "L-06"]),
        ("white oak", ["L-07"]),
        ("White Ash, batch as4", ["L-06"]),
        ("same batch as DA", ["L-05"]),
        ("ash, same batch as that door DA, at least 28 long, dry", ["L-05"]),
        ("same tree as L-06", ["L-06"]),
        ("leaves", ["L-05"]),
        ("leftovers", ["L-05"]),
        ("at least 27 5/16 long", ["L-05", "L-06", "L-07", "S-01"]),
        ("over 27 5/16 long", ["L-05", "L-07", "S-01"]),
        ("boards under 3 wide", ["L-06"]),
        ("at most 1/8 thick", ["L-05"]),
        ("2000mm long", ["S-01"]),
        ("1 ft 11 5/8 in long and 6 wide", ["L-07", "S-01"]),
        ("boards on A1", ["L-06", "L-07"]),
        ("A1, white oak", ["L-07"]),
        ("dry", ["L-05"]),
        ("wet", ["L-06"]),
        ("free", ["L-06", "L-07", "S-01"]),
        ("reserved", ["L-05"]),
        ("used up", ["L-01"]),
        ("ash, any", ["L-01", "L-05", "L-06"]),
        ("on shelf a1", ["L-06", "L-07"]),
        ("show grade", ["L-07"]),
        ("the sheet", ["S-01"]),
        ("L-01", ["L-01"]),
        ("exactly 60 long", ["L-07"]),
        ("boards ok3", ["L-07"]),
    ],
)
def test_a_question_finds_the_pieces_that_it_means(rack: Rack, text: str, expected: list[str]) -> None:
    assert names(rack, text) == expected


def test_a_batch_or_shelf_of_several_words_is_found_by_its_whole_name(rack: Rack) -> None:
    named = {"batch": "sheet lot 1", "shelf": "back wall 2"}
    rack = after_all(rack, [come(board("K-03", **named)), come(board("K-04", batch="sheet", shelf="back"))])
    assert names(rack, "Batch sheet lot 1, dry") == names(rack, "on shelf back wall 2") == ["K-03"]
    assert names(rack, "batch sheet") == names(rack, "shelf back, at least 10 long") == ["K-04"]


def test_that_door_is_the_one_that_is_selected(rack: Rack) -> None:
    assert names(rack, "same batch as that door", selected="DA") == ["L-05"]


def test_a_number_without_a_unit_is_in_the_unit_of_the_job(rack: Rack) -> None:
    assert names(rack, "at least 2440 long", MILLIMETRES) == ["S-01"]


def test_what_is_understood_is_said_back_in_order(rack: Rack) -> None:
    search = understood("ash at least 28 1/2 long, dry, free", Asking(rack, INCHES))
    assert search.said == ("ash", "at least 28 1/2 long", "dry (up to 11 %)", "free")


def test_a_word_that_is_not_understood_is_named_and_the_others_hold(rack: Rack) -> None:
    search = understood("purple ash, dry boards", Asking(rack, INCHES))
    assert search.unknown == ("purple",)
    assert [piece.id for piece in found(rack, search)] == []
    assert search.said == ("ash", "dry (up to 11 %)", "board")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("at least 23 5/ long", "“23 5/” before “long” is no length"),
        ("same batch as ZZ", "“ZZ” is no piece of the rack and no front of this job"),
        ("same batch as that door", "Name the front or piece"),
        ("same batch as S-01", "Nobody said of which batch S-01 is"),
    ],
)
def test_a_wish_that_cannot_be_met_with_is_said_in_one_sentence(rack: Rack, text: str, said: str) -> None:
    search = understood(text, Asking(rack, INCHES))
    assert search.problem.startswith(said)
    assert "\n" not in search.problem


@pytest.mark.parametrize(
    "text", [" ,,, ", "((((", "at least", "shelf", "batch", "1/0 long", "x" * 20_000, "9" * 300 + " long"]
)
def test_any_text_is_read_without_failing(rack: Rack, text: str) -> None:
    search = understood(text, Asking(rack, INCHES))
    assert len(found(rack, search)) <= len(rack.pieces)


def test_a_piece_copied_from_another_is_no_leftover(rack: Rack) -> None:
    there = Table([replace(piece, from_piece="") for piece in rack.pieces.values()])
    assert names(replace(rack, pieces=there), "leftovers") == []


def test_what_was_not_looked_at_for_a_year_is_asked_as_the_page_says_it(rack: Rack) -> None:
    asking = Asking(rack, INCHES, today="2999-01-01")
    search = understood("boards not looked at for a year", asking)
    assert search.unknown == ()
    assert [piece.id for piece in found(rack, search)] == ["L-06", "L-07"]
