"""What the machine itself has to have: a release's own Python, Qt's system libraries, a screen for the tests."""

from __future__ import annotations

import ctypes
import glob
import os
import re
import shutil
import subprocess
import sys
from typing import Callable, Iterable, NamedTuple

# Debian's package (also Ubuntu's), and the library in it that Qt loads.
UNSEEN = {
    "libglib2.0-0": "libglib-2.0.so.0",
    "libegl1": "libEGL.so.1",
    "libgl1": "libGL.so.1",
    "libdbus-1-3": "libdbus-1.so.3",
    "libfontconfig1": "libfontconfig.so.1",
    "libxkbcommon0": "libxkbcommon.so.0",
}
SCREEN = {
    "libxcb-cursor0": "libxcb-cursor.so.0",
    "libxcb-icccm4": "libxcb-icccm.so.4",
    "libxcb-image0": "libxcb-image.so.0",
    "libxcb-keysyms1": "libxcb-keysyms.so.1",
    "libxcb-render-util0": "libxcb-render-util.so.0",
    "libxcb-shape0": "libxcb-shape.so.0",
    "libxcb-util1": "libxcb-util.so.1",
    "libxcb-xkb1": "libxcb-xkb.so.1",
    "libxkbcommon-x11-0": "libxkbcommon-x11.so.0",
}
TEST_PROGRAMS = {"xvfb": "Xvfb", "xauth": "xauth"}

NEXT_RELEASE = "trixie"  # of Debian 12, bookworm; it has Python 3.13
_SOURCE = "/etc/apt/sources.list.d/frontwright-next-release.list"
_PIN = "/etc/apt/preferences.d/frontwright-next-release"


def loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def missing(lines: Iterable[str], has: Callable[[str], bool] = loads) -> list[str]:
    """Packages whose library (or program) this machine lacks, for the stamp's lines `libraries KIND`."""
    wanted = set(lines)
    packages = []
    if "libraries unseen" in wanted:
        packages += [package for package, library in UNSEEN.items() if not has(library)]
    if "libraries screen" in wanted:
        packages += [package for package, library in SCREEN.items() if not has(library)]
    if "libraries tests" in wanted:
        packages += [package for package, program in TEST_PROGRAMS.items() if not shutil.which(program)]
    return packages


class Release(NamedTuple):
    """The distribution as /etc/os-release names it."""

    family: str  # "debian" for Debian, Ubuntu and what is made of them, else ""
    name: str  # "debian", "ubuntu", "fedora"
    codename: str


def release(text: str | None = None) -> Release:
    """Read from the text of /etc/os-release (this machine's where none is given)."""
    if text is None:
        try:
            with open("/etc/os-release", encoding="utf-8") as file:
                text = file.read()
        except OSError:
            text = ""
    pairs = (line.split("=", 1) for line in text.splitlines() if "=" in line)
    fields = {key.strip(): value.strip().strip("\"'") for key, value in pairs}
    names = [fields.get("ID", ""), *fields.get("ID_LIKE", "").split()]
    family = "debian" if {"debian", "ubuntu"} & set(names) else ""
    return Release(family, names[0], fields.get("VERSION_CODENAME", ""))


def is_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0


def apt_command(packages: Iterable[str]) -> str:
    """The one command that a person types."""
    return "sudo apt-get update && sudo apt-get install --no-install-recommends " + " ".join(packages)


def renew_lists() -> bool:
    """What apt knows of its packages, made new; whether that went well."""
    return _apt("update")


def install(packages: list[str], *options: str) -> bool:
    """Install by apt, its lists being new; whether that went well. Its own words go to standard error."""
    return _apt("install", "--no-install-recommends", *options, *packages)


def _apt(*words: str) -> bool:
    # A configuration file that somebody changed is kept: nobody is there to be asked.
    settings = ["DPkg::Lock::Timeout=120", "Dpkg::Options::=--force-confdef", "Dpkg::Options::=--force-confold"]
    command = ["apt-get", "-q", "-y", *(f"-o{setting}" for setting in settings), *words]
    environ = dict(os.environ, DEBIAN_FRONTEND="noninteractive")
    try:
        return subprocess.call(command, stdin=subprocess.DEVNULL, stdout=sys.stderr, env=environ) == 0
    except OSError:
        return False


