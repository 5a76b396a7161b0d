"""What happens to the files: one a job, no byte changed by looking, a backup before the first edit."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from frontwright.core.job import DoorBuild, Job, Shop, Species
from frontwright.core.lengths import typed
from frontwright.store import StoreError, create, open_job, open_shop, shop_path
from frontwright.store.files import JobFile


def width(text: str) -> Callable[[Job], Job]:
    return lambda job: job.put(replace(job.readings["O1 width"], value=typed(text, "in")))


def names(folder: Path) -> list[str]:
    return sorted(one.name for one in folder.iterdir())


def test_a_job_comes_back_as_it_was_made(path: Path, job: Job) -> None:
    create(path, job).close()
    with open_job(path) as file:
        assert file.job == job
        assert file.path == path.resolve()


def test_opening_and_closing_changes_no_byte_and_leaves_one_file(path: Path, job: Job) -> None:
    create(path, job).close()
    before, when = path.read_bytes(), path.stat().st_mtime_ns
    with open_job(path) as file:
        assert file.drafts() == {}
        assert file.undo() == job
    assert (path.read_bytes(), path.stat().st_mtime_ns) == (before, when)
    assert names(path.parent) == [path.name]


def test_the_file_says_whose_it_is_and_of_which_version(path: Path, job: Job) -> None:
    create(path, job).close()
    head = path.read_bytes()[:100]
    assert (head[68:72], int.from_bytes(head[60:64])) == (b"FWJB", 1)


def test_the_connection_is_set_as_promised(file: JobFile) -> None:
    wanted = {"journal_mode": "delete", "synchronous": 2, "foreign_keys": 1, "trusted_schema": 0}
    with file._transaction():
        for name, value in wanted.items():
            assert file._connection.exec_driver_sql(f"PRAGMA {name}").scalar_one() == value


def test_a_backup_is_made_before_the_first_edit_of_a_sitting_and_only_then(path: Path, job: Job) -> None:
    create(path, job).close()
    backup = path.with_name(path.name + ".bak")
    with open_job(path) as file:
        assert not backup.exists()
        file.apply("first", width("24"))
        file.apply("second", width("25"))
    assert names(path.parent) == [path.name, backup.name]
    assert job_in(backup, path.parent) == job
    with open_job(path) as file:
        file.apply("third", width("26"))
    assert job_in(backup, path.parent) == width("25")(job)


def job_in(backup: Path, folder: Path) -> Job:
    copy = folder / "looked at.frontwright"
    copy.write_bytes(backup.read_bytes())
    try:
        with open_job(copy) as file:
            return file.job
    finally:
        copy.unlink()


def test_undo_as_the_first_edit_of_a_sitting_makes_a_backup_too(path: Path, job: Job) -> None:
    with create(path, job) as file:
        file.apply("first", width("24"))
    with open_job(path) as file:
        file.undo()
    assert job_in(path.with_name(path.name + ".bak"), path.parent) == width("24")(job)


def test_an_edit_that_changes_nothing_does_not_cost_the_backup_of_the_sitting_before(path: Path, job: Job) -> None:
    create(path, job).close()
    with open_job(path) as file:
        file.apply("first", width("24"))
    with open_job(path) as file:
        file.apply("nothing", width("24"))
    assert job_in(path.with_name(path.name + ".bak"), path.parent) == job


def test_a_copy_holds_the_steps_too(file: JobFile, job: Job, tmp_path: Path) -> None:
    file.apply("first", width("24"))
    file.copy_to(tmp_path / "copy.frontwright")
    with open_job(tmp_path / "copy.frontwright") as copy:
        assert copy.steps == ("first",)
        assert copy.undo() == job
    assert file.can_undo == "first"


def test_a_copy_does_not_replace_what_is_there(file: JobFile, tmp_path: Path) -> None:
    (tmp_path / "there").write_text("mine")
    with pytest.raises(StoreError, match="is there already"):
        file.copy_to(tmp_path / "there")
    assert (tmp_path / "there").read_text() == "mine"


def test_closing_twice_is_closing(file: JobFile, path: Path) -> None:
    file.close()
    file.close()
    with open_job(path) as again:
        assert again.step > 0


def test_a_name_with_marks_and_spaces_is_a_name(tmp_path: Path, job: Job) -> None:
    path = tmp_path / "Küche? #2 100% & più.frontwright"
    create(path, job).close()
    with open_job(path) as file:
        file.apply("first", width("24"))
    assert names(tmp_path) == [path.name, path.name + ".bak"]


def test_a_link_leads_to_the_file_itself(path: Path, tmp_path: Path, job: Job) -> None:
    create(path, job).close()
    link = tmp_path / "link.frontwright"
    link.symlink_to(path)
    with open_job(link) as file:
        assert file.path == path.resolve()
        with pytest.raises(StoreError, match="open already"):
            open_job(path)


def test_the_shop_file_stands_in_the_folder_for_user_data(own_home: Path) -> None:
    assert shop_path().is_relative_to(own_home)
    with open_shop() as file:
        assert (file.path, file.shop) == (shop_path().resolve(), Shop())
    assert names(shop_path().parent) == ["shop.frontwright-shop"]


def test_a_new_shop_file_begins_with_what_it_is_given(tmp_path: Path) -> None:
    first = Shop().put(Species("white ash"))
    with open_shop(tmp_path / "mine.shop", first) as file:
        assert file.shop == first
    with open_shop(tmp_path / "mine.shop", Shop()) as file:
        assert file.shop == first


def test_two_windows_edit_one_shop_and_neither_loses_what_the_other_entered(tmp_path: Path) -> None:
    path = tmp_path / "shop"
    with open_shop(path) as one, open_shop(path) as other:
        one.apply("ash", lambda shop: shop.put(Species("white ash")))
        assert set(other.shop.species) == {"white ash"}
        other.apply("oak", lambda shop: shop.put(Species("red oak")))
        one.apply("framed", lambda shop: shop.put(DoorBuild("framed", species="red oak")))
        assert one.steps == ("ash", "oak", "framed")
        assert not other.undo().door_builds
        assert set(one.shop.species) == {"white ash", "red oak"}
        assert (one.can_undo, one.can_redo) == ("oak", "framed")


def test_a_job_file_is_no_shop_file(path: Path, job: Job) -> None:
    create(path, job).close()
    with pytest.raises(StoreError, match="is not a shop file of Frontwright"):
        open_shop(path)


def test_sqlite_finds_nothing_wrong_with_a_worked_file(file: JobFile, path: Path) -> None:
    for number in range(20):
        file.apply("width", width(str(number + 1)))
    for _ in range(7):
        file.undo()
    file.close()
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
