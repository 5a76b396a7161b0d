"""What a sheet is about and what it shows: enough to list it, to name what made it stale, and to hold it back."""

from __future__ import annotations

import hashlib
from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.findings import Check

Paper = Literal["a4", "letter"]
Fact = tuple[str, str]


@dataclass(frozen=True, slots=True)
class SheetInfo:
    """One sheet as it would be made now.

    `key` finds it ("10-door:DA"); `kind` is its file's word ("door"), `number` its number ("10"), `subject` the id
    that it is about ("" for the whole job). `facts`: every figure on it, as name and text. `held_by`: stops that
    nobody answered; `answered`: checks on it that somebody did. `rests_on`: names of what is assumed, `assumed` those
    that are figures. `boxes`: names of facts for which the sheet has a box to write in as long as they are not known.
    """

    key: str
    number: str
    kind: str
    subject: str
    title: str
    facts: tuple[Fact, ...] = ()
    held_by: tuple[Check, ...] = ()
    answered: tuple[Check, ...] = ()
    rests_on: tuple[str, ...] = ()
    assumed: tuple[Figure, ...] = field(default=(), compare=False)
    boxes: tuple[str, ...] = ()

    @property
    def held(self) -> bool:
        """Whether a stop holds the sheet back."""
        return bool(self.held_by)

    @property
    def file_word(self) -> str:
        """What its file is called after, with the number: "10-door"."""
        return f"{self.number}-{self.kind}"


@dataclass(frozen=True, slots=True)
class Stamp:
    """What stands at the foot: when it was printed (as words) and which version of the sheet this is.

    `versions`: by key, where sheets of one file are not all at the same version.
    """

    version: int = 1
    printed: str = ""
    versions: Mapping[str, int] = field(default_factory=dict)

    def version_of(self, key: str) -> int:
        return self.versions.get(key, self.version)


class HeldBack(Exception):
    """A sheet was asked for that a stop holds back; the text names each sheet and each stop."""

    def __init__(self, infos: Iterable[SheetInfo]) -> None:
        self.infos = tuple(infos)
        super().__init__("; ".join(f"{info.title} is held back by {said(info.held_by)}" for info in self.infos))


def said(checks: Iterable[Check]) -> str:
    """Checks by code and subject: "closure of R1, cover of F5"."""
    return ", ".join(f"{check.code} of {' and '.join(check.where)}" for check in checks)


def digest(info: SheetInfo) -> str:
    """A short text that is the same as long as the sheet would show the same."""
    answers = [(check.code, *check.where, check.answer or "") for check in info.answered]
    shows = repr((info.kind, info.subject, info.title, info.facts, answers, info.rests_on))
    return hashlib.sha256(shows.encode("utf-8", "backslashreplace")).hexdigest()[:16]


def with_blanks(info: SheetInfo, blank: Container[str]) -> SheetInfo:
    """The sheet as it was while these boxes were blank: what was written into them by hand is no change."""
    facts = tuple((name, "" if name in info.boxes and name in blank else text) for name, text in info.facts)
    return replace(info, facts=facts)


def assumed_in(figures: Iterable[Figure]) -> tuple[Figure, ...]:
    """Every assumed figure that these rest on, each name and value once, in the order it is met."""
    found: dict[tuple[str, object], Figure] = {}
    seen: set[int] = set()
    waiting = list(figures)[::-1]
    while waiting:
        here = waiting.pop()
        if id(here) in seen or not here.rests:
            continue
        seen.add(id(here))
        if here.source == "assumed":
            found.setdefault((here.name, here.units), here)
        waiting.extend(term.figure for term in reversed(here.terms))
    return tuple(found.values())
