"""What the site chapter gives: fronts as made, work in its order, lines to level to, hanging, packing, story sticks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.findings import Check

HangHow = Literal["on the line", "from the gap", "in its opening", "by spacers", "fixed"]
PackGroup = Literal["fronts and strips", "hardware", "glue and finish", "tools", "to protect and clean", "paper"]
Stage = Literal["wood", "joints", "panels", "fronts", "boring", "finish", "site"]


@dataclass(frozen=True, slots=True)
class FrontMade:
    """A front after glue-up. `diagonals_allowed`: how far they may differ (F67); `diagonals`: by how much they do.

    `wind`, `bow`: as measured, None where they were not; `by_hinge` how far a hinge must be set in or out for each,
    `adjust` how far it can be (None of a front without hinges).
    """

    front: str
    diagonal: Fraction
    diagonals_allowed: Figure
    diagonals: Figure | None
    wind: Figure | None
    bow: Figure | None
    wind_by_hinge: Figure | None
    bow_by_hinge: Figure | None
    adjust: Figure | None


@dataclass(frozen=True, slots=True)
class MadePlan:
    """Fronts as made, by front, and what is found of them."""

    fronts: Mapping[str, FrontMade]
    checks: tuple[Check, ...]


@dataclass(frozen=True, slots=True)
class LevelLine:
    """A level line that bottom edges of fronts are hung to. `at`: from the datum of the run, as planned.

    `left`, `right`: how high it stands over the frame's lower edge at either end of the run; `least`: the least cover
    above or below that is left by it. `held`: the end at which it has its planned height; "" where no slope was read.
    """

    number: int
    run: str
    fronts: tuple[str, ...]
    at: Figure
    left: Figure
    right: Figure
    held: Literal["left", "right", ""]
    least: Figure | None


@dataclass(frozen=True, slots=True)
class Hang:
    """A front in its turn: `line` its level line (0: none), `spacer` the gap that is set with a spacer and to which
    front, and what of the hinge's adjustment its plates take already."""

    number: int
    run: str
    front: str
    how: HangHow
    line: int
    spacer: Figure | None
    beside: str
    plates: tuple[str, ...]
    taken: Figure | None


@dataclass(frozen=True, slots=True)
class Pack:
    """A line of the packing list: `count` in words, `why` what it is for."""

    group: PackGroup
    what: str
    count: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class WorkStep:
    """An operation in its turn: `pieces` it is done to, `settings` of the machine shared over all of them.

    `settings` 0: none is needed. `rest`: what must pass after it.
    """

    number: int
    stage: Stage
    what: str
    pieces: int
    settings: int
    of: tuple[str, ...] = ()
    rest: str = ""


@dataclass(frozen=True, slots=True)
class Mark:
    """A mark on a story stick: `at` from the datum, `what` edge it is. `lane`: the row of fronts (or column) that it
    belongs to, counted from 1; 0 goes through all of them."""

    at: Figure
    what: str
    lane: int


@dataclass(frozen=True, slots=True)
class StoryStick:
    """All edges of a run from its datum, along it or up it: members through all lanes, fronts in that of their row.

    `lanes`: what each is, rows of fronts from the top, columns from the left. `of`: every id that is marked.
    """

    run: str
    way: Literal["along", "up"]
    lanes: tuple[str, ...]
    marks: tuple[Mark, ...]
    of: tuple[str, ...]
    length: Figure


@dataclass(frozen=True, slots=True)
class SitePlan:
    """Everything for the work and the day on site."""

    work: tuple[WorkStep, ...]
    lines: tuple[LevelLine, ...]
    hanging: tuple[Hang, ...]
    packing: tuple[Pack, ...]
    sticks: tuple[StoryStick, ...]

    def of_run(self, run: str) -> tuple[Hang, ...]:
        """The fronts of a run in the order in which they are hung."""
        return tuple(one for one in self.hanging if one.run == run)
