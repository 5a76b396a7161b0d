"""Laws of pressings: what is offered works, more hands or clamps never make it worse, a stack is never the weaker."""

from __future__ import annotations

from dataclasses import replace

from frontwright.core.findings import Check
from frontwright.core.job import Job, Press, Pressing, amount
from frontwright.core.plan import Plan, derive
from frontwright.core.veneer.result import PressingPlan
from frontwright.desk.edits.pressings import way_out
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource
from hypothesis import given, settings
from hypothesis import strategies as st

LAUNDRY = job_from_json(resource("samples", "laundry-pair.json").read_text("utf-8"))
BAG = Press("bag", kind="vacuum bag", bag_pressure=amount("12"), close_minutes=amount("3"))


@st.composite
def pressings(draw: st.DrawFn) -> Job:
    """The two panels of a pair in one pressing, with a second glue and a bag beside."""
    glue = LAUNDRY.glues["wood glue"]
    minutes = st.integers(1, 40).map(lambda one: amount(str(one)))
    told = replace(glue, clamp_minutes=draw(minutes), open_minutes=draw(minutes), layup_minutes=draw(minutes))
    other = draw(minutes)
    row = replace(
        LAUNDRY.pressings["1"],
        panels=("DA-P", "DB-P"),
        lie=draw(st.sampled_from(("stacked", "side by side"))),
        helper=draw(st.booleans()),
        clamps=draw(st.integers(1, 60)),
    )
    glues = (told, replace(glue, id="other", clamp_minutes=other, open_minutes=other))
    return LAUNDRY.drop(Pressing, "1", "2").put(*glues, BAG, row)


def the_pressing(job: Job) -> PressingPlan:
    (found,) = derive(job).veneer.pressings
    return found


def late(plan: Plan) -> list[Check]:
    return [one for one in plan.checks if one.code == "press-time" and one.is_open]


@settings(max_examples=30, deadline=None)
@given(job=pressings())
def test_every_way_out_of_a_late_pressing_brings_it_in_time(job: Job) -> None:
    plan = derive(job)
    for check in late(plan):
        for way in check.ways:
            edit = way_out(job, plan, way)
            if edit is not None:
                assert late(derive(edit.change(job))) == [], way


@settings(max_examples=20, deadline=None)
@given(job=pressings())
def test_a_helper_never_takes_longer_and_a_clamp_more_never_presses_less(job: Job) -> None:
    one = the_pressing(job)
    row = job.pressings["1"]
    more = the_pressing(job.put(replace(row, clamps=one.clamps + 1)))
    assert one.with_helper <= one.alone
    assert more.pressure > one.pressure
    assert more.minutes > one.minutes


@settings(max_examples=20, deadline=None)
@given(job=pressings())
def test_a_stack_is_pressed_at_least_as_hard_as_a_row_and_takes_as_long(job: Job) -> None:
    row = job.pressings["1"]
    stack, line = (the_pressing(job.put(replace(row, lie=lie))) for lie in ("stacked", "side by side"))
    assert stack.pressure >= line.pressure
    assert (stack.minutes, stack.glue_grams) == (line.minutes, line.glue_grams)
    assert stack.lying.height.units >= line.lying.height.units
