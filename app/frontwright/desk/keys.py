"""Keys of cells and actions: words joined by strokes, so that a place in a job can be named in one text."""

from __future__ import annotations

from dataclasses import dataclass


def key(*parts: str) -> str:
    """One text for a place: table, row, field (readings: what and at); or for an action: its verb and its objects."""
    return "/".join(part.replace("%", "%25").replace("/", "%2F") for part in parts)


def parts_of(text: str) -> tuple[str, ...]:
    """The parts a key was made of."""
    return tuple(part.replace("%2F", "/").replace("%25", "%") for part in text.split("/"))


ASK = "ask"  # the table of cells in which a person says what a page is to show
TAKEN = "taken"  # the table of a reading's own fields (by, on, over paint); its size has a key by what was read


@dataclass(frozen=True, slots=True)
class Place:
    """Where a cell's entry goes: the table, the row's id and the field; `at` of readings only."""

    table: str
    row: str
    field: str
    at: str = ""

    @classmethod
    def of(cls, text: str) -> Place:
        """The place of a cell key; ValueError where it is none."""
        parts = parts_of(text)
        if len(parts) not in (3, 4):
            raise ValueError(f"“{text}” names no place of a job")
        return cls(*parts)

    @property
    def key(self) -> str:
        at = (self.at,) if self.table == "readings" else ()
        return key(self.table, self.row, self.field, *at)
