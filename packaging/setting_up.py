"""The steps of a first start: an interpreter, .venv, the locked libraries, what the system lacks.

Everything said here goes to standard error: standard output is the program's.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import subprocess
import sys
import tempfile
from typing import Iterator

import interpreters
import start
import system

_WRONG = 2  # the exit code of every refusal
_NOT_OURS = ("PYTHONHOME", "PYTHONPATH", "PIP_USER", "PIP_TARGET", "PIP_PREFIX", "PIP_REQUIRE_VIRTUALENV")


class RefusalError(Exception):
    """One sentence for the person: what is missing and the way out."""


def say(text: str) -> None:
    print(text, file=sys.stderr, flush=True)


def set_up(wanted: set[str], only_system: bool, may_change_system: bool) -> int | None:
    """Bring about the lines `wanted` of the stamp; None when the program can be started, else an exit code."""
    try:
        if only_system:
            return _prepare_system(wanted | {"libraries screen"}, may_change_system)
        if _lists(wanted - start.stamped()) or not os.path.exists(start.PYTHON):
            with _alone():
                _packages(wanted - start.stamped(), may_change_system)
        _libraries(wanted - start.stamped(), may_change_system)
    except RefusalError as refusal:
        say(f"frontwright: {refusal}")
        return _WRONG
    except KeyboardInterrupt:
        say("frontwright: set-up was stopped; the next start takes it up again.")
        return 130
    return None


@contextlib.contextmanager
def _alone() -> Iterator[None]:
    """Two first starts at once: the second waits for the first."""
    try:
        import fcntl
    except ImportError:  # Windows
        yield
        return
    try:
        lock = os.open(start.VENV + ".lock", os.O_RDWR | os.O_CREAT, 0o666)
    except OSError as error:
        reason = f"the folder {start.ROOT} cannot be written ({error.strerror})"
        raise RefusalError(f"{reason}: copy it to a place of your own and start there.") from error
    try:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield
    finally:
        os.close(lock)


def _prepare_system(wanted: set[str], may_change_system: bool) -> int:
    if not (system.is_root() and may_change_system):
        raise RefusalError("--system changes the machine's own software: run it as root, without --no-system.")
    _interpreter(may_change_system)
    return 0 if _libraries(wanted, may_change_system) else _WRONG


def _allowed(may_change_system: bool, what: str) -> bool:
    """Whether the machine's software may be changed: as root, by apt, and agreed to where somebody can be asked."""
    if not (may_change_system and system.is_root() and system.release().family == "debian" and shutil.which("apt-get")):
        return False
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        return True
    say(f"{what} Go on? [Y/n]")
    return sys.stdin.readline().lower() in ("\n", "y\n", "yes\n")


# --- the interpreter


def _interpreter(may_change_system: bool) -> str:
    found = interpreters.find() or _by_uv() or _by_apt(may_change_system)
    if found is None:
        raise RefusalError(advice(system.release(), sys.platform))
    return found.path


def _by_uv() -> interpreters.Interpreter | None:
    """A Python that uv brings, uv itself from a throwaway environment where the machine has none."""
    say("No fitting Python here yet; asking uv for one.")
    with tempfile.TemporaryDirectory(prefix="frontwright-") as folder:
        uv = shutil.which("uv") or _throwaway_uv(folder)
        version = interpreters.PREFERRED[0]
        if uv is None or _output([uv, "python", "install", "--no-bin", version]) is None:
            return None
        path = _output([uv, "python", "find", version])
        return interpreters.first_fitting([[path]]) if path else None


def _throwaway_uv(folder: str) -> str | None:
    scripts = os.path.join(folder, "Scripts" if os.name == "nt" else "bin")
    python = os.path.join(scripts, os.path.basename(start.PYTHON))
    listed = os.path.join(start.HERE, "requirements-uv.txt")
    install = [python, "-m", "pip", "install", "-q", "--no-deps", "--require-hashes", "-r", listed]
    if _output([sys.executable, "-m", "venv", folder]) is None or _output(install) is None:
        return None
    return shutil.which("uv", path=scripts)


def _output(command: list[str]) -> str | None:
    """What a step prints, None where it fails. Its complaint is nobody's business: another way comes after it."""
    environ = dict(_environ(), UV_HTTP_TIMEOUT="60", UV_HTTP_RETRIES="1")
    try:
        done = subprocess.run(
            command,
            env=environ,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            timeout=900,
            check=True,
        )
    except (OSError, subprocess.SubprocessError):
        return None
    return done.stdout.decode("utf-8", "replace").strip()


def _by_apt(may_change_system: bool) -> interpreters.Interpreter | None:
    """The release's own Python, or on Debian 12 that of the next release."""
    if not _allowed(may_change_system, "Frontwright needs Python 3.12 or later, which apt would install beside yours."):
        return None
    if not system.renew_lists():
        return None
    own = system.own_python()
    if own and own >= interpreters.OLDEST:
        system.install(["python3", "python3-venv"])
    elif system.release().name == "debian" and system.release().codename == "bookworm":
        say("Debian 12 has no fitting Python of its own: taking Python 3.13 from Debian 13, all else stays.")
        system.python_of_next_release("bookworm")
    return interpreters.find()


