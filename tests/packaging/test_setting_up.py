"""What is said where a step cannot be done, and what is asked before the machine is changed."""

import io
import shutil
import sys
from pathlib import Path

import interpreters
import pytest
import setting_up
import start
import system
from system import Release

BOOKWORM = Release("debian", "debian", "bookworm")
TRIXIE = Release("debian", "debian", "trixie")
FEDORA = Release("", "fedora", "")


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def root_on_debian(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(system, "is_root", lambda: True)
    monkeypatch.setattr(system, "release", lambda: BOOKWORM)
    monkeypatch.setattr(shutil, "which", lambda name, **_: f"/usr/bin/{name}")
    monkeypatch.setattr(sys, "stdin", io.StringIO())


@pytest.mark.parametrize(
    ("release", "platform", "way_out"),
    [
        (BOOKWORM, "linux", "sudo python3 packaging/start.py --system"),
        (TRIXIE, "linux", "sudo apt-get install python3 python3-venv"),
        (FEDORA, "linux", "package manager"),
        (Release("", "", ""), "darwin", "brew install python@3.13"),
        (Release("", "", ""), "win32", "winget install Python.Python.3.13"),
    ],
)
def test_without_a_python_one_sentence_says_what_to_do(release: Release, platform: str, way_out: str) -> None:
    sentence = setting_up.advice(release, platform)
    assert "Python 3.12, 3.13 or 3.14" in sentence
    assert way_out in sentence
    assert "\n" not in sentence


def test_missing_libraries_are_named_by_package_where_there_is_apt() -> None:
    assert "install --no-install-recommends libegl1 xvfb" in setting_up.library_advice(["libegl1", "xvfb"], BOOKWORM)


def test_missing_libraries_are_named_by_file_elsewhere() -> None:
    assert "libEGL.so.1, Xvfb" in setting_up.library_advice(["libegl1", "xvfb"], FEDORA)


@pytest.mark.usefixtures("root_on_debian")
def test_root_without_a_terminal_is_not_asked() -> None:
    assert setting_up._allowed(True, "A package would be installed.")


@pytest.mark.usefixtures("root_on_debian")
def test_no_system_forbids_every_change_of_the_machine() -> None:
    assert not setting_up._allowed(False, "A package would be installed.")


@pytest.mark.usefixtures("root_on_debian")
def test_others_than_root_change_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(system, "is_root", lambda: False)
    assert not setting_up._allowed(True, "A package would be installed.")


@pytest.mark.usefixtures("root_on_debian")
@pytest.mark.parametrize(("answer", "allowed"), [("\n", True), ("y\n", True), ("n\n", False), ("what\n", False)])
def test_at_a_terminal_the_person_is_asked_first(answer: str, allowed: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Terminal()
    monkeypatch.setattr(sys, "stdin", Terminal(answer))
    monkeypatch.setattr(sys, "stderr", screen)
    assert setting_up._allowed(True, "A package would be installed.") == allowed
    assert screen.getvalue() == "A package would be installed. Go on? [Y/n]\n"


def test_a_terminal_that_is_closed_is_a_no(root_on_debian: None, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", Terminal(""))
    monkeypatch.setattr(sys, "stderr", Terminal())
    assert not setting_up._allowed(True, "A package would be installed.")


def test_packages_cannot_be_sent_elsewhere_than_into_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PIP_TARGET", "/elsewhere")
    monkeypatch.setenv("PYTHONPATH", "/elsewhere")
    monkeypatch.setenv("PIP_CERT", "/etc/bundle.crt")
    environ = setting_up._environ()
    assert "PIP_TARGET" not in environ
    assert "PYTHONPATH" not in environ
    assert environ["PIP_CERT"] == "/etc/bundle.crt"


def test_system_is_refused_to_others_than_root(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(system, "is_root", lambda: False)
    assert setting_up.set_up(set(), only_system=True, may_change_system=True) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("frontwright: --system changes the machine's own software")
    assert said.err.count("\n") == 1


def test_where_no_python_can_be_had_nothing_is_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start, "VENV", str(tmp_path / ".venv"))
    monkeypatch.setattr(start, "PYTHON", str(tmp_path / ".venv/bin/python"))
    monkeypatch.setattr(start, "STAMP", str(tmp_path / ".venv/stamp"))
    monkeypatch.setattr(interpreters, "find", lambda: None)
    monkeypatch.setattr(setting_up, "_by_uv", lambda: None)
    assert setting_up.set_up(start.needs(False, {}), only_system=False, may_change_system=False) == 2
    assert "Frontwright needs Python" in capsys.readouterr().err
    assert not (tmp_path / ".venv").exists()


def test_set_up_prepares_the_search_and_goes_on_where_that_fails(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    told = tmp_path / "prepared"
    package = tmp_path / "app" / "frontwright" / "cutting"
    package.mkdir(parents=True)
    for folder in (package, package.parent):
        (folder / "__init__.py").touch()
    (package / "preparing.py").write_text(f"def prepare_now():\n    print('loud')\n    open({str(told)!r}, 'w')\n")
    monkeypatch.setattr(start, "ROOT", str(tmp_path))
    monkeypatch.setattr(start, "PYTHON", sys.executable)
    setting_up._prepare_layouts()
    assert told.exists()
    monkeypatch.setattr(start, "PYTHON", str(tmp_path / "no-python"))
    setting_up._prepare_layouts()
    assert capfd.readouterr() == ("", "")
