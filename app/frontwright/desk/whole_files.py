"""Files that are there whole or not at all."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path


def write_whole(path: Path, content: bytes) -> None:
    """Write a file beside its place and move it there, so that there is never half of one.

    OSError where it cannot be written; what stood at `path` is then as it was.
    """
    new = path.with_name(f"{path.name}.new")
    try:
        new.write_bytes(content)
        new.replace(path)
    finally:
        with suppress(OSError):
            new.unlink(missing_ok=True)
