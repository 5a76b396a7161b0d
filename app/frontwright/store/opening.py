"""From a path to a connection that is ours: what a file is, whether it may be opened, and how it is held."""

from __future__ import annotations

import os
import sqlite3
import stat
import time
from collections import Counter
from contextlib import closing, suppress
from dataclasses import dataclass
from glob import escape
from pathlib import Path
from typing import cast
from urllib.parse import quote

from sqlalchemy import Connection, NullPool, create_engine, event
from sqlalchemy.exc import DBAPIError

from frontwright.store.errors import StoreError
from frontwright.store.schema import APPLICATION, VERSION, Noun

_MAGIC = b"SQLite format 3\0"
_PATIENCE = {"job": 0.2, "shop": 5.0}  # seconds: a job stays with whoever has it, a shop is wanted for moments only

_ABANDONED = 600  # seconds after which nobody writes a copy any more

_open_here: Counter[tuple[int, int]] = Counter()  # files (device, number) this process has open; see `header`


@dataclass(frozen=True, slots=True)
class Header:
    """What the first hundred bytes of a file say."""

    ours: bool
    version: int


def identity(path: Path) -> tuple[int, int]:
    """What a file is whatever its name: device and number on it."""
    found = path.stat()
    return found.st_dev, found.st_ino


def is_open_here(path: Path) -> bool:
    """Whether this process has that file open."""
    return _open_here[identity(path)] > 0


def header(path: Path, noun: Noun) -> Header:
    """Read the head of a file that is not open in this process.

    It is read by plain file calls, so that SQLite never sees a file that is not ours. On a file that is open here that
    would drop SQLite's lock: closing any handle of a file gives up all locks of the process.
    """
    with path.open("rb") as file:
        head = file.read(100)
    ours = head.startswith(_MAGIC) and int.from_bytes(head[68:72]) == APPLICATION[noun]
    return Header(ours, int.from_bytes(head[60:64]))


def check(path: Path, noun: Noun) -> int:
    """Whether `path` may be opened as a job or shop file: its format version; StoreError if not. Touches nothing."""
    try:
        if path.is_dir():
            raise StoreError(f"{path} is a folder, not a {noun} file; name a file.")
        if not path.exists():
            raise StoreError(f"There is no {noun} file {path}; look for it in another folder, or begin a new one.")
        if not path.is_file():
            raise StoreError(f"{path} is not a file; name a {noun} file.")
        version = _version(path, noun)
        _check_writable(path, noun)
    except OSError as error:
        raise StoreError(f"{path} cannot be read: {error.strerror or error}.") from error
    return version


def _version(path: Path, noun: Noun) -> int:
    if is_open_here(path):
        if noun == "job":
            raise StoreError(f"{path} is open already in this window.")
        return VERSION[noun]
    head = header(path, noun)
    if not head.ours:
        raise StoreError(f"{path} is not a {noun} file of Frontwright; it was left as it is.")
    if head.version > VERSION[noun]:
        raise StoreError(f"{path} was written by a newer Frontwright; open it with that one. It was left as it is.")
    return head.version


def _check_writable(path: Path, noun: Noun) -> None:
    marked = path.stat().st_mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH)
    if not marked or not os.access(path, os.W_OK):
        raise StoreError(f"{path} is read-only; copy the {noun} file to where you may write, and open the copy.")
    if not os.access(path.parent, os.W_OK):
        raise StoreError(
            f"The folder {path.parent} may not be written to; copy the {noun} file elsewhere and open that."
        )


def connect(path: Path, noun: Noun, *, new: bool = False) -> Connection:
    """A connection to a file that is ours, or made `new`; a job file is held until it is closed.

    StoreError if another has it.
    """

    def settled() -> sqlite3.Connection:
        # Without its own transactions the driver leaves them to us: each begins below, as one that means to write.
        raw = sqlite3.connect(_address(path, new=new), uri=True, isolation_level=None, timeout=_PATIENCE[noun])
        try:
            _settle(raw, noun)
        except BaseException:
            raw.close()
            raise
        return raw

    engine = create_engine("sqlite://", creator=settled, poolclass=NullPool)
    event.listen(engine, "begin", lambda connection: connection.exec_driver_sql("BEGIN IMMEDIATE"))
    try:
        connection = engine.connect()
    except (DBAPIError, sqlite3.Error) as error:
        raise failure(path, noun, error) from error
    connection.info["file"] = identity(path)
    _open_here[identity(path)] += 1
    return connection


