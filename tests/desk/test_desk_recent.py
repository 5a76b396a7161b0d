"""Jobs opened before, where jobs are kept, and the sample that is laid down."""

from __future__ import annotations

from pathlib import Path

import pytest
from frontwright.desk import recent
from frontwright.desk.session import Session


@pytest.fixture(autouse=True)
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.delenv("XDG_DOCUMENTS_DIR", raising=False)


def _files(folder: Path, count: int) -> list[Path]:
    paths = [folder / f"job {number}.frontwright" for number in range(count)]
    for path in paths:
        path.touch()
    return paths


def test_the_job_opened_last_stands_first_and_none_stands_twice(tmp_path: Path) -> None:
    first, second = _files(tmp_path, 2)
    for path in (first, second, first):
        recent.remember(path)
    assert recent.recent() == (first, second)


def test_no_more_than_twelve_are_remembered_and_lost_ones_are_left_out(tmp_path: Path) -> None:
    paths = _files(tmp_path, 14)
    for path in paths:
        recent.remember(path)
    paths[13].unlink()
    assert recent.recent() == tuple(reversed(paths[2:13]))
    recent.forget(paths[12])
    assert recent.recent() == tuple(reversed(paths[2:12]))


@pytest.mark.parametrize("text", ["", "{", "7", '{"a": 1}', '[1, null, "nowhere"]', "\udcff"])
def test_a_list_that_cannot_be_read_is_an_empty_one(tmp_path: Path, text: str) -> None:
    place = tmp_path / "data" / "frontwright" / "recent.json"
    place.parent.mkdir(parents=True)
    place.write_bytes(text.encode("utf-8", "surrogateescape"))
    assert recent.recent() == ()
    path = _files(tmp_path, 1)[0]
    recent.remember(path)
    assert recent.recent() == (path,)


def test_a_list_that_cannot_be_written_stops_nobody(tmp_path: Path) -> None:
    (tmp_path / "data").touch()  # a file where the folder should be
    recent.remember(_files(tmp_path, 1)[0])
    assert recent.recent() == ()


def test_a_free_path_is_never_that_of_a_job_that_is_there(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    first = recent.free_path(folder, "laundry/pair: now?")
    assert first.parent == folder
    assert first.name == "laundry pair  now.frontwright"
    first.touch()
    assert recent.free_path(folder, "laundry/pair: now?").name == "laundry pair  now 2.frontwright"
    assert recent.free_path(folder, "...").name == "job.frontwright"


def test_the_sample_is_laid_down_once_and_left_as_the_person_made_it(tmp_path: Path) -> None:
    path = recent.sample("laundry-pair", recent.jobs_folder())
    session = Session.open(path, tmp_path / "shop.frontwright-shop")
    session.enter("headings/job/name", "mine")
    session.close()
    assert recent.sample("laundry-pair", recent.jobs_folder()) == path
    again = Session.open(path, tmp_path / "shop.frontwright-shop")
    assert again.name == "mine"
    again.close()
