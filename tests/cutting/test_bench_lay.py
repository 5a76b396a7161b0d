"""The bench's own scorer and table, and the command that writes result files."""

import json
from pathlib import Path
from typing import Any

import pytest
from frontwright.bench_lay import Run, Score, runs, score, table
from frontwright.cli import main

HERE = Path(__file__).parent / "instances"


def instance(name: str) -> dict[str, Any]:
    told: dict[str, Any] = json.loads((HERE / f"{name}.json").read_text())
    return told


def part(item: int, x: int, y: int, w: int, h: int) -> dict[str, int]:
    return {"item": item, "x": x, "y": y, "w": w, "h": h}


def bins(*parts: dict[str, int], copies: int = 1) -> dict[str, Any]:
    return {"bins": [{"stock": 0, "copies": copies, "placed": list(parts)}]}


def test_a_whole_result_is_counted_with_its_copies() -> None:
    told = score(instance("sheet_turned"), bins(part(0, 0, 0, 10, 4), copies=2))
    assert (told.value, told.whole, told.fault, told.use) == (2, True, "", 100)


def test_what_is_missing_is_not_whole() -> None:
    assert not score(instance("sheet_turned"), bins(part(0, 0, 0, 10, 4))).whole


@pytest.mark.parametrize(
    ("name", "parts", "fault"),
    [
        ("sheet_kerf", (part(0, 0, 0, 10, 10), part(0, 10, 0, 10, 10)), "not cuttable"),
        ("sheet_kerf", (part(0, 0, 0, 10, 10), part(0, 12, 0, 10, 10)), "off its sheet"),
        ("sheet_kerf", (part(0, 0, 0, 9, 10),), "wrong size"),
        ("sheet_value", (part(1, 0, 0, 10, 5),), "wrong size"),
        ("sheet_strip", tuple(part(0, 0, 3 * n, 5, 3) for n in range(5)), "too often"),
    ],
)
def test_a_result_that_cannot_be_cut_does_not_count(name: str, parts: tuple[dict[str, int], ...], fault: str) -> None:
    told = score(instance(name), bins(*parts))
    assert fault in told.fault
    assert not told.whole


def test_a_pinwheel_is_not_cuttable() -> None:
    parts = part(0, 0, 0, 2, 1), part(1, 2, 0, 1, 2), part(0, 1, 2, 2, 1), part(1, 0, 1, 1, 2)
    assert "not cuttable" in score(instance("sheet_pinwheel"), bins(*parts)).fault


def test_the_largest_offcut_is_not_counted_as_used() -> None:
    told = instance("sheet_rest")
    two = [{"stock": 0, "placed": [part(0, 0, 0, 10, 6)]}, {"stock": 0, "placed": [part(1, 0, 0, 10, 5)]}]
    assert score(told, {"bins": two}).value == 1.5


def test_more_stock_than_there_is_does_not_count() -> None:
    assert "more stock" in score(instance("sheet_strip"), bins(part(0, 0, 0, 5, 3), copies=2)).fault


def test_a_line_sums_what_both_laid_whole_and_names_a_fault() -> None:
    good, bad = Score(4, True, 2, 90.0), Score(0, False, 0, fault="a part too often")
    ones = [
        Run("f", "one", 4, False, False, 0, good, Score(5, True, 3), 1.0, False),
        Run("f", "two", 4, False, False, 0, bad, Score(4, True, 3), 1.0, True),
    ]
    _, line, fault, _ = table(ones)
    assert line.split("|")[1].split() == ["4", "4", "0.00", "1", "1", "1"]
    assert line.split("|")[2].split() == ["5", "12.50", "1", "0"]
    assert fault == "    two: a part too often"


def test_a_bench_folder_is_run_ours_and_plain() -> None:
    (one,) = runs(HERE.parent, 2, ["instances/boards_triplets"])
    assert (one.family, one.mark, one.ours.value, one.plain.value) == ("own", 2, 2, 2)


def test_lay_writes_a_result_file_each(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    files = [str(HERE / f"{name}.json") for name in ("boards_kerf", "boards_halves")]
    assert main(["lay", *files, "--out", str(tmp_path / "out"), "--seconds", "3"]) == 0
    told = json.loads((tmp_path / "out" / "boards_kerf.json").read_text())
    assert score(instance("boards_kerf"), told) == Score(4, True, len(told["bins"]), 100 * 297 / 400)
    assert "boards_halves: 3, none can do better than 3" in capsys.readouterr().out


def test_lay_says_what_found_no_place(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told = instance("boards_kerf")
    told["items"].append({"w": 101, "h": 1, "copies": 2})
    (tmp_path / "x.json").write_text(json.dumps(told))
    assert main(["lay", str(tmp_path / "x.json"), "--out", str(tmp_path), "--seconds", "1"]) == 1
    assert "part 4: 2 of 2 found no place; it is larger than any piece." in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "told"),
    [(["gone.json"], "there is no file"), (["bad.json"], "is no JSON"), (["bad.json", "--seconds", "0"], "above 0")],
)
def test_lay_refuses_in_a_sentence_and_writes_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], words: list[str], told: str
) -> None:
    (tmp_path / "bad.json").write_text("{")
    out = tmp_path / "out"
    assert main(["lay", str(tmp_path / words[0]), *words[1:], "--out", str(out)]) == 2
    assert told in capsys.readouterr().err
    assert not out.exists()
