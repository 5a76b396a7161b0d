"""What the veneer chapter gives: leaves wanted and where they go, billets as planned and as they are, pressings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from frontwright.core.figures import Figure
from frontwright.core.findings import Check
from frontwright.core.job import Billet, Leaf, LeafSide, LeafState, Lie, Match, PressKind
from frontwright.core.veneer.nesting import StripLeaf

LeafUse = Literal["panels", "skin", "strips", "stile strips", "rail strips"]


@dataclass(frozen=True, slots=True)
class LeafCount:
    """Leaves of one use, length and thickness as sawn; `spares` are those wanted beside (F58)."""

    use: LeafUse
    length: Figure
    count: int
    spares: int
    slice: Figure


@dataclass(frozen=True, slots=True)
class BilletYield:
    """Leaves a billet of one size gives on one machine (F53); `tallest`: the widest billet that it takes on edge."""

    id: str
    machine: str
    length: Figure
    width: Figure
    thickness: Figure
    slice: Figure
    loss: Figure
    keep_back: Figure
    leaves: int
    rest: Figure
    spare: bool
    tallest: Figure | None = None


@dataclass(frozen=True, slots=True)
class Comparison:
    """What one machine gives of all leaves wanted, from the billets of the plan: so many, short by so many.

    `blade`: of a saw that has several, each is compared. `with_rests` counts the keep-backs that would give one more
    leaf each. `short` by length of billet, `short_leaves` how thick they are wanted.
    """

    machine: str
    chosen: bool
    gives: int
    wanted: int
    with_rests: int
    short: tuple[tuple[Figure, int], ...]
    blade: str = ""
    short_leaves: tuple[Figure, ...] = ()


@dataclass(frozen=True, slots=True)
class Losses:
    """A saw's losses a slice by name, and what it keeps back."""

    kerf: Figure
    wander: Figure
    rejoint: Figure
    together: Figure
    keep_back: Figure


@dataclass(frozen=True, slots=True)
class Mounted:
    """A saw with its blade ("" where the saw's own figures hold), and what the two lose a slice."""

    machine: str
    blade: str
    losses: Losses = field(compare=False)


@dataclass(frozen=True, slots=True)
class Seen:
    """F60: what the slices so far really cost, and what the billet will still give at that pitch.

    `rejoint`: what jointing took of the billet each time, where it was read before and after. `read`: whether leaves
    were measured; else they are taken to be as thick as wanted. `below`: a loss seen that is less than nothing, so that
    a reading is wrong; it is planned with the losses known.
    """

    slices: int
    mean_thickness: Figure
    loss: Figure
    pitch: Figure
    more: int
    leaves: int
    rest: Figure
    rejoint: Figure | None = None
    read: bool = True
    below: Figure | None = None


@dataclass(frozen=True, slots=True)
class Stretch:
    """The leaves of a billet that were sawn one after the other with one saw and blade, and what they cost."""

    saw: Mounted
    leaves: tuple[str, ...]
    seen: Seen


@dataclass(frozen=True, slots=True)
class SlicePlan:
    """One leaf of a billet. `left_should`: what then stands of the billet by the plan; `thick`: mean of its readings.

    `state` of one to come is "to come", of one that the billet will not give any more "lost". `saw`: with what it was
    sawn, or will be.
    """

    id: str
    number: int
    wanted: Figure
    left_should: Figure
    leaf: Leaf | None
    thick: Figure | None
    left_is: Figure | None
    state: LeafState | Literal["to come", "lost"]
    at_risk: bool
    saw: Mounted


@dataclass(frozen=True, slots=True)
class BilletPlan:
    """A billet as planned and as it is: its slices in sawing order, the rest, and what was seen.

    `spare`: the rest is thick enough for one more leaf. `shift`: of the figure between two shown faces (F59).
    `tallest`: the widest billet its saw takes; `belly`: what a blade out of square does to a leaf at mid height (F54).
    `saw`: as it was begun with, `saw_now`: with the blade that is mounted now; `keep_back`: what is kept back of this
    billet in truth, `losses` what its saw keeps back as planned. `stretches`: what was measured of each blade in turn.
    """

    billet: Billet
    saw: Mounted
    saw_now: Mounted
    length: Figure
    width: Figure
    thickness: Figure
    slice: Figure
    keep_back: Figure
    planned: int
    slices: tuple[SlicePlan, ...]
    rest: Figure
    spare: bool
    seen: Seen | None
    shift: Figure | None
    ways: tuple[Saving, ...]
    tallest: Figure | None = None
    belly: Figure | None = None
    stretches: tuple[Stretch, ...] = ()

    @property
    def id(self) -> str:
        return self.billet.id

    @property
    def machine(self) -> str:
        return self.saw.machine

    @property
    def losses(self) -> Losses:
        return self.saw.losses


@dataclass(frozen=True, slots=True)
class Saving:
    """One way to save a leaf: what would be changed, from what to what."""

    kind: Literal["thinner leaves", "less kept back", "plain back from elsewhere"]
    was: Figure | None
    to: Figure | None


