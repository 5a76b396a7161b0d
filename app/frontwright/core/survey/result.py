"""What the survey gives: positions of members and openings, sizes read, closures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.job import Column, End, Member, Opening, Reading, Run
from frontwright.core.lengths import Length


@dataclass(frozen=True, slots=True)
class MemberPlan:
    """A member where it lies, from the run's datum (x right, y up). `widest`: its widest reading; taper in `ends`."""

    member: Member
    left: Figure
    right: Figure
    bottom: Figure
    top: Figure
    across: Figure
    widest: Figure

    @property
    def id(self) -> str:
        return self.member.id


@dataclass(frozen=True, slots=True)
class OpeningPlan:
    """An opening: where it lies (None in a run of openings by themselves), and its six figures digested (F2-F4).

    `widths` (top, middle, bottom), `heights` (left, middle, right), `diagonals` (\\, /): read, or assumed, or None.
    `width`, `height` are where the running tape ran, else the middle reading. Lean and diagonals None: not
    measured. Roots count units, far finer than one.
    """

    opening: Opening
    run: str
    column: str
    left: Figure | None
    right: Figure | None
    bottom: Figure | None
    top: Figure | None
    widths: tuple[Figure, Figure, Figure]
    heights: tuple[Figure, Figure, Figure]
    diagonals: tuple[Figure | None, Figure | None]
    width: Figure
    height: Figure
    width_least: Figure
    width_middle: Figure
    width_most: Figure
    height_least: Figure
    height_middle: Figure
    height_most: Figure
    lean: Figure | None
    lean_error: Fraction | None
    square_diagonal: Fraction
    second_predicted: Fraction | None
    second_residual: Fraction | None
    impossible: bool = False

    @property
    def id(self) -> str:
        return self.opening.id

    @property
    def readings_taken(self) -> int:
        """How many of the eight were really read."""
        given = [*self.widths, *self.heights, *(d for d in self.diagonals if d is not None)]
        return sum(f.source == "taped" for f in given)


@dataclass(frozen=True, slots=True)
class Suspect:
    """A reading that alone would explain the error if it were `meant` (F6); `kind` says which slip."""

    reading: Reading
    kind: str
    meant: Length


@dataclass(frozen=True, slots=True)
class Closure:
    """F5 for one run at one height: members added against the overall taken in one stretch.

    F6: `suspects` would explain the error each alone; `like` are the members that are as wide as the error, so that
    one may have been missed (the error above zero) or counted twice.
    """

    run: str
    at: str | None
    sum: Figure
    overall: Figure
    error: Figure
    limit: Fraction
    readings: int
    suspects: tuple[Suspect, ...] = ()
    like: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RunPlan:
    """A run in its order. `order`: ids of upright members and columns, left to right; `height` its least height.

    `column_closures` by column; `slope` of the bottom rail over the run (F9); by end: lean of the wall towards the run
    over the height, and the scribe a filler needs there (F10), where they were read.
    """

    run: Run
    order: tuple[str, ...]
    members: tuple[MemberPlan, ...]
    rails: tuple[MemberPlan, ...]
    columns: tuple[Column, ...]
    openings: tuple[OpeningPlan, ...]
    overall: Figure | None
    height: Figure | None
    heights: tuple[Figure, ...]
    ends: Mapping[str, End]
    closures: tuple[Closure, ...]
    column_closures: Mapping[str, Closure]
    slope: Figure | None = None
    wall_leans: Mapping[str, Figure] = field(default_factory=dict)
    scribes: Mapping[str, Figure] = field(default_factory=dict)

    @property
    def id(self) -> str:
        return self.run.id


@dataclass(frozen=True, slots=True)
class SurveyPlan:
    """All runs, in order, and what the survey's checks say."""

    runs: tuple[RunPlan, ...]
    openings: Mapping[str, OpeningPlan]
    checks: tuple[Check, ...]
