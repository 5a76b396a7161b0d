"""Jobs with bad or contradictory entries: figures all the same, a finding that says so, and nothing typed is lost."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from frontwright.cli import main
from frontwright.resources import resource

type Change = tuple[str, str, dict[str, str]]  # table, id of the row, fields

LAUNDRY = resource("samples", "laundry-pair.json")
PAGE = "The opening was measured on Monday, with the old doors still hanging, by two people and a folding rule. " * 40
UNREADABLE = ["letters", "0", "-3", "40m", PAGE, "1e400", "nan", "23 5/", '23 5/8"x', "<b>21</b>"]


def sizes(opening: str, what: str, value: str) -> list[Change]:
    places = ("top", "middle", "bottom") if what == "width" else ("left", "middle", "right")
    return [("readings", f"{opening} {what} {place}", {"value": value}) for place in places]


STOPS: dict[str, tuple[list[Change], str, str]] = {
    "a width that contradicts the run": (sizes("OA", "width", "25"), "closure", "OA"),
    "a height that contradicts the rails": (sizes("OA", "height", "20"), "closure", "OA"),
    "a length that contradicts the members": ([("readings", "R1 overall mid", {"value": "30"})], "closure", "R1"),
    "a diagonal too long to close": ([("readings", "OA diagonal \\", {"value": "90"})], "racking", "OA"),
    "a diagonal too short to close": ([("readings", "OA diagonal \\", {"value": "2"})], "racking", "OA"),
    "fronts that overlap": (
        [("fronts", "DA", {"pin_right": "25"}), ("fronts", "DB", {"pin_left": "24"})],
        "row-sum",
        "DA",
    ),
    "a front whose edges cross": ([("fronts", "DA", {"pin_right": "1/2"})], "row-sum", "DA"),
    "stiles wider than the door": ([("door_builds", "framed", {"stile": "12"})], "rail-proof", "DB"),
    "rails higher than the door": ([("door_builds", "framed", {"top_rail": "27"})], "rail-proof", "DA"),
    "a panel thicker than the rabbet": ([("panel_builds", "veneered", {"core_is": "5/8"})], "lip", "DA"),
    "a cup that reaches the joint": ([("hinge_types", "half cover", {"edge_distance": "2"})], "cup-fit", "DA"),
    "a cup bored through the door": ([("hinge_types", "half cover", {"cup_depth": "1"})], "cup-fit", "DB"),
    "veneer sanded away": ([("panel_builds", "veneered", {"show_loss": "1/8"})], "veneer-left", "DA"),
}


def job_with(folder: Path, changes: list[Change]) -> Path:
    """The laundry pair with fields of some rows changed."""
    job = json.loads(LAUNDRY.read_text(encoding="utf-8"))
    for table, name, fields in changes:
        next(row for row in job[table] if row["id"] == name).update(fields)
    path = folder / "job.json"
    path.write_text(json.dumps(job), encoding="utf-8")
    return path


@pytest.mark.parametrize("what", STOPS)
def test_a_contradiction_is_a_stop_and_figures_are_told_all_the_same(
    what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    changes, code, subject = STOPS[what]
    job = job_with(tmp_path, changes)
    assert main(["figures", str(job)]) == 0
    assert main(["figures", str(job), "--json"]) == 0
    capsys.readouterr()
    assert main(["check", str(job), "--json"]) == 1
    found = json.loads(capsys.readouterr().out)["findings"]
    stops = [each for each in found if (each["code"], each["level"]) == (code, "stop") and subject in each["where"]]
    assert stops, [(each["code"], each["level"], each["where"]) for each in found]


@pytest.mark.parametrize("text", UNREADABLE)
def test_an_entry_that_is_no_size_is_found_kept_and_left_out(
    text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = job_with(tmp_path, [("readings", "OA width middle", {"value": text})])
    main(["check", str(job), "--json"])
    found = json.loads(capsys.readouterr().out)["findings"]
    assert [each["where"] for each in found if each["code"] == "unread"] == [["OA"]]
    assert main(["import", str(job), str(tmp_path / "job.frontwright")]) == 0
    assert main(["export", str(tmp_path / "job.frontwright"), str(tmp_path / "out.json")]) == 0
    rows = {row["id"]: row for row in json.loads((tmp_path / "out.json").read_text(encoding="utf-8"))["readings"]}
    assert rows["OA width middle"]["value"] == text


@pytest.mark.parametrize("text", UNREADABLE)
def test_sheets_are_made_or_held_back_whatever_was_typed(
    text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = job_with(tmp_path, [("door_builds", "framed", {"stile": text}), ("runs", "R1", {"name": text})])
    code = main(["sheets", str(job), "--out", str(tmp_path / "out"), "--only", "field-opening,door"])
    held = capsys.readouterr().err.count("held back")
    made = [path.name for path in (tmp_path / "out").iterdir()]
    assert (code, sorted(made)) == (
        (1, ["03-field-opening.pdf"]) if held else (0, ["03-field-opening.pdf", "10-door.pdf"])
    )
