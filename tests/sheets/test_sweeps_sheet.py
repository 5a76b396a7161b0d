"""Sheet 8, plan with sweeps: have and need of what opens and meets, ways out, and what makes it stale."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from frontwright.core.job import Answer, End, Front, Inside, Job, Obstacle, PullType
from frontwright.core.lengths import typed
from frontwright.core.plan import Plan, derive
from frontwright.sheets.catalogue import HeldBack, SheetInfo, Stamp, digest, make, sheets_of

type Texts = Callable[[bytes], list[str]]
STAMP = Stamp(1, "2026-11-25")


def _with_wall(plan: Plan, away: str = "20", projection: str = "35") -> Plan:
    job = plan.job.put(
        PullType("bar", "bar", projection=typed(projection, "mm")),
        Obstacle("wall", "K", "wall", "right", "party wall", away=typed(away, "mm")),
        Front("F12", "12", hinge_side="right"),
    )
    look, hinge = job.looks["room:kitchen"], job.hinge_types["cover 18"]
    job = job.put(replace(hinge, cover=None))  # the cover on the other side holds nothing back then
    return derive(job.put(replace(look, pull="bar")))


def _of(plan: Plan) -> list[SheetInfo]:
    return [info for info in sheets_of(plan) if info.kind == "sweeps"]


def test_a_run_round_which_nothing_was_entered_has_no_such_sheet(kitchen: Plan, laundry: Plan) -> None:
    assert _of(kitchen) == _of(laundry) == []


def test_the_sheet_says_how_far_the_door_opens_what_stops_it_and_the_ways_out(kitchen: Plan, page_texts: Texts) -> None:
    plan = _with_wall(kitchen)
    (info,) = _of(plan)
    assert (info.key, info.held) == ("08-sweeps:K", False)
    text = " ".join(page_texts(make(plan, [info], "a4", STAMP)))
    assert "what its fronts sweep" in text
    assert "opens: party wall, by its pull" in text
    angle = plan.space.swings["F12"].angle
    assert angle is not None
    assert f"{float(angle.units):.2f}°" in text
    assert "Ways out for F12 , each tried: hang F12 on the left" in text
    assert "8 plan with sweeps of run K" in text


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_it_goes_on_both_papers(kitchen: Plan, page_texts: Texts, paper: str) -> None:
    plan = _with_wall(kitchen)
    pdf = make(plan, _of(plan), "a4" if paper == "a4" else "letter", STAMP)
    assert "seen from above" in " ".join(page_texts(pdf))


def test_a_wall_that_moves_makes_the_sheet_stale_and_names_what_moved(kitchen: Plan) -> None:
    (before,), (after,) = _of(_with_wall(kitchen)), _of(_with_wall(kitchen, "40"))
    assert digest(before) != digest(after)
    changed = {name for name, text in after.facts if (name, text) not in before.facts}
    assert changed == {"F12 opens: party wall, by its pull", "wall wall", "K right end beside the party wall, skin on"}


def test_a_gap_that_a_skin_takes_holds_the_sheet_back_until_it_is_answered(kitchen: Plan, page_texts: Texts) -> None:
    end = End(
        "K right", "K", "right", "appliance", gap_top=typed("8", "mm"), skin="bought", skin_thickness=typed("6.2", "mm")
    )
    plan = derive(kitchen.job.put(end))
    (info,) = _of(plan)
    with pytest.raises(HeldBack, match="end-gap of K"):
        make(plan, [info], "a4", STAMP)
    reply = Answer("end-gap K", "end-gap", "K", "1.8", "3", "stop", "the dishwasher is narrower")
    plan = derive(plan.job.put(reply))
    (info,) = _of(plan)
    text = " ".join(page_texts(make(plan, [info], "a4", STAMP)))
    assert "the dishwasher is narrower" in text
    assert "right end beside the appliance, skin on 1.8 ( 3 ) no" in text


def test_a_drawer_box_is_a_line_of_the_sheet(kitchen: Plan, page_texts: Texts) -> None:
    job: Job = kitchen.job.put(Inside("box", "1", width=typed("500", "mm"), runner=typed("12.7", "mm")))
    plan = derive(job)
    text = " ".join(page_texts(make(plan, _of(plan), "a4", STAMP)))
    assert "takes box, across" in text
