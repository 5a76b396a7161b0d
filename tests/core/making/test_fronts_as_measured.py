"""Rows and columns add up the fronts that were made, each counted once."""

from __future__ import annotations

from frontwright.core.fronts.result import Sum
from frontwright.core.job import AsBuilt, DoorBuild, Front
from job_builder import Made, job, size


def _run() -> Made:
    """A door beside a drawer, 40 400 40 400 40 by the tape, 700 high, by gaps of 4 and reveals of 4."""
    made = job().run("K", S0="40", A="400", S1="40", C="400", S2="40").rails().read("K", "height", "700")
    made = made.opening("A1", "A", heights="620").opening("C1", "C", heights="620")
    ends = {f"reveal_{side}": "4" for side in ("left", "right", "top", "bottom")}
    made = made.look(scheme="full cover", gap="4", door_build="framed", drawer_build="slab", **ends)
    made = made.put(DoorBuild, "framed").put(DoorBuild, "slab", kind="slab")
    return made.fronts("D", opening="A1").fronts("W", opening="C1", kind="drawer")


def _measured(made: Made, of: str, what: str, value: str) -> Made:
    return made.put(AsBuilt, f"{of} {what}", of=of, what=what, value=value)


def _sum(made: Made, direction: str, *of: str) -> Sum:
    return next(s for s in made.plan.fronts.sums if s.direction == direction and s.of == of)


def test_a_row_adds_up_the_width_a_front_came_out_at() -> None:
    made = _run()
    assert size(_sum(made, "row", "D", "W").total) == size(_sum(made, "row", "D", "W").equals) == 920
    wide = _measured(made, "D", "width", "456.5")
    assert size(wide.front("D").width) == 454
    assert [size(t) for t in _sum(wide, "row", "D", "W").terms] == [4, 456.5, 4, 454, 4]
    assert size(_sum(wide, "row", "D", "W").total) == 922.5
    assert wide.found("row-sum").level == "stop"


def test_a_front_made_within_what_is_seen_is_no_stop() -> None:
    made = _measured(_run(), "D", "width", "454.5")
    assert size(_sum(made, "row", "D", "W").total) == 920.5
    assert made.quiet("row-sum")


def test_a_column_adds_up_the_height_a_front_came_out_at() -> None:
    made = _measured(_run(), "D", "height", "690")
    assert size(_sum(made, "column", "D").total) == 698
    assert made.found("row-sum").where == ("D",)


def test_a_slab_counts_along_and_across_its_grain() -> None:
    """A slab bears its front's id, and its width is measured across the grain: up, where that runs sideways."""
    made = _measured(_measured(_run(), "W", "length", "453"), "W", "width", "690")
    assert size(_sum(made, "row", "D", "W").total) == 919
    assert size(_sum(made, "column", "W").total) == 698
    upright = made.put(Front, "W", grain="vertical")
    assert size(_sum(upright, "row", "D", "W").total) == 920 - 454 + 690
    assert size(_sum(upright, "column", "W").total) == 700 - 692 + 453
