"""Story sticks: every edge of a run from its datum, members and fronts, along it at each height and up each column."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from frontwright.core.figures import Figure
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.lengths import ZERO, in_units
from frontwright.core.site.result import Mark, StoryStick
from frontwright.core.survey.result import MemberPlan, RunPlan, SurveyPlan

_ACROSS = ("left", "right")
_UP = ("bottom", "top")


def story_sticks(survey: SurveyPlan, fronts: FrontsPlan) -> tuple[StoryStick, ...]:
    """The sticks of every run that has a datum: one along it for each row of fronts, one up it for each column."""
    return tuple(
        stick
        for run in survey.runs
        if not run.run.by_itself and run.overall is not None
        for stick in _of_run(run, [f for f in fronts.fronts.values() if f.run == run.id and f.placed])
    )


def _of_run(run: RunPlan, fronts: Sequence[FrontPlan]) -> Iterator[StoryStick]:
    members = [_mark(one, one.id, side) for one in run.members for side in _ACROSS]
    for row in _rows(fronts):
        marks = [*members, *(_mark(front, front.id, side) for front in row for side in _ACROSS)]
        yield _stick(run, "along", ", ".join(front.id for front in row), marks)
    for column in run.columns:
        openings = {o.id for o in run.openings if o.column == column.id}
        rails = [rail for rail in run.rails if _beside(rail, run, column.id)]
        own = [front for front in fronts if front.opening in openings]
        if own:
            marks = [_mark(rail, rail.id, side) for rail in rails for side in _UP]
            marks += [_mark(front, front.id, side) for front in own for side in _UP]
            yield _stick(run, "up", f"column {column.id}", marks)


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


def _beside(rail: MemberPlan, run: RunPlan, column: str) -> bool:
    """Whether a rail crosses this column."""
    if rail.member.column is not None:
        return rail.member.column == column
    opening = next((o for o in run.openings if o.column == column and o.left is not None), None)
    if opening is None or opening.left is None or opening.right is None:
        return True
    low, high = _units(opening.left), _units(opening.right)
    return _units(rail.left) < high and _units(rail.right) > low


def _mark(one: MemberPlan | FrontPlan, name: str, side: str) -> Mark:
    figure: Figure = getattr(one, side)
    return Mark(figure, f"{side} of {name}", name)


def _stick(run: RunPlan, way: str, at: str, marks: Sequence[Mark]) -> StoryStick:
    """Marks in their order; where several edges fall on one place they are one mark with all their names."""
    placed: dict[Fraction, list[Mark]] = {}
    for mark in marks:
        placed.setdefault(_units(mark.at), []).append(mark)
    joined = [
        Mark(found[0].at, ", ".join(dict.fromkeys(m.what for m in found)), found[0].of)
        for _, found in sorted(placed.items())
    ]
    along = way == "along"
    whole = run.overall if along else run.height
    ends = [mark.at for mark in joined]
    last = max(ends, key=_units, default=Figure("datum", ZERO, "chosen"))
    long = whole if whole is not None and in_units(whole.value) >= in_units(last.value) else last
    return StoryStick(run.id, "along" if along else "up", at, tuple(joined), long)
