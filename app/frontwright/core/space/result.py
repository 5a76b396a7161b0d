"""What the space chapter gives: pulls in their places, how far doors open, corners, room for drawers, gaps at ends.

Plan view: x along the run from its datum, to the right; y straight out from the bare frame face into the room. Angles
are degrees, rounded to a hundredth; they are the only figures here that are not exact.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.findings import Check, Fact, WayOut
from frontwright.core.hardware.result import PullPlan
from frontwright.core.lengths import Exact

Hung = Literal["left", "right"]
Does = Literal["closed", "past", "hung here", "hung here, pulls meet"]
StillKind = Literal[
    "wall", "trim", "appliance", "counter", "cabinet", "pipe", "other", "front", "pull", "hinge", "nothing"
]


@dataclass(frozen=True, slots=True)
class Still:
    """Something that stays where it is while a door opens, in plan: corners in order round it.

    `of`: the id of the front, obstacle or run (of its wall) it belongs to. `low`, `high`: heights from the datum, None
    without an end. `read`: where it stands was read or follows from readings, not taken for granted.
    """

    of: str
    kind: StillKind
    name: str
    corners: tuple[tuple[Exact, Exact], ...]
    low: Exact | None = None
    high: Exact | None = None
    read: bool = True
    distance: Figure | None = None
    moves: bool = False


@dataclass(frozen=True, slots=True)
class Swing:
    """How far a door opens (F23). `angle` None: nothing in its way, and how far its hinge goes is not known.

    `stopped_by` says what stops it (`by`: what kind of thing, `name` its name) and `with_pull` that its own pull does.
    `need`: 90, or what an inner drawer takes; `drawer`: that drawer. `together`: while the neighbour across its
    hinge edge stands open as far as itself.
    """

    front: str
    side: Hung
    pivot: tuple[Exact, Exact]
    width: Figure
    thickness: Figure
    pull: PullPlan | None
    angle: Figure | None
    stopped_by: str
    by: StillKind
    name: str
    with_pull: bool
    read: bool
    need: Figure
    drawer: str = ""
    together: Figure | None = None
    beside: str = ""

    @property
    def short(self) -> bool:
        """Whether it opens less far than it must."""
        return self.angle is not None and self.angle.units < self.need.units


@dataclass(frozen=True, slots=True)
class Flap:
    """How far a door hung at the top opens (F23, from the side). `angle` None: nothing above it was entered.

    `stopped_by`: the obstacle above it, "" for its hinge; `with_pull`: its pull meets it; `read` as of a swing.
    """

    front: str
    height: Figure
    angle: Figure | None
    stopped_by: str
    name: str
    with_pull: bool
    read: bool
    need: Figure

    @property
    def short(self) -> bool:
        return self.angle is not None and self.angle.units < self.need.units


@dataclass(frozen=True, slots=True)
class TurningRoom:
    """Gap at the free edge of an inset door, and what its back corner takes; `guessed`: nobody chose the gap."""

    front: str
    side: Hung
    have: Figure
    need: Figure
    guessed: bool


@dataclass(frozen=True, slots=True)
class Meeting:
    """A front at an inside corner (F24): `have` from the other leg's covered face to its edge, `need` for `what` it
    does there. `others`: the fronts of the other leg that ask for it, the widest first."""

    corner: str
    front: str
    side: Hung
    others: tuple[str, ...]
    what: Does
    have: Figure
    need: Figure
    guessed: bool

    @property
    def short(self) -> bool:
        return self.have.units < self.need.units


@dataclass(frozen=True, slots=True)
class DrawerRoom:
    """Room left beside or above a drawer box in its opening (F12). `guessed`: it rests on what nobody read or chose,
    further readings of the opening apart."""

    opening: str
    box: str
    way: Literal["across", "upright"]
    have: Figure
    need: Figure
    strip: Figure | None
    guessed: bool

    @property
    def short(self) -> bool:
        return self.have.units < self.need.units


@dataclass(frozen=True, slots=True)
class Seat:
    """What a plate or its screws sit in (F14): the frame's edge against the plate, a side against the screws."""

    front: str
    what: Literal["plate", "screw"]
    have: Figure
    need: Figure

    @property
    def short(self) -> bool:
        return self.have.units < self.need.units


@dataclass(frozen=True, slots=True)
class EndGap:
    """The gap at a run's end once its skin is on (F43)."""

    run: str
    side: Hung
    against: str
    bare: Figure
    have: Figure
    need: Figure
    skin: Figure | None

    @property
    def short(self) -> bool:
        return self.have.units < self.need.units


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawer as it comes out by the length of its box; `have`: the way before it that is free, up to `stopped_by`."""

    front: str
    out: Figure
    have: Figure | None = None
    stopped_by: str = ""
    name: str = ""

    @property
    def short(self) -> bool:
        return self.have is not None and self.have.units < self.out.units


@dataclass(frozen=True, slots=True)
class CornerPlan:
    """An inside corner: for each leg where the other one's bare face stands on its tape (`at`), and their angle."""

    id: str
    left: str
    right: str
    angle: Figure
    at: Mapping[str, Figure]

    def other(self, run: str) -> str:
        return self.right if run == self.left else self.left

    def side(self, run: str) -> Hung:
        """The end of this leg that is in the corner."""
        return "right" if run == self.left else "left"


@dataclass(frozen=True, slots=True)
class Tried:
    """A way out as it was tried: what the finding comes to with it, which sizes change, which findings it brings."""

    way: WayOut
    comes_to: Fact
    sizes: tuple[tuple[str, str, Exact, Exact], ...] = ()
    brings: tuple[Check, ...] = ()


@dataclass(frozen=True, slots=True)
class SpacePlan:
    """All of it. `lengths`: each run with its skins (F43); `old_covers` by opening (F11); `stills` by run; `hung`: the
    checks of hinges and cups with their ways out; `tried` by finding (code, subjects, case)."""

    pulls: Mapping[str, PullPlan]
    swings: Mapping[str, Swing]
    turning: Mapping[str, TurningRoom]
    corners: tuple[CornerPlan, ...]
    meetings: tuple[Meeting, ...]
    drawers: tuple[DrawerRoom, ...]
    gaps: tuple[EndGap, ...]
    lengths: Mapping[str, Figure]
    seats: tuple[Seat, ...]
    old_covers: Mapping[str, Figure]
    stills: Mapping[str, tuple[Still, ...]]
    drawn: Mapping[str, Drawn]
    checks: tuple[Check, ...]
    flaps: Mapping[str, Flap] = field(default_factory=dict)
    hung: tuple[Check, ...] = ()
    tried: Mapping[tuple[str, tuple[str, ...], str], tuple[Tried, ...]] = field(default_factory=dict)

    def with_checks(self, checks: tuple[Check, ...]) -> SpacePlan:
        """The same with its checks."""
        return replace(self, checks=checks)
