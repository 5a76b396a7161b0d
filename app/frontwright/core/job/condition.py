"""What is found before anything is made: surfaces, loose frames, old hinges, drawers, lines behind the doors."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.lengths import Typed

SurfaceWhere = Literal["faces", "inside edges", "left end", "right end", "underside", "top", "toe kick", "inside"]
Material = Literal["solid wood", "plywood", "chipboard", "fibreboard"]
FinishKind = Literal["bare", "oil or wax", "varnish or lacquer", "paint", "vinyl film", "plastic laminate", "edge tape"]
FinishState = Literal["sound", "lifting", "waxed or greasy"]
Swab = Literal["no lead", "lead"]
Trial = Literal["held", "let go"]
Treatment = Literal["keep", "refinish", "cover", "replace"]
MadeGood = Literal["peel and key", "cut away at edges", "mechanical and adhesive"]
Keying = Literal["dry", "wet", "chemical", "certified people"]
OldHingeKind = Literal["cup", "leaf", "wrap-round", "knife", "lipped door"]
HingeUse = Literal["again", "replace", "same borings"]
DrawerFront = Literal["applied", "fixed"]
DrawerCloses = Literal["against the frame", "against a stop"]
DrawerWay = Literal["sawn off", "box end remade"]
RunnerKind = Literal["side", "under", "centre", "wood on wood"]
LineKind = Literal["gas", "water", "electric"]
LineWhere = Literal["left side", "right side", "back", "floor"]
RepairWhat = Literal["loose joint", "box out of square", "screws do not hold", "split", "rot or water", "other"]


@dataclass(frozen=True, slots=True)
class Surface:
    """A surface of a run (id: run and where). `made_of`, `screw_holds`: what it is of, and whether a screw bites there.

    `finish`, `state`: what is on it and how it holds after a cross cut and a pull of tape; `coats` of paint, `painted`:
    the year of the oldest coat. `swab`: tested for lead; None is not done. `trial`: a strip glued on for a day.
    `treated`: what is to be done with it; `made_good`: how a surface that fails is helped; `clean`: washed until a drop
    of water spreads; `keyed`: how it is roughened.
    """

    id: str
    run: str
    where: SurfaceWhere = "faces"
    made_of: Material | None = None
    screw_holds: bool | None = None
    finish: FinishKind | None = None
    state: FinishState | None = None
    coats: int | None = None
    painted: int | None = None
    swab: Swab | None = None
    swab_on: str = ""
    trial: Trial | None = None
    trial_on: str = ""
    treated: Treatment | None = None
    made_good: MadeGood | None = None
    clean: bool = False
    keyed: Keying | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Repair:
    """Something of a box or frame to be put right before strips and hinges go on; `at`: where, in words."""

    id: str
    run: str
    what: RepairWhat = "loose joint"
    at: str = ""
    done: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class OldHinge:
    """The hinges of the door that comes off (id: the opening's), in seven figures: `count`, `cover` given, `cup`,
    `cup_depth`, `edge_distance`, heights of the plates over the opening's lower edge, `thickness` they were made for.

    `screws_apart`: the two screws of a plate. `use`: what becomes of them; `plugged`: their old holes are filled.
    """

    id: str
    kind: OldHingeKind | None = None
    count: int | None = None
    cover: Typed | None = None
    cup: Typed | None = None
    cup_depth: Typed | None = None
    edge_distance: Typed | None = None
    plate_1: Typed | None = None
    plate_2: Typed | None = None
    plate_3: Typed | None = None
    plate_4: Typed | None = None
    plate_5: Typed | None = None
    thickness: Typed | None = None
    screws_apart: Typed | None = None
    soft_close: bool | None = None
    worn: bool | None = None
    use: HingeUse | None = None
    plugged: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class Drawer:
    """A drawer as a whole (id: the opening's): its front is screwed on (applied) or is the end of the box (fixed).

    `closes`: what stops it; `box_out`: how far the box's front stands out before the bare frame when it is shut (minus:
    behind it); `box_front`: how thick it is. `way`: what becomes of a fixed front. `screw`: length of the screws from
    inside, `packing` behind the new front as it is chosen.
    """

    id: str
    front: DrawerFront | None = None
    closes: DrawerCloses | None = None
    box_front: Typed | None = None
    box_out: Typed | None = None
    way: DrawerWay | None = None
    packing: Typed | None = None
    screw: Typed | None = None
    runners: RunnerKind | None = None
    runners_worn: bool | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class ServiceLine:
    """A line of gas, water or electricity behind a door: on which side, from and to which height over the opening's
    lower edge; `found`: it was located and not only suspected."""

    id: str
    opening: str
    kind: LineKind = "water"
    where: LineWhere = "back"
    low: Typed | None = None
    high: Typed | None = None
    found: bool = True
    note: str = ""
