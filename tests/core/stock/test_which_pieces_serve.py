"""Which pieces serve a group, and of each other one the reason why not, with its figures (F49)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.job import Defect, Piece, Reservation, Species
from frontwright.core.plan import asked
from frontwright.core.stock.candidates import Judge, wood
from frontwright.core.stock.result import Candidate
from job_builder import Made, door, inch, mm, paneled, row

PLAIN = door(stile="64", top_rail="64", bottom_rail="76", thickness="20", groove="10", clearance="1")
BOARD = {"form": "board", "length": "2500", "width": "195", "thickness": "27"}


def held(made: Made, of: str = "board", /, **fields: object) -> Candidate:
    """The one piece, of these fields, held against the group of this form."""
    given = made.put(Piece, "P", **{**BOARD, **fields})
    group = next(one for one in given.plan.stock.groups if one.form == of)
    (one,) = Judge(given.plan.index, wood(given.job.pieces.values(), given.job.defects.values())).candidates(group)
    return one


def reasons(one: Candidate) -> list[str]:
    return [refusal.kind for refusal in one.refusals]


def test_a_board_that_planes_to_the_parts_serves() -> None:
    assert held(PLAIN).fits


@pytest.mark.parametrize(
    ("thickness", "planed", "by"),
    [("22.9", False, mm("0.1")), ("23", False, None), ("21.4", True, mm("0.1")), ("21.5", True, None)],
)
def test_planing_takes_3_mm_of_a_rough_board_and_1_5_of_a_planed_one(thickness: str, planed: bool, by: object) -> None:
    """F49: parts of 20"""
    one = held(PLAIN, thickness=thickness, planed=planed)
    assert reasons(one) == (["thin"] if by else [])
    assert [r.by for r in one.refusals] == ([by] if by else [])


def test_planing_takes_a_sixteenth_of_a_planed_board_in_an_inch_job() -> None:
    made = door("18", "28", unit="in", thickness="3/4")
    assert held(made, length="96", width="6", thickness="13/16", planed=True).fits
    one = held(made, length="96", width="6", thickness="13/16")
    assert one.refusals[0].by == inch("1/16")


@pytest.mark.parametrize(
    ("change", "reason", "by"),
    [
        ({"length": "300"}, "short", mm(60)),
        ({"width": "60"}, "narrow", mm(8)),
        ({"count": 0}, "used up", None),
        ({"state": "used up"}, "used up", None),
        ({"width": ""}, "size not told", None),
        ({"thickness": None}, "size not told", None),
        ({"grade": "hidden"}, "grade", None),
        ({"grade": "plain"}, "grade", None),
        ({"moisture": "14"}, "wet", None),
    ],
)
def test_a_refusal_names_its_reason_and_by_how_much(change: dict[str, object], reason: str, by: object) -> None:
    one = held(PLAIN, **change)
    assert reasons(one) == [reason]
    assert one.refusals[0].by == by


def test_a_wet_board_is_told_with_its_moisture_and_the_limit() -> None:
    assert held(PLAIN, moisture="11").fits
    assert held(PLAIN, moisture="12.5").refusals[0].facts == {"is": Fraction("12.5"), "most": Fraction(11)}


def test_another_wood_does_not_serve_one_of_no_name_does() -> None:
    made = PLAIN.put(Species, "oak", name="White oak").look(species="oak")
    assert reasons(held(made, species="beech")) == ["species"]
    assert held(made, species="white OAK").fits
    assert held(made).fits


def test_a_sheet_must_be_just_as_thick_as_the_panel() -> None:
    sheet = {"form": "sheet", "length": "2440", "width": "1220"}
    assert held(PLAIN, "sheet", **sheet, thickness="6.2").fits
    assert reasons(held(PLAIN, "sheet", **sheet, thickness="6.5")) == ["thick"]
    assert reasons(held(PLAIN, "sheet", **sheet, thickness="5.9")) == ["thin"]


def test_a_reservation_is_told_with_whose_it_is_and_until_when() -> None:
    made = PLAIN.put(Piece, "P", **BOARD)
    group = made.plan.stock.groups[0]
    reserved = [Reservation("P", job="7", name="Hall", by="Ann", until="2026-03-01", why="stairs")]
    (one,) = Judge(made.plan.index, wood(made.job.pieces.values(), (), reserved, "8", today="2026-04-01")).candidates(
        group
    )
    facts = {"job": "Hall", "by": "Ann", "until": "2026-03-01", "past": "yes", "why": "stairs"}
    assert (reasons(one), one.refusals[0].facts) == (["reserved"], facts)
    (own,) = Judge(made.plan.index, wood(made.job.pieces.values(), (), reserved, "7")).candidates(group)
    assert own.fits


def test_a_piece_in_work_elsewhere_is_taken_one_of_the_job_is_its_own() -> None:
    made = PLAIN.put(Piece, "P", **BOARD, state="in work")
    group = made.plan.stock.groups[0]
    judge = Judge(made.plan.index, wood(made.job.pieces.values()))
    assert reasons(judge.candidates(group)[0]) == ["used up"]
    assert {use.piece for one in asked(made.plan).groups for use in one.uses} == {"P"}


def test_a_board_whose_defects_leave_no_clear_stretch_is_refused() -> None:
    made = PLAIN.put(Piece, "P", **BOARD)
    for at in range(250, 2500, 250):
        made = made.put(Defect, f"D{at}", piece="P", what="knot", along=str(at), length="20")
    group = made.plan.stock.groups[0]
    (one,) = Judge(made.plan.index, wood(made.job.pieces.values(), made.job.defects.values())).candidates(group)
    assert reasons(one) == ["defects"]


def test_a_defect_over_the_whole_piece_leaves_nothing() -> None:
    made = PLAIN.put(Piece, "P", **BOARD).put(Defect, "D", piece="P", what="rot")
    (one, *_) = asked(made.plan).groups
    assert one.have == 0
    assert [r.kind for c in one.refused for r in c.refusals] == ["defects"]


def test_a_thick_piece_is_also_so_many_leaves() -> None:
    """F50, F53: 44 gives 6 on the usual band saw; a board of 27 gives 3 and is too narrow here"""
    made = paneled(PLAIN)
    assert held(made, "leaf", form="billet", thickness="44", width="150").leaves == 6
    thin = held(made, "leaf", thickness="27", width="100")
    assert (thin.leaves, reasons(thin)) == (3, ["narrow"])


def test_trims_are_off_before_anything_is_laid() -> None:
    assert reasons(held(PLAIN, length="400", end_trim="60")) == ["short"]
    assert held(PLAIN, length="400", end_trim="40").fits
    assert row("mm", Piece, "x", end_trim="0").id == "x"
