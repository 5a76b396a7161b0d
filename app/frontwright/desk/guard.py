"""Entries that cannot be, seen from what follows: diagonals that close nothing, fronts over each other, no room left.

Such an entry is refused, the text kept where it was typed: it would only be undone again. What is merely unlikely, or
contradicts another reading, is never refused; it becomes a finding.
"""

from __future__ import annotations

from frontwright.core.findings import Check
from frontwright.core.plan import Plan
from frontwright.desk.keys import Place
from frontwright.desk.wording.checks import reason, sentence

_GUARDED = ("looks", "fronts", "door_builds", "panel_builds", "members")
_IMPOSSIBLE = {("row-sum", "no size"), ("row-sum", "overlap"), ("rail-proof", "no room")}


def refusal(place: Place, before: Plan, after: Plan) -> str | None:
    """One sentence why what was typed at this place cannot be; None if it can."""
    if place.table == "readings":
        return _quadrilateral(place, before, after)
    if place.table not in _GUARDED:
        return None
    known = {(check.code, check.case, check.where) for check in before.checks if _cannot_be(check)}
    for check in after.checks:
        if _cannot_be(check) and (check.code, check.case, check.where) not in known:
            why = reason(check, after.display)
            return f"{sentence(check, after.display)} {why or 'Choose another figure.'}"
    return None


def _cannot_be(check: Check) -> bool:
    if check.state != "open" or check.level != "stop":
        return False
    return (check.code, check.case) in _IMPOSSIBLE or (check.code == "lip" and check.answer is None)


def _quadrilateral(place: Place, before: Plan, after: Plan) -> str | None:
    opening = after.survey.openings.get(place.row)
    if opening is None or not opening.impossible:
        return None
    earlier = before.survey.openings.get(place.row)
    if earlier is not None and earlier.impossible:
        return None
    return f"These sides and diagonals of {place.row} close no figure of four corners; read them again."
