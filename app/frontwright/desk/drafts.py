"""What is being typed and what could not be taken: text by cell, kept in the job's file at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from typing import TYPE_CHECKING

from frontwright.store import StoreError

if TYPE_CHECKING:
    from frontwright.store.files import JobFile

LONGEST_DRAFT = 20_000


class Drafts:
    """Text by cell key, and why it was not taken where that is known. It survives closing and a crash."""

    def __init__(self, book: JobFile, why: Callable[[str, str], str]) -> None:
        """`why` says of a draft of an earlier sitting what keeps it from being taken; "" where it was half typed."""
        self._book = book
        self.texts: Mapping[str, str] = book.drafts()
        found = {place: why(place, text) for place, text in self.texts.items()}
        self.problems: dict[str, str] = {place: said for place, said in found.items() if said}

    def keep(self, place: str, text: str) -> None:
        """Keep half-typed text."""
        kept = text[:LONGEST_DRAFT]
        if self.texts.get(place) == kept:
            return
        self.texts = {**self.texts, place: kept}
        with suppress(StoreError):
            self._book.keep_draft(place, kept)

    def refuse(self, place: str, text: str, why: str) -> None:
        """Keep text that could not be taken, with the sentence why."""
        self.problems[place] = why
        self.keep(place, text)

    def forget(self, place: str) -> bool:
        """Drop the text at a place; whether there was any."""
        self.problems.pop(place, None)
        if place not in self.texts:
            return False
        self.texts = {k: v for k, v in self.texts.items() if k != place}
        with suppress(StoreError):
            self._book.drop_draft(place)
        return True
