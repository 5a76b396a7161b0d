"""What the facing chapter gives: every piece that covers something, in gluing order, and what the covering does."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from frontwright.core.condition.result import Ground
from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.job import AdhesiveKind, MadeOf, SurfaceWhere, Trim
from frontwright.core.lengths import Exact, Length
from frontwright.core.returns import CoveredOpening

PieceKind = Literal[
    "skin", "underside", "return", "stile strip", "rail strip",
    "toe kick", "valance", "light rail", "top panel", "apron", "filler",
]  # fmt: skip
type Place = tuple[Exact, Exact, Exact, Exact]  # left, bottom, right, top in the elevation of the run


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip, skin or piece of trim. `order`: the step in which it is glued on; `number`: its place in gluing order.

    `covers`: ids of the pieces whose edges it covers; `ends`: its two widths where it tapers. `group`: pieces of one
    group are cut from the same leaves. `place`: where it lies in the elevation, None where it is not seen there.
    """

    id: str
    run: str
    on: str
    length: Figure
    width: Figure
    thickness: Figure
    rough_length: Figure
    rough_width: Figure
    order: int
    kind: PieceKind = "rail strip"
    number: int = 0
    made_of: MadeOf = "sawn"
    species: str = ""
    covers: tuple[str, ...] = ()
    ends: tuple[Figure, Figure] | None = None
    group: str = ""
    upright: bool = False
    place: Place | None = None


@dataclass(frozen=True, slots=True)
class Packing:
    """What is put behind a return, a skin or a drawer front: how long and wide, and how thick at both its ends."""

    id: str
    of: str
    what: Literal["return", "proud end", "drawer front"]
    length: Figure
    width: Figure
    ends: tuple[Figure, Figure]


@dataclass(frozen=True, slots=True)
class TrimPlan:
    """A trim worked out (F45, F46). `length`: to the long points; `altogether`: returns with it. `joints`: where it is
    pieced, from the run's datum, and under which front (empty: under none). `mitred`: the sides that turn back.

    `swell`, `shrink`: across a solid top or apron from the moisture when made; None where it does not move.
    """

    trim: Trim
    run: str
    length: Figure
    width: Figure
    thickness: Figure
    altogether: Figure
    pieces: tuple[Strip, ...]
    joints: tuple[tuple[Figure, str], ...] = ()
    mitred: tuple[str, ...] = ()
    swell: Figure | None = None
    shrink: Figure | None = None

    @property
    def id(self) -> str:
        return self.trim.id


@dataclass(frozen=True, slots=True)
class Bond:
    """What the pieces on one surface of a run are stuck on with (F72): `kind` None is nothing until it is made good.

    `where`: the surface; `ground`: what is found there. `fits`: the
    adhesive holds on it. `millilitres` of all, `per_mix` strips to a mix within its pot life, so many `mixes`.
    """

    run: str
    where: SurfaceWhere
    ground: Ground
    fits: bool
    kind: AdhesiveKind | None
    adhesive: str
    area: Fraction
    millilitres: Fraction
    strips: int
    per_mix: int
    mixes: int
    film: Figure
    pot: Fraction
    share: Fraction
    minutes: Fraction


@dataclass(frozen=True, slots=True)
class Pins:
    """F73 for pieces of one thickness on wood of one thickness: the limits, the pin, how many; None: none fits."""

    run: str
    pieces: tuple[str, ...]
    thickness: Figure
    behind: Figure
    least: Figure
    most: Figure
    pin: Length | None
    count: int


@dataclass(frozen=True, slots=True)
class RunFacing:
    """A run covered. `openings`: those whose inside edges are covered; `length`: the run with its skins (F43).

    `sizeless`: what by the readings has no size left; it is no piece.
    """

    run: str
    pieces: tuple[Strip, ...]
    trims: tuple[TrimPlan, ...]
    packings: tuple[Packing, ...]
    openings: Mapping[str, CoveredOpening]
    length: Figure | None
    bonds: tuple[Bond, ...] = ()
    pins: tuple[Pins, ...] = ()
    sizeless: tuple[Strip, ...] = ()


@dataclass(frozen=True, slots=True)
class FacingPlan:
    """All runs that something is put on, in their order."""

    runs: Mapping[str, RunFacing] = field(default_factory=dict)
    checks: tuple[Check, ...] = ()

    @property
    def pieces(self) -> tuple[Strip, ...]:
        """Every piece of every run, in gluing order."""
        return tuple(piece for run in self.runs.values() for piece in run.pieces)

    @property
    def strips(self) -> tuple[Strip, ...]:
        """The pieces that are sawn from leaves."""
        return tuple(piece for piece in self.pieces if piece.made_of == "sawn")
