"""Woods of the table that comes with the program: chosen by name, copied into the job with their source."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from frontwright.core.job import Job, Shop, Species
from frontwright.core.job.references import REFERENCES
from frontwright.core.lengths import Unit
from frontwright.desk.edits.rows import table
from frontwright.exchange.reference import species


@cache
def woods(unit: Unit) -> Mapping[str, Species]:
    """The woods of the table by id, densities in the unit of such a job."""
    return {one.id: one for one in species(unit)}


def choosable(job: Job, shop: Shop, name: str) -> Mapping[str, Any]:
    """The reusable entries of a table that can be chosen in a job: the shop's, its own, and woods of the table too."""
    own = {**table(shop, name), **table(job, name)}
    if name != "species":
        return own
    return own | {one: wood for one, wood in woods(job.heading.unit).items() if one not in own}


def names_wood(table_name: str, field: str) -> bool:
    """Whether a field names a wood."""
    return "species" in REFERENCES.get(table_name, {}).get(field, ())


def with_wood(job: Job, table_name: str, field: str, text: str) -> Job:
    """The job with the wood of the table that a field is about to name; as it is where it has one of that name."""
    found = woods(job.heading.unit).get(text)
    if found is None or not names_wood(table_name, field) or text in job.species:
        return job
    return job.put(found)
