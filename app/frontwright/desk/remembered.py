"""Answers that take a while, kept as long as what they were made from is the very same."""

from __future__ import annotations

from collections.abc import Callable
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