def own_python() -> tuple[int, int] | None:
    """The version of the Python that this release has to offer; the lists must be new."""
    answer = subprocess.run(
        ["apt-cache", "policy", "python3"], stdout=subprocess.PIPE, env=dict(os.environ, LC_ALL="C"), check=False
    )
    found = re.search(r"Candidate: (?:\d+:)?(\d+)\.(\d+)", answer.stdout.decode("utf-8", "replace"))
    return (int(found[1]), int(found[2])) if found else None


class Mirror(NamedTuple):
    uri: str
    security: str | None
    signed_by: str | None


def mirror(texts: Iterable[tuple[str, str]], codename: str) -> Mirror | None:
    """The mirror from which the machine has its release: from (file name, text) of its sources, in either form."""
    entries = [entry for name, text in texts for entry in _entries(name, text)]
    main = next(((uri, key) for uri, suite, key in entries if suite == codename), None)
    security = next((uri for uri, suite, _ in entries if suite == f"{codename}-security"), None)
    return Mirror(main[0], security, main[1]) if main else None


_LINE = re.compile(r"^deb\s+(?:\[(?P<options>[^]]*)\]\s+)?(?P<uri>\S+)\s+(?P<suite>\S+)\s+(?P<parts>.*)")


def _entries(name: str, text: str) -> Iterable[tuple[str, str, str | None]]:
    """(address, suite, key file) of each source of packages with the part main."""
    if not name.endswith(".sources"):
        for line in text.splitlines():
            found = _LINE.match(line.split("#", 1)[0].strip())
            if found and "main" in found["parts"].split():
                key = re.search(r"signed-by=(\S+)", found["options"] or "")
                yield found["uri"], found["suite"], key[1] if key else None
        return
    for stanza in re.split(r"\n\s*\n", text):
        lines = (line.split(":", 1) for line in stanza.splitlines() if re.match(r"[A-Za-z-]+:", line))
        fields = {key.lower(): value.strip() for key, value in lines}
        if "deb" not in fields.get("types", "").split() or "main" not in fields.get("components", "").split():
            continue
        if fields.get("enabled", "yes").lower() in ("no", "false"):
            continue
        for uri in fields.get("uris", "").split():
            for suite in fields.get("suites", "").split():
                yield uri, suite, fields.get("signed-by") or None


def next_release_files(source: Mirror) -> dict[str, str]:
    """Path and text of what lets apt take single packages, and nothing unasked, from the next release."""
    key = f"[signed-by={source.signed_by}] " if source.signed_by else ""
    lines = [f"deb {key}{source.uri} {NEXT_RELEASE} main"]
    if source.security:
        lines.append(f"deb {key}{source.security} {NEXT_RELEASE}-security main")
    suites = [NEXT_RELEASE, f"{NEXT_RELEASE}-security"]
    pins = [f"Package: *\nPin: release n={suite}\nPin-Priority: 100\n" for suite in suites]
    return {_SOURCE: "\n".join(lines) + "\n", _PIN: "\n".join(pins)}


def python_of_next_release(codename: str) -> bool:
    """On Debian 12: Python 3.13 of Debian 13, all else left as it is; whether that went well."""
    paths = ["/etc/apt/sources.list", *sorted(glob.glob("/etc/apt/sources.list.d/*"))]
    source = mirror([(path, _read(path)) for path in paths], codename)
    if source is None:
        return False
    files = next_release_files(source)
    for path, text in files.items():
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
    # One run with the next release first: what these need of it comes along, the rest stays (with PACKAGE/RELEASE
    # alone apt finds no way). A pip of the same release, since the older one does not know Python 3.13.
    if renew_lists() and install(["python3.13-venv", "python3-pip-whl"], "--target-release", NEXT_RELEASE):
        return True
    for path in files:
        os.remove(path)
    return False


def _read(path: str) -> str:
    try:
        with open(path, encoding="utf-8", errors="replace") as file:
            return file.read()
    except OSError:
        return ""
