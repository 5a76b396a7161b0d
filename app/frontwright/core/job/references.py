"""Which fields of a row name another row, and whether the rows they name are there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from frontwright.core.job import Job, Shop

# table -> field -> the tables in one of which the named row stands.
REFERENCES: dict[str, dict[str, tuple[str, ...]]] = {
    "runs": {"room": ("rooms",)},
    "ends": {"run": ("runs",)},
    "cabinets": {"run": ("runs",)},
    "members": {"run": ("runs",), "column": ("columns",), "cabinet": ("cabinets",)},
    "columns": {"run": ("runs",), "cabinet": ("cabinets",)},
    "openings": {"column": ("columns",)},
    "readings": {"of": ("openings", "members", "columns", "runs")},
    "old_fronts": {"opening": ("openings",)},
    "photos": {"run": ("runs",)},
    "surfaces": {"run": ("runs",)},
    "repairs": {"run": ("runs",)},
    "old_hinges": {"id": ("openings",)},
    "drawers": {"id": ("openings",)},
    "service_lines": {"opening": ("openings",)},
    "obstacles": {"run": ("runs",)},
    "corners": {"left": ("runs",), "right": ("runs",)},
    "insides": {"opening": ("openings",)},
    "looks": {
        "door_build": ("door_builds",),
        "drawer_build": ("door_builds",),
        "hinge": ("hinge_types",),
        "pull": ("pull_types",),
        "species": ("species",),
        "finish": ("finishes",),
    },
    "test_pieces": {"finish": ("finishes",)},
    "fronts": {"opening": ("openings",), "build": ("door_builds",)},
    "front_rows": {"fronts": ("fronts",)},
    "door_builds": {"panel": ("panel_builds",), "species": ("species",)},
    "panel_builds": {"species": ("species",)},
    "plates": {"hinge": ("hinge_types",)},
    "facings": {"id": ("runs",), "adhesive": ("adhesives",)},
    "trims": {"run": ("runs",), "species": ("species",)},
    "defects": {"piece": ("pieces",)},
    "laid": {"piece": ("pieces",), "size": ("supplier_sizes",)},
    "laid_parts": {"laid": ("laid",)},
    "cuts_done": {"laid": ("laid",), "parts": ("laid_parts",)},
    "leftovers": {"laid": ("laid",)},
    "machines": {"blade": ("blades",)},
    "blades": {"machine": ("machines",)},
    "billets": {"piece": ("pieces",), "machine": ("machines",), "blade": ("blades",)},
    "leaves": {"billet": ("billets",), "front": ("fronts",), "machine": ("machines",), "blade": ("blades",)},
    "pressings": {"glue": ("glues",), "press": ("presses",)},
}
_LEVELS = {
    "room": "rooms",
    "run": "runs",
    "cabinet": "cabinets",
    "opening": "openings",
}  # in a look's id, before the colon


def dangling(whole: Job | Shop, changed: Iterable[tuple[str, str]] | None = None) -> str | None:
    """One sentence on the first row that names a row which is not there; None if every named row is.

    Of a job that was whole before, it is enough to look at the `changed` rows (table, id), as long as none was dropped.
    """
    tables: dict[str, Mapping[str, Any]] = {name: getattr(whole, name) for name in whole.kinds()}
    if changed is None:
        changed = ((name, key) for name, table in tables.items() for key in table)
    return next((said for name, key in changed for said in _lost(tables, name, key)), None)


def _lost(tables: Mapping[str, Mapping[str, Any]], name: str, key: str) -> Iterator[str]:
    row = tables[name][key]
    for field, homes in REFERENCES.get(name, {}).items():
        for other in _ids(getattr(row, field)):
            if not any(other in tables[home] for home in homes):
                yield f"{name} “{key}”: {field} is “{other}”, and there is no such row in {' or '.join(homes)}."
    if name == "looks":
        yield from _lost_subject(tables, key)


def _ids(value: str | tuple[str, ...] | None) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) else value or ()


def _lost_subject(tables: Mapping[str, Mapping[str, Any]], key: str) -> Iterator[str]:
    level, _, subject = key.partition(":")
    if level not in _LEVELS:
        yield f"looks “{key}”: the id must be room, run, cabinet or opening, a colon and an id."
    elif subject not in tables[_LEVELS[level]]:
        yield f"looks “{key}”: there is no {level} “{subject}”."
