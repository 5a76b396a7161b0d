"""A wrong paper does not stay on the wall: sheets that were printed and show what is no longer so are found."""

from __future__ import annotations

from frontwright.core.findings import Check
from frontwright.desk.session import Session
from frontwright.desk.sheets_list import checked
from frontwright.desk.wording.checks import sentence


def stale(session: Session) -> list[Check]:
    return [check for check in checked(session.plan).checks if check.code == "stale-sheet"]


def test_a_job_without_printed_sheets_has_no_such_check(laundry: Session) -> None:
    assert checked(laundry.plan) is laundry.plan
    assert not laundry.page("sheets").findings


def test_mistake_20_a_stale_sheet_on_the_wall_until_it_is_printed_again(laundry: Session) -> None:
    laundry.sheets_printed(("10-door:DA",))
    assert [(check.level, check.state) for check in stale(laundry)] == [("ok", "holds")]
    laundry.enter("door_builds/framed/stile", "2 1/2")
    (found,) = stale(laundry)
    assert (found.where, found.level, found.state) == (("10-door:DA",), "warn", "open")
    said = sentence(found, laundry.display)
    assert "stile" in said
    assert "was 2 1/4, now 2 1/2" in said
    (line,) = laundry.page("sheets").findings
    assert line.sentence == said
    laundry.sheets_printed(("10-door:DA",))
    assert [check.state for check in stale(laundry)] == ["holds"]


def test_a_printed_sheet_that_the_job_no_longer_has_is_taken_down(laundry: Session) -> None:
    laundry.sheets_printed(("10-door:DB",))
    laundry.enter("openings/OB/fronts", "open")
    (found,) = stale(laundry)
    assert (found.case, found.state) == ("gone", "open")
    assert sentence(found, laundry.display).endswith("take it down.")


def test_the_finish_schedule_is_stale_when_its_recipe_has_another_coat(laundry: Session) -> None:
    laundry.act("new/finishes")
    laundry.sheets_printed(("20-finish:finish 1",))
    laundry.enter("finishes/finish 1/coats", "4")
    (found,) = [check for check in stale(laundry) if check.is_open]
    assert "coats was" in sentence(found, laundry.display)


def test_the_site_pack_is_stale_when_a_snag_is_added(laundry: Session) -> None:
    laundry.sheets_printed(("21-site:",))
    laundry.act("new/snags")
    laundry.enter("snags/snag 1/what", "scratch on the lower rail")
    (found,) = [check for check in stale(laundry) if check.is_open]
    assert "snag" in sentence(found, laundry.display)
