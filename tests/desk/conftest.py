"""Open jobs for the desk's tests: the two samples, each in a file of its own with a shop of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from frontwright.core.job import Job
from frontwright.desk.session import Session
from frontwright.exchange.json_form import job_from_json
from frontwright.resources import resource

Opener = Callable[[Job | str], Session]


def sample_job(name: str) -> Job:
    return job_from_json(resource("samples", f"{name}.json").read_text("utf-8"))


@pytest.fixture
def open_session(tmp_path: Path) -> Iterator[Opener]:
    """Opens a sample by its name, or any job, in a new file."""
    opened: list[Session] = []

    def make(job: Job | str) -> Session:
        whole = sample_job(job) if isinstance(job, str) else job
        path = tmp_path / f"job {len(opened)}.frontwright"
        session = Session.create(path, whole, tmp_path / "shop.frontwright-shop")
        opened.append(session)
        return session

    yield make
    for session in opened:
        session.close()


@pytest.fixture
def laundry(open_session: Opener) -> Session:
    return open_session("laundry-pair")


@pytest.fixture
def kitchen(open_session: Opener) -> Session:
    return open_session("kitchen-run")


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Session]:
    """One open kitchen for the tests of a module that leave it as they found it."""
    yield from _kept("kitchen-run", tmp_path_factory.mktemp("kitchen"))


@pytest.fixture(scope="module")
def kept_laundry(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Session]:
    """One open laundry for the tests of a module that leave it as they found it."""
    yield from _kept("laundry-pair", tmp_path_factory.mktemp("laundry"))


def _kept(name: str, folder: Path) -> Iterator[Session]:
    session = Session.create(folder / "job.frontwright", sample_job(name), folder / "shop.frontwright-shop")
    yield session
    session.close()
