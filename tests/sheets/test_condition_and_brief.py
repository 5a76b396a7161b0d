"""Sheets 1 and 5: what was asked and what was found, with boxes for what is not known yet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from frontwright.core.job import Answer, Asked, Brief, Cabinet, Job, OldHinge, Photo, Repair, ServiceLine, Surface
from frontwright.core.lengths import typed
from frontwright.core.plan import Plan, derive
from frontwright.sheets.base import SIZES
from frontwright.sheets.catalogue import make, sheets_of
from frontwright.sheets.info import Paper, SheetInfo, Stamp

type Pieces = Callable[[bytes], list[list[tuple[str, float, float, float]]]]
type Texts = Callable[[bytes], list[str]]


def info_of(plan: Plan, kind: str, subject: str = "") -> SheetInfo:
    (found,) = [info for info in sheets_of(plan) if (info.kind, info.subject) == (kind, subject)]
    return found


def pdf(plan: Plan, kind: str, subject: str = "", paper: Paper = "a4") -> bytes:
    return make(plan, [info_of(plan, kind, subject)], paper, Stamp())


def test_the_brief_has_boxes_for_what_was_not_asked_and_lists_it_as_a_condition(
    kitchen: Plan, page_texts: Texts
) -> None:
    text = " ".join(page_texts(pdf(kitchen, "brief")))
    assert "21 of 21 not asked" in text
    assert (
        "Will the counter change within two years? a thicker one closes the gap over the fronts yes no not known"
        in text
    )
    assert "conditions of the price" in text


def test_the_brief_tells_answers_match_and_photographs_by_run(kitchen: Plan, page_texts: Texts) -> None:
    job = kitchen.job.put(
        Asked("counter changes", "no"),
        Brief(match_what="the cherry next door", match_sample=False, house_year=1962),
        Photo("K toe kick", "K", "toe kick", "0412"),
    )
    text = " ".join(page_texts(pdf(derive(job), "brief")))
    assert "20 of 21 not asked" in text
    assert "whether the counter will change" not in text
    assert "toe kick: 0412" in text
    assert "no: a near match only" in text
    assert "1962" in text


def test_a_job_of_which_nothing_is_known_has_the_brief_to_take_along() -> None:
    assert info_of(derive(Job()), "brief").held_by == ()


def test_the_condition_sheet_letters_the_surfaces_and_says_what_is_on_them(kitchen: Plan, page_texts: Texts) -> None:
    first = page_texts(pdf(kitchen, "condition", "K"))[0]
    assert "A faces solid wood yes varnish or lacquer sound" in first
    assert "B right end plywood" in first
    assert "inside edges" in first


def test_the_hinge_record_has_seven_figures_for_every_door(kitchen: Plan, page_texts: Texts) -> None:
    hinge = OldHinge(
        "5",
        "cup",
        2,
        cover=typed("14", "mm"),
        cup=typed("35", "mm"),
        cup_depth=typed("12", "mm"),
        edge_distance=typed("4.5", "mm"),
        plate_1=typed("88", "mm"),
        plate_2=typed("402", "mm"),
        thickness=typed("18", "mm"),
    )
    text = " ".join(page_texts(pdf(derive(kitchen.job.put(hinge)), "condition", "K")))
    assert "5 cup 2 14 35 12 4.5 88, 402 18" in text


def test_what_can_hurt_stands_on_the_sheet_that_leads_there(kitchen: Plan, page_texts: Texts) -> None:
    job = kitchen.job.put(
        replace(kitchen.job.surfaces["K faces"], finish="paint", swab="lead", keyed="wet"),
        ServiceLine("7 gas 1", "7", "gas"),
        Repair("K repair 1", "K", "loose joint", "lower left"),
    )
    text = " ".join(page_texts(pdf(derive(job), "condition", "K")))
    assert "lead found (K faces): no dry sanding, no dry scraping, no heat gun, no flame" in text
    assert "Local codes and licensed people decide" in text
    assert "gas behind (7): locate the line" in text
    assert "loose joint, lower left: to do before strips and hinges" in text
    assert "LEAD" in text


def test_a_surface_that_fails_never_holds_back_its_own_record_and_an_answer_to_it_is_printed(
    kitchen: Plan, page_texts: Texts
) -> None:
    job = kitchen.job.put(replace(kitchen.job.surfaces["K faces"], finish="vinyl film", state="lifting"))
    (stop,) = [one for one in derive(job).checks if one.code == "surface" and one.is_open]
    assert stop.holds_back
    assert info_of(derive(job), "condition", "K").held_by == ()
    said = Answer(
        "surface K faces", "surface", "K faces", str(stop.value), str(stop.limit), "stop", "glued to the core"
    )
    text = page_texts(pdf(derive(job.put(said)), "condition", "K"))[0]
    assert "Surface of K faces answered: glued to the core." in text


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(("kind", "subject"), [("brief", ""), ("condition", "K"), ("condition", "H")])
def test_everything_lies_inside_the_frame(kitchen: Plan, kind: str, subject: str, paper: Paper, pieces: Pieces) -> None:
    surface = Surface("K top", "K", "top", note="a note as long as a note can be " * 8)
    plan = derive(kitchen.job.put(surface))
    short, long = SIZES[paper]
    width, height = (short, long) if kind == "brief" else (long, short)
    for page in pieces(pdf(plan, kind, subject, paper)):
        assert all(18 < x < width - 11 and 11 < y < height - 11 for _, x, y, _ in page)


def test_a_surface_that_fails_holds_back_the_sheets_by_which_strips_are_glued_and_no_other(kitchen: Plan) -> None:
    job = kitchen.job.put(replace(kitchen.job.surfaces["K faces"], finish="vinyl film", state="lifting"))
    assert {(info.kind, info.subject) for info in sheets_of(derive(job)) if info.held} == {
        ("trim-map", "K"),
        ("site", ""),
    }
    good = kitchen.job.put(
        replace(kitchen.job.surfaces["K faces"], finish="vinyl film", state="lifting", made_good="peel and key")
    )
    assert not any(info.held for info in sheets_of(derive(good)))


def test_a_record_that_goes_on_on_a_new_page_tells_its_columns_again(kitchen: Plan, page_texts: Texts) -> None:
    second = page_texts(pdf(kitchen, "condition", "K"))[1]
    assert "7 made for" in second or "stands out" in second


def test_a_frame_proud_inside_has_its_plates_packed_out(kitchen: Plan, page_texts: Texts) -> None:
    job = kitchen.job.put(Cabinet("B1", "K", frame_inside=typed("3", "mm")))
    assert "frame of B1 stands 3 before the side" in " ".join(page_texts(pdf(derive(job), "condition", "K")))
    assert "plates on the side of B1 packed out by 3" in " ".join(page_texts(pdf(derive(job), "site", "K")))
    flush = kitchen.job.put(Cabinet("B1", "K", frame_inside=typed("0", "mm")))
    assert "packed out" not in " ".join(page_texts(pdf(derive(flush), "condition", "K")))
