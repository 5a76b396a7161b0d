"""What cannot be done: one sentence on standard error, exit code 2, nothing written, nothing changed."""

from __future__ import annotations

import json
import os
import sqlite3
import sys
from collections.abc import Callable
from pathlib import Path
from typing import cast

import pytest
from frontwright.cli import main
from frontwright.resources import resource

type Row = dict[str, object]
type Doc = dict[str, object]

LAUNDRY = resource("samples", "laundry-pair.json")
KITCHEN = resource("samples", "kitchen-run.json")


def refusal(capsys: pytest.CaptureFixture[str], *words: object) -> str:
    """The one sentence with which a command is refused."""
    assert main([str(word) for word in words]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("frontwright: ")
    assert said.err.count("\n") == 1
    assert said.err.endswith(".\n")
    return said.err


def changed(folder: Path, change: Callable[[Doc], object], of: Path = LAUNDRY) -> Path:
    """A sample's JSON form with something done to it."""
    job = json.loads(of.read_text(encoding="utf-8"))
    change(job)
    path = folder / "changed.json"
    path.write_text(json.dumps(job), encoding="utf-8")
    return path


def test_a_job_that_is_not_there_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "nowhere.frontwright" in refusal(capsys, "figures", tmp_path / "nowhere.frontwright")


@pytest.mark.parametrize("command", ["figures", "check"])
def test_a_folder_is_no_job(command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "folder" in refusal(capsys, command, tmp_path)


def test_a_window_is_not_opened_on_what_is_no_job_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "folder" in refusal(capsys, tmp_path)
    assert "no file" in refusal(capsys, tmp_path / "nowhere")
    assert "frontwright import" in refusal(capsys, LAUNDRY)


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere there is always a screen")
def test_without_a_screen_the_window_is_refused_and_not_the_program_ended(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    assert "no screen" in refusal(capsys)


@pytest.mark.parametrize("content", [b"", b"words", b"\x00\x01\xff" * 99, b"SQLite format 3\x00" + b"\x00" * 900])
def test_a_file_that_is_no_job_is_refused_and_left_alone(
    content: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "thing.frontwright"
    path.write_bytes(content)
    refusal(capsys, "figures", path)
    assert path.read_bytes() == content
    assert list(tmp_path.iterdir()) == [path]


def test_another_programs_database_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "other.frontwright"
    with sqlite3.connect(path) as other:
        other.execute("CREATE TABLE thing (id)")
    other.close()
    assert "not a job file" in refusal(capsys, "figures", path)


def rows(job: Doc, table: str) -> list[Row]:
    return cast(list[Row], job[table])


BROKEN: dict[str, Callable[[Doc], object]] = {
    "an unknown table": lambda job: job.update(wishes=[]),
    "an unknown field": lambda job: rows(job, "runs")[0].update(colour="red"),
    "a number for a length": lambda job: rows(job, "readings")[0].update(value=1.5),
    "a list for a text": lambda job: rows(job, "runs")[0].update(name=["R"]),
    "a word for a table": lambda job: job.update(runs="R1"),
    "a row without an id": lambda job: rows(job, "runs")[0].pop("id"),
    "an id twice": lambda job: rows(job, "runs").append(rows(job, "runs")[0]),
    "a kind that there is not": lambda job: rows(job, "members")[0].update(kind="beam"),
    "an opening of a column that is not there": lambda job: rows(job, "openings")[0].update(column="OZ"),
    "a later version": lambda job: job.update(version=99),
    "another format": lambda job: job.update(format="frontwright-figures"),
    "a unit that there is not": lambda job: job.update(unit="cubits"),
    "too many openings": lambda job: rows(job, "openings").extend({"id": f"X{n}", "column": "OA"} for n in range(2000)),
}


@pytest.mark.parametrize("what", BROKEN)
def test_a_json_form_that_is_wrong_makes_no_job(what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    broken = changed(tmp_path, BROKEN[what])
    refusal(capsys, "import", broken, tmp_path / "job.frontwright")
    assert list(tmp_path.iterdir()) == [broken]


@pytest.mark.parametrize("text", ["{", "[]", "[" * 100_000, '{"format": 1e400}', "null", '{"a": 1, "a": 2}'])
def test_text_that_is_no_json_form_is_refused(text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.json"
    path.write_text(text, encoding="utf-8")
    refusal(capsys, "figures", path)


def test_a_json_form_that_is_no_utf_8_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.json"
    path.write_bytes(LAUNDRY.read_text(encoding="utf-8").encode("utf-16"))
    assert "UTF-8" in refusal(capsys, "figures", path)


def test_a_json_form_of_more_than_20_mb_is_not_even_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.json"
    with path.open("wb") as file:
        file.truncate(20 * 1024 * 1024 + 1)
    assert "20 MB" in refusal(capsys, "figures", path)


def test_a_job_is_never_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "job.frontwright"
    assert main(["new", str(job), "--sample", "laundry-pair"]) == 0
    before = job.read_bytes()
    refusal(capsys, "new", job, "--unit", "in")
    refusal(capsys, "import", KITCHEN, job)
    assert job.read_bytes() == before


def test_a_new_job_needs_a_unit_or_a_sample(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "--unit" in refusal(capsys, "new", tmp_path / "job.frontwright")
    assert "in in" in refusal(capsys, "new", tmp_path / "job.frontwright", "--unit", "mm", "--sample", "laundry-pair")
    assert list(tmp_path.iterdir()) == []


def test_an_export_goes_over_another_file_only_when_told_to(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "there.json"
    path.write_text("mine", encoding="utf-8")
    assert "--replace" in refusal(capsys, "export", LAUNDRY, path)
    assert path.read_text(encoding="utf-8") == "mine"
    assert main(["export", str(LAUNDRY), str(path), "--replace"]) == 0
    assert path.read_bytes() == LAUNDRY.read_bytes()
    assert list(tmp_path.iterdir()) == [path]


def test_an_export_into_a_folder_that_is_not_there_leaves_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    refusal(capsys, "export", LAUNDRY, tmp_path / "gone" / "job.json")
    assert list(tmp_path.iterdir()) == []


def test_a_kind_of_sheet_that_there_is_not_is_refused_with_the_kinds(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    said = refusal(capsys, "sheets", LAUNDRY, "--out", tmp_path / "out", "--only", "door,poster")
    assert "poster" in said
    assert "set-up" in said
    assert list(tmp_path.iterdir()) == []


def test_sheets_do_not_go_where_a_file_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "out").write_text("mine", encoding="utf-8")
    refusal(capsys, "sheets", LAUNDRY, "--out", tmp_path / "out", "--only", "door")
    assert (tmp_path / "out").read_text(encoding="utf-8") == "mine"


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="whoever may write everywhere is never refused")
def test_a_place_that_may_not_be_written_to_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    tmp_path.chmod(0o500)
    try:
        refusal(capsys, "new", tmp_path / "job.frontwright", "--unit", "in")
        refusal(capsys, "sheets", LAUNDRY, "--out", tmp_path)
        refusal(capsys, "export", LAUNDRY, tmp_path / "job.json")
    finally:
        tmp_path.chmod(0o700)


@pytest.mark.parametrize(
    "words",
    [
        ["figures"],
        ["figures", "a", "b"],
        ["no-command", "a"],
        ["--no-such"],
        ["read", "1", "--unit", "ell"],
        ["new", "--sho"],
    ],
)
def test_words_that_make_no_command_are_refused_with_the_way_to_help(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert "--help" in refusal(capsys, *words)


def test_a_shop_file_that_is_not_there_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "my.shop" in refusal(capsys, "figures", LAUNDRY, "--shop", tmp_path / "my.shop")
