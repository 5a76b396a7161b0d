"""What comes with the program is found, in a checkout and as installed."""

from pathlib import Path

import pytest
from frontwright import resources


@pytest.mark.parametrize(
    "name", ["DejaVuSans.ttf", "DejaVuSans-Bold.ttf", "DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf"]
)
def test_the_fonts_of_window_and_paper_are_shipped_with_their_licence(name: str) -> None:
    assert resources.resource("fonts", name).read_bytes()[:4] == b"\0\1\0\0"
    assert name in resources.resource("fonts", "LICENSE-DejaVu.txt").read_text(encoding="utf-8")


def test_an_installed_program_takes_the_resources_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "installed").mkdir()
    (tmp_path / "installed" / "table.json").write_text("{}")
    monkeypatch.setattr(resources, "_HOMES", (tmp_path / "installed", tmp_path / "checkout"))
    assert resources.resource("table.json") == tmp_path / "installed" / "table.json"


def test_a_missing_resource_is_named() -> None:
    with pytest.raises(FileNotFoundError, match=r"fonts/Nothing\.ttf is missing"):
        resources.resource("fonts", "Nothing.ttf")
