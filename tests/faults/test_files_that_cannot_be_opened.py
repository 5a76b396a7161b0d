"""A file that is foreign, damaged, newer, read-only or in use gets one sentence and stays as it is."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import frontwright
import pytest
from frontwright.core.job import Job
from frontwright.store import StoreError, create, open_job, open_shop, shop_path

Folder = Callable[[], dict[str, bytes]]
APP = Path(frontwright.__file__).parents[1]


def refused(path: Path, folder: Folder) -> str:
    """The sentence on a file that must not open, and must stay as it is."""
    before = folder()
    with pytest.raises(StoreError) as raised:
        open_job(path)
    assert folder() == before
    said = str(raised.value)
    assert said.endswith(".")
    assert "\n" not in said
    assert str(path) in said
    return said


def with_sql(path: Path, *statements: str) -> None:
    with closing(sqlite3.connect(path)) as connection:
        for statement in statements:
            connection.execute(statement)
        connection.commit()


def test_a_file_that_is_not_there_is_said_to_be_missing(tmp_path: Path, folder_as_it_is: Folder) -> None:
    assert "There is no job file" in refused(tmp_path / "none.frontwright", folder_as_it_is)


def test_a_folder_is_not_opened(tmp_path: Path, folder_as_it_is: Folder) -> None:
    assert "is a folder, not a job file" in refused(tmp_path, folder_as_it_is)


@pytest.mark.parametrize("content", [b"", b"a letter to the client", b"SQLite format 3\0", b"\0" * 5000])
def test_a_foreign_file_is_not_opened(tmp_path: Path, folder_as_it_is: Folder, content: bytes) -> None:
    path = tmp_path / "foreign.frontwright"
    path.write_bytes(content)
    assert "is not a job file of Frontwright" in refused(path, folder_as_it_is)


def test_the_database_of_another_program_is_not_opened(tmp_path: Path, folder_as_it_is: Folder) -> None:
    path = tmp_path / "other.db"
    with_sql(path, "PRAGMA journal_mode=WAL", "CREATE TABLE openings (id TEXT)")
    assert "is not a job file of Frontwright" in refused(path, folder_as_it_is)


def test_a_file_of_a_newer_version_is_not_opened(path: Path, folder_as_it_is: Folder) -> None:
    with_sql(path, "PRAGMA user_version=2")
    assert "was written by a newer Frontwright" in refused(path, folder_as_it_is)


def test_a_version_that_never_was_is_not_opened(path: Path, folder_as_it_is: Folder) -> None:
    with_sql(path, "PRAGMA user_version=0")
    assert "is of version 0, which this Frontwright cannot read" in refused(path, folder_as_it_is)


def test_a_read_only_file_is_not_opened(path: Path, folder_as_it_is: Folder) -> None:
    path.chmod(0o444)
    assert "is read-only; copy the job file" in refused(path, folder_as_it_is)


def test_a_file_in_a_folder_that_may_not_be_written_to_is_not_opened(
    path: Path, folder_as_it_is: Folder, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("os.access", lambda place, _mode: Path(place) != path.parent)
    before = folder_as_it_is()
    with pytest.raises(StoreError, match=r"The folder .* may not be written to"):
        open_job(path)
    assert folder_as_it_is() == before


DAMAGE = {
    "UPDATE readings SET value = value + 1": "readings “O1 width” is not as it was written",
    "UPDATE readings SET value_text = '24'": "readings “O1 width” is not as it was written",
    "UPDATE readings SET seal = ''": "readings “O1 width” is not as it was written",
    "DELETE FROM readings": "rows are missing",
    "DELETE FROM state": "its state is missing",
    "UPDATE state SET position = 4": "state “” is not as it was written",
    "DROP TABLE answers": "no such table: answers",
    "ALTER TABLE answers DROP COLUMN answer": "no such column: answers.answer",
    "CREATE TRIGGER t AFTER UPDATE ON readings BEGIN DELETE FROM openings; END": "it holds “t”",
}


@pytest.mark.parametrize("statement", DAMAGE)
def test_damage_is_found_at_opening(path: Path, folder_as_it_is: Folder, statement: str) -> None:
    with_sql(path, statement)
    said = refused(path, folder_as_it_is)
    assert DAMAGE[statement] in said
    assert said.endswith("bring back a copy of it.")


def test_damage_names_the_backup_that_is_there(path: Path, folder_as_it_is: Folder) -> None:
    with open_job(path) as file:
        file.apply("note", lambda job: job.put(type(job.heading)(note="x")))
    with_sql(path, "UPDATE headings SET note = 'y'")
    assert "kitchen.frontwright.bak beside it is how it was before" in refused(path, folder_as_it_is)


def test_a_file_that_was_cut_off_is_damaged(path: Path, folder_as_it_is: Folder) -> None:
    path.write_bytes(path.read_bytes()[:-9000])
    assert "is damaged" in refused(path, folder_as_it_is)


@pytest.mark.parametrize("page", range(1, 12))
def test_a_page_of_noise_is_found(path: Path, folder_as_it_is: Folder, page: int) -> None:
    content = bytearray(path.read_bytes())
    content[page * 4096 : page * 4096 + 300] = b"\xa5" * 300
    path.write_bytes(content)
    assert "is damaged" in refused(path, folder_as_it_is)


def test_a_damaged_step_is_not_undone_and_the_job_stays(path: Path, job: Job) -> None:
    with open_job(path) as file:
        after = file.apply("note", lambda job: job.put(type(job.heading)(note="x")))
    with_sql(path, "UPDATE changes SET content = replace(content, 'job', 'jib')")
    with open_job(path) as file:
        with pytest.raises(StoreError, match="changes “job” is not as it was written"):
            file.undo()
        assert file.job == after
        assert file.can_undo == "note"


def test_a_file_that_this_window_has_open_is_not_opened_again(path: Path, folder_as_it_is: Folder) -> None:
    with open_job(path) as file:
        assert "is open already in this window" in refused(path, folder_as_it_is)
        file.apply("goes on", lambda job: job.put(type(job.heading)(note="x")))


HOLD = """
import sys
from pathlib import Path
from frontwright.store import open_job
file = open_job(Path(sys.argv[1]))
print("open", flush=True)
sys.stdin.read()
file.close()
"""


def test_a_file_that_another_program_has_open_is_in_use_until_it_ends(path: Path, folder_as_it_is: Folder) -> None:
    other = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(path)],
        env={"PYTHONPATH": str(APP)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    with other:
        assert other.stdout is not None
        assert other.stdout.readline() == b"open\n"
        assert "is in use by another window or program" in refused(path, folder_as_it_is)
        other.kill()
    with open_job(path) as file:
        assert file.can_undo is None


@pytest.mark.parametrize("place", ["", "no folder/kitchen.frontwright", "kitchen.frontwright"])
def test_a_job_is_not_made_where_something_is_or_no_folder_is(
    path: Path, job: Job, folder_as_it_is: Folder, place: str
) -> None:
    before = folder_as_it_is()
    with pytest.raises(StoreError, match=r"is a folder|There is no folder|is there already"):
        create(path.parent / place, job)
    assert folder_as_it_is() == before


def test_the_shop_file_names_the_folder_that_cannot_be_made(own_home: Path) -> None:
    shop_path().parent.parent.mkdir(parents=True, exist_ok=True)
    shop_path().parent.write_text("a file where the folder should be")
    with pytest.raises(StoreError, match=r"The folder .*frontwright for the shop file cannot be made"):
        open_shop()
