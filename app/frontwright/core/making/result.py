"""What the making chapter gives: every part of every front, panels, chains of thickness, proofs, set-ups."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.job import CoreGrain, DoorKind, Grain, PanelKind

Material = Literal["solid", "veneered", "sheet", "glass"]
Work = Literal["crosscut", "rip", "sheet"]
PartKind = Literal["stile", "top rail", "bottom rail", "mid rail", "mullion", "slab", "panel", "core", "lipping"]


@dataclass(frozen=True, slots=True)
class BuildPlan:
    """A door build with every figure chosen or assumed. `joint`: what a rail gains at each end (0 dowelled; F30);
    `engagement`: how far panel and frame overlap (groove, stick or rabbet)."""

    id: str
    name: str
    kind: DoorKind
    thickness: Figure
    stile: Figure
    top_rail: Figure
    bottom_rail: Figure
    mid_rail: Figure
    mid_rails: int
    drawer_rail: Figure
    joint: Figure
    engagement: Figure
    engagement_word: str
    clearance: Figure
    tongue: Figure | None
    panel: PanelPlan
    dowel: Figure
    dowel_depth: Figure
    dowel_outer: Figure
    dowel_wall: Figure
    species: str | None


@dataclass(frozen=True, slots=True)
class PanelPlan:
    """A panel build with its chain of thickness (F37). `thickness`: finished. `measured`: core or sheet was.

    `core_grain`: to the leaves.
    """

    id: str
    kind: PanelKind
    species: str | None
    thickness: Figure
    measured: bool
    nominal: Figure
    core: Figure
    slice: Figure
    glue_loss: Figure
    show_loss: Figure
    glued: Figure
    pressed: Figure
    veneer_left: Figure
    least_left: Figure
    core_grain: CoreGrain = "across"


@dataclass(frozen=True, slots=True)
class Part:
    """A part: length along the grain, width, thickness; rough sizes None where it comes from a row's blank."""

    id: str
    front: str
    kind: PartKind
    qty: int
    length: Figure
    width: Figure
    thickness: Figure
    rough_length: Figure | None
    rough_width: Figure | None
    material: Material
    species: str | None
    grain: Grain


@dataclass(frozen=True, slots=True)
class PanelPart:
    """A panel in its field: `along`, `across` the grain; shop-made ones with core, leaves and joints (F56, F57)."""

    front: str
    part: str
    along: Figure
    across: Figure
    thickness: Figure
    grain: Grain
    core_along: Figure | None = None
    core_across: Figure | None = None
    leaves_across: int | None = None
    leaf_length: Figure | None = None
    joints: tuple[Figure, ...] | None = None
    outer_visible: Figure | None = None


@dataclass(frozen=True, slots=True)
class Chain:
    """The chain of thickness of one front's panel, to rabbet and lip (F33, F37)."""

    of: str
    slice: Figure
    glued: Figure
    pressed: Figure
    veneer_left: Figure
    panel: Figure
    rabbet_depth: Figure | None
    rabbet_width: Figure | None
    tongue: Figure | None
    lip: Figure | None


@dataclass(frozen=True, slots=True)
class Dowels:
    """Where the dowels of a rail sit, from its outer edge (F34)."""

    front: str
    rail: PartKind
    from_outer_edge: tuple[Figure, ...]
    keep: Figure
    must_keep: bool


@dataclass(frozen=True, slots=True)
class Proof:
    """A proof line: terms with signs on the left, terms on the right, and whether both sides are equal."""

    front: str
    kind: Literal["width", "panel across", "panel up"]
    left: tuple[tuple[int, Figure], ...]
    right: tuple[tuple[int, Figure], ...]
    agrees: bool


@dataclass(frozen=True, slots=True)
class FrontMaking:
    """A front as it is made. A slab has no sight, rails or panel; `fields` are sights top to bottom (width, height).

    `rabbet_*` are the frame's, or a tongued panel's own; `groove_width` of a grooved frame. `mid_rail_low`: lower edges
    of mid rails above the front's bottom edge, from the bottom. `mass` in lb (inch job) or kg.
    """

    front: str
    build: BuildPlan
    slab: bool
    sight_width: Figure | None
    sight_height: Figure | None
    fields: tuple[tuple[Figure, Figure], ...]
    stile: Figure | None
    top_rail: Figure | None
    bottom_rail: Figure | None
    mid_rails: tuple[Figure, ...]
    mid_rail_low: tuple[Figure, ...]
    parts: tuple[Part, ...]
    panels: tuple[PanelPart, ...]
    chain: Chain | None
    rabbet_depth: Figure | None
    rabbet_width: Figure | None
    groove_width: Figure | None
    dowels: tuple[Dowels, ...]
    proofs: tuple[Proof, ...]
    mass: Figure


@dataclass(frozen=True, slots=True)
class SetUp:
    """Parts cut at one setting: crosscut stops by length, rip fences by width, sheet cuts."""

    work: Work
    setting: Figure
    parts: tuple[Part, ...]
    pieces: int
    below_last: Figure | None = None


@dataclass(frozen=True, slots=True)
class MakingPlan:
    """Every front as made, and the set-ups over all runs."""

    fronts: Mapping[str, FrontMaking]
    builds: Mapping[str, BuildPlan]
    set_ups: tuple[SetUp, ...]
    checks: tuple[Check, ...]

    @property
    def parts(self) -> tuple[Part, ...]:
        """All parts, front by front."""
        return tuple(part for made in self.fronts.values() for part in made.parts)
