"""What is entered while leaves are sawn and panels pressed: billets, leaves one by one, pressings, planing passes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.job.amount import Amount
from frontwright.core.lengths import Typed

LeafState = Literal["good", "scorched", "short", "spoiled"]
LeafSide = Literal["show", "back", "strips", "skin", "spare"]
Match = Literal["book", "slip", "random"]
PressKind = Literal["clamps", "vacuum bag"]
Lie = Literal["stacked", "side by side"]


@dataclass(frozen=True, slots=True)
class Billet:
    """A billet, lettered (its id): what leaves are sawn from, cut from `piece`, whose sizes hold where it has none.

    `ring_angle` in degrees between rings and face at the end; moisture of shell and core in per cent, on `moisture_on`.
    `machine` and `blade`: with which it is sawn (else the one chosen, and the one mounted on it).
    `slice`: how thick its leaves are wanted (else the panel's),
    `slice_now` those still to come;
    `keep_now`: what is kept back of this one billet, where it is less than its saw keeps back.
    """

    id: str
    piece: str | None = None
    place: int = 0
    machine: str | None = None
    blade: str | None = None
    length: Typed | None = None
    width: Typed | None = None
    thickness: Typed | None = None
    slice: Typed | None = None
    slice_now: Typed | None = None
    keep_now: Typed | None = None
    ring_angle: Amount | None = None
    moisture_shell: Amount | None = None
    moisture_core: Amount | None = None
    moisture_on: str = ""
    figure: str = ""
    match: Match = "book"
    note: str = ""


@dataclass(frozen=True, slots=True)
class Leaf:
    """A leaf that was sawn (id: letter and number). `left`: what then stood of the billet; thickness at six points.

    `machine` and `blade`: the saw from this leaf of the billet on, where it is another than before. `unjointed`: what
    stood before the billet's face was jointed again. `front`, `side`, `seat`: where a person put it (seats run on
    through the panels of a front, the first from the left of the first panel); else it is worked out. `good_length`:
    what of a leaf with one bad end can be used. A stopped cut gives two leaves of one number. `sawn`: that it is there,
    where nothing was read of it and it only has a place, a saw or a note. `counted`: what it cost is among the shop's
    learned figures already.
    """

    id: str
    billet: str
    number: int
    thick_1: Typed | None = None
    thick_2: Typed | None = None
    thick_3: Typed | None = None
    thick_4: Typed | None = None
    thick_5: Typed | None = None
    thick_6: Typed | None = None
    unjointed: Typed | None = None
    left: Typed | None = None
    length: Typed | None = None
    width: Typed | None = None
    good_length: Typed | None = None
    state: LeafState = "good"
    sawn: bool = False
    counted: bool = False
    machine: str | None = None
    blade: str | None = None
    front: str | None = None
    side: LeafSide | None = None
    seat: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class PressedPanel:
    """A panel out of the press (id: the panel's): thickness at its corners, how far from flat after a day."""

    id: str
    corner_1: Typed | None = None
    corner_2: Typed | None = None
    corner_3: Typed | None = None
    corner_4: Typed | None = None
    flatness: Typed | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class PlanePass:
    """One pass through the planer: which face, and the panel's thickness after it."""

    id: str
    panel: str
    number: int
    face: Literal["show", "back"]
    thickness: Typed | None = None


@dataclass(frozen=True, slots=True)
class Glue:
    """A glue by its own sheet, at the temperature of the day; areas in ft2 or m2, psi or MPa by the job's unit.

    `layup_minutes` of each panel; `press_minutes`: how long a panel stays in the press.
    """

    id: str
    name: str = ""
    open_minutes: Amount | None = None
    clamp_minutes: Amount | None = None
    used_share: Amount | None = None
    spread_rate: Amount | None = None
    weight: Amount | None = None
    layup_minutes: Amount | None = None
    clamp_seconds: Amount | None = None
    pressure_floor: Amount | None = None
    pressure_goal: Amount | None = None
    press_minutes: Amount | None = None


@dataclass(frozen=True, slots=True)
class Press:
    """Clamps, or a vacuum bag; `force` of one clamp in lb or kN; bed, throat, heights of caul and platen.

    `opening`: how far the clamps open. Of a bag the bed is what it holds, `bag_pressure` what it gives (psi or MPa),
    `close_minutes` how long it takes to close it and draw it down.
    """

    id: str
    name: str = ""
    kind: PressKind = "clamps"
    clamps: int | None = None
    force: Amount | None = None
    throat: Typed | None = None
    bed_length: Typed | None = None
    bed_width: Typed | None = None
    caul: Typed | None = None
    platen: Typed | None = None
    opening: Typed | None = None
    bag_pressure: Amount | None = None
    close_minutes: Amount | None = None


@dataclass(frozen=True, slots=True)
class Pressing:
    """Panels glued up in one go. Without one each panel is taken to be pressed by itself.

    `lie`: one on the other, with film between, or in a row. `started` and `closed`: when the bottle was opened and the
    last clamp was tight, as written.
    """

    id: str
    panels: tuple[str, ...] = ()
    glue: str | None = None
    press: str | None = None
    helper: bool = False
    clamps: int | None = None
    both_faces: bool = True
    temperature: Amount | None = None
    started: str = ""
    closed: str = ""
    lie: Lie = "stacked"
    note: str = ""


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A sheet of labels by its grid (one row): so many across and down, margins, gaps between; None is plain paper.

    A right or bottom margin that is not told is as wide as the one across from it. `code`: each label has its name as
    a small square code too.
    """

    id: str = "labels"
    columns: int | None = None
    rows: int | None = None
    left: Typed | None = None
    top: Typed | None = None
    right: Typed | None = None
    bottom: Typed | None = None
    gap_across: Typed | None = None
    gap_down: Typed | None = None
    code: bool = False


@dataclass(frozen=True, slots=True)
class Learned:
    """A figure learned from jobs (F76): what, of which machine, blade and wood; over how many jobs, its spread."""

    id: str
    what: Literal["kerf", "wander", "rejoint", "loss"]
    machine: str = ""
    species: str = ""
    value: Typed | None = None
    count: int = 0
    spread: Typed | None = None
    last_job: str = ""
    blade: str = ""
