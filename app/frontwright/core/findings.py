"""Checks and findings as values: a rule that was looked at, what it found, its limit, and the ways out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from frontwright.core.lengths import Exact

CheckLevel = Literal["ok", "note", "warn", "stop"]
CheckState = Literal["holds", "open", "cleared", "compared"]
Code = Literal[
    "closure",
    "spread",
    "racking",
    "readings",
    "wind",
    "bow",
    "rail-proof",
    "nominal-thickness",
    "row-sum",
    "cup-fit",
    "cover",
    "dowel-rabbet",
    "hinge-count",
    "hinge-overlay",
    "wall-clearance",
    "kerf-vs-reveal",
    "veneer-left",
    "panel-movement",
    "resaw-yield",
    "moisture",
    "balance",
    "press-time",
    "press-load",
    "lip",
    "field",
    "batch",
    "layout",
    "unread",
    "swing",
    "corner",
    "drawer-room",
    "end-gap",
    "stale-sheet",
    "surface",
    "repair",
    "drawer-front",
    "strip-width",
    "adhesive",
    "old-hinge",
    "old-holes",
]
Fact = Exact | Fraction | int | str
LEVELS: tuple[CheckLevel, ...] = ("ok", "note", "warn", "stop")


@dataclass(frozen=True, slots=True)
class WayOut:
    """One way to clear a finding. `kind` says what would be done (the desk words it and carries it out), `of` to what.

    `field`: the row field or reading to go to or to change; `value`: the figure that would be entered, if there is one;
    `gives`: what it was tried to come to, with its unit.
    """

    kind: Literal["enter seam", "read again", "change", "enter", "look at"]
    of: str
    field: str = ""
    value: Exact | str | None = None
    gives: str = ""


@dataclass(frozen=True, slots=True)
class Check:
    """A rule looked at. `value` and `limit` are lengths (exact), text or counts; a pair of limits is least and most.

    `roots`: value or limit come from a root and are told to six places. `case` names the sentence the desk says;
    `facts` are what goes into it. `stands` (where in the program it belongs) is the chapter's page.
    """

    code: Code
    where: tuple[str, ...]
    value: Fact | None
    limit: Fact | tuple[Fact, Fact] | None
    level: CheckLevel = "ok"
    state: CheckState = "holds"
    case: str = ""
    facts: Mapping[str, Fact] = field(default_factory=dict)
    ways: tuple[WayOut, ...] = ()
    answer: str | None = None
    roots: bool = False

    @property
    def is_open(self) -> bool:
        return self.state == "open"

    @property
    def holds_back(self) -> bool:
        """A stop that nobody answered: the sheets of its subjects are held back."""
        return self.state == "open" and self.level == "stop" and self.answer is None


def judged(level: CheckLevel) -> CheckState:
    """The state of a rule just looked at: it holds, or the finding is open."""
    return "holds" if level == "ok" else "open"
