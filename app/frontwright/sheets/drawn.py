"""Which drawings of the core a sheet takes."""

from __future__ import annotations

from frontwright.core.plan import Plan
from frontwright.sheets.picture import Picture


def of_front(plan: Plan, front: str) -> Picture | None:
    """Front and back of a front, side by side, for the bench."""
    return None


def key_of(plan: Plan, run: str) -> Picture | None:
    """A small elevation of a run; None where its openings stand by themselves."""
    return None
