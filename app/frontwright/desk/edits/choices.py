"""A look that was compared is taken: one edit for the whole run."""

from __future__ import annotations

from frontwright.core.choices import SCHEMES, SPREADS, Spread, fronts_on, look_of, taken
from frontwright.core.plan import Plan
from frontwright.desk.edits.edit import Edit, Refused


def take_look(plan: Plan, run: str, kind: str) -> Edit:
    """The edit that gives a run this spread or scheme. Refused where there is no such run or choice."""
    known: tuple[Spread, ...] = (*SPREADS, *SCHEMES)
    wanted = next((one for one in known if one == kind), None)
    if run not in plan.job.runs or wanted is None:
        raise Refused(f"There is no choice “{kind}” for “{run}”: choose a button of the page.")
    if not fronts_on(plan, run):
        raise Refused(f"Run {run} has no front with a place on it: read its members and its overall first.")
    look = look_of(plan, run, wanted)
    return Edit(f"take {wanted} for run {run}", lambda before: taken(before, look), select=run)
