"""Whatever a job lacks, what there is of it can be drawn."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from frontwright.core.drawing.door import door
from frontwright.core.drawing.elevation import breaks, elevation, in_two, key_elevation
from frontwright.core.drawing.lay import fit
from frontwright.core.drawing.marks import Drawing, Outline
from frontwright.core.drawing.medium import Medium
from frontwright.core.drawing.new_job import first_front
from frontwright.core.drawing.section import section
from frontwright.core.drawing.survey_opening import opening_as_read
from frontwright.core.drawing.survey_run import survey_run
from frontwright.core.drawing.sweep import sweep
from frontwright.core.job import Job, Table
from frontwright.core.lengths import typed
from frontwright.core.plan import Plan, derive

LOST = [name for name in Job.kinds() if name not in ("headings", "printed", "answers")]


def drawings(plan: Plan) -> Iterator[Drawing]:
    """Everything that can be drawn of a plan."""
    for run in plan.survey.runs:
        yield from (survey_run(plan, run.id), elevation(plan, run.id), elevation(plan, run.id, "wall"))
        yield key_elevation(plan, run.id)
        yield sweep(plan, run.id)
        for at in breaks(plan, run.id)[:1]:
            yield from in_two(plan, run.id, at)
    for opening in plan.survey.openings:
        yield opening_as_read(plan, opening)
    for front in plan.fronts.fronts:
        yield from (door(plan, front), door(plan, front, "bench"))
        cut = section(plan, front)
        yield from (cut,) if cut is not None else ()
    for front in plan.space.swings:
        yield sweep(plan, plan.fronts.fronts[front].run, front)
    begun = first_front(plan)
    yield from (begun,) if begun is not None else ()


@pytest.mark.parametrize("table", LOST)
def test_a_job_without_one_of_its_tables_is_drawn(laundry_job: Job, on_screen: Medium, table: str) -> None:
    plan = derive(replace(laundry_job, **{table: Table()}))
    made = list(drawings(plan))
    assert len(made) >= (0 if table in ("runs", "rooms", "columns", "openings") else 4)
    for drawing in made:
        assert bool(fit(drawing, on_screen, 400, 300).inks) == bool(drawing.marks)


def test_a_run_with_nothing_in_it_is_an_outline_of_two_dot_lines(laundry_job: Job) -> None:
    plan = derive(replace(laundry_job, members=Table(), columns=Table(), readings=Table()))
    for drawing in (survey_run(plan, "R1"), elevation(plan, "R1")):
        assert [mark.pen for mark in drawing.marks if isinstance(mark, Outline)] == ["assumed"]


@pytest.mark.parametrize("text", ["1", "5000mm", "x", "1/64"])
def test_a_job_with_readings_that_cannot_be_is_drawn(laundry_job: Job, on_screen: Medium, text: str) -> None:
    wrong = [replace(reading, value=typed(text, "in")) for reading in laundry_job.readings.values()]
    for drawing in drawings(derive(laundry_job.put(*wrong))):
        assert fit(drawing, on_screen, 400, 300).inks
