#!/usr/bin/env python3
"""Set Frontwright up where it lies, and start it.

    python3 packaging/start.py [ARGUMENTS]           the program; what it takes is handed on
    python3 packaging/start.py test [CHECK...]       every check, or the checks named
    python3 packaging/start.py --system              only what needs root: Python and system libraries

`--no-system` before these forbids every change outside this folder. Plain standard library, any Python from 3.8. What
has been set up is written in a stamp, so that a second start goes straight on to the program: nothing but `os` and
`sys` may be imported before that is known.
"""

from __future__ import annotations

import os
import sys

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(HERE)
VENV = os.path.join(ROOT, ".venv")
PYTHON = os.path.join(VENV, "Scripts", "python.exe") if os.name == "nt" else os.path.join(VENV, "bin", "python")
STAMP = os.path.join(VENV, "frontwright.stamp")


def needs(testing: bool, environ: Mapping[str, str]) -> set[str]:
    """The lines that the stamp has to hold before the program, or with `testing` every check, can be started."""
    lines = {"packages " + digest("requirements.txt"), "libraries unseen"}
    if testing:
        lines |= {"tests " + digest("requirements-test.txt"), "libraries screen", "libraries tests"}
    elif environ.get("DISPLAY") or environ.get("WAYLAND_DISPLAY"):
        lines.add("libraries screen")
    return lines


def digest(name: str) -> str:
    import hashlib

    with open(os.path.join(HERE, name), "rb") as file:
        return hashlib.sha256(file.read()).hexdigest()


def stamped(path: str = STAMP) -> set[str]:
    """The lines of the stamp; none where nothing has been set up."""
    try:
        with open(path, encoding="utf-8") as file:
            return set(file.read().splitlines())
    except OSError:
        return set()


def run(command: list[str]) -> int:
    """Become `command`, so that signals, the terminal and the exit code are its own."""
    sys.stdout.flush()
    sys.stderr.flush()
    if os.name != "nt":
        os.execv(command[0], command)
    import signal
    import subprocess

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the program, which hears it too
    return subprocess.call(command)


def main(arguments: list[str]) -> int:
    may_change_system = arguments[:1] != ["--no-system"]
    arguments = arguments[0 if may_change_system else 1 :]
    testing = arguments[:1] == ["test"]
    wanted = needs(testing, os.environ)
    if arguments == ["--system"] or not (wanted <= stamped() and os.path.exists(PYTHON)):
        import setting_up

        code = setting_up.set_up(wanted, only_system=arguments == ["--system"], may_change_system=may_change_system)
        if code is not None:
            return code
    if testing:
        return run([PYTHON, "-P", os.path.join(HERE, "checks.py"), *arguments[1:]])
    return run([PYTHON, "-P", "-m", "frontwright", *arguments])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
