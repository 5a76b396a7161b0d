"""What the hardware chapter gives: hinges with their plates, cups, pulls and their screws, borings, added weight."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.findings import Check

HoleKind = Literal["cup", "cup screw", "pull"]


@dataclass(frozen=True, slots=True)
class PlateUse:
    """The plate under one hinge: which (`id` of the plates on hand, "" where the hinge brings its own), its height.

    `gives`: the cover with it while nothing is adjusted; `off`: how far the hinge must be adjusted from there.
    `lacking`: none of this kind is left on hand for it.
    """

    id: str
    name: str
    height: Figure | None
    gives: Figure
    off: Figure
    lacking: bool = False


@dataclass(frozen=True, slots=True)
class HingePlan:
    """The hinges of a door: how many (F25), heights of their centres above the door's bottom edge.

    `even`: the heights before they were moved; `moved`: by hinge, what it was moved clear of ("" where it was not), and
    `blocked` what it could not be moved clear of. `cover`: what the hinge gives with its usual plate; `needs`: what
    each must give at its own height (F26); `plates` by hinge, empty where the cover given is not known. `forward`: how
    far a facing takes the plate forward.
    """

    front: str
    type: str | None
    name: str
    count: int
    heights: tuple[Figure, ...]
    cover: Figure | None
    why: str
    even: tuple[Figure, ...] = ()
    moved: tuple[str, ...] = ()
    blocked: tuple[str, ...] = ()
    needs: tuple[Figure, ...] = ()
    plates: tuple[PlateUse, ...] = ()
    adjust: Figure | None = None
    forward: Figure | None = None

    @property
    def mixed(self) -> bool:
        """Whether its hinges stand on plates of more than one kind."""
        return len({use.id for use in self.plates}) > 1


@dataclass(frozen=True, slots=True)
class CupPlan:
    """The cup against the joint (F27), all from the hinge edge of the door, bored from the back."""

    front: str
    diameter: Figure
    depth: Figure
    far_edge: Figure
    limit: Figure
    centre: Figure
    floor_left: Figure
    floor_least: Figure


@dataclass(frozen=True, slots=True)
class PullPlan:
    """The pull of a front (F28). `spans`: from the hinge edge (left edge of a drawer) to both ends of each, in plan.

    `low`, `high`: heights from the datum between which it stands. `chosen`: a pull was chosen, not assumed.
    """

    front: str
    type: str
    name: str
    projection: Figure
    spans: tuple[tuple[Figure, Figure], ...]
    low: Figure
    high: Figure
    chosen: bool


@dataclass(frozen=True, slots=True)
class PullScrew:
    """The screws of a front's pulls (F28): how many; what they pass; the least and most length under the head.

    `sold`: the length to buy, None where none that is sold fits between and one is cut down.
    """

    front: str
    count: int
    passes: Figure
    least: Figure
    most: Figure
    sold: Figure | None


@dataclass(frozen=True, slots=True)
class Hole:
    """A boring. `from_hinge`: of its centre from the hinge edge (from the left edge of a front without hinges, seen
    from the front); `from_bottom` from the bottom edge. `depth` None: right through. Cups and their screws are bored
    from the back."""

    kind: HoleKind
    from_hinge: Figure
    from_bottom: Figure
    diameter: Figure
    depth: Figure | None


@dataclass(frozen=True, slots=True)
class BoringPlan:
    """All borings of a front; `side`: its hinge edge seen from the front, "" where it has none.

    `pull_chosen`: whether somebody chose the pull; else its holes are left until it lies on the bench.
    """

    front: str
    side: Literal["left", "right", "top", ""]
    holes: tuple[Hole, ...]
    pull_chosen: bool

    def of(self, kind: HoleKind) -> tuple[Hole, ...]:
        return tuple(hole for hole in self.holes if hole.kind == kind)


@dataclass(frozen=True, slots=True)
class Bumpers:
    """The bumpers of a front: how many, and how thick: so far it stands off the frame, hinges and packing set to it."""

    front: str
    count: int
    thick: Figure


@dataclass(frozen=True, slots=True)
class Weight:
    """What hangs on a run that hangs on the wall: new fronts, old ones, and what it comes to more; in lb or kg."""

    run: str
    new: Figure
    old: Figure | None
    added: Figure


@dataclass(frozen=True, slots=True)
class HardwarePlan:
    """Hinges, cups and pulls of every front. `pulls`: so many of each; `places`: where they stand; `weights` by run."""

    hinges: Mapping[str, HingePlan]
    cups: Mapping[str, CupPlan]
    pulls: Mapping[str, int]
    checks: tuple[Check, ...]
    places: Mapping[str, PullPlan] = field(default_factory=dict)
    bumpers: Mapping[str, Bumpers] = field(default_factory=dict)
    weights: Mapping[str, Weight] = field(default_factory=dict)

    def with_checks(self, checks: tuple[Check, ...]) -> HardwarePlan:
        """The same with its checks."""
        return replace(self, checks=checks)
