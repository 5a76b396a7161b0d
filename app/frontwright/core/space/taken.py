"""What taking a way out does to a job: one change each, none of them needs more than the way itself."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import partial

from frontwright.core.findings import WayOut
from frontwright.core.job import Facing, HingeSide, Job, Look, Plate, PullType
from frontwright.core.lengths import MM, Length, Typed, decimal, typed_length

FLUSH = "flush pull"


def applied(job: Job, way: WayOut) -> Job:
    """The job with a way out taken; the same job where the way changes nothing that is there."""
    change = _CHANGES.get(way.field)
    return job if change is None or way.value is None else change(job, way.of, way.value)


def _hinge_side(job: Job, of: str, value: object) -> Job:
    front = job.fronts.get(of)
    side: HingeSide = "left" if value == "left" else "right"
    return job if front is None else job.put(replace(front, hinge_side=side))


def _pull(job: Job, of: str, _value: object) -> Job:
    """A flush pull for a look; the first flush one that the job knows, else a new one."""
    known = next((row.id for row in job.pull_types.values() if row.kind == "flush"), None)
    job = job if known else job.put(PullType(FLUSH, FLUSH, "flush"))
    return job.put(replace(job.looks.get(of) or Look(of), pull=known or FLUSH))


def _scheme(job: Job, of: str, _value: object) -> Job:
    return job.put(replace(job.looks.get(of) or Look(of), scheme="inset"))


def _pin(job: Job, of: str, value: object, *, left: bool) -> Job:
    front = job.fronts.get(of)
    if front is None or not isinstance(value, Length):
        return job
    at = typed_length(value, job.heading.unit)
    return job.put(replace(front, pin_left=at) if left else replace(front, pin_right=at))


def _skin(job: Job, of: str, value: object) -> Job:
    end = job.ends.get(of)
    if end is None:
        return job
    if isinstance(value, Length):
        return job.put(replace(end, skin_thickness=typed_length(value, job.heading.unit)))
    return job.put(replace(end, skin="none"))


def _inside(job: Job, of: str, value: object) -> Job:
    row = job.facings.get(of) or Facing(of)
    if isinstance(value, Length):
        return job.put(replace(row, inside_thickness=typed_length(value, job.heading.unit)))
    return job.put(replace(row, inside_edges="none"))


def _top(job: Job, of: str, value: object) -> Job:
    front = job.fronts.get(of)
    if front is None or not isinstance(value, Length):
        return job
    return job.put(replace(front, pin_top=typed_length(value, job.heading.unit)))


def _hinge(job: Job, of: str, value: object) -> Job:
    """Another hinge for what a look holds for."""
    known = str(value) in job.hinge_types
    return job.put(replace(job.looks.get(of) or Look(of), hinge=str(value))) if known else job


def _plate(job: Job, of: str, value: object) -> Job:
    """Plates of one more height for a hinge, to be got: none of them is on hand yet; those that it
    comes with stay in the list."""
    row = job.hinge_types.get(of)
    if row is None or not isinstance(value, Length):
        return job
    unit = job.heading.unit
    own = [plate for plate in job.plates.values() if plate.hinge in (None, of)]
    if not own and row.plate is not None and row.plate.value is not None:
        job = job.put(Plate(_free_plate(job, of, row.plate.value), of, height=row.plate))
    return job.put(Plate(_free_plate(job, of, value), of, height=typed_length(value, unit), count=0))


def _free_plate(job: Job, of: str, height: Length) -> str:
    """An id that says the hinge and the height, in millimetres as plates are sold."""
    name = f"{of} plate {decimal(Fraction(height.units, MM.units), 1)}"
    return name if name not in job.plates else f"{name} more"


def _of_hinge(job: Job, of: str, value: object) -> Job:
    row = job.hinge_types.get(of)
    if row is None or not isinstance(value, Length):
        return job
    return job.put(replace(row, edge_distance=Typed(f"{decimal(Fraction(value.units, MM.units), 2)}mm", value)))


def _of_build(job: Job, of: str, value: object, *, field: str) -> Job:
    row = job.door_builds.get(of)
    if row is None or not isinstance(value, Length):
        return job
    return job.put(replace(row, **{field: typed_length(value, job.heading.unit)}))  # type: ignore[arg-type]


def _as_it_leans(job: Job, of: str, _value: object) -> Job:
    row = job.facings.get(of)
    return job if row is None else job.put(replace(row, squared=False))


_CHANGES: dict[str, Callable[[Job, str, object], Job]] = {
    "hinge_side": _hinge_side,
    "pull": _pull,
    "scheme": _scheme,
    "pin_left": partial(_pin, left=True),
    "pin_right": partial(_pin, left=False),
    "cover_left": partial(_pin, left=True),
    "cover_right": partial(_pin, left=False),
    "cover_top": _top,
    "hinge": _hinge,
    "new plate": _plate,
    "edge_distance": _of_hinge,
    "stile": partial(_of_build, field="stile"),
    "top_rail": partial(_of_build, field="top_rail"),
    "thickness": partial(_of_build, field="thickness"),
    "skin": _skin,
    "skin_thickness": _skin,
    "inside_edges": _inside,
    "inside_thickness": _inside,
    "squared": _as_it_leans,
}
