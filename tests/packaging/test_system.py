"""What is asked of the machine itself."""

import pytest
import system
from system import Mirror, Release

DEBIAN_12 = 'PRETTY_NAME="Debian GNU/Linux 12 (bookworm)"\nVERSION_CODENAME=bookworm\nID=debian\n'
MINT = 'NAME="Linux Mint"\nID=linuxmint\nID_LIKE="ubuntu debian"\nVERSION_CODENAME=wilma\n'
FEDORA = "NAME=\"Fedora Linux\"\nID=fedora\nVERSION_CODENAME=''\n"

ONE_LINE = """
# deb mirror.example/debian bookworm main
deb-src mirror.example/debian bookworm main
deb [arch=amd64 signed-by=/etc/key.gpg] mirror.example/debian bookworm main contrib
deb mirror.example/debian bookworm-updates main
deb security.example/debian-security bookworm-security main
"""
STANZAS = """Types: deb
URIs: mirror.example/debian
Suites: bookworm bookworm-updates
Components: main
Signed-By: /usr/share/keyrings/debian-archive-keyring.gpg

Types: deb
URIs: security.example/debian-security
Suites: bookworm-security
Components: main
Signed-By: /usr/share/keyrings/debian-archive-keyring.gpg
"""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (DEBIAN_12, Release("debian", "debian", "bookworm")),
        (MINT, Release("debian", "linuxmint", "wilma")),
        (FEDORA, Release("", "fedora", "")),
        ("", Release("", "", "")),
    ],
)
def test_the_release_is_read_from_what_the_system_says(text: str, expected: Release) -> None:
    assert system.release(text) == expected


def test_a_machine_with_every_library_lacks_none() -> None:
    assert system.missing({"libraries unseen", "libraries screen"}, has=lambda _: True) == []


def test_the_package_of_each_missing_library_is_named() -> None:
    lacking = {"libEGL.so.1", "libxcb-cursor.so.0"}
    packages = system.missing({"libraries unseen", "libraries screen"}, has=lambda library: library not in lacking)
    assert packages == ["libegl1", "libxcb-cursor0"]


def test_an_unseen_program_is_not_asked_for_the_libraries_of_a_screen() -> None:
    assert system.missing({"libraries unseen"}, has=lambda _: False) == list(system.UNSEEN)


def test_the_tests_need_xvfb_and_xauth(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")
    assert system.missing({"libraries tests"}) == ["xvfb", "xauth"]


def test_a_library_that_does_not_exist_does_not_load() -> None:
    assert not system.loads("libnobodyhasthis.so.0")


@pytest.mark.parametrize(
    ("name", "text", "key"),
    [
        ("sources.list", ONE_LINE, "/etc/key.gpg"),
        ("debian.sources", STANZAS, "/usr/share/keyrings/debian-archive-keyring.gpg"),
    ],
)
def test_the_machines_own_mirror_is_found_in_either_form(name: str, text: str, key: str) -> None:
    expected = Mirror("mirror.example/debian", "security.example/debian-security", key)
    assert system.mirror([("other.list", ""), (name, text)], "bookworm") == expected


def test_a_source_that_is_switched_off_is_no_mirror() -> None:
    text = STANZAS.replace("Types: deb\n", "Types: deb\nEnabled: no\n")
    assert system.mirror([("debian.sources", text)], "bookworm") is None


def test_another_release_is_no_mirror() -> None:
    assert system.mirror([("sources.list", ONE_LINE)], "noble") is None


def test_the_next_release_stays_behind_the_machines_own() -> None:
    files = system.next_release_files(Mirror("mirror.example/debian", "security.example/s", "/etc/key.gpg"))
    source, pin = files.values()
    assert source.splitlines() == [
        "deb [signed-by=/etc/key.gpg] mirror.example/debian trixie main",
        "deb [signed-by=/etc/key.gpg] security.example/s trixie-security main",
    ]
    assert pin.count("Pin-Priority: 100") == 2
    assert "Pin: release n=trixie\n" in pin


def test_without_a_security_mirror_there_is_one_source() -> None:
    source = next(iter(system.next_release_files(Mirror("mirror.example/debian", None, None)).values()))
    assert source == "deb mirror.example/debian trixie main\n"


def test_the_one_command_renews_the_lists_first() -> None:
    command = system.apt_command(["libegl1", "libgl1"])
    assert command.startswith("sudo apt-get update && sudo apt-get install ")
    assert command.endswith("libegl1 libgl1")
