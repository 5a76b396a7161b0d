"""How fronts and strips are finished: the recipe, test pieces beside what is matched, places to dry; snags on site."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.job.amount import Amount

FinishMedium = Literal["oil", "varnish", "lacquer", "shellac", "water-based", "wax", "paint"]


@dataclass(frozen=True, slots=True)
class Finish:
    """A recipe: stain, sealer, so many coats, and what each takes (F70, F71). None is the usual figure.

    `cover`: square feet a gallon or m2 a litre; `extra`: per cent for brush and tray. `both_sides`: a front stands on
    points and is coated on both sides at once, else it is turned after `turn_hours`. `side_minutes`: to coat one side
    of one front. `dry_hours`: until the next coat; `recoat_most`: longer than this and it is keyed by sanding first.
    `hang_days`, `bumper_days`: after the last coat, until it is hung and until bumpers are stuck on.
    `used` (gallons or litres) and `took` (days) are what came of it.
    """

    id: str
    name: str = ""
    medium: FinishMedium | None = None
    sheen: str = ""
    sanding: str = ""
    stain: str = ""
    stain_hours: Amount | None = None
    stain_cover: Amount | None = None
    sealer: str = ""
    sealer_hours: Amount | None = None
    sealer_cover: Amount | None = None
    coats: int | None = None
    cover: Amount | None = None
    extra: Amount | None = None
    between: str = ""
    both_sides: bool | None = None
    turn_hours: Amount | None = None
    side_minutes: Amount | None = None
    dry_hours: Amount | None = None
    recoat_most: Amount | None = None
    hang_days: Amount | None = None
    bumper_days: Amount | None = None
    batch: str = ""
    used: Amount | None = None
    took: Amount | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class TestPiece:
    """A piece of this wood with every step on it, held beside what is matched.

    `batch` of the wood and of the tins, `recipe` as it was put on. `matches`: what it must match, `age`: how old that
    is; `aim`: to match it as it is today, or once the new wood has darkened. `daylight`, `lamplight`: looked at so.
    """

    id: str
    finish: str | None = None
    wood: str = ""
    batch: str = ""
    tins: str = ""
    recipe: str = ""
    matches: str = ""
    age: str = ""
    aim: Literal["today", "when it has darkened"] | None = None
    daylight: bool | None = None
    lamplight: bool | None = None
    good: bool | None = None
    when: str = ""
    by: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class FinishRoom:
    """Where it dries (one row): fronts that the rack holds, strips to a place, and the days on which coats are put on.

    `coat_hours`: from the first to the last moment of a day at which a coat is begun. `start`: the first day.
    """

    id: str = "finish room"
    places: int | None = None
    strips_a_place: int | None = None
    coat_hours: Amount | None = None
    start: str = ""


@dataclass(frozen=True, slots=True)
class Snag:
    """What is not right yet on site: where, what, who sees to it and until when; `done`: the day it was put right."""

    id: str
    of: str = ""
    what: str = ""
    who: str = ""
    found: str = ""
    due: str = ""
    done: str = ""
    note: str = ""
