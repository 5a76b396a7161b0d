"""Lists for a spreadsheet, out of a job and into it, on the command line."""

from __future__ import annotations

from pathlib import Path

import pytest
from frontwright.cli import main
from frontwright.core.lengths import typed
from frontwright.resources import resource
from frontwright.store import open_job
from openpyxl import load_workbook

LAUNDRY = resource("samples", "laundry-pair.json")
LISTS = ["parts", "stock", "pull", "purchases", "costs", "hours", "quote", "rack", "defects", "hardware"]


def run(*words: object) -> int:
    return main([str(word) for word in words])


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.frontwright"
    assert run("import", LAUNDRY, path) == 0
    return path


def test_a_workbook_has_every_list_of_the_job(job: Path, tmp_path: Path) -> None:
    assert run("export", job, tmp_path / "lists.xlsx") == 0
    assert load_workbook(tmp_path / "lists.xlsx").sheetnames == LISTS


@pytest.mark.parametrize("which", LISTS)
def test_each_list_goes_out_alone(job: Path, tmp_path: Path, which: str) -> None:
    for name in ("one.xlsx", "one.csv"):
        assert run("export", job, tmp_path / name, "--list", which) == 0
    assert load_workbook(tmp_path / "one.xlsx").sheetnames == [which]
    assert (tmp_path / "one.csv").read_bytes().startswith(b"\xef\xbb\xbf")


def test_lists_are_made_of_a_job_in_its_json_form_too(tmp_path: Path) -> None:
    assert run("export", LAUNDRY, tmp_path / "parts.csv") == 0
    assert "DA-S" in (tmp_path / "parts.csv").read_text("utf-8-sig")


def test_a_list_that_is_there_is_only_replaced_when_asked(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    there = tmp_path / "parts.csv"
    there.write_text("mine")
    assert run("export", job, there) == 2
    assert "is there already" in capsys.readouterr().err
    assert there.read_text() == "mine"
    assert run("export", job, there, "--replace") == 0


def test_a_list_is_not_named_for_the_json_form(job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("export", job, tmp_path / "job.json", "--list", "parts") == 2
    assert "--list is for a file ending in .xlsx or .csv" in capsys.readouterr().err
    assert not (tmp_path / "job.json").exists()


def test_a_parts_list_brings_sizes_as_built_into_the_job(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "is.csv").write_text("part,is length\nDA-S,22 15/16\n")
    assert run("--shop", tmp_path / "shop.frontwright-shop", "import", tmp_path / "is.csv", job) == 0
    assert capsys.readouterr().out.startswith("1 size as built taken in")
    with open_job(job) as file:
        (built,) = [row for row in file.job.as_built.values() if row.of == "DA-S"]
        assert (built.what, built.value) == ("length", typed("22 15/16", "in"))


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("part,is length\nDA-S,22 15/\n", "Row 2, column is length: “22 15/” is no length"),
        ("part,length\nDA-S,1\n", "Row 2, column length: the job has "),
        ("piece,length\nL-90,=1+1\n", "Row 2, column length: “=1+1” is no length"),
        ("shelf\nA1\n", "A list is of parts or of pieces"),
        ("", "The list is empty"),
    ],
)
def test_a_list_with_a_bad_cell_is_one_sentence_and_changes_nothing(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, sentence: str
) -> None:
    (tmp_path / "bad.csv").write_text(text)
    before = job.read_bytes()
    assert run("--shop", tmp_path / "shop.frontwright-shop", "import", tmp_path / "bad.csv", job) == 2
    said = capsys.readouterr().err
    assert sentence in said
    assert said.count("\n") == 1
    assert job.read_bytes() == before


def test_a_list_goes_into_a_job_file_and_not_into_a_text(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "is.csv").write_text("part,is length\nDA-S,22 15/16\n")
    copy = tmp_path / "job.json"
    copy.write_bytes(LAUNDRY.read_bytes())
    assert run("import", tmp_path / "is.csv", copy) == 2
    assert "is a job's JSON form" in capsys.readouterr().err
    assert copy.read_bytes() == LAUNDRY.read_bytes()
