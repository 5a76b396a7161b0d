"""Jobs opened before, and where jobs are kept."""

from __future__ import annotations

import json
import os
import re
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from frontwright.desk.whole_files import write_whole
from frontwright.resources import resource
from frontwright.store.places import user_data

MOST = 12
SUFFIX = ".frontwright"


def _list_path() -> Path:
    return user_data() / "recent.json"


def recent() -> tuple[Path, ...]:
    """The jobs opened last, the latest first; those whose file is gone are left out."""
    try:
        found = json.loads(_list_path().read_text("utf-8"))
    except (OSError, ValueError):
        return ()
    names = [one for one in found if isinstance(one, str)] if isinstance(found, list) else []
    return tuple(path for path in map(Path, names) if path.is_file())


def remember(path: Path) -> None:
    """Put a job first in the list. A list that cannot be written is no reason to stop anybody."""
    whole = path.resolve()
    _write([whole, *(one for one in recent() if one != whole)][:MOST])


def forget(path: Path) -> None:
    """Take a job out of the list."""
    _write([one for one in recent() if one != path.resolve()])


def _write(paths: Sequence[Path]) -> None:
    place = _list_path()
    with suppress(OSError):
        place.parent.mkdir(parents=True, exist_ok=True)
        write_whole(place, json.dumps([str(path) for path in paths], indent=1).encode())


def jobs_folder() -> Path:
    """Where new jobs go: a folder of ours in the person's documents."""
    home = Path.home()
    said = Path(os.environ.get("XDG_DOCUMENTS_DIR", ""))
    documents = said if said.is_absolute() else home / "Documents"
    on_desktop = sys.platform in ("win32", "darwin") or documents.is_dir()
    return (documents if on_desktop else home) / "Frontwright jobs"


def free_path(folder: Path, name: str) -> Path:
    """A path for a job of this name that is not taken yet; the folder is made. OSError if it cannot be."""
    folder.mkdir(parents=True, exist_ok=True)
    plain = re.sub(r"[^\w\- ]+", " ", name).strip()[:80] or "job"
    path, number = folder / f"{plain}{SUFFIX}", 1
    while path.exists():
        number += 1
        path = folder / f"{plain} {number}{SUFFIX}"
    return path


def sample(name: str, folder: Path) -> Path:
    """A copy of a sample job as a job file in this folder; the one laid there before, if there is one.

    OSError or StoreError where it cannot be written.
    """
    from frontwright.exchange.json_form import job_from_json
    from frontwright.store import create

    path = folder / f"{name}{SUFFIX}"
    if path.is_file():
        return path
    folder.mkdir(parents=True, exist_ok=True)
    create(path, job_from_json(resource("samples", f"{name}.json").read_text("utf-8"))).close()
    return path
