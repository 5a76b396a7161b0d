"""The two samples, worked out from their inputs alone, against the figures that have to come out (README.md here)."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import cast

import pytest
from frontwright.core.job import Job
from frontwright.core.lengths import UNITS_IN
from frontwright.core.plan import derive
from frontwright.exchange.figures_json import figures_json
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource

type Row = dict[str, object]
type Load = Callable[[str], Row]
type Compare = Callable[[Mapping[str, object], Mapping[str, object]], list[str]]

JOBS = {"a": "laundry-pair", "b": "kitchen-run"}


def sample(letter: str) -> Job:
    return job_from_json(resource("samples", f"{JOBS[letter]}.json").read_text(encoding="utf-8"))


def answer(letter: str) -> Row:
    return dict(json.loads(figures_json(derive(sample(letter)))))


@pytest.mark.parametrize("letter", JOBS)
def test_a_worked_job_comes_out_from_its_inputs(letter: str, worked: Load, differences: Compare) -> None:
    assert differences(answer(letter), worked(f"figures-{letter}.json")) == []


@pytest.mark.parametrize("letter", JOBS)
def test_a_worked_jobs_readings_are_those_of_its_inputs(letter: str, worked: Load) -> None:
    inputs = cast(dict[str, dict[str, object]], worked(f"inputs-{letter}.json")["inputs"])
    openings = cast(list[Row], inputs["survey"]["openings"])
    if letter == "b":
        openings += [cast(Row, inputs["hutch"]["doors_opening"]), cast(Row, inputs["hutch"]["drawer_opening"])]
    job = sample(letter)
    for opening in openings:
        for what in ("width", "height", "diagonal"):
            taken = [
                Fraction(reading.value.value.units, UNITS_IN[job.heading.unit])
                for reading in job.readings.values()
                if (reading.of, reading.what) == (opening["id"], what) and reading.value and reading.value.value
            ]
            assert taken == opening.get(f"{what}s", []), (opening["id"], what)


def test_a_worked_job_holds_no_derived_figure(worked: Load) -> None:
    told = {"F1", "F2", "F12", "DA"}  # no part, size or position of a front is entered, but for the pins of the look
    for letter in JOBS:
        job = sample(letter)
        assert not job.as_built
        assert all(
            front.pin_left is front.pin_right is front.pin_top is front.pin_bottom is None
            for front in job.fronts.values()
        )
        assert not told & {reading.of for reading in job.readings.values()}


@pytest.mark.parametrize("letter", JOBS)
def test_expected_figures_agree_with_themselves(letter: str, worked: Load, differences: Compare) -> None:
    expected = worked(f"figures-{letter}.json")
    assert differences(expected, expected) == []


def test_a_figure_that_is_one_step_off_is_found(worked: Load, differences: Compare) -> None:
    expected = worked("figures-a.json")
    got = copy.deepcopy(expected)
    cast(list[Row], got["parts"])[1]["length"] = "18.125"
    assert differences(got, expected) == ["parts, da, toprail, length: expected '18.09375', got '18.125'"]


def test_a_row_that_is_missing_is_found(worked: Load, differences: Compare) -> None:
    expected = worked("figures-b.json")
    got = copy.deepcopy(expected)
    cast(list[Row], got["strips"]).pop()
    assert [line.partition(";")[0] for line in differences(got, expected)] == ["strips: no such row"]


def test_a_further_stop_is_found(worked: Load, differences: Compare) -> None:
    expected = worked("figures-b.json")
    got = copy.deepcopy(expected)
    stop: Row = {"code": "cover", "where": ["F1"], "value": "1", "limit": "3", "level": "stop", "state": "open"}
    cast(list[Row], got["checks"]).append(stop)
    assert differences(got, expected) == ["checks, cover, f1: stop is open"]
