"""Rows and columns through which the grain runs: one blank cut in order (F22)."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from frontwright.core.assumed import entered
from frontwright.core.figures import Figure, minus, most, plus, total
from frontwright.core.fronts.lines import planned_gap
from frontwright.core.fronts.result import FrontPlan, RowPlan
from frontwright.core.job import FrontRow
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units
from frontwright.core.wood import coefficient, moisture, movement


def row_plans(index: JobIndex, fronts: Mapping[str, FrontPlan]) -> tuple[RowPlan, ...]:
    """A blank for every row or column of at least one front with the grain running through."""
    rows = (row for row in index.job.front_rows.values() if row.grain_through)
    found = ((row, _in_order(row, fronts)) for row in rows)
    return tuple(_row(index, row, own) for row, own in found if own)


def _in_order(row: FrontRow, fronts: Mapping[str, FrontPlan]) -> list[FrontPlan]:
    """A row's fronts from the left, a column's from the top; those that stand on no run as they were named."""
    own = [fronts[f] for f in dict.fromkeys(row.fronts) if f in fronts]
    if len({f.run for f in own}) > 1 or not all(f.placed for f in own):
        return own
    if row.direction == "row":
        return sorted(own, key=lambda f: in_units(f.left.value))
    return sorted(own, key=lambda f: -in_units(f.top.value))


def _gaps(row: FrontRow, fronts: list[FrontPlan]) -> list[Figure]:
    """What lies between neighbours: wood that the blank needs too; where they have no common place, the planned gap."""
    return [_gap(row, a, b) for a, b in pairwise(fronts)]


def _gap(row: FrontRow, first: FrontPlan, after: FrontPlan) -> Figure:
    planned = planned_gap(first.look)
    if first.run != after.run or not (first.placed and after.placed):
        return planned
    low, high = (first.right, after.left) if row.direction == "row" else (after.top, first.bottom)
    real = total(f"between {first.id} and {after.id}", plus(high), minus(low))
    return planned if real.value == planned.value else real


def _row(index: JobIndex, row: FrontRow, fronts: list[FrontPlan]) -> RowPlan:
    unit = index.unit
    along = [f.width if row.direction == "row" else f.height for f in fronts]
    across = most(f"widest of {row.id}", [f.height if row.direction == "row" else f.width for f in fronts])
    gaps = _gaps(row, fronts)
    gap = min(gaps, key=lambda g: in_units(g.value), default=planned_gap(fronts[0].look))
    end = entered(unit, row.blank_end or index.allowances.row_end, "row end")
    kerf = entered(unit, row.kerf or index.allowances.rip_kerf, "kerf")
    trim = _trim(row, gap, kerf)
    look = fronts[0].look
    wet = moisture(index, fronts[0].run)
    moved = movement(
        f"movement of {row.id} over the year",
        across,
        coefficient(index, look.species, look.cut),
        wet["low"],
        wet["high"],
    )
    alike = all(g.value == gap.value for g in gaps)
    between = [plus(gap, len(gaps))] if gaps and alike else [plus(g) for g in gaps]
    return RowPlan(
        row=row,
        fronts=tuple(f.id for f in fronts),
        blank_length=total(f"blank of {row.id}, length", *(plus(f) for f in along), *between, plus(end, 2)),
        blank_width=total(
            f"blank of {row.id}, width", plus(across), plus(entered(unit, index.allowances.solid_width, "solid width"))
        ),
        gap=gap,
        kerf=kerf,
        trim=trim,
        movement=moved,
    )


def _trim(row: FrontRow, gap: Figure, kerf: Figure) -> Figure:
    """What is planed off between neighbours, so that kerf and trim are the gap and the figure runs on."""
    if row.trim is not None and row.trim.value is not None:
        return Figure("trim between neighbours", row.trim.value, "chosen")
    return total("trim between neighbours", plus(gap), minus(kerf))
