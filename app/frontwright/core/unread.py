"""Entries that cannot be read, or are no size: kept as typed, counted nowhere, said openly."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from typing import Any

from frontwright.core.findings import Check, WayOut
from frontwright.core.job import Amount, Job, Plate
from frontwright.core.lengths import Typed

_FROM_THE_DATUM = ("edge left", "edge right", "edge low", "edge high")
_FLAT = ("wind gap", "wind", "bow")  # of what lies flat and straight
MAY_BE_ZERO = frozenset(  # nothing of it is a statement
    {
        *("packing", "frame_inside", "proud", "cover", "least_cover"),
        *("recess", "projects", "allowance"),  # a toe kick flush with the frame, on the floor
        *("gap_top", "gap_middle", "gap_bottom", "trim", "clearance"),
        *("away", "projection", "wanted", "from_end", "from_top"),
        *("plate", "adjust", "adjust_height", "adjust_depth", "counterbore", "cover_least", "edge_least"),
        *("edge_distance", "wall", "floor", "dowel_wall", "least_left", "wall_clearance"),
        *("glue_loss", "show_loss", "wander", "rejoint", "keep_back", "overlap"),
        *("spread", "spread_cover", "spread_inset", "lean_cover", "lean_inset"),
        *("solid_length", "solid_width", "plane_rough", "panel_edge", "leaf_over_panel", "leaf_edge"),
        *("strip_length", "strip_width", "strip_show_loss", "skin_scribe", "row_end", "spare_rest", "blank_end"),
        "billet_over_leaf",
        "rip_kerf",  # a knife or shear
        "wind gap",  # a reading of what is not in wind
        *("reveal_left", "reveal_right", "reveal_top", "reveal_bottom"),
        *("along", "across", "end_trim", "edge_trim"),
        *("keep_now", "left", "flatness"),  # nothing kept back of a billet, nothing left of it, a panel that lies flat
        *("top", "right", "bottom", "gap_across", "gap_down"),  # label sheets without margins or gaps
    }
)
_EITHER_WAY = {
    *(f"{end}_{side}" for end in ("edge", "pin") for side in ("left", "right", "bottom", "top")),
    *("leans", "slope_shows", "bow"),
    *("low", "high", "begins", "ends", "at", "box_out", "constant"),
}  # counted from a place, or from straight


def unread(job: Job) -> Iterator[Check]:
    """One check for each typed text without a value, and for each size that is nothing or less."""
    for table, kind in job.kinds().items():
        names = _typed_fields(kind)
        for row in getattr(job, table).values():
            if getattr(row, "struck", False):
                continue
            for name in names:
                value = getattr(row, name)
                if value is not None and (said := _said(row, name, value)):
                    yield _check(table, row, name, value.text, said)


def set_aside(job: Job, unread_checks: tuple[Check, ...]) -> Job:
    """The job as it is worked out: what was found to be no size counts as not entered, its text stays."""
    for check in unread_checks:
        if check.case != "no size":
            continue
        table, row, name = (str(check.facts[key]) for key in ("table", "row", "field"))
        kept = getattr(job, table)[row]
        job = job.put(replace(kept, **{name: replace(getattr(kept, name), value=None)}))
    return job


def _typed_fields(kind: type[Any]) -> tuple[str, ...]:
    """Fields of a row class that hold what a person typed as a figure."""
    return tuple(f.name for f in fields(kind) if "Typed" in str(f.type) or "Amount" in str(f.type))


def _said(row: object, name: str, value: Typed | Amount) -> str:
    if value.value is None:
        return "unread" if value.text.strip() else ""
    if isinstance(value, Amount) or value.value.units > 0 or name in _EITHER_WAY:
        return ""
    what = getattr(row, "what", "")
    if isinstance(row, Plate) and value.value.units == 0:  # the lowest plate
        return ""
    if value.value.units == 0 and (what in _FROM_THE_DATUM or what in _FLAT or name in MAY_BE_ZERO):
        return ""
    return "no size"


def _check(table: str, row: object, name: str, text: str, said: str) -> Check:
    of = getattr(row, "of", "") or getattr(row, "id", "")
    facts = {"table": table, "row": str(getattr(row, "id", "")), "field": name, "text": text}
    return Check("unread", (of,), text, None, "warn", "open", said, facts, (WayOut("enter", of, name),))
