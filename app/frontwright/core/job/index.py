"""A job's rows by what they belong to, in the order of the work; made once for each working out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache

from frontwright.core.job import (
    UPRIGHT,
    Allowances,
    AsBuilt,
    Cabinet,
    Column,
    End,
    Front,
    Job,
    Limits,
    Look,
    Member,
    Opening,
    Reading,
    Room,
    Run,
)
from frontwright.core.lengths import Typed, Unit

ReadingKey = tuple[str, str, str]


@lru_cache(maxsize=10_000)
def natural(text: str) -> tuple[tuple[int, int, str], ...]:
    """A key that sorts F2 before F10: runs of digits count as numbers."""
    parts: list[tuple[int, int, str]] = []
    digits = ""
    for letter in [*text, ""]:
        if letter.isascii() and letter.isdigit():
            digits += letter
            continue
        if digits:
            parts.append((0, int(digits), ""))
            digits = ""
        if letter:
            parts.append((1, 0, letter))
    return tuple(parts)


def told(value: object) -> bool:
    """Whether a field says anything: a length that cannot be read says nothing."""
    return value is not None and not (isinstance(value, Typed) and value.value is None)


class JobIndex:
    """Rows grouped by run, column and opening; the reading that counts for each (of, what, at); the single rows."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.unit: Unit = job.heading.unit
        self.allowances: Allowances = job.allowances.get("allowances") or Allowances()
        self.limits: Limits = job.limits.get("limits") or Limits()
        self.rooms: list[Room] = sorted(job.rooms.values(), key=lambda r: (r.place, natural(r.id)))
        self.runs: list[Run] = self._runs_in_order()
        self.members: dict[str, list[Member]] = _grouped(job.members.values(), lambda m: m.run)
        self.columns: dict[str, list[Column]] = _grouped(job.columns.values(), lambda c: c.run)
        self.cabinets: dict[str, list[Cabinet]] = _grouped(job.cabinets.values(), lambda c: c.run)
        self.openings: dict[str, list[Opening]] = _grouped(job.openings.values(), lambda o: o.column)
        self.fronts: dict[str, list[Front]] = _grouped(job.fronts.values(), lambda f: f.opening)
        self.ends: dict[tuple[str, str], End] = {(e.run, e.side): e for e in job.ends.values()}
        self.readings: dict[ReadingKey, Reading] = {}
        self.heights: dict[tuple[str, str], list[str]] = defaultdict(list)
        self.built: dict[tuple[str, str], AsBuilt] = {(row.of, row.what): row for row in job.as_built.values()}
        self._looks: dict[str, Sequence[tuple[str, Look]]] = {}
        self._take(job.readings.values())

    def _runs_in_order(self) -> list[Run]:
        rooms = {room.id: at for at, room in enumerate(self.rooms)}
        return sorted(self.job.runs.values(), key=lambda r: (rooms.get(r.room, -1), r.place, natural(r.id)))

    def _take(self, readings: Iterable[Reading]) -> None:
        """The last reading that is not struck out and can be read counts."""
        for reading in readings:
            if reading.struck or reading.value is None or reading.value.value is None:
                continue
            key = (reading.of, reading.what, reading.at)
            if key not in self.readings:
                self.heights[key[:2]].append(reading.at)
            self.readings[key] = reading

    def uprights(self, run: str) -> list[Member | Column]:
        """Upright members and columns of a run, left to right."""
        members = [m for m in self.members.get(run, []) if m.kind in UPRIGHT]
        both: list[Member | Column] = [*members, *self.columns.get(run, [])]
        return sorted(both, key=lambda item: (item.place, natural(item.id)))

    def looks_over(self, opening: str) -> Sequence[tuple[str, Look]]:
        """The looks that hold for an opening, nearest first, each with its level; looked up once."""
        if opening not in self._looks:
            found = [(level, self.job.looks.get(f"{level}:{of}")) for level, of in self.scopes(opening)]
            self._looks[opening] = [(level, look) for level, look in found if look is not None]
        return self._looks[opening]

    def scopes(self, opening: str) -> list[tuple[str, str]]:
        """Opening, cabinet, run, room of an opening: (level, id), as far as they are there."""
        row = self.job.openings.get(opening)
        column = self.job.columns.get(row.column) if row else None
        run = self.job.runs.get(column.run) if column else None
        scopes = [("opening", opening)]
        if column and column.cabinet:
            scopes.append(("cabinet", column.cabinet))
        if run:
            scopes += [("run", run.id), ("room", run.room)]
        return scopes

    def inherited(self, opening: str, field: str) -> object:
        """The nearest value of a look's field for this opening, or None where nobody chose."""
        for _, look in self.looks_over(opening):
            value: object = getattr(look, field)
            if told(value):
                return value
        return None

    def scheme(self, opening: str) -> str:
        """How fronts lie at this opening; partial cover until it is chosen."""
        return str(self.inherited(opening, "scheme") or "partial cover")

    def cabinet_kind(self, run: str) -> str:
        """Face frame or frameless, by the run's first box."""
        boxes = sorted(self.cabinets.get(run, []), key=lambda c: c.place)
        return boxes[0].kind if boxes else "face frame"


def _grouped[R: (Member, Column, Cabinet, Opening, Front)](
    rows: Iterable[R], of: Callable[[R], str]
) -> dict[str, list[R]]:
    groups: dict[str, list[R]] = defaultdict(list)
    for row in rows:
        groups[of(row)].append(row)
    for group in groups.values():
        group.sort(key=lambda row: (row.place, natural(row.id)))
    return groups
