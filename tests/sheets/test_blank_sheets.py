"""Sheets 2 and 3: what is carried to the client's kitchen, usable with no program at all."""

from collections.abc import Callable
from io import BytesIO

import pytest
from frontwright.core.job import Job
from frontwright.core.plan import Plan, derive
from frontwright.sheets.catalogue import Stamp, make, sheets_of
from frontwright.sheets.info import Paper
from pypdf import PdfReader

STAMP = Stamp(1, "2026-11-25")
SIZES: dict[Paper, tuple[float, float]] = {"a4": (210, 297), "letter": (215.9, 279.4)}


@pytest.fixture(scope="module")
def nothing() -> Plan:
    return derive(Job())


def _blank(plan: Plan, kind: str, paper: Paper) -> bytes:
    return make(plan, [info for info in sheets_of(plan) if info.kind == kind], paper, STAMP)


def test_a_job_without_anything_still_has_the_brief_and_its_two_blank_field_sheets(nothing: Plan) -> None:
    assert [info.key for info in sheets_of(nothing)] == ["01-brief:", "02-field-run:", "03-field-opening:"]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_run_sheet_is_one_page_across_and_the_opening_sheet_one_page_upright(nothing: Plan, paper: Paper) -> None:
    short, long = SIZES[paper]
    for kind, (width, height) in {"field-run": (long, short), "field-opening": (short, long)}.items():
        (page,) = PdfReader(BytesIO(_blank(nothing, kind, paper))).pages
        found = [float(side) * 25.4 / 72 for side in (page.mediabox.width, page.mediabox.height)]
        assert found == pytest.approx([width, height], abs=0.01)


def test_the_run_sheet_asks_for_thirteen_members_both_ends_and_what_changes_soon(
    nothing: Plan, page_texts: Callable[[bytes], list[str]]
) -> None:
    (text,) = page_texts(_blank(nothing, "field-run", "a4"))
    for asked in (
        "TOP line",
        "BOTTOM line",
        "13",
        "LEFT end",
        "RIGHT end",
        "gap, bottom",
        "Changing soon?",
        "sticks out",
    ):
        assert asked in text
    assert "LEFT end wall corner appliance open" in text


def test_four_openings_to_a_page_with_ten_readings_each_in_their_order(
    nothing: Plan, pieces: Callable[[bytes], list[list[tuple[str, float, float, float]]]]
) -> None:
    (page,) = pieces(_blank(nothing, "field-opening", "letter"))
    for label in ("1 width, top", "2 width, middle", "3 width, bottom", "4 height, left", "5 height, middle"):
        assert [text for text, *_ in page].count(label) == 4
    for label in ("6 height, right", "7 diagonal \\", "8 diagonal /", "9 depth inside", "10 shelf heights"):
        assert [text for text, *_ in page].count(label) == 4


def test_where_a_width_is_read_there_its_box_stands(
    nothing: Plan, pieces: Callable[[bytes], list[list[tuple[str, float, float, float]]]]
) -> None:
    (page,) = pieces(_blank(nothing, "field-opening", "a4"))
    first = {text: (x, y) for text, x, y, _ in reversed(page)}
    assert first["1 width, top"][1] < first["2 width, middle"][1] < first["3 width, bottom"][1]
    assert first["4 height, left"][0] < first["5 height, middle"][0] < first["6 height, right"][0]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_everything_lies_inside_the_margins_of_the_paper(
    nothing: Plan, paper: Paper, pieces: Callable[[bytes], list[list[tuple[str, float, float, float]]]]
) -> None:
    short, long = SIZES[paper]
    for kind, (width, height) in {"field-run": (long, short), "field-opening": (short, long)}.items():
        (page,) = pieces(_blank(nothing, kind, paper))
        assert all(18 < x < width - 11 and 11 < y < height - 11 for _, x, y, _ in page)
