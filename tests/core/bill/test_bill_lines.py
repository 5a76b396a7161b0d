"""The stock bill: content as wood is sold, what is at hand of it, and what it still lacks."""

from __future__ import annotations

from fractions import Fraction

import pytest
from frontwright.core.bill.bill import rough_thickness
from frontwright.core.bill.result import BillLine, Covered
from frontwright.core.figures import Figure
from frontwright.core.job import (
    Allowances,
    Column,
    CutDone,
    End,
    FrontRow,
    HardwareLot,
    Laid,
    LaidPart,
    Machine,
    Piece,
    Species,
)
from frontwright.core.job.index import JobIndex
from frontwright.core.plan import billed_whole
from frontwright.core.stock.purchase import content_of
from job_builder import Made, door, hinged, inch, job, mm, near, paneled, size


def lines(made: Made, form: str) -> list[BillLine]:
    return [line for line in made.plan.bill.lines if line.form == form]


def covers(made: Made, form: str) -> list[Covered]:
    return [one for one in billed_whole(made.plan).lines if one.line.form == form]


def line(made: Made, form: str) -> BillLine:
    (one,) = lines(made, form)
    return one


def test_board_feet_are_thickness_by_width_in_inches_by_length_in_feet() -> None:
    """F47: 1 3/4 × 6 × 60 is 4.375"""
    assert content_of(JobIndex(job("in").job), "board", inch(60), inch(6), inch("7/4")) == Fraction("4.375")


def test_cubic_metres_of_a_board() -> None:
    """F47"""
    assert content_of(JobIndex(job("mm").job), "board", mm(2500), mm(195), mm(27)) == Fraction(27 * 195 * 2500, 10**9)


@pytest.mark.parametrize(
    ("unit", "finished", "rough"),
    [("in", "3/4", "1"), ("in", "1 1/8", "1 1/4"), ("in", "1 1/4", "1 1/2"), ("mm", "20", "23")],
)
def test_wood_is_bought_thicker_in_an_inch_job_by_quarters(unit: str, finished: str, rough: str) -> None:
    """F47, F51: bought by the board foot, T is the rough thickness"""
    made = job("in" if unit == "in" else "mm")
    sizes = {"3/4": inch("3/4"), "1 1/8": inch("9/8"), "1 1/4": inch("5/4"), "20": mm(20)}
    wanted = {"1": inch(1), "1 1/4": inch("5/4"), "1 1/2": inch("3/2"), "23": mm(23)}
    assert rough_thickness(JobIndex(made.job), Figure("T", sizes[finished], "chosen")).value == wanted[rough]


PLAIN = door(stile="64", top_rail="64", bottom_rail="76", thickness="20", groove="10", clearance="1")


def test_solid_wood_is_counted_by_width_finished_and_rough() -> None:
    """F51: stiles 716 × 64 and a rail 340 × 64; rough 20 longer, 4 wider, 3 thicker"""
    boards = lines(PLAIN, "board")
    assert [(near(b.width, 0), b.qty) for b in boards] == [("80", 1), ("68", 3)]
    finished = Fraction((2 * 716 + 340) * 64 * 20, 10**9)
    rough = Fraction((2 * 736 + 360) * 68 * 23, 10**9)
    assert (boards[1].finished, boards[1].rough) == (finished, rough)
    assert covers(PLAIN, "board")[1].lacks == rough


def test_sheet_panels_are_bought_at_their_finished_size() -> None:
    """F51"""
    sheet = line(PLAIN, "sheet")
    assert sheet.finished == sheet.rough == Fraction(338 * 594, 10**6)


def test_a_shop_made_panel_takes_a_core_over_size_and_leaves_for_both_faces() -> None:
    """F51, F58: core 350 × 606; 3 leaves a face of 146, one spare in ten"""
    made = paneled(PLAIN)
    assert line(made, "core").rough == Fraction(350 * 606, 10**6)
    leaves = line(made, "leaf")
    assert (leaves.qty, near(leaves.length, 0)) == (7, "624")


