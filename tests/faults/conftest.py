"""A job file for the tests of what goes wrong, and a watch over what must stay as it was."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from frontwright.core.job import Column, Job, Opening, Reading, Room, Run
from frontwright.core.lengths import typed
from frontwright.store import create


@pytest.fixture
def job() -> Job:
    """One opening with a width."""
    base = Job().put(Room("K"), Run("R1", room="K"), Column("C1", run="R1", place=1), Opening("O1", column="C1"))
    return base.put(Reading("O1 width", of="O1", what="width", at="top", value=typed("23 5/8", "in")))


@pytest.fixture
def path(tmp_path: Path, job: Job) -> Path:
    """A job file that is closed."""
    place = tmp_path / "kitchen.frontwright"
    create(place, job).close()
    return place


@pytest.fixture
def folder_as_it_is(tmp_path: Path) -> Callable[[], dict[str, bytes]]:
    """Every file of the test's folder with its content."""
    return lambda: {one.name: one.read_bytes() for one in tmp_path.rglob("*") if one.is_file()}
