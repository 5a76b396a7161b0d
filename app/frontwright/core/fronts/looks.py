"""The look as it holds at each opening: inherited from room to run to cabinet to opening, or assumed."""

from __future__ import annotations

from dataclasses import fields
from typing import cast

from frontwright.core.assumed import entered
from frontwright.core.figures import Figure
from frontwright.core.fronts.result import LookPlan
from frontwright.core.job import Grain, Look, Scheme
from frontwright.core.job.index import JobIndex, told
from frontwright.core.lengths import Typed

_FIELDS = tuple(f.name for f in fields(Look) if f.name != "id")
_NEAR = ("opening", "cabinet")


def look_of(index: JobIndex, opening: str, run: str) -> LookPlan:
    """Everything chosen or assumed of how a front lies at this opening."""
    nearest = _nearest(index, opening)
    scheme = cast(Scheme, nearest.get("scheme") or "partial cover")
    cover_key = _cover_key(index, scheme, run)
    equal = bool(nearest.get("equal_fronts"))
    reveal = _length(nearest, "reveal")
    unit = index.unit

    def length(field: str, key: str) -> Figure:
        return entered(unit, _length(nearest, field), key)

    return LookPlan(
        scheme=scheme,
        cover=length("cover", cover_key),
        cover_chosen=_cover_goes_first(index, opening),
        gap=length("gap", "gap"),
        meeting_gap=length("meeting_gap", "meeting gap"),
        reveal=entered(unit, reveal, "reveal") if reveal is not None or equal else None,
        equal_fronts=equal,
        inset_side=length("inset_side", "inset side"),
        inset_top=length("inset_top", "inset top"),
        inset_bottom=length("inset_bottom", "inset bottom"),
        inset_meeting=length("inset_meeting", "inset meeting"),
        least_cover=length("least_cover", "least cover"),
        door_build=cast("str | None", nearest.get("door_build")),
        drawer_build=cast("str | None", nearest.get("drawer_build")),
        door_grain=cast(Grain, nearest.get("door_grain") or "vertical"),
        drawer_grain=cast(Grain, nearest.get("drawer_grain") or "horizontal"),
        hinge=cast("str | None", nearest.get("hinge")),
        species=cast("str | None", nearest.get("species")),
        cut=str(nearest.get("cut") or "flat"),
        pulls=_pulls(nearest),
        exceptions=_exceptions(index, opening),
        finish=cast("str | None", nearest.get("finish")),
    )


def _nearest(index: JobIndex, opening: str) -> dict[str, object]:
    found: dict[str, object] = {}
    for _, look in index.looks_over(opening):
        for field in _FIELDS:
            if field not in found and told(value := getattr(look, field)):
                found[field] = value
    return found


def _cover_goes_first(index: JobIndex, opening: str) -> bool:
    """Whether a cover was chosen, and no reveal nearer to the opening."""
    for _, look in index.looks_over(opening):
        if told(look.cover) or told(look.reveal):
            return told(look.cover)
    return False


def _length(nearest: dict[str, object], field: str) -> Typed | None:
    value = nearest.get(field)
    return value if isinstance(value, Typed) and value.value is not None else None


def _pulls(nearest: dict[str, object]) -> int:
    chosen = nearest.get("pulls")
    return chosen if isinstance(chosen, int) else 1


def _cover_key(index: JobIndex, scheme: Scheme, run: str) -> str:
    if scheme != "full cover":
        return "partial cover"
    return "full cover frameless" if index.cabinet_kind(run) == "frameless" else "full cover frame"


def _exceptions(index: JobIndex, opening: str) -> tuple[str, ...]:
    """Fields set nearer than the run, or on the run against what the room says."""
    looks = index.looks_over(opening)
    marked: list[str] = []
    for field in _FIELDS:
        set_at = [(level, value) for level, look in looks if (value := getattr(look, field)) is not None]
        if set_at and (set_at[0][0] in _NEAR or (len(set_at) > 1 and set_at[0][1] != set_at[1][1])):
            marked.append(field)
    return tuple(marked)


def end_of(index: JobIndex, opening: str, side: str, unit_name: str) -> tuple[str, Figure] | None:
    """How the look sets the outer end of the run at this side: ("edge" | "reveal", figure), or None (by cover)."""
    for kind in ("edge", "reveal"):
        value = index.inherited(opening, f"{kind}_{side}")
        if isinstance(value, Typed) and value.value is not None:
            name = f"{unit_name} edge, {side}" if kind == "edge" else f"reveal, {side}"
            return kind, Figure(name, value.value, "chosen")
    return None
