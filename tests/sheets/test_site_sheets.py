"""Sheets 20, 21, 26 and 27: finish schedule, site pack, story stick, work order, as they stand on paper."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import ceil

import pytest
from frontwright.core import job as rows
from frontwright.core.job import Finish, Job, Snag, amount
from frontwright.core.lengths import typed
from frontwright.core.plan import Plan, derive, sited
from frontwright.sheets.catalogue import Paper, SheetInfo, Stamp, make, sheets_of

type Piece = tuple[str, float, float, float]
type Texts = Callable[[bytes], list[str]]
type Pieces = Callable[[bytes], list[list[Piece]]]
STAMP = Stamp(1, "2026-11-25")


def of(plan: Plan, kind: str, subject: str | None = None) -> list[SheetInfo]:
    return [info for info in sheets_of(plan) if info.kind == kind and subject in (None, info.subject)]


def text_of(plan: Plan, kind: str, page_texts: Texts, subject: str | None = None) -> str:
    return " ".join(page_texts(make(plan, of(plan, kind, subject), "a4", STAMP)))


# -- finish schedule


@pytest.fixture(scope="module")
def oiled(kitchen: Plan) -> Plan:
    piece = rows.TestPiece(
        "T1", "oil", "oak", "OK3", "", "sanded 180, three coats", "table of the next room", "12 years"
    )
    recipe = Finish("oil", "hard oil", "oil", "matt", "120, 180", coats=2, batch="77", cover=amount("12"))
    return derive(kitchen.job.put(recipe, replace(piece, age="12 years", aim="when it has darkened", daylight=True)))


def test_the_finish_schedule_says_recipe_test_piece_and_how_much(oiled: Plan, page_texts: Texts) -> None:
    text = text_of(oiled, "finish", page_texts)
    (batch,) = oiled.finish.batches
    assert "Finish: hard oil" in text
    assert f"{float(batch.volume):.2f} litres" in text
    assert "matches table of the next room, 12 years old, to match it when it has darkened" in text
    assert "seen by daylight" in text
    assert "sanded before: 120, 180" in text


def test_the_finish_schedule_warns_of_oily_rags_and_defers(oiled: Plan, page_texts: Texts) -> None:
    text = text_of(oiled, "finish", page_texts)
    assert "catch fire by themselves" in text
    assert "Local codes and licensed people decide" in text
    assert "No finish on glue faces of strips" in text


def test_a_finish_that_is_no_drying_oil_says_nothing_of_rags(kitchen: Plan, page_texts: Texts) -> None:
    plan = derive(kitchen.job.put(Finish("w", "water varnish", "water-based")))
    assert "catch fire" not in text_of(plan, "finish", page_texts)


def test_every_front_and_strip_has_its_row_with_load_and_place(oiled: Plan, pieces: Pieces) -> None:
    found = [piece for page in pieces(make(oiled, of(oiled, "finish"), "a4", STAMP)) for piece in page]
    (batch,) = oiled.finish.batches
    places = {one: (load.number, at) for load in batch.loads for at, on in enumerate(load.places, 1) for one in on}
    for name in ("F1", "F9R", "H3"):
        rows = [y for text, x, y, size in found if text == name and size == 11]
        assert len(rows) == 1
        beside = [text for text, _, y, size in found if abs(y - rows[0]) < 0.1 and size == 11]
        assert beside[1:3] == [str(part) for part in places[name]]


def test_without_a_recipe_the_schedule_stands_on_usual_figures_and_says_so(kitchen: Plan) -> None:
    (info,) = of(kitchen, "finish")
    assert {"recipe", "coats", "cover of a coat"} <= set(info.rests_on)


# -- site pack


def test_the_site_pack_lists_fronts_in_the_order_of_hanging(kitchen: Plan, pieces: Pieces) -> None:
    pages = pieces(make(kitchen, of(kitchen, "site", "K"), "a4", STAMP))
    listed = [
        (page, y, text)
        for page, of_page in enumerate(pages)
        for text, x, y, size in of_page
        if size == 10.5 and text in kitchen.fronts.fronts and 28 < x < 45
    ]
    in_turn = [one.front for one in sited(kitchen).of_run("K")]
    assert [text for _, _, text in sorted(listed)] == in_turn


def test_the_site_pack_names_line_and_spacer(kitchen: Plan, page_texts: Texts) -> None:
    text = text_of(kitchen, "site", page_texts, "K")
    assert "on line 1, hinges left" in text
    assert "no slope was read: try a level" in text
    assert "by spacers, box shut" in text


def test_a_sloping_run_says_at_which_end_its_lines_are_held(kitchen: Plan, page_texts: Texts) -> None:
    run = replace(kitchen.job.runs["K"], slope_shows=typed("2", "mm"), slope_over=typed("600", "mm"))
    text = text_of(derive(kitchen.job.put(run)), "site", page_texts, "K")
    assert "the bottom rail slopes by" in text
    assert "at the right" in text or "at the left" in text


def test_the_pack_of_the_job_has_surfaces_tools_and_snags(kitchen: Plan, page_texts: Texts) -> None:
    snag = Snag("snag 1", "F12", "rubs at the top", "maker", "", "Friday")
    text = text_of(derive(kitchen.job.put(snag)), "site", page_texts, "")
    for said in (
        "rubs at the top",
        "by Friday" if "by Friday" in text else "Friday",
        "spacers",
        "degrease",
        "oily rags",
    ):
        assert said in text


# -- story stick


def test_a_story_stick_is_drawn_full_size_in_pieces_that_lap(kitchen: Plan, pieces: Pieces) -> None:
    (info,) = of(kitchen, "story-stick", "K along")
    pages = pieces(make(kitchen, [info], "a4", STAMP))
    drawn = [page for page in pages if any("full size" in text for text, *_ in page)]
    assert drawn
    names = [text for page in drawn for text, *_ in page if text.startswith("piece ")]
    assert names == [f"piece {at}" for at in range(1, len(names) + 1)]


def test_marks_of_a_story_stick_stand_at_their_true_distance(kitchen: Plan, pieces: Pieces) -> None:
    """S1 lies from 581 to 620 by the running tape: left names begin at their mark, right ones end there"""
    (info,) = of(kitchen, "story-stick", "K along")
    for page in pieces(make(kitchen, [info], "a4", STAMP)):
        at = {text: (x, y) for text, x, y, size in page if size < 8}
        if "S1 left" in at and "F4 left" in at and abs(at["S1 left"][1] - at["F4 left"][1]) < 30:
            assert abs(at["F4 left"][0] - at["S1 left"][0] - (602.5 - 581)) < 0.2
            return
    pytest.fail("no piece with S1 and F4")


def test_the_list_of_a_story_stick_tells_every_edge(kitchen: Plan, page_texts: Texts) -> None:
    text = text_of(kitchen, "story-stick", page_texts, "K up")
    assert "column 1: column O1" in text
    assert "bottom of F12" in text


# -- work order


def test_the_work_order_has_every_step_once_with_its_settings(kitchen: Plan, page_texts: Texts) -> None:
    text = text_of(kitchen, "work", page_texts)
    for step in sited(kitchen).work:
        assert step.what.split(",")[0] in text
    assert "24 to 72 hours" in text


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("kind", ["finish", "site", "story-stick", "work"])
def test_they_go_on_both_papers_within_the_frame(laundry: Plan, pieces: Pieces, kind: str, paper: Paper) -> None:
    for page in pieces(make(laundry, of(laundry, kind), paper, STAMP)):
        assert all(x > 17 and y > 10 for _, x, y, _ in page)


def test_an_empty_job_has_none_of_them() -> None:
    plan = derive(Job())
    assert not [info for info in sheets_of(plan) if info.kind in ("finish", "site", "story-stick", "work")]


def test_the_site_pack_of_a_run_on_the_wall_says_what_is_added_to_its_fixings(kitchen: Plan, page_texts: Texts) -> None:
    assert "Added on the wall fixings" not in text_of(kitchen, "site", page_texts, "K")
    hung = derive(kitchen.job.put(replace(kitchen.job.runs["K"], stands="wall")))
    text = text_of(hung, "site", page_texts, "K")
    assert f"{ceil(hung.hardware.weights['K'].added.units)} kg" in text
    assert "screws into studs or masonry, not plaster" in text
