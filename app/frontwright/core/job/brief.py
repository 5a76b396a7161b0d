"""What was asked at the first visit, what the new work has to match, and the photographs taken."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.lengths import Typed

PhotoWhat = Literal["square on", "left end", "right end", "hinge, door open", "inside corner", "toe kick", "damage"]


@dataclass(frozen=True, slots=True)
class Brief:
    """What the whole job rests on; one row. `lead_ban`: the year in which lead in house paint was banned there.

    `doors`, `drawers`, `fixed_fronts`, `frame_length`: counted by eye for the hours (F1), before anything is read.
    `match_*`: what the new work is to match; without a sample it is a near match.
    """

    id: str = "brief"
    visited: str = ""
    ready_by: str = ""
    budget: str = ""
    house_year: int | None = None
    lead_ban: int | None = None
    ceiling: Typed | None = None
    largest_door: Typed | None = None
    doors: int | None = None
    drawers: int | None = None
    fixed_fronts: int | None = None
    frame_length: Typed | None = None
    match_what: str = ""
    match_species: str = ""
    match_finish: str = ""
    match_age: str = ""
    match_sample: bool | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """A question of the first visit (id: its key) and what was said; an empty answer is *not asked*."""

    id: str
    answer: str = ""


@dataclass(frozen=True, slots=True)
class Photo:
    """A photograph of a run (id: run and what): the file or number it has."""

    id: str
    run: str
    what: PhotoWhat = "square on"
    file: str = ""
