"""The whole test command, or the checks named: `start.py test [CHECK...] [-- ARGUMENTS FOR PYTEST]`.

Run by the Python of .venv. Every check runs even where an earlier one failed, so that one run tells all.
"""

import importlib.util
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
PYTHON = [sys.executable, "-P", "-m"]
SCREENS = (
    "DISPLAY",
    "WAYLAND_DISPLAY",
    "QT_QPA_PLATFORM",
    "QT_SCALE_FACTOR",
    "QT_QPA_PLATFORMTHEME",
    "QT_STYLE_OVERRIDE",
)


def run(command: list[str], **environ: str) -> bool:
    """Whether the command ends well; it sees the screen, and Qt's wishes, only as given here."""
    shown = {name: value for name, value in os.environ.items() if name not in SCREENS}
    return subprocess.call(command, cwd=ROOT, env={**shown, **environ}, stdin=subprocess.DEVNULL) == 0


def tool(*words: str) -> Callable[[list[str]], bool]:
    return lambda _more: run([*PYTHON, *words])


def layers(_more: list[str]) -> bool:
    command = "from importlinter.cli import lint_imports_command; lint_imports_command(['--no-logo'])"
    return run([sys.executable, "-P", "-c", command], PYTHONPATH=os.path.join(ROOT, "app"))


def tests(more: list[str]) -> bool:
    """All of the tests, two at a time where all of them run: some wait for a disk or a process, most reckon."""
    at_once = [] if more or importlib.util.find_spec("xdist") is None else ["-n", "2", "--dist", "worksteal"]
    return run([*PYTHON, "pytest", *at_once, *more], QT_QPA_PLATFORM="offscreen")


def screen(more: list[str]) -> bool:
    """The window's tests once more on a real (virtual) screen, where there is one."""
    if not (shutil.which("xvfb-run") and shutil.which("xauth")):
        print("no Xvfb here: the window was tested without a screen only")
        return True
    display = ["xvfb-run", "-a", "-s", "-screen 0 1920x1080x24"]
    return run([*display, *PYTHON, "pytest", *(more or ["tests/window"])], QT_QPA_PLATFORM="xcb")


CHECKS: dict[str, Callable[[list[str]], bool]] = {
    "format": tool("ruff", "format", "--check"),
    "lint": tool("ruff", "check"),
    "types": tool("mypy"),
    "layers": layers,
    "tests": tests,
    "screen": screen,
}


def main(arguments: list[str]) -> int:
    names, more = arguments, []
    if "--" in arguments:
        at = arguments.index("--")
        names, more = arguments[:at], arguments[at + 1 :]
    unknown = [name for name in names if name not in CHECKS]
    if unknown:
        print(f"no check is called {unknown[0]}: there are {', '.join(CHECKS)}", file=sys.stderr)
        return 2
    results = []
    for name in names or CHECKS:
        print(f"\n== {name}", flush=True)
        begun = time.monotonic()
        results.append((name, CHECKS[name](more), time.monotonic() - begun))
    print("\n== all")
    for name, well, seconds in results:
        print(f"{name:8} {'well' if well else 'FAILED'} {seconds:7.1f} s")
    return 0 if all(well for _, well, _ in results) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
