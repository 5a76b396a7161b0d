"""Every figure stands on its sheet, and at its place: a wrong figure or a moved line fails here."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import pytest
from frontwright.core.job import (
    AsBuilt,
    Column,
    DoorBuild,
    Front,
    Heading,
    Job,
    Look,
    Opening,
    PanelBuild,
    Reading,
    Room,
    Run,
)
from frontwright.core.lengths import Unit, typed
from frontwright.core.making.result import Proof
from frontwright.core.plan import Plan, billed_whole, derive
from frontwright.sheets.catalogue import Stamp, make, sheets_of
from frontwright.sheets.info import Paper

type Piece = tuple[str, float, float, float]
type Pages = list[list[Piece]]
STAMP = Stamp(3, "2026-11-25")


def _pdf(plan: Plan, kind: str, subject: str = "", paper: Paper = "a4") -> bytes:
    return make(plan, [i for i in sheets_of(plan) if i.kind == kind and i.subject == subject], paper, STAMP)


def _row(page: list[Piece], name: str, reach: float = 3.6) -> list[str]:
    """What stands on the line of a row's name at the left edge: from left to right, then from the top."""
    x0, y0 = next((x, y) for text, x, y, size in page if text == name and x < 30 and size > 11)
    row = [(round(x, 1), y, text.strip()) for text, x, y, _ in page if abs(y - y0) < reach and x > x0]
    return [text for _, _, text in sorted(row)]


def test_the_parts_of_a_door_stand_in_their_rows_with_length_width_and_thickness(
    kitchen: Plan, pieces: Callable[[bytes], Pages]
) -> None:
    (page,) = pieces(_pdf(kitchen, "door", "F5"))
    assert _row(page, "stile") == ["539", "70", "20"]
    assert _row(page, "top rail") == ["255.5", "70", "20"]
    assert _row(page, "bottom rail") == ["255.5", "80", "20"]
    assert _row(page, "panel") == ["407", "253.5", "6.2"]


def test_fractions_of_a_door_are_stacked_whole_numerator_denominator(
    laundry: Plan, pieces: Callable[[bytes], Pages]
) -> None:
    (page,) = pieces(_pdf(laundry, "door", "DA", "letter"))
    assert _row(page, "top rail", 4.5) == ["18", "32", "3", "2", "1", "4", "3", "4"]
    stacked = [(text, y) for text, _, y, size in page if size == pytest.approx(20 * 0.68)]
    over, under = next((a, b) for a, b in pairwise(stacked) if (a[0], b[0]) == ("25", "32"))
    assert over[1] < under[1] - 3


