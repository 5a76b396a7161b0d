"""Sizes measured on the thing made: they win over the plan for all that is not yet cut."""

from __future__ import annotations

from frontwright.core.figures import Figure, as_built
from frontwright.core.job.index import JobIndex


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
