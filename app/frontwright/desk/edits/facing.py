"""Trim put on a run, and the ways out of what covers it."""

from __future__ import annotations

from typing import cast, get_args

from frontwright.core.findings import Check, WayOut
from frontwright.core.job import Job, Trim, TrimKind
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import free_id, place_ids

KINDS = cast(tuple[TrimKind, ...], get_args(TrimKind))


def add_trim(job: Job, run: str, kind: str) -> Edit:
    """A piece of trim on a run, all of it as usual until it is chosen."""
    chosen = next((one for one in KINDS if one == kind), None)
    if run not in job.runs or chosen is None:
        raise Refused(f"There is no {kind} for “{run}”: choose a run that is there.")
    taken = {*place_ids(job), *job.trims}
    new = f"{run} {kind}" if f"{run} {kind}" not in taken else free_id(taken, f"{run} {kind} 1")
    made = "bought" if chosen == "underside" else "solid"
    place = 1 + max((row.place for row in job.trims.values() if row.run == run), default=0)
    row = Trim(new, run, chosen, place, "bought" if made == "bought" else "solid")
    return Edit(f"add a {kind} to {run}", lambda before: before.put(row), select=new)


def way_out(job: Job, check: Check, way: WayOut) -> Edit | None:
    """A way out that sets a field of the facing or of a trim: an edit of its own; None where it is none of these."""
    from frontwright.desk.edits.entry import entered

    if way.kind != "change" or not way.field.startswith(("facings/", "trims/")) or not isinstance(way.value, str):
        return None
    made = entered(job, way.field, way.value)
    return Edit(f"way out of {check.code} of {', '.join(check.where)}", made.change, select=way.of)
