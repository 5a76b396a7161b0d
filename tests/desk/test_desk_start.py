"""A new job from one form: two readings and three choices give every part; all else is assumed openly."""

from __future__ import annotations

from itertools import product
from pathlib import Path
from typing import get_args

import pytest
from frontwright.core.job import DoorKind, Scheme
from frontwright.core.lengths import Length, Unit
from frontwright.core.plan import derive
from frontwright.desk.edits import Refused
from frontwright.desk.edits.start import PANEL_OF, NewJob, empty_job, new_job
from frontwright.desk.session import Session, SessionError

UNITS: tuple[Unit, ...] = ("in", "mm")


@pytest.mark.parametrize(
    ("kind", "scheme", "pair", "unit"),
    list(product(get_args(DoorKind), get_args(Scheme), (False, True), UNITS)),
)
def test_every_choice_of_the_form_gives_whole_fronts_and_no_stop(
    kind: DoorKind, scheme: Scheme, pair: bool, unit: Unit
) -> None:
    width, height = ("21", "26 1/2") if unit == "in" else ("533", "673")
    plan = derive(new_job(NewJob(unit, width, height, pair, scheme, "", kind, "a box")))
    assert list(plan.fronts.fronts) == (["F1L", "F1R"] if pair else ["F1"])
    for made in plan.making.fronts.values():
        assert made.build.kind == kind
        assert made.slab == (kind == "slab")
        assert all(part.length.units > 0 and part.width.units > 0 for part in made.parts)
        assert all(proof.agrees for proof in made.proofs)
        if not made.slab:
            assert made.build.panel.kind == PANEL_OF[kind]
    assert not [check for check in plan.checks if check.level == "stop" and check.is_open]
    assert plan.read_next


def test_partial_cover_of_half_an_inch_makes_a_door_an_inch_wider_and_higher_than_the_opening() -> None:
    plan = derive(new_job(NewJob("in", "21", "26 1/2", amount="1/2", door_kind="dowelled")))
    front = plan.fronts.fronts["F1"]
    assert (front.width.length, front.height.length) == (Length.inch(22), Length.inch("27.5"))
    sizes = {part.kind: (part.length.length, part.width.length) for part in plan.making.fronts["F1"].parts}
    assert sizes["stile"] == (Length.inch("27.5"), Length.inch("2.25"))
    assert sizes["top rail"] == (Length.inch("17.5"), Length.inch("2.25"))
    assert sizes["bottom rail"] == (Length.inch("17.5"), Length.inch("2.75"))


def test_what_nobody_read_is_marked_as_resting_on_an_assumption() -> None:
    plan = derive(new_job(NewJob("in", "21", "26 1/2")))
    assert plan.survey.openings["1"].widths[1].source == "taped"
    assert plan.survey.openings["1"].widths[0].source == "assumed"
    assert plan.fronts.fronts["F1"].width.rests


@pytest.mark.parametrize(
    ("form", "said"),
    [
        (NewJob(width="", height="26"), "Opening width is empty"),
        (NewJob(width="21", height=""), "Opening height is empty"),
        (NewJob(width="wide", height="26"), "Opening width"),
        (NewJob(width="0", height="26"), "zero"),
        (NewJob(width="21", height="-3"), "under zero"),
        (NewJob(width="21", height="26", amount="half"), "Cover on each side"),
        (NewJob(width="21", height="26", amount="-1", scheme="inset"), "Gap on each side"),
        (NewJob(width="2", height="26"), "less than"),
        (NewJob(unit="mm", width="40 m", height="600"), "30 m"),
    ],
)
def test_a_form_that_cannot_be_begins_nothing_and_says_which_field(form: NewJob, said: str, tmp_path: Path) -> None:
    with pytest.raises(Refused, match=said):
        new_job(form)
    with pytest.raises(SessionError, match=said):
        Session.start(tmp_path / "job.frontwright", form, tmp_path / "shop.frontwright-shop")
    assert list(tmp_path.iterdir()) == []


def test_a_job_with_nothing_read_still_gives_a_plan() -> None:
    plan = derive(empty_job("mm"))
    assert list(plan.fronts.fronts) == ["F1"]
    assert plan.fronts.fronts["F1"].width.rests


def test_a_build_kept_in_the_shop_can_be_chosen_in_the_next_job(tmp_path: Path) -> None:
    shop = tmp_path / "shop.frontwright-shop"
    first = Session.start(tmp_path / "first.frontwright", NewJob("in", "21", "26"), shop)
    (own,) = first.job.door_builds
    assert first.act(f"keep-in-shop/door_builds/{own}").problem == ""
    first.close()
    second = Session.start(tmp_path / "second.frontwright", NewJob("mm", "564", "684", door_kind="slab"), shop)
    outcome = second.enter("looks/room:room/door_build", own)
    assert outcome.problem == ""
    assert set(second.job.door_builds) == {own, "slab"}
    second.close()
