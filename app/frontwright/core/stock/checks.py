"""The checks of the stock: wood of another lot for what is seen, layouts that hold no longer (mistake 19)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from frontwright.core.findings import Check, Fact, WayOut
from frontwright.core.job.index import JobIndex
from frontwright.core.stock.enough import kept_out
from frontwright.core.stock.result import Group, LayoutPlan


def stock_checks(index: JobIndex, groups: Sequence[Group], layouts: Sequence[LayoutPlan]) -> Iterator[Check]:
    """The rule of one lot for every piece that it is asked of, and every layout as it holds."""
    for group, candidate, holds in kept_out(index, groups) if index.job.pieces else ():
        piece = candidate.piece
        facts: dict[str, Fact] = {"group": group.id, "form": piece.form}
        if holds:
            yield Check("batch", (piece.id,), piece.batch or piece.id, None, "ok", "holds", "holds", facts)
        else:
            yield Check("batch", (piece.id,), piece.batch or piece.id, None, "stop", "compared", "other lot", facts)
    for layout in layouts:
        yield from _layout(layout)


def _layout(layout: LayoutPlan) -> Iterator[Check]:
    mixed = [one for one in layout.faults if one.kind == "batch"]
    if mixed:
        facts: dict[str, Fact] = {"parts": _names(one.part for one in mixed), "group": layout.group}
        ways = (WayOut("look at", layout.id),)
        yield Check("batch", (layout.id,), mixed[0].other or layout.id, None, "stop", "open", "mixed", facts, ways)
    others = [one for one in layout.faults if one.kind != "batch"]
    if not others:
        yield Check("layout", (layout.id,), len(layout.parts), None, "ok", "holds", "")
        return
    first = others[0]
    facts = {"fault": first.kind, "part": first.part, "other": first.other, "more": len(others) - 1}
    if first.by is not None:
        facts["by"] = first.by
    yield Check("layout", (layout.id,), len(others), 0, "stop", "open", "fault", facts, (WayOut("look at", layout.id),))


def _names(parts: Iterator[str]) -> str:
    return ", ".join(dict.fromkeys(parts))
