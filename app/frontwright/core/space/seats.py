"""Seats of plates and screws (F14)."""

from __future__ import annotations

from collections.abc import Iterator

from frontwright.core.assumed import assumed, entered, measured
from frontwright.core.figures import plus, total
from frontwright.core.fronts.result import FrontPlan, FrontsPlan
from frontwright.core.job import HingeType, Member
from frontwright.core.job.index import JobIndex
from frontwright.core.space.result import Seat

SIDES = ("left", "right")


def seats(index: JobIndex, fronts: FrontsPlan) -> Iterator[Seat]:
    """F14 for every door whose hinge tells its plate or its screws: frame edge against plate, side against screw."""
    for front in fronts.fronts.values():
        row = index.job.hinge_types.get(front.look.hinge or "")
        if row is not None and front.hinge_side in SIDES and front.front.kind in ("door", "glass"):
            yield from _seats(index, front, row)


def _seats(index: JobIndex, front: FrontPlan, row: HingeType) -> Iterator[Seat]:
    if index.cabinet_kind(front.run) == "frameless":
        screw = measured(row.screw, "screws of the plate")
        if screw is not None:
            boxes = sorted(index.cabinets.get(front.run, []), key=lambda box: box.place)
            need = total(f"side for the screws of {front.id}", plus(screw), plus(assumed(index.unit, "screw end")))
            yield Seat(front.id, "screw", entered(index.unit, boxes[0].side, "side"), need)
        return
    wide = measured(row.plate_width, "width of the plate")
    if wide is not None:
        member = _beside(index, front)
        thick = entered(index.unit, member.thickness if member is not None else None, "frame thickness")
        yield Seat(front.id, "plate", thick, wide)


def _beside(index: JobIndex, front: FrontPlan) -> Member | None:
    """The upright member that a door is hung on."""
    opening = index.job.openings[front.opening]
    order = index.uprights(front.run)
    at = next((n for n, item in enumerate(order) if item.id == opening.column and not isinstance(item, Member)), None)
    if at is None:
        return None
    beside = order[max(at - 1, 0)] if front.hinge_side == "left" else order[min(at + 1, len(order) - 1)]
    return beside if isinstance(beside, Member) else None
