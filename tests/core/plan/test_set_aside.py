"""What is no size is kept as typed and counted nowhere."""

from __future__ import annotations

import pytest
from frontwright.core.job import (
    Billet,
    Column,
    DoorBuild,
    Front,
    Job,
    LabelSheet,
    Leaf,
    Opening,
    PressedPanel,
    Room,
    Run,
)
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


def test_nothing_kept_back_left_out_of_flat_or_round_a_label_is_a_figure() -> None:
    nothing = typed("0", "mm")
    told = (
        Billet("A", length=typed("700", "mm"), thickness=typed("44", "mm"), keep_now=nothing),
        Leaf("A1", "A", 1, left=nothing),
        PressedPanel("F-P", flatness=nothing),
        LabelSheet(columns=2, rows=7, left=nothing, top=nothing, right=nothing, bottom=nothing, gap_across=nothing),
    )
    plan = derive(Job().put(*told))
    assert [c for c in plan.checks if c.code == "unread"] == []
