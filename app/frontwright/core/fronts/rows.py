"""Rows and columns through which the grain runs: one blank cut in order (F22)."""

from __future__ import annotations

from collections.abc import Mapping

from frontwright.core.assumed import entered
from frontwright.core.figures import Figure, minus, most, plus, total
from frontwright.core.fronts.lines import planned_gap
from frontwright.core.fronts.result import FrontPlan, RowPlan
from frontwright.core.job import Allowances, FrontRow
from frontwright.core.job.index import JobIndex
from frontwright.core.wood import coefficient, moisture, movement


def row_plans(index: JobIndex, fronts: Mapping[str, FrontPlan]) -> tuple[RowPlan, ...]:
    """A blank for every row or column of at least one front with the grain running through."""
    rows = (row for row in index.job.front_rows.values() if row.grain_through)
    found = ((row, [fronts[f] for f in row.fronts if f in fronts]) for row in rows)
    return tuple(_row(index, row, own) for row, own in found if own)


def _row(index: JobIndex, row: FrontRow, fronts: list[FrontPlan]) -> RowPlan:
    allowances = index.job.allowances.get("allowances") or Allowances()
    unit = index.unit
    along = [f.width if row.direction == "row" else f.height for f in fronts]
    across = most(f"widest of {row.id}", [f.height if row.direction == "row" else f.width for f in fronts])
    gap = planned_gap(fronts[0].look)
    end = entered(unit, row.blank_end or allowances.row_end, "row end")
    kerf = entered(unit, row.kerf or allowances.rip_kerf, "kerf")
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
    gaps = [plus(gap, len(fronts) - 1)] if len(fronts) > 1 else []
    return RowPlan(
        row=row,
        fronts=tuple(f.id for f in fronts),
        blank_length=total(f"blank of {row.id}, length", *(plus(f) for f in along), *gaps, plus(end, 2)),
        blank_width=total(
            f"blank of {row.id}, width", plus(across), plus(entered(unit, allowances.solid_width, "solid width"))
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
