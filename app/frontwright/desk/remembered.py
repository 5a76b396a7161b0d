"""Answers that take a while, kept as long as what they were made from is the very same."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, cast


class Remembered:
    """One answer by name, with what it was made from; that is compared by identity, which costs nothing."""

    def __init__(self) -> None:
        self._kept: dict[str, tuple[tuple[object, ...], Any]] = {}

    def get[T](self, name: str, of: tuple[object, ...], make: Callable[[], T]) -> T:
        """The answer of that name, made anew where anything it was made from is another thing by now."""
        kept = self._kept.get(name)
        if kept is not None and len(kept[0]) == len(of) and all(a is b for a, b in zip(kept[0], of, strict=True)):
            return cast(T, kept[1])
        made = make()
        self._kept[name] = (of, made)
        return made


class RowByRow[R]:
    """Something made of each row of a table, made anew only for rows that are not the very same any more."""

    def __init__(self) -> None:
        self._of: object = None
        self._kept: dict[str, tuple[R, R]] = {}

    def of(self, rows: Mapping[str, R], of: object, make: Callable[[R], R]) -> dict[str, R]:
        """What is made of each row by its id; `of`: what else it depends on."""
        kept = self._kept if self._of == of else {}
        self._of, self._kept = of, {}
        for name, row in rows.items():
            old = kept.get(name)
            self._kept[name] = old if old is not None and old[0] is row else (row, make(row))
        return {name: made for name, (_, made) in self._kept.items()}