def test_a_board_at_hand_is_counted_once_for_all_lines() -> None:
    made = PLAIN.put(Piece, "B", form="board", length="2500", width="195", thickness="27")
    boards = covers(made, "board")
    assert [b.at_hand for b in boards] == [b.line.rough for b in boards]
    assert all(b.lacks == 0 for b in boards)


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"thickness": "18"}, "thinner"),
        ({"width": "60"}, "narrower"),
        ({"species": "beech"}, "another wood"),
        ({"count": 0}, "none there"),
        ({"thickness": "22"}, "too thin after planing"),
        ({"length": "350", "count": 20}, "shorter than every part"),
        ({"length": "370", "end_trim": "20"}, "shorter than every part after its trim"),
        ({"state": "burned"}, "burned"),
        ({"state": "used up"}, "used up"),
        ({"moisture": "14"}, "wet"),
    ],
)
def test_a_board_that_does_not_fit_is_not_counted(change: dict[str, object], why: str) -> None:
    made = PLAIN.put(Species, "oak", name="White oak").look(species="oak")
    fields = {"length": "2500", "width": "195", "thickness": "27", "species": "white oak", **change}
    boards = covers(made.put(Piece, "B", **fields), "board")
    assert all(b.at_hand == 0 for b in boards), why


def test_a_short_board_is_counted_for_the_short_parts_only() -> None:
    """Rails 360 long and stiles 736: of many boards of 400 only the rails come"""
    made = PLAIN.put(Piece, "B", form="board", length="400", width="195", thickness="27", count=9)
    wide, narrow = covers(made, "board")
    assert (wide.lacks, narrow.at_hand) == (0, Fraction(360 * 68 * 23, 10**9))


def test_fewer_than_no_pieces_take_nothing_away() -> None:
    made = paneled(PLAIN).put(Piece, "B", length="2500", width="195", thickness="27", count=-2)
    made = made.put(Piece, "L", form="leaf", length="700", width="150", count=-3)
    assert all(b.at_hand == 0 for b in billed_whole(made.plan).lines)
    assert all(b.lacks == b.line.rough for b in covers(made, "board"))


def test_leaves_left_over_from_a_longer_use_serve_a_shorter_one() -> None:
    """Billet of 38: 5 leaves on the band saw (F53), two such in 1400; the long door wants 6, the short one has the rest

    Spares (one in ten, F58) are told in the count and never lack.
    """
    made = paneled(PLAIN).put(Machine, "saw", kerf="1.2", wander="0.6", rejoint="0.7", keep_back="6")
    made = (
        made.put(Column, "C2", run="R", place=2)
        .opening("B", "C2", widths="428", heights="500")
        .fronts("G", opening="B", hinge_side="left")
    )
    made = made.put(Piece, "B", form="billet", length="1400", width="150", thickness="38")
    leaves = covers(made, "leaf")
    told = [(near(b.line.length, 0), b.line.qty, b.at_hand, b.lacks) for b in leaves]
    assert told == [("624", 7, 6, 0), ("428", 7, 4, 2)]


def on_bought(made: Made) -> Made:
    """A stile laid on a board of the usual size, which is not here yet."""
    made = made.put(Laid, "1", group=made.plan.stock.groups[0].id)
    return made.put(LaidPart, "1 a", laid="1", part="F-S", number=1, along="20", across="0")


def test_a_part_laid_on_a_board_that_is_to_be_bought_lacks_until_it_is_cut() -> None:
    made = on_bought(PLAIN.put(Piece, "B", form="board", length="2500", width="195", thickness="27"))
    stile = Fraction(736 * 68 * 23, 10**9)
    assert covers(made, "board")[1].lacks == stile
    assert [one.amount for one in billed_whole(made.plan).purchases if one.what == "board"] != []
    cut = made.put(CutDone, "1 1", laid="1", cut=1, parts=("1 a",))
    assert covers(cut, "board")[1].lacks == 0


