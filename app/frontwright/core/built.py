"""Sizes measured on the thing made: they win over the plan for all that is not yet cut."""

from __future__ import annotations

from frontwright.core.figures import Figure, as_built
from frontwright.core.job.index import JobIndex
from frontwright.core.lengths import in_units


def as_it_is(index: JobIndex, of: str, what: str, planned: Figure) -> Figure:
    """The as-built size of a part or front, with the planned one beside it; the planned one where none was measured."""
    row = index.built.get((of, what))
    if (
        planned.source == "as-built"
        or row is None
        or row.value is None
        or row.value.value is None
        or row.value.value.units <= 0
    ):
        return planned
    return as_built(planned.name, row.value.value, planned)


def as_planed(index: JobIndex, panel: str, planned: Figure) -> Figure:
    """A panel's thickness after its last pass where that is the planned one or less: it will not get thicker again.

    A panel that is still to be planed stays to plan; one that was measured by itself stays as measured.
    """
    passes = [p for p in index.job.plane_passes.values() if p.panel == panel and p.thickness and p.thickness.value]
    last = max(passes, key=lambda p: p.number, default=None)
    value = last.thickness.value if last is not None and last.thickness is not None else None
    if value is None or planned.source == "as-built" or value.units <= 0 or value.units > in_units(planned.value):
        return planned
    return as_built(planned.name, value, planned)
