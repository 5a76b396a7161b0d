"""The value that every edit is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from frontwright.core.job import Job
from frontwright.core.plan import Plan

Change = Callable[[Job], Job]


@dataclass(frozen=True, slots=True)
class Edit:
    """A named change. `field`: edits of the same field one after the other become one step; `said`: a notice.

    `select` is the subject that the desk selects afterwards; `tell` says from the plans before and after what moved.
    """

    name: str
    change: Change
    field: str | None = None
    said: str = ""
    select: str = ""
    tell: Callable[[Plan, Plan], str] | None = None


class Refused(Exception):
    """An entry that cannot stand; the text is one sentence with the field and the way out."""
