"""What the desk takes as nothing counts as nothing: the figures go by it, and nothing of it is set aside."""

from __future__ import annotations

import pytest
from frontwright.core.job.declared import declared
from frontwright.desk.session import Session

TABLES = ("door_builds", "hinge_types", "looks", "panel_builds", "allowances", "limits", "machines")


def _fields(session: Session, table: str) -> list[str]:
    (row, *_) = getattr(session.job, table).values()
    return [one.name for one in declared(type(row)) if one.kind == "length"]


@pytest.mark.parametrize("table", TABLES)
def test_a_zero_that_is_taken_is_not_set_aside(kept_laundry: Session, table: str) -> None:
    session = kept_laundry
    job = session.job
    if not getattr(job, table):
        session.act(f"new/{table}")
    (row, *_) = getattr(session.job, table)
    taken = 0
    for field in _fields(session, table):
        if session.enter(f"{table}/{row}/{field}", "0").problem:
            continue
        taken += getattr(getattr(session.job, table)[row], field) is not None
        aside = [c for c in session.plan.checks if c.code == "unread" and c.facts["field"] == field]
        assert aside == [], field
        session.undo()
    assert taken
    session.page("survey")
    while session.undo_name:
        session.undo()
    for place in list(session.drafts()):
        session.drop_draft(place)
    assert session.job == job
