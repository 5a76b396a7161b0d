"""Rows of one kind, found by their id: the only container of what is entered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Protocol


class Row(Protocol):
    """Anything with an id of its own; every class of `core.job` is one."""

    @property
    def id(self) -> str: ...


class Table[R: Row](Mapping[str, R]):
    """An unchanging mapping from id to row; equal when the same rows stand in it, in whatever order they came."""

    __slots__ = ("_rows",)

    def __init__(self, rows: Iterable[R] = ()) -> None:
        self._rows: dict[str, R] = {row.id: row for row in rows}

    def __getitem__(self, key: str) -> R:
        return self._rows[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)

    def __eq__(self, other: object) -> bool:
        return self._rows == other._rows if isinstance(other, Table) else NotImplemented

    def __hash__(self) -> int:
        return hash(frozenset(self._rows))

    def __repr__(self) -> str:
        return f"Table({list(self._rows.values())!r})"

    def put(self, *rows: R) -> Table[R]:
        """The table with these rows added, or put in place of those of the same id."""
        new = Table[R]()
        new._rows = self._rows | {row.id: row for row in rows}
        return new

    def drop(self, *ids: str) -> Table[R]:
        """The table without the rows of these ids; an id that is not there is passed over."""
        new = Table[R]()
        new._rows = {key: row for key, row in self._rows.items() if key not in ids}
        return new
