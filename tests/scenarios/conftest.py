"""How the figures of a job are held against those of a worked job (see README.md here)."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest

type Row = Mapping[str, object]
type Compare = Callable[[Row, Row], list[str]]

HERE = Path(__file__).parent
FOUND_BY = {
    "closures": ("run",),
    "sums": ("of",),
    "sights": ("front",),
    "parts": ("front", "kind"),
    "panels": ("front",),
    "rows": ("fronts",),
    "chains": ("of",),
    "dowels": ("front", "rail"),
    "cups": ("front",),
    "leaves": ("for",),
    "billets": ("machine",),
    "strips": (),
    "hinges": ("front",),
    "checks": ("code", "where"),
}
FREE = {
    "parts": {"id"},
    "billets": {"id", "machine"},
    "strips": {"id", "on", "order"},
    "checks": {"code", "where", "ways_out", "answer"},
}
ROOTS = {"square_diagonal", "second_diagonal_predicted", "second_diagonal_residual", "limit", "value"}
NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+|/[1-9][0-9]*)?")


@dataclass(frozen=True)
class Found:
    """A row: what it is found by, and the figures in it (those of inner objects by a dotted name)."""

    section: str
    by: tuple[str, ...]
    figures: dict[str, object]

    def wrong(self, got: Found) -> list[str]:
        return [
            f"{self.place}, {key}: expected {want!r}, got {got.figures.get(key, 'nothing')!r}"
            for key, want in self.figures.items()
            if key not in got.figures or not agree(key, want, got.figures[key])
        ]

    @property
    def place(self) -> str:
        return ", ".join((self.section, *self.by))


def agree(key: str, want: object, got: object) -> bool:
    if isinstance(want, list) and isinstance(got, list):
        return len(want) == len(got) and all(agree(key, one, other) for one, other in zip(want, got, strict=True))
    exact, other = number(want), number(got)
    if exact is None or other is None:
        return type(want) is type(got) and want == got
    return abs(exact - other) <= allowance(key, str(want))


def number(value: object) -> Fraction | None:
    return Fraction(value) if isinstance(value, str) and NUMBER.fullmatch(value) else None


def allowance(key: str, want: str) -> Fraction:
    if key in ("mass", "content"):
        return Fraction(1, 2 * 10 ** len(want.partition(".")[2]))
    return Fraction(2 if key in ROOTS else 0, 10**6)


def rows(figures: Row, section: str) -> Iterator[Found]:
    """The rows of a section, a check as one row for each subject."""
    listed = figures.get(section, [])
    assert isinstance(listed, list), section
    for row in listed:
        for each in [row | {"where": [one]} for one in row["where"]] if section == "checks" else [row]:
            by = tuple(plain(each.get(key)) for key in FOUND_BY.get(section, ("id",)))
            inner = {f"{k}.{i}": v for k, o in each.items() if isinstance(o, dict) for i, v in o.items()}
            outer = {k: v for k, v in each.items() if not isinstance(v, dict) and k not in FREE.get(section, ())}
            yield Found(section, by, outer | inner)


def plain(value: object) -> str:
    text = value if isinstance(value, str) else " ".join(map(str, value)) if isinstance(value, list) else str(value)
    return text.casefold().replace(" ", "").replace("-", "")


def differences(got: Row, expected: Row) -> list[str]:
    """A line for each figure of `expected` that `got` does not have, and for each check that should not be open."""
    lines = [f"{key}: expected {expected[key]}" for key in ("format", "version", "unit") if got[key] != expected[key]]
    for section in (key for key in expected if isinstance(expected[key], list)):
        given = list(rows(got, section))
        for want in sorted(rows(expected, section), key=lambda row: not has_twin(row, given)):
            alike = [row for row in given if row.by == want.by]
            best = min(alike, key=lambda row: len(want.wrong(row)), default=None)
            if best is None:
                lines.append(f"{want.place}: no such row; expected {want.figures}")
                continue
            given.remove(best)
            lines += want.wrong(best)
        if section == "checks":
            lines += [f"{row.place}: {row.figures['level']} is open" for row in given if is_loud(row)]
    return lines


def has_twin(want: Found, given: list[Found]) -> bool:
    """Whether a row agrees in full: such pairs are made first."""
    return any(row.by == want.by and not want.wrong(row) for row in given)


def is_loud(row: Found) -> bool:
    return row.figures["state"] == "open" and row.figures["level"] in ("warn", "stop")


@pytest.fixture(name="differences")
def _differences() -> Compare:
    return differences


@pytest.fixture
def worked() -> Callable[[str], dict[str, object]]:
    """A worked job's file by its name."""

    def load(name: str) -> dict[str, object]:
        return dict(json.loads((HERE / name).read_text(encoding="utf-8")))

    return load
