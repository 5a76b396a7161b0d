"""The commands: what they print, write and answer with."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from frontwright import __version__
from frontwright.cli import main
from frontwright.resources import resource

LAUNDRY = resource("samples", "laundry-pair.json")
KITCHEN = resource("samples", "kitchen-run.json")
COMMANDS = ("new", "figures", "check", "sheets", "import", "export", "read", "selftest", "bench")
ALL_SHEETS = {"03-field-opening", "06-elevation", "09-fronts", "10-door", "12-stock", "14-set-up"}
UNREADABLE = ("abc", "1e400", "nan", "23 5/", "1.234.5", "8" * 70, "a\tpasted page of words", "1/0")


def told(capsys: pytest.CaptureFixture[str], *words: object) -> str:
    """What a command that goes well prints."""
    assert main([str(word) for word in words]) == 0
    return capsys.readouterr().out


def without_seam(folder: Path) -> Path:
    """The laundry pair before anybody looked for the seam: a job with a stop."""
    job = json.loads(LAUNDRY.read_text(encoding="utf-8"))
    job["members"] = [row for row in job["members"] if row["id"] != "seam"]
    job["readings"] = [row for row in job["readings"] if row["of"] != "seam"]
    del job["answers"]
    path = folder / "no-seam.json"
    path.write_text(json.dumps(job), encoding="utf-8")
    return path


def test_the_version_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["--version"])
    assert ended.value.code == 0
    assert capsys.readouterr().out == f"frontwright {__version__}\n"


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["--help"])
    assert ended.value.code == 0
    out = capsys.readouterr().out
    assert all(f"\n    {name} " in out for name in COMMANDS)


def test_an_entry_is_shown_in_both_units(capsys: pytest.CaptureFixture[str]) -> None:
    assert told(capsys, "read", "22 19/32") == "22 19/32 = 22 19/32 in, 573.9 mm\n"


def test_a_bare_number_is_in_the_unit_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    assert json.loads(told(capsys, "read", "600", "--unit", "mm", "--json"))["value"] == "600"
    assert json.loads(told(capsys, "read", "24", "--json"))["value"] == "24"


def test_a_doubtful_entry_is_read_and_its_doubt_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    entry = json.loads(told(capsys, "read", "574", "--json"))
    assert entry["value"] == "574"
    assert "574 mm" in entry["doubt"]
    assert entry["problem"] is None


@pytest.mark.parametrize(
    "text", ["abc", "1e400", "nan", "23 5/", "1.234.5", "8" * 70, "a\tpasted page of words", "1/0"]
)
def test_an_entry_that_cannot_be_read_has_a_problem_and_no_value(text: str, capsys: pytest.CaptureFixture[str]) -> None:
    entry = json.loads(told(capsys, "read", text, "--json"))
    assert entry["text"] == text
    assert entry["value"] is entry["shown"] is None
    assert entry["problem"].endswith(".")


def test_a_dash_reads_an_entry_a_line() -> None:
    entries = "23 5/8\n\n(96-1/2)/3\nx\n"
    command = [sys.executable, "-m", "frontwright", "read", "-", "--json"]
    done = subprocess.run(
        command, input=entries, capture_output=True, text=True, encoding="utf-8", env=here(), check=True
    )
    values = [json.loads(line)["value"] for line in done.stdout.splitlines()]
    assert values == ["23.625", None, "191/6", None]


def test_reading_an_entry_waits_for_no_heavy_library() -> None:
    code = (
        "import sys; from frontwright.cli import main; main(['read', '23 5/8']);"
        "print([name for name in ('PySide6', 'sqlalchemy', 'reportlab', 'pint') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, env=here(), check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def here() -> dict[str, str]:
    """The surroundings of a program started by a test: the same packages, the test's own home."""
    return {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}


def test_whoever_stops_reading_early_gets_no_complaint() -> None:
    command = [sys.executable, "-m", "frontwright", "figures", str(KITCHEN), "--json"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=here()) as started:
        assert started.stdout is not None
        assert started.stderr is not None
        started.stdout.readline()
        started.stdout.close()
        assert started.stderr.read() == b""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no full disk to write to")
def test_output_that_finds_no_room_is_one_sentence() -> None:
    command = [sys.executable, "-m", "frontwright", "figures", str(LAUNDRY)]
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, env=here(), check=False)
    assert done.returncode == 2
    assert done.stderr.startswith("frontwright: ")
    assert done.stderr.count("\n") == 1


