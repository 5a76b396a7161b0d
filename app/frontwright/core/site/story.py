"""Story sticks: every edge of a run from its datum, by height: one stick along it, one up it.

Members are marked through the whole stick; fronts in the lane of their row (along) or column (up).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.lengths import ZERO, in_units
from frontwright.core.site.result import Mark, StoryStick
from frontwright.core.survey.result import MemberPlan, RunPlan, SurveyPlan

type Way = Literal["along", "up"]
_SIDES: dict[Way, tuple[str, str]] = {"along": ("left", "right"), "up": ("bottom", "top")}


def story_sticks(survey: SurveyPlan, fronts: FrontsPlan) -> tuple[StoryStick, ...]:
    """The two sticks of every run that has a datum and fronts on it."""
    found: list[StoryStick] = []
    for run in survey.runs:
        own = [front for front in fronts.fronts.values() if front.run == run.id and front.placed]
        if own and not run.run.by_itself and run.overall is not None:
            found += [_along(run, own), _up(run, own)]
    return tuple(found)


def _along(run: RunPlan, fronts: Sequence[FrontPlan]) -> StoryStick:
    rows = _rows(fronts)
    marks = [*_marks("along", run.members, 0)]
    seen: set[str] = set()
    for lane, row in enumerate(rows, 1):
        marks += _marks("along", [front for front in row if front.id not in seen], lane)
        seen |= {front.id for front in row}
    lanes = tuple(", ".join(front.id for front in row) for row in rows)
    return _stick(run, "along", lanes, marks, [*(m.id for m in run.members), *seen])


def _up(run: RunPlan, fronts: Sequence[FrontPlan]) -> StoryStick:
    marks: list[Mark] = []
    lanes: list[str] = []
    for column in run.columns:
        openings = {o.id for o in run.openings if o.column == column.id}
        own = [front for front in fronts if front.opening in openings]
        if own:
            lanes.append(f"column {column.id}")
            rails = [rail for rail in run.rails if rail.member.column == column.id]
            marks += [*_marks("up", rails, len(lanes)), *_marks("up", own, len(lanes))]
    marks += _marks("up", [rail for rail in run.rails if rail.member.column is None], 0)
    return _stick(run, "up", tuple(lanes), marks, [*(m.id for m in run.rails), *(f.id for f in fronts)])


def _rows(fronts: Sequence[FrontPlan]) -> list[list[FrontPlan]]:
    """The fronts that a level line meets at the middle of each, from the top; each such line once."""
    middles = {_units(front.bottom) + _units(front.top) for front in fronts}
    rows: dict[tuple[str, ...], list[FrontPlan]] = {}
    for twice in sorted(middles, reverse=True):
        met = [front for front in fronts if 2 * _units(front.bottom) <= twice <= 2 * _units(front.top)]
        rows.setdefault(tuple(front.id for front in met), met)
    return list(rows.values())


def _units(figure: Figure) -> Fraction:
    return Fraction(in_units(figure.value))


def _marks(way: Way, of: Iterable[MemberPlan | FrontPlan], lane: int) -> Iterator[Mark]:
    for one in of:
        for side in _SIDES[way]:
            yield Mark(getattr(one, side), f"{side} of {one.id}", lane)


def _stick(run: RunPlan, way: Way, lanes: tuple[str, ...], marks: Sequence[Mark], of: Sequence[str]) -> StoryStick:
    """Marks in their order; where several edges of a lane fall on one place they are one mark with all their names."""
    placed: dict[tuple[Fraction, int], list[Mark]] = {}
    for mark in marks:
        placed.setdefault((_units(mark.at), mark.lane), []).append(mark)
    joined = [
        Mark(found[0].at, ", ".join(dict.fromkeys(mark.what for mark in found)), found[0].lane)
        for _, found in sorted(placed.items())
    ]
    whole = run.overall if way == "along" else run.height
    last = max((mark.at for mark in joined), key=_units, default=Figure("datum", ZERO, "chosen"))
    long = whole if whole is not None and _units(whole) >= _units(last) else last
    return StoryStick(run.id, way, lanes, tuple(joined), tuple(of), long)
