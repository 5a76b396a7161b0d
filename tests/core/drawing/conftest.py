"""The two sample jobs worked out, a plain measure of letters, and the grounds that drawings are laid on."""

from functools import cache

import pytest
from frontwright.core.drawing.lettering import Measure
from frontwright.core.drawing.medium import Medium, bench, screen
from frontwright.core.job import Job
from frontwright.core.plan import Plan, derive
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource


def half_em(text: str, em: float, bold: bool) -> float:
    """Every letter half as wide as high, a twentieth more when bold: simple to reckon with."""
    return len(text) * em * (0.55 if bold else 0.5)


@cache
def sample(name: str) -> Job:
    return job_from_json(resource("samples", f"{name}.json").read_text(encoding="utf-8"))


@cache
def planned(name: str) -> Plan:
    return derive(sample(name))


@pytest.fixture
def measure() -> Measure:
    return half_em


@pytest.fixture
def laundry_job() -> Job:
    return sample("laundry-pair")


@pytest.fixture
def kitchen_job() -> Job:
    return sample("kitchen-run")


@pytest.fixture
def laundry() -> Plan:
    return planned("laundry-pair")


@pytest.fixture
def kitchen() -> Plan:
    return planned("kitchen-run")


@pytest.fixture
def on_screen() -> Medium:
    return screen(half_em)


@pytest.fixture
def on_bench() -> Medium:
    return bench(half_em)
