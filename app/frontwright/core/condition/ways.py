"""Ways out of a surface that cannot be glued to or worked on: each is tried on the surface before it is offered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import cast

from frontwright.core.condition.surfaces import Objection, objections, old_paint, remedies
from frontwright.core.findings import WayOut
from frontwright.core.job import Drawer, DrawerWay, Job, Keying, MadeGood, OldHinge, Surface, Treatment
from frontwright.core.lengths import Length, typed_length

_CASES = {"lifting": "made_good", "let go": "made_good", "film": "made_good", "greasy": "clean"}
_STILL = {
    "no swab": "then a swab",
    "old paint dry": "then not dry",
    "lead": "then say how it is keyed",
    "lead dry": "then not dry",
    "greasy": "then it must be washed",
    "lifting": "then it must be made good",
    "let go": "then it must be made good",
    "film": "then a trial for a day",
}
_AFTER = {  # what each brings with it
    "peel and key": "a new trial for a day",
    "cut away at edges": "cut at the member, a new trial for a day",
    "mechanical and adhesive": "pins or screws hold where the old layer may not; their holes show",
}


def applied(row: Surface, field: str, value: str) -> Surface:
    """The surface with a way out taken; what was tried before it was made good counts no longer."""
    if field == "made_good":
        return replace(row, made_good=cast(MadeGood, value), trial=None, trial_on="")
    if field == "keyed":
        return replace(row, keyed=cast(Keying, value))
    if field == "treated":
        return replace(row, treated=cast(Treatment, value))
    return replace(row, clean=value == "yes") if field == "clean" else row


def taken(job: Job, way: WayOut) -> Job:
    """The job with a way out of what was found taken; the same job where what it is about is not there."""
    if way.of in job.surfaces and isinstance(way.value, str):
        return job.put(applied(job.surfaces[way.of], way.field, way.value))
    if way.of in job.repairs and way.field == "done":
        return job.put(replace(job.repairs[way.of], done=True))
    if way.of in job.door_builds and isinstance(way.value, Length):
        return job.put(replace(job.door_builds[way.of], thickness=typed_length(way.value, job.heading.unit)))
    if way.of not in job.openings:
        return job
    if way.field in ("use", "plugged"):
        hinges = job.old_hinges.get(way.of) or OldHinge(way.of)
        return job.put(replace(hinges, use="replace") if way.field == "use" else replace(hinges, plugged=True))
    return _of_drawer(job, way, job.drawers.get(way.of) or Drawer(way.of))


def _of_drawer(job: Job, way: WayOut, drawer: Drawer) -> Job:
    if way.field == "way":
        return job.put(replace(drawer, way=cast(DrawerWay, way.value)))
    if not isinstance(way.value, Length):
        return job
    size = typed_length(way.value, job.heading.unit)
    return job.put(replace(drawer, packing=size) if way.field == "packing" else replace(drawer, screw=size))


def ways_out(job: Job, row: Surface, found: Objection, covered: bool) -> Iterator[WayOut]:
    """What clears a finding, in the order of trouble, then where to read anew. `covered`: by the run's facing."""
    for field, value in _candidates(row, found):
        changed = applied(row, field, value)
        glued = changed.treated == "cover" or covered
        disturbed = glued or changed.treated in ("refinish", "replace")
        left = list(objections(changed, glued, disturbed, old_paint(job, changed)))
        if all(one.case != found.case for one in left):
            yield WayOut("change", row.id, field, value, gives=_gives(value, left))
    yield from (WayOut("enter", row.id, field) for field in _TO_READ.get(found.case, ()))


_TO_READ: dict[str, tuple[str, ...]] = {
    "not looked at": ("finish",),
    "film": ("trial",),
    "no swab": ("swab", "painted"),
    "old paint dry": ("swab",),
}


def _candidates(row: Surface, found: Objection) -> Iterator[tuple[str, str]]:
    kind = _CASES.get(found.case, "keyed")
    if kind == "made_good":
        yield from (("made_good", one) for one in remedies(row) if one != row.made_good)
    elif kind == "clean":
        yield "clean", "yes"
    elif found.case != "not looked at":
        yield from (("keyed", one) for one in ("wet", "chemical", "certified people"))
        yield "treated", "keep"


def _gives(value: str, left: list[Objection]) -> str:
    """What it would bring: a new trial, and what must be seen to besides."""
    parts = [_AFTER[value]] if value in _AFTER else []
    return "; ".join([*parts, *dict.fromkeys(_STILL[one.case] for one in left if one.case in _STILL)])
