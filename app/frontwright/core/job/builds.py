"""Reusable entries of a shop, copied into every job that uses them: builds, hinges, machines, woods, allowances."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from frontwright.core.job.amount import Amount
from frontwright.core.job.surroundings import InsideEdges
from frontwright.core.job.trim import MadeOf
from frontwright.core.lengths import Typed

DoorKind = Literal["dowelled", "stub tenon", "cope and stick", "mitred", "slab"]
PanelKind = Literal["veneered", "sheet", "solid"]
CoreGrain = Literal["across", "along", "none"]
MachineKind = Literal["band saw", "table saw"]


@dataclass(frozen=True, slots=True)
class DoorBuild:
    """How a front is made. None is assumed (the shop's usual figure for the job's unit) until it is chosen.

    `thickness_is`: the milled stock as measured. `panel`: a panel build's id. `mid_rail_at`: height of the centre of
    the lowest mid rail above the front's bottom edge; without it fields are equal (F32).
    """

    id: str
    name: str = ""
    kind: DoorKind = "stub tenon"
    thickness: Typed | None = None
    thickness_is: Typed | None = None
    stile: Typed | None = None
    top_rail: Typed | None = None
    bottom_rail: Typed | None = None
    mid_rail: Typed | None = None
    mid_rails: int = 0
    mid_rail_at: Typed | None = None
    drawer_rail: Typed | None = None
    groove: Typed | None = None
    stick: Typed | None = None
    rabbet_width: Typed | None = None
    clearance: Typed | None = None
    tongue: Typed | None = None
    panel: str | None = None
    dowel: Typed | None = None
    dowel_depth: Typed | None = None
    dowel_outer: Typed | None = None
    dowel_wall: Typed | None = None
    species: str | None = None


@dataclass(frozen=True, slots=True)
class PanelBuild:
    """A panel: veneered on a core (F37), bought veneered sheet, or solid. `*_is` are measured thicknesses.

    `core_grain`: how the grain of the core's outer plies runs to the leaves; none of a fibre board.
    """

    id: str
    name: str = ""
    kind: PanelKind = "veneered"
    core: Typed | None = None
    core_is: Typed | None = None
    sheet: Typed | None = None
    sheet_is: Typed | None = None
    solid: Typed | None = None
    slice: Typed | None = None
    glue_loss: Typed | None = None
    show_loss: Typed | None = None
    least_left: Typed | None = None
    species: str | None = None
    core_grain: CoreGrain = "across"


@dataclass(frozen=True, slots=True)
class HingeType:
    """A hinge under this shop's own name for it: what it covers, how it is bored, how many a door takes (F25-F27).

    `cover`: the one that it gives, or `cover_least` to `cover_most` with all of its adjustment, or its `constant` with
    a plate. `edge_least` to `edge_most`: how far its cup may stand from the edge. `adjust*`: each way (F74).
    `two_to` ... `five_to` are the greatest door heights for so many hinges; `*_mass` the greatest masses (kg or lb).
    `opens`: how far it opens at all, in degrees. `plate_width`: of its plate, `screw`: how deep its screws go (F14).
    `box`: the kind of box that it is made for. `most_thickness`: of a door. `needs_depth`: behind the frame, for arm
    and soft close. `plate_long`: what its plate takes of the frame's height, `stands_in`: how far hinge and plate stand
    into the opening. `screws_apart`, `screws_behind`: the cup's two screws, from each other and behind its centre;
    `screw_hole`, `screw_hole_deep`: their holes. `wide`: the width of a door from which it takes one hinge more.
    """

    id: str
    name: str = ""
    cover: Typed | None = None
    adjust: Typed | None = None
    constant: Typed | None = None
    plate: Typed | None = None
    cup: Typed | None = None
    cup_depth: Typed | None = None
    edge_distance: Typed | None = None
    wall: Typed | None = None
    floor: Typed | None = None
    end_distance: Typed | None = None
    two_to: Typed | None = None
    three_to: Typed | None = None
    four_to: Typed | None = None
    five_to: Typed | None = None
    two_mass: Amount | None = None
    three_mass: Amount | None = None
    four_mass: Amount | None = None
    five_mass: Amount | None = None
    opens: Amount | None = None
    plate_width: Typed | None = None
    screw: Typed | None = None
    cover_least: Typed | None = None
    cover_most: Typed | None = None
    edge_least: Typed | None = None
    edge_most: Typed | None = None
    adjust_height: Typed | None = None
    adjust_depth: Typed | None = None
    box: Literal["face frame", "frameless"] | None = None
    most_thickness: Typed | None = None
    needs_depth: Typed | None = None
    plate_long: Typed | None = None
    stands_in: Typed | None = None
    screws_apart: Typed | None = None
    screws_behind: Typed | None = None
    screw_hole: Typed | None = None
    screw_hole_deep: Typed | None = None
    wide: Typed | None = None


@dataclass(frozen=True, slots=True)
class Plate:
    """A plate for one kind of hinge, or for any: its height (p of F26), and how many are on hand; None: not counted."""

    id: str
    hinge: str | None = None
    name: str = ""
    height: Typed | None = None
    count: int | None = None


@dataclass(frozen=True, slots=True)
class Machine:
    """A saw for leaves, its losses each by its own name (F53, F54). `chosen`: planned with; the others are compared.

    `blade`: the one mounted; kerf, wander and lean are the saw's own as long as its blade says nothing of them.
    `out_of_square`: how far the blade leans, in degrees.
    """

    id: str
    kind: MachineKind = "band saw"
    name: str = ""
    kerf: Typed | None = None
    wander: Typed | None = None
    rejoint: Typed | None = None
    keep_back: Typed | None = None
    blade_height: Typed | None = None
    overlap: Typed | None = None
    most_height: Typed | None = None
    blade: str | None = None
    out_of_square: Amount | None = None
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class Blade:
    """A blade of one saw, with what it takes away by itself: its kerf, how far it wanders and leans (F53 to F55)."""

    id: str
    machine: str
    name: str = ""
    kerf: Typed | None = None
    wander: Typed | None = None
    out_of_square: Amount | None = None


@dataclass(frozen=True, slots=True)
class Species:
    """A wood: movement per 1 % of moisture, flat and quarter sawn (F35); density in lb/ft3 or kg/m3 by the unit."""

    id: str
    name: str = ""
    flat: Amount | None = None
    quarter: Amount | None = None
    density: Amount | None = None
    source: str = ""


@dataclass(frozen=True, slots=True)
class Allowances:
    """What the shop adds to finished sizes (F51, F56, F57), and its kerfs; one row."""

    id: str = "allowances"
    solid_length: Typed | None = None
    solid_width: Typed | None = None
    plane_rough: Typed | None = None
    panel_edge: Typed | None = None
    leaf_over_panel: Typed | None = None
    leaf_edge: Typed | None = None
    strip_length: Typed | None = None
    strip_width: Typed | None = None
    strip_leaf: Typed | None = None
    strip_show_loss: Typed | None = None
    skin_scribe: Typed | None = None
    billet_over_leaf: Typed | None = None
    billet_step: Typed | None = None
    row_end: Typed | None = None
    rip_kerf: Typed | None = None
    spare_rest: Typed | None = None


@dataclass(frozen=True, slots=True)
class Limits:
    """From where on something is said; None is the usual limit. One row.

    `moisture_most`: the wettest wood that is used, in per cent. `one_lot`: over what show panels of bought sheet and
    show leaves must come from one lot (`no`: wherever they come from). `glue_up`: solid parts wider than the boards,
    glued up from several edge to edge (panels where nobody said).
    """

    id: str = "limits"
    reading_error: Typed | None = None
    spread_cover: Typed | None = None
    spread_inset: Typed | None = None
    lean_cover: Typed | None = None
    lean_inset: Typed | None = None
    wall_clearance: Typed | None = None
    moisture_most: Amount | None = None
    one_lot: Literal["job", "run", "front", "no"] | None = None
    glue_up: Literal["panels", "all", "no"] | None = None


@dataclass(frozen=True, slots=True)
class Facing:
    """What of a run is covered, and with what (id: the run's; F41, F42).

    `faces`: its frame faces, with strips `made_of` sawn leaves, bought veneer or solid wood, so thick; `through`: what
    runs through where stile and rail meet. `inside_edges`: the edges of its openings too (at the sides, or at the rails
    as well), and how thick; `squared`: these are packed out until a leaning opening is upright. Runs of one `match` are
    cut from the same leaves. `adhesive`: what all of it is stuck on with.
    """

    id: str
    faces: bool = False
    thickness: Typed | None = None
    inside_edges: InsideEdges = "none"
    inside_thickness: Typed | None = None
    made_of: MadeOf = "sawn"
    through: Literal["stiles", "rails"] = "stiles"
    squared: bool = False
    match: str = ""
    adhesive: str | None = None
