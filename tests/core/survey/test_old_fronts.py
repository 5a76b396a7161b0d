"""Old fronts are a check on the openings for free (stage 2, 8): size less the cover they had."""

from __future__ import annotations

import pytest
from frontwright.core.findings import Check
from frontwright.core.job import Column, Job, OldFront, Opening, Reading, Room, Run
from frontwright.core.lengths import Length, typed
from frontwright.core.plan import derive


def said_of(width: str, cover: str | None = "13") -> list[Check]:
    """What is said of an opening read as 424 wide, off which a front of this width and cover comes."""
    rows = (Room("r"), Run("R", "r"), Column("C", "R", 1), Opening("O", "C"))
    job = Job().put(*rows, Reading("1", "O", "width", "middle", typed("424mm", "in")))
    old = OldFront("O", "O", typed(f"{width}mm", "in"), cover=typed(f"{cover}mm", "in") if cover else None)
    return [check for check in derive(job.put(old)).checks if check.case == "old front"]


@pytest.mark.parametrize(("width", "level"), [("450", "ok"), ("451", "ok"), ("460", "warn"), ("440", "warn")])
def test_an_old_front_that_does_not_go_with_its_opening_warns(width: str, level: str) -> None:
    (check,) = said_of(width)
    assert check.level == level


def test_the_difference_is_told_with_its_sign() -> None:
    (check,) = said_of("460")
    assert check.value == Length.mm(10).units


def test_an_old_front_of_which_the_cover_was_not_read_says_nothing() -> None:
    assert said_of("460", None) == []
