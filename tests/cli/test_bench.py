"""The table of timings: it has every line, and large jobs to measure with are whole."""

from __future__ import annotations

import re

import pytest
from frontwright.bench import openings, table
from frontwright.core.job.references import dangling
from frontwright.core.plan import derive
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource

KITCHEN = job_from_json(resource("samples", "kitchen-run.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("count", [5, 14, 20, 100])
def test_a_job_for_measuring_has_so_many_openings_and_names_nothing_that_is_not_there(count: int) -> None:
    job = openings(KITCHEN, count)
    assert len(job.openings) == count
    assert dangling(job) is None


def test_every_copy_of_a_run_comes_out_as_the_run_itself() -> None:
    once, twice = derive(KITCHEN).fronts.fronts, derive(openings(KITCHEN, 28)).fronts.fronts
    assert len(twice) == 2 * len(once)
    for front in once.values():
        assert twice[front.id].width.value == twice[f"{front.id} 2"].width.value == front.width.value


def test_the_table_tells_what_each_thing_may_take_and_what_it_took() -> None:
    lines = list(table(repeats=1))
    measured = [line for line in lines if re.search(r" \d+(\.\d+)? (ms|s|MB) +\d+(\.\d+)? (ms|s|MB)$", line)]
    assert len(measured) == 9
    assert sum("openings" in line for line in measured) == 3
