"""What is surveyed: the job's heading, rooms, runs, boxes, members, openings and every reading taken of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.job.amount import Amount
from frontwright.core.lengths import Typed, Unit

MemberKind = Literal["stile", "side", "partition", "seam", "filler", "top rail", "bottom rail", "mid rail"]
UPRIGHT: tuple[MemberKind, ...] = ("stile", "side", "partition", "seam", "filler")
ReadingWhat = Literal[
    "width",  # of an opening, at top, middle or bottom
    "height",  # of an opening, at left, middle or right; of a run (outside), likewise
    "diagonal",  # of an opening, at "\\" (from top left) or "/" (from bottom left)
    "across",  # a member or column singly, at "" or at a height of the run ("top", "mid", "bottom")
    "edge left",  # running tape: a member's edge as a position from the datum, at "" or a height
    "edge right",
    "edge low",  # running tape upward: a rail's lower and upper edge
    "edge high",
    "overall",  # of a run, in one stretch, at "" or a height
    "wind gap",  # of an opening: strings corner to corner, centre to centre (F8)
]


@dataclass(frozen=True, slots=True)
class Heading:
    """The job itself. `step`: front edges are rounded to it, and lengths shown to it.

    `shop_temperature` (F or C by the unit) and `shop_humidity` in per cent: the air in which it is glued up.
    """

    id: str = "job"
    name: str = ""
    client: str = ""
    address: str = ""
    unit: Unit = "in"
    step: Typed | None = None
    decimals: bool = False
    shop_temperature: Amount | None = None
    shop_humidity: Amount | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Room:
    """A room, and the moisture of its wood in per cent: driest, when made, wettest."""

    id: str
    name: str = ""
    place: int = 0
    moisture_low: Amount | None = None
    moisture_made: Amount | None = None
    moisture_high: Amount | None = None


@dataclass(frozen=True, slots=True)
class Run:
    """Boxes standing in one line. `by_itself`: openings without a common datum (only sizes follow, no positions)."""

    id: str
    room: str
    name: str = ""
    place: int = 0
    stands: Literal["wall", "base"] = "base"
    by_itself: bool = False
    datum: str = ""
    slope_shows: Typed | None = None
    slope_over: Typed | None = None


@dataclass(frozen=True, slots=True)
class End:
    """One end of a run (id: run and side). A wall leans `leans` towards the run over `leans_over` (else the height).

    `depth_seen` of the end, `depth_bottom` where it is another at the floor; `proud`: how far the frame stands before
    the side of the box there.
    """

    id: str
    run: str
    side: Literal["left", "right"]
    kind: Literal["wall", "corner", "appliance", "open"] | None = None
    gap_top: Typed | None = None
    gap_middle: Typed | None = None
    gap_bottom: Typed | None = None
    leans: Typed | None = None
    leans_over: Typed | None = None
    depth_seen: Typed | None = None
    depth_bottom: Typed | None = None
    proud: Typed | None = None
    skin: Literal["none", "sawn", "bought"] = "none"
    skin_thickness: Typed | None = None


@dataclass(frozen=True, slots=True)
class Cabinet:
    """A box: how it is built and how thick its sides are. A run without one is taken for a face frame.

    `frame_inside`: how far its frame stands before the side, inside; 0 where the two are flush. A plate that sits on
    the side is packed out by as much.
    """

    id: str
    run: str
    place: int = 0
    kind: Literal["face frame", "frameless"] = "face frame"
    width: Typed | None = None
    height: Typed | None = None
    depth: Typed | None = None
    side: Typed | None = None
    sound: bool | None = None
    frame_inside: Typed | None = None


@dataclass(frozen=True, slots=True)
class Member:
    """A piece of the frame. Upright ones stand in the run's order by `place`, beside its columns.

    A rail without `column` runs through every column; a mid rail belongs to a column and lies under the opening whose
    `place` it has.
    """

    id: str
    run: str
    kind: MemberKind
    place: int = 0
    column: str | None = None
    cabinet: str | None = None
    thickness: Typed | None = None
    bow: Typed | None = None
    bow_over: Typed | None = None


@dataclass(frozen=True, slots=True)
class Column:
    """A stack of openings between two upright members; `place` is its place in the run's order, left to right."""

    id: str
    run: str
    place: int
    cabinet: str | None = None


@dataclass(frozen=True, slots=True)
class Opening:
    """A hole in the frame; `place` counts from the top of its column, from 1."""

    id: str
    column: str
    place: int = 1
    note: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """One taped figure. Taking it again adds a reading; the earlier one stays, struck out."""

    id: str
    of: str
    what: ReadingWhat
    at: str = ""
    value: Typed | None = None
    over_paint: bool = False
    by: str = ""
    when: str = ""
    status: Literal["good", "repeat", "assumed"] = "good"
    struck: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class OldFront:
    """A front that comes off (id: the opening's, or one with a letter): less its old cover it gives the opening."""

    id: str
    opening: str
    width: Typed | None = None
    height: Typed | None = None
    thickness: Typed | None = None
    cover: Typed | None = None
    note: str = ""
