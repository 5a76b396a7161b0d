"""Open jobs for the desk's tests: the two samples, each in a file of its own with a shop of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from frontwright.core.job import Column, Corner, Front, Job, Laid, LaidPart, Member, Opening, PullType, Reading, Run
from frontwright.core.lengths import typed
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


@pytest.fixture(scope="module")
def in_a_corner(kept: Session, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Session]:
    """The kitchen whose right end meets a further leg in a corner, its pulls chosen."""
    job = kept.job.put(
        Run("L", "kitchen", place=9),
        Member("L1", "L", "stile", place=1),
        Column("L2", "L", place=2),
        Member("L3", "L", "stile", place=3),
        Opening("L2", "L2"),
        Front("FL", "L2", "drawer"),
        PullType("bar", projection=typed("32", "mm")),
        replace(kept.job.looks["room:kitchen"], pull="bar"),
        Reading("L1 across", "L1", "across", "", typed("100", "mm")),
        Reading("L2 width", "L2", "width", "middle", typed("400", "mm")),
        Reading("L2 height", "L2", "height", "middle", typed("640", "mm")),
        Reading("L3 across", "L3", "across", "", typed("40", "mm")),
        Corner("corner 1", "K", "L"),
    )
    folder = tmp_path_factory.mktemp("in a corner")
    session = Session.create(folder / "job.frontwright", job, folder / "shop.frontwright-shop")
    yield session
    session.close()


@pytest.fixture(scope="module")
def badly_laid(kept: Session, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Session]:
    """The kitchen with panels of two lots, two of them laid over each other."""
    zero = typed("0", "mm")
    job = kept.job.put(
        Laid("1", piece="K-03"),
        Laid("2", size="6.2 x 1220 x 2440", place=1),
        LaidPart("1", "1", "F5-P", along=zero, across=zero),
        LaidPart("2", "2", "F11-P", along=typed("20", "mm"), across=typed("20", "mm")),
        LaidPart("3", "2", "F12-P", along=typed("20", "mm"), across=typed("20", "mm")),
    )
    folder = tmp_path_factory.mktemp("badly laid")
    session = Session.create(folder / "job.frontwright", job, folder / "shop.frontwright-shop")
    yield session
    session.close()
