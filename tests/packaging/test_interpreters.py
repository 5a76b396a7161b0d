"""Which Python is taken."""

import sys
from pathlib import Path

import interpreters
import pytest
from interpreters import Interpreter


def program(path: Path, text: str) -> str:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(f"#!/bin/sh\n{text}\n")
    path.chmod(0o755)
    return str(path)


@pytest.mark.parametrize("version", [(3, 12), (3, 13), (3, 14)])
def test_versions_with_libraries_fit(version: tuple[int, int]) -> None:
    assert interpreters.fits(Interpreter("python", version, 64, False))


@pytest.mark.parametrize(
    "other",
    [
        Interpreter("python", (3, 11), 64, False),
        Interpreter("python", (3, 15), 64, False),
        Interpreter("python", (2, 7), 64, False),
        Interpreter("python", (3, 13), 32, False),
        Interpreter("python", (3, 13), 64, True),
    ],
)
def test_too_old_too_new_32_bits_and_free_threaded_do_not_fit(other: Interpreter) -> None:
    assert not interpreters.fits(other)


def test_an_answer_is_read_with_the_spaces_of_a_path() -> None:
    found = interpreters.understood("3 13 64 0 C:\\Program Files\\Python\\python.exe\n")
    assert found == Interpreter("C:\\Program Files\\Python\\python.exe", (3, 13), 64, False)


@pytest.mark.parametrize(
    "answer", ["", "3.13", "3 13 64", "pyenv: python3.13: command not found", "3 x 64 0 /bin/python"]
)
def test_what_is_no_answer_is_no_interpreter(answer: str) -> None:
    assert interpreters.understood(answer) is None


def test_this_python_says_what_it_is() -> None:
    found = interpreters.ask([sys.executable])
    assert found is not None
    assert found.version == sys.version_info[:2]
    assert Path(found.path).samefile(sys.executable)


@pytest.mark.skipif(sys.platform == "win32", reason="shell scripts stand in for interpreters")
def test_a_lying_shim_and_an_old_python_are_passed_over(tmp_path: Path) -> None:
    shim = program(tmp_path / "shims/python3.13", "echo 'python3.13: command not found' >&2; exit 127")
    chatty = program(tmp_path / "chatty/python3", "echo hello")
    old = program(tmp_path / "old/python3", "echo 3 11 64 0 /old/python3")
    right = program(tmp_path / "right/python3", "echo 3 13 64 0 /right/python3")
    found = interpreters.first_fitting([[shim], [chatty], [str(tmp_path / "none")], [old], [right]])
    assert found == Interpreter("/right/python3", (3, 13), 64, False)


@pytest.mark.skipif(sys.platform == "win32", reason="shell scripts stand in for interpreters")
def test_each_candidate_is_asked_once(tmp_path: Path) -> None:
    tally = tmp_path / "tally"
    python = program(tmp_path / "python3", f"echo asked >> '{tally}'")
    assert interpreters.first_fitting([[python], [python]]) is None
    assert tally.read_text() == "asked\n"


def test_the_path_is_searched_before_the_version_managers_and_this_python_first(tmp_path: Path) -> None:
    program(tmp_path / "bin/python3.13", "")
    program(tmp_path / "home/.pyenv/versions/3.13.2/bin/python3", "")
    program(tmp_path / "home/miniconda3/bin/python3", "")
    environ = {"PATH": str(tmp_path / "bin")}
    found = [command[0] for command in interpreters.candidates(environ, str(tmp_path / "home"), False)]
    ours = [Path(path).relative_to(tmp_path).as_posix() for path in found if path.startswith(str(tmp_path))]
    assert found[0] == sys.executable
    assert ours == ["bin/python3.13", "home/.pyenv/versions/3.13.2/bin/python3", "home/miniconda3/bin/python3"]


def test_a_version_manager_is_looked_for_where_it_says_it_is(tmp_path: Path) -> None:
    python = program(tmp_path / "elsewhere/versions/3.12.9/bin/python3", "")
    found = list(interpreters.candidates({"PYENV_ROOT": str(tmp_path / "elsewhere")}, str(tmp_path), False))
    assert [python] in found


def test_on_windows_the_launcher_is_asked_for_each_version() -> None:
    found = list(interpreters.candidates({}, "nowhere", True))
    launched = [command for command in found if command[0] == "py"]
    assert launched == [["py", "-3.13"], ["py", "-3.14"], ["py", "-3.12"]]