def test_a_new_job_is_empty_and_in_its_unit(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "new.frontwright"
    assert told(capsys, "new", job, "--unit", "mm") == ""
    figures = json.loads(told(capsys, "figures", job, "--json"))
    assert (figures["unit"], figures["fronts"]) == ("mm", [])


@pytest.mark.parametrize(("name", "unit", "fronts"), [("laundry-pair", "in", 2), ("kitchen-run", "mm", 17)])
def test_a_new_job_can_begin_as_a_sample(
    name: str, unit: str, fronts: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    told(capsys, "new", tmp_path / "job.frontwright", "--sample", name)
    figures = json.loads(told(capsys, "figures", tmp_path / "job.frontwright", "--json"))
    assert (figures["unit"], len(figures["fronts"])) == (unit, fronts)


def test_a_job_file_and_its_json_form_give_the_same_figures(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told(capsys, "import", KITCHEN, tmp_path / "kitchen.frontwright")
    from_file = told(capsys, "figures", tmp_path / "kitchen.frontwright", "--json")
    assert from_file == told(capsys, "figures", KITCHEN, "--json")


def test_a_job_goes_out_as_it_came_in(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told(capsys, "import", LAUNDRY, tmp_path / "job.frontwright")
    told(capsys, "export", tmp_path / "job.frontwright", tmp_path / "out.json")
    assert (tmp_path / "out.json").read_bytes() == LAUNDRY.read_bytes()


def test_opening_a_job_for_its_figures_changes_no_byte(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "job.frontwright"
    told(capsys, "new", job, "--sample", "laundry-pair")
    before = job.read_bytes()
    told(capsys, "figures", job)
    told(capsys, "check", job)
    assert job.read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == [job.name]


def test_figures_for_reading_are_to_the_step_and_mark_what_is_assumed(capsys: pytest.CaptureFixture[str]) -> None:
    page = told(capsys, "figures", LAUNDRY)
    assert "DA     2      3 1/2, 24 1/2             1/2, 1/2" in page
    assert "  DA-RT  top rail     1    18 3/32   2 1/4     3/4        19 3/32 x 2 1/2\n" in page
    assert "(90), (449)" in told(capsys, "figures", KITCHEN)


def test_a_job_with_no_stop_passes_the_check(capsys: pytest.CaptureFixture[str]) -> None:
    findings = json.loads(told(capsys, "check", LAUNDRY, "--json"))["findings"]
    found = [(each["code"], each["level"], each["state"]) for each in findings]
    assert found == [("dowel-rabbet", "note", "open"), *[("press-load", "warn", "open")] * 2]
    assert "11/16" in findings[0]["text"]


def test_a_stop_makes_the_check_fail(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = without_seam(tmp_path)
    assert main(["check", str(job)]) == 1
    assert "  STOP  " in capsys.readouterr().out
    assert main(["check", str(job), "--json"]) == 1
    stop = json.loads(capsys.readouterr().out)["findings"][0]
    assert (stop["code"], stop["where"], stop["value"], stop["limit"]) == ("closure", ["R1"], "0.125", "0.082680")


def test_a_stop_names_its_ways_out(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["check", str(without_seam(tmp_path)), "--json"])
    stop = json.loads(capsys.readouterr().out)["findings"][0]
    assert any(way["do"] == "enter seam" and way["value"] == "0.125" for way in stop["ways_out"])


def test_sheets_are_one_file_a_kind(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told(capsys, "sheets", LAUNDRY, "--out", tmp_path / "new" / "sheets")
    made = {path.name: path.read_bytes() for path in (tmp_path / "new" / "sheets").iterdir()}
    assert {
        "03-field-opening.pdf",
        "06-elevation.pdf",
        "09-fronts.pdf",
        "10-door.pdf",
        "12-stock.pdf",
        "14-set-up.pdf",
    } <= set(made)
    assert all(content.startswith(b"%PDF-") for content in made.values())


def test_only_the_kinds_asked_for_are_made(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told(capsys, "sheets", LAUNDRY, "--out", tmp_path, "--only", "door,set-up")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["10-door.pdf", "14-set-up.pdf"]


@pytest.mark.parametrize(
    ("job", "more", "size"),
    [(LAUNDRY, [], (612, 792)), (KITCHEN, [], (595, 842)), (LAUNDRY, ["--paper", "a4"], (595, 842))],
)
def test_paper_is_letter_for_an_inch_job_and_a4_otherwise(
    job: Path, more: list[str], size: tuple[int, int], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    from pypdf import PdfReader

    told(capsys, "sheets", job, "--out", tmp_path, "--only", "door", *more)
    box = PdfReader(tmp_path / "10-door.pdf").pages[0].mediabox
    assert (round(box.width), round(box.height)) == size


def test_a_sheet_held_back_is_named_and_not_made(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "sheets"
    assert main(["sheets", str(without_seam(tmp_path)), "--out", str(out), "--only", "door,field-opening"]) == 1
    assert [path.name for path in out.iterdir()] == ["03-field-opening.pdf"]
    named = capsys.readouterr().err.splitlines()
    assert len(named) == 2  # one door sheet a door
    assert all("held back" in line for line in named)


def test_the_shop_file_is_named_before_or_after_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from frontwright.store import open_shop

    shop = tmp_path / "shop.frontwright-shop"
    open_shop(shop).close()
    assert told(capsys, "--shop", shop, "figures", LAUNDRY) == told(capsys, "figures", LAUNDRY, f"--shop={shop}")


def test_a_printed_sheet_that_is_no_longer_right_is_among_the_findings(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = json.loads(LAUNDRY.read_text(encoding="utf-8"))
    job["printed"] = [{"id": "10-door:DA", "kind": "door", "subject": "DA", "version": 1, "digest": "x", "facts": "{}"}]
    path = tmp_path / "printed.json"
    path.write_text(json.dumps(job), encoding="utf-8")
    found = json.loads(told(capsys, "check", path, "--json"))["findings"]
    (stale,) = [one for one in found if one["code"] == "stale-sheet"]
    assert (stale["level"], stale["where"]) == ("warn", ["10-door:DA"])
    assert "no longer right" in told(capsys, "check", path)
