"""What fronts have to live with: walls, trim and appliances beside them, inside corners, pulls, what stands inside."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.job.amount import Amount
from frontwright.core.lengths import Typed

ObstacleKind = Literal["wall", "trim", "appliance", "counter", "cabinet", "pipe", "other"]
ObstacleSide = Literal["left", "right", "before", "above"]
PullKind = Literal["bar", "knob", "flush"]
InsideKind = Literal["drawer box", "inner drawer", "shelf"]
InsideEdges = Literal["none", "sides", "all round"]


@dataclass(frozen=True, slots=True)
class Obstacle:
    """What stands beside a run, before it or above it.

    `away`: how far it is clear of the frame: sideways from the run's end, straight out where it stands `before`, upward
    from the run's top where it stands `above` (a ceiling, a bulkhead, a hood).
    `out`: how far it reaches out before the bare frame; a wall without it goes on into the room. `handle`: its handle,
    further out than `out`. `low`, `high`: heights from the datum, without them the whole height; `begins`, `ends`:
    positions from the datum of what stands before the run. `wanted`: the gap that an appliance must keep. `moves`: it
    can be pushed aside, is drawn, and stops nothing.
    """

    id: str
    run: str
    kind: ObstacleKind = "wall"
    side: ObstacleSide = "left"
    name: str = ""
    away: Typed | None = None
    out: Typed | None = None
    handle: Typed | None = None
    low: Typed | None = None
    high: Typed | None = None
    begins: Typed | None = None
    ends: Typed | None = None
    wanted: Typed | None = None
    moves: bool = False


@dataclass(frozen=True, slots=True)
class Corner:
    """An inside corner, seen from the room: the right end of `left` meets the left end of `right`.

    `angle` between the two faces, in degrees (90 until it is read). `runs_on`: the leg that the other one dies into,
    and `hidden`: how much of that leg, from its end, lies behind the other one's face.
    """

    id: str
    left: str
    right: str
    angle: Amount | None = None
    runs_on: Literal["left", "right"] | None = None
    hidden: Typed | None = None


@dataclass(frozen=True, slots=True)
class PullType:
    """A pull under this shop's name for it, and its place (F28).

    `across`: how wide it is across a door. Doors: `from_edge` from the free edge to its middle (mid-stile without it),
    `from_end` from the near end to its near hole. Drawers: in the middle, `from_top` below the top edge (mid height
    without it). A flush pull stands out by nothing. `thread`: how deep its thread is, `counterbore`: how deep the head
    of its screw is sunk, `screw_hole`: how wide its holes are bored.
    """

    id: str
    name: str = ""
    kind: PullKind = "bar"
    projection: Typed | None = None
    holes: Typed | None = None
    across: Typed | None = None
    from_edge: Typed | None = None
    from_end: Typed | None = None
    from_top: Typed | None = None
    thread: Typed | None = None
    counterbore: Typed | None = None
    screw_hole: Typed | None = None


@dataclass(frozen=True, slots=True)
class Inside:
    """What an opening holds inside: the box of its drawer, a drawer behind its door, a fixed shelf.

    `width`, `height`, `length` of a box (`height` of a shelf: how thick it is); `runner`: how thick its runner is, each
    side; `at`: height of a shelf's or an inner drawer's lower edge above the datum.
    """

    id: str
    opening: str
    kind: InsideKind = "drawer box"
    width: Typed | None = None
    height: Typed | None = None
    length: Typed | None = None
    runner: Typed | None = None
    at: Typed | None = None
