"""Sheet 7, reveal strip: every line with its reveal, the covers beside it and the plate; reveals at real size."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from frontwright.core.job import Look
from frontwright.core.lengths import typed
from frontwright.core.plan import Plan, derive
from frontwright.sheets.catalogue import SheetInfo, Stamp, digest, make, sheets_of

type Piece = tuple[str, float, float, float]
type Pages = Callable[[bytes], list[list[Piece]]]
STAMP = Stamp(1, "2026-11-25")


def _of(plan: Plan) -> SheetInfo:
    (info,) = [info for info in sheets_of(plan) if info.kind == "reveals"]
    return info


def _rows(pages: list[list[Piece]]) -> dict[str, list[str]]:
    """The pieces of each line of the list, by what it lies between."""
    found: dict[str, list[str]] = {}
    for page in pages:
        for text, _, y, _ in page:
            if " | " in text:
                found[text] = [
                    t.strip() for t, x, at, _ in sorted(page, key=lambda p: p[1]) if abs(at - y) < 0.5 and t != text
                ]
    return found


def test_each_line_has_its_reveal_its_covers_and_the_plate_of_what_hangs_there(kitchen: Plan, pieces: Pages) -> None:
    """From the worked job: hinge-side covers F5 17.5, F7R and F9L 19, plates for 18"""
    rows = _rows(pieces(make(kitchen, [_of(kitchen)], "a4", STAMP)))
    assert rows["F2, F3 | F5"] == ["3", "4", "17.5", "17.5", "F5", "18"]
    assert rows["F7R | F9L"] == ["8", "4", "19", "19", "F7R", "18", "F9L", "18"]
    assert rows["F7L | F7R"] == ["6", "4", "–", "–", "–"]


def test_at_a_skinned_end_the_reveal_is_counted_from_the_skin(kitchen: Plan, pieces: Pages) -> None:
    """3132 + 6.2 − 3134 is 4.2"""
    rows = _rows(pieces(make(kitchen, [_of(kitchen)], "a4", STAMP)))
    assert next(row for name, row in rows.items() if name == "F12 | right end")[1] == "4.2"


def test_level_lines_come_after_the_upright_ones(kitchen: Plan, pieces: Pages) -> None:
    rows = list(_rows(pieces(make(kitchen, [_of(kitchen)], "letter", STAMP))))
    assert rows.index("F3 | F2") > rows.index("F12 | right end")


def test_every_word_lies_inside_the_frame(laundry: Plan, kitchen: Plan, pieces: Pages) -> None:
    for plan in (laundry, kitchen):
        for page in pieces(make(plan, [_of(plan)], "a4", STAMP)):
            assert all(18 <= x <= 297 - 11 and 11 <= y <= 210 - 11 for _, x, y, _ in page)


def test_the_strip_carries_a_bar_to_measure(kitchen: Plan, pieces: Pages) -> None:
    (first, *_) = pieces(make(kitchen, [_of(kitchen)], "a4", STAMP))
    assert any("measure me" in text for text, *_ in first)


def test_another_gap_makes_the_sheet_stale(kitchen: Plan) -> None:
    look = kitchen.job.looks.get("run:K")
    assert isinstance(look, Look)
    wider = derive(kitchen.job.put(replace(look, gap=typed("5", "mm"))))
    assert digest(_of(wider)) != digest(_of(kitchen))
    assert ("reveal F7R | F9L", "5") in _of(wider).facts


def test_openings_by_themselves_have_no_strip(kitchen: Plan) -> None:
    assert [info.subject for info in sheets_of(kitchen) if info.kind == "reveals"] == ["K"]