def test_what_a_line_lacks_is_what_finds_no_place_on_the_wood_there_is() -> None:
    """A board of 1200 x 100 holds one stile and one rail; of the narrow line one stile and a rail lack or a stile"""
    made = PLAIN.put(Piece, "B", form="board", length="1200", width="75", thickness="27")
    bill = billed_whole(made.plan)
    (answer,) = [one for one in bill.enough.groups if one.group.cut == "boards"]
    each = {"F-S": 736 * 68, "F-RT": 360 * 68, "F-RB": 360 * 80}
    lacks = sum((Fraction(each[part] * 23, 10**9) * count for part, count in answer.short.items()), Fraction(0))
    assert sum(one.lacks for one in covers(made, "board")) == lacks > 0


def test_hinges_on_hand_do_not_lack() -> None:
    made = hinged(PLAIN, name="Cup hinge")
    (hinge,) = [
        one
        for one in billed_whole(made.plan, lots=(HardwareLot("L", "Cup hinge", 1),)).lines
        if one.line.form == "hinge"
    ]
    assert (hinge.at_hand, hinge.lacks) == (1, 1)


def test_each_billet_at_hand_gives_the_leaves_of_its_own_thickness() -> None:
    """F53: ⌊(44 − 6)/5.5⌋ = 6 and ⌊(20 − 6)/5.5⌋ = 2; a thin one takes nothing from a thick one"""
    made = paneled(PLAIN).put(Machine, "saw", kerf="1.2", wander="0.6", rejoint="0.7", keep_back="6")
    thick = made.put(Piece, "B", form="billet", length="700", width="150", thickness="44")
    both = thick.put(Piece, "C", form="billet", length="700", width="150", thickness="20")
    thin = made.put(Piece, "C", form="billet", length="700", width="150", thickness="20")
    assert [covers(of, "leaf")[0].at_hand for of in (thick, both, thin)] == [6, 6, 2]  # six are needed, the rest spare


def test_billets_too_short_give_no_leaf_however_many_lie_there() -> None:
    made = paneled(PLAIN).put(Piece, "B", form="billet", length="600", width="150", thickness="44", count=999_999)
    assert covers(made, "leaf")[0].at_hand == 0


def test_a_row_cut_from_one_blank_is_billed_as_the_blank() -> None:
    """F22, F51"""
    made = door("594", "167", kind="slab", thickness="20").put(
        FrontRow, "row", fronts=("F",), grain_through=True, blank_end="20"
    )
    board = line(made, "board")
    assert (near(board.width, 0), board.qty) == ("171", 1)
    assert board.finished == Fraction(634 * 171 * 20, 10**9)
    assert made.part("slab").rough_length is None


def test_a_bought_skin_is_billed_by_its_area_with_its_scribe() -> None:
    made = job().run("K", S0="40", C1="400", S1="40").rails().read("K", "height", "720", "middle").opening("A", "C1")
    made = made.put(End, "right", run="K", side="right", skin="bought", skin_thickness="6.2", depth_seen="580")
    skin = line(made, "skin")
    assert skin.finished == Fraction(580 * 720, 10**6)
    assert skin.rough == Fraction(595 * 740, 10**6)


def test_hinges_are_counted_by_their_name_and_pulls_by_the_look() -> None:
    made = hinged(PLAIN, name="Cup hinge").look(pulls=2)
    assert [(b.species, b.qty) for b in lines(made, "hinge")] == [("Cup hinge", 2)]
    assert line(made, "pull").qty == 2
    assert lines(made.look(pulls=-1), "pull") == []


def test_own_allowances_go_before_the_usual_ones() -> None:
    """F51"""
    made = PLAIN.put(Allowances, "allowances", solid_length="0", solid_width="10", plane_rough="2")
    assert [near(b.width, 0) for b in lines(made, "board")] == ["86", "74"]
    assert lines(made, "board")[1].rough == Fraction((2 * 716 + 340) * 74 * 22, 10**9)
    assert size(made.part("stile").rough_length) == 716
