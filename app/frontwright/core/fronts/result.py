"""What the fronts chapter gives: looks resolved, fronts with their edges, sums that close, rows of through grain."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.job import Front, FrontRow, Grain, HingeSide, Scheme


@dataclass(frozen=True, slots=True)
class LookPlan:
    """The look as it holds for one opening, inherited or assumed. `exceptions`: fields set nearer than the room."""

    scheme: Scheme
    cover: Figure
    cover_chosen: bool
    gap: Figure
    meeting_gap: Figure
    reveal: Figure | None
    equal_fronts: bool
    inset_side: Figure
    inset_top: Figure
    inset_bottom: Figure
    inset_meeting: Figure
    least_cover: Figure
    door_build: str | None
    drawer_build: str | None
    door_grain: Grain
    drawer_grain: Grain
    hinge: str | None
    species: str | None
    cut: str
    pulls: int
    exceptions: tuple[str, ...]
    finish: str | None = None


@dataclass(frozen=True, slots=True)
class FrontPlan:
    """A front. Edges are positions from the run's datum; of openings by themselves, from the opening's lower left.

    `overlay`: cover on the frame by side (minus its gap where inset; None at the meeting side of a pair).
    `neighbours`: the fronts beside it by side; `pinned`: its edges that a person holds in place.
    """

    front: Front
    run: str
    opening: str
    look: LookPlan
    placed: bool
    left: Figure
    right: Figure
    bottom: Figure
    top: Figure
    width: Figure
    height: Figure
    hinge_side: HingeSide | None
    hinge_side_assumed: bool
    grain: Grain
    grain_assumed: bool
    overlay: Mapping[str, Figure | None]
    least_cover: Figure | None
    neighbours: Mapping[str, str]
    pinned: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        return self.front.id


@dataclass(frozen=True, slots=True)
class Sum:
    """A row or column whose fronts and gaps must add up to the overall (F18). `kinds` says what each term is."""

    of: tuple[str, ...]
    run: str
    direction: str
    terms: tuple[Figure, ...]
    kinds: tuple[str, ...]
    total: Figure
    equals: Figure


@dataclass(frozen=True, slots=True)
class RowPlan:
    """A row (or column) with the grain running through (F22)."""

    row: FrontRow
    fronts: tuple[str, ...]
    blank_length: Figure
    blank_width: Figure
    gap: Figure
    kerf: Figure
    trim: Figure
    movement: Figure


@dataclass(frozen=True, slots=True)
class Line:
    """A division line of a run: the middle of a stile or rail (F15), `at` from the datum."""

    of: str
    upright: bool
    at: Figure


@dataclass(frozen=True, slots=True)
class FrontsPlan:
    """All fronts in order (left to right, top to bottom), with lines, sums, rows and checks.

    `row_of`: the row with the grain running through that a front is cut from.
    """

    looks: Mapping[str, LookPlan]
    fronts: Mapping[str, FrontPlan]
    row_of: Mapping[str, RowPlan]
    lines: Mapping[str, tuple[Line, ...]]
    sums: tuple[Sum, ...]
    rows: tuple[RowPlan, ...]
    checks: tuple[Check, ...]
