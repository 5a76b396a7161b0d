"""A file is written whole or is as it was."""

from __future__ import annotations

from pathlib import Path

import pytest
from frontwright.desk.whole_files import write_whole


def test_a_file_is_put_in_place_of_the_former_and_nothing_lies_beside_it(tmp_path: Path) -> None:
    place = tmp_path / "a.json"
    place.write_bytes(b"old")
    write_whole(place, b"new")
    assert {one.name: one.read_bytes() for one in tmp_path.iterdir()} == {"a.json": b"new"}


def test_a_disk_that_fails_in_the_middle_leaves_the_former_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "a.json"
    place.write_bytes(b"old")

    def fills_up(path: Path, content: bytes) -> int:
        with path.open("wb") as file:
            file.write(content[:2])
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", fills_up)
    with pytest.raises(OSError, match="No space left"):
        write_whole(place, b"new and longer")
    assert {one.name: one.read_bytes() for one in tmp_path.iterdir()} == {"a.json": b"old"}
