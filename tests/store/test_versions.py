"""Files of each version open; a step from one version to the next runs on a copy, and the former file is kept."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from frontwright.exchange.json_form import job_from_json, shop_from_json
from frontwright.store import StoreError, open_job, open_shop
from frontwright.store.schema import VERSION, Noun, schema
from frontwright.store.upgrade import STEPS, seal_all, upgrade

FILES = Path(__file__).parent / "files"
VERSIONS = range(1, VERSION["job"] + 1)
Place = Callable[[str], Path]


@pytest.fixture
def copied(tmp_path: Path) -> Place:
    return lambda name: Path(shutil.copy(FILES / name, tmp_path / name))


@pytest.mark.parametrize("version", VERSIONS)
def test_a_job_file_of_this_version_opens_with_all_that_is_in_it(copied: Place, version: int) -> None:
    expected = job_from_json((FILES / f"version-{version}.json").read_text(encoding="utf-8"))
    with open_job(copied(f"version-{version}.frontwright")) as file:
        assert file.job == expected
        assert len(file.job.readings) == 29
        assert file.steps == ("Note of opening OA", "Width of OB")
        assert file.can_redo == "Opening OC"
        assert file.drafts() == {"OC width": "21 1/"}
        assert "OC" in file.redo().openings
        for _ in range(3):
            file.undo()
        assert file.job.openings["OA"].note == ""


@pytest.mark.parametrize("version", VERSIONS)
def test_a_shop_file_of_this_version_opens_with_all_that_is_in_it(copied: Place, version: int) -> None:
    expected = shop_from_json((FILES / f"version-{version}.shop.json").read_text(encoding="utf-8"))
    with open_shop(copied(f"version-{version}.frontwright-shop")) as file:
        assert file.shop == expected
        assert len(file.shop.machines) == 2


@pytest.mark.parametrize(("noun", "name"), [("job", "version-1.frontwright"), ("shop", "version-1.frontwright-shop")])
def test_the_tables_are_those_of_the_version_that_the_files_say(noun: Noun, name: str) -> None:
    """A changed class changes its table: that needs a new version and a step (before the first release, a new file)."""
    with closing(sqlite3.connect(FILES / name)) as connection:
        for table in schema(noun).metadata.tables.values():
            found = connection.execute(f"PRAGMA table_info({table.name})").fetchall()
            assert [(name, kind, bool(must)) for _, name, kind, must, *_ in found] == [
                (column.name, str(column.type), not column.nullable) for column in table.columns
            ], f"{table.name} has changed"


def test_there_is_a_step_from_each_version_to_the_next() -> None:
    for noun, last in VERSION.items():
        assert set(STEPS[noun]) == set(range(1, last))  # type: ignore[index]  # the names are those of STEPS


@pytest.fixture
def old(copied: Place) -> Path:
    """A job file as an imagined version 0 had it: who took a reading stood in another column."""
    path = copied("version-1.frontwright")
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("ALTER TABLE readings RENAME COLUMN by TO taker")
        seal_all(connection)
        connection.execute("PRAGMA user_version=0")
        connection.commit()
    return path


def opens(path: Path) -> None:
    with open_job(path) as file:
        assert len(file.job.readings) == 29


def renames(connection: sqlite3.Connection) -> None:
    connection.execute("ALTER TABLE readings RENAME COLUMN taker TO by")


def test_a_step_brings_the_file_to_the_next_version_and_the_former_is_kept(old: Path) -> None:
    before = old.read_bytes()
    upgrade(old, "job", 0, opens, {0: renames}, to=1)
    kept = old.with_name("version-1.version-0.frontwright")
    assert kept.read_bytes() == before
    assert sorted(old.parent.iterdir()) == [old, kept]
    with open_job(old) as file:
        assert file.job == job_from_json((FILES / "version-1.json").read_text(encoding="utf-8"))
        assert file.can_undo == "Width of OB"


def fails(connection: sqlite3.Connection) -> None:
    renames(connection)
    raise sqlite3.OperationalError("no such thing")


def forgets(_: sqlite3.Connection) -> None:
    """A step that leaves the file as it was."""


@pytest.mark.parametrize(
    ("steps", "sentence"),
    [
        ({0: fails}, "could not be brought to the new version (no such thing); it was left as it is."),
        ({0: forgets}, "is damaged (no such column: readings.by)"),
        ({}, "is of version 0, which this Frontwright cannot read; it was left as it is."),
    ],
)
def test_a_step_that_fails_leaves_the_file_as_it_was(
    old: Path, steps: dict[int, Callable[[sqlite3.Connection], None]], sentence: str
) -> None:
    before = old.read_bytes()
    with pytest.raises(StoreError) as raised:
        upgrade(old, "job", 0, opens, steps, to=1)
    assert sentence in str(raised.value)
    assert old.read_bytes() == before
    assert list(old.parent.iterdir()) == [old]


def test_a_file_that_is_in_use_is_not_brought_to_the_next_version(copied: Place) -> None:
    path = copied("version-1.frontwright")
    with open_job(path), pytest.raises(StoreError, match="is in use by another window or program"):
        upgrade(path, "job", 0, opens, {0: forgets}, to=1)
