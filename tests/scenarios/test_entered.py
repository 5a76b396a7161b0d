"""The two worked jobs, entered cell by cell as a person does, come out as when they are read whole."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from frontwright.core.job import Amount, Heading, Job, Table
from frontwright.core.job.declared import Declared, declared
from frontwright.core.lengths import Typed
from frontwright.core.plan import derive
from frontwright.desk.contents import FindingLine
from frontwright.desk.keys import key
from frontwright.desk.session import Session
from frontwright.exchange.figures_json import figures_json
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource

type Figures = dict[str, object]
type Load = Callable[[str], Figures]
type Compare = Callable[[Mapping[str, object], Mapping[str, object]], list[str]]

# What stands when a job begins: which runs, members, openings and fronts there are, and how they stand to each other.
GIVEN = {"place", "room", "run", "column", "side", "opening", "kind", "stands", "by_itself", "fronts", "direction"}
ENTERED_LATER = ("readings", "answers")
NOT_GIVEN = {"door_builds": "kind", "panel_builds": "kind", "ends": "kind"}


def sample(name: str) -> Job:
    return job_from_json(resource("samples", f"{name}.json").read_text(encoding="utf-8"))


def bare(job: Job) -> Job:
    """The job with its rows alone: nothing is read and nothing chosen but the unit."""
    whole = Job().put(Heading(unit=job.heading.unit))
    for name, kind in job.kinds().items():
        for row in getattr(job, name).values() if name not in (*ENTERED_LATER, "headings") else ():
            whole = whole.put(replace(row, **{field.name: field.default for field in open_fields(name, kind)}))
    return whole


def open_fields(table: str, kind: type[object]) -> Iterator[Declared]:
    """The fields of a table that are entered one by one."""
    for field in declared(kind):
        given = field.name in GIVEN and NOT_GIVEN.get(table) != field.name
        if not field.required and field.name != "id" and not given:
            yield field


def text_of(value: object) -> str:
    if isinstance(value, Typed | Amount):
        return value.text
    if isinstance(value, tuple):
        return ", ".join(value)
    return "yes" if value is True else "no" if value is False else str(value)


def entries(job: Job) -> Iterator[tuple[str, str]]:
    """Every cell with its text: what is surveyed, the readings in the order they were taken, then what is chosen."""
    for table, kind in job.kinds().items():
        if table == "readings":
            yield from readings(job)
        for row in getattr(job, table).values() if table not in ENTERED_LATER else ():
            for field in open_fields(table, kind):
                value = getattr(row, field.name)
                if value != field.default and (table, field.name) != ("headings", "unit"):
                    yield key(table, row.id, field.name), text_of(value)


def readings(job: Job) -> Iterator[tuple[str, str]]:
    for reading in job.readings.values():
        assert reading.value is not None
        yield key("readings", reading.of, reading.what, reading.at), reading.value.text


@pytest.fixture
def enter(tmp_path: Path) -> Iterator[Callable[[Job, Job], Session]]:
    """Opens the bare job and types every entry of the other into it."""
    opened: list[Session] = []

    def typed_in(begun: Job, job: Job) -> Session:
        session = Session.create(tmp_path / "job.frontwright", begun, tmp_path / "shop.frontwright-shop")
        opened.append(session)
        for place, text in entries(job):
            outcome = session.enter(place, text)
            assert not outcome.problem, (place, text, outcome.problem)
        return session

    yield typed_in
    for session in opened:
        session.close()


def test_the_kitchen_run_typed_cell_by_cell_comes_out(
    enter: Callable[[Job, Job], Session], worked: Load, differences: Compare
) -> None:
    job = sample("kitchen-run")
    session = enter(bare(job), job)
    assert differences(json.loads(figures_json(session.plan)), worked("figures-b.json")) == []


def test_the_laundry_pair_typed_cell_by_cell_comes_out_once_the_seam_is_found(
    enter: Callable[[Job, Job], Session], worked: Load, differences: Compare
) -> None:
    whole = sample("laundry-pair")
    job = replace(
        whole,
        members=whole.members.drop("seam"),
        readings=Table(reading for reading in whole.readings.values() if reading.of != "seam"),
    )
    session = enter(bare(job), job)
    (stop,) = (finding for finding in found(session) if finding.level == "stop")
    (way,) = (way for way in stop.ways if "seam" in way.word.casefold())
    assert not session.act(way.key).problem
    assert not [finding for finding in found(session) if finding.level == "stop"]
    answer = json.loads(figures_json(derive(session.job)))
    assert differences(answer, worked("figures-a.json")) == []


def found(session: Session) -> tuple[FindingLine, ...]:
    return session.page("survey").findings
