"""The locked lists and the rules of the project, as files."""

import re
import tomllib
from pathlib import Path

import checks
import pytest

ROOT = Path(__file__).parents[2]
LISTS = sorted((ROOT / "packaging").glob("requirements*.txt"))


def pins(path: Path) -> dict[str, str]:
    found = re.findall(r"^([a-z0-9._-]+)==([^ ;\\]+)", path.read_text(), re.MULTILINE)
    return dict(found)


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.name)
def test_a_locked_list_has_a_hash_for_every_line_and_no_address(path: Path) -> None:
    text = path.read_text()
    blocks = [block for block in re.split(r"\n(?=[a-z0-9])", text) if "==" in block]
    assert blocks
    assert all("--hash=sha256:" in block for block in blocks)
    assert "://" not in text
    assert "index" not in re.sub(r"^#.*$", "", text, flags=re.MULTILINE)


def test_qt_is_locked_for_linux_macos_and_windows() -> None:
    text = (ROOT / "packaging/requirements.txt").read_text()
    qt = re.search(r"^pyside6-essentials==.*?(?=^\S*==)", text, re.MULTILINE | re.DOTALL)
    assert qt is not None
    assert qt[0].count("--hash") >= 5  # Linux, macOS and Windows, Arm and Intel


def test_the_checks_run_with_the_very_libraries_of_the_program() -> None:
    program, tests = pins(ROOT / "packaging/requirements.txt"), pins(ROOT / "packaging/requirements-test.txt")
    assert program.items() <= tests.items()


def test_what_the_project_says_it_needs_is_what_is_locked() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    said = {re.split(r"[>=]", name)[0].lower().replace("_", "-") for name in project["dependencies"]}
    asked = (ROOT / "packaging/requirements.in").read_text().lower().replace("_", "-").split()
    assert said == set(asked)
    assert said <= set(pins(ROOT / "packaging/requirements.txt"))


def test_a_check_that_does_not_exist_is_named_with_those_that_do(capsys: pytest.CaptureFixture[str]) -> None:
    assert checks.main(["spelling"]) == 2
    assert capsys.readouterr().err == (
        "no check is called spelling: there are format, lint, types, layers, tests, screen\n"
    )


def test_every_check_runs_where_one_fails_and_the_whole_fails(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    run: list[list[str]] = []

    def bad(more: list[str]) -> bool:
        run.append(more)
        return False

    monkeypatch.setattr(checks, "CHECKS", {"bad": bad, "good": lambda _: True})
    assert checks.main(["--", "-k", "rail"]) == 1
    assert run == [["-k", "rail"]]
    assert re.findall(r"^(\w+) +(well|FAILED)", capsys.readouterr().out, re.MULTILINE) == [
        ("bad", "FAILED"),
        ("good", "well"),
    ]
