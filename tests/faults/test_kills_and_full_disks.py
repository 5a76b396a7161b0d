"""Killed at any moment, out of room or unable to copy: the file holds the last whole step, and is free."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import frontwright
import pytest
from frontwright.core.job import Job
from frontwright.core.lengths import typed
from frontwright.store import StoreError, open_job
from frontwright.store.files import JobFile

APP = Path(frontwright.__file__).parents[1]

# One step is kept; the next is begun and the process dies at the named call, before it or right after it.
KILLED_IN_AN_EDIT = """
import os, signal, sys
from dataclasses import replace
from pathlib import Path
import sqlalchemy
from frontwright.core.job import Reading
from frontwright.core.lengths import typed
from frontwright.store import open_job, opening, rows

path, moment, when = Path(sys.argv[1]), sys.argv[2], sys.argv[3]
file = open_job(path)
file.apply("kept", lambda job: job.put(replace(job.readings["O1 width"], value=typed("24", "in"))))
if when == "spilled":  # changed pages are written to the file before the commit, as in a step too large for memory
    with file._transaction():
        file._connection.exec_driver_sql("PRAGMA cache_size=1")
        file._connection.exec_driver_sql("PRAGMA cache_spill=1")

def die(*_, **__):
    os.kill(os.getpid(), signal.SIGKILL)

home, name = {
    "step": (rows, "write_step"),
    "changes": (rows, "write_changes"),
    "rows": (rows, "write"),
    "state": (rows, "write_state"),
    "commit": (sqlalchemy.RootTransaction, "commit"),
}[moment]
real = getattr(home, name)

def then_die(*given, **named):
    real(*given, **named)
    die()


setattr(home, name, die if when == "before" else then_die)
rows_more = [Reading(f"more {n}", of="O1", what="width", note="x" * 200) for n in range(400)]
file.apply("lost", lambda job: job.put(*rows_more))
"""


def child(program: str, *words: str) -> int:
    return subprocess.run([sys.executable, "-c", program, *words], env={"PYTHONPATH": str(APP)}, check=False).returncode


def width(text: str) -> Callable[[Job], Job]:
    return lambda job: job.put(replace(job.readings["O1 width"], value=typed(text, "in")))


@pytest.mark.parametrize("when", ["before", "after", "spilled"])
@pytest.mark.parametrize("moment", ["step", "changes", "rows", "state"])
def test_a_kill_within_a_step_leaves_the_step_before(path: Path, job: Job, moment: str, when: str) -> None:
    assert child(KILLED_IN_AN_EDIT, str(path), moment, when) == -9
    with open_job(path) as file:
        assert file.job == width("24")(job)
        assert file.steps == ("kept",)
        assert file.undo() == job
    assert sorted(one.name for one in path.parent.iterdir()) == [path.name, path.name + ".bak"]


def test_a_kill_while_pages_were_being_written_leaves_a_journal_that_mends_the_file(path: Path, job: Job) -> None:
    child(KILLED_IN_AN_EDIT, str(path), "state", "spilled")
    journal = path.with_name(path.name + "-journal")
    assert journal.stat().st_size > 0
    assert path.stat().st_size > 300_000
    with open_job(path) as file:
        assert file.job == width("24")(job)


def test_a_kill_right_before_the_commit_leaves_the_step_before(path: Path, job: Job) -> None:
    assert child(KILLED_IN_AN_EDIT, str(path), "commit", "before") == -9
    with open_job(path) as file:
        assert file.job == width("24")(job)


def test_a_kill_right_after_the_commit_leaves_the_step_done(path: Path, job: Job) -> None:
    assert child(KILLED_IN_AN_EDIT, str(path), "commit", "after") == -9
    with open_job(path) as file:
        assert len(file.job.readings) == 401
        assert file.steps == ("kept", "lost")
        file.undo()
        assert file.undo() == job


# Every step that is told of on standard output was kept before it was told.
KILLED_AT_ANY_TIME = """
import sys
from dataclasses import replace
from pathlib import Path
from frontwright.core.lengths import typed
from frontwright.store import open_job

file = open_job(Path(sys.argv[1]))
for number in range(1, 100_000):
    file.keep_draft("O1 width", f"{number}")
    file.apply(f"step {number}", lambda job: job.put(replace(job.readings["O1 width"], value=typed(f"{number}", "in"))))
    print(number, flush=True)
"""


@pytest.mark.parametrize("steps", [1, 2, 7, 40])
def test_a_kill_at_any_time_loses_no_step_that_was_done(path: Path, job: Job, steps: int) -> None:
    with subprocess.Popen(
        [sys.executable, "-c", KILLED_AT_ANY_TIME, str(path)], env={"PYTHONPATH": str(APP)}, stdout=subprocess.PIPE
    ) as user:
        assert user.stdout is not None
        for _ in range(steps):
            told = int(user.stdout.readline())
        user.kill()
        told = max(
            [told, *(int(line) for line in user.stdout.read().splitlines(keepends=True) if line.endswith(b"\n"))]
        )
    with open_job(path) as file:
        done = len(file.steps)
        assert done in (told, told + 1)
        assert file.job == width(f"{done}")(job)
        assert file.drafts()["O1 width"] in (f"{done}", f"{done + 1}")
        while file.can_undo:
            file.undo()
        assert file.job == job


def limited(file: JobFile) -> None:
    with file._transaction():
        pages = file._connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        file._connection.exec_driver_sql(f"PRAGMA max_page_count={pages}")


def test_on_a_full_disk_the_change_is_refused_and_the_job_is_as_it_was(path: Path, job: Job) -> None:
    with open_job(path) as file:
        limited(file)
        with pytest.raises(StoreError, match=r"The disk of .* is full; the last change was not kept"):
            file.apply("long", lambda job: job.put(type(job.heading)(note="x" * 100_000)))
        assert (file.job, file.can_undo) == (job, None)
        file.apply("short", width("24"))
    with open_job(path) as file:
        assert file.job == width("24")(job)


def test_without_a_backup_nothing_is_changed(path: Path, job: Job) -> None:
    backup = path.with_name(path.name + ".bak")
    (backup / "something").mkdir(parents=True)
    before = path.read_bytes()
    with open_job(path) as file:
        with pytest.raises(
            StoreError, match=r"No copy could be written to .*kitchen.frontwright.bak .*nothing was changed"
        ):
            file.apply("width", width("24"))
        assert (file.job, file.can_undo) == (job, None)
    assert path.read_bytes() == before
    assert sorted(one.name for one in path.parent.iterdir()) == [path.name, backup.name]


def test_text_with_half_a_character_is_refused_and_the_job_is_as_it_was(path: Path, job: Job) -> None:
    with open_job(path) as file:
        with pytest.raises(StoreError, match="cannot be kept in a file"):
            file.apply("half", lambda job: job.put(type(job.heading)(note="\ud83d")))
        assert file.job == job
        with pytest.raises(StoreError, match="cannot be kept in a file"):
            file.keep_draft("note", "\ud83d")
        assert file.drafts() == {}