def advice(release: system.Release, platform: str) -> str:
    """The one sentence for a machine on which no fitting Python was found and none could be brought."""
    need = "Frontwright needs Python 3.12, 3.13 or 3.14 with venv, and none was found"
    if release.codename == "bookworm":
        return f"{need}: run `sudo python3 packaging/start.py --system`, which takes Python 3.13 from Debian 13."
    if release.family == "debian":
        return f"{need}: run `sudo apt-get install python3 python3-venv`, or on an older release bring one with pyenv."
    if platform == "win32":
        return f"{need}: install Python 3.13 (64-bit) with `winget install Python.Python.3.13` and start again."
    if platform == "darwin":
        return f"{need}: install Python 3.13 with `brew install python@3.13` and start again."
    return f"{need}: install Python 3.13 with your system's package manager and start again."


# --- .venv and the libraries from the locked list


def _environ() -> dict[str, str]:
    """The environment without what would send packages elsewhere than into .venv."""
    return {name: value for name, value in os.environ.items() if name not in _NOT_OURS}


def _packages(lacking: set[str], may_change_system: bool) -> None:
    python_runs = _runs(start.PYTHON)
    if python_runs and not _lists(lacking):  # another start did it while this one waited
        return
    if not python_runs:
        _make_venv(_interpreter(may_change_system))
    testing = any(line.startswith("tests ") for line in lacking) or any(x.startswith("tests ") for x in start.stamped())
    listed = "requirements-test.txt" if testing else "requirements.txt"
    say(f"Installing the libraries of {listed} into .venv (once; a few minutes on a slow line).")
    if not _install(os.path.join(start.HERE, listed)):
        raise RefusalError(
            "the libraries could not be installed; the lines above say why. Nothing outside .venv was changed."
        )
    _point_at_source()
    _prepare_layouts()
    lines = {"packages " + start.digest("requirements.txt")}
    if testing:
        lines.add("tests " + start.digest("requirements-test.txt"))
    kept = {line for line in start.stamped() if line.startswith("libraries ")}
    _write_stamp(lines | kept)


def _lists(lines: set[str]) -> set[str]:
    return {line for line in lines if not line.startswith("libraries ")}


def _runs(python: str) -> bool:
    found = interpreters.ask([python]) if os.path.exists(python) else None
    return found is not None and interpreters.fits(found) and _output([python, "-c", "import pip"]) is not None


def _make_venv(python: str) -> None:
    say(f"Making .venv with {python}.")
    command = [python, "-m", "venv", "--clear", start.VENV]
    if subprocess.call(command, env=_environ(), stdin=subprocess.DEVNULL, stdout=sys.stderr) != 0:
        raise RefusalError(f"{python} could not make {start.VENV}; the lines above say why.")


def _install(listed: str) -> bool:
    """By pip, and where pip does not reach its packages, by the uv that the machine is set up with."""
    same = ["--no-deps", "--require-hashes", "--only-binary", ":all:", "-r", listed]
    pip = [start.PYTHON, "-m", "pip", "install", "-q", "--disable-pip-version-check", *same]
    if subprocess.call(pip, env=_environ(), stdin=subprocess.DEVNULL, stdout=sys.stderr) == 0:
        return True
    uv = shutil.which("uv")
    if uv is None:
        return False
    say("pip could not; trying uv.")
    command = [uv, "pip", "install", "-q", "--python", start.PYTHON, *same]
    return subprocess.call(command, env=_environ(), stdin=subprocess.DEVNULL, stdout=sys.stderr) == 0


def _point_at_source() -> None:
    """The program is used from where it lies: .venv is told by a path from itself, so that the folder may be moved."""
    question = "import sysconfig; print(sysconfig.get_path('purelib'))"
    packages = subprocess.run([start.PYTHON, "-I", "-c", question], stdout=subprocess.PIPE, check=True).stdout
    folder = packages.decode("utf-8").strip()
    with open(os.path.join(folder, "frontwright.pth"), "w", encoding="utf-8") as file:
        file.write(os.path.relpath(os.path.join(start.ROOT, "app"), folder) + "\n")


def _prepare_layouts() -> None:
    """The search for layouts becomes machine code now, not at its first use; where that fails, it does so then."""
    app = os.path.join(start.ROOT, "app")
    code = (
        f"import sys; sys.path.insert(0, {app!r}); from frontwright.cutting.preparing import prepare_now; prepare_now()"
    )
    _output([start.PYTHON, "-P", "-c", code])


def _write_stamp(lines: set[str]) -> None:
    with open(start.STAMP + ".new", "w", encoding="utf-8") as file:
        file.write("\n".join(sorted(lines)) + "\n")
    os.replace(start.STAMP + ".new", start.STAMP)


# --- Qt's system libraries


def _libraries(lacking: set[str], may_change_system: bool) -> bool:
    """See to the system libraries; where they cannot be had, say how and go on: the command line works without."""
    lines = {line for line in lacking if line.startswith("libraries ")}
    packages = system.missing(lines) if sys.platform.startswith("linux") else []
    if packages and _allowed(may_change_system, f"Qt needs these system packages: {' '.join(packages)}."):
        say("Installing what Qt needs of the system: " + " ".join(packages))
        _ = system.renew_lists() and system.install(packages)
        packages = system.missing(lines)
    if packages:
        say(library_advice(packages, system.release()))
    elif os.path.exists(start.VENV):
        with contextlib.suppress(OSError):  # where it cannot be noted down, the next start looks again
            _write_stamp(start.stamped() | lines)
    return not packages


def library_advice(packages: list[str], release: system.Release) -> str:
    """The one command, or elsewhere the files to look for."""
    if release.family == "debian":
        return f"The window may not open until this has been run once: {system.apt_command(packages)}"
    every = {**system.UNSEEN, **system.SCREEN, **system.TEST_PROGRAMS}
    files = ", ".join(every[package] for package in packages)
    return f"The window may not open until your system has {files}: install them with its package manager."