def driver(connection: Connection) -> sqlite3.Connection:
    """SQLite's own connection below, which can copy a file as it stands."""
    return cast(sqlite3.Connection, connection.connection.driver_connection)


def disconnect(connection: Connection) -> None:
    """Give the file back; a second time does nothing."""
    if not connection.closed:
        _open_here[connection.info["file"]] -= 1
        connection.close()
        connection.engine.dispose()


def _address(path: Path, *, new: bool) -> str:
    place = quote(os.fsencode(path.as_posix()))
    return f"file://{place if place.startswith('/') else '/' + place}?mode={'rwc' if new else 'rw'}"


def _settle(raw: sqlite3.Connection, noun: Noun) -> None:
    if noun == "job":  # the system gives the lock up when the process ends, however it ends
        raw.execute("PRAGMA locking_mode=EXCLUSIVE")
    for setting in ("foreign_keys=ON", "trusted_schema=OFF", "synchronous=FULL", "journal_mode=DELETE"):
        raw.execute(f"PRAGMA {setting}")
    if noun == "job":
        raw.execute("BEGIN EXCLUSIVE")
        raw.execute("COMMIT")


def failure(path: Path, noun: Noun, error: Exception) -> StoreError:
    """The sentence for what SQLite says."""
    origin = error.orig if isinstance(error, DBAPIError) else error
    code = getattr(origin, "sqlite_errorcode", 0) & 0xFF
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return StoreError(f"{path} is in use by another window or program; close it there first.")
    if code == sqlite3.SQLITE_FULL:
        return StoreError(f"The disk of {path} is full; the last change was not kept. Make room and do it again.")
    if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM):
        return StoreError(f"{path} cannot be written to; the last change was not kept.")
    if code == sqlite3.SQLITE_IOERR:
        return StoreError(f"The disk of {path} reports an error; the last change was not kept.")
    return damaged(path, noun, str(origin))


def damaged(path: Path, noun: Noun, what: str) -> StoreError:
    """The sentence for a file that is ours but not as it was written."""
    backup = backup_path(path)
    way = f"{backup.name} beside it is how it was before" if backup.exists() else "bring back a copy of it"
    return StoreError(f"The {noun} file {path} is damaged ({what}); it was left as it is: {way}.")


def check_place(path: Path, noun: Noun) -> None:
    """Whether a new file can be made at `path`; StoreError if not."""
    if path.is_dir():
        raise StoreError(f"{path} is a folder, not a {noun} file; name a file.")
    if path.exists():
        raise StoreError(f"{path} is there already; choose another name.")
    if not path.parent.is_dir():
        raise StoreError(f"There is no folder {path.parent}; make it first or choose another.")
    if not os.access(path.parent, os.W_OK):
        raise StoreError(f"The folder {path.parent} may not be written to; choose another.")


def copy(source: sqlite3.Connection, path: Path) -> None:
    """Write a copy of an open file by SQLite itself, in place of what stands at `path`; StoreError if it cannot be.

    Written under another name first, so that a copy that is there is only given up for a whole one. That name is of
    this process alone: two windows of one shop may copy it at the same moment.
    """
    new = path.with_name(f"{path.name}.{os.getpid()}.new")
    try:
        _drop_abandoned(path)
        with closing(sqlite3.connect(new)) as target:
            source.backup(target)
        new.replace(path)
    except (OSError, sqlite3.Error) as error:
        raise StoreError(f"No copy could be written to {path} ({error}); nothing was changed.") from error
    finally:
        with suppress(OSError):
            new.unlink(missing_ok=True)


def _drop_abandoned(path: Path) -> None:
    """Copies to this place that were begun and given up long ago, by a process that was killed."""
    for other in path.parent.glob(f"{escape(path.name)}.*.new"):
        if time.time() - other.stat().st_mtime > _ABANDONED or other.name == f"{path.name}.{os.getpid()}.new":
            other.unlink(missing_ok=True)


def backup_path(path: Path) -> Path:
    """Where the copy stands that is made before the first edit of a sitting."""
    return path.with_name(path.name + ".bak")
