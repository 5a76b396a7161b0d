"""The level lines that fronts are hung to, and at which end of a sloping run each has its planned height (F9).

Positions count from the run's level line. Where the bottom rail slopes, the line stands higher over the frame at one
end than at the other. It has its planned height over the frame at that end where it leaves most cover above and below;
of two that leave alike, at the end where the frame stands higher, so that no front hangs lower than it was planned.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from frontwright.core.figures import Figure, Term, least, minus, plus, total
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.lengths import in_units
from frontwright.core.site.result import LevelLine
from frontwright.core.survey.result import RunPlan, SurveyPlan

Held = Literal["left", "right"]


def level_lines(survey: SurveyPlan, fronts: FrontsPlan) -> tuple[LevelLine, ...]:
    """The lines of every run, the one that is hung to first before the others."""
    found: list[LevelLine] = []
    for run in survey.runs:
        placed = [front for front in fronts.fronts.values() if front.run == run.id and front.placed]
        found += [replace(line, number=at) for at, line in enumerate(_of_run(run, placed), 1)]
    return tuple(found)


def _of_run(run: RunPlan, fronts: Sequence[FrontPlan]) -> Iterator[LevelLine]:
    """By bottom edge: first the line of the most width of doors, a lower one before a higher."""
    rows: dict[Fraction, list[FrontPlan]] = {}
    for front in fronts:
        rows.setdefault(Fraction(in_units(front.bottom.value)), []).append(front)
    for at in sorted(rows, key=lambda bottom: (-_hung(rows[bottom]), bottom)):
        yield _line(run, rows[at])


def _hung(row: Sequence[FrontPlan]) -> Fraction:
    """How wide the doors of a row are together."""
    doors = (front for front in row if front.hinge_side is not None)
    return sum((Fraction(in_units(front.width.value)) for front in doors), Fraction(0))


def _line(run: RunPlan, row: Sequence[FrontPlan]) -> LevelLine:
    at = row[0].bottom
    low = _lower_edge(run)
    planned = total("line over the frame", plus(at), *([minus(low)] if low is not None else []))
    ids = tuple(front.id for front in sorted(row, key=lambda front: Fraction(in_units(front.left.value))))
    slope = run.slope
    if slope is None or not slope.units:
        return LevelLine(0, run.id, ids, at, planned, planned, "", _least(row, None))
    ends = {end: _least(row, _raised(slope, end)) for end in _ends_first(slope)}
    held = max(ends, key=lambda end: Fraction(least_.units) if (least_ := ends[end]) is not None else Fraction(0))
    other = _over(planned, slope, held)
    left, right = (planned, other) if held == "left" else (other, planned)
    return LevelLine(0, run.id, ids, at, left, right, held, ends[held])


def _ends_first(slope: Figure) -> tuple[Held, Held]:
    """The higher end of the frame first: of two that are alike it is taken."""
    return ("right", "left") if slope.units > 0 else ("left", "right")


def _over(planned: Figure, slope: Figure, held: Held) -> Figure:
    """How high the line stands over the frame at the end where it is not held: the frame rises by the slope to the
    right."""
    sign = -1 if held == "left" else 1
    return total("line over the frame at the other end", plus(planned), Term(slope, sign))


def _raised(slope: Figure, held: Held) -> tuple[Term, Term]:
    """What the slope takes from the cover below (first) and above (second) at the end where it takes most."""
    takes = Fraction(in_units(slope.value)) * (1 if held == "right" else -1)
    below, above = (1, 0) if takes > 0 else (0, 1)
    size = Figure(slope.name, abs(Fraction(in_units(slope.value))), slope.source, slope.how, slope.terms)
    return Term(size, -below), Term(size, -above)


def _least(row: Sequence[FrontPlan], taken: tuple[Term, Term] | None) -> Figure | None:
    """The least cover above or below over the row, less what the slope takes; None where none covers the frame."""
    found = []
    for front in row:
        for at, side in enumerate(("bottom", "top")):
            cover = front.overlay.get(side)
            if cover is not None and front.look.scheme != "inset":
                found.append(total(f"cover of {front.id}, {side}", plus(cover), *([taken[at]] if taken else [])))
    return least("least cover", found) if found else None


def _lower_edge(run: RunPlan) -> Figure | None:
    """The lower edge of the frame: that of its lowest rail."""
    rails = [rail.bottom for rail in run.rails]
    return min(rails, key=lambda edge: Fraction(in_units(edge.value)), default=None)
