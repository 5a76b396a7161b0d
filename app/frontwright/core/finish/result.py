"""What the finish chapter gives: areas and amounts by recipe, loads of the rack, and the calendar."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.job import Finish

StepWhat = Literal["stain", "sealer", "coat"]


@dataclass(frozen=True, slots=True)
class Step:
    """One going over of everything: what is put on, how far it goes, how long it dries, and for how much it is.

    `cover`: square feet a gallon or m2 a litre; `dry` in hours; `volume` in gallons or litres, with the extra.
    """

    what: StepWhat
    name: str
    cover: Figure
    dry: Figure
    volume: Fraction


@dataclass(frozen=True, slots=True)
class Area:
    """What is finished of one thing, in square feet or m2 a coat; of a strip the show face alone (F70)."""

    of: str
    area: Fraction


@dataclass(frozen=True, slots=True)
class Load:
    """What dries at a time: place of the rack -> the fronts or strips on it."""

    number: int
    places: tuple[tuple[str, ...], ...]

    @property
    def of(self) -> tuple[str, ...]:
        return tuple(one for place in self.places for one in place)


@dataclass(frozen=True, slots=True)
class Visit:
    """One load coated once: `begins` in hours from the first coat of the first day, `ends` when it has dried.

    `day` counts from 1; `late`: more hours have gone by since its last coat than the recipe allows.
    """

    load: int
    step: int
    begins: Fraction
    ends: Fraction
    day: int
    late: bool = False


@dataclass(frozen=True, slots=True)
class Usual:
    """The figures of a recipe as told or as usual; see `core.job.Finish`."""

    coats: Figure
    cover: Figure
    extra: Figure
    turn_hours: Figure
    side_minutes: Figure
    dry_hours: Figure
    recoat_most: Figure
    hang_days: Figure
    bumper_days: Figure


@dataclass(frozen=True, slots=True)
class FinishBatch:
    """Everything that one recipe goes on: one batch of tins for all of it (F70).

    `area` a coat, `volume` of the coats alone with the extra. `waiting`: hours of the rack (F71); `work`: minutes of
    coating. `last_day`, `hang_day`, `bumper_day` count from 1. `film`: what coats on both edges take off the gap
    of an inset front, None where none is inset.
    """

    row: Finish
    known: bool
    figures: Usual
    areas: tuple[Area, ...]
    area: Fraction
    steps: tuple[Step, ...]
    volume: Fraction
    loads: tuple[Load, ...]
    visits: tuple[Visit, ...]
    waiting: Fraction
    work: Fraction
    last_day: int
    hang_day: int
    bumper_day: int
    film: Figure | None = None

    @property
    def id(self) -> str:
        return self.row.id

    @property
    def name(self) -> str:
        """What the recipe is called."""
        return self.row.name or self.row.id or "finish"

    @property
    def both_sides(self) -> bool:
        """Whether fronts are coated on both sides at once; so it is taken until it is said."""
        return self.row.both_sides is not False

    @property
    def drying_oil(self) -> bool:
        """Whether its rags may set themselves alight; so it is taken as long as nobody said what it is."""
        return self.row.medium in (None, "oil", "varnish", "wax")


@dataclass(frozen=True, slots=True)
class FinishPlan:
    """The finish of a job, recipe by recipe. `places`, `strips_a_place`, `coat_hours` as told or as usual; `start` is
    the first day as typed."""

    batches: tuple[FinishBatch, ...]
    places: Figure
    strips_a_place: Figure
    coat_hours: Figure
    start: str

    @property
    def area(self) -> Fraction:
        """Square feet or m2 a coat, of all recipes together."""
        return sum((batch.area for batch in self.batches), Fraction(0))

    @property
    def coated(self) -> int:
        """How often a front or strip is coated, all in all; both sides of a front count once."""
        return sum(len(batch.areas) * len(batch.steps) for batch in self.batches)
