"""Which sheets a job has, what each says of itself, which are held back, and the paper as a whole."""

from collections.abc import Callable
from dataclasses import replace
from io import BytesIO
from typing import Any

import pytest
from frontwright.core.findings import Check
from frontwright.core.job import AsBuilt, Heading
from frontwright.core.lengths import typed
from frontwright.core.plan import Plan, derive
from frontwright.sheets.catalogue import HeldBack, SheetInfo, Stamp, digest, make, sheets_of
from pypdf import PdfReader

STAMP = Stamp(3, "2026-11-25")
STOP = Check("cup-fit", ("F5",), None, None, "stop", "open")


def _of(plan: Plan, kind: str, subject: str = "") -> SheetInfo:
    return next(info for info in sheets_of(plan) if info.kind == kind and info.subject == subject)


def _keys(plan: Plan) -> list[str]:
    return [info.key for info in sheets_of(plan)]


def test_the_sheets_stand_in_the_order_of_the_work(laundry: Plan) -> None:
    assert _keys(laundry) == [
        "01-brief:",
        "02-field-run:",
        "03-field-opening:",
        "04-survey:R1",
        "05-condition:R1",
        "06-elevation:R1",
        "07-reveals:R1",
        "09-fronts:",
        "10-door:DA",
        "10-door:DB",
        "11-section:DA",
        "12-stock:",
        "12-stock:pull",
        "12-stock:buy",
        "12-stock:buy hardware dealer",
        "12-stock:buy paint shop",
        "12-stock:buy timber yard",
        "14-set-up:crosscut",
        "14-set-up:rip",
        "14-set-up:sheet",
        "15-saw:A",
        "15-saw:B",
        "15-saw:C",
        "15-saw:D",
        "16-leaves:DA-P",
        "16-leaves:DB-P",
        "17-glue-up:1",
        "17-glue-up:2",
        "18-trim-map:R1",
        "19-boring:DA",
        "19-boring:DB",
        "20-finish:",
        "21-site:R1",
        "21-site:",
        "24-labels:",
        "24-labels:parts",
        "25-quote:",
        "26-story-stick:R1 along",
        "26-story-stick:R1 up",
        "27-work:",
    ]


def test_every_front_that_is_made_has_its_door_sheet(kitchen: Plan) -> None:
    subjects = [info.subject for info in sheets_of(kitchen) if info.kind == "door"]
    assert subjects == list(kitchen.making.fronts)
    assert len(subjects) == 17


def test_a_sheet_says_each_figure_that_stands_on_it_by_name(kitchen: Plan) -> None:
    facts = dict(_of(kitchen, "door", "F5").facts)
    assert facts["width of F5"] == "375.5"
    assert facts["length of the top rail of F5"] == "255.5"
    assert facts["thickness of the panel of F5"] == "6.2"
    assert facts["height of hinge 2 of F5"] == "(449)"
    assert dict(_of(kitchen, "elevation", "K").facts)["width of F7R"] == "396.5"


def test_a_measured_stile_shows_in_the_facts_of_its_own_sheets_and_changes_their_digest(kitchen: Plan) -> None:
    later = derive(kitchen.job.put(AsBuilt("F7R stile", "F7R-S", "width", typed("69.5", "mm"))))
    before, after = _of(kitchen, "door", "F7R"), _of(later, "door", "F7R")
    changed = [(name, old, new) for (name, old), (_, new) in zip(before.facts, after.facts, strict=True) if old != new]
    assert ("width of the stile of F7R", "70", "is 69.5") in changed
    assert digest(before) != digest(after)
    assert digest(_of(kitchen, "door", "F12")) == digest(_of(later, "door", "F12"))
    assert digest(_of(kitchen, "set-up", "rip")) != digest(_of(later, "set-up", "rip"))


def test_the_digest_of_a_sheet_is_the_same_for_the_same_job(kitchen: Plan) -> None:
    again = derive(kitchen.job)
    assert [digest(info) for info in sheets_of(kitchen)] == [digest(info) for info in sheets_of(again)]


def test_a_stop_that_nobody_answered_holds_every_sheet_of_its_part_back_and_no_other(kitchen: Plan) -> None:
    held = {info.key for info in sheets_of(replace(kitchen, checks=(*kitchen.checks, STOP))) if info.held}
    assert {"10-door:F5", "06-elevation:K", "09-fronts:", "14-set-up:crosscut"} <= held
    assert held.isdisjoint({"02-field-run:", "03-field-opening:", "10-door:F12", "06-elevation:H"})


def test_a_held_sheet_is_refused_by_name_and_with_what_holds_it(kitchen: Plan) -> None:
    plan = replace(kitchen, checks=(STOP,))
    with pytest.raises(HeldBack, match=r"door sheet, F5 is held back by cup-fit of F5"):
        make(plan, [_of(plan, "door", "F5"), _of(plan, "door", "F12")], "a4", STAMP)


