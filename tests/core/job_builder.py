"""Jobs in a few words, for tests: rows by their fields as typed, a run by what stands in it, a door by its size."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from frontwright.core.figures import Figure
from frontwright.core.findings import Check, Code
from frontwright.core.fronts.result import FrontPlan
from frontwright.core.job import (
    Column,
    DoorBuild,
    DoorKind,
    Front,
    Heading,
    HingeType,
    Job,
    Look,
    Member,
    MemberKind,
    Opening,
    PanelBuild,
    PanelKind,
    Reading,
    Room,
    Row,
    Run,
    Scheme,
    amount,
)
from frontwright.core.job.declared import declared
from frontwright.core.lengths import UNITS_IN, Length, Unit, typed
from frontwright.core.making.result import FrontMaking, Part
from frontwright.core.plan import Plan, derive
from frontwright.core.survey.result import OpeningPlan

UPRIGHTS: dict[str, MemberKind] = {"S": "stile", "P": "partition", "B": "side", "X": "seam"}
SCHEMES: tuple[Scheme, ...] = ("full cover", "partial cover", "inset")
BUILDS: tuple[DoorKind, ...] = ("dowelled", "stub tenon", "cope and stick", "mitred", "slab")
PANELS: tuple[PanelKind, ...] = ("veneered", "sheet", "solid")
UNITS: tuple[Unit, ...] = ("in", "mm")
PLACES = {
    "widths": ("width", ("top", "middle", "bottom")),
    "heights": ("height", ("left", "middle", "right")),
    "diagonals": ("diagonal", ("\\", "/")),
}
mm, inch = Length.mm, Length.inch


def row(unit: Unit, kind: type[Any], name: str, /, **fields: object) -> Row:
    """A row of this class; lengths and amounts as they are typed."""
    kinds = {one.name: one.kind for one in declared(kind)}
    given = {key: _as_typed(unit, kinds[key], value) for key, value in fields.items()}
    built: Row = kind(id=name, **given)
    return built


def _as_typed(unit: Unit, kind: str, value: object) -> object:
    if not isinstance(value, str):
        return value
    return typed(value, unit) if kind == "length" else amount(value) if kind == "amount" else value


@dataclass(frozen=True)
class Made:
    """A job in the making: each call gives a further one."""

    job: Job

    @property
    def unit(self) -> Unit:
        return self.job.heading.unit

    def put(self, kind: type[Any], name: str, /, **fields: object) -> Made:
        """With a row of this class; its fields as typed. A row of that id that is there keeps what is not told."""
        table = getattr(self.job, Job.table_of(kind))
        new = row(self.unit, kind, name, **fields) if name not in table else None
        if new is None:
            told = row(self.unit, kind, name, **{**_must(kind, table[name]), **fields})
            new = replace(table[name], **{key: getattr(told, key) for key in fields})
        return Made(self.job.put(new))

    def read(self, of: str, what: str, value: str, at: str = "", **fields: object) -> Made:
        """With a reading; taken again it counts instead of the one before."""
        return self.put(
            Reading, f"{of} {what} {at} {len(self.job.readings)}", of=of, what=what, at=at, value=value, **fields
        )

    def run(self, name: str = "K", **across: str | None) -> Made:
        """With a run of uprights and columns from the left (S stile, P partition, B side, X seam, else a column), each
        with its single reading."""
        made = self.put(Run, name, room="room")
        for place, (one, value) in enumerate(across.items(), 1):
            kind = UPRIGHTS.get(one[0])
            told = {"kind": kind} if kind else {}
            made = made.put(Member if kind else Column, one, run=name, place=place, **told)
            made = made.read(one, "across", value) if value else made
        return made

    def rails(self, top: str | None = "40", bottom: str | None = "40", run: str = "K") -> Made:
        """With a top and a bottom rail through all columns."""
        made = self
        for kind, value in (("top rail", top), ("bottom rail", bottom)):
            made = made.put(Member, f"{run} {kind}", run=run, kind=kind)
            made = made.read(f"{run} {kind}", "across", value) if value else made
        return made

    def opening(self, name: str, column: str, place: int = 1, **sizes: str) -> Made:
        """With an opening: `widths`, `heights`, `diagonals` as texts with commas between; one alone is the middle."""
        made = self.put(Opening, name, column=column, place=place)
        for key, text in sizes.items():
            what, places = PLACES[key]
            values = [value.strip() for value in text.split(",")]
            at = ("middle",) if len(values) == 1 and what != "diagonal" else places
            for one, value in zip(at, values, strict=False):
                made = made.read(name, what, value, one) if value else made
        return made

    def fronts(self, *names: str, opening: str, kind: str = "door", **fields: object) -> Made:
        """With fronts side by side in an opening."""
        made = self
        for place, name in enumerate(names, 1):
            made = made.put(Front, name, opening=opening, kind=kind, place=place, **fields)
        return made

    def look(self, of: str = "room:room", /, **fields: object) -> Made:
        return self.put(Look, of, **fields)

    @property
    def plan(self) -> Plan:
        return derive(self.job)

    def front(self, name: str = "F") -> FrontPlan:
        return self.plan.fronts.fronts[name]

    def making(self, name: str = "F") -> FrontMaking:
        return self.plan.making.fronts[name]

    def part(self, kind: str, front: str = "F") -> Part:
        return next(part for part in self.making(front).parts if part.kind == kind)

    def seen(self, opening: str = "A") -> OpeningPlan:
        return self.plan.survey.openings[opening]

    def checks(self, code: Code, *where: str) -> list[Check]:
        """The checks of this code, those on any of these subjects only."""
        return [c for c in self.plan.checks if c.code == code and (not where or set(where) & set(c.where))]

    def check(self, code: Code, *where: str) -> Check:
        """The one check of this code, on any of these subjects."""
        (found,) = self.checks(code, *where)
        return found

    def found(self, code: Code, *where: str) -> Check:
        """The one open check of this code."""
        (found,) = [c for c in self.checks(code, *where) if c.is_open]
        return found

    def quiet(self, code: Code) -> bool:
        """Whether nothing of this code is open."""
        return not any(c.is_open for c in self.checks(code))


def _must(kind: type[Any], old: object) -> dict[str, object]:
    """What a row of this class cannot do without, as the old row has it."""
    return {one.name: getattr(old, one.name) for one in declared(kind) if one.required and one.name != "id"}


def job(unit: Unit = "mm", **heading: object) -> Made:
    """A job with a room and nothing in it."""
    return Made(Job()).put(Heading, "job", unit=unit, **heading).put(Room, "room")


def opening(unit: Unit = "mm", **sizes: str) -> Made:
    """One opening A by itself."""
    return (
        job(unit)
        .put(Run, "R", room="room", by_itself=True)
        .put(Column, "C", run="R", place=1)
        .opening("A", "C", 1, **sizes)
    )


def door(
    width: str = "448", height: str = "716", kind: DoorKind = "stub tenon", unit: Unit = "mm", **build: object
) -> Made:
    """One door F of this size: its opening is covered by 10 mm (3/8 in) all round."""
    cover = "10" if unit == "mm" else "3/8"
    made = opening(unit, widths=f"{width} - 2*({cover})", heights=f"{height} - 2*({cover})")
    made = made.look(scheme="partial cover", cover=cover, door_build="build").fronts(
        "F", opening="A", hinge_side="left"
    )
    return made.put(DoorBuild, "build", kind=kind, **build)


def paneled(made: Made, kind: PanelKind = "veneered", **fields: object) -> Made:
    """The same door with a panel of its own build."""
    return made.put(PanelBuild, "panel", kind=kind, **fields).put(DoorBuild, "build", panel="panel")


def hinged(made: Made, **fields: object) -> Made:
    """The same job with a hinge chosen for the room."""
    return made.put(HingeType, "hinge", **fields).look(hinge="hinge")


def size(figure: object, unit: Unit = "mm") -> Fraction:
    """A figure, length or count of units as a plain number of its unit."""
    exact = figure.value if isinstance(figure, Figure) else figure
    assert isinstance(exact, Length | Fraction | int)
    return Fraction(exact.units if isinstance(exact, Length) else exact) / UNITS_IN[unit]


def near(figure: object, places: int = 2, unit: Unit = "mm") -> str:
    """A length as a decimal of so many places, half up."""
    scaled = (2 * size(figure, unit) * 10**places + 1) // 2
    return f"{Fraction(scaled, 10**places):.{places}f}"
