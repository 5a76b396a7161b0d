"""start.py: what has to be set up, and how the program is handed its arguments."""

import subprocess
import sys
from pathlib import Path

import pytest
import setting_up
import start


@pytest.fixture
def handed_on(monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """The commands that start.py would become."""
    commands: list[list[str]] = []

    def note(command: list[str]) -> int:
        commands.append(command)
        return 7

    monkeypatch.setattr(start, "run", note)
    monkeypatch.setattr(start, "PYTHON", sys.executable)
    return commands


def stamp(monkeypatch: pytest.MonkeyPatch, lines: set[str]) -> None:
    monkeypatch.setattr(start, "stamped", lambda: lines)


def never(*_: object, **__: object) -> None:
    pytest.fail("set-up was run")


def test_the_program_needs_its_libraries_and_an_unseen_qt() -> None:
    lines = start.needs(False, {})
    assert sorted(line.split()[0] for line in lines) == ["libraries", "packages"]
    assert "libraries unseen" in lines


@pytest.mark.parametrize("name", ["DISPLAY", "WAYLAND_DISPLAY"])
def test_a_screen_asks_for_its_libraries_too(name: str) -> None:
    assert start.needs(False, {name: ":0"}) - start.needs(False, {}) == {"libraries screen"}


def test_the_checks_need_both_lists_and_a_virtual_screen() -> None:
    lines = start.needs(True, {})
    assert lines > start.needs(False, {"DISPLAY": ":0"})
    assert "libraries tests" in lines
    assert f"tests {start.digest('requirements-test.txt')}" in lines


def test_another_list_makes_another_stamp(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = start.needs(False, {})
    (tmp_path / "requirements.txt").write_text("pint==1\n")
    monkeypatch.setattr(start, "HERE", str(tmp_path))
    assert start.needs(False, {}) != before


def test_a_stamp_reads_back_as_it_was_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(start, "STAMP", str(tmp_path / "stamp"))
    setting_up._write_stamp({"libraries unseen", "packages 12"})
    assert start.stamped(start.STAMP) == {"libraries unseen", "packages 12"}
    assert [path.name for path in tmp_path.iterdir()] == ["stamp"]


def test_where_nothing_is_set_up_the_stamp_is_empty(tmp_path: Path) -> None:
    assert start.stamped(str(tmp_path / "none")) == set()


def test_a_second_start_goes_straight_on(handed_on: list[list[str]], monkeypatch: pytest.MonkeyPatch) -> None:
    stamp(monkeypatch, start.needs(True, {"DISPLAY": ":0"}))
    monkeypatch.setattr(setting_up, "set_up", never)
    assert start.main(["figures", "my job.frontwright", "--json"]) == 7
    assert handed_on == [[sys.executable, "-P", "-m", "frontwright", "figures", "my job.frontwright", "--json"]]


def test_a_second_start_imports_nothing_that_costs_time() -> None:
    code = (
        f"import sys; sys.path.insert(0, {start.HERE!r}); import start; start.needs(False, {{}});"
        "print([name for name in ('subprocess', 'ctypes', 'tempfile', 'glob', 'setting_up') if name in sys.modules])"
    )
    answer = subprocess.run([sys.executable, "-I", "-c", code], capture_output=True, text=True, check=True)
    assert answer.stdout.strip() == "[]"


def test_a_first_start_sets_up_what_the_stamp_lacks(
    handed_on: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = []

    def set_up(wanted: set[str], only_system: bool, may_change_system: bool) -> None:
        asked.append((wanted, only_system, may_change_system))

    stamp(monkeypatch, set())
    monkeypatch.setattr(setting_up, "set_up", set_up)
    start.main(["--no-system", "test", "types"])
    assert asked == [(start.needs(True, {}), False, False)]
    assert handed_on[0][2:] == [str(Path(start.HERE) / "checks.py"), "types"]


def test_a_refused_set_up_starts_nothing(handed_on: list[list[str]], monkeypatch: pytest.MonkeyPatch) -> None:
    stamp(monkeypatch, set())
    monkeypatch.setattr(setting_up, "set_up", lambda *_, **__: 2)
    assert start.main([]) == 2
    assert handed_on == []


@pytest.mark.skipif(sys.platform == "win32", reason="no signals by number there")
@pytest.mark.parametrize(("ending", "code"), [("sys.exit(5)", 5), ("os.kill(os.getpid(), 15)", -15)])
def test_the_exit_code_and_the_signal_are_the_programs_own(ending: str, code: int) -> None:
    inner = f"import os, sys; {ending}"
    outer = (
        f"import sys; sys.path.insert(0, {start.HERE!r}); import start; start.run([sys.executable, '-c', {inner!r}])"
    )
    assert subprocess.run([sys.executable, "-c", outer], check=False).returncode == code