def test_an_answered_stop_lets_the_sheet_go_and_the_reason_is_printed_on_it(
    kitchen: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    answered = replace(STOP, answer="the cup was tried on scrap <b>& fits</b>\nsecond line")
    plan = replace(kitchen, checks=(answered,))
    info = _of(plan, "door", "F5")
    assert not info.held
    assert info.answered == (answered,)
    (text,) = page_texts(make(plan, [info], "a4", STAMP))
    assert "Cup fit of F5 answered: the cup was tried on scrap <b>& fits</b> second line." in text


def test_an_assumed_figure_is_named_in_the_info_and_in_the_box_of_the_sheet(
    kitchen: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    info = _of(kitchen, "door", "F5")
    assert "outer hinge from the door's end" in info.rests_on
    (text,) = page_texts(make(kitchen, [info], "a4", STAMP))
    assert "Assumed, in brackets:" in text
    assert "outer hinge from the door's end ( 90 )" in text.replace("(90)", "( 90 )")


def test_a_door_sheet_says_so_where_nothing_is_assumed(laundry: Plan, page_texts: Callable[[bytes], list[str]]) -> None:
    (text,) = page_texts(make(laundry, [_of(laundry, "door", "DA")], "letter", STAMP))
    assert "Nothing on this sheet is assumed. No stop is open. Closure of R1 answered:" in text


def test_the_same_sheets_give_the_same_bytes(laundry: Plan) -> None:
    infos = sheets_of(laundry)
    assert make(laundry, infos, "letter", STAMP) == make(derive(laundry.job), infos, "letter", STAMP)


def test_nothing_to_make_is_an_error_and_not_an_empty_file(laundry: Plan) -> None:
    with pytest.raises(ValueError, match="no sheet"):
        make(laundry, [], "a4", STAMP)


def test_the_foot_has_job_sheet_version_date_and_the_page_of_its_kind(
    laundry: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    infos = [_of(laundry, "fronts"), _of(laundry, "door", "DA"), _of(laundry, "door", "DB")]
    _, first, second = page_texts(make(laundry, infos, "letter", Stamp(3, "2026-11-25", {"10-door:DB": 7})))
    assert first.endswith(
        "job Laundry pair sheet 10 door sheet, DA run R1 scale 1:10 version 3 printed 2026-11-25 page 1 of 2"
    )
    assert "sheet 10 door sheet, DB run R1 scale 1:" in second
    assert second.endswith("version 7 printed 2026-11-25 page 2 of 2")


def _resources(pdf: bytes, name: str) -> list[Any]:
    found: list[Any] = []
    for page in PdfReader(BytesIO(pdf)).pages:
        resources: Any = page["/Resources"]
        found += [each.get_object() for each in resources.get(name, {}).values()]
    return found


def _faces(pdf: bytes) -> set[str]:
    return {str(font["/BaseFont"]).split("+")[-1] for font in _resources(pdf, "/Font") if "/FontDescriptor" in font}


def test_every_face_that_is_used_is_embedded_and_comes_with_the_program(kitchen: Plan) -> None:
    pdf = make(kitchen, sheets_of(kitchen), "a4", STAMP)
    for font in _resources(pdf, "/Font"):
        if "/FontDescriptor" in font:
            assert "/FontFile2" in font["/FontDescriptor"]
    assert {"DejaVuSans", "DejaVuSans-Bold", "DejaVuSansCondensed"} <= _faces(pdf)
    assert all(face.startswith("DejaVuSans") for face in _faces(pdf))


def test_paper_is_black_on_white_and_has_no_pictures(kitchen: Plan) -> None:
    pdf = make(kitchen, sheets_of(kitchen), "a4", STAMP)
    for page in PdfReader(BytesIO(pdf)).pages:
        contents = page.get_contents()
        assert contents is not None
        tones = {
            (operator, tuple(float(operand) for operand in operands))
            for operands, operator in contents.operations
            if operator in (b"g", b"G", b"rg", b"RG", b"k", b"K", b"cs", b"CS", b"sc", b"SC", b"sh")
        }
        assert all(set(values) <= {0.0, 1.0} for _, values in tones)
        assert {operator for operator, _ in tones} <= {b"g", b"G", b"rg", b"RG"}
    assert not _resources(pdf, "/XObject")


@pytest.mark.parametrize(
    "name", ["<b>Smith & Sons</b>", "two\nlines", "x" * 3000, "many words " * 200, "漢字 \ud800 \x00", ""]
)
def test_whatever_a_job_is_called_its_sheets_are_made_and_the_name_stays_in_its_cell(
    laundry: Plan, name: str, pieces: Callable[[bytes], list[list[tuple[str, float, float, float]]]]
) -> None:
    plan = derive(laundry.job.put(Heading(name=name, unit="in")))
    one_of_each = {info.kind: info for info in sheets_of(plan)}.values()
    for page in pieces(make(plan, list(one_of_each), "letter", STAMP)):
        assert all(not any(ord(sign) < 32 for sign in text) for text, *_ in page)
        high = max(y for _, _, y, _ in page)
        foot = sorted((x, text) for text, x, y, size in page if abs(y - high) < 0.5 and size == 10)
        assert all(len(text) < 40 for _, text in foot)


def test_names_with_marks_come_out_as_they_were_typed(laundry: Plan, page_texts: Callable[[bytes], list[str]]) -> None:
    plan = derive(laundry.job.put(Heading(name="Smith & <b>Sons</b>", unit="in")))
    (text,) = page_texts(make(plan, [_of(plan, "fronts")], "letter", STAMP))
    assert "job Smith & <b>Sons</b> sheet 9 front list" in text
