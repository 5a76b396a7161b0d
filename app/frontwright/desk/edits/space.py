"""What stands round a run, corners, what is inside; and the ways out of what does not open or fit."""

from __future__ import annotations

from frontwright.core.findings import Check, WayOut
from frontwright.core.job import Corner, Inside, InsideKind, Job, Obstacle, ObstacleKind, ObstacleSide
from frontwright.core.space.taken import applied
from frontwright.core.space.ways import TRIED, TRIED_OF_HINGES
from frontwright.desk.edits.edit import Edit, Refused
from frontwright.desk.edits.rows import free_id, place_ids, run_of

CODES = (*TRIED, *TRIED_OF_HINGES)
_FIRST_KIND: dict[str, ObstacleKind] = {"left": "wall", "right": "wall", "before": "cabinet", "above": "other"}
_SIDES: dict[str, ObstacleSide] = {"left": "left", "right": "right", "before": "before", "above": "above"}
_INSIDE: dict[str, InsideKind] = {"drawer box": "drawer box", "inner drawer": "inner drawer", "shelf": "shelf"}


def way_out(check: Check, way: WayOut) -> Edit | None:
    """A way out as it was tried; None where it only leads to a cell."""
    if check.code not in CODES or way.kind != "change" or way.value is None:
        return None
    return Edit(
        f"way out of {check.code} of {', '.join(check.where)}", lambda before: applied(before, way), select=way.of
    )


def add_obstacle(job: Job, run: str, side: str) -> Edit:
    """Something beside a run, before or above it, a wall, cabinet or ceiling until it is said to be something else."""
    if run not in job.runs or side not in _SIDES:
        raise Refused(f"There is no {side} of “{run}”: choose a run that is there.")
    new = free_id({*place_ids(job), *job.obstacles}, f"{run} obstacle 0")
    kind = _FIRST_KIND[side]
    row = Obstacle(new, run, kind, _SIDES[side], "ceiling" if side == "above" else "")
    return Edit(f"add what stands {side} of {run}", lambda before: before.put(row), select=new)


def add_corner(job: Job, left: str, right: str) -> Edit:
    """An inside corner of two runs, the left one's right end against the right one's left end."""
    if left not in job.runs or right not in job.runs or left == right:
        raise Refused("A corner takes two runs that are there.")
    new = free_id({*place_ids(job), *job.corners}, "corner 0")
    return Edit(
        f"add the corner of {left} and {right}", lambda before: before.put(Corner(new, left, right)), select=new
    )


def add_inside(job: Job, opening: str, kind: str) -> Edit:
    """A box, an inner drawer or a fixed shelf in an opening."""
    if run_of(job, opening) is None or kind not in _INSIDE:
        raise Refused(f"“{opening}” is no longer there: choose another opening.")
    new = free_id({*place_ids(job), *job.insides}, f"{opening} {kind} 0")
    row = Inside(new, opening, _INSIDE[kind])
    return Edit(f"add a {kind} in {opening}", lambda before: before.put(row), select=opening)