def test_the_proof_lines_of_a_door_are_written_out_and_agree(
    laundry: Plan, kitchen: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    (text,) = page_texts(_pdf(kitchen, "door", "F5"))
    assert "70 + 70 + 255.5 − 2 × 10 = 375.5" in text
    assert "253.5 + 2 × 1 = 235.5 + 2 × 10" in text
    assert "407 + 2 × 1 = 389 + 2 × 10" in text
    assert text.count(" agrees") == 3
    (text,) = page_texts(_pdf(laundry, "door", "DA", "letter"))
    assert "2 1 4 + 2 1 4 + 18 3 32 = 22 19 32" in text


def test_a_proof_that_does_not_agree_says_so(kitchen: Plan, page_texts: Callable[[bytes], list[str]]) -> None:
    made = kitchen.making.fronts["F5"]
    first, *others = made.proofs
    wrong = replace(made, proofs=(Proof(first.front, first.kind, first.left, first.right, agrees=False), *others))
    plan = replace(kitchen, making=replace(kitchen.making, fronts={**kitchen.making.fronts, "F5": wrong}))
    (text,) = page_texts(_pdf(plan, "door", "F5"))
    assert "255.5 − 2 × 10 is not 375.5" in text
    assert "does not agree" in text


def test_a_hinge_side_is_told_in_capitals_and_a_drawer_front_has_none(
    kitchen: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    assert "door, hinges RIGHT, seen from the front" in page_texts(_pdf(kitchen, "door", "F7R"))[0]
    assert "drawer front, seen from the front" in page_texts(_pdf(kitchen, "door", "F2"))[0]


def test_the_cups_of_an_inch_door_are_told_in_millimetres(
    laundry: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    (text,) = page_texts(_pdf(laundry, "door", "DA", "letter"))
    assert "bore from the BACK , 35 mm , 1 2 deep, floor 1 4" in text
    assert "from the outer edge of the rail top 1 2 and 1 9 16 bottom 1 2 and 2 1 16" in text


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_front_and_back_of_a_door_stand_at_the_largest_scale_that_fits(
    laundry: Plan, page_texts: Callable[[bytes], list[str]], paper: Paper
) -> None:
    assert all("1:10" in page_texts(_pdf(laundry, "door", door, paper))[0] for door in ("DA", "DB"))


def test_a_part_as_built_stands_in_its_row_with_the_plan_struck_out_beside_it(
    kitchen: Plan, pieces: Callable[[bytes], Pages]
) -> None:
    later = derive(kitchen.job.put(AsBuilt("F7R stile", "F7R-S", "width", typed("69.5", "mm"))))
    (page,) = pieces(_pdf(later, "door", "F7R"))
    assert _row(page, "stile")[:5] == ["539", "is", "69.5", "70", "20"]


def test_every_part_has_a_box_to_tick_and_room_for_what_it_is(
    kitchen: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    (text,) = page_texts(_pdf(kitchen, "door", "F5"))
    assert "length is width is" in text
    assert "glued up, it is width height diagonal \\ diagonal / thickness" in text


def test_the_elevation_has_each_front_once_with_its_size(kitchen: Plan, pieces: Callable[[bytes], Pages]) -> None:
    (page,) = pieces(_pdf(kitchen, "elevation", "K"))
    texts = [text.strip() for text, _, _, size in page if size == 13]
    for front in (f for f in kitchen.fronts.fronts.values() if f.run == "K"):
        assert texts.count(front.id) == 1
    sizes = {text for text, _, _, size in page if size >= 18}
    assert {"396.5", "594.5", "310.5", "797"} <= {size.strip() for size in sizes}


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_long_run_stands_at_1_to_10_by_being_broken_in_two(
    kitchen: Plan, page_texts: Callable[[bytes], list[str]], paper: Paper
) -> None:
    (text,) = page_texts(_pdf(kitchen, "elevation", "K", paper))
    assert "scale 1:10" in text
    assert "hatched: the row above" in text


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_notes_and_sums_go_under_a_run_that_stands_bigger_over_the_whole_width(
    kitchen: Plan, page_texts: Callable[[bytes], list[str]], pieces: Callable[[bytes], Pages], paper: Paper
) -> None:
    pdf = _pdf(kitchen, "elevation", "H", paper)
    assert "scale 1:10" in page_texts(pdf)[0]
    places = {text.strip(): y for text, _, y, _ in pieces(pdf)[0]}
    assert min(places["H1"], places["417.5"]) < places["on site it is"] < places["agreed"]


def test_the_elevation_adds_up_in_short_and_ends_with_a_line_to_agree_on(
    kitchen: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    (text,) = page_texts(_pdf(kitchen, "elevation", "K"))
    assert "4 + 3110 + 5 × 4 + 4.2 = 3138.2" in text
    assert "F7R and F9L cover 19 at the hinge: plates for 18 at the end of their adjustment." in text
    assert "agreed on" in text


def test_the_front_list_has_a_row_a_front_and_its_sums_close_to_the_last_digit(
    kitchen: Plan, pieces: Callable[[bytes], Pages], page_texts: Callable[[bytes], list[str]]
) -> None:
    first, *_ = pieces(_pdf(kitchen, "fronts"))
    assert _row(first, "F7R", 1.5)[:5] == ["door", "396.5", "×", "539", "RIGHT"]
    text = " ".join(page_texts(_pdf(kitchen, "fronts")))
    row = "4 + 594.5 + 4 + 375.5 + 4 + 797 + 4 + 595 + 4 + 437.5 + 4 + 310.5 + 4.2 = 3138.2 agrees"
    assert row in text.replace("\n", " ")
    assert "17 fronts" in text


def test_the_set_up_list_has_each_stop_once_longest_first_with_all_its_pieces(
    kitchen: Plan, pieces: Callable[[bytes], Pages], page_texts: Callable[[bytes], list[str]]
) -> None:
    pdf = _pdf(kitchen, "set-up", "crosscut")
    stops = [float(text) for page in pieces(pdf) for text, _, _, size in page if size == 31]
    assert stops == sorted(stops, reverse=True)
    assert stops == [906.5, 837.5, 710, 539, 474.5, 317.5, 279, 276.5, 256, 255.5, 190.5, 175.5]
    text = " ".join(page_texts(pdf))
    assert "12 stops, 45 pieces" in text
    assert "12 stiles 70 wide F5 F5 F7L F7L F7R F7R F9L F9L F9R F9R F11 F11" in text
    assert "0.5 below the setting above" in text


def test_the_set_up_list_starts_with_cautions_that_leave_the_last_word_to_the_manual(
    kitchen: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    for work in ("crosscut", "rip", "sheet"):
        (text, *_) = page_texts(_pdf(kitchen, "set-up", work))
        assert "Blade at rest before the" in text
        assert "Where the saw's own manual says otherwise, the manual is right." in text


def test_a_list_breaks_only_between_stops(kitchen: Plan, pieces: Callable[[bytes], Pages]) -> None:
    for page in pieces(_pdf(kitchen, "set-up", "rip", "letter")):
        lowest = max(y for text, _, y, size in page if size == 11)
        foot = next(y for text, _, y, size in page if text == "job")
        assert lowest < foot - 3


def test_the_stock_bill_says_what_is_lacking_and_lists_what_is_at_hand(
    kitchen: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    text = " ".join(page_texts(_pdf(kitchen, "stock")))
    lines = billed_whole(kitchen).lines
    lacking = sum(one.lacks > 0 for one in lines)
    assert f"{lacking} of {len(lines)} lines lacking" in text
    for piece in kitchen.job.pieces:
        assert piece in text


def test_the_section_is_full_size_and_has_a_bar_of_100_mm_and_4_inches(
    kitchen: Plan, page_texts: Callable[[bytes], list[str]], pieces: Callable[[bytes], Pages]
) -> None:
    subject = next(info.subject for info in sheets_of(kitchen) if info.kind == "section")
    (text,) = page_texts(_pdf(kitchen, "section", subject))
    assert "100 mm and 4 in: measure me" in text
    assert "scale 1:1 " in text


def test_the_survey_sheet_has_every_reading_of_every_opening(kitchen: Plan, pieces: Callable[[bytes], Pages]) -> None:
    rows = pieces(_pdf(kitchen, "survey", "K"))
    texts = [text for page in rows for text, *_ in page]
    assert texts.count("8 of 8") == 12
    first = rows[0]
    assert _row(first, "5", 1.0)[:8] == ["340", "340", "340", "490", "490", "490", "596.5", "596.5"]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_word_of_any_sheet_leaves_the_frame(
    kitchen: Plan, laundry: Plan, paper: Paper, pieces: Callable[[bytes], Pages]
) -> None:
    for plan in (kitchen, laundry):
        framed = [info for info in sheets_of(plan) if info.kind != "labels"]  # labels have no frame
        for page in pieces(make(plan, framed, paper, STAMP)):
            assert all(17 < x < 297 - 11 and 11 < y < 297 - 11 for _, x, y, _ in page)


def _bare(unit: Unit, mid_rails: int) -> Plan:
    """Two readings and a build: everything else is assumed."""
    read = {"width": "600mm", "height": "30in"}
    return derive(
        Job().put(
            Heading(name="bare", unit=unit),
            Room("room"),
            Run("R1", "room"),
            Column("C1", "R1", 1),
            Opening("O1", "C1"),
            Front("D", "O1"),
            DoorBuild("B", kind="dowelled", mid_rails=mid_rails, panel="P"),
            PanelBuild("P", kind="veneered"),
            Look("room:room", door_build="B"),
            Reading("w", "O1", "width", "middle", typed(read["width"], unit)),
            Reading("h", "O1", "height", "middle", typed(read["height"], unit)),
        )
    )


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("mid_rails", [0, 3])
def test_a_door_of_which_all_is_assumed_still_goes_on_one_page_and_names_it_all(
    unit: Unit, mid_rails: int, paper: Paper, page_texts: Callable[[bytes], list[str]]
) -> None:
    plan = _bare(unit, mid_rails)
    info = next(i for i in sheets_of(plan) if i.kind == "door")
    (text,) = page_texts(make(plan, [info], paper, STAMP))
    assert len(info.rests_on) > 15
    for name in info.rests_on:
        assert name in text
    assert "door, hinges (LEFT), seen from the front" in text


def test_panels_of_one_size_are_told_once_with_a_box_for_each(pieces: Callable[[bytes], Pages]) -> None:
    (page,) = pieces(_pdf(_bare("mm", 3), "door", "D"))
    assert [text for text, _, _, size in page if size == 13].count("panel") == 1
