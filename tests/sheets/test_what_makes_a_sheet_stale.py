"""A sheet on which anything would stand otherwise is told as stale."""

from __future__ import annotations

from dataclasses import replace

import pytest
from frontwright.core.job import Job
from frontwright.core.lengths import Typed, typed
from frontwright.core.plan import Plan, derive
from frontwright.sheets.catalogue import SheetInfo, Stamp, digest, make, sheets_of

CHANGES = [
    ("laundry", "pieces", "L-01", "width", "5"),
    ("laundry", "pieces", "L-02", "shelf", "lowest"),
    ("laundry", "pieces", "L-04", "count", 2),
    ("laundry", "members", "B1", "bow", "1/2"),
    ("laundry", "members", "seam", "kind", "filler"),
    ("laundry", "runs", "R1", "datum", "right end"),
    ("laundry", "ends", "R1 left", "leans", "1/2"),
    ("laundry", "ends", "R1 left", "kind", "open"),
    ("laundry", "ends", "R1 right", "skin_thickness", "1/2"),
    ("laundry", "limits", "limits", "reading_error", "1/16"),
    ("laundry", "door_builds", "framed", "mid_rails", 1),
    ("laundry", "door_builds", "framed", "dowel_depth", "1"),
    ("laundry", "door_builds", "framed", "clearance", "1/16"),
    ("laundry", "readings", "OB width top", "value", "21 3/16"),
    ("kitchen", "door_builds", "kitchen", "bottom_rail", "83"),
    ("kitchen", "door_builds", "kitchen", "clearance", "2"),
    ("kitchen", "door_builds", "hutch", "name", "Hutch doors"),
    ("kitchen", "front_rows", "top row", "blank_end", "25"),
]


def _changed(job: Job, table: str, row: str, field: str, value: object) -> Job:
    old = getattr(job, table)[row]
    is_text = isinstance(getattr(old, field), str) or field in ("shelf", "kind")
    new: object = typed(value, job.heading.unit) if isinstance(value, str) and not is_text else value
    assert not isinstance(new, Typed) or new.value is not None
    return job.put(replace(old, **{field: new}))


def _printed(plan: Plan) -> dict[str, tuple[str, bytes]]:
    return {info.key: (digest(info), _bytes(plan, info)) for info in sheets_of(plan) if not info.held}


def _bytes(plan: Plan, info: SheetInfo) -> bytes:
    return make(plan, [info], "a4", Stamp())


@pytest.fixture(scope="module")
def before(laundry: Plan, kitchen: Plan) -> dict[str, tuple[Plan, dict[str, tuple[str, bytes]]]]:
    return {"laundry": (laundry, _printed(laundry)), "kitchen": (kitchen, _printed(kitchen))}


@pytest.mark.parametrize(("name", "table", "row", "field", "value"), CHANGES)
def test_a_sheet_that_would_come_out_otherwise_is_stale(
    before: dict[str, tuple[Plan, dict[str, tuple[str, bytes]]]],
    name: str,
    table: str,
    row: str,
    field: str,
    value: object,
) -> None:
    plan, old = before[name]
    now = derive(_changed(plan.job, table, row, field, value))
    other = [i for i in sheets_of(now) if i.key in old and not i.held and _bytes(now, i) != old[i.key][1]]
    assert other
    assert [i.key for i in other if digest(i) == old[i.key][0]] == []
