"""The look that was chosen: how fronts lie, which fronts there are, which rows they form."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.lengths import Typed

Scheme = Literal["full cover", "partial cover", "inset"]
FrontKind = Literal["door", "drawer", "fixed", "appliance", "glass", "open"]
DOOR_LIKE: tuple[FrontKind, ...] = ("door", "glass", "appliance")  # made as doors are, hung or not
Grain = Literal["vertical", "horizontal"]
HingeSide = Literal["left", "right", "top"]
Level = Literal["room", "run", "cabinet", "opening"]


@dataclass(frozen=True, slots=True)
class Look:
    """How fronts lie in a room, run, cabinet or opening (id: level, a colon, its id); None is inherited from above.

    At each outer end of a run an `edge_*` (a position from the datum) goes before a `reveal_*` (from the run's end),
    and that before `cover`.
    """

    id: str
    scheme: Scheme | None = None
    cover: Typed | None = None
    gap: Typed | None = None
    meeting_gap: Typed | None = None
    reveal: Typed | None = None
    reveal_left: Typed | None = None
    reveal_right: Typed | None = None
    reveal_top: Typed | None = None
    reveal_bottom: Typed | None = None
    edge_left: Typed | None = None
    edge_right: Typed | None = None
    edge_top: Typed | None = None
    edge_bottom: Typed | None = None
    reveals_on: Literal["bare frame", "skins"] | None = None
    equal_fronts: bool | None = None
    inset_side: Typed | None = None
    inset_top: Typed | None = None
    inset_bottom: Typed | None = None
    inset_meeting: Typed | None = None
    least_cover: Typed | None = None
    door_build: str | None = None
    drawer_build: str | None = None
    door_grain: Grain | None = None
    drawer_grain: Grain | None = None
    hinge: str | None = None
    species: str | None = None
    cut: Literal["flat", "quarter"] | None = None
    pulls: int | None = None
    pull: str | None = None
    finish: str | None = None
    bumper: Typed | None = None


@dataclass(frozen=True, slots=True)
class Front:
    """A door, drawer front or fixed front of an opening; two doors of one opening are a pair, `place` from the left.

    `pin_*` holds an edge where it was put (a position from the datum; the neighbour across the gap follows).
    """

    id: str
    opening: str
    kind: FrontKind = "door"
    place: int = 1
    hinge_side: HingeSide | None = None
    grain: Grain | None = None
    build: str | None = None
    pin_left: Typed | None = None
    pin_right: Typed | None = None
    pin_bottom: Typed | None = None
    pin_top: Typed | None = None


@dataclass(frozen=True, slots=True)
class FrontRow:
    """Fronts that belong together: through a row (or column) the grain may run on, or outer edges be shared."""

    id: str
    direction: Literal["row", "column"] = "row"
    fronts: tuple[str, ...] = ()
    grain_through: bool = False
    share_edges: bool = False
    blank_end: Typed | None = None
    kerf: Typed | None = None
    trim: Typed | None = None
