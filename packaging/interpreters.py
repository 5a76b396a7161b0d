"""Which Python can carry Frontwright: where one may lie, and whether it is what it seems."""

from __future__ import annotations

import glob
import os
import subprocess
import sys
from typing import Iterable, Iterator, Mapping, NamedTuple

OLDEST = (3, 12)  # Qt for Python gives away references to None until older interpreters stop
TOO_NEW = (3, 15)  # no wheels of Qt for Python
PREFERRED = ("3.13", "3.14", "3.12")

# Run by the candidate itself: shims may lie, a Python of a distribution may come without venv, and there are no
# libraries for a build without the lock or for 32 bits.
_QUESTION = (
    "import sys, struct, sysconfig, ctypes, ensurepip, sqlite3, ssl, venv;"
    "print(sys.version_info[0], sys.version_info[1], struct.calcsize('P') * 8,"
    " int(bool(sysconfig.get_config_var('Py_GIL_DISABLED'))), sys.executable)"
)


class Interpreter(NamedTuple):
    path: str
    version: tuple[int, int]
    bits: int
    free_threaded: bool


def fits(found: Interpreter) -> bool:
    """Whether the libraries exist for it: version from OLDEST and below TOO_NEW, 64 bits, the usual build."""
    return OLDEST <= found.version < TOO_NEW and found.bits == 64 and not found.free_threaded


def ask(command: list[str]) -> Interpreter | None:
    """What the candidate says of itself, or None where it does not run, hangs, or lacks a part of the library."""
    try:
        answer = subprocess.run(
            [*command, "-I", "-c", _QUESTION],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            timeout=20,
            check=True,
        )
        return understood(answer.stdout.decode("utf-8"))
    except (OSError, subprocess.SubprocessError, UnicodeDecodeError):
        return None


def understood(answer: str) -> Interpreter | None:
    """The interpreter in one answer to the question; None where it is not an answer."""
    words = answer.strip().split(" ", 4)
    if len(words) != 5 or not all(word.isdigit() for word in words[:4]):
        return None
    major, minor, bits, free = (int(word) for word in words[:4])
    return Interpreter(words[4], (major, minor), bits, bool(free))


def candidates(environ: Mapping[str, str], home: str, windows: bool) -> Iterator[list[str]]:
    """Commands that may be a Python, the likeliest first: this one, PATH, version managers, the usual folders."""
    yield [sys.executable]
    names = [f"python{version}" for version in PREFERRED] + ["python3", "python"]
    for name in names:
        for folder in environ.get("PATH", "").split(os.pathsep):
            path = os.path.join(folder, name + (".exe" if windows else ""))
            if folder and os.path.isfile(path):
                yield [path]
    if windows:
        for version in PREFERRED:
            yield ["py", f"-{version}"]
    for pattern in _patterns(environ, home, windows):
        for path in sorted(glob.glob(pattern), reverse=True):
            yield [path]


def _patterns(environ: Mapping[str, str], home: str, windows: bool) -> list[str]:
    """Where version managers and installers put interpreters."""
    if windows:
        local = environ.get("LOCALAPPDATA", os.path.join(home, "AppData", "Local"))
        roaming = environ.get("APPDATA", os.path.join(home, "AppData", "Roaming"))
        return [
            os.path.join(local, "Programs", "Python", "Python3*", "python.exe"),
            os.path.join(environ.get("PROGRAMFILES", "C:\\Program Files"), "Python3*", "python.exe"),
            os.path.join(home, ".pyenv", "pyenv-win", "versions", "3.*", "python.exe"),
            os.path.join(roaming, "uv", "python", "*", "python.exe"),
            os.path.join(home, "*conda3", "python.exe"),
        ]
    data = environ.get("XDG_DATA_HOME", os.path.join(home, ".local", "share"))
    return [
        os.path.join(environ.get("PYENV_ROOT", os.path.join(home, ".pyenv")), "versions", "3.*", "bin", "python3"),
        os.path.join(environ.get("ASDF_DATA_DIR", os.path.join(home, ".asdf")), "installs/python/3.*/bin/python3"),
        os.path.join(environ.get("MISE_DATA_DIR", os.path.join(data, "mise")), "installs/python/3.*/bin/python3"),
        os.path.join(environ.get("UV_PYTHON_INSTALL_DIR", os.path.join(data, "uv/python")), "*/bin/python3"),
        os.path.join(home, ".rye/py/*/bin/python3"),
        os.path.join(home, "*conda3/bin/python3"),
        os.path.join(home, "*forge3/bin/python3"),
        "/opt/*conda3/bin/python3",
        "/opt/homebrew/bin/python3.*[0-9]",
        "/usr/local/bin/python3.*[0-9]",
        "/Library/Frameworks/Python.framework/Versions/3.*/bin/python3",
    ]


def first_fitting(commands: Iterable[list[str]]) -> Interpreter | None:
    """The first of the commands that is a fitting Python; each is asked once."""
    asked = set()
    for command in commands:
        key = tuple(command)
        if key in asked:
            continue
        asked.add(key)
        found = ask(command)
        if found and fits(found):
            return found
    return None


def find() -> Interpreter | None:
    """A fitting Python on this machine, or None."""
    return first_fitting(candidates(os.environ, os.path.expanduser("~"), os.name == "nt"))
