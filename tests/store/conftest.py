"""Jobs for the tests of the store, and the files they are in."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from frontwright.core.job import Column, Job, Opening, Reading, Room, Run
from frontwright.core.lengths import typed
from frontwright.store import create
from frontwright.store.files import JobFile


@pytest.fixture
def job() -> Job:
    """Two openings of one column, each with a width."""
    base = Job().put(Room("K"), Run("R1", room="K"), Column("C1", run="R1", place=1))
    return base.put(
        Opening("O1", column="C1", place=1),
        Opening("O2", column="C1", place=2),
        Reading("O1 width", of="O1", what="width", at="top", value=typed("23 5/8", "in")),
        Reading("O2 width", of="O2", what="width", at="top", value=typed("23 5/", "in")),
    )


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A place for a job file that nothing stands at yet."""
    return tmp_path / "kitchen.frontwright"


@pytest.fixture
def file(path: Path, job: Job) -> Iterator[JobFile]:
    """The job in a file that is open."""
    with create(path, job) as made:
        yield made
