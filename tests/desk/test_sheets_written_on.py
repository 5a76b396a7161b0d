"""What was written by hand into a box of a printed sheet, and is then typed in, leaves the sheet current."""

from __future__ import annotations

import json

import pytest
from frontwright.core.job import Printed
from frontwright.desk.contents import SheetLine
from frontwright.desk.session import Session
from frontwright.desk.sheets_list import why_stale
from frontwright.sheets.catalogue import SheetInfo

BOXES = [
    ("15-saw:A", "billets/A/ring_angle", "60", "70", "ring angle was 60, now 70"),
    ("15-saw:A", "billets/A/moisture_shell", "9", "12", "shell was 9, now 12"),
    ("15-saw:A", "billets/A/moisture_core", "9", "10", "core was 9, now 10"),
    ("17-glue-up:1", "pressings/1/started", "9:40", "9:55", "bottle opened was 9:40, now 9:55"),
]


def printed(session: Session, key: str) -> SheetLine:
    assert session.sheets_printed([key]).problem == ""
    return line(session, key)


def line(session: Session, key: str) -> SheetLine:
    return next(one for one in session.sheets() if one.key == key)


@pytest.mark.parametrize(("key", "place", "first", "later", "reason"), BOXES)
def test_what_was_written_into_a_box_leaves_the_sheet_current_and_another_figure_does_not(
    laundry: Session, key: str, place: str, first: str, later: str, reason: str
) -> None:
    laundry.act("enter-billets")
    before = printed(laundry, key)
    assert before.state == "current"
    assert laundry.enter(place, first).problem == ""
    assert (line(laundry, key).state, line(laundry, key).reason) == ("current", before.reason)
    printed(laundry, key)
    assert laundry.enter(place, later).problem == ""
    assert (line(laundry, key).state, line(laundry, key).reason) == ("stale", reason)


def test_a_size_that_a_sheet_says_is_no_box(laundry: Session) -> None:
    laundry.act("enter-billets")
    printed(laundry, "15-saw:A")
    laundry.enter("billets/A/figure", "curl")
    assert line(laundry, "15-saw:A").state == "current"
    laundry.enter("billets/A/thickness", "1 3/4")
    laundry.enter("billets/A/slice", "9/64")
    assert line(laundry, "15-saw:A").state == "stale"


def reason(before: str, now: str) -> str:
    info = SheetInfo("24-labels", "24", "labels", "labels", "", facts=(("leaves", now),))
    return why_stale(Printed("24-labels", "labels", "", 1, "", facts=json.dumps({"leaves": before})), info)


def test_of_a_long_list_only_what_changed_is_said_and_the_rest_counted() -> None:
    many = ", ".join(f"leaf A{at}" for at in range(1, 21))
    assert reason(many, f"{many}, leaf A21") == "leaves has leaf A21 too"
    assert reason(many, many.replace("leaf A7,", "strip 7,")) == "leaves was leaf A7, now strip 7"
    other = many.replace("leaf", "strip")
    said = reason(many, other)
    assert said == ("leaves was leaf A1, leaf A2, leaf A3 and 17 more, now strip A1, strip A2, strip A3 and 17 more")
    assert reason("A1, A2", "A1, A3") == "leaves was A1, A2, now A1, A3"
