"""Files of earlier versions: numbered steps, each from one version to the next, run on a copy that is then verified.

A step is a function of a plain connection. It stands alone: it names tables and columns as they were in its day and
imports nothing of the classes of today, so that it does in ten years what it did when it was written. After it the rows
are sealed afresh, and version and content are committed together.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Mapping
from contextlib import closing, suppress
from hashlib import blake2b
from pathlib import Path

from frontwright.store.errors import StoreError
from frontwright.store.opening import connect, copy, disconnect, driver
from frontwright.store.schema import VERSION, Noun

Step = Callable[[sqlite3.Connection], None]

STEPS: dict[Noun, dict[int, Step]] = {"job": {}, "shop": {}}  # version a step begins with -> step
# Tables that no total counts; those of the rack have a total of their own.
_UNSUMMED = ("steps", "changes", "state", "drafts", "outbox", "carried", "marks", "rack_state")


def upgrade(
    path: Path,
    noun: Noun,
    version: int,
    verify: Callable[[Path], None],
    steps: Mapping[int, Step] | None = None,
    to: int | None = None,
) -> None:
    """Bring a file of an earlier `version` to that of today; the former file is kept beside it.

    `verify` opens the copy and raises StoreError if it is not whole. StoreError too if a step is missing or fails; the
    file is then as it was.
    """
    chosen = STEPS[noun] if steps is None else steps
    last = VERSION[noun] if to is None else to
    missing = [number for number in range(version, last) if number not in chosen]
    if missing:
        raise StoreError(f"{path} is of version {version}, which this Frontwright cannot read; it was left as it is.")
    copied = path.with_name(f"{path.name}.upgraded")
    try:
        _upgraded(path, noun, copied, [(number, chosen[number]) for number in range(version, last)])
        verify(copied)
        path.replace(path.with_name(f"{path.stem}.version-{version}{path.suffix}"))
        copied.replace(path)
    except (OSError, sqlite3.Error) as error:
        raise StoreError(f"{path} could not be brought to the new version ({error}); it was left as it is.") from error
    finally:
        with suppress(OSError):
            copied.unlink(missing_ok=True)


def _upgraded(path: Path, noun: Noun, copied: Path, steps: list[tuple[int, Step]]) -> None:
    connection_to_old = connect(path, noun)  # StoreError if another has it
    try:
        copy(driver(connection_to_old), copied)
    finally:
        disconnect(connection_to_old)
    with closing(sqlite3.connect(copied, isolation_level=None)) as connection:
        for number, step in steps:
            connection.execute("BEGIN IMMEDIATE")
            step(connection)
            seal_all(connection)
            connection.execute(f"PRAGMA user_version={number + 1}")
            connection.execute("COMMIT")


def seal_all(connection: sqlite3.Connection) -> None:
    """Seal every row of every table that has seals, and the totals in the states, as the files of version 1 do."""
    names = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
    totals = {"state": 0, "rack_state": 0}
    for name in sorted(names, key=lambda name: name in totals):  # the states last: they hold the totals of the others
        if name in totals:
            connection.execute(f"UPDATE {name} SET total = ?", (f"{totals[name]:032x}",))  # noqa: S608  one of two
        seals = _seal_table(connection, name)
        if name not in _UNSUMMED:
            for seal in seals:
                totals["rack_state" if name.startswith("rack_") else "state"] ^= int(seal, 16)


def _seal_table(connection: sqlite3.Connection, name: str) -> list[str]:
    found = connection.execute(f'SELECT * FROM "{name}"')  # noqa: S608  a table of our own, named by the file itself
    columns = [column for column, *_ in found.description]
    keys = [row[1] for row in connection.execute(f'PRAGMA table_info("{name}")') if row[5]]
    seals = []
    for row in found.fetchall():
        cells = dict(zip(columns, row, strict=True))
        content = [[column, cells[column]] for column in sorted(cells) if column != "seal"]
        seals.append(blake2b(json.dumps([name, content]).encode(), digest_size=16).hexdigest())
        where = " AND ".join(f'"{key}" = ?' for key in keys)
        connection.execute(f'UPDATE "{name}" SET seal = ? WHERE {where}', (seals[-1], *(cells[key] for key in keys)))  # noqa: S608
    return seals
