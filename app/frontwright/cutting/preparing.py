"""The search's inner loops become machine code once on a machine: in a process that no search's end cuts off.

A stamp beside what is kept tells later starts that it is done; until then a search makes do with what needs none.
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
import tempfile
import threading
import time
from importlib.metadata import version
from pathlib import Path

_PATIENCE = 300  # seconds after which a preparation that left no stamp is taken to have failed


def prepare_beside() -> None:
    """Begin to prepare in a process of its own, where nothing is prepared and nobody else does; returns at once."""
    if is_prepared() or not _claimed():
        return
    process = subprocess.Popen(
        [sys.executable, "-P", "-c", _code()],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,  # it lives on where the program ends
    )
    threading.Thread(target=process.wait, daemon=True).start()


def prepare_now() -> None:
    """Prepare and wait for it: some 15 seconds where it was never done, nothing else. For set-up and measuring."""
    if not is_prepared():
        subprocess.run(
            [sys.executable, "-P", "-c", _code()], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False
        )


def is_prepared() -> bool:
    """Whether this version is prepared for this Python."""
    return _stamp().exists()


def under_way() -> bool:
    """Whether another process prepares at this moment, so that it need not be done twice."""
    try:
        return not is_prepared() and time.time() - _begun().stat().st_mtime < _PATIENCE
    except OSError:
        return False  # nobody has begun


def main() -> None:
    """What the process does, after everything else that the machine has to do."""
    from frontwright.cutting.search import prepare

    if hasattr(os, "nice"):
        os.nice(5)
    prepare()
    _stamp().touch()
    _begun().unlink(missing_ok=True)


def _code() -> str:
    home = str(Path(__file__).parents[2])
    return f"import sys; sys.path.insert(0, {home!r}); from frontwright.cutting.preparing import main; main()"


def _stamp() -> Path:
    """Where it is told that all is done, named by what was prepared: the sources, the compiler, the interpreter."""
    folder = Path(__file__).parent / "search"
    told = f"{version('numba')} {sys.version} {folder}"
    for source in sorted(folder.glob("*.py")):
        told += f" {source.name} {source.stat().st_mtime_ns}"
    kept = folder / "__pycache__"
    place = kept if os.access(kept, os.W_OK) else Path(tempfile.gettempdir())
    return place / f"prepared-{hashlib.sha256(told.encode()).hexdigest()[:16]}"


def _begun() -> Path:
    return _stamp().with_suffix(".begun")


def _claimed() -> bool:
    """Whether it is for this process to begin: nobody has, or whoever did has failed."""
    claim = _begun()
    try:
        if claim.exists() and time.time() - claim.stat().st_mtime < _PATIENCE:
            return False
        claim.touch()
    except OSError:
        return False  # nowhere to keep anything
    return True