@dataclass(frozen=True, slots=True)
class Seat:
    """Where a leaf goes: to a show face or back (seat from the left, as seen on that face), to strips, or spare.

    `fits`: false of a leaf that a person put where it is too short, or where no seat was left.
    """

    leaf: str
    billet: str
    number: int
    side: LeafSide
    of: str
    seat: int
    turned: bool = False
    by_hand: bool = False
    fits: bool = True


@dataclass(frozen=True, slots=True)
class FaceWanted:
    """A face, skin or set of strips that is short of leaves: how many it wants and has."""

    of: str
    side: LeafSide
    wanted: int
    has: int


@dataclass(frozen=True, slots=True)
class PanelMade:
    """A panel as it came out of the press and planer: what its leaves were (F38), and the veneer left on each face.

    `left_after`: show face and back, after each pass. `to_plane` and `too_far`: over and under the plan, else nothing.
    """

    panel: str
    pressed: Figure | None
    leaves_were: Figure | None
    correction: Figure | None
    now: Figure
    show_left: Figure
    back_left: Figure
    passes: int
    next_face: Literal["show", "back"]
    to_plane: Figure
    too_far: Figure
    left_after: tuple[tuple[Figure, Figure], ...] = ()


@dataclass(frozen=True, slots=True)
class Lying:
    """What lies in the press: its length, width and height without cauls, as it is seen from above.

    `facing`: the area on which the pressure acts, in square inches or millimetres: of a stack that of its largest
    panel, of a row all of them.
    """

    length: Figure
    width: Figure
    height: Figure
    facing: Fraction


@dataclass(frozen=True, slots=True)
class PressingPlan:
    """F62 to F66: minutes and force of one pressing. Numbers are exact; `helped` says whether somebody helps.

    `glue`, `press`: ids of the rows that count, empty where none is entered. `area`, `glue_grams`: of all glue lines,
    of which each panel has `lines`; `water_grams`: what the glue brings of it. `clamp_minutes`: until the last clamp is
    tight or the bag drawn down; a bag has no clamps. `bed`: length and width, `over_bed` panels that it does not hold;
    `middle`: how far the clamps' `throat` would have to reach; `open_to`: how far they must open, `opening` how far
    they do. `least`: what stops below it, the glue's floor, or what a bag has to give. `late_assumed`, `dry_assumed`,
    `weak_assumed`: minutes, open time or pressure rest on a figure that nobody told, and stop nobody.
    """

    id: str
    panels: tuple[str, ...]
    glue: str
    press: str
    kind: PressKind
    lie: Lie
    lying: Lying
    helped: bool
    lines: int
    area: Fraction
    glue_grams: Fraction
    water_grams: Fraction
    spread_minutes: Fraction
    layup_minutes: Fraction
    clamp_minutes: Fraction
    minutes: Fraction
    alone: Fraction
    with_helper: Fraction
    limit: Fraction
    open_limit: Fraction
    press_minutes: Fraction
    clamps: int
    pressure: Fraction
    least: Fraction
    floor: Fraction
    goal: Fraction
    clamps_for_floor: int
    clamps_for_goal: int
    spacing: Figure | None
    bed: tuple[Figure, Figure] | None
    over_bed: tuple[str, ...]
    throat: Figure | None
    middle: Figure | None
    opening: Figure | None
    open_to: Figure
    late_assumed: bool
    dry_assumed: bool
    weak_assumed: bool

    @property
    def in_time(self) -> bool:
        """F63: the last clamp within the glue's time, and spread and laid within its open time."""
        return self.minutes <= self.limit and self.minutes - self.clamp_minutes <= self.open_limit

    @property
    def fits(self) -> bool:
        """Whether bed and clamps hold what lies in the press."""
        opens = self.opening is None or self.open_to.units <= self.opening.units
        return not self.over_bed and opens

    @property
    def in_bag(self) -> bool:
        return self.kind == "vacuum bag"

    @property
    def is_stop(self) -> bool:
        """Whether it is too slow by figures that were told."""
        late, dry = self.minutes > self.limit, self.minutes - self.clamp_minutes > self.open_limit
        return (late and not self.late_assumed) or (dry and not self.dry_assumed)


@dataclass(frozen=True, slots=True)
class VeneerPlan:
    """Everything of leaves, billets, panels and pressings. `match` by front; `nests` the strips on their
    leaves, `unfit` those that fit on none."""

    leaves: tuple[LeafCount, ...]
    billets: tuple[BilletYield, ...]
    usable_width: Figure
    plans: tuple[BilletPlan, ...]
    compared: tuple[Comparison, ...]
    seats: tuple[Seat, ...]
    missing: tuple[FaceWanted, ...]
    match: Mapping[str, Match]
    nests: tuple[tuple[LeafUse, StripLeaf], ...]
    unfit: tuple[str, ...]
    panels: Mapping[str, PanelMade]
    pressings: tuple[PressingPlan, ...]
    checks: tuple[Check, ...]
