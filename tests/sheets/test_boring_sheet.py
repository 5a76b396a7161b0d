"""Sheet 19, boring: from the back, pairs mirrored, heights from the bottom, proofs, ticks, and what makes it stale."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from frontwright.core.job import Front, Inside, Job, Plate, PullType
from frontwright.core.lengths import typed
from frontwright.core.plan import Plan, derive
from frontwright.sheets.catalogue import HeldBack, SheetInfo, Stamp, digest, make, sheets_of

type Piece = tuple[str, float, float, float]
type Pieces = Callable[[bytes], list[list[Piece]]]
type Texts = Callable[[bytes], list[str]]
STAMP = Stamp(1, "2026-11-25")


def _of(plan: Plan, subject: str = "") -> list[SheetInfo]:
    return [i for i in sheets_of(plan) if i.kind == "boring" and subject in ("", i.subject)]


def _with(plan: Plan, change: Callable[[Job], Job]) -> Plan:
    return derive(change(plan.job))


def test_every_door_has_its_sheet_a_pair_shares_one_and_drawers_have_none(kitchen: Plan, laundry: Plan) -> None:
    titles = [info.title.removeprefix("boring sheet, ") for info in _of(kitchen)]
    assert titles == ["F5", "F7", "F9", "F11", "F12", "H1, H2"]
    assert [info.title for info in _of(laundry)] == ["boring sheet, DA", "boring sheet, DB"]


def test_the_right_hand_door_lies_on_the_left_and_each_hinge_edge_is_outside(kitchen: Plan, pieces: Pieces) -> None:
    (page,) = pieces(make(kitchen, _of(kitchen, "F7R"), "a4", STAMP))
    names = {text: x for text, x, _, size in page if text in ("F7L", "F7R") and size > 14 and x > 30}
    edges = sorted(x for text, x, *_ in page if text == "hinge edge")
    assert names["F7R"] < names["F7L"]
    assert edges[0] < names["F7R"]
    assert edges[1] > names["F7L"]
    assert sum(text == "BACK" for text, *_ in page) >= 2


def test_heights_run_from_the_bottom_and_the_cup_centre_from_the_hinge_edge(kitchen: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(make(kitchen, _of(kitchen, "F7R"), "a4", STAMP))
    squeezed = text.replace(" ", "")
    assert squeezed.count("(90)") >= 2
    assert squeezed.count("(449)") >= 2
    assert "22.5" in text
    assert "heights from the BOTTOM edge" in text
    assert "12.5 deep" in text


def test_the_proofs_say_what_is_left_at_the_joint_and_under_the_cup(kitchen: Plan, page_texts: Texts) -> None:
    """F27: 5 + 35 = 40 at most 57; 20 - 12.5 = 7.5"""
    (text,) = page_texts(make(kitchen, _of(kitchen, "F5"), "a4", STAMP))
    squeezed = text.replace(" ", "")
    assert "5+35=40" in squeezed
    assert "atmost57" in squeezed
    assert "20−12.5=7.5" in squeezed
    assert "539−(449)=(90)" in squeezed
    assert "agrees" in squeezed


def test_an_adjustment_that_is_used_up_and_a_mixed_pair_are_noted(kitchen: Plan, page_texts: Texts) -> None:
    (text,) = page_texts(make(kitchen, _of(kitchen, "F7R"), "a4", STAMP))
    assert "F7Rcoveris19:thehingefor18isnear" in text.replace(" ", "")

    def plates(job: Job) -> Job:
        hinge = replace(job.hinge_types["cover 18"], plate=typed("1", "mm"))
        low, high = typed("0", "mm"), typed("1", "mm")
        return job.put(hinge, Plate("low", "cover 18", height=low), Plate("high", "cover 18", height=high))

    plan = _with(kitchen, plates)
    (text,) = page_texts(make(plan, _of(plan, "F7R"), "a4", STAMP))
    assert "F7R:platelowundereveryhinge" in text.replace(" ", "")
    assert "F7L:platehighundereveryhinge" in text.replace(" ", "")


def test_a_hinge_moved_clear_of_a_shelf_is_told(kitchen: Plan, page_texts: Texts) -> None:
    plan = _with(kitchen, lambda job: job.put(Inside("shelf 1", "5", "shelf", at=typed("85", "mm"))))
    (text,) = page_texts(make(plan, _of(plan, "F5"), "a4", STAMP))
    assert "moved clear of shelf 1" in text
    assert "not even" in text


def test_without_a_pull_that_was_chosen_only_the_cups_are_bored(kitchen: Plan, page_texts: Texts) -> None:
    said = "No pull has been chosen."
    (text,) = page_texts(make(kitchen, _of(kitchen, "F5"), "a4", STAMP))
    assert said in text
    chosen = _with(kitchen, lambda job: job.put(PullType("bar"), replace(job.looks["room:kitchen"], pull="bar")))
    (text,) = page_texts(make(chosen, _of(chosen, "F5"), "a4", STAMP))
    assert said not in text


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_each_sheet_is_one_page_on_both_papers_with_a_line_to_tick_for_each_door(
    kitchen: Plan, page_texts: Texts, paper: str
) -> None:
    texts = page_texts(make(kitchen, _of(kitchen), "a4" if paper == "a4" else "letter", STAMP))
    assert len(texts) == len(_of(kitchen))
    doors = sum(text.count("hinge edge marked") for text in texts)
    assert doors == len(kitchen.hardware.cups)
    assert all("guard down" in text and "measure me" in text for text in texts)


def test_a_moved_hinge_makes_the_sheet_stale(kitchen: Plan) -> None:
    moved = _with(kitchen, lambda job: job.put(Inside("shelf 1", "5", "shelf", at=typed("85", "mm"))))
    (before,), (after,) = _of(kitchen, "F5"), _of(moved, "F5")
    assert digest(before) != digest(after)
    assert [digest(i) for i in _of(kitchen, "F11")] == [digest(i) for i in _of(moved, "F11")]


def test_a_cup_in_the_joint_holds_the_sheet_back(kitchen: Plan) -> None:
    def change(job: Job) -> Job:
        return job.put(replace(job.hinge_types["cover 18"], edge_distance=typed("25", "mm")))

    plan = _with(kitchen, change)
    (info,) = _of(plan, "F5")
    assert info.held
    with pytest.raises(HeldBack):
        make(plan, [info], "a4", STAMP)


def test_a_door_hung_at_the_top_is_bored_along_its_top_edge(kitchen: Plan, page_texts: Texts) -> None:
    def change(job: Job) -> Job:
        return job.put(
            Front("F5", "5", hinge_side="top"), replace(job.hinge_types["cover 18"], cover=typed("13", "mm"))
        )

    plan = _with(kitchen, change)
    (text,) = page_texts(make(plan, _of(plan, "F5"), "a4", STAMP))
    assert "hung at the top" in text
    assert "(90)" in text.replace(" ", "")


def test_the_reveal_strip_names_the_plates_under_each_door(kitchen: Plan, page_texts: Texts) -> None:
    def plates(job: Job) -> Job:
        hinge = replace(job.hinge_types["cover 18"], plate=typed("1", "mm"))
        low, high = typed("0", "mm"), typed("1", "mm")
        return job.put(hinge, Plate("low", "cover 18", height=low), Plate("high", "cover 18", height=high))

    plan = _with(kitchen, plates)
    strips = [info for info in sheets_of(plan) if info.kind == "reveals" and info.subject == "K"]
    text = " ".join(page_texts(make(plan, strips, "a4", STAMP))).replace(" ", "")
    assert "F7Rlow19" in text
    assert "F7Lhigh18" in text


# -- the card of the pulls


def _chosen(plan: Plan) -> Plan:
    bar = PullType("bar", "bar pull", holes=typed("128", "mm"))
    return _with(plan, lambda job: job.put(bar, replace(job.looks["room:kitchen"], pull="bar")))


def test_pulls_have_a_card_once_they_are_chosen(kitchen: Plan) -> None:
    assert [i.title for i in _of(_chosen(kitchen)) if i.title.startswith("pulls")] == ["pulls, K", "pulls, H"]
    assert not [i for i in _of(kitchen) if i.title.startswith("pulls")]


def test_the_card_counts_doors_from_the_free_edge_and_drawers_from_the_left(kitchen: Plan, page_texts: Texts) -> None:
    """F5 is 375.5 wide, its stile 70: the middle 35 from the free edge; F1 is 594.5 wide"""
    plan = _chosen(kitchen)
    (text,) = page_texts(make(plan, _of(plan, "K"), "a4", STAMP))
    squeezed = text.replace(" ", "")
    assert "35freeedge" in squeezed
    assert "(64)and(192)top" in squeezed
    assert "2of(28)" in squeezed
    assert "boardclampedbehind" in squeezed


def test_another_hole_spacing_makes_the_card_stale(kitchen: Plan) -> None:
    before = _chosen(kitchen)
    after = _with(before, lambda job: job.put(replace(job.pull_types["bar"], holes=typed("96", "mm"))))
    assert [digest(i) for i in _of(before, "K")] != [digest(i) for i in _of(after, "K")]
