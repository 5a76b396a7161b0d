"""What is found on the boxes: repairs and lines put in, and the ways out of what cannot be glued to or hung."""

from __future__ import annotations

from frontwright.core.condition.ways import taken
from frontwright.core.findings import Check, WayOut
from frontwright.core.job import Job, LineKind, Repair, ServiceLine
from frontwright.desk.edits.condition_rows import WHERES, surface_id
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import free_id, place_ids, row_or_new, run_of

CODES = ("surface", "repair", "drawer-front", "old-hinge", "old-holes")
_LINES: dict[str, LineKind] = {"gas": "gas", "water": "water", "electric": "electric"}


def way_out(check: Check, way: WayOut) -> Edit | None:
    """A way out as it was tried; None where it only leads to a cell."""
    if check.code not in CODES or way.kind != "change" or way.value is None:
        return None
    name = f"way out of {check.code} of {', '.join(check.where)}"
    return Edit(name, lambda before: taken(before, way), select=check.where[0])


def add_surface(job: Job, run: str, where: str) -> Edit:
    """A surface of a run to be looked at."""
    if run not in job.runs or where not in WHERES:
        raise Refused(f"There is no {where} of “{run}”: choose a run that is there.")
    row = row_or_new(job, "surfaces", surface_id(job, run, where))
    return Edit(f"add the {where} of {run}", lambda before: before.put(row), select=row.id)


def add_repair(job: Job, run: str) -> Edit:
    """Something of a run to be put right first."""
    if run not in job.runs:
        raise Refused(f"There is no run “{run}”: choose a run that is there.")
    new = free_id({*place_ids(job), *job.repairs}, f"{run} repair 0")
    return Edit(f"add a repair of {run}", lambda before: before.put(Repair(new, run)), select=new)


def add_line(job: Job, opening: str, kind: str) -> Edit:
    """A line of gas, water or electricity behind the front of an opening."""
    if run_of(job, opening) is None or kind not in _LINES:
        raise Refused(f"“{opening}” is no longer there: choose another opening.")
    new = free_id({*place_ids(job), *job.service_lines}, f"{opening} {kind} 0")
    row = ServiceLine(new, opening, _LINES[kind])
    return Edit(f"add {kind} behind {opening}", lambda before: before.put(row), select=opening)
