"""What is no size is kept as typed and counted nowhere."""

from __future__ import annotations

import pytest
from frontwright.core.job import Column, DoorBuild, Front, Job, Opening, Room, Run
from frontwright.core.lengths import Length, typed
from frontwright.core.plan import derive


@pytest.mark.parametrize("text", ["0", "-2"])
def test_a_stile_of_no_width_is_said_kept_and_assumed_instead(text: str) -> None:
    rows = (Room("r"), Run("R", "r"), Column("C", "R", 1), Opening("O", "C"), Front("F", "O", build="d"))
    job = Job().put(*rows, DoorBuild("d", stile=typed(text, "in")))
    plan = derive(job)
    stile = plan.making.fronts["F"].stile
    assert stile is not None
    assert (stile.value, stile.source) == (Length.inch("9/4"), "assumed")
    assert [c.case for c in plan.checks if c.code == "unread"] == ["no size"]
    assert plan.job.door_builds["d"].stile == typed(text, "in")


def test_a_core_is_of_no_species_but_its_own() -> None:
    rows = (Room("r"), Run("R", "r"), Column("C", "R", 1), Opening("O", "C"), Front("F", "O", build="d"))
    job = Job().put(*rows, DoorBuild("d", kind="dowelled", species="ash"))
    assert [line.species for line in derive(job).bill.lines if line.form == "core"] == [""]
