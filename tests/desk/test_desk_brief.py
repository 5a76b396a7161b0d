"""The Brief page tells what was answered in the figures of the job."""

from __future__ import annotations

from frontwright.desk.contents import Table
from frontwright.desk.session import Session


def test_the_sizes_an_answered_check_stood_at_are_told_like_all_sizes_of_the_job(laundry: Session) -> None:
    blocks = [block for band in laundry.page("brief").bands for block in band]
    (answers,) = [block for block in blocks if isinstance(block, Table) and block.key == "answers"]
    assert [cell.text for cell in answers.rows[0].cells][:5] == ["closure", "R1", "stop", "1/8", "~3/32"]


def test_what_a_billet_is_for_is_told_short_each_once(laundry: Session) -> None:
    blocks = [block for band in laundry.page("veneer").bands for block in band]
    (billets,) = [block for block in blocks if isinstance(block, Table) and block.key == "billets"]
    told = {row.cells[0].text: row.cells[-1].text for row in billets.rows}
    assert told["A"] == "DA-P show, DB-P back"
    assert told["D"] == "skin, stile strips, spare"
