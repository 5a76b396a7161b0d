"""What goes round a run beside its faces, and what thin wood is stuck on with."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.job.amount import Amount
from frontwright.core.job.stock import Cut
from frontwright.core.lengths import Typed

TrimKind = Literal["toe kick", "valance", "light rail", "top panel", "apron", "filler", "underside"]
TrimEnd = Literal["butt", "return"]
MadeOf = Literal["sawn", "bought", "solid"]
AdhesiveKind = Literal["wood glue", "epoxy", "contact adhesive"]


@dataclass(frozen=True, slots=True)
class Trim:
    """A piece of trim of a run (F45, F46). `width`: across its grain (height of a toe kick, depth of a top).

    `projects`: how far it stands before the covered frame; `recess`: how far a toe kick lies behind the frame. `left`,
    `right`: how it ends there (None: a return where the end stands open). `back`: how far a return runs back (else the
    depth seen of that end). `floor`: a toe kick clear of the floor or scribed to it, by `allowance`. `side`: the end at
    which a filler stands. `longest`: the longest piece that can be had. `slotted`: a top or apron fixed along one edge,
    free at the other.
    """

    id: str
    run: str
    kind: TrimKind = "toe kick"
    place: int = 0
    made_of: MadeOf = "solid"
    species: str | None = None
    width: Typed | None = None
    thickness: Typed | None = None
    projects: Typed | None = None
    recess: Typed | None = None
    left: TrimEnd | None = None
    right: TrimEnd | None = None
    back: Typed | None = None
    floor: Literal["clear", "scribed"] = "clear"
    allowance: Typed | None = None
    side: Literal["left", "right"] | None = None
    longest: Typed | None = None
    slotted: bool = True
    cut: Cut = "flat"
    note: str = ""


@dataclass(frozen=True, slots=True)
class Adhesive:
    """What strips and skins are stuck on with, by its own sheet (F72).

    `film`: how thick it lies; `pot_minutes`: how long a mix can be used, `used_share` of it as a plain number;
    `strip_minutes`: how long one strip takes.
    """

    id: str
    name: str = ""
    kind: AdhesiveKind = "epoxy"
    film: Typed | None = None
    pot_minutes: Amount | None = None
    used_share: Amount | None = None
    strip_minutes: Amount | None = None
